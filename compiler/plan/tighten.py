"""A sharper bound: prices for sheets that hold no more of a kind than is asked for.

Where sizes occur once or twice, unlimited patterns are worth too much. Prices come from the relaxed
master, whose strips are capped at demand, and the dearest pattern is counted for the kinds it
overdraws most. Prices move only part of the way to the master's duals, which early on are wild.
"""

from collections.abc import Sequence
from fractions import Fraction
from typing import Final

import numpy as np

from casewright.compiler.plan.bounds import Bound, stocks_of
from casewright.compiler.plan.counted import (
    counted_pattern,
    counted_work,
    make_counters,
    pairs_of,
    run_counted,
)
from casewright.compiler.plan.layout import SheetLayout, cap_at_demand, counts_of
from casewright.compiler.plan.master import Pool, build_master
from casewright.compiler.plan.relax import SCALE, Engines, Relaxed, price_bound, priced_cost
from casewright.compiler.plan.task import Task

STEP: Final = 0.3
"""How far prices move from the best known ones to the master's duals."""

MOST_PAIRS: Final = 1500
"""Pairs of states above which a run needs too much memory and time of its own."""

STALL: Final = 30
"""Evaluations without a better bound after which the search gives up."""


def tighten(
    task: Task, engines: Engines, relaxed: Relaxed, pool: Pool, target: int, work: int
) -> Bound:
    """The best bound with counted kinds found within the work; it stops at `target`.

    Work counts table cells, in thousands; one run gets a twentieth of it.
    """
    master = _PricedMaster(task, pool)
    centre = list(relaxed.prices)
    each = sum(counted_work(programme, 1) for programme in engines.programmes)
    most_pairs = min(MOST_PAIRS, max(1, work // 20 // each))
    overdrawn = [0.0] * len(task.kinds)
    best, best_cost, stalled = relaxed.bound, Fraction(0), 0
    step = 0.0
    while work > 0 and stalled < STALL:
        value, ends = master.solve()
        if value <= target - 1 + 1e-6:
            break
        prices = [round(c + step * (end - c)) for c, end in zip(centre, ends, strict=True)]
        step = STEP
        helped = False
        for pricer in engines.pricers:
            work -= pricer.work
            for layout in pricer.price(prices).layouts(0):
                helped |= master.offer(layout, ends)
        caps = _choose_caps(task, overdrawn, most_pairs)
        counters = make_counters(caps)
        overdrawn = [0.5 * score for score in overdrawn]
        values: list[int] = []
        for programme, sort in zip(engines.programmes, stocks_of(task), strict=True):
            worths = run_counted(programme, counters, prices)
            work -= counted_work(programme, counters.pairs)
            values.append(worths.value)
            counts = counted_pattern(worths, len(task.kinds))
            capped = [min(n, d) for n, d in zip(counts, task.demands, strict=True)]
            helped |= master.offer_counts(sort.stock, sort.cost, capped, ends)
            for kind, (n, d) in enumerate(zip(counts, task.demands, strict=True)):
                if n > d or kind in caps:
                    overdrawn[kind] += (max(n - d, 0) + (n == d) * 0.5) * prices[kind] / SCALE
        cost = priced_cost(task, prices, values)
        stalled += 1
        if cost > best_cost:
            best_cost, centre, stalled = cost, prices, 0
            best = max(best, price_bound(task, prices, values, caps), key=lambda b: b.cost)
            if best.cost >= target:
                break
    return best


class _PricedMaster:
    """The relaxed master of a pool, to which sheets are added as they are found."""

    def __init__(self, task: Task, pool: Pool) -> None:
        self.task = task
        self.master = build_master(task, task.demands, pool)
        self.solver = self.master.model.solver(whole=False)
        self.dearest = max(sort.cost for sort in task.sorts)
        self.known: set[tuple[int, tuple[int, ...]]] = set()
        self.limits: dict[int, int] = {}

    def solve(self) -> tuple[float, list[int]]:
        """The value and the pieces' duals as whole-number prices."""
        self.solver.run()
        duals = self.solver.getSolution().row_dual
        rows = self.master.limited
        self.limits = {
            sort.stock: int(
                (sort.cost - (duals[rows[sort.stock]] if sort.stock in rows else 0.0))
                / self.dearest
                * SCALE
            )
            + 2
            for sort in self.task.sorts
        }
        prices = [int(max(0.0, duals[row]) / self.dearest * SCALE) for row in self.master.pieces]
        return float(self.solver.getInfo().objective_function_value), prices

    def offer(self, layout: SheetLayout, prices: Sequence[int]) -> bool:
        """Takes the sheet, cut down to the demand, where it helps at these prices."""
        capped = cap_at_demand([layout], self.task.demands)
        counts = counts_of(capped, len(self.task.kinds))
        sort = self.task.sorts[layout.sort]
        return self.offer_counts(sort.stock, sort.cost, counts, prices)

    def offer_counts(
        self, stock: int, cost: int, counts: Sequence[int], prices: Sequence[int]
    ) -> bool:
        worth = sum(price * count for price, count in zip(prices, counts, strict=True))
        if worth <= self.limits[stock] or (stock, tuple(counts)) in self.known:
            return False
        self.known.add((stock, tuple(counts)))
        rows = [row for row, n in zip(self.master.pieces, counts, strict=True) if n]
        values = [float(n) for n in counts if n]
        if stock in self.master.limited:
            rows.append(self.master.limited[stock])
            values.append(1.0)
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
