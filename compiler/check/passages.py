"""Ways through the kitchen that rule packs limit: doorways, aisles, legs between centres."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations

from casewright.compiler.check.measured import (
    Measured,
    quantity,
    serving,
)
from casewright.compiler.check.site import Site, Standing, first_line
from casewright.compiler.check.sweeps import line_of as plan_line
from casewright.compiler.model import Run
from casewright.compiler.rooms.angles import root
from casewright.compiler.shop.yardstick import COUNT, LENGTH
from casewright.lang.measure import nearest

THOUSANDTH = Fraction(1, 1000)
"""What a length is rounded to that comes of a root."""


def aisles(site: Site) -> tuple[tuple[Measured, bool], ...]:
    """The passage between each two runs that face one another, at its narrowest, counters and
    pulls left out; and whether a third run closes it. Runs that aren't parallel are left out."""
    rows = [(run, row) for run, row in site.rows if run.origin is not None and row]
    low = [(run, row) for run, row in rows if any(each.low == 0 for each in row)]
    found: list[tuple[Measured, bool]] = []
    for (one, row), (other, others) in combinations(low, 2):
        if one.direction != (-other.direction[0], -other.direction[1]):
            continue
        gap = _gap(row, others)
        if gap is not None and gap > 0:
            closed = any(_joins(third, one) for third, _ in low if third not in (one, other))
            words = f"passage between {one.title} and {other.title}"
            found.append((Measured(gap, words, first_line(other.span)), closed))
    return tuple(found)


def _gap(row: tuple[Standing, ...], others: tuple[Standing, ...]) -> Fraction | None:
    """The least way between the faces of two rows that stand opposite one another."""
    here = plan_line(row[0])
    there = plan_line(others[0])
    if here is None or there is None:
        return None
    gaps: list[Fraction] = []
    for standing in row:
        for other in others:
            if standing.placed.kind == "space" or other.placed.kind == "space":
                continue
            if standing.low > 0 or other.low > 0:
                continue
            corners = here.here(
                tuple(there.place((x, other.depth)) for x in (other.left, other.right))
            )
            low, high = sorted(point[0] for point in corners)
            if low < standing.right and standing.left < high:
                gaps.append(min(point[1] for point in corners) - standing.depth)
    return min(gaps, default=None)


def _joins(third: Run, one: Run) -> bool:
    """Whether a run stands square to another, so that it closes a passage."""
    return third.direction[0] * one.direction[0] + third.direction[1] * one.direction[1] == 0


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
    "doorway_wide",
    LENGTH,
    "doorway-width-ruled",
    doc="A doorway is narrower than a rule asks for.",
    why="A wheelchair, or a tray with elbows, doesn't pass.",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        doorway at 36 wide 30 up 0 high 80
      }
    }
    rule_pack trial { limit doorway_wide least 32 }
    run sink_wall on north from left length 24 {
      S1: open_base 24
    }
    """,
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        doorway at 36 wide 32 up 0 high 80
      }
    }
    rule_pack trial { limit doorway_wide least 32 }
    run sink_wall on north from left length 24 {
      S1: open_base 24
    }
    """,
)
def doorway_wide(site: Site) -> Iterator[Measured]:
    for wall in site.job.room.walls:
        for feature in wall.features:
            if feature.kind == "doorway":
                yield Measured(feature.wide.value, f"clear width of {feature.name}", feature.span)


@quantity(
    "aisle",
    LENGTH,
    "aisle-ruled",
    doc="The passage between two runs that face one another is narrower than a rule asks for.",
    why="Two people don't pass, or a dishwasher stops everyone.",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72
      wall east  length 90
      wall south length 72
    }
    rule_pack trial { limit aisle least 48 }
    run one on north from left length 40 {
      S1: open_base 40
    }
    run other on south from right length 40 {
      T1: open_base 40
    }
    """,
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72
      wall east  length 96
      wall south length 72
    }
    rule_pack trial { limit aisle least 48 }
    run one on north from left length 40 {
      S1: open_base 40
    }
    run other on south from right length 40 {
      T1: open_base 40
    }
    """,
)
def aisle(site: Site) -> Iterator[Measured]:
    yield from (found for found, closed in site.once(aisles) if not closed)


