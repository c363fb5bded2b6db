"""`list`: what the library's own texts declare."""

import json
from typing import Any

import pytest

from casewright.compiler.commands import list as listing
from casewright.compiler.commands.main import KINDS
from casewright.compiler.world import world_of
from tests.commands.command_line import ran

LIBRARY = world_of(
    {
        "units.case": """\
# Holds drawers.
unit tall from base_box  topped none {
  option deep_one length = 5   # how deep it is
}

unit low {
}
""",
        "goods.case": """\
sheet oak_ply { thick 3/4 }
slide long_slide { lengths 10 12 }
filling open { faced no }
appliance stove { wide 30 }
saw bench_saw { kerf 1/8 }
rule_pack local { called "local" }
construction plain {
  option deep_one count
}
""",
    }
)


@pytest.fixture(autouse=True)
def _played_library(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(listing, "InstalledLibrary", lambda: LIBRARY)


def test_things_are_listed_with_what_their_comments_say() -> None:
    assert ran("list", "units").out == (
        """\
    low
    tall    Holds drawers.   from base_box topped none
"""
    )


def test_options_are_listed_with_what_offers_them() -> None:
    assert ran("list", "options").out == (
        """\
    deep_one    count  of plain
    deep_one    how deep it is   length = 5  of tall
"""
    )


def test_the_concise_form_is_names_each_once() -> None:
    assert ran("list", "options", "--as", "concise").out == "deep_one\n"
    assert ran("list", "materials", "--as", "concise").out == "oak_ply\n"
    assert ran("list", "hardware", "--as", "concise").out == "long_slide\n"
    assert ran("list", "fillings", "--as", "concise").out == "open\n"
    assert ran("list", "constructions", "--as", "concise").out == "plain\n"
    assert ran("list", "shop", "--as", "concise").out == "bench_saw\n"
    assert ran("list", "rules", "--as", "concise").out == "local\n"


def test_the_form_for_other_programs() -> None:
    told: Any = json.loads(ran("list", "units", "--as", "json").out)
    assert told["kind"] == "units"
    assert told["entries"][1] == {
        "name": "tall",
        "head": "unit",
        "doc": "Holds drawers.",
        "words": "from base_box topped none",
        "holder": "",
        "where": "std units:2",
    }


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_can_be_listed(kind: str) -> None:
    result = ran("list", kind)
    assert (result.code, result.err) == (0, "")
    assert result.out
