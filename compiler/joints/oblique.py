"""Bodies that aren't square to their unit: turned ones, and those with a corner cut off.

A body is a tuple of prisms: convex outlines in plan, each between two heights. Where two bodies
have one turn they meet exactly, as boxes do; across turns, places were rounded, and what is less
than `plane.PLAY` is nothing.
"""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from attrs import evolve, frozen

from casewright.compiler.joints.geometry import Scale, Solid, scale_of, solid_of
from casewright.compiler.model import AXES, EDGES, Axis, Box, Cut, Joint, Part, Range, Slant
from casewright.compiler.plane import (
    PLAY,
    Outline,
    Point,
    area,
    common,
    drawn_out,
    largest_rectangle,
    left_of,
    meetings,
    rectangle,
    share_room,
)
from casewright.lang.measure import nearest

FAR = Fraction(10_000)
"""Inches that a thing is drawn out to prove that nothing stands in its way: past any unit."""


@frozen
class Prism:
    """An outline in the unit's plan between two heights."""

    outline: Outline
    up: Range


Body = tuple[Prism, ...]


@frozen
class Met:
    """Where two bodies touch, by the axes of `slant`: as `geometry.Contact`, in inches."""

    slant: Slant | None
    axis: Axis
    side: int
    area: Box


def has_corner_cut(part: Part) -> bool:
    return any(cut.kind == "corner" for cut in part.cuts)


def are_askew(one: Part, other: Part) -> bool:
    """Whether two parts can't be compared as boxes less boxes."""
    return one.slant != other.slant or has_corner_cut(one) or has_corner_cut(other)


def prisms(part: Part, solid: Solid, scale: Scale) -> Body:
    """A part's solid, whose blocks know nothing of cut corners, as it stands in its unit."""
    corners = [cut for cut in part.cuts if cut.kind == "corner"]
    found = []
    for block in solid:
        box = scale.box(block)
        outline = less_corners(part, rectangle(box.across, box.deep), corners)
        if len(outline) > 2 and area(outline) > 0:
            found.append(Prism(in_unit(part.slant, outline), box.up))
    return tuple(found)


def prisms_of(part: Part) -> Body:
    """A part as it stands in its unit, its corners cut off; its other cuts are not taken."""
    corners = [cut for cut in part.cuts if cut.kind == "corner"]
    outline = less_corners(part, rectangle(part.box.across, part.box.deep), corners)
    return (Prism(in_unit(part.slant, outline), part.box.up),)


def volume_of(part: Part) -> Fraction:
    """Cubic inches of a part after the cuts its text states; grooves and holes are left in."""
    stated = evolve(part, cuts=tuple(cut for cut in part.cuts if cut.kind != "groove"))
    if not stated.cuts:
        box = part.box
        return box.size("across") * box.size("up") * box.size("deep")
    scale = scale_of((stated,))
    body = prisms(stated, solid_of(stated, scale), scale)
    return sum((area(each.outline) * (each.up[1] - each.up[0]) for each in body), Fraction(0))


def less_corners(part: Part, outline: Outline, corners: Iterable[Cut]) -> Outline:
    """What is left of an outline, by the part's own axes, where corners of it are cut off."""
    for cut in corners:
        begin, end, kept = corner_line(part, cut)
        if _left(begin, end, kept):
            outline = left_of(outline, begin, end)
        else:
            outline = left_of(outline, end, begin)
        if len(outline) < 3:
            return ()
    return outline


def corner_line(part: Part, cut: Cut) -> tuple[Point, Point, Point]:
    """The two ends of a cut that takes a corner off, in plan and by the part's own axes, and the
    corner of the part across from it."""
    at, past, kept = [], [], []
    axes: tuple[Axis, Axis] = ("across", "deep")
    for axis, edge in zip(axes, cut.corner, strict=True):
        (low, high), (least, most) = cut.box.along(axis), part.box.along(axis)
        takes_low = EDGES[edge][1] < 0
        at.append(least if takes_low else most)
        past.append(high if takes_low else low)
        kept.append(most if takes_low else least)
    return (at[0], past[1]), (past[0], at[1]), (kept[0], kept[1])


def _left(begin: Point, end: Point, point: Point) -> bool:
    run, rise = end[0] - begin[0], end[1] - begin[1]
    return run * (point[1] - begin[1]) - rise * (point[0] - begin[0]) > 0


def in_unit(slant: Slant | None, outline: Outline) -> Outline:
    return outline if slant is None else tuple(slant.in_unit(*point) for point in outline)


def here(slant: Slant | None, outline: Outline) -> Outline:
    """An outline of the unit by the axes of a slant."""
    return outline if slant is None else tuple(slant.here(*point) for point in outline)


def _over_one_another(one: Prism, other: Prism) -> bool:
    return one.up[0] < other.up[1] and other.up[0] < one.up[1]


