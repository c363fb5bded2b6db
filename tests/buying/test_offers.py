"""Options, each priced by building the kitchen with it; their differences add up to the cent."""

from collections.abc import Mapping, Sequence
from functools import cache

import pytest

from casewright.compiler.commands.world import InstalledLibrary, open_project
from casewright.compiler.compile import compile_job
from casewright.compiler.model import Job
from casewright.compiler.papers.pages.offer_pages import (
    OfferRow,
    OfferTable,
    by_run,
    by_unit,
    customer_table,
    offer_pages,
    owner_tables,
)
from casewright.compiler.papers.pages.offer_pages import (
    choices as choices_of,
)
from casewright.compiler.papers.pages.press import Press
from casewright.compiler.shop.offers import MOST_OFFERS, offers
from casewright.compiler.shop.priced import Estimate, Offer
from casewright.compiler.shop.reckoning import shop_work
from casewright.compiler.world import HeldWorld
from casewright.lang.findings import Finding
from casewright.lang.printing import Printing
from tests.buying.shops import CHOICES, TACK_ROOM, choices, tack_room


@cache
def estimated() -> tuple[Job, Estimate, Offer]:
    """The tack room as it is, and the first of its two offers."""
    job, work = tack_room()
    world, entry = open_project(TACK_ROOM)
    built = compile_job(world, entry)
    assert built.program is not None
    ((offer, other), findings) = offers(world, entry, built.program, built.findings)
    assert findings == ()
    assert work.estimate is not None
    assert other.lines == ("S2: drawer_base 24",)
    return job, work.estimate, offer


def test_an_offer_is_the_kitchen_built_with_it() -> None:
    """Five-piece doors take more lumber and fewer sheets' worth of fronts; the room is the same."""
    job, _, offer = estimated()
    assert offer.lines == ("made five_piece",)
    assert [each.address for each in offer.job.placed] == [each.address for each in job.placed]

    def rails(of: Job) -> int:
        return sum(
            part.role == "rail"
            for placed in of.placed
            if placed.unit is not None
            for part in placed.unit.parts
        )

    assert rails(offer.job) > rails(job)


def test_a_door_of_five_pieces_is_hung_once_as_a_slab_is() -> None:
    job, estimate, offer = estimated()
    fronts = sum(
        part.role == "front"
        for placed in job.placed
        for part in (placed.unit.parts if placed.unit is not None else ())
    )
    for made in (estimate, offer.estimate):
        (hanging,) = (line for line in made.lines if line.title == "hanging")
        assert hanging.words.startswith(f"{fronts} pieces at 14 min: ")
    # The door is made by this work, so it is none the cheaper for it.
    (was,), (now,) = (
        [line.total for line in made.lines if line.title == "framing"]
        for made in (estimate, offer.estimate)
    )
    assert now > was
    assert offer.estimate.of("labour") > estimate.of("labour")


def test_units_runs_and_trades_of_an_offer_add_up_to_its_price() -> None:
    job, estimate, offer = estimated()
    for of, made in ((job, estimate), (offer.job, offer.estimate)):
        assert sum(by_unit(of, made).values()) == made.total
        assert sum(by_run(of, made).values()) == made.price
        assert sum(made.trades().values()) == made.total


def cents(text: str) -> int:
    """A cell of a table in cents."""
    if text == "the same":
        return 0
    figure, _, word = text.partition(" ")
    value = round(float(figure.replace(",", "")) * 100)
    return -value if word == "less" else value


def test_every_table_closes_to_the_cent() -> None:
    job, estimate, offer = estimated()
    by_trade, units = owner_tables(job, estimate, offer)
    for table in (by_trade, units):
        assert summed(table, table.rows[:-1]) == read(table)["with tax"]
    customer = customer_table(job, estimate, offer)
    runs = [row for row in customer.rows if not row.total]
    assert summed(customer, runs) == read(customer)["before tax"]
    as_is, chosen = choices_of(estimate, [offer])
    for told, made in ((as_is, estimate), (chosen, offer.estimate)):
        assert cents(told.before_tax) + cents(told.tax) == cents(told.total) == made.total
    assert cents(chosen.total) - cents(as_is.total) == cents(chosen.more)
    assert (as_is.whole, chosen.whole) == (False, True)
    for row in (*by_trade.rows, *units.rows, *customer.rows):
        assert cents(row.now) - cents(row.was) == cents(row.more)


def read(table: OfferTable) -> Mapping[str, tuple[int, int, int]]:
    return {row.what: (cents(row.was), cents(row.now), cents(row.more)) for row in table.rows}


def summed(table: OfferTable, rows: Sequence[OfferRow]) -> tuple[int, int, int]:
    kept = [read(table)[row.what] for row in rows]
    was, now, more = (sum(each) for each in zip(*kept, strict=True))
    return was, now, more


def test_the_customer_sees_no_trade_and_the_owner_sees_the_lines() -> None:
    job, estimate, offer = estimated()
    press = Press(Printing(job.system, job.precision.value))
    told: dict[str, str] = {}
    for page in offer_pages(job, estimate, [offer]):
        told[page.chapter] = told.get(page.chapter, "") + press.set(page.template, **page.values)
    assert "five-piece doors" in told["agree"]
    for word in ("overhead", "profit", "lumber", "made five_piece"):
        assert word not in told["agree"]
        assert word in told["buy"]
    assert not list(offer_pages(job, None, [offer]))


