"""Fronts whose figure runs on along a run: one piece for neighbouring units, in order."""

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

import pytest

from casewright.compiler.cutting.board_plans import board_plans
from casewright.compiler.cutting.sawing import Board, MaterialPlan
from casewright.compiler.cutting.sheet_plans import SheetPlans, sheet_plans
from casewright.compiler.model import Job
from casewright.lang.findings import Finding, Severity
from tests.compiler.examples import compiled
from tests.plan_join.test_sawn_on_paper import pieces_of

KERF = Fraction(1, 8)

TEXT = """
use kitchen
saw table_saw { kerf 1/8  trim 1/4 }
{figured}
{more}
unit paired from cupboard {
  part left_face of figured   across 9 from left  deep to front  grain {grain}  serves front
  part right_face of figured  across 9 to right   deep to front  grain {grain}  serves front
  join left_face to left_side with screwed
  join right_face to right_side with screwed
  step left_face right_face
}
unit single from cupboard {
  part face of figured  up 9 to top  deep to front  grain {grain}  serves front
  join face to left_side right_side with screwed
  step face
}
run sink_wall on north from left {
{units}
}
"""

ROW = """
  S1: paired 20
  S2: paired 20
  S3: paired 20
"""


def built(sheet: str, units: str, grain: str = "up", more: str = "") -> Job:
    text = TEXT.replace("{figured}", sheet).replace("{units}", units).replace("{more}", more)
    found = compiled({"page.case": text.replace("{grain}", grain).encode()}, "page.case")
    assert [each.headline for each in found.findings if each.severity is Severity.ERROR] == []
    assert found.job is not None
    return found.job


def figured(said: str) -> str:
    return f"sheet figured {{ thick 3/4  stock 48 by 96  grain yes  matches front  {said} }}"


def planned(job: Job) -> tuple[MaterialPlan, Sequence[Finding]]:
    plans, findings = sheet_plans(job)
    return _figured(plans), findings


def _figured(plans: SheetPlans) -> MaterialPlan:
    return next(each for each in plans.plans if each.material.name == "figured")


def pieces(plan: MaterialPlan) -> list[list[Board]]:
    """The boards of each matched piece, in order across the sheet or along it."""
    found: dict[str, list[Board]] = {}
    for sheet in plan.sheets:
        for board in sheet.boards:
            if board.matched:
                found.setdefault(f"{sheet.number} {board.matched}", []).append(board)
    return [sorted(each, key=lambda one: (one.along, one.across)) for each in found.values()]


def test_neighbours_of_one_height_come_from_one_piece_in_their_order_along_the_run() -> None:
    plan, findings = planned(built(figured("along run"), ROW))
    addresses = [[each.address for each in piece] for piece in pieces(plan)]
    assert ["S1.left_face", "S1.right_face", "S2.left_face", "S2.right_face"] in addresses
    assert ["S3.left_face", "S3.right_face"] in addresses
    for piece in pieces(plan):
        for one, other in pairwise(piece):
            assert other.across == one.across + one.width + KERF
            assert other.along == one.along
    assert [each.slug for each in findings] == ["figure-breaks"]
    assert "between S2 and S3" in findings[0].headline
    assert set(findings[0].tags) == {"S2", "S3"}


@pytest.mark.parametrize("said", ["", "along unit"])
def test_within_a_unit_is_what_is_meant_where_nothing_is_said(said: str) -> None:
    plan, findings = planned(built(figured(said), ROW))
    assert {tuple(each.holder for each in piece) for piece in pieces(plan)} == {
        (tag, tag) for tag in ("S1", "S2", "S3")
    }
    assert findings == ()


def test_whoever_saws_the_row_ends_with_the_parts() -> None:
    job = built(figured("along run"), ROW)
    plan, _ = planned(job)
    assert pieces_of(plan, KERF) == {
        f"{placed.address}.{part.address}": (part.cut_length.value, part.cut_width.value)
        for placed in job.placed
        for part in (placed.unit.parts if placed.unit is not None else ())
        if part.material.name == "figured"
    }


def test_a_row_ends_where_a_thing_stands_between_or_the_height_is_another() -> None:
    row = "  S1: paired 20\n  space 6\n  S2: paired 20\n  S3: single 7\n  S4: single 7\n"
    plan, findings = planned(built(figured("along run"), row))
    assert {tuple(each.holder for each in piece) for piece in pieces(plan)} == {
        ("S1", "S1"),
        ("S2", "S2"),
        ("S3", "S4"),
    }
    assert findings == ()


def test_drawer_fronts_of_a_run_come_from_one_board_one_after_another() -> None:
    lumber = "lumber figured { thick 3/4  grain yes  matches front  along run }"
    boards = "boards figured { lengths 96  wide 10  over 1/2  edge 1/8  ends 1 }"
    units = "  S1: single 20\n  S2: single 20\n  S3: single 20\n"
    job = built(lumber, units, "across", boards)
    plans, findings = board_plans(job)
    assert findings == ()
    plan = plans.of("figured")
    assert plan is not None
    (board,) = plan.boards
    fronts = sorted((each for each in board.lies if each.piece), key=lambda each: each.along)
    named = [each.piece.address for each in fronts if each.piece]
    assert named == ["S1.face", "S2.face", "S3.face"]
    for one, other in pairwise(fronts):
        assert other.along == one.along + one.length + KERF
