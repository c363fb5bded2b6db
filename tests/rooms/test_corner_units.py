"""Corner units of two legs: their geometry worked by hand, square and at odd corners.

Beside each figure stands how it was worked: with sines and cosines to six places, on paper.
"""

from fractions import Fraction
from functools import cache

import pytest

from casewright.compiler.commands.world import InstalledLibrary
from casewright.compiler.compile import Compiled, compile_job
from casewright.compiler.model import Box, Job, Part, Placed, Unit
from casewright.compiler.rooms.around import around_corner
from casewright.compiler.rooms.clashes import footprints
from casewright.compiler.rooms.room import on_line, plan_point
from casewright.compiler.world import world_of
from tests.rooms.rooms import built, is_near, kitchen, placed_of, run_of

L_ROOM = """
room galley {{
  counter 36
  wall north length 120
  wall east  length 100
  corner north east {corner}
}}
run one on north from left {{
  A1: cupboard share
  A2: cupboard 36 return 36
}}
run two on east after A2 {{
  A3: cupboard share
}}
"""

KITCHEN = """measure in inches
use std edition 1
job Quayside {{
  built {built}
}}
room quayside {{
  floor   finished
  ceiling 96
  counter 36 thick 1 1/2
  wall north length 96
  wall east  length 96
  wall south length 96
}}
{more}
run one on north from left {{
  space share
  S1: door_base 18  hung left
  S2: {corner} 36
}}
run two on east after S2 before S4 {{
  S3: drawer_base share
}}
run three on south from left {{
  S4: {corner} 36
  S5: door_base 18  hung right
  space share
}}
"""


@cache
def compiled(built: str, corner: str = "corner_base", more: str = "") -> Compiled:
    text = KITCHEN.format(built=built, corner=corner, more=more)
    return compile_job(world_of({"kitchen.case": text}, InstalledLibrary()), "kitchen.case")


def job_of(built: str) -> Job:
    found = compiled(built)
    assert found.job is not None, [each.headline for each in found.findings]
    return found.job


def unit_of(job: Job, tag: str) -> Unit:
    unit = placed_of(job, tag).unit
    assert unit is not None
    return unit


def part_of(unit: Unit, address: str) -> Part:
    (found,) = (part for part in unit.parts if part.address == address)
    return found


def sizes(unit: Unit, address: str) -> tuple[Fraction, Fraction]:
    part = part_of(unit, address)
    return part.length.value, part.width.value


# -- in the room -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("corner", "end", "start"),
    [
        # The unit reaches into the corner, and the other run begins 36 along its wall.
        ("90deg", "120", "36"),
        # sin 87.3 = 0.998890, cos 87.3 = 0.047106. Over 36 out from its wall the other leans in
        # 36 * 0.047106 / 0.998890 = 1.6977; past the leg's end, 36 out, what is 24 deep begins at
        # (36 + 24 * 0.047106) / 0.998890 = 37.1718
        ("87.3deg", "118.3023", "37.1718"),
        # sin 92 = 0.999391, cos 92 < 0: nothing leans in, and the end is met at the wall:
        # 36 / 0.999391 = 36.0219
        ("92deg", "120", "36.0219"),
    ],
)
def test_a_corner_unit_takes_its_reach_of_the_wall_around(
    corner: str, end: str, start: str
) -> None:
    result = kitchen(L_ROOM.format(corner=corner))
    assert {each.slug for each in result.findings} <= {"corner-unit-out-of-square"}
    assert result.job is not None
    placed = placed_of(result.job, "A2")
    assert is_near(placed.at.value + placed.width.value, end, "0.0006")
    assert is_near(run_of(result.job, "two").start.value, start, "0.0006")
    assert run_of(result.job, "two").space.value == 100 - run_of(result.job, "two").start.value


@pytest.mark.parametrize(("corner", "out"), [("90deg", 0), ("87.3deg", 24), ("92deg", 0)])
def test_the_run_around_begins_where_the_leg_ends(corner: str, out: int) -> None:
    """The nearest point of the run around (its front's where the corner is sharper than square,
    else its back's) is 36 out from the corner unit's own wall, where the leg ends."""
    result = kitchen(L_ROOM.format(corner=corner))
    assert result.job is not None
    one, two = run_of(result.job, "one"), run_of(result.job, "two")
    assert one.origin is not None
    assert two.origin is not None
    nearest = plan_point(two.origin, two.direction, Fraction(0), Fraction(out))
    _, away = on_line(one.origin, one.direction, nearest)
    assert is_near(away, "36", "0.002")


