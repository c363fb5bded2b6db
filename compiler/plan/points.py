"""The sizes a board can usefully have, as sorted arrays, and the way down to the next of them.

Pieces can be pushed to one corner, so only sums of piece sizes matter; seen from the far edge, only
what is left of the capacity after such a sum. Both views together leave few points (reduced
raster points: Scheithauer and Terno, Oper. Res. Letters 20 (1997), from memory).
"""

from collections.abc import Iterable

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

Whole = NDArray[np.int64]


@frozen(eq=False)
class Axis:
    """Points in rising order, from 0 or more to the capacity, and for each size its point.

    `floor[size]` is the index of the largest point not above the size, -1 under the first.
    """

    points: Whole
    floor: Whole

    def __len__(self) -> int:
        return len(self.points)


def sums(capacity: int, sizes: Iterable[int]) -> Whole:
    """Every sum of sizes, each taken any number of times, from 0 to the capacity."""
    mask = (1 << (capacity + 1)) - 1
    reach = 1
    for size in sorted(set(sizes)):
        step = size
        while step <= capacity:
            more = (reach | reach << step) & mask
            if more == reach:
                break
            reach = more
            step *= 2
    bits = np.frombuffer(reach.to_bytes(capacity // 8 + 1, "little"), dtype=np.uint8)
    return np.flatnonzero(np.unpackbits(bits, bitorder="little")).astype(np.int64)


def rest_points(capacity: int, sizes: Iterable[int]) -> Axis:
    """What can be left of the capacity after pieces are cut off it, each rounded down to a sum."""
    normal = sums(capacity, sizes)
    rests = normal[np.searchsorted(normal, capacity - normal, side="right") - 1]
    return _axis(capacity, np.unique(np.append(rests, 0)))


def board_points(capacity: int, sizes: Iterable[int]) -> Axis:
    """The sizes of boards that cuts of the capacity can yield: sums up to its half, rests above."""
    normal = sums(capacity, sizes)
    rests = normal[np.searchsorted(normal, capacity - normal, side="right") - 1]
    half = capacity // 2
    return _axis(capacity, np.unique(np.concatenate([normal[normal <= half], rests[rests > half]])))


def _axis(capacity: int, points: Whole) -> Axis:
    marks = np.zeros(capacity + 1, dtype=np.int64)
    marks[points] = 1
    return Axis(points, np.cumsum(marks) - 1)


def steps_down(axis: Axis, sizes: Whole) -> Whole:
    """Rows by point, columns by size: the index of the point less the size, -1 where none is."""
    less = axis.points[:, None] - sizes[None, :]
    return np.where(less >= 0, axis.floor[np.maximum(less, 0)], -1)
