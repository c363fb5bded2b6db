"""With the cost fixed, the plan that is kindest to saw.

In order: fewest rip settings over the whole job, largest single offcut (a full-length strip
before any other), most sheets alike, fewest crosscut stops. A second master over the same pool
looks for fewer settings, repacking the strips for a larger offcut; what ranks first wins.
"""

from collections.abc import Iterator, Sequence

import highspy

from casewright.compiler.plan.layout import SheetLayout, Strip, cost_of
from casewright.compiler.plan.master import Limits, Pool, build_master, promising, read_sheets
from casewright.compiler.plan.task import Task
from casewright.compiler.plan.work import Work

Rank = tuple[int, int, int, int, int, int]


def rank(task: Task, layouts: Sequence[SheetLayout]) -> Rank:
    """What is compared, least first: cost, rip settings, less the offcuts, sheets, stops."""
    rips: set[tuple[str, int]] = set()
    stops: set[tuple[str, int]] = set()
    strip_offcut = other_offcut = 0
    for layout in layouts:
        sort = task.sorts[layout.sort]
        rest = sort.width - sum(strip.y for strip in layout.strips)
        strip_offcut = max(strip_offcut, (rest - task.kerf) * (sort.length - task.kerf))
        for strip in layout.strips:
            rips |= {(sort.first, y) for y in rip_settings(strip)}
            stops |= {(sort.first, block.x) for block in strip.blocks}
            stops |= {(sort.first, item.x) for block in strip.blocks for item in block.items}
            left = sort.length - sum(block.x for block in strip.blocks)
            other_offcut = max(other_offcut, (left - task.kerf) * (strip.y - task.kerf))
    shapes = {(layout.sort, _shape(layout)) for layout in layouts}
    cost = cost_of(task, layouts)
    return cost, len(rips), -strip_offcut, -other_offcut, len(shapes), len(stops)


def _shape(layout: SheetLayout) -> tuple[object, ...]:
    return tuple(
        (strip.y, tuple(tuple((i.x, i.y) for i in block.items) for block in strip.blocks))
        for strip in layout.strips
    )


def rip_settings(strip: Strip) -> set[int]:
    """The fence settings a strip asks for: its own width and those of pieces ripped from it."""
    return {strip.y} | {item.y for block in strip.blocks for item in block.items}


def arrange(
    task: Task, layouts: Sequence[SheetLayout], pool: Pool, limits: Limits, work: Work
) -> list[SheetLayout]:
    """The best ranked of the plan, the second master's plans and their repackings."""
    best = _tidy(task, layouts)
    candidates = [list(layouts)]
    if len(rip_settings_of(layouts)) > 1 and pool.strips:
        fewer = fewest_settings(task, layouts, pool, limits, work)
        if fewer:
            candidates.append(fewer)
    for candidate in candidates:
        for packed in (candidate, *_repacked(task, candidate)):
            best = min(best, _tidy(task, packed), key=lambda plan: rank(task, plan))
    return best


def rip_settings_of(layouts: Sequence[SheetLayout]) -> set[int]:
    """All fence settings of a plan."""
    return {y for layout in layouts for strip in layout.strips for y in rip_settings(strip)}


def _tidy(task: Task, layouts: Sequence[SheetLayout]) -> list[SheetLayout]:
    """Widest strips first, sheets alike together, the sheet with most left over last."""
    tidied = [
        SheetLayout(
            layout.sort,
            tuple(sorted(layout.strips, key=lambda s: (-s.y, [b.x for b in s.blocks], repr(s)))),
        )
        for layout in layouts
    ]

    def left(layout: SheetLayout) -> int:
        return task.sorts[layout.sort].width - sum(strip.y for strip in layout.strips)

    return sorted(tidied, key=lambda p: (p.sort, left(p), [-s.y for s in p.strips], repr(p)))