@quantity(
    "aisle_closed",
    LENGTH,
    "closed-aisle-ruled",
    doc="The passage in a kitchen that is closed on three sides is narrower than a rule asks for.",
    why="A wheelchair doesn't turn in it.",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72
      wall east  length 90
      wall south length 72
    }
    rule_pack trial { limit aisle_closed least 60  basis access }
    run one on north from right length 40 {
      S1: open_base 40
    }
    run other on south from right length 40 {
      T1: open_base 40
    }
    run end on east from left at 30 length 30 {
      E1: open_base 30
    }
    """,
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72
      wall east  length 120
      wall south length 72
    }
    rule_pack trial { limit aisle_closed least 60  basis access }
    run one on north from right length 40 {
      S1: open_base 40
    }
    run other on south from right length 40 {
      T1: open_base 40
    }
    run end on east from left at 30 length 30 {
      E1: open_base 30
    }
    """,
)
def aisle_closed(site: Site) -> Iterator[Measured]:
    yield from (found for found, closed in site.once(aisles) if closed)


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
    good="""
    use plain_room
    rule_pack trial { limit work_leg most 300 }
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
    good="""
    use plain_room
    rule_pack trial { limit work_triangle most 312 }
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
)
def work_triangle(site: Site) -> Iterator[Measured]:
    found = site.once(legs)
    if len(found) == 3:
        total = sum((apart for _, _, apart in found), Fraction(0))
        yield Measured(total, "way between the three work centres", found[0][1].line)


@quantity(
    "aisle_past_cooking",
    LENGTH,
    "cooking-aisle-ruled",
    doc="The passage of a kitchen with a cooking surface is narrower than a rule asks for.",
    why="A wheelchair doesn't pass behind whoever cooks.",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72
      wall east  length 86
      wall south length 72
    }
    rule_pack trial { limit aisle_past_cooking least 40  basis access }
    appliance range { wide 30  high 36  depth 23 5/8  serves cooking  confirmed  handle 2 }
    run one on north from left length 40 {
      C1: range 30
      S1: open_base 10
    }
    run other on south from right length 40 {
      T1: open_base 40
    }
    """,
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72
      wall east  length 88
      wall south length 72
    }
    rule_pack trial { limit aisle_past_cooking least 40  basis access }
    appliance range { wide 30  high 36  depth 23 5/8  serves cooking  confirmed  handle 2 }
    run one on north from left length 40 {
      C1: range 30
      S1: open_base 10
    }
    run other on south from right length 40 {
      T1: open_base 40
    }
    """,
)
def aisle_past_cooking(site: Site) -> Iterator[Measured]:
    if any(serving(site, "cooking")):
        yield from (found for found, closed in site.once(aisles) if not closed)


@quantity(
    "aisle_closed_past_cooking",
    LENGTH,
    "closed-cooking-aisle-ruled",
    doc=(
        "The passage of a kitchen with a cooking surface that is closed on three sides is narrower "
        "than a rule asks for."
    ),
    why="A wheelchair doesn't turn in it.",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72
      wall east  length 90
      wall south length 72
    }
    rule_pack trial { limit aisle_closed_past_cooking least 60  basis access }
    appliance range { wide 30  high 36  depth 23 5/8  serves cooking  confirmed  handle 2 }
    run one on north from right length 40 {
      S1: open_base 40
    }
    run other on south from right length 40 {
      T1: open_base 40
    }
    run end on east from left at 30 length 30 {
      C1: range 30
    }
    """,
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72
      wall east  length 120
      wall south length 72
    }
    rule_pack trial { limit aisle_closed_past_cooking least 60  basis access }
    appliance range { wide 30  high 36  depth 23 5/8  serves cooking  confirmed  handle 2 }
    run one on north from right length 40 {
      S1: open_base 40
    }
    run other on south from right length 40 {
      T1: open_base 40
    }
    run end on east from left at 30 length 30 {
      C1: range 30
    }
    """,
)
def aisle_closed_past_cooking(site: Site) -> Iterator[Measured]:
    if any(serving(site, "cooking")):
        yield from (found for found, closed in site.once(aisles) if closed)


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
