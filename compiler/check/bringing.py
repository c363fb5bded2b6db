"""Whether it can be brought in and stood up."""

from collections.abc import Iterator
from fractions import Fraction

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.site import (
    Site,
    Standing,
    assemblies,
    figure,
    length,
)
from casewright.compiler.model import Feature, Unit
from casewright.compiler.rooms.angles import root
from casewright.lang.findings import Edit, Severity


def box_of(unit: Unit) -> tuple[Fraction, Fraction, Fraction]:
    """Width, height and depth of what is carried in: the box without what it stands on."""
    box = next(iter(assemblies(unit, "box")), None)
    if box is None:
        return unit.width.value, unit.height.value, unit.depth.value
    extents = box.extents.box
    depth = unit.depth.value if not unit.mouths else extents.size("deep")
    return unit.width.value, extents.size("up"), depth


@check(
    "cannot-stand-up",
    Severity.ERROR,
    doc=(
        "A unit built lying down can't be stood up in the room: its diagonal doesn't pass under "
        "the ceiling."
    ),
    why="It is found out when it lies on the kitchen's floor.",
    mend="Make the unit lower or shallower, stand it on a base of its own, or build it in two.",
    source="geometry: the diagonal of height and of depth or width, whichever is less",
    bad="""
    use plain_room
    run tall on north from left length 28 {
      space 2
      T1: tall_unit 24  hung left  hinges 5  high 95  toe_up 0
      space 2
    }
    """,
    good={"high 95": "high 92"},
)
def cannot_stand_up(site: Site) -> Iterator[Report]:
    ceiling, clear = site.job.room.ceiling, site.allowance("stand_clear")
    if ceiling.value <= 0 or clear is None:
        return
    free = ceiling.value - clear.value
    for unit, standings in site.units:
        width, high, depth = box_of(unit)
        across = min(width, depth)
        if high * high + across * across <= free * free or high > free:
            continue
        diagonal = root(high * high + across * across)
        yield Report(
            f"it can't be stood up: its diagonal is {site.say(diagonal - free)} too long for the "
            "ceiling",
            None,
            standings,
            (
                length("height of the box", high),
                length("tipped over its", across, note="depth" if across == depth else "width"),
                length("diagonal", diagonal, ruled=True),
                figure("ceiling", ceiling),
                figure("less what is kept clear", clear),
                length("too long", diagonal - free, ruled=True),
            ),
            help="make it lower, stand it on a base of its own, or build it in two",
            edits=_lower(site, standings, high, root(free * free - across * across)),
        )


def _lower(
    site: Site, standings: tuple[Standing, ...], high: Fraction, most: Fraction
) -> tuple[Edit, ...]:
    """Writes the greatest height at which a unit stands up, where only one is so placed."""
    if len(standings) > 1:
        return ()
    (standing,) = standings
    lower = site.down_to_step(standing.placed.height.value - (high - most))
    return site.own_edit(standing, standing.placed.height, lower)


@check(
    "doorway-too-small",
    Severity.ERROR,
    doc="A unit passes no doorway of the room, whichever way it is turned.",
    why="It stands in the yard.",
    mend="Build it in two, or take the doorway's frame out.",
    source="arithmetic: the two lesser sides of its box against the doorway, less a hand's room",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72
      wall east  length 72 {
        doorway at 20 wide 28 up 0 high 80
      }
    }
    run tall on north from left length 40 {
      space 2
      T1: tall_unit 36  hung left  hinges 5  depth 30
      space 2
    }
    """,
    good={"wide 28": "wide 32"},
)
def doorway_too_small(site: Site) -> Iterator[Report]:
    doorways = [
        feature
        for wall in site.job.room.walls
        for feature in wall.features
        if feature.kind == "doorway"
    ]
    clear = site.allowance("doorway_clear")
    for unit, standings in site.units if doorways and clear is not None else ():
        if unit.role == "filler" or clear is None:
            continue
        narrow, wide, _ = sorted(box_of(unit))
        if any(_passes(narrow, wide, doorway, clear.value) for doorway in doorways):
            continue
        best = max(doorways, key=lambda each: each.wide.value)
        yield Report(
            "it passes no doorway of the room, whichever way it is turned",
            None,
            standings,
            (
                length("its least side", narrow),
                length("its next", wide),
                figure(f"{best.name} wide", best.wide),
                figure(f"{best.name} high", best.high),
                figure("kept clear", clear),
            ),
            help="build it in two, or measure the way again without the door",
        )


def _passes(narrow: Fraction, wide: Fraction, doorway: Feature, clear: Fraction) -> bool:
    opening = sorted((doorway.wide.value - clear, doorway.high.value - clear))
    return narrow <= opening[0] and wide <= opening[1]
