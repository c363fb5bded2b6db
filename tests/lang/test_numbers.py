"""Spellings of measures: the table. Every spelling has one outcome."""

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.lang.numbers import MOST_DIGITS, READABLE, SPELLING, spell
from casewright.lang.tree import Date, Number
from tests.lang.texts import read, tree_of

READ: list[tuple[str, Fraction, str | None]] = [
    ("27", Fraction(27), None),
    ("007", Fraction(7), None),
    ("0.5", Fraction(1, 2), None),
    ("23/32", Fraction(23, 32), None),
    ("5 1/2", Fraction(11, 2), None),
    ("5   1/2", Fraction(11, 2), None),
    ("5\t1/2", Fraction(11, 2), None),
    ("10 12/16", Fraction(43, 4), None),
    ('3/4"', Fraction(3, 4), "in"),
    ('5 1/2"', Fraction(11, 2), "in"),
    ("27in", Fraction(27), "in"),
    ("7'", Fraction(84), "in"),
    ("7ft", Fraction(84), "in"),
    ("7.5'", Fraction(90), "in"),
    ("7' 6\"", Fraction(90), "in"),
    ("7'6\"", Fraction(90), "in"),
    ("7' 6 1/2\"", Fraction(181, 2), "in"),
    ("7ft 6 1/2in", Fraction(181, 2), "in"),
    ("7' 3/4\"", 84 + Fraction(3, 4), "in"),
    ("686mm", Fraction(686), "mm"),
    ("0.4mm", Fraction(2, 5), "mm"),
    ("3 1/2mm", Fraction(7, 2), "mm"),
    ("90.4deg", Fraction(904, 10), "deg"),
    ("45lb", Fraction(45), "lb"),
    ("20kg", Fraction(20), "kg"),
    ("12%", Fraction(12), "%"),
    ("9" * MOST_DIGITS, Fraction("9" * MOST_DIGITS), None),
]

MENDED: list[tuple[str, str, Fraction, bool]] = [
    ("5½", "5 1/2", Fraction(11, 2), True),
    ("5 ½", "5 1/2", Fraction(11, 2), True),
    ("½", "1/2", Fraction(1, 2), True),
    ("5½″", '5 1/2"', Fraction(11, 2), True),
    ("27″", '27"', Fraction(27), True),
    ("27”", '27"', Fraction(27), True),
    ("27''", '27"', Fraction(27), True),
    ("7′", "7'", Fraction(84), True),
    ("7’", "7'", Fraction(84), True),
    ("7′ 6½″", "7' 6 1/2\"", Fraction(181, 2), True),
    ("90°", "90deg", Fraction(90), True),
    ("27inches", "27in", Fraction(27), True),
    ("27 inches", "27in", Fraction(27), True),
    ("20lbs", "20lb", Fraction(20), True),
    ("5 mm", "5mm", Fraction(5), True),
    ("3 1/2 mm", "3 1/2mm", Fraction(7, 2), True),
    ("18 in", "18in", Fraction(18), True),
    ("7 ft", "7ft", Fraction(84), True),
    ("686MM", "686mm", Fraction(686), True),
    ("686 millimetres", "686mm", Fraction(686), True),
    ("68.6cm", "686mm", Fraction(686), True),
    ("5 cm", "50mm", Fraction(50), True),
    ("2.4m", "2400mm", Fraction(2400), True),
    ("1/3cm", "3 1/3mm", Fraction(10, 3), True),
    (".5", "0.5", Fraction(1, 2), True),
    ("5.", "5", Fraction(5), True),
    ("5,5", "5.5", Fraction(11, 2), False),
    ("5,25mm", "5.25mm", Fraction(21, 4), False),
    ("5-1/2", "5 1/2", Fraction(11, 2), False),
    ("7'-6\"", "7' 6\"", Fraction(90), False),
    ("7'-6 1/2\"", "7' 6 1/2\"", Fraction(181, 2), False),
    ("7' 6", "7' 6\"", Fraction(90), False),
    ("7'6 1/2", "7' 6 1/2\"", Fraction(181, 2), False),
]

