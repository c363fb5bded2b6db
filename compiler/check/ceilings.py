"""What is higher than the ceiling over it."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.site import Site, Standing, length, together
from casewright.compiler.shop.supply import Linear
from casewright.lang.findings import Severity


@check(
    "higher-than-room",
    Severity.ERROR,
    doc="A unit reaches higher than the ceiling.",
    why="It doesn't fit.",
    mend="Make it lower.",
    source="arithmetic",
    bad="""
    use plain_room
    run uppers on north from left length 26 up 70 {
      space 2
      U1: wall_unit 24  hung left
    }
    """,
    good={"up 70": "up 66"},
    of_outlines=True,
)
def higher_than_room(site: Site) -> Iterator[Report]:
    too_high: dict[tuple[Fraction, Fraction], list[Standing]] = {}
    for standing in site.standings:
        # A filler is as high as what it stands beside.
        if standing.placed.kind in ("space", "filler"):
            continue
        top = ceiling_over(site, standing)
        if top > 0 and standing.high > top:
            too_high.setdefault((standing.high, top), []).append(standing)
    for (high, top), standings in too_high.items():
        yield _too_high(site, high, top, tuple(standings))


def ceiling_over(site: Site, standing: Standing) -> Fraction:
    """How high the ceiling is over a thing, at its lowest; nothing where nobody says. Between the
    places where it was measured it runs straight, beyond the last of them level."""
    wall = site.walls.get(standing.run.wall)
    room = site.job.room.ceiling.value
    if wall is None:
        return room
    points = sorted((at.value, high.value) for at, high in wall.ceiling_points)
    ends = [_at(points, each) for each in (standing.left, standing.right)] if points else []
    over = [high for at, high in points if standing.left < at < standing.right]
    return min([wall.height.value, *ends, *over])


def _at(points: Sequence[tuple[Fraction, Fraction]], place: Fraction) -> Fraction:
    """The height at a place of a line through points, from the left."""
    for (left, low), (right, high) in pairwise(points):
        if left < place < right:
            return low + (high - low) * (place - left) / (right - left)
    nearest = min(points, key=lambda point: abs(point[0] - place))
    return nearest[1]


def _too_high(site: Site, high: Fraction, top: Fraction, standings: tuple[Standing, ...]) -> Report:
    one = len(standings) == 1
    names = together(standings)
    return Report(
        f"{names} {'reaches' if one else 'reach'} {site.say(high - top)} above the ceiling",
        standings[0].line,
        standings,
        (
            length(f"top of {names}", high, standings[0].line),
            length("lowest of the ceiling", top),
            length("too high", high - top, ruled=True),
        ),
        help=f"make {'it' if one else 'them'} {site.say(high - top)} lower",
        among=lambda some: _too_high(site, high, top, some),
    )


@check(
    "crown-past-ceiling",
    Severity.ERROR,
    doc="What runs along the tops of units reaches higher than the ceiling over them.",
    why="A ceiling falls, and a crown is set level: at one end of the run it doesn't go in.",
    mend="Hang the units lower by what the report says, or choose a lower crown.",
    source="arithmetic: the ceiling as surveyed, straight between the places it was measured at",
    bad="""
    linear crown { along wall_unit  rises 2 1/2  lengths 96 }
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 44 {
        ceiling 88 at 0
        ceiling 86 at 44
      }
    }
    run uppers on north from left {
      filler 1
      U1: wall_unit share  hung left   high 30
      U2: wall_unit share  hung right  high 30
      filler 1
    }
    """,
    good={"2 1/2": "1"},
)
def crown_past_ceiling(site: Site) -> Iterator[Report]:
    for linear in site.job.supply.linear:
        if linear.edge != "top" or linear.rises <= 0:
            continue
        runs: dict[tuple[str, Fraction], list[Standing]] = {}
        for standing in site.standings:
            top = ceiling_over(site, standing)
            # What is higher than the ceiling by itself has a report of its own.
            if (
                standing.role in linear.along
                and standing.high <= top < standing.high + linear.rises
            ):
                runs.setdefault((standing.run.name, standing.high), []).append(standing)
        for (_, high), standings in runs.items():
            yield _crowned(site, linear, high, tuple(standings))


def _crowned(site: Site, linear: Linear, high: Fraction, standings: tuple[Standing, ...]) -> Report:
    """The crown over units of one height that a ceiling is too low for."""
    worst = min(standings, key=lambda each: ceiling_over(site, each))
    top, crowned = ceiling_over(site, worst), high + linear.rises
    others = tuple(each for each in standings if each is not worst)
    return Report(
        f"{linear.title} over {together(standings)} reaches {site.say(crowned - top)} above the "
        "ceiling",
        worst.line,
        (worst, *others),
        (
            length(f"top of {worst.name}", high, worst.line),
            length(linear.title, linear.rises, linear.span),
            length("reaches", crowned, ruled=True),
            length(f"lowest of the ceiling over {worst.name}", top),
            length("too high", crowned - top, ruled=True),
        ),
        help=f"hang {'it' if not others else 'them'} {site.say(crowned - top)} lower, or choose a "
        "lower one",
        among=lambda some: _crowned(site, linear, high, some),
    )
