"""A first plan in milliseconds: strips filled one after another, with restarts.

Each strip is opened by the piece that is next in a shuffled order of falling size and filled by
an exact subset sum of lengths, blocks that waste little width first.
"""

from collections.abc import Sequence
from random import Random

from attrs import frozen

from casewright.compiler.plan.layout import (
    Block,
    SheetLayout,
    Strip,
    cost_of,
    make_block,
    make_strip,
)
from casewright.compiler.plan.task import Item, Sort, Task, items_of

TIERS = (0.92, 0.7, 0.0)
"""Blocks are offered to a strip by the share of its width they fill, the best share first."""

MOST_BLOCKS = 150
"""Blocks offered to one strip in one tier; more would cost time and bring little."""


@frozen
class _Order:
    """How one restart ranks items and widths."""

    weights: tuple[float, ...]
    tries: int
    rng: Random


def greedy(
    task: Task,
    demands: Sequence[int],
    restarts: int,
    seed: int,
    target: int,
    used: Sequence[int] = (),
) -> tuple[list[SheetLayout], list[tuple[int, Strip]], list[int]]:
    """The cheapest of some shuffled plans, every strip of any, and what found no stock.

    `used` counts the copies of each stock that are taken already; the search stops at a plan that
    costs no more than `target`.
    """
    rng = Random(seed)
    items = [items_of(task, sort) for sort in task.sorts]
    tried: dict[tuple[int, Strip], None] = {}
    best: tuple[list[SheetLayout], list[int]] | None = None
    best_rank = (0, 0)
    for turn in range(max(1, restarts)):
        order = _shuffled(task, rng, turn)
        layouts, left = _one_plan(task, items, list(demands), order, list(used))
        for layout in layouts:
            for strip in layout.strips:
                tried[(layout.sort, strip)] = None
        missing = sum(n * k.length * k.width for n, k in zip(left, task.kinds, strict=True))
        rank = (missing, cost_of(task, layouts))
        if best is None or rank < best_rank:
            best, best_rank = (layouts, left), rank
        if rank[0] == 0 and rank[1] <= target:
            break
    layouts, left = best or ([], list(demands))
    return layouts, list(tried), left


def _shuffled(task: Task, rng: Random, turn: int) -> _Order:
    """The first restarts go by width, by area and by length; later ones shake these orders."""
    shake = 0.0 if turn < 3 else 0.12 + 0.5 * rng.random()
    power = (1.0, 0.5, 0.15)[turn % 3]
    weights = tuple(
        (k.width**power) * (k.length ** (1.15 - power)) * (1 + shake * (rng.random() - 0.5))
        for k in task.kinds
    )
    return _Order(weights, 1 + turn % 4, rng)


def _one_plan(
    task: Task, items: Sequence[Sequence[Item]], left: list[int], order: _Order, used: list[int]
) -> tuple[list[SheetLayout], list[int]]:
    layouts: list[SheetLayout] = []
    taken = used or [0] * len(task.names)
    while any(left):
        best: tuple[float, int, list[Strip], list[int]] | None = None
        for index, sort in enumerate(task.sorts):
            if sort.copies is not None and taken[sort.stock] >= sort.copies:
                continue
            strips, after = _fill_sheet(task, sort, items[index], left, order)
            gained = sum(
                (a - b) * k.length * k.width
                for a, b, k in zip(left, after, task.kinds, strict=True)
            )
            if strips and (best is None or sort.cost / gained < best[0]):
                best = (sort.cost / gained, index, strips, after)
        if best is None:
            break
        _, index, strips, left = best
        taken[task.sorts[index].stock] += 1
        layouts.append(SheetLayout(index, tuple(strips)))
    return layouts, left


