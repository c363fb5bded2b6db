"""What a run can stand on: a wall, or a side of an island or peninsula, and its two corners."""

from collections.abc import Mapping
from typing import Literal

from attrs import frozen

from casewright.compiler.model import Corner, Feature, Island, Room, Wall
from casewright.compiler.rooms.islands import sides_of
from casewright.compiler.rooms.kitchen import Reader
from casewright.compiler.rooms.room import SQUARE, Line, side_line
from casewright.lang.cells import Quantity, literal
from casewright.lang.measure import Dimension
from casewright.lang.shape import Statement, bare_word, span_of, suggestion

End = Literal["left", "right"]


@frozen(eq=False)
class Base:
    """What a run stands on. `name` is the wall's, or the island's and its side; `length` runs from
    its left end to its right, as seen facing it."""

    name: str
    length: Quantity
    wall: Wall | None
    island: Island | None = None
    facing: str = ""

    @property
    def features(self) -> tuple[Feature, ...]:
        if self.island is not None:
            return self.island.features_of(self.facing)
        return self.wall.features if self.wall is not None else ()

    def line(self, depth: Quantity, step: Quantity) -> Line:
        """Where the backs of a run `depth` deep stand in plan."""
        if self.island is not None:
            return side_line(self.island, self.facing, depth, step)
        assert self.wall is not None, "a base is a wall or a side of an island"
        assert self.wall.origin is not None, "walls are laid out"
        return Line(self.wall.origin, self.wall.direction, self.length)


@frozen(eq=False)
class Meeting:
    """The corner at one end of a base: its angle, and the name of the wall around it."""

    corner: Corner
    wall: str


class Bases:
    """Everything of a room that a run can stand on."""

    def __init__(self, room: Room | None, reader: Reader) -> None:
        self.room = room
        self.reader = reader
        self.walls: Mapping[str, Wall] = {}
        self.islands: Mapping[str, Island] = {}
        if room is not None:
            self.walls = {wall.name: wall for wall in room.walls}
            self.islands = {island.name: island for island in room.islands}

    def of(self, run: Statement) -> Base | None:
        """What a run stands on; None where that is unsaid or not there (and is blamed)."""
        on = run.clause("on")
        if on is None or not on.values:
            self.reader.complain(
                "value-missing",
                f"run {run.name} doesn't say which wall it is on",
                span_of(run.head.origin),
                "add on and a wall",
            )
            return None
        word = bare_word(on.values[0])
        facing = run.clause("facing")
        if word in self.islands:
            side = bare_word(facing.values[0]) if facing is not None and facing.values else ""
            return self._side(run, self.islands[word], side)
        if word not in self.walls:
            known = (*self.walls, *self.islands)
            self.reader.complain(
                "unknown-wall",
                f"no wall is called {word}",
                span_of(on.values[0].origin),
                suggestion(word, known) or "declare it in a room, with its length",
            )
            return None
        if facing is not None:
            self.reader.complain(
                "facing-a-wall",
                f"run {run.name} stands on a wall, which has one side",
                span_of(facing.origin),
                "leave facing out",
            )
        return Base(word, self.walls[word].length, self.walls[word])

    def _side(self, run: Statement, island: Island, facing: str) -> Base | None:
        sides = sides_of(island.kind)
        if facing not in sides:
            words = ", ".join(sides)
            self.reader.complain(
                "island-side-missing",
                f"run {run.name} doesn't say which side of {island.name} it faces"
                if not facing
                else f"{island.kind} {island.name} has no side {facing}",
                span_of(run.head.origin),
                f"add facing and one of: {words}",
            )
            return None
        length = island.width if facing in ("front", "back") else island.depth
        return Base(f"{island.name} {facing}", length, None, island, facing)

    def meeting(self, base: Base, end: End) -> Meeting | None:
        """The corner at an end of a base, where it has one."""
        if base.island is not None:
            if base.island.kind == "island" or base.facing != end:
                return None
            square = literal(SQUARE, Dimension.ANGLE, None, "square to the wall")
            return Meeting(Corner(base.island.wall, base.island.name, square), base.island.wall)
        for corner in self.room.corners if self.room is not None else ():
            if end == "left" and corner.second == base.name:
                return Meeting(corner, corner.first)
            if end == "right" and corner.first == base.name:
                return Meeting(corner, corner.second)
        return None
