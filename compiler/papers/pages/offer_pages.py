"""The estimate by option: what the customer would pay with each, and how the owner reckons it."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from attrs import evolve, frozen

from casewright.compiler.model import Job
from casewright.compiler.papers.names import words
from casewright.compiler.papers.pages.pages import Page, lines_in, paged, part_of, room_on
from casewright.compiler.papers.pieces import label
from casewright.compiler.shop.priced import Estimate, Kind, Offer, money

SAY_CUSTOMER = (
    "For the customer and the owner. Before: the estimate is read. "
    "After: mark what is chosen; the kitchen is then drawn and priced with it."
)
SAY_OWNER = "For the owner alone. Before: check the rates. After: show the customer the options."

EACH = "Each option is priced by itself, with the whole kitchen built and planned anew."
TOGETHER = (
    "Two together may come to more or less than their sum: price them so before they are sold."
)

BEFORE_TAX: Final[tuple[Kind, ...]] = ("things", "labour", "overhead", "profit", "rounding")

_LINE, _HEAD, _AGREED = 6.1, 24.0, 20.0


@frozen
class OfferRow:
    """What something comes to as estimated, with the option, and the difference."""

    what: str
    was: str
    now: str
    more: str
    total: bool = False


@frozen
class OfferTable:
    """An option's rows."""

    title: str
    says: tuple[str, ...]
    rows: tuple[OfferRow, ...]
    left_out: tuple[str, ...] = ()


@frozen
class Choice:
    """An option as the customer chooses it: what is then to be paid. `whole` is false where a
    price is missing: then it can't be chosen yet."""

    title: str
    before_tax: str
    tax: str
    total: str
    more: str
    whole: bool


def choices(estimate: Estimate, offers: Sequence[Offer]) -> tuple[Choice, ...]:
    """The kitchen as estimated, then every option."""
    first = Choice(
        "as estimated", estimate.money(estimate.price), estimate.money(estimate.of("tax")),
        estimate.money(estimate.total), "", False,
    )  # fmt: skip
    found = [
        Choice(
            words(each.title),
            each.estimate.money(each.estimate.price),
            each.estimate.money(each.estimate.of("tax")),
            each.estimate.money(each.estimate.total),
            more(estimate, each.estimate.total - estimate.total),
            not estimate.missing and not each.estimate.missing,
        )
        for each in offers
    ]
    return (first, *found)


def offer_pages(job: Job, estimate: Estimate | None, offers: Sequence[Offer]) -> Iterator[Page]:
    """The customer's page of options and the owner's, where any are offered."""
    if estimate is None or not offers:
        return
    customer = [customer_table(job, estimate, each) for each in offers]
    chosen = choices(estimate, offers)
    yield from _pages(job, estimate, "options", "agree", "Options", SAY_CUSTOMER, customer, chosen)
    owner = [table for each in offers for table in owner_tables(job, estimate, each)]
    title = "Options as the shop reckons them"
    yield from _pages(job, estimate, "options-reckoned", "buy", title, SAY_OWNER, owner)


def _pages(
    job: Job, estimate: Estimate, name: str, chapter: str, title: str, say: str,
    tables: Sequence[OfferTable], chosen: Sequence[Choice] = (),
) -> Iterator[Page]:  # fmt: skip
    room = room_on(job) - 16.0
    split = [piece for table in tables for piece in _split(table, room)]
    items: list[tuple[OfferTable | None, float]] = [(each, _height(each)) for each in split]
    if chosen:
        items.insert(0, (None, _HEAD + _LINE * len(chosen) + _AGREED))
    shared = paged(items, room)
    for number, entries in enumerate(shared, 1):
        held = [each for each in entries if each is not None]
        yield Page(
            f"{name}-{number}",
            chapter,
            title,
            say,
            "options.html",
            {
                "currency": estimate.rates.currency,
                "tables": held,
                "each": (EACH, TOGETHER) if number == 1 else (),
                "choices": chosen if number == 1 else (),
                "tax": any(estimate.of("tax") or each.tax.strip("0.,") for each in chosen),
            },
            find=title.lower() if number == 1 else "",
            part=part_of(number, shared),
            more=number > 1,
        )


