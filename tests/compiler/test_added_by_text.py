"""What a shop adds in a text of its own, with no Python: a unit, a filling, a second stretcher."""

from fractions import Fraction

from casewright.compiler.model import Part, Placed
from casewright.lang.findings import Severity
from tests.compiler.examples import compiled

SHOP = """measure in inches
use std edition 1

# A unit, what fills it, and what is made of that.
filling letter_slot { faced no }

unit letter_base from base_unit {
  stack {
    for each n of 3 { letter_slot share }
    drawer opening 8
  }
}

# A detail: behind each stretcher a second one, at the back, and a lip below each slot.
construction shop from frameless {
  case   maple_ply
  fronts birch_ply
  assembly box {
    for each level {
      let left_wall  = level.before.partition or else left_side
      let right_wall = level.after.partition or else right_side
      part second_stretcher of case  across left_wall .. right_wall  serves stretcher {
        up   to level.top
        deep 3 to back_panel
      }
      join second_stretcher to left_wall right_wall with stapled
    }
    step second_stretcher after floor
  }
  for each letter_slot {
    part lip of fronts  across box.left_side .. box.right_side  serves stretcher {
      up   1 from letter_slot.bottom
      deep 3/4 from box.front + 3/4
    }
    join lip to box.left_side box.right_side with screwed
  }
  step lip after box
}
"""

KITCHEN = """measure in inches
use shop
job Letters {
  built shop
}
room hall {
  ceiling 96
  counter 36 thick 1 1/2
  wall north length 48
}
run only on north from left {
  S1: letter_base 24
  S2: drawer_base 24
}
"""


def placed() -> tuple[Placed, ...]:
    built = compiled({"letters.case": KITCHEN.encode(), "shop.case": SHOP.encode()}, "letters.case")
    errors = [each for each in built.findings if each.severity is Severity.ERROR]
    assert [(each.slug, each.headline) for each in errors] == []
    assert built.job is not None
    return tuple(each for run in built.job.runs for each in run.placed)


def parts(of: Placed, name: str) -> list[Part]:
    assert of.unit is not None
    return [part for part in of.unit.parts if part.path.split(".")[-1].startswith(name)]


def test_a_unit_of_ones_own_filling() -> None:
    letters, drawers = placed()
    assert letters.unit is not None
    fillings = [opening.filling for opening in letters.unit.openings]
    assert fillings == ["letter_slot", "letter_slot", "letter_slot", "drawer"]
    lips = parts(letters, "lip")
    assert [part.opening for part in lips] == ["letter_slot_1", "letter_slot_2", "letter_slot_3"]
    assert {part.length.value for part in lips} == {24 - 2 * Fraction(3, 4)}
    assert parts(drawers, "lip") == []


def test_a_second_stretcher_behind_every_one() -> None:
    for unit in placed():
        first, second = parts(unit, "stretcher"), parts(unit, "second_stretcher")
        assert len(second) == len(first) > 0
        for one, two in zip(first, second, strict=True):
            assert two.box.up == one.box.up
            assert two.box.size("deep") == 3
            assert two.material.name == "maple_ply"


def test_what_was_added_is_joined_and_brought_in() -> None:
    for unit in placed():
        assert unit.unit is not None
        joined = {path for joint in unit.unit.joints for path in (joint.first, joint.second)}
        brought = {way.thing for step in unit.unit.steps for way in step.ways}
        for part in (*parts(unit, "second_stretcher"), *parts(unit, "lip")):
            assert part.path in joined
            assert part.path in brought
