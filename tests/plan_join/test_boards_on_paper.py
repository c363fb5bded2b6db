"""The largest framed kitchen's solid wood sawn on paper: boards cut by cut, planed, glued, cut to
size.

Nothing of the planner takes part: a cut is a kerf that must go right through one board; what is
left on the bench at the end is held against the parts of the job.
"""

from collections import Counter
from collections.abc import Callable, Iterator
from fractions import Fraction
from functools import cache

import pytest
from attrs import evolve

from casewright.compiler.cutting.board_cuts import BoardCut, LumberPlan, PlannedBoard
from casewright.compiler.cutting.board_plans import board_plans
from casewright.compiler.cutting.boards import MILLED
from casewright.compiler.model import Job, Part
from tests.plan_join.kitchens import QUICK, built, largest
from tests.plan_join.test_sawn_on_paper import Lying, counted

ROUND = MILLED["in"]
"""What a rough size is taken up to."""


@cache
def planned() -> tuple[Job, tuple[LumberPlan, ...]]:
    job = built(largest())
    assert job is not None
    plans, findings = board_plans(job, QUICK)
    assert [each.headline for each in findings] == []
    assert plans.unplanned == ()
    return job, plans.plans


def cleared(plan: LumberPlan, board: PlannedBoard) -> Lying:
    """A board without its ends and defects, one edge jointed."""
    boards = plan.wanted.boards
    assert board.clear <= board.length - 2 * boards.ends - board.length * boards.defects
    jointed = boards.edge if boards.wide is not None else Fraction(0)
    return Lying(boards.ends, jointed, board.clear, board.width - jointed)


def sawn(plan: LumberPlan, board: PlannedBoard, kerf: Fraction) -> list[Lying]:
    """What is on the bench when every cut of a board is done."""
    bench = [cleared(plan, board)]
    assert [each.number for each in board.cuts] == list(range(1, len(board.cuts) + 1))
    for each in board.cuts:
        bench = list(cut(bench, each, kerf))
    return bench


def cut(bench: list[Lying], each: BoardCut, kerf: Fraction) -> Iterator[Lying]:
    """The bench after one cut, which must go right through exactly one board."""
    hit = [board for board in bench if lies_under(board, each)]
    assert len(hit) == 1, f"cut {each.number} goes through {len(hit)} boards"
    (board,) = hit
    assert each.way == "rip" or board.width == each.strip
    yield from (other for other in bench if other is not board)
    if each.way == "rip":
        near = Lying(board.along, board.across, board.length, each.across - kerf / 2 - board.across)
        far = Lying(board.along, near.far + kerf, board.length, board.far - near.far - kerf)
        assert near.width == each.setting
    else:
        near = Lying(board.along, board.across, each.along - kerf / 2 - board.along, board.width)
        far = Lying(near.end + kerf, board.across, board.end - near.end - kerf, board.width)
        assert near.length == each.setting
    # The blade may run off the edge with a part of its width; then nothing is left beyond it.
    yield from (piece for piece in (near, far) if piece.length > 0 and piece.width > 0)


def lies_under(board: Lying, each: BoardCut) -> bool:
    """Whether a cut runs from edge to edge of a board."""
    if each.way == "rip":
        through = (each.along, each.to_along) == (board.along, board.end)
        return through and board.across < each.across < board.far + Fraction(1, 16)
    through = (each.across, each.to_across) == (board.across, board.far)
    return through and board.along < each.along < board.end + Fraction(1, 16)


def pieces_of(plan: LumberPlan, kerf: Fraction) -> dict[str, Lying]:
    """Every rough piece of a plan by its name there."""
    found: dict[str, Lying] = {}
    for board in plan.boards:
        bench = Counter(sawn(plan, board, kerf))
        for each in board.lies:
            lying = Lying(each.along, each.across, each.length, each.width)
            assert bench[lying] == 1, f"{each.piece} isn't on the bench"
            del bench[lying]
            if each.piece is not None:
                assert each.piece.address not in found
                found[each.piece.address] = lying
        for left in bench:
            assert min(left.length, left.width) <= Fraction(1, 2), "a board nobody named"
    return found