def _fill_sheet(
    task: Task, sort: Sort, items: Sequence[Item], left: Sequence[int], order: _Order
) -> tuple[list[Strip], list[int]]:
    remaining = list(left)
    room = sort.width
    strips: list[Strip] = []
    while True:
        live = [i for i in items if remaining[i.kind] and i.y <= room]
        if not live:
            return strips, remaining
        lead = max(live, key=lambda i: (order.weights[i.kind], i.y, -i.kind))
        leads = [lead]
        if strips:
            others = [i for i in live if i.y != lead.y]
            leads += order.rng.sample(others, min(order.tries - 1, len(others)))
        best: tuple[float, Strip, list[int]] | None = None
        for candidate in leads:
            strip, after = fill_strip(sort.length, candidate.y, candidate, live, remaining)
            gained = sum(
                (remaining[k] - after[k]) * task.kinds[k].length * task.kinds[k].width
                for k in strip.counts
            )
            share = gained / (strip.y * sort.length)
            if strip.y + min(i.y for i in items) > room:
                share = gained / (room * sort.length)
            if best is None or share > best[0]:
                best = (share, strip, after)
        if best is None:
            return strips, remaining
        _, strip, remaining = best
        strips.append(strip)
        room -= strip.y


def fill_strip(
    length: int, width: int, lead: Item, items: Sequence[Item], left: Sequence[int]
) -> tuple[Strip, list[int]]:
    """A strip that holds `lead` and is filled as far as it goes, and the demand left after it."""
    remaining = list(left)
    blocks = [_stack(lead, lead.x, width, items, remaining)]
    _fill_row(length - blocks[0].x, width, items, remaining, blocks)
    return make_strip(blocks), remaining


def cap_strip(
    length: int, strip: Strip, items: Sequence[Item], demands: Sequence[int]
) -> Strip | None:
    """The strip without pieces beyond the demand, the room they leave filled with others.

    None where none of its pieces is asked for.
    """
    remaining = list(demands)
    blocks: list[Block] = []
    for block in strip.blocks:
        kept: list[Item] = []
        for item in block.items:
            if remaining[item.kind]:
                remaining[item.kind] -= 1
                kept.append(item)
        if kept:
            blocks.append(make_block(kept))
    if not blocks:
        return None
    if sum(remaining) + sum(strip.counts.values()) == sum(demands):
        return strip
    width = make_strip(blocks).y
    room = length - sum(block.x for block in blocks)
    _fill_row(room, width, items, remaining, blocks)
    return make_strip(blocks)


def _fill_row(
    room: int, width: int, items: Sequence[Item], remaining: list[int], blocks: list[Block]
) -> None:
    """Appends blocks that fill the room of a strip, the fullest across first."""
    floor_share = 2.0
    for share in TIERS:
        usable = [i for i in items if remaining[i.kind] and i.y <= width and i.x <= room]
        tier: list[tuple[Item, int]] = []
        for item in usable:
            high = min(width // item.y, remaining[item.kind])
            if share * width <= high * item.y < floor_share * width:
                tier.append((item, remaining[item.kind] // high))
        tier.sort(key=lambda pair: (-pair[0].y, -pair[0].x, pair[0].kind))
        for item in _longest_row(tier[:MOST_BLOCKS], room):
            if remaining[item.kind] and item.x <= room:
                block = _stack(item, item.x, width, items, remaining)
                blocks.append(block)
                room -= block.x
        floor_share = share


def _longest_row(offers: Sequence[tuple[Item, int]], room: int) -> list[Item]:
    """Items, each at most so often, whose lengths add up to as much of the room as possible."""
    mask = (1 << (room + 1)) - 1
    reach = 1
    history: list[tuple[int, Item, int]] = []
    for item, copies in offers:
        step = 1
        while copies > 0:
            many = min(step, copies)
            if many * item.x <= room:
                history.append((reach, item, many))
                reach |= (reach << (many * item.x)) & mask
            copies -= many
            step *= 2
    at = reach.bit_length() - 1
    chosen: list[Item] = []
    for before, item, many in reversed(history):
        if not before >> at & 1:
            chosen += [item] * many
            at -= many * item.x
    return chosen


def _stack(item: Item, x: int, width: int, items: Sequence[Item], remaining: list[int]) -> Block:
    """A block of the item, stacked with itself and then with what still fits beside it."""
    chosen: list[Item] = []
    room = width
    while remaining[item.kind] and item.y <= room:
        chosen.append(item)
        remaining[item.kind] -= 1
        room -= item.y
    while True:
        fitting = [i for i in items if remaining[i.kind] and i.y <= room and i.x <= x]
        if not fitting:
            return make_block(chosen)
        best = max(fitting, key=lambda i: (i.x * i.y, i.y, -i.kind))
        chosen.append(best)
        remaining[best.kind] -= 1
        room -= best.y
