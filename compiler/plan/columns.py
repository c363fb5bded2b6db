"""Columns for the master: dear three-stage sheets at given prices, by nested 1-D knapsacks.

The innermost knapsack stacks pieces across a block, the next sets blocks in a row along a strip,
the outermost lays strips across the sheet. Copies are unlimited while pricing; a column is cut
down to what is asked for when it is read out.
"""

from collections.abc import Iterator, Sequence
from typing import Final

import numpy as np
from attrs import frozen

from casewright.compiler.plan.layout import Block, SheetLayout, Strip, make_block, make_strip
from casewright.compiler.plan.points import Axis, Whole, board_points, rest_points, steps_down
from casewright.compiler.plan.task import Item, Task, items_of

PATTERNS: Final = 12
"""Sheets read out of one pricing."""

READING: Final = 1500
"""Thousands of table cells in whose time the sheets of a pricing are read."""

NONE: Final = -(1 << 60)
"""The worth of what can't be."""


@frozen(eq=False)
class Pricer:
    """The knapsacks of one sort of sheet; only `price` depends on the prices."""

    task: Task
    sort: int
    items: tuple[Item, ...]
    along: Axis
    across: Axis
    lengths: Whole
    along_less: Whole
    across_less: Whole
    starts: tuple[tuple[int, ...], ...]
    shifts: tuple[Whole, ...]

    @property
    def work(self) -> int:
        """Thousands of table cells a pricing looks at, about."""
        cells = len(self.along) * len(self.lengths) * len(self.across) // 1000
        return READING + cells

    def price(self, prices: Sequence[int]) -> "Priced":
        """The worth of every block, strip and width of sheet at these prices."""
        blocks = self._blocks(prices)
        strips = self._strips(blocks)
        full = strips[-1]
        sheet = np.zeros(len(self.across), dtype=np.int64)
        for k in range(1, len(self.across)):
            sheet[k] = (full[1 : k + 1] + sheet[self.across_less[k, 1 : k + 1]]).max()
        return Priced(self, tuple(prices), blocks, strips, sheet)

    def _strips(self, blocks: Whole) -> Whole:
        """Rows by place along the strip, columns by its width.

        No place reaches another that is nearer than the shortest block: such places are worked out
        together. The row after the last stands for a block that doesn't fit.
        """
        # A block worth no more than the next shorter one of every width is never needed.
        rising = np.append(True, (blocks[1:] > blocks[:-1]).any(axis=1))
        worths, less = blocks[rising], self.along_less[:, rising].T
        points = self.along.points
        strips = np.zeros((len(points) + 1, len(self.across)), dtype=np.int64)
        strips[-1] = NONE
        start = int(np.searchsorted(points, self.lengths[0]))
        while start < len(points):
            end = int(np.searchsorted(points, points[start] + self.lengths[0]))
            row = strips[start:end]
            for j, worth in enumerate(worths):
                np.maximum(row, strips[less[j, start:end]] + worth, out=row)
            np.maximum.accumulate(strips[start - 1 : end], axis=0, out=strips[start - 1 : end])
            start = end
        return strips[:-1]

    def _blocks(self, prices: Sequence[int]) -> Whole:
        """Rows by block length, columns by strip width."""
        table = np.zeros((len(self.lengths), len(self.across)), dtype=np.int64)
        row = table[0]
        for j, fresh in enumerate(self.starts):
            if j:
                table[j] = row
                row = table[j]
            for index in fresh:
                worth = prices[self.items[index].kind]
                shift = self.shifts[index]
                start = len(row) - len(shift)
                while worth > 0:
                    raised = np.maximum(row[start:], row[shift] + worth)
                    if np.array_equal(raised, row[start:]):
                        break
                    row[start:] = raised
        return table


@frozen(eq=False)
class Priced:
    """Tables of one pricing, from which sheets are read."""

    pricer: Pricer
    prices: tuple[int, ...]
    blocks: Whole
    strips: Whole
    sheet: Whole

    @property
    def value(self) -> int:
        """The worth of the dearest sheet."""
        return int(self.sheet[-1])

    def layouts(self, least: int) -> Iterator[SheetLayout]:
        """Different sheets worth more than `least`, the dearest first."""
        across = self.pricer.across
        less = across.floor[across.points[-1] - across.points]
        worths = self.strips[-1] + self.sheet[less]
        worths[self.strips[-1] == 0] = 0
        order = np.argsort(-worths, kind="stable")[: 3 * PATTERNS]
        seen: set[SheetLayout] = set()
        read: dict[int, Strip] = {}
        for k in order.tolist():
            if worths[k] <= least or len(seen) >= PATTERNS:
                return
            widths = [k, *self._widths(int(less[k]))]
            for w in widths:
                if w not in read:
                    read[w] = self.strip(w)
            strips = sorted((read[w] for w in widths), key=lambda s: -s.y)
            layout = SheetLayout(self.pricer.sort, tuple(strips))
            if layout not in seen:
                seen.add(layout)
                yield layout

    def _widths(self, k: int) -> list[int]:
        full = self.strips[-1]
        widths: list[int] = []
        while self.sheet[k] > 0:
            less = self.pricer.across_less[k, 1 : k + 1]
            w = 1 + int(np.argmax(full[1 : k + 1] + self.sheet[less]))
            if full[w] > 0:
                widths.append(w)
            k = int(self.pricer.across_less[k, w])
        return widths

    def strip(self, w: int) -> Strip:
        """A dearest strip of the width with this index."""
        pricer = self.pricer
        blocks: list[Block] = []
        i = len(pricer.along) - 1
        while self.strips[i, w] > 0:
            i = int(np.searchsorted(self.strips[: i + 1, w], self.strips[i, w]))
            fit = int(np.searchsorted(pricer.lengths, pricer.along.points[i], side="right"))
            less = pricer.along_less[i, :fit]
            j = int(np.argmax(self.strips[less, w] + self.blocks[:fit, w]))
            blocks.append(self._block(j, w))
            i = int(less[j])
        return make_strip(blocks)

    def _block(self, j: int, k: int) -> Block:
        pricer = self.pricer
        chosen: list[Item] = []
        while self.blocks[j, k] > 0:
            j = int(np.searchsorted(self.blocks[: j + 1, k], self.blocks[j, k]))
            for index in pricer.starts[j]:
                item = pricer.items[index]
                room = int(pricer.across.points[k]) - item.y
                less = int(pricer.across.floor[room]) if room >= 0 else -1
                rest = self.blocks[j, less] if less >= 0 else -1
                worth = self.prices[item.kind]
                if less >= 0 and worth > 0 and rest + worth == self.blocks[j, k]:
                    chosen.append(item)
                    k = less
                    break
            else:
                raise AssertionError("a block's worth has no pieces")
        return make_block(chosen)


def make_pricer(task: Task, index: int) -> Pricer:
    """The knapsacks of the sort with this index."""
    sort = task.sorts[index]
    items = tuple(sorted(items_of(task, sort), key=lambda i: (i.x, i.y, i.kind)))
    along = rest_points(sort.length, (item.x for item in items))
    across = board_points(sort.width, (item.y for item in items))
    lengths = np.array(sorted({item.x for item in items}), dtype=np.int64)
    return Pricer(
        task,
        index,
        items,
        along,
        across,
        lengths,
        steps_down(along, lengths),
        steps_down(across, across.points),
        tuple(
            tuple(i for i, item in enumerate(items) if item.x == length)
            for length in lengths.tolist()
        ),
        tuple(across.floor[across.points[across.points >= item.y] - item.y] for item in items),
    )
