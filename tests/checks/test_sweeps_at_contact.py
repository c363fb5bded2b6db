"""Doors and drawers against what stands in their way: a finding comes exactly at contact, square
and at odd angles. Expected places are worked out by hand, beside each."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.compiler.check.plan import Sector, common, rectangle, shares, turned_about
from casewright.compiler.rooms.angles import direction
from tests.checks.reading import finding, findings, job, source

HAIR = Fraction(1, 1000)
ODD = Fraction(1, 250)
"""At an odd angle: the other wall's ends are places of the plan, rounded to a thousandth."""
PULL = Fraction(11, 8)
"""How far the plain shop's pulls stand out."""
GAP = Fraction(1, 16)
"""What a front stays back from its unit's end, beside a filler or a space."""
FRONT = Fraction(3, 4)
DEPTH = Fraction(189, 8)
"""Depth of the plain shop's base units."""


def thousandth(value: Fraction) -> Fraction:
    return Fraction(round(value * 1000), 1000)


def corner(degrees: str, runs: str) -> str:
    return (
        job()
        + f"""
room galley {{
  floor   finished
  ceiling 96
  counter 36 thick 1 1/2
  wall west  length 90
  wall north length 90
  corner west north {degrees}
}}
"""
        + runs
    )


def door(space: Fraction, degrees: str = "90deg", swing: int = 90) -> str:
    """A door hung beside the west wall, the unit's end so far from the corner."""
    return corner(
        degrees,
        f"""
run low on north from left at {space} length 30 {{
  S1: door_base 20  hung left  swing {swing}deg
  space share
}}
""",
    )


@source("arcs and travels worked by hand")
def test_a_door_and_a_wall_at_a_right_angle() -> None:
    """Open square, the door is in line with its closed edge and its pull stands out beyond: the
    edge must be the pull's 1 3/8 from the wall, the unit 1/16 less."""
    contact = PULL - GAP
    assert findings(door(contact), "door-meets-wall") == ()
    assert findings(door(contact - HAIR), "door-meets-wall") != ()


@source("arcs and travels worked by hand")
def test_the_filler_that_is_asked_for_is_the_one_that_clears() -> None:
    told = finding(door(Fraction(1)), "door-meets-wall").help
    assert told.startswith('5/16" more between them clears it')
    assert findings(door(1 + Fraction(5, 16)), "door-meets-wall") == ()
    assert findings(door(1 + Fraction(5, 16) - HAIR), "door-meets-wall") != ()


def leaning(space: Fraction, degrees: Fraction, along: Fraction, out: Fraction) -> Fraction:
    """How far a place so far along the wall and out from it is from the wall in the corner, square
    to that: along x sine - out x cosine of the corner's angle."""
    cosine, sine = direction(degrees)
    return (space + along) * sine - out * cosine


@source("arcs and travels worked by hand")
@pytest.mark.parametrize("degrees", ["88", "86.5", "89.9"])
def test_a_door_and_a_wall_that_leans_in(degrees: str) -> None:
    """In a corner less than square the wall leans over the door. The nearest place of the open door
    is the far corner of its pull, 2 from the door's free edge: the pull is 1 wide, in the middle
    of the door, so 10 7/16 from the hinge; the wall is a straight line, so contact is linear."""
    angle = Fraction(degrees)
    face = DEPTH + FRONT
    door_wide = 20 - 2 * GAP
    pull = (GAP - PULL, face + door_wide / 2 + Fraction(1, 2))
    edge = (GAP, face + door_wide)
    # Of the pull's far corner and the door's own, whichever the wall meets first.
    clear = min(leaning(Fraction(0), angle, *pull), leaning(Fraction(0), angle, *edge))
    _, sine = direction(angle)
    contact = -clear / sine
    after, before = thousandth(contact + ODD), thousandth(contact - ODD)
    assert findings(door(after, f"{degrees}deg"), "door-meets-wall") == ()
    assert findings(door(before, f"{degrees}deg"), "door-meets-wall") != ()


def drawers(space: Fraction, degrees: str = "90deg") -> str:
    """Drawers on the north wall, their unit's end so far from the corner, past a bank of doors on
    the west wall that begins 20 from the corner."""
    return corner(
        degrees,
        f"""
run around on west from left at 40 length 30 {{
  W1: door_base share  hung left
}}
run low on north from left at {space} length 30 {{
  S1: drawer_base 20
  space share
}}
""",
    )


@source("arcs and travels worked by hand")
def test_drawers_pass_the_pulls_around_the_corner() -> None:
    """The west run's pulls stand out to its depth, a front's 3/4 and 1 3/8: 25 3/4. The drawer's
    front is 1/16 inside its unit's end. This is what the filler in a corner is for."""
    contact = DEPTH + FRONT + PULL - GAP
    assert findings(drawers(contact), "drawer-meets-fixed") == ()
    assert findings(drawers(contact - HAIR), "drawer-meets-fixed") != ()


@source("arcs and travels worked by hand")
def test_the_corner_filler_is_computed() -> None:
    """With no filler the end of the drawers stands where the west run's boxes end."""
    told = finding(drawers(DEPTH), "drawer-meets-fixed")
    needed = FRONT + PULL - GAP
    assert needed == Fraction(33, 16)
    assert told.help.startswith('2 1/16" more between them clears it')


