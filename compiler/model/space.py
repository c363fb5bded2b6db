"""Axes, edges and extents: where things lie in a unit's space and in plan."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

from attrs import frozen

from casewright.lang.cells import Quantity

Axis = Literal["across", "up", "deep"]

AXES: tuple[Axis, Axis, Axis] = ("across", "up", "deep")

EDGES: Mapping[str, tuple[Axis, int]] = {
    "left": ("across", -1),
    "right": ("across", 1),
    "bottom": ("up", -1),
    "top": ("up", 1),
    "front": ("deep", -1),
    "back": ("deep", 1),
}
"""The six edge words: the axis each lies on, and -1 for its low end or 1 for its high end."""

Faces = Literal["front", "back", "left", "right"]
"""The side of its unit to which the mouth looks that a thing stands in. Its extents are the
unit's; how it moves, its hand, and where an opening lies across are as seen before that mouth."""

Range = tuple[Fraction, Fraction]

Direction = tuple[Fraction, Fraction]
"""A direction in plan: the cosine and the sine of its angle from x, counted against the clock."""


@frozen
class Slant:
    """A space turned about the upright axis: that of a mouth which looks across a corner.

    Its zero lies at `across` and `deep` of its unit, inches, and its own across axis runs along
    `direction` there (exact: a rational point of the unit circle); heights are the unit's.
    """

    mouth: str
    across: Fraction
    deep: Fraction
    direction: Direction

    def in_unit(self, across: Fraction, deep: Fraction) -> tuple[Fraction, Fraction]:
        """A place of this space as one of its unit, exactly."""
        cosine, sine = self.direction
        return (
            self.across + cosine * across - sine * deep,
            self.deep + sine * across + cosine * deep,
        )

    def here(self, across: Fraction, deep: Fraction) -> tuple[Fraction, Fraction]:
        """A place of its unit as one of this space, exactly."""
        cosine, sine = self.direction
        right, back = across - self.across, deep - self.deep
        return cosine * right + sine * back, cosine * back - sine * right


@frozen
class Box:
    """A box with its faces square to the axes; each range is (low, high)."""

    across: Range
    up: Range
    deep: Range

    def along(self, axis: Axis) -> Range:
        if axis == "across":
            return self.across
        return self.up if axis == "up" else self.deep

    def size(self, axis: Axis) -> Fraction:
        low, high = self.along(axis)
        return high - low


@frozen
class Extent:
    """Where a thing lies along one axis, with the derivation of both ends."""

    low: Quantity
    high: Quantity


@frozen
class Extents:
    """Where a thing lies, with derivations."""

    across: Extent
    up: Extent
    deep: Extent

    def along(self, axis: Axis) -> Extent:
        if axis == "across":
            return self.across
        return self.up if axis == "up" else self.deep

    @property
    def box(self) -> Box:
        return Box(
            (self.across.low.value, self.across.high.value),
            (self.up.low.value, self.up.high.value),
            (self.deep.low.value, self.deep.high.value),
        )


@frozen
class Spot:
    """A place in plan, inches: x to the right and y up the page. The wall of the first run lies
    along the top of the plan, with the room below it."""

    x: Quantity
    y: Quantity