def test_a_square_unit_stands_off_the_wall_of_an_odd_corner() -> None:
    # 36 * cot 87.3 = 36 * 0.047159 = 1.6977, at its back; 36 * |cot 92| = 36 * 0.034921 = 1.2572,
    # at the end of its leg.
    for corner, words, off in (("87.3deg", "back", "1.698"), ("92deg", "leg", "1.257")):
        (finding,) = kitchen(L_ROOM.format(corner=corner)).findings
        assert finding.slug == "corner-unit-out-of-square"
        assert words in finding.headline
        assert is_near(finding.figures[-1].measure.value, off, "0.0011")  # type: ignore[union-attr]
    built(L_ROOM.format(corner="90deg"))


def test_its_outline_is_an_l() -> None:
    job = job_of("frameless")
    run = run_of(job, "one")
    main, leg = footprints(run, placed_of(job, "S2"))
    # 96 - 36 = 60 from the left: 36 by 24 along the wall; then 24 of it on to 36 out.
    assert main == ((60, 0), (96, 0), (96, -24), (60, -24))
    assert leg == ((72, -24), (96, -24), (96, -36), (72, -36))


# -- the unit --------------------------------------------------------------------------------------


def test_a_frameless_one_by_hand() -> None:
    unit = unit_of(job_of("frameless"), "S2")
    # Two sides 24 less the back's 1/2; backs 36, and 36 less the other back.
    assert (
        sizes(unit, "left_side") == sizes(unit, "right_side") == (Fraction(61, 2), Fraction(47, 2))
    )
    assert sizes(unit, "back_panel") == (Fraction(61, 2), 36)
    assert sizes(unit, "return_panel") == (Fraction(61, 2), Fraction(71, 2))
    # An L out of 36 - 3/4 - 1/2 = 34 3/4 square, less (36 - 24) - 3/4 = 11 1/4 square.
    floor = part_of(unit, "floor")
    assert sizes(unit, "floor") == (Fraction(139, 4), Fraction(139, 4))
    (cut,) = floor.cuts
    assert cut.box.size("across") == cut.box.size("deep") == Fraction(45, 4)
    assert (cut.box.across[1], cut.box.deep[1]) == (12, 0)
    # Each door: 12, less 3/4 of the other's front and half the gap of 1/8 at the inside corner,
    # less half a gap beside its neighbour: 11 1/8.
    for leg in ("left", "right"):
        assert sizes(unit, f"{leg}_leg_door.face") == (Fraction(243, 8), Fraction(89, 8))
    # Toe 3 back, its skin 1/4 thick: rails meet at 12 + 3 1/4, skins 1/4 before.
    assert sizes(unit, "toe_rail")[0] == Fraction(61, 4)
    assert sizes(unit, "skin")[0] == 15


def test_a_framed_one_by_hand() -> None:
    unit = unit_of(job_of("face_frame"), "S2")
    # Frames 12 wide, stiles 1 1/2: rails 9. They meet on a post 3/4 square, as high as they are.
    for leg in ("left", "right"):
        assert sizes(unit, f"{leg}_leg.frame.top_rail") == (9, Fraction(3, 2))
    post = part_of(unit, "corner_post").box
    assert (post.across, post.deep) == ((12, Fraction(51, 4)), (0, Fraction(3, 4)))
    # The box gives way 1/4 at each end and 3/4 behind both frames: 36 - 1/4 - 3/4 - 1/2 = 34 1/2,
    # cut out to 12 3/4 - 1 = 11 3/4.
    assert sizes(unit, "floor") == (Fraction(69, 2), Fraction(69, 2))
    (cut,) = part_of(unit, "floor").cuts
    assert cut.box.size("across") == cut.box.size("deep") == Fraction(47, 4)
    # Doors lap 1/2: 9 + 1.
    assert sizes(unit, "left_leg_door.face") == (Fraction(57, 2), 10)


@pytest.mark.parametrize("built", ["frameless", "face_frame"])
def test_one_in_a_left_corner_is_the_others_mirror_image(built: str) -> None:
    job = job_of(built)
    right, left = unit_of(job, "S2"), unit_of(job, "S4")

    def boxes(unit: Unit, *, mirrored: bool) -> list[Box]:
        found = []
        for part in unit.parts:
            low, high = part.box.across
            across = (36 - high, 36 - low) if mirrored else (low, high)
            found.append(Box(across, part.box.up, part.box.deep))
        return sorted(found, key=lambda box: (box.across, box.up, box.deep))

    # The pull is on the door whose text is the left one, whichever side it comes to lie on.
    assert boxes(left, mirrored=True) == boxes(right, mirrored=False)
    assert {mouth.faces for mouth in right.mouths} == {"front", "left"}
    assert {mouth.faces for mouth in left.mouths} == {"front", "right"}


