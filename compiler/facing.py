"""Turns: how the axes of a mouth lie in its unit.

A mouth looks to one side of its unit. Its own axes are those of whoever stands before it: across
from left to right, deep away from the front. A quarter turn exchanges across and deep, and their
signs; nothing is moved, so a place of a mouth is one of the unit's, or one of its places negated.

A mouth that looks across a corner has a space of its own, turned by another angle (`Slant`). What
stands in it keeps its own axes, and so its exact places; where it is seen from elsewhere, or
something else from it, the range it covers there is rounded.
"""

from collections.abc import Callable, Mapping
from fractions import Fraction

from attrs import evolve

from casewright.compiler.model import (
    AXES,
    EDGES,
    Axis,
    Box,
    Cut,
    Extent,
    Extents,
    Faces,
    Hole,
    Part,
    Slant,
)
from casewright.lang.cells import Quantity, as_place, literal, negate
from casewright.lang.measure import nearest

End = tuple[Axis, int]

Look = Faces | Slant
"""Where a mouth looks: to a side of its unit, or across a corner in a space of its own."""

SIDES: tuple[Faces, ...] = ("front", "back", "left", "right")

_TURNS: Mapping[Faces, Mapping[Axis, End]] = {
    "front": {"across": ("across", 1), "up": ("up", 1), "deep": ("deep", 1)},
    "back": {"across": ("across", -1), "up": ("up", 1), "deep": ("deep", -1)},
    "left": {"across": ("deep", -1), "up": ("up", 1), "deep": ("across", 1)},
    "right": {"across": ("deep", 1), "up": ("up", 1), "deep": ("across", -1)},
}
"""For each axis of what looks to a side, the axis of the unit it runs along, and which way."""


def side_of(look: Look) -> Faces:
    """The side that what a mouth makes is said to look to: in a slanted space, its own front."""
    return "front" if isinstance(look, Slant) else look


def slant_of(look: Look) -> Slant | None:
    return look if isinstance(look, Slant) else None


def are_askew(one: Look, other: Look) -> bool:
    """Whether a place of one space is none of the other: only heights are the same in both."""
    return one != other and (isinstance(one, Slant) or isinstance(other, Slant))


def range_across(
    across: Extent, deep: Extent, looks: tuple[Look, Look], axis: Axis, step: Fraction
) -> Extent:
    """What something covers along an axis as seen from a space that is askew to its own (`looks`:
    its own, the other), rounded to `step` and marked so."""
    own, other = looks
    places = []
    for right in (across.low.value, across.high.value):
        for back in (deep.low.value, deep.high.value):
            place = _unit_place(own, right, back)
            places.append(_own_place(other, *place)[0 if axis == "across" else 1])
    low, high = (
        evolve(as_place(literal(nearest(end, step), label="across the turn"), axis), off=True)
        for end in (min(places), max(places))
    )
    return Extent(low, high)


def _unit_place(look: Look, across: Fraction, deep: Fraction) -> tuple[Fraction, Fraction]:
    if isinstance(look, Slant):
        return look.in_unit(across, deep)
    found: dict[Axis, Fraction] = {}
    axes: tuple[tuple[Axis, Fraction], ...] = (("across", across), ("deep", deep))
    for axis, place in axes:
        own, sign = in_unit(look, axis)
        found[own] = place * sign
    return found["across"], found["deep"]


def _own_place(look: Look, across: Fraction, deep: Fraction) -> tuple[Fraction, Fraction]:
    if isinstance(look, Slant):
        return look.here(across, deep)
    found: dict[Axis, Fraction] = {}
    axes: tuple[tuple[Axis, Fraction], ...] = (("across", across), ("deep", deep))
    for axis, place in axes:
        own, sign = from_unit(look, axis)
        found[own] = place * sign
    return found["across"], found["deep"]


def in_unit(faces: Look, axis: Axis) -> End:
    """The unit's axis along which an axis of a mouth runs, and 1 or -1 for which way."""
    return _TURNS[side_of(faces)][axis]