def fewest_settings(
    task: Task, layouts: Sequence[SheetLayout], pool: Pool, limits: Limits, work: Work
) -> list[SheetLayout] | None:
    """A plan of no more cost with as few rip settings as the second master finds, or None."""
    demands = task.demands
    pool = promising(pool, build_master(task, demands, pool), limits.columns)
    own = [(p.sort, strip) for p in layouts for strip in p.strips]
    patterns = [(p.sort, tuple(sorted((s.y for s in p.strips), reverse=True))) for p in layouts]
    pool = Pool(
        tuple(dict.fromkeys([*own, *pool.strips])),
        tuple(dict.fromkeys([*patterns, *pool.patterns])),
    )
    master = build_master(task, demands, pool)
    model = master.model
    budget = model.row(-highspy.kHighsInf, cost_of(task, layouts))
    for column, (sort, _) in enumerate(pool.patterns, len(pool.strips)):
        _, most, entries = model.columns[column]
        entries[budget] = float(task.sorts[sort].cost)
        model.columns[column] = (0.0, most, entries)
    users: dict[tuple[str, int], list[int]] = {}
    for column, (sort, strip) in enumerate(pool.strips):
        for y in sorted(rip_settings(strip)):
            users.setdefault((task.sorts[sort].first, y), []).append(column)
    for columns in users.values():
        entries = {}
        for column in columns:
            row = model.row(-highspy.kHighsInf, 0)
            model.columns[column][2][row] = 1.0
            entries[row] = -model.columns[column][1]
        model.column(1.0, 1.0, entries)
    start = _start(pool, layouts, len(model.columns), users)
    point = model.solve(limits.nodes, None, work, start)
    return read_sheets(demands, pool, point) if point else None


def _start(
    pool: Pool,
    layouts: Sequence[SheetLayout],
    columns: int,
    users: dict[tuple[str, int], list[int]],
) -> list[float]:
    """The known plan as a point of the second master."""
    point = [0.0] * columns
    strip_at = {strip: column for column, strip in enumerate(pool.strips)}
    pattern_at = {p: column for column, p in enumerate(pool.patterns, len(pool.strips))}
    for layout in layouts:
        for strip in layout.strips:
            point[strip_at[(layout.sort, strip)]] += 1
        widths = tuple(sorted((strip.y for strip in layout.strips), reverse=True))
        point[pattern_at[(layout.sort, widths)]] += 1
    for column, using in enumerate(users.values(), columns - len(users)):
        point[column] = float(any(point[strip] for strip in using))
    return point


def _repacked(task: Task, layouts: Sequence[SheetLayout]) -> Iterator[list[SheetLayout]]:
    """The same strips on as many sheets, all but one filled as far as they go."""
    sorts = {layout.sort for layout in layouts}
    if len(sorts) != 1:
        return
    index = sorts.pop()
    width = task.sorts[index].width
    strips = [strip for layout in layouts for strip in layout.strips]
    for widest_first in (True, False):
        waiting = sorted(strips, key=lambda s: (-s.y if widest_first else s.y, repr(s)))
        sheets: list[SheetLayout] = []
        while waiting and len(sheets) < len(layouts):
            held = _fullest(waiting, width)
            for strip in held:
                waiting.remove(strip)
            sheets.append(SheetLayout(index, tuple(held)))
        if not waiting:
            yield sheets


def _fullest(strips: Sequence[Strip], width: int) -> list[Strip]:
    """The first strip and others that fill the width as far as possible: a subset sum."""
    lead, others = strips[0], strips[1:]
    room = width - lead.y
    mask = (1 << (room + 1)) - 1
    history: list[int] = []
    reach = 1
    for strip in others:
        history.append(reach)
        reach |= (reach << strip.y) & mask
    at = reach.bit_length() - 1
    held = [lead]
    for before, strip in zip(reversed(history), reversed(others), strict=True):
        if not before >> at & 1:
            held.append(strip)
            at -= strip.y
    return held
