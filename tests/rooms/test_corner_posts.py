"""What is made where two faces meet around a corner: the post between two fillers, and toe skins.

Beside each figure stands how it was worked: by hand, with tangents to five places. Faces that
meet at an angle A turn by 180 - A. Lines an inch behind both run on past their meeting by
cot(A / 2), and the other face leans back from square by -cot(A) over an inch.
"""

from fractions import Fraction
from functools import cache

import pytest

from casewright.compiler.commands.world import InstalledLibrary
from casewright.compiler.compile import compile_job
from casewright.compiler.model import Job, Part, Placed
from casewright.compiler.papers.lists.cut_list import cut_list
from casewright.compiler.papers.lists.install_steps import setting_order, setting_steps
from casewright.compiler.papers.walls import sides
from casewright.compiler.shop.setting import set_with
from casewright.compiler.world import world_of
from tests.rooms.rooms import is_near, placed_of, run_of

HEAD = """measure in inches
use std edition 1
job Quayside {{
  built {built}
}}
room quayside {{
  floor   finished
  ceiling 96
  counter 36 thick 1 1/2
  wall north length 120
  wall east  length 120
  corner north east {corner}
}}
"""

DEAD = """
run one on north from left {
  space share
  S1: door_base 18  hung left
  dead_corner with two filler 3
}
run two on east from left {
  dead_corner with one filler 3
  S2: door_base 18  hung right
  space share
}
"""

AROUND = """
run one on north from left {{
  space share
  S1: door_base 18  hung left
  S2: {corner} 36
}}
run two on east after S2 {{
  S3: door_base 18  hung right
  space share
}}
"""

BEFORE = """
run one on north from left {
  space share
  S2: pair_base 30
  S4: pair_base 36
  S5: door_base 24  hung left
}
run two on east after one filler 3 {
  S3: door_base 18  hung right
  space share
}
"""


@cache
def job_of(runs: str, corner: str = "90deg", built: str = "frameless") -> Job:
    text = HEAD.format(built=built, corner=corner) + runs
    found = compile_job(world_of({"kitchen.case": text}, InstalledLibrary()), "kitchen.case")
    assert found.job is not None, [each.headline for each in found.findings]
    return found.job


def parts(placed: Placed) -> dict[str, Part]:
    assert placed.unit is not None
    return {part.address: part for part in placed.unit.parts}


def filler_of(job: Job, run: str) -> Placed:
    (found,) = (each for each in run_of(job, run).placed if each.kind == "filler")
    return found


def skin_of(job: Job, run: str) -> Part:
    (base,) = run_of(job, run).bases
    return parts(base)["skin"]


def posts(job: Job) -> list[str]:
    return [
        f"{placed.address}.{part.address}"
        for placed in job.placed
        if placed.unit is not None
        for part in placed.unit.parts
        if part.role == "post"
    ]


# -- the post --------------------------------------------------------------------------------------


def test_two_fillers_share_one_post_that_the_left_run_brings() -> None:
    job = job_of(DEAD)
    assert posts(job) == ["one.filler_1.filler_post"]
    post = parts(filler_of(job, "one"))["filler_post"]
    # Past the filler 3 wide, 1 3/4 square behind both faces, from the toe to the top.
    assert post.box.across == (3, Fraction(19, 4))
    assert post.box.deep == (0, Fraction(7, 4))
    assert post.box.up == (4, Fraction(69, 2))
    assert post.cuts == ()


def test_a_framed_unit_that_took_the_filler_brings_the_post() -> None:
    job = job_of(DEAD, built="face_frame")
    assert posts(job) == ["S1.filler_post"]
    found = parts(placed_of(job, "S1"))
    # The stile ends 3 past the unit's 18.
    assert found["right_stile"].box.across[1] == 21
    assert found["filler_post"].box.across == (21, Fraction(91, 4))
    assert found["filler_post"].box.up == found["right_stile"].box.up


@pytest.mark.parametrize("built", ["frameless", "face_frame"])
@pytest.mark.parametrize(
    ("corner", "edges", "bevel", "front"),
    [
        # -cot 120 = 0.57735: 1 3/4 x 0.57735 = 1.01036 comes off the side of the other filler.
        ("120deg", ("right", "front"), "1.01036", "0"),
        # -cot 80 = -0.17633: 1 3/4 x 0.17633 = 0.30857 stands out to it before the face.
        ("80deg", ("left", "front"), "0.30857", "-0.30857"),
    ],
)
def test_the_post_is_bevelled_to_an_odd_corner(
    built: str, corner: str, edges: tuple[str, str], bevel: str, front: str
) -> None:
    job = job_of(DEAD, corner, built)
    holder = filler_of(job, "one") if built == "frameless" else placed_of(job, "S1")
    post = parts(holder)["filler_post"]
    (cut,) = post.cuts
    assert cut.corner == edges
    assert cut.box.size("across") == Fraction(7, 4)
    assert is_near(cut.box.size("deep"), bevel)
    assert is_near(post.box.deep[0], front)
    assert is_near(post.box.size("deep"), str(Fraction("1.75") + Fraction(bevel)))