def from_unit(faces: Look, axis: Axis) -> End:
    """The reverse of `in_unit`."""
    for own, (of_unit, sign) in _TURNS[side_of(faces)].items():
        if of_unit == axis:
            return own, sign
    raise AssertionError("a turn keeps all three axes")


def between(one: Look, other: Look, axis: Axis) -> End:
    """The axis of `other` along which an axis of `one` runs, and which way."""
    of_unit, sign = in_unit(one, axis)
    found, back = from_unit(other, of_unit)
    return found, sign * back


def turned_place(place: Quantity, axis: Axis, sign: int) -> Quantity:
    """A place as one on another axis, which runs the same way or the other."""
    if sign < 0:
        place = negate(place)
    return place if place.axis == axis else evolve(place, axis=axis)


def turned_extent(extent: Extent, axis: Axis, sign: int) -> Extent:
    low, high = (turned_place(each, axis, sign) for each in (extent.low, extent.high))
    return Extent(low, high) if sign > 0 else Extent(high, low)


def edge_in_unit(faces: Look, edge: str) -> str:
    """The unit's word for an edge of what looks to a side."""
    axis, side = EDGES[edge]
    of_unit, sign = in_unit(faces, axis)
    return next(word for word, end in EDGES.items() if end == (of_unit, side * sign))


def extents_in_unit(faces: Look, extent: Callable[[Axis], Extent]) -> Extents:
    """Where something lies in its unit that is known by the axes of a mouth; what a slanted mouth
    makes stays in its space."""
    found = {}
    for axis in AXES:
        own, sign = from_unit(faces, axis)
        found[axis] = turned_extent(extent(own), axis, sign)
    return Extents(*(found[axis] for axis in AXES))


def part_in_unit(part: Part, faces: Look) -> Part:
    """A part that is known by the axes of a mouth, by those of its unit. Only its motion stays as
    whoever stands before the mouth sees it; `faces` says where that is. What a slanted mouth makes
    stays in its space."""
    if faces == "front":
        return part
    if isinstance(faces, Slant):
        return evolve(part, slant=faces)
    return evolve(
        part,
        extents=extents_in_unit(faces, part.extents.along),
        thick_axis=in_unit(faces, part.thick_axis)[0],
        length_axis=in_unit(faces, part.length_axis)[0],
        width_axis=in_unit(faces, part.width_axis)[0],
        bands=tuple(
            evolve(banding, edge=edge_in_unit(faces, banding.edge)) for banding in part.bands
        ),
        cuts=tuple(_cut_in_unit(cut, faces) for cut in part.cuts),
        faces=faces,
    )


def _cut_in_unit(cut: Cut, faces: Faces) -> Cut:
    def box(own_box: Box) -> Box:
        ranges = []
        for axis in AXES:
            own, sign = from_unit(faces, axis)
            low, high = own_box.along(own)
            ranges.append((low, high) if sign > 0 else (-high, -low))
        return Box(*ranges)

    return turned_cut(cut, box, lambda edge: edge_in_unit(faces, edge))


def turned_cut(cut: Cut, box: Callable[[Box], Box], edge: Callable[[str], str]) -> Cut:
    """A cut as another space knows it, whose boxes and edge words these two give."""

    def looks(words: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(sorted((edge(word) for word in words), key=lambda word: EDGES[word][0]))

    return evolve(
        cut,
        box=box(cut.box),
        corner=looks(cut.corner),
        edges=tuple(evolve(each, looks=looks(each.looks)) for each in cut.edges),
        sawn=None if cut.sawn is None else box(cut.sawn),
    )


def hole_in_unit(hole: Hole, faces: Look) -> Hole:
    """A hole that is known by the axes of a mouth, by those of its unit."""
    if side_of(faces) == "front":
        return hole
    axis, sign = in_unit(faces, hole.axis)
    centres = {}
    for own, place in zip(hole.at_axes, hole.at, strict=True):
        along, way = in_unit(faces, own)
        centres[along] = turned_place(place, along, way)
    first, second = (each for each in AXES if each != axis)
    return evolve(
        hole,
        axis=axis,
        side=hole.side * sign,
        at=(centres[first], centres[second]),
        at_axes=(first, second),
    )
