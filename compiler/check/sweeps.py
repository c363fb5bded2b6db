"""What moves in a room and what stands in its way, in plan and in height.

A door turns about the outer corner of its hinge side, where the knuckle of a hinge lies: at 90
degrees its face is in line with the edge it had when closed (common practice; a hinge that throws
its door further needs the difference more). It sweeps a sector with its two far corners, and so
does its pull. A drawer carries its front and its pull straight out.
"""

from collections.abc import Iterator
from fractions import Fraction
from functools import cached_property, lru_cache
from typing import Literal

from attrs import evolve, frozen

from casewright.compiler.check.grid import Grid
from casewright.compiler.check.plan import (
    Bounds,
    Outline,
    Point,
    Sector,
    Shape,
    bounds,
    rectangle,
    turned_about,
)
from casewright.compiler.check.site import SQUARE, Site, Standing, parts
from casewright.compiler.model import Assembly, Direction, Part, Range, Spot, Wall
from casewright.compiler.rooms.angles import direction
from casewright.compiler.rooms.room import on_line, plan_point

MoverKind = Literal["swing", "travel", "appliance"]
FixedKind = Literal["wall", "casing", "thing"]

WALL_THICK = Fraction(6)
"""How far behind its face a wall is looked for."""
LEAF = Fraction(2)
"""Thickness taken for the door of an appliance; it only has to be less than what it closes."""


@frozen(eq=False)
class Line:
    """The line something stands on: along it x, out from it y. A door that is hung right, and all
    in its way, is looked at in a mirror (x becomes -x)."""

    origin: Spot
    direction: Direction
    start: Fraction = Fraction(0)
    """What x is at the origin."""
    mirrored: bool = False

    def place(self, point: Point) -> Point:
        """A place of this line, in plan."""
        across = -point[0] if self.mirrored else point[0]
        return plan_point(self.origin, self.direction, across - self.start, point[1])

    def here(self, outline: Outline) -> Outline:
        """An outline of the plan, on this line."""
        found = [on_line(self.origin, self.direction, point) for point in outline]
        sign = -1 if self.mirrored else 1
        return tuple((sign * (x + self.start), y) for x, y in found)


@frozen(eq=False, slots=False)
class Fixed:
    """Something that can't give way: its outline in plan and its heights."""

    kind: FixedKind
    name: str
    outline: Outline
    up: Range
    standing: Standing | None
    part: Part | None = None
    """What it is of a unit, where it isn't the whole of it."""

    @cached_property
    def around(self) -> Bounds:
        """A box around it in plan."""
        return bounds((self.outline,))


@frozen(eq=False, slots=False)
class Mover:
    """Something that moves: what it sweeps at most, and where it is `closed`, on its own line. A
    door has the outlines of its `leaf`, its pull among them, and the `pivot` they turn about."""

    kind: MoverKind
    standing: Standing
    line: Line
    shapes: tuple[Shape, ...]
    up: Range
    closed: tuple[Outline, ...] = ()
    angle: Fraction = Fraction(0)
    leaf: tuple[Outline, ...] = ()
    pivot: Point = (Fraction(0), Fraction(0))

    @cached_property
    def around(self) -> Bounds:
        """A box in plan around all it sweeps."""
        low_x, low_y, high_x, high_y = bounds(self.shapes)
        corners = [self.line.place(each) for each in rectangle((low_x, low_y), (high_x, high_y))]
        return bounds((tuple(corners),))


@lru_cache(maxsize=1024)
def turn_of(degrees: Fraction) -> Direction:
    """The direction of an angle; doors of a kitchen open by few different ones."""
    return direction(degrees)


def door_sweep(leaf: tuple[Outline, ...], pivot: Point, degrees: Fraction) -> tuple[Shape, ...]:
    """What the outlines of a door and its pull sweep, opening about `pivot`: each where it comes
    to rest, and the sectors of its far corners."""
    turn = turn_of(degrees)
    shapes: list[Shape] = []
    for outline in leaf:
        shapes.append(tuple(turned_about(point, pivot, turn) for point in outline))
        far = max(point[0] for point in outline)
        shapes += [Sector(pivot, point, turn) for point in outline if point[0] == far]
    return tuple(shapes)


