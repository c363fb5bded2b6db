"""Lifting, standing up and hinges, held against published figures."""

from fractions import Fraction

import pytest

from tests.checks.reading import ROOM, figure, finding, findings, job, source


def lifted(reach: str, start: str, travel: str, grip: str) -> Fraction:
    """What one should lift, as a report on a very heavy unit says it, in pounds."""
    posture = (
        f"  lift_reach {reach}\n  lift_from {start}\n  lift_travel {travel}\n  lift_grip {grip}"
    )
    text = (
        job(allowances=posture)
        + ROOM
        + """
sheet slab { thick 1  stock 100 by 100  grain none  density 490 }
unit block  bare  serves wall_unit {
  high  30
  depth 1
  up    54
  part panel of slab  grain up
  step panel
}
run blocks on north from left length 30 { B1: block share }
"""
    )
    return figure(finding(text, "heavy-to-lift"), "one should lift")


# NIOSH 94-110 (rev. 2021): recommended weight limit = 51 lb x HM x VM x DM x AM x FM x CM, with
# HM 10/H, VM 1 - .0075 |V - 30|, DM .82 + 1.8/D; the postures of the two examples are assumed.
@source("NIOSH 94-110, worked examples")
@pytest.mark.parametrize(
    ("posture", "limit"),
    [
        (("15", "30", "24", "0.95"), "28.9"),  # a wall cabinet
        (("15", "20", "15", "0.90"), "26.6"),  # a sheet from the floor
    ],
)
def test_the_recommended_weight_limit(posture: tuple[str, str, str, str], limit: str) -> None:
    assert abs(lifted(*posture) - Fraction(limit)) <= Fraction(1, 20)


# The same, table of horizontal multipliers in metric: hands 25 to 60 cm before the ankles.
@source("NIOSH 94-110, HM")
@pytest.mark.parametrize(
    ("reach", "factor"),
    [("250mm", "1"), ("300mm", "0.83"), ("400mm", "0.63"), ("500mm", "0.50"), ("600mm", "0.42")],
)
def test_the_horizontal_multiplier(reach: str, factor: str) -> None:
    found = lifted(reach, "30", "10", "1") / 51
    assert abs(found - Fraction(factor)) <= Fraction(2, 100)


# The same, vertical multipliers: hands 0 to 175 cm above the floor.
@source("NIOSH 94-110, VM")
@pytest.mark.parametrize(
    ("start", "factor"),
    [
        ("0", "0.78"),
        ("300mm", "0.87"),
        ("500mm", "0.93"),
        ("700mm", "0.99"),
        ("1000mm", "0.93"),
        ("1500mm", "0.78"),
        ("1750mm", "0.70"),
    ],
)
def test_the_vertical_multiplier(start: str, factor: str) -> None:
    found = lifted("10", start, "10", "1") / 51
    assert abs(found - Fraction(factor)) <= Fraction(1, 100)


# The same, distance multipliers: 25 to 175 cm of travel.
@source("NIOSH 94-110, DM")
@pytest.mark.parametrize(
    ("travel", "factor"),
    [
        ("250mm", "1"),
        ("400mm", "0.93"),
        ("550mm", "0.90"),
        ("1000mm", "0.87"),
        ("1450mm", "0.85"),
        ("1750mm", "0.85"),
    ],
)
def test_the_distance_multiplier(travel: str, factor: str) -> None:
    found = lifted("10", "30", travel, "1") / 51
    assert abs(found - Fraction(factor)) <= Fraction(1, 100)


def cabinet(high: str, depth: str, ceiling: str) -> str:
    return (
        job(allowances="  stand_clear 0")
        + f"""
room galley {{
  floor   finished
  ceiling {ceiling}
  wall north length 100
}}
sheet plank {{ thick 3/4  stock 100 by 200  grain none  density 40 }}
unit locker  bare  serves tall_unit {{
  high  {high}
  depth {depth}
  part panel of plank  deep from front  grain up
  step panel
}}
run lockers on north from left length 60 {{ T1: locker share }}
"""
    )


@source("A Boy's Workshop (1884) and diagonals by hand")
@pytest.mark.parametrize(
    ("high", "depth", "diagonal"),
    [
        # Harry Craigin, A Boy's Workshop (1884): 3 ft 3 in by 2 ft, square by equal diagonals.
        ("39", "24", "45.793"),
        # By hand: 84^2 + 24^2 = 7632; 90^2 + 23.25^2 = 8640.5625; 20^2 + 21^2 = 29^2.
        ("84", "24", "87.361"),
        ("90", "23 1/4", "92.955"),
        ("21", "20", "29"),
    ],
)
def test_the_diagonal_that_has_to_pass_under_the_ceiling(
    high: str, depth: str, diagonal: str
) -> None:
    told = finding(cabinet(high, depth, f"{high} + 1/4"), "cannot-stand-up")
    assert abs(figure(told, "diagonal") - Fraction(diagonal)) <= Fraction(1, 2000)


def test_it_stands_up_exactly_under_its_diagonal() -> None:
    assert findings(cabinet("21", "20", "29"), "cannot-stand-up") == ()
    assert findings(cabinet("21", "20", "29 - 1/1000"), "cannot-stand-up") != ()


def hung(height: str, hinges: int, hinge: str) -> str:
    """A door so high, by a wall unit whose gaps are nothing, on so many hinges."""
    return (
        job()
        + """
room galley {
  floor   finished
  ceiling 200
  wall north length 100
}
hinge leaf { two_to 60  three_to 90  four_to 120 }
"""
        + f"""
run doors on north from left length 30 {{
  space 2
  D1: wall_unit 24  high {height}  hung left  hinges {hinges}  hinge_of {hinge} {{
    top_gap 0
  }}
  space share
}}
"""
    )


# Doors by height. Cup hinges: 2 to 40 inches, 3 to 60, 4 to 80, then 5 (from memory). Butt hinges:
# one for every 30 inches or part of it: 60 want 2, 90 want 3, 91 want 4 ("Number of door hinges per
# door", a passage-door rule).
@source("hinges by height")
@pytest.mark.parametrize(
    ("height", "wanted", "hinge"),
    [
        ("40", 2, "cup_hinge"),
        ("40 1/8", 3, "cup_hinge"),
        ("60", 3, "cup_hinge"),
        ("60 1/8", 4, "cup_hinge"),
        ("80", 4, "cup_hinge"),
        ("80 1/8", 5, "cup_hinge"),
        ("60", 2, "leaf"),
        ("90", 3, "leaf"),
        ("91", 4, "leaf"),
    ],
)
def test_hinges_by_the_height_of_the_door(height: str, wanted: int, hinge: str) -> None:
    assert findings(hung(height, wanted, hinge), "too-few-hinges") == ()
    if wanted > 2:
        told = finding(hung(height, wanted - 1, hinge), "too-few-hinges")
        assert figure(told, "wants") == wanted
        assert figure(told, "height of the door") == Fraction(sum(map(Fraction, height.split())))
