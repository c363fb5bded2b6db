"""Diagonal corner units: their geometry worked by hand, in both ways to build, at both hands.

Beside each figure stands how it was worked. A unit 36 by 36 whose legs are 24 deep has a face from
(0, 0) to (12, -12) across and deep: 12 x 1.414214 = 16.970563 long, 16.971 to 1/1000.
"""

import re
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.compiler.check.hanging import weight_of
from casewright.compiler.check.site import Site
from casewright.compiler.commands.world import InstalledLibrary
from casewright.compiler.compile import compile_job
from casewright.compiler.joints.oblique import prisms_of, volume_of
from casewright.compiler.model import Part, Unit
from casewright.compiler.papers.drawings.frame_views import frames
from casewright.compiler.papers.drawings.plan_view import plan_view
from casewright.compiler.papers.drawings.unit_views import unit_views
from casewright.compiler.papers.figures import printing_of
from casewright.compiler.papers.lists.cut_list import corner_words, cut_list
from casewright.compiler.papers.lists.stile_edges import stile_edges
from casewright.compiler.papers.pages.places_pages import place_rows
from casewright.compiler.papers.pieces import built
from casewright.compiler.papers.walls import sides
from casewright.compiler.plane import area, share_room
from casewright.compiler.rooms.around import across_corner
from casewright.compiler.rooms.room import plan_point
from casewright.compiler.world import world_of
from casewright.lang.printing import NO_BREAK
from tests.rooms.corners import KITCHEN, LEFT, RIGHT, errors, in_corner, unit_of
from tests.rooms.rooms import is_near, placed_of, run_of

STEP = Fraction(1, 1000)


def part(unit: Unit, address: str) -> Part:
    return next(each for each in unit.parts if each.address == address)


def test_its_face_runs_from_leg_to_leg() -> None:
    unit = unit_of(in_corner("diagonal_base 36 return 36"))
    (mouth,) = unit.mouths
    assert mouth.slant is not None
    # 12 along both walls: an eighth of a turn to the right, by an exact point of the circle.
    cosine, sine = mouth.slant.direction
    assert cosine**2 + sine**2 == 1
    assert is_near(cosine, "0.707107", "0.000001")
    assert is_near(sine, "-0.707107", "0.000001")
    assert (mouth.slant.across, mouth.slant.deep) == (0, 0)
    # 16.970563 to 1/1000.
    (opening,) = unit.openings
    # A side of 3/4 shows 3/4 x 16.971 / 12 = 1.0606875 in the face, and a post stands beside it.
    assert opening.across.low.value == Fraction("1.0606875") + Fraction(3, 4)
    assert opening.across.high.value == Fraction("16.971") - Fraction("1.8106875")
    # The door stays 1/8 and its own thickness of 3/4 from both ends: 16.971 - 2 x 0.875.
    door = part(unit, "door_side_door.face")
    assert door.width.value == Fraction("15.221")
    assert door.slant == mouth.slant


def test_its_boards_have_a_corner_cut_off() -> None:
    unit = unit_of(in_corner("diagonal_base 36 return 36"))
    floor = part(unit, "floor")
    # From inside its left side (3/4) to the back of the other leg (36 - 1/2), both ways.
    assert (floor.length.value, floor.width.value) == (Fraction("34.75"), Fraction("34.75"))
    (cut,) = floor.cuts
    # The face goes through (3/4, -3/4) and (12 - 3/4, -12 + 3/4): 12 - 2 x 3/4 both ways.
    assert cut.corner == ("left", "front")
    assert (cut.box.size("across"), cut.box.size("deep")) == (Fraction("10.5"), Fraction("10.5"))
    # 34.75 x 34.75 less half of 10.5 x 10.5 = 1152.4375; by 3/4 thick 864.328125.
    assert volume_of(floor) == Fraction("864.328125")
    side = part(unit, "left_side")
    # It is bevelled to the face over its whole thickness: 24 - 1/2 + 3/4 long, less half of 3/4.
    assert side.box.size("deep") == Fraction("24.25")
    assert (side.cuts[0].box.size("across"), side.cuts[0].box.size("deep")) == (
        Fraction("0.75"),
        Fraction("0.75"),
    )


