"""The form of findings for other programs, held to its published schema."""

import json
from fractions import Fraction
from importlib.resources import files
from typing import Any

import pytest
from jsonschema import Draft202012Validator, ValidationError

from casewright.lang.findings import Finding, Progress, Severity
from casewright.lang.measure import Dimension, Measure
from casewright.lang.printing import Printing
from casewright.lang.render_json import render_json, value
from casewright.lang.source import Span
from tests.lang.finding_samples import ALL, FOLDED, KITCHEN, RUN_TOO_LONG


@pytest.fixture(scope="module")
def schema() -> Draft202012Validator:
    read = json.loads(files("casewright.lang").joinpath("findings.schema.json").read_text("utf-8"))
    Draft202012Validator.check_schema(read)
    return Draft202012Validator(read)


NOTHING = Progress()


def document(*findings: Finding, progress: Progress = NOTHING, **more: object) -> Any:
    return json.loads(render_json(findings, progress, Printing(), **more))


def test_every_finding_keeps_to_the_schema(schema: Draft202012Validator) -> None:
    schema.validate(document(*ALL, progress=Progress(40, 1)))
    schema.validate(document())
    schema.validate(document(written={"folder": "galley", "files": ["book.html"]}))
    schema.validate(document(written=None))


@pytest.mark.parametrize("dimension", list(Dimension))
def test_every_dimension_keeps_to_the_schema(
    schema: Draft202012Validator, dimension: Dimension
) -> None:
    definition = {"$ref": "#/$defs/value", "$defs": schema.schema["$defs"]}
    measure = Measure(Fraction(-7, 3), dimension)
    Draft202012Validator(definition).validate(value(measure, Printing()))


def test_the_schema_refuses_what_it_does_not_name(schema: Draft202012Validator) -> None:
    changes: list[dict[str, Any]] = [
        {"extra": 1},
        {"version": 2},
        {"progress": {}},
        {"findings": [{"slug": "A B"}]},
    ]
    for change in changes:
        with pytest.raises(ValidationError):
            schema.validate(document(*ALL) | change)


def test_a_finding_is_told_with_exact_values_and_places() -> None:
    told = document(RUN_TOO_LONG)["findings"][0]
    assert told["slug"] == "run-too-long"
    assert told["severity"] == "error"
    assert told["place"] == {
        "file": "kitchen.case",
        "line": 11,
        "column": 5,
        "end_line": 11,
        "end_column": 14,
    }
    assert told["figures"][0]["value"] == {
        "exact": "639/4",
        "unit": "in",
        "dimension": "length",
        "printed": '159 3/4"',
    }
    assert [figure["ruled"] for figure in told["figures"]] == [False, False, True]
    assert told["figures"][2]["place"] is None
    assert told["edits"][0]["replacement"] == "share"
    assert told["edits"][0]["place"]["line"] == 14


def test_labels_and_folded_units_are_told() -> None:
    told = document(FOLDED)["findings"][0]
    assert told["labels"][0]["place"]["file"] == "std boxes.case"
    assert told["labels"][0]["text"] == "the slot is cut here"
    assert told["tags"] == ["S2", "S3", "S5"]


def test_findings_and_units_are_counted() -> None:
    told = document(*ALL, progress=Progress(40, 1))
    assert told["counts"] == {"error": 3, "warning": 1, "advice": 1}
    assert told["progress"] == {"units_placed": 40, "units_evaluated": 1}


def test_a_span_over_line_ends_has_an_end_of_its_own() -> None:
    start = KITCHEN.text.index("room galley")
    end = KITCHEN.text.index("  counter 36")
    finding = Finding("odd", Severity.ERROR, "odd", Span(KITCHEN, start, end))
    assert document(finding)["findings"][0]["place"] == {
        "file": "kitchen.case",
        "line": 3,
        "column": 1,
        "end_line": 5,
        "end_column": 1,
    }


def test_the_text_is_ascii() -> None:
    finding = Finding("odd", Severity.ERROR, "\u202e\x1b[2J 台所", None)
    text = render_json((finding,), Progress(), Printing())
    assert text.isascii()
    assert "\x1b" not in text
    assert json.loads(text)["findings"][0]["headline"] == "\u202e\x1b[2J 台所"
