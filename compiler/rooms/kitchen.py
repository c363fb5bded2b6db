"""The kitchen's own statements read: the job's head and the room as measured."""

from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Final, TypeVar

from attrs import frozen

from casewright.compiler.blame import bind
from casewright.compiler.construct.build import Build
from casewright.compiler.construct.evaluate import quantity
from casewright.compiler.construct.faults import Fault
from casewright.compiler.construct.holder import Holder
from casewright.compiler.construct.scope import Scope
from casewright.compiler.keys import binder
from casewright.compiler.model import Room
from casewright.compiler.text.resolve import Program
from casewright.lang.cells import Quantity, literal, named
from casewright.lang.findings import Figure, Finding, error
from casewright.lang.measure import INCH, Dimension, Measure, System
from casewright.lang.printing import Printing, in_words, is_printable
from casewright.lang.shape import Clause, Statement, bare_word, span_of
from casewright.lang.source import Span
from casewright.lang.tree import Date, Number

T = TypeVar("T")

MORE_THAN_NOTHING: Final = "write more than 0, or leave it out where it can be"

USUAL_STEP = {System.INCHES: Fraction(1, 32), System.MILLIMETRES: 1 / INCH}
"""The precision of a job that states none: 1/32 inch, or a millimetre (common practice)."""


def usual_printing(system: System) -> Printing:
    """How the figures of a job that states no precision are printed."""
    return Printing(system, USUAL_STEP[system])


@frozen
class Head:
    """What a job's head says."""

    name: str
    number: str
    revision: str
    date: str
    system: System
    precision: Quantity
    built: str
    built_span: Span | None

    @property
    def printing(self) -> Printing:
        return Printing(self.system, self.precision.value)


class Reader:
    """Reads measures of the kitchen's own statements, keeping what is wrong with them."""

    def __init__(
        self,
        program: Program,
        system: System,
        room: Room | None = None,
        printing: Printing | None = None,
    ) -> None:
        """Where a room is given, its figures can be read (`room.counter`). Messages print measures
        as the job does, where that is known."""
        step = literal(USUAL_STEP[system])
        outside = figures_of(room) if room is not None else {}
        self.build = Build(program, system, printing or usual_printing(system), step, outside)
        self.findings: list[Finding] = []
        self._scope = Scope(Holder(self.build, "", "", (), {}, None, None, False))

    def attempt(self, work: Callable[[], T]) -> T | None:
        try:
            return work()
        except Fault as found:
            self.findings.append(bind(found.blame, binder(())))
            return None

    def measure(
        self, clause: Clause | None, name: str, want: Dimension = Dimension.LENGTH
    ) -> Quantity | None:
        """The measure of a clause, under a name; None where it is unsaid or wrong (and blamed)."""
        if clause is None or not clause.values:
            return None
        value = self.attempt(lambda: quantity(clause.values[0], self._scope, want))
        return named(value, name, clause.origin) if value is not None else None

    def glance(self, clause: Clause | None, name: str) -> Quantity | None:
        """As `measure`, for what is blamed elsewhere: None where it can't be read."""
        if clause is None or not clause.values:
            return None
        value = self.build.glance(lambda: quantity(clause.values[0], self._scope, Dimension.LENGTH))
        return named(value, name, clause.origin) if value is not None else None

    def value(
        self, statement: Statement, index: int, name: str, want: Dimension = Dimension.LENGTH
    ) -> Quantity | None:
        """A statement's value by position, as `measure`."""
        if len(statement.values) <= index:
            return None
        expression = statement.values[index]
        value = self.attempt(lambda: quantity(expression, self._scope, want))
        return named(value, name, expression.origin) if value is not None else None

    def complain(
        self,
        slug: str,
        headline: str,
        span: Span | None,
        help: str = "",
        figures: tuple[Figure, ...] = (),
    ) -> None:
        self.findings.append(error(slug, headline, span, help=help, figures=figures))

    def say(self, measure: Measure) -> str:
        """A measure as messages print it."""
        return in_words(measure, self.build.printing)

    def positive_measure(
        self, clause: Clause | None, name: str, what: str, help: str = MORE_THAN_NOTHING
    ) -> Quantity | None:
        """`measure` of a clause where it is more than nothing; else None, and it is blamed."""
        return self.positive(self.measure(clause, name), what, help)

    def positive(
        self, measure: Quantity | None, what: str, help: str = MORE_THAN_NOTHING
    ) -> Quantity | None:
        """`measure` where it is more than nothing; else None, and it is blamed."""
        if measure is None or measure.value > 0:
            return measure
        self.findings.append(
            error(
                "size-not-positive",
                f"{what} is more than nothing",
                span_of(measure.origin) if measure.origin is not None else None,
                help=help,
            )
        )
        return None


def figures_of(room: Room) -> Mapping[str, Quantity | str]:
    """What units may read of a room: the figures that it says."""
    figures = {
        "room.counter": room.counter,
        "room.counter_thick": room.counter_thick,
        "room.ceiling": room.ceiling,
    }
    return {name: each for name, each in figures.items() if each.value or each.origin is not None}


def read_head(program: Program, system: System) -> tuple[Head | None, tuple[Finding, ...]]:
    """The job's head; None where the kitchen has no job."""
    if not program.jobs:
        return None, ()
    statement = program.jobs[0]
    reader = Reader(program, system)
    name = statement.raw.text.strip() if statement.raw is not None else ""
    if "{" in name:
        # A job's name is the raw rest of its line, so a block on that line would be part of it.
        reader.findings.append(
            error(
                "block-out-of-place",
                "the block of a job begins a new line after its {",
                span_of(statement.raw.origin) if statement.raw is not None else None,
                help="end the line with the { and put what is in the block on lines of its own",
            )
        )
    precision = reader.positive(
        reader.measure(statement.clause("precision"), "job.precision"), "the precision"
    )
    if precision is not None and not is_printable(system, precision.value):
        reader.findings.append(
            error(
                "precision-not-printable",
                "papers can't be printed to this precision",
                span_of(statement.clause("precision").origin),  # type: ignore[union-attr]
                help="in inches a halving down to 1/128; in mm a decimal",
            )
        )
        precision = None
    built = statement.clause("built")
    word = bare_word(built.values[0]) if built is not None and built.values else ""
    return (
        Head(
            name,
            _written(statement.clause("number")),
            _written(statement.clause("revision")),
            _written(statement.clause("date")),
            system,
            precision
            if precision is not None
            else named(literal(USUAL_STEP[system], label="the usual step"), "job.precision"),
            word,
            span_of(built.values[0].origin) if word and built is not None else None,
        ),
        tuple(reader.findings),
    )


def _written(clause: Clause | None) -> str:
    if clause is None or not clause.values:
        return ""
    value = clause.values[0]
    return value.written if isinstance(value, Number | Date) else bare_word(value)
