"""The estimate, for the customer: every unit with its price, without the shop's own detail."""

from collections.abc import Iterator

from attrs import frozen

from casewright.compiler.model import Job, Placed, Run
from casewright.compiler.papers.pages import Page, lines_in, paged, part_of, room_on
from casewright.compiler.papers.pieces import label
from casewright.compiler.shop.priced import Estimate, percent

SAY = (
    "For the customer and the owner. Before: the plan and the elevations are agreed. "
    "After: sign, and the shop buys."
)

LINE, RUN_HEAD, SUMS = 6.6, 15.0, 62.0


@frozen
class UnitPrice:
    """A unit as the customer reads it."""

    holder: str
    label: str
    title: str
    price: str


@frozen
class RunPrice:
    """A run with the prices of its units, and their sum."""

    title: str
    units: tuple[UnitPrice, ...]
    total: str
    continued: bool = False


@frozen
class Sums:
    """The last lines: before tax, tax, and what is to be paid."""

    price: str
    tax: str
    tax_words: str
    total: str
    whole: bool


def run_prices(job: Job, estimate: Estimate) -> tuple[RunPrice, ...]:
    """Every run with the prices before tax of what stands in it, which add up to the whole."""

    def cents(placed: Placed) -> int:
        return estimate.unit(placed.address, "things", "labour", "overhead", "profit", "rounding")

    def of(run: Run) -> RunPrice:
        units = [placed for placed in run.everything if placed.unit is not None]
        return RunPrice(
            run.title,
            tuple(
                UnitPrice(each.address, label(each), each.title, estimate.money(cents(each)))
                for each in units
            ),
            estimate.money(sum(cents(each) for each in units)),
        )

    return tuple(each for run in job.runs if (each := of(run)).units)


def sums(estimate: Estimate) -> Sums:
    """The estimate's last lines."""
    tax = estimate.of("tax")
    return Sums(
        estimate.money(estimate.price),
        estimate.money(tax) if tax else "",
        f"tax, {percent(estimate.rates.tax)}",
        estimate.money(estimate.total),
        not estimate.missing,
    )


def customer_words(job: Job, estimate: Estimate) -> tuple[str, ...]:
    """What isn't in the price, as a customer needs to know it."""
    appliances = [placed.title for placed in job.placed if placed.kind == "appliance"]
    said = [f"Appliances are not in this price: {', '.join(appliances)}."] if appliances else []
    if estimate.missing:
        named = "; ".join(estimate.missing.named) or "part of what the shop charges"
        said.insert(0, f"Not in this sum yet: {named}. It will grow, and is no offer to sign.")
    return (*said, "Whatever is not named here is not in the price.")


def estimate_pages(job: Job, estimate: Estimate | None) -> Iterator[Page]:
    """The estimate, over as many pages as it takes; none where the shop has no rates."""
    if estimate is None:
        return
    rows = [
        (run, unit, unit is run.units[0]) for run in run_prices(job, estimate) for unit in run.units
    ]
    heights = [
        LINE * lines_in(unit.title, 100.0) + (RUN_HEAD if first else 0.0) for _, unit, first in rows
    ]
    shared = paged(zip(rows, heights, strict=True), room_on(job) - SUMS, RUN_HEAD)
    for number, entries in enumerate(shared, 1):
        runs: dict[str, list[UnitPrice]] = {}
        for run, unit, _ in entries:
            runs.setdefault(run.title, []).append(unit)
        whole = {run.title: run for run, _, _ in entries}
        yield Page(
            f"estimate-{number}",
            "agree",
            "Estimate",
            SAY,
            "estimate.html",
            {
                "currency": estimate.rates.currency,
                "runs": [
                    RunPrice(
                        title,
                        tuple(units),
                        whole[title].total if units[-1] is whole[title].units[-1] else "",
                        units[0] is not whole[title].units[0],
                    )
                    for title, units in runs.items()
                ],
                "sums": sums(estimate) if number == len(shared) else None,
                "left_out": customer_words(job, estimate) if number == len(shared) else (),
            },
            find="estimate" if number == 1 else "",
            part=part_of(number, shared),
            more=number > 1,
        )
