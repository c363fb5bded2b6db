"""Fillers against walls: what they are scribed for, and where one is missing."""

from collections.abc import Iterator
from fractions import Fraction

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.meetings import fixed_grid, overlap, stopped_by_wall
from casewright.compiler.check.plan import rectangle, shares
from casewright.compiler.check.site import (
    Site,
    Standing,
    corner_at,
    figure,
    length,
    stands_at_end,
)
from casewright.compiler.check.sweeps import around, line_of
from casewright.compiler.model import Assembly, Part, Unit
from casewright.compiler.rooms.angles import direction
from casewright.lang.findings import Severity

STRAIGHT = Fraction(1, 16)
"""Out of square by so much, a unit still stands against a wall without a filler."""
BEFORE = Fraction(2)
"""How near before a unit's end the run around the corner begins, where it hides that end."""


@check(
    "scribe-too-narrow",
    Severity.ERROR,
    doc=(
        "The wall at a run's end leaves the square by more, over the depth of what stands there, "
        "than the filler between them can be scribed for."
    ),
    why="The filler would be planed away before it fits, or leave an open wedge.",
    mend="Make the filler at least as wide as the report says.",
    source="arithmetic: depth x cotangent of the corner's angle",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall west  length 60
      wall north length 72
      corner west north 92deg
    }
    run sink_wall on north from left length 24 {
      filler 1/2 scribe
      S1: open_base share
    }
    """,
    good={"filler 1/2": "filler 1 1/2"},
    of_outlines=True,
)
def scribe_too_narrow(site: Site) -> Iterator[Report]:
    least = site.allowance("scribe_least")
    for run, row in site.rows:
        wall = site.walls.get(run.wall)
        if wall is None or not row or least is None:
            continue
        for end, first in (("left", row[0]), ("right", row[-1])):
            degrees = corner_at(site, wall, end)
            if degrees is None or degrees == 90 or first.placed.kind == "space":
                continue
            if _turns(first, end) or _is_behind(site, first, end):
                continue
            yield from _scribe(site, first, row, degrees, end, wall.length.value)


def _turns(standing: Standing, end: str) -> bool:
    """Whether a corner unit goes around the corner at this end: its back is what stands there."""
    return standing.placed.returns is not None and standing.placed.returns.end == end


def _is_behind(site: Site, standing: Standing, end: str) -> bool:
    """Whether a thing of the run around the corner stands before this end: it is blind there, and
    what lies between it and the wall is never seen."""
    line = line_of(standing)
    if standing.placed.kind != "unit" or line is None:
        return False
    at = standing.left if end == "left" else standing.right
    low, high = (at, at + BEFORE) if end == "left" else (at - BEFORE, at)
    before = rectangle((low, standing.depth), (high, standing.depth + BEFORE))
    return any(
        fixed.kind == "thing"
        and fixed.part is None
        and fixed.standing is not None
        and fixed.standing.run is not standing.run
        and overlap((standing.low, standing.high), fixed.up)
        and shares(before, line.here(fixed.outline))
        for fixed in site.once(fixed_grid).near(around(line, before))
    )


def _scribe(
    site: Site,
    first: Standing,
    row: tuple[Standing, ...],
    degrees: Fraction,
    end: str,
    long: Fraction,
) -> Iterator[Report]:
    cosine, sine = direction(degrees)
    if sine <= 0:
        return
    filler = first.placed.kind == "filler"
    beside = (row[1] if end == "left" else row[-2]) if filler and len(row) > 1 else first
    off = abs(beside.depth * cosine / sine)
    from_wall = first.left if end == "left" else long - first.right
    has = first.placed.width.value if filler else Fraction(0)
    if from_wall > off or off <= (has if filler else STRAIGHT):
        return
    least = site.allowance("scribe_least")
    wanted = site.up_to_step(max(off, least.value if least is not None else off))
    yield Report(
        f"the wall beside {first.name} is {site.say(off)} out of square over its depth",
        first.line,
        (first,),
        (
            figure("depth", beside.placed.depth),
            length("out of square over it", off),
            length("the filler has", has, first.line),
            length("short", off - has, ruled=True),
        ),
        help=f"make the filler {site.say(wanted)}"
        if filler
        else f"add a filler of {site.say(wanted)}",
        edits=site.edit(first.placed.width, wanted) if filler else (),
    )


@check(
    "no-scribe-at-wall",
    Severity.ADVICE,
    doc="A unit with a door or a drawer stands right against a wall.",
    why=("No wall is straight: its door or drawer will scrape, and nothing is left to be scribed."),
    mend="Put a `filler` between it and the wall.",
    source="common practice",
    bad="""
    use plain_room
    run sink_wall on north from left {
      S1: drawer_base 20
      space share
    }
    """,
    good="""
    use plain_room
    run sink_wall on north from left {
      filler 1
      S1: drawer_base 20
      space share
    }
    """,
)
def no_scribe_at_wall(site: Site) -> Iterator[Report]:
    least = site.allowance("scribe_least")
    for run, row in site.rows:
        wall = site.walls.get(run.wall)
        if wall is None or not row or least is None:
            continue
        for end, first, touches in (
            ("left", row[0], stands_at_end(site, row[0], wall, "left")),
            ("right", row[-1], stands_at_end(site, row[-1], wall, "right")),
        ):
            unit = first.unit
            if not touches or unit is None or first.placed.kind != "unit" or _turns(first, end):
                continue
            # A front past the wall's end, or a door that meets it, is the same cause told better.
            if first.placed.span in site.clashing:
                continue
            if id(first) in site.once(stopped_by_wall) or _past(first, wall.length.value):
                continue
            if _moves(unit) and not _is_behind(site, first, end):
                yield Report(
                    f"{first.name} stands right against the wall",
                    first.line,
                    (first,),
                    help=f"put a filler of {site.say(least.value)} or more between",
                )


def _past(standing: Standing, end: Fraction) -> bool:
    """Whether a part reaches past the wall, which has a report of its own."""
    return standing.unit is not None and any(
        standing.left + part.box.across[0] < 0 or standing.left + part.box.across[1] > end
        for part in standing.unit.parts
    )


def _moves(unit: Unit) -> bool:
    moving: tuple[Part | Assembly, ...] = (*unit.parts, *unit.assemblies)
    return any(each.motion is not None for each in moving)
