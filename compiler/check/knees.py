"""Room for knees under a counter, as standards of access ask for it.

A knee space is a `space` between things under the counter, or a unit there with no floor, no toe
and no front: what stands in it is what its own parts are.
"""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from casewright.compiler.check.measured import LOW, Measured, carries_counter, quantity
from casewright.compiler.check.site import Site, Standing, parts
from casewright.compiler.model import Part
from casewright.compiler.shop.yardstick import LENGTH

ANKLE, KNEE = Fraction(9), Fraction(27)
"""The knee's zone lies between these heights (2010 ADA Standards, 306.3.1)."""

DEEP_AT_ANKLE = Fraction(11)
TAPER = Fraction(6)
"""It is 11 deep at 9 high and may lose 1 of depth in 6 of height: 8 at 27 (306.3.3, 306.3.4)."""


def knee_spaces(site: Site) -> Iterator[Standing]:
    """What one may sit before, under the counter."""
    for _, row in site.rows:
        for index, standing in enumerate(row):
            if standing.low > 0:
                continue
            if standing.placed.kind == "space":
                beside = [*row[max(index - 1, 0) : index], *row[index + 1 : index + 2]]
                if len(beside) == 2 and all(carries_counter(each) for each in beside):
                    yield standing
            elif standing.role == LOW and is_open(standing):
                yield standing


def _space(standing: Standing) -> str:
    return f"the knee space of {standing.name}" if standing.placed.tag else "the knee space"


def is_open(standing: Standing) -> bool:
    """Whether it has no floor, no toe and no front under the counter: knees go in."""
    unit = standing.unit
    closed = ("floor", "toe", "front", "end")
    return unit is not None and not any(parts(unit, *closed)) and any(parts(unit, "side"))


def _in_the_way(standing: Standing) -> tuple[Part, ...]:
    """The parts of a knee space that reach into the knee's zone, its sides left out."""
    unit = standing.unit
    if unit is None:
        return ()
    sides = {part.path for part in parts(unit, "side")}
    return tuple(
        part
        for part in unit.parts
        if part.path not in sides and part.box.up[0] < KNEE and part.box.up[1] > ANKLE
    )


@quantity(
    "knee_wide",
    LENGTH,
    "knee-width-ruled",
    doc="A knee space under a counter is narrower than a rule asks for.",
    why="A wheelchair doesn't come under.",
    bad="""
    use plain_room
    rule_pack trial { limit knee_wide least 30  basis access }
    run sink_wall on north from left {
      S1: open_base share
      space 28
      S2: open_base 20
    }
    """,
    good={"space 28": "space 30"},
)
def knee_wide(site: Site) -> Iterator[Measured]:
    for standing in knee_spaces(site):
        words = f"width of {_space(standing)}"
        yield Measured(width_between_sides(standing), words, standing.line, (standing,))


def width_between_sides(standing: Standing) -> Fraction:
    """How wide a knee space is between the sides of what makes it."""
    wide = standing.placed.width.value
    if standing.unit is None:
        return wide
    sides = sorted(part.box.across for part in parts(standing.unit, "side"))
    return max((after[0] - before[1] for before, after in pairwise(sides)), default=wide)


@quantity(
    "knee_high",
    LENGTH,
    "knee-height-ruled",
    doc="A knee space under a counter is lower than a rule asks for.",
    why="Knees meet the counter's rail.",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 28 thick 1 1/2
      wall north length 72
    }
    rule_pack trial { limit knee_high least 27  basis access }
    run sink_wall on north from left {
      S1: open_base share
      space 30
      S2: open_base 20
    }
    """,
    good={"counter 28 thick": "counter 28 1/2 thick"},
)
def knee_high(site: Site) -> Iterator[Measured]:
    room = site.job.room
    under = room.counter.value - room.counter_thick.value
    for standing in knee_spaces(site) if under > 0 else ():
        deep = DEEP_AT_ANKLE - (KNEE - ANKLE) / TAPER
        rails = [
            part.box.up[0]
            for part in (standing.unit.parts if standing.unit is not None else ())
            if part.role != "side" and part.box.up[0] > ANKLE and part.box.deep[0] < deep
        ]
        words = f"height of {_space(standing)}"
        yield Measured(min([under, *rails]), words, standing.line, (standing,))


@quantity(
    "knee_short",
    LENGTH,
    "knee-depth-ruled",
    doc="Something under a counter stands nearer than a knee space's taper lets it.",
    why="Shins meet it, whatever is free above.",
    bad="""
    use plain_room
    rule_pack trial { limit knee_short most 0  basis access }
    unit knees bare  serves base_unit {
      high  room.counter - room.counter_thick
      depth 23 5/8
      part left_side of ply  across from left  grain up  serves side
      part right_side mirrors left_side
      part rail of ply  across left_side .. right_side  up 6 from bottom + 9  deep from front + 10
      join rail to left_side right_side with screwed
      step left_side rail right_side
    }
    run sink_wall on north from left {
      filler 2
      S1: knees share
      filler 2
    }
    """,
    good={"+ 9": "+ 15"},
)
def knee_short(site: Site) -> Iterator[Measured]:
    for standing in knee_spaces(site):
        short = [
            DEEP_AT_ANKLE - (max(part.box.up[0], ANKLE) - ANKLE) / TAPER - part.box.deep[0]
            for part in _in_the_way(standing)
        ]
        words = f"what stands too near in {_space(standing)}"
        yield Measured(max([Fraction(0), *short]), words, standing.line, (standing,))
