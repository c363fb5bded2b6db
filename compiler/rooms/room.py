"""The room in plan: where walls, islands and what stands on them lie, by exact directions.

A line of the plan runs from an origin along a direction, left to right as seen facing it, and the
room is to its right: `out` is counted that way. Where a direction isn't square to the page, a place
that comes of it is rounded once, to `place_step`; such a figure ends in `nearest`.
"""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from attrs import evolve, frozen

from casewright.compiler.model import Corner, Direction, Island, Spot, Wall
from casewright.compiler.rooms.angles import direction, mitre, turned
from casewright.lang.cells import Quantity, add, literal, scale, subtract, to_nearest
from casewright.lang.measure import INCH, Dimension, System
from casewright.lang.source import Origin

Point = tuple[Fraction, Fraction]

SQUARE = Fraction(90)


def place_step(system: System) -> Quantity:
    """What a place is rounded to where a root or an angle makes it: 1/1000 inch or 0.01 mm."""
    if system is System.INCHES:
        return literal(Fraction(1, 1000), label="thousandth of an inch")
    return literal(Fraction(1, 100) / INCH, label="hundredth of a millimetre")


@frozen
class Line:
    """A line in plan on which a run can stand."""

    origin: Spot
    direction: Direction
    length: Quantity


def spot(
    origin: Spot,
    along: Direction,
    across: Quantity | None,
    out: Quantity | None,
    step: Quantity,
) -> Spot:
    """The place so far along a line and so far out from it; what is None is not gone."""
    cosine, sine = along
    return Spot(
        _moved(origin.x, ((across, cosine), (out, sine)), step),
        _moved(origin.y, ((across, sine), (out, -cosine)), step),
    )


def _moved(
    start: Quantity, moves: Sequence[tuple[Quantity | None, Fraction]], step: Quantity
) -> Quantity:
    at, sloping = start, False
    for length, factor in moves:
        if length is None or factor == 0:
            continue
        if factor == 1:
            at = add(at, length)
        elif factor == -1:
            at = subtract(at, length)
        else:
            slope = literal(factor, Dimension.COUNT, label="slope in plan")
            at, sloping = add(at, scale(length, slope, Dimension.LENGTH)), True
    return to_nearest(at, step) if sloping else at


def plan_point(origin: Spot, along: Direction, across: Fraction, out: Fraction) -> Point:
    """The place in plan `across` along a line and `out` from it, both in inches: exact."""
    cosine, sine = along
    return (
        origin.x.value + across * cosine + out * sine,
        origin.y.value + across * sine - out * cosine,
    )


def on_line(origin: Spot, along: Direction, point: Point) -> Point:
    """The reverse of `plan_point`: how far along a line a place in plan is, and how far out."""
    x, y = point[0] - origin.x.value, point[1] - origin.y.value
    cosine, sine = along
    return x * cosine + y * sine, x * sine - y * cosine


# -- walls -------------------------------------------------------------------------------------


def lay_out(
    walls: Sequence[Wall], corners: Mapping[str, Corner], top: int, step: Quantity
) -> tuple[Wall, ...]:
    """The walls with their places. `corners` are by the wall whose right end they are; the wall
    numbered `top` lies along the top of the plan, its left end at nought."""
    headings = {top: Fraction(0)}
    for index in range(top + 1, len(walls)):
        angle = corners[walls[index - 1].name].angle.value
        headings[index] = headings[index - 1] - (180 - angle)
    for index in range(top - 1, -1, -1):
        headings[index] = headings[index + 1] + (180 - corners[walls[index].name].angle.value)
    nought = literal(0, label="the plan's left")
    placed = {top: evolve(walls[top], origin=Spot(nought, literal(0, label="the plan's top")))}
    for index in range(top + 1, len(walls)):
        before = placed[index - 1]
        assert before.origin is not None, "walls are placed one after another"
        at = spot(before.origin, before.direction, before.length, None, step)
        placed[index] = evolve(walls[index], origin=at, direction=direction(headings[index] % 360))
    for index in range(top - 1, -1, -1):
        after, wall = placed[index + 1], walls[index]
        assert after.origin is not None, "walls are placed one after another"
        along = direction(headings[index] % 360)
        back = (-along[0], -along[1])
        placed[index] = evolve(
            wall, origin=spot(after.origin, back, wall.length, None, step), direction=along
        )
    return tuple(placed[index] for index in range(len(walls)))


