"""What units stand on: one base and one skin for each stretch of neighbours that agree."""

from fractions import Fraction

import pytest

from casewright.compiler.model import Placed
from casewright.compiler.papers.lists.cut_list import cut_list_csv
from casewright.compiler.papers.walls import sides
from tests.stdlib.kitchens import bases_of, compiled, findings_of, job_of, kitchen, part, size

F = Fraction

RUN = """measure in inches
use std edition 1
job Trial {{
  revision  1
  precision 1/32
  built     shop
}}
construction shop from {built} {{
{shop}
}}
room trial {{
  ceiling 96
  counter 36 thick 1 1/2
  wall north length 300
}}
run trials on north from left {{
{lines}
  space share
}}
"""


def row(*lines: str, built: str = "frameless", shop: str = "") -> str:
    return RUN.format(built=built, shop=shop, lines="\n".join(f"  {line}" for line in lines))


def laid(*lines: str, built: str = "frameless", shop: str = "") -> list[tuple[str, F, F]]:
    """Where the bases of a run lie: what they are called, where they begin, and how long."""
    found = bases_of(row(*lines, built=built, shop=shop))
    return [(base.address, base.at.value, base.width.value) for base in found]


THREE = ("S1: door_base 18", "S2: drawer_base 24", "S3: sink_base 36")


def test_neighbours_share_one_base_and_one_skin() -> None:
    (base,) = bases_of(row(*THREE))
    assert (base.address, base.kind, base.tag) == ("trials.base_S1", "base", "")
    assert (base.at.value, base.width.value, base.height.value) == (0, 18 + 24 + 36, 4)
    assert base.unit is not None
    assert [each.address for each in base.unit.parts if each.role == "toe"] == ["toe_rail", "skin"]
    assert size(base.unit, "skin") == size(base.unit, "toe_rail") == (78, 4)
    # Crosses no more than 24 apart: 78 in four bays.
    crosses = [each for each in base.unit.parts if "cross" in each.address]
    places = sorted(each.box.across[0] for each in crosses)
    assert len(crosses) == 5
    gaps = (places[index + 1] - places[index] for index in range(4))
    assert all(gap <= 24 for gap in gaps)


def test_its_toe_is_set_back_from_the_face_and_its_back_is_the_units() -> None:
    (base,) = bases_of(row("S1: door_base 18"))
    assert base.unit is not None
    assert part(base.unit, "skin").box.deep == (3, 3 + F("1/4"))
    assert part(base.unit, "toe_rail").box.deep == (3 + F("1/4"), 4)
    assert part(base.unit, "back_rail").box.deep[1] == 24


def test_a_stretch_is_cut_where_two_units_meet_before_it_is_longer_than_a_sheet_gives() -> None:
    # 36 and 36 are 72; a third would make 108, and 92 is the most.
    assert laid(*(f"S{number}: drawer_base 36" for number in range(1, 6))) == [
        ("trials.base_S1", 0, 72),
        ("trials.base_S3", 72, 72),
        ("trials.base_S5", 144, 36),
    ]
    assert laid("S1: drawer_base 46", "S2: drawer_base 46") == [("trials.base_S1", 0, 92)]
    assert len(laid("S1: drawer_base 46", "S2: drawer_base 46 1/32")) == 2


@pytest.mark.parametrize(
    "between",
    ["D1: dishwasher 24", "space 24", "P1: end_panel 3/4", "filler 3", "S9: wall_unit 24  up 50"],
)
def test_what_needs_no_base_parts_a_stretch(between: str) -> None:
    assert len(laid("S1: door_base 18", between, "S2: door_base 18", shop="ends birch_ply")) == 2


@pytest.mark.parametrize(
    "other", ["toe_up 4 1/2", "toe_back 2", "toe_board maple_ply", "depth 21", "toe notched"]
)
def test_units_that_differ_in_their_toes_stand_on_bases_of_their_own(other: str) -> None:
    found = bases_of(row("S1: door_base 18", f"S2: door_base 18  {other}"))
    assert [each.width.value for each in found] == ([18] if other == "toe notched" else [18, 18])


def test_what_is_said_of_a_unit_is_said_of_the_base_it_begins() -> None:
    line = "door_base 18  toe_up 5  toe_board maple_ply"
    (base,) = bases_of(row(f"S1: {line}", f"S2: {line}"))
    assert base.unit is not None
    rail = part(base.unit, "toe_rail")
    assert (rail.material.name, rail.width.value, rail.length.value) == ("maple_ply", 5, 36)


def test_a_finished_end_to_the_floor_stands_beside_the_base() -> None:
    shop = "ended applied\n ends birch_ply"
    (found,) = laid("space 6", "S1: door_base 18", "S2: door_base 18", shop=shop)
    assert found == ("trials.base_S1", 6 + F("3/4"), 36 - 2 * F("3/4"))
    parted = laid("S1: door_base 18", "S2: door_base 18  shown left", shop=shop)
    assert [width for _, _, width in parted] == [18, 18 - 2 * F("3/4")]


def test_behind_frames_that_stand_proud_the_base_is_as_long_as_the_boxes() -> None:
    (found,) = bases_of(row(*THREE, built="face_frame"))
    assert (found.at.value, found.width.value) == (F("1/4"), 78 - 2 * F("1/4"))
    # The floors' tops are the bottom rails': 4 + 1 1/2 less the floor's 3/4.
    assert found.height.value == 4 + F("3/2") - F("3/4")


