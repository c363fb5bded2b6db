"""Pages for the owner: what to buy, and the estimate as the shop reckons it."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from attrs import frozen

from casewright.compiler.model import Job
from casewright.compiler.papers.figures import printing_of, suffix
from casewright.compiler.papers.lists.spreadsheet import sheet
from casewright.compiler.papers.names import plural
from casewright.compiler.papers.pages.pages import Page, lines_in, paged, part_of, room_on
from casewright.compiler.papers.pieces import label
from casewright.compiler.shop.priced import (
    SECTION_WORDS,
    BuyingList,
    Estimate,
    Kind,
    Line,
    Needed,
    Section,
    pack_word,
    percent,
    plain,
    says_its_count,
    several,
)
from casewright.lang.measure import INCH, System, length
from casewright.lang.printing import NO_BREAK, decimal, in_system, printed

SAY_LIST = (
    "For the owner. Before: the estimate is signed. "
    "After: tick what is ordered, and hand the plans to the sawyer."
)
SAY_ORDER = (
    "For the owner, to send. Before: the buying list is read. After: what comes is ticked off here."
)
SAY_SHEET = "For the owner alone. Before: check the rates. After: show the customer the estimate."

LINE = 6.2


@frozen
class BuyRow:
    """A row of the buying list, in words."""

    what: str
    size: str
    need: str
    held: str
    order: str
    supplier: str
    ordered_as: str
    note: str

    @property
    def height(self) -> float:
        """Millimetres the row takes on paper."""
        lines = max(
            lines_in(self.what, 54.0),
            lines_in(self.order, 32.0),
            lines_in(f"{self.supplier}, {self.ordered_as}", 30.0),
        )
        return lines * 4.6 + 1.8 + (4.4 * lines_in(self.note, 58.0) if self.note else 0.0)


@frozen
class BuySection:
    """Rows of one kind."""

    title: str
    rows: tuple[BuyRow, ...]
    continued: bool = False


@frozen
class TradeSum:
    """Lines of the owner's sheet that are added under one trade."""

    trade: str
    lines: tuple[tuple[str, str, str], ...]
    total: str


@frozen
class UnitSum:
    """A unit's share of everything, across the owner's table."""

    label: str
    holder: str
    cells: tuple[str, ...]


def amount_words(job: Job, row: Needed, amount: Fraction) -> str:
    """An amount of a row in its own measure: `3 sheets`, `41.7 board feet`, `38 ft`."""
    if row.measure == "inch":
        if job.system is System.MILLIMETRES:
            return f"{plain(amount * INCH / 1000)}{NO_BREAK}m"
        return f"{plain(amount / 12)}{NO_BREAK}ft"
    if row.measure == "piece":
        return plain(amount)
    if row.measure == "pack":
        return f"{plain(amount)} {pack_word(row.bought, amount)}"
    many = {"board foot": "board feet"}.get(row.measure, f"{row.measure}s")
    return f"{plain(amount)} {row.measure if amount == 1 else many}"


def order_words(job: Job, row: Needed) -> str:
    """What to order: packs where it comes in packs."""
    if row.to_order == 0:
        return "nothing"
    if row.packs is not None and row.bought is not None:
        holds, title = row.bought.pack or Fraction(1), row.bought.pack_title
        packs = plural(row.packs, title, several(title))
        single = holds == 1 and not row.bought.by_length
        if single or says_its_count(row.bought):
            return packs
        return f"{packs} of {amount_words(job, row, holds)}"
    return amount_words(job, row, row.to_order)


def buy_row(job: Job, row: Needed) -> BuyRow:
    """A row of the list as the page shows it."""
    size = row.size if row.size != row.title else ""
    if row.long is not None and not size:
        size = printed(length(row.long), printing_of(job)).bare.replace(" ", NO_BREAK)
    supplier = row.bought.supplier if row.bought is not None else ""
    ordered_as = row.bought.order_name if row.bought is not None else ""
    return BuyRow(
        row.title, size, amount_words(job, row, row.needed),
        amount_words(job, row, row.held) if row.held else "", order_words(job, row), supplier,
        ordered_as, row.note,
    )  # fmt: skip


def buy_pages(job: Job, buying: BuyingList, estimate: Estimate | None) -> Iterator[Page]:
    """The buying list, and the owner's sheet where the shop has rates."""
    yield from _list_pages(job, buying)
    yield from _order_pages(job, buying)
    if estimate is not None:
        yield from _owner_pages(job, estimate)


def _list_pages(job: Job, buying: BuyingList) -> Iterator[Page]:
    rows = [(row.section, buy_row(job, row)) for row in buying.rows]
    firsts = {section: next(each for at, each in rows if at == section) for section, _ in rows}
    heights = [row.height + (13.0 if firsts[section] is row else 0.0) for section, row in rows]
    said = sum(5.0 * lines_in(each, 190.0) for each in buying.left_out) + 8.0
    shared = paged(zip(rows, heights, strict=True), room_on(job) - said, 13.0)
    for number, entries in enumerate(shared, 1):
        sections: dict[Section, list[BuyRow]] = {}
        for section, row in entries:
            sections.setdefault(section, []).append(row)
        yield Page(
            f"buying-list-{number}",
            "buy",
            "Buying list",
            SAY_LIST,
            "buying_list.html",
            {
                "sections": [
                    BuySection(SECTION_WORDS[title], tuple(found), found[0] is not firsts[title])
                    for title, found in sections.items()
                ],
                "left_out": buying.left_out if number == len(shared) else (),
            },
            find="buying list" if number == 1 else "",
            part=part_of(number, shared),
            more=number > 1,
        )


