"""Published and common-practice figures, each out of a kitchen that was built.

Sources stand at each test: title and section for what was printed, `common practice` for what shops
do, `from memory` for what no page was at hand for.
"""

from fractions import Fraction
from itertools import pairwise

import pytest

from casewright.compiler.model import Hole, Part, Unit
from casewright.compiler.shop.buying import buying_list
from casewright.lang.cells import Quantity
from casewright.lang.measure import INCH
from tests.stdlib.kitchens import job_of, kitchen, part, size, unit_of, units_of

F = Fraction
MM = 1 / INCH


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
        shop="fitted inset\n pulled no\n widest_door 30",
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


# -- sheets, bands, saw ------------------------------------------------------------------------


def test_ply_sold_as_3_4_is_23_32_and_its_groove_too() -> None:
    """23/32 = 18.26 mm; "Identifying plywood sizes and types": its dado is 23/32, not 3/4."""
    thick = unit_of("door_base 18", shop="backing thin_birch_ply")
    back = part(thick, "back_panel")
    assert back.thick.value == F("23/32")
    assert round(float(back.thick.value * INCH), 2) == 18.26
    groove = next(cut for cut in part(thick, "left_side").cuts if cut.kind == "groove")
    assert groove.box.size("deep") == F("23/32") + 2 * F("1/64")


def test_sheets_are_as_large_as_they_are_sold() -> None:
    """Plywood 48 by 96 and five feet square ("Hardwood Plywood Overview"); board an inch oversize
    both ways, 49 by 97 (common practice)."""
    job = job_of(kitchen(["drawer_base 24"]))
    stock = {each.name: each.stock for each in job.materials}
    assert [(each.width, each.length) for each in stock["birch_ply"]] == [(F(48), F(96))]
    assert [(each.width, each.length) for each in stock["half_ply"]] == [(F(60), F(60))]
    assert [(each.width, each.length) for each in stock["white_melamine"]] == [(F(49), F(97))]


def test_two_sides_of_24_come_only_from_an_oversize_sheet() -> None:
    """24 + 1/8 + 24 = 48 1/8: one from 48, two from 49 (computed)."""
    job = job_of(kitchen(["door_base 18"]))
    unit = next(placed.unit for placed in job.placed if placed.unit is not None)
    stock = {each.name: each.stock[0].width for each in job.materials if each.stock}
    two = 2 * part(unit, "left_side").width.value + F("1/8")
    assert stock["birch_ply"] < two == F("385/8") <= stock["white_melamine"]


def test_a_band_of_1_mm_all_round_takes_2_mm_off_the_cut_size() -> None:
    """See "How much thickness does edge banding add?"; thin ones stay out (common practice)."""
    thick = part(unit_of("door_base 18", shop="fronts white_melamine"), "door.face")
    assert thick.length.value - thick.cut_length.value == 2 * MM
    assert thick.width.value - thick.cut_width.value == 2 * MM
    thin = part(unit_of("door_base 18"), "door.face")
    assert (thin.cut_length.value, thin.cut_width.value) == (thin.length.value, thin.width.value)


def test_bands_are_7_8_wide_for_3_4_board() -> None:
    """7/8 or 15/16 (from memory); thickness from 0.4 to 3 mm."""
    job = job_of(kitchen(["drawer_base 24"]))
    bands = [each for each in job.materials if each.kind == "band"]
    assert bands
    for band in bands:
        wide = band.data["wide"]
        assert isinstance(wide, Quantity)
        assert wide.value == F("7/8")
        assert F("0.4") * MM <= band.thick.value <= 3 * MM


def test_a_blank_of_7_gives_a_3_and_a_3_7_8() -> None:
    """Common practice: 7 = 3 + one cut of 1/8 + 3 7/8, banded on both long edges first."""
    unit = unit_of("door_base 18", shop="cleated angled")
    (blank,) = (each for each in unit.blanks if "hanging_strip" in each.strips)
    assert set(blank.strips) == {"hanging_strip", "flat_strip"}
    assert blank.width.value == 7
    assert size(unit, "flat_strip")[1] == 3
    assert size(unit, "hanging_strip")[1] == 3 + F("7/8")
    # White edge, 1 mm, counts: what is sawn is 2 mm narrower than the banded blank.
    assert blank.cut_width.value == 7 - 2 * MM
    assert sorted(banding.edge for banding in blank.bands) == ["bottom", "front"]


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


