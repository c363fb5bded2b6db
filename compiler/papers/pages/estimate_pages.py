"""The estimate, for the customer: every unit with its price, without the shop's own detail."""

from collections.abc import Iterator

from attrs import frozen

from casewright.compiler.model import Job, Placed, Run
from casewright.compiler.papers.figures import printing_of
from casewright.compiler.papers.names import listed, words
from casewright.compiler.papers.pages.pages import Page, lines_in, paged, part_of, room_on
from casewright.compiler.papers.pieces import label
from casewright.compiler.shop.priced import Estimate, percent
from casewright.lang.measure import length
from casewright.lang.printing import NO_BREAK, printed

SAY = (
    "For the customer and the owner. Before: the plan and the elevations are agreed. "
    "After: sign, and the shop buys."
)

LINE, RUN_HEAD, SUMS = 6.6, 15.0, 52.0


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
                UnitPrice(
                    each.address, _named(run, each), _sized(job, each), estimate.money(cents(each))
                )
                for each in units
            ),
            estimate.money(sum(cents(each) for each in units)),
        )

    return tuple(each for run in job.runs if (each := of(run)).units)


def _named(run: Run, placed: Placed) -> str:
    """A unit by its tag; a base, which has none, by what stands on it."""
    if placed.kind != "base":
        return label(placed)
    over = [each.tag for each in run.placed if each.tag and run.base_under(each) is placed]
    return f"under {listed(over)}" if over else label(placed)


def _sized(job: Job, placed: Placed) -> str:
    """What a unit is, and how wide, as a customer tells one from another."""
    wide = printed(length(placed.width.value), printing_of(job)).bare
    return f"{words(placed.title)}, {wide.replace(' ', NO_BREAK)} wide"


def included(job: Job, estimate: Estimate) -> str:
    """What is in the price besides the units, as a sentence; empty where there is nothing."""
    coated = {each.title for each in job.supply.coats if each.materials}
    named = [
        line.title
        for line in estimate.lines
        if line.kind == "things"
        and (line.name in {each.name for each in job.supply.linear} or line.title in coated)
    ]
    return f"In these prices: {listed(dict.fromkeys(named))}." if named else ""


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
    inside = included(job, estimate)
    return (*([inside] if inside else []), *said, "Whatever is not named here is not in the price.")


def estimate_pages(job: Job, estimate: Estimate | None) -> Iterator[Page]:
    """The estimate, over as many pages as it takes; none where the shop has no rates."""
    if estimate is None:
        return
    items: list[tuple[tuple[RunPrice, UnitPrice] | None, float]] = []
    for run in run_prices(job, estimate):
        for unit in run.units:
            # A run's heading stands over its first unit, its sum under its last.
            more = (RUN_HEAD if unit is run.units[0] else 0.0) + (
                LINE if unit is run.units[-1] else 0.0
            )
            items.append(((run, unit), LINE * lines_in(unit.title, 100.0) + more))
    said = customer_words(job, estimate)
    items.append((None, SUMS + sum(5.0 * lines_in(each, 185.0) for each in said)))
    shared = paged(items, room_on(job), RUN_HEAD)
    for number, held in enumerate(shared, 1):
        entries = [each for each in held if each is not None]
        runs: dict[str, list[UnitPrice]] = {}
        for run, unit in entries:
            runs.setdefault(run.title, []).append(unit)
        whole = {run.title: run for run, _ in entries}
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
                "left_out": said if number == len(shared) else (),
            },
            find="estimate" if number == 1 else "",
            part=part_of(number, shared),
            more=number > 1,
        )
