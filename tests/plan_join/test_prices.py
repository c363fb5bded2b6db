"""Stock of several sizes: the cheapest sheets by the shop's prices, as far as its copies go."""

from collections import Counter
from fractions import Fraction

from casewright.compiler.cutting.sawing import MaterialPlan
from casewright.compiler.shop.reckoning import ShopWork, shop_work
from tests.compiler.examples import compiled

SHOP = """
use kitchen
saw table_saw {{ kerf 1/8  trim 1/4 }}
sheet board {{
  thick 3/4
  stock 49 by 97
  stock 37 by 61 {small}
}}
rates shop {{
  currency eur
  {prices}
}}
run sink_wall on north from left {{
  S1: cupboard 30  wood board
  S2: cupboard 30  wood board
}}
"""

LARGE_IS_CHEAP = "price board 50 per sheet long 97\n  price board 40 per sheet long 61"
SMALL_IS_CHEAP = "price board 90 per sheet long 97\n  price board 20 per sheet long 61"


def reckoned(prices: str, small: str = "") -> ShopWork:
    text = SHOP.format(prices=prices, small=small)
    built = compiled({"page.case": text.encode()}, "page.case")
    assert built.job is not None
    assert [each.headline for each in built.findings if each.severity.value == "error"] == []
    work, findings = shop_work(built.job)
    # These rates price sheets alone; that the rest has no price is all there is to say.
    assert {each.slug for each in findings} == {"estimate-not-whole"}
    return work


def sizes(work: ShopWork) -> Counter[Fraction]:
    """How many sheets of each length the plan uses."""
    (plan,) = work.sheets.plans
    return Counter(sheet.size.length for sheet in plan.sheets)


def cost(work: ShopWork, long: int, short: int) -> int:
    count = sizes(work)
    return count[Fraction(97)] * long + count[Fraction(61)] * short


def plan_of(work: ShopWork) -> MaterialPlan:
    return work.sheets.plans[0]


def test_the_price_decides_which_size_is_bought() -> None:
    large, small = reckoned(LARGE_IS_CHEAP), reckoned(SMALL_IS_CHEAP)
    assert sizes(large) != sizes(small)
    # Each plan is cheaper at its own prices than the other would be.
    assert cost(large, 50, 40) < cost(small, 50, 40)
    assert cost(small, 90, 20) < cost(large, 90, 20)
    assert f"price {cost(large, 50, 40)}" in plan_of(large).headline


def test_no_more_is_planned_than_there_is() -> None:
    free, bound = reckoned(SMALL_IS_CHEAP), reckoned(SMALL_IS_CHEAP, small="pieces 1")
    assert sizes(free)[Fraction(61)] > 1
    assert sizes(bound)[Fraction(61)] <= 1
    assert cost(bound, 90, 20) > cost(free, 90, 20)


def test_a_size_without_its_price_leaves_the_choice_to_the_area() -> None:
    work = reckoned("price board 50 per sheet long 97")
    assert "area in square in" in plan_of(work).headline


def test_each_size_is_charged_at_its_own_price() -> None:
    work = reckoned(
        "price board 41 per sheet long 97\n  price board 20 per sheet long 61", small="pieces 1"
    )
    assert work.estimate is not None
    sheets = [line for line in work.estimate.lines if line.trade == "sheets"]
    assert sum(line.total for line in sheets) == 100 * cost(work, 41, 20)
