"""Exact geometry of boxes, on whole numbers.

Rational arithmetic is slow, so one unit's coordinates are brought to their common denominator
once (`Scale`); everything after that is integers and still exact. A block is a box in such whole
steps; a solid is a tuple of blocks that don't share space.
"""

from collections.abc import Iterable
from fractions import Fraction
from math import lcm

from attrs import frozen

from casewright.compiler.model import AXES, Axis, Box, Part

Block = tuple[int, int, int, int, int, int]
"""Low and high across, low and high up, low and high deep, in steps of a scale."""

Solid = tuple[Block, ...]

EVERY_WAY = 0b111111
"""All six bits of `ways_blocked`."""


@frozen
class Scale:
    """How many equal steps an inch is divided into, so that every place is a whole number."""

    steps: int

    def whole(self, value: Fraction) -> int:
        """`value` inches in steps; the scale was made with its denominator."""
        return value.numerator * (self.steps // value.denominator)

    def block(self, box: Box) -> Block:
        whole = self.whole
        return (
            whole(box.across[0]),
            whole(box.across[1]),
            whole(box.up[0]),
            whole(box.up[1]),
            whole(box.deep[0]),
            whole(box.deep[1]),
        )

    def inches(self, steps: int) -> Fraction:
        return Fraction(steps, self.steps)

    def box(self, block: Block) -> Box:
        inches = self.inches
        return Box(
            (inches(block[0]), inches(block[1])),
            (inches(block[2]), inches(block[3])),
            (inches(block[4]), inches(block[5])),
        )


def scale_of(parts: Iterable[Part], lengths: Iterable[Fraction] = ()) -> Scale:
    """A scale for the boxes and cuts of `parts` and the further `lengths`, and halves of them."""
    denominators = {length.denominator for length in lengths}
    for part in parts:
        for box in (part.box, *(cut.box for cut in part.cuts)):
            for low, high in (box.across, box.up, box.deep):
                denominators.add(low.denominator)
                denominators.add(high.denominator)
    return Scale(2 * lcm(*denominators))


def size(block: Block, axis: Axis) -> int:
    low, high = along(block, axis)
    return high - low


def along(block: Block, axis: Axis) -> tuple[int, int]:
    place = 2 * AXES.index(axis)
    return block[place], block[place + 1]


def replace(block: Block, axis: Axis, low: int, high: int) -> Block:
    """`block` with another range along `axis`."""
    place = 2 * AXES.index(axis)
    changed = list(block)
    changed[place], changed[place + 1] = low, high
    return (changed[0], changed[1], changed[2], changed[3], changed[4], changed[5])


def volume(solid: Solid) -> int:
    return sum((b[1] - b[0]) * (b[3] - b[2]) * (b[5] - b[4]) for b in solid)


def overlap(a: Block, b: Block) -> Block | None:
    """The block both share; None where they share no space (touching is not sharing)."""
    if a[0] >= b[1] or b[0] >= a[1] or a[2] >= b[3] or b[2] >= a[3] or a[4] >= b[5] or b[4] >= a[5]:
        return None
    return (
        max(a[0], b[0]),
        min(a[1], b[1]),
        max(a[2], b[2]),
        min(a[3], b[3]),
        max(a[4], b[4]),
        min(a[5], b[5]),
    )


def shared(a: Solid, b: Solid) -> Solid:
    """The space two solids share."""
    found = (overlap(one, other) for one in a for other in b)
    return tuple(block for block in found if block is not None)


def around(solid: Solid) -> Block:
    """The least block around a solid of at least one block."""
    if len(solid) == 1:
        return solid[0]
    low_across, high_across, low_up, high_up, low_deep, high_deep = zip(*solid, strict=True)
    return (
        min(low_across),
        max(high_across),
        min(low_up),
        max(high_up),
        min(low_deep),
        max(high_deep),
    )


def less(solid: Solid, cuts: Iterable[Block]) -> Solid:
    """`solid` with `cuts` taken away, as blocks that don't share space."""
    for cut in cuts:
        if any(overlap(block, cut) is not None for block in solid):
            solid = tuple(piece for block in solid for piece in _less_one(block, cut))
    return solid


def _less_one(block: Block, cut: Block) -> Solid:
    common = overlap(block, cut)
    if common is None:
        return (block,)
    x0, x1, y0, y1, z0, z1 = block
    a0, a1, b0, b1, c0, c1 = common
    pieces: list[Block] = []
    if x0 < a0:
        pieces.append((x0, a0, y0, y1, z0, z1))
    if a1 < x1:
        pieces.append((a1, x1, y0, y1, z0, z1))
    if y0 < b0:
        pieces.append((a0, a1, y0, b0, z0, z1))
    if b1 < y1:
        pieces.append((a0, a1, b1, y1, z0, z1))
    if z0 < c0:
        pieces.append((a0, a1, b0, b1, z0, c0))
    if c1 < z1:
        pieces.append((a0, a1, b0, b1, c1, z1))
    return tuple(pieces)


def solid_of(part: Part, scale: Scale) -> Solid:
    """A part's box less all its cuts and grooves, by its own axes; a corner that is cut off is no
    block, and is still there (`oblique.prisms` takes it)."""
    block = (scale.block(part.box),)
    cuts = [cut for cut in part.cuts if cut.kind != "corner"]
    return less(block, (scale.block(cut.box) for cut in cuts)) if cuts else block


@frozen
class Contact:
    """Where two solids touch, face to face: `side` is 1 if the second lies towards high along
    `axis`; `area` is flat along it."""

    axis: Axis
    side: int
    area: Block


def contact(a: Solid, b: Solid) -> Contact | None:
    """The largest rectangle over which `a` and `b` touch, all of it in contact, in the plane in
    which they touch most; None where they meet in no more than an edge or a point.

    Only one rectangle is given, because fasteners go into it and must find both parts there.
    """
    planes: dict[tuple[int, int, int], list[Block]] = {}
    for one in a:
        for other in b:
            flat = _touch(one, other)
            if flat is not None:
                axis, side, area = flat
                planes.setdefault((axis, side, area[2 * axis]), []).append(area)
    if not planes:
        return None
    most: tuple[int, int, int, Block] | None = None
    found: Contact | None = None
    for (axis, side, _), areas in planes.items():
        area = _largest_rectangle(areas, axis)
        # Ties fall the same way whichever of the two solids is named first.
        rank = (sum(_face(each, axis) for each in areas), _face(area, axis), -axis, area)
        if most is None or rank > most:
            most, found = rank, Contact(AXES[axis], side, area)
    return found


def _touch(a: Block, b: Block) -> tuple[int, int, Block] | None:
    """Axis, side and flat area over which two blocks touch."""
    found: tuple[int, int] | None = None
    for axis in (0, 1, 2):
        low_a, high_a, low_b, high_b = a[2 * axis], a[2 * axis + 1], b[2 * axis], b[2 * axis + 1]
        if low_a > high_b or low_b > high_a:
            return None
        if low_a == high_b or high_a == low_b:
            if found is not None:
                return None
            found = (axis, 1 if high_a == low_b else -1)
    if found is None:
        return None
    return (
        *found,
        (
            max(a[0], b[0]),
            min(a[1], b[1]),
            max(a[2], b[2]),
            min(a[3], b[3]),
            max(a[4], b[4]),
            min(a[5], b[5]),
        ),
    )


def _face(area: Block, axis: int) -> int:
    one, other = (axis + 1) % 3, (axis + 2) % 3
    return (area[2 * one + 1] - area[2 * one]) * (area[2 * other + 1] - area[2 * other])


def _largest_rectangle(areas: list[Block], axis: int) -> Block:
    """The largest rectangle wholly covered by `areas`, which lie in one plane square to `axis`."""
    if len(areas) == 1:
        return areas[0]
    one, other = sorted(((axis + 1) % 3, (axis + 2) % 3))
    columns = sorted({area[2 * one + end] for area in areas for end in (0, 1)})
    rows = sorted({area[2 * other + end] for area in areas for end in (0, 1)})
    covered = {
        (column, row)
        for column in range(len(columns) - 1)
        for row in range(len(rows) - 1)
        if any(
            area[2 * one] <= columns[column] < area[2 * one + 1]
            and area[2 * other] <= rows[row] < area[2 * other + 1]
            for area in areas
        )
    }
    best: tuple[int, int, int, int, int] = (0, 0, 0, 0, 0)
    for left in range(len(columns) - 1):
        for low in range(len(rows) - 1):
            height = len(rows)
            for right in range(left, len(columns) - 1):
                reach = low
                while reach < height and (right, reach) in covered:
                    reach += 1
                height = reach
                if height == low:
                    break
                area = (columns[right + 1] - columns[left]) * (rows[height] - rows[low])
                if area > best[0]:
                    best = (area, columns[left], columns[right + 1], rows[low], rows[height])
    flat = replace(areas[0], AXES[one], best[1], best[2])
    return replace(flat, AXES[other], best[3], best[4])


def gaps(a: Block, b: Block) -> tuple[int, int, int]:
    """How far apart two blocks are along each axis; nothing or less where their ranges meet."""
    return (
        max(a[0] - b[1], b[0] - a[1]),
        max(a[2] - b[3], b[2] - a[3]),
        max(a[4] - b[5], b[4] - a[5]),
    )


def ways_blocked(moving: Block, standing: Block) -> int:
    """From which of the six ends the standing block bars a moving one's way to where it is drawn.

    Bit `2 * axis` is the way in from the low end of that axis, `2 * axis + 1` from its high end.
    The way is the moving block drawn out without end towards that end; it is barred where the
    standing block has space in common with it. So a block that shares the moving one's range along
    two axes bars the end it stands towards on the third, one that shares all three bars every way,
    and one that only touches bars nothing by touching.
    """
    across = moving[0] < standing[1] and standing[0] < moving[1]
    up = moving[2] < standing[3] and standing[2] < moving[3]
    deep = moving[4] < standing[5] and standing[4] < moving[5]
    if across:
        if up:
            if deep:
                return EVERY_WAY
            return 0b100000 if standing[4] >= moving[5] else 0b010000
        if deep:
            return 0b001000 if standing[2] >= moving[3] else 0b000100
        return 0
    if up and deep:
        return 0b000010 if standing[0] >= moving[1] else 0b000001
    return 0
