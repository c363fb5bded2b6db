"""Ways through the kitchen that rule packs limit: doorways and aisles."""

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
from casewright.compiler.shop.yardstick import LENGTH


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
    good={"wide 30": "wide 32"},
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
    good={"length 90": "length 96"},
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
    good={"length 90": "length 120"},
)
def aisle_closed(site: Site) -> Iterator[Measured]:
    yield from (found for found, closed in site.once(aisles) if closed)


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
    good={"length 86": "length 88"},
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
    good={"length 90": "length 120"},
)
def aisle_closed_past_cooking(site: Site) -> Iterator[Measured]:
    if any(serving(site, "cooking")):
        yield from (found for found, closed in site.once(aisles) if closed)
