"""A seen end shows no fastener: what meets it is driven from inside, and can be."""

from collections.abc import Mapping

import pytest

from casewright.compiler.model import Joint, Part, Unit
from tests.rooms.corners import in_corner
from tests.rooms.corners import unit_of as corner_unit
from tests.stdlib.kitchens import check_whole, kitchen, unit_of, units_of
from tests.stdlib.sizes import METRIC, SIZES, USUAL, lines

SEEN = "shown both\n ends birch_ply"

METRIC_SEEN = "shown both\n ends birch_ply_18"

WIDTHS: dict[str, tuple[Mapping[str, str], ...]] = {
    "frameless": (USUAL, SIZES["frameless"].narrowest),
    "face_frame": (USUAL, SIZES["face_frame"].narrowest),
    "metric_frameless": (METRIC,),
    "metric_face_frame": (METRIC,),
}


def into_sides(unit: Unit) -> list[tuple[Joint, Part]]:
    """The joints that hold something to one of the box's outer sides, with that side."""
    by_path = {part.path: part for part in unit.parts}
    return [
        (joint, by_path[joint.second])
        for joint in unit.joints
        if by_path[joint.second].role == "side"
        and by_path[joint.second].assembly == "box"
        and joint.axis == "across"
        and joint.fixing is not None
        and not by_path[joint.first].hardware
    ]


@pytest.mark.parametrize(
    ("built", "widths"), [(built, widths) for built, of in WIDTHS.items() for widths in of]
)
def test_seen_ends_are_joined_from_inside(built: str, widths: Mapping[str, str]) -> None:
    metric = built.startswith("metric")
    shop = METRIC_SEEN if metric else SEEN
    for unit in units_of(kitchen(lines(widths), built, shop=shop, metric=metric)):
        check_whole(unit)
        joints = into_sides(unit)
        assert {side.address for _, side in joints} == {"left_side", "right_side"}
        for joint, _ in joints:
            assert joint.fixing is not None
            assert joint.fixing.drive != "through", (unit.name, joint.first)


def test_what_stands_hidden_is_driven_through() -> None:
    unit = unit_of("door_base 18", shop="shown left\n ends birch_ply")
    drives = {
        (side.address, joint.fixing and joint.fixing.drive) for joint, side in into_sides(unit)
    }
    assert drives >= {("left_side", "inside"), ("right_side", "through")}
    assert ("left_side", "through") not in drives


def test_an_applied_end_covers_what_is_driven_through_the_side() -> None:
    unit = unit_of("door_base 18", shop="shown left\n ended applied\n ends birch_ply")
    assert {joint.fixing.drive for joint, _ in into_sides(unit) if joint.fixing} >= {"through"}
    (end,) = (part for part in unit.parts if part.address == "left_end")
    held = [joint for joint in unit.joints if end.path in (joint.first, joint.second)]
    assert all(joint.fixing is not None and joint.fixing.drive != "through" for joint in held)


def test_screws_are_counted_along_what_meets_the_end() -> None:
    unit = unit_of("door_base 18", shop="shown left\n ends birch_ply")
    found = {
        joint.first.rpartition(".")[2]: sum(each.count for each in joint.fasteners)
        for joint, side in into_sides(unit)
        if side.address == "left_side" and joint.fixing and joint.fixing.drive == "inside"
    }
    # One an inch from each end and at most 6 apart: a floor of 23 has 21 between, 4 spaces and 5;
    # a stretcher of 5 has 3 between and 2, a strip of 4 has 2 between and 2.
    assert found == {"floor": 5, "top_stretcher": 2, "hanging_strip": 2}


@pytest.mark.parametrize("built", ["frameless", "face_frame"])
@pytest.mark.parametrize("line", ["corner_base 36 return 40", "diagonal_base 36 return 36"])
def test_the_ends_of_a_corner_unit_are_joined_from_inside_where_they_are_seen(
    line: str, built: str
) -> None:
    def drives(around: str) -> dict[str, set[str]]:
        found = in_corner(f"{line} ends birch_ply", built, around=around)
        assert "fastener-shows" not in {each.slug for each in found.findings}
        unit = corner_unit(found)
        sides = {each.path: each.address for each in unit.parts if each.role == "side"}
        by_side: dict[str, set[str]] = {}
        for joint in unit.joints:
            if joint.second in sides and joint.fixing is not None and joint.fixing.drive:
                by_side.setdefault(sides[joint.second], set()).add(joint.fixing.drive)
        return by_side

    # Its left end stands beside a space; around the corner another unit hides its other end.
    assert drives("") == {"left_side": {"inside"}, "right_side": {"through"}}
    assert drives("space 6") == {"left_side": {"inside"}, "right_side": {"inside"}}
