"""A leaf of the tree: one opening, what fills it, and how far its cover and its front reach."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from casewright.compiler.blame import Row
from casewright.compiler.construct.chosen import filling_option
from casewright.compiler.construct.evaluate import quantity
from casewright.compiler.construct.faults import fault
from casewright.compiler.construct.opening_tree import BESIDE, Member, Node, standing
from casewright.compiler.construct.things import Thing, edge_words
from casewright.compiler.construct.values import Missing, Value
from casewright.compiler.model import EDGES, Axis, Extent
from casewright.compiler.text.resolve import Declaration
from casewright.lang.cells import Quantity, add, divide, least, literal, most, named, subtract
from casewright.lang.measure import Dimension
from casewright.lang.shape import Statement

if TYPE_CHECKING:
    from casewright.compiler.construct.openings import Openings


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

    def load(self) -> Quantity | None:
        """What it is to hold; None where its text doesn't say. Raises Fault."""
        clause = self.statement.clause("load")
        if clause is None:
            return None
        scope = self.openings.scope
        return self.build.cell(
            (id(self), "load"),
            "load",
            clause.origin,
            lambda: quantity(clause.values[0], scope, Dimension.WEIGHT),
        )

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
            return self._from_front(self._length(front.values[0]), axis)
        if bare is not None:
            size = self._length(bare)
            return self._from_front(size, axis) if self.openings.sized_by_front else size
        return None

    def _from_front(self, front: Quantity, axis: Axis) -> Quantity:
        """The clear opening behind a front of this size. Raises Fault where none is left."""
        size = front
        rows = [Row("a front of", front.measure, self.origin)]
        for side in edge_words(axis):
            lap = self._lap(side)
            size = subtract(size, lap)
            rows.append(Row(f"less what it laps at the {side}", lap.measure))
        if size.value > 0:
            return size
        raise fault(
            "size-not-positive",
            f"a front of {self.openings.scope.say(front)} leaves no opening behind it",
            self.origin,
            rows=(*rows, Row("leaves", size.measure, ruled=True)),
            help="make the front larger, or say the opening's size",
        )

    def _lap(self, side: str) -> Quantity:
        """How far its front reaches past its clear opening on a side."""
        most = subtract(self._reach(side), self.gap(side))
        lap = self.openings.lap
        return most if lap is None else least(lap, most)

    def front(self, side: str) -> Quantity:
        """The place its front reaches to: its cover less the gap, or only as far as it laps."""

        def formula() -> Quantity:
            axis, direction = EDGES[side]
            extent = self.extent(axis)
            outward = add if direction > 0 else subtract
            inward = subtract if direction > 0 else add
            farthest = inward(self.cover(side), self.gap(side))
            lap = self.openings.lap
            if lap is None:
                return farthest
            nearer = least if direction > 0 else most
            return nearer(outward(extent.high if direction > 0 else extent.low, lap), farthest)

        return self.build.cell((id(self), "front", side), self.address, self.origin, formula)

    def behind(self) -> Thing | Missing:
        """The first thing that stands behind it."""
        return self.build.cell(
            (id(self), "behind"), f"{self.address}.behind", self.origin, self._behind
        )

    def _behind(self) -> Thing | Missing:
        return self.openings.behind(self)

    def _reach(self, side: str) -> Quantity:
        """How far its cover goes past its clear opening on a side."""
        member = self.boundary(side)
        if member is not None:
            return _half(member.parent.between())
        axis, direction = EDGES[side]
        region = self.openings.region(axis)
        outer = self.openings.outer(side)
        if direction > 0:
            return subtract(outer, region.high)
        return subtract(region.low, outer)

    def cover(self, side: str) -> Quantity:
        """The place its cover reaches to: half way over a member, or the outer edge."""

        def formula() -> Quantity:
            member = self.boundary(side)
            if member is None:
                return self.openings.outer(side)
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
        if self.openings.meets(side):
            return self.openings.gap("meeting")
        if self.openings.beside_unit(side):
            return _half(self.openings.gap("between"))
        return self.openings.gap("end")

    def beside(self, word: str) -> Member | Missing:
        return standing(self.boundary(BESIDE[word]), word)

    def option(self, name: str, want: Dimension | None) -> Value | None:
        """An option of its filling as this opening has it, or None where there is none."""
        return filling_option(self.openings.holder, self, name, want)


def leaves_of(node: Node) -> Iterator[Leaf]:
    """The openings of a stack or a row, in the order of the text."""
    if isinstance(node, Leaf):
        yield node
    for child in node.children:
        yield from leaves_of(child)


def _half(whole: Quantity) -> Quantity:
    return divide(whole, literal(2, Dimension.COUNT, None, "half"), Dimension.LENGTH)
