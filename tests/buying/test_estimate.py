"""The estimate closes to the cent in every direction, whatever the rates."""

from fractions import Fraction

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.compiler.model import Job
from casewright.compiler.shop.buying import buying_list
from casewright.compiler.shop.estimate import BY_USE, apportion, estimate
from casewright.compiler.shop.priced import Estimate, Kind, money
from casewright.compiler.shop.supply import Rates
from tests.buying.shops import planks, tack_room

KINDS: tuple[Kind, ...] = ("things", "labour", "overhead", "profit", "rounding", "tax")

shares = st.fractions(0, Fraction(99, 100), max_denominator=1000)
amounts = st.fractions(0, 5000, max_denominator=10_000)


@given(st.integers(-(10**9), 10**9), st.lists(amounts, min_size=1, max_size=40))
def test_parts_add_up_and_no_part_is_a_whole_unit_off(total: int, weights: list[Fraction]) -> None:
    parts = apportion(total, weights)
    assert sum(parts) == total
    whole = sum(weights)
    if whole:
        for part, weight in zip(parts, weights, strict=True):
            assert abs(part - total * weight / whole) < 1


def test_nobody_can_share_something() -> None:
    assert apportion(0, []) == []
    with pytest.raises(ValueError, match="nobody"):
        apportion(1, [])


def test_ties_go_to_the_earlier() -> None:
    assert apportion(2, [Fraction(1)] * 3) == [1, 1, 0]
    assert apportion(5, [Fraction(0), Fraction(0)]) == [3, 2]


def priced(rates: Rates) -> Estimate:
    job, work = tack_room()
    with_rates = evolve(job, supply=evolve(job.supply, rates=rates))
    made = estimate(with_rates, work.sheets.plans, work.buying)
    assert made is not None
    return made


def rates() -> Rates:
    job, _ = tack_room()
    assert job.supply.rates is not None
    return job.supply.rates


@settings(max_examples=40, deadline=None)
@given(
    overhead=shares,
    profit=shares,
    tax=shares,
    margin=st.booleans(),
    up=st.booleans(),
    places=st.sampled_from((0, 2, 3)),
    step=st.sampled_from((Fraction(1, 100), Fraction(1), Fraction(5), Fraction(250))),
    whole=st.booleans(),
    prices=st.lists(amounts, min_size=40, max_size=40),
    wage=amounts,
)
def test_units_runs_trades_and_kinds_add_up_to_one_price(
    overhead: Fraction,
    profit: Fraction,
    tax: Fraction,
    margin: bool,
    up: bool,
    places: int,
    step: Fraction,
    whole: bool,
    prices: list[Fraction],
    wage: Fraction,
) -> None:
    known = rates()
    made = priced(
        evolve(
            known,
            overhead=overhead,
            profit=profit,
            profit_is="margin" if margin else "mark_up",
            tax=tax,
            rounds_up=up,
            places=places,
            step=step,
            whole_sheets=whole,
            prices=tuple(
                evolve(price, amount=prices[index % 40]) for index, price in enumerate(known.prices)
            ),
            labour=tuple(evolve(each, wage=wage) for each in known.labour),
        )
    )
    job, _ = tack_room()
    for line in made.lines:
        assert sum(line.shares.values()) == line.total
    assert sum(made.unit(holder) for holder in made.holders) == made.total
    assert sum(made.trades().values()) == made.total
    assert sum(made.of(kind) for kind in KINDS) == made.total
    by_run = [
        sum(made.unit(placed.address) for placed in run.everything if placed.unit is not None)
        for run in job.runs
    ]
    assert sum(by_run) == made.total
    if step * 10**places >= 1:
        assert made.price % (step * 10**places) == 0


def test_a_margin_is_a_share_of_the_price_and_a_mark_up_of_the_cost() -> None:
    plain = evolve(rates(), overhead=Fraction(0), tax=Fraction(0), step=Fraction(1, 100))
    share = Fraction(1, 4)
    margin = priced(evolve(plain, profit=share, profit_is="margin"))
    mark_up = priced(evolve(plain, profit=share, profit_is="mark_up"))
    assert margin.cost == mark_up.cost
    # Within half a cent: the profit itself is whole cents.
    assert abs(Fraction(margin.of("profit")) - margin.price * share) <= Fraction(1, 2)
    assert abs(Fraction(mark_up.of("profit")) - mark_up.cost * share) <= Fraction(1, 2)
    assert margin.price > mark_up.price


def whole_cents(amount: Fraction) -> int:
    """The nearest whole cent, half a cent up, as a till rounds."""
    return (amount + Fraction(1, 2)).__floor__()


def test_overhead_and_tax_can_be_reckoned_again_on_paper() -> None:
    made = priced(rates())
    cost = made.of("things", "labour")
    assert made.of("overhead") == whole_cents(Fraction(cost) * Fraction(22, 100))
    assert made.of("tax") == whole_cents(Fraction(made.price) * Fraction(625, 10_000))
    assert made.price % 500 == 0
    (words,) = [line.words for line in made.lines if line.kind == "overhead"]
    assert words == f"22 % of {made.money(cost)}"


def test_whole_sheets_cost_at_least_what_is_cut_from_them() -> None:
    whole = priced(evolve(rates(), whole_sheets=True))
    cut = priced(evolve(rates(), whole_sheets=False))
    assert cut.trades()["sheets"] < whole.trades()["sheets"]


def test_what_has_no_price_is_said() -> None:
    known = rates()
    fewer = tuple(price for price in known.prices if price.name != "birch_ply")
    made = priced(evolve(known, prices=fewer))
    assert "Not in this sum, since no price is stated: birch ply, 3/4." in made.left_out
    assert made.left_out[-1] == "Whatever has no line here is not in the price."