def milled(plan: LumberPlan, rough: dict[str, Lying]) -> dict[str, tuple[Fraction, Fraction]]:
    """What the pieces measure once edges are jointed and ends cut off; strips are glued up."""
    boards = plan.wanted.boards
    done: dict[str, tuple[Fraction, Fraction]] = {}
    strips: dict[str, list[Fraction]] = {}
    for address, lying in rough.items():
        piece = plan.wanted.pieces[address]
        length, width = lying.length - 2 * boards.over, lying.width - 2 * boards.edge
        if not piece.strips:
            done[address] = (length, width)
            continue
        part = address.rpartition(".")[0]
        strips.setdefault(part, []).append(width)
        done[part] = (length, sum(strips[part], Fraction(0)))
        assert len(strips[part]) <= piece.strips
    for part, found in strips.items():
        first = next(p for a, p in plan.wanted.pieces.items() if a.rpartition(".")[0] == part)
        assert len(found) == first.strips
    return done


def wanted(job: Job, plan: LumberPlan) -> dict[str, Part]:
    return {
        f"{placed.address}.{part.address}": part
        for placed in job.placed
        for part in (placed.unit.parts if placed.unit is not None else ())
        if part.material.name == plan.material.name and not part.hardware
    }


@pytest.mark.parametrize("index", [0, 1])
def test_whoever_follows_the_lumber_plans_ends_with_exactly_the_parts(index: int) -> None:
    job, plans = planned()
    assert len(plans) == 2
    assert job.saw is not None
    plan, kerf = plans[index], job.saw.kerf.value
    done = milled(plan, pieces_of(plan, kerf))
    parts = wanted(job, plan)
    assert len(parts) > 50
    assert done.keys() == parts.keys()
    assert plan.wanted.rough > plan.wanted.surfaced >= plan.material.thick.value
    glued = {a.rpartition(".")[0] for a, piece in plan.wanted.pieces.items() if piece.strips}
    for address, part in parts.items():
        length, width = done[address]
        assert part.thick.value <= plan.wanted.surfaced
        # What is over is cut off last, with the rounding of the rough size.
        assert 0 <= length - part.cut_length.value < ROUND
        strips = plan.wanted.pieces.get(f"{address}.1")
        most = ROUND * strips.strips if strips is not None and address in glued else ROUND
        assert 0 <= width - part.cut_width.value < most
        assert part.cut_length.value + counted(part, True) == part.length.value
        assert part.cut_width.value + counted(part, False) == part.width.value


def moved(board: PlannedBoard) -> PlannedBoard:
    """A board with its last cut a step farther out."""
    last, step = board.cuts[-1], Fraction(1, 32)
    shifted = (
        evolve(last, across=last.across + step, to_across=last.to_across + step)
        if last.way == "rip"
        else evolve(last, along=last.along + step, to_along=last.to_along + step)
    )
    return evolve(board, cuts=(*board.cuts[:-1], shifted))


def unsawn(board: PlannedBoard) -> PlannedBoard:
    """A board whose last cut is forgotten."""
    return evolve(board, cuts=board.cuts[:-1])


def swapped(board: PlannedBoard) -> PlannedBoard:
    """A board that is sawn from the last cut to the first."""
    cuts = board.cuts[::-1]
    return evolve(board, cuts=tuple(evolve(each, number=i) for i, each in enumerate(cuts, 1)))


@pytest.mark.parametrize("change", [moved, unsawn, swapped])
def test_sawing_a_board_otherwise_is_found_out(
    change: Callable[[PlannedBoard], PlannedBoard],
) -> None:
    job, plans = planned()
    assert job.saw is not None
    plan = plans[0]
    other = evolve(plan, boards=(change(plan.boards[0]), *plan.boards[1:]))
    with pytest.raises(AssertionError):
        pieces_of(other, job.saw.kerf.value)
