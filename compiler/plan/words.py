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
    """What is counted, one of it and several."""

    one: str
    many: str


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
    return f"{sheets_in_words(request, plan)}; {_cost_words(request, verdict, goods)}"


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
    """How many of each stock are used, as `2 maple ply and 1 offcut from June`."""
    used = Counter(sheet.stock for sheet in plan.sheets)
    parts = [f"{used[stock.name]} {stock.name}" for stock in request.stock if used[stock.name]]
    return " and ".join(filter(None, [", ".join(parts[:-1]), *parts[-1:]]))


def _cost_words(request: Request, verdict: Verdict, goods: Goods) -> str:
    measure = "price" if request.stock[0].cost is not None else f"area in square {request.measure}"
    within = " in three stages" if verdict.staged else ""
    if verdict.cost == verdict.least:
        figure = f"{measure} {_figure(verdict.cost)}"
        return f"no other choice of {goods.many} costs less{within} ({figure})"
    return (
        f"{measure} {_figure(verdict.cost)}; less than {_figure(verdict.least)} is impossible"
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