def line_of(standing: Standing) -> Line | None:
    """The line a thing stands on."""
    run = standing.run
    return Line(run.origin, run.direction, run.start.value) if run.origin is not None else None


# -- what moves ----------------------------------------------------------------------------------


def movers(site: Site) -> Iterator[Mover]:
    """Everything that moves in the room."""
    for standing in (*site.standings, *site.returns, *site.slanted):
        line = line_of(standing)
        if line is None or standing.placed.span in site.clashing:
            continue
        if standing.unit is not None:
            yield from _of_unit(standing, line)
        elif standing.stands.opens:
            yield _of_appliance(standing, line)


def _of_unit(standing: Standing, line: Line) -> Iterator[Mover]:
    unit = standing.unit
    assert unit is not None, "only units have fronts"
    pulls = list(parts(unit, "pull"))
    moving: tuple[Part | Assembly, ...] = (*unit.assemblies, *unit.parts)
    for each in moving:
        motion = each.motion
        if motion is None or each.faces != "front" or each.slant is not None:
            continue
        own = [pull for pull in pulls if each.opening and pull.opening == each.opening]
        if motion.kind == "about" and motion.edge in ("left", "right"):
            degrees = motion.angle.value if motion.angle is not None else SQUARE
            yield _door(standing, line, each, own, motion.edge, degrees)
        elif motion.kind == "out":
            reach = motion.reach.value if motion.reach is not None else Fraction(0)
            closing = [
                part
                for part in parts(unit, "front")
                if each.opening and part.opening == each.opening
            ]
            carried = [each, *closing, *own]
            yield _drawer(standing, line, carried, reach)


def _ranges(standing: Standing, each: Part | Assembly) -> tuple[Range, Range, Range]:
    """Along the line, out from it, and above the floor."""
    box = each.extents.box
    return (
        (standing.left + box.across[0], standing.left + box.across[1]),
        (standing.depth - box.deep[1], standing.depth - box.deep[0]),
        (standing.low + box.up[0], standing.low + box.up[1]),
    )


def _door(
    standing: Standing,
    line: Line,
    face: Part | Assembly,
    pulls: list[Part],
    edge: str,
    degrees: Fraction,
) -> Mover:
    mirrored = edge == "right"
    leaf = []
    for each in (face, *pulls):
        across, out, _ = _ranges(standing, each)
        low, high = (-across[1], -across[0]) if mirrored else across
        leaf.append(rectangle((low, out[0]), (high, out[1])))
    across, out, up = _ranges(standing, face)
    pivot = (-across[1] if mirrored else across[0], out[1])
    turning = evolve(line, mirrored=mirrored)
    shapes = door_sweep(tuple(leaf), pivot, degrees)
    outlines = tuple(leaf)
    return Mover("swing", standing, turning, shapes, up, outlines, degrees, outlines, pivot)


def _drawer(
    standing: Standing, line: Line, carried: list[Part | Assembly], reach: Fraction
) -> Mover:
    shapes: list[Shape] = []
    closed: list[Outline] = []
    heights: list[Fraction] = []
    for each in carried:
        across, out, high = _ranges(standing, each)
        begin = max(out[0], standing.depth)
        if out[1] > begin:
            closed.append(rectangle((across[0], begin), (across[1], out[1])))
        if out[1] + reach > begin:
            shapes.append(rectangle((across[0], begin), (across[1], out[1] + reach)))
        heights += high
    up = (min(heights), max(heights))
    return Mover("travel", standing, line, tuple(shapes), up, tuple(closed))


