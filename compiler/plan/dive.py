"""Whole sheets from the relaxation, a few at a time: what it uses wholly is taken, the rest solved
again.

The relaxed master of whole sheets says how often each would be sawn. The whole part of that is
taken; where there is none, the one sheet it uses most. Then prices are found anew for what is left,
with sheets that suit it, until nothing is left. At every step the rest is also planned greedily,
and the cheapest plan met is the answer.
"""

from collections.abc import Sequence
from typing import Final

import highspy
from attrs import evolve

from casewright.compiler.plan.bounds import stocks_of
from casewright.compiler.plan.greedy import greedy
from casewright.compiler.plan.layout import SheetLayout, cap_at_demand, cost_of, counts_of
from casewright.compiler.plan.master import Model
from casewright.compiler.plan.relax import Engines, relax
from casewright.compiler.plan.task import Task
from casewright.compiler.plan.work import Work

WHOLE: Final = 1e-6
"""How near under a whole number a count may be and still be taken for it."""

RESTARTS: Final = 12
"""Greedy plans of what is left, at every step at most."""

GREEDY: Final = 60_000
"""Kinds times pieces over a step's greedy plans: a long rest is planned once, or not at all."""

FEWEST: Final = 2
"""Sheets' worth of rest under which greedy plans alone serve."""

STEP: Final = 2000
"""Thousands of table cells in whose time a step is taken."""

COLUMN: Final = 8
"""Thousands of table cells in whose time a sheet is cut down to what is left."""

COLUMNS: Final = 300
"""Sheets that are carried on from one step to the next."""


def dive(
    task: Task,
    engines: Engines,
    layouts: Sequence[SheetLayout],
    target: int,
    work: Work,
) -> list[SheetLayout] | None:
    """The cheapest plan met, or None; it stops at `target`.

    For new prices each step gets an eighth of what work is left; none are sought when it is gone.
    """
    best: list[SheetLayout] | None = None
    chosen: list[SheetLayout] = []
    remaining = list(task.demands)
    used = [0] * len(task.names)
    columns = list(dict.fromkeys(layouts))
    while any(remaining):
        columns = _capped(task, columns, remaining)
        work.take(STEP + len(columns) * COLUMN)
        taken, columns = _whole_part(task, remaining, columns, used)
        if not taken:
            break
        chosen += taken
        for layout in taken:
            used[task.sorts[layout.sort].stock] += 1
        placed = counts_of(taken, len(task.kinds))
        remaining = [n - p for n, p in zip(remaining, placed, strict=True)]
        part = evolve(
            task,
            kinds=tuple(
                evolve(kind, demand=n) for kind, n in zip(task.kinds, remaining, strict=True)
            ),
        )
        spent = cost_of(task, chosen)
        live = sum(1 for n in remaining if n) * sum(remaining)
        restarts = min(RESTARTS, GREEDY // max(1, live))
        rest: list[SheetLayout] = []
        left = remaining
        if restarts or not any(remaining):
            work.take(restarts * live // 3)
            rest, _, left = greedy(part, remaining, restarts, len(chosen), target - spent, used)
        if not any(left):
            if best is None or spent + cost_of(task, rest) < cost_of(task, best):
                best = [*chosen, *rest]
            if cost_of(task, best) <= target or len(rest) < FEWEST:
                break
        columns += rest
        if work.left > 0:
            found = relax(part, engines, columns, target - spent, work.part(work.left // 8))
            columns += found.layouts
    return best


def _capped(
    task: Task, columns: Sequence[SheetLayout], remaining: Sequence[int]
) -> list[SheetLayout]:
    """The sheets, each without the pieces that nobody asks for any more."""
    found: dict[SheetLayout, None] = {}
    for layout in columns:
        if all(n <= remaining[kind] for kind, n in layout.counts.items()):
            found[layout] = None
        else:
            found.update(dict.fromkeys(cap_at_demand([layout], remaining)))
    return list(found)


def _whole_part(
    task: Task, demands: Sequence[int], columns: Sequence[SheetLayout], used: Sequence[int]
) -> tuple[list[SheetLayout], list[SheetLayout]]:
    """The sheets that the relaxation over these columns uses wholly, or the one it uses most; and
    the columns nearest to be of use, which are kept."""
    model = Model()
    rows = [model.row(demand, highspy.kHighsInf) for demand in demands]
    limited = {
        sort.stock: model.row(-highspy.kHighsInf, sort.copies - used[sort.stock])
        for sort in stocks_of(task)
        if sort.copies is not None
    }
    dearest = max(sort.cost for sort in task.sorts)
    for row in rows:
        model.column(10.0 * dearest, highspy.kHighsInf, {row: 1.0})
    for layout in columns:
        sort = task.sorts[layout.sort]
        entries = {rows[kind]: float(n) for kind, n in layout.counts.items()}
        if sort.stock in limited:
            entries[limited[sort.stock]] = 1.0
        model.column(float(sort.cost), highspy.kHighsInf, entries)
    solver = model.solver(whole=False)
    solver.run()
    solution = solver.getSolution()
    values = list(solution.col_value)[len(rows) :]
    reduced = list(solution.col_dual)[len(rows) :]
    ranked = sorted(range(len(columns)), key=lambda c: (round(reduced[c], 9), c))[:COLUMNS]
    # A sheet is taken only as often as what is left asks for all it holds.
    left = list(demands)
    taken: list[SheetLayout] = []
    most = max(range(len(values)), key=lambda c: (round(values[c], 6), -c), default=-1)
    for column, value in enumerate(values):
        times = int(value + WHOLE)
        if max(values) < 1 - WHOLE and column == most and value > WHOLE:
            times = 1
        counts = columns[column].counts
        for _ in range(times):
            if any(n > left[kind] for kind, n in counts.items()):
                break
            for kind, n in counts.items():
                left[kind] -= n
            taken.append(columns[column])
    return taken, [columns[c] for c in sorted(ranked)]
