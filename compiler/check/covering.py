"""What units and appliances stand before on their wall: windows, casings, doorways,
radiators."""

from collections.abc import Iterator
from fractions import Fraction

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.site import (
    Site,
    Standing,
    figure,
    length,
    together,
)
from casewright.compiler.model import Feature
from casewright.lang.findings import Figure, Severity


def spans(low: Fraction, high: Fraction, from_: Fraction, to: Fraction) -> bool:
    """Whether a stretch and another, which may be a point, share more than an end."""
    if from_ < to:
        return low < to and from_ < high
    return low < from_ < high


def _stands_before(standing: Standing, feature: Feature, casing: Fraction) -> bool:
    at, up = feature.at.value, feature.up.value
    return spans(
        standing.left, standing.right, at - casing, at + feature.wide.value + casing
    ) and spans(standing.low, standing.high, up - casing, up + feature.high.value + casing)


def before(site: Site, *kinds: str) -> Iterator[tuple[Standing, Feature]]:
    """Every thing that stands before a feature of its wall, the casing left out."""
    for name, standings in site.on_wall.items():
        for feature in site.features.get(name, ()):
            if feature.kind in kinds:
                for standing in standings:
                    if standing.placed.kind != "space" and _stands_before(
                        standing, feature, Fraction(0)
                    ):
                        yield standing, feature


def _shared_across(site: Site, standing: Standing, feature: Feature) -> tuple[Figure, ...]:
    """The sum of how far a thing and a feature lie over one another along the wall."""
    at, wide = feature.at.value, feature.wide.value
    left, right = max(standing.left, at), min(standing.right, at + wide)
    return (
        length("one ends at", right, standing.line if right == standing.right else feature.span),
        length("the other begins at", left, feature.span if left == at else standing.line),
        length("over one another", right - left, ruled=True),
    )


@check(
    "unit-covers-window",
    Severity.ERROR,
    doc="A unit or an appliance stands before a window.",
    why="It would close the window, or its back would be seen from outside.",
    mend="End it beside the window, make it lower, or leave a `space over window`.",
    source="common practice",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        window at 30 wide 30 up 30 high 40
      }
    }
    run sink_wall on north from left length 40 {
      S1: open_base 40
    }
    """,
    good={"up 30": "up 42"},
    of_outlines=True,
)
def covers_window(site: Site) -> Iterator[Report]:
    rows: dict[tuple[int, str, Fraction], tuple[Feature, list[Standing]]] = {}
    for standing, feature in before(site, "window"):
        row = (id(feature), standing.run.name, standing.high)
        rows.setdefault(row, (feature, []))[1].append(standing)
    for feature, standings in rows.values():
        yield _covered(feature, tuple(standings))


def _covered(feature: Feature, standings: tuple[Standing, ...]) -> Report:
    first, names = standings[0], together(standings)
    one = len(standings) == 1
    return Report(
        f"{names} {'stands' if one else 'stand'} in front of {feature.name}",
        first.line,
        standings,
        (
            length(f"top of {names}", first.high, first.line),
            figure(f"{feature.name} begins at", feature.up),
            length("covered", first.high - feature.up.value, ruled=True),
        ),
        help=f"end {names} beside {feature.name}, or make {'it' if one else 'them'} lower",
        among=lambda some: _covered(feature, some),
    )


@check(
    "unit-meets-casing",
    Severity.ERROR,
    doc="A unit or an appliance runs into the casing of a window or doorway.",
    why="The casing stands out from the wall, so the unit's back doesn't reach the wall.",
    mend="Leave the width of the casing free: `space over window` does.",
    source="common practice",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        doorway at 40 wide 30 up 0 high 80 casing 3
      }
    }
    run sink_wall on north from left length 38 {
      space 2
      S1: door_base share  hung left
    }
    """,
    good={"casing 3": "casing 2"},
    of_outlines=True,
)
def meets_casing(site: Site) -> Iterator[Report]:
    for name, standings in site.on_wall.items():
        wall = site.walls.get(name)
        for feature in wall.features if wall is not None else ():
            if feature.casing.value <= 0:
                continue
            for standing in standings:
                if standing.placed.kind == "space" or not _stands_before(
                    standing, feature, feature.casing.value
                ):
                    continue
                if not _stands_before(standing, feature, Fraction(0)):
                    yield _into_casing(site, standing, feature)


def _into_casing(site: Site, standing: Standing, feature: Feature) -> Report:
    casing = feature.casing.value
    left, right = feature.at.value - casing, feature.at.value + feature.wide.value + casing
    low, high = feature.up.value - casing, feature.up.value + feature.high.value + casing
    ways = {
        f"{standing.name} ends at": (standing.right, "the casing begins at", left),
        "the casing ends at": (right, f"{standing.name} begins at", standing.left),
        f"top of {standing.name}": (standing.high, "underside of the casing", low),
        "top of the casing": (high, f"underside of {standing.name}", standing.low),
    }
    first, (end, second, begin) = min(ways.items(), key=lambda each: each[1][0] - each[1][2])
    return Report(
        f"{standing.name} runs {site.say(end - begin)} into the casing of {feature.name}",
        standing.line,
        (standing,),
        (
            length(first, end, standing.line),
            length(second, begin, feature.span),
            length("too far", end - begin, ruled=True),
        ),
        help=f"leave {site.say(end - begin)} more between them",
    )


@check(
    "unit-covers-doorway",
    Severity.ERROR,
    doc="A unit or an appliance stands before a doorway.",
    why="Nobody gets through.",
    mend="End the run before the doorway's casing.",
    source="common practice",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        doorway at 40 wide 30 up 0 high 80
      }
    }
    run sink_wall on north from left length 44 {
      S1: open_base 44
    }
    """,
    good={"length 44": "length 40", "open_base 44": "open_base 40"},
    of_outlines=True,
)
def covers_doorway(site: Site) -> Iterator[Report]:
    for standing, feature in before(site, "doorway"):
        yield Report(
            f"{standing.name} stands in {feature.name}",
            standing.line,
            (standing,),
            _shared_across(site, standing, feature),
            help=f"end {standing.name} before {feature.name}",
        )


@check(
    "unit-covers-radiator",
    Severity.ERROR,
    doc="A unit or an appliance stands before a radiator.",
    why="It doesn't fit there, and the radiator would heat its back.",
    mend="Leave a space, or have the radiator moved first.",
    source="common practice",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        radiator at 20 wide 30 up 4 high 24
      }
    }
    run sink_wall on north from left length 24 {
      S1: open_base 24
    }
    """,
    good={"at 20": "at 40"},
    of_outlines=True,
)
def covers_radiator(site: Site) -> Iterator[Report]:
    for standing, feature in before(site, "radiator"):
        yield Report(
            f"{standing.name} stands before {feature.name}",
            standing.line,
            (standing,),
            _shared_across(site, standing, feature),
            help=f"end {standing.name} beside it",
        )