def gap_of(walls: Sequence[Wall], top: int) -> tuple[Fraction, Fraction]:
    """How far the right end of the last wall misses the left end of the first: along the wall
    numbered `top`, and out from it. Inches; below nothing to the left, and towards the wall."""
    first, last, base = walls[0], walls[-1], walls[top]
    assert first.origin is not None, "the walls are laid out"
    assert last.origin is not None, "the walls are laid out"
    assert base.origin is not None, "the walls are laid out"
    end = plan_point(last.origin, last.direction, last.length.value, Fraction(0))
    start = (first.origin.x.value, first.origin.y.value)
    from_end = on_line(base.origin, base.direction, end)
    from_start = on_line(base.origin, base.direction, start)
    return from_end[0] - from_start[0], from_end[1] - from_start[1]


# -- what a corner takes of a wall ---------------------------------------------------------------


def taken_by_wall(corner: Corner, depth: Quantity, step: Quantity) -> Quantity | None:
    """How much of a wall the one around the corner takes at its narrowest over a depth: nothing
    (None) in a square corner or a wider one, where the wall itself is the narrowest."""
    if corner.angle.value >= SQUARE:
        return None
    cosine, sine = direction(corner.angle.value)
    slope = literal(cosine / sine, Dimension.COUNT, corner.angle.origin, "slope of the corner")
    return to_nearest(scale(depth, slope, Dimension.LENGTH), step)


def taken_by_run(corner: Corner, other: Quantity, own: Quantity, step: Quantity) -> Quantity:
    """How much of a wall a run around the corner takes, which is `other` deep, at the narrowest
    over the depth `own` of what stands on this wall.

    The other run's face is a line `other` out from its wall; it meets a line `t` out from this one
    at (other + t cos) / sin of the corner's angle. The most of that over t from 0 to `own` is
    taken: in a square corner it is the other run's depth.
    """
    if corner.angle.value == SQUARE:
        return other
    cosine, sine = direction(corner.angle.value)
    origin = corner.angle.origin
    across = literal(1 / sine, Dimension.COUNT, origin, "slant of the corner")
    taken = scale(other, across, Dimension.LENGTH)
    if cosine > 0:
        slope = literal(cosine / sine, Dimension.COUNT, origin, "slope of the corner")
        taken = add(taken, scale(own, slope, Dimension.LENGTH))
    return to_nearest(taken, step)


@frozen
class Mitre:
    """How a face meets another around a corner. Lines that lie 1 behind both run on past the faces'
    meeting by `past` until they meet too: 1 in a square corner. `slope` is by how much the other
    face leans back from square over 1: more than nothing in a corner blunter than square."""

    past: Quantity
    slope: Quantity


def mitre_between(cosine: Fraction, sine: Fraction, origin: Origin | None = None) -> Mitre:
    """The mitre of two faces of which one turns from the other by this angle."""
    past, slope = (
        literal(each, Dimension.COUNT, origin, "how faces meet") for each in mitre(cosine, sine)
    )
    return Mitre(past, slope)


def mitre_of(corner: Corner) -> Mitre:
    """How faces along both walls of a corner meet."""
    cosine, sine = direction(corner.angle.value)
    return mitre_between(-cosine, sine, corner.angle.origin)


def taken_by_lean(wall: Wall, corner: Corner, up: Quantity, high: Quantity) -> Quantity | None:
    """How much of its neighbour's length a wall takes by leaning into the room, up to the top of
    what stands there; None where it doesn't lean in."""
    if wall.plumb is None or wall.plumb.value <= 0:
        return None
    _, sine = direction(corner.angle.value)
    lean = scale(add(up, high), wall.plumb, Dimension.LENGTH)
    if sine == 1:
        return lean
    return scale(lean, literal(1 / sine, Dimension.COUNT, label="slant"), Dimension.LENGTH)


