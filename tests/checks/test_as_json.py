"""What is found in whole kitchens, as other programs read it: all of it keeps to the published
schema, accepted findings with their reasons, ruled figures and edits among it."""

import json
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from casewright.lang.printing import Printing
from casewright.lang.render_json import render_json
from tests.compiler.examples import compiled
from tests.compiler.pages import pages_of

SEEDED = Path(__file__).parent / "seeded_kitchen.case"
ACCEPTED = """
use checks
use plain_room
run sink_wall on north from left length 44 {
  S1: door_base 20  hung left   front_gap 1/32
  S2: door_base 20  hung right  front_gap 1/32 {
    accept fronts-too-close the doors are eased "by hand" <later>
  }
  S3: drawer_base 4
}
"""


@pytest.fixture(scope="module")
def schema() -> Draft202012Validator:
    read = json.loads(files("casewright.lang").joinpath("findings.schema.json").read_text("utf-8"))
    return Draft202012Validator(read)


def told(texts: dict[str, bytes], entry: str) -> Any:
    built = compiled(texts, entry)
    return json.loads(render_json(built.findings, built.progress, Printing()))


def test_an_accepted_finding_keeps_its_reason_and_is_not_counted(
    schema: Draft202012Validator,
) -> None:
    document = told({"kitchen.case": ACCEPTED.encode()}, "kitchen.case")
    schema.validate(document)
    accepted = [each for each in document["findings"] if each["accepted"]]
    assert [(each["slug"], each["accepted"]) for each in accepted] == [
        ("fronts-too-close", 'the doors are eased "by hand" <later>')
    ]
    assert sum(document["counts"].values()) == len(document["findings"]) - 1 > 0


def test_a_kitchen_of_mistakes_keeps_to_the_schema(schema: Draft202012Validator) -> None:
    (page,) = pages_of("seeded_kitchen", SEEDED.read_text(encoding="utf-8"))
    document = told({path: text.encode() for path, text in page.texts.items()}, page.entry)
    schema.validate(document)
    findings = document["findings"]
    assert any(figure["ruled"] for each in findings for figure in each["figures"])
    assert any(each["edits"] for each in findings)
    assert any(each["labels"] for each in findings)
