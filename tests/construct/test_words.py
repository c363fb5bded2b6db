"""What the construction's words mean, each in a unit of a few parts."""

from fractions import Fraction

import pytest

from casewright.compiler.model import Unit
from casewright.lang.measure import INCH
from tests.stdlib.kitchens import findings_of, part, unit_of

F = Fraction
MM = 1 / INCH

BARE = """
unit trial  bare {{
  high  30
  depth 20
{body}
}}
"""

BOX = """
  option two sheet = birch_ply
  part left_side  of two  across from left  grain up
  part right_side mirrors left_side
  part floor of two  across left_side .. right_side  up from bottom
  join floor to left_side right_side
  step left_side floor right_side
"""


def trial(body: str, width: str = "24") -> Unit:
    return unit_of(f"trial {width}", more=BARE.format(body=body))


def said(body: str) -> list[str]:
    return [finding.slug for finding in findings_of("trial 24", more=BARE.format(body=body))]


@pytest.mark.parametrize(
    ("limit", "expected"),
    [("3", F(3)), ("3 1/2", F(3)), ("3.999", F(3)), ("1", F(1)), ("40", F(40))],
)
def test_one_length_within_a_limit_is_as_many_times_it_as_fit(limit: str, expected: F) -> None:
    unit = trial(
        f"part slat of birch_ply  across (1 within {limit}) from left  deep from front\n step slat"
    )
    assert part(unit, "slat").box.across == (F(0), expected)


def test_a_step_longer_than_the_limit_fits_nowhere() -> None:
    body = "part slat of birch_ply  across (4 within 3) from left  deep from front\n step slat"
    (finding,) = findings_of("trial 24", more=BARE.format(body=body))
    assert finding.slug == "none-fits"
    assert [(row.words, row.measure and row.measure.value) for row in finding.figures] == [
        ("the shortest", F(4)),
        ("room for it", F(3)),
    ]


def test_what_a_datum_does_not_say_may_be_said_otherwise() -> None:
    body = "part slat of birch_ply  across (birch_ply.long or else 9) from left  deep from front"
    unit = trial(f"{body}\n step slat")
    assert part(unit, "slat").box.across == (F(0), F(9))


def test_a_part_is_cut_only_when_its_condition_is_so() -> None:
    body = """
  option deep_cut length = {deep}
  part slat of birch_ply  deep from front {{
    when deep_cut > 0 {{ cut across deep_cut from left  up 2 from bottom }}
  }}
  step slat
"""
    assert part(trial(body.format(deep="0")), "slat").cuts == ()
    (cut,) = part(trial(body.format(deep="3")), "slat").cuts
    assert (cut.box.across, cut.box.up) == ((F(0), F(3)), (F(0), F(2)))
    assert cut.depth.value == 2


def test_trim_is_left_on_what_is_sawn_and_not_on_what_is_finished() -> None:
    body = "part slat of birch_ply  across from left  grain up { trim 1/2 on back }"
    unit = trial(f"{body}\n step slat")
    slat = part(unit, "slat")
    assert (slat.length.value, slat.width.value) == (F(30), F(20))
    assert (slat.cut_length.value, slat.cut_width.value) == (F(30), 20 + F("1/2"))


def test_holes_are_bored_from_the_face_that_is_named() -> None:
    unit = trial(
        BOX
        + """
  holes pins on left_side.right {
    size 5mm
    into 12mm
    up   bottom + 2 .. top - 2 every 32mm
    deep front + 37mm .. back - 37mm
  }
  holes pins on right_side.left  { size 5mm  into 12mm  up bottom + 4  deep front + 2 }
"""
    )
    left, right = part(unit, "left_side").holes, part(unit, "right_side").holes
    rows = sorted({hole.at[hole.at_axes.index("up")].value for hole in left})
    assert rows == [2 + 32 * MM * number for number in range(len(rows))]
    assert rows[-1] <= 28 < rows[-1] + 32 * MM
    assert len(left) == 2 * len(rows)
    assert {(hole.axis, hole.side) for hole in left} == {("across", 1)}
    (one,) = right
    assert (one.axis, one.side) == ("across", -1)
    assert [at.value for at in one.at] == [4, 2]


@pytest.mark.parametrize(
    ("holes", "slug"),
    [
        ("size 5mm  into 1  up bottom + 4  deep front + 2", "hole-through"),
        ("size 5mm  into 12mm  up bottom + 1/16  deep front + 2", "hole-past-edge"),
        (
            "size 1mm  into 1mm  up bottom + 1 .. top - 1 every 0.1mm  deep front + 2",
            "too-many-holes",
        ),
        (
            "size 5mm  into 12mm  up bottom + 1 .. top - 1 every 0  deep front + 2",
            "size-not-positive",
        ),
        ("size 5mm  into 12mm  up bottom + 4", "value-missing"),
        ("size 5mm  up bottom + 4  deep front + 2", "value-missing"),
    ],
)
def test_holes_that_can_not_be_bored(holes: str, slug: str) -> None:
    assert said(BOX + f"  holes pins on left_side.right {{ {holes} }}\n") == [slug]


def test_a_face_must_be_named_where_none_is_nearer() -> None:
    holes = "{ size 5mm  into 12mm  up bottom + 4  deep front + 2 }"
    assert said(BOX + f"  holes pins on left_side {holes}\n") == ["which-face"]


