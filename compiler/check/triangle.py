"""The work triangle that rule packs limit: its legs, and what tall stands between its ends."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations

from casewright.compiler.check.measured import (
    Measured,
    quantity,
    serving,
)
from casewright.compiler.check.site import Site, Standing
from casewright.compiler.check.sweeps import line_of as plan_line
from casewright.compiler.rooms.angles import root
from casewright.compiler.shop.yardstick import COUNT, LENGTH
from casewright.lang.measure import nearest

THOUSANDTH = Fraction(1, 1000)
"""What a length is rounded to that comes of a root."""


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
    good={"least 12": "most 300"},
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
    good={"most 48": "most 312"},
)
def work_triangle(site: Site) -> Iterator[Measured]:
    found = site.once(legs)
    if len(found) == 3:
        total = sum((apart for _, _, apart in found), Fraction(0))
        yield Measured(total, "way between the three work centres", found[0][1].line)


@quantity(
    "tall_between_centres",
    COUNT,
    "tall-between-centres-ruled",
    doc="Something as high as the room stands between two of sink, cooking and cold.",
    why="Every dish is carried around it.",
    bad="""
    use plain_room
    rule_pack trial { limit tall_between_centres most 0 }
    appliance fridge { wide 20  high 70  depth 24  serves cold  confirmed  handle 2 }
    run work on north from left {
      filler 2
      S1: sink_base 24  hung left
      T1: tall_unit 14  hung left  hinges 4
      S2: fridge 20
      space share
    }
    """,
    good="""
    use plain_room
    rule_pack trial { limit tall_between_centres most 0 }
    appliance fridge { wide 20  high 70  depth 24  serves cold  confirmed  handle 2 }
    run work on north from left {
      filler 2
      T1: tall_unit 14  hung left  hinges 4
      S1: sink_base 24  hung left
      S2: fridge 20
      space share
    }
    """,
)
def tall_between_centres(site: Site) -> Iterator[Measured]:
    for one, other, _ in site.once(legs):
        if one.run is not other.run:
            continue
        first, second = sorted((one, other), key=lambda each: each.left)
        between = [
            each
            for each in site.standings
            if each.run is one.run
            and each.role == "tall_unit"
            and first.right <= each.left < second.left
        ]
        words = f"tall things between {first.name} and {second.name}"
        yield Measured(Fraction(len(between)), words, second.line, (second,))
