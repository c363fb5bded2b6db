"""A requirement that isn't met names the thing, its width, and what its text says mends it."""

import pytest

from tests.buying.shops import choices

ROOM = """
measure in inches
use std edition 1
job Set {
  built frameless
}
room work {
  floor   finished
  ceiling 101
  counter 36 thick 1 1/2
  wall bench length 90
}
run low on bench from left length %s {
  N4: %s
}
"""


@pytest.mark.parametrize(
    ("unit", "wide", "help"),
    [
        ("drawer_base", "3", 'N4 is 3" wide; make it wider'),
        ("wall_door", "40", 'N4 is 40" wide; make it narrower, or divide it into more doors'),
    ],
)
def test_a_requirement_names_the_thing_its_width_and_its_mend(
    unit: str, wide: str, help: str
) -> None:
    _, found = choices(ROOM % (wide, f"{unit} {wide}"))
    said = [each for each in found.findings if each.slug == "requirement-not-met"]
    assert [each.help for each in said] == [help]


def test_a_unit_narrower_than_the_studs_is_mended_as_its_help_says() -> None:
    """12 wide, it is sure of no stud 16 apart; what the help says to write is accepted."""
    room = ROOM.replace("left length", "left up 54 length")
    accept = "accept hangs-on-too-few-screws screwed to blocking"
    found = [
        next(each for each in choices(room % ("12", line))[1].findings if each.slug == slug)
        for slug in ("hangs-on-too-few-screws",)
        for line in ("wall_door 12", f"wall_door 12 {{\n    {accept}\n  }}")
    ]
    assert accept in found[0].help
    assert [each.accepted for each in found] == ["", "screwed to blocking"]
