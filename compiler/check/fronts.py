"""Fronts: gaps, lines, and room for what is put inside."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.mends import moved_by
from casewright.compiler.check.site import Site, Standing, assemblies, length, parts
from casewright.compiler.model import Assembly, Part, Unit
from casewright.lang.findings import Edit, Severity

HUNG = "wall_unit"


def fronts(unit: Unit) -> tuple[Part | Assembly, ...]:
    """What closes the unit's openings: slabs and built fronts."""
    return (*assemblies(unit, "front"), *parts(unit, "front"))


def _ranges(standing: Standing) -> list[tuple[Fraction, Fraction, Fraction, Fraction]]:
    """Left, right, bottom and top of each front, on the wall."""
    found = []
    for front in fronts(standing.unit) if standing.unit is not None else ():
        box = front.extents.box
        found.append(
            (
                standing.left + box.across[0],
                standing.left + box.across[1],
                standing.low + box.up[0],
                standing.low + box.up[1],
            )
        )
    return found


def _neighbours(site: Site) -> Iterator[tuple[Standing, Standing]]:
    for _, row in site.rows:
        for left, right in pairwise(row):
            if left.unit is not None and right.unit is not None and left.right == right.left:
                yield left, right


def _least_gap(left: Standing, right: Standing) -> Fraction | None:
    """The least gap between fronts of two neighbours that lie at one height."""
    gaps = [
        second[0] - first[1]
        for first in _ranges(left)
        for second in _ranges(right)
        if first[2] < second[3] and second[2] < first[3]
    ]
    return min(gaps, default=None)


@check(
    "fronts-overlap",
    Severity.ERROR,
    doc="The fronts of two neighbours lie over one another.",
    why="Neither can be hung as drawn.",
    mend="Give both the same gaps at their ends, or set a filler between them.",
    source="arithmetic",
    bad="""
    use plain_room
    run sink_wall on north from left length 44 {
      space 2
      S1: door_base 20  hung left   front_gap 1/8 - 3/8
      S2: door_base 20  hung right
      space 2
    }
    """,
    good={"left   front_gap 1/8 - 3/8": "left"},
)
def fronts_overlap(site: Site) -> Iterator[Report]:
    for left, right in _neighbours(site):
        gap = _least_gap(left, right)
        if gap is not None and gap < 0:
            yield Report(
                f"the fronts of {left.name} and {right.name} lie {site.say(-gap)} over one another",
                right.line,
                (right,),
                help="give both the same gap at their ends",
                and_of=(left,),
            )


@check(
    "fronts-too-close",
    Severity.WARNING,
    doc="The gap between the fronts of two neighbours is less than the shop's least.",
    why="The first damp week closes it, and the fronts rub.",
    mend="Make the gap at the ends of both units wider.",
    source="common practice",
    bad="""
    use plain_room
    run sink_wall on north from left length 44 {
      space 2
      S1: door_base 20  hung left   front_gap 1/32
      S2: door_base 20  hung right  front_gap 1/32
      space 2
    }
    """,
    good={
        "left   front_gap 1/32": "left   front_gap 1/8",
        "right  front_gap 1/32": "right  front_gap 1/8",
    },
)
def fronts_too_close(site: Site) -> Iterator[Report]:
    least = site.allowance("front_gap_least")
    for left, right in _neighbours(site) if least is not None else ():
        gap = _least_gap(left, right)
        if least is not None and gap is not None and 0 <= gap < least.value:
            yield Report(
                f"only {site.say(gap)} is left between the fronts of {left.name} and {right.name}",
                right.line,
                (right,),
                (
                    length("least gap", least.value),
                    length("is", gap, right.line),
                    length("short", least.value - gap, ruled=True),
                ),
                help="make the gap at the ends of both units wider",
                edits=_wider(site, left, right, least.value - gap),
                and_of=(left,),
            )


def _wider(site: Site, left: Standing, right: Standing, by: Fraction) -> tuple[Edit, ...]:
    """Half of what is short to each of two neighbours that both say their gap, else all of it to
    the one that does. Only where one front of each reaches to the other's."""
    ends = [
        max(fronts(left.unit), key=lambda each: each.extents.across.high.value).extents.across.high
        if left.unit is not None
        else None,
        min(fronts(right.unit), key=lambda each: each.extents.across.low.value).extents.across.low
        if right.unit is not None
        else None,
    ]
    first, second = ends
    if first is None or second is None:
        return ()
    half = site.up_to_step(by / 2)
    one, other = moved_by(site, left, first, -half), moved_by(site, right, second, half)
    if one and other:
        return (*one, *other)
    return moved_by(site, right, second, by) or moved_by(site, left, first, -by)


