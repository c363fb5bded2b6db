"""What limits of published sources may be put on: every quantity that is measured in a job."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from itertools import combinations, pairwise

from casewright.compiler.check.measured import (
    LOW,
    Measured,
    Quantity,
    carries_counter,
    landings,
    outlets,
    over,
    quantity,
    serving,
    stretches,
    surface,
)
from casewright.compiler.check.site import Site, Standing, assemblies, first_line, line_of, parts
from casewright.compiler.check.sweeps import line_of as plan_line
from casewright.compiler.model import Run
from casewright.compiler.rooms.angles import root
from casewright.compiler.shop.yardstick import COUNT, LENGTH, Kind
from casewright.lang.measure import nearest

HUNG = "wall_unit"

COUNTER_LEAST = Fraction(12)
"""A counter space is one from this width on (NEC 210.52(C)(1), 2002 text)."""

THOUSANDTH = Fraction(1, 1000)
"""What a length is rounded to that comes of a root."""


# -- ways and distances ---------------------------------------------------------------------------


def aisles(site: Site) -> tuple[tuple[Measured, bool], ...]:
    """The passage between each two runs that face one another, at its narrowest, counters and
    pulls left out; and whether a third run closes it. Runs that aren't parallel are left out."""
    rows = [(run, row) for run, row in site.rows if run.origin is not None and row]
    low = [(run, row) for run, row in rows if any(each.low == 0 for each in row)]
    found: list[tuple[Measured, bool]] = []
    for (one, row), (other, others) in combinations(low, 2):
        if one.direction != (-other.direction[0], -other.direction[1]):
            continue
        gap = _gap(row, others)
        if gap is not None and gap > 0:
            closed = any(_joins(third, one) for third, _ in low if third not in (one, other))
            words = f"passage between {one.title} and {other.title}"
            found.append((Measured(gap, words, first_line(other.span)), closed))
    return tuple(found)


def _gap(row: tuple[Standing, ...], others: tuple[Standing, ...]) -> Fraction | None:
    """The least way between the faces of two rows that stand opposite one another."""
    here = plan_line(row[0])
    there = plan_line(others[0])
    if here is None or there is None:
        return None
    gaps: list[Fraction] = []
    for standing in row:
        for other in others:
            if standing.placed.kind == "space" or other.placed.kind == "space":
                continue
            if standing.low > 0 or other.low > 0:
                continue
            corners = here.here(
                tuple(there.place((x, other.depth)) for x in (other.left, other.right))
            )
            low, high = sorted(point[0] for point in corners)
            if low < standing.right and standing.left < high:
                gaps.append(min(point[1] for point in corners) - standing.depth)
    return min(gaps, default=None)


def _joins(third: Run, one: Run) -> bool:
    """Whether a run stands square to another, so that it closes a passage."""
    return third.direction[0] * one.direction[0] + third.direction[1] * one.direction[1] == 0


