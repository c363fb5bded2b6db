"""Exact geometry in plan: convex outlines, sectors of a circle, and whether they share room.

Everything is rational: directions are rational points of the unit circle, and radii are compared
by their squares. Two shapes that only touch share nothing.
"""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from attrs import frozen

from casewright.compiler.model import Direction

Point = tuple[Fraction, Fraction]
Outline = tuple[Point, ...]
"""A convex outline, its corners in order."""


@frozen
class Sector:
    """What a line from `centre` to `start` sweeps, turning against the clock by less than half a
    turn: `turn` is the cosine and sine of the angle."""

    centre: Point
    start: Point
    turn: Direction


Shape = Outline | Sector


def rectangle(low: Point, high: Point) -> Outline:
    return (low, (high[0], low[1]), high, (low[0], high[1]))


def turned_about(point: Point, centre: Point, turn: Direction) -> Point:
    x, y = point[0] - centre[0], point[1] - centre[1]
    return (centre[0] + x * turn[0] - y * turn[1], centre[1] + x * turn[1] + y * turn[0])


def moved(shape: Shape, across: Fraction) -> Shape:
    """The shape, moved along x."""

    def move(point: Point) -> Point:
        return (point[0] + across, point[1])

    if isinstance(shape, Sector):
        return Sector(move(shape.centre), move(shape.start), shape.turn)
    return tuple(move(point) for point in shape)


def cross(origin: Point, first: Point, second: Point) -> Fraction:
    """More than nothing where `second` lies to the left of the line from `origin` to `first`."""
    return (first[0] - origin[0]) * (second[1] - origin[1]) - (first[1] - origin[1]) * (
        second[0] - origin[0]
    )


def area_twice(outline: Sequence[Point]) -> Fraction:
    return abs(
        sum(
            (
                a[0] * b[1] - a[1] * b[0]
                for a, b in zip(outline, (*outline[1:], *outline[:1]), strict=True)
            ),
            Fraction(0),
        )
    )


def _counter_clockwise(outline: Outline) -> Outline:
    signed = sum(
        (
            a[0] * b[1] - a[1] * b[0]
            for a, b in zip(outline, (*outline[1:], *outline[:1]), strict=True)
        ),
        Fraction(0),
    )
    return outline if signed >= 0 else tuple(reversed(outline))


def clipped(outline: Sequence[Point], begin: Point, end: Point) -> list[Point]:
    """What of an outline lies to the left of the line from `begin` to `end`, or on it."""
    kept: list[Point] = []
    for a, b in zip(outline, (*outline[1:], *outline[:1]), strict=True):
        side_a, side_b = cross(begin, end, a), cross(begin, end, b)
        if side_a >= 0:
            kept.append(a)
        if side_a * side_b < 0:
            share = side_a / (side_a - side_b)
            kept.append((a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share))
    return kept


def common(first: Outline, second: Outline) -> list[Point]:
    """The outline that two outlines share; fewer than three corners where they share nothing."""
    kept: list[Point] = list(first)
    turned = _counter_clockwise(second)
    for a, b in zip(turned, (*turned[1:], *turned[:1]), strict=True):
        kept = clipped(kept, a, b) if kept else kept
    return kept if len(kept) > 2 and area_twice(kept) > 0 else []


def _distance_squared(point: Point, a: Point, b: Point) -> Fraction:
    """From a point to a stretch of a line."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    long = dx * dx + dy * dy
    share = Fraction(0)
    if long:
        share = ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / long
        share = max(Fraction(0), min(Fraction(1), share))
    x, y = a[0] + dx * share - point[0], a[1] + dy * share - point[1]
    return x * x + y * y


def _inside(point: Point, outline: Sequence[Point]) -> bool:
    sides = [cross(a, b, point) for a, b in zip(outline, (*outline[1:], *outline[:1]), strict=True)]
    return all(side >= 0 for side in sides) or all(side <= 0 for side in sides)


def shares(shape: Shape, outline: Outline) -> bool:
    """Whether a shape and an outline have room in common, exactly."""
    around = bounds((outline,))
    if not isinstance(shape, Sector):
        return apart(bounds((shape,)), around) is False and bool(common(shape, outline))
    x = max(around[0] - shape.centre[0], shape.centre[0] - around[2], Fraction(0))
    y = max(around[1] - shape.centre[1], shape.centre[1] - around[3], Fraction(0))
    reach = (shape.start[0] - shape.centre[0]) ** 2 + (shape.start[1] - shape.centre[1]) ** 2
    if x * x + y * y >= reach or apart(bounds((shape,)), around):
        return False
    end = turned_about(shape.start, shape.centre, shape.turn)
    kept = clipped(outline, shape.centre, shape.start)
    kept = clipped(kept, end, shape.centre) if len(kept) > 2 else []
    if len(kept) < 3 or area_twice(kept) == 0:
        return False
    if _inside(shape.centre, kept):
        return True
    return any(
        _distance_squared(shape.centre, a, b) < reach
        for a, b in zip(kept, (*kept[1:], *kept[:1]), strict=True)
    )


def outline_of(shape: Shape, steps: Sequence[Direction]) -> Outline:
    """A shape as an outline; a sector by chords between the turns `steps`."""
    if not isinstance(shape, Sector):
        return shape
    rim = [turned_about(shape.start, shape.centre, step) for step in steps]
    return (shape.centre, shape.start, *rim)


Bounds = tuple[Fraction, Fraction, Fraction, Fraction]
"""A box around something: least x, least y, greatest x, greatest y."""

AXES = ((1, 0), (0, 1), (-1, 0), (0, -1))


def apart(one: Bounds, other: Bounds) -> bool:
    """Whether two boxes share no room."""
    return one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]


def bounds(shapes: Iterable[Shape]) -> Bounds:
    """A box around shapes. A sector's is never less than it is, and at most a little more."""
    xs: list[Fraction] = []
    ys: list[Fraction] = []
    for shape in shapes:
        for x, y in _extremes(shape) if isinstance(shape, Sector) else shape:
            xs.append(x)
            ys.append(y)
    return min(xs), min(ys), max(xs), max(ys)


def _extremes(sector: Sector) -> Iterator[Point]:
    """Places around a sector: its centre, its ends, and how far it may reach along an axis that it
    turns past. A radius is never more than its longer leg and half the shorter."""
    end = turned_about(sector.start, sector.centre, sector.turn)
    yield sector.centre
    yield sector.start
    yield end
    x, y = sector.centre
    legs = sorted((abs(sector.start[0] - x), abs(sector.start[1] - y)))
    reach = legs[1] + legs[0] / 2
    for along, up in AXES:
        place = (x + along * reach, y + up * reach)
        past = cross(sector.centre, sector.start, place) >= 0
        if past and cross(sector.centre, place, end) >= 0:
            yield place