def space_shared(one: Body, other: Body) -> Box | None:
    """A box of the unit around the space that two bodies share; None where they
    share no more than play."""
    found: list[tuple[Outline, Range]] = []
    for first in one:
        for second in other:
            if _over_one_another(first, second) and share_room(first.outline, second.outline):
                up = (max(first.up[0], second.up[0]), min(first.up[1], second.up[1]))
                found.append((common(first.outline, second.outline), up))
    if not found:
        return None
    points = [point for outline, _ in found for point in outline]
    return Box(
        _around(point[0] for point in points),
        (min(up[0] for _, up in found), max(up[1] for _, up in found)),
        _around(point[1] for point in points),
    )


def _around(places: Iterable[Fraction]) -> Range:
    found = list(places)
    return min(found), max(found)


def met(first: Part, one: Body, second: Part, other: Body) -> Met | None:
    """The largest rectangle over which two bodies touch, face to face; None where they don't."""
    found = [
        each
        for a in one
        for b in other
        for each in (*_one_on_the_other(first, a, second, b), *_side_by_side(first, a, second, b))
    ]
    largest = max(found, key=_size, default=None)
    if largest is None or first.slant == second.slant:
        return largest
    # Across turns, what was rounded is rounded here too; heights never are.
    across, deep = (
        (nearest(low, PLAY), nearest(high, PLAY))
        for low, high in (largest.area.across, largest.area.deep)
    )
    return evolve(largest, area=Box(across, largest.area.up, deep))


def _size(found: Met) -> tuple[Fraction, str]:
    one, other = (found.area.size(axis) for axis in AXES if axis != found.axis)
    return one * other, found.axis


def _one_on_the_other(first: Part, a: Prism, second: Part, b: Prism) -> Iterator[Met]:
    side = 1 if a.up[1] == b.up[0] else -1 if b.up[1] == a.up[0] else 0
    if side == 0 or not share_room(a.outline, b.outline):
        return
    slant = first.slant or second.slant
    flat = largest_rectangle(here(slant, common(a.outline, b.outline)))
    if flat:
        height = a.up[1] if side == 1 else a.up[0]
        across, deep = (_around(each) for each in flat)
        if across[1] > across[0] and deep[1] > deep[0]:
            yield Met(slant, "up", side, Box(across, (height, height), deep))


def _side_by_side(first: Part, a: Prism, second: Part, b: Prism) -> Iterator[Met]:
    if not _over_one_another(a, b):
        return
    up = (max(a.up[0], b.up[0]), min(a.up[1], b.up[1]))
    for meeting in meetings(a.outline, b.outline):
        for slant in dict.fromkeys((first.slant, second.slant)):
            start, end = here(slant, (meeting.start, meeting.end))
            run, rise = end[0] - start[0], end[1] - start[1]
            # The first runs against the clock: what it touches lies to the right of its edge.
            if abs(rise) <= PLAY < abs(run):
                deep = (start[1] + end[1]) / 2
                across = _around((start[0], end[0]))
                yield Met(slant, "deep", -1 if run > 0 else 1, Box(across, up, (deep, deep)))
                break
            if abs(run) <= PLAY < abs(rise):
                at = (start[0] + end[0]) / 2
                yield Met(
                    slant,
                    "across",
                    1 if rise > 0 else -1,
                    Box((at, at), up, _around((start[1], end[1]))),
                )
                break


def bars(moving: Body, standing: Body, slant: Slant | None, axis: Axis, side: int) -> bool:
    """Whether a standing body bars a moving one's way in from an end of an axis of `slant`."""
    return any(_bars(one, other, slant, axis, side) for one in moving for other in standing)


def _bars(one: Prism, other: Prism, slant: Slant | None, axis: Axis, side: int) -> bool:
    if axis == "up":
        above = other.up[1] > one.up[0] if side == 1 else other.up[0] < one.up[1]
        return above and share_room(one.outline, other.outline)
    if not _over_one_another(one, other):
        return False
    cosine, sine = slant.direction if slant is not None else (Fraction(1), Fraction(0))
    far = FAR * side
    way = (cosine * far, sine * far) if axis == "across" else (-sine * far, cosine * far)
    return share_room(drawn_out(one.outline, way), other.outline)


def taken_of(room: Box, slant: Slant | None, body: Body) -> Iterator[Box]:
    """The boxes by the axes of `slant` around what a body takes of a room there."""
    outline = in_unit(slant, rectangle(room.across, room.deep))
    prism = Prism(outline, room.up)
    for other in body:
        if _over_one_another(prism, other) and share_room(outline, other.outline):
            shared = here(slant, common(outline, other.outline))
            up = (max(room.up[0], other.up[0]), min(room.up[1], other.up[1]))
            yield Box(_around(p[0] for p in shared), up, _around(p[1] for p in shared))


def reach_of(body: Body, slant: Slant | None, axis: Axis) -> Range:
    """How far a body reaches along an axis of a slant."""
    if axis == "up":
        return min(each.up[0] for each in body), max(each.up[1] for each in body)
    points = [point for each in body for point in here(slant, each.outline)]
    return _around(point[0 if axis == "across" else 1] for point in points)


def size_along(part: Part, joint: Joint) -> Fraction:
    """How much of a part lies along the axis of a joint."""
    if part.slant == joint.slant:
        return part.box.size(joint.axis)
    low, high = reach_of(prisms_of(part), joint.slant, joint.axis)
    return high - low