def legs(site: Site) -> tuple[tuple[Standing, Standing, Fraction], ...]:
    """The ways between the middles of the fronts of the first sink, cooking surface and
    refrigerator, straight in plan, to a thousandth."""
    centres = []
    for role in ("sink", "cooking", "cold"):
        standing = next(serving(site, role), None)
        line = plan_line(standing) if standing is not None else None
        if standing is not None and line is not None:
            middle = (standing.left + standing.right) / 2
            centres.append((standing, line.place((middle, standing.depth))))
    found = []
    for (one, a), (other, b) in combinations(centres, 2):
        square = (a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2
        found.append((one, other, nearest(root(square), THOUSANDTH)))
    return tuple(found)


# -- quantities -----------------------------------------------------------------------------------


@quantity(
    "counter_height",
    LENGTH,
    "counter-height-ruled",
    doc="The counter is higher or lower than a rule allows.",
    why="Whoever works at it, seated or standing, can't.",
    bad="""
    use plain_room
    rule_pack trial { limit counter_height most 34 }
    run sink_wall on north from left length 24 {
      S1: open_base 24
    }
    """,
    good="""
    use plain_room
    rule_pack trial { limit counter_height most 36 }
    run sink_wall on north from left length 24 {
      S1: open_base 24
    }
    """,
)
def counter_height(site: Site) -> Iterator[Measured]:
    counter = site.job.room.counter
    if counter.value > 0:
        yield Measured(counter.value, "counter above the floor", line_of(counter))


@quantity(
    "depth_under_counter",
    LENGTH,
    "base-depth-ruled",
    doc="A base unit is deeper or shallower than a rule allows.",
    why="The counter over it is too shallow to work on.",
    bad="""
    use plain_room
    rule_pack trial { limit depth_under_counter least 24 }
    run sink_wall on north from left length 24 {
      S1: open_base 24
    }
    """,
    good="""
    use plain_room
    rule_pack trial { limit depth_under_counter least 23 }
    run sink_wall on north from left length 24 {
      S1: open_base 24
    }
    """,
)
def depth_under_counter(site: Site) -> Iterator[Measured]:
    for standing in site.standings:
        if standing.role == LOW and standing.placed.kind == "unit":
            words = f"depth of {standing.name}"
            yield Measured(standing.depth, words, standing.line, (standing,))


@quantity(
    "uppers_over_counter",
    LENGTH,
    "uppers-over-counter-ruled",
    doc="A unit on the wall hangs nearer over the counter than a rule allows, or farther.",
    why="A mixer doesn't stand under it, or nobody reaches into it.",
    bad="""
    use plain_room
    rule_pack trial { limit uppers_over_counter least 15 }
    run uppers on north from left length 32 up 50 {
      filler 2
      U1: wall_unit share  high 18  hung left
    }
    run sink_wall on north from left length 32 {
      S1: open_base share
    }
    """,
    good="""
    use plain_room
    rule_pack trial { limit uppers_over_counter least 15 }
    run uppers on north from left length 32 up 51 {
      filler 2
      U1: wall_unit share  high 18  hung left
    }
    run sink_wall on north from left length 32 {
      S1: open_base share
    }
    """,
)
def uppers_over_counter(site: Site) -> Iterator[Measured]:
    counter = site.job.room.counter.value
    for standing in site.standings:
        low = standing.role == LOW and not {"sink", "cooking"} & set(standing.stands.serves)
        for other in over(site, standing) if low and counter > 0 else ():
            words = f"from the counter up to {other.name}"
            yield Measured(other.low - counter, words, other.line, (other,))


@quantity(
    "uppers_over_sink",
    LENGTH,
    "uppers-over-sink-ruled",
    doc="A unit hangs nearer over a sink than a rule allows.",
    why="Heads and tall pots.",
    bad="""
    use plain_room
    rule_pack trial { limit uppers_over_sink least 24 }
    run uppers on north from left length 32 up 58 {
      filler 2
      U1: wall_unit share  high 18  hung left
    }
    run sink_wall on north from left length 34 {
      filler 2
      S1: sink_base share  hung left
    }
    """,
    good="""
    use plain_room
    rule_pack trial { limit uppers_over_sink least 24 }
    run uppers on north from left length 32 up 60 {
      filler 2
      U1: wall_unit share  high 18  hung left
    }
    run sink_wall on north from left length 34 {
      filler 2
      S1: sink_base share  hung left
    }
    """,
)
def uppers_over_sink(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "sink"):
        for other in over(site, standing):
            words = f"from {standing.name} up to {other.name}"
            yield Measured(other.low - surface(site, standing), words, other.line, (other,))


@quantity(
    "over_cooking",
    LENGTH,
    "over-cooking-ruled",
    doc="Something hangs nearer over a cooking surface than a rule allows.",
    why="It burns.",
    bad="""
    use plain_room
    rule_pack trial { limit over_cooking least 30  basis code }
    appliance range { wide 30  high 36  depth 24  serves cooking  confirmed  handle 2 }
    run cooks on north from left length 34 {
      space 2
      C1: range 30
      space 2
    }
    run uppers on north from left length 34 up 65 {
      filler 2
      U1: wall_unit 30  high 18  hung left
      filler 2
    }
    """,
    good="""
    use plain_room
    rule_pack trial { limit over_cooking least 30  basis code }
    appliance range { wide 30  high 36  depth 24  serves cooking  confirmed  handle 2 }
    run cooks on north from left length 34 {
      space 2
      C1: range 30
      space 2
    }
    run uppers on north from left length 34 up 66 {
      filler 2
      U1: wall_unit 30  high 18  hung left
      filler 2
    }
    """,
)
def over_cooking(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "cooking"):
        for other in over(site, standing):
            if "hood" not in other.stands.serves:
                words = f"from {standing.name} up to {other.name}"
                yield Measured(other.low - surface(site, standing), words, other.line, (other,))


@quantity(
    "windows_over_cooking",
    COUNT,
    "window-over-cooking-ruled",
    doc="A window lies behind a cooking surface.",
    why="Who opens it reaches over the flames, and a curtain catches fire.",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        window at 10 wide 20 up 42 high 30
      }
    }
    rule_pack trial { limit windows_over_cooking most 0 }
    appliance range { wide 30  high 36  depth 24  serves cooking  confirmed  handle 2 }
    run cooks on north from left length 34 {
      space 2
      C1: range 30
      space 2
    }
    """,
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        window at 40 wide 20 up 42 high 30
      }
    }
    rule_pack trial { limit windows_over_cooking most 0 }
    appliance range { wide 30  high 36  depth 24  serves cooking  confirmed  handle 2 }
    run cooks on north from left length 34 {
      space 2
      C1: range 30
      space 2
    }
    """,
)
def windows_over_cooking(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "cooking"):
        wall = site.walls.get(standing.run.wall)
        behind = [
            feature
            for feature in (wall.features if wall is not None else ())
            if feature.kind == "window"
            and feature.at.value < standing.right
            and standing.left < feature.at.value + feature.wide.value
        ]
        words = f"windows behind {standing.name}"
        yield Measured(Fraction(len(behind)), words, standing.line, (standing,))


