"""Published figures of sheets, bands and the saw, each out of a kitchen that was built.

Sources stand at each test: title and section for what was printed, `common practice` for what shops
do, `from memory` for what no page was at hand for.
"""

from fractions import Fraction

import pytest

from casewright.lang.cells import Quantity
from casewright.lang.measure import INCH
from tests.stdlib.kitchens import job_of, kitchen, part, size, unit_of

F = Fraction
MM = 1 / INCH


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
