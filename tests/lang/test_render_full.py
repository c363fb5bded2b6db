"""The full form of findings: the sum, the underlined line, and texts that would play tricks."""

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.lang.findings import Figure, Finding, Label, Progress, error
from casewright.lang.measure import INCH, System, length
from casewright.lang.plain_text import cells, visible, wrapped
from casewright.lang.printing import Printing
from casewright.lang.render_full import render_full
from casewright.lang.source import Source, Span
from tests.lang.finding_samples import (
    ALL,
    CASING,
    FOLDED,
    KITCHEN,
    NOWHERE,
    RUN_TOO_LONG,
    UNKNOWN,
    span,
)

NOTHING = Progress()


def full(*findings: Finding, width: int = 100, colour: bool = False) -> str:
    return render_full(findings, NOTHING, Printing(), width=width, colour=colour)


def test_a_sum_is_ruled_off_with_its_figures_ranged() -> None:
    assert full(RUN_TOO_LONG) == (
        """\
kitchen.case:11   error   run sink_wall is 1 1/2" longer than its wall   run-too-long
    11  run sink_wall on north from left    needs  159 3/4"
     6  wall north length 158 1/4           has    158 1/4"
                                            ---------------
                                            over     1 1/2"
    help  line 14: give S2 `share` in place of 19 1/2; it becomes 18"

1 error
"""
    )


def test_a_long_line_is_quoted_by_its_first_word_and_what_is_meant() -> None:
    assert full(CASING) == (
        """\
kitchen.case:7   warning   the casing comes within 2 1/2" of the counter   casing-near-counter
     7  window … up 42            sill    42"
     7  window … casing 3 1/2     less     3 1/2"
     5  counter 36 thick 1 1/2    less    36"
                                  ---------------
                                  leaves   2 1/2"
        shop.case:2  splash 4     wants    4"
                                  ---------------
                                  short    1 1/2"
    help  line 7: a casing of 2 leaves 4"; or say `accept casing-near-counter` with your reason

1 warning
"""
    )


def test_without_figures_the_words_at_fault_are_underlined() -> None:
    assert full(UNKNOWN) == (
        """\
kitchen.case:13   error   no unit is called dor_base   unknown-unit
    13  S1: dor_base 18   hung left
            ~~~~~~~~
    help  did you mean door_base?

1 error
"""
    )


def test_library_lines_and_folded_units_come_after() -> None:
    assert full(FOLDED) == (
        """\
kitchen.case:14   advice   the slot leaves little stock   slot-thin
    14  S2: drawer_base share min 24 max 36
        ~~~~~~~~~~~~~~~
        std boxes.case:2  let slot = 3/8    the slot is cut here
    in    S2, S3 and S5

1 advice
"""
    )


def test_a_finding_without_a_place_still_says_what() -> None:
    assert full(NOWHERE) == "error   there is no job line   no-job\n\n1 error\n"


def test_findings_come_in_the_order_of_the_text_and_are_counted() -> None:
    text = full(*ALL)
    slugs = re.findall(r"   ([a-z]+(?:-[a-z]+)+)$", text, re.MULTILINE)
    assert slugs == ["no-job", "casing-near-counter", "run-too-long", "unknown-unit", "slot-thin"]
    assert text.endswith("\n3 errors, 1 warning, 1 advice\n")


def test_where_nothing_is_found_it_says_what_was_looked_at() -> None:
    assert render_full((), Progress(40, 1), Printing()) == (
        "no findings; 40 units placed, 1 worked out\n"
    )


def test_figures_print_in_the_jobs_own_measure() -> None:
    metric = Printing(System.MILLIMETRES, 1 / INCH)
    text = render_full((RUN_TOO_LONG,), NOTHING, metric)
    assert "needs  4058 mm shy" in text  # 159 3/4 in is 4057.65 mm
    assert "over     38 mm full" in text  # 1 1/2 in is 38.1 mm


@pytest.mark.parametrize("width", [40, 50, 60, 72, 80, 100, 140])
def test_no_line_is_wider_than_the_terminal(width: int) -> None:
    for line in full(*ALL, width=width).splitlines():
        assert cells(line) <= max(width, 52), line


