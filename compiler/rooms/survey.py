"""The room read as it was measured: walls, corners, what is on the walls, what stands free."""

from collections.abc import Sequence
from fractions import Fraction

from casewright.compiler.model import Room, Wall
from casewright.compiler.rooms.corners import CornerReader, check_closing, slope_of
from casewright.compiler.rooms.features import FeatureReader
from casewright.compiler.rooms.islands import read_islands
from casewright.compiler.rooms.kitchen import Reader
from casewright.compiler.rooms.room import lay_out, place_step
from casewright.compiler.text.resolve import Program
from casewright.lang.cells import Quantity, literal, named, negate, subtract
from casewright.lang.findings import Finding
from casewright.lang.measure import Dimension, Measure, System
from casewright.lang.shape import Clause, Statement, bare_word, span_of

LOWEST, HIGHEST = Fraction(12), Fraction(600)
"""Inches: a ceiling beyond these was written in the other measure. 96 mm and 2438" both are."""


def read_room(program: Program, system: System) -> tuple[Room | None, tuple[Finding, ...]]:
    """The room as measured, laid out in plan; None where there is none, or where its ceiling shows
    that its figures are of another measure than the text's: nothing after it would be true."""
    if not program.rooms:
        return None, ()
    surveyor = _Surveyor(program, system)
    if surveyor.out_of_scale(program.rooms[0]):
        return None, tuple(surveyor.reader.findings)
    room = surveyor.room(program.rooms[0])
    return room, tuple(surveyor.reader.findings)


