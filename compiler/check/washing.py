"""Counter and room around sinks and dishwashers that rule packs ask for."""

from collections.abc import Iterator
from fractions import Fraction

from casewright.compiler.check.measured import (
    Measured,
    landings,
    main_sink,
    quantity,
    serving,
)
from casewright.compiler.check.plan import rectangle
from casewright.compiler.check.site import Site, Standing
from casewright.compiler.check.sweeps import line_of as plan_line
from casewright.compiler.shop.yardstick import LENGTH

REACH = Fraction(30)
"""How far before a dishwasher someone may stand who fills it: its door and a little more."""


def _main(site: Site) -> tuple[Standing, ...]:
    """The main sink, where there is one."""
    main = site.once(main_sink)
    return (main,) if main is not None else ()


@quantity(
    "sink_landing_wide",
    LENGTH,
    "sink-landing-ruled",
    doc="The larger free counter beside the main sink is shorter than a rule asks for.",
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
    good={"open_base 20": "open_base 18"},
)
def sink_landing_wide(site: Site) -> Iterator[Measured]:
    for standing in _main(site):
        words = f"free counter on the better side of {standing.name}"
        yield Measured(max(landings(site, standing)), words, standing.line, (standing,))


@quantity(
    "sink_landing_narrow",
    LENGTH,
    "sink-other-landing-ruled",
    doc="The smaller free counter beside the main sink is shorter than a rule asks for.",
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
    good={"open_base 16": "open_base 18"},
)
def sink_landing_narrow(site: Site) -> Iterator[Measured]:
    for standing in _main(site):
        words = f"free counter on the other side of {standing.name}"
        yield Measured(min(landings(site, standing)), words, standing.line, (standing,))


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
    good={"most 20": "most 36"},
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
    good={"filler 2": "filler 3"},
)
def sink_to_corner(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "sink"):
        wall = site.walls.get(standing.run.wall)
        if wall is not None:
            near = min(standing.left, wall.length.value - standing.right)
            yield Measured(near, f"from {standing.name} to the corner", standing.line, (standing,))


@quantity(
    "sink_centre_to_corner",
    LENGTH,
    "sink-centre-near-corner-ruled",
    doc="The middle of a sink stands nearer the corner than a rule allows.",
    why="Nobody stands in the corner to wash up.",
    bad="""
    use plain_room
    rule_pack trial { limit sink_centre_to_corner least 15 }
    run sink_wall on north from left length 40 {
      filler 2
      S1: sink_base 24  hung right
      space share
    }
    """,
    good={"filler 2": "filler 3"},
)
def sink_centre_to_corner(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "sink"):
        wall = site.walls.get(standing.run.wall)
        if wall is not None:
            middle = (standing.left + standing.right) / 2
            near = min(middle, wall.length.value - middle)
            words = f"from the middle of {standing.name} to the corner"
            yield Measured(near, words, standing.line, (standing,))


@quantity(
    "preparation",
    LENGTH,
    "preparation-ruled",
    doc="Nowhere beside a sink is as much counter in one piece as a rule asks for.",
    why="Vegetables are washed, then cut: both on one spot.",
    bad="""
    use plain_room
    rule_pack trial { limit preparation least 36 }
    run sink_wall on north from left {
      S1: open_base 12
      S2: sink_base 30  hung left
      S3: open_base share
    }
    """,
    good={"open_base 12": "open_base 6"},
)
def preparation(site: Site) -> Iterator[Measured]:
    found = [(max(landings(site, each)), each) for each in serving(site, "sink")]
    if found:
        longest, standing = max(found, key=lambda each: each[0])
        words = "longest piece of counter beside a sink"
        yield Measured(longest, words, standing.line, (standing,))


@quantity(
    "dishwasher_standing",
    LENGTH,
    "dishwasher-standing-ruled",
    doc="A dishwasher stands nearer to what is at a right angle to it than a rule allows.",
    why="Whoever fills it stands beside its door, not before it.",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall west  length 80
      wall north length 90
    }
    rule_pack trial { limit dishwasher_standing least 21 }
    run west_wall on west from right length 60 {
      W1: open_base share
    }
    run sink_wall on north from left after W1 length 46 {
      S1: open_base 20
      S2: dishwasher 24  confirmed
      space share
    }
    """,
    good={"length 46": "length 47", "open_base 20": "open_base 21"},
)
def dishwasher_standing(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "dishes"):
        gaps = [gap for other in site.standings for gap in _beside_its_door(standing, other)]
        if gaps:
            words = f"from {standing.name} to what stands square to it"
            yield Measured(min(gaps), words, standing.line, (standing,))


def _beside_its_door(standing: Standing, other: Standing) -> Iterator[Fraction]:
    """The room between a dishwasher's edge and another run's thing that stands square to it and out
    beyond its face."""
    here, there = plan_line(standing), plan_line(other)
    one, two = standing.run.direction, other.run.direction
    square = one[0] * two[0] + one[1] * two[1] == 0
    if here is None or there is None or other.low > 0 or not square:
        return
    if other.placed.kind == "space":
        return
    corners = here.here(
        tuple(
            there.place(point)
            for point in rectangle((other.left, Fraction(0)), (other.right, other.depth))
        )
    )
    out = max(point[1] for point in corners)
    left, right = min(point[0] for point in corners), max(point[0] for point in corners)
    if out <= standing.depth or min(point[1] for point in corners) > standing.depth + REACH:
        return
    if left >= standing.right:
        yield left - standing.right
    elif right <= standing.left:
        yield standing.left - right