def test_a_frame_stands_before_its_box() -> None:
    unit = unit_of(in_corner("diagonal_base 36 return 36", "face_frame"))
    stiles = [each for each in unit.parts if each.role == "stile" and each.slant is not None]
    assert sorted(each.box.across for each in stiles) == [
        (0, Fraction("1.5")),
        (Fraction("15.471"), Fraction("16.971")),
    ]
    # The box's face is 3/4 behind the frame's: 3/4 x 16.971 / 12 = 1.0606875 along a leg. Its side
    # begins 3/4 in, so its front edge ends 1.0606875 - 3/4 - 3/4 from the unit's front.
    side = part(unit, "left_side")
    assert side.box.across == (Fraction("0.75"), Fraction("1.5"))
    assert side.box.deep[0] == Fraction("1.0606875") - Fraction("1.5")
    joined = {
        (joint.first, joint.second): joint
        for joint in unit.joints
        if joint.slant is not None and "left_side" in joint.second
    }
    (glued,) = joined.values()
    # The side's bevel lies on the stile from 3/4 x 1.414214 - 3/4 to 1 1/2 x 1.414214 - 3/4.
    assert glued.axis == "deep"
    assert is_near(glued.area.across[0], "0.310660", "0.002")
    assert is_near(glued.area.across[1], "1.371320", "0.002")


@pytest.mark.parametrize("built", ["frameless", "face_frame"])
@pytest.mark.parametrize("unit", ["diagonal_base 36 return 40", "diagonal_wall 24 return 27"])
def test_a_left_corner_is_the_right_ones_mirror(unit: str, built: str) -> None:
    right, left = (unit_of(in_corner(unit, built, hand)) for hand in ("right", "left"))
    # Whose left end lies where the other's right end does; heights and sizes are the same.
    width = right.width.value

    def sizes(of: Unit, *, mirrored: bool) -> list[tuple[object, ...]]:
        found: list[tuple[object, ...]] = []
        for each in of.parts:
            (body,) = prisms_of(each)
            xs = [width - x if mirrored else x for x, _ in body.outline]
            zs = [z for _, z in body.outline]
            ends = (min(xs), max(xs), min(zs), max(zs))
            found.append((each.role, body.up, *(round(float(end), 3) for end in ends)))
        return sorted(found, key=repr)

    hung = ("hinge", "pull")
    of_right, of_left = sizes(right, mirrored=False), sizes(left, mirrored=True)
    for one, other in zip(
        [each for each in of_right if each[0] not in hung],
        [each for each in of_left if each[0] not in hung],
        strict=True,
    ):
        assert one[:2] == other[:2]
        assert all(
            abs(float(str(a)) - float(str(b))) < 0.003
            for a, b in zip(one[2:], other[2:], strict=True)
        )


@pytest.mark.parametrize("built", ["metric_frameless", "metric_face_frame"])
def test_metric_units_are_rounded_to_hundredths(built: str) -> None:
    found = in_corner("diagonal_base 900 return 950", built, measure="mm")
    assert errors(found) == []
    (mouth,) = unit_of(found).mouths
    assert mouth.slant is not None
    # Legs of 580: 320 and 370 are left; root of 320 x 320 + 370 x 370 = 489.183 mm.
    far = mouth.slant.here(mouth.extents.box.across[1], mouth.extents.box.deep[0])
    assert is_near(far[0] * Fraction("25.4"), "489.183", "0.001")
    assert abs(far[1]) < STEP


@pytest.mark.parametrize("angle", ["90.4deg", "88deg", ""])
def test_in_a_corner_that_is_out_of_square_it_stays_square(angle: str) -> None:
    line = f"corner north east {angle}" if angle else ""
    found = in_corner("diagonal_base 36 return 36", angle=line)
    assert errors(found) == []
    (mouth,), (square,) = (
        unit_of(each).mouths for each in (found, in_corner("diagonal_base 36 return 36"))
    )
    assert mouth.slant == square.slant
    slugs = {each.slug for each in found.findings}
    assert ("corner-unit-out-of-square" in slugs) == bool(angle)


