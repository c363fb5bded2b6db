"""Expressions worked out in a scope: exact, typed by dimension, and with their derivation kept.

The wanted kind flows down: a bare number is a length of the file's measure where a length or a
place is wanted, a count where a count is, an angle where an angle is; a time says its own. A face
(an axis and a side) says which face a bare thing means; it is carried through + and -, parentheses,
if and or else.
"""

from fractions import Fraction

from attrs import frozen

from casewright.compiler.construct.arithmetic import (
    check_length,
    combine,
    none_fits,
    over,
    plain,
    steps_within,
    times,
)
from casewright.compiler.construct.faults import Fault, fault
from casewright.compiler.construct.values import (
    Choice,
    Datum,
    Lengths,
    Missing,
    Reading,
    Several,
    Sides,
    Spatial,
    Value,
)
from casewright.compiler.construct.wording import dimension_words, is_bare, written
from casewright.compiler.model import EDGES, Axis
from casewright.lang.cells import (
    Quantity,
    divide,
    literal,
    negate,
    scale,
)
from casewright.lang.measure import INCH, Dimension, System
from casewright.lang.shape import bare_word, suggestion
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

COMPARISONS = ("<", "<=", ">", ">=")

_UNITS = {
    "in": (Dimension.LENGTH, Fraction(1)),
    "mm": (Dimension.LENGTH, 1 / INCH),
    "deg": (Dimension.ANGLE, Fraction(1)),
    "lb": (Dimension.WEIGHT, Fraction(1)),
    "kg": (Dimension.WEIGHT, Fraction(100_000_000, 45_359_237)),
    "min": (Dimension.TIME, Fraction(1)),
    "h": (Dimension.TIME, Fraction(60)),
    "%": (Dimension.COUNT, Fraction(1, 100)),
}
"""What a written unit makes of a number, in the units values are kept in. The pound is exactly
0.45359237 kg (international avoirdupois pound, 1959)."""


@frozen
class Face:
    """Which face a bare thing means: on `axis`, its high (1) or low (-1) one."""

    axis: Axis
    side: int


def quantity(expression: Expression, scope: Reading, want: Dimension) -> Quantity:
    """A figure of the wanted dimension. Raises Fault where it is something else."""
    value = evaluate(expression, scope, want)
    if not isinstance(value, Quantity):
        raise _not_a_figure(expression, value, want)
    if value.dimension is not want:
        raise fault(
            "wrong-kind",
            f"{written(expression)} is {dimension_words(value.dimension)}; "
            f"{dimension_words(want)} is wanted here",
            expression.origin,
        )
    return value


def _not_a_figure(expression: Expression, value: Value, want: Dimension) -> Fault:
    if isinstance(value, Missing):
        return fault("not-there", value.why, expression.origin, help="say what else: or else …")
    if isinstance(value, Spatial):
        return fault(
            "which-face",
            f"say which face of {written(expression)} is meant",
            expression.origin,
            help=f"for instance {written(expression)}.left",
        )
    if isinstance(value, Several):
        return fault(
            "which-one",
            f"there are several of {written(expression)}; say which",
            expression.origin,
            help="reach one through the opening, level or post it was made for",
        )
    return fault(
        "wrong-kind",
        f"{written(expression)} is no figure; {dimension_words(want)} is wanted here",
        expression.origin,
    )


def place(expression: Expression, scope: Reading, axis: Axis, side: int) -> Quantity:
    """A place on `axis`, in the space the scope is read in; a bare thing means its face on
    `side`. Raises Fault where it is no place or one of another axis."""
    value = evaluate(expression, scope, Dimension.PLACE, Face(axis, side))
    if not isinstance(value, Quantity):
        raise _not_a_figure(expression, value, Dimension.PLACE)
    if value.dimension is Dimension.LENGTH:
        raise fault(
            "length-not-place",
            f"{written(expression)} is a length; a place says from where",
            expression.origin,
            help=f"for instance {_first_edge(axis)} + {written(expression)}",
        )
    if value.dimension is not Dimension.PLACE or value.axis != axis:
        kind = (
            f"a place {value.axis}"
            if value.dimension is Dimension.PLACE
            else dimension_words(value.dimension)
        )
        raise fault(
            "wrong-kind",
            f"{written(expression)} is {kind}; a place {axis} is wanted here",
            expression.origin,
        )
    return value


def _first_edge(axis: Axis) -> str:
    return next(word for word, (of, side) in EDGES.items() if of == axis and side < 0)


