"""Published figures of boxes and frames, each out of a kitchen that was built.

Sources stand at each test: title and section for what was printed, `common practice` for what shops
do, `from memory` for what no page was at hand for.
"""

from fractions import Fraction

from casewright.compiler.model import Part
from tests.stdlib.kitchens import part, unit_of

F = Fraction


def test_strips_to_hang_by_stand_where_the_standard_wants_them() -> None:
    """Architectural Woodwork Standards, 4.4.18: at least 1/2 by 2 1/2, top and bottom of the wall
    side, one between in units over 60 high; none needed with a back of 1/2 and more."""

    def strips(line: str, shop: str = "") -> list[Part]:
        return [each for each in unit_of(line, shop=shop).parts if each.role == "hanging"]

    for line, count in (("wall_unit 30", 2), ("pantry 30", 3), ("tall_door 18 high 60", 2)):
        more = "unit tall_door from tall_box { stack { door share hung left } }"
        unit = unit_of(line, more=more)
        found = [each for each in unit.parts if each.role == "hanging"]
        assert len(found) == count, line
        for each in found:
            assert each.thick.value >= F("1/2")
            assert each.width.value >= F("5/2")
    assert len(strips("pantry 30", "backed applied")) == 1


def test_what_a_shop_builds_unless_it_says_otherwise() -> None:
    """ANSI/AWI 0641-2019, 3.4 e): flush overlay, frameless, doors, adjustable shelves: 2 in a wall
    unit, 1 in a base unit."""
    for line, count in (("wall_unit 30", 2), ("door_base 18", 1), ("pair_base 30", 1)):
        unit = unit_of(line)
        shelves = [each for each in unit.parts if each.role == "shelf"]
        assert len(shelves) == count
        assert sum(each.material.name == "shelf_pin" for each in unit.parts) == 4 * count


def test_the_navys_face_frame() -> None:
    """US Navy, NAVEDTRA 14045, ch. 5: frame stock 3/4 by 1 1/2, the bottom rail's top flush with
    the case's bottom, outside stiles flush with the case's ends; wall units 12 deep and 30 high, 18
    over a range."""
    unit = unit_of("wall_unit 30", "face_frame", shop="flush both")
    stile = part(unit, "left_stile")
    assert (stile.thick.value, stile.width.value) == (F("3/4"), F("3/2"))
    assert part(unit, "bottom_rail").box.up[1] == part(unit, "floor").box.up[1]
    assert stile.box.across[0] == part(unit, "left_side").box.across[0]
    assert (unit.depth.value, unit.height.value) == (F(12), F(30))
    assert unit_of("wall_hood 30").height.value == 18


def test_a_box_is_square_when_its_diagonals_agree() -> None:
    """Same chapter, by Pythagoras: 18 by 30 1/2 measures 35.415 from corner to corner."""
    unit = unit_of("door_base 18")
    words = [step.words for step in unit.steps if "diagonals" in step.words]
    # To 1/32: 35 13/32 is 35.40625, and 35.415 is over that by less than half a step.
    assert words == ['square the box: both diagonals are 35 13/32" full']
    assert round((18**2 + 30.5**2) ** 0.5, 3) == 35.415
