"""Ten cabinets worked with pencil: each figure stands as the sum it was worked out by.

Fractions are written as they stand on paper; `F("3/4")` is three quarters of an inch. A cabinet
stands under a counter 36 high and 1 1/2 thick, its toe is 4, its side strips of white melamine
carry a band of 1 mm that is taken off what is sawn.
"""

from fractions import Fraction

from casewright.compiler.joints.oblique import volume_of
from casewright.compiler.model import Part, Unit
from tests.stdlib.kitchens import Size, base_of, part, size, unit_of, units_of

F = Fraction

BAND = F(1) / F("25.4")
HIGH = 36 - F("3/2")
BOX = HIGH - 4


def fronts(unit: Unit, *addresses: str) -> list[Size]:
    """Width and height of fronts."""
    return [(part(unit, each).width.value, part(unit, each).length.value) for each in addresses]


def flat(unit: Unit, address: str) -> Size:
    """How far a part reaches across and deep."""
    box = part(unit, address).box
    return box.size("across"), box.size("deep")


def test_frameless_door_base_18() -> None:
    unit = unit_of("door_base 18")
    between = 18 - 2 * F("3/4")  # 16 1/2
    deep = 24 - F("3/4") - F("1/4")  # before the strip and the back: 23
    assert size(unit, "left_side") == size(unit, "right_side") == (BOX, 24)
    assert part(unit, "left_side").cut_width.value == 24 - BAND
    assert flat(unit, "floor") == (between, deep)
    assert size(unit, "top_stretcher") == (between, 5)
    assert size(unit, "hanging_strip") == (between, 4)
    assert size(unit, "back_panel") == (BOX, between + 2 * F("3/8"))
    assert size(unit, "door.shelf") == (between - 2 * F("1/16"), deep - F("1/4") - F("1/16"))
    base = base_of("door_base 18")
    assert size(base, "toe_rail") == size(base, "back_rail") == size(base, "skin") == (18, 4)
    assert size(base, "left_cross") == (24 - 3 - F("1/4") - 2 * F("3/4"), 4)
    assert fronts(unit, "door.face") == [(18 - 2 * F("1/8"), BOX - F("1/8"))]


def test_frameless_drawer_base_24_of_ply_23_32() -> None:
    ply = F("23/32")
    unit = unit_of("drawer_base 24", shop="case thin_birch_ply")
    between = 24 - 2 * ply  # 22 9/16
    assert flat(unit, "floor") == (between, 24 - ply - F("1/4"))
    assert size(unit, "back_panel") == (BOX, between + 2 * F("3/8"))
    # Floor, top stretcher and two stretchers between three openings; the topmost is 6.
    lower = (BOX - 4 * ply - 6) / 2  # 10 13/16
    assert [each.up.high.value - each.up.low.value for each in unit.openings] == [6, lower, lower]
    # A side-mount slide takes 1/2 and a little ease of 1/64 on each side.
    wide = between - 2 * (F("1/2") + F("1/64"))
    for number, opening in ((1, F(6)), (2, lower), (3, lower)):
        high = opening - F("1/4") - F("1/4")
        assert size(unit, f"drawer_{number}.left_side") == (22, high)
        assert size(unit, f"drawer_{number}.front_piece") == (wide - 2 * F("1/2"), high)
        inner = (wide - 2 * F("1/2") + 2 * F("1/4"), 22 - 2 * F("1/2") + 2 * F("1/4"))
        assert size(unit, f"drawer_{number}.tray_floor") == inner
    # Fronts reach half way over what stands between, less half the gap of 1/8.
    half = ply / 2 - F("1/16")
    top, middle = ply - F("1/8") + 6 + half, half + lower + half
    low = half + lower + ply
    wide = 24 - 2 * F("1/8")
    assert fronts(unit, "drawer_1.face", "drawer_2.face", "drawer_3.face") == [
        (wide, top),
        (wide, middle),
        (wide, low),
    ]
    assert top + middle + low + 2 * F("1/8") + F("1/8") == BOX