def test_a_narrow_terminal_breaks_between_words_and_never_in_a_measure() -> None:
    text = full(RUN_TOO_LONG, width=50)
    assert text.startswith(
        """\
kitchen.case:11   error   run sink_wall is 1 1/2"
    longer than its wall   run-too-long
"""
    )
    assert not re.search(r"\d\n\s*\d+/\d", text)


def test_colour_only_adds_to_the_words() -> None:
    plain, painted = full(*ALL), full(*ALL, colour=True)
    assert "\x1b[" not in plain
    assert re.sub(r"\x1b\[\d+m", "", painted) == plain
    assert "\x1b[1mwarning\x1b[0m" in painted
    assert "\x1b[35mrun-too-long\x1b[0m" in painted


def test_a_wide_character_keeps_the_underline_in_place() -> None:
    source = Source("kitchen.case", "note 台所 dor_base\n")
    finding = error("unknown-unit", "no unit is called dor_base", span(source, "dor_base"))
    quote, underline = full(finding).splitlines()[1:3]
    assert cells(quote[: quote.index("dor_base")]) == underline.index("~") == 18


def test_a_span_over_lines_is_underlined_to_the_end_of_its_first() -> None:
    start = KITCHEN.text.index("room galley {")
    end = KITCHEN.text.index("ceiling")
    text = full(error("odd-block", "the block is odd", Span(KITCHEN, start, end)))
    assert text.splitlines()[1:3] == ["     3  room galley {", "        ~~~~~~~~~~~~~"]


def test_an_empty_span_at_the_very_end_has_one_mark() -> None:
    end = len(KITCHEN.text)
    text = full(error("brace-missing", "a block is still open", Span(KITCHEN, end, end)))
    assert text.splitlines()[1:3] == ["    16", "        ~"]


def test_nothing_of_the_text_reaches_the_terminal_unseen() -> None:
    evil = "\x1b]0;owned\x07 \u202eesac\u202c a\u200bb \x9b31m \x7f"
    source = Source("kit\x1b[31m.case", f"unit {evil}\n")
    whole = Span(source, 0, len(source.text) - 1)
    finding = Finding(
        "odd-name",
        error("a", "b", None).severity,
        f"no unit is called {evil}",
        whole,
        figures=(Figure(evil, length(1), whole, note=evil),),
        labels=(Label(whole, evil),),
        help=f"say {evil}\nor so",
        tags=(evil, evil),
    )
    for text in (full(finding), full(finding, width=40)):
        assert {each for each in text if not each.isprintable()} == {"\n"}
        assert "␛]0;owned␇ <U+202E>esac<U+202C> a<U+200B>b <U+009B>31m ␡" in text.replace(
            "\n" + " " * 10, " "
        )


def test_a_monstrous_line_is_quoted_around_what_is_meant() -> None:
    source = Source("kitchen.case", "note " + "x " * 500_000 + "dor_base" + " y" * 500_000 + "\n")
    text = full(error("unknown-unit", "no unit is called dor_base", span(source, "dor_base")))
    quote, underline = text.splitlines()[1:3]
    assert cells(quote) <= 100
    start = underline.index("~")
    assert quote[start : start + 8] == "dor_base"
    assert underline.strip() == "~" * 8


@given(st.text(max_size=200), st.integers(40, 120))
def test_whatever_the_text_every_line_is_printable(written: str, width: int) -> None:
    source = Source("kitchen.case", written + "\n")
    whole = Span(source, 0, len(written))
    finding = error(
        "odd-name",
        written,
        whole,
        figures=(Figure(written, length(Fraction(1, 3)), whole, ruled=True),),
        help=written,
    )
    for each in (finding, error("odd-name", written, whole)):
        text = full(each, width=width)
        assert all(line == visible(line) for line in text.splitlines())


@given(st.text(alphabet="ab 1/2\"'", max_size=60), st.integers(1, 30))
def test_wrapping_loses_no_word(text: str, width: int) -> None:
    lines = wrapped(text, width)
    assert " ".join(lines).split() == text.split()
    assert all(cells(line) <= width or " " not in re.sub(r"\d+ \d+/", "", line) for line in lines)
