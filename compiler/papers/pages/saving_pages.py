"""What would save the most: a page for the owner, and its lines for the terminal."""

from collections.abc import Iterator

from attrs import frozen

from casewright.compiler.papers.pages.pages import Page
from casewright.compiler.shop.priced import Advice, Estimate, money

SAY = (
    "For the owner alone. Before: check the rates. "
    "After: change the line, build again, and show the customer the estimate."
)

BESIDE_OPTIONS = (
    "A saving is of cost (things, work and overhead), found by a short search. What an option "
    "comes to is its price, with profit, rounding and tax, by the book's own search: the two "
    "figures of one change differ by that."
)


@frozen
class SavingRow:
    """A change with what it saves."""

    saves: str
    words: str
    line: str
    where: str


def saving_rows(advice: Advice, estimate: Estimate) -> tuple[SavingRow, ...]:
    """The changes that save the most, the largest first."""
    return tuple(
        SavingRow(estimate.money(each.cents), each.words, each.line, each.where)
        for each in advice.savings
    )


def said_of(advice: Advice, estimate: Estimate) -> str:
    """What was tried, and of what cost the savings are."""
    cost = f"{estimate.rates.currency} {estimate.money(advice.cost)}"
    of = f" of {advice.tried + advice.untried}" if advice.untried else ""
    one = advice.tried + advice.untried == 1
    tried = f"{advice.tried}{of} {'change' if one else 'changes'} tried one at a time"
    tried += f", of a cost of {cost}"
    if advice.unbuilt:
        tried += f"; {advice.unbuilt} can't be built, planned and priced without a new fault"
    if advice.less:
        tried += f"; {advice.less} only leave parts out, and are no saving"
    return f"{tried}."


def saving_pages(advice: Advice | None, estimate: Estimate | None) -> Iterator[Page]:
    """The page, where advice was asked for."""
    if advice is None or estimate is None:
        return
    yield Page(
        "savings",
        "buy",
        "What would save the most",
        SAY,
        "savings.html",
        {
            "currency": estimate.rates.currency,
            "rows": saving_rows(advice, estimate),
            "said": said_of(advice, estimate),
            "beside_options": BESIDE_OPTIONS,
        },
        find="savings",
    )


def saving_members(advice: Advice, estimate: Estimate) -> dict[str, object]:
    """The same for other programs: amounts as exact decimals of the currency."""
    places = estimate.rates.places

    def amount(cents: int) -> str:
        return money(cents, places).replace(",", "")

    return {
        "currency": estimate.rates.currency,
        "cost": amount(advice.cost),
        "tried": advice.tried,
        "unbuilt": advice.unbuilt,
        "less": advice.less,
        "untried": advice.untried,
        "changes": [
            {"saves": amount(each.cents), "words": each.words, "line": each.line,
             "place": each.where or None}
            for each in advice.savings
        ],
    }  # fmt: skip


def saving_lines(advice: Advice, estimate: Estimate) -> tuple[str, ...]:
    """The same as lines of text."""
    rows = saving_rows(advice, estimate)
    if not rows:
        return ("Nothing that was tried would save anything.", said_of(advice, estimate))
    wide = max(len(row.saves) for row in rows)
    lines = [f"What would save the most, in {estimate.rates.currency}:"]
    for row in rows:
        lines.append(f"  {row.saves:>{wide}}  {row.words}")
        where = f"{row.where}  " if row.where else "in a text of your own:  "
        lines.append(f"  {'':>{wide}}  {where}{row.line}")
    return (*lines, said_of(advice, estimate), BESIDE_OPTIONS)
