"""A slow slider: whether a body can be pushed to its place, found by pushing it.

It shares nothing with the proof it checks but the shape of a part. Space is a grid of cells, each
full or empty; a body is set down far outside, moved in one cell at a time, and looked at after
every move.
"""

from collections.abc import Callable, Collection, Iterable
from fractions import Fraction
from random import Random

import numpy as np
from attrs import define, field, frozen
from numpy.typing import NDArray

from casewright.compiler.model import Assembly, Box, Order, Part, Step

Cells = NDArray[np.bool_]
Lines = list[Fraction]

ENDS = [("across", -1), ("across", 1), ("up", -1), ("up", 1), ("deep", -1), ("deep", 1)]


@frozen
class Grid:
    """The lines between cells along each axis."""

    across: Lines
    up: Lines
    deep: Lines

    def empty(self) -> Cells:
        counts = (len(self.across) - 1, len(self.up) - 1, len(self.deep) - 1)
        return np.zeros(counts, dtype=bool)

    def fill(self, cells: Cells, box: Box, full: bool) -> None:
        """Fills or empties the cells of `box`, whose faces lie on lines or outside the grid."""
        stretches = []
        for lines, (low, high) in (
            (self.across, box.across),
            (self.up, box.up),
            (self.deep, box.deep),
        ):
            inside = [number for number, line in enumerate(lines[:-1]) if low <= line < high]
            if not inside:
                return
            stretches.append(slice(inside[0], inside[-1] + 1))
        cells[tuple(stretches)] = full

    def cells(self, parts: Iterable[Part]) -> Cells:
        """What `parts`, less their cuts, fill."""
        filled = self.empty()
        for part in parts:
            one = self.empty()
            self.fill(one, part.box, True)
            for cut in part.cuts:
                self.fill(one, cut.box, False)
            filled |= one
        return filled


def even_grid(parts: Iterable[Part], cell: Fraction) -> Grid:
    """A grid of equal cells around `parts`, whose faces are all a whole number of cells from
    nothing: with it every move is as long as a cell."""
    boxes = [part.box for part in parts]

    def lines(ranges: list[tuple[Fraction, Fraction]]) -> Lines:
        low, high = min(low for low, _ in ranges), max(high for _, high in ranges)
        assert all((end / cell).denominator == 1 for pair in ranges for end in pair)
        return [low + cell * step for step in range(int((high - low) / cell) + 1)]

    return Grid(
        lines([box.across for box in boxes]),
        lines([box.up for box in boxes]),
        lines([box.deep for box in boxes]),
    )


def uneven_grid(parts: Iterable[Part]) -> Grid:
    """A grid with a line at every face and cut of `parts`, for parts of any measure.

    Moves are then from line to line. A straight push meets something or not by the order of the
    faces along the way alone, so squeezing or stretching space between them changes no answer.
    """
    boxes = [box for part in parts for box in (part.box, *(cut.box for cut in part.cuts))]

    def lines(ranges: list[tuple[Fraction, Fraction]]) -> Lines:
        return sorted({end for pair in ranges for end in pair})

    return Grid(
        lines([box.across for box in boxes]),
        lines([box.up for box in boxes]),
        lines([box.deep for box in boxes]),
    )


def can_slide(body: Cells, standing: Cells, axis: int, side: int) -> bool:
    """Whether `body` comes to its place from far along `axis`, from its low or high end."""
    count = body.shape[axis]
    for away in range(count, -1, -1):
        moved = np.zeros_like(body)
        to, out_of = [slice(None)] * 3, [slice(None)] * 3
        to[axis] = slice(away, count) if side == 1 else slice(0, count - away)
        out_of[axis] = slice(0, count - away) if side == 1 else slice(away, count)
        moved[tuple(to)] = body[tuple(out_of)]
        if (moved & standing).any():
            return False
    return True


def free_ways(grid: Grid, body: Iterable[Part], standing: Iterable[Part]) -> set[tuple[str, int]]:
    """The ends from which `body` can be pushed to its place."""
    moving, still = grid.cells(body), grid.cells(standing)
    return {
        (name, side)
        for number, (name, side) in enumerate(ENDS)
        if can_slide(moving, still, number // 2, side)
    }


@define
class PairSlider:
    """The same by pairs of parts, each pair pushed once: what meets nothing of what stands meets
    no part of it. For units of many parts and many orders."""

    barred: dict[tuple[str, str], set[tuple[str, int]]] = field(factory=dict)

    def free_ways(self, body: Iterable[Part], standing: Collection[Part]) -> set[tuple[str, int]]:
        free = set(ENDS)
        for mover in body:
            for other in standing:
                key = (mover.path, other.path)
                if key not in self.barred:
                    grid = uneven_grid([mover, other])
                    self.barred[key] = set(ENDS) - free_ways(grid, [mover], [other])
                free -= self.barred[key]
        return free


@frozen
class Tally:
    """What came of checking a proof: how often a way was free and none was, and where the slider
    says otherwise."""

    free: int
    barred: int
    disagreements: tuple[str, ...]


def check_random_orders(
    parts: tuple[Part, ...],
    assemblies: tuple[Assembly, ...],
    prove: Callable[[tuple[Order, ...]], tuple[Step, ...]],
    ways: Callable[[list[Part], list[Part]], set[tuple[str, int]]],
    times: int,
    seed: int = 2617,
) -> Tally:
    """Brings everything into every assembly in `times` random orders, and compares what `prove`
    says of each way in with the ways the slider finds. `parts` have their grooves."""
    things: dict[str, list[str]] = {}
    for part in parts:
        things.setdefault(part.assembly, []).append(part.path)
    for assembly in assemblies:
        things.setdefault(assembly.path, []).extend(assembly.assemblies)
    chance = Random(seed)
    free = barred = 0
    wrong: list[str] = []
    for _ in range(times):
        for told in things.values():
            chance.shuffle(told)
        orders = tuple(Order(into, tuple(told), "", "", None) for into, told in things.items())
        for step in prove(orders):
            standing: list[Part] = []
            for way in step.ways:
                body = [
                    part
                    for part in parts
                    if part.path == way.thing or part.path.startswith(f"{way.thing}.")
                ]
                found = ways(body, standing)
                if standing and way.axis:
                    free += 1
                elif standing:
                    barred += 1
                if standing and ((way.axis, way.side) not in found if way.axis else found):
                    past = ", ".join(part.path for part in standing)
                    wrong.append(f"{way.thing} {way.axis}{way.side} of {found} past {past}")
                standing.extend(body)
    return Tally(free, barred, tuple(wrong))