PANEL = """
sheet bought_ply {{ thick {thick}  stock 48 by 96  grain yes  band birch_edge }}
"""

# Least, most and labelled thickness of unsanded panels: PS 1, Performance Category and Thickness;
# tolerance 1/32 either way up to 13/16 (the same).
CATEGORIES = {
    "1/4": ("0.219", "0.281", "0.225"),
    "3/8": ("0.344", "0.406", "0.354"),
    "1/2": ("0.469", "0.531", "0.483"),
    "5/8": ("0.594", "0.656", "0.609"),
    "23/32": ("0.688", "0.750", "0.703"),
    "3/4": ("0.719", "0.781", "0.734"),
}


@pytest.mark.parametrize("category", CATEGORIES)
def test_a_groove_for_a_panel_takes_the_thickest_that_is_sold_under_its_name(category: str) -> None:
    """PS 1: from 1/32 under its name to 1/32 over. A back's groove is 1/32 wider than its name, so
    it takes the thickest there is (.531 is 1/2 and 1/32, to the third place)."""
    least, most, label = map(F, CATEGORIES[category])
    assert least < label < most
    for limit, exact in ((most, F(category) + F("1/32")), (least, F(category) - F("1/32"))):
        assert abs(limit - exact) < F("0.0006")
    unit = unit_of("door_base 18", shop="backing bought_ply", more=PANEL.format(thick=category))
    groove = next(cut for cut in part(unit, "left_side").cuts if cut.kind == "groove")
    assert groove.box.size("deep") == F(category) + F("1/32") > most - F("0.0006")


@pytest.mark.parametrize("thick", ["0.703", "0.719", "0.734", "0.750", "0.781"])
def test_a_cabinet_closes_at_every_thickness_sold_as_3_4(thick: str) -> None:
    """PS 1, 23/32 and 3/4 (.703 and .734 as labelled, .719 to .781); hardwood plywood of 1/4 and
    up is at most 3/64 under its name (ANSI/HPVA HP-1, from memory): .703125."""
    assert F("3/4") - F("3/64") == F("0.703125")
    unit = unit_of("drawer_base 24", shop="case bought_ply", more=PANEL.format(thick=thick))
    board = F(thick)
    assert part(unit, "floor").box.size("across") == 24 - 2 * board
    openings = [each.up.high.value - each.up.low.value for each in unit.openings]
    assert sum(openings) + 4 * board == F("69/2") - 4


def test_what_is_trimmed_takes_a_sheet_out_of_square_off() -> None:
    """PS 1-19: 1/16 short at most, and 1/64 out of square for each foot of the longest edge: 1/8 on
    a sheet of 4 by 8. HP-1 (from memory): 3/32. What is trimmed at each edge is more."""
    job = job_of(kitchen(["door_base 18"]))
    assert job.saw is not None
    out_of_square = 8 * F("1/64")
    assert out_of_square == F("1/8") > F("3/32")
    trims = job.saw.trim
    for edge in (trims.fence, trims.far, trims.near, trims.end):
        assert edge.value >= out_of_square + F("1/16")


def test_the_saw_takes_what_its_blade_is_wide() -> None:
    """Full kerf 1/8: "Standard widths of table saw blades". A panel saw 2.2 to 3.2 mm (from
    memory)."""
    saw = job_of(kitchen(["door_base 18"])).saw
    assert saw is not None
    assert saw.kerf.value == F("1/8")
    unit = unit_of("door_base 450", "metric_frameless", shop="cleated angled", metric=True)
    flat, strip = (part(unit, name) for name in ("flat_strip", "hanging_strip"))
    (blank,) = (each for each in unit.blanks if "hanging_strip" in each.strips)
    kerf = (blank.width.value - flat.width.value - strip.width.value) * INCH
    assert F("2.2") <= kerf <= F("3.2")


# -- the 32 mm system: "What all modular 32mm systems have in common", "32mm Cabinetmaking" -----


