"""Strips and blocks, the planner's own form of a plan, and the cut trees built from them.

A strip runs the whole length of its sheet; crosscuts part it into blocks; a block is ripped into
pieces lying side by side, each trimmed to its length where the block is longer. All sizes are
enlarged by the kerf; the tree has the real ones.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cached_property

from attrs import frozen

from casewright.compiler.plan.task import Item, Member, Sort, Task
from casewright.compiler.plan.tree import CutPlan, Node, Sheet


@frozen(cache_hash=True)
class Block:
    """Pieces side by side across a strip, `x` long: as long as the longest of them."""

    x: int
    items: tuple[Item, ...]


@frozen(cache_hash=True)
class Strip:
    """What one full-length rip yields, `y` wide: as wide as its widest block needs."""

    y: int
    blocks: tuple[Block, ...]

    @cached_property
    def counts(self) -> Mapping[int, int]:
        """How many pieces of each kind the strip holds."""
        return dict(Counter(item.kind for block in self.blocks for item in block.items))


@frozen(cache_hash=True)
class SheetLayout:
    """The strips of one sheet; `sort` is the index of its sort in the task."""

    sort: int
    strips: tuple[Strip, ...]

    @cached_property
    def counts(self) -> Mapping[int, int]:
        """How many pieces of each kind the sheet holds."""
        total: Counter[int] = Counter()
        for strip in self.strips:
            total.update(strip.counts)
        return dict(total)


def make_block(items: Iterable[Item]) -> Block:
    """A block with its longest pieces first."""
    ordered = sorted(items, key=lambda i: (-i.x, -i.y, i.kind))
    return Block(max(item.x for item in ordered), tuple(ordered))


def make_strip(blocks: Iterable[Block]) -> Strip:
    """A strip no wider than it must be, its longest blocks first."""
    ordered = sorted(blocks, key=lambda b: (-b.x, tuple((i.kind, i.turned) for i in b.items)))
    return Strip(max(sum(i.y for i in b.items) for b in ordered), tuple(ordered))


def counts_of(layouts: Iterable[SheetLayout], kinds: int) -> list[int]:
    """How many pieces of each kind the sheets hold together."""
    total = [0] * kinds
    for layout in layouts:
        for kind, count in layout.counts.items():
            total[kind] += count
    return total


def cost_of(task: Task, layouts: Iterable[SheetLayout]) -> int:
    """The cost of the sheets, in the task's cost unit."""
    return sum(task.sorts[layout.sort].cost for layout in layouts)


def cap_at_demand(layouts: Sequence[SheetLayout], demands: Sequence[int]) -> list[SheetLayout]:
    """The same sheets without the pieces nobody asked for; a sheet left empty is dropped."""
    left = list(demands)
    kept: list[SheetLayout] = []
    for layout in layouts:
        strips: list[Strip] = []
        for strip in layout.strips:
            blocks: list[Block] = []
            for block in strip.blocks:
                items: list[Item] = []
                for item in block.items:
                    if left[item.kind]:
                        left[item.kind] -= 1
                        items.append(item)
                if items:
                    blocks.append(make_block(items))
            if blocks:
                strips.append(make_strip(blocks))
        if strips:
            kept.append(SheetLayout(layout.sort, tuple(strips)))
    return kept


@frozen
class _Cutter:
    """Builds trees; `queues` hands out the addresses of each kind's pieces in order."""

    task: Task
    queues: list[Iterator[Member]]
    keep: tuple[int, int]

    def sheet(self, layout: SheetLayout) -> Node:
        sort = self.task.sorts[layout.sort]
        kerf = self.task.kerf
        children = [self.strip(strip, sort) for strip in layout.strips]
        rest = sort.width - sum(strip.y for strip in layout.strips)
        if rest > 0:
            children.append(self.rest(sort.length - kerf, rest - kerf, sort))
        return self.join(sort.length, sort.width, 1, children, sort)

    def strip(self, strip: Strip, sort: Sort) -> Node:
        kerf = self.task.kerf
        children = [self.block(block, strip.y, sort) for block in strip.blocks]
        rest = sort.length - sum(block.x for block in strip.blocks)
        if rest > 0:
            children.append(self.rest(rest - kerf, strip.y - kerf, sort))
        return self.join(sort.length, strip.y, 2, children, sort)

    def block(self, block: Block, y: int, sort: Sort) -> Node:
        kerf = self.task.kerf
        children = [self.slot(item, block.x, sort) for item in block.items]
        rest = y - sum(item.y for item in block.items)
        if rest > 0:
            children.append(self.rest(block.x - kerf, rest - kerf, sort))
        return self.join(block.x, y, 3, children, sort)

    def slot(self, item: Item, x: int, sort: Sort) -> Node:
        kerf = self.task.kerf
        member = next(self.queues[item.kind])
        piece = self.turn(
            Node(
                item.x - kerf,
                item.y - kerf,
                use="piece",
                piece=member.address,
                turned=item.turned != member.swapped,
            ),
            sort,
        )
        if item.x == x:
            return piece
        return self.join(
            x, item.y, 4, [piece, self.rest(x - item.x - kerf, item.y - kerf, sort)], sort
        )

    def rest(self, length: int, width: int, sort: Sort) -> Node:
        node = self.turn(Node(length, width), sort)
        useful = node.length >= self.keep[0] and node.width >= self.keep[1]
        return Node(node.length, node.width, use="offcut" if useful else "waste")

    def turn(self, node: Node, sort: Sort) -> Node:
        if sort.first == "rip":
            return node
        return Node(node.width, node.length, "", (), node.use, node.piece, node.turned)

    def join(self, x: int, y: int, stage: int, children: list[Node], sort: Sort) -> Node:
        """The node cut into the children; an only child is the node itself."""
        solid = [child for child in children if child.length > 0 and child.width > 0]
        length, width = x - self.task.kerf, y - self.task.kerf
        if sort.first == "crosscut":
            length, width = width, length
        only = solid[0]
        if len(solid) == 1 and (only.length, only.width) == (length, width):
            return only
        rip_stage = stage % 2 == (1 if sort.first == "rip" else 0)
        return Node(length, width, "rip" if rip_stage else "crosscut", tuple(solid))


def build_plan(task: Task, layouts: Sequence[SheetLayout], keep: tuple[int, int]) -> CutPlan:
    """The cut trees of sheets that hold exactly what was asked.

    `keep` is the least length and width of an offcut that is kept, in grid steps.
    """
    queues = [iter([m for m in k.members for _ in range(m.quantity)]) for k in task.kinds]
    cutter = _Cutter(task, queues, keep)
    sheets = tuple(
        Sheet(task.names[task.sorts[layout.sort].stock], cutter.sheet(layout)) for layout in layouts
    )
    return CutPlan(task.step, task.kerf, sheets)
