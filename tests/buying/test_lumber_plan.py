"""Boards planned from a job's own parts: how many, how they are cut, and what is bought.

Everything is worked out by hand from the kitchen's text, but for the tack room, which is sawn on
paper.
"""

import csv
import io
from fractions import Fraction
from itertools import combinations

import pytest
from attrs import evolve

from casewright.compiler.cutting.board_cuts import LumberPlan, Lying
from casewright.compiler.cutting.board_plans import BoardPlans, board_plans
from casewright.compiler.cutting.plan_files import HeldPlan, check_files, plan_file
from casewright.compiler.model import Job
from casewright.compiler.papers.lists.lumber_list import lumber_csv
from casewright.compiler.papers.pages.lumber_pages import lumber_pages, rough_words, said_of
from casewright.compiler.papers.pages.press import Press
from casewright.compiler.plan.lumber import TWO_FACES
from casewright.compiler.shop.buying import buying_list
from casewright.compiler.shop.reckoning import shop_work
from casewright.lang.cells import literal
from casewright.lang.measure import INCH, System
from casewright.lang.printing import Printing
from tests.buying.shops import planks, tack_room

KERF = Fraction(1, 8)
SAW = "saw bench { kerf 1/8 }"


def with_boards(count: int, boards: str, *, wide: str = "6", high: str = "96") -> Job:
    """Planks, and how their boards come."""
    return planks(count, wide=wide, high=high, more=f"{SAW}\nboards oak {{ {boards} }}")


def plan_of(job: Job) -> LumberPlan:
    """The one lumber plan of a job that has nothing to complain of."""
    plans, findings = board_plans(job)
    assert findings == ()
    assert plans.unplanned == ()
    (plan,) = plans.plans
    return plan


# Cutting stock in one dimension, worked out by hand: each section is bought at its own width.
@pytest.mark.parametrize(
    ("count", "high", "boards", "fewest"),
    [
        (7, "51", "lengths 100", 7),  # two are longer than 100
        (7, "50", "lengths 100", 7),  # a kerf too short for two
        (7, "50", "lengths (100 + 1/8)", 4),  # two and the kerf between them fill it
        (9, "30", "lengths 96", 3),  # three and two kerfs are 90 1/4
        (9, "30", "lengths 96  ends 3", 5),  # 90 are left, a quarter too short for three
        (9, "30", "lengths 96  defects 10%", 5),  # 86.4 are left
        (9, "30", "lengths 96  over 7/8", 3),  # three of 31 3/4 and two kerfs are 95 1/2
        (9, "30", "lengths 96  over 1", 5),  # three of 32 leave no room for a kerf
    ],
)
def test_the_fewest_boards_of_one_section(count: int, high: str, boards: str, fewest: int) -> None:
    plan = plan_of(with_boards(count, boards, high=high))
    assert plan.proved
    assert len(plan.boards) == fewest
    assert plan.headline == f"{fewest} boards, and {fewest - 1} can't do"


def test_sections_share_boards_that_are_wider_than_they_are() -> None:
    """Four 2s and their kerfs are 8 3/8: five planks 2 wide take two boards 8 1/2 wide."""
    plan = plan_of(with_boards(5, "lengths 96  wide 8 1/2", wide="2"))
    assert plan.headline == "2 boards, and 1 can't do"
    assert [(rip.setting, rip.count) for rip in plan.rips] == [(Fraction(2), 5)]
    narrower = plan_of(with_boards(5, "lengths 96  wide (8 1/2 - 1/4)", wide="2"))
    assert narrower.headline == "2 boards, and 1 can't do"
    assert max(sum(each.piece is not None for each in b.lies) for b in narrower.boards) == 3


def test_the_lengths_that_take_the_least_wood() -> None:
    """Two planks of 50: one board of 101 takes less than two of 60; one plank, a board of 60."""
    plan = plan_of(with_boards(2, "lengths 60 101 120", high="50"))
    assert [board.length for board in plan.boards] == [101]
    assert plan.headline == "1 board; no other choice of lengths takes less wood"
    single = plan_of(with_boards(1, "lengths 60 101 120", high="50"))
    assert [board.length for board in single.boards] == [60]