def test_frameless_wall_unit_800_by_720_in_millimetres() -> None:
    def mm(value: str | int | F) -> F:
        return F(value) / F("25.4")

    unit = unit_of("wall_unit 800 high 720", "metric_frameless", metric=True)
    between, deep = 800 - 2 * 18, 320 - 18 - 6
    assert size(unit, "left_side") == (mm(720), mm(320))
    assert flat(unit, "floor") == flat(unit, "cap") == (mm(between), mm(deep))
    assert size(unit, "back_panel") == (mm(720), mm(between + 2 * 9))
    assert size(unit, "hanging_strip") == size(unit, "low_strip") == (mm(between), mm(100))
    shelf = (mm(between - 2 * F("1.5")), mm(deep - 6 - F("1.5")))
    assert size(unit, "door_1.shelf_1") == size(unit, "door_1.shelf_2") == shelf
    # Two doors: a gap of 3 at each end and 3 between them; 3 above, none below.
    door = (mm(F(800 - 3 - 3 - 3, 2)), mm(720 - 3))
    assert fronts(unit, "door_1.face", "door_2.face") == [door, door]


def test_frameless_pair_base_30_with_an_applied_back() -> None:
    unit = unit_of("pair_base 30", shop="backed applied")
    between, deep = 30 - 2 * F("3/4"), 24 - F("1/2")
    assert size(unit, "left_side") == (BOX, deep)
    assert flat(unit, "floor") == (between, deep)
    assert size(unit, "back_panel") == (BOX, 30)
    assert size(unit, "hanging_strip") == (between, 4)
    assert size(unit, "door_1.shelf") == (between - 2 * F("1/16"), deep - F("1/4") - F("1/16"))
    door = (F(30 - F("1/8") - F("1/8") - F("1/8")) / 2, BOX - F("1/8"))
    assert fronts(unit, "door_1.face", "door_2.face") == [door, door]


def test_frameless_bank_of_four_36_on_undermount_slides() -> None:
    unit = unit_of("drawer_bank 36", shop="runner undermount")
    between = 36 - 2 * F("3/4")  # 34 1/2
    opening = (BOX - 5 * F("3/4")) / 4  # 6 11/16
    # Inside width is the opening less 1 5/8; the sides are 1/2. Height is the opening less 13/16.
    wide, high = between - F("13/8") + 2 * F("1/2"), opening - F("9/16") - F("1/4")
    for number in (1, 2, 3, 4):
        assert size(unit, f"drawer_{number}.right_side") == (21, high)
        assert size(unit, f"drawer_{number}.back_piece") == (wide - 1, high)
        # Wider than 30, so the bottom is 1/2 ply.
        assert part(unit, f"drawer_{number}.tray_floor").thick.value == F("1/2")
    half = F("3/8") - F("1/16")
    assert [high for _, high in fronts(unit, *(f"drawer_{n}.face" for n in (1, 2, 3, 4)))] == [
        F("3/4") - F("1/8") + opening + half,
        half + opening + half,
        half + opening + half,
        half + opening + F("3/4"),
    ]


def test_framed_door_base_18() -> None:
    unit = unit_of("door_base 18", "face_frame")
    rail = stile = F("3/2")
    assert size(unit, "left_stile") == size(unit, "right_stile") == (BOX, stile)
    assert size(unit, "bottom_rail") == size(unit, "top_rail") == (18 - 2 * stile, rail)
    # The frame stands 1/4 past the box at each side; the floor's top is the bottom rail's top.
    box = 18 - 2 * F("1/4")
    deep = 24 - F("3/4")
    floor_up = 4 + rail - F("3/4")
    assert size(unit, "left_side") == (HIGH - floor_up, deep)
    assert flat(unit, "floor") == (box - 2 * F("3/4"), deep - F("3/4") - F("1/4"))
    assert size(base_of("door_base 18", "face_frame"), "toe_rail") == (box, floor_up)
    shelf = (box - 2 * F("3/4") - 2 * F("1/16"), deep - 1 - F("1/4") - F("1/16"))
    assert size(unit, "door.shelf") == shelf
    assert fronts(unit, "door.face") == [
        (18 - 2 * stile + 2 * F("1/2"), BOX - 2 * rail + 2 * F("1/2"))
    ]


