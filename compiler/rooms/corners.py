"""Corners as they were measured, and whether the walls of a room close."""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from itertools import pairwise

from casewright.compiler.model import Corner, Wall
from casewright.compiler.rooms.angles import degrees_between, degrees_of
from casewright.compiler.rooms.kitchen import Reader
from casewright.compiler.rooms.room import SQUARE, gap_of
from casewright.lang.cells import Quantity, add, literal, named, subtract
from casewright.lang.findings import Figure, Finding, Label, Severity
from casewright.lang.measure import Dimension, Measure, length
from casewright.lang.shape import Clause, Statement, bare_word, span_of, suggestion
from casewright.lang.source import Span

ANGLE_ERROR = Fraction(1, 20)
"""Degrees by which a measured angle may be wrong: half of the tenth it is read to (common
practice). What walls miss closing by within that is no fault of the text."""

SHARPEST = Fraction(15)
"""Degrees that the last corner has at least where nobody says that it is there: three walls of a
room that goes on are nearly two parallel ones."""

_ERROR_SLOPE = Fraction(873, 10**6)
"""The tangent of ANGLE_ERROR."""


class CornerReader:
    """Reads the corners of a room; what is wrong goes to the reader's findings."""

    def __init__(self, reader: Reader) -> None:
        self.reader = reader

    def corners(
        self, statement: Statement, walls: Sequence[Wall]
    ) -> tuple[tuple[Corner, ...], bool]:
        """The corner at each wall's right end, and whether the last wall meets the first."""
        names = [wall.name for wall in walls]
        stated: dict[str, Corner] = {}
        is_open = False
        for line in (each for each in statement.body if each.rule == "corner"):
            pair = self._pair(line, names)
            if pair is None:
                continue
            first, second = pair
            if line.clause("open") is not None:
                is_open = self._opens(line, pair, names) or is_open
                continue
            angle = self._angle(line, f"corner.{first}.{second}")
            if angle is None:
                continue
            if first in stated:
                self.reader.complain(
                    "corner-twice",
                    f"the corner of {first} and {second} is measured twice",
                    span_of(line.origin),
                    "keep the one that is right",
                )
                continue
            stated[first] = Corner(first, second, angle, True, span_of(line.origin))
        found = []
        for first, second in pairwise(names):
            square = literal(SQUARE, Dimension.ANGLE, None, "taken as square")
            name = f"corner.{first}.{second}"
            found.append(stated.get(first) or Corner(first, second, named(square, name), False))
        closing = self._closing(statement, names, found, stated, is_open)
        return (*found, *((closing,) if closing is not None else ())), closing is not None

    def _pair(self, line: Statement, names: Sequence[str]) -> tuple[str, str] | None:
        words = [bare_word(value) for value in line.values[:2]]
        if len(words) < 2:
            return None
        for word, value in zip(words, line.values, strict=False):
            if word not in names:
                self.reader.complain(
                    "unknown-wall",
                    f"no wall is called {word}",
                    span_of(value.origin),
                    suggestion(word, names),
                )
                return None
        first, second = words
        follows = names.index(second) - names.index(first)
        if follows == 1 or (len(names) > 2 and follows == 1 - len(names)):
            return first, second
        turned = names.index(second) + 1 == names.index(first)
        self.reader.complain(
            "corner-out-of-order",
            f"{second} is not the next wall clockwise after {first}",
            span_of(line.origin),
            f"write corner {second} {first}"
            if turned
            else "walls are listed clockwise, each by its left end after the one before: "
            + ", ".join(names),
        )
        return None

    def _opens(self, line: Statement, pair: tuple[str, str], names: Sequence[str]) -> bool:
        if len(names) > 2 and pair == (names[-1], names[0]):
            return True
        self.reader.complain(
            "corner-open-between",
            f"{pair[0]} and {pair[1]} can't be left open: what follows would have no place",
            span_of(line.origin),
            "begin the list with the wall after the opening, or measure the opening as a wall "
            "with a doorway in it",
        )
        return False

    def _angle(self, line: Statement, name: str) -> Quantity | None:
        """The inside angle, in whichever of the three ways it was measured."""
        ways = [word for word in ("out", "in", "legs") if line.clause(word) is not None]
        if len(ways) + (len(line.values) > 2) != 1:
            self.reader.complain(
                "corner-angle-missing" if not ways else "corner-twice",
                "this corner doesn't say its angle"
                if not ways
                else "this corner says its angle in two ways",
                span_of(line.origin),
                "say an angle in deg, or out or in with a length over a length, "
                "or legs with a length by a length and their diagonal",
            )
            return None
        if not ways:
            angle = self.reader.value(line, 2, name, Dimension.ANGLE)
        elif ways[0] == "legs":
            angle = self._from_legs(line, name)
        else:
            angle = self._from_slope(line, ways[0], name)
        if angle is None or (0 < angle.value < 360 and angle.value != 180):
            return angle
        straight = angle.value == 180
        self.reader.complain(
            "angle-impossible",
            f"an inside corner of {self.reader.say(angle.measure)} can't be"
            if not straight
            else "two walls in one line have no corner between them",
            span_of(line.origin),
            "write them as one wall"
            if straight
            else "a square corner is 90deg, one that stands out into the room 270deg",
        )
        return None

    def _from_slope(self, line: Statement, word: str, name: str) -> Quantity | None:
        clause = line.clause(word)
        slope = slope_of(self.reader, clause, f"{name}.{word}")
        if slope is None or clause is None:
            return None
        across, along = slope
        off = literal(
            degrees_of(across.value, along.value),
            Dimension.ANGLE,
            clause.origin,
            f"the angle of {word} over a distance",
        )
        square = literal(SQUARE, Dimension.ANGLE, None, "square")
        return named(add(square, off) if word == "out" else subtract(square, off), name)

    def _from_legs(self, line: Statement, name: str) -> Quantity | None:
        clause = line.clause("legs")
        assert clause is not None, "the legs are said"
        first = self.reader.positive_measure(clause, f"{name}.leg", "a leg")
        second = self.reader.positive_measure(clause.clause("by"), f"{name}.other_leg", "a leg")
        diagonal = line.clause("diagonal")
        across = self.reader.positive_measure(diagonal, f"{name}.diagonal", "the diagonal")
        if first is None or second is None or across is None:
            if clause.clause("by") is None or diagonal is None:
                self.reader.complain(
                    "value-missing",
                    "a corner is measured by two legs and the diagonal between their ends",
                    span_of(line.origin),
                    "for instance: legs 36 by 48 diagonal 60",
                )
            return None
        degrees = degrees_between(first.value, second.value, across.value)
        if degrees is None:
            self.reader.complain(
                "diagonal-impossible",
                f"no corner has such legs and a diagonal of {self.reader.say(across.measure)}",
                span_of(line.origin),
                "measure again",
                (
                    Figure("a leg", first.measure, _where(first)),
                    Figure("the other", second.measure, _where(second)),
                    Figure("both", length(first.value + second.value), ruled=True),
                    Figure("their diagonal", across.measure, _where(across)),
                ),
            )
            return None
        return named(
            literal(degrees, Dimension.ANGLE, clause.origin, "the angle between the legs"), name
        )

    def _closing(
        self,
        statement: Statement,
        names: Sequence[str],
        found: Sequence[Corner],
        stated: Mapping[str, Corner],
        is_open: bool,
    ) -> Corner | None:
        """The corner between the last wall and the first, where they meet: as stated, or what the
        other corners leave, if that can be a corner of the inside."""
        if is_open or len(names) < 3:
            return None
        name = f"corner.{names[-1]}.{names[0]}"
        whole = literal(180 * (len(names) - 2), Dimension.ANGLE, None, "all corners together")
        left: Quantity = whole
        for corner in found:
            left = subtract(left, corner.angle)
        closing = stated.get(names[-1])
        if closing is None:
            if not SHARPEST < left.value < 180:
                return None
            return Corner(names[-1], names[0], named(left, name), False)
        off = closing.angle.value - left.value
        if abs(off) > ANGLE_ERROR * len(names):
            total = whole.value + off
            self.reader.findings.append(
                Finding(
                    "corners-dont-close",
                    Severity.WARNING,
                    f"the corners of {statement.name} come to "
                    f"{self.reader.say(Measure(total, Dimension.ANGLE))} "
                    f"in place of {self.reader.say(whole.measure)}",
                    span_of(statement.head.origin),
                    (
                        *(
                            Figure(f"{each.first} {each.second}", each.angle.measure, each.span)
                            for each in (*found, closing)
                        ),
                        Figure("together", Measure(total, Dimension.ANGLE), ruled=True),
                        Figure(f"{len(names)} walls want", whole.measure),
                        Figure(
                            "over" if off > 0 else "short",
                            Measure(abs(off), Dimension.ANGLE),
                            ruled=True,
                        ),
                    ),
                    help="measure the corners again",
                )
            )
        return closing


