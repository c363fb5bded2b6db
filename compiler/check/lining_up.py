"""What should line up: counter, tops, toes, a sink and its window."""

from collections.abc import Iterator
from itertools import pairwise

from casewright.compiler.check.covering import spans
from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.mends import centred_on, moved_by
from casewright.compiler.check.site import Site, Standing, figure, length, toe_of
from casewright.lang.findings import Severity

LOW = "base_unit"


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
    good={"up 38": "up 39"},
    of_outlines=True,
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
                if standing.role != LOW or not spans(standing.left, standing.right, at, to):
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
    good={"high 34": "high 34 1/2"},
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
    good={"S1: open_base 20": "S1: open_base 20  toe_up 4 1/2"},
)
def toes_disagree(site: Site) -> Iterator[Report]:
    for _, row in site.rows:
        for left, right in pairwise(row):
            if left.unit is None or right.unit is None or left.low != right.low:
                continue
            one, other = toe_of(left), toe_of(right)
            if one is None or other is None:
                continue
            for words, here, there in (
                ("high", one.extents.up.high, other.extents.up.high),
                ("back", one.extents.deep.low, other.extents.deep.low),
            ):
                first, second = here.value, there.value
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
                        edits=moved_by(site, right, there, first - second)
                        or moved_by(site, left, here, second - first),
                        and_of=(left,),
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
    good={"30 1/4": "30"},
)
def tops_nearly_in_line(site: Site) -> Iterator[Report]:
    within = site.allowance("line_up_within")
    told: set[int] = set()
    for left, right in _in_sight(site) if within is not None else ():
        by = abs(left.high - right.high)
        if within is None or not 0 < by <= within.value or id(right) in told:
            continue
        told.add(id(right))
        # Where both are equally high, it is their undersides that miss one another.
        high = left.placed.height.value == right.placed.height.value
        yield Report(
            f"the tops of {left.name} and {right.name} are {site.say(by)} out of line",
            right.line,
            (right,),
            (
                length(f"top of {left.name}", left.high, left.line),
                length(f"top of {right.name}", right.high, right.line),
                length("out of line by", by, ruled=True),
            ),
            help=f"hang {right.name} {site.say(left.low)} up"
            if high
            else f"make {right.name} {site.say(left.high - right.low)} high",
            edits=site.edit(right.run.up, left.low)
            if high
            else site.edit(right.placed.height, left.high - right.low),
            and_of=(left,),
        )


def _in_sight(site: Site) -> Iterator[tuple[Standing, Standing]]:
    """Each two units, hung or tall, that follow one another on a wall or around its corner."""
    around = {corner.first: corner.second for corner in site.job.room.corners}
    seen = {wall: [each for each in row if _tops(each)] for wall, row in site.on_wall.items()}
    for wall, row in seen.items():
        yield from pairwise(row)
        beyond = seen.get(around.get(wall, ""), [])
        if row and beyond:
            yield row[-1], beyond[0]


def _tops(standing: Standing) -> bool:
    return (
        standing.unit is not None
        and standing.placed.kind == "unit"
        and standing.role not in (LOW, "")
    )


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
    good={"length 54": "length 53", "space 18": "space 17"},
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
                        edits=centred_on(site, standing, window.name),
                    )
