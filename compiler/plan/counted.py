"""The dearest pattern of through cuts when some kinds may be used no more often than asked.

The programme of `guillotine.py` with counters: a board is worth what it can yield with at most so
many pieces of each counted kind. Other kinds stay unlimited, so the value is still never below
the true one: a relaxation of the state space, tightened kind by kind.
"""

from collections.abc import Mapping, Sequence
from itertools import product
from typing import Final

import numpy as np
from attrs import frozen

from casewright.compiler.plan.guillotine import Programme
from casewright.compiler.plan.points import Whole

CHUNK: Final = 1_000_000
"""Cells that are added up at a time: it bounds the memory of a run."""


@frozen(eq=False)
class Counters:
    """All ways to give away counted pieces, and for each the ways to share it out in two.

    `kinds` are the counted kinds; a state says how many of each may be used. `first` and `second`
    list the pairs of states that share a state; the pairs of state `s` begin at `starts[s]`.
    """

    kinds: tuple[int, ...]
    states: tuple[tuple[int, ...], ...]
    first: Whole
    second: Whole
    starts: Whole

    @property
    def pairs(self) -> int:
        """How many pairs of states there are: the work grows with it."""
        return len(self.first)


def make_counters(caps: Mapping[int, int]) -> Counters:
    """Counters for the kinds, each up to its cap."""
    kinds = tuple(sorted(caps))
    states = tuple(product(*(range(caps[kind] + 1) for kind in kinds)))
    number = {state: index for index, state in enumerate(states)}
    first: list[int] = []
    second: list[int] = []
    starts: list[int] = []
    for state in states:
        starts.append(len(first))
        for part in product(*(range(count + 1) for count in state)):
            first.append(number[part])
            second.append(number[tuple(a - b for a, b in zip(state, part, strict=True))])
    return Counters(
        kinds,
        states,
        np.array(first, dtype=np.int64),
        np.array(second, dtype=np.int64),
        np.array(starts, dtype=np.int64),
    )


def pairs_of(caps: Sequence[int]) -> int:
    """How many pairs the counters of such caps have."""
    total = 1
    for cap in caps:
        total *= (cap + 1) * (cap + 2) // 2
    return total


@frozen(eq=False)
class CountedWorths:
    """What every board is worth in every state; axes of `table` are along, state, across."""

    programme: Programme
    counters: Counters
    prices: tuple[int, ...]
    table: Whole

    @property
    def value(self) -> int:
        """The worth of the whole sheet with all that is asked for."""
        return int(self.table[-1, -1, -1])


