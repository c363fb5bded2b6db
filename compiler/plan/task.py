"""The request in whole numbers: equal pieces gathered into kinds, kerf taken in by enlarging.

A piece enlarged by the kerf, cut without kerf from a usable sheet enlarged by the kerf, fits
exactly where the real one fits: n pieces in a row need n - 1 kerfs, and get n of n.
"""

from fractions import Fraction
from math import gcd, lcm

from attrs import frozen

from casewright.compiler.plan.request import Request


@frozen
class Member:
    """A piece of the request within its kind; `swapped` where the kind exchanged its sides."""

    address: str
    quantity: int
    swapped: bool


@frozen
class Kind:
    """All pieces of one size and one grain rule; sizes enlarged by the kerf, in grid steps.

    A kind that may turn is written with its longer side as its length.
    """

    length: int
    width: int
    demand: int
    turn: bool
    members: tuple["Member", ...]


@frozen
class Sort:
    """A stock as the planner sees it: usable size enlarged by the kerf, copies, whole-number cost.

    `first` is the cut it starts with; where either will do there are two sorts of one `stock`.
    Sizes of a sort that starts with a crosscut are exchanged, as are its pieces': every
    planner module then sees ripped strips only.
    """

    stock: int
    length: int
    width: int
    copies: int | None
    cost: int
    first: str


@frozen
class Task:
    """What the planner works on. `cost_unit` is the price of one unit of `Sort.cost`."""

    kinds: tuple[Kind, ...]
    sorts: tuple[Sort, ...]
    kerf: int
    step: Fraction
    cost_unit: Fraction
    names: tuple[str, ...]

    @property
    def demands(self) -> tuple[int, ...]:
        """How many pieces of each kind are asked for."""
        return tuple(kind.demand for kind in self.kinds)


@frozen
class Item:
    """One way a kind may lie in a strip of some sort: `x` along the strip, `y` across it."""

    kind: int
    x: int
    y: int
    turned: bool


def make_task(request: Request) -> Task:
    """The task of a request that `check_request` passed. Kinds are in order of falling area."""
    step = request.grid
    kerf = int(request.saw.kerf / step)
    gathered: dict[tuple[int, int, bool], list[Member]] = {}
    for piece in request.pieces:
        length, width = int(piece.length / step) + kerf, int(piece.width / step) + kerf
        turn = piece.turn and length != width
        swapped = turn and length < width
        if swapped:
            length, width = width, length
        member = Member(piece.address, piece.quantity, swapped)
        gathered.setdefault((length, width, turn), []).append(member)
    kinds = [
        Kind(length, width, sum(member.quantity for member in members), turn, tuple(members))
        for (length, width, turn), members in gathered.items()
    ]
    kinds.sort(key=lambda k: (-k.length * k.width, -k.width, k.turn))
    costs = request.costs
    under = lcm(*(cost.denominator for cost in costs))
    shared = gcd(*(int(cost * under) for cost in costs))
    unit = Fraction(shared, under)
    sorts: list[Sort] = []
    for index, (stock, usable) in enumerate(zip(request.stock, request.usable, strict=True)):
        length, width = (int(size / step) + kerf for size in usable)
        cost = int(costs[index] / unit)
        if request.saw.first != "crosscut":
            sorts.append(Sort(index, length, width, stock.copies, cost, "rip"))
        if request.saw.first != "rip":
            sorts.append(Sort(index, width, length, stock.copies, cost, "crosscut"))
    names = tuple(stock.name for stock in request.stock)
    return Task(tuple(kinds), tuple(sorts), kerf, step, unit, names)


def items_of(task: Task, sort: Sort) -> tuple[Item, ...]:
    """Every way a piece may lie in strips of this sort, and fits."""
    items: list[Item] = []
    for index, kind in enumerate(task.kinds):
        along, across = kind.length, kind.width
        if sort.first == "crosscut":
            along, across = across, along
        ways = [(along, across, False)] + ([(across, along, True)] if kind.turn else [])
        items += [
            Item(index, x, y, turned)
            for x, y, turned in ways
            if x <= sort.length and y <= sort.width
        ]
    return tuple(items)
