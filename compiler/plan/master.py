"""The integer master: whole strips and whole sheets of strip widths, chosen together.

Strips hold the pieces, patterns are sheets parted into widths, and a strip lies in any slot at
least as wide. One strip serves in many sheets, which makes whole-number plans far easier to find
than with whole sheets as columns.
"""

from collections import Counter
from collections.abc import Iterable, Sequence

import highspy
import numpy as np
from attrs import frozen
from highspy import cb

from casewright.compiler.plan.bounds import stocks_of
from casewright.compiler.plan.greedy import cap_strip
from casewright.compiler.plan.layout import SheetLayout, Strip, cap_at_demand
from casewright.compiler.plan.relax import quiet_solver
from casewright.compiler.plan.task import Task, items_of
from casewright.compiler.plan.work import Work, look_work

Widths = tuple[int, ...]


@frozen
class Pool:
    """What the master may choose from: strips and width patterns, each with its sort."""

    strips: tuple[tuple[int, Strip], ...]
    patterns: tuple[tuple[int, Widths], ...]


class Model:
    """A programme written column by column; HiGHS solves it as it is or with whole numbers."""

    def __init__(self) -> None:
        self.lower: list[float] = []
        self.upper: list[float] = []
        self.columns: list[tuple[float, float, dict[int, float]]] = []

    def row(self, lower: float, upper: float) -> int:
        """Adds a row and gives its index."""
        self.lower.append(lower)
        self.upper.append(upper)
        return len(self.lower) - 1

    def column(self, cost: float, most: float, entries: dict[int, float]) -> None:
        """Adds a column from 0 to `most`."""
        self.columns.append((cost, most, entries))

    def solver(self, whole: bool) -> highspy.Highs:
        """A solver that holds the programme, its columns whole numbers or not."""
        model = highspy.HighsLp()
        model.num_col_ = len(self.columns)
        model.num_row_ = len(self.lower)
        model.col_cost_ = np.array([cost for cost, _, _ in self.columns], dtype=np.float64)
        model.col_lower_ = np.zeros(len(self.columns))
        model.col_upper_ = np.array([most for _, most, _ in self.columns], dtype=np.float64)
        model.row_lower_ = np.array(self.lower, dtype=np.float64)
        model.row_upper_ = np.array(self.upper, dtype=np.float64)
        starts, rows, values = [0], [], []
        for _, _, entries in self.columns:
            rows += list(entries)
            values += list(entries.values())
            starts.append(len(rows))
        model.a_matrix_.format_ = highspy.MatrixFormat.kColwise
        model.a_matrix_.start_ = np.array(starts, dtype=np.int32)
        model.a_matrix_.index_ = np.array(rows, dtype=np.int32)
        model.a_matrix_.value_ = np.array(values, dtype=np.float64)
        if whole:
            model.integrality_ = [highspy.HighsVarType.kInteger] * len(self.columns)
        solver = quiet_solver()
        solver.passModel(model)
        return solver

    def solve(
        self, nodes: int, target: float | None, work: Work, start: Sequence[float] = ()
    ) -> list[int]:
        """The best whole-number point found within the nodes and the work, or an empty list.

        It stops at a value of `target`; `start` is a point known to satisfy the programme.
        """
        solver = self.solver(whole=True)
        solver.setOptionValue("mip_max_nodes", nodes)
        solver.setOptionValue("mip_rel_gap", 0.0)
        solver.setOptionValue("mip_abs_gap", 0.999)
        # Nodes alone don't bound the work: most of it is done at the first, and goes with how often
        # the solver looks at its limits.
        solver.setOptionValue("mip_pscost_minreliable", 1)
        solver.setOptionValue("mip_pool_soft_limit", 500)
        if target is not None:
            solver.setOptionValue("objective_target", target)
        if start:
            known = highspy.HighsSolution()
            known.col_value = list(start)
            solver.setSolution(known)
        each = look_work(len(self.lower), len(self.columns))

        def looked(
            _: cb.HighsCallbackType,
            __: str,
            ___: cb.HighsCallbackOutput,
            answer: cb.HighsCallbackInput,
            ____: object,
        ) -> None:
            work.take(each)
            answer.user_interrupt = work.left <= 0

        solver.setCallback(looked, None)
        solver.startCallback(cb.HighsCallbackType.kCallbackMipInterrupt)
        solver.run()
        if solver.getInfo().primal_solution_status != 2:
            return []
        return [round(value) for value in solver.getSolution().col_value]


