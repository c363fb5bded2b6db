"""A deeper search for a cheaper plan: a few sheets at a time are emptied and planned anew.

With one stock, the emptiest sheet is squeezed: its pieces and those of a few others are packed
as full as they go on the others, until nothing is left of it. With several stocks, a few sheets'
pieces are planned anew at less cost. Strips come from the pool, cut down to these pieces, and
from fresh greedy plans of them.
"""

from collections.abc import Sequence
from random import Random
from typing import Final

from attrs import evolve

from casewright.compiler.plan.bounds import stocks_of
from casewright.compiler.plan.greedy import greedy
from casewright.compiler.plan.layout import SheetLayout, Strip, cost_of, counts_of
from casewright.compiler.plan.master import Limits, Pool, fill_sheets, make_pool, solve_master
from casewright.compiler.plan.task import Task
from casewright.compiler.plan.work import Work

SHEETS: Final = (3, 4, 6, 8)
"""How many sheets are planned anew, in turn."""

LIMITS: Final = Limits(nodes=4, columns=220)

CUT_DOWN: Final = 250

TRY: Final = 30_000
"""Thousands of table cells in whose time a try is made ready."""


def refine(
    task: Task, layouts: Sequence[SheetLayout], pool: Pool, target: int, tries: int, work: Work
) -> list[SheetLayout]:
    """The cheapest plan after so many tries; it stops at `target`."""
    best = list(layouts)
    rng = Random(len(layouts))
    one_stock = len(stocks_of(task)) == 1
    for turn in range(tries):
        work.take(TRY)
        many = min(SHEETS[turn % len(SHEETS)], len(best) - 1)
        if cost_of(task, best) <= target or many < 1 or work.left <= 0:
            break
        if one_stock:
            best = _squeeze(task, best, pool, many, rng, work)
        elif many > 1:
            best = _replan(task, best, pool, target, many, rng, work)
    return best


def _squeeze(
    task: Task, layouts: list[SheetLayout], pool: Pool, many: int, rng: Random, work: Work
) -> list[SheetLayout]:
    """The plan with its emptiest sheet emptier or gone, or as it was."""
    ranked = sorted(range(len(layouts)), key=lambda i: (_filled(layouts[i]), i))
    emptiest = layouts[ranked[0]]
    chosen = {ranked[0], *rng.sample(ranked[1:], many)}
    emptied = [layouts[i] for i in sorted(chosen)]
    kept = [layout for i, layout in enumerate(layouts) if i not in chosen]
    demands = counts_of(emptied, len(task.kinds))
    part = _part(task, demands)
    _, strips, _ = greedy(part, demands, 10, rng.randrange(1 << 30), 0)
    packed = fill_sheets(
        part, demands, _local(part, demands, emptied, strips, pool, rng), LIMITS, many, work
    )
    if packed is None:
        return layouts
    placed = counts_of(packed, len(task.kinds))
    rest = [d - p for d, p in zip(demands, placed, strict=True)]
    if not any(rest):
        return kept + packed
    left_area = sum(n * k.length * k.width for n, k in zip(rest, task.kinds, strict=True))
    if left_area > _filled(emptiest):
        return layouts
    last, strips, unplaced = greedy(_part(task, rest), rest, 20, 3, task.sorts[0].cost)
    if any(unplaced) or len(last) > 1:
        local = _local(_part(task, rest), rest, [emptiest, *last], strips, pool, rng)
        solved = solve_master(_part(task, rest), rest, local, LIMITS, task.sorts[0].cost, work)
        if solved is None or len(solved) > 1:
            return layouts
        last = solved
    return [*kept, *packed, *last]


def _replan(
    task: Task,
    layouts: list[SheetLayout],
    pool: Pool,
    target: int,
    many: int,
    rng: Random,
    work: Work,
) -> list[SheetLayout]:
    """The plan with some sheets planned anew where that costs no more."""
    ranked = sorted(
        range(len(layouts)), key=lambda i: (_filled(layouts[i]) * (0.5 + rng.random()), i)
    )
    chosen = set(ranked[:many])
    emptied = [layouts[i] for i in sorted(chosen)]
    kept = [layout for i, layout in enumerate(layouts) if i not in chosen]
    demands = counts_of(emptied, len(task.kinds))
    used = [0] * len(task.names)
    for layout in kept:
        used[task.sorts[layout.sort].stock] += 1
    part = _part(task, demands)
    wanted = target - cost_of(task, kept)
    found, strips, left = greedy(part, demands, 12, rng.randrange(1 << 30), wanted, used)
    if any(left) or cost_of(task, found) >= cost_of(task, emptied):
        local = _local(part, demands, [*emptied, *found], strips, pool, rng)
        solved = solve_master(part, demands, local, LIMITS, wanted, work, used)
        found = solved if solved is not None else emptied
    return kept + found if cost_of(task, found) <= cost_of(task, emptied) else layouts


def _filled(layout: SheetLayout) -> int:
    """The area of a sheet's pieces."""
    return sum(
        item.x * item.y for strip in layout.strips for block in strip.blocks for item in block.items
    )


def _part(task: Task, demands: Sequence[int]) -> Task:
    """The task with another demand of each kind."""
    kinds = zip(task.kinds, demands, strict=True)
    return evolve(task, kinds=tuple(evolve(kind, demand=demand) for kind, demand in kinds))


def _local(
    part: Task,
    demands: Sequence[int],
    layouts: Sequence[SheetLayout],
    strips: Sequence[tuple[int, Strip]],
    pool: Pool,
    rng: Random,
) -> Pool:
    """What the master may choose from for these pieces: all patterns, and strips that need little.

    A strip of the pool is taken as it is where these pieces make it, else cut down to them where it
    shares a piece and chance takes it.
    """
    whole: list[tuple[int, Strip]] = []
    shared: list[tuple[int, Strip]] = []
    for sort, strip in pool.strips:
        counts = strip.counts
        if all(n <= demands[kind] for kind, n in counts.items()):
            whole.append((sort, strip))
        elif any(demands[kind] for kind in counts):
            shared.append((sort, strip))
    if len(shared) > CUT_DOWN:
        shared = rng.sample(shared, CUT_DOWN)
    local = make_pool(part, demands, layouts, [*strips, *whole, *shared])
    return Pool(local.strips, tuple(dict.fromkeys([*local.patterns, *pool.patterns])))