def test_rough_sizes_take_in_what_milling_takes() -> None:
    """6 and 1/16 an edge is 6 1/8; 95 and 1/2 an end is 96; both stand on the mill's sixteenths."""
    plan = plan_of(with_boards(1, "lengths 97  over 1/2  edge 1/16", high="95"))
    (piece,) = plan.wanted.pieces.values()
    assert (piece.rough_width, piece.rough_length) == (Fraction(49, 8), 96)
    assert (piece.width, piece.length) == (6, 95)
    odd = plan_of(with_boards(1, "lengths 97  edge 1/60", high="95"))
    (piece,) = odd.wanted.pieces.values()
    assert piece.rough_width == 6 + Fraction(1, 16)


def test_rough_stock_is_by_the_usual_allowance() -> None:
    """3/4 is planed from 4/4, as 13/16 is what surfacing leaves of it (Wood Handbook, ch. 6)."""
    plan = plan_of(with_boards(1, "lengths 96"))
    assert plan.wanted.rough == 1
    assert TWO_FACES[plan.wanted.rough] == Fraction(13, 16)
    assert rough_words(Fraction(5, 4), System.INCHES, Printing()) == "5/4 (1\u00a01/4 rough)"
    stated = plan_of(with_boards(1, "lengths 96  rough 5/4"))
    assert stated.wanted.rough == Fraction(5, 4)


def test_what_is_bought_is_tallied_by_the_graders_rules() -> None:
    """A board 6 x 8 ft has a surface measure of 4 (NHLA: width x feet / 12): three of 4/4 are 12
    board feet, of 5/4 they are 15."""
    job = with_boards(3, "lengths 96  wide 6")
    (row,) = [
        each for each in buying_list(job, (), (), board_plans(job)[0]).rows
        if each.section == "lumber"
    ]  # fmt: skip
    assert row.needed == 12
    assert row.size == "3 of 6 × 96"
    assert plan_of(with_boards(3, "lengths 96  wide 6  rough 5/4")).bought.board_feet == 15


def test_with_a_plan_no_waste_is_added_to_it() -> None:
    """The plan has the waste in it; without one, 12 net at 30 % waste are 12 / 0.7 (by yield)."""
    waste = "buy oak waste 30%"
    job = planks(3, more=f"{SAW}\nboards oak {{ lengths 96  wide 6 }}\n{waste}")
    plain = planks(3, more=f"{SAW}\n{waste}")
    (planned,) = [
        each for each in buying_list(job, (), (), board_plans(job)[0]).rows
        if each.section == "lumber"
    ]  # fmt: skip
    (unplanned,) = [each for each in buying_list(plain, ()).rows if each.section == "lumber"]
    assert planned.needed == 12
    assert unplanned.needed == Fraction(120, 7)


def test_what_is_wider_than_a_strip_is_glued_up() -> None:
    """14 wide from strips of 5 at most, 1/8 off each strip's two edges: 14 / (5 - 1/8) is more than
    two, so three, ripped at 14/3 + 1/8, taken up to 4 13/16."""
    plan = plan_of(with_boards(1, "lengths 96  wide 6  strip 5  edge 1/16", wide="14"))
    (panel,) = plan.panels
    assert panel.glued.strips == 3
    assert panel.glued.ripped_width == Fraction(77, 16)
    assert 3 * (panel.glued.ripped_width - Fraction(1, 8)) >= 14
    strips = [lying.piece for board in plan.boards for lying in board.lies if lying.piece]
    assert sorted((each.strip, each.strips) for each in strips) == [(1, 3), (2, 3), (3, 3)]
    # Three strips of a panel are one part.
    assert plan.yielded == Fraction(14 * 96, 3 * 6 * 96)


def test_parts_whose_figure_runs_on_come_from_one_board() -> None:
    """Three planks over one another in a unit, cut one after another from one board, in order."""
    drawers = stacked_fronts("boards ash { lengths 60  wide 30  first crosscut }")
    plan = plan_of(drawers)
    (board,) = plan.boards
    fronts = [lying for lying in board.lies if lying.piece is not None]
    assert {each.piece.matched for each in fronts if each.piece} == {"S1.matched_1"}
    assert len({each.along for each in fronts}) == 1
    order = [
        each.piece.title for each in sorted(fronts, key=lambda each: each.across) if each.piece
    ]
    assert order == ["upper", "middle", "lower"]
    apart, findings = board_plans(stacked_fronts("boards ash { lengths 60  wide 9 }"))
    assert [each.slug for each in findings] == ["matched-parts-too-large"]
    assert len(apart.plans[0].boards) == 3


