"""Runs in the room: what units cover, what they stand against, what should line up."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.site import Site, Standing, assemblies, figure, length, parts
from casewright.compiler.model import Assembly, Feature, Part, Unit, Wall
from casewright.compiler.rooms.angles import direction
from casewright.lang.findings import Figure, Label, Severity

PIPES = ("waste", "water", "gas")
WET = ("sink", "dishes")
"""What stands before its own pipes on purpose."""

LOW = "base_unit"

STRAIGHT = Fraction(1, 16)
"""Out of square by so much, a unit still stands against a wall without a filler."""


def _spans(low: Fraction, high: Fraction, from_: Fraction, to: Fraction) -> bool:
    """Whether a stretch and another, which may be a point, share more than an end."""
    if from_ < to:
        return low < to and from_ < high
    return low < from_ < high


def _stands_before(standing: Standing, feature: Feature, casing: Fraction) -> bool:
    at, up = feature.at.value, feature.up.value
    return _spans(
        standing.left, standing.right, at - casing, at + feature.wide.value + casing
    ) and _spans(standing.low, standing.high, up - casing, up + feature.high.value + casing)


def _before(site: Site, *kinds: str) -> Iterator[tuple[Standing, Feature]]:
    """Every thing that stands before a feature of its wall, the casing left out."""
    for name, standings in site.on_wall.items():
        wall = site.walls.get(name)
        for feature in wall.features if wall is not None else ():
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
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        window at 30 wide 30 up 42 high 40
      }
    }
    run sink_wall on north from left length 40 {
      S1: open_base 40
    }
    """,
)
def covers_window(site: Site) -> Iterator[Report]:
    for standing, feature in _before(site, "window"):
        yield Report(
            f"{standing.name} stands in front of {feature.name}",
            standing.line,
            (standing,),
            (
                length(f"top of {standing.name}", standing.high, standing.line),
                figure(f"{feature.name} begins at", feature.up),
                length("covered", standing.high - feature.up.value, ruled=True),
            ),
            help=f"end {standing.name} beside {feature.name}, or make it lower",
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
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        doorway at 40 wide 30 up 0 high 80 casing 2
      }
    }
    run sink_wall on north from left length 38 {
      space 2
      S1: door_base share  hung left
    }
    """,
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
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        doorway at 40 wide 30 up 0 high 80
      }
    }
    run sink_wall on north from left length 40 {
      S1: open_base 40
    }
    """,
)
def covers_doorway(site: Site) -> Iterator[Report]:
    for standing, feature in _before(site, "doorway"):
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
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        radiator at 40 wide 30 up 4 high 24
      }
    }
    run sink_wall on north from left length 24 {
      S1: open_base 24
    }
    """,
)
def covers_radiator(site: Site) -> Iterator[Report]:
    for standing, feature in _before(site, "radiator"):
        yield Report(
            f"{standing.name} stands before {feature.name}",
            standing.line,
            (standing,),
            _shared_across(site, standing, feature),
            help=f"end {standing.name} beside it",
        )


@check(
    "unit-covers-outlet",
    Severity.WARNING,
    doc="An outlet lies behind a unit.",
    why="It can't be reached any more, unless the back is cut out for it.",
    mend="Move the unit or the outlet; where it is meant, accept the finding and say so.",
    source="common practice",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        outlet at 20 up 12
      }
    }
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
        outlet at 20 up 44
      }
    }
    run sink_wall on north from left length 24 {
      S1: open_base 24
    }
    """,
)
def covers_outlet(site: Site) -> Iterator[Report]:
    for standing, feature in _before(site, "outlet"):
        if standing.placed.kind == "unit":
            yield Report(
                f"{feature.name} lies behind {standing.name}",
                standing.line,
                (standing,),
                labels=_label(feature, "it is here"),
                help="move one of them, or accept it and say what is cut out for it",
            )


