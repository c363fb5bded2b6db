"""How a shop's lumber comes to it: `boards` statements read, one for each lumber they name."""

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from casewright.compiler.construct.build import DatumScope
from casewright.compiler.construct.evaluate import quantity
from casewright.compiler.shop.supply import Boards
from casewright.lang.cells import Quantity
from casewright.lang.findings import error
from casewright.lang.measure import Dimension
from casewright.lang.shape import Clause, Statement, bare_word, span_of, suggestion
from casewright.lang.source import Span
from casewright.lang.tree import Expression

if TYPE_CHECKING:
    from casewright.compiler.shop.read_supply import SupplyReader

NOTHING = Fraction(0)

MOST_LENGTHS: Final = 12
"""Lengths that one lumber may come in: each makes a plan harder to prove."""


def read_boards(reader: "SupplyReader") -> tuple[Boards, ...]:
    """The boards of every lumber, the nearest text's; two lines in texts equally near, and what
    can't be read, are kept among the reader's findings."""
    first: dict[str, tuple[Statement, int]] = {}
    for text in reader.program.texts:
        for statement in text.statements:
            if statement.rule != "boards":
                continue
            for name in _named(reader, statement):
                kept, level = first.setdefault(name, (statement, text.level))
                if kept is not statement and level == text.level:
                    reader.twice(kept, statement)
    read: dict[int, Boards | None] = {}
    found: list[Boards] = []
    for name, (statement, _) in first.items():
        if reader.faults.within(statement.origin):
            continue
        if id(statement) not in read:
            read[id(statement)] = _boards(reader, statement)
        alike = read[id(statement)]
        if alike is not None:
            found.append(alike.named(name))
    return tuple(found)


def _named(reader: "SupplyReader", statement: Statement) -> Iterator[str]:
    """The lumbers that a line names; a word that is none is blamed."""
    for value in statement.values:
        word = bare_word(value)
        if reader.program.find("lumber", word) is not None:
            yield word
            continue
        reader.findings.append(
            error(
                "unknown-thing",
                f"no lumber is called {word or 'this'}",
                span_of(value.origin),
                help=suggestion(word, reader.program.names("lumber")),
            )
        )


def _boards(reader: "SupplyReader", statement: Statement) -> Boards | None:
    """What one line says of its boards; None, and it is blamed, where they have no length, or
    nothing would be left of them."""
    name = statement.name

    def measure(word: str) -> Fraction:
        value = reader.measure(statement.clause(word), f"{name} {word}")
        if value is None:
            return NOTHING
        if value.value >= 0:
            return value.value
        reader.complain(
            "less-than-nothing", f"{word} is nothing or more", _span(statement.clause(word))
        )
        return NOTHING

    def size(word: str) -> Fraction | None:
        value = reader.positive_measure(statement.clause(word), f"{name} {word}", word)
        return value.value if value is not None else None

    lengths = lengths_of(reader, statement.clause("lengths"))
    if not lengths:
        # A length that can't be read is blamed already.
        if statement.clause("lengths") is None:
            reader.complain(
                "value-missing",
                f"boards of {name} don't say what lengths they come in",
                span_of(statement.head.origin),
                help="add lengths, and one or more",
            )
        return None
    if len(lengths) > MOST_LENGTHS:
        reader.complain(
            "too-many-lengths",
            f"boards of {name} come in {len(lengths)} lengths, and {MOST_LENGTHS} is the most",
            span_of(statement.head.origin),
            help="keep those the shop would choose among",
        )
        return None
    first = statement.clause("first")
    boards = Boards(
        name,
        lengths,
        size("wide"),
        statement.clause("random") is not None,
        size("rough"),
        measure("over"),
        measure("edge"),
        measure("ends"),
        reader.share(statement.clause("defects"), "a share of defects"),
        size("strip"),
        bare_word(first.values[0]) if first is not None and first.values else "rip",
        span_of(statement.head.origin),
    )
    fault = _left_of(boards)
    if fault is not None:
        word, headline = fault
        reader.complain(
            "board-used-up", f"{headline} of {name}", _span(statement.clause(word)),
            help="say less of it, or larger boards",
        )  # fmt: skip
        return None
    return boards


def _left_of(boards: Boards) -> tuple[str, str] | None:
    """The clause that leaves nothing of a board, and how that is said."""
    if min(boards.lengths) * (1 - boards.defects) <= 2 * boards.ends + 2 * boards.over:
        return "lengths", "ends and defects leave nothing of the shortest board"
    narrowest = boards.strip if boards.strip is not None else boards.wide
    if narrowest is not None and narrowest <= 2 * boards.edge:
        word = "strip" if boards.strip is not None else "wide"
        return word, "jointing its edges leaves nothing of a strip"
    if boards.wide is not None and boards.wide <= boards.edge:
        return "wide", "jointing an edge leaves nothing of a board"
    return None


def lengths_of(reader: "SupplyReader", clause: Clause | None) -> tuple[Fraction, ...]:
    """The lengths that a clause lists, the shortest first; what is no length is blamed."""
    found: set[Fraction] = set()
    for expression in clause.values if clause is not None else ():
        value = _length(reader, expression)
        if value is not None:
            found.add(value.value)
    return tuple(sorted(found))


def _length(reader: "SupplyReader", expression: Expression) -> Quantity | None:
    value = reader.attempt(lambda: quantity(expression, DatumScope(reader.build), Dimension.LENGTH))
    return reader.positive(value, "a length that is bought")


def _span(clause: Clause | None) -> Span | None:
    return span_of(clause.origin) if clause is not None else None
