"""Where a figure comes from, as text and for other programs."""

import json
from fractions import Fraction
from importlib.resources import files
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from casewright.lang import cells
from casewright.lang.cells import Quantity
from casewright.lang.measure import INCH, Dimension, length
from casewright.lang.printing import Printing
from casewright.lang.render_explain import Row, explanation_json, render_explanation
from casewright.lang.source import Own, Source, Span

MILLIMETRE = 1 / INCH

ROWS = (
    Row("left of S3", length(48), "kitchen.case:41, window's middle 66\" from line 24"),
    Row("filler", length(Fraction(3, 2)), "kitchen.case:32", sign="less"),
    Row("S1", length(18), "kitchen.case:33", sign="less"),
    Row("S2.across", length(Fraction(57, 2)), "kitchen.case:34  share", ruled=True),
)


def test_three_columns_are_ruled_off_like_a_sum() -> None:
    assert render_explanation(ROWS, Printing()) == (
        """\
    what           figure     where
    left of S3     48"        kitchen.case:41, window's middle 66" from line 24
    less filler     1 1/2"    kitchen.case:32
    less S1        18"        kitchen.case:33
                   -------
    S2.across      28 1/2"    kitchen.case:34  share
"""
    )


def test_a_rounded_result_says_what_its_mark_means_and_its_terms_stand_as_decimals() -> None:
    rows = (
        Row("finished, front to back", length(24), "std base_unit  depth 24"),
        Row("band front", length(MILLIMETRE), "white_edge 1 mm, counts", sign="less"),
        Row("S2.left_side.cut_width", length(24 - MILLIMETRE), ruled=True),
    )
    assert render_explanation(rows, Printing(), width=110) == (
        """\
    what                       figure           where
    finished, front to back    24"              std base_unit  depth 24
    less band front             0.0394" shy     white_edge 1 mm, counts
                               -------------
    S2.left_side.cut_width     23 31/32" shy    23.9606 nearly; shy: a shade less than printed
"""
    )


def test_an_exact_decimal_is_called_so() -> None:
    rows = (Row("S2.across", length(Fraction(1001, 1000)), ruled=True),)
    assert "1.001 exactly; full: a shade more than printed" in render_explanation(rows, Printing())


def test_on_a_narrow_terminal_the_third_column_goes_under() -> None:
    text = render_explanation(ROWS, Printing(), width=50)
    assert text.splitlines()[1:3] == [
        '    left of S3     48"',
        "        kitchen.case:41, window's middle 66\" from",
    ]


def test_nothing_of_the_text_reaches_the_terminal_unseen() -> None:
    text = render_explanation((Row("\x1b[2J", None, "\u202eb\nc", sign="\x07"),), Printing())
    assert text.splitlines()[1].split() == ["␇", "␛[2J", "<U+202E>b␊c"]


SOURCE = Source("kitchen.case", "case 3/4\nacross 27\n")


def floor_length() -> Quantity:
    """A floor between two sides: 27 - (3/4 + 3/4), rounded at 1/32; one literal read twice."""
    thick = cells.named(
        cells.literal(Fraction(3, 4), origin=Span(SOURCE, 5, 8), label="as bought"), "case.thick"
    )
    across = cells.literal(27, origin=Span(SOURCE, 16, 18))
    inside = cells.subtract(across, cells.add(thick, thick), Own(1))
    rounded = cells.to_nearest(inside, cells.literal(Fraction(1, 32)))
    return cells.named(rounded, "S1.floor.length")


@pytest.fixture(scope="module")
def schema() -> Draft202012Validator:
    path = files("casewright.lang").joinpath("explanation.schema.json")
    read = json.loads(path.read_text("utf-8"))
    Draft202012Validator.check_schema(read)
    return Draft202012Validator(read)


def told(quantity: Quantity | None) -> Any:
    return json.loads(explanation_json("S1.floor.length", ROWS, quantity, Printing()))


def test_the_document_keeps_to_its_schema(schema: Draft202012Validator) -> None:
    schema.validate(told(floor_length()))
    schema.validate(told(None))


def test_every_read_is_told_once_after_its_inputs() -> None:
    reads = told(floor_length())["reads"]
    assert [each["operator"] for each in reads] == [
        "literal", "literal", "named", "+", "-", "literal", "nearest", "named",
    ]  # fmt: skip
    assert reads[3]["inputs"] == [2, 2]
    assert reads[1]["place"]["line"] == 1
    assert reads[1]["label"] == "as bought"
    assert reads[-1]["name"] == "S1.floor.length"
    assert reads[-1]["value"]["exact"] == "51/2"


def worked_out(reads: list[Any]) -> Fraction:
    """The last figure, from literals up, with plain fractions and nothing of ours."""
    values: list[Fraction] = []
    for each in reads:
        inputs = [values[position] for position in each["inputs"]]
        match each["operator"]:
            case "literal":
                got = Fraction(each["value"]["exact"])
            case "named":
                (got,) = inputs
            case "+":
                got = inputs[0] + inputs[1]
            case "-":
                got = inputs[0] - inputs[1]
            case "negate":
                got = -inputs[0]
            case "least":
                got = min(inputs)
            case "most":
                got = max(inputs)
            case "nearest":
                got = (inputs[0] / inputs[1] + Fraction(1, 2)).__floor__() * inputs[1]
            case other:
                raise AssertionError(other)
        assert got == Fraction(each["value"]["exact"])
        values.append(got)
    return values[-1]


quantities = st.recursive(
    st.fractions(min_value=-100, max_value=100, max_denominator=64).map(cells.literal),
    lambda inner: st.one_of(
        st.tuples(inner, inner).map(lambda pair: cells.add(*pair)),
        st.tuples(inner, inner).map(lambda pair: cells.subtract(*pair)),
        st.tuples(inner, inner).map(lambda pair: cells.least(*pair)),
        st.tuples(inner, inner).map(lambda pair: cells.most(*pair)),
        inner.map(cells.negate),
        inner.map(lambda each: cells.to_nearest(each, cells.literal(Fraction(1, 32)))),
        inner.map(lambda each: cells.named(each, "S1.across")),
    ),
    max_leaves=20,
)


@given(quantities)
def test_the_reads_alone_give_the_figure(quantity: Quantity) -> None:
    assert worked_out(told(quantity)["reads"]) == quantity.value


def test_a_deep_derivation_is_told_without_running_out_of_stack() -> None:
    quantity = cells.literal(0, Dimension.LENGTH)
    for _ in range(5000):
        quantity = cells.add(quantity, cells.literal(1))
    assert worked_out(told(quantity)["reads"]) == 5000