@check(
    "pipe-behind-unit",
    Severity.WARNING,
    doc=(
        "A waste, water or gas pipe comes out of the wall behind a unit that holds no sink. Behind "
        "drawers it is an error: they would be swept into the trap."
    ),
    why="The unit's back, shelves and drawers meet the pipe, and nobody reaches its valve.",
    mend="Put the unit that `holds sink` before it, or have the pipe moved.",
    source="common practice",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        waste at 20 up 18
      }
    }
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
        waste at 20 up 18
      }
    }
    run sink_wall on north from left length 26 {
      space 2
      S1: sink_base 24  hung left
    }
    """,
)
def pipe_behind(site: Site) -> Iterator[Report]:
    for standing, feature in _before(site, *PIPES):
        if standing.placed.kind != "unit" or any(role in WET for role in standing.stands.serves):
            continue
        unit = standing.unit
        drawers = unit is not None and any(
            _spans(
                standing.left + tray.extents.box.across[0],
                standing.left + tray.extents.box.across[1],
                feature.at.value,
                feature.at.value + feature.wide.value,
            )
            for tray in assemblies(unit, "tray")
        )
        what = "drawers of " if drawers else ""
        yield Report(
            f"{feature.name} comes out of the wall behind {what}{standing.name}",
            standing.line,
            (standing,),
            labels=_label(feature, "it is here"),
            help="put the unit that holds the sink before it, or have it moved",
            severity=Severity.ERROR if drawers else None,
        )


def _label(feature: Feature, text: str) -> tuple[Label, ...]:
    return (Label(feature.span, text),) if feature.span is not None else ()


@check(
    "window-below-counter",
    Severity.WARNING,
    doc="A window, with its casing, begins below the top of the counter that runs under it.",
    why="The counter would stand before the glass, or the casing must be cut.",
    mend="Lower the counter, or end it beside the window.",
    source="common practice",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        window at 10 wide 30 up 38 high 40 casing 3
      }
    }
    run sink_wall on north from left length 40 {
      S1: open_base 40
    }
    """,
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        window at 10 wide 30 up 39 high 40 casing 3
      }
    }
    run sink_wall on north from left length 40 {
      S1: open_base 40
    }
    """,
)
def window_below_counter(site: Site) -> Iterator[Report]:
    counter = site.job.room.counter
    for name, standings in site.on_wall.items():
        wall = site.walls.get(name)
        for feature in wall.features if wall is not None and counter.value > 0 else ():
            under = feature.up.value - feature.casing.value
            if feature.kind != "window" or under >= counter.value or feature.up.value <= 0:
                continue
            at = feature.at.value - feature.casing.value
            to = feature.at.value + feature.wide.value + feature.casing.value
            for standing in standings:
                if standing.role != LOW or not _spans(standing.left, standing.right, at, to):
                    continue
                if standing.high > under:
                    continue
                yield Report(
                    f"the counter stands {site.say(counter.value - under)} above the underside of "
                    f"{feature.name}",
                    feature.span,
                    (),
                    (
                        figure("top of the counter", counter),
                        length("underside of the window", under, feature.span),
                        length("over", counter.value - under, ruled=True),
                    ),
                    help="lower the counter, or end it beside the window",
                )
                break


@check(
    "top-off-counter",
    Severity.WARNING,
    doc="The top of a base unit isn't where the counter lies.",
    why="The counter would rock on it or hang above it.",
    mend="Make the unit as high as the counter less its thickness.",
    source="arithmetic: counter height less counter thickness",
    bad="""
    use plain_room
    run sink_wall on north from left length 24 {
      S1: open_base 24  high 34
    }
    """,
    good="""
    use plain_room
    run sink_wall on north from left length 24 {
      S1: open_base 24  high 34 1/2
    }
    """,
)
def top_off_counter(site: Site) -> Iterator[Report]:
    room = site.job.room
    wanted = room.counter.value - room.counter_thick.value
    if room.counter.value <= 0:
        return
    for standing in site.standings:
        if standing.role != LOW or standing.high == wanted:
            continue
        by = abs(standing.high - wanted)
        word = "above" if standing.high > wanted else "under"
        yield Report(
            f"{standing.name} ends {site.say(by)} {word} the underside of the counter",
            standing.line,
            (standing,),
            (
                figure("counter", room.counter),
                figure("less its thickness", room.counter_thick),
                length("underside", wanted, ruled=True),
                length(f"top of {standing.name}", standing.high, standing.line),
                length("off by", by, ruled=True),
            ),
            help=f"make it {site.say(wanted - standing.low)} high",
            edits=site.edit(standing.placed.height, wanted - standing.low),
        )


@check(
    "toes-disagree",
    Severity.WARNING,
    doc="The toes of two neighbours differ in height or in setback.",
    why="The toe's skin runs past both of them in one piece.",
    mend="Give both the same toe.",
    source="common practice",
    bad="""
    use plain_room
    run sink_wall on north from left length 40 {
      S1: open_base 20
      S2: open_base 20  toe_up 4 1/2
    }
    """,
    good="""
    use plain_room
    run sink_wall on north from left length 40 {
      S1: open_base 20  toe_up 4 1/2
      S2: open_base 20  toe_up 4 1/2
    }
    """,
)
def toes_disagree(site: Site) -> Iterator[Report]:
    for _, row in site.rows:
        for left, right in pairwise(row):
            if left.unit is None or right.unit is None or left.low != right.low:
                continue
            one = next(parts(left.unit, "toe"), None)
            other = next(parts(right.unit, "toe"), None)
            if one is None or other is None:
                continue
            for words, first, second in (
                ("high", one.box.up[1], other.box.up[1]),
                ("back", one.box.deep[0], other.box.deep[0]),
            ):
                if first != second:
                    yield Report(
                        f"the toes of {left.name} and {right.name} differ by "
                        f"{site.say(abs(first - second))}",
                        right.line,
                        (right,),
                        (
                            length(f"{left.name} {words}", first, left.line),
                            length(f"{right.name} {words}", second, right.line),
                            length("differ by", abs(first - second), ruled=True),
                        ),
                        help="give both the same toe",
                    )


@check(
    "tops-nearly-in-line",
    Severity.WARNING,
    doc="The tops of two neighbours that hang on the wall, or stand tall, differ by a little.",
    why="So small a step looks like a mistake, and a crown can't run over it.",
    mend="Bring them to one line, or make the step one that is meant.",
    source="common practice",
    bad="""
    use plain_room
    run uppers on north from left {
      space 2
      U1: wall_unit share  high 30  hung left
      U2: wall_unit share  high 30 1/4  hung left
      space 2
    }
    """,
    good="""
    use plain_room
    run uppers on north from left {
      space 2
      U1: wall_unit share  high 30  hung left
      U2: wall_unit share  high 30  hung left
      space 2
    }
    """,
)
def tops_nearly_in_line(site: Site) -> Iterator[Report]:
    within = site.allowance("line_up_within")
    for _, row in site.rows:
        for left, right in pairwise(row):
            if within is None or left.unit is None or right.unit is None:
                continue
            if LOW in (left.role, right.role) or "" in (left.role, right.role):
                continue
            if "filler" in (left.placed.kind, right.placed.kind):
                continue
            by = abs(left.high - right.high)
            if 0 < by <= within.value:
                yield Report(
                    f"the tops of {left.name} and {right.name} are {site.say(by)} out of line",
                    right.line,
                    (right,),
                    (
                        length(f"top of {left.name}", left.high, left.line),
                        length(f"top of {right.name}", right.high, right.line),
                        length("out of line by", by, ruled=True),
                    ),
                    help=f"make {right.name} {site.say(left.high - right.low)} high",
                    edits=site.edit(right.placed.height, left.high - right.low),
                )


def _corner_at(site: Site, wall: Wall, end: str) -> Fraction | None:
    """The inside angle at a wall's left or right end, in degrees."""
    for corner in site.job.room.corners:
        if (corner.second if end == "left" else corner.first) == wall.name:
            return corner.angle.value
    return None


