"""The sets a `for each` goes over: openings, what stands between them, fillings, numbers."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from casewright.compiler.construct.evaluate import condition, quantity, truth
from casewright.compiler.construct.faults import fault
from casewright.compiler.construct.leaf import Leaf
from casewright.compiler.construct.opening_tree import Member
from casewright.compiler.construct.scope import Scope, Turn
from casewright.lang.cells import literal
from casewright.lang.measure import Dimension
from casewright.lang.shape import Clause, Statement, suggestion
from casewright.lang.tree import Name

if TYPE_CHECKING:
    from casewright.compiler.construct.holder import Holder

SETS = ("opening", "level", "post", "member")
"""What openings make: themselves, what stands between two over one another or side by side, and all
that stands between, in an order in which it can be put together."""

OF_MEMBERS = SETS[1:]

MOST_COUNTED = 200
"""Turns of one counted `for each`."""


def each_word(statement: Statement) -> str:
    """The word a `for each` goes by."""
    clause = statement.clause("each")
    return getattr(clause.values[0], "text", "") if clause is not None and clause.values else ""


def turns_of(holder: "Holder", statement: Statement, scope: Scope, every: bool) -> Iterator[Turn]:
    """The turns of a `for each` read in `holder`, those its `with` keeps; `every` one where that
    is asked. Raises Fault."""
    word = each_word(statement)
    if statement.clause("of") is not None:
        yield from _numbers(statement, scope)
        return
    filled = holder.build.program.find("filling", word) is not None
    if word not in SETS and not filled:
        raise fault(
            "unknown-set",
            f"there is no set of {word}",
            statement.head.origin,
            help=suggestion(word, (*SETS, *holder.build.program.names("filling")))
            or f"for each: {', '.join(SETS)}, a filling, or a word of a count",
        )
    openings = holder.openings()
    items: tuple[Leaf | Member, ...]
    if openings is None:
        items = ()
    elif filled:
        items = tuple(leaf for leaf in openings.leaves if leaf.filling.name == word)
    elif word == "opening":
        items = openings.leaves
    elif word == "member":
        items = openings.as_built()
    else:
        items = openings.members("level" if word == "level" else "post")
    clause = statement.clause("with")
    for number, item in enumerate(items, start=1):
        turn = Turn(word, item, number, len(items))
        if every or clause is None or _has(clause, turn, scope):
            yield turn


def _has(clause: Clause, turn: Turn, scope: Scope) -> bool:
    expression = clause.values[0]
    if isinstance(expression, Name) and isinstance(turn.item, Leaf):
        name = expression.words[0]
        if name == "faced":
            return turn.item.faced
        value = turn.item.option(name, Dimension.COUNT)
        return value is not None and truth(value)
    return condition(expression, scope.at(turn))


def _numbers(statement: Statement, scope: Scope) -> Iterator[Turn]:
    clause = statement.clause("of")
    assert clause is not None, "asked for by who calls"
    count = quantity(clause.values[0], scope, Dimension.COUNT)
    if count.value.denominator != 1 or not 0 <= count.value <= MOST_COUNTED:
        raise fault(
            "wrong-kind",
            f"a count is a whole number up to {MOST_COUNTED}",
            clause.origin,
        )
    word = each_word(statement)
    for number in range(1, int(count.value) + 1):
        item = literal(number, Dimension.COUNT, clause.origin, word)
        yield Turn(word, item, number, int(count.value))


def counted(statement: Statement, scope: Scope) -> Iterator[Scope]:
    """The scopes of a counted `for each` inside an opening tree."""
    if statement.clause("of") is None:
        raise fault(
            "unknown-set",
            "inside a stack or row a for each counts: for each n of 3",
            statement.head.origin,
        )
    for turn in _numbers(statement, scope):
        yield scope.at(turn)