@source("arcs and travels worked by hand")
@pytest.mark.parametrize("degrees", ["94", "90.4"])
def test_drawers_pass_the_pulls_at_a_wider_corner(degrees: str) -> None:
    """In a corner wider than square the west run turns away. The nearest place of its door's pull
    to the drawers is one of the two ends of its face, a along the wall and o out from it: along the
    north wall that is a x cosine + o x sine."""
    angle = Fraction(degrees)
    cosine, sine = direction(angle)
    out = DEPTH + FRONT + PULL
    # The pull is 1 wide, in the middle of a door that is 20 to 50 from the corner.
    places = []
    for from_corner in (35 + Fraction(1, 2), 35 - Fraction(1, 2)):
        # Along the west wall from the corner, then out from it, in the north wall's own axes.
        along = from_corner * cosine + out * sine
        assert from_corner * sine - out * cosine > DEPTH, "it stands before the drawers' boxes"
        places.append(along)
    contact = max(places) - GAP
    after, before = thousandth(contact + ODD), thousandth(contact - ODD)
    assert findings(drawers(after, f"{degrees}deg"), "drawer-meets-fixed") == ()
    assert findings(drawers(before, f"{degrees}deg"), "drawer-meets-fixed") != ()


def washer(space: Fraction, degrees: str = "90deg") -> str:
    """A dishwasher on the north wall, past a west run that begins 30 from the corner."""
    return corner(
        degrees,
        f"""
run around on west from left at 30 length 30 {{
  W1: open_base share
}}
run low on north from left at {space} length 40 {{
  S1: dishwasher 24  confirmed
  space share
}}
""",
    )


@source("arcs and travels worked by hand")
def test_an_appliance_and_the_run_around_the_corner() -> None:
    """A dishwasher's door opens over its own width: its end clears where the west run ends."""
    assert findings(washer(DEPTH), "appliance-door-blocked") == ()
    assert findings(washer(DEPTH - HAIR), "appliance-door-blocked") != ()


@source("arcs and travels worked by hand")
@pytest.mark.parametrize("degrees", ["94", "90.4"])
def test_an_appliance_and_the_run_around_a_wider_corner(degrees: str) -> None:
    """The near end of the west run's face lies 30 from the corner and its depth out from the wall:
    along the north wall that is 30 x cosine + depth x sine; out from it, where the door opens."""
    cosine, sine = direction(Fraction(degrees))
    contact = 30 * cosine + DEPTH * sine
    assert 24 < 30 * sine - DEPTH * cosine < 24 + 26, "it stands where the door opens"
    after, before = thousandth(contact + ODD), thousandth(contact - ODD)
    assert findings(washer(after, f"{degrees}deg"), "appliance-door-blocked") == ()
    assert findings(washer(before, f"{degrees}deg"), "appliance-door-blocked") != ()


# -- the geometry itself -------------------------------------------------------------------------

NOUGHT = (Fraction(0), Fraction(0))
SIDES = st.fractions(min_value=-40, max_value=40, max_denominator=32)


def test_a_sector_and_a_square_that_only_touch() -> None:
    """A radius of 5 turned by 90 degrees from (3, -4) ends at (4, 3) and passes (5, 0)."""
    sector = Sector(NOUGHT, (Fraction(3), Fraction(-4)), direction(Fraction(90)))
    at = rectangle((Fraction(5), Fraction(-1)), (Fraction(6), Fraction(1)))
    nearer = rectangle((5 - HAIR, Fraction(-1)), (Fraction(6), Fraction(1)))
    assert not shares(sector, at)
    assert shares(sector, nearer)


@given(SIDES, SIDES, SIDES, SIDES)
def test_what_two_squares_share_is_their_overlap(
    x: Fraction, y: Fraction, other_x: Fraction, other_y: Fraction
) -> None:
    one = rectangle((x, y), (x + 8, y + 8))
    other = rectangle((other_x, other_y), (other_x + 8, other_y + 8))
    overlap = abs(x - other_x) < 8 and abs(y - other_y) < 8
    assert bool(common(one, other)) == overlap


@given(
    st.integers(1, 170),
    st.fractions(min_value=1, max_value=40, max_denominator=16),
    st.fractions(min_value=0, max_value=1, max_denominator=64),
)
def test_a_sector_holds_what_its_line_passes(degrees: int, far: Fraction, share: Fraction) -> None:
    """A small square around any place of the turned line shares room with the sector."""
    start = (far, Fraction(0))
    sector = Sector(NOUGHT, start, direction(Fraction(degrees)))
    place = turned_about(start, NOUGHT, direction(degrees * share))
    near = (place[0] * Fraction(9, 10), place[1] * Fraction(9, 10))
    square = rectangle((near[0] - HAIR, near[1] - HAIR), (near[0] + HAIR, near[1] + HAIR))
    assert shares(sector, square)
    beyond = (place[0] * 2, place[1] * 2)
    out = rectangle((beyond[0] - HAIR, beyond[1] - HAIR), (beyond[0] + HAIR, beyond[1] + HAIR))
    assert not shares(sector, out)