def test_the_skin_goes_on_under_a_filler() -> None:
    for built in ("frameless", "face_frame"):
        (base,) = bases_of(row("filler 3", "S1: door_base 18", "filler 2", built=built))
        assert base.unit is not None
        skin = part(base.unit, "skin").box.across
        assert (base.at.value + skin[0], base.at.value + skin[1]) == (0, 3 + 18 + 2)


def test_legs_have_a_skin_before_them_and_no_ladder() -> None:
    (base,) = bases_of(row("S1: door_base 18", "S2: door_base 18", shop="toe legs"))
    assert base.unit is not None
    assert [each.address for each in base.unit.parts] == ["skin"]


@pytest.mark.parametrize("shop", ["toe notched", "toe none", "toe_up 0"])
def test_units_that_reach_the_floor_have_none(shop: str) -> None:
    assert laid(*THREE, shop=shop) == []


def test_wall_units_have_none() -> None:
    assert laid("U1: wall_unit 30") == []


def test_every_unit_on_a_ladder_stands_on_one_base() -> None:
    job = job_of(row(*THREE, "D1: dishwasher 24", "S4: drawer_base 36", built="face_frame"))
    (run,) = job.runs

    def under(placed: Placed) -> str:
        base = run.base_under(placed)
        return base.address if base is not None else ""

    found = {each.address: under(each) for each in run.placed if each.kind != "space"}
    assert found == {
        "S1": "trials.base_S1",
        "S2": "trials.base_S1",
        "S3": "trials.base_S1",
        "D1": "",
        "S4": "trials.base_S4",
    }


def test_bases_are_cut_and_drawn_with_what_they_carry() -> None:
    job = job_of(row(*THREE))
    listed = [line for line in cut_list_csv(job).splitlines() if "trials base S1" in line]
    assert len(listed) == 3  # two rails; crosses; the skin
    (side,) = sides(job)
    assert [(each.holder, each.left) for each in side.bases] == [("trials.base_S1", 0)]
    assert "trials.base_S1" not in [each.holder for each in side.things]


def test_a_floor_lies_on_the_rails_of_its_base() -> None:
    """Common practice: it needs no more under it. On legs it hangs between its sides, and is of
    a stiffer board; of this one it would sag."""
    wide = "open_base 40"
    soft = "toe legs\n stiff_board white_melamine"
    for shop, sags in (("", False), ("toe legs", False), (soft, True)):
        found = findings_of(wide, shop=shop)
        assert ("floor-sags" in [finding.slug for finding in found]) is sags


OWN = """
unit ladder_base  bare  serves base {{
  spans  toe toe_{word}  at most {most}
  part plinth of toe_board  deep from front + toe_back  grain across  serves toe
  step plinth
}}
"""


def test_a_shop_has_a_base_of_its_own() -> None:
    text = row(*THREE).replace("room trial", OWN.format(word="up", most="45") + "room trial")
    found = bases_of(text)
    assert [(each.at.value, each.width.value) for each in found] == [(0, 42), (42, 36)]
    for each in found:
        assert each.unit is not None
        assert [part.address for part in each.unit.parts] == ["plinth"]


def test_an_option_that_no_unit_has_is_spanned_by_nothing() -> None:
    text = kitchen(["door_base 18", "sink_base 36"], more=OWN.format(word="upp", most="45"))
    found = compiled(text).findings
    (finding,) = (each for each in found if each.slug == "unknown-option")
    assert finding.headline == "ladder_base spans toe_upp, which units shop don't have"
    assert finding.span is not None
    assert finding.span.text == "toe_upp"
    assert finding.help == "did you mean toe_up?"


AROUND = """measure in inches
use std edition 1
job Trial {
  revision  1
  precision 1/32
  built     frameless
}
room trial {
  ceiling 96
  counter 36 thick 1 1/2
  wall north length 75
  wall east  length 75
  corner north east 90deg
}
run along on north from left {
  space share
  N1: drawer_base 30
  dead_corner with across filler 3
}
run across on east from left {
  dead_corner with along filler 3
  E1: drawer_base 30
  space share
}
"""


def test_skins_meet_around_a_dead_corner() -> None:
    """Boxes 24 deep with fillers of 3 begin 27 from the corner; toes 3 back lie 21 out from each
    wall. A skin goes on from its box over the filler to the other's toe, 27 - 21 = 6; the left
    run's a thickness of 1/4 further, to lap it."""
    along, across = bases_of(AROUND)
    assert along.unit is not None
    assert across.unit is not None
    left, right = part(along.unit, "skin"), part(across.unit, "skin")
    assert (along.width.value, across.width.value) == (30, 30)
    assert (left.box.across[0], left.box.across[1]) == (0, 30 + 3 + 3 + F(1, 4))
    assert (right.box.across[0], right.box.across[1]) == (-3 - 3, 30)
    # In plan from the corner: the left skin ends where the right one's back is, and each one's
    # face lies 21 out from its wall.
    assert 75 - (along.at.value + left.box.across[1]) == 24 - 3 - F(1, 4)
    assert across.at.value + right.box.across[0] == 24 - 3
