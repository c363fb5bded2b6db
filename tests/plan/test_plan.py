"""Plans as a shop needs them: every piece once, sawn with kerf, and the known hazards."""

import subprocess
import sys
from fractions import Fraction

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.compiler.plan.plan import DEFAULT, Effort, Planned, plan_sheets
from casewright.compiler.plan.request import (
    Piece,
    Request,
    Saw,
    Stock,
    Trim,
    write_request,
)
from casewright.compiler.plan.tree import plan_document, read_plan
from tests.benchmarks.lists import kitchen

from .sawing import saw_plan, wanted

QUICK = evolve(DEFAULT, work=100_000, counted_work=20_000, tries=1)


def mm(
    sizes: list[tuple[int, int, int, bool]],
    sheet: tuple[int, int],
    saw: Saw | None = None,
    copies: int | None = None,
) -> Request:
    """A list in millimetres: length, width, quantity and turn of each piece."""
    pieces = tuple(
        Piece(f"part {n}", "T", Fraction(a), Fraction(b), many, turn)
        for n, (a, b, many, turn) in enumerate(sizes)
    )
    stock = Stock("sheet", Fraction(sheet[0]), Fraction(sheet[1]), copies)
    return Request("mm", pieces, (stock,), saw or Saw())


def made(request: Request, effort: Effort = QUICK) -> Planned:
    planned, problems = plan_sheets(request, effort)
    assert problems == []
    assert planned is not None
    assert planned.verdict.problems == ()
    assert saw_plan(request, planned.plan) == wanted(request, planned.plan)
    return planned


piece_sizes = st.tuples(st.integers(1, 40), st.integers(1, 30), st.integers(1, 5), st.booleans())


@settings(max_examples=60, deadline=None)
@given(
    st.lists(piece_sizes, min_size=1, max_size=9),
    st.integers(0, 3),
    st.tuples(*[st.integers(0, 2)] * 4),
    st.sampled_from(["rip", "crosscut", "either"]),
)
def test_no_piece_is_lost(
    sizes: list[tuple[int, int, int, bool]], kerf: int, trims: tuple[int, ...], first: str
) -> None:
    """Whatever is asked, the saw yields exactly it, and the check passes."""
    trim = Trim(*(Fraction(t) for t in trims))
    request = mm(sizes, (44, 34), Saw(Fraction(kerf), trim, first=first))
    planned = made(request)
    assert planned.verdict.least <= planned.verdict.cost


@settings(max_examples=25, deadline=None)
@given(
    st.lists(piece_sizes, min_size=1, max_size=6),
    st.lists(
        st.tuples(st.integers(40, 50), st.integers(30, 40), st.integers(1, 3)),
        min_size=1,
        max_size=2,
    ),
    st.booleans(),
)
def test_several_stocks(
    sizes: list[tuple[int, int, int, bool]], offcuts: list[tuple[int, int, int]], priced: bool
) -> None:
    """With kept offcuts and limited copies nothing is lost and no copy used twice."""
    base = mm(sizes, (44, 34), Saw(Fraction(1)))
    stock = list(base.stock)
    stock += [
        Stock(f"offcut {n}", Fraction(a), Fraction(b), many, kept=True)
        for n, (a, b, many) in enumerate(offcuts)
    ]
    if priced:
        stock = [evolve(s, cost=Fraction(3 + 2 * n, 2)) for n, s in enumerate(stock)]
    planned = made(evolve(base, stock=tuple(stock)))
    assert planned.verdict.least <= planned.verdict.cost


def test_a_piece_as_large_as_the_usable_sheet() -> None:
    saw = Saw(Fraction(3), Trim(*[Fraction(2)] * 4))
    planned = made(mm([(96, 46, 2, False)], (100, 50), saw))
    assert planned.verdict.cost == planned.verdict.least == 2
    assert planned.plan.sheets[0].root.use == "piece"


def test_a_locked_piece_that_fits_only_turned_is_refused() -> None:
    planned, problems = plan_sheets(mm([(40, 60, 1, False)], (100, 50)))
    assert planned is None
    assert [(p.slug, p.piece) for p in problems] == [("piece-fits-only-turned", "T.part 0")]


def test_the_same_piece_free_to_turn_is_planned() -> None:
    assert made(mm([(40, 60, 1, True)], (100, 50))).verdict.cost == 1


def test_an_oversize_piece_is_refused_by_name() -> None:
    _, problems = plan_sheets(mm([(10, 10, 1, False), (101, 20, 1, True)], (100, 50)))
    assert [(p.slug, p.piece) for p in problems] == [("piece-larger-than-stock", "T.part 1")]


def test_one_piece() -> None:
    assert made(mm([(10, 10, 1, False)], (100, 50))).verdict.cost == 1


def test_four_hundred_equal_pieces() -> None:
    """5 x 6 of 19 x 8 on 100 x 50 with kerf 1 fit (computed): 400 need 14 sheets."""
    planned = made(mm([(19, 7, 400, False)], (99, 47), Saw(Fraction(1))))
    assert planned.verdict.cost == planned.verdict.least == 14


