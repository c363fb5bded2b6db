"""What a kitchen offers altogether: counter, outlets over it, room in shelves and drawers."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from casewright.compiler.check.measured import (
    Measured,
    carries_counter,
    outlets,
    quantity,
    stretches,
)
from casewright.compiler.check.site import Site, assemblies, first_line, parts
from casewright.compiler.shop.yardstick import LENGTH

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