@quantity(
    "sink_landing_wide",
    LENGTH,
    "sink-landing-ruled",
    doc="The larger free counter beside a sink is shorter than a rule asks for.",
    why="There is nowhere to put what is to be washed.",
    bad="""
    use plain_room
    rule_pack trial { limit sink_landing_wide least 24 }
    run sink_wall on north from left {
      S1: open_base 20
      S2: sink_base 30  hung left
      S3: open_base share
    }
    """,
    good="""
    use plain_room
    rule_pack trial { limit sink_landing_wide least 24 }
    run sink_wall on north from left {
      S1: open_base 18
      S2: sink_base 30  hung left
      S3: open_base share
    }
    """,
)
def sink_landing_wide(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "sink"):
        words = f"free counter on the better side of {standing.name}"
        yield Measured(max(landings(site, standing)), words, standing.line, (standing,))


@quantity(
    "sink_landing_narrow",
    LENGTH,
    "sink-other-landing-ruled",
    doc="The smaller free counter beside a sink is shorter than a rule asks for.",
    why="There is nowhere to put what is washed.",
    bad="""
    use plain_room
    rule_pack trial { limit sink_landing_narrow least 18 }
    run sink_wall on north from left {
      S1: open_base 16
      S2: sink_base 30  hung left
      S3: open_base share
    }
    """,
    good="""
    use plain_room
    rule_pack trial { limit sink_landing_narrow least 18 }
    run sink_wall on north from left {
      S1: open_base 18
      S2: sink_base 30  hung left
      S3: open_base share
    }
    """,
)
def sink_landing_narrow(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "sink"):
        words = f"free counter on the other side of {standing.name}"
        yield Measured(min(landings(site, standing)), words, standing.line, (standing,))