@pytest.mark.parametrize(
    ("text", "slug", "words"),
    [
        ("offer odd { backs crosswise }", "offer-not-built", "backs is never crosswise"),
        ("offer odd { backs sideways }", "offer-not-built", "say where along across it lies"),
        ("offer none { }", "offer-changes-nothing", "it says no line"),
    ],
)
def test_an_offer_that_cannot_be_priced_is_said_at_its_line(
    text: str, slug: str, words: str
) -> None:
    found, findings = offered(f"offer single {{ backs one }}\n{text}\n")
    # By hand: two boards and a wide sheet, 122.00, six pieces, 30.00, and 10 %: 167.20; with one
    # back fewer a unit, a board, a wide sheet, four pieces: 112.20.
    assert [(each.name, each.estimate.cost) for each in found] == [("single", 11220)]
    assert [each.slug for each in findings] == [slug]
    assert words in findings[0].headline
    assert findings[0].span is not None
    assert findings[0].span.text == "offer"


ISLAND = """
  island work from long out 40 at 10 length 30 depth 24
}

run on_work on work facing front {
  J1: cupboard share
}

construction single from shop { backs one }
"""

KITCHEN = CHOICES.replace("  wall long length 60\n}", f"  wall long length 60{ISLAND}")


@pytest.mark.parametrize(
    ("lines", "old", "new"),
    [
        ("S1: cupboard 23", "S1: cupboard 24", "S1: cupboard 23"),
        ("S1: cupboard 23\n  backs one", "S1: cupboard 24", "S1: cupboard 23"),
        ("without S1", "  S1: cupboard 24\n", ""),
        ("run wall length 54", "run wall on long", "run wall on long length 54"),
        (
            "run wall on long from left {\n S5: cupboard share\n}",
            "  S1: cupboard 24\n  S2: cupboard share",
            "  S5: cupboard share",
        ),
        ("island work length 18", "length 30", "length 18"),
        ("built single", "built     shop", "built     single"),
    ],
)
def test_an_offer_costs_what_the_kitchen_written_so_costs(lines: str, old: str, new: str) -> None:
    assert KITCHEN.count(old) == 1
    world, built = choices(f"{KITCHEN}\noffer other {{\n  {lines}\n}}\n")
    assert built.program is not None
    (offer,), findings = offers(world, "choices.case", built.program, built.findings)
    assert findings == ()
    rewritten = KITCHEN.replace(old, new)
    if "backs one" in lines:
        rewritten = rewritten.replace("built     shop", "built     single")
    _, other = choices(rewritten)
    assert other.job is not None
    work, _ = shop_work(other.job)
    assert work.estimate is not None
    assert offer.estimate.total == work.estimate.total
    assert [each.address for each in offer.job.placed] == [
        each.address for each in other.job.placed
    ]


@pytest.mark.parametrize(
    ("lines", "words", "blamed"),
    [
        ("S9: cupboard 23", "nothing has the tag S9", "S9"),
        ("without S9", "nothing has the tag S9", "without S9"),
        ("island wok length 20", "no island is called wok", "island wok length 20"),
        ("run wall", "run wall says nothing of its own", "run wall"),
        ("S1: cupboard 23\n  without S1", "two of its lines change one place", "offer"),
    ],
)
def test_a_line_in_place_of_nothing_is_blamed(lines: str, words: str, blamed: str) -> None:
    world, built = choices(f"{KITCHEN}\noffer other {{\n  {lines}\n}}\n")
    assert built.program is not None
    found, (said,) = offers(world, "choices.case", built.program, built.findings)
    assert found == ()
    assert (said.slug, said.headline) == (
        "offer-changes-nothing", f"offer other isn't priced: {words}"
    )  # fmt: skip
    assert said.span is not None
    assert said.span.text == blamed


def test_bare_numbers_of_another_measure_are_not_taken_over() -> None:
    texts = {
        "choices.case": f"use metric\n{CHOICES}".encode(),
        "metric.case": b"measure in mm\n\noffer other {\n  S1: cupboard 500\n}\n",
    }
    world = HeldWorld(texts, InstalledLibrary())
    built = compile_job(world, "choices.case")
    assert built.program is not None
    found, (said,) = offers(world, "choices.case", built.program, built.findings)
    assert found == ()
    assert "metric.case and choices.case measure in different units" in said.headline


def offered(more: str) -> tuple[tuple[Offer, ...], tuple[Finding, ...]]:
    """What comes of the offers in some more text of the kitchen of choices."""
    world, built = choices(CHOICES + more)
    assert built.program is not None
    return offers(world, "choices.case", built.program, built.findings)


def test_only_so_many_are_priced() -> None:
    found, findings = offered("".join(f"offer none_{n} {{ }}\n" for n in range(MOST_OFFERS + 1)))
    assert found == ()
    slugs = [each.slug for each in findings]
    assert slugs == ["offer-changes-nothing"] * MOST_OFFERS + ["too-many-offers"]