@pytest.mark.parametrize("tag", ["S2", "S4"])
def test_the_leg_is_seen_before_its_own_mouth(tag: str) -> None:
    job = job_of("frameless")
    placed = placed_of(job, tag)
    around = around_corner(run_of(job, placed.run), placed)
    assert around is not None
    run, turned = around
    assert turned.unit is not None
    (door,) = (part for part in turned.unit.parts if part.role == "front" and part.faces == "front")
    # Seen so, the corner is on the other hand: the door lies 24 13/16 from it, and before the face.
    near = Fraction(397, 16)
    far = near + Fraction(89, 8)
    across = (near, far) if tag == "S2" else (36 - far, 36 - near)
    assert (door.box.across, door.box.deep) == (across, (-Fraction(3, 4), 0))
    assert door.motion is not None
    assert door.motion.edge == ("right" if tag == "S2" else "left")
    # Its line runs out from the wall of its run, along the wall around the corner.
    assert run.origin is not None
    along = plan_point(run.origin, run.direction, Fraction(0), Fraction(0))
    assert along == ((96, 0) if tag == "S2" else (96, -60))


def test_every_placed_leg_says_how_much_of_the_wall_it_takes() -> None:
    job = job_of("frameless")
    walls = {wall.name: wall for wall in job.room.walls}

    def left_of(placed: Placed) -> Fraction:
        assert placed.returns is not None
        return placed.returns.left_on(walls[placed.returns.wall])

    assert left_of(placed_of(job, "S2")) == 0
    assert left_of(placed_of(job, "S4")) == 96 - 36
    assert run_of(job, "two").space.value == 96 - 36 - 36


# -- how its doors open ----------------------------------------------------------------------------

TWO_PULLS = """
unit two_pulls from corner_base  pull_edge 2 {
  mouth right_leg  pulled yes
}
"""


def test_two_pulls_would_bar_both_doors() -> None:
    """Each pull would stand in the other door's way, so neither could be opened first."""
    barred = [
        finding
        for finding in compiled("frameless", "two_pulls", TWO_PULLS).findings
        if finding.slug == "door-meets-fixed"
    ]
    assert [finding.tags for finding in barred] == [("S2",), ("S4",)]
    assert all("a pull of" in finding.headline for finding in barred)
    usual = compiled("frameless").findings
    assert "door-meets-fixed" not in {finding.slug for finding in usual}


# -- what can't be ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("chosen", "words"),
    [
        ("toe notched", "a corner unit stands on a base or on legs"),
        ("backed captured", "a corner unit has applied backs"),
        ("topped stretchers", "a corner unit has a full top"),
        ("return 24", 'it is 24" deep and reaches only 24" around the corner'),
        ("leg_deep 36", "nothing of it is left beside its leg around the corner"),
    ],
)
def test_what_a_corner_unit_is_not_built_with_is_said(chosen: str, words: str) -> None:
    found = compiled("face_frame", "odd", f"unit odd from corner_base  {chosen}")
    assert found.job is None
    said = [each for each in found.findings if each.slug == "requirement-not-met"]
    assert [(each.headline, each.tags) for each in said] == [(words, ("S2",)), (words, ("S4",))]


def test_a_mouth_chooses_only_what_its_unit_has() -> None:
    more = "unit odd from corner_base {\n  mouth left_leg  hinges 3\n}"
    found = compiled("frameless", "odd", more)
    assert found.job is None
    assert [each.slug for each in found.findings] == ["unknown-option"]


def test_a_run_into_a_corner_unit_is_told_to_begin_past_it() -> None:
    text = KITCHEN.format(built="frameless", corner="corner_base", more="")
    wrong = text.replace("on east after S2 before S4", "on east from left before S4")
    result = compile_job(world_of({"kitchen.case": wrong}, InstalledLibrary()), "kitchen.case")
    (found,) = [each for each in result.findings if each.slug == "two-in-one-corner"]
    assert found.help == "let run two say after S2, which takes both walls there"


def test_a_corner_unit_in_no_corner_is_said_once() -> None:
    text = KITCHEN.format(built="frameless", corner="corner_base", more="")
    wrong = text.replace("S2: corner_base 36", "S2: corner_base 36\n  S8: door_base 18")
    wrong = wrong.replace("after S2", "from left")
    wrong = wrong.replace("S3: drawer_base share", "S3: drawer_base 30\n  space share")
    result = compile_job(world_of({"kitchen.case": wrong}, InstalledLibrary()), "kitchen.case")
    assert "corner-unit-in-no-corner" in {each.slug for each in result.findings}
    assert "requirement-not-met" not in {each.slug for each in result.findings}