@quantity(
    "cooking_landing_wide",
    LENGTH,
    "cooking-landing-ruled",
    doc="The larger free counter beside a cooking surface is shorter than a rule asks for.",
    why="A hot pan has nowhere to go.",
    bad="""
    use plain_room
    rule_pack trial { limit cooking_landing_wide least 30 }
    appliance range { wide 30  high 36  depth 24  serves cooking  confirmed  handle 2 }
    run cooks on north from left {
      S1: open_base 16
      C1: range 30
      S3: open_base share
    }
    """,
    good="""
    use plain_room
    rule_pack trial { limit cooking_landing_wide least 15 }
    appliance range { wide 30  high 36  depth 24  serves cooking  confirmed  handle 2 }
    run cooks on north from left {
      S1: open_base 16
      C1: range 30
      S3: open_base share
    }
    """,
)
def cooking_landing_wide(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "cooking"):
        words = f"free counter on the better side of {standing.name}"
        yield Measured(max(landings(site, standing)), words, standing.line, (standing,))


@quantity(
    "cooking_landing_narrow",
    LENGTH,
    "cooking-other-landing-ruled",
    doc="The smaller free counter beside a cooking surface is shorter than a rule asks for.",
    why="Handles stick out into the room.",
    bad="""
    use plain_room
    rule_pack trial { limit cooking_landing_narrow least 12 }
    appliance range { wide 30  high 36  depth 24  serves cooking  confirmed  handle 2 }
    run cooks on north from left {
      S1: open_base 11
      C1: range 30
      S3: open_base share
    }
    """,
    good="""
    use plain_room
    rule_pack trial { limit cooking_landing_narrow least 12 }
    appliance range { wide 30  high 36  depth 24  serves cooking  confirmed  handle 2 }
    run cooks on north from left {
      S1: open_base 14
      C1: range 30
      S3: open_base share
    }
    """,
)
def cooking_landing_narrow(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "cooking"):
        words = f"free counter on the other side of {standing.name}"
        yield Measured(min(landings(site, standing)), words, standing.line, (standing,))


@quantity(
    "cold_landing",
    LENGTH,
    "cold-landing-ruled",
    doc="Free counter beside a refrigerator is shorter than a rule asks for.",
    why="Its door is held with a knee while hands are full.",
    bad="""
    use plain_room
    rule_pack trial { limit cold_landing least 30 }
    appliance fridge { wide 30  high 70  depth 24  serves cold  confirmed  handle 2 }
    run cooks on north from left {
      S1: open_base 16
      C1: fridge 30
      S3: open_base share
    }
    """,
    good="""
    use plain_room
    rule_pack trial { limit cold_landing least 15 }
    appliance fridge { wide 30  high 70  depth 24  serves cold  confirmed  handle 2 }
    run cooks on north from left {
      S1: open_base 16
      C1: fridge 30
      S3: open_base share
    }
    """,
)
def cold_landing(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "cold"):
        words = f"free counter beside {standing.name}"
        yield Measured(max(landings(site, standing)), words, standing.line, (standing,))


@quantity(
    "dishwasher_to_sink",
    LENGTH,
    "dishwasher-far-from-sink",
    doc="A dishwasher stands farther from the sink than a rule allows.",
    why="Rinsed plates drip on the floor between.",
    bad="""
    use plain_room
    rule_pack trial { limit dishwasher_to_sink most 20 }
    run sink_wall on north from left {
      filler 2
      S1: sink_base 24  hung left
      S2: open_base 24
      S3: dishwasher 10  confirmed
      space share
    }
    """,
    good="""
    use plain_room
    rule_pack trial { limit dishwasher_to_sink most 36 }
    run sink_wall on north from left {
      filler 2
      S1: sink_base 24  hung left
      S2: open_base 24
      S3: dishwasher 10  confirmed
      space share
    }
    """,
)
def dishwasher_to_sink(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "dishes"):
        gaps = [
            max(sink.left - standing.right, standing.left - sink.right)
            for sink in serving(site, "sink")
            if sink.run is standing.run
        ]
        if gaps:
            words = f"from {standing.name} to the sink"
            yield Measured(max(Fraction(0), min(gaps)), words, standing.line, (standing,))


