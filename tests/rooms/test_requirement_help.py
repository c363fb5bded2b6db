"""A requirement that isn't met names the thing, its width, and what its text says mends it."""

import pytest

from casewright.lang.measure import System
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
    """12 wide, it is sure of no stud 16 apart; the blocking that the help writes holds it."""
    slug = "hangs-on-too-few-screws"
    room = (ROOM % ("12", "wall_door 12")).replace("left length", "left up 54 length")
    (told,) = [each for each in choices(room)[1].findings if each.slug == slug]
    blocking = 'blocking at 0" wide 12" up 54" high 30"'
    assert f"say in the block of bench: {blocking}" in told.help
    mended = room.replace("length 90", f"length 90 {{\n    {blocking}\n  }}")
    assert slug not in [each.slug for each in choices(mended)[1].findings]


def test_a_requirement_is_told_in_one_rounding() -> None:
    """The job prints to a quarter: its headline and its help do alike."""
    room = ROOM.replace("built frameless", "built frameless\n  precision 1/4")
    (told,) = choices(room % ("7 1/16", "drawer_base 7 1/16"))[1].findings
    assert told.headline == 'only 5 1/2" full is left between the sides; the least is 6"'
    assert told.help == 'N4 is 7" full wide; make it wider'


@pytest.mark.parametrize("line", ["N4: drawer_base 40mm", "N4: no_such_unit 600mm"])
def test_a_kitchen_that_cant_be_built_is_told_of_in_its_own_measure(line: str) -> None:
    text = ROOM.replace("in inches", "in mm").replace("%s {\n  N4: %s", "2000 {\n  " + line)
    metric = text.replace("101", "2500").replace("36 thick 1 1/2", "900 thick 38")
    found = choices(metric.replace("90", "3000"))[1]
    assert found.job is None
    assert found.printing.system is System.MILLIMETRES