def _order_pages(job: Job, buying: BuyingList) -> Iterator[Page]:
    """What is ordered from each supplier that the shop's text names: a sheet to send."""
    suppliers: dict[str, list[BuyRow]] = {}
    for needed in buying.rows:
        if needed.to_order and needed.bought is not None and needed.bought.supplier:
            suppliers.setdefault(needed.bought.supplier, []).append(buy_row(job, needed))
    for index, (supplier, rows) in enumerate(suppliers.items(), 1):
        shared = paged(((row, row.height) for row in rows), room_on(job) - 40.0)
        for number, held in enumerate(shared, 1):
            yield Page(
                f"order-form-{index}-{number}",
                "buy",
                f"Order to {supplier}",
                SAY_ORDER,
                "order_form.html",
                {"rows": held},
                find=f"order {supplier}" if number == 1 else "",
                part=part_of(number, shared),
                more=number > 1,
            )


COLUMNS = ("things", "labour", "overhead", "profit", "tax")


def _owner_pages(job: Job, estimate: Estimate) -> Iterator[Page]:
    profit = "margin" if estimate.rates.profit_is == "margin" else "mark-up"
    yield Page(
        "owners-sheet",
        "buy",
        "Owner's sheet",
        SAY_SHEET,
        "owners_sheet.html",
        {
            "rates": estimate.rates,
            "profit": f"{profit} {percent(estimate.rates.profit)}",
            "trades": trade_sums(estimate),
            "price": estimate.money(estimate.price),
            "cost": estimate.money(estimate.cost),
            "total": estimate.money(estimate.total),
            "columns": COLUMNS,
            "units": unit_sums(job, estimate),
            "runs": run_sums(job, estimate),
            "sums": _cells(estimate, estimate.holders),
            "left_out": estimate.left_out,
            "missing": bool(estimate.missing),
        },
        find="owner's sheet",
        long=True,
    )


def trade_sums(estimate: Estimate) -> tuple[TradeSum, ...]:
    """The lines under their trades, each trade with its sum."""
    held: dict[str, list[Line]] = {}
    for line in estimate.lines:
        held.setdefault(line.trade, []).append(line)
    return tuple(
        TradeSum(
            trade,
            tuple((line.title, line.words, estimate.money(line.total)) for line in lines),
            estimate.money(sum(line.total for line in lines)),
        )
        for trade, lines in held.items()
    )


def unit_sums(job: Job, estimate: Estimate) -> tuple[UnitSum, ...]:
    """Every unit's share, and what it comes to."""
    return tuple(
        UnitSum(label(placed), placed.address, _cells(estimate, (placed.address,)))
        for placed in job.placed
        if placed.unit is not None
    )


def run_sums(job: Job, estimate: Estimate) -> tuple[UnitSum, ...]:
    """Every run's share: the sum of its units'."""
    return tuple(
        UnitSum(run.title, "", _cells(estimate, holders))
        for run in job.runs
        if (holders := [each.address for each in run.everything if each.unit is not None])
    )


def _cells(estimate: Estimate, holders: Sequence[str]) -> tuple[str, ...]:
    """Things, labour, overhead, profit with rounding, tax, and their sum, of some units."""
    kinds: tuple[tuple[Kind, ...], ...] = (
        ("things",),
        ("labour",),
        ("overhead",),
        ("profit", "rounding"),
        ("tax",),
    )
    cents = [sum(estimate.unit(each, *of) for each in holders) for of in kinds]
    return tuple(estimate.money(each) for each in (*cents, sum(cents)))


def buying_csv(job: Job, buying: BuyingList) -> str:
    """The buying list as CSV (RFC 4180): amounts as decimals with their measure beside them."""
    printing = printing_of(job)
    metric = job.system is System.MILLIMETRES

    def cell(row: Needed, amount: Fraction) -> str:
        if row.measure == "inch":
            return decimal(amount * INCH / 1000 if metric else amount / 12)
        return decimal(amount)

    def unit(row: Needed) -> str:
        if row.measure == "inch":
            return "metre" if metric else "foot"
        return row.measure

    return sheet(
        (
            "section", "what", "size", f"length_{suffix(printing)}", "measure", "needed",
            "on_hand", "order", "packs", "pack_holds", "supplier", "order_name", "note",
        ),
        (
            (
                row.section,
                row.title,
                row.size,
                "" if row.long is None else decimal(in_system(length(row.long), job.system)),
                unit(row),
                cell(row, row.needed),
                cell(row, row.held),
                cell(row, row.to_order),
                "" if row.packs is None else str(row.packs),
                cell(row, row.bought.pack)
                if row.packs is not None and row.bought is not None and row.bought.pack is not None
                else "",
                row.bought.supplier if row.bought is not None else "",
                row.bought.order_name if row.bought is not None else "",
                row.note,
            )
            for row in buying.rows
        ),
    )  # fmt: skip
