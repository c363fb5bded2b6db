"""Board feet and rough sizes against the published examples."""

from fractions import Fraction

import pytest

from casewright.compiler.plan.lumber import (
    Board,
    board_feet,
    glue_up,
    gross,
    rough_boards,
    rough_thickness,
    surface_measure,
    tally,
    tally_size,
)


# NHLA, American hardwood pages "Measurement" and "American Hardwood Lumber Measurement".
@pytest.mark.parametrize(
    ("width", "feet", "measure"),
    [("25/4", 8, 4), ("13/2", 8, 4), ("8", 12, 8), ("10", 13, 11)],
)
def test_surface_measure(width: str, feet: int, measure: int) -> None:
    assert surface_measure(Fraction(width), Fraction(feet)) == measure


def test_board_feet_from_surface_measure() -> None:
    """2 in x 6-1/4 in x 8 ft: surface measure 4, 8 board feet (NHLA, "Measurement")."""
    found = tally([Board(Fraction(2), Fraction(25, 4), Fraction(8))])
    assert (found.surface, found.board_feet) == (4, 8)


# "Board Feet", hardwood pages: 1 x 6 x 10 ft and 1 x 12 x 10 ft.
@pytest.mark.parametrize(("width", "feet", "volume"), [(6, 10, 5), (12, 10, 10)])
def test_board_feet(width: int, feet: int, volume: int) -> None:
    assert board_feet(Board(Fraction(1), Fraction(width), Fraction(feet))) == volume


def test_tally_size() -> None:
    """5-1/4 in x 8-1/2 ft is tallied as 5 in, 8 ft ("Lumber: Measurement")."""
    assert tally_size(Fraction(21, 4), Fraction(17, 2)) == (5, 8)


def test_halves_go_up_and_down_by_turns() -> None:
    """NHLA: exact halves alternately up and down."""
    half = Board(Fraction(1), Fraction(9), Fraction(10))
    assert board_feet(half) == Fraction(15, 2)
    assert tally([half, half]).surface == 8 + 7
    assert tally_size(Fraction(11, 2), Fraction(8), half_up=False) == (5, 8)


def test_thin_stock_counts_as_an_inch() -> None:
    thin = Board(Fraction(1, 2), Fraction(12), Fraction(1))
    assert board_feet(thin) == 1


# "Hardwood Lumber - Dimensions": rough to surfaced two sides.
@pytest.mark.parametrize(
    ("finished", "rough"),
    [("3/4", "1"), ("13/16", "1"), ("7/8", "5/4"), ("17/16", "5/4"), ("3/2", "7/4")],
)
def test_rough_thickness(finished: str, rough: str) -> None:
    assert rough_thickness(Fraction(finished)) == Fraction(rough)


def test_nothing_is_thick_enough() -> None:
    assert rough_thickness(Fraction(5)) is None


def test_gross_is_by_yield() -> None:
    """100 net at 30 % waste is 142.86, not 130 ("Calculating Waste from Rough Lumber")."""
    assert round(gross(Fraction(100), Fraction(3, 10)), 2) == Fraction("142.86")
    with pytest.raises(ValueError, match="waste"):
        gross(Fraction(100), Fraction(1))


def test_a_glue_up_has_the_fewest_strips() -> None:
    """A 14 in panel 1/4 over, strips of 5 in less 1/8 for jointing: three of them (computed)."""
    panel = glue_up(Fraction(14), Fraction(5), Fraction(1, 8), Fraction(1, 4))
    assert panel.strips == 3
    assert panel.ripped_width == Fraction(57, 4) / 3 + Fraction(1, 8)
    assert panel.ripped_width <= 5


def test_rough_boards_are_whole_feet() -> None:
    boards = rough_boards([(Fraction(3, 4), Fraction(2))], [Fraction(97)])
    assert boards == (Board(Fraction(1), Fraction(2), Fraction(9)),)
