"""The names that a text declares, and the blocks each of them stands in."""

from collections.abc import Iterator, Sequence

from attrs import frozen

from casewright.compiler.construct.scope import MOUTH
from casewright.compiler.construct.sets import each_word
from casewright.lang.shape import Statement

PLACED = ("part", "hardware", "assembly")
"""Rules whose statements place a thing."""


@frozen(eq=False)
class Guard:
    """A block a declaration stands in: a `when` or a `for each`."""

    statement: Statement


@frozen(eq=False)
class Declared:
    """A name a holder's text declares, and the blocks it stands in, outermost first."""

    statement: Statement
    guards: tuple[Guard, ...]
    loops: tuple[str, ...]
    """The words of the `for each` blocks it stands in, outermost first."""


def names_in(body: Sequence[Statement]) -> dict[str, list[Declared]]:
    """What a text declares, by name, in the order of the text."""
    index: dict[str, list[Declared]] = {}
    for statement, guards in _lines(body, ()):
        if statement.rule in (*PLACED, MOUTH, "option", "let") and statement.name:
            loops = (each.statement for each in guards if each.statement.rule == "for")
            declared = Declared(statement, guards, tuple(map(each_word, loops)))
            index.setdefault(statement.name, []).append(declared)
    return index


def left_out_by(body: Sequence[Statement]) -> set[str]:
    """The names that a text leaves out of its parent."""
    return {line.name for line, _ in _lines(body, ()) if line.rule == "without"}


def _lines(
    body: Sequence[Statement], guards: tuple[Guard, ...]
) -> Iterator[tuple[Statement, tuple[Guard, ...]]]:
    """Every line of a text outside the things it places, with the blocks it stands in."""
    for statement in body:
        if statement.rule in ("when", "for"):
            yield from _lines(statement.body, (*guards, Guard(statement)))
        else:
            yield statement, guards