def evaluate(
    expression: Expression,
    scope: Reading,
    want: Dimension | None = None,
    face: Face | None = None,
) -> Value:
    """What an expression is worth. Raises Fault, lang.cells.Cycle or lang.cells.Poisoned."""
    match expression:
        case Number():
            return _number(expression, scope, want)
        case Name():
            value = scope.look_up(expression.words, expression.origin, want)
            return _facing(value, face, scope) if face is not None else value
        case Group():
            return evaluate(expression.inner, scope, want, face)
        case Conditional():
            chosen = (
                expression.value if condition(expression.condition, scope) else expression.otherwise
            )
            return evaluate(chosen, scope, want, face)
        case Binary(operator="or else"):
            value = evaluate(expression.left, scope, want, face)
            if isinstance(value, Missing):
                return evaluate(expression.right, scope, want, face)
            return value
        case Binary(operator="+" | "-"):
            return _sum(expression, scope, want, face)
        case Binary(operator="*" | "/"):
            return _product(expression, scope, want)
        case Binary(operator="within"):
            return _within(expression, scope)
        case Binary(operator=".."):
            raise fault(
                "wrong-kind",
                f"{written(expression)} is a stretch, not one figure",
                expression.origin,
            )
        case Binary() | Not():
            return condition(expression, scope)
        case Date() | Text():
            raise fault("wrong-kind", f"{written(expression)} can't stand here", expression.origin)


def _facing(value: Value, face: Face, scope: Reading) -> Value:
    """The face of a thing, in the space the scope is read in; anything else as it is."""
    if not isinstance(value, Spatial):
        return value
    turned = scope.mirrored and face.axis == "across"
    extent = value.seen(face.axis, scope.faces)
    high = (face.side > 0) != turned
    end = extent.high if high else extent.low
    return negate(end) if turned else end


def _number(number: Number, scope: Reading, want: Dimension | None) -> Quantity:
    if number.unit is not None:
        dimension, factor = _UNITS[number.unit]
        return literal(number.value * factor, dimension, number.origin, number.written)
    if want in (Dimension.LENGTH, Dimension.PLACE):
        metric = scope.system_of(number.origin) is System.MILLIMETRES
        value = number.value / INCH if metric else number.value
        return literal(value, Dimension.LENGTH, number.origin, number.written)
    if want is Dimension.AREA:
        raise fault("wrong-kind", f"{number.written} alone is no area", number.origin)
    if want is Dimension.TIME and number.value:
        raise fault(
            "wrong-kind",
            f"{number.written} alone is no time",
            number.origin,
            help="write min or h after it",
        )
    return literal(number.value, want or Dimension.COUNT, number.origin, number.written)


def _operand(
    expression: Expression, scope: Reading, want: Dimension | None, face: Face | None = None
) -> Quantity | Missing:
    value = evaluate(expression, scope, want, face)
    if isinstance(value, Quantity):
        return value
    if isinstance(value, Missing) and face is not None:
        return value
    raise _not_a_figure(expression, value, want or Dimension.LENGTH)


def _sum(
    expression: Binary, scope: Reading, want: Dimension | None, face: Face | None
) -> Quantity | Missing:
    inner = Dimension.LENGTH if want is Dimension.PLACE else want
    if inner is None and is_bare(expression.left) and not is_bare(expression.right):
        right = _operand(expression.right, scope, None)
        left = _operand(expression.left, scope, plain(right), face)
    else:
        left = _operand(expression.left, scope, inner, face)
        if isinstance(left, Missing):
            return left
        right = _operand(expression.right, scope, inner or plain(left))
    if isinstance(left, Missing) or isinstance(right, Missing):
        return left if isinstance(left, Missing) else right
    return combine(expression, left, right)


def _product(expression: Binary, scope: Reading, want: Dimension | None) -> Quantity:
    bare_left, bare_right = is_bare(expression.left), is_bare(expression.right)
    if bare_left and bare_right and want not in (None, Dimension.COUNT):
        if expression.operator == "*":
            raise fault(
                "bare-factors",
                f"one factor of {written(expression)} must say its unit",
                expression.origin,
                help=f'for instance {written(expression.left)} * {written(expression.right)}"',
            )
        left = _figure(expression.left, scope, want)
        right = _figure(expression.right, scope, Dimension.COUNT)
    elif bare_right:
        left = _figure(expression.left, scope, want)
        right = _figure(expression.right, scope, Dimension.COUNT)
    elif bare_left:
        right = _figure(expression.right, scope, want if expression.operator == "*" else None)
        counted = right.dimension is Dimension.COUNT
        left = _figure(expression.left, scope, want if counted else Dimension.COUNT)
    else:
        left = _figure(expression.left, scope, None)
        right = _figure(expression.right, scope, None)
    check_length(expression, left, right)
    if expression.operator == "*":
        return scale(left, right, times(expression, left, right), expression.origin)
    if right.value == 0:
        raise fault("divided-by-nothing", f"{written(expression)} divides by nothing", right.origin)
    return divide(left, right, over(expression, left, right), expression.origin)


