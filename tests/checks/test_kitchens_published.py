"""More rule packs of the library, held against the figures of their sources: at the limit nothing
is reported, a little past it the miss is. Every kitchen is read by `check`."""

from fractions import Fraction

import pytest

from casewright.lang.findings import Severity
from tests.checks.reading import figure, findings, job, source
from tests.checks.test_rules_published import PLANNING, SINK, galley_of, hung, missed, row

FRIDGE, RANGE = "fridge 36", "range 30"
OVEN = "appliance oven { wide 30  high 34 1/2  depth 24  serves baking  confirmed  handle 2 }\n"


# Kitchen & Bathroom Planning Guidelines with Access Standards, 2nd ed., 2016. Guideline 4: nothing
# tall between two centres; 11: 15 from the corner to the middle of a sink; 12: 36 of counter in one
# piece beside a sink; 23: 15 beside an oven.
@source("planning guidelines 4 to 23")
@pytest.mark.parametrize(
    ("slug", "runs", "measured"),
    [
        ("tall-between-centres-ruled", row(SINK, FRIDGE, "tall_unit 20  hung left"), None),
        ("tall-between-centres-ruled", row(SINK, "tall_unit 20  hung left", FRIDGE), "1"),
        ("sink-centre-near-corner-ruled", row("space 3", "sink_base 24  hung left"), None),
        ("sink-centre-near-corner-ruled", row("space 2", "sink_base 24  hung left"), "14"),
        ("preparation-ruled", row("open_base 20", SINK, "open_base 36"), None),
        ("preparation-ruled", row("open_base 20", SINK, "open_base 35"), "35"),
        ("oven-landing-ruled", OVEN + row("oven 30", "open_base 15"), None),
        ("oven-landing-ruled", OVEN + row("oven 30", "open_base 14"), "14"),
    ],
)
def test_more_planning_guidelines(slug: str, runs: str, measured: str | None) -> None:
    found = missed(PLANNING, slug, runs)
    if measured is None:
        assert found == ()
        return
    (told,) = found
    assert figure(told, "measured") == Fraction(measured)
    assert told.severity is Severity.ADVICE
    assert "(recommended)" in told.headline


# Guideline 13: 21 between a dishwasher's edge and what stands at a right angle to it.
@source("planning guideline 13")
@pytest.mark.parametrize(("beside", "ruled"), [("21", False), ("20 7/8", True)])
def test_standing_beside_a_dishwasher(beside: str, ruled: bool) -> None:
    text = (
        job(rules=PLANNING)
        + "use std_rules\n"
        + f"""
room galley {{
  floor   finished
  ceiling 120
  counter 36 thick 1 1/2
  wall west  length 100
  wall north length 120
}}
run around on west from right length 70 {{ W1: open_base share }}
run low on north from left after W1 length 60 {{
  S1: open_base {beside}
  S2: dishwasher 24  confirmed
  space share
}}
"""
    )
    assert bool(findings(text, "dishwasher-standing-ruled")) is ruled


# Guideline 3: each leg of the work triangle 48 to 108, the three together 312 at most. On one wall
# a leg runs from middle to middle: half of 33, what stands between, half of 30. The fronts of all
# three are 23 5/8 from the wall.
FLUSH = """
appliance stove  { wide 30  high 36  depth 23 5/8  serves cooking  confirmed  handle 2 }
appliance larder { wide 36  high 70  depth 23 5/8  serves cold     confirmed  handle 2 }
"""


@source("planning guideline 3")
@pytest.mark.parametrize(
    ("between", "ruled"),
    [
        ("open_base 16 1/2", False),  # 48
        ("open_base 16 3/8", True),
        ("open_base 76 1/2", False),  # 108
        ("open_base 76 5/8", True),
    ],
)
def test_the_legs_of_the_work_triangle(between: str, ruled: bool) -> None:
    runs = FLUSH + row(SINK, between, "stove 30")
    assert bool(missed(PLANNING, "work-leg-ruled", runs)) is ruled


@source("planning guideline 3")
@pytest.mark.parametrize(("far", "ruled"), [("87", False), ("87 1/8", True)])
def test_the_work_triangle(far: str, ruled: bool) -> None:
    """From sink to fridge and back is twice the longest leg: 156 are half of 312. Half of 33, 33,
    30, what is between and half of 36 make it: 16 1/2 + 4 1/2 + 30 + 87 + 18."""
    runs = FLUSH + row(SINK, "open_base 4 1/2", "stove 30", f"open_base {far}", "larder 36")
    assert bool(missed(PLANNING, "work-triangle-ruled", runs)) is ruled