def test_framed_drawer_base_24() -> None:
    unit = unit_of("drawer_base 24", "face_frame")
    lower = (BOX - 4 * F("3/2") - 6) / 2  # 9 1/4
    opening = 24 - 2 * F("3/2")  # 21
    assert [each.up.high.value - each.up.low.value for each in unit.openings] == [6, lower, lower]
    assert size(unit, "mid_rail_1") == (opening, F("3/2"))
    # Stile 1 1/2 less what the box stands back, 1/4, less its side, 3/4: packing of 1/2.
    assert part(unit, "drawer_1.left_packing").thick.value == F("3/2") - F("1/4") - F("3/4")
    wide = opening - 2 * (F("1/2") + F("1/64"))
    # From the frame's face to the back: 24 - 3/4 - 1/4 = 23; a 22 slide and 1/8 behind it fit.
    assert size(unit, "drawer_1.left_side") == (22, 6 - F("1/2"))
    assert size(unit, "drawer_2.front_piece") == (wide - 1, lower - F("1/2"))
    assert fronts(unit, "drawer_1.face", "drawer_2.face", "drawer_3.face") == [
        (opening + 1, 6 + 1),
        (opening + 1, lower + 1),
        (opening + 1, lower + 1),
    ]


def test_framed_sink_base_36_of_ply_23_32() -> None:
    ply = F("23/32")
    unit = unit_of("sink_base 36", "face_frame", shop="case thin_birch_ply")
    assert flat(unit, "floor") == (36 - 2 * F("1/4") - 2 * ply, 24 - F("3/4") - ply - F("1/4"))
    assert not [each for each in unit.parts if each.address in ("top_stretcher", "cap")]
    opening = 36 - 2 * F("3/2")
    door_high = BOX - 3 * F("3/2") - 6
    # Two doors meet over nothing: each laps its stile by 1/2 and gives half the gap of 1/8.
    door = (opening / 2 + F("1/2") - F("1/16"), door_high + 1)
    assert fronts(unit, "false_front.face", "door_1.face", "door_2.face") == [
        (opening + 1, F(6 + 1)),
        door,
        door,
    ]


def test_framed_wall_door_450_by_720_in_millimetres() -> None:
    def mm(value: int | F) -> F:
        return F(value) / F("25.4")

    unit = unit_of("wall_door 450 high 720", "metric_face_frame", metric=True)
    frame = F("3/4") * F("25.4")  # the frame's stock is 3/4 in: 19.05
    assert size(unit, "left_stile") == (mm(720), mm(40))
    assert size(unit, "top_rail") == (mm(450 - 2 * 40), mm(40))
    box = 450 - 2 * 6
    assert size(unit, "left_side") == (mm(720 - (40 - 18)), mm(320 - frame))
    assert flat(unit, "cap") == (mm(box - 2 * 18), mm(320 - frame - 18 - 6))
    assert fronts(unit, "door.face") == [(mm(450 - 2 * 40 + 2 * 12), mm(720 - 2 * 40 + 2 * 12))]


def test_framed_door_base_18_with_a_stile_of_1_1_4_that_takes_a_filler_of_3() -> None:
    """A 1 1/4 stile with a 3-inch corner filler is 4 1/4 (common practice)."""
    text = """measure in inches
use std edition 1
job Trial {
  revision 1
  built    shop
}
construction shop from face_frame { stile 1 1/4 }
room trial {
  ceiling 96
  counter 36 thick 1 1/2
  wall north length 21
}
run trials on north from left {
  filler 3
  S1: door_base 18
}
"""
    (unit,) = units_of(text)
    assert size(unit, "left_stile") == (BOX, F("5/4") + 3)
    assert size(unit, "right_stile") == (BOX, F("5/4"))
    assert size(unit, "top_rail")[0] == 18 - 2 * F("5/4")
    assert unit.width.value == 18
    # The box stays where it was: 1/4 inside the unit's own width.
    assert part(unit, "left_side").box.across == (F("1/4"), F("1/4") + F("3/4"))