@check(
    "fronts-nearly-in-line",
    Severity.WARNING,
    doc="The fronts of two neighbours miss one line by a little.",
    why="A joint that jumps by so little along a run looks like a mistake.",
    mend="Size both by their fronts, or make the step one that is meant.",
    source="common practice",
    bad="""
    use plain_room
    run sink_wall on north from left length 44 {
      space 2
      S1: drawer_base 20
      S2: drawer_base 20 {
        stack {
          drawer share
          drawer 9 1/2
          drawer share
        }
      }
      space 2
    }
    """,
    good={"9 1/2": "6"},
)
def fronts_nearly_in_line(site: Site) -> Iterator[Report]:
    within = site.allowance("line_up_within")
    for left, right in _neighbours(site) if within is not None else ():
        if "filler" in (left.placed.kind, right.placed.kind) or within is None:
            continue
        found = _nearly(left, right, within.value)
        if found is None:
            continue
        first, second = found
        # Units that are themselves out of line have a report of their own.
        if first - second == left.high - right.high != 0:
            continue
        yield Report(
            f"the fronts of {left.name} and {right.name} are {site.say(abs(first - second))} out "
            "of line",
            right.line,
            (right,),
            (
                length(f"a front of {left.name} ends at", first, left.line),
                length(f"one of {right.name} at", second, right.line),
                length("out of line by", abs(first - second), ruled=True),
            ),
            help="size both by their fronts",
            and_of=(left,),
        )


def _nearly(left: Standing, right: Standing, within: Fraction) -> tuple[Fraction, Fraction] | None:
    """The first two tops, or two bottoms, of fronts that are less than `within` apart."""
    for index in (3, 2):
        lines = sorted({front[index] for front in _ranges(left)})
        for front in _ranges(right):
            own = front[index]
            if own in lines:
                continue
            near = min(lines, key=lambda line: abs(line - own), default=None)
            if near is not None and abs(near - own) <= within:
                return near, own
    return None


@check(
    "front-past-its-wall",
    Severity.ERROR,
    doc="A front reaches past the end of the wall its unit stands on.",
    why="There is the next wall.",
    mend="Set a filler between the unit and the wall.",
    source="arithmetic",
    bad="""
    use plain_room
    run sink_wall on north from left {
      S1: door_base 20  hung left  side_gap 1/16 - 1/8
      space share
    }
    """,
    good="""
    use plain_room
    run sink_wall on north from left {
      filler 2
      S1: door_base 20  hung left
      space share
    }
    """,
)
def front_past_wall(site: Site) -> Iterator[Report]:
    for standing in site.standings:
        wall = site.walls.get(standing.run.wall)
        ranges = _ranges(standing) if wall is not None else []
        if wall is None or not ranges:
            continue
        over = max(
            -min(each[0] for each in ranges), max(each[1] for each in ranges) - wall.length.value
        )
        if over > 0:
            yield Report(
                f"a front of {standing.name} reaches {site.say(over)} past the end of its wall",
                standing.line,
                (standing,),
                help="set a filler between it and the wall",
            )


@check(
    "too-shallow-for-plates",
    Severity.ADVICE,
    doc="A unit on the wall is too shallow inside for a dinner plate.",
    why="Its doors won't close on the plates.",
    mend="Make it deeper, or give it a thinner back.",
    source="common practice: 12 less a recess of 1/2 and a back of 1/4 leaves 11 1/4",
    bad="""
    use plain_room
    run uppers on north from left length 26 {
      filler 2
      U1: wall_unit share  hung left  shelves 1  depth 12
      filler 2
    }
    """,
    good={"depth 12": "depth 13"},
)
def too_shallow(site: Site) -> Iterator[Report]:
    plate = site.allowance("plate")
    shallow: dict[Fraction, list[Standing]] = {}
    for unit, standings in site.units if plate is not None else ():
        backs = [part.box.deep[0] for part in parts(unit, "back") if not unit.mouths]
        # What has no shelf stands over a hood or a refrigerator; nobody puts plates there.
        shelved = any(parts(unit, "shelf"))
        if unit.role != HUNG or not shelved or not backs or plate is None:
            continue
        if min(backs) < plate.value:
            shallow.setdefault(min(backs), []).extend(standings)
    for clear, found in shallow.items():
        if plate is not None:
            yield Report(
                f"only {site.say(clear)} is clear inside for plates",
                None,
                tuple(found),
                (
                    length("a plate wants", plate.value),
                    length("clear, front to back", clear),
                    length("short", plate.value - clear, ruled=True),
                ),
                help=f"make it {site.say(plate.value - clear)} deeper",
                edits=tuple(
                    edit
                    for each in found
                    for edit in site.own_edit(
                        each, each.placed.depth, each.depth + plate.value - clear
                    )
                ),
            )