@frozen
class Limits:
    """How much a solve may do, in branch-and-bound nodes and columns; never in seconds."""

    nodes: int
    columns: int


@frozen(eq=False)
class MasterModel:
    """The master of a pool: its programme and which row stands for what.

    Columns are the pool's strips, then its patterns, then the flows of slots.
    """

    model: Model
    pieces: tuple[int, ...]
    slots: dict[tuple[int, int], int]
    limited: dict[int, int]


def make_pool(
    task: Task,
    demands: Sequence[int],
    layouts: Iterable[SheetLayout],
    strips: Iterable[tuple[int, Strip]],
) -> Pool:
    """Every different strip cut down to the demand, and every set of widths that lay on a sheet."""
    items = [[item for item in items_of(task, sort) if demands[item.kind]] for sort in task.sorts]
    layouts = list(layouts)
    lying = [(layout.sort, strip) for layout in layouts for strip in layout.strips]
    found: dict[tuple[int, Strip], None] = {}
    patterns: dict[tuple[int, Widths], None] = {}
    for sort, strip in dict.fromkeys([*lying, *strips]):
        capped = cap_strip(task.sorts[sort].length, strip, items[sort], demands)
        if capped is not None:
            found[(sort, capped)] = None
    for layout in layouts:
        widths = sorted((strip.y for strip in layout.strips), reverse=True)
        patterns[(layout.sort, tuple(widths))] = None
    return Pool(tuple(found), tuple(patterns))