# Guideline 1: an entry 32 clear; 20: no window over a cooking surface.
@source("planning guidelines 1 and 20")
@pytest.mark.parametrize(
    ("slug", "wall", "ruled"),
    [
        ("doorway-width-ruled", "    doorway at 200 wide 32 up 0 high 80", False),
        ("doorway-width-ruled", "    doorway at 200 wide 31 7/8 up 0 high 80", True),
        ("window-over-cooking-ruled", "    window at 30 wide 30 up 44 high 40", False),
        ("window-over-cooking-ruled", "    window at 29 7/8 wide 30 up 44 high 40", True),
    ],
)
def test_entries_and_windows(slug: str, wall: str, ruled: bool) -> None:
    runs = row(RANGE, "open_base 40", length="70")
    assert bool(missed(PLANNING, slug, runs, wall=wall)) is ruled


# Guideline 27: 1,400 small, 1,700 medium, 2,000 large; 28: 400, 480, 560 within 72 of the sink. A
# cabinet 24 wide and 2 feet deep with two shelves counts 96 (formula from memory).
@source("planning guidelines 27 and 28")
@pytest.mark.parametrize(
    ("rules", "slug", "least"),
    [
        (PLANNING, "storage-ruled", 1400),
        ("planning_2016_medium", "storage-ruled", 1700),
        ("planning_2016_large", "storage-ruled", 2000),
        (PLANNING, "storage-near-sink-ruled", 400),
        ("planning_2016_medium", "storage-near-sink-ruled", 480),
        ("planning_2016_large", "storage-near-sink-ruled", 560),
    ],
)
def test_storage_by_the_size_of_the_kitchen(rules: str, slug: str, least: int) -> None:
    (told,) = missed(rules, slug, row(SINK, "open_base 24  depth 24  shelves 1"))
    assert figure(told, "the least") == least
    sink = 33 * Fraction(189, 8) / 12
    assert figure(told, "measured") == 96 + sink
    assert "from memory" in told.help


def knees(rail: str, out: str, wide: str = "60", counter: str = "34") -> str:
    """An open table with a rail at a height and a depth from the front."""
    return (
        job(rules="accessible_2010")
        + "use std_rules\n"
        + f"""
room galley {{
  floor   finished
  ceiling 120
  counter {counter} thick 1 1/2
  wall north length 300
}}
unit table bare  serves base_unit {{
  high  room.counter - room.counter_thick
  depth 24
  part left_side of ply  across from left  grain up  serves side
  part right_side mirrors left_side
  part rail of ply  across left_side .. right_side  up 2 from {rail}  deep from front + {out}
  join rail to left_side right_side with screwed
  step left_side rail right_side
}}
run low on north from left length {wide} {{ S1: table share }}
"""
    )


# 2010 ADA Standards, 306.3.3: a knee space is 11 deep at 9 high and 8 at 27; 306.3.4: it may lose 1
# of depth in 6 of height, so 10 at 15 and 9 at 21. A rail lower than 27 is in it, one above isn't.
@source("ADA 2010, 306.3")
@pytest.mark.parametrize(
    ("up", "least"), [("9", "11"), ("15", "10"), ("21", "9"), ("18", "9 1/2"), ("26", "8 1/6")]
)
def test_the_taper_of_a_knee_space(up: str, least: str) -> None:
    least = least if "/6" not in least else "8 + 1/6"
    assert findings(knees(f"bottom + {up}", least), "knee-depth-ruled") == ()
    (told,) = findings(knees(f"bottom + {up}", f"{least} - 1/8"), "knee-depth-ruled")
    assert figure(told, "measured") == Fraction(1, 8)


@source("ADA 2010, 306.3")
def test_what_is_above_the_knees_is_free() -> None:
    assert findings(knees("bottom + 27", "1"), "knee-depth-ruled") == ()
    assert findings(knees("bottom + 26 7/8", "1"), "knee-depth-ruled") != ()


# The same, 306.3.5: 30 wide; 306.3.1: 27 high (the counter here is 1 1/2 thick); the sides of the
# table are 3/4.
@source("ADA 2010, 306.3")
@pytest.mark.parametrize(
    ("slug", "wide", "counter", "ruled"),
    [
        ("knee-width-ruled", "31 1/2", "34", False),
        ("knee-width-ruled", "31 3/8", "34", True),
        ("knee-height-ruled", "60", "28 1/2", False),
        ("knee-height-ruled", "60", "28 3/8", True),
    ],
)
def test_the_size_of_a_knee_space(slug: str, wide: str, counter: str, ruled: bool) -> None:
    text = knees("bottom + 2", "20", wide, counter)
    assert bool(findings(text, slug)) is ruled


