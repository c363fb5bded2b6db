"""Prices for the pieces: the linear relaxation of the plan, by column generation.

Its duals, made whole numbers, are prices; with the dearest pattern at these prices they bound
the cost of every plan. Patterns of more than three stages take part as columns without a layout, so
that the prices suit a bound over all through cuts.
"""

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from typing import Final

import highspy
import numpy as np
from attrs import frozen

from casewright.compiler.plan.bounds import Bound, reachable_cost, stocks_of
from casewright.compiler.plan.columns import Pricer, make_pricer
from casewright.compiler.plan.guillotine import (
    Board,
    Programme,
    Worths,
    make_programme,
    pattern_counts,
)
from casewright.compiler.plan.layout import SheetLayout, counts_of
from casewright.compiler.plan.points import board_points, rest_points
from casewright.compiler.plan.task import Task, items_of
from casewright.compiler.plan.work import Work, columns_work

SCALE: Final = 10_000_000
"""Prices are counted in this part of the dearest stock's cost."""


@frozen(eq=False)
class Relaxed:
    """The best bound by prices, and every three-stage sheet met on the way."""

    bound: Bound
    layouts: tuple[SheetLayout, ...]
    value: float
    prices: tuple[int, ...]


@frozen(eq=False)
class Engines:
    """Tables that serve every pricing of a task: one pricer a sort, one programme a stock."""

    pricers: tuple[Pricer, ...]
    programmes: tuple[Programme, ...]


def make_engines(task: Task) -> Engines:
    """The engines of a task."""
    pricers = tuple(make_pricer(task, index) for index in range(len(task.sorts)))
    return Engines(pricers, tuple(make_programme(board) for board in boards(task)))


def engines_work(task: Task) -> int:
    """At most how many thousands of table cells one pricing looks at, before tables are built."""
    total = 0
    for sort in task.sorts:
        items = items_of(task, sort)
        along = len(rest_points(sort.length, (item.x for item in items)))
        across = len(board_points(sort.width, (item.y for item in items)))
        total += 1 + along * across * len({item.x for item in items}) // 1000
    return total


def boards(task: Task) -> list[Board]:
    """Each stock as it lies, whatever the first cut, with every way the pieces may lie on it."""
    found: list[Board] = []
    for sort in stocks_of(task):
        length, width = sort.length, sort.width
        if sort.first == "crosscut":
            length, width = width, length
        ways = [
            (x, y, index)
            for index, kind in enumerate(task.kinds)
            for x, y in (
                [(kind.length, kind.width), (kind.width, kind.length)]
                if kind.turn
                else [(kind.length, kind.width)]
            )
            if x <= length and y <= width
        ]
        lengths, widths, kinds = zip(*ways, strict=True) if ways else ((), (), ())
        found.append(Board(length, width, lengths, widths, kinds))
    return found


def priced_cost(task: Task, prices: Sequence[int], values: Sequence[int]) -> Fraction:
    """What the pieces cost at least, by their prices and the dearest pattern of each stock.

    With a worth of `rate` a unit of cost, a stock without end must give no more than it costs;
    one of few copies may, and what it gives beyond is taken off once a copy.
    """
    stocks = stocks_of(task)
    worth = sum(p * k.demand for p, k in zip(prices, task.kinds, strict=True))
    ratios = [Fraction(v, s.cost) for v, s in zip(values, stocks, strict=True)]
    endless = [r for r, s in zip(ratios, stocks, strict=True) if s.copies is None]
    floor = max(endless, default=Fraction(0))
    best = Fraction(0)
    for rate in {r for r in [*ratios, floor] if r >= floor and r > 0}:
        surplus = sum(
            (s.copies * max(Fraction(0), v - rate * s.cost))
            for v, s in zip(values, stocks, strict=True)
            if s.copies is not None
        )
        best = max(best, (worth - surplus) / rate)
    return best


def price_bound(
    task: Task,
    prices: Sequence[int],
    values: Sequence[int],
    counted: Iterable[int] = (),
    stages: int = 0,
) -> Bound:
    """The bound that whole-number prices give, rounded up to a cost that sheets can have."""
    return Bound(
        reachable_cost(task, priced_cost(task, prices, values)),
        "prices",
        prices=tuple(prices),
        values=tuple(values),
        counted=tuple(sorted(counted)),
        stages=stages,
    )


