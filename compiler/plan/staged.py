"""The dearest sheet of strips, blocks and trimmed pieces: three stages, with some kinds counted.

The shop's own class of plan is narrower than through cuts in any number of stages, so its dearest
sheet is worth less, and what follows from it is sharper: it holds for three stages alone. The
innermost knapsack stacks pieces across a block, the next sets blocks in a row along a strip, the
outermost lays strips across the sheet; of counted kinds no more are used than asked for.
"""

from collections.abc import Iterator, Sequence
from typing import Final

import numpy as np
from attrs import frozen

from casewright.compiler.plan.columns import Pricer
from casewright.compiler.plan.counted import Counters
from casewright.compiler.plan.layout import Block, SheetLayout, Strip, make_block, make_strip
from casewright.compiler.plan.points import Whole
from casewright.compiler.plan.task import Item

STEP: Final = 2000
"""Cells in whose time a step begins and ends."""


@frozen(eq=False)
class StagedWorths:
    """What blocks, strips and sheets are worth in every state.

    Axes are block length, state, width for `blocks`; place along the strip, state, width for
    `strips`; state, width for `sheet`.
    """

    pricer: Pricer
    counters: Counters
    prices: tuple[int, ...]
    blocks: Whole
    strips: Whole
    sheet: Whole

    @property
    def value(self) -> int:
        """The worth of the whole sheet with all that is asked for."""
        return int(self.sheet[-1, -1])


def staged_work(pricer: Pricer, pairs: int) -> int:
    """Thousands of table cells a run looks at, about; a step takes as long as `STEP` of them."""
    wide = len(pricer.across)
    steps = len(pricer.along) * len(pricer.lengths) + wide
    return 1 + max(STEP, wide * pairs) * steps // 1000


def run_staged(pricer: Pricer, counters: Counters, prices: Sequence[int]) -> StagedWorths:
    """The worths at these prices, one a kind, not negative."""
    blocks = _blocks(pricer, counters, prices)
    along, across = pricer.along, pricer.across
    strips = np.zeros((len(along), len(counters.states), len(across)), dtype=np.int64)
    for i in range(1, len(along)):
        row = strips[i - 1].copy()
        fit = int(np.searchsorted(pricer.lengths, along.points[i], side="right"))
        for j in range(fit):
            np.maximum(row, _shared(counters, blocks[j], strips[pricer.along_less[i, j]]), out=row)
        strips[i] = row
    full = strips[-1]
    sheet = np.zeros_like(full)
    for k in range(1, len(across)):
        other = pricer.across_less[k, 1 : k + 1]
        both = full[counters.first, 1 : k + 1] + sheet[counters.second][:, other]
        sheet[:, k] = np.maximum.reduceat(both.max(axis=1), counters.starts)
        np.maximum(sheet[:, k], sheet[:, k - 1], out=sheet[:, k])
    return StagedWorths(pricer, counters, tuple(prices), blocks, strips, sheet)


def _shared(counters: Counters, one: Whole, other: Whole) -> Whole:
    """The best that two boards yield together, what is counted shared out between them."""
    both = one[counters.first] + other[counters.second]
    return np.maximum.reduceat(both, counters.starts)


def _blocks(pricer: Pricer, counters: Counters, prices: Sequence[int]) -> Whole:
    states, across = counters.states, pricer.across
    number = {state: index for index, state in enumerate(states)}
    place = {kind: at for at, kind in enumerate(counters.kinds)}
    table = np.zeros((len(pricer.lengths), len(states), len(across)), dtype=np.int64)
    row = table[0]
    for j, fresh in enumerate(pricer.starts):
        if j:
            table[j] = row
            row = table[j]
        ways = []
        for index in fresh:
            kind = pricer.items[index].kind
            held = [s for s in states if kind not in place or s[place[kind]] > 0]
            less = [_one_less(s, place.get(kind)) for s in held]
            if prices[kind] > 0 and held:
                ways.append(
                    (
                        np.array([number[s] for s in held]),
                        np.array([number[s] for s in less]),
                        pricer.shifts[index],
                        prices[kind],
                    )
                )
        changed = True
        while changed:
            changed = False
            for to, rest, shift, worth in ways:
                start = row.shape[1] - len(shift)
                raised = np.maximum(row[to, start:], row[rest][:, shift] + worth)
                if not np.array_equal(raised, row[to, start:]):
                    row[to, start:] = raised
                    changed = True
    return table