def holes(unit: Unit, address: str, use: str) -> list[Hole]:
    return [each for each in part(unit, address).holes if each.use == use]


def places(found: list[Hole], axis: str) -> list[Fraction]:
    return sorted({each.at[each.at_axes.index(axis)].value for each in found})


@pytest.mark.parametrize(
    ("shop", "front"), [("", F(37) * MM), ("fitted inset", F(37) * MM + F("3/4"))]
)
def test_hole_rows(shop: str, front: Fraction) -> None:
    """5 mm holes 32 apart, the first row 37 from the front (and an inset door's thickness more),
    the second a multiple of 32 behind it."""
    unit = unit_of("wall_open 24", shop=shop)
    for side in ("left_side", "right_side"):
        found = holes(unit, side, "pins")
        ups, deeps = places(found, "up"), places(found, "deep")
        assert len(found) == len(ups) * len(deeps)
        assert {each.diameter.value for each in found} == {5 * MM}
        assert {second - first for first, second in pairwise(ups)} == {32 * MM}
        assert deeps[0] == front
        assert ((deeps[1] - deeps[0]) / (32 * MM)).denominator == 1
        assert {each.side for each in found} == {1 if side == "left_side" else -1}


def test_pins_stand_in_holes_and_the_shelf_on_them() -> None:
    """A pin's hole is about 13 mm deep (from memory: 12 here)."""
    unit = unit_of("door_base 18")
    rows = places(holes(unit, "left_side", "pins"), "up")
    pin = part(unit, "door.left_front_pin").box
    assert (pin.up[0] + pin.up[1]) / 2 in rows
    assert part(unit, "door.shelf").box.up[0] == pin.up[1]
    assert {each.depth.value for each in holes(unit, "left_side", "pins")} == {12 * MM}


TWO_FRONTS = """unit two_fronts from base_unit {{
  stack {{
    drawer {front}
    drawer share
  }}
}}"""


@pytest.mark.parametrize("count", [4, 5, 6, 8, 10, 16])
def test_fronts_of_whole_modules(count: int) -> None:
    """n x 32 less the gap of 3: 125, 157, 189, 253, 317, 509 (computed): said as fronts they
    come out as said."""
    expected = {4: 125, 5: 157, 6: 189, 8: 253, 10: 317, 16: 509}[count]
    front = count * 32 - 3
    assert front == expected
    unit = unit_of(
        "two_fronts 600",
        "metric_frameless",
        shop="sizes_are front\n pulled no",
        more=TWO_FRONTS.format(front=front),
        metric=True,
    )
    assert part(unit, "drawer_1.face").length.value == front * MM


NINETEEN = """
sheet nineteen {{ thick 19mm  stock 2070mm by 2800mm  grain none  band white_edge }}
unit two_doors from base_unit {{
  stack {{
    door front {front} hung left
    door share hung left  shelves 1
  }}
}}
"""

SYSTEM = "case nineteen\n toe none\n pulled no\n sizes_are front\n least_door 50"


@pytest.mark.parametrize("count", [15, 20, 22, 24])
def test_rows_begin_as_far_from_the_bottom_as_they_end_from_the_top(count: int) -> None:
    """Half the panel's thickness, 9.5 for 19, is a hole's distance, so that a side is n x 32 + 19:
    499, 659, 723, 787 (computed). The floor covers the first of them; the row begins at the
    second."""
    high = {15: 499, 20: 659, 22: 723, 24: 787}[count]
    assert high == count * 32 + 19
    unit = unit_of(
        f"wall_open 600 high {high}",
        "metric_frameless",
        shop=f"{SYSTEM}\n first_hole 22.5",
        more=NINETEEN.format(front=253),
        metric=True,
    )
    side = part(unit, "left_side").box.up
    ups = places(holes(unit, "left_side", "pins"), "up")
    assert ups[0] - side[0] == side[1] - ups[-1] == (F("9.5") + 32) * MM
    assert len(ups) == count - 1


