"""Every unit of the library in every construction, inch and metric, at all its sizes."""

from collections import Counter
from fractions import Fraction

import pytest

from casewright.compiler.model import Axis, Opening, Unit
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

PAIRED = (
    "pair_base",
    "drawer_pair_base",
    "sink_base",
    "wall_unit",
    "wall_hood",
    "pantry",
    "oven_tall",
)
"""Those with two doors side by side."""

SINGLE = ("door_base", "drawer_door_base", "wall_door")
"""Those with one door as wide as the unit."""

DRAWN = ("drawer_base", "drawer_bank", "drawer_door_base", "cooktop_base")

# Two doors share what is between the sides in whole millimetres, so an odd width makes one of them
# half a millimetre narrower, the other wider.

METRIC_SMALLEST = {
    # A floor of 6 in between sides of 18: 152.4 + 2 x 18. Two doors of 125: 2 x 125 + 3 x 3 = 259.
    "metric_frameless": dict.fromkeys(METRIC, "188.4") | dict.fromkeys(PAIRED, "260"),
    # The box is 6 narrower at each side: 152.4 + 2 x (18 + 6). A drawer box of 100 with 13.1 at
    # each side and two stiles: 100 + 26.2 + 2 x 40. Two doors that lap 12: 2 x 125 + 3 - 24 + 80
    # = 309.
    "metric_face_frame": dict.fromkeys(METRIC, "200.4")
    | dict.fromkeys(DRAWN, "206.2")
    | dict.fromkeys(PAIRED, "310"),
}

METRIC_LARGEST = {
    # A door is 600 wide at most: 600 + 2 x 3; two: 2 x 600 + 3 x 3 = 1209.
    "metric_frameless": dict.fromkeys(METRIC, "1200")
    | dict.fromkeys(SINGLE, "606")
    | dict.fromkeys(PAIRED, "1208"),
    # 600 - 24 + 80; two: 2 x 600 + 3 - 24 + 80 = 1259.
    "metric_face_frame": dict.fromkeys(METRIC, "1200")
    | dict.fromkeys(SINGLE, "656")
    | dict.fromkeys(PAIRED, "1258"),
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


def metric_lines(widths: dict[str, str], more: Fraction = Fraction(0)) -> list[str]:
    """Metric units so wide, as high as they usually are."""
    found = []
    for name, width in widths.items():
        _, *high = METRIC[name].split()
        found.append(" ".join((name, f"{float(Fraction(width) + more):g}", *high)))
    return found


@pytest.mark.parametrize("built", ["metric_frameless", "metric_face_frame"])
@pytest.mark.parametrize(
    ("sizes", "past"),
    [(METRIC_SMALLEST, Fraction(-1)), (METRIC_LARGEST, Fraction(1))],
    ids=["smallest", "largest"],
)
def test_every_unit_builds_in_millimetres_at_its_limits_and_no_further(
    built: str, sizes: dict[str, dict[str, str]], past: Fraction
) -> None:
    units = units_of(kitchen(metric_lines(sizes[built]), built, metric=True))
    assert [unit.name for unit in units] == list(METRIC)
    for unit in units:
        check_whole(unit)
    limited = {name: width for name, width in sizes[built].items() if width != "1200"}
    found = compiled(kitchen(metric_lines(limited, past), built, metric=True)).findings
    for number, name in enumerate(limited, 1):
        said = [finding.slug for finding in found if f"S{number}" in finding.tags]
        assert said == ["requirement-not-met"], name


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


MADE_WRONG = {
    "fastener-comes-through",
    "fastener-shows",
    "groove-too-deep",
    "hole-near-edge",
    "hole-too-deep",
    "holes-meet",
    "too-few-hinges",
}
"""What a check says of how a unit is made; its load, its weight and its stock are the job's."""

KITCHENS = [
    *(
        (built, widths, False)
        for built in CONSTRUCTIONS
        for widths in (USUAL, SMALLEST[built], LARGEST[built])
    ),
    *(
        (built, widths, True)
        for built in ("metric_frameless", "metric_face_frame")
        for widths in (METRIC, METRIC_SMALLEST[built], METRIC_LARGEST[built])
    ),
]


@pytest.mark.parametrize(("built", "widths", "metric"), KITCHENS)
def test_no_check_finds_a_unit_of_the_library_made_wrong(
    built: str, widths: dict[str, str], metric: bool
) -> None:
    sized = metric_lines(widths) if metric and widths is not METRIC else lines(widths)
    found = compiled(kitchen(sized, built, metric=metric)).findings
    told = {(finding.slug, finding.headline) for finding in found if finding.slug in MADE_WRONG}
    assert told == set()


def test_shelf_pins_keep_clear_of_hinge_plates_at_any_height() -> None:
    heights = [f"wall_door 18 high {high}" for high in range(18, 42, 2)]
    found = compiled(kitchen(heights)).findings
    assert [each.headline for each in found if each.slug == "holes-meet"] == []
