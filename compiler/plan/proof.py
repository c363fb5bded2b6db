"""The independent check of a certificate: the bound is worked out anew, by the way it names.

Nothing of the planner is imported, only the data format of requests: what is claimed of a count
rests on this module and `dearest.py`.
"""

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from hashlib import sha256
from math import ceil, floor

from attrs import frozen

from casewright.compiler.plan.dearest import (
    Item,
    Rectangle,
    TooMuchWork,
    dearest_of_three_stages,
    dearest_pattern,
)
from casewright.compiler.plan.request import (
    Problem,
    Request,
    common_step,
    exact,
    write_request,
)


def check_certificate(request: Request, text: str) -> tuple[Fraction, list[Problem]]:
    """The least cost of any plan as worked out again, and what the certificate gets wrong."""
    try:
        fields = _fields(text)
        if fields["list"] != [sha256(write_request(request).encode()).hexdigest()]:
            return Fraction(0), [Problem("other-list", "the certificate is for another list")]
        least = _least(request, fields)
        claimed = exact(fields["least"][0])
    except TooMuchWork as error:
        return Fraction(0), [Problem("too-much-work", str(error))]
    except (KeyError, ValueError, IndexError, ZeroDivisionError) as error:
        return Fraction(0), [Problem("certificate-unreadable", f"no certificate: {error}")]
    if least is None:
        return Fraction(0), [Problem("price-wrong", "prices or dearest patterns don't hold")]
    if claimed > least:
        return least, [Problem("bound-too-high", f"{claimed} is claimed, {least} is shown")]
    return claimed, []


def _fields(text: str) -> dict[str, list[str]]:
    fields: dict[str, list[str]] = {}
    lines = text.splitlines()
    if not lines or lines[0] != "certificate 1":
        raise ValueError("the first line isn't 'certificate 1'")
    for line in lines[1:]:
        word, _, value = line.partition(" ")
        fields.setdefault(word, []).append(value)
    return fields


@frozen
class _Grid:
    """The request in whole steps, kerf taken in: usable sheets and pieces with their counts."""

    sheets: tuple[Rectangle, ...]
    pieces: tuple[tuple[Rectangle, bool, int], ...]
    costs: tuple[Fraction, ...]
    copies: tuple[int | None, ...]
    kerf: int


def _grid(request: Request) -> _Grid:
    step, kerf = request.grid, request.saw.kerf

    def steps(length: Fraction, width: Fraction) -> Rectangle:
        return int((length + kerf) / step), int((width + kerf) / step)

    return _Grid(
        tuple(steps(*usable) for usable in request.usable),
        tuple(
            (steps(p.length, p.width), p.turn and p.length != p.width, p.quantity)
            for p in request.pieces
        ),
        request.costs,
        tuple(stock.copies for stock in request.stock),
        int(kerf / step),
    )


def _least(request: Request, fields: dict[str, list[str]]) -> Fraction | None:
    grid = _grid(request)
    kind = fields["bound"][0]
    if kind == "area":
        return _round_up(grid, _area(grid))
    if kind == "dual-feasible":
        if len(grid.sheets) != 1:
            raise ValueError("dual feasible functions are for one stock")
        return Fraction(ceil(_dual_feasible(grid, fields["along"][0], fields["across"][0])))
    if kind == "prices":
        worth = _priced(request, grid, fields)
        return None if worth is None else _round_up(grid, worth)
    raise ValueError(f"no bound is called {kind!r}")


def _area(grid: _Grid) -> Fraction:
    """The pieces' area paid for at the cheapest price an area, as far as the copies go."""
    need = Fraction(sum(length * width * n for (length, width), _, n in grid.pieces))
    areas = [length * width for length, width in grid.sheets]
    paid = Fraction(0)
    for index in sorted(range(len(areas)), key=lambda i: grid.costs[i] / areas[i]):
        copies = grid.copies[index]
        bought = need if copies is None else min(need, Fraction(areas[index] * copies))
        paid += bought * grid.costs[index] / areas[index]
        need -= bought
    return paid


def _round_up(grid: _Grid, least: Fraction) -> Fraction:
    """The cheapest choice of whole sheets not under `least`.

    Where there are very many choices, the next multiple of what the costs have in common.
    """
    step = common_step(grid.costs)
    if len(grid.costs) == 1 and grid.copies[0] is None:
        return ceil(least / grid.costs[0]) * grid.costs[0]
    bought: set[Fraction] = {Fraction(0)}
    for cost, copies in zip(grid.costs, grid.copies, strict=True):
        taken, fresh = 0, bought
        while fresh and taken != copies:
            fresh = {total + cost for total in fresh if total < least} - bought
            bought |= fresh
            taken += 1
            if len(bought) > 200_000:
                return ceil(least / step) * step
    return min((total for total in bought if total >= least), default=least)