@quantity(
    "sink_to_corner",
    LENGTH,
    "sink-near-corner-ruled",
    doc="A sink stands nearer the corner than a rule allows.",
    why="Whoever washes up stands with an elbow to the wall.",
    bad="""
    use plain_room
    rule_pack trial { limit sink_to_corner least 3 }
    run sink_wall on north from left length 40 {
      filler 2
      S1: sink_base 30  hung right
      space share
    }
    """,
    good="""
    use plain_room
    rule_pack trial { limit sink_to_corner least 3 }
    run sink_wall on north from left length 40 {
      filler 3
      S1: sink_base 30  hung right
      space share
    }
    """,
)
def sink_to_corner(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "sink"):
        wall = site.walls.get(standing.run.wall)
        if wall is not None:
            near = min(standing.left, wall.length.value - standing.right)
            yield Measured(near, f"from {standing.name} to the corner", standing.line, (standing,))


@quantity(
    "frontage",
    LENGTH,
    "frontage-ruled",
    doc="The counters together are shorter than a rule asks for.",
    why="There isn't room to cook for as many as live there.",
    bad="""
    use plain_room
    rule_pack trial { limit frontage least 158 }
    run sink_wall on north from left {
      S1: open_base 18
      S2: sink_base 30  hung left
      S3: open_base share
    }
    """,
    good="""
    use plain_room
    rule_pack trial { limit frontage least 40 }
    run sink_wall on north from left {
      S1: open_base 18
      S2: sink_base 30  hung left
      S3: open_base share
    }
    """,
)
def frontage(site: Site) -> Iterator[Measured]:
    total = sum((to - at for _, at, to, _ in stretches(site)), Fraction(0))
    if total:
        runs = [run for run, row in site.rows if any(carries_counter(each) for each in row)]
        yield Measured(total, "counter, all together", first_line(runs[0].span))


@quantity(
    "outlet_reach",
    LENGTH,
    "outlet-far-ruled",
    doc="A place on the wall over a counter is farther from an outlet than a rule allows.",
    why="Cords are drawn across the sink or the cooktop.",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        outlet at 20 up 44
      }
    }
    rule_pack trial { limit outlet_reach most 24  basis code }
    run sink_wall on north from left {
      S1: open_base share
      S2: open_base share
    }
    """,
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        outlet at 36 up 44
      }
    }
    rule_pack trial { limit outlet_reach most 36  basis code }
    run sink_wall on north from left {
      S1: open_base share
      S2: open_base share
    }
    """,
)
def outlet_reach(site: Site) -> Iterator[Measured]:
    for wall, at, to, standings in stretches(site):
        if to - at < COUNTER_LEAST:
            continue
        places = sorted(each.at.value for each in outlets(site, wall) if at <= each.at.value <= to)
        far = to - at
        if places:
            between = [(b - a) / 2 for a, b in pairwise(places)]
            far = max(places[0] - at, to - places[-1], *between)
        words = f"along the wall from an outlet, over {standings[0].name}"
        if len(standings) > 1:
            words += f" to {standings[-1].name}"
        yield Measured(far, words, standings[0].line, standings[:1])