def counted_work(programme: Programme, pairs: int) -> int:
    """Thousands of table cells a counted run looks at, about."""
    rows, columns = len(programme.along), len(programme.across)
    return 1 + rows * columns * pairs * (rows // 4 + 2 * columns) // 1000


def run_counted(programme: Programme, counters: Counters, prices: Sequence[int]) -> CountedWorths:
    """The worths at these prices, one a kind, not negative."""
    board, along, across = programme.board, programme.along, programme.across
    points = along.points
    table = np.zeros((len(along), len(counters.states), len(across)), dtype=np.int64)
    allowed = {
        kind: np.array([state[at] > 0 for state in counters.states])
        for at, kind in enumerate(counters.kinds)
    }
    anyway = np.ones(len(counters.states), dtype=bool)
    rows = np.searchsorted(points, np.array(board.lengths, dtype=np.int64)).tolist()
    columns = np.searchsorted(across.points, np.array(board.widths, dtype=np.int64)).tolist()
    starts: dict[int, list[tuple[int, int]]] = {}
    for row_at, column, kind in zip(rows, columns, board.kinds, strict=True):
        if prices[kind] > 0:
            starts.setdefault(row_at, []).append((column, kind))
    risen = np.zeros(len(along), dtype=np.int64)
    many = 0
    chunk = max(1, CHUNK // (counters.pairs * len(across)))
    for i in range(1, len(along)):
        before = table[i - 1]
        row = before.copy()
        for column, kind in starts.get(i, ()):
            states = allowed.get(kind, anyway)
            row[states, column:] = np.maximum(row[states, column:], prices[kind])
        half = int(np.searchsorted(points[risen[:many]], points[i] // 2, side="right"))
        if half:
            both: Whole | None = None
            for begun in range(0, half, chunk):
                left = risen[begun : min(begun + chunk, half)]
                other = along.floor[points[i] - points[left]]
                parts = table[left][:, counters.first] + table[other][:, counters.second]
                most = parts.max(axis=0)
                both = most if both is None else np.maximum(both, most, out=both)
            if both is not None:
                np.maximum(row, np.maximum.reduceat(both, counters.starts), out=row)
        if (row > before).any():
            _rip(programme, counters, row)
            risen[many] = i
            many += 1
        table[i] = row
    return CountedWorths(programme, counters, tuple(prices), table)


def _rip(programme: Programme, counters: Counters, row: Whole) -> None:
    """Raises a row to the best that rips make of its boards, pieces shared out between them."""
    states, _ = row.shape
    padding = np.full((states, 1), -(1 << 60), dtype=np.int64)
    while True:
        steps = np.flatnonzero((np.diff(row, axis=1) > 0).any(axis=0)) + 1
        padded = np.concatenate([row, padding], axis=1)
        rest = padded[:, programme.across_less[:, steps]]
        raised = np.full((len(counters.first), row.shape[1]), -(1 << 60), dtype=np.int64)
        for at, step in enumerate(steps.tolist()):
            both = rest[counters.second, :, at] + row[counters.first, step][:, None]
            np.maximum(raised, both, out=raised)
        best = np.maximum.reduceat(raised, counters.starts)
        if (best <= row).all():
            return
        np.maximum(row, best, out=row)


def counted_pattern(worths: CountedWorths, kinds: int) -> list[int]:
    """How many pieces of each kind a dearest pattern of the whole sheet holds."""
    counts = [0] * kinds
    counters, table = worths.counters, worths.table
    board = worths.programme.board
    along, across = worths.programme.along, worths.programme.across
    place = {kind: at for at, kind in enumerate(counters.kinds)}
    ends = [*counters.starts.tolist()[1:], counters.pairs]
    ways = list(zip(board.lengths, board.widths, board.kinds, strict=True))
    todo = [(len(along) - 1, len(counters.states) - 1, len(across) - 1)]
    while todo:
        i, s, j = todo.pop()
        worth = table[i, s, j]
        if worth == 0:
            continue
        if i and table[i - 1, s, j] == worth:
            todo.append((i - 1, s, j))
            continue
        if j and table[i, s, j - 1] == worth:
            todo.append((i, s, j - 1))
            continue
        length, width = along.points[i], across.points[j]
        found = next(
            (
                kind
                for x, y, kind in ways
                if x <= length
                and y <= width
                and worths.prices[kind] == worth
                and (kind not in place or counters.states[s][place[kind]] > 0)
            ),
            None,
        )
        if found is not None:
            counts[found] += 1
            continue
        some = slice(int(counters.starts[s]), ends[s])
        first, second = counters.first[some], counters.second[some]
        other = along.floor[length - along.points[1:i]]
        split = np.argwhere(table[1:i, first, j] + table[other][:, second, j] == worth)
        if len(split):
            k, pair = split[0].tolist()
            todo += [(k + 1, int(first[pair]), j), (int(other[k]), int(second[pair]), j)]
            continue
        other = across.floor[width - across.points[1:j]]
        split = np.argwhere(table[i, first, 1:j] + table[i][second][:, other] == worth)
        pair, k = split[0].tolist()
        todo += [(i, int(first[pair]), k + 1), (i, int(second[pair]), int(other[k]))]
    return counts
