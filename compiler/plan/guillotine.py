"""The dearest pattern of through cuts, in any number of stages and with unlimited copies.

An exact dynamic programme over the board sizes that sums of pieces can make. Its value is the
heart of the bound by prices.
"""

from collections.abc import Sequence
from typing import Final

import numpy as np
from attrs import frozen

from casewright.compiler.plan.points import Axis, Whole, board_points, steps_down

ROW: Final = 7
"""Thousands of table cells in whose time a row begins and ends."""


@frozen
class Board:
    """A sheet with the pieces that may lie on it: parallel tuples of sizes and kinds."""

    length: int
    width: int
    lengths: tuple[int, ...]
    widths: tuple[int, ...]
    kinds: tuple[int, ...]


@frozen(eq=False)
class Worths:
    """What every board up to the sheet is worth at given prices."""

    board: Board
    prices: tuple[int, ...]
    along: Axis
    across: Axis
    table: Whole

    @property
    def value(self) -> int:
        """The worth of the whole sheet."""
        return int(self.table[-1, -1])


@frozen(eq=False)
class Programme:
    """The part of the computation that doesn't depend on prices."""

    board: Board
    along: Axis
    across: Axis
    across_less: Whole

    @property
    def work(self) -> int:
        """Thousands of table cells a run looks at, about."""
        rows = len(self.along)
        return 1 + rows * (ROW + rows * len(self.across) // 8000)

    def run(self, prices: Sequence[int]) -> Worths:
        """The worths at these prices, one a kind, not negative."""
        board, along, points = self.board, self.along.floor, self.along.points
        worths = np.zeros((len(self.along), len(self.across)), dtype=np.int64)
        rows = np.searchsorted(points, np.array(board.lengths, dtype=np.int64)).tolist()
        columns = np.searchsorted(self.across.points, np.array(board.widths, dtype=np.int64))
        starts: dict[int, list[tuple[int, int]]] = {}
        for row_at, column, kind in zip(rows, columns.tolist(), board.kinds, strict=True):
            if prices[kind] > 0:
                starts.setdefault(row_at, []).append((column, prices[kind]))
        risen = np.zeros(len(self.along), dtype=np.int64)
        many = 0
        for i in range(1, len(self.along)):
            before = worths[i - 1]
            row = before.copy()
            for column, price in starts.get(i, ()):
                np.maximum(row[column:], price, out=row[column:])
            half = int(np.searchsorted(points[risen[:many]], points[i] // 2, side="right"))
            if half:
                left = risen[:half]
                parts = worths[left] + worths[along[points[i] - points[left]]]
                np.maximum(row, parts.max(axis=0), out=row)
            if (row > before).any():
                self._rip(row)
                risen[many] = i
                many += 1
            worths[i] = row
        return Worths(board, tuple(prices), self.along, self.across, worths)

    def _rip(self, row: Whole) -> None:
        """Raises a row to the best that rips make of its boards, any number side by side."""
        while True:
            steps = np.flatnonzero(np.diff(row) > 0) + 1
            # A board narrower than the step has index -1 in the table and finds this last cell.
            padded = np.append(row, -(1 << 60))
            raised = (padded[self.across_less[:, steps]] + row[steps]).max(axis=1)
            if (raised <= row).all():
                return
            np.maximum(row, raised, out=row)


def make_programme(board: Board) -> Programme:
    """The programme of a board, laid so that its longer table runs row by row."""
    along = board_points(board.length, board.lengths)
    across = board_points(board.width, board.widths)
    if len(along) < len(across):
        board = Board(board.width, board.length, board.widths, board.lengths, board.kinds)
        along, across = across, along
    return Programme(board, along, across, steps_down(across, across.points))


def pattern_counts(worths: Worths, kinds: int) -> list[int]:
    """How many pieces of each kind a dearest pattern of the whole sheet holds."""
    counts = [0] * kinds
    board, table = worths.board, worths.table
    along, across = worths.along, worths.across
    ways = list(zip(board.lengths, board.widths, board.kinds, strict=True))
    todo = [(len(along) - 1, len(across) - 1)]
    while todo:
        i, j = todo.pop()
        worth = table[i, j]
        if worth == 0:
            continue
        length, width = along.points[i], across.points[j]
        found = next(
            (
                kind
                for x, y, kind in ways
                if x <= length and y <= width and worths.prices[kind] == worth
            ),
            None,
        )
        if found is not None:
            counts[found] += 1
            continue
        other = along.floor[length - along.points[1 : i + 1]]
        split = np.flatnonzero(table[1 : i + 1, j] + table[other, j] == worth)
        split = split[(other[split] > 0) & (split + 1 < i)]
        if len(split):
            k = int(split[0])
            todo += [(k + 1, j), (int(other[k]), j)]
            continue
        other = across.floor[width - across.points[1 : j + 1]]
        split = np.flatnonzero(table[i, 1 : j + 1] + table[i, other] == worth)
        split = split[(other[split] > 0) & (split + 1 < j)]
        if len(split):
            k = int(split[0])
            todo += [(i, k + 1), (i, int(other[k]))]
            continue
        # Nothing is cut here: the worth came from the next shorter or narrower board.
        todo.append((i - 1, j) if table[i - 1, j] == worth else (i, j - 1))
    return counts
