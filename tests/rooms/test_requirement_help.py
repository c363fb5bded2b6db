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