def test_that_packs_are_charged_by_use_is_said_where_some_of_one_is_left() -> None:
    made = priced(rates())
    assert BY_USE in made.left_out
    assert "1.25 quarts at 38.00" in [line.words for line in made.lines]
    job, work = tack_room()
    rows = tuple(row for row in work.buying.rows if row.packs is None)
    single = estimate(job, work.sheets.plans, evolve(work.buying, rows=rows))
    assert single is not None
    assert BY_USE not in single.left_out


def test_no_rates_no_estimate() -> None:
    job = planks()
    _, work = tack_room()
    assert estimate(job, (), work.buying) is None


def test_lumber_of_a_text_priced_by_the_board_foot() -> None:
    more = "buy oak waste 30%\nrates shop { currency usd\n  price oak 10 per board_foot\n}"
    job = planks(10, wide="12", high="120", more=more.replace("{ currency", "{\n  currency"))
    made = estimate(job, (), buying_list(job, ()))
    assert made is not None
    assert made.money(made.total) == "1,428.57"
    assert sorted(made.unit(holder) for holder in made.holders) == [14285] * 3 + [14286] * 7


@pytest.mark.parametrize(
    ("cents", "places", "words"),
    [
        (123456, 2, "1,234.56"),
        (5, 2, "0.05"),
        (-150, 2, "-1.50"),
        (1234, 0, "1,234"),
        (1234567, 3, "1,234.567"),
    ],
)
def test_money_in_words(cents: int, places: int, words: str) -> None:
    assert money(cents, places) == words


FRAMED = """
unit door  bare  built nothing_else {
  high  30
  depth 2
  serves base_unit
  assembly leaf  serves front {
    part lower of oak  up 2 from bottom  deep from front  grain across  serves rail
    part upper of oak  up 2 from lower   deep from front  grain across  serves rail
    join upper to lower
    step lower upper
  }
  part sill of oak  up 2 from leaf.upper  deep from front  grain across  serves front
  join sill to leaf.upper
  step leaf
  step sill
}
"""


@pytest.mark.parametrize(
    ("serves", "pieces"),
    [("serves front", 2), ("serves rail", 2), ("serves front rail", 2), ("", 3)],
)
def test_an_assembly_that_serves_a_role_is_one_piece_and_its_members_none(
    serves: str, pieces: int
) -> None:
    job = labour_of(f"labour hanging 60min per piece {serves}", FRAMED)
    made = estimate(job, (), buying_list(job, ()))
    assert made is not None
    # Two units, an hour at 30.00 for each piece.
    assert made.of("labour") == 2 * pieces * 3000


@pytest.mark.parametrize(
    ("serves", "role", "units"),
    [
        ("", "base_unit", 2),
        ("", "filler", 0),
        ("", "base", 0),
        ("serves filler", "filler", 2),
        ("serves wall_unit", "base_unit", 0),
    ],
)
def test_work_by_the_unit_counts_cabinets(serves: str, role: str, units: int) -> None:
    unit = FRAMED.replace("serves base_unit", f"serves {role}")
    job = labour_of(f"labour installing 60min per unit {serves}", unit)
    made = estimate(job, (), buying_list(job, ()))
    assert made is not None
    assert made.of("labour") == units * 3000


def labour_of(line: str, unit: str) -> Job:
    """Two equal units in a row, and one kind of work at 30.00 an hour."""
    more = f"rates shop {{\n  currency usd\n  wage 30\n  {line}\n}}"
    unit = unit.replace("unit door ", "unit plank ")
    return planks(2, wide="6", more=more, unit=unit)


@pytest.mark.parametrize(
    ("name", "words", "total"),
    [
        # 72 / 500, 12 / 2 and 41.86 / 250 of 9.95.
        ("slide_screw", "72 of a box of 500 at 9.95", 143),
        ("side_mount", "12 by the pair at 9.95", 5970),
        ("white_edge", "41.86 feet of a roll of 250 feet at 9.95", 167),
    ],
)
def test_a_price_by_the_pack_says_how_much_of_one(name: str, words: str, total: int) -> None:
    known = rates()
    prices = tuple(
        evolve(each, amount=Fraction(995, 100), per="pack") if each.name == name else each
        for each in known.prices
    )
    (line,) = [each for each in priced(evolve(known, prices=prices)).lines if each.name == name]
    assert (line.words, line.total) == (words, total)


@pytest.mark.parametrize(
    ("line", "words", "total"),
    [
        # Two boards of 6 by 24 by 3/4: 2 (144 + 4.5 + 18) square inches each, two coats.
        ("labour finishing 3min per square_foot",
         "9.25 square feet at 3 min: 28 min at 30.00", 1388),
        ("labour finishing 3min per square_foot  serves front", "", 0),
        ("labour finishing 30min per square_metre",
         "0.86 square metres at 30 min: 26 min at 30.00", 1289),
    ],
)  # fmt: skip
def test_work_by_the_area_counts_what_is_finished_once_for_each_coat(
    line: str, words: str, total: int
) -> None:
    coat = "coat oil { on oak  coats 2  covers 10 by 10 }\n"
    rates = f"rates shop {{\n  currency usd\n  wage 30\n  {line}\n}}"
    job = planks(2, high="24", more=coat + rates)
    made = estimate(job, (), buying_list(job, ()))
    assert made is not None
    assert made.of("labour") == total
    assert [each.words for each in made.lines if each.kind == "labour"] == (
        [words] if words else []
    )
    assert ("There is nothing of finishing to do in this job." in made.left_out) is (not words)
