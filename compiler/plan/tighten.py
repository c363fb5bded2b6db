"""A sharper bound: prices for sheets that hold no more of a kind than is asked for.

Where sizes occur once or twice, unlimited patterns are worth too much. Prices come from a relaxed
master of whole sheets that are capped at demand, and the dearest pattern is counted for the kinds
it overdraws most. Prices move only part of the way to the master's duals, which early on are wild.
"""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from typing import Final

import highspy
import numpy as np

from casewright.compiler.plan.bounds import Bound, stocks_of
from casewright.compiler.plan.counted import (
    Counters,
    counted_pattern,
    counted_work,
    make_counters,
    pairs_of,
    run_counted,
)
from casewright.compiler.plan.layout import SheetLayout, cap_at_demand, counts_of
from casewright.compiler.plan.master import Model
from casewright.compiler.plan.relax import SCALE, Engines, Relaxed, price_bound, priced_cost
from casewright.compiler.plan.staged import run_staged, staged_layout, staged_work
from casewright.compiler.plan.task import Task
from casewright.compiler.plan.work import Work, columns_work

STEP: Final = 0.3
"""How far prices move from the best known ones to the master's duals."""

MOST_PAIRS: Final = 1500
"""Pairs of states above which a run needs too much memory and time of its own."""

STAGES: Final = 3
"""The stages of the shop's own class of plan, before the last cut that only trims."""

STALL: Final = 30
"""Evaluations without a better bound after which the search gives up."""


