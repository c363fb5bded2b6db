"""Drawing: scales a shop reads, chains that show their total, figures that don't fit moved."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.compiler.papers.drawings import chains
from casewright.compiler.papers.drawings.chains import Link
from casewright.compiler.papers.drawings.drawing import (
    Canvas,
    fitted,
    letters_width,
    number,
    scale_words,
    scales,
)
from casewright.compiler.papers.drawings.elevation import elevations
from casewright.compiler.papers.drawings.outlines import NEAREST, Grid, Rectangle, draw
from casewright.compiler.papers.figures import Figure, printing_of
from casewright.lang.measure import Dimension, System
from tests.papers.sample import galley

PRINTING = printing_of(galley())


def link(value: Fraction | int) -> Link:
    return Link(Figure(Fraction(value), Dimension.LENGTH, "S1.across"))


def test_scales_are_those_of_a_rule() -> None:
    assert scales(System.INCHES, 12)[:3] == (12, 16, 24)
    assert scales(System.MILLIMETRES, 10)[:4] == (10, 20, 25, 50)
    # Half an inch to the foot: 12 / (1/2).
    assert scale_words(24, System.INCHES) == "1 to 24 (1/2 inch to the foot)"


def test_a_chain_shows_each_length_and_the_total() -> None:
    canvas = Canvas(PRINTING)
    chains.across(canvas, [0, 20, 50], [link(10), link(15)], 0, link(25))
    assert [letters.text for letters in canvas.finished("c", "c").letters] == ["10", "15", "25"]


def test_a_figure_without_room_stands_past_the_end() -> None:
    canvas = Canvas(PRINTING)
    chains.across(canvas, [0, 2, 50], [link(Fraction(3, 2)), link(40)], 0, link(Fraction(83, 2)))
    first = canvas.finished("c", "c").letters[0]
    assert (first.text.replace("\u00a0", " "), first.anchor) == ("1 1/2", "end")
    assert first.box[2] < 0


def test_what_is_too_small_to_letter_is_said() -> None:
    canvas = Canvas(PRINTING)
    laid = chains.upright(canvas, [0, -0.3, -40], [link(Fraction(1, 8)), link(30)], 0)
    assert [figure.value for figure in laid.unlettered] == [Fraction(1, 8)]
    assert chains.small_print(laid.unlettered)[0] == " Too small to letter: "


@given(
    st.lists(
        st.fractions(min_value=Fraction(1, 4), max_value=60, max_denominator=1000),
        min_size=1,
        max_size=12,
    ),
    st.booleans(),
)
def test_printed_lengths_add_up_to_the_printed_total(values: list[Fraction], down: bool) -> None:
    canvas = Canvas(PRINTING)
    places = [0.0]
    for value in values:
        places.append(places[-1] + float(value) * (-1 if down else 1))
    lay = chains.upright if down else chains.across
    whole = Link(Figure(sum(values, Fraction(0)), Dimension.LENGTH, "all"))
    laid = lay(canvas, places, [link(value) for value in values], 0, whole)
    if laid.unlettered:
        return
    read = [_read(letters.text) for letters in canvas.finished("c", "c").letters]
    if len(values) == 1:
        assert len(read) == 1
    else:
        *parts, total = read
        assert sum(parts) == total


def _read(text: str) -> Fraction:
    return sum((Fraction(piece) for piece in text.split("\u00a0")), Fraction(0))


@given(st.lists(st.floats(min_value=0, max_value=200), max_size=40))
def test_no_two_lines_are_nearer_than_seven_tenths(places: list[float]) -> None:
    grid = Grid()
    grid.hold(places)
    ordered = sorted(grid.places)
    assert all(high - low >= NEAREST for low, high in pairwise(ordered))
    assert all(abs(grid.at(place) - place) < NEAREST for place in places)


def test_what_is_nearer_hides_what_is_behind() -> None:
    canvas = Canvas(PRINTING)
    draw(
        canvas,
        [Rectangle(0, 0, 40, 20, near=1), Rectangle(10, -5, 20, 30, near=0)],
    )
    lines = canvas.finished("d", "d").body(links=False)
    # The upright at 10 is seen above and below the nearer board, not across it.
    assert 'd="M10 -5L10 0"' in lines
    assert 'd="M10 20L10 30"' in lines
    assert 'd="M10 -5L10 30"' not in lines


@pytest.mark.parametrize("room", [0.0, 5.0, 20.0, 60.0])
def test_words_are_cut_to_their_room(room: float) -> None:
    text = fitted("hanging cleat of the tall unit", room)
    assert letters_width(text) <= room or text == ""


def test_numbers_are_short_and_never_minus_nought() -> None:
    assert [number(value) for value in (1.0, 0.126, -0.001, -2.5)] == ["1", "0.13", "0", "-2.5"]


def test_the_elevation_shows_every_width_and_closes() -> None:
    (drawing,) = elevations(galley())
    texts = [letters.text.replace("\u00a0", " ") for letters in drawing.letters]
    for wanted in ("18", "28 1/2", "36", "24", "30 3/4", "158 1/4 wall to wall", "96"):
        assert wanted in texts
    assert texts.count("1 1/2") == 3
    tags = [letters.text for letters in drawing.letters if letters.kind == "tag"]
    assert tags == ["S1", "S2", "S3", "S4", "S5", "S6", "U1", "U2", "U3"]
    assert drawing.width <= 196
    lowest = min(letters.y for letters in drawing.letters)
    assert lowest >= drawing.top
