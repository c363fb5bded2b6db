"""Ways to walk at which nobody works: past an island's bare sides, and between a run and a wall."""

from collections.abc import Iterator
from fractions import Fraction

from casewright.compiler.check.measured import Measured, quantity
from casewright.compiler.check.meetings import fixed_grid
from casewright.compiler.check.plan import Point, common, rectangle
from casewright.compiler.check.site import Site, Standing, first_line
from casewright.compiler.check.sweeps import Fixed, Line, around
from casewright.compiler.check.sweeps import line_of as plan_line
from casewright.compiler.model import Direction, Island
from casewright.compiler.rooms.room import side_line
from casewright.compiler.shop.yardstick import LENGTH
from casewright.lang.cells import literal

FAR = Fraction(120)
"""What is farther away narrows no walkway, inches."""

FACING = Fraction(-99, 100)
"""A wall faces an edge where the cosine between their lines is no more: within 8 degrees."""

SIDES = ("front", "back", "left", "right")


@quantity(
    "walkway",
    LENGTH,
    "walkway-ruled",
    doc="The way past an island, or between a run and the wall across from it, is narrower than a "
    "rule asks for. Between two runs it is an aisle.",
    why="Nobody passes with a tray, or in a wheelchair.",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72
      wall east  length 58
      wall south length 72
    }
    rule_pack trial { limit walkway least 36 }
    run sink_wall on north from left length 30 {
      space 2
      S1: open_base share
    }
    """,
    good={"length 58": "length 60"},
)
def walkway(site: Site) -> Iterator[Measured]:
    for run, row in site.rows:
        if run.island:
            continue
        found = [way for each in row if (way := _before_a_wall(site, each)) is not None]
        if found:
            narrowest = min(found, key=lambda way: way.value)
            yield narrowest
    worked = {run.wall for run, row in site.rows if run.island and any(map(_has_fronts, row))}
    for island in site.job.room.islands:
        for facing in SIDES:
            way = _past(site, island, facing, f"{island.name} {facing}" in worked)
            if way is not None:
                yield way


def _before_a_wall(site: Site, standing: Standing) -> Measured | None:
    """The way between a thing's front and a wall across from it, with nothing between."""
    line = plan_line(standing)
    if line is None or standing.low > 0 or standing.placed.kind == "space":
        return None
    low, high = (standing.left, standing.depth), (standing.right, standing.depth + FAR)
    nearest = _nearest(site, line, low, high, standing.run.direction)
    if nearest is None or nearest[1].kind != "wall":
        return None
    words = f"way between {standing.name} and {nearest[1].name}"
    return Measured(nearest[0] - standing.depth, words, standing.line, (standing,))


def _past(site: Site, island: Island, facing: str, worked: bool) -> Measured | None:
    """The way past a side of an island; none where fronts look over it at what stands across."""
    side = side_line(island, facing, None, literal(site.job.precision.value))
    line = Line(side.origin, side.direction)
    low, high = (Fraction(0), Fraction(0)), (side.length.value, FAR)
    nearest = _nearest(site, line, low, high, side.direction, island.name)
    if nearest is None or nearest[0] <= 0 or (worked and nearest[1].kind == "thing"):
        return None
    words = f"way between the {facing} of {island.name} and {nearest[1].name}"
    return Measured(nearest[0], words, first_line(island.span))


def _nearest(
    site: Site, line: Line, low: Point, high: Point, along: Direction, island: str = ""
) -> tuple[Fraction, Fixed] | None:
    """What stands on the floor nearest before an edge, and how far out on its line that is."""
    strip = rectangle(low, high)
    found: tuple[Fraction, Fixed] | None = None
    for fixed in site.once(fixed_grid).near(around(line, strip)):
        if fixed.up[0] > 0 or fixed.part is not None or fixed.kind == "casing":
            continue
        if fixed.kind == "wall" and not _faces(site, fixed, along):
            continue
        if fixed.standing is not None and island and fixed.standing.run.island == island:
            continue
        shared = common(strip, line.here(fixed.outline))
        if shared:
            out = min(point[1] for point in shared)
            if found is None or out < found[0]:
                found = (out, fixed)
    return found


def _faces(site: Site, fixed: Fixed, along: Direction) -> bool:
    """Whether a wall lies across from an edge, not beside it."""
    for wall in site.job.room.walls:
        if fixed.name == f"the {wall.name} wall":
            return wall.direction[0] * along[0] + wall.direction[1] * along[1] <= FACING
    return False


def _has_fronts(standing: Standing) -> bool:
    unit = standing.unit
    return unit is None or any(part.role == "front" for part in unit.parts)