def tighten(
    task: Task,
    engines: Engines,
    relaxed: Relaxed,
    layouts: Sequence[SheetLayout],
    target: int,
    work: Work,
    *,
    staged: bool,
    runs: int,
) -> tuple[Bound, list[SheetLayout]]:
    """The best bound with counted kinds found within the work, and the sheets of the shop's class
    met on the way; it stops at `target`.

    It holds for through cuts in any number of stages, or (`staged`) for plans of three stages.
    One run gets at most the part of the work that is left to each of `runs`.
    """
    master = _PricedMaster(task, layouts)
    centre = list(relaxed.prices)
    dearest = _staged if staged else _any_stages
    each = max(1, _run_work(engines, 1000, staged=staged) // 1000)
    most_pairs = min(MOST_PAIRS, max(1, work.left // 2 // runs // each))
    overdrawn = [0.0] * len(task.kinds)
    best, best_cost, stalled = Bound(0, "prices"), Fraction(0), 0
    met: list[SheetLayout] = []
    step = 0.0
    while work.left > 0 and stalled < STALL:
        value, ends = master.solve()
        work.take(columns_work(len(task.kinds)))
        if value <= target - 1 + 1e-6:
            break
        prices = [round(c + step * (end - c)) for c, end in zip(centre, ends, strict=True)]
        step = STEP
        for pricer in engines.pricers:
            work.take(pricer.work)
            for priced in pricer.price(prices).layouts(0):
                if master.offer(priced, ends):
                    met.append(priced)
        caps = _choose_caps(task, overdrawn, most_pairs)
        counters = make_counters(caps)
        overdrawn = [0.5 * score for score in overdrawn]
        values: dict[int, int] = {}
        for stock, worth, counts, layout in dearest(task, engines, counters, prices):
            met += [layout] if layout is not None else []
            values[stock] = max(worth, values.get(stock, 0))
            capped = [min(n, d) for n, d in zip(counts, task.demands, strict=True)]
            master.offer_counts(stock, capped, ends)
            for kind, (n, d) in enumerate(zip(counts, task.demands, strict=True)):
                if n > d or kind in caps:
                    overdrawn[kind] += (max(n - d, 0) + (n == d) * 0.5) * prices[kind] / SCALE
        work.take(2 * _run_work(engines, counters.pairs, staged=staged))
        worths = [values[sort.stock] for sort in stocks_of(task)]
        cost = priced_cost(task, prices, worths)
        stalled += 1
        if cost > best_cost:
            best_cost, centre, stalled = cost, prices, 0
            bound = price_bound(task, prices, worths, caps, STAGES if staged else 0)
            best = max(best, bound, key=lambda b: b.cost)
            if best.cost >= target:
                break
    return best, met


def _run_work(engines: Engines, pairs: int, *, staged: bool) -> int:
    """What the dearest sheets of every stock take, so many pairs of states counted."""
    if staged:
        return sum(staged_work(pricer, pairs) for pricer in engines.pricers)
    return sum(counted_work(programme, pairs) for programme in engines.programmes)


Dearest = Iterator[tuple[int, int, list[int], SheetLayout | None]]
"""The stock, the worth of its dearest pattern, how many of each kind that holds, and the sheet
where it is one of the shop's class."""


def _any_stages(task: Task, engines: Engines, counters: Counters, prices: Sequence[int]) -> Dearest:
    for programme, sort in zip(engines.programmes, stocks_of(task), strict=True):
        worths = run_counted(programme, counters, prices)
        yield sort.stock, worths.value, counted_pattern(worths, len(task.kinds)), None


def _staged(task: Task, engines: Engines, counters: Counters, prices: Sequence[int]) -> Dearest:
    for pricer in engines.pricers:
        worths = run_staged(pricer, counters, prices)
        layout = staged_layout(worths)
        stock = task.sorts[pricer.sort].stock
        yield stock, worths.value, counts_of([layout], len(task.kinds)), layout


class _PricedMaster:
    """The relaxed master of whole sheets, to which more are added as they are found."""

    def __init__(self, task: Task, layouts: Iterable[SheetLayout]) -> None:
        self.task = task
        self.dearest = max(sort.cost for sort in task.sorts)
        model = Model()
        self.pieces = [model.row(demand, highspy.kHighsInf) for demand in task.demands]
        self.limited = {
            sort.stock: model.row(-highspy.kHighsInf, sort.copies)
            for sort in stocks_of(task)
            if sort.copies is not None
        }
        # A piece bought alone at many times a sheet's cost keeps the programme solvable.
        for row in self.pieces:
            model.column(10.0 * self.dearest, highspy.kHighsInf, {row: 1.0})
        self.solver = model.solver(whole=False)
        self.known: set[tuple[int, tuple[int, ...]]] = set()
        self.limits: dict[int, int] = {sort.stock: -1 for sort in task.sorts}
        even = [1] * len(task.kinds)
        for layout in layouts:
            self.offer(layout, even)

    def solve(self) -> tuple[float, list[int]]:
        """The value and the pieces' duals as whole-number prices."""
        self.solver.run()
        duals = self.solver.getSolution().row_dual
        rows = self.limited
        self.limits = {
            sort.stock: int(
                (sort.cost - (duals[rows[sort.stock]] if sort.stock in rows else 0.0))
                / self.dearest
                * SCALE
            )
            + 2
            for sort in self.task.sorts
        }
        prices = [int(max(0.0, duals[row]) / self.dearest * SCALE) for row in self.pieces]
        return float(self.solver.getInfo().objective_function_value), prices

    def offer(self, layout: SheetLayout, prices: Sequence[int]) -> bool:
        """Takes the sheet, cut down to the demand, where it helps at these prices."""
        capped = cap_at_demand([layout], self.task.demands)
        counts = counts_of(capped, len(self.task.kinds))
        sort = self.task.sorts[layout.sort]
        return self.offer_counts(sort.stock, counts, prices)

    def offer_counts(self, stock: int, counts: Sequence[int], prices: Sequence[int]) -> bool:
        worth = sum(price * count for price, count in zip(prices, counts, strict=True))
        if worth <= self.limits[stock] or (stock, tuple(counts)) in self.known:
            return False
        self.known.add((stock, tuple(counts)))
        rows = [row for row, n in zip(self.pieces, counts, strict=True) if n]
        values = [float(n) for n in counts if n]
        if stock in self.limited:
            rows.append(self.limited[stock])
            values.append(1.0)
        cost = next(sort.cost for sort in self.task.sorts if sort.stock == stock)
        self.solver.addCol(
            float(cost),
            0.0,
            float("inf"),
            len(rows),
            np.array(rows, dtype=np.int32),
            np.array(values, dtype=np.float64),
        )
        return True


def _choose_caps(task: Task, overdrawn: Sequence[float], most_pairs: int) -> dict[int, int]:
    """The kinds most overdrawn of late, as many as the pairs allow."""
    caps: dict[int, int] = {}
    for kind in sorted(range(len(overdrawn)), key=lambda k: (-overdrawn[k], k)):
        if overdrawn[kind] <= 0.01:
            break
        if pairs_of([*caps.values(), task.demands[kind]]) <= most_pairs:
            caps[kind] = task.demands[kind]
    return caps
