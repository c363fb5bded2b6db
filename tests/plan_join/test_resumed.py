"""After a spoilt sheet only what is left is planned again; a lot's thickness goes everywhere."""

from fractions import Fraction

import pytest

from casewright.compiler.compile import Compiled
from casewright.compiler.cutting.sheet_plans import SheetPlans, sheet_plans
from casewright.compiler.model import Job, Unit
from casewright.lang.measure import INCH
from tests.compiler.examples import compiled

KITCHEN = """
use kitchen
saw table_saw { kerf 1/8  trim 1/4 }
sheet plain { thick 3/4  stock 49 by 49 }
run sink_wall on north from left {
  S1: cupboard 30  wood plain
  S2: cupboard 30  wood plain
}
"""


def of(text: str) -> Compiled:
    return compiled({"page.case": text.encode()}, "page.case")


def built(text: str) -> Job:
    made = of(text)
    assert [each.headline for each in made.findings if each.severity.value == "error"] == []
    assert made.job is not None
    return made.job


def planned(text: str) -> tuple[SheetPlans, list[str]]:
    plans, findings = sheet_plans(built(text))
    return plans, [each.slug for each in findings]


def pieces(plans: SheetPlans) -> list[str]:
    return sorted(
        board.address
        for plan in plans.plans
        for sheet in plan.sheets
        for board in sheet.boards
        if board.use == "piece"
    )


def test_only_what_is_left_is_planned_again() -> None:
    whole, findings = planned(KITCHEN)
    assert findings == []
    (plan,) = whole.plans
    assert len(plan.sheets) > 1
    # The first sheet came out well but for its last part.
    *good, spoilt = [each.address for each in plan.sheets[0].boards if each.use == "piece"]
    rest, findings = planned(f"{KITCHEN}sawn {' '.join([*good, spoilt])} but {spoilt}\n")
    assert findings == ["sawn-already"]
    assert pieces(rest) == sorted(set(pieces(whole)) - set(good))
    assert spoilt in pieces(rest)
    assert all(made.verdict.sound for made in rest.planned.values())
    assert len(rest.plans[0].sheets) <= len(plan.sheets)


def test_a_tag_stands_for_all_parts_of_its_unit_and_a_sheet_keeps_its_own() -> None:
    rest, _ = planned(f"{KITCHEN}sawn S1 of plain\n")
    assert pieces(rest) == ["S2.floor", "S2.left_side", "S2.right_side"]
    same, findings = planned(f"{KITCHEN}sawn S1 of board\n")
    assert (len(pieces(same)), findings) == (6, [])


def test_when_all_is_sawn_there_is_no_plan_and_none_is_missed() -> None:
    rest, findings = planned(f"{KITCHEN}sawn S1 S2\n")
    assert (rest.plans, rest.unplanned, findings) == ((), (), ["sawn-already"])


@pytest.mark.parametrize(
    ("line", "slug", "words"),
    [
        ("sawn S1.left_sied", "sawn-unknown", "did you mean S1.left_side?"),
        ("sawn S3", "sawn-unknown", ""),
        ("sawn 3", "sawn-unknown", ""),
        ("sawn S1 but S2.flor", "sawn-unknown", "did you mean S2.floor?"),
        ("sawn S1 of plian", "unknown-material", "did you mean plain?"),
        ("lot plian { thick 0.7 }", "unknown-material", "did you mean plain?"),
        ("lot plain { thick 0.7 }\nlot plain { thick 0.72 }", "declared-twice",
         "sheet plain_2 from plain { thick 0.72 }"),
        ("sheet second from plian { thick 0.7 }", "unknown-material", "did you mean plain?"),
    ],
)  # fmt: skip
def test_what_is_not_there_is_said_with_its_line(line: str, slug: str, words: str) -> None:
    found = [each for each in of(f"{KITCHEN}{line}\n").findings if each.slug == slug]
    assert len(found) == 1
    assert found[0].span is not None
    assert words in found[0].help


CABINET = """
measure in inches
use std edition 1
job A measured cabinet {
  built frameless
  precision 1/32
}
room workshop {
  counter 36 thick 1 1/2
  wall bench length 27
}
run bench_wall on bench from left {
  S1: drawer_base 27
}
"""


def unit_of(text: str) -> Unit:
    unit = built(text).placed[0].unit
    assert unit is not None
    return unit


def grooves(unit: Unit, material: str) -> set[Fraction]:
    """How wide the grooves are that parts of a material are let into."""
    entering = {part.address: part for part in unit.parts if part.material.name == material}
    return {
        cut.box.size(entering[cut.by].thick_axis)
        for part in unit.parts
        for cut in part.cuts
        if cut.kind == "groove" and cut.by in entering
    }


def test_parts_and_grooves_follow_what_was_measured() -> None:
    named = unit_of(CABINET)
    thick, thin = 18 / INCH, Fraction(21, 100)
    measured = unit_of(
        f"{CABINET}lot white_melamine {{ thick 18mm }}\nlot thin_ply {{ thick 0.21 }}"
    )
    floor, other = (
        next(part for part in unit.parts if part.address == "floor") for unit in (named, measured)
    )
    assert floor.length.value == 27 - 2 * floor.thick.value
    assert other.thick.value == thick
    assert other.length.value == 27 - 2 * thick
    wide, now = grooves(named, "thin_ply"), grooves(measured, "thin_ply")
    assert wide
    assert now == {each + thin - Fraction(1, 4) for each in wide}


LOTS = (
    KITCHEN.replace("S2: cupboard 30  wood plain", "S2: cupboard 30  wood second")
    + """
sheet second from plain { thick 0.71 }
rates shop {
  currency usd
  price plain 40 per sheet
}
coat oil { on plain  covers 10' by 12' }
buy plain waste 10%
"""
)


def test_a_second_lot_is_a_sheet_from_the_first() -> None:
    job = built(LOTS)
    thick = {each.name: each.thick.value for each in job.materials}
    assert thick["plain"] == Fraction(3, 4)
    assert thick["second"] == Fraction(71, 100)
    plans = sheet_plans(job)[0].plans
    assert {plan.material.title for plan in plans} == {"plain", "second"}
    # It is bought, priced and coated like the one that it is from.
    assert job.supply.rates is not None
    price = job.supply.rates.price_of("second", None)
    assert price is not None
    assert price.amount == 40
    assert [each.waste for each in job.supply.bought] == [Fraction(1, 10)] * 2
    assert job.supply.coats[0].materials == ("plain", "second")


def test_what_a_second_lot_says_itself_goes_over() -> None:
    text = LOTS.replace("{ thick 0.71 }", "{ thick 0.71  stock 60 by 120 }")
    job = built(text.replace("per sheet\n}", "per sheet\n  price second 55 per sheet\n}"))
    second = next(each for each in job.materials if each.name == "second")
    assert [(each.width, each.length) for each in second.stock] == [(60, 120)]
    assert job.supply.rates is not None
    assert [each.amount for each in job.supply.rates.prices if each.name == "second"] == [55]