REFUSED: list[tuple[str, str]] = [
    ("1/0", "divided-by-nothing"),
    ("5 1/0", "divided-by-nothing"),
    ("5 3/2", "number-misspelt"),
    ("7' 14\"", "number-misspelt"),
    ("1,234", "number-misspelt"),
    ("10,12,14", "number-misspelt"),
    ("1e3", "number-misspelt"),
    ("2x4", "number-misspelt"),
    ("27foo", "number-misspelt"),
    ("1.2.3", "number-misspelt"),
    ("9" * (MOST_DIGITS + 1), "number-too-long"),
    ("1/" + "9" * 5000, "number-too-long"),
    ("11/12/2026", "date-misspelt"),
    ("25/11/26", "date-misspelt"),
]

DATES = [
    ("25/11/2026", "2026-11-25"),
    ("11/25/2026", "2026-11-25"),
    ("25.11.2026", "2026-11-25"),
    ("2026-1-5", "2026-01-05"),
]


def shown(text: str) -> str:
    return text if len(text) < 20 else f"{text[:8]}…{len(text)}"


@pytest.mark.parametrize(("written", "value", "unit"), READ, ids=lambda each: shown(str(each)))
def test_read(written: str, value: Fraction, unit: str | None) -> None:
    [line] = tree_of(f"size {written}").lines
    [number] = line.items
    assert isinstance(number, Number)
    assert (number.value, number.unit) == (value, unit)
    assert number.written == " ".join(written.split())
    assert re.fullmatch(READABLE, written)


@pytest.mark.parametrize(("written", "mend", "value", "certain"), MENDED)
def test_refused_with_the_mend(written: str, mend: str, value: Fraction, certain: bool) -> None:
    tree, [finding] = read(f"size {written}")
    assert finding.slug == "number-misspelt"
    assert mend in finding.headline
    assert finding.help.startswith(f"write {mend}")
    assert finding.span is not None
    assert finding.span.text == written
    assert [edit.replacement for edit in finding.edits] == [mend] * certain
    [number] = tree.lines[0].items
    assert isinstance(number, Number)
    [meant] = tree_of(f"size {mend}").lines[0].items
    assert isinstance(meant, Number)
    assert (number.value, number.unit) == (meant.value, meant.unit)
    assert number.value == value


@pytest.mark.parametrize(("written", "slug"), REFUSED, ids=lambda each: shown(str(each)))
def test_refused(written: str, slug: str) -> None:
    tree, [finding] = read(f"size {written}")
    assert finding.slug == slug
    assert finding.span is not None
    assert finding.span.text == written
    assert finding.help
    assert not finding.edits
    assert tree.lines[0].broken


@pytest.mark.parametrize(("written", "mend"), DATES)
def test_dates_in_other_orders(written: str, mend: str) -> None:
    tree, [finding] = read(f"date {written}")
    assert finding.slug == "date-misspelt"
    assert [edit.replacement for edit in finding.edits] == [mend]
    [item] = tree.lines[0].items
    assert isinstance(item, Date)
    assert item.written == mend


def test_a_date_that_is_none() -> None:
    tree, [finding] = read("date 2026-02-30")
    assert finding.slug == "no-such-date"
    assert tree.lines[0].broken


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("lengths 10 12 14", ["10", "12", "14"]),
        ("lengths 10 12 1/2 14", ["10", "12 1/2", "14"]),
        ("stock 4' 8'", ["4'", "8'"]),
        ("stock 4' 96mm", ["4'", "96mm"]),
        ("stock 49 3/4 7/8", ["49 3/4", "7/8"]),
        ('size 3/4" 5mm', ['3/4"', "5mm"]),
        ("size 5.5 1/2", ["5.5", "1/2"]),
    ],
)
def test_where_one_number_ends(text: str, written: list[str]) -> None:
    items = tree_of(text).lines[0].items
    assert [item.written for item in items if isinstance(item, Number)] == written


def test_a_unit_word_that_is_a_name_is_left_alone() -> None:
    items = tree_of("wide 5 mm_board 5 in.length").lines[0].items
    assert len(items) == 4


@given(st.text(alphabet="0123456789 /.,-'\"½″′’”mcinftdeglbk%e", max_size=12))
def test_every_spelling_has_an_outcome(text: str) -> None:
    match = re.match(SPELLING, text)
    if match is None:
        return
    spelt = spell(match[0])
    assert spelt.headline or spelt.value is not None
    if spelt.mend and not spelt.date:
        again = spell(spelt.mend)
        assert (again.value, again.unit, again.headline) == (spelt.value, spelt.unit, "")