@pytest.mark.parametrize("count", [8, 10, 12])
def test_an_edge_and_half_its_gap_fall_on_a_hole(count: int) -> None:
    """Face heights n x 32 less the gap, the edge and half the gap on, or midway between, two
    holes."""
    unit = unit_of(
        "two_doors 450 high 723 depth 580",
        "metric_frameless",
        shop=f"{SYSTEM}\n first_hole 22.5\n gap_above 11\n gap_below 11",
        more=NINETEEN.format(front=count * 32 - 3),
        metric=True,
    )
    row = places(holes(unit, "left_side", "pins"), "up")
    for address, heights in (("door_1.face", count), ("door_2.face", 22 - count)):
        face = part(unit, address)
        assert face.length.value == (heights * 32 - 3) * MM
        for edge in (face.box.up[0] - F("1.5") * MM, face.box.up[1] + F("1.5") * MM):
            assert ((edge - row[0]) / (16 * MM)).denominator == 1


def test_cups_stand_equally_from_both_ends_22_5_from_the_edge() -> None:
    """Cup 35 mm, its middle 17.5 + 5 from the edge (from memory), equal from top and bottom."""
    unit = unit_of("door_base 18  hung left")
    face = part(unit, "door.face")
    cups = holes(unit, "door.face", "cup")
    assert {each.diameter.value for each in cups} == {35 * MM}
    assert places(cups, "across") == [face.box.across[0] + F("22.5") * MM]
    low, high = places(cups, "up")
    assert low - face.box.up[0] == face.box.up[1] - high
    right = unit_of("door_base 18  hung right")
    edge = part(right, "door.face").box.across[1]
    assert places(holes(right, "door.face", "cup"), "across") == [edge - F("22.5") * MM]


def test_hinge_plates_have_two_holes_32_apart_on_the_line_of_37() -> None:
    """From memory; the plate's middle is the cup's."""
    unit = unit_of("door_base 18")
    cups = places(holes(unit, "door.face", "cup"), "up")
    plates = holes(unit, "left_side", "plate")
    assert places(plates, "deep") == [37 * MM]
    assert places(plates, "up") == sorted(
        [cup + half for cup in cups for half in (-16 * MM, 16 * MM)]
    )


def test_dowels_are_8_mm_and_three_screws_join_frames() -> None:
    """8 mm construction holes: common practice of the same system."""
    unit = unit_of("drawer_base 24", "face_frame", shop="frame_joint dowelled")
    dowelled = [each for each in unit.joints if each.fixing and each.fixing.hold == "dowel"]
    # Six rail ends, two more for each of the two mid rails' ends counted among them.
    assert len(dowelled) == 2 * 4
    assert {each.fasteners[0].count for each in dowelled} == {2}
    job = job_of(kitchen(["drawer_base 24"], "face_frame", shop="frame_joint dowelled"))
    titles = {row.title for row in buying_list(job, ()).rows}
    assert "dowel, 8 mm by 30 mm" in titles


# -- moisture ----------------------------------------------------------------------------------

TABLE = {
    # Species: change of a flat-sawn and a quarter-sawn board 12 wide from 6 to 12 %. Coefficients:
    # Wood Handbook (FPL-GTR-282), table 13-5; the changes computed from it by equation 13-2.
    "hard_maple": ("0.2542", "0.1188"),
    "soft_maple": ("0.2081", "0.0986"),
    "red_oak": ("0.2657", "0.1138"),
    "white_oak": ("0.2628", "0.1296"),
    "cherry": ("0.1786", "0.0907"),
    "walnut": ("0.1973", "0.1368"),
    "red_alder": ("0.1843", "0.1087"),
    "white_ash": ("0.1973", "0.1217"),
    "beech": ("0.3103", "0.1368"),
    "yellow_birch": ("0.2434", "0.1843"),
    "hickory": ("0.2268", "0.1217"),
    # Of these two the coefficients are from memory: of the fir the tangential one.
    "yellow_poplar": ("0.2081", "0.1138"),
    "white_fir": ("0.1764", "0.0806"),
}


@pytest.mark.parametrize("species", TABLE)
def test_boards_move_as_the_handbook_says(species: str) -> None:
    job = job_of(kitchen(["door_base 18"], "face_frame", shop=f"wood {species}"))
    (wood,) = (each for each in job.materials if each.name == species)
    flat, quartered = (wood.data[word] for word in ("tangential", "radial"))
    assert isinstance(flat, Quantity)
    assert isinstance(quartered, Quantity)
    change = tuple(f"{float(12 * each.value * 6):.4f}" for each in (flat, quartered))
    assert change == TABLE[species]


