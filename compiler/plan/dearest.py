"""The dearest sheet at given prices, worked out anew for a certificate: tables of its own.

Nothing of the planner is imported; `proof.py` rests on it, and both are bounded in their work.
"""

from collections.abc import Sequence
from itertools import product
from math import prod
from typing import TYPE_CHECKING, Final

from attrs import frozen

if TYPE_CHECKING:
    from numpy import int64
    from numpy.typing import NDArray

Rectangle = tuple[int, int]

MOST_WORK: Final = 20_000_000_000
"""Table cells that a bound by prices may take to work out again: about a minute. A certificate that
asks for more is refused, whoever wrote it."""

MOST_CELLS: Final = 60_000_000
"""Cells that its largest table may have."""

LARGEST_WORTH: Final = 1 << 62
"""What a sheet may be worth at most: the tables count in 64 bits."""


class TooMuchWork(ValueError):
    """A certificate that can't be checked in bounded time, or whose figures pass the tables."""


@frozen
class Item:
    """A way a piece may lie, its price, and which counter counts it: -1 for none."""

    length: int
    width: int
    price: int
    counter: int


def dearest_pattern(sheet: Rectangle, items: Sequence[Item], caps: Sequence[int]) -> int:
    """The most a sheet cut through in any number of stages is worth.

    A board is worth its dearest piece, or the two boards a cut makes of it. A board that is no
    sum of piece sizes is worth what the next smaller sum is; the smaller board of a cut is at most
    half the sheet, the larger one what is left of the sheet: other sizes are never asked for.
    Copies are unlimited but for counted pieces, of which a board in a state may hold as many as
    the state says; a cut shares the state out between its two boards.
    """
    import numpy as np

    items = [i for i in items if i.length <= sheet[0] and i.width <= sheet[1] and i.price > 0]
    lengths = _sizes(sheet[0], {item.length for item in items})
    widths = _sizes(sheet[1], {item.width for item in items})
    _bounded(sheet, items, caps, len(lengths), len(widths))
    below = np.searchsorted(widths, widths[:, None] - widths[None, :], side="right") - 1
    states, one, two, starts = _shares(caps)
    worth = np.zeros((len(lengths), len(states), len(widths)), dtype=np.int64)
    for i in range(1, len(lengths)):
        row = worth[i - 1].copy()
        for item in items:
            if lengths[i - 1] < item.length <= lengths[i]:
                held = [item.counter < 0 or state[item.counter] > 0 for state in states]
                lies = np.array(held)[:, None] & (widths >= item.width)[None, :]
                row = np.maximum(row, np.where(lies, item.price, 0))
        for k in range(1, int(np.searchsorted(lengths, lengths[i] / 2, side="right"))):
            other = int(np.searchsorted(lengths, lengths[i] - lengths[k], side="right")) - 1
            if (worth[k] > worth[k - 1]).any():
                both = worth[k][one] + worth[other][two]
                row = np.maximum(row, np.maximum.reduceat(both, starts))
        while True:
            before = row
            for k in range(1, len(widths)):
                if (row[:, k] > row[:, k - 1]).any():
                    fits = widths >= widths[k]
                    both = row[one, k][:, None] + row[two][:, below[fits, k]]
                    best = np.maximum.reduceat(both, starts)
                    row = row.copy()
                    row[:, fits] = np.maximum(row[:, fits], best)
            if (row == before).all():
                break
        worth[i] = row
    return int(worth[-1, -1, -1])