def spread(
    corner: Corner, around: Wall | None, depth: Quantity, high: Quantity, step: Quantity
) -> Quantity | None:
    """How much wider than at its narrowest the gap to the wall around a corner becomes, over a
    depth and a height: by the corner's angle and the wall's lean. None where it stays the same."""
    cosine, sine = direction(corner.angle.value)
    parts = []
    if cosine != 0 and sine != 0:
        slope = literal(abs(cosine / sine), Dimension.COUNT, corner.angle.origin, "slope")
        parts.append(scale(depth, slope, Dimension.LENGTH))
    if around is not None and around.plumb is not None and around.plumb.value != 0 and sine != 0:
        lean = literal(abs(around.plumb.value / sine), Dimension.COUNT, None, "lean")
        parts.append(scale(high, lean, Dimension.LENGTH))
    if not parts:
        return None
    total = parts[0] if len(parts) == 1 else add(parts[0], parts[1])
    return to_nearest(total, step)


def clear_length(wall: Wall, up: Quantity, high: Quantity) -> Quantity:
    """The least length of a wall between two heights: of those measured at heights between them,
    and of the two measured next to each of them."""
    if not wall.lengths:
        return wall.length
    low, top = up.value, up.value + high.value
    found = [length for height, length in wall.lengths if low <= height.value <= top]
    found += [_length_at(wall, low), _length_at(wall, top)]
    return min(found, key=lambda length: length.value)


def _length_at(wall: Wall, height: Fraction) -> Quantity:
    measured = sorted(wall.lengths, key=lambda pair: pair[0].value)
    under = [length for at, length in measured if at.value <= height][-1:]
    over = [length for at, length in measured if at.value >= height][:1]
    return min((*under, *over), key=lambda length: length.value)


# -- islands -----------------------------------------------------------------------------------


def island_origin(
    wall: Wall,
    at: Quantity,
    out: Quantity,
    width: Quantity,
    depth: Quantity,
    turn: Fraction,
    step: Quantity,
) -> tuple[Spot, Direction]:
    """Where the back of an island begins and which way it runs: along its wall, turned about its
    middle by so many degrees clockwise."""
    assert wall.origin is not None, "islands are placed in a room that is laid out"
    if turn % 360 == 0:
        return spot(wall.origin, wall.direction, at, out, step), wall.direction
    halves = literal(Fraction(1, 2), Dimension.COUNT, label="half")
    half_width = scale(width, halves, Dimension.LENGTH)
    half_depth = scale(depth, halves, Dimension.LENGTH)
    middle = spot(wall.origin, wall.direction, add(at, half_width), add(out, half_depth), step)
    along = turned(direction(-turn % 360), wall.direction)
    back = (-along[0], -along[1])
    return spot(middle, back, half_width, half_depth, step), along


def outline(island: Island) -> tuple[Point, Point, Point, Point]:
    """The corners of an island in plan: back left, back right, front right, front left."""
    width, depth = island.width.value, island.depth.value
    return (
        plan_point(island.origin, island.direction, Fraction(0), Fraction(0)),
        plan_point(island.origin, island.direction, width, Fraction(0)),
        plan_point(island.origin, island.direction, width, depth),
        plan_point(island.origin, island.direction, Fraction(0), depth),
    )


def side_line(island: Island, facing: str, deep: Quantity | None, step: Quantity) -> Line:
    """The line on which the backs of a run stand that faces a side of an island, `deep` in from
    that side; `facing` is front, back, left or right."""
    cosine, sine = island.direction
    out = (sine, -cosine)
    width, depth = island.width, island.depth
    begins: dict[str, tuple[Quantity | None, Quantity | None, Direction, Quantity]] = {
        "front": (None, depth, island.direction, width),
        "back": (width, None, (-cosine, -sine), width),
        "left": (None, None, out, depth),
        "right": (width, depth, (-out[0], -out[1]), depth),
    }
    across, away, along, length = begins[facing]
    begin = spot(island.origin, island.direction, across, away, step)
    inward = literal(-1, Dimension.COUNT, label="inward")
    if deep is not None:
        begin = spot(begin, along, None, scale(deep, inward, Dimension.LENGTH), step)
    return Line(begin, along, length)