def _dual_feasible(grid: _Grid, along: str, across: str) -> Fraction:
    """Fekete and Schepers 2001: images of what fits a sheet have products that sum to 1 or less."""
    length, width = grid.sheets[0]
    return sum(
        (
            count
            * min(
                _image(along, x, length) * _image(across, y, width)
                for x, y in _ways(size, turn)
                if x <= length and y <= width
            )
            for size, turn, count in grid.pieces
        ),
        Fraction(0),
    )


def _ways(size: Rectangle, turn: bool) -> list[Rectangle]:
    return [size, (size[1], size[0])] if turn else [size]


def _image(name: str, size: int, capacity: int) -> Fraction:
    """The image of a size under the dual feasible function of this name."""
    word, _, figure = name.partition(" ")
    x = Fraction(size, capacity)
    if word == "identity":
        return x
    at = int(figure)
    if word == "steps" and at >= 1:
        return x if ((at + 1) * x).denominator == 1 else Fraction(floor((at + 1) * x), at)
    least = Fraction(at, capacity)
    if not 0 < least <= Fraction(1, 2):
        raise ValueError(f"{name!r} is out of range")
    if word == "big":
        return Fraction(1) if x > 1 - least else x if x >= least else Fraction(0)
    if word == "fit":
        top = floor(1 / least)
        if x > Fraction(1, 2):
            return 1 - Fraction(floor((1 - x) / least), top)
        return Fraction(int(x >= least), top)
    raise ValueError(f"no function is called {name!r}")


def _key(length: int, width: int, turn: bool) -> tuple[int, int, bool]:
    """What makes pieces equal: a piece that may turn has no first side."""
    return (max(length, width), min(length, width), True) if turn else (length, width, False)


def _priced(request: Request, grid: _Grid, fields: dict[str, list[str]]) -> Fraction | None:
    """What all pieces are worth, over the dearest pattern a unit of cost buys; None if too dear.

    Each sheet of a plan holds pieces worth at most its dearest pattern. With a worth of `rate` a
    unit of cost, an endless stock must give no more than it costs; a stock of few copies may,
    and what it gives beyond that is taken off once a copy.
    """
    demand: Counter[tuple[int, int, bool]] = Counter()
    for size, turn, count in grid.pieces:
        demand[_key(*size, turn)] += count
    prices = dict.fromkeys(demand, 0)
    for line in fields.get("price", []):
        length, width, turn_word, price = line.split(" ")
        key = _key(int(length) + grid.kerf, int(width) + grid.kerf, turn_word == "turn")
        if int(price) < 0 or key not in prices:
            return None
        prices[key] = int(price)
    caps: dict[tuple[int, int, bool], int] = {}
    for line in fields.get("counted", []):
        length, width, turn_word = line.split(" ")
        key = _key(int(length) + grid.kerf, int(width) + grid.kerf, turn_word == "turn")
        caps[key] = demand[key]
    items = [
        Item(*way, prices[key], list(caps).index(key) if key in caps else -1)
        for key in demand
        for way in _ways(key[:2], key[2])
    ]
    named = (line.partition(" ") for line in fields["dearest"])
    dearest = {name: int(value) for value, _, name in named}
    values = [dearest[stock.name] for stock in request.stock]
    for sheet, value in zip(grid.sheets, values, strict=True):
        if value < _dearest(request, sheet, items, list(caps.values()), fields):
            return None
    worth = sum(prices[key] * count for key, count in demand.items())
    ratios = [value / cost for value, cost in zip(values, grid.costs, strict=True)]
    endless = [r for r, copies in zip(ratios, grid.copies, strict=True) if copies is None]
    least = max(endless, default=Fraction(0))
    rates = {rate for rate in [*ratios, least] if rate >= least and rate > 0}
    return max(
        (
            worth
            - sum(
                copies * max(Fraction(0), value - rate * cost)
                for value, cost, copies in zip(values, grid.costs, grid.copies, strict=True)
                if copies is not None
            )
        )
        / rate
        for rate in rates
    )


def _dearest(
    request: Request,
    sheet: Rectangle,
    items: Sequence[Item],
    caps: Sequence[int],
    fields: dict[str, list[str]],
) -> int:
    """The dearest pattern of the class the certificate is for; three stages may begin either way
    where the shop lets them."""
    if "stages" not in fields:
        return dearest_pattern(sheet, items, caps)
    if fields["stages"] != ["3"]:
        raise ValueError("a certificate is for three stages, or for any number")
    worths: list[int] = []
    if request.saw.first != "crosscut":
        worths.append(dearest_of_three_stages(sheet, items, caps))
    if request.saw.first != "rip":
        across = [Item(i.width, i.length, i.price, i.counter) for i in items]
        worths.append(dearest_of_three_stages(sheet[::-1], across, caps))
    return max(worths)