@check(
    "scribe-too-narrow",
    Severity.ERROR,
    doc=(
        "The wall at a run's end leaves the square by more, over the depth of what stands there, "
        "than the filler between them can be scribed for."
    ),
    why="The filler would be planed away before it fits, or leave an open wedge.",
    mend="Make the filler at least as wide as the report says.",
    source="arithmetic: depth x cotangent of the corner's angle",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall west  length 60
      wall north length 72
      corner west north 92deg
    }
    run sink_wall on north from left length 24 {
      filler 1/2 scribe
      S1: open_base share
    }
    """,
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall west  length 60
      wall north length 72
      corner west north 92deg
    }
    run sink_wall on north from left length 24 {
      filler 1 1/2 scribe
      S1: open_base share
    }
    """,
)
def scribe_too_narrow(site: Site) -> Iterator[Report]:
    least = site.allowance("scribe_least")
    for run, row in site.rows:
        wall = site.walls.get(run.wall)
        if wall is None or not row or least is None:
            continue
        for end, first in (("left", row[0]), ("right", row[-1])):
            degrees = _corner_at(site, wall, end)
            if degrees is None or degrees == 90 or first.placed.kind == "space":
                continue
            yield from _scribe(site, first, row, degrees, end, wall.length.value)


def _scribe(
    site: Site,
    first: Standing,
    row: tuple[Standing, ...],
    degrees: Fraction,
    end: str,
    long: Fraction,
) -> Iterator[Report]:
    cosine, sine = direction(degrees)
    if sine <= 0:
        return
    filler = first.placed.kind == "filler"
    beside = (row[1] if end == "left" else row[-2]) if filler and len(row) > 1 else first
    off = abs(beside.depth * cosine / sine)
    from_wall = first.left if end == "left" else long - first.right
    has = first.placed.width.value if filler else Fraction(0)
    if from_wall > off or off <= (has if filler else STRAIGHT):
        return
    least = site.allowance("scribe_least")
    wanted = site.up_to_step(max(off, least.value if least is not None else off))
    yield Report(
        f"the wall beside {first.name} is {site.say(off)} out of square over its depth",
        first.line,
        (first,),
        (
            figure("depth", beside.placed.depth),
            length("out of square over it", off),
            length("the filler has", has, first.line),
            length("short", off - has, ruled=True),
        ),
        help=f"make the filler {site.say(wanted)}"
        if filler
        else f"add a filler of {site.say(wanted)}",
        edits=site.edit(first.placed.width, wanted) if filler else (),
    )


