"""Counter beside cooking, ovens and cold that rule packs ask for: landings."""

from collections.abc import Iterator
from fractions import Fraction

from casewright.compiler.check.measured import (
    Measured,
    carries_counter,
    landings,
    quantity,
    serving,
)
from casewright.compiler.check.meetings import facing, overlap
from casewright.compiler.check.site import Site, Standing
from casewright.compiler.check.sweeps import line_of as plan_line
from casewright.compiler.shop.yardstick import LENGTH

ACROSS = Fraction(48)
"""Counter so near before a thing's front serves it, inches (planning guidelines 16 and 23)."""


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
    good={"least 30": "least 15"},
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
    good={"open_base 11": "open_base 14"},
)
def cooking_landing_narrow(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "cooking"):
        words = f"free counter on the other side of {standing.name}"
        yield Measured(min(landings(site, standing)), words, standing.line, (standing,))


@quantity(
    "cold_landing",
    LENGTH,
    "cold-landing-ruled",
    doc="Free counter beside a refrigerator, or within 48 across from its front, is shorter than a "
    "rule asks for.",
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
    good={"least 30": "least 15"},
)
def cold_landing(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "cold"):
        yield _beside_or_across(site, standing)


def _beside_or_across(site: Site, standing: Standing) -> Measured:
    beside, opposite = max(landings(site, standing)), across(site, standing)
    words = f"free counter {'across from' if opposite > beside else 'beside'} {standing.name}"
    return Measured(max(beside, opposite), words, standing.line, (standing,))


def across(site: Site, standing: Standing) -> Fraction:
    """The longest counter that faces a thing within 48 of its front (planning guidelines 16 and
    23), taken run by run."""
    here = plan_line(standing)
    longest = Fraction(0)
    for run, row in site.rows if here is not None else ():
        if run is standing.run or not facing(run, standing.run):
            continue
        for other in row:
            there = plan_line(other)
            if here is None or there is None or other.low > 0 or not carries_counter(other):
                continue
            front = here.here(
                tuple(there.place((x, other.depth)) for x in (other.left, other.right))
            )
            near = min(point[1] for point in front) - standing.depth <= ACROSS
            span = (min(point[0] for point in front), max(point[0] for point in front))
            if near and overlap((standing.left, standing.right), span):
                longest = max(longest, sum(landings(site, other)) + other.placed.width.value)
    return longest


@quantity(
    "oven_landing",
    LENGTH,
    "oven-landing-ruled",
    doc="Free counter beside an oven, or within 48 across from its front, is shorter than a rule "
    "asks for.",
    why="A hot dish has to be set down at once.",
    bad="""
    use plain_room
    rule_pack trial { limit oven_landing least 15 }
    appliance oven { wide 30  high 34 1/2  depth 24  serves baking  confirmed  handle 2 }
    run sink_wall on north from left length 44 {
      C1: oven 30
      S1: open_base share
    }
    """,
    good={"length 44": "length 45"},
)
def oven_landing(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "baking"):
        yield _beside_or_across(site, standing)


@quantity(
    "behind_cooking",
    LENGTH,
    "behind-cooking-ruled",
    doc="Less of an island's counter lies behind a cooking surface than a rule asks for.",
    why="Fat spits at whoever sits there.",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 200
      island work from north out 60 at 40 length 40 depth 32
    }
    rule_pack trial { limit behind_cooking least 9 }
    appliance range { wide 30  high 36  depth 24  serves cooking  confirmed  handle 2 }
    run work_front on work facing front {
      space 5
      C1: range 30
      space 5
    }
    """,
    good={"depth 32": "depth 33"},
)
def behind_cooking(site: Site) -> Iterator[Measured]:
    islands = {island.name: island for island in site.job.room.islands}
    for standing in serving(site, "cooking"):
        island = islands.get(standing.run.island)
        if island is not None:
            whole = island.depth if standing.run.facing in ("front", "back") else island.width
            words = f"counter behind {standing.name}"
            yield Measured(whole.value - standing.depth, words, standing.line, (standing,))
