"""What a kitchen offers altogether: counter, and room in shelves and drawers."""

from collections.abc import Iterator
from fractions import Fraction

from casewright.compiler.check.measured import (
    Measured,
    carries_counter,
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
    good={"least 158": "least 40"},
)
def frontage(site: Site) -> Iterator[Measured]:
    total = sum((to - at for _, at, to, _ in stretches(site)), Fraction(0))
    if total:
        runs = [run for run, row in site.rows if any(carries_counter(each) for each in row)]
        yield Measured(total, "counter, all together", first_line(runs[0].span))


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
    good={"least 1400": "least 40"},
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
    floored = not drawers and any(parts(unit, "floor"))
    shelves = sum(1 for _ in parts(unit, "shelf")) + (1 if floored else 0)
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
    good={"least 400": "least 100"},
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