def _of_appliance(standing: Standing, line: Line) -> Mover:
    stands = standing.stands
    handle = stands.handle.value if stands.handle is not None else Fraction(0)
    face, left, right = standing.depth, standing.left, standing.right
    up = (standing.low, standing.high)
    if stands.opens in ("left", "right"):
        mirrored = stands.opens == "right"
        low, high = (-right, -left) if mirrored else (left, right)
        leaf = [rectangle((low, face - LEAF), (high, face))]
        if handle:
            leaf.append(rectangle((high - 2 * handle, face), (high - handle, face + handle)))
        degrees = stands.angle.value if stands.angle is not None else SQUARE
        pivot = (low, face)
        turning = evolve(line, mirrored=mirrored)
        shapes = door_sweep(tuple(leaf), pivot, degrees)
        outlines = tuple(leaf)
        return Mover("appliance", standing, turning, shapes, up, outlines, degrees, outlines, pivot)
    reach = stands.reach.value if stands.reach is not None else standing.placed.height.value
    shape = rectangle((left, face), (right, face + reach + handle))
    return Mover("appliance", standing, line, (shape,), up)


# -- what stands still ---------------------------------------------------------------------------


def fixed_things(site: Site) -> Iterator[Fixed]:
    """Walls, what stands out from them, and everything that stands in a run with its fronts and
    pulls closed."""
    ceiling = site.job.room.ceiling.value or Fraction(1000)
    for wall in site.job.room.walls:
        if wall.origin is not None:
            yield from _of_wall(wall, ceiling)
    for standing in (*site.standings, *site.returns, *site.slanted):
        line = line_of(standing)
        if line is None or standing.placed.kind == "space":
            continue
        box = rectangle((standing.left, Fraction(0)), (standing.right, standing.depth))
        up = (standing.low, standing.high)
        yield Fixed("thing", standing.name, _placed(line, box), up, standing)
        for part in _at_its_mouth(standing):
            across, out, heights = _ranges(standing, part)
            if out[1] > standing.depth:
                outline = rectangle((across[0], out[0]), (across[1], out[1]))
                what = "a pull of" if part.role == "pull" else "a front of"
                name = f"{what} {standing.name}"
                yield Fixed("thing", name, _placed(line, outline), heights, standing, part)
        handle = standing.stands.handle
        if standing.unit is None and handle is not None and handle.value > 0:
            outline = rectangle(
                (standing.left, standing.depth), (standing.right, standing.depth + handle.value)
            )
            name = f"the handle of {standing.name}"
            yield Fixed("thing", name, _placed(line, outline), up, standing)


def _at_its_mouth(standing: Standing) -> Iterator[Part]:
    """The parts of a unit that may stand out before it; of one that goes around a corner, what is
    made for its openings on this side."""
    unit = standing.unit
    if unit is None:
        return
    for part in unit.parts:
        if part.faces == "front" and part.slant is None and (part.opening or not unit.mouths):
            yield part


def _placed(line: Line, outline: Outline) -> Outline:
    return tuple(line.place(point) for point in outline)


def _of_wall(wall: Wall, ceiling: Fraction) -> Iterator[Fixed]:
    assert wall.origin is not None, "a wall is laid out"
    line = Line(wall.origin, wall.direction)
    behind = rectangle((Fraction(0), -WALL_THICK), (wall.length.value, Fraction(0)))
    yield Fixed(
        "wall", f"the {wall.name} wall", _placed(line, behind), (Fraction(0), ceiling), None
    )
    for feature in wall.features:
        if feature.out is None or feature.out.value <= 0:
            continue
        casing = feature.casing.value
        outline = rectangle(
            (feature.at.value - casing, Fraction(0)),
            (feature.at.value + feature.wide.value + casing, feature.out.value),
        )
        up = (feature.up.value - casing, feature.up.value + feature.high.value + casing)
        what = "the casing of " if casing else ""
        yield Fixed("casing", f"{what}{feature.name}", _placed(line, outline), up, None)


# -- who is near whom ----------------------------------------------------------------------------


def grid_of(fixed: Iterator[Fixed]) -> Grid[Fixed]:
    grid: Grid[Fixed] = Grid()
    for each in fixed:
        grid.add(each, each.around)
    return grid


def around(line: Line, outline: Outline) -> Bounds:
    """A box in plan around an outline on a line."""
    return bounds((tuple(line.place(point) for point in outline),))