@check(
    "no-scribe-at-wall",
    Severity.ADVICE,
    doc="A unit with a door or a drawer stands right against a wall.",
    why=("No wall is straight: its door or drawer will scrape, and nothing is left to be scribed."),
    mend="Put a `filler` between it and the wall.",
    source="common practice",
    bad="""
    use plain_room
    run sink_wall on north from left {
      S1: drawer_base 20
      space share
    }
    """,
    good="""
    use plain_room
    run sink_wall on north from left {
      filler 1
      S1: drawer_base 20
      space share
    }
    """,
)
def no_scribe_at_wall(site: Site) -> Iterator[Report]:
    least = site.allowance("scribe_least")
    for run, row in site.rows:
        wall = site.walls.get(run.wall)
        if wall is None or not row or least is None:
            continue
        for first, touches in (
            (row[0], row[0].left == 0),
            (row[-1], row[-1].right == wall.length.value),
        ):
            unit = first.unit
            if not touches or unit is None or first.placed.kind != "unit":
                continue
            if _moves(unit) and not _past(first, wall.length.value):
                yield Report(
                    f"{first.name} stands right against the wall",
                    first.line,
                    (first,),
                    help=f"put a filler of {site.say(least.value)} or more between",
                )


def _past(standing: Standing, end: Fraction) -> bool:
    """Whether a part reaches past the wall, which has a report of its own."""
    return standing.unit is not None and any(
        standing.left + part.box.across[0] < 0 or standing.left + part.box.across[1] > end
        for part in standing.unit.parts
    )


def _moves(unit: Unit) -> bool:
    moving: tuple[Part | Assembly, ...] = (*unit.parts, *unit.assemblies)
    return any(each.motion is not None for each in moving)


@check(
    "sink-off-window",
    Severity.WARNING,
    doc="A sink stands nearly, but not quite, in the middle of a window.",
    why="So small an offset looks like a mistake for as long as the kitchen stands.",
    mend="Say `centred on window`, or move it by more.",
    source="common practice",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        window at 20 wide 30 up 42 high 40
      }
    }
    run sink_wall on north from left length 54 {
      space 18
      S1: sink_base 36  hung left
    }
    """,
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        window at 20 wide 30 up 42 high 40
      }
    }
    run sink_wall on north from left length 53 {
      space 17
      S1: sink_base 36  hung left
    }
    """,
)
def sink_off_window(site: Site) -> Iterator[Report]:
    within = site.allowance("sink_off_within")
    for name, standings in site.on_wall.items():
        wall = site.walls.get(name)
        for standing in standings if wall is not None and within is not None else ():
            if "sink" not in standing.stands.serves:
                continue
            middle = (standing.left + standing.right) / 2
            for window in wall.features if wall is not None else ():
                centre = window.at.value + window.wide.value / 2
                by = abs(middle - centre)
                if window.kind == "window" and within is not None and 0 < by <= within.value:
                    yield Report(
                        f"{standing.name} is {site.say(by)} off the middle of {window.name}",
                        standing.line,
                        (standing,),
                        (
                            length(f"middle of {window.name}", centre, window.span),
                            length(f"middle of {standing.name}", middle, standing.line),
                            length("off by", by, ruled=True),
                        ),
                        help=f"say: centred on {window.name}",
                    )
