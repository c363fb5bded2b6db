"""Room to drive: whether every fastener of a joint can be reached when the joint closes.

- Driven `through`: straight out beyond the second part's far face, for the fixing's `needs`.
- Driven `inside`, contact on the first part's face: the same beyond the first part's far face.
- Driven `inside`, contact on the first part's end or edge (aslant, as a pocket screw is): along one
  of the first part's two faces, from the contact back over the first for `needs`, as high as the
  part is thick. One face must serve all fasteners of the joint.

Room is wanted at each fastener's place, as wide as the contact or as the thicker of the two parts
is thick, whichever is less: a driver's nose is about as wide as the stock it drives into (common
practice). Where the rest of the joint is covered, it may be.
"""

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from math import ceil, floor

from attrs import frozen

from casewright.compiler.joints.fastening import fastener_places, strip
from casewright.compiler.joints.geometry import Block, Scale, Solid, along, overlap, replace, size
from casewright.compiler.joints.oblique import Body, prisms_of, reach_of, taken_of
from casewright.compiler.model import AXES, EDGES, Axis, Fixing, Joint, Part, Slant


@frozen
class Standing:
    """A part on a bench: its path, the least block around it and its solid, by its own axes; the
    body it is in its unit, and whether it is `whole`: without a corner cut off."""

    path: str
    block: Block
    solid: Solid
    slant: Slant | None
    whole: bool
    body: Callable[[], Body]


@frozen
class Hindrance:
    """What takes the room of a fastener: `words` say where the driver was to be, `room` is what
    is left there, in steps of the scale."""

    words: str
    by: str
    room: int


@frozen
class _Corridor:
    """A block over the whole joint in which drivers work: it leads from `face` towards `side` of
    `axis`, past the part `skip`; the fasteners' places differ along `row`."""

    words: str
    axis: Axis
    side: int
    face: int
    block: Block
    row: Axis
    skip: str


def driven(joint: Joint) -> Fixing | None:
    """The fixing of a joint whose fasteners need room to be driven; else None."""
    fixing = joint.fixing
    if fixing is None or not joint.fasteners or not fixing.drive:
        return None
    return fixing if fixing.needs is not None and fixing.needs.value > 0 else None


def hindrances(
    scale: Scale,
    joint: Joint,
    first: Part,
    second: Part,
    standing: Iterable[Standing],
) -> tuple[Hindrance, ...]:
    """What keeps a joint from being driven, for each place it could be driven from; empty if from
    one of them all its fasteners can be."""
    fixing = driven(joint)
    if fixing is None or fixing.needs is None:
        return ()
    needs, area = scale.whole(fixing.needs.value), scale.block(joint.area)
    nose = _nose(scale, first, second, joint.axis, area)
    found = []
    for corridor in _corridors(scale, joint, first, second, needs, area, nose):
        hindrance = _in_the_way(scale, joint, corridor, nose, standing)
        if hindrance is None:
            return ()
        found.append(hindrance)
    return tuple(found)


def _nose(scale: Scale, first: Part, second: Part, axis: Axis, area: Block) -> int:
    _, short = strip(axis, lambda each: size(area, each))
    thick = (scale.whole(part.thick.value) for part in (first, second))
    return min(max(thick), size(area, short))


def _corridors(
    scale: Scale, joint: Joint, first: Part, second: Part, needs: int, area: Block, nose: int
) -> Iterator[_Corridor]:
    if joint.fixing is not None and joint.fixing.drive == "through":
        yield _straight(scale, joint, second, joint.side, needs, area, nose)
    elif joint.axis == first.thick_axis:
        yield _straight(scale, joint, first, -joint.side, needs, area, nose)
    else:
        for face in (-1, 1):
            yield _aslant(scale, joint, first, face, needs, area)


def _reach(scale: Scale, part: Part, joint: Joint, axis: Axis) -> tuple[int, int]:
    """How far a part reaches along an axis of a joint's slant."""
    if part.slant == joint.slant:
        return along(scale.block(part.box), axis)
    low, high = reach_of(prisms_of(part), joint.slant, axis)
    return floor(low * scale.steps), ceil(high * scale.steps)


def _taken(scale: Scale, joint: Joint, corridor: _Corridor, other: Standing) -> Iterator[Block]:
    """What a standing part takes of a corridor, by the axes of the joint's slant."""
    if other.whole and other.slant == joint.slant:
        if overlap(other.block, corridor.block) is not None:
            for piece in other.solid:
                if (common := overlap(piece, corridor.block)) is not None:
                    yield common
        return
    for box in taken_of(scale.box(corridor.block), joint.slant, other.body()):
        ends = (end * scale.steps for axis in AXES for end in box.along(axis))
        low_a, high_a, low_u, high_u, low_d, high_d = ends
        yield (floor(low_a), ceil(high_a), floor(low_u), ceil(high_u), floor(low_d), ceil(high_d))


def _straight(
    scale: Scale, joint: Joint, part: Part, side: int, needs: int, area: Block, nose: int
) -> _Corridor:
    """Room beyond the far face of `part`. It starts at the contact already, so that what stands
    in a cut of that part is met too."""
    low, high = _reach(scale, part, joint, joint.axis)
    start, end = along(area, joint.axis)
    if side == 1:
        face, block = high, replace(area, joint.axis, end, high + needs)
    else:
        face, block = low, replace(area, joint.axis, low - needs, start)
    row, short = strip(joint.axis, lambda each: size(area, each))
    low, high = along(block, short)
    # The scale holds halves of every place and size, so half of each is a whole number of steps.
    block = replace(block, short, (low + high - nose) // 2, (low + high + nose) // 2)
    return _Corridor(f"beyond {part.address}", joint.axis, side, face, block, row, part.path)


def _aslant(
    scale: Scale, joint: Joint, part: Part, face_side: int, needs: int, area: Block
) -> _Corridor:
    """Room along the face of `part` at `face_side` of its thickness, back from the contact."""
    low, high = _reach(scale, part, joint, part.thick_axis)
    start, end = along(area, joint.axis)
    away = -joint.side
    face = end if away == 1 else start
    block = replace(
        area, joint.axis, min(face, face + away * needs), max(face, face + away * needs)
    )
    block = replace(
        block,
        part.thick_axis,
        high if face_side == 1 else 2 * low - high,
        2 * high - low if face_side == 1 else low,
    )
    row = next(axis for axis in AXES if axis not in (joint.axis, part.thick_axis))
    edge = next(word for word, end in EDGES.items() if end == (part.thick_axis, face_side))
    words = f"over the {edge} of {part.address}"
    return _Corridor(words, joint.axis, away, face, block, row, part.path)


def _in_the_way(
    scale: Scale, joint: Joint, corridor: _Corridor, nose: int, standing: Iterable[Standing]
) -> Hindrance | None:
    """The nearest thing that takes the room of a fastener; None if all have room."""
    met = [
        (other.path, common)
        for other in standing
        if other.path != corridor.skip
        for common in _taken(scale, joint, corridor, other)
    ]
    if not met:
        return None
    index, half = AXES.index(corridor.row), Fraction(nose, 2)
    places = [
        point[index] * scale.steps for _, points in fastener_places(joint) for point in points
    ]
    found = []
    for path, common in met:
        low, high = along(common, corridor.row)
        if any(low < place + half and place - half < high for place in places):
            near, far = along(common, corridor.axis)
            room = near - corridor.face if corridor.side == 1 else corridor.face - far
            found.append(Hindrance(corridor.words, path, max(room, 0)))
    return min(found, key=lambda each: each.room, default=None)
