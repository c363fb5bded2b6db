"""Two figures made one: which kinds may be added, multiplied and divided, and what fits in what."""

from casewright.compiler.blame import Row
from casewright.compiler.construct.faults import Fault, fault
from casewright.compiler.construct.values import Missing
from casewright.compiler.construct.wording import dimension_words, written
from casewright.lang.cells import Quantity, add, literal, scale, subtract
from casewright.lang.measure import Dimension
from casewright.lang.tree import Binary

MOST_DIGITS = 5_000
"""Digits of a figure and of what it is made of, far more than exact sums ever need."""

MOST_BITS = MOST_DIGITS * 10 // 3
"""About the bits of a number of so many digits."""


def plain(quantity: Quantity | Missing) -> Dimension | None:
    if isinstance(quantity, Missing):
        return None
    return Dimension.LENGTH if quantity.dimension is Dimension.PLACE else quantity.dimension


def combine(expression: Binary, left: Quantity, right: Quantity) -> Quantity:
    """A sum or difference, where the two kinds may be added."""
    places = (left.dimension is Dimension.PLACE, right.dimension is Dimension.PLACE)
    plus = expression.operator == "+"
    if places == (True, True):
        if plus:
            raise fault(
                "place-plus-place",
                f"{written(expression)} adds two places",
                expression.origin,
                help="a place and a length make a place; two places only make a difference",
            )
        if left.axis != right.axis:
            raise fault(
                "wrong-kind",
                f"{written(expression)} takes a place {right.axis} from a place {left.axis}",
                expression.origin,
            )
    elif places == (False, True) and not plus:
        raise fault(
            "wrong-kind",
            f"{written(expression)} takes a place from a length",
            expression.origin,
        )
    elif plain(left) is not plain(right):
        raise fault(
            "kinds-dont-mix",
            f"{written(expression)} mixes {dimension_words(left.dimension)} and "
            f"{dimension_words(right.dimension)}",
            expression.origin,
        )
    check_length(expression, left, right)
    if plus:
        return add(left, right, expression.origin)
    return subtract(left, right, expression.origin)


def check_length(expression: Binary, *operands: Quantity) -> None:
    """A figure that grows by itself, as by squaring over and over, ends in a finding."""
    numbers = (each.value for each in operands)
    bits = sum(each.numerator.bit_length() + each.denominator.bit_length() for each in numbers)
    if bits > MOST_BITS:
        raise fault(
            "number-too-long",
            f"this figure has more than {MOST_DIGITS} digits",
            expression.origin,
            help="no measure needs so many",
        )


def times(expression: Binary, left: Quantity, right: Quantity) -> Dimension:
    if left.dimension is Dimension.COUNT:
        return right.dimension
    if right.dimension is Dimension.COUNT:
        return left.dimension
    if left.dimension is right.dimension is Dimension.LENGTH:
        return Dimension.AREA
    raise fault(
        "kinds-dont-mix",
        f"{written(expression)} multiplies {dimension_words(left.dimension)} by "
        f"{dimension_words(right.dimension)}",
        expression.origin,
    )


def over(expression: Binary, left: Quantity, right: Quantity) -> Dimension:
    if right.dimension is Dimension.COUNT:
        return left.dimension
    if left.dimension is right.dimension:
        return Dimension.COUNT
    if left.dimension is Dimension.AREA and right.dimension is Dimension.LENGTH:
        return Dimension.LENGTH
    raise fault(
        "kinds-dont-mix",
        f"{written(expression)} divides {dimension_words(left.dimension)} by "
        f"{dimension_words(right.dimension)}",
        expression.origin,
    )


def none_fits(expression: Binary, shortest: Quantity, limit: Quantity) -> Fault:
    return fault(
        "none-fits",
        f"none of {written(expression.left)} fits",
        expression.origin,
        rows=(
            Row("the shortest", shortest.measure, shortest.origin),
            Row("room for it", limit.measure, expression.right.origin),
        ),
        help="make it deeper, or choose another that is made shorter",
    )


def steps_within(expression: Binary, step: Quantity, limit: Quantity) -> Quantity:
    if step.value <= 0:
        raise fault(
            "size-not-positive",
            f"{written(expression.left)} is a step, and more than nothing",
            expression.left.origin,
        )
    if limit.value < step.value:
        raise none_fits(expression, step, limit)
    count = literal(limit.value // step.value, Dimension.COUNT, None, "whole steps")
    return scale(step, count, Dimension.LENGTH, expression.origin)
