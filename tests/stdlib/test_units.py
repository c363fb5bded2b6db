"""The units of the library: none is another under two names, and each takes every option."""

from fractions import Fraction

import pytest

from casewright.compiler.model import Axis, Opening, Unit
from tests.stdlib.kitchens import check_whole, compiled, job_of, kitchen, program_of, units_of
from tests.stdlib.sizes import CONSTRUCTIONS, METRIC, USUAL, lines

BARE = ("end_panel", "tall_panel")


def test_no_unit_of_the_library_is_left_out_here() -> None:
    program = program_of(kitchen(lines(USUAL)))
    open_ones = {
        name
        for name in program.names("unit")
        if (found := program.find("unit", name)) is not None
        and any(line.rule in ("stack", "row") for line in found.statement.body)
    }
    assert open_ones == set(USUAL) == set(METRIC)


Shape = tuple[tuple[str, ...], tuple[str, ...], tuple[str, ...]]


def shape(unit: Unit) -> Shape:
    """What makes one unit another: its openings by what fills them and how they lie to one another,
    and the names of its parts."""
    openings = unit.openings

    def order(axis: Axis) -> tuple[str, ...]:
        by_place = sorted(openings, key=lambda each: (each_extent(each, axis), each.address))
        return tuple(each.filling for each in by_place)

    def each_extent(opening: Opening, axis: Axis) -> Fraction:
        extent = opening.across if axis == "across" else opening.up
        return extent.low.value

    return order("across"), order("up"), tuple(sorted(part.path for part in unit.parts))


@pytest.mark.parametrize("built", CONSTRUCTIONS)
def test_no_two_units_of_the_library_are_one_under_two_names(built: str) -> None:
    sized = lines(dict.fromkeys(USUAL, "24")) + [f"{name} 3/4" for name in BARE]
    found: dict[Shape, list[str]] = {}
    for unit in units_of(kitchen(sized, built, shop="ends birch_ply")):
        found.setdefault(shape(unit), []).append(unit.name)
    # A tall panel is an end panel, only higher: one unit, not two.
    assert [names for names in found.values() if len(names) > 1] == [list(BARE)]
    assert len(found) == len(USUAL) + 1


OPTIONS = (
    "backed applied",
    "cleated angled",
    "cleated angled\n backed applied",
    "toe notched",
    "toe legs",
    "ended applied\n shown both",
    "shown left\n ends birch_ply",
    "fitted inset",
    "made five_piece",
    "fitted inset\n made five_piece\n runner undermount",
    "cornered dado\n tray_step 1",
    "cornered dovetail\n runner undermount",
    "runner heavy_side_mount\n pulled no",
    "case thin_birch_ply\n topped full",
    "sizes_are front\n case white_melamine_18",
)

VARIED = ("drawer_door_base", "cooktop_base", "wall_unit")
"""Units in which everything stands that an option changes."""

FRAMES = (
    "flush both\n frame_joint dowelled",
    "frame_joint tenoned",
    "frame_joint tenoned\n fitted inset",
    "stile 2\n rail 2\n overlay 3",
    "proud 1/2\n flush left\n toe notched",
)


@pytest.mark.parametrize(
    ("built", "shop"),
    [
        *((built, shop) for built in CONSTRUCTIONS for shop in OPTIONS),
        *(("face_frame", shop) for shop in FRAMES),
    ],
)
def test_units_take_every_option(built: str, shop: str) -> None:
    for unit in units_of(kitchen(lines({name: USUAL[name] for name in VARIED}), built, shop=shop)):
        check_whole(unit)


@pytest.mark.parametrize("built", CONSTRUCTIONS)
def test_bare_panels_stand_by_themselves(built: str) -> None:
    units = units_of(kitchen([f"{name} 3/4" for name in BARE], built, shop="ends birch_ply"))
    assert [[part.address for part in unit.parts] for unit in units] == [["panel"], ["panel"]]
    assert [unit.height.value for unit in units] == [Fraction(69, 2), 84]


def test_a_filler_beside_a_frameless_unit_is_a_strip_and_beside_a_framed_one_a_wider_stile() -> (
    None
):
    text = """measure in inches
use std edition 1
job Trial {{
  revision 1
  built    {built}
}}
room trial {{
  ceiling 96
  counter 36 thick 1 1/2
  wall north length 21
}}
run trials on north from left {{
  filler 3
  S1: door_base 18
}}
"""
    plain, framed = (job_of(text.format(built=built)) for built in CONSTRUCTIONS)
    (strip,) = (placed.unit for placed in plain.placed if placed.kind == "filler")
    assert strip is not None
    assert [part.address for part in strip.parts] == ["strip"]
    assert [placed.unit for placed in framed.placed if placed.kind == "filler"] == [None]


def test_shelf_pins_keep_clear_of_hinge_plates_at_any_height() -> None:
    heights = [f"wall_door 18 high {high}" for high in range(18, 42, 2)]
    found = compiled(kitchen(heights)).findings
    assert [each.headline for each in found if each.slug == "holes-meet"] == []
