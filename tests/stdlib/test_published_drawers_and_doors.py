"""Published figures of slides, drawers, doors and hinges, each out of a kitchen that was built.

Sources stand at each test: title and section for what was printed, `common practice` for what shops
do, `from memory` for what no page was at hand for.
"""

from fractions import Fraction

import pytest

from casewright.compiler.model import Unit
from tests.stdlib.kitchens import part, unit_of

F = Fraction


def tray(unit: Unit, address: str = "drawer.tray") -> tuple[Fraction, Fraction, Fraction]:
    """A drawer box's width, height and length."""
    (found,) = (each for each in unit.assemblies if each.address == address)
    box = found.extents.box
    return box.size("across"), box.size("up"), box.size("deep")


def drawer(across: str, runner: str, shop: str = "", more: str = "") -> Unit:
    """A unit with one drawer in an opening so wide."""
    wide = F(across) + F("3/2")
    return unit_of(f"drawer_bank {wide}  drawers 1", shop=f"runner {runner}\n {shop}", more=more)


EASED = """
slide eased {{
  lengths    10 12 14 16 18 20 22
  width_by   outside
  each_side  1/2
  ease       {ease}
  high       1 3/4
  below      1/4
  above      1/4
  behind     1/8
  least_high 2
  screw_from  37mm
  screw_every 192mm
  screw_end   1/2
}}
"""


@pytest.mark.parametrize(("ease", "taken"), [("0", F(1)), ("1/32", F("17/16"))])
def test_side_mount_slides_take_1_to_1_1_16(ease: str, taken: Fraction) -> None:
    """1 to 1 1/16 off the opening: "Measuring Instructions for 1/2 and 5/8 Drawer Side Wood
    Thickness" (1 1/16); 1/2 a side is common practice."""
    unit = drawer("15", "eased", more=EASED.format(ease=ease))
    assert tray(unit)[0] == 15 - taken


def test_a_box_on_side_mount_slides_is_half_an_inch_lower_than_its_opening() -> None:
    """Same page; lengths in even inches."""
    unit = drawer("15", "side_mount")
    (opening,) = unit.openings
    assert tray(unit)[1] == opening.up.high.value - opening.up.low.value - F("1/2")
    assert tray(unit)[2] == 22


FIVE_EIGHTHS = """
sheet five_eighths { thick 5/8  stock 48 by 96  grain yes }
"""


@pytest.mark.parametrize(
    ("sides", "outside"), [("half_ply", F(15) - F("5/8")), ("five_eighths", F(15) - F("3/8"))]
)
def test_undermount_slides_fix_the_inside_width(sides: str, outside: Fraction) -> None:
    """Sides of 1/2: opening less 5/8 (15 gives 14 3/8); of 5/8: less 3/8 (15 gives 14 5/8). "Drawer
    Slide Influence On Drawer Box Dimensions". Both are an inside of the opening less 1 5/8."""
    unit = drawer("15", "undermount", f"tray_sides {sides}", FIVE_EIGHTHS)
    assert tray(unit)[0] == outside
    assert part(unit, "drawer.front_piece").length.value == 15 - F("13/8")


def test_a_box_on_undermount_slides_is_13_16_lower_and_a_named_length() -> None:
    """Height at most the opening less 13/16, lengths 9, 12, 15, 18, 21, the body about 1/2 longer
    than its name: "Drawer Box Tolerances with Undermount Slides"."""
    unit = drawer("15", "undermount")
    (opening,) = unit.openings
    assert tray(unit)[1] == opening.up.high.value - opening.up.low.value - F("13/16")
    back = part(unit, "back_panel").box.deep[0]
    assert tray(unit)[2] == 21 <= back - F("1/2") < 24


def test_drawer_stock() -> None:
    """Fronts 3/4, sides and backs 1/2, bottom 1/4: US Navy, NAVEDTRA 14045, Cabinets."""
    unit = drawer("15", "side_mount")
    thick = {name: part(unit, name).thick.value for name in ("drawer.face", "drawer.back_piece")}
    assert thick == {"drawer.face": F("3/4"), "drawer.back_piece": F("1/2")}
    assert part(unit, "drawer.tray_floor").thick.value == F("1/4")


@pytest.mark.parametrize("built", ["frameless", "face_frame"])
def test_an_inset_door_is_clear_1_16_on_all_four_edges(built: str) -> None:
    """US Navy, NAVEDTRA 14045: flush doors."""
    unit = unit_of("door_base 18", built, shop="fitted inset")
    (opening,) = unit.openings
    box = part(unit, "door.face").box
    assert box.across[0] - opening.across.low.value == F("1/16")
    assert opening.across.high.value - box.across[1] == F("1/16")
    assert box.up[0] - opening.up.low.value == F("1/16")
    assert opening.up.high.value - box.up[1] == F("1/16")
    assert box.deep == (F(0), F("3/4"))


def test_a_lipped_front_laps_3_8() -> None:
    """ "Cases And Cupboards": a front laps 3/8 all round."""
    unit = unit_of("door_base 18", "face_frame", shop="overlay 3/8")
    assert part(unit, "door.face").width.value == 15 + 2 * F("3/8")


def hinges(high: Fraction | int, hinge: str) -> int:
    """How many hinges hang a door so high in a tall frameless unit."""
    unit = unit_of(
        f"tall_door 18 high {high + F('1/8') + 4}",
        shop=f"door_hinge {hinge}\n pulled no",
        more="unit tall_door from tall_box { stack { door share hung left } }",
    )
    assert part(unit, "door.face").length.value == high
    return sum(each.role == "hinge" for each in unit.parts)


@pytest.mark.parametrize(
    ("high", "count"),
    [(30, 2), (40, 2), (F("1281/32"), 3), (60, 3), (61, 4), (80, 4), (85, 5)],
)
def test_cup_hinges_by_height(high: Fraction | int, count: int) -> None:
    """2 to 40, 3 to 60, 4 to 80 (from memory); 5 for doors over 84: "How Many Hinges Per Door?"."""
    assert hinges(high, "cup_hinge") == count


@pytest.mark.parametrize(("high", "count"), [(60, 2), (90, 3), (91, 4)])
def test_butt_hinges_by_height(high: int, count: int) -> None:
    """One for every 30 inches of height or part of it: "Number of door hinges per door"."""
    unit = unit_of(
        f"tall_door 18 high {high + 4 + 3 + F('1/8')}",
        "face_frame",
        shop="fitted inset\n pulled no\n widest_door 30\n highest 100",
        more="unit tall_door from tall_box { stack { door share hung left } }",
    )
    assert part(unit, "door.face").length.value == high
    assert sum(each.role == "hinge" for each in unit.parts) == count


def test_an_overlay_door_is_its_opening_and_twice_the_overlay() -> None:
    """Arithmetic: opening + 2 x overlay; a pair shares that less the gap."""
    one = unit_of("door_base 18", "face_frame")
    assert part(one, "door.face").width.value == 15 + 2 * F("1/2")
    pair = unit_of("pair_base 30", "face_frame")
    assert part(pair, "door_1.face").width.value == (27 + 2 * F("1/2") - F("1/8")) / 2