def stacked_fronts(boards: str) -> Job:
    """Three fronts of 8 high and 30 wide over one another, their grain across."""
    return planks(
        1,
        more=f"""{SAW}
lumber ash {{ thick 3/4  grain yes  matches front }}
{boards}
""",
        unit="""
unit plank  bare  built nothing_else  {
  high 24
  depth 3/4
  part upper  of ash  up 8 to top  deep from front  grain across  serves front
  part middle of ash  up upper.bottom - 8 .. upper  deep from front  grain across  serves front
  part lower  of ash  up bottom .. middle  deep from front  grain across  serves front
  join upper to middle
  join middle to lower
  step upper middle lower
}
""",
        wide="30",
    )


@pytest.mark.parametrize("index", [0, 1])
def test_the_tack_rooms_boards_are_sawn_on_paper(index: int) -> None:
    """Every solid part once and large enough, inside the clear board, a kerf between any two."""
    job, work = tack_room()
    plan = work.boards.plans[index]
    wanted = {
        f"{placed.address}.{part.address}": part
        for placed in job.placed
        if placed.unit is not None
        for part in placed.unit.parts
        if part.material.name == plan.material.name and not part.hardware
    }
    boards = plan.wanted.boards
    cut: list[str] = []
    for board in plan.boards:
        lying = [each for each in board.lies if each.piece is not None]
        for each in lying:
            assert each.piece is not None
            cut.append(each.piece.address)
            part = wanted[each.piece.address]
            assert each.length >= part.length.value + 2 * boards.over
            assert each.width >= part.width.value + 2 * boards.edge
            assert boards.ends <= each.along
            assert each.along + each.length <= boards.ends + board.clear
            assert boards.edge <= each.across
            assert each.across + each.width <= board.width
        for one, other in combinations(lying, 2):
            assert apart(one, other) >= KERF
        numbers = [each.number for each in board.cuts]
        assert numbers == list(range(1, len(numbers) + 1))
        freed = [each.cut for each in lying if each.cut]
        assert len(freed) == len(set(freed))
        for each in lying:
            if each.cut:
                made = board.cuts[each.cut - 1]
                assert made.setting == (each.width if made.way == "rip" else each.length)
    assert sorted(cut) == sorted(wanted)


def apart(one: Lying, other: Lying) -> Fraction:
    """How far two pieces are from each other, the larger of both ways."""
    along = max(one.along, other.along) - min(one.along + one.length, other.along + other.length)
    across = max(one.across, other.across) - min(one.across + one.width, other.across + other.width)
    return max(along, across)


def test_a_lumber_plan_is_checked_as_sheets_are_and_a_tampered_one_fails() -> None:
    _, work = tack_room()
    for name, made in work.boards.planned.items():
        text = plan_file(name, made.request, made.plan)
        checked, problems = check_files(text, made.certificate)
        assert problems == ()
        assert checked is not None
        assert checked.verdict.cost == checked.verdict.least
        shorter = text.replace('"kerf":"1/8"', '"kerf":"1/4"', 1)
        assert shorter != text
        assert check_files(shorter, made.certificate)[1] != ()


def test_the_csv_lists_every_piece_once() -> None:
    job, work = tack_room()
    rows = list(csv.DictReader(io.StringIO(lumber_csv(job, work.boards.plans))))
    parts = [
        (placed.tag, part.address.replace(".", " ").replace("_", " "))
        for placed in job.placed
        if placed.unit is not None
        for part in placed.unit.parts
        if part.material.kind == "lumber"
    ]
    assert sorted((row["unit"], row["part"]) for row in rows) == sorted(parts)
    stile = next(row for row in rows if (row["unit"], row["part"]) == ("S2", "left stile"))
    assert stile["finished_width_in"] == "1.5"
    assert stile["rip_in"] == "1.625"
    assert Fraction(stile["crosscut_in"]) == Fraction(stile["finished_length_in"]) + 1


def test_the_pages_name_every_piece_and_say_what_is_open() -> None:
    job, work = tack_room()
    pages = list(lumber_pages(job, work.boards.plans, ("A sentence.",)))
    press = Press(Printing(job.system, job.precision.value))
    text = "".join(press.set(page.template, **page.values) for page in pages)
    for plan in work.boards.plans:
        assert plan.headline in text.replace("&#39;", "'")
        for piece in plan.wanted.pieces.values():
            assert f"{piece.label} {piece.title}" in text
    assert "4/4 (1 rough); planed to 13/16, and to 3/4 once it is joined and sanded" in text
    assert "8 board feet as a grader tallies them" in text
    assert "A sentence." in text