def _one_less(state: tuple[int, ...], at: int | None) -> tuple[int, ...]:
    if at is None:
        return state
    return (*state[:at], state[at] - 1, *state[at + 1 :])


def staged_layout(worths: StagedWorths) -> SheetLayout:
    """A dearest sheet; of counted kinds it holds no more than asked for."""
    pricer, sheet = worths.pricer, worths.sheet
    strips: list[Strip] = []
    s, k = sheet.shape[0] - 1, sheet.shape[1] - 1
    while sheet[s, k] > 0:
        k = int(np.searchsorted(sheet[s, : k + 1], sheet[s, k]))
        first, second = _pairs(worths.counters, s)
        other = pricer.across_less[k, 1 : k + 1]
        both = worths.strips[-1][first, 1 : k + 1] + sheet[second][:, other]
        pair, w = np.argwhere(both == sheet[s, k])[0].tolist()
        strips += _strip(worths, int(first[pair]), w + 1)
        s, k = int(second[pair]), int(other[w])
    return SheetLayout(pricer.sort, tuple(sorted(strips, key=lambda strip: -strip.y)))


def _pairs(counters: Counters, state: int) -> tuple[Whole, Whole]:
    ends = [*counters.starts.tolist()[1:], counters.pairs]
    some = slice(int(counters.starts[state]), ends[state])
    return counters.first[some], counters.second[some]


def _strip(worths: StagedWorths, s: int, w: int) -> Iterator[Strip]:
    """The strip of this width, or none where it is worth nothing."""
    pricer, strips = worths.pricer, worths.strips
    blocks: list[Block] = []
    i = len(pricer.along) - 1
    while strips[i, s, w] > 0:
        i = int(np.searchsorted(strips[: i + 1, s, w], strips[i, s, w]))
        fit = int(np.searchsorted(pricer.lengths, pricer.along.points[i], side="right"))
        first, second = _pairs(worths.counters, s)
        less = pricer.along_less[i, :fit]
        both = worths.blocks[:fit][:, first, w] + strips[less][:, second, w]
        j, pair = np.argwhere(both == strips[i, s, w])[0].tolist()
        blocks.append(_block(worths, j, int(first[pair]), w))
        i, s = int(less[j]), int(second[pair])
    if blocks:
        yield make_strip(blocks)


def _block(worths: StagedWorths, j: int, s: int, w: int) -> Block:
    pricer, blocks = worths.pricer, worths.blocks
    states = worths.counters.states
    number = {state: index for index, state in enumerate(states)}
    place = {kind: at for at, kind in enumerate(worths.counters.kinds)}
    chosen: list[Item] = []
    while blocks[j, s, w] > 0:
        j = int(np.searchsorted(blocks[: j + 1, s, w], blocks[j, s, w]))
        for index in pricer.starts[j]:
            item = pricer.items[index]
            room = int(pricer.across.points[w]) - item.y
            at = place.get(item.kind)
            if room < 0 or worths.prices[item.kind] <= 0 or (at is not None and not states[s][at]):
                continue
            rest, less = number[_one_less(states[s], at)], int(pricer.across.floor[room])
            if blocks[j, rest, less] + worths.prices[item.kind] == blocks[j, s, w]:
                chosen.append(item)
                s, w = rest, less
                break
        else:
            raise AssertionError("a block's worth has no pieces")
    return make_block(chosen)