def test_the_derived_teaching_case() -> None:
    """Our own arithmetic: 24 wide, 34 1/2 high, 24 deep, a 3/4 box behind a 3/4 frame of 1 1/2 that
    is flush at both sides, a 1/4 back 1/4 deep in its sides, a toe notch of 4 1/2 by 3."""
    shop = "toe notched\n toe_up 4 1/2\n toe_back 3\n flush both\n slot 1/4\n runner undermount"
    unit = unit_of("drawer_door_base 24", "face_frame", shop=shop)
    assert size(unit, "left_side") == (F("69/2"), F("93/4"))  # 34 1/2 by 23 1/4
    assert flat(unit, "floor")[0] == 24 - F("3/2")  # 22 1/2
    assert size(unit, "back_panel")[1] == F("45/2") + 2 * F("1/4")  # 23
    assert size(unit, "left_stile")[0] == F("69/2") - F("9/2")  # 30
    assert size(unit, "top_rail")[0] == 24 - 3  # 21
    assert fronts(unit, "door.face")[0][0] == 21 + 2 * F("1/2")  # 22
    tray = {each.address: each for each in unit.assemblies}["drawer.tray"].extents.across
    assert tray.high.value - tray.low.value == 20 + F("3/8")
    # Two sides of 23 1/4 and a cut of 1/8 come from one sheet 48 wide.
    assert 2 * F("93/4") + F("1/8") == 46 + F("5/8") <= 48
    notch = part(unit, "left_side").cuts[0].box
    assert (notch.size("up"), notch.size("deep")) == (F("9/2"), 3 - F("3/4"))


def test_the_corners_of_a_drawer_box_by_name() -> None:
    wide = 24 - 2 * F("3/4") - 2 * (F("1/2") + F("1/64"))  # 21 15/32 over its sides
    for corner, front, side in (
        ("butt", wide - 2 * F("1/2"), F(22)),
        ("dado", wide - 2 * F("1/2") + 2 * F("1/4"), F(22)),
        ("dovetail", wide, 22 - 2 * (F("1/2") - F("5/16"))),
        ("through_dovetail", wide, F(22)),
    ):
        unit = unit_of("drawer_base 24", shop=f"cornered {corner}")
        assert (
            size(unit, "drawer_1.front_piece")[0] == size(unit, "drawer_1.back_piece")[0] == front
        )
        assert size(unit, "drawer_1.left_side")[0] == side


def test_through_dovetails_share_their_corner() -> None:
    unit = unit_of("drawer_base 24", shop="cornered through_dovetail")
    # The upper drawer is 5 1/2 high: 6 tails of at least 7/8 from middle to middle, 11/12 each. A
    # side has room for 5 pins of 11/24 and two halves of 11/48 at both ends, a front for 6 tails.
    side, front = part(unit, "drawer_1.left_side"), part(unit, "drawer_1.front_piece")

    def heights(of: Part) -> list[F]:
        return sorted(cut.box.size("up") for cut in of.cuts if cut.kind == "cut")

    assert heights(side) == [F(11, 48)] * 4 + [F(11, 24)] * 10
    assert heights(front) == [F(11, 24)] * 12
    # Half of each corner, 1/2 by 1/2 by 5 1/2, is the side's, half the front's; nothing is shared,
    # or the unit would have a finding.
    wide = 24 - 2 * F("3/4") - 2 * (F("1/2") + F("1/64"))
    corner = F("1/2") * F("1/2") * F("11/2")
    assert volume_of(side) == 22 * F("1/2") * F("11/2") - corner
    assert volume_of(front) == wide * F("1/2") * F("11/2") - corner
    said = [step.words for step in unit.steps if "through dovetails" in step.words]
    assert len(said) == 3
    assert said[0].startswith("through dovetails, 6 tails to a corner")
    sides = (side.path, part(unit, "drawer_1.right_side").path)
    joined = [joint for joint in unit.joints if joint.second == front.path and joint.first in sides]
    assert [joint.fixing and joint.fixing.name for joint in joined] == ["glued_only"] * 2