@pytest.mark.parametrize(
    ("wood", "coefficient"), [("thin_maple", F("0.00353")), ("thin_oak", F("0.00369"))]
)
@pytest.mark.parametrize("made_at", [6, 8, 10])
def test_a_solid_panel_has_room_to_swell(wood: str, coefficient: Fraction, made_at: int) -> None:
    """Equation 13-2: change = width x tangential coefficient x change of moisture. Half of it must
    be free at each side, and no more than 1/32 over."""
    shop = f"made five_piece\n floating solid\n panel_wood {wood}\n made_at {made_at}"
    unit = unit_of("door_base 18", shop=shop)
    panel, left = part(unit, "door.panel"), part(unit, "door.left_stile")
    stiles = part(unit, "door.right_stile").box.across[0] - left.box.across[1]
    between = stiles + 2 * F("3/8")
    room = (between - panel.width.value) / 2
    swells = between * coefficient * (11 - made_at)
    assert swells / 2 <= room <= swells / 2 + F("1/32")


def test_hardwood_is_bought_at_13_16_and_finished_at_3_4() -> None:
    """Wood Handbook, ch. 6: four-quarter rough is 13/16 surfaced on two sides."""
    job = job_of(kitchen(["door_base 18"], "face_frame"))
    (wood,) = (each for each in job.materials if each.name == "hard_maple")
    bought = wood.data["bought"]
    assert isinstance(bought, Quantity)
    assert (bought.value, wood.thick.value) == (F("13/16"), F("3/4"))
    (unit,) = units_of(kitchen(["door_base 18"], "face_frame"))
    assert any('mill the stock to 13/16"' in step.words for step in unit.steps)


def test_brads_of_1_1_2_locate_and_staples_of_1_3_4_hold() -> None:
    """Common practice; held every 4 inches at most, an inch from the ends."""
    unit = unit_of("door_base 18")
    joint = next(each for each in unit.joints if each.first.endswith("floor"))
    assert joint.fixing is not None
    assert [(each.use, each.name) for each in joint.fasteners] == [
        ("locate", "brad"),
        ("hold", "staple"),
    ]
    # 23 deep, less the play of the back's groove: 21 - 1/64 between the end ones, six spaces.
    assert joint.fasteners[1].count == 7
    assert joint.fasteners[1].spacing == (23 - F("1/64") - 2 * 1) / 6 <= 4


WOODS = {
    "red_alder": ("1.38", "0.41"),
    "white_ash": ("1.74", "0.60"),
    "beech": ("1.72", "0.64"),
    "yellow_birch": ("2.01", "0.62"),
    "cherry": ("1.49", "0.50"),
    "soft_maple": ("1.64", "0.54"),
    "hickory": ("1.73", "0.66"),
    "red_oak": ("1.82", "0.63"),
    "hard_maple": ("1.83", "0.63"),
    "white_oak": ("1.78", "0.68"),
    "walnut": ("1.68", "0.55"),
    "yellow_poplar": ("1.58", "0.42"),
}
"""Millions of pounds a square inch and specific gravity, both at 12 % moisture: Wood Handbook
(FPL-GTR-282), table 5-3b; the last four from memory."""


@pytest.mark.parametrize("wood", WOODS)
def test_stiffness_and_weight_of_woods(wood: str) -> None:
    """A pound a cubic foot: specific gravity x 62.4 x 1.12 (Wood Handbook, ch. 4: mass and volume
    at 12 % moisture)."""
    stiff, gravity = (F(words) for words in WOODS[wood])
    unit = unit_of("wall_open 24", "face_frame", shop=f"wood {wood}")
    data = part(unit, "left_stile").material.data
    modulus, density = data["modulus"], data["density"]
    assert isinstance(modulus, Quantity)
    assert isinstance(density, Quantity)
    assert modulus.value == stiff * 1_000_000
    assert density.value == round(gravity * F("62.4") * F("1.12"))
