"""Options by their kinds: a length, a count, a choice of words, a material, sides …"""

from casewright.compiler.construct.evaluate import condition, evaluate, quantity
from casewright.compiler.construct.faults import fault
from casewright.compiler.construct.values import Choice, Datum, Missing, Reading, Sides, Value
from casewright.compiler.construct.wording import written
from casewright.compiler.text.resolve import DATA
from casewright.lang.measure import Dimension
from casewright.lang.shape import Statement, bare_word, suggestion
from casewright.lang.tree import Conditional, Expression, Group

FIGURES = {
    "length": Dimension.LENGTH,
    "count": Dimension.COUNT,
    "angle": Dimension.ANGLE,
    "weight": Dimension.WEIGHT,
    "area": Dimension.AREA,
    "money": Dimension.MONEY,
    "time": Dimension.TIME,
}
"""Option kinds that are figures."""

SIDES = {
    "left": frozenset(("left",)),
    "right": frozenset(("right",)),
    "both": frozenset(("left", "right")),
    "none": frozenset(),
}

KINDS = (*FIGURES, "choice", "sides", *DATA)


def read_option(statement: Statement, expression: Expression, scope: Reading) -> Value:
    """The value of an option, by its kind. Raises Fault where it is of another one."""
    if isinstance(expression, Group):
        return read_option(statement, expression.inner, scope)
    if isinstance(expression, Conditional):
        so = condition(expression.condition, scope)
        return read_option(statement, expression.value if so else expression.otherwise, scope)
    kind = bare_word(statement.values[1]) if len(statement.values) > 1 else ""
    name = statement.name
    if kind in FIGURES:
        return quantity(expression, scope, FIGURES[kind])
    word = bare_word(expression)
    if kind == "choice":
        choices = tuple(bare_word(value) for value in statement.values[2:])
        if word in choices:
            return Choice(word, choices)
        value = evaluate(expression, scope) if not word or "." in written(expression) else None
        if isinstance(value, Choice) and value.word in choices:
            return Choice(value.word, choices)
        raise fault(
            "unknown-choice",
            f"{name} is never {written(expression)}",
            expression.origin,
            help=suggestion(word, choices) or "one of: " + ", ".join(choices),
        )
    if kind == "sides":
        if word in SIDES:
            return Sides(SIDES[word])
        raise fault(
            "unknown-choice",
            f"{name} is left, right, both or none, not {written(expression)}",
            expression.origin,
        )
    if kind in DATA:
        value = evaluate(expression, scope)
        if isinstance(value, Missing):
            return value
        if isinstance(value, Datum) and value.declaration.kind == kind:
            return value
        raise fault(
            "wrong-kind",
            f"{name} is a {kind}; {written(expression)} is none",
            expression.origin,
        )
    raise fault(
        "unknown-kind",
        f"no option is of kind {kind or 'nothing'}",
        statement.head.origin,
        help=suggestion(kind, KINDS) or "one of: " + ", ".join(KINDS),
    )
