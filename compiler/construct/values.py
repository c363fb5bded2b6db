"""What an expression can be worth, besides a quantity or yes and no."""

from abc import ABC, abstractmethod
from fractions import Fraction
from typing import Protocol

from attrs import frozen

from casewright.compiler.facing import Look, are_askew, between, range_across, turned_extent
from casewright.compiler.model import Axis, Extent
from casewright.compiler.text.resolve import Declaration
from casewright.lang.cells import Quantity
from casewright.lang.measure import Dimension, System
from casewright.lang.source import Origin


class Spatial(ABC):
    """Something that lies somewhere: a part, an assembly, an opening, what stands between two."""

    @abstractmethod
    def extent(self, axis: Axis) -> Extent:
        """Where it lies along `axis`, as seen before the mouth it stands in."""

    @property
    @abstractmethod
    def faces(self) -> Look:
        """To which side of the unit that mouth looks."""

    @property
    @abstractmethod
    def rounding(self) -> Fraction:
        """To what a place is rounded that a turn makes, inches."""

    def seen(self, axis: Axis, faces: Look) -> Extent:
        """Where it lies along `axis` as seen before a mouth that looks somewhere."""
        if faces == self.faces or (axis == "up" and are_askew(faces, self.faces)):
            return self.extent(axis)
        if are_askew(faces, self.faces):
            looks = (self.faces, faces)
            return range_across(
                self.extent("across"), self.extent("deep"), looks, axis, self.rounding
            )
        own, sign = between(faces, self.faces, axis)
        return turned_extent(self.extent(own), axis, sign)


@frozen
class Choice:
    """A word chosen from those an option allows; no `choices` where any word may stand."""

    word: str
    choices: tuple[str, ...] = ()


@frozen
class Sides:
    """Which of left and right are meant."""

    words: frozenset[str]


@frozen
class Datum:
    """A declared material, slide, hinge, fixing …; its properties are read by their words."""

    declaration: Declaration


@frozen
class Lengths:
    """Several lengths of one property, smallest first."""

    quantities: tuple[Quantity, ...]


@frozen
class Missing:
    """A thing that is not there: its condition is not so, or there is nothing on that side.
    `why` says it in words."""

    why: str


@frozen
class Several:
    """Every thing a `for each` made under one name, or every one that a unit's mouths did."""

    things: tuple[Spatial, ...]
    of_mouths: bool = False


@frozen
class Outside:
    """Something outside the unit that has properties, by its word: the room, a neighbour."""

    word: str


@frozen
class ByEdge:
    """Figures by edge word: an opening's cover, its gaps, or where its front ends."""

    opening: Spatial
    word: str


Value = (
    Quantity
    | bool
    | Choice
    | Sides
    | Datum
    | Lengths
    | Missing
    | Several
    | Outside
    | ByEdge
    | Spatial
)


class Reading(Protocol):
    """Where an expression is read: what its words mean, and in which space."""

    @property
    def mirrored(self) -> bool:
        """Whether across is read from right to left."""
        ...

    @property
    def faces(self) -> Look:
        """To which side of the unit the mouth looks that it is read in."""
        ...

    def system_of(self, origin: Origin | None) -> System:
        """What a bare number written at `origin` is."""
        ...

    def look_up(
        self, words: tuple[str, ...], origin: Origin | None, want: Dimension | None
    ) -> Value:
        """What a path of words is worth; a place across is in the space read in.

        Raises casewright.compiler.construct.faults.Fault for a word that means nothing here.
        """
        ...

    def say(self, value: Value) -> str:
        """A value in words, for a message."""
        ...
