"""Every unit of the library in every construction, inch and metric, at all its sizes."""

from collections import Counter
from fractions import Fraction

import pytest

from casewright.compiler.model import Unit
from casewright.lang.measure import INCH, length
from casewright.lang.printing import Printing, in_words
from tests.stdlib.kitchens import compiled, job_of, kitchen, program_of, units_of

USUAL = {
    "drawer_base": "24",
    "drawer_bank": "24",
    "door_base": "18",
    "pair_base": "30",
    "drawer_door_base": "18",
    "drawer_pair_base": "30",
    "sink_base": "36",
    "cooktop_base": "36",
    "open_base": "24",
    "wall_unit": "30",
    "wall_door": "18",
    "wall_open": "24",
    "wall_hood": "30",
    "pantry": "30",
    "oven_tall": "33",
}
"""The units that have openings, and how wide they usually are (common practice)."""

SMALLEST = {
    # Between two sides of 3/4: 6 + 2 x 3/4; two doors of 5 and their gaps: 2 x 5 + 3 x 1/8.
    "frameless": dict.fromkeys(USUAL, "7 1/2")
    | dict.fromkeys(
        ("pair_base", "drawer_pair_base", "sink_base", "wall_unit", "wall_hood"), "10 3/8"
    )
    | dict.fromkeys(("pantry", "oven_tall"), "10 3/8"),
    # The box is 1/4 narrower at each side: 6 + 2 x (3/4 + 1/4); a drawer box of 4, 1 1/32 for its
    # slides and two stiles: 4 + 1 1/32 + 2 x 1 1/2; two doors of 5 that lap the stiles 1/2 and
    # leave 1/8: 2 x 5 + 1/8 - 2 x 1/2 + 2 x 1 1/2.
    "face_frame": dict.fromkeys(USUAL, "8")
    | dict.fromkeys(("drawer_base", "drawer_bank", "drawer_door_base", "cooktop_base"), "8 1/32")
    | dict.fromkeys(
        ("pair_base", "drawer_pair_base", "sink_base", "wall_unit", "wall_hood"), "12 1/8"
    )
    | dict.fromkeys(("pantry", "oven_tall"), "12 1/8"),
}

LARGEST = {
    # A door is 24 wide at most: with its gaps, and for two of them with the gap between.
    "frameless": dict.fromkeys(USUAL, "48")
    | dict.fromkeys(("door_base", "drawer_door_base", "wall_door"), "24 1/4")
    | dict.fromkeys(("pair_base", "drawer_pair_base", "sink_base"), "48 3/8")
    | dict.fromkeys(("wall_unit", "wall_hood", "pantry", "oven_tall"), "48 3/8"),
    "face_frame": dict.fromkeys(USUAL, "48")
    | dict.fromkeys(("door_base", "drawer_door_base", "wall_door"), "26")
    | dict.fromkeys(("pair_base", "drawer_pair_base", "sink_base"), "50 1/8")
    | dict.fromkeys(("wall_unit", "wall_hood", "pantry", "oven_tall"), "50 1/8"),
}

METRIC = {
    "drawer_base": "600",
    "drawer_bank": "600",
    "door_base": "450",
    "pair_base": "800",
    "drawer_door_base": "450",
    "drawer_pair_base": "800",
    "sink_base": "900",
    "cooktop_base": "900",
    "open_base": "600",
    "wall_unit": "800 high 720",
    "wall_door": "450 high 720",
    "wall_open": "600 high 720",
    "wall_hood": "800 high 450",
    "pantry": "800 high 2100",
    "oven_tall": "600 high 2100",
}

BARE = ("end_panel", "tall_panel")

CONSTRUCTIONS = ("frameless", "face_frame")


def lines(widths: dict[str, str]) -> list[str]:
    return [f"{name} {width}" for name, width in widths.items()]


def written(value: Fraction) -> str:
    """A length as a kitchen writes it."""
    return in_words(length(value), Printing()).removesuffix('"')


def less(width: str) -> str:
    return written(sum((Fraction(word) for word in width.split()), Fraction(0)) - Fraction(1, 32))


def test_no_unit_of_the_library_is_left_out_here() -> None:
    program = program_of(kitchen(lines(USUAL)))
    open_ones = {
        name
        for name in program.names("unit")
        if (found := program.find("unit", name)) is not None
        and any(line.rule in ("stack", "row") for line in found.statement.body)
    }
    assert open_ones == set(USUAL) == set(METRIC)


@pytest.mark.parametrize("built", CONSTRUCTIONS)
@pytest.mark.parametrize("widths", [USUAL, SMALLEST, LARGEST], ids=["usual", "smallest", "largest"])
def test_every_unit_builds_without_a_finding(
    built: str, widths: dict[str, str] | dict[str, dict[str, str]]
) -> None:
    sized = {name: str(width) for name, width in (widths.get(built) or widths).items()}  # type: ignore[union-attr]
    units = units_of(kitchen(lines(sized), built))
    assert [unit.name for unit in units] == list(USUAL)
    for unit in units:
        check_whole(unit)


@pytest.mark.parametrize("built", ["metric_frameless", "metric_face_frame"])
@pytest.mark.parametrize("wider", [0, 60], ids=["usual", "wider"])
def test_every_unit_builds_in_millimetres(built: str, wider: int) -> None:
    sized = dict(METRIC)
    if wider:
        for name, width in METRIC.items():
            size, *rest = width.split()
            if name not in ("door_base", "drawer_door_base", "wall_door"):
                sized[name] = " ".join((str(int(size) + wider), *rest))
    units = units_of(kitchen(lines(sized), built, metric=True))
    assert [unit.name for unit in units] == list(METRIC)
    for unit in units:
        check_whole(unit)
        assert (unit.width.value * INCH).denominator == 1


def check_whole(unit: Unit) -> None:
    """All of it is there: openings, parts, joints, and every part in one step."""
    assert unit.openings
    assert unit.joints
    brought = Counter(way.thing for step in unit.steps for way in step.ways)
    paths = [part.path for part in unit.parts]
    assemblies = [each.path for each in unit.assemblies if each.path]
    assert brought == Counter([*paths, *assemblies])
    for step in unit.steps:
        assert all(way.axis for way in step.ways[1:])


@pytest.mark.parametrize("built", CONSTRUCTIONS)
def test_a_thirty_second_less_than_the_smallest_gives_exactly_one_finding(built: str) -> None:
    narrower = {name: less(width) for name, width in SMALLEST[built].items()}
    found = compiled(kitchen(lines(narrower), built)).findings
    for number, name in enumerate(narrower, 1):
        said = [finding.slug for finding in found if f"S{number}" in finding.tags]
        assert said == ["requirement-not-met"], name


@pytest.mark.parametrize("built", CONSTRUCTIONS)
def test_a_thirty_second_more_than_the_largest_gives_exactly_one_finding(built: str) -> None:
    limited = {name: width for name, width in LARGEST[built].items() if width != "48"}
    wider = {
        name: written(sum((Fraction(word) for word in width.split()), Fraction(1, 16)))
        for name, width in limited.items()
    }
    found = compiled(kitchen(lines(wider), built)).findings
    for number, name in enumerate(wider, 1):
        said = [finding.slug for finding in found if f"S{number}" in finding.tags]
        assert said == ["requirement-not-met"], name


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