@quantity(
    "outlet_over_counter",
    LENGTH,
    "outlet-height-ruled",
    doc="An outlet lies higher over the counter than a rule allows.",
    why="It serves the counter no more, so another one is asked for.",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        outlet at 36 up 60
      }
    }
    rule_pack trial { limit outlet_over_counter most 20  basis code }
    run sink_wall on north from left {
      S1: open_base share
      S2: open_base share
    }
    """,
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        outlet at 36 up 56
      }
    }
    rule_pack trial { limit outlet_over_counter most 20  basis code }
    run sink_wall on north from left {
      S1: open_base share
      S2: open_base share
    }
    """,
)
def outlet_over_counter(site: Site) -> Iterator[Measured]:
    counter = site.job.room.counter.value
    for wall in site.job.room.walls:
        for outlet in outlets(site, wall.name) if counter > 0 else ():
            yield Measured(
                outlet.up.value - counter, f"{outlet.name} over the counter", outlet.span
            )


@quantity(
    "toe_high",
    LENGTH,
    "toe-height-ruled",
    doc="A toe space is lower than a rule asks for.",
    why="Whoever works there stands back from the counter.",
    bad="""
    use plain_room
    rule_pack trial { limit toe_high least 4 1/2 }
    run sink_wall on north from left length 24 {
      S1: open_base 24
    }
    """,
    good="""
    use plain_room
    rule_pack trial { limit toe_high least 3 }
    run sink_wall on north from left length 24 {
      S1: open_base 24
    }
    """,
)
def toe_high(site: Site) -> Iterator[Measured]:
    for standing in site.standings:
        toe = next(parts(standing.unit, "toe"), None) if standing.unit is not None else None
        if toe is not None:
            words = f"height of the toe space of {standing.name}"
            yield Measured(toe.box.up[1], words, standing.line, (standing,))


@quantity(
    "toe_deep",
    LENGTH,
    "toe-depth-ruled",
    doc="A toe space is less deep than a rule asks for.",
    why="Feet meet the toe's board.",
    bad="""
    use plain_room
    rule_pack trial { limit toe_deep least 4 }
    run sink_wall on north from left length 24 {
      S1: open_base 24
    }
    """,
    good="""
    use plain_room
    rule_pack trial { limit toe_deep least 2 }
    run sink_wall on north from left length 24 {
      S1: open_base 24
    }
    """,
)
def toe_deep(site: Site) -> Iterator[Measured]:
    for standing in site.standings:
        toe = next(parts(standing.unit, "toe"), None) if standing.unit is not None else None
        if toe is not None:
            words = f"depth of the toe space of {standing.name}"
            yield Measured(toe.box.deep[0], words, standing.line, (standing,))


@quantity(
    "doorway_wide",
    LENGTH,
    "doorway-width-ruled",
    doc="A doorway is narrower than a rule asks for.",
    why="A wheelchair, or a tray with elbows, doesn't pass.",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        doorway at 36 wide 30 up 0 high 80
      }
    }
    rule_pack trial { limit doorway_wide least 32 }
    run sink_wall on north from left length 24 {
      S1: open_base 24
    }
    """,
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        doorway at 36 wide 32 up 0 high 80
      }
    }
    rule_pack trial { limit doorway_wide least 32 }
    run sink_wall on north from left length 24 {
      S1: open_base 24
    }
    """,
)
def doorway_wide(site: Site) -> Iterator[Measured]:
    for wall in site.job.room.walls:
        for feature in wall.features:
            if feature.kind == "doorway":
                yield Measured(feature.wide.value, f"clear width of {feature.name}", feature.span)


@quantity(
    "aisle",
    LENGTH,
    "aisle-ruled",
    doc="The passage between two runs that face one another is narrower than a rule asks for.",
    why="Two people don't pass, or a dishwasher stops everyone.",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72
      wall east  length 90
      wall south length 72
    }
    rule_pack trial { limit aisle least 48 }
    run one on north from left length 40 {
      S1: open_base 40
    }
    run other on south from right length 40 {
      T1: open_base 40
    }
    """,
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72
      wall east  length 96
      wall south length 72
    }
    rule_pack trial { limit aisle least 48 }
    run one on north from left length 40 {
      S1: open_base 40
    }
    run other on south from right length 40 {
      T1: open_base 40
    }
    """,
)
def aisle(site: Site) -> Iterator[Measured]:
    yield from (found for found, closed in site.once(aisles) if not closed)