def build_master(
    task: Task, demands: Sequence[int], pool: Pool, used: Sequence[int] = ()
) -> MasterModel:
    """The master of a pool; `used` counts the copies of each stock that are taken already."""
    model = Model()
    pieces = tuple(model.row(demand, highspy.kHighsInf) for demand in demands)
    slots: dict[tuple[int, int], int] = {}
    for index in range(len(task.sorts)):
        widths = {strip.y for s, strip in pool.strips if s == index}
        widths |= {w for s, pattern in pool.patterns if s == index for w in pattern}
        for width in sorted(widths):
            slots[(index, width)] = model.row(0, highspy.kHighsInf)
    limited = {
        sort.stock: model.row(-highspy.kHighsInf, sort.copies - (used[sort.stock] if used else 0))
        for sort in stocks_of(task)
        if sort.copies is not None
    }
    for index, strip in pool.strips:
        counts = strip.counts
        entries = {pieces[kind]: float(count) for kind, count in counts.items()}
        entries[slots[(index, strip.y)]] = -1.0
        model.column(0.0, max(-(-demands[k] // n) for k, n in counts.items()), entries)
    for index, pattern in pool.patterns:
        sort = task.sorts[index]
        entries = {slots[(index, w)]: float(n) for w, n in Counter(pattern).items()}
        if sort.stock in limited:
            entries[limited[sort.stock]] = 1.0
        model.column(sort.cost, sum(demands), entries)
    # A slot may serve a narrower strip: it flows down to the next narrower width.
    for (index, narrow), (other, wide) in zip(slots, list(slots)[1:], strict=False):
        if index == other:
            flow = {slots[(index, wide)]: -1.0, slots[(index, narrow)]: 1.0}
            model.column(0.0, sum(demands), flow)
    return MasterModel(model, pieces, slots, limited)


def solve_master(
    task: Task,
    demands: Sequence[int],
    pool: Pool,
    limits: Limits,
    target: int,
    work: Work,
    used: Sequence[int] = (),
) -> list[SheetLayout] | None:
    """Sheets from the pool that hold the demand at the least cost found, or None."""
    pool = promising(pool, build_master(task, demands, pool, used), limits.columns)
    master = build_master(task, demands, pool, used)
    point = master.model.solve(limits.nodes, target + 0.5, work)
    return read_sheets(demands, pool, point) if point else None


def choose_sheets(
    task: Task, layouts: Iterable[SheetLayout], limits: Limits, target: int, work: Work
) -> list[SheetLayout] | None:
    """The cheapest choice found of whole sheets, each cut down to the demand, that hold all that
    is asked for; None where none is found. It stops at `target`."""
    whole: dict[SheetLayout, None] = {}
    for layout in layouts:
        whole.update(dict.fromkeys(cap_at_demand([layout], task.demands)))
    sheets = list(whole)
    if len(sheets) > limits.columns:
        solver = _sheet_model(task, sheets).solver(whole=False)
        solver.run()
        reduced = list(solver.getSolution().col_dual)
        ranked = sorted(range(len(sheets)), key=lambda c: (round(reduced[c], 9), c))
        sheets = [sheets[c] for c in sorted(ranked[: limits.columns])]
    point = _sheet_model(task, sheets).solve(limits.nodes, target + 0.5, work)
    chosen = [layout for layout, n in zip(sheets, point, strict=False) for _ in range(n)]
    return cap_at_demand(chosen, task.demands) if point else None


def _sheet_model(task: Task, sheets: Sequence[SheetLayout]) -> Model:
    """A column a whole sheet, a row a kind and a limited stock."""
    model = Model()
    pieces = [model.row(demand, highspy.kHighsInf) for demand in task.demands]
    limited = {
        sort.stock: model.row(-highspy.kHighsInf, sort.copies)
        for sort in stocks_of(task)
        if sort.copies is not None
    }
    for layout in sheets:
        sort = task.sorts[layout.sort]
        entries = {pieces[kind]: float(n) for kind, n in layout.counts.items()}
        if sort.stock in limited:
            entries[limited[sort.stock]] = 1.0
        model.column(sort.cost, sum(task.demands), entries)
    return model


def fill_sheets(
    task: Task, demands: Sequence[int], pool: Pool, limits: Limits, sheets: int, work: Work
) -> list[SheetLayout] | None:
    """So many sheets that hold as much of the demand's area as is found, or None.

    The value counts hundredths of a sheet, so that the solver's gap is one of them.
    """
    pool = promising(pool, build_master(task, demands, pool), limits.columns)
    master = build_master(task, demands, pool)
    model = master.model
    area = task.sorts[0].length * task.sorts[0].width
    for row, demand in zip(master.pieces, demands, strict=True):
        model.lower[row], model.upper[row] = 0.0, float(demand)
    count = model.row(0, sheets)
    for column, (_, strip) in enumerate(pool.strips):
        _, most, entries = model.columns[column]
        filled = sum(
            n * task.kinds[kind].length * task.kinds[kind].width for kind, n in strip.counts.items()
        )
        model.columns[column] = (-100 * filled / area, most, entries)
    for column in range(len(pool.strips), len(pool.strips) + len(pool.patterns)):
        _, most, entries = model.columns[column]
        model.columns[column] = (0.0, most, {**entries, count: 1.0})
    whole = sum(n * k.length * k.width for n, k in zip(demands, task.kinds, strict=True))
    point = model.solve(limits.nodes, -100 * whole / area + 0.001, work)
    return read_sheets(demands, pool, point) if point else None


def promising(pool: Pool, master: MasterModel, most: int) -> Pool:
    """The pool's columns of least reduced cost in the relaxed master, in their order."""
    if len(pool.strips) + len(pool.patterns) <= most:
        return pool
    solver = master.model.solver(whole=False)
    solver.run()
    reduced = list(solver.getSolution().col_dual)[: len(pool.strips) + len(pool.patterns)]
    ranked = sorted(range(len(reduced)), key=lambda c: (round(reduced[c], 9), c))[:most]
    kept = set(ranked)
    return Pool(
        tuple(strip for c, strip in enumerate(pool.strips) if c in kept),
        tuple(p for c, p in enumerate(pool.patterns, len(pool.strips)) if c in kept),
    )


def read_sheets(demands: Sequence[int], pool: Pool, point: Sequence[int]) -> list[SheetLayout]:
    """The sheets of a whole-number point: widest strips into widest slots."""
    strips: dict[int, list[Strip]] = {}
    for (sort, strip), count in zip(pool.strips, point, strict=False):
        strips.setdefault(sort, []).extend([strip] * count)
    for some in strips.values():
        some.sort(key=lambda s: -s.y)
    sheets: list[tuple[int, list[Strip], Widths]] = [
        (sort, [], pattern)
        for (sort, pattern), count in zip(pool.patterns, point[len(pool.strips) :], strict=False)
        for _ in range(count)
    ]
    open_slots = sorted(
        ((width, index) for index, (_, _, pattern) in enumerate(sheets) for width in pattern),
        key=lambda slot: (-slot[0], slot[1]),
    )
    for width, index in open_slots:
        sort, held, _ = sheets[index]
        waiting = strips.get(sort, [])
        if waiting and waiting[0].y <= width:
            held.append(waiting.pop(0))
    layouts = [SheetLayout(sort, tuple(held)) for sort, held, _ in sheets if held]
    return cap_at_demand(layouts, demands)