def test_four_hundred_different_pieces() -> None:
    sizes = [(20 + n % 20, 15 + n // 20, 1, False) for n in range(400)]
    planned = made(mm(sizes, (120, 60), Saw(Fraction(1))))
    assert planned.verdict.least >= 30


@pytest.mark.parametrize(("sheet", "count"), [(4 * 20 + 3 * 3, 1), (4 * 20 + 3 * 3 - 1, 2)])
def test_kerfs_between_pieces_only(sheet: int, count: int) -> None:
    """n pieces in a row need n - 1 kerfs."""
    planned = made(mm([(10, 20, 4, False)], (10, sheet), Saw(Fraction(3))))
    assert planned.verdict.cost == count


def test_a_last_cut_narrower_than_the_blade() -> None:
    """One step more than the pieces need: the last cut runs off the edge."""
    planned = made(mm([(10, 20, 2, False)], (10, 45), Saw(Fraction(3))))
    assert planned.verdict.cost == 1
    assert [child.use for child in planned.plan.sheets[0].root.children] == ["piece", "piece"]


def test_a_relaxation_that_is_exactly_whole() -> None:
    """Eight quarters fill two sheets to the last step; rounding mustn't make it three."""
    planned = made(mm([(50, 25, 8, False)], (100, 50)))
    assert planned.verdict.cost == planned.verdict.least == 2


def test_an_offcut_smaller_than_every_piece_is_waste() -> None:
    request = evolve(
        mm([(60, 50, 1, False)], (100, 50)), keep_length=Fraction(41), keep_width=Fraction(1)
    )
    uses = [child.use for child in made(request).plan.sheets[0].root.children]
    assert uses == ["piece", "waste"]
    useful = evolve(request, keep_length=Fraction(40))
    uses = [child.use for child in made(useful).plan.sheets[0].root.children]
    assert uses == ["piece", "offcut"]


@pytest.mark.parametrize(("sheet", "count"), [((96, 48), 2), ((97, 49), 1)])
def test_two_24_inch_rips(sheet: tuple[int, int], count: int) -> None:
    """Two 24 in rips and a kerf are 48 1/8: one fits a 48 in sheet, two fit a 49 (computed)."""
    request = Request(
        "in",
        (Piece("side", "S1", Fraction(90), Fraction(24), 2),),
        (Stock("sheet", Fraction(sheet[0]), Fraction(sheet[1])),),
        Saw(Fraction(1, 8)),
    )
    planned = made(request)
    assert planned.verdict.cost == planned.verdict.least == count


def test_too_few_copies_are_reported() -> None:
    planned, problems = plan_sheets(mm([(60, 40, 5, False)], (100, 50), copies=4))
    assert planned is None
    assert [(p.slug, p.piece) for p in problems] == [("stock-short", "T.part 0")]


def test_a_kept_offcut_is_used_before_a_new_sheet() -> None:
    request = mm([(30, 30, 1, False)], (100, 50))
    offcut = Stock("from June", Fraction(40), Fraction(40), 1, kept=True)
    planned = made(evolve(request, stock=(*request.stock, offcut)))
    assert [sheet.stock for sheet in planned.plan.sheets] == ["from June"]
    assert planned.verdict.cost == planned.verdict.least == 800


def test_pieces_that_turn_are_laid_along_their_own_grain() -> None:
    """A turned piece keeps its own length and width in the bench's book."""
    planned = made(mm([(50, 100, 2, True), (100, 50, 2, True)], (100, 100)))
    assert planned.verdict.cost == 2


def test_the_plan_survives_its_text() -> None:
    planned = made(mm([(30, 20, 5, True)], (100, 50), Saw(Fraction(3))))
    assert read_plan(plan_document(planned.plan)) == planned.plan


def test_ten_thousand_pieces_are_bounded() -> None:
    sizes = [(200 + 7 * (n % 90), 90 + 3 * (n // 90), 4, n % 3 == 0) for n in range(2500)]
    planned, problems = plan_sheets(mm(sizes, (2440, 1220), Saw(Fraction(3))))
    assert problems == []
    assert planned is not None
    assert planned.verdict.sound
    assert 0 < planned.verdict.least <= planned.verdict.cost <= planned.verdict.least * 11 / 10


def test_the_same_bytes_every_time() -> None:
    """Two runs in processes with other hash seeds give the same plan and certificate."""
    sizes = [(31, 17, 4, False), (23, 11, 7, True), (19, 8, 9, False), (40, 13, 3, False)]
    request = mm(sizes, (100, 50), Saw(Fraction(1)))
    program = (
        "import json, sys\n"
        "from casewright.compiler.plan.reading import read_request\n"
        "from casewright.compiler.plan.plan import plan_sheets\n"
        "from casewright.compiler.plan.tree import plan_document\n"
        "made, _ = plan_sheets(read_request(sys.stdin.read())[0])\n"
        "print(json.dumps(plan_document(made.plan)), made.certificate)\n"
    )
    outputs = {
        subprocess.run(
            [sys.executable, "-c", program],
            input=write_request(request),
            capture_output=True,
            text=True,
            check=True,
            env={"PYTHONHASHSEED": seed},
        ).stdout
        for seed in ("1", "2", "3")
    }
    assert len(outputs) == 1
    assert '"cut"' in outputs.pop()


def test_reading_a_request_loads_no_engine() -> None:
    program = (
        "import sys, casewright.compiler.plan.request, casewright.compiler.plan.tree\n"
        "import casewright.compiler.plan.verify, casewright.compiler.plan.words\n"
        "print('numpy' in sys.modules, 'highspy' in sys.modules)\n"
    )
    run = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    assert run.stdout == "False False\n"


def test_a_list_for_which_greedy_plans_fall_a_sheet_short_is_closed() -> None:
    made, problems = plan_sheets(kitchen(30, 1018)["case"])
    assert made is not None, problems
    assert (made.verdict.cost, made.verdict.least) == (22, 22)
    assert made.verdict.sound
