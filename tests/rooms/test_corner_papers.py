"""What papers show of a corner unit: on both of its walls, and before both of its mouths."""

from fractions import Fraction

import pytest

from casewright.compiler.papers.drawings.chains import Link
from casewright.compiler.papers.drawings.drawing import View
from casewright.compiler.papers.drawings.elevation import elevation, row_chain
from casewright.compiler.papers.drawings.frame_views import frames
from casewright.compiler.papers.drawings.plan_view import plan_view
from casewright.compiler.papers.drawings.unit_views import unit_views
from casewright.compiler.papers.pieces import Built
from casewright.compiler.papers.walls import Side, sides
from tests.rooms.rooms import placed_of
from tests.rooms.test_corner_units import job_of


def side_of(built: str, wall: str) -> Side:
    (found,) = (side for side in sides(job_of(built)) if side.name == wall)
    return found


def lengths(links: list[Link]) -> list[tuple[str, Fraction]]:
    return [(link.figure.address, link.figure.value) for link in links]


def test_the_wall_around_shows_both_legs_that_end_there() -> None:
    side = side_of("frameless", "east")
    (row,) = side.rows
    assert [(thing.holder, thing.left, thing.around) for thing in row.things] == [
        ("S2", 0, True),
        ("S3", 36, False),
        ("S4", 60, True),
    ]
    # 36 + 24 + 36 = 96: the chain closes, and each leg's figure is its reach along this wall.
    _, links = row_chain(side, row, View(0.0, 0.0, 16))
    assert lengths(links) == [("S2.return", 36), ("S3.across", 24), ("S4.return", 36)]


def test_its_own_wall_shows_it_as_wide_as_it_is() -> None:
    side = side_of("frameless", "north")
    assert [thing.holder for thing in side.things if thing.placed.tag] == ["S1", "S2"]
    _, links = row_chain(side, side.rows[0], View(0.0, 0.0, 16))
    assert lengths(links)[-1] == ("S2.across", 36)


@pytest.mark.parametrize("built", ["frameless", "face_frame"])
def test_both_walls_name_it_and_a_door_swings_on_each(built: str) -> None:
    job = job_of(built)
    for wall in ("north", "east"):
        side = side_of(built, wall)
        drawn = elevation(job, side)
        assert "S2" in [each.text for each in drawn.letters]
        assert any("meet at the hinge side" in str(each) for each in drawn.note)
        assert any("arcs are doors" in str(each) for each in plan_view(job, side).note)


def test_its_sheet_has_a_view_around_the_corner() -> None:
    job = job_of("frameless")
    placed = placed_of(job, "S2")
    assert placed.unit is not None
    names = [each.name for each in unit_views(job, Built(placed, placed.unit)).drawings]
    assert names[:2] == ["S2_front", "S2_around"]


def test_each_frame_is_seen_before_its_mouth() -> None:
    placed = placed_of(job_of("face_frame"), "S2")
    assert placed.unit is not None
    found = frames(Built(placed, placed.unit))
    assert [frame.width.value for frame in found] == [12, 12]
    for frame in found:
        left, right = (part.title for part in frame.stiles)
        assert (left, right) == ("left stile", "right stile")
