"""Runs while they are being placed, and how the text of one finds another."""

from collections.abc import Mapping, Sequence
from typing import Literal

from attrs import define, field, frozen

from casewright.compiler.binding import Binder
from casewright.compiler.construct.unit import Wanted, outer_size
from casewright.compiler.model import Island
from casewright.compiler.rooms.bases import Base, Bases, End, Meeting
from casewright.compiler.rooms.kitchen import Reader
from casewright.compiler.rooms.room import Mitre
from casewright.compiler.rooms.run_items import Item, own_text
from casewright.compiler.text.resolve import Declaration
from casewright.lang.cells import Quantity, add, literal, named
from casewright.lang.shape import Clause, Statement, span_of

Neighbour = Literal["wall", "open", "corner", "unit", "filler", "appliance", "space"]
"""What is beside the end of a run or a unit: a wall, nothing, the front of a run around the corner
or the side of a peninsula, or a thing of a run."""

OTHER: Mapping[End, End] = {"left": "right", "right": "left"}


@define(eq=False)
class Layout:
    """A run being placed: `start` along its base and `space` once it is, what is beside its two
    `ends`, how much of its front there a run around the corner hides, and the run that begins
    `around` a corner unit of its own at an end. `mitres` says how its faces meet those around a
    corner, `legs` which corner unit's leg is beside it there."""

    statement: Statement
    base: Base
    items: list[Item]
    up: Quantity | None
    start: Quantity | None = None
    space: Quantity | None = None
    ends: dict[End, Neighbour] = field(factory=dict)
    hidden: dict[End, Quantity] = field(factory=dict)
    around: dict[End, "Layout"] = field(factory=dict)
    mitres: dict[End, Mitre] = field(factory=dict)
    legs: dict[End, Item] = field(factory=dict)

    @property
    def name(self) -> str:
        return self.statement.name

    def edge(self, end: End) -> Quantity | None:
        """The place of an end along the base; None while it is not placed."""
        if self.start is None or self.space is None:
            return None
        return self.start if end == "left" else add(self.start, self.space)

    def place_of(self, item: Item, end: End) -> Quantity | None:
        """The place of an end of one of its things along the base; None while it has none."""
        if self.start is None or item.at is None or item.width is None:
            return None
        left = add(self.start, item.at)
        return left if end == "left" else add(left, item.width)

    def outermost(self, end: End) -> Item | None:
        """The unit or appliance nearest to an end."""
        solid = [item for item in self.items if item.kind in ("unit", "appliance")]
        if not solid:
            return None
        return solid[0] if end == "left" else solid[-1]

    def opens(self, end: End) -> None:
        """Lets nothing be beside an end after all: the run says itself where it is."""
        self.ends[end] = "open"
        self.mitres.pop(end, None)
        self.legs.pop(end, None)

    def clause(self, end: End) -> Clause | None:
        """What the run says of the thing beside it at an end."""
        return self.statement.clause("after" if end == "left" else "before")

    def dead_corner(self, end: End) -> Item | None:
        """The dead corner at an end, where there is one."""
        if not self.items:
            return None
        item = self.items[0 if end == "left" else -1]
        return item if item.dead else None


@frozen(eq=False)
class Found:
    """What a word of a run means: a run, perhaps one thing of it, or a peninsula."""

    layout: Layout | None
    item: Item | None = None
    peninsula: Island | None = None


class Layouts:
    """All runs being placed, by name; and their things by tag."""

    def __init__(
        self, every: Sequence[Layout], runs: Sequence[Statement], bases: Bases, reader: Reader
    ) -> None:
        self.every = every
        self.bases = bases
        self.reader = reader
        self._sizes: dict[tuple[str, str], Quantity | None] = {}
        self.by_name = {layout.name: layout for layout in every}
        lost = [run for run in runs if run.name not in self.by_name]
        self.lost = {run.name for run in lost} | {
            line.tag.text for run in lost for line in run.body if line.tag is not None
        }
        """Runs that can't be read, and what stands in them: they are blamed there."""
        self.by_tag = {
            item.tag: (layout, item) for layout in every for item in layout.items if item.tag
        }

    def find(self, word: str) -> Found | None:
        if word in self.by_tag:
            return Found(*self.by_tag[word])
        if word in self.by_name:
            return Found(self.by_name[word])
        island = self.bases.islands.get(word)
        if island is not None and island.kind == "peninsula":
            return Found(None, None, island)
        return None

    def depth_of(self, item: Item | None) -> Quantity | None:
        return self._said(item, "depth")

    def return_of(self, item: Item | None) -> Quantity | None:
        """How far a corner unit reaches out from the wall of its run."""
        return self._said(item, "return")

    def reach_of(self, item: Item | None) -> Quantity | None:
        """How far a thing that stands in a corner reaches out from its wall."""
        return self.return_of(item) or self.depth_of(item)

    def depth(self, layout: Layout) -> Quantity:
        """The greatest depth of its things."""
        return self._most(layout, "depth")

    def height(self, layout: Layout) -> Quantity:
        """The greatest height of its things."""
        return self._most(layout, "high")

    def _most(self, layout: Layout, word: str) -> Quantity:
        found = [each for item in layout.items if (each := self._said(item, word)) is not None]
        nothing = literal(0, label=f"nothing says how {word}")
        return max(found, key=lambda size: size.value, default=nothing)

    def _said(self, item: Item | None, word: str) -> Quantity | None:
        """A size of a thing, as its line, its options or its declaration say it."""
        if item is None or item.declaration is None:
            return None
        key = (item.address, word)
        if key not in self._sizes:
            self._sizes[key] = self._work_out(item, item.declaration, word)
        return self._sizes[key]

    def _work_out(self, item: Item, declaration: Declaration, word: str) -> Quantity | None:
        name = f"{item.address}.{word}"
        if item.construction is None:
            own, usual = item.statement.clause(word), declaration.statement.clause(word)
            return self.reader.glance(own or usual, name)
        build = self.reader.build
        wanted = Wanted(
            declaration,
            item.construction,
            own_text(item.statement),
            build.system_of(item.statement.head.origin),
            build.printing,
            build.precision,
            literal(0, label="not yet known"),
            None,
            None,
            build.outside,
        )
        found = outer_size(build.program, wanted, word)
        if found is None:
            return None
        inputs = {
            each: value for each, value in build.outside.items() if isinstance(value, Quantity)
        }
        return named(
            Binder(inputs, span_of, lambda inner: f"{item.address}.{inner}").bind(found), name
        )

    def around(self, layout: Layout, end: End, other: Layout) -> Meeting | None:
        """The corner at an end of a run where another run stands around it, else None."""
        meeting = self.bases.meeting(layout.base, end)
        if meeting is not None and other.base.name == meeting.wall:
            return meeting
        # From the wall, the run on a peninsula that faces this one stands around the corner.
        turned = self.bases.meeting(other.base, OTHER[end])
        island = other.base.island
        if turned is not None and island is not None and turned.wall == layout.base.name:
            return turned
        return None
