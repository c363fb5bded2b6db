"""Heights and depths that rule packs limit: counters, what hangs over them, toes."""

from collections.abc import Iterator
from fractions import Fraction

from casewright.compiler.check.measured import (
    LOW,
    Measured,
    over,
    quantity,
    serving,
    surface,
)
from casewright.compiler.check.site import Site, line_of, toe_of
from casewright.compiler.shop.yardstick import COUNT, LENGTH


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
    good={"most 34": "most 36"},
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
    good={"least 24": "least 23"},
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
    good={"up 50": "up 51"},
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
    good={"up 58": "up 60"},
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
    good={"up 65": "up 66"},
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
    good={"at 10": "at 40"},
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
    good={"4 1/2": "3"},
)
def toe_high(site: Site) -> Iterator[Measured]:
    for standing in site.standings:
        toe = toe_of(standing)
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
    good={"least 4": "least 2"},
)
def toe_deep(site: Site) -> Iterator[Measured]:
    for standing in site.standings:
        toe = toe_of(standing)
        if toe is not None:
            words = f"depth of the toe space of {standing.name}"
            yield Measured(toe.box.deep[0], words, standing.line, (standing,))
