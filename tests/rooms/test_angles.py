"""Angles by rational rotations, against the floating-point library and by hand."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.compiler.rooms.angles import degrees_between, degrees_of, direction, root, turned

TENTHS = st.integers(-3600, 3600).map(lambda each: Fraction(each, 10))


@given(TENTHS)
def test_a_direction_is_on_the_circle_and_within_1e_7_degree(degrees: Fraction) -> None:
    cosine, sine = direction(degrees)
    assert cosine * cosine + sine * sine == 1
    off = math.degrees(math.atan2(float(sine), float(cosine))) - float(degrees)
    assert abs((off + 180) % 360 - 180) < 1e-7


@pytest.mark.parametrize(
    ("degrees", "wanted"), [(0, (1, 0)), (90, (0, 1)), (180, (-1, 0)), (-90, (0, -1))]
)
def test_quarter_turns_are_exact(degrees: int, wanted: tuple[int, int]) -> None:
    assert list(direction(Fraction(degrees))) == list(wanted)


@given(TENTHS, TENTHS)
def test_turning_keeps_lengths(one: Fraction, other: Fraction) -> None:
    x, y = turned(direction(one), direction(other))
    assert x * x + y * y == 1


@given(st.integers(0, 5000), st.integers(-5000, 5000))
def test_a_slope_is_its_arc_tangent(across: int, along: int) -> None:
    if across == 0 and along == 0:
        return
    found = degrees_of(Fraction(across, 7), Fraction(along, 7))
    assert abs(float(found) - math.degrees(math.atan2(across, along))) < 1e-8


def test_legs_of_three_four_five_are_square() -> None:
    assert degrees_between(Fraction(36), Fraction(48), Fraction(60)) == 90


def test_legs_that_make_no_triangle_have_no_angle() -> None:
    assert degrees_between(Fraction(36), Fraction(48), Fraction(84)) is None
    assert degrees_between(Fraction(36), Fraction(48), Fraction(12)) is None


def test_a_diagonal_that_is_too_long_says_an_open_corner() -> None:
    # cos = (36^2 + 48^2 - 60.5^2) / (2 * 36 * 48) = -60.25 / 3456 = -0.0174335: 90.9989 degrees.
    found = degrees_between(Fraction(36), Fraction(48), Fraction("60.5"))
    assert found is not None
    assert abs(found - Fraction("90.9989137")) < Fraction(1, 10**7)


@given(st.fractions(0, 10**6, max_denominator=1000))
def test_a_root_squared_is_the_value(value: Fraction) -> None:
    assert abs(root(value) ** 2 - value) <= value / 10**20 + Fraction(1, 10**20)