def _figure(expression: Expression, scope: Reading, want: Dimension | None) -> Quantity:
    value = _operand(expression, scope, want)
    if isinstance(value, Missing) or value.dimension is Dimension.PLACE:
        raise fault(
            "wrong-kind", f"{written(expression)} is a place; it has no product", expression.origin
        )
    return value


def _within(expression: Binary, scope: Reading) -> Quantity:
    """The longest of several lengths that is not longer than the limit; of one length alone, as
    many times it as the limit holds."""
    lengths = evaluate(expression.left, scope, Dimension.LENGTH)
    limit = quantity(expression.right, scope, Dimension.LENGTH)
    if isinstance(lengths, Quantity) and lengths.dimension is Dimension.LENGTH:
        return steps_within(expression, lengths, limit)
    if not isinstance(lengths, Lengths):
        raise fault(
            "wrong-kind",
            f"{written(expression.left)} is no list of lengths to choose from",
            expression.left.origin,
        )
    fitting = [each for each in lengths.quantities if each.value <= limit.value]
    if not fitting:
        raise none_fits(expression, lengths.quantities[0], limit)
    return fitting[-1]


def condition(expression: Expression, scope: Reading) -> bool:
    """Whether something is so. Raises Fault where it is no condition."""
    match expression:
        case Group():
            return condition(expression.inner, scope)
        case Not():
            return not condition(expression.inner, scope)
        case Binary(operator="and"):
            return condition(expression.left, scope) and condition(expression.right, scope)
        case Binary(operator="or"):
            return condition(expression.left, scope) or condition(expression.right, scope)
        case Binary(operator="is"):
            return _is(expression, scope)
        case Binary(operator=operator) if operator in COMPARISONS:
            return _compares(expression, scope)
        case _:
            return truth(evaluate(expression, scope))


def truth(value: Value) -> bool:
    """Yes, a figure other than nothing, a word other than no and none, or a thing that is there."""
    match value:
        case bool():
            return value
        case Quantity():
            return value.value != 0
        case Choice():
            return value.word not in ("no", "none")
        case Sides():
            return bool(value.words)
        case Missing():
            return False
        case Several():
            return bool(value.things)
        case _:
            return True


def _is(expression: Binary, scope: Reading) -> bool:
    left = evaluate(expression.left, scope)
    word = bare_word(expression.right)
    if isinstance(left, Choice):
        if left.choices and word not in left.choices:
            raise fault(
                "unknown-choice",
                f"{written(expression.left)} is never {written(expression.right)}",
                expression.right.origin,
                help=suggestion(word, left.choices) or "one of: " + ", ".join(left.choices),
            )
        return left.word == word
    if isinstance(left, Datum):
        return left.declaration.name == word
    if isinstance(left, Missing):
        return False
    if isinstance(left, Quantity):
        right = quantity(expression.right, scope, left.dimension)
        return left.value == right.value
    return truth(left) == (word == "yes")


def compared(expression: Expression, scope: Reading) -> tuple[str, Quantity, Quantity] | None:
    """How a condition compares which two figures; None where it compares none. Raises Fault."""
    match expression:
        case Group():
            return compared(expression.inner, scope)
        case Binary(operator=operator) if operator in COMPARISONS:
            return operator, *_both_sides(expression, scope)
        case _:
            return None


def _compares(expression: Binary, scope: Reading) -> bool:
    left, right = _both_sides(expression, scope)
    match expression.operator:
        case "<":
            return left.value < right.value
        case "<=":
            return left.value <= right.value
        case ">":
            return left.value > right.value
        case _:
            return left.value >= right.value


def _both_sides(expression: Binary, scope: Reading) -> tuple[Quantity, Quantity]:
    first, second = expression.left, expression.right
    if is_bare(first) and not is_bare(second):
        right = _side(second, scope, None)
        left = _side(first, scope, plain(right))
    else:
        left = _side(first, scope, None)
        right = _side(second, scope, plain(left))
    if left.dimension is not right.dimension:
        raise fault(
            "kinds-dont-mix",
            f"{written(expression)} compares {dimension_words(left.dimension)} "
            f"with {dimension_words(right.dimension)}",
            expression.origin,
        )
    return left, right


def _side(expression: Expression, scope: Reading, want: Dimension | None) -> Quantity:
    value = _operand(expression, scope, want)
    if isinstance(value, Missing):
        raise fault("not-there", value.why, expression.origin)
    return value


def words_of(text: Text, scope: Reading) -> str:
    """A quoted text with the figures of its braces put in."""
    pieces: list[str] = []
    for piece in text.pieces:
        if isinstance(piece, str):
            pieces.append(piece)
        else:
            value = evaluate(piece, scope, None)
            pieces.append(scope.say(value))
    return "".join(pieces)