@quantity(
    "aisle_closed",
    LENGTH,
    "closed-aisle-ruled",
    doc="The passage in a kitchen that is closed on three sides is narrower than a rule asks for.",
    why="A wheelchair doesn't turn in it.",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72
      wall east  length 90
      wall south length 72
    }
    rule_pack trial { limit aisle_closed least 60  basis access }
    run one on north from right length 40 {
      S1: open_base 40
    }
    run other on south from right length 40 {
      T1: open_base 40
    }
    run end on east from left at 30 length 30 {
      E1: open_base 30
    }
    """,
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72
      wall east  length 120
      wall south length 72
    }
    rule_pack trial { limit aisle_closed least 60  basis access }
    run one on north from right length 40 {
      S1: open_base 40
    }
    run other on south from right length 40 {
      T1: open_base 40
    }
    run end on east from left at 30 length 30 {
      E1: open_base 30
    }
    """,
)
def aisle_closed(site: Site) -> Iterator[Measured]:
    yield from (found for found, closed in site.once(aisles) if closed)


@quantity(
    "reach_over",
    LENGTH,
    "reach-over-ruled",
    doc=(
        "What stands before a shelf on the wall is higher than a rule lets anyone reach over "
        "from the side."
    ),
    why="From a wheelchair the shelf can't be reached at all, however low it is.",
    bad="""
    use plain_room
    rule_pack trial { limit reach_over most 34  basis access }
    run uppers on north from left length 32 up 54 {
      filler 2
      U1: wall_unit share  high 18  hung left
    }
    run sink_wall on north from left length 32 {
      S1: open_base share
    }
    """,
    good="""
    use plain_room
    rule_pack trial { limit reach_over most 36  basis access }
    run uppers on north from left length 32 up 54 {
      filler 2
      U1: wall_unit share  high 18  hung left
    }
    run sink_wall on north from left length 32 {
      S1: open_base share
    }
    """,
)
def reach_over(site: Site) -> Iterator[Measured]:
    counter = site.job.room.counter.value
    for standing in site.standings:
        if standing.role == LOW and counter > 0:
            for other in over(site, standing):
                words = f"counter one has to reach over to {other.name}"
                yield Measured(counter, words, other.line, (other,))


@quantity(
    "reach_up",
    LENGTH,
    "reach-up-ruled",
    doc="The lowest shelf of a unit over a counter is higher than a rule lets anyone reach.",
    why="It can't be reached from a wheelchair.",
    bad="""
    use plain_room
    rule_pack trial { limit reach_up most 46  basis access }
    run uppers on north from left length 32 up 54 {
      filler 2
      U1: wall_unit share  high 18  hung left
    }
    run sink_wall on north from left length 32 {
      S1: open_base share
    }
    """,
    good="""
    use plain_room
    rule_pack trial { limit reach_up most 60  basis access }
    run uppers on north from left length 32 up 54 {
      filler 2
      U1: wall_unit share  high 18  hung left
    }
    run sink_wall on north from left length 32 {
      S1: open_base share
    }
    """,
)
def reach_up(site: Site) -> Iterator[Measured]:
    for standing in site.standings:
        if standing.role == HUNG and standing.unit is not None:
            floor = min((part.box.up[1] for part in parts(standing.unit, "floor")), default=None)
            if floor is not None:
                words = f"lowest shelf of {standing.name}"
                yield Measured(standing.low + floor, words, standing.line, (standing,))


