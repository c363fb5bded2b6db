"""How a figure grows with one that it is made of."""

from fractions import Fraction

from hypothesis import given as examples
from hypothesis import strategies as st

from casewright.lang.cells import (
    Quantity,
    add,
    divide,
    growth,
    least,
    literal,
    most,
    named,
    negate,
    scale,
    subtract,
    to_nearest,
)
from casewright.lang.measure import Dimension

F = Fraction
STEP = F(1, 10**6)

figures = st.fractions(min_value=F(1, 8), max_value=100, max_denominator=64)
builds = st.lists(st.sampled_from("+-*/~<>"), max_size=6)


def built(width: Quantity, operations: list[str], others: list[Fraction]) -> Quantity:
    """A figure made of `width` and others, one operation after another."""
    value = width
    for operation, other in zip(operations, others, strict=True):
        with_ = literal(other)
        match operation:
            case "+":
                value = named(add(value, with_), "sum")
            case "-":
                value = subtract(with_, value)
            case "*":
                value = scale(value, with_, Dimension.LENGTH)
            case "/":
                value = divide(value, with_, Dimension.LENGTH)
            case "~":
                value = negate(value)
            case "<":
                value = least(value, add(value, with_))
            case _:
                value = most(value, subtract(value, with_))
    return value


@examples(figures, builds, st.data())
def test_it_is_the_rate_of_change(
    width: Fraction, operations: list[str], data: st.DataObject
) -> None:
    others = data.draw(st.lists(figures, min_size=len(operations), max_size=len(operations)))
    before, wider = literal(width), literal(width + STEP)
    figure, later = built(before, operations, others), built(wider, operations, others)
    assert growth(figure, before) == (later.value - figure.value) / STEP


def test_of_a_product_and_a_quotient_of_both() -> None:
    width = literal(6)
    square = scale(width, width, Dimension.AREA)
    assert growth(square, width) == 12
    assert growth(divide(literal(3), width, Dimension.COUNT), width) == F(-3, 36)


def test_a_figure_that_is_rounded_grows_as_what_it_is_rounded_from() -> None:
    width = literal(6)
    rounded = to_nearest(divide(width, literal(7), Dimension.LENGTH), literal(F(1, 32)))
    assert growth(rounded, width) == F(1, 7)


def test_what_is_not_made_of_it_does_not_grow() -> None:
    width, depth = literal(6), literal(6)
    assert growth(add(depth, literal(1)), width) == 0
