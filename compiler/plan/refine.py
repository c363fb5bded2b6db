"""A deeper search for a cheaper plan: a few sheets at a time are emptied and planned anew.

Each dig takes some badly filled sheets and some at random, and asks the master for their pieces on
fewer sheets, from strips of the pool cut down to these pieces and from fresh greedy ones.
"""

from collections.abc import Sequence
from random import Random
from typing import Final

from attrs import evolve

from casewright.compiler.plan.greedy import greedy
from casewright.compiler.plan.layout import SheetLayout, cost_of, counts_of
from casewright.compiler.plan.master import Limits, Pool, make_pool, solve_master
from casewright.compiler.plan.task import Task

SHEETS: Final = (3, 4, 6)
"""How many sheets a dig empties, in turn."""

DIG_LIMITS: Final = Limits(nodes=8, columns=220)


def dig(
    task: Task, layouts: Sequence[SheetLayout], pool: Pool, target: int, digs: int
) -> list[SheetLayout]:
    """The cheapest plan after so many digs; it stops at `target`."""
    best = list(layouts)
    rng = Random(len(layouts))
    for turn in range(digs):
        many = min(SHEETS[turn % len(SHEETS)], len(best) - 1)
        if cost_of(task, best) <= target or many < 2:
            break
        chosen = _choose(task, best, many, rng)
        emptied = [best[i] for i in chosen]
        kept = [layout for i, layout in enumerate(best) if i not in chosen]
        demands = counts_of(emptied, len(task.kinds))
        used = [0] * len(task.names)
        for layout in kept:
            used[task.sorts[layout.sort].stock] += 1
        part = evolve(
            task,
            kinds=tuple(
                evolve(kind, demand=demand)
                for kind, demand in zip(task.kinds, demands, strict=True)
            ),
        )
        wanted = target - cost_of(task, kept)
        found, strips, left = greedy(part, demands, 12, turn, wanted, used)
        if any(left) or cost_of(task, found) >= cost_of(task, emptied):
            local = make_pool(part, demands, [*emptied, *found], [*strips, *pool.strips])
            local = Pool(local.strips, tuple(dict.fromkeys([*local.patterns, *pool.patterns])))
            solved = solve_master(part, demands, local, DIG_LIMITS, wanted, used)
            found = solved if solved is not None else list(emptied)
        if cost_of(task, found) <= cost_of(task, emptied):
            best = kept + found
    return best


def _choose(task: Task, layouts: Sequence[SheetLayout], many: int, rng: Random) -> set[int]:
    """Half the sheets by how much of them is empty, half by chance."""

    def empty(index: int) -> float:
        sort = task.sorts[layouts[index].sort]
        filled = sum(
            item.x * item.y
            for strip in layouts[index].strips
            for block in strip.blocks
            for item in block.items
        )
        return 1 - filled / (sort.length * sort.width)

    ranked = sorted(range(len(layouts)), key=lambda i: (-empty(i) * (0.5 + rng.random()), i))
    first = ranked[: (many + 1) // 2]
    others = [i for i in range(len(layouts)) if i not in first]
    return {*first, *rng.sample(others, min(many - len(first), len(others)))}
