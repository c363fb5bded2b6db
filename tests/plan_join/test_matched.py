"""Matched parts come from one piece of one sheet, in order; whoever saws it ends with the parts."""

import json
from collections.abc import Callable
from fractions import Fraction
from itertools import pairwise

import pytest
from attrs import evolve

from casewright.compiler.cutting.matched import matched
from casewright.compiler.cutting.plan_files import check_files, plan_file
from casewright.compiler.cutting.sawing import Board, MaterialPlan
from casewright.compiler.cutting.sheet_plans import SheetPlans, sheet_plans
from casewright.compiler.model import Job
from casewright.compiler.plan.request import Inner, Piece, Request, Stock, check_request
from tests.compiler.examples import compiled
from tests.plan_join.test_sawn_on_paper import pieces_of

KERF = Fraction(1, 8)

TEXT = """
use kitchen
saw table_saw { kerf 1/8  trim 1/4 }
sheet figured {
  thick   3/4
  stock   48 by 96
  grain   yes
  matches front
}
unit faced from cupboard {
  part upper of figured {
    up     12 to top
    deep   to front
    grain  up
    serves front
  }
  part middle of figured  up 9 from bottom + 8  deep to front  grain up  serves front
  part lower of figured   up 7 from bottom      deep to front  grain up  serves front
  join upper middle lower to left_side right_side with screwed
  step upper middle lower
}
unit paired from cupboard {
  part left_face of figured   across 14 from left  deep to front  grain up  serves front
  part right_face of figured  across 14 to right   deep to front  grain up  serves front
  join left_face to left_side with screwed
  join right_face to right_side with screwed
  step left_face right_face
}
run sink_wall on north from left {
  S1: faced 30
  S2: paired 30
}
"""


@pytest.fixture(scope="module")
def job() -> Job:
    built = compiled({"page.case": TEXT.encode()}, "page.case")
    assert [each.headline for each in built.findings if each.severity.value == "error"] == []
    assert built.job is not None
    return built.job


@pytest.fixture(scope="module")
def plans(job: Job) -> SheetPlans:
    made, findings = sheet_plans(job)
    assert findings == ()
    return made


@pytest.fixture(scope="module")
def plan(plans: SheetPlans) -> MaterialPlan:
    return next(each for each in plans.plans if each.material.name == "figured")


def boards(plan: MaterialPlan, address: str) -> list[tuple[int, Board]]:
    return [
        (sheet.number, board)
        for sheet in plan.sheets
        for board in sheet.boards
        if board.address == address
    ]


def test_parts_over_one_another_and_side_by_side_are_sets(job: Job) -> None:
    (figured,) = [each for each in job.materials if each.name == "figured"]
    found = {
        placed.address: [
            ([one.part.address for one in each.parts], each.along)
            for each in matched(job, figured, lambda _: True).sets
            if each.holder == placed.address
        ]
        for placed in job.placed
        if placed.unit is not None
    }
    assert found["S1"] == [(["upper", "middle", "lower"], True)]
    assert found["S2"] == [(["left_face", "right_face"], False)]


@pytest.mark.parametrize(
    ("names", "along"),
    [(("S1.upper", "S1.middle", "S1.lower"), True), (("S2.left_face", "S2.right_face"), False)],
)
def test_they_lie_on_one_sheet_in_order_with_a_cut_between(
    plan: MaterialPlan, names: tuple[str, ...], along: bool
) -> None:
    found = [boards(plan, name) for name in names]
    assert [len(each) for each in found] == [1] * len(names)
    assert len({number for ((number, _),) in found}) == 1
    lying = [board for ((_, board),) in found]
    for one, other in pairwise(lying):
        if along:
            assert other.along == one.along + one.length + KERF
            assert other.across == one.across
        else:
            assert other.across == one.across + one.width + KERF
            assert other.along == one.along


def test_whoever_saws_the_sheets_ends_with_the_parts(job: Job, plan: MaterialPlan) -> None:
    sawn = pieces_of(plan, KERF)
    wanted = {
        f"{placed.address}.{part.address}": (part.cut_length.value, part.cut_width.value)
        for placed in job.placed
        for part in (placed.unit.parts if placed.unit is not None else ())
        if part.material.name == "figured"
    }
    assert sawn == wanted


def test_a_plan_that_takes_them_apart_does_not_hold(plans: SheetPlans) -> None:
    made = plans.planned["figured"]
    text = plan_file("figured", made.request, made.plan)
    checked, problems = check_files(text, made.certificate)
    assert checked is not None
    assert problems == ()
    document = json.loads(text)
    together = next(each for each in document["list"]["pieces"] if "inner" in each)
    together["inner"].pop()
    _, problems = check_files(json.dumps(document), made.certificate)
    assert "matched-not-held" in {each.slug for each in problems}


@pytest.mark.parametrize(
    ("change", "slug"),
    [
        (lambda p: p, ""),
        (lambda p: evolve(p, apart="saw"), "matched-not-held"),
        (lambda p: evolve(p, apart="rip"), "matched-not-held"),
        (lambda p: evolve(p, length=Fraction(21)), "matched-not-held"),
        (lambda p: evolve(p, quantity=2), "matched-not-held"),
        (lambda p: evolve(p, inner=p.inner[:1]), "matched-not-held"),
        (lambda p: evolve(p, name="a"), "name-twice"),
    ],
)
def test_a_piece_must_hold_its_matched_parts(change: Callable[[Piece], Piece], slug: str) -> None:
    piece = Piece(
        "set", "", Fraction(161, 8), Fraction(5),
        inner=(Inner("a", Fraction(12), Fraction(5)), Inner("b", Fraction(8), Fraction(4))),
        apart="crosscut",
    )  # fmt: skip
    request = Request("in", (piece,), (Stock("ply", Fraction(96), Fraction(48)),))
    request = evolve(request, saw=evolve(request.saw, kerf=KERF))
    changed = evolve(request, pieces=(change(piece),))
    assert [each.slug for each in check_request(changed)] == ([slug] if slug else [])
