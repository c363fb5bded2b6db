"""The tree of openings: stacks and rows, what stands between two, and the sums that size them."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING, Literal

from attrs import frozen

from casewright.compiler.blame import Row
from casewright.compiler.construct.build import Build
from casewright.compiler.construct.evaluate import quantity
from casewright.compiler.construct.faults import fault
from casewright.compiler.construct.shares import divide_in_shares
from casewright.compiler.construct.values import Missing, Spatial
from casewright.compiler.facing import Look
from casewright.compiler.model import EDGES, Axis, Extent
from casewright.lang.cells import Quantity, add, subtract
from casewright.lang.measure import Dimension
from casewright.lang.shape import Statement
from casewright.lang.source import Origin
from casewright.lang.tree import Expression

if TYPE_CHECKING:
    from casewright.compiler.construct.openings import Openings

SIDES = ("left", "right", "top", "bottom")

BESIDE = {"before": "left", "after": "right", "above": "top", "below": "bottom"}
"""Words for what stands on a side of an opening or a member."""

Kind = Literal["level", "post"]


class Member(Spatial):
    """What stands between two children of a stack (a level) or a row (a post). `stands` is False
    where the text puts nothing between them."""

    def __init__(self, parent: "Node", index: int) -> None:
        self.parent = parent
        self.index = index
        self.kind: Kind = "level" if parent.axis == "up" else "post"

    @property
    def stands(self) -> bool:
        return self.parent.between().value > 0

    @property
    def faces(self) -> Look:
        return self.parent.faces

    @property
    def rounding(self) -> Fraction:
        return self.parent.rounding

    def extent(self, axis: Axis) -> Extent:
        if axis == self.parent.axis:
            return self.parent.solved()[1][self.index]
        return self.parent.extent(axis)

    def beside(self, word: str) -> "Member | Node | Missing":
        side = BESIDE[word]
        axis, direction = EDGES[side]
        if axis == self.parent.axis:
            down = (direction > 0) != (axis == "up")
            child = self.parent.children[self.index + (1 if down else 0)]
            return Missing(f"no one opening is {word} it") if child.children else child
        return standing(self.parent.boundary(side), word)


def standing(member: "Member | None", word: str) -> "Member | Missing":
    if member is None or not member.stands:
        return Missing(f"nothing stands {word} it")
    return member


@frozen(eq=False)
class Account:
    """What there is for the children of a stack or a row, less what stands between them and what
    is stated: the rows of that sum, what is left, their stated sizes, and who shares the rest."""

    rows: tuple[Row, ...]
    left: Quantity
    sizes: tuple[Quantity | None, ...]
    shares: tuple[int, ...]

    @property
    def last(self) -> Row:
        """The row under the rule."""
        if self.shares:
            return Row("left", self.left.measure, ruled=True)
        if self.left.value == 0:
            return Row("closes", self.left.measure, ruled=True)
        by = Quantity(abs(self.left.value), self.left.dimension)
        return Row("over" if self.left.value < 0 else "short", by.measure, ruled=True)


class Node(Spatial):
    """A stack or a row; an opening where it has no children."""

    axis: Axis = "up"

    def __init__(
        self, openings: "Openings", parent: "Node | None", index: int, statement: Statement
    ) -> None:
        self.openings = openings
        self.parent = parent
        self.index = index
        self.statement = statement
        self.axis = "across" if statement.rule == "row" else "up"
        self.children: list[Node] = []

    @property
    def faces(self) -> Look:
        return self.openings.holder.faces

    @property
    def rounding(self) -> Fraction:
        return self.build.rounding

    @property
    def build(self) -> Build:
        return self.openings.build

    @property
    def origin(self) -> Origin:
        return self.statement.head.origin

    def members(self) -> "Iterator[Member]":
        for index, child in enumerate(self.children):
            yield from child.members()
            if index < len(self.children) - 1:
                yield Member(self, index)

    @property
    def nesting(self) -> int:
        """How many members deep it is: 0 for an opening."""
        inside = max((child.nesting for child in self.children), default=0)
        standing = len(self.children) > 1 and Member(self, 0).stands
        return inside + 1 if standing else inside

    def as_built(self) -> "Iterator[Member]":
        """Its members in an order in which they go together though each enters those beside it, and
        is fastened through the one under it. What is most nested comes first, as what holds it can
        come onto it one way only; the rest goes on from there. Rows go from the left; stacks from
        the bottom, but from the top where posts stand on a level, which are fastened from below
        while nothing stands there."""
        order = list(range(len(self.children)))
        if self.axis == "up" and not any(child.nesting for child in self.children[:-1]):
            order.reverse()
        if not order:
            return
        deep = (at for at, child in enumerate(order) if self.children[child].nesting > 1)
        first = next(deep, 0)
        yield from self.children[order[first]].as_built()
        for before, after in pairwise(order[first:]):
            yield Member(self, min(before, after))
            yield from self.children[after].as_built()
        for before, after in pairwise(reversed(order[: first + 1])):
            yield Member(self, min(before, after))
            yield from self.children[after].as_built()

    def boundary(self, side: str) -> Member | None:
        """What stands on a side of it; None at the outer edge of the openings."""
        if self.parent is None:
            return None
        axis, direction = EDGES[side]
        if axis != self.parent.axis:
            return self.parent.boundary(side)
        later = (direction > 0) != (axis == "up")
        index = self.index if later else self.index - 1
        if 0 <= index < len(self.parent.children) - 1:
            return Member(self.parent, index)
        return self.parent.boundary(side)

    def between(self) -> Quantity:
        """Thickness of what stands between its children."""
        clause = self.statement.clause("between")
        scope = self.openings.scope
        key = (id(self), "between")
        if clause is not None:
            return self.build.cell(
                key,
                "between",
                clause.origin,
                lambda: quantity(clause.values[0], scope, Dimension.LENGTH),
            )
        return self.openings.member_thickness("level" if self.axis == "up" else "post")

    def extent(self, axis: Axis) -> Extent:
        if self.parent is None:
            return self.openings.region(axis)
        if axis == self.parent.axis:
            return self.parent.solved()[0][self.index]
        return self.parent.extent(axis)

    def solved(self) -> tuple[tuple[Extent, ...], tuple[Extent, ...]]:
        """Where its children lie along its axis, and what stands between them."""
        return self.build.cell(
            (id(self), "solved"), f"the {self.statement.rule}", self.origin, self._solve
        )

    def _solve(self) -> tuple[tuple[Extent, ...], tuple[Extent, ...]]:
        whole = self.extent(self.axis)
        sizes = self._sizes(subtract(whole.high, whole.low))
        between = self.between()
        children: list[Extent] = []
        members: list[Extent] = []
        at = whole.high if self.axis == "up" else whole.low
        for index, size in enumerate(sizes):
            if index:
                past = self._past(at, between)
                members.append(_ordered(at, past))
                at = past
            end = self._past(at, size)
            children.append(_ordered(at, end))
            at = end
        return tuple(children), tuple(members)

    def _past(self, at: Quantity, size: Quantity) -> Quantity:
        return subtract(at, size) if self.axis == "up" else add(at, size)

    def _sizes(self, whole: Quantity) -> list[Quantity]:
        """The children's sizes along the axis: stated ones, then shares of what is left."""
        account = self._account(whole)
        if account.shares:
            self._check_left(account)
            step = self.openings.precision
            parts = iter(divide_in_shares(account.left, account.shares, step))
            return [size if size is not None else next(parts) for size in account.sizes]
        if account.left.value != 0:
            self._complain(account)
        return [size for size in account.sizes if size is not None]

    def sum(self) -> tuple[Row, ...]:
        """What there is along the axis, what is taken, and what that leaves. Raises Fault."""
        whole = self.extent(self.axis)
        account = self._account(subtract(whole.high, whole.low))
        return (*account.rows, account.last)

    def _account(self, whole: Quantity) -> "Account":
        between = self.between()
        left = whole
        rows = [Row("from edge to edge", whole.measure)]
        count = len(self.children) - 1
        if count > 0 and between.value != 0:
            taken = between
            for _ in range(count - 1):
                taken = add(taken, between)
            left = subtract(left, taken)
            rows.append(Row(f"less {count} between", taken.measure, between.origin))
        sizes: list[Quantity | None] = []
        shares: list[int] = []
        for child in self.children:
            stated = child.stated_size(self.axis)
            sizes.append(stated)
            if stated is None:
                shares.append(child.share_count())
            else:
                left = subtract(left, stated)
                rows.append(Row(f"less {child.title}", stated.measure, child.origin))
        return Account(tuple(rows), left, tuple(sizes), tuple(shares))

    def _check_left(self, account: "Account") -> None:
        if account.left.value > 0:
            return
        number = len(account.shares)
        raise fault(
            "nothing-left",
            f"nothing is left for the {'share' if number == 1 else f'{number} shares'} "
            f"of this {self.statement.rule}",
            self.origin,
            rows=(*account.rows, account.last),
            help="make an opening smaller, or the unit larger",
        )

    def _complain(self, account: "Account") -> None:
        over = account.left.value < 0
        by = Quantity(abs(account.left.value), account.left.dimension)
        raise fault(
            "openings-dont-close",
            f"the openings of this {self.statement.rule} are "
            f"{self.openings.scope.say(by)} {'more than there is' if over else 'short'}",
            self.origin,
            rows=(*account.rows, account.last),
            help="give one of them share in place of its size",
        )

    @property
    def title(self) -> str:
        return f"the {self.statement.rule}"

    def share_count(self) -> int:
        clause = self.statement.clause("shares")
        if clause is None or not clause.values:
            return 1
        count = quantity(clause.values[0], self.openings.scope, Dimension.COUNT)
        if count.value < 1 or count.value.denominator != 1:
            raise fault("wrong-kind", "shares are counted: 1, 2, 3", clause.origin)
        return int(count.value)

    def stated_size(self, axis: Axis) -> Quantity | None:
        """The clear size the text states along `axis`, or None for a share."""
        clause = self.statement.clause("opening")
        if clause is not None:
            return self._length(clause.values[0])
        return self._length(self.statement.values[0]) if self.statement.values else None

    def _length(self, expression: Expression) -> Quantity:
        size = quantity(expression, self.openings.scope, Dimension.LENGTH)
        if size.value <= 0:
            raise fault("size-not-positive", "a size is more than nothing", expression.origin)
        return size


def _ordered(first: Quantity, second: Quantity) -> Extent:
    if first.value <= second.value:
        return Extent(first, second)
    return Extent(second, first)
