"""A placed thing's text without its lines, so that equal units are equal values.

`detach` takes the lines out of a statement and keeps them beside it; `lang.source.Own` stands in
their place. What a unit's result says about its own text is bound to lines by `binder`.
"""

from collections.abc import Callable, Sequence

from attrs import evolve

from casewright.lang.shape import Clause, Statement
from casewright.lang.source import Origin, Own, Span
from casewright.lang.tree import (
    Binary,
    Conditional,
    Date,
    Expression,
    Group,
    Name,
    Not,
    Number,
    Text,
    Word,
)


def detach(statement: Statement) -> tuple[Statement, tuple[Span, ...]]:
    """`statement` with every place made symbolic, and the places, in the order of their numbers.

    The tag is left out: it is no part of what a unit is.
    """
    detacher = _Detacher()
    return detacher.statement(evolve(statement, tag=None)), tuple(detacher.spans)


def binder(spans: Sequence[Span]) -> Callable[[Origin], Span | None]:
    """Binds symbolic places to the lines of one placing."""

    def bind(origin: Origin) -> Span | None:
        if isinstance(origin, Own):
            return spans[origin.index] if origin.index < len(spans) else None
        return origin

    return bind


class _Detacher:
    def __init__(self) -> None:
        self.spans: list[Span] = []

    def origin(self, origin: Origin) -> Origin:
        if isinstance(origin, Span):
            self.spans.append(origin)
            return Own(len(self.spans) - 1)
        return origin

    def word(self, word: Word) -> Word:
        return Word(word.text, self.origin(word.origin))

    def statement(self, statement: Statement) -> Statement:
        return Statement(
            statement.rule,
            self.word(statement.tag) if statement.tag is not None else None,
            self.word(statement.head),
            tuple(self.expression(value) for value in statement.values),
            tuple(self.clause(clause) for clause in statement.clauses),
            tuple(self.clause(clause) for clause in statement.options),
            self.expression(statement.value) if statement.value is not None else None,
            self.word(statement.raw) if statement.raw is not None else None,
            tuple(self.statement(line) for line in statement.body),
            self.origin(statement.origin),
        )

    def clause(self, clause: Clause) -> Clause:
        return Clause(
            clause.word,
            tuple(self.expression(value) for value in clause.values),
            tuple(self.clause(inner) for inner in clause.clauses),
            self.origin(clause.origin),
        )

    def expression(self, expression: Expression) -> Expression:
        origin = self.origin(expression.origin)
        match expression:
            case Number() | Name() | Date():
                return evolve(expression, origin=origin)
            case Not() | Group():
                return evolve(expression, inner=self.expression(expression.inner), origin=origin)
            case Binary():
                return Binary(
                    expression.operator,
                    self.expression(expression.left),
                    self.expression(expression.right),
                    origin,
                )
            case Conditional():
                return Conditional(
                    self.expression(expression.value),
                    self.expression(expression.condition),
                    self.expression(expression.otherwise),
                    origin,
                )
            case Text():
                pieces = tuple(
                    piece if isinstance(piece, str) else self.expression(piece)
                    for piece in expression.pieces
                )
                return Text(pieces, origin)
