"""What a kitchen offers altogether: counter, outlets over it, room in shelves and drawers."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from casewright.compiler.check.measured import (
    Measured,
    carries_counter,
    outlets,
    quantity,
    serving,
    stretches,
)
from casewright.compiler.check.plan import Point
from casewright.compiler.check.site import Site, Standing, assemblies, first_line, parts
from casewright.compiler.check.sweeps import line_of as plan_line
from casewright.compiler.shop.yardstick import LENGTH

FOOT = 12
NEAR_THE_SINK = Fraction(72)
"""How far from the middle of the sink storage counts as near it (planning guideline 28)."""

COUNTER_LEAST = Fraction(12)
"""A counter space is one from this width on (NEC 210.52(C)(1), 2002 text)."""


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
    total = sum((_frontage_of(standing) for standing in site.standings), Fraction(0))
    if total:
        yield Measured(total, "shelf and drawer frontage", site.standings[0].line)


def _frontage_of(standing: Standing) -> Fraction:
    """Width x shelves and drawers x depth in feet (planning guideline 27; the formula is from
    memory)."""
    unit = standing.unit
    if unit is None or standing.placed.kind != "unit":
        return Fraction(0)
    drawers = sum(1 for _ in assemblies(unit, "tray"))
    shelves = sum(1 for _ in parts(unit, "shelf")) + (0 if drawers else 1)
    return standing.placed.width.value * (drawers + shelves) * standing.depth / FOOT


@quantity(
    "storage_near_sink",
    LENGTH,
    "storage-near-sink-ruled",
    doc="Shelves and drawers within 72 inches of the sink hold less than a rule asks for.",
    why="Plates are carried across the kitchen, every day.",
    bad="""
    use plain_room
    rule_pack trial { limit storage_near_sink least 400 }
    run sink_wall on north from left {
      S1: open_base 20
      S2: sink_base 30  hung left
      S3: open_base share
    }
    """,
    good="""
    use plain_room
    rule_pack trial { limit storage_near_sink least 100 }
    run sink_wall on north from left {
      S1: open_base 20
      S2: sink_base 30  hung left
      S3: open_base share
    }
    """,
)
def storage_near_sink(site: Site) -> Iterator[Measured]:
    for sink in list(serving(site, "sink"))[:1]:
        middle = _middle(sink)
        near = [each for each in site.standings if _is_near(middle, _middle(each))]
        total = sum((_frontage_of(each) for each in near), Fraction(0))
        words = f"shelf and drawer frontage within 72 of {sink.name}"
        yield Measured(total, words, sink.line, (sink,))


def _middle(standing: Standing) -> Point | None:
    line = plan_line(standing)
    across = (standing.left + standing.right) / 2
    return line.place((across, standing.depth)) if line is not None else None


def _is_near(one: Point | None, other: Point | None) -> bool:
    """Whether two places lie within reach of the sink of one another, straight in plan."""
    if one is None or other is None:
        return False
    return (one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2 <= NEAR_THE_SINK**2
