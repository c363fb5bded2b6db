"""Where a unit's openings are: their region, their members' thickness, and the gaps of fronts."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from casewright.compiler.construct.evaluate import quantity
from casewright.compiler.construct.faults import fault
from casewright.compiler.construct.leaf import Leaf, leaves_of
from casewright.compiler.construct.opening_tree import Kind, Member, Node
from casewright.compiler.construct.sets import counted
from casewright.compiler.construct.things import Thing, read_extent
from casewright.compiler.construct.values import Choice, Missing
from casewright.compiler.model import EDGES, Axis, Extent
from casewright.lang.cells import Quantity, least, most, named
from casewright.lang.measure import Dimension
from casewright.lang.shape import Statement, bare_word, suggestion
from casewright.lang.source import Origin

if TYPE_CHECKING:
    from casewright.compiler.construct.holder import Holder
    from casewright.compiler.construct.scope import Scope

SIZED = ("opening", "front")
"""What a bare size may be."""

MOST_OPENINGS = 400
"""Openings in one unit; past it the tree is refused."""


class Openings:
    """Where a holder's openings are, and the tree that divides them."""

    def __init__(self, holder: "Holder", statement: Statement, tree: Statement | None) -> None:
        self.holder = holder
        self.build = holder.build
        self.statement = statement
        self.scope: Scope = holder.scope()
        self.root: Node | None = None
        self._count = 0
        self._leaves: tuple[Leaf, ...] | None = None
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
            for number in counted(line, scope):
                yield from self._children(line, number)

    def _number(self) -> None:
        """Gives every opening its address: its filling, counted where there are several."""
        of: dict[str, list[Leaf]] = {}
        for leaf in self.leaves:
            of.setdefault(leaf.filling.name, []).append(leaf)
        for name, leaves in of.items():
            whose = f"{self.holder.name}_" if self.holder.is_mouth else ""
            for index, leaf in enumerate(leaves, start=1):
                leaf.address = whose + (name if len(leaves) == 1 else f"{name}_{index}")

    @property
    def leaves(self) -> tuple[Leaf, ...]:
        if self._leaves is None or self.root is None:
            self._leaves = tuple(leaves_of(self.root)) if self.root is not None else ()
        return self._leaves

    def node_at(self, origin: Origin) -> Node | None:
        """The stack, row or opening whose word stands at `origin`."""
        waiting = [self.root] if self.root is not None else []
        while waiting:
            node = waiting.pop()
            if node.origin == origin:
                return node
            waiting.extend(node.children)
        return None

    def members(self, kind: Kind) -> tuple[Member, ...]:
        if self.root is None:
            return ()
        found = (member for member in self.root.members() if member.kind == kind)
        return tuple(member for member in found if member.stands)

    def as_built(self) -> tuple[Member, ...]:
        """All members, in an order in which they can be put together."""
        if self.root is None:
            return ()
        return tuple(member for member in self.root.as_built() if member.stands)

    def region(self, axis: Axis) -> Extent:
        """Where they lie along `axis`; those of a mouth end with it."""
        clause = self.statement.clause(axis)
        if clause is None:
            return self.holder.extent(axis)

        def formula() -> Extent:
            found = read_extent(clause, self.scope, axis, self._no_thickness)
            if not self.holder.is_mouth or axis != "across":
                return found
            mouth = self.holder.extent(axis)
            return Extent(most(found.low, mouth.low), least(found.high, mouth.high))

        key = (id(self), "region", axis)
        return self.build.cell(key, f"the openings {axis}", clause.origin, formula)

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
        """Whether a bare size is that of a front: as the text says, or an option it names."""
        clause = self.statement.clause("sized_by")
        if clause is None:
            return False
        word = bare_word(clause.values[0])
        if word not in SIZED:
            chosen = self.scope.value_of(clause.values[0])
            word = chosen.word if isinstance(chosen, Choice) else word
        if word not in SIZED:
            raise fault("unknown-choice", "sized_by is opening or front", clause.origin)
        return word == "front"

    @property
    def lap(self) -> Quantity | None:
        """How far a front reaches past its opening at most; None: as far as it may."""
        return self._stated("lap") if self.statement.clause("lap") is not None else None

    def behind(self, leaf: Leaf) -> Thing | Missing:
        """The first thing that stands behind an opening, of those looked for."""
        clause = self.statement.clause("behind")
        if clause is None:
            raise fault(
                "value-missing",
                "the openings don't say where to look for what stands behind them",
                self.statement.head.origin,
                help="add behind and an assembly",
            )
        closing = self.scope.value_of(clause.values[0])
        if not isinstance(closing, Thing) or closing.rule != "assembly":
            raise fault("wrong-kind", "behind names an assembly", clause.origin)
        standing = [thing for thing in closing.inner.everything() if _stands_in(thing, leaf)]
        if not standing:
            return Missing("nothing stands behind it")
        return min(standing, key=lambda thing: thing.seen("deep", leaf.faces).low.value)

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

    def outer(self, side: str) -> Quantity:
        """The place that overlay fronts reach to on a side, where nothing else stands between:
        the edge of what they cover, or of their mouth where that is nearer."""
        axis, direction = EDGES[side]
        extent = self.covered.seen(axis, self.holder.faces)
        edge = extent.high if direction > 0 else extent.low
        if not self.holder.is_mouth or axis != "across":
            return edge
        mouth = self.holder.extent(axis)
        return least(edge, mouth.high) if direction > 0 else most(edge, mouth.low)

    def meets(self, side: str) -> bool:
        """Whether another mouth meets this one at an inside corner on a side."""
        return side in self.holder.meeting

    def beside_unit(self, side: str) -> bool:
        """Whether a unit stands right beside, so that the two share the gap."""
        value = self.scope.outside("beside", side, self.statement.origin)
        return getattr(value, "word", "") == "unit"


def _stands_in(thing: Thing, leaf: Leaf) -> bool:
    """Whether a part stands somewhere in the width and height of an opening."""
    if thing.rule == "assembly":
        return False
    axes: tuple[Axis, Axis] = ("across", "up")
    return all(
        thing.seen(axis, leaf.faces).low.value < leaf.extent(axis).high.value
        and leaf.extent(axis).low.value < thing.seen(axis, leaf.faces).high.value
        for axis in axes
    )