class _Surveyor:
    def __init__(self, program: Program, system: System) -> None:
        self.program = program
        self.reader = Reader(program, system)
        self.step = place_step(system)
        self.finish: Quantity | None = None
        self.features = FeatureReader(self.reader, self.height)

    def height(self, measure: Quantity | None) -> Quantity | None:
        """A measured height as it is above the finished floor."""
        if measure is None or self.finish is None:
            return measure
        return named(subtract(measure, self.finish), measure.name, measure.origin)

    def out_of_scale(self, statement: Statement) -> bool:
        """Whether the ceiling is so low or so high that it must be of another measure; blamed."""
        clause = statement.clause("ceiling")
        ceiling = self.reader.glance(clause, "room.ceiling")
        if ceiling is None or ceiling.value <= 0 or LOWEST <= ceiling.value <= HIGHEST:
            return False
        inches = self.reader.build.own_system is System.INCHES
        other, unit = ("mm", "mm") if inches else ("inches", "in")
        self.reader.complain(
            "room-out-of-scale",
            f"a ceiling {self.reader.say(ceiling.measure)} above the floor is no kitchen's",
            span_of(clause.origin) if clause is not None else None,
            f"where the figures are {other}, say measure in {other} at the top of the text, "
            f"or write {unit} behind them",
        )
        return True

    def room(self, statement: Statement) -> Room:
        floor = statement.clause("floor")
        if floor is not None:
            self.finish = self.reader.measure(floor.clause("finish"), "room.floor_finish")
        ceiling = self.height(
            self.reader.positive(
                self.reader.measure(statement.clause("ceiling"), "room.ceiling"), "the ceiling"
            )
        )
        counter_clause = statement.clause("counter")
        counter = self.reader.measure(counter_clause, "room.counter")
        thick = self.reader.measure(
            counter_clause.clause("thick") if counter_clause is not None else None,
            "room.counter_thick",
        )
        lines = [line for line in statement.body if line.rule == "wall"]
        found = [(line, wall) for line in lines if (wall := self.wall(line, ceiling)) is not None]
        walls: Sequence[Wall] = [wall for _, wall in _first_of_name(self, found)]
        corners, closed = CornerReader(self.reader).corners(statement, walls)
        if walls:
            top = self._top(walls)
            by_first = {corner.first: corner for corner in corners}
            walls = lay_out(walls, by_first, top, self.step)
            if closed:
                check_closing(self.reader, statement, walls, top)
        by_name = {wall.name: wall for wall in walls}
        nothing = literal(0, label="unsaid")
        return Room(
            statement.name,
            tuple(walls),
            corners,
            ceiling or nothing,
            counter or nothing,
            thick or nothing,
            floor is not None and "finished" in map(bare_word, floor.values),
            tuple(read_islands(self.reader, self.features, statement, by_name, self.step)),
            closed,
            self.finish,
        )

    def _top(self, walls: Sequence[Wall]) -> int:
        """The wall that lies along the top of the plan: that of the first run on a wall."""
        names = [wall.name for wall in walls]
        for run in self.program.runs:
            on = run.clause("on")
            word = bare_word(on.values[0]) if on is not None and on.values else ""
            if word in names:
                return names.index(word)
        return 0

    # -- walls ---------------------------------------------------------------------------------

    def wall(self, statement: Statement, ceiling: Quantity | None) -> Wall | None:
        name = statement.name
        said = [clause for clause in statement.clauses if clause.word == "length"]
        plain = next((clause for clause in said if clause.clause("up") is None), None)
        length = self.reader.positive_measure(plain, f"{name}.length", f"the length of {name}")
        lengths = tuple(self._lengths(name, said))
        if length is None and plain is None and lengths:
            length = named(min((each for _, each in lengths), key=_value), f"{name}.length")
        if length is None:
            if not said:
                self.reader.complain(
                    "value-missing",
                    f"wall {name} doesn't say how long it is",
                    span_of(statement.head.origin),
                    "add length and a length",
                )
            return None
        if length.value > LONGEST_WALL:
            longest = Measure(LONGEST_WALL, Dimension.LENGTH)
            self.reader.complain(
                "wall-too-long",
                f"wall {name} is {self.reader.say(length.measure)} long",
                span_of(length.origin) if length.origin is not None else None,
                f"the longest wall that is drawn is {self.reader.say(longest)}",
            )
            return None
        high = (
            self.height(self.reader.measure(statement.clause("high"), f"{name}.high"))
            or ceiling
            or literal(0)
        )
        features, blocking = self.features.of_wall(statement, length, high)
        return Wall(
            name,
            length,
            high,
            features,
            self._plumb(statement.clause("plumb"), name),
            tuple(self._points(statement, name, "floor")),
            tuple(self._points(statement, name, "ceiling")),
            span_of(statement.origin),
            lengths,
            blocking,
        )

    def _lengths(self, name: str, said: Sequence[Clause]) -> Sequence[tuple[Quantity, Quantity]]:
        found = []
        for clause in said:
            if clause.clause("up") is None:
                continue
            up = self.height(self.reader.measure(clause.clause("up"), f"{name}.measured_at"))
            length = self.reader.positive_measure(clause, f"{name}.length", f"the length of {name}")
            if up is not None and length is not None:
                found.append((up, length))
        return found

    def _points(
        self, statement: Statement, name: str, word: str
    ) -> Sequence[tuple[Quantity, Quantity]]:
        found = []
        for clause in (each for each in statement.clauses if each.word == word):
            at = self.reader.measure(clause.clause("at"), f"{name}.{word}_at")
            height = self.reader.measure(clause, f"{name}.{word}")
            if at is None:
                self.reader.complain(
                    "value-missing",
                    f"{word} doesn't say where along {name} it was measured",
                    span_of(clause.origin),
                    "add at and a length",
                )
            elif height is not None:
                height = negate(height) if word == "floor" else self.height(height)
                assert height is not None, "a height that is there stays there"
                found.append((at, height))
        return found

    def _plumb(self, clause: Clause | None, name: str) -> Quantity | None:
        """How far a wall leans in for each inch of height."""
        if clause is None:
            return None
        for word, sign in (("in", 1), ("out", -1)):
            lean = clause.clause(word)
            slope = slope_of(self.reader, lean, f"{name}.plumb")
            if slope is not None:
                across, along = slope
                return literal(
                    sign * across.value / along.value, Dimension.COUNT, across.origin, "lean"
                )
        return None


LONGEST_WALL = Fraction(12 * 1000)
"""A wall past a thousand feet is a slip of the pen, and no drawing shows it."""


def _first_of_name(
    surveyor: _Surveyor, walls: Sequence[tuple[Statement, Wall]]
) -> Sequence[tuple[Statement, Wall]]:
    found: dict[str, tuple[Statement, Wall]] = {}
    for line, wall in walls:
        if wall.name in found:
            surveyor.reader.complain(
                "declared-twice",
                f"wall {wall.name} is there already",
                span_of(line.head.origin),
                "give one of the two another name",
            )
            continue
        found[wall.name] = (line, wall)
    return tuple(found.values())


def _value(quantity: Quantity) -> Fraction:
    return quantity.value