def test_a_bevel_of_less_than_a_thirty_second_is_planed_as_it_is_set() -> None:
    # 1 3/4 x -cot 90.5 = 0.0153.
    post = parts(filler_of(job_of(DEAD, "90.5deg"), "one"))["filler_post"]
    assert post.cuts == ()


def test_the_post_is_on_the_cut_list_in_a_step_and_in_the_installers_words() -> None:
    job = job_of(DEAD)
    listed = [each for group in cut_list(job) for row in group.rows for each in row.part_addresses]
    assert listed.count("one.filler_1.filler_post") == 1
    unit = filler_of(job, "one").unit
    assert unit is not None
    assert [way.thing for step in unit.steps for way in step.ways] == ["strip", "filler_post"]
    (driven,) = (each for each in set_with(job) if each.dead)
    # 30 1/2 high, every 6: 6 spaces, 7 screws.
    assert (driven.holder, driven.neighbour, driven.count) == (
        "one.filler_1",
        "two.filler_1",
        7,
    )
    assert "Make up the corner" in _words(job, "east")
    framed = job_of(DEAD, built="face_frame")
    assert "to the post that S1 brings to the corner" in _words(framed, "east")
    assert "to the post that S1 brings to the corner" not in _words(framed, "north")


def _words(job: Job, wall: str) -> str:
    (side,) = (side for side in sides(job) if side.name == wall)
    steps = setting_steps(job, side, setting_order(job, side), set_with(job))
    return " ".join(word for step in steps for word in step.note if isinstance(word, str))


def test_a_filler_at_a_wall_or_before_a_run_around_the_corner_has_no_post() -> None:
    assert posts(job_of(BEFORE)) == []
    assert posts(job_of(BEFORE, built="face_frame")) == []


# -- toe skins -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("corner", "left_run", "right_run", "bevel"),
    [
        # From 18 + 3: on by 3 to where they meet; the left one laps the other's 1/4.
        ("90deg", "24.25", "3", None),
        # cot 60 = 0.57735: 3 x 0.57735 = 1.73205 on; it laps 1/4 / sin 120 = 0.28868. The other's
        # end leans back 1/4 x 0.57735 = 0.14434.
        ("120deg", "23.02073", "1.73205", "0.14434"),
        # cot 40 = 1.19175: 3.57526 on; laps 1/4 / sin 80 = 0.25386. Nothing leans in.
        ("80deg", "24.82912", "3.57526", None),
    ],
)
def test_skins_meet_in_a_dead_corner(
    corner: str, left_run: str, right_run: str, bevel: str | None
) -> None:
    job = job_of(DEAD, corner)
    left, right = skin_of(job, "one"), skin_of(job, "two")
    assert is_near(left.box.across[1], left_run)
    assert is_near(-right.box.across[0], str(Fraction(right_run) + 3))
    assert left.cuts == ()
    if bevel is None:
        assert right.cuts == ()
    else:
        (cut,) = right.cuts
        assert cut.corner == ("left", "back")
        assert is_near(cut.box.size("across"), bevel)


def test_a_skin_meets_that_of_a_diagonal_unit() -> None:
    job = job_of(AROUND.format(corner="diagonal_base"))
    # A face that turns by 45: tan 22.5 = 0.41421, 3 x 0.41421 = 1.24264 on, and as thick a bevel
    # as the skin, 1/4, since it comes to the other at 45.
    for run, at, edges, past in (
        ("one", 1, ("right", "back"), 18),
        ("two", 0, ("left", "back"), 0),
    ):
        skin = skin_of(job, run)
        assert is_near(abs(skin.box.across[at] - past), "1.24264")
        (cut,) = skin.cuts
        assert cut.corner == edges
        assert cut.box.size("across") == cut.box.size("deep") == Fraction(1, 4)


def test_both_skins_beside_a_diagonal_unit_end_on_its_own() -> None:
    """The diagonal's skin runs from leg to leg, 3 behind its face; in plan the neighbour's end lies
    on the same line, from the corner of box and face at 18, 24 out."""
    job = job_of(AROUND.format(corner="diagonal_base"))
    skin = skin_of(job, "one")
    unit = placed_of(job, "S2").unit
    assert unit is not None
    (skirt,) = (part for part in unit.parts if part.address == "toe_skirt")
    assert skirt.slant is not None
    # The front corner of the neighbour's end, by the diagonal unit's own axes.
    across, deep = skirt.slant.here(skin.box.across[1] - 18, skin.box.deep[0])
    assert is_near(deep, str(skirt.box.deep[0]))
    assert skirt.box.across[0] < across < skirt.box.across[1]


def test_a_skin_beside_a_leg_in_line_ends_with_its_unit() -> None:
    job = job_of(AROUND.format(corner="corner_base"))
    assert skin_of(job, "one").box.across[1] == 18
    assert skin_of(job, "two").box.across[0] == 0
    assert skin_of(job, "two").cuts == ()


def test_a_skin_that_ends_before_a_run_around_the_corner_meets_its_toe() -> None:
    # 3 of filler and 3 on to the toe of the run around, which runs through: nothing is lapped.
    assert skin_of(job_of(BEFORE), "two").box.across[0] == -6
