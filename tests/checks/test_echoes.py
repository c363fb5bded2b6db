"""One slip gives one report: what comes of it is told once it is mended, if it is still there."""

import pytest

from casewright.compiler.check.echoes import PRECEDENCES
from casewright.compiler.check.look_over import CHECKS
from casewright.compiler.commands.world import InstalledLibrary
from casewright.compiler.compile import compile_job
from casewright.compiler.reports import SUMS
from casewright.compiler.world import world_of

KITCHEN = """measure in inches
use std edition 1
job Quayside {{
  built frameless
}}
room quayside {{
  floor   finished
  ceiling 94
  counter 36 thick 1 1/2
  wall north length 120 {{
    window at 30 wide 60 up {sill} high 40
  }}
}}
run sink_wall on north from left {long} {{
  filler 1 scribe
{lines}
}}
"""


def found_in(lines: str, sill: str = "44", long: str = "") -> list[tuple[str, tuple[str, ...]]]:
    text = KITCHEN.format(lines=lines, sill=sill, long=long)
    result = compile_job(world_of({"kitchen.case": text}, InstalledLibrary()), "kitchen.case")
    return [(each.slug, each.tags) for each in result.findings if not each.accepted]


def test_a_sound_kitchen_has_nothing_to_tell() -> None:
    lines = "  S1: pair_base 35\n  S2: drawer_base 30\n  S3: drawer_base 30\n  filler share"
    assert found_in(lines) == []


@pytest.mark.parametrize(
    ("lines", "sill", "wanted"),
    [
        # One window that is too low, and three units before it.
        (
            "  S1: pair_base 35\n  S2: drawer_base 30\n  S3: drawer_base 30\n  filler share",
            "30",
            [("unit-covers-window", ("S1", "S2", "S3"))],
        ),
        # One unit too wide: it is past the end of its wall, and too wide for its sheet.
        (
            "  S1: pair_base 40\n  S2: drawer_base 36\n  S3: drawer_base 47 7/8",
            "44",
            [("run-too-long", ())],
        ),
        # One that is wider than any is made: how long its run comes out is no matter.
        (
            "  S1: pair_base 35\n  S2: drawer_base 30\n  S3: drawer_base 60\n  S4: door_base share",
            "44",
            [("requirement-not-met", ("S3",))],
        ),
        # One that is narrower than any, in a run that comes out too short by it.
        (
            "  S1: pair_base 48\n  S2: drawer_base 47\n  S3: drawer_base 2 1/4",
            "44",
            [("requirement-not-met", ("S3",))],
        ),
        # Three that are as high: none can be stood up either.
        (
            "  S1: pantry 14 1/2 high 94 1/2\n  S2: pantry 13 3/4 high 94 1/2\n"
            "  S3: tall_panel 3/4 high 94 1/2\n  tall_gap",
            "100",
            [("higher-than-room", ("S1", "S2", "S3"))],
        ),
        # One higher than its room, and than a sheet gives.
        (
            "  S1: pantry 24 high 96 1/2\n  S2: pair_base 36\n  S3: pair_base 36\n  filler share",
            "100",
            [("requirement-not-met", ("S1",))],
        ),
        # A unit far too narrow.
        ("  S1: drawer_base 3\n  filler share max 120", "44", [("requirement-not-met", ("S1",))]),
    ],
    ids=[
        "a low window",
        "a run too long",
        "wider than any",
        "narrower than any",
        "too high",
        "higher than any",
        "too narrow",
    ],
)
def test_one_slip_gives_one_report(
    lines: str, sill: str, wanted: list[tuple[str, tuple[str, ...]]]
) -> None:
    filled = lines.replace("tall_gap", "S8: pair_base 36\n  S9: pair_base 36\n  filler share")
    assert found_in(filled, sill) == wanted


def test_what_is_hidden_is_told_when_its_cause_is_accepted() -> None:
    # The run ends in the open, and the fasteners of its last side are seen there.
    lines = "  S1: pair_base 35"
    assert found_in(lines, long="length 36") == [("seen-end-unfinished", ("S1",))]
    lines += "\n  accept seen-end-unfinished a panel comes later"
    assert found_in(lines, long="length 36") == [("fastener-shows", ("S1",))]


AISLE = """measure in inches
use std edition 1
job Quayside {{
  built frameless
}}
room quayside {{
  floor   finished
  ceiling 96
  counter 36 thick 1 1/2
  wall west  length {apart}
  wall north length 120
  wall east  length {apart}
  wall south length 120
}}
run a on north from left {{
  filler 3 scribe
  S1: drawer_base 24
  S2: pair_base 30
  S3: dishwasher 24  confirmed
  S4: drawer_base 30
  filler share
}}
run b on south from left {{
  filler 3 scribe
  P1: drawer_base 36
  P2: drawer_base 24
  P3: pair_base 30{accepts}
  P4: drawer_base 18
  filler share
}}
"""


def found_across(apart: int, accepts: str = "") -> list[tuple[str, tuple[str, ...]]]:
    body = f" {{\n    accept {accepts}\n  }}" if accepts else ""
    text = AISLE.format(apart=apart, accepts=body)
    result = compile_job(world_of({"kitchen.case": text}, InstalledLibrary()), "kitchen.case")
    return [(each.slug, each.tags) for each in result.findings if not each.accepted]


def test_an_aisle_far_too_narrow_is_one_report() -> None:
    """Six inches of floor: every door and drawer of both runs runs into the run opposite."""
    ((slug, tags),) = found_across(54)
    assert slug == "runs-too-near"
    assert set(tags) == {"S1", "S2", "S3", "S4", "P1", "P2", "P3", "P4"}


def test_what_meets_across_an_aisle_is_told_once_and_accepted_pair_by_pair() -> None:
    """In 30 inches each opens, and not with what is open opposite it."""
    told = found_across(78)
    assert [slug for slug, _ in told] == ["little-passage", "sweeps-meet"]
    ((_, tags),) = [each for each in told if each[0] == "sweeps-meet"]
    assert set(tags) == {"P1", "P2", "P3", "P4"}
    rest = found_across(78, "sweeps-meet one of them at a time")
    ((_, tags),) = [each for each in rest if each[0] == "sweeps-meet"]
    assert set(tags) == {"P1", "P2", "P4"}


def test_another_things_fault_of_the_same_kind_is_told() -> None:
    # S1 is before the window, S3 past the end of the run: only what is of S3 waits.
    lines = "  S1: pantry 35\n  S2: drawer_base 38\n  S3: drawer_base 47"
    assert ("unit-covers-window", ("S1",)) in found_in(lines)


def test_every_word_of_the_precedences_is_a_finding() -> None:
    slugs = {check.slug for check in CHECKS} | SUMS
    for precedence in PRECEDENCES:
        assert {precedence.cause, *precedence.echoes} <= slugs
        assert precedence.cause not in precedence.echoes
