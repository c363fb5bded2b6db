"""The headline says what was checked, and no more."""

import re
from fractions import Fraction

import pytest
from attrs import evolve

from casewright.compiler.cutting.board_files import goods_of
from casewright.compiler.plan.plan import Planned, plan_sheets
from casewright.compiler.plan.request import Piece, Problem, Request, Saw, Stock
from casewright.compiler.plan.sawing import cuts_of, narrow_rips, settings, stacks
from casewright.compiler.plan.verify import Verdict
from casewright.compiler.plan.words import headline, yield_words


def planned() -> Planned:
    request = Request(
        "in",
        (
            Piece("side", "S1", Fraction(30), Fraction(12), 6),
            Piece("cleat", "S1", Fraction(45), Fraction(3, 2), 2),
        ),
        (Stock("maple ply", Fraction(96), Fraction(48)),),
        Saw(Fraction(1, 8), least_strip=Fraction(2)),
    )
    made, problems = plan_sheets(request)
    assert problems == []
    assert made is not None
    return made


@pytest.mark.parametrize(
    ("cost", "least", "said"),
    [
        (1, 1, "1 sheet"),
        (3, 3, "3 sheets, and 2 can't do"),
        (17, 16, "17 planned; fewer than 16 is impossible; 16 is open"),
        (18, 16, "18 planned; fewer than 16 is impossible; 16 and 17 are open"),
        (30, 20, "30 planned; fewer than 20 is impossible; 20 to 29 are open"),
    ],
)
def test_the_count_and_why_fewer_cannot_do(cost: int, least: int, said: str) -> None:
    made = planned()
    verdict = Verdict(Fraction(cost), Fraction(least), ())
    assert headline(made.request, made.plan, verdict) == said


def test_nothing_is_claimed_of_a_plan_that_failed_its_check() -> None:
    made = planned()
    verdict = evolve(made.verdict, problems=(Problem("piece-count", "one is missing"),))
    said = headline(made.request, made.plan, verdict)
    assert said == "this plan did not pass its check and must not be sawn"


def test_several_stocks_are_told_by_size() -> None:
    made = planned()
    offcut = Stock("offcut from June", Fraction(48), Fraction(12), 1, kept=True)
    request = evolve(made.request, stock=(*made.request.stock, offcut))
    both, _ = plan_sheets(request)
    assert both is not None
    said = headline(request, both.plan, both.verdict)
    assert said.startswith("1 of 48 x 96; ")


def test_yield_is_a_footnote() -> None:
    """6 x 30 x 12 + 2 x 45 x 1 1/2 = 2295 of 4608 square inches (computed)."""
    made = planned()
    assert yield_words(made.request, made.plan) == "50 % of the sheets' area is parts"


def test_each_setting_stands_once_in_the_rip_list() -> None:
    made = planned()
    rips = settings(made.plan, "rip")
    assert {s.setting for s in rips} == {Fraction(12), Fraction(3, 2)}
    assert [s.setting for s in rips] == sorted((s.setting for s in rips), reverse=True)
    stops = settings(made.plan, "crosscut")
    assert {Fraction(30)} <= {s.setting for s in stops} <= {Fraction(30), Fraction(45)}


def test_full_length_rips_come_first() -> None:
    cuts = cuts_of(planned().plan)
    assert [cut.number for cut in cuts] == list(range(1, len(cuts) + 1))
    assert [cut.stage for cut in cuts] == sorted(cut.stage for cut in cuts)
    assert cuts[0].kind == "rip"


def test_a_strip_too_narrow_for_the_fence_is_reported() -> None:
    made = planned()
    assert {rip.width for rip in narrow_rips(made.request, made.plan)} == {Fraction(3, 2)}
    wide = evolve(made.request, saw=evolve(made.request.saw, least_strip=Fraction(3, 2)))
    assert narrow_rips(wide, made.plan) == ()


def test_sheets_alike_may_be_stacked() -> None:
    request = Request(
        "in",
        (Piece("side", "", Fraction(90), Fraction(40), 3),),
        (Stock("ply", Fraction(96), Fraction(48)),),
    )
    made, _ = plan_sheets(request)
    assert made is not None
    assert stacks(made.plan) == ((1, 2, 3),)


def test_boards_and_lengths_are_counted_as_what_they_are() -> None:
    """What is bought is told by its size, what is kept by its name."""
    made = planned()
    stock = evolve(made.request.stock[0], name="sheet oak")
    cheap = evolve(stock, name="short oak", length=Fraction(90))
    many = evolve(made.request, stock=(stock, cheap))
    plan = evolve(made.plan, sheets=tuple(evolve(s, stock="sheet oak") for s in made.plan.sheets))
    for name, one, several in (
        ("boards_oak", "board", "boards"),
        ("linear_rail", "length", "lengths"),
        ("oak", "sheet", "sheets"),
    ):
        goods = goods_of(name)
        verdict = evolve(made.verdict, cost=Fraction(1), least=Fraction(1))
        assert headline(made.request, made.plan, verdict, goods) == f"1 {one}"
        verdict = evolve(verdict, cost=Fraction(3), least=Fraction(3))
        assert headline(made.request, made.plan, verdict, goods).startswith(f"3 {several}, and")
        said = headline(many, plan, verdict, goods)
        if name == "oak":
            assert said.startswith(
                f"{len(plan.sheets)} of 48 x 96; no other choice of sheets costs"
            )
            assert "area in square in 3)" in said
            kept = evolve(many, stock=(evolve(stock, kept=True), cheap))
            told = headline(kept, plan, verdict, goods)
            assert told.startswith(f"{len(plan.sheets)} sheet oak; no other choice")
            assert "a kept offcut counted at half that of so much sheet" in told
        else:
            # What such a plan compares is what the pieces of stock measure, and no money.
            assert f"; no other choice of {several} measures less together" in said
            assert not re.search("price|cost", said)
            opened = headline(many, plan, evolve(verdict, least=Fraction(2)), goods)
            assert "none can measure 34 % less together, and up to that is open" in opened
