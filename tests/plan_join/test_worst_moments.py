"""The saw's limits hold at every pass of a plan, not only for the finished parts."""

from fractions import Fraction

import pytest
from attrs import evolve

from casewright.compiler.cutting.sawing import MaterialPlan
from casewright.compiler.cutting.sheet_plans import sheet_plans
from casewright.compiler.model import Saw
from casewright.compiler.papers.pages.rip_list import heavy_pieces
from casewright.lang.findings import Finding
from tests.compiler.examples import compiled
from tests.plan_join.test_sawn_on_paper import pieces_of

KITCHEN = """
use kitchen
saw table_saw {{ kerf 1/8  trim 1/4 {trims} {limits} }}
sheet plain {{ thick 3/4  stock 49 by 97 }}
run sink_wall on north from left {{
  S1: cupboard 30  wood plain
  S2: cupboard 30  wood plain
}}
"""


def planned(limits: str, trims: str = "") -> tuple[Saw, MaterialPlan, tuple[Finding, ...]]:
    text = KITCHEN.format(limits=limits, trims=trims)
    built = compiled({"page.case": text.encode()}, "page.case")
    assert [each.headline for each in built.findings if each.severity.value == "error"] == []
    assert built.job is not None
    assert built.job.saw is not None
    plans, findings = sheet_plans(built.job)
    return built.job.saw, plans.plans[0], findings


def test_the_widest_crosscut_of_the_plan_is_held_against_the_saw() -> None:
    _, plan, none = planned("")
    assert none == ()
    widths = [
        (abs(each.to_across - each.across), sheet.number, each.number)
        for sheet in plan.sheets
        for each in sheet.passes
        if each.way == "crosscut"
    ]
    widest = max(wide for wide, _, _ in widths)
    assert planned(f"crosscuts {widest}")[2] == ()
    (found,) = planned("crosscuts 23")[2]
    assert found.slug == "crosscut-too-wide"
    sheet, number = min((s, n) for wide, s, n in widths if wide == widest)
    assert found.headline.startswith(f"sheet {sheet} of plain, cut {number}, crosscuts a board")
    past = sum(wide > 23 for wide, _, _ in widths)
    assert found.headline.endswith(f"({past} such cuts)")


def test_the_trim_of_the_first_edge_is_the_widest_rip() -> None:
    _, _, findings = planned("reach 48 3/4")
    assert findings == ()
    (found,) = planned("reach 40")[2]
    assert found.slug == "rip-too-wide"
    assert "cut 1, is a rip of 48 3/4" in found.headline
    # Where the factory edge is kept, the narrower side of each cut goes against the fence.
    assert planned("reach 40", trims="fence 0")[2] == ()


@pytest.mark.parametrize(
    ("trims", "usable"),
    [
        ("", (Fraction(97, 2), Fraction(193, 2))),
        ("fence 0", (Fraction(195, 4), Fraction(193, 2))),
        ("fence 0 far 1/2 near 1/2 end 0", (Fraction(97, 2), Fraction(193, 2))),
    ],
)
def test_each_edge_has_a_trim_of_its_own(trims: str, usable: tuple[Fraction, Fraction]) -> None:
    saw, plan, _ = planned("", trims)
    assert (49 - saw.trim.across, 97 - saw.trim.along) == usable
    # What is sawn by these trims still ends with every part.
    assert len(pieces_of(plan, saw.kerf.value)) == 6


@pytest.mark.parametrize(
    ("saw", "slug", "line"),
    [
        ("kerf 0", "size-not-positive", 4),
        ("kerf 1/8 - 1/4", "size-not-positive", 4),
        ("kerf 1/8  trim 0 - 1", "less-than-nothing", 4),
        ("kerf 1/8  reach 0", "size-not-positive", 4),
    ],
)
def test_a_saw_that_no_shop_has_is_said_with_its_line(saw: str, slug: str, line: int) -> None:
    text = f"\n\nuse kitchen\nsaw table_saw {{ {saw} }}\n"
    text += "run sink_wall on north from left {\n  S1: cupboard share\n}\n"
    built = compiled({"page.case": text.encode()}, "page.case")
    found = [each for each in built.findings if each.slug == slug]
    assert len(found) == 1
    assert found[0].span is not None
    assert found[0].span.where.endswith(f":{line}")


def test_what_one_person_cannot_lift_is_named() -> None:
    _, plan, _ = planned("")
    assert heavy_pieces(plan) == []
    (sheet,) = plan.sheets
    # A sheet of 300 pounds: the parts of 24 by 30 weigh 45 each; at 400, 61.
    for pounds, count in ((300, 0), (400, 6)):
        heavy = evolve(plan, sheets=(evolve(sheet, weight=Fraction(pounds)),))
        assert len(heavy_pieces(heavy)) == count