def relax(
    task: Task, engines: Engines, start: Sequence[SheetLayout], target: int, work: Work
) -> Relaxed:
    """Generates columns until none is missing, the bound meets `target`, or the work is done."""
    master = Master(task)
    for layout in dict.fromkeys(start):
        master.add_layout(layout)
    best = Bound(0, "prices")
    proof_due = 0
    while work.left > 0:
        value, duals, stock_duals = master.solve()
        work.take(columns_work(len(task.kinds)))
        prices = [int(max(0.0, dual) * SCALE) for dual in duals]
        limits = master.limits_of(stock_duals)
        fresh: list[SheetLayout] = []
        shortfall = 1.0
        for pricer in engines.pricers:
            limit = limits[task.sorts[pricer.sort].stock]
            priced = pricer.price(prices)
            work.take(pricer.work)
            shortfall = max(shortfall, priced.value / max(limit, 1))
            fresh += priced.layouts(limit)
        proof_due -= 1
        near = value * master.dearest / shortfall > target - 1 + 1e-6
        if not fresh or (near and proof_due <= 0):
            proof_due = 10
            dear = [programme.run(prices) for programme in engines.programmes]
            work.take(sum(programme.work for programme in engines.programmes))
            bound = price_bound(task, prices, [worths.value for worths in dear])
            best = max(best, bound, key=lambda b: b.cost)
            # With no column missing, the value less a rounding error bounds what prices can show.
            highest = target if fresh else min(target, _whole_cost(task, value * master.dearest))
            if best.cost >= highest:
                break
            if not fresh and not master.add_patterns(dear, limits):
                break
        for layout in fresh:
            master.add_layout(layout)
    value, duals, _ = master.solve()
    final = tuple(int(max(0.0, dual) * SCALE) for dual in duals)
    return Relaxed(best, tuple(master.layouts()), value * master.dearest, final)


def _whole_cost(task: Task, value: float) -> int:
    return reachable_cost(task, Fraction(value) - Fraction(1, 10**6))


class Master:
    """The linear programme in HiGHS: a row a kind, a row a limited stock, a column a sheet."""

    def __init__(self, task: Task) -> None:
        self.task = task
        self.dearest = max(sort.cost for sort in task.sorts)
        self.columns: list[SheetLayout | None] = []
        self.solver = quiet_solver()
        for kind in task.kinds:
            self.solver.addRow(kind.demand, highspy.kHighsInf, 0, [], [])
        self.limits: dict[int, int] = {}
        for sort in stocks_of(task):
            if sort.copies is not None:
                self.limits[sort.stock] = len(task.kinds) + len(self.limits)
                self.solver.addRow(-highspy.kHighsInf, sort.copies, 0, [], [])
        # A piece bought alone at many times a sheet's cost keeps the programme solvable.
        for row in range(len(task.kinds)):
            self._column(10.0, [row], [1.0], None)

    def add_layout(self, layout: SheetLayout) -> None:
        counts = counts_of([layout], len(self.task.kinds))
        self.add(self.task.sorts[layout.sort].stock, counts, layout)

    def add(self, stock: int, counts: Sequence[int], layout: SheetLayout | None) -> None:
        rows = [row for row, count in enumerate(counts) if count]
        values = [float(counts[row]) for row in rows]
        if stock in self.limits:
            rows.append(self.limits[stock])
            values.append(1.0)
        cost = next(s.cost for s in self.task.sorts if s.stock == stock)
        self._column(cost / self.dearest, rows, values, layout)

    def limits_of(self, stock_duals: Mapping[int, float]) -> dict[int, int]:
        """What a sheet of each stock must be worth more than, to be a column that helps."""
        return {
            sort.stock: int((sort.cost / self.dearest - stock_duals[sort.stock]) * SCALE) + 2
            for sort in self.task.sorts
        }

    def worth(self, layout: SheetLayout, prices: Sequence[int]) -> int:
        """What the pieces on a sheet are worth."""
        counts = counts_of([layout], len(self.task.kinds))
        return sum(price * count for price, count in zip(prices, counts, strict=True))

    def add_patterns(self, dear: Sequence[Worths], limits: Mapping[int, int]) -> bool:
        """Adds the dearest patterns that are worth more than their sheet; False where none is."""
        added = False
        for worths, sort in zip(dear, stocks_of(self.task), strict=True):
            if worths.value > limits[sort.stock]:
                self.add(sort.stock, pattern_counts(worths, len(self.task.kinds)), None)
                added = True
        return added

    def _column(
        self, cost: float, rows: list[int], values: list[float], layout: SheetLayout | None
    ) -> None:
        self.solver.addCol(
            cost,
            0.0,
            highspy.kHighsInf,
            len(rows),
            np.array(rows, dtype=np.int32),
            np.array(values, dtype=np.float64),
        )
        self.columns.append(layout)

    def solve(self) -> tuple[float, list[float], dict[int, float]]:
        """The value, the duals of the kinds and those of the stocks."""
        self.solver.run()
        duals = list(self.solver.getSolution().row_dual)
        stocks = {sort.stock: 0.0 for sort in self.task.sorts}
        stocks |= {stock: duals[row] for stock, row in self.limits.items()}
        value = float(self.solver.getInfo().objective_function_value)
        return value, duals[: len(self.task.kinds)], stocks

    def layouts(self) -> list[SheetLayout]:
        return [layout for layout in self.columns if layout is not None]


class _QuietHighs(highspy.Highs):
    """HiGHS without its callbacks: to set them up prints a line on standard output."""

    def __init__(self) -> None:
        super(highspy.Highs, self).__init__()


def quiet_solver() -> highspy.Highs:
    """HiGHS without output, with one thread and a fixed seed."""
    solver = _QuietHighs()
    solver.setOptionValue("log_to_console", False)
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("random_seed", 0)
    return solver
