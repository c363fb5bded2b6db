"""What enters a part makes its groove, and leaves stock."""

from fractions import Fraction

import pytest
from attrs import evolve

from casewright.compiler.joints.contact import make_contacts
from casewright.compiler.model import Extents, Part
from casewright.lang.source import Own
from tests.compiler.handmade import Ends, box, join, part
from tests.joints.boards import BACK, FLOOR, LEFT, RIGHT, figures, slugs

WALLS = (LEFT, RIGHT, FLOOR, BACK)
WALL_JOINS = (
    join("floor", "to", "left_side right_side"),
    join("back_panel", "into", "left_side right_side", play="1/32"),
)


def test_a_back_makes_its_grooves() -> None:
    parts, joints, blames = make_contacts(
        (LEFT, RIGHT, evolve(FLOOR, extents=_shallow()), BACK), (), WALL_JOINS
    )
    assert slugs(blames) == []
    (groove,) = next(each for each in parts if each.path == "left_side").cuts
    assert (groove.kind, groove.by, groove.depth.value) == ("groove", "back_panel", Fraction(3, 8))
    assert groove.box == box(("3/8", "3/4"), (0, 30), ("18 31/32", "19 9/32"))
    assert groove.depth.operator == "-"
    entered = joints[2]
    assert (entered.kind, entered.axis, entered.side) == ("groove", "across", -1)
    assert entered.area == box(("3/8", "3/4"), (0, 30), (19, "19 1/4"))
    assert entered.depth == groove.depth


def _shallow() -> Extents:
    return part("floor", ("3/4", "23 1/4"), (0, "3/4"), (0, 19)).extents


def test_an_overlap_no_join_names_is_reported_with_its_size() -> None:
    _, _, blames = make_contacts(WALLS, (), WALL_JOINS)
    assert slugs(blames) == ["parts-overlap"]
    assert blames[0].finding.headline == "back_panel and floor stand in the same space"
    assert figures(blames[0]) == [
        ("shared across", Fraction(45, 2)),
        ("shared up", Fraction(3, 4)),
        ("shared deep", Fraction(1, 4)),
    ]
    assert blames[0].origin == Own(5)
    assert blames[0].labels == ((Own(3), "floor"),)


def test_an_overlap_that_a_join_takes_for_touching_shows_the_join() -> None:
    joins = (*WALL_JOINS, join("back_panel", "to", "floor", line=103))
    _, _, blames = make_contacts(WALLS, (), joins)
    assert slugs(blames) == ["parts-overlap"]
    assert blames[0].labels == ((Own(3), "floor"), (Own(103), "says that they touch"))


@pytest.mark.parametrize(
    ("far", "found"),
    [("23 5/8", []), ("23 31/32", []), (24, ["groove-through"]), (25, ["groove-through"])],
)
def test_a_groove_leaves_stock(far: str | int, found: list[str]) -> None:
    shelf = part("shelf", ("3/4", far), (10, "10 3/4"), (0, 20))
    joins = (join("shelf floor", "to", "left_side"), join("shelf", "into", "right_side"))
    _, _, blames = make_contacts((LEFT, RIGHT, FLOOR, shelf), (), joins)
    assert slugs(blames) == found


def test_a_groove_through_shows_what_is_left() -> None:
    shelf = part("shelf", ("3/4", 24), (10, "10 3/4"), (0, 20))
    joins = (join("shelf", "to", "left_side"), join("shelf", "into", "right_side"))
    _, _, blames = make_contacts((LEFT, RIGHT, shelf), (), joins)
    assert blames[0].finding.headline == "shelf goes right through right_side"
    assert figures(blames[0]) == [
        ("right_side, thick", Fraction(3, 4)),
        ("less what shelf takes", Fraction(3, 4)),
        ("leaves", Fraction(0)),
    ]


@pytest.mark.parametrize(("depth", "found"), [("5/16", []), ("3/8", ["groove-through"])])
def test_grooves_from_both_faces_may_not_meet(depth: str, found: list[str]) -> None:
    post = part("post", (12, "12 3/4"), (0, 30), (0, 20))
    deep = Fraction(depth)
    left = part("left_shelf", (4, 12 + deep), (10, "10 3/4"), (0, 20))
    right = part("right_shelf", (Fraction(51, 4) - deep, 20), (10, "10 3/4"), (0, 20))
    _, joints, blames = make_contacts(
        (post, left, right), (), (join("left_shelf right_shelf", "into", "post"),)
    )
    assert slugs(blames) == found
    assert [each.side for each in joints] == [1, -1]


