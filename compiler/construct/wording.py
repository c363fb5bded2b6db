"""Expressions and kinds of figures as messages quote them."""

from casewright.lang.measure import Dimension
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
)

_WORDS = {
    Dimension.LENGTH: "a length",
    Dimension.PLACE: "a place",
    Dimension.AREA: "an area",
    Dimension.COUNT: "a count",
    Dimension.ANGLE: "an angle",
    Dimension.WEIGHT: "a weight",
    Dimension.MONEY: "money",
    Dimension.TIME: "a time",
}


def dimension_words(dimension: Dimension) -> str:
    return _WORDS[dimension]


def written(expression: Expression) -> str:
    """An expression as a message quotes it."""
    match expression:
        case Name():
            return expression.text
        case Number() | Date():
            return expression.written
        case Group():
            return f"({written(expression.inner)})"
        case Not():
            return f"not {written(expression.inner)}"
        case Binary():
            return f"{written(expression.left)} {expression.operator} {written(expression.right)}"
        case Conditional():
            return (
                f"{written(expression.value)} if {written(expression.condition)} "
                f"else {written(expression.otherwise)}"
            )
        case Text():
            return "the words in quotes"


def is_bare(expression: Expression) -> bool:
    """Whether every figure in it is a number without a unit."""
    match expression:
        case Number():
            return expression.unit is None
        case Group():
            return is_bare(expression.inner)
        case Binary():
            return is_bare(expression.left) and is_bare(expression.right)
        case _:
            return False