def test_every_cut_stands_once_in_the_rip_or_the_crosscut_plan() -> None:
    _, work = tack_room()
    for plan in work.boards.plans:
        cuts = [
            (board.number, each.number, each.way, each.setting)
            for board in plan.boards
            for each in board.cuts
        ]
        listed = [
            (board, number, way, setting.setting)
            for way, settings in (("rip", plan.rips), ("crosscut", plan.stops))
            for setting in settings
            for board, numbers in setting.cuts
            for number in numbers
        ]
        assert sorted(listed) == sorted(cuts)


def test_what_is_sawn_is_planned_no_more() -> None:
    job = with_boards(3, "lengths 96")
    left = evolve(job, sawn=frozenset({"S1.board", "S3.board"}))
    assert list(plan_of(left).wanted.pieces) == ["S2.board"]
    done = evolve(job, sawn=frozenset({"S1.board", "S2.board", "S3.board"}))
    assert board_plans(done) == (BoardPlans(), ())


def test_a_metric_job_is_planned_in_its_own_measure() -> None:
    """Planks of 24 by 6, 609.6 by 152.4 mm, are 610 by 153 as a mill cuts them; three and two kerfs
    come from one board of 96 by 7, which is 0.0110 cubic metres at an inch."""
    job = evolve(
        with_boards(3, "lengths 96  wide 7", high="24"),
        system=System.MILLIMETRES,
        precision=literal(1 / INCH),
    )
    plan = plan_of(job)
    assert len(plan.boards) == 1
    (piece, *_) = plan.wanted.pieces.values()
    assert (piece.rough_length * INCH, piece.rough_width * INCH) == (610, 153)
    (row,) = [
        each for each in buying_list(job, (), (), board_plans(job)[0]).rows
        if each.section == "lumber"
    ]  # fmt: skip
    assert row.measure == "cubic metre"
    assert row.needed == Fraction(7 * 96) / (1000 / INCH) ** 3
    assert any("0.011 cubic metres" in each for each in said_of(job, plan))


def test_lumber_of_which_no_text_says_how_it_comes_is_said() -> None:
    plans, findings = board_plans(planks(1, more=SAW))
    assert findings == ()
    assert plans.unplanned == ("oak: no text says how its boards come, so none is planned.",)
    assert plans.plans == ()


def test_a_part_longer_than_any_board_is_said_with_its_units_line() -> None:
    plans, findings = board_plans(with_boards(2, "lengths 60"))
    assert [(each.slug, each.tags) for each in findings] == [("longer-than-boards", ("S1", "S2"))]
    assert findings[0].span is not None
    assert plans.unplanned == ("oak: no board is as long as one of its parts.",)


def test_a_kept_plan_of_boards_is_used_where_it_holds_and_said_where_it_does_not() -> None:
    job = with_boards(7, "lengths (100 + 1/8)", high="50")
    work, _ = shop_work(job)
    name = "boards_oak"
    made = work.boards.planned[name]
    backwards = evolve(made.plan, sheets=made.plan.sheets[::-1])
    assert backwards != made.plan
    held = HeldPlan(work.marks[name], backwards, made.certificate)

    used, findings = shop_work(job, {name: held})
    assert [each.slug for each in findings if each.slug.startswith("hard-plan")] == []
    assert used.boards.planned[name].plan == backwards
    searched, _ = shop_work(job, {name: held}, hard=True)
    assert searched.boards.planned[name].plan != backwards

    short = evolve(held, plan=evolve(made.plan, sheets=made.plan.sheets[:-1]))
    anew, findings = shop_work(job, {name: short})
    (said,) = [each for each in findings if each.slug.startswith("hard-plan")]
    assert said.slug == "hard-plan-unsound"
    assert said.headline == "the kept plan of oak boards did not pass its check, and isn't used"
    assert anew.boards.planned[name].plan == made.plan

    fewer = with_boards(6, "lengths (100 + 1/8)", high="50")
    other, findings = shop_work(fewer, {name: held})
    assert [each.slug for each in findings if each.slug.startswith("hard-plan")] == [
        "hard-plan-of-other-pieces"
    ]
    assert len(other.boards.planned[name].plan.sheets) == 3
