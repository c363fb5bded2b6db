"""What runs along units and comes by the length, read: mouldings, light rails, counters."""

from fractions import Fraction
from typing import TYPE_CHECKING, Final

from casewright.compiler.construct.materials import called
from casewright.compiler.shop.read_boards import MOST_LENGTHS, lengths_of
from casewright.compiler.shop.supply import Linear
from casewright.lang.shape import Clause, Statement, bare_word, span_of

if TYPE_CHECKING:
    from casewright.compiler.shop.read_supply import SupplyReader

SHORTEST: Final = 6
"""Inches that the longest bought length must yield: nothing shorter runs along units, and it bounds
how many pieces there can be."""


def read_linear(reader: "SupplyReader") -> tuple[Linear, ...]:
    """Everything that is declared to run along units, by name; what can't be read is blamed."""
    program = reader.program
    found = [
        _linear(reader, declaration.statement)
        for name in program.names("linear")
        if (declaration := program.find("linear", name)) is not None
        and not reader.faults.spoil(program, declaration)
    ]
    return tuple(each for each in found if each is not None)


def _linear(reader: "SupplyReader", statement: Statement) -> Linear | None:
    name = statement.name
    lengths = lengths_of(reader, statement.clause("lengths"))
    along = _roles(statement.clause("along"))
    for word, what in (("lengths", "what lengths it comes in"), ("along", "what it runs along")):
        if statement.clause(word) is None:
            reader.complain(
                "value-missing",
                f"linear {name} doesn't say {what}",
                span_of(statement.head.origin),
                help=f"add {word}, and one or more",
            )
    if not lengths or not along:
        return None
    if len(lengths) > MOST_LENGTHS:
        reader.complain(
            "too-many-lengths",
            f"{name} comes in {len(lengths)} lengths, and {MOST_LENGTHS} is the most",
            span_of(statement.head.origin),
            help="keep those the shop would choose among",
        )
        return None
    measured = reader.measure(statement.clause("over"), f"{name} over")
    over = measured.value if measured is not None else Fraction(0)
    if over < 0 or max(lengths) - 2 * over < SHORTEST:
        reader.complain(
            "board-used-up",
            f"{name} comes in no length that yields a piece of {SHORTEST} inches",
            span_of(statement.head.origin),
            help="say less over at its ends, or larger lengths",
        )
        return None
    edge = statement.clause("edge")
    rises = reader.measure(statement.clause("rises"), f"{name} rises")
    return Linear(
        name,
        called(statement, name),
        along,
        _roles(statement.clause("past")),
        bare_word(edge.values[0]) if edge is not None and edge.values else "top",
        lengths,
        over,
        _roles(statement.clause("clear_of")),
        span_of(statement.head.origin),
        rises.value if rises is not None else Fraction(0),
    )


def _roles(clause: Clause | None) -> tuple[str, ...]:
    """The roles of a clause."""
    return tuple(bare_word(value) for value in clause.values) if clause is not None else ()
