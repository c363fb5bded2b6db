"""Lengths from boards: known optima, kerf and end trim."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.compiler.plan.boards import (
    Bar,
    Ends,
    Length,
    board_rows,
    plan_lengths,
    run_length,
)
from casewright.compiler.plan.words import headline


def lengths_of(sizes: dict[int, int]) -> list[Length]:
    return [Length(f"part {size}", "", Fraction(size), n) for size, n in sizes.items()]


@pytest.mark.parametrize(
    ("bar", "sizes", "fewest"),
    [
        # The paper-roll example of cutting-stock teaching: 5600 mm rolls, 13 orders, 73 rolls
        # (from memory; the area bound, 72.7, gives 73 too).
        (
            5600,
            {
                1380: 22,
                1520: 25,
                1560: 12,
                1710: 14,
                1820: 18,
                1880: 18,
                1930: 20,
                2000: 10,
                2050: 12,
                2100: 14,
                2140: 16,
                2150: 18,
                2200: 20,
            },
            73,
        ),
        # Gilmore and Gomory's kind of small case, computed by hand: 3 + 3 + 3, and 4 + 4 wastes 1.
        (9, {4: 5, 3: 4}, 4),
        (100, {51: 7}, 7),
        (100, {50: 7}, 4),
    ],
)
def test_known_counts(bar: int, sizes: dict[int, int], fewest: int) -> None:
    made, problems = plan_lengths("mm", lengths_of(sizes), [Bar("bar", Fraction(bar))], Ends())
    assert problems == []
    assert made is not None
    assert made.verdict.sound
    assert made.verdict.cost == made.verdict.least == fewest


def test_kerf_between_pieces_only() -> None:
    """Three thirds of a board need two kerfs, not three."""
    pieces = [Length("rail", "S1", Fraction(32), 3)]
    exact = [Bar("board", Fraction(385, 4))]
    short = [Bar("board", Fraction(383, 4))]
    kerf = Ends(Fraction(1, 8))
    fits, _ = plan_lengths("in", pieces, exact, kerf)
    fails, _ = plan_lengths("in", pieces, short, kerf)
    assert fits is not None
    assert fails is not None
    assert fits.verdict.cost == 1
    assert fails.verdict.cost == 2


def test_ends_are_trimmed() -> None:
    pieces = [Length("stile", "S1", Fraction(48), 2)]
    bare, _ = plan_lengths("in", pieces, [Bar("board", Fraction(96))], Ends())
    trimmed, _ = plan_lengths("in", pieces, [Bar("board", Fraction(96))], Ends(head=Fraction(1, 2)))
    assert bare is not None
    assert trimmed is not None
    assert bare.verdict.cost == 1
    assert trimmed.verdict.cost == 2
    assert headline(trimmed.request, trimmed.plan, trimmed.verdict) == "2 sheets, and 1 can't do"


def test_the_cheaper_lengths_are_chosen() -> None:
    """Two 5 ft pieces: one board of 10 ft at 9 beats two of 6 ft at 5 each."""
    pieces = [Length("rail", "", Fraction(60), 2)]
    bars = [
        Bar("6 ft", Fraction(72), cost=Fraction(5)),
        Bar("10 ft", Fraction(120), cost=Fraction(9)),
    ]
    made, _ = plan_lengths("in", pieces, bars, Ends())
    assert made is not None
    assert made.verdict.sound
    assert made.verdict.cost == made.verdict.least == 9
    assert [stock for stock, _ in board_rows(made.plan)] == ["10 ft"]


def test_a_roll_by_the_foot() -> None:
    pieces = [Length("band", "S1", Fraction(24), 3), Length("band", "S2", Fraction(12))]
    assert run_length(pieces, Fraction(2)) == 3 * 26 + 14


@settings(max_examples=25, deadline=None)
@given(
    st.lists(st.tuples(st.integers(5, 60), st.integers(1, 4)), min_size=1, max_size=6),
    st.integers(0, 3),
)
def test_boards_hold_every_length_once(sizes: list[tuple[int, int]], kerf: int) -> None:
    pieces = [Length(f"part {n}", "", Fraction(size), many) for n, (size, many) in enumerate(sizes)]
    made, problems = plan_lengths("mm", pieces, [Bar("bar", Fraction(61))], Ends(Fraction(kerf)))
    assert problems == []
    assert made is not None
    assert made.verdict.sound
    cut = sorted(
        length for _, row in board_rows(made.plan) for name, length in row if name[:4] == "part"
    )
    assert cut == sorted(p.length for p in pieces for _ in range(p.quantity))
    for _, row in board_rows(made.plan):
        pieces_on = [length for name, length in row if name[:4] == "part"]
        assert sum(pieces_on) + kerf * (len(pieces_on) - 1) <= 61