def check_closing(reader: Reader, statement: Statement, walls: Sequence[Wall], top: int) -> None:
    """Says by how much walls that should close don't; `top` is the wall along the plan's top.
    Of walls laid out at angles that can't be, it says nothing: their gap comes of that."""
    if any(each.slug == "corners-dont-close" for each in reader.findings):
        return
    along, out = gap_of(walls, top)
    around = sum((wall.length.value for wall in walls), Fraction(0))
    slack = around * _ERROR_SLOPE
    if along * along + out * out <= slack * slack:
        return
    base = walls[top].name
    parts = [
        f"{reader.say(length(abs(each)))} {words}"
        for each, words in ((along, f"along {base}"), (out, f"out from {base}"))
        if each != 0
    ]
    reader.findings.append(
        Finding(
            "walls-dont-close",
            Severity.WARNING,
            f"the walls of {statement.name} miss closing by {' and '.join(parts)}",
            span_of(statement.head.origin),
            (
                *(Figure(each.name, each.length.measure, _where(each.length)) for each in walls),
                Figure(f"misses, along {base}", length(abs(along)), ruled=True),
                Figure(f"misses, out from {base}", length(abs(out))),
            ),
            tuple(
                Label(wall.span, f"{wall.name} ends where {walls[0].name} should begin")
                for wall in walls[-1:]
                if wall.span is not None
            ),
            help=f"measure the walls and corners again; if {walls[-1].name} and "
            f"{walls[0].name} don't meet, write: corner {walls[-1].name} {walls[0].name} open",
        )
    )


def slope_of(reader: Reader, clause: Clause | None, name: str) -> tuple[Quantity, Quantity] | None:
    """`LENGTH over LENGTH`; None where it is unsaid or wrong (and blamed)."""
    if clause is None:
        return None
    across = reader.measure(clause, name)
    along = reader.positive_measure(clause.clause("over"), f"{name}.over", "this distance")
    if across is not None and along is None and clause.clause("over") is None:
        reader.complain(
            "value-missing",
            "nothing says over which distance this was measured",
            span_of(clause.origin),
            "add over and a length",
        )
    if across is None or along is None:
        return None
    return across, along


def _where(quantity: Quantity) -> Span | None:
    return span_of(quantity.origin) if quantity.origin is not None else None