@quantity(
    "work_leg",
    LENGTH,
    "work-leg-ruled",
    doc="Two of sink, cooking and cold stand nearer or farther apart than a rule allows.",
    why="Too near is no room to work, too far is a walk with a hot pan.",
    bad="""
    use plain_room
    rule_pack trial { limit work_leg least 12 }
    appliance range  { wide 20  high 36  depth 24  serves cooking  confirmed  handle 2 }
    appliance fridge { wide 20  high 70  depth 24  serves cold     confirmed  handle 2 }
    run work on north from left {
      C1: range 20
      S1: open_base 20
      S2: sink_base 12  hung left
      S3: fridge 10
      space share
    }
    """,
    good="""
    use plain_room
    rule_pack trial { limit work_leg most 300 }
    appliance range  { wide 20  high 36  depth 24  serves cooking  confirmed  handle 2 }
    appliance fridge { wide 20  high 70  depth 24  serves cold     confirmed  handle 2 }
    run work on north from left {
      C1: range 20
      S1: open_base 20
      S2: sink_base 12  hung left
      S3: fridge 10
      space share
    }
    """,
)
def work_leg(site: Site) -> Iterator[Measured]:
    for one, other, apart in site.once(legs):
        words = f"from the front of {one.name} to that of {other.name}"
        yield Measured(apart, words, other.line, (other,))


@quantity(
    "work_triangle",
    LENGTH,
    "work-triangle-ruled",
    doc="The way between sink, cooking and cold, all round, is longer than a rule allows.",
    why="Miles a year.",
    bad="""
    use plain_room
    rule_pack trial { limit work_triangle most 48 }
    appliance range  { wide 20  high 36  depth 24  serves cooking  confirmed  handle 2 }
    appliance fridge { wide 20  high 70  depth 24  serves cold     confirmed  handle 2 }
    run work on north from left {
      C1: range 20
      S1: open_base 20
      S2: sink_base 12  hung left
      S3: fridge 10
      space share
    }
    """,
    good="""
    use plain_room
    rule_pack trial { limit work_triangle most 312 }
    appliance range  { wide 20  high 36  depth 24  serves cooking  confirmed  handle 2 }
    appliance fridge { wide 20  high 70  depth 24  serves cold     confirmed  handle 2 }
    run work on north from left {
      C1: range 20
      S1: open_base 20
      S2: sink_base 12  hung left
      S3: fridge 10
      space share
    }
    """,
)
def work_triangle(site: Site) -> Iterator[Measured]:
    found = site.once(legs)
    if len(found) == 3:
        total = sum((apart for _, _, apart in found), Fraction(0))
        yield Measured(total, "way between the three work centres", found[0][1].line)


@quantity(
    "storage_frontage",
    LENGTH,
    "storage-ruled",
    doc="Shelves and drawers together hold less than a rule asks for.",
    why="Boxes in the hall.",
    bad="""
    use plain_room
    rule_pack trial { limit storage_frontage least 1400 }
    run sink_wall on north from left length 24 {
      S1: open_base 24
    }
    """,
    good="""
    use plain_room
    rule_pack trial { limit storage_frontage least 40 }
    run sink_wall on north from left length 24 {
      S1: open_base 24
    }
    """,
)
def storage_frontage(site: Site) -> Iterator[Measured]:
    total = Fraction(0)
    for standing in site.standings:
        unit = standing.unit
        if unit is None or standing.placed.kind != "unit":
            continue
        drawers = sum(1 for _ in assemblies(unit, "tray"))
        shelves = sum(1 for _ in parts(unit, "shelf")) + (0 if drawers else 1)
        total += standing.placed.width.value * (drawers + shelves) * standing.depth / 12
    if total:
        yield Measured(total, "shelf and drawer frontage", site.standings[0].line)


EVERY: tuple[Quantity, ...] = tuple(
    each for each in list(globals().values()) if isinstance(each, Quantity)
)
"""Every quantity, in the order of their declaration."""

QUANTITIES: Mapping[str, Kind] = {each.word: each.kind for each in EVERY}
"""What limits may name, and of which kind each is."""
