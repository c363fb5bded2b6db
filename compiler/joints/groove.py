"""Grooves: how one part enters another, and whether stock is left behind it.

The axis of a groove is that of entry, found so:

- along the entered part's own thickness, if the other reaches exactly one of its two faces;
- if it reaches neither face, it enters by an edge (a tenon into a stile): along the axis on which
  it reaches exactly one edge, the axis of its own length before the other. Stock is then left on
  both cheeks and at the end.

What reaches both faces, or neither face and both edges, goes right through: that makes no groove
but a part in two pieces. What reaches nothing lies wholly inside and can't have come in.
"""

from typing import Literal

from attrs import frozen

from casewright.compiler.joints.geometry import (
    Block,
    Scale,
    Solid,
    along,
    less,
    replace,
    shared,
)
from casewright.compiler.model import AXES, Axis, Cut, Part, Wish
from casewright.lang.cells import Quantity, literal, subtract
from casewright.lang.measure import Dimension


@frozen
class Groove:
    """A groove in a part: `side` is 1 if it is entered towards high along `axis`."""

    cut: Cut
    block: Block
    axis: Axis
    side: int


@frozen
class NoGroove:
    """Why there is none: along `axis` the part goes `through`, or it lies wholly `inside`."""

    why: Literal["through", "inside"]
    axis: Axis


def entry(first: Part, second: Part, whole: Block, taken: Block) -> tuple[Axis, int] | NoGroove:
    """The axis along which `first` enters `second`, and 1 if it goes in towards high.

    `whole` is the second's block and `taken` the part of it that the first takes.
    """
    thick = second.thick_axis
    ends = {axis: _reaches(taken, whole, axis) for axis in AXES}
    edges = sorted((axis for axis in AXES if axis != thick), key=lambda a: a != first.length_axis)
    if any(ends[thick]):
        return NoGroove("through", thick) if all(ends[thick]) else (thick, _side(ends[thick]))
    for axis in edges:
        if all(ends[axis]):
            return NoGroove("through", axis)
    for axis in edges:
        if any(ends[axis]):
            return axis, _side(ends[axis])
    return NoGroove("inside", thick)


def _reaches(taken: Block, whole: Block, axis: Axis) -> tuple[bool, bool]:
    """Whether `taken`, which lies in `whole`, reaches its low and its high end along `axis`."""
    (low, high), (least, most) = along(taken, axis), along(whole, axis)
    return low == least, high == most


def _side(reached: tuple[bool, bool]) -> int:
    return 1 if reached[0] else -1


def make_groove(
    scale: Scale,
    first: Part,
    second: Part,
    whole: Block,
    taken: Block,
    way: tuple[Axis, int],
    wish: Wish,
) -> Groove:
    """The groove for `first` in `second`: what it takes, widened by the play of `wish` across its
    thickness, on each side and never beyond the second's own box. Where the first goes in flat
    (its thickness lies along the axis of entry) there is nothing to widen."""
    axis, side = way
    block = taken
    if wish.play is not None and first.thick_axis != axis:
        block = _widened(block, first.thick_axis, scale.whole(wish.play.value), whole)
    depth = _depth(scale, first, second, taken, way, wish)
    return Groove(
        Cut("groove", scale.box(block), first.address, depth, wish.origin), block, axis, side
    )


def _widened(taken: Block, axis: Axis, play: int, whole: Block) -> Block:
    (low, high), (least, most) = along(taken, axis), along(whole, axis)
    return replace(taken, axis, max(low - play, least), min(high + play, most))


def _depth(
    scale: Scale, first: Part, second: Part, taken: Block, way: tuple[Axis, int], wish: Wish
) -> Quantity:
    """From the face that is entered to the end of what enters; the derivation is kept where that
    end is the end of the first's box and not of a cut in it."""
    axis, side = way
    low, high = along(taken, axis)
    ends, face = first.extents.along(axis), second.extents.along(axis)
    if side == 1 and scale.whole(ends.high.value) == high:
        return subtract(ends.high, face.low, wish.origin)
    if side == -1 and scale.whole(ends.low.value) == low:
        return subtract(face.high, ends.low, wish.origin)
    words = f"{first.address}, as cut, in {second.address}"
    return literal(scale.inches(high - low), Dimension.LENGTH, wish.origin, words)


def runs_through(part: Part, whole: Block, stated: Solid, solid: Solid, groove: Groove) -> bool:
    """Whether anywhere behind a groove, seen along its entry, no stock is left; for one that is
    entered by an edge, whether its play opens it at a face.

    `whole` is the block of the part, `stated` its solid before any groove and `solid` after all.
    """
    if groove.axis != part.thick_axis and any(_reaches(groove.block, whole, part.thick_axis)):
        return True
    low, high = along(whole, groove.axis)
    near, far = along(groove.block, groove.axis)
    span = (far, high) if groove.side == 1 else (low, near)
    behind = replace(groove.block, groove.axis, *span)
    removed = [replace(piece, groove.axis, 0, 1) for piece in shared(stated, (groove.block,))]
    left = [replace(piece, groove.axis, 0, 1) for piece in shared(solid, (behind,))]
    return bool(less(tuple(removed), left))