def test_its_door_stands_in_the_room_where_its_face_does() -> None:
    found = in_corner("diagonal_base 36 return 36")
    assert found.job is not None
    run, placed = run_of(found.job, "one"), placed_of(found.job, "S2")
    ((line, seen),) = across_corner(run, placed)
    assert line.origin is not None
    assert run.origin is not None
    # Its front's two ends are those of the legs: (0, 24) and (12, 36) along the run and out of it.
    for across, (along, out) in ((0, (0, 24)), (seen.width.value, (12, 36))):
        at = plan_point(line.origin, line.direction, Fraction(across), seen.depth.value)
        leg = placed.at.value + along
        wanted = plan_point(run.origin, run.direction, leg, Fraction(out))
        assert all(abs(one - other) < STEP for one, other in zip(at, wanted, strict=True))


def test_a_pull_in_the_corner_is_found() -> None:
    text = KITCHEN.format(
        built="frameless",
        measure="inches",
        wall="71",
        angle="",
        runs=RIGHT.format(
            unit="diagonal_base 36 return 36", up="", beside="drawer_base 18", around=""
        ),
    )
    found = compile_job(world_of({"kitchen.case": text}, InstalledLibrary()), "kitchen.case")
    (finding,) = [each for each in found.findings if each.slug == "drawer-meets-fixed"]
    assert "pull of S2" in finding.headline
    assert finding.figures


@pytest.mark.parametrize(
    ("unit", "words"),
    [
        ("diagonal_base 24 return 36", "nothing of it is left beside its leg"),
        ("diagonal_base 36 return 24", "reaches only 24"),
        ("diagonal_base 36 return 20", "reaches only 20"),
    ],
)
def test_legs_deeper_than_the_unit_is_wide(unit: str, words: str) -> None:
    found = in_corner(unit)
    assert any(words in headline for headline in errors(found)), errors(found)


def test_a_way_to_look_that_there_is_not() -> None:
    text = KITCHEN.format(
        built="frameless",
        measure="inches",
        wall="9'",
        angle="",
        runs="unit odd from diagonal_base { mouth door_side faces 45deg }\n"
        + RIGHT.format(unit="odd 36 return 36", up="", beside="open_base 18", around=""),
    )
    found = compile_job(world_of({"kitchen.case": text}, InstalledLibrary()), "kitchen.case")
    assert errors(found), "an angle is no side of a unit"


def test_its_weight_is_that_of_its_cut_boards() -> None:
    found = in_corner("diagonal_wall 24 return 24")
    assert found.job is not None
    unit = unit_of(found)
    site = Site(found.job)
    weight = weight_of(site, unit)
    assert weight is not None
    whole = sum(
        (each.box.size("across") * each.box.size("up") * each.box.size("deep"))
        for each in unit.parts
        if not each.hardware
    )
    cut = sum(volume_of(each) for each in unit.parts if not each.hardware)
    # Four boards lose half of the square before the face, the two sides half of their bevel.
    assert whole > cut
    floor = part(unit, "floor")
    # 24 - 2 x 3/4 - ... : 22.75 x 22.75 less half of (12 - 1.5) squared, by 3/4.
    assert volume_of(floor) == (Fraction("22.75") ** 2 - Fraction("10.5") ** 2 / 2) * Fraction(3, 4)


@settings(max_examples=6, deadline=None)
@given(
    wide=st.integers(26 * 8, 48 * 8),
    back=st.integers(26 * 8, 48 * 8),
    leg=st.integers(18 * 8, 24 * 8),
    built=st.sampled_from(["frameless", "face_frame"]),
)
def test_no_two_parts_share_room_whatever_its_legs(
    wide: int, back: int, leg: int, built: str
) -> None:
    line = f"diagonal_base {wide}/8 return {back}/8 depth {leg}/8 leg_deep {leg}/8"
    found = in_corner(line, built)
    if found.job is None or errors(found):
        # Refused with its reason (a door too narrow or too wide); never with a traceback.
        assert all(errors(found))
        return
    unit = unit_of(found)
    turned = [each for each in unit.parts if each.slant and not each.hardware]
    whole = [each for each in unit.parts if not each.slant and not each.cuts]
    for one in turned:
        for other in whole:
            (body,), (standing,) = prisms_of(one), prisms_of(other)
            high = min(body.up[1], standing.up[1]) - max(body.up[0], standing.up[0])
            apart = not share_room(body.outline, standing.outline)
            assert high <= 0 or apart, (one.path, other.path)
    # The face, its two legs and the two walls close around the floor: the pentagon's area is the
    # whole square's less the triangle before the face.
    floor = part(unit, "floor")
    (cut,) = floor.cuts
    outline = prisms_of(floor)[0].outline
    box = floor.box
    assert area(outline) == box.size("across") * box.size("deep") - (
        cut.box.size("across") * cut.box.size("deep") / 2
    )


