"""Quarter turns: how the axes of a mouth lie in its unit.

A mouth looks to one side of its unit. Its own axes are those of whoever stands before it: across
from left to right, deep away from the front. A quarter turn exchanges across and deep, and their
signs; nothing is moved, so a place of a mouth is one of the unit's, or one of its places negated.
"""

from collections.abc import Callable, Mapping

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
)
from casewright.lang.cells import Quantity, negate

End = tuple[Axis, int]

SIDES: tuple[Faces, ...] = ("front", "back", "left", "right")

_TURNS: Mapping[Faces, Mapping[Axis, End]] = {
    "front": {"across": ("across", 1), "up": ("up", 1), "deep": ("deep", 1)},
    "back": {"across": ("across", -1), "up": ("up", 1), "deep": ("deep", -1)},
    "left": {"across": ("deep", -1), "up": ("up", 1), "deep": ("across", 1)},
    "right": {"across": ("deep", 1), "up": ("up", 1), "deep": ("across", -1)},
}
"""For each axis of what looks to a side, the axis of the unit it runs along, and which way."""


def in_unit(faces: Faces, axis: Axis) -> End:
    """The unit's axis along which an axis of a mouth runs, and 1 or -1 for which way."""
    return _TURNS[faces][axis]


def from_unit(faces: Faces, axis: Axis) -> End:
    """The reverse of `in_unit`."""
    for own, (of_unit, sign) in _TURNS[faces].items():
        if of_unit == axis:
            return own, sign
    raise AssertionError("a turn keeps all three axes")


def between(one: Faces, other: Faces, axis: Axis) -> End:
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


def edge_in_unit(faces: Faces, edge: str) -> str:
    """The unit's word for an edge of what looks to a side."""
    axis, side = EDGES[edge]
    of_unit, sign = in_unit(faces, axis)
    return next(word for word, end in EDGES.items() if end == (of_unit, side * sign))


def extents_in_unit(faces: Faces, extent: Callable[[Axis], Extent]) -> Extents:
    """Where something lies in its unit that is known by the axes of a mouth."""
    found = {}
    for axis in AXES:
        own, sign = from_unit(faces, axis)
        found[axis] = turned_extent(extent(own), axis, sign)
    return Extents(*(found[axis] for axis in AXES))


def part_in_unit(part: Part, faces: Faces) -> Part:
    """A part that is known by the axes of a mouth, by those of its unit. Only its motion stays as
    whoever stands before the mouth sees it; `faces` says where that is."""
    if faces == "front":
        return part
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
    ranges = []
    for axis in AXES:
        own, sign = from_unit(faces, axis)
        low, high = cut.box.along(own)
        ranges.append((low, high) if sign > 0 else (-high, -low))
    return evolve(cut, box=Box(*ranges))


def hole_in_unit(hole: Hole, faces: Faces) -> Hole:
    """A hole that is known by the axes of a mouth, by those of its unit."""
    if faces == "front":
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
