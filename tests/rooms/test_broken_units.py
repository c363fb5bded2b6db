"""Around a unit that is broken inside, the room is judged all the same, by the unit's outline."""

import pytest

from casewright.compiler.commands.world import InstalledLibrary
from casewright.compiler.compile import compile_job
from casewright.compiler.world import world_of

KITCHEN = """measure in inches
use std edition 1
job Quayside {{
  built {built}
}}
room quayside {{
  floor   finished
  ceiling 96
  counter 36 thick 1 1/2
  wall north length 120 {{
    window at 42 wide 36 up 44 high 40  casing 3
  }}
  wall east length 100
}}
run uppers on north from left up 54 {{
{lines}
}}
"""

BROKEN = 'a door 4 7/8" high is too low for two hinges'


def found_in(lines: str, built: str = "frameless", more: str = "") -> list[tuple[str, str]]:
    text = KITCHEN.format(lines=lines, built=built) + more
    result = compile_job(world_of({"kitchen.case": text}, InstalledLibrary()), "kitchen.case")
    assert result.job is None
    return [(each.slug, each.headline) for each in result.findings]


def test_a_broken_unit_before_a_window_is_told_of_both() -> None:
    assert found_in("  space 36\n  U2: wall_unit 30 high 5\n  space share") == [
        ("unit-covers-window", "U2 stands in front of window"),
        ("requirement-not-met", BROKEN),
    ]


def test_a_sound_unit_beside_a_broken_one_is_told_what_it_meets() -> None:
    # The casing begins at 42 - 3 = 39.
    lines = "  U1: wall_unit 40\n  space over window\n  U2: wall_unit 30 high 5\n  space share"
    assert "unit-meets-casing" in dict(found_in(lines))


def test_what_a_broken_unit_lacks_inside_is_no_fault_of_the_room() -> None:
    """It has no parts to hang by, no finished end, no toe: nothing of that is said."""
    lines = "  space share\n  U2: wall_unit 30 high 5"
    assert {slug for slug, _ in found_in(lines)} == {"requirement-not-met"}


@pytest.mark.parametrize(
    "lines",
    [
        # What a line that can't be read would have taken, the shares beside it don't get.
        "  U1: wall_unti 36\n  U2: wall_unit share\n  space share",
        "  U1: wall_unit 36 +\n  U2: wall_unit share\n  space share",
    ],
)
def test_where_a_line_cant_be_read_no_place_of_its_run_is_judged(lines: str) -> None:
    assert {slug for slug, _ in found_in(lines)} <= {"unknown-unit", "line-ends-early"}


def test_what_is_measured_from_a_run_that_cant_be_read_isnt_judged_either() -> None:
    first = "  U1: wall_unti 10\n  U2: wall_unit share"
    more = "run others on east after uppers up 54 {\n  U3: wall_unit 30 high 5\n  space share\n}\n"
    slugs = {slug for slug, _ in found_in(first, more=more)}
    assert "unit-covers-window" not in slugs
    assert {"unknown-unit", "requirement-not-met"} <= slugs