def test_the_cut_list_says_what_is_cut_off_its_boards() -> None:
    found = in_corner("diagonal_base 36 return 36")
    assert found.job is not None
    printing = printing_of(found.job)
    said = [
        corner_words(row, printing).replace(NO_BREAK, " ")
        for group in cut_list(found.job, "S2")
        for row in group.rows
    ]
    # Floor and cap lose 12 - 2 x 3/4, and 1 mm x 1.41421 = 0.056 more before their band: 10.556,
    # 10 9/16 shy to 1/32. The shelf stands 2 further back, square to the face: 2 x 16.971 / 12 =
    # 2.8285 more along both edges, 13.3285 and 0.056, which is 13 3/8 full.
    assert "; corner cut off 10 9/16 shy by 10 9/16 shy" in said
    assert "; corner cut off 13 3/8 full by 13 3/8 full" in said
    assert "; end bevelled 3/4 by 3/4" in said
    assert "" in said


def test_its_sheet_has_a_plan() -> None:
    found = in_corner("diagonal_base 36 return 40")
    assert found.job is not None
    (item,) = [each for each in built(found.job) if each.label == "S2"]
    views = unit_views(found.job, item)
    assert views.plan is not None
    letters = [each.text for each in views.plan.letters]
    # 40 along the wall around the corner, 36 along its own: 16 and 12 are left beside legs of 24.
    assert {"36", "40", "24", "16", "12"} <= set(letters)
    assert "before its door side" in views.front.title
    assert views.high > views.plan.height + max(each.height for each in views.standing)


def test_where_a_turned_part_stands_is_told_by_its_own_mouth() -> None:
    found = in_corner("diagonal_base 36 return 36")
    assert found.job is not None
    (item,) = [each for each in built(found.job) if each.label == "S2"]
    named = {
        address: row.name
        for row in place_rows(item, printing_of(found.job))
        for address in row.addresses
    }
    assert named["S2.door_side_door.face"].endswith(", as before the door side")
    assert not named["S2.floor"].endswith("door side")


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("filler", ["filler 3", "filler 3 into S2"])
@pytest.mark.parametrize(
    ("unit", "widened"), [("diagonal_base 36 return 36", False), ("corner_base 40 return 40", True)]
)
def test_a_filler_beside_a_framed_corner_unit_is_cut(
    unit: str, widened: bool, filler: str, hand: str
) -> None:
    own = f"{filler}\n  S2: {unit}" if hand == "right" else f"S2: {unit}\n  {filler}"
    runs = (RIGHT if hand == "right" else LEFT).format(
        unit="", up="", beside="open_base 18", around=""
    )
    text = KITCHEN.format(
        built="face_frame",
        measure="inches",
        wall="9'",
        angle="",
        runs=runs.replace("S2: \n", own + "\n"),
    )
    found = compile_job(world_of({"kitchen.case": text}, InstalledLibrary()), "kitchen.case")
    assert found.job is not None, errors(found)
    said = [each.help for each in found.findings if each.slug == "filler-not-taken"]
    asked = "into" in filler and not widened
    assert said == (["take `into S2` out, or name the unit on its other side"] if asked else [])
    (strip,) = [each for each in found.job.placed if each.kind == "filler"]
    unit_built = placed_of(found.job, "S2").unit
    assert unit_built is not None
    if widened:
        # Its outer stile, 1 1/2 wide, is wider by the filler.
        assert strip.unit is None
        assert Fraction("4.5") in {
            each.width.value for each in unit_built.parts if each.role == "stile"
        }
        return
    assert strip.unit is not None, "it is on no cut list"
    (piece,) = strip.unit.parts
    assert piece.box.size("across") == 3


