"""The tree of openings: stacks, rows, what fills them, and what stands between."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, Literal

from casewright.compiler.blame import Row
from casewright.compiler.construct.build import Build
from casewright.compiler.construct.evaluate import quantity
from casewright.compiler.construct.faults import fault
from casewright.compiler.construct.shares import divide_in_shares
from casewright.compiler.construct.things import Thing, edge_words, read_extent
from casewright.compiler.construct.values import Missing, Spatial, Value
from casewright.compiler.model import EDGES, Axis, Extent
from casewright.compiler.resolve import Declaration
from casewright.lang.cells import (
    Quantity,
    add,
    divide,
    literal,
    named,
    subtract,
)
from casewright.lang.measure import Dimension
from casewright.lang.shape import Clause, Statement, suggestion
from casewright.lang.source import Origin

if TYPE_CHECKING:
    from casewright.compiler.construct.holder import Holder
    from casewright.compiler.construct.scope import Scope

MOST_OPENINGS = 400
"""Openings in one unit; past it the tree is refused."""

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

    def extent(self, axis: Axis) -> Extent:
        if axis == self.parent.axis:
            return self.parent.solved()[1][self.index]
        return self.parent.extent(axis)

    def beside(self, word: str) -> "Member | Leaf | Missing":
        side = BESIDE[word]
        axis, direction = EDGES[side]
        if axis == self.parent.axis:
            down = (direction > 0) != (axis == "up")
            child = self.parent.children[self.index + (1 if down else 0)]
            return child if isinstance(child, Leaf) else Missing(f"no one opening is {word} it")
        return standing(self.parent.boundary(side), word)


def standing(member: "Member | None", word: str) -> "Member | Missing":
    if member is None or not member.stands:
        return Missing(f"nothing stands {word} it")
    return member


class Node(Spatial):
    """A stack or a row, or (as a Leaf) an opening."""

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
    def build(self) -> Build:
        return self.openings.build

    @property
    def origin(self) -> Origin:
        return self.statement.head.origin

    def leaves(self) -> "Iterator[Leaf]":
        for child in self.children:
            yield from child.leaves()

    def members(self) -> "Iterator[Member]":
        for index, child in enumerate(self.children):
            yield from child.members()
            if index < len(self.children) - 1:
                yield Member(self, index)

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
        if shares:
            self._check_left(left, shares, rows)
            parts = iter(divide_in_shares(left, shares, self.openings.precision))
            return [size if size is not None else next(parts) for size in sizes]
        if left.value != 0:
            self._complain(left, rows)
        return [size for size in sizes if size is not None]

    def _check_left(self, left: Quantity, shares: list[int], rows: list[Row]) -> None:
        if left.value > 0:
            return
        number = len(shares)
        raise fault(
            "nothing-left",
            f"nothing is left for the {'share' if number == 1 else f'{number} shares'} "
            f"of this {self.statement.rule}",
            self.origin,
            rows=(*rows, Row("left", left.measure, ruled=True)),
            help="make an opening smaller, or the unit larger",
        )

    def _complain(self, left: Quantity, rows: list[Row]) -> None:
        over = left.value < 0
        by = Quantity(abs(left.value), left.dimension)
        raise fault(
            "openings-dont-close",
            f"the openings of this {self.statement.rule} are "
            f"{self.openings.scope.say(by)} {'more than there is' if over else 'short'}",
            self.origin,
            rows=(*rows, Row("over" if over else "short", by.measure, ruled=True)),
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
            return self._length(clause)
        return None

    def _length(self, clause: Clause) -> Quantity:
        size = quantity(clause.values[0], self.openings.scope, Dimension.LENGTH)
        if size.value <= 0:
            raise fault("size-not-positive", "a size is more than nothing", clause.origin)
        return size


def _ordered(first: Quantity, second: Quantity) -> Extent:
    if first.value <= second.value:
        return Extent(first, second)
    return Extent(second, first)


class Leaf(Node):
    """An opening and what fills it."""

    def __init__(
        self,
        openings: "Openings",
        parent: Node | None,
        index: int,
        statement: Statement,
        filling: Declaration,
    ) -> None:
        super().__init__(openings, parent, index, statement)
        self.filling = filling
        self.address = filling.name

    @property
    def title(self) -> str:
        return self.address.replace("_", " ")

    @property
    def faced(self) -> bool:
        clause = self.filling.statement.clause("faced")
        return clause is not None and getattr(clause.values[0], "text", "") == "yes"

    def leaves(self) -> "Iterator[Leaf]":
        yield self

    def members(self) -> Iterator[Member]:
        return iter(())

    def extent(self, axis: Axis) -> Extent:
        low_edge, high_edge = edge_words(axis)

        def formula() -> Extent:
            found = super(Leaf, self).extent(axis)
            return Extent(
                named(found.low, f"{self.address}.{low_edge}", self.origin),
                named(found.high, f"{self.address}.{high_edge}", self.origin),
            )

        return self.build.cell((id(self), axis), f"{self.address} {axis}", self.origin, formula)

    def stated_size(self, axis: Axis) -> Quantity | None:
        front = self.statement.clause("front")
        bare = self.statement.values[0] if self.statement.values else None
        if self.statement.clause("opening") is not None:
            return super().stated_size(axis)
        if front is not None:
            return self._from_front(self._length(front), axis)
        if bare is not None:
            size = quantity(bare, self.openings.scope, Dimension.LENGTH)
            if size.value <= 0:
                raise fault("size-not-positive", "a size is more than nothing", bare.origin)
            return self._from_front(size, axis) if self.openings.sized_by_front else size
        return None

    def _from_front(self, front: Quantity, axis: Axis) -> Quantity:
        """The clear opening behind a front of this size."""
        size = front
        for side in edge_words(axis):
            size = subtract(add(size, self.gap(side)), self._reach(side))
        return size

    def _reach(self, side: str) -> Quantity:
        """How far its cover goes past its clear opening on a side."""
        member = self.boundary(side)
        if member is not None:
            return _half(member.parent.between())
        axis, direction = EDGES[side]
        region = self.openings.region(axis)
        outer = self.openings.covered.edge(side)
        if direction > 0:
            return subtract(outer, region.high)
        return subtract(region.low, outer)

    def cover(self, side: str) -> Quantity:
        """The place its cover reaches to: half way over a member, or the outer edge."""

        def formula() -> Quantity:
            member = self.boundary(side)
            if member is None:
                return self.openings.covered.edge(side)
            extent = member.extent(EDGES[side][0])
            return add(extent.low, _half(member.parent.between()))

        return self.build.cell((id(self), "cover", side), f"{self.address}", self.origin, formula)

    def gap(self, side: str) -> Quantity:
        """What its front stays back from its cover on a side."""
        if self.boundary(side) is not None:
            return _half(self.openings.gap("between"))
        if side == "top":
            return self.openings.gap("above")
        if side == "bottom":
            return self.openings.gap("below")
        if self.openings.beside_unit(side):
            return _half(self.openings.gap("between"))
        return self.openings.gap("end")

    def beside(self, word: str) -> Member | Missing:
        return standing(self.boundary(BESIDE[word]), word)

    def option(self, name: str, want: Dimension | None) -> Value | None:
        """An option of its filling as this opening has it, or None where there is none."""
        return self.openings.holder.filling_option(self, name, want)


def _half(whole: Quantity) -> Quantity:
    return divide(whole, literal(2, Dimension.COUNT, None, "half"), Dimension.LENGTH)


class Openings:
    """Where a holder's openings are, and the tree that divides them."""

    def __init__(self, holder: "Holder", statement: Statement, tree: Statement | None) -> None:
        self.holder = holder
        self.build = holder.build
        self.statement = statement
        self.scope: Scope = holder.scope()
        self.root: Node | None = None
        self._count = 0
        if tree is not None:
            self.root = self._node(tree, None, 0, self.scope)
            self._number()

    def _node(
        self, statement: Statement, parent: Node | None, index: int, scope: "Scope"
    ) -> Node | None:
        """The node of a statement, or None for a filling that is not known (and is blamed)."""
        self._count += 1
        if self._count > MOST_OPENINGS:
            raise fault(
                "too-many-openings",
                f"more than {MOST_OPENINGS} openings in one unit",
                statement.head.origin,
            )
        if statement.rule == "fill":
            filling = self.build.program.find("filling", statement.head.text)
            if filling is None:
                known = self.build.program.names("filling")
                raise fault(
                    "unknown-filling",
                    f"no filling is called {statement.head.text}",
                    statement.head.origin,
                    help=suggestion(statement.head.text, known) or "one of: " + ", ".join(known),
                )
            return Leaf(self, parent, index, statement, filling)
        node = Node(self, parent, index, statement)
        for child, inner in self._children(statement, scope):
            found = self._node(child, node, len(node.children), inner)
            if found is not None:
                node.children.append(found)
        if not node.children:
            raise fault(
                "nothing-in-it",
                f"this {statement.rule} has no opening in it",
                statement.head.origin,
            )
        return node

    def _children(
        self, statement: Statement, scope: "Scope"
    ) -> Iterator[tuple[Statement, "Scope"]]:
        for line in statement.body:
            if line.rule != "for":
                yield line, scope
                continue
            for number in scope.holder.counted(line, scope):
                yield from self._children(line, number)

    def _number(self) -> None:
        """Gives every opening its address: its filling, counted where there are several."""
        of: dict[str, list[Leaf]] = {}
        for leaf in self.leaves:
            of.setdefault(leaf.filling.name, []).append(leaf)
        for name, leaves in of.items():
            for index, leaf in enumerate(leaves, start=1):
                leaf.address = name if len(leaves) == 1 else f"{name}_{index}"

    @property
    def leaves(self) -> tuple[Leaf, ...]:
        return tuple(self.root.leaves()) if self.root is not None else ()

    def members(self, kind: Kind) -> tuple[Member, ...]:
        if self.root is None:
            return ()
        found = (member for member in self.root.members() if member.kind == kind)
        return tuple(member for member in found if member.stands)

    def region(self, axis: Axis) -> Extent:
        clause = self.statement.clause(axis)
        if clause is None:
            return self.holder.extent(axis)
        return self.build.cell(
            (id(self), "region", axis),
            f"the openings {axis}",
            clause.origin,
            lambda: read_extent(clause, self.scope, axis, self._no_thickness),
        )

    def _no_thickness(self) -> Quantity:
        raise fault("value-missing", "say the size of the openings", self.statement.origin)

    def member_thickness(self, kind: Kind) -> Quantity:
        return self._stated(kind)

    def gap(self, word: str) -> Quantity:
        return self._stated(word)

    def _stated(self, word: str) -> Quantity:
        clause = self.statement.clause(word)
        if clause is None:
            raise fault(
                "value-missing",
                f"the openings say nothing of {word}",
                self.statement.head.origin,
                help=f"add {word} and a length",
            )
        return self.build.cell(
            (id(self), word),
            word,
            clause.origin,
            lambda: named(
                quantity(clause.values[0], self.scope, Dimension.LENGTH),
                word if word in ("level", "post") else f"gap {word}",
                clause.origin,
            ),
        )

    @property
    def sized_by_front(self) -> bool:
        clause = self.statement.clause("sized_by")
        return clause is not None and getattr(clause.values[0], "text", "") == "front"

    @property
    def precision(self) -> Quantity:
        return self.build.precision

    @property
    def covered(self) -> Thing:
        """The thing whose outer edges overlay fronts reach to."""
        clause = self.statement.clause("covers")
        if clause is None:
            raise fault(
                "value-missing",
                "the openings say nothing of what their fronts cover",
                self.statement.head.origin,
                help="add covers and an assembly",
            )
        value = self.scope.value_of(clause.values[0])
        if not isinstance(value, Thing):
            raise fault("wrong-kind", "fronts cover an assembly or a part", clause.origin)
        return value

    def beside_unit(self, side: str) -> bool:
        """Whether a unit stands right beside, so that the two share the gap."""
        value = self.build.read_outside("beside", side, self.statement.origin)
        return getattr(value, "word", "") == "unit"
