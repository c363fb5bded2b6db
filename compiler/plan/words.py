"""What may be said of a plan, in the shop's words; never more than the check found.

With one stock the cost is the count of sheets; with several it is a price or an area, and the
count is only told.
"""

from collections import Counter
from fractions import Fraction

from attrs import frozen

from casewright.compiler.plan.request import Request
from casewright.compiler.plan.tree import CutPlan
from casewright.compiler.plan.verify import Verdict


@frozen
class Goods:
    """What is counted, one of it and several; `priced` where the cost of a stock is its price (of
    boards it is what they measure)."""

    one: str
    many: str
    priced: bool = True


SHEETS = Goods("sheet", "sheets")


def headline(request: Request, plan: CutPlan, verdict: Verdict, goods: Goods = SHEETS) -> str:
    """The plan's headline: the count of sheets and why fewer can't do, or what is open.

    Where the check found a fault, only that is said.
    """
    if not verdict.sound:
        return "this plan did not pass its check and must not be sawn"
    if len(request.stock) == 1:
        within = " in three stages" if verdict.staged else ""
        return _count_words(int(verdict.cost), int(verdict.least), within, goods)
    if not goods.priced:
        count = len(plan.sheets)
        return f"{count} {goods.one if count == 1 else goods.many}; " + _less(verdict, goods)
    return f"{sheets_in_words(request, plan)}; {_cost_words(request, plan, verdict, goods)}"


def _less(verdict: Verdict, goods: Goods) -> str:
    """Whether less stuff would do, where a stock costs what it measures."""
    within = " in three stages" if verdict.staged else ""
    if verdict.cost == verdict.least:
        return f"no other choice of {goods.many} measures less together{within}"
    percent = -(-100 * (verdict.cost - verdict.least) // verdict.cost)
    return f"none can measure {percent} % less together{within}, and up to that is open"


def _count_words(planned: int, least: int, within: str, goods: Goods) -> str:
    if planned == least:
        if planned == 1:
            return f"1 {goods.one}"
        return f"{planned} {goods.many}, and {planned - 1} can't do{within}"
    open_counts = [str(count) for count in range(least, planned)]
    verb = "is" if len(open_counts) == 1 else "are"
    listed = " and ".join(filter(None, [", ".join(open_counts[:-1]), open_counts[-1]]))
    if len(open_counts) > 3:
        listed = f"{open_counts[0]} to {open_counts[-1]}"
    return f"{planned} planned; fewer than {least} is impossible{within}; {listed} {verb} open"


def sheets_in_words(request: Request, plan: CutPlan) -> str:
    """How many of each stock are used, as `2 of 48 x 96 and 1 offcut from June`: what is bought
    by its width and length, a kept offcut by its name."""
    used = Counter(sheet.stock for sheet in plan.sheets)
    parts = [
        f"{used[stock.name]} {stock.name.replace('_', ' ')}"
        if stock.kept
        else f"{used[stock.name]} of {_size(stock.width)} x {_size(stock.length)}"
        for stock in request.stock
        if used[stock.name]
    ]
    return " and ".join(filter(None, [", ".join(parts[:-1]), *parts[-1:]]))


def _size(value: Fraction) -> str:
    """`48` or `48 1/2`."""
    whole, rest = divmod(value, 1)
    return " ".join(str(each) for each in (whole, rest) if each) or "0"


def _cost_words(request: Request, plan: CutPlan, verdict: Verdict, goods: Goods) -> str:
    names = {sheet.stock for sheet in plan.sheets}
    kept = any(stock.kept and stock.name in names for stock in request.stock)
    half = ", a kept offcut counted at half that of so much sheet" if kept else ""
    measure = "price" if request.stock[0].cost is not None else f"area in square {request.measure}"
    within = " in three stages" if verdict.staged else ""
    if verdict.cost == verdict.least:
        figure = f"{measure} {_figure(verdict.cost)}"
        return f"no other choice of {goods.many} costs less{within} ({figure}{half})"
    return (
        f"{measure} {_figure(verdict.cost)}{half}; less than {_figure(verdict.least)} is impossible"
        f"{within}; between them is open"
    )


def _figure(value: Fraction) -> str:
    """A decimal of at most two places, with a mark where it was rounded."""
    hundredths = round(value * 100)
    text = f"{hundredths // 100}.{hundredths % 100:02d}".removesuffix(".00")
    return text if Fraction(hundredths, 100) == value else f"about {text}"


def yield_words(request: Request, plan: CutPlan) -> str:
    """The share of the sheets' area that became pieces: a footnote, rounded to a whole percent."""
    area = {stock.name: stock.length * stock.width for stock in request.stock}
    bought = sum((area[sheet.stock] for sheet in plan.sheets), Fraction(0))
    used = sum((p.length * p.width * p.quantity for p in request.pieces), Fraction(0))
    return f"{round(100 * used / bought)} % of the sheets' area is parts" if bought else "no sheets"