@pytest.mark.parametrize("hand", ["right", "left"])
def test_its_door_swings_on_the_plan_about_where_it_hangs(hand: str) -> None:
    found = in_corner("diagonal_base 36 return 36", hand=hand)
    assert found.job is not None
    placed = placed_of(found.job, "S2")
    side = next(
        each for each in sides(found.job) if any(one.placed == placed for one in each.things)
    )
    drawn = plan_view(found.job, side).body(links=False)
    (arc,) = re.findall(
        r'd="M(\S+) (\S+)A(\S+) \S+ 0 0 ([01]) (\S+) (\S+)L(\S+) (\S+)"',
        drawn,
    )
    x, y, radius, sweep, end_x, end_y, hinge_x, hinge_y = map(float, arc)
    # Millimetres on the sheet for an inch: the door is 15.221 wide.
    inch = radius / 15.221
    # Right: its face runs out and right by an eighth of a turn from the front of the leg. The door
    # hangs 7/8 along it and 3/4 before it: (7/8 - 3/4) x 0.7071 = 0.088 along the wall and
    # 24 + (7/8 + 3/4) x 0.7071 = 25.149 out; it reaches 15.221 x 0.7071 = 10.763 both ways.
    hung, way = float(placed.at.value) + 0.088, 1
    if hand == "left":
        # In the mirror it hangs on the end that is far from the corner, and turns the other way.
        hung, way = float(placed.at.value) + 36 - 0.088, -1
    wanted = (hung, 25.149, hung + way * 10.763, 35.912, hung - way * 10.763, 35.912)
    seen = tuple(each / inch for each in (hinge_x, hinge_y, x, y, end_x, end_y))
    # The sheet's figures are to 1/100 mm, at this scale 1/50 of an inch of the room.
    assert seen == pytest.approx(wanted, abs=0.03)
    assert sweep == (way > 0)


def said_of_edges(unit: str, hand: str = "right") -> str:
    """What the page of a unit's frames says of their outer edges, its figures exact."""
    found = in_corner(unit, "face_frame", hand)
    assert found.job is not None
    (item,) = [each for each in built(found.job) if each.label == "S2"]
    return " ".join(
        piece if isinstance(piece, str) else str(round(float(piece.value), 4))
        for frame in frames(item)
        for note in stile_edges(found.job, frame.item.unit, frame.stiles)
        for piece in note
    )


def test_the_page_of_its_frame_says_how_its_stiles_meet_what_stands_beside() -> None:
    # 12 and 16 of 20: turned by 53.130 degrees, 180 - 53.13 = 126.87, half of it 26.565; between
    # the back arrises 2 x 3/4 x sin 26.565 = 0.6708, and 3/4 x tan 26.565 = 0.375 to close it.
    # At the other end 36.870 degrees: 143.13, 18.435, 0.4743 and 0.25.
    said = said_of_edges("diagonal_base 36 return 40")
    assert "edges of both stiles are square" in said
    left, right = said.split("At the right end")
    assert "make about 126.9deg" in left
    assert "opens to  0.6708  between" in left
    assert "bevelled about 26.6deg from square" in left
    assert "at its back, by  0.375 ." in left
    assert "make about 143.1deg" in right
    assert "opens to  0.4743  between" in right
    assert "bevelled about 18.4deg from square" in right
    assert "at its back, by  0.25 ." in right
    # 45 degrees at both ends: 2 x 3/4 x sin 22.5 = 0.5740 and 3/4 x tan 22.5 = 0.3107.
    alike = said_of_edges("diagonal_base 36 return 36")
    assert "At both ends this face and the one beside it make 135deg" in alike
    assert "opens to  0.574  between" in alike
    assert "bevelled 22.5deg from square" in alike
    assert "at its back, by  0.3107 ." in alike
    # In a left corner the ends have changed places.
    mirrored = said_of_edges("diagonal_base 36 return 40", "left")
    assert "make about 143.1deg" in mirrored.split("At the right end")[0]
    assert said_of_edges("corner_base 36 return 40") == ""


def test_the_stiles_are_as_their_page_says() -> None:
    unit = unit_of(in_corner("diagonal_base 36 return 40", "face_frame"))
    (right,) = [
        each for each in unit.parts if each.role == "stile" and each.address == "right_stile"
    ]
    (body,) = prisms_of(right)
    # A frame around the corner ends where its leg's front does, at (12, -16), and 3/4 behind it.
    assert any(abs(x - 12) < STEP and abs(z + 16) < STEP for x, z in body.outline)
    apart = min((x - Fraction("12.75")) ** 2 + (z + 16) ** 2 for x, z in body.outline)
    assert is_near(apart, str(Fraction("0.4743") ** 2), "0.001")
