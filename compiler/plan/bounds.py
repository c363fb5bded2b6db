"""Counts below which no plan can go: by area, by dual feasible functions, by prices of pieces.

A bound is in the task's cost unit; with one stock that is a count of sheets. All are whole-number
arithmetic; `verify.py` works each out again by code of its own.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import ceil

import numpy as np
from attrs import frozen

from casewright.compiler.plan.task import Sort, Task

MOST_SUMS = 200_000
"""Above so many different sums of costs a bound is rounded up to a whole cost only."""


MOST_KINDS = 400
"""Lists of more kinds aren't tried with dual feasible functions: the time would be better spent."""


@frozen
class Bound:
    """At least `cost`; `kind` is `area`, `dual-feasible` or `prices`.

    `functions` are the two dual feasible functions, for length and for width. `prices` are whole
    numbers, one a kind; `values` the dearest pattern of each stock at these prices, in which
    `counted` kinds are used no more often than asked. It holds for through cuts in any number of
    stages, or where `stages` is 3 for plans of three stages and a trimming cut.
    """

    cost: int
    kind: str
    functions: tuple[str, str] = ("", "")
    prices: tuple[int, ...] = ()
    values: tuple[int, ...] = ()
    counted: tuple[int, ...] = ()
    stages: int = 0


def area_bound(task: Task) -> Bound:
    """The pieces' area, bought where area is cheapest."""
    needed = Fraction(sum(k.length * k.width * k.demand for k in task.kinds))
    cost = Fraction(0)
    for sort in sorted(stocks_of(task), key=lambda s: Fraction(s.cost, s.length * s.width)):
        area = sort.length * sort.width
        share = needed / area if sort.copies is None else min(needed / area, Fraction(sort.copies))
        cost += share * sort.cost
        needed -= share * area
    return Bound(reachable_cost(task, cost), "area")


def stocks_of(task: Task) -> list[Sort]:
    """One sort of each stock: either first cut stands for both."""
    seen: dict[int, Sort] = {}
    for sort in task.sorts:
        seen.setdefault(sort.stock, sort)
    return list(seen.values())


def reachable_cost(task: Task, least: Fraction) -> int:
    """The smallest cost of any choice of whole sheets that isn't under `least`."""
    floor = ceil(least)
    stocks = stocks_of(task)
    endless = [sort.cost for sort in stocks if sort.copies is None]
    sums = {0}
    for sort in stocks:
        if sort.copies is None and len(endless) == 1:
            continue
        copies, fresh = 0, sums
        while fresh and copies != sort.copies:
            fresh = {s + sort.cost for s in fresh if s < floor} - sums
            sums |= fresh
            copies += 1
            if len(sums) > MOST_SUMS:
                return floor
    if len(endless) == 1:
        return min(s + max(0, -(-(floor - s) // endless[0])) * endless[0] for s in sums)
    return min((s for s in sums if s >= floor), default=floor)


def dual_feasible_bound(task: Task) -> Bound:
    """The best of pairs of dual feasible functions (Fekete and Schepers 2001), for one stock.

    A function maps sizes so that sizes that fit a capacity together have images that sum to at
    most its top; with one for lengths and one for widths, the products of the images of what
    fits a sheet sum to at most the product of the tops.
    """
    stocks = stocks_of(task)
    if len(stocks) != 1 or stocks[0].copies is not None or len(task.kinds) > MOST_KINDS:
        return Bound(0, "dual-feasible")
    length, width = stocks[0].length, stocks[0].width
    if stocks[0].first == "crosscut":
        length, width = width, length
    sizes = sorted({size for kind in task.kinds for size in (kind.length, kind.width)})
    alongs = [(name, *_images(name, sizes, length)) for name in _names(length, sizes)]
    acrosses = [(name, *_images(name, sizes, width)) for name in _names(width, sizes)]
    # A piece counts as the way it lies that is worth least; one that lies no way is no one's here.
    tops = np.array([[f * g for _, _, g in acrosses] for _, _, f in alongs], dtype=np.int64)
    total = np.zeros_like(tops)
    for kind in task.kinds:
        ways = [(kind.length, kind.width)] + ([(kind.width, kind.length)] if kind.turn else [])
        worths = [
            np.outer([f[x] for _, f, _ in alongs], [g[y] for _, g, _ in acrosses])
            for x, y in ways
            if x <= length and y <= width
        ]
        if worths:
            total += kind.demand * np.minimum.reduce(worths)
    costs = -(-total // tops)
    most = int(np.argmax(costs))
    along, across = divmod(most, len(acrosses))
    return Bound(int(costs.flat[most]), "dual-feasible", (alongs[along][0], acrosses[across][0]))


def _names(capacity: int, sizes: Sequence[int]) -> Iterator[str]:
    yield "identity"
    yield from (f"steps {k}" for k in (1, 2, 3, 4))
    half = [size for size in sizes if 2 * size <= capacity]
    yield from (f"big {size}" for size in half)
    yield from (f"fit {size}" for size in half)


def _images(name: str, sizes: Sequence[int], capacity: int) -> tuple[dict[int, int], int]:
    """The whole-number image of every size that fits, and the top: the image of the capacity."""
    word, _, figure = name.partition(" ")
    at = int(figure or 0)
    fitting = [size for size in sizes if size <= capacity]
    if word == "steps":
        images = {
            x: x * at if (at + 1) * x % capacity == 0 else (at + 1) * x // capacity * capacity
            for x in fitting
        }
        return images, capacity * at
    if word == "big":
        images = {x: capacity if x > capacity - at else x if x >= at else 0 for x in fitting}
        return images, capacity
    if word == "fit":
        top = capacity // at
        images = {
            x: top - (capacity - x) // at if 2 * x > capacity else int(x >= at) for x in fitting
        }
        return images, top
    return {x: x for x in fitting}, capacity