def dearest_of_three_stages(sheet: Rectangle, items: Sequence[Item], caps: Sequence[int]) -> int:
    """The most a sheet is worth that is cut into strips along it, these into blocks, and blocks
    side by side into pieces, each trimmed to its length; counted as in `dearest_pattern`."""
    import numpy as np

    items = [i for i in items if i.length <= sheet[0] and i.width <= sheet[1] and i.price > 0]
    lengths = _sizes(sheet[0], {item.length for item in items})
    widths = _sizes(sheet[1], {item.width for item in items})
    _bounded(sheet, items, caps, len(lengths), len(widths))
    states, one, two, starts = _shares(caps)
    at = {state: number for number, state in enumerate(states)}
    # What a block as long as the pieces seen so far is worth, by state and width.
    block = np.zeros((len(states), len(widths)), dtype=np.int64)
    blocks: list[tuple[int, NDArray[int64]]] = []
    for long in sorted({item.length for item in items}):
        fresh = [item for item in items if item.length == long]
        before = None
        while before is None or (block != before).any():
            before = block.copy()
            for item in fresh:
                c = item.counter
                fits = widths >= item.width
                rest = np.searchsorted(widths, widths[fits] - item.width, side="right") - 1
                for number, state in enumerate(states):
                    if c < 0 or state[c] > 0:
                        less = number if c < 0 else at[(*state[:c], state[c] - 1, *state[c + 1 :])]
                        held = block[less][rest] + item.price
                        block[number, fits] = np.maximum(block[number, fits], held)
        blocks.append((long, block.copy()))
    strip = np.zeros((len(lengths), len(states), len(widths)), dtype=np.int64)
    for i in range(1, len(lengths)):
        strip[i] = strip[i - 1]
        for long, held in blocks:
            if long <= lengths[i]:
                left = int(np.searchsorted(lengths, lengths[i] - long, side="right")) - 1
                both = np.maximum.reduceat(held[one] + strip[left][two], starts)
                strip[i] = np.maximum(strip[i], both)
    full = strip[-1]
    sheets = np.zeros_like(full)
    for k in range(1, len(widths)):
        rest = np.searchsorted(widths, widths[k] - widths[1 : k + 1], side="right") - 1
        both = (full[one, 1 : k + 1] + sheets[two][:, rest]).max(axis=1)
        sheets[:, k] = np.maximum(sheets[:, k - 1], np.maximum.reduceat(both, starts))
    return int(sheets[-1, -1])


def _shares(
    caps: Sequence[int],
) -> tuple[list[tuple[int, ...]], "NDArray[int64]", "NDArray[int64]", "NDArray[int64]"]:
    """All states, and the pairs of states that share each one out; where a state's pairs begin."""
    import numpy as np

    states = list(product(*(range(cap + 1) for cap in caps)))
    at = {state: number for number, state in enumerate(states)}
    shares = [
        (at[part], at[tuple(a - b for a, b in zip(state, part, strict=True))], number)
        for number, state in enumerate(states)
        for part in product(*(range(count + 1) for count in state))
    ]
    one, two, whole = (np.array(column, dtype=np.int64) for column in zip(*shares, strict=True))
    return states, one, two, np.searchsorted(whole, np.arange(len(states)))


def _bounded(
    sheet: Rectangle, items: Sequence[Item], caps: Sequence[int], lengths: int, widths: int
) -> None:
    """Raises TooMuchWork where the tables would be too large, too slow, or overflow."""
    states = prod(cap + 1 for cap in caps)
    pairs = prod((cap + 1) * (cap + 2) // 2 for cap in caps)
    if max(widths * widths, lengths * widths * states, pairs * widths) > MOST_CELLS:
        raise TooMuchWork("its tables are too large to be worked out again")
    if lengths * widths * pairs * (lengths // 4 + 2 * widths) > MOST_WORK:
        raise TooMuchWork("it takes too long to be worked out again")
    smallest = min((item.length * item.width for item in items), default=1)
    dearest = max((item.price for item in items), default=0)
    if dearest * (sheet[0] * sheet[1] // smallest) >= LARGEST_WORTH:
        raise TooMuchWork("its prices are too large to be added")


def _sizes(capacity: int, pieces: set[int]) -> "NDArray[int64]":
    """Sums of pieces up to half the capacity; above it what such sums leave, rounded to a sum."""
    import numpy as np

    reach, mask = 1, (1 << (capacity + 1)) - 1
    for size in sorted(pieces):
        while (more := (reach | reach << size) & mask) != reach:
            reach = more
    bits = np.frombuffer(reach.to_bytes(capacity // 8 + 1, "little"), dtype=np.uint8)
    sums = np.flatnonzero(np.unpackbits(bits, bitorder="little")).astype(np.int64)
    left = sums[np.searchsorted(sums, capacity - sums, side="right") - 1]
    return np.unique(np.concatenate([sums[2 * sums <= capacity], left[2 * left > capacity]]))
