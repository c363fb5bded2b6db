"""Runs of placed things, and the whole job."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

from attrs import field, frozen

from casewright.compiler.model.materials import Material, Offcut, Saw
from casewright.compiler.model.room import Room, Wall
from casewright.compiler.model.space import Direction, Spot
from casewright.compiler.model.unit import Unit
from casewright.compiler.shop.supply import Supply
from casewright.compiler.shop.yardstick import Yardstick
from casewright.lang.cells import Quantity
from casewright.lang.measure import System
from casewright.lang.source import Source, Span


@frozen
class Scribe:
    """How wide the gap is that a scribed filler closes: as laid out, and at its narrowest and
    widest over its depth and height, as the room was measured."""

    nominal: Quantity
    least: Quantity
    most: Quantity


@frozen
class Return:
    """The part of a corner unit that stands along the wall around the corner.

    `end` is the end of its run at which the corner is, `wall` the wall around it. `length` is how
    far it reaches out from its run's own wall, `depth` how far from the one around the corner.
    `taken` is how much of that one it takes, from the corner.
    """

    end: Literal["left", "right"]
    wall: str
    length: Quantity
    depth: Quantity
    taken: Quantity

    def left_on(self, wall: Wall) -> Fraction:
        """Where its left end lies along the wall around the corner, inches."""
        if self.end == "right":
            return self.taken.value - self.length.value
        return wall.length.value - self.taken.value


@frozen
class Placed:
    """One thing in a run: a unit, a filler, an appliance, an empty space, or the base that several
    units stand on.

    `at` is the place of its left end along the run, `up` of its bottom above the floor.
    `bindings` bind the unit's inputs to this placing's own quantities, and `spans` its own lines
    (`lang.source.Own`), so that `explain` shows the lines of this very unit. `dead_with` names the
    run around the corner with which a dead corner is left.
    """

    tag: str
    address: str
    title: str
    kind: Literal["unit", "filler", "appliance", "space", "base"]
    run: str
    unit: Unit | None
    at: Quantity
    width: Quantity
    up: Quantity
    height: Quantity
    depth: Quantity
    bindings: Mapping[str, Quantity] = field(eq=False, repr=False)
    spans: tuple[Span, ...] = field(eq=False, repr=False)
    span: Span | None = field(eq=False)
    scribe: Scribe | None = None
    returns: Return | None = None
    dead_with: str = ""


@frozen
class Run:
    """An ordered row on a wall, or on a side of an island. `space` is what it has to fill.

    `wall` names what it stands on; on an island `island` and `facing` say which side of which,
    and `wall` is both. In plan the backs of its things run from `origin` along `direction`, and
    their fronts are to the right of it. `depth` is the greatest of its things. `bases` stand
    under its units, one for each stretch of neighbours; they are no part of the row.
    """

    name: str
    title: str
    wall: str
    start: Quantity
    up: Quantity
    space: Quantity
    placed: tuple[Placed, ...]
    span: Span | None = field(eq=False)
    island: str = ""
    facing: str = ""
    origin: Spot | None = None
    direction: Direction = (Fraction(1), Fraction(0))
    depth: Quantity | None = None
    bases: tuple[Placed, ...] = ()

    @property
    def everything(self) -> tuple[Placed, ...]:
        """What stands in the row, and what that stands on."""
        return (*self.placed, *self.bases)

    def base_under(self, placed: Placed) -> Placed | None:
        """The base that a thing of this row stands on, with its neighbours."""
        middle = placed.at.value + placed.width.value / 2
        for base in self.bases:
            over = base.at.value < middle < base.at.value + base.width.value
            if over and placed.up.value == base.up.value:
                return base
        return None


@frozen
class Job:
    """One kitchen, built. `sawn` holds the addresses of parts that are sawn already. Where `saw` is
    None though one is `saw_declared`, what is wrong with it has its own report."""

    name: str
    number: str
    revision: str
    date: str
    system: System
    precision: Quantity
    edition: str
    room: Room
    runs: tuple[Run, ...]
    materials: tuple[Material, ...]
    saw: Saw | None
    offcuts: tuple[Offcut, ...]
    named: Mapping[str, Quantity] = field(eq=False, repr=False)
    sources: tuple[Source, ...] = field(eq=False, repr=False)
    sawn: frozenset[str] = frozenset()
    yardstick: Yardstick = field(factory=Yardstick, repr=False)
    supply: Supply = field(factory=Supply, repr=False)
    saw_declared: bool = False

    @property
    def placed(self) -> tuple[Placed, ...]:
        """Everything placed, run by run, what a run's units stand on after them."""
        return tuple(placed for run in self.runs for placed in run.everything)