def test_from_corner_to_corner() -> None:
    body = BOX + '  step "front {diagonal}, plan {plan_diagonal}, floor {floor.plan_diagonal}"\n'
    (step,) = (step for step in trial(body).steps if step.words)
    # 24 by 30: 38.419; 24 by 20: 31.241; 22 1/2 by 20: 30.104.
    assert step.words == 'front 38 13/32" full, plan 31 1/4" shy, floor 30 3/32" full'


def strips(blank: str) -> str:
    return f"""
  part wide of birch_ply    up from bottom  deep 3 from front  grain across  band front
  part narrow of birch_ply  up from wide    deep 3 7/8 from front  grain across  band front
  join narrow to wide
  rip wide narrow {blank}
  step wide narrow
"""


def test_a_blank_holds_its_strips_and_what_the_saw_takes() -> None:
    (blank,) = trial(strips("kerf 1/8")).blanks
    assert blank.width.value == 7
    (wider,) = trial(strips("from 8  kerf 1/8")).blanks
    assert wider.width.value == 8
    assert trial(strips("from 7  kerf 1/8")).blanks[0].width.value == 7


def test_a_blank_too_narrow_for_its_strips_is_refused() -> None:
    body = strips("from 6 7/8  kerf 1/8")
    (finding,) = findings_of("trial 24", more=BARE.format(body=body))
    assert finding.slug == "blank-too-narrow"
    assert finding.help
    assert [row.measure and row.measure.value for row in finding.figures] == [
        3,
        F("31/8"),
        7,
        F("55/8"),
        F("1/8"),
    ]


def test_what_a_wall_screw_meets_must_be_solid() -> None:
    hung = """
  part strip of birch_ply  up 4 to top  deep to {place}  grain across  serves hanging
  part board of thin_ply  deep to {behind}
  join strip to board
  step strip board
"""
    assert "cleat-on-air" not in said(hung.format(place="board", behind="back"))
    assert said(hung.format(place="board", behind="back - 1/2")) == ["cleat-on-air"]


OPENED = """
  option two sheet = birch_ply
  assembly box {{
    part left_side of two  across from left  grain up
    part right_side mirrors left_side
    part low of two   across left_side .. right_side  up from bottom
    part rear of two  across left_side .. right_side  up low .. top  deep to back
    part strip of two across left_side .. right_side  up 4 to top  deep to rear
    join low rear strip to left_side right_side
    join rear strip to left_side
    step left_side low rear strip right_side
  }}
  openings {{
    across box.left_side .. box.right_side
    up     box.low .. top
    level  1
    post   1
    covers box
    lap    {lap}
    behind box
    between 1/8
    above   1/8
    below   0
    end     1/8
    sized_by {sized}
  }}
  stack {{
    open {first}
    open share
  }}
  for each open {{
    let reach = open.behind.front - front
    part shelf of two {{
      across box.left_side .. box.right_side
      up     from open.bottom + 1
      deep   reach from front
    }}
    part face of thin_ply  deep to front {{
      across open.front.left .. open.front.right
      up     open.front.bottom .. open.front.top
    }}
    join face to shelf
    join shelf to box.left_side
  }}
  step box
  step shelf
  step face
"""


def opened(lap: str, sized: str = "opening", first: str = "6") -> Unit:
    return trial(OPENED.format(lap=lap, sized=sized, first=first))


@pytest.mark.parametrize(
    ("lap", "left", "top"),
    [
        # All the way: the side's outer edge and the unit's top, less their gaps.
        ("20", F("1/8"), 30 - F("1/8")),
        # 1/2 past an opening that begins 3/4 in; at the top only as far as its cover.
        ("1/2", F("1/4"), 30 - F("1/8")),
        # Inside by 1/16; at the top its cover is nearer.
        ("0 - 1/16", F("3/4") + F("1/16"), 30 - F("1/8")),
    ],
)
def test_how_far_a_front_laps(lap: str, left: Fraction, top: Fraction) -> None:
    face = part(opened(lap), "open_1.face").box
    assert face.across == (left, 24 - left)
    assert face.up[1] == top


def test_a_front_is_as_large_as_it_is_said() -> None:
    for lap in ("20", "1/2", "0 - 1/16"):
        unit = opened(lap, "front", "6 1/4")
        box = part(unit, "open_1.face").box
        assert box.size("up") == 6 + F("1/4")


def test_what_stands_behind_ends_the_room_before_it() -> None:
    unit = opened("20")
    # The strip stands before the rear wall in the upper opening only.
    assert part(unit, "open_1.shelf").box.deep[1] == 20 - 2 * F("3/4")
    assert part(unit, "open_2.shelf").box.deep[1] == 20 - F("3/4")


def test_words_around_a_mirrored_part_face_as_it_is_read() -> None:
    body = """
  let left_wide  = 2
  let right_wide = 3
  assembly pair {
    part left_slat of birch_ply  up from bottom  across left_wide from left
    part right_slat mirrors left_slat
    part tie of birch_ply  up from left_slat
    join tie to left_slat right_slat
    step left_slat right_slat tie
  }
  step pair
"""
    unit = trial(body)
    assert part(unit, "left_slat").box.across == (F(0), F(2))
    assert part(unit, "right_slat").box.across == (F(21), F(24))


def test_a_name_means_what_was_made_at_the_turn_at_hand() -> None:
    unit = unit_of("drawer_pair_base 30")
    faces = {each.address: each for each in unit.parts if each.role == "front"}
    assert set(faces) == {"drawer.face", "door_1.face", "door_2.face"}
    assert {each.motion.kind for each in faces.values() if each.motion} == {"out", "about"}
