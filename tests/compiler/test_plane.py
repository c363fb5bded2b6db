"""Convex outlines in plan: exact, whichever way they are turned."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.compiler.model import Slant
from casewright.compiler.plane import (
    PLAY,
    Outline,
    area,
    common,
    drawn_out,
    hull,
    largest_rectangle,
    meetings,
    rectangle,
    share_room,
)
from casewright.compiler.rooms.angles import direction

SQUARE = rectangle((Fraction(0), Fraction(4)), (Fraction(0), Fraction(4)))

LENGTHS = st.fractions(min_value=1, max_value=40, max_denominator=16)
PLACES = st.fractions(min_value=-40, max_value=40, max_denominator=16)


@st.composite
def rectangles(draw: st.DrawFn) -> Outline:
    across, deep = draw(PLACES), draw(PLACES)
    return rectangle((across, across + draw(LENGTHS)), (deep, deep + draw(LENGTHS)))


@st.composite
def slants(draw: st.DrawFn) -> Slant:
    degrees = draw(st.fractions(min_value=-180, max_value=180, max_denominator=10))
    return Slant("door_side", draw(PLACES), draw(PLACES), direction(degrees))


def turned(slant: Slant, outline: Outline) -> Outline:
    return tuple(slant.in_unit(*point) for point in outline)


@settings(max_examples=60, deadline=None)
@given(slant=slants(), point=st.tuples(PLACES, PLACES))
def test_a_place_comes_back_exactly_whatever_the_turn(
    slant: Slant, point: tuple[Fraction, Fraction]
) -> None:
    assert slant.here(*slant.in_unit(*point)) == point


@settings(max_examples=60, deadline=None)
@given(slant=slants(), one=rectangles(), other=rectangles())
def test_a_turn_changes_no_area_and_no_meeting(slant: Slant, one: Outline, other: Outline) -> None:
    assert area(turned(slant, one)) == area(one)
    shared = common(one, other)
    assert area(common(turned(slant, one), turned(slant, other))) == area(shared)
    # A turn is exact, so not even the play is needed to see that they share room.
    nothing = Fraction(0)
    assert share_room(turned(slant, one), turned(slant, other), nothing) == (area(shared) > 0)


def test_what_a_corner_takes_off() -> None:
    # The square of 4 less the half of it before the line from (0, 4) to (4, 0): 8 are left.
    half = hull([*SQUARE[1:]])
    assert area(half) == 8
    assert area(common(SQUARE, half)) == 8


@pytest.mark.parametrize(("off", "meets"), [(0, True), (PLAY, True), (2 * PLAY, False)])
def test_they_meet_within_a_thousandth(off: Fraction, meets: bool) -> None:
    beside = rectangle((Fraction(4) + off, Fraction(6)), (Fraction(1), Fraction(9)))
    found = list(meetings(SQUARE, beside))
    assert bool(found) == meets
    if meets:
        # Along the side at 4, from 1 to 4.
        (meeting,) = found
        assert (meeting.start, meeting.end) == ((4, 1), (4, 4))


@pytest.mark.parametrize(("into", "shares"), [(0, False), (PLAY, False), (2 * PLAY, True)])
def test_they_share_room_past_a_thousandth(into: Fraction, shares: bool) -> None:
    beside = rectangle((Fraction(4) - into, Fraction(6)), (Fraction(1), Fraction(9)))
    assert share_room(SQUARE, beside) == shares


def test_what_slides_sweeps_its_way() -> None:
    # 4 by 4, drawn out by (10, 10): 16, and twice 4 x 10 beside the diagonal.
    assert area(drawn_out(SQUARE, (Fraction(10), Fraction(10)))) == 16 + 2 * 4 * 10


def test_the_largest_rectangle_in_half_a_square() -> None:
    # Under the line from (0, 4) to (4, 0) only the corners' own places are looked at.
    pentagon = (
        (Fraction(2), Fraction(0)),
        (Fraction(4), Fraction(0)),
        (Fraction(4), Fraction(4)),
        (Fraction(0), Fraction(4)),
        (Fraction(0), Fraction(2)),
    )
    # 4 wide from 2 to 4, or 2 wide from 0 to 4: both have 8.
    across, deep = largest_rectangle(pentagon)
    assert (across[1] - across[0]) * (deep[1] - deep[0]) == 8