def _split(table: OfferTable, room: float) -> Iterator[OfferTable]:
    """A table in pieces that have room on a page each."""
    most = max(1, int((room - _height(evolve(table, rows=()))) / _LINE))
    for start in range(0, len(table.rows), most):
        rows = table.rows[start : start + most]
        last = start + most >= len(table.rows)
        yield evolve(
            table,
            title=table.title if not start else f"{table.title}, continued",
            says=table.says if not start else (),
            rows=rows,
            left_out=table.left_out if last else (),
        )


def _height(table: OfferTable) -> float:
    said = sum(5.0 * lines_in(each, 190.0) for each in (*table.says, *table.left_out))
    return _HEAD + said + _LINE * len(table.rows)


def customer_table(job: Job, estimate: Estimate, offer: Offer) -> OfferTable:
    """An option by run, before tax."""
    was, now = by_run(job, estimate), by_run(offer.job, offer.estimate)
    rows = [*_rows(estimate, was, now)]
    rows.append(_sum(estimate, "before tax", estimate.price, offer.estimate.price))
    named = [each for each in offer.estimate.missing.named if each not in estimate.missing.named]
    lacking = (f"Not in this sum yet: {'; '.join(named)}.",) if named else ()
    return OfferTable(f"{words(offer.title)}, by run", (), tuple(rows), lacking)


def owner_tables(job: Job, estimate: Estimate, offer: Offer) -> Iterator[OfferTable]:
    """An option by trade, and by unit: both add up to the same difference."""
    title = words(offer.title)
    total = _sum(estimate, "with tax", estimate.total, offer.estimate.total)
    trades = _changed(estimate, estimate.trades(), offer.estimate.trades())
    lines = ("; ".join(offer.lines),)
    yield OfferTable(f"{title}, by trade", lines, (*trades, total), _left_out(estimate, offer))
    units = _changed(estimate, by_unit(job, estimate), by_unit(offer.job, offer.estimate))
    yield OfferTable(f"{title}, by unit", (), (*units, total))


def by_run(job: Job, estimate: Estimate) -> dict[str, int]:
    """What every run comes to before tax, in cents."""
    return {
        words(run.title): sum(
            estimate.unit(each.address, *BEFORE_TAX)
            for each in run.everything
            if each.unit is not None
        )
        for run in job.runs
        if any(each.unit is not None for each in run.everything)
    }


def by_unit(job: Job, estimate: Estimate) -> dict[str, int]:
    """What every unit comes to with tax, in cents."""
    return {
        label(each): estimate.unit(each.address) for each in job.placed if each.unit is not None
    }


def _rows(estimate: Estimate, was: Mapping[str, int], now: Mapping[str, int]) -> Iterator[OfferRow]:
    for what in dict.fromkeys((*was, *now)):
        yield _row(estimate, what, was.get(what, 0), now.get(what, 0))


def _changed(
    estimate: Estimate, was: Mapping[str, int], now: Mapping[str, int]
) -> Iterator[OfferRow]:
    """The rows that an option changes, and one for all that it leaves as it is."""
    same = {what for what in was if was[what] == now.get(what)}
    yield from _rows(
        estimate,
        {what: cents for what, cents in was.items() if what not in same},
        {what: cents for what, cents in now.items() if what not in same},
    )
    if same:
        rest = sum(was[what] for what in same)
        yield _row(estimate, "all else", rest, rest)


def _row(estimate: Estimate, what: str, was: int, now: int) -> OfferRow:
    return OfferRow(what, estimate.money(was), estimate.money(now), more(estimate, now - was))


def _sum(estimate: Estimate, what: str, was: int, now: int) -> OfferRow:
    return OfferRow(
        what, estimate.money(was), estimate.money(now), more(estimate, now - was), total=True
    )


def more(estimate: Estimate, cents: int) -> str:
    """A difference with its sign in words: `40.00 more`, `3.10 less`, `the same`."""
    if not cents:
        return "the same"
    return f"{money(abs(cents), estimate.rates.places)} {'more' if cents > 0 else 'less'}"


def _left_out(estimate: Estimate, offer: Offer) -> tuple[str, ...]:
    """What isn't in an option's price beyond what isn't in the estimate's."""
    return tuple(each for each in offer.estimate.left_out if each not in estimate.left_out)
