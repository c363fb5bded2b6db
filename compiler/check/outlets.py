"""Outlets: over the counters along a wall, and in islands."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from math import ceil

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.measured import Measured, outlets, quantity, stretches
from casewright.compiler.check.site import Site, first_line, length, parts
from casewright.compiler.model import Feature, Island, Part
from casewright.compiler.shop.yardstick import COUNT, LENGTH
from casewright.lang.findings import Label, Severity

COUNTER_LEAST = Fraction(12)
"""A counter space is one from this width on (NEC 210.52(C)(1), 2002 text)."""

SPACE = (Fraction(24), Fraction(12))
"""An island's counter is a space of its own from this length and this depth on, inches (NEC
210.52(C)(2) and (3), 2002 text)."""

FOOT_SQUARED = 144
FIRST, FURTHER = Fraction(9), Fraction(18)
"""Square feet of an island's counter that the first outlet serves, and each further one (NEC
210.52(C)(2), 2020 text; the two figures are from memory)."""


def _island(outlets: str, rest: str) -> str:
    """An example: an island with outlets, ten square feet, that a run stands on."""
    return f"""
    room galley {{
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 150
      island work from north out 60 at 40 length 60 depth 24 3/4 {{
        {outlets}
      }}
    }}
    {rest}
    run work_front on work facing front {{
      S1: open_base share
      S2: door_base 20  hung right
      space 2
    }}
    run work_back on work facing back {{
      B1: back_panel share
      B2: back_panel share
    }}
    """


IN_END, IN_DOOR = "outlet at 12 up 30 facing left", "outlet at 50 up 20 facing front"
TWO = IN_END + "\n        outlet other at 12 up 30 facing right"


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
    good={"at 20": "at 36", "most 24": "most 36"},
)
def outlet_reach(site: Site) -> Iterator[Measured]:
    for wall, at, to, standings in stretches(site):
        if wall not in site.walls or to - at < COUNTER_LEAST:
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
    good={"up 60": "up 56"},
)
def outlet_over_counter(site: Site) -> Iterator[Measured]:
    counter = site.job.room.counter.value
    for wall in site.job.room.walls:
        for outlet in outlets(site, wall.name) if counter > 0 else ():
            yield Measured(
                outlet.up.value - counter, f"{outlet.name} over the counter", outlet.span
            )


@quantity(
    "island_outlets",
    COUNT,
    "island-outlets-ruled",
    doc="An island or a peninsula has fewer outlets than a rule asks for, whatever its size. One "
    "shorter than 24 or shallower than 12 is no counter space.",
    why="Cords hang across the aisle, at a child's height.",
    bad=_island("note no outlet", "rule_pack trial { limit island_outlets least 1 }"),
    good=_island(IN_END, "rule_pack trial { limit island_outlets least 1 }"),
)
def island_outlets(site: Site) -> Iterator[Measured]:
    for island in _spaces(site):
        yield Measured(
            Fraction(len(_in(island))), f"outlets in {island.name}", first_line(island.span)
        )


@quantity(
    "island_outlets_short",
    COUNT,
    "island-outlets-by-area-ruled",
    doc="An island or a peninsula has fewer outlets than its counter's area asks for: one for the "
    "first 9 square feet or a part of them, one more for each further 18 or a part (these two "
    "figures are from memory). One shorter than 24 or shallower than 12 is no counter space.",
    why="Cords hang across the aisle, at a child's height.",
    bad=_island(IN_END, "rule_pack trial { limit island_outlets_short most 0 }"),
    good=_island(TWO, "rule_pack trial { limit island_outlets_short most 0 }"),
)
def island_outlets_short(site: Site) -> Iterator[Measured]:
    for island in _spaces(site):
        area = island.width.value * island.depth.value / FOOT_SQUARED
        wanted = 1 + max(0, ceil((area - FIRST) / FURTHER))
        words = f"outlets that {island.name} lacks for the area of its counter"
        yield Measured(Fraction(max(0, wanted - len(_in(island)))), words, first_line(island.span))


@quantity(
    "outlet_under_counter",
    LENGTH,
    "outlet-under-counter-ruled",
    doc="An outlet in an island lies lower under the top of the counter than a rule allows.",
    why="A cord that hangs over the edge is pulled, and the kettle with it.",
    bad=_island(IN_END, "rule_pack trial { limit outlet_under_counter most 0 }"),
    good=_island(IN_END, "rule_pack trial { limit outlet_under_counter most 12 }"),
)
def outlet_under_counter(site: Site) -> Iterator[Measured]:
    counter = site.job.room.counter.value
    for island in site.job.room.islands if counter > 0 else ():
        for outlet in _in(island):
            words = f"{outlet.name} of {island.name} under the top of the counter"
            yield Measured(max(Fraction(0), counter - outlet.up.value), words, outlet.span)


def _spaces(site: Site) -> Iterator[Island]:
    """Islands and peninsulas that are a counter space."""
    for island in site.job.room.islands:
        short, long = sorted((island.width.value, island.depth.value))
        if long >= SPACE[0] and short >= SPACE[1]:
            yield island


def _in(island: Island) -> list[Feature]:
    return [each for each in island.features if each.kind == "outlet"]


@check(
    "outlet-in-front",
    Severity.ERROR,
    doc="An outlet of an island lies in a door or a drawer front.",
    why="What is wired to it can't be opened, and the box stands in the drawer's way.",
    mend="Put it in an end or a back, or over a front that doesn't move.",
    source="common practice",
    bad=_island(IN_DOOR, ""),
    good=_island(IN_END, ""),
)
def outlet_in_front(site: Site) -> Iterator[Report]:
    for side, standings in site.on_wall.items():
        for outlet in site.features.get(side, ()):
            if outlet.kind != "outlet" or not outlet.facing:
                continue
            across = outlet.at.value + outlet.wide.value / 2
            up = outlet.up.value + outlet.high.value / 2
            for standing in standings:
                unit = standing.unit
                for part in parts(unit, "front") if unit is not None else ():
                    place = (across - standing.left, up - standing.low)
                    if part.motion is not None and _lies_in(part, *place):
                        line = standing.line
                        yield Report(
                            f"{outlet.name} lies in a front of {standing.name} that opens",
                            outlet.span,
                            figures=(
                                length(f"{outlet.name} from the left of {side}", across),
                                length("and above the floor", up),
                            ),
                            labels=(Label(line, "it opens here"),) if line is not None else (),
                            help="put it in an end or a back of the island",
                        )


def _lies_in(part: Part, across: Fraction, up: Fraction) -> bool:
    """Whether a place lies within a part that stands square to the front."""
    box = part.box
    return (
        part.slant is None and box.across[0] < across < box.across[1] and box.up[0] < up < box.up[1]
    )