# California Building Code, 1133A.2: 48 between the sides of a kitchen, 60 where it is closed. HUD
# Minimum Property Standards, 1980: 40 between opposing counters.
@pytest.mark.parametrize(("rules", "limit"), [("adaptable_california", 48), ("housing_1980", 40)])
@source("CBC 1133A.2; HUD MPS 1980")
def test_passages_of_two_codes(rules: str, limit: int) -> None:
    head = job(rules=rules) + "use std_rules\n"
    assert findings(head + galley_of(str(limit)), "aisle-ruled") == ()
    (told,) = findings(head + galley_of(f"{limit} - 1/8"), "aisle-ruled")
    assert figure(told, "the least") == limit
    assert "(code text)" in told.headline


# FHA Minimum Property Standards, rev. July 1959: a shelf no higher than 74 and 4 to 18 deep. A
# wall unit 18 high, its shelf in the middle: 3/4 + (18 - 3/4) / 2 + 3/4 over its underside.
@source("FHA 1959, shelves")
@pytest.mark.parametrize(
    ("slug", "unit", "up", "ruled"),
    [
        ("shelf-highest-ruled", "shelves 1", "63 7/8", False),
        ("shelf-highest-ruled", "shelves 1", "64", True),
        ("upper-depth-ruled", "depth 18", "54", False),
        ("upper-depth-ruled", "depth 18 1/8", "54", True),
    ],
)
def test_shelves_of_1959(slug: str, unit: str, up: str, ruled: bool) -> None:
    runs = hung(up, "0").replace("hung left", f"hung left  {unit}")
    assert bool(missed("housing_1959", slug, runs)) is ruled


# Hoods: 24 to a metal hood (Uniform Mechanical Code, 1998, 906.1), 24 protected (FHA, 1959), 600 mm
# and 750 mm to what can burn (Ontario Building Code). The range is 36 high.
@source("hoods: UMC 906.1, FHA 1959, Ontario Building Code")
@pytest.mark.parametrize(
    ("rules", "slug", "over"),
    [
        ("cooking_top", "hood-over-cooking-ruled", "24"),
        ("housing_1959", "hood-over-cooking-ruled", "24"),
        ("cooking_top_ontario", "hood-over-cooking-ruled", "600mm"),
        ("cooking_top_ontario", "over-cooking-ruled", "750mm"),
    ],
)
def test_over_a_cooking_top(rules: str, slug: str, over: str) -> None:
    holds = "  holds hood" if slug.startswith("hood") else ""
    for up, ruled in ((f"36 + {over}", False), (f"36 + {over} - 1/16", True)):
        runs = row(RANGE, length="30") + hung(up, "0").replace("hung left", f"hung left{holds}")
        found = missed(rules, slug, runs)
        assert bool(found) is ruled
        assert all(each.severity is Severity.ERROR for each in found)


# Architectural Woodwork Standards, 1st ed., 2009, section 10, 4.4.18: anchor strips 1/2 by 2 1/2.
@source("AWS 2009, 4.4.18")
@pytest.mark.parametrize(
    ("slug", "unit", "ruled"),
    [
        ("rail-height-ruled", "cleat_high 2 1/2", False),
        ("rail-height-ruled", "cleat_high 2 3/8", True),
        ("rail-thickness-ruled", "case half", False),
        ("rail-thickness-ruled", "case thin", True),
    ],
)
def test_what_a_cabinet_hangs_by(slug: str, unit: str, ruled: bool) -> None:
    sheets = "".join(
        f"sheet {name} {{ thick {thick}  stock 48 by 96  grain none  density 40 }}\n"
        for name, thick in (("half", "1/2"), ("thin", "15/32"))
    )
    runs = sheets + hung("54", "0").replace("hung left", f"hung left  {unit}")
    assert bool(missed("casework_2009", slug, runs)) is ruled


# EN 1116: a plinth of 100 mm or more; units on the wall no deeper than 400 mm.
@source("EN 1116")
@pytest.mark.parametrize(
    ("slug", "runs", "ruled"),
    [
        ("toe-height-ruled", row("open_base 30  toe_up 100mm", length="30"), False),
        ("toe-height-ruled", row("open_base 30  toe_up 99mm", length="30"), True),
        ("upper-depth-ruled", hung("54", "0").replace("hung left", "depth 400mm"), False),
        ("upper-depth-ruled", hung("54", "0").replace("hung left", "depth 401mm"), True),
    ],
)
def test_european_sizes(slug: str, runs: str, ruled: bool) -> None:
    assert bool(missed("kitchens_1116", slug, runs)) is ruled
