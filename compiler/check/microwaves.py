"""Microwave ovens, as rule packs limit them: how high they stand, and where a dish is set down."""

from collections.abc import Iterator
from fractions import Fraction

from casewright.compiler.check.measured import (
    Measured,
    landings,
    quantity,
    serving,
    stretches,
)
from casewright.compiler.check.site import Site, Standing
from casewright.compiler.shop.yardstick import LENGTH


def _apart(site: Site) -> Iterator[Standing]:
    """Those that stand or hang by themselves; where one stands in a unit, its text doesn't say."""
    return (each for each in serving(site, "microwave") if each.unit is None)


@quantity(
    "microwave_bottom",
    LENGTH,
    "microwave-height-ruled",
    doc="A microwave oven stands or hangs lower or higher than a rule allows.",
    why="A hot dish is lifted down past the face.",
    bad="""
    use plain_room
    rule_pack trial { limit microwave_bottom least 15  most 54 }
    appliance microwave { wide 24  high 14  depth 16  serves microwave  confirmed  handle 0 }
    run uppers on north from left length 28 up 56 {
      filler 2
      U1: microwave 24
      filler 2
    }
    """,
    good={"up 56": "up 54"},
)
def microwave_bottom(site: Site) -> Iterator[Measured]:
    for standing in _apart(site):
        words = f"underside of {standing.name} above the floor"
        yield Measured(standing.low, words, standing.line, (standing,))


@quantity(
    "microwave_landing",
    LENGTH,
    "microwave-landing-ruled",
    doc="Counter under, over or beside a microwave oven is shorter than a rule asks for.",
    why="A hot dish has to be set down at once.",
    bad="""
    use plain_room
    rule_pack trial { limit microwave_landing least 15 }
    appliance microwave { wide 24  high 14  depth 16  serves microwave  confirmed  handle 0 }
    run uppers on north from left length 28 up 50 {
      filler 2
      U1: microwave 24
      filler 2
    }
    run low on north from left length 28 {
      S1: open_base 14
      space 14
    }
    """,
    good={"open_base 14": "open_base 15", "space 14": "space 13"},
)
def microwave_landing(site: Site) -> Iterator[Measured]:
    counter = site.job.room.counter.value
    for standing in _apart(site):
        under = [
            to - at
            for wall, at, to, _ in stretches(site)
            if wall == standing.run.wall and at < standing.right and standing.left < to
        ]
        over = standing.placed.width.value if standing.high <= counter else Fraction(0)
        longest = max([*under, sum(landings(site, standing)) + over])
        words = f"counter at {standing.name}"
        yield Measured(longest, words, standing.line, (standing,))