def test_what_only_touches_does_not_enter() -> None:
    _, _, blames = make_contacts((LEFT, FLOOR), (), (join("floor", "into", "left_side"),))
    assert slugs(blames) == ["joint-does-not-enter"]
    assert blames[0].finding.help == "let floor reach into left_side, or say `to`"


def test_what_lies_wholly_inside_has_come_in_through_no_face() -> None:
    block = part("block", (0, 4), (0, 8), (0, 9))
    pin = part("pin", (1, 2), (1, 4), (1, 6))
    _, _, blames = make_contacts((block, pin), (), (join("pin", "into", "block"),))
    assert slugs(blames) == ["joint-does-not-enter"]


STILE = part("stile", (0, 2), (0, 30), (0, "3/4"), thick="deep")


def tenoned(tenon: Ends, cheeks: Ends = ("1/4", "1/2")) -> Part:
    """A rail whose tenon is as long as `tenon` across and stands between `cheeks`."""
    long, (front, back) = (tenon[0], 2), cheeks
    cuts = [box(long, (10, 13), (0, front)), box(long, (10, 13), (back, "3/4"))]
    return part("rail", (tenon[0], 20), (10, 13), (0, "3/4"), cuts=cuts, thick="deep")


def test_a_tenon_enters_a_stile_by_its_edge() -> None:
    parts, joints, blames = make_contacts(
        (STILE, tenoned((1, 2))), (), (join("rail", "into", "stile"),)
    )
    assert slugs(blames) == []
    assert parts[0].cuts[0].box == box((1, 2), (10, 13), ("1/4", "1/2"))
    assert parts[0].cuts[0].depth.value == 1
    assert (joints[0].axis, joints[0].side) == ("across", -1)


def test_a_tenon_at_the_end_of_a_stile_still_enters_along_its_own_length() -> None:
    """Flush with the stile's top it reaches two edges: its depth is measured along the rail."""
    rail = evolve(tenoned((1, 2)), extents=part("rail", (1, 20), (27, 30), (0, "3/4")).extents)
    cuts = [evolve(each, box=evolve(each.box, up=rail.box.up)) for each in rail.cuts]
    parts, joints, blames = make_contacts(
        (STILE, evolve(rail, cuts=tuple(cuts))), (), (join("rail", "into", "stile"),)
    )
    assert blames == ()
    assert (joints[0].axis, parts[0].cuts[0].depth.value) == ("across", Fraction(1))


def test_a_tenon_may_not_come_out_at_the_far_edge() -> None:
    _, _, blames = make_contacts((STILE, tenoned((0, 2))), (), (join("rail", "into", "stile"),))
    assert slugs(blames) == ["groove-through"]
    assert figures(blames[0])[0] == ("stile, wide", Fraction(2))


def test_a_tenon_as_thick_as_the_stile_leaves_no_cheeks() -> None:
    rail = part("rail", (1, 20), (10, 13), (0, "3/4"), thick="deep")
    _, _, blames = make_contacts((STILE, rail), (), (join("rail", "into", "stile"),))
    assert slugs(blames) == ["groove-through"]


def test_play_may_not_open_the_cheeks() -> None:
    for play, found in (("1/8", []), ("1/4", ["groove-through"])):
        _, _, blames = make_contacts(
            (STILE, tenoned((1, 2))), (), (join("rail", "into", "stile", play=play),)
        )
        assert slugs(blames) == found


def test_play_stays_within_the_part() -> None:
    back = part("back_panel", ("3/8", 20), (0, 30), ("19 3/4", 20))
    parts, _, _ = make_contacts(
        (LEFT, back), (), (join("back_panel", "into", "left_side", play="1/16"),)
    )
    assert parts[0].cuts[0].box.deep == (Fraction(315, 16), Fraction(20))


def test_a_groove_takes_what_a_notched_part_fills() -> None:
    """The back is notched away below: its groove starts above the notch."""
    back = part(
        "back_panel", ("3/8", 20), (0, 30), (19, "19 1/4"), cuts=[box((0, 20), (0, 4), (19, 20))]
    )
    parts, _, blames = make_contacts((LEFT, back), (), (join("back_panel", "into", "left_side"),))
    assert blames == ()
    assert parts[0].cuts[0].box.up == (Fraction(4), Fraction(30))
