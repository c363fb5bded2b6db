"""Exact geometry of convex outlines in plan, for what isn't square to its unit.

Everything is rational. Where places were rounded (a root, an angle), outlines that should meet miss
one another by a little: `PLAY` is how much of that is nothing. Coordinates are those of a unit,
across and deep; an outline's corners stand in order, either way around.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import combinations

from attrs import frozen

Point = tuple[Fraction, Fraction]
Outline = tuple[Point, ...]

PLAY = Fraction(1, 1000)
"""Inches by which things of different turns may miss one another: places are rounded once, at
1/1000 in or 0.01 mm."""


@frozen
class Meeting:
    """Where two outlines meet along an edge: from `start` to `end` on an edge of the first, whose
    outward side is towards the second."""

    start: Point
    end: Point


def rectangle(across: tuple[Fraction, Fraction], deep: tuple[Fraction, Fraction]) -> Outline:
    (low, high), (front, back) = across, deep
    return ((low, front), (high, front), (high, back), (low, back))


def area(outline: Sequence[Point]) -> Fraction:
    """Square inches; nothing for fewer than three corners."""
    return abs(_signed(outline)) / 2


def _signed(outline: Sequence[Point]) -> Fraction:
    return sum(
        (a[0] * b[1] - a[1] * b[0] for a, b in sides(outline)),
        Fraction(0),
    )


def sides(outline: Sequence[Point]) -> Iterator[tuple[Point, Point]]:
    yield from zip(outline, (*outline[1:], *outline[:1]), strict=True)


def around(outline: Outline) -> Outline:
    """The outline with its corners against the clock."""
    return outline if _signed(outline) >= 0 else tuple(reversed(outline))


def cross(origin: Point, first: Point, second: Point) -> Fraction:
    """More than nothing where `second` lies to the left of the line from `origin` to `first`."""
    return (first[0] - origin[0]) * (second[1] - origin[1]) - (first[1] - origin[1]) * (
        second[0] - origin[0]
    )


def left_of(outline: Outline, begin: Point, end: Point) -> Outline:
    """What of an outline lies to the left of the line from `begin` to `end`, or on it."""
    kept: list[Point] = []
    for a, b in sides(outline):
        side_a, side_b = cross(begin, end, a), cross(begin, end, b)
        if side_a >= 0:
            kept.append(a)
        if side_a * side_b < 0:
            share = side_a / (side_a - side_b)
            kept.append((a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share))
    return tuple(dict.fromkeys(kept))


def common(one: Outline, other: Outline) -> Outline:
    """The outline that two outlines share; nothing where that has no area."""
    kept = one
    for a, b in sides(around(other)):
        kept = left_of(kept, a, b)
        if len(kept) < 3:
            return ()
    return kept if area(kept) > 0 else ()


def _beyond(edge: tuple[Point, Point], outline: Outline) -> tuple[Fraction, Fraction]:
    """How far an outline stays outside an edge of one that runs against the clock, times the
    edge's length; and the square of that length."""
    a, b = edge
    length = (b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2
    return min(-cross(a, b, point) for point in outline), length


def share_room(one: Outline, other: Outline, play: Fraction = PLAY) -> bool:
    """Whether two outlines enter one another by more than `play`, by separating lines."""
    for first, second in ((around(one), other), (around(other), one)):
        for edge in sides(first):
            off, square = _beyond(edge, second)
            if off >= 0 or off * off <= play * play * square:
                return False
    return True


def hull(points: Sequence[Point]) -> Outline:
    """The least convex outline around some places, against the clock."""
    ordered = sorted(set(points))

    def chain(given: Sequence[Point]) -> list[Point]:
        kept: list[Point] = []
        for point in given:
            while len(kept) > 1 and cross(kept[-2], kept[-1], point) <= 0:
                kept.pop()
            kept.append(point)
        return kept

    return (*chain(ordered)[:-1], *chain(ordered[::-1])[:-1])


def drawn_out(outline: Outline, by: Point) -> Outline:
    """What an outline sweeps when it slides by a way."""
    return hull((*outline, *((x + by[0], y + by[1]) for x, y in outline)))


def meetings(one: Outline, other: Outline, play: Fraction = PLAY) -> Iterator[Meeting]:
    """The edges of `one` along which `other` lies on it, face to face within `play`."""
    for a, b in sides(around(one)):
        dx, dy = b[0] - a[0], b[1] - a[1]
        square = dx * dx + dy * dy
        for c, d in sides(around(other)):
            if (d[0] - c[0]) * dx + (d[1] - c[1]) * dy >= 0:
                continue
            # The other's edge runs the other way: its end lies towards this one's start.
            from_a, from_b = ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy for p in (d, c))
            start, end = max(from_a, Fraction(0)), min(from_b, square)
            if end <= start:
                continue
            off_d, off_c = cross(a, b, d), cross(a, b, c)
            slope = (off_c - off_d) / (from_b - from_a)
            offs = (off_d + slope * (at - from_a) for at in (start, end))
            if all(off * off <= play * play * square for off in offs):
                yield Meeting(
                    *((a[0] + dx * at / square, a[1] + dy * at / square) for at in (start, end))
                )


def largest_rectangle(outline: Outline) -> tuple[tuple[Fraction, Fraction], ...]:
    """A large rectangle square to the axes inside a convex outline, between two of its corners'
    places across: its ranges across and deep, or nothing."""
    best: tuple[Fraction, tuple[tuple[Fraction, Fraction], ...]] = (Fraction(0), ())
    places = sorted({point[0] for point in outline})
    ranges = {at: _range_at(outline, at) for at in places}
    for left, right in combinations(places, 2):
        low = max(ranges[left][0], ranges[right][0])
        high = min(ranges[left][1], ranges[right][1])
        size = (right - left) * (high - low)
        if high > low and size > best[0]:
            best = size, ((left, right), (low, high))
    return best[1]


def _range_at(outline: Outline, across: Fraction) -> tuple[Fraction, Fraction]:
    found = []
    for a, b in sides(outline):
        if a[0] == across:
            found.append(a[1])
        elif (a[0] < across) != (b[0] < across) and a[0] != b[0]:
            found.append(a[1] + (b[1] - a[1]) * (across - a[0]) / (b[0] - a[0]))
    return min(found), max(found)
