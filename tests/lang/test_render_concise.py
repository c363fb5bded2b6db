"""The concise form of findings."""

from casewright.lang.findings import error
from casewright.lang.render_concise import render_concise
from tests.lang.finding_samples import ALL


def test_one_line_a_finding_in_the_order_of_the_text() -> None:
    assert render_concise(ALL) == (
        """\
error  there is no job line  no-job
kitchen.case:7:40  warning  the casing comes within 2 1/2" of the counter  casing-near-counter
kitchen.case:11:5  error  run sink_wall is 1 1/2" longer than its wall  run-too-long
kitchen.case:13:7  error  no unit is called dor_base  unknown-unit
kitchen.case:14:3  advice  the slot leaves little stock  slot-thin  (3 units)
"""
    )


def test_nothing_found_is_no_line() -> None:
    assert render_concise(()) == ""


def test_a_headline_with_line_ends_is_still_one_line() -> None:
    text = render_concise((error("odd-name", "a\nb\r\x1b[2J\u2028c", None),))
    assert text == "error  a␊b␍␛[2J<U+2028>c  odd-name\n"
