"""The room as surveyed."""

from fractions import Fraction
from typing import Literal

from attrs import field, frozen

from casewright.compiler.model.space import Direction, Spot
from casewright.lang.cells import Quantity
from casewright.lang.source import Span


@frozen
class Feature:
    """Something on a wall, or on the side of an island that it is `facing`. `at` and `wide` are
    along it, `up` and `high` above the finished floor; the casing is outside the opening. `out` is
    how far it stands out from the wall."""

    kind: str
    name: str
    at: Quantity
    wide: Quantity
    up: Quantity
    high: Quantity
    casing: Quantity
    span: Span | None = field(eq=False)
    out: Quantity | None = None
    facing: str = ""


@frozen
class Wall:
    """A wall seen from inside the room, lengths from its left end.

    What a survey adds: `plumb` is how far the wall leans into the room for each inch of height
    (below nothing where it leans out), the points are floor and ceiling heights by place along the
    wall (a floor under its high point is below nothing), `lengths` pairs heights with the length
    measured there. `blocking` is let into it between the studs. In plan the wall runs from `origin`
    along `direction`, the room to its right.
    """

    name: str
    length: Quantity
    height: Quantity
    features: tuple[Feature, ...]
    plumb: Quantity | None = None
    floor_points: tuple[tuple[Quantity, Quantity], ...] = ()
    ceiling_points: tuple[tuple[Quantity, Quantity], ...] = ()
    span: Span | None = field(eq=False, default=None)
    lengths: tuple[tuple[Quantity, Quantity], ...] = ()
    blocking: tuple[Feature, ...] = ()
    origin: Spot | None = None
    direction: Direction = (Fraction(1), Fraction(0))


@frozen
class Corner:
    """Where two walls meet, the right end of the first and the left end of the second; the inside
    angle in degrees. `stated` is False where it was taken as square, or is what the other corners
    leave."""

    first: str
    second: str
    angle: Quantity
    stated: bool = True
    span: Span | None = field(eq=False, default=None)


@frozen
class Island:
    """What stands in the room for runs to stand on, free or out from a wall.

    It is named from its front, which is away from its wall: `width` runs from its left to its
    right, `depth` from its back to its front. In plan its back runs from `origin` along
    `direction`. `at` is its left end along its wall, `out` how far its back is from it, `turn` its
    turn in degrees about its middle, clockwise as seen from above. Of its `features` pipes lie
    behind what stands on their side, outlets in its face.
    """

    name: str
    kind: Literal["island", "peninsula"]
    wall: str
    at: Quantity
    out: Quantity
    width: Quantity
    depth: Quantity
    turn: Quantity
    origin: Spot
    direction: Direction
    span: Span | None = field(eq=False, default=None)
    features: tuple[Feature, ...] = ()

    def features_of(self, facing: str) -> tuple[Feature, ...]:
        """What lies on one of its sides."""
        return tuple(each for each in self.features if each.facing == facing)


@frozen
class Room:
    """The room as surveyed, seen from inside, clockwise. `closed` says that the last wall meets
    the first. Heights are from the finished floor; `floor_finish` is what was still to be laid on
    the floor they were measured from."""

    name: str
    walls: tuple[Wall, ...]
    corners: tuple[Corner, ...]
    ceiling: Quantity
    counter: Quantity
    counter_thick: Quantity
    finished_floor: bool
    islands: tuple[Island, ...] = ()
    closed: bool = False
    floor_finish: Quantity | None = None
