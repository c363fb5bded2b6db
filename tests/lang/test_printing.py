"""Measures as words. The shop's words `shy` and `full` are common practice."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.lang.measure import INCH, Dimension, Measure, System, length, nearest
from casewright.lang.printing import (
    NO_BREAK,
    Printing,
    bare,
    decimal,
    decimal_of,
    exact,
    in_both_forms,
    in_words,
    is_printable,
    printed,
)

INCHES = Printing(System.INCHES, Fraction(1, 32))
WHOLE_MM = Printing(System.MILLIMETRES, 1 / INCH)
TENTHS = Printing(System.MILLIMETRES, Fraction(1, 10) / INCH)

MILLIMETRE = 1 / INCH


@pytest.mark.parametrize(
    ("value", "words"),
    [
        (Fraction(0), '0"'),
        (Fraction(24), '24"'),
        (Fraction(3, 4), '3/4"'),
        (Fraction(-3, 4), '-3/4"'),
        (Fraction(-7, 2), '-3 1/2"'),
        (Fraction(34), '34"'),
        (Fraction(767, 32), '23 31/32"'),
        # A 24" part less one counted band of 1 mm: 24 - 0.03937 = 23.96063; 31/32 is 0.96875.
        (24 - MILLIMETRE, '23 31/32" shy'),
        (10 + MILLIMETRE, '10 1/32" full'),
        # Ties go up: 1/64 is half a step.
        (Fraction(1, 64), '1/32" shy'),
        (Fraction(-1, 64), '0" shy'),
        (Fraction(1, 100), '0" full'),
    ],
)
def test_inches_print_as_whole_and_fraction(value: Fraction, words: str) -> None:
    assert in_words(length(value), INCHES) == words


@pytest.mark.parametrize(
    ("printing", "value", "words"),
    [
        (WHOLE_MM, 686 * MILLIMETRE, "686 mm"),
        (WHOLE_MM, Fraction(3, 4), "19 mm full"),
        (WHOLE_MM, Fraction(24), "610 mm shy"),
        (TENTHS, Fraction(24), "609.6 mm"),
        (TENTHS, Fraction(3, 4), "19.1 mm shy"),
        (TENTHS, Fraction(1, 2) * MILLIMETRE, "0.5 mm"),
        (TENTHS, -Fraction(1, 2) * MILLIMETRE, "-0.5 mm"),
    ],
)
def test_millimetres_print_with_the_decimals_they_need(
    printing: Printing, value: Fraction, words: str
) -> None:
    assert in_words(length(value), printing) == words


@pytest.mark.parametrize(
    ("measure", "inch_words", "metric_words"),
    [
        (Measure(Fraction(3), Dimension.COUNT), "3", "3"),
        (Measure(Fraction(1, 3), Dimension.COUNT), "1/3", "1/3"),
        (Measure(Fraction(1, 129), Dimension.COUNT), "0.0078 shy", "0.0078 shy"),
        (Measure(Fraction(452, 5), Dimension.ANGLE), "90.4deg", "90.4deg"),
        # A bevel is set to a tenth of a degree.
        (Measure(Fraction("90.2489"), Dimension.ANGLE), "90.2deg full", "90.2deg full"),
        # 27" * 3" is an area; 1 sq in is 645.16 sq mm, 81 of them 52257.96.
        (Measure(Fraction(81), Dimension.AREA), "81 sq in", "52257.96 sq mm"),
        # 1 lb is 0.45359237 kg, 50 of them 22.6796185.
        (Measure(Fraction(50), Dimension.WEIGHT), "50 lb", "22.7 kg"),
        (Measure(Fraction(25, 2), Dimension.MONEY), "12.5", "12.5"),
        (Measure(Fraction(1, 4), Dimension.TIME), "0.25", "0.25"),
    ],
)
def test_each_dimension_has_its_words(measure: Measure, inch_words: str, metric_words: str) -> None:
    assert in_words(measure, INCHES) == inch_words
    assert in_words(measure, TENTHS) == metric_words


def test_every_dimension_prints() -> None:
    for dimension in Dimension:
        assert printed(Measure(Fraction(5), dimension), INCHES).bare == "5"


def test_a_bare_figure_keeps_its_mark_and_may_be_one_word() -> None:
    assert bare(length(24 - MILLIMETRE), INCHES) == "23 31/32 shy"
    assert bare(length(Fraction(3, 2)), INCHES, blank=NO_BREAK) == "1\u00a01/2"


def test_both_forms_say_the_decimal_only_where_it_says_more() -> None:
    assert in_both_forms(length(24 - MILLIMETRE), INCHES) == '23 31/32" shy (23.9606)'
    assert in_both_forms(length(24), INCHES) == '24"'
    assert in_both_forms(length(Fraction(3, 2)), INCHES) == '1 1/2" (1.5)'
    assert in_both_forms(length(24), WHOLE_MM) == "610 mm shy (609.6)"


def test_decimals_for_spreadsheets() -> None:
    assert decimal(Fraction(3, 4)) == "0.75"
    assert decimal(Fraction(18)) == "18"
    assert decimal(Fraction(100)) == "100"
    assert decimal(Fraction(-1, 8)) == "-0.125"
    assert decimal(24 - MILLIMETRE) == "23.9606"
    assert decimal(Fraction(1, 20_000)) == "0.0001"
    assert decimal_of(length(24), System.MILLIMETRES) == "609.6"
    assert exact(Fraction(767, 32)) == "767/32"


def test_a_monstrous_value_still_prints() -> None:
    huge = Fraction(7) ** 9000
    assert in_words(length(huge), INCHES) == '1000000000000" full'
    assert in_words(length(-huge), INCHES) == '-1000000000000" shy'
    assert in_words(Measure(huge, Dimension.COUNT), INCHES) == "1000000000000 full"
    assert in_words(length(1 / huge), INCHES) == '0" full'
    assert exact(huge) is None


def test_a_step_that_no_rule_has_is_refused() -> None:
    assert not is_printable(System.INCHES, Fraction(1, 10))
    assert not is_printable(System.INCHES, MILLIMETRE)
    assert not is_printable(System.INCHES, Fraction(0))
    assert not is_printable(System.MILLIMETRES, Fraction(1, 32) / 1000)
    assert is_printable(System.MILLIMETRES, MILLIMETRE / 2)
    with pytest.raises(ValueError, match="don't print in steps"):
        Printing(System.INCHES, Fraction(1, 10))


def read_inches(words: str) -> Fraction:
    """A reading of printed inches that shares nothing with the printing."""
    words, _, mark = words.partition('"')
    assert mark in ("", " shy", " full")
    minus, words = words.startswith("-"), words.removeprefix("-")
    value = sum((Fraction(piece) for piece in words.split(" ")), Fraction(0))
    return -value if minus else value


values = st.fractions(min_value=-500, max_value=500, max_denominator=5000)
halvings = st.sampled_from([Fraction(1, 2**power) for power in range(8)])
metric_steps = st.sampled_from([Fraction(1), Fraction(1, 2), Fraction(1, 10), Fraction(1, 100)])


@given(values, halvings)
def test_reading_printed_inches_gives_the_rounded_value(value: Fraction, step: Fraction) -> None:
    words = in_words(length(value), Printing(System.INCHES, step))
    read = read_inches(words)
    assert read == nearest(value, step)
    assert abs(read - value) <= step / 2
    assert words.endswith(" shy") == (value < read)
    assert words.endswith(" full") == (value > read)


@given(values, metric_steps)
def test_reading_printed_millimetres_gives_the_rounded_value(
    value: Fraction, step: Fraction
) -> None:
    words = in_words(length(value), Printing(System.MILLIMETRES, step * MILLIMETRE))
    figure, _, mark = words.partition(" mm")
    read = Fraction(figure)
    assert read == nearest(value * INCH, step)
    assert mark == (" shy" if value * INCH < read else " full" if value * INCH > read else "")


@given(values)
def test_a_decimal_reads_back_within_half_a_place(value: Fraction) -> None:
    words = decimal(value)
    assert abs(Fraction(words) - value) <= Fraction(1, 20_000)
    assert "." not in words or not words.endswith("0")
