"""Things that move: what a door, a drawer or an appliance's door meets on its way."""

from collections.abc import Callable, Iterator
from fractions import Fraction

from attrs import frozen

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.plan import Outline, Shape, apart, moved, outline_of, shares
from casewright.compiler.check.site import Site, figure, length
from casewright.compiler.check.sweeps import (
    Fixed,
    Mover,
    Nearby,
    cells_of,
    door_sweep,
    fixed_things,
    movers,
    turn_of,
)
from casewright.compiler.model import Range
from casewright.lang.findings import Figure, Severity
from casewright.lang.measure import Dimension, Measure

SQUARE = Fraction(90)
FARTHEST = 1 << 12
"""Steps of the job's precision that a thing is moved at most, to find where it would clear."""
CHORDS = 16
"""Chords that a swing is looked at with, where two of them may meet."""


@frozen(eq=False)
class Meeting:
    """A mover and what it runs into."""

    mover: Mover
    fixed: Fixed
    outline: Outline
    """The fixed thing's, on the mover's own line."""

    @property
    def is_wall(self) -> bool:
        return self.fixed.kind == "wall"


def _overlap(first: Range, second: Range) -> bool:
    return first[0] < second[1] and second[0] < first[1]


def meetings(site: Site) -> tuple[Meeting, ...]:
    """Every mover that runs into something fixed; of one thing's outlines, one meeting."""
    nearby = Nearby.of(fixed_things(site))
    found: list[Meeting] = []
    for mover in site.once(all_movers):
        met: set[object] = set()
        for fixed in nearby.to(mover):
            key = id(fixed.standing) if fixed.standing is not None else fixed.name
            if fixed.standing is mover.standing or not _overlap(mover.up, fixed.up) or key in met:
                continue
            outline = mover.line.here(fixed.outline)
            # What meets when both are closed is another fault, with a report of its own.
            if any(shares(closed, outline) for closed in mover.closed):
                continue
            if any(shares(shape, outline) for shape in mover.shapes):
                met.add(key)
                found.append(Meeting(mover, _foremost(nearby, mover, fixed), outline))
    return tuple(found)


def _foremost(nearby: Nearby, mover: Mover, fixed: Fixed) -> Fixed:
    """Of the outlines of one thing that a mover meets, the one that is met first: its pull before
    its front, its front before its box."""
    if fixed.standing is None:
        return fixed
    own = [
        each
        for each in nearby.to(mover)
        if each.standing is fixed.standing
        and _overlap(mover.up, each.up)
        and any(shares(shape, mover.line.here(each.outline)) for shape in mover.shapes)
    ]
    order = {True: 0, False: 1}
    return min(own, key=lambda each: order["pull" in each.name or "handle" in each.name])


def all_movers(site: Site) -> tuple[Mover, ...]:
    return tuple(movers(site))


def _clear_by(
    site: Site, shapes: Callable[[Fraction], tuple[Shape, ...]], outlines: tuple[Outline, ...]
) -> Fraction | None:
    """The least whole number of the job's steps, to the right or the left, by which a mover clears
    all `outlines`; more than nothing to the right. None where it never does."""
    step = site.job.precision.value

    def clears(steps: int) -> bool:
        return not any(
            shares(shape, outline) for shape in shapes(step * steps) for outline in outlines
        )

    best: list[int] = []
    for way in (1, -1):
        if not clears(way * FARTHEST):
            continue
        low, high = 0, FARTHEST
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (low, middle) if clears(way * middle) else (middle, high)
        best.append(way * high)
    return step * min(best, key=abs) if best else None


def _needed(site: Site, meeting: Meeting, degrees: Fraction | None = None) -> Fraction | None:
    mover = meeting.mover
    base = mover.shapes
    if degrees is not None:
        base = door_sweep(mover.leaf, mover.pivot, degrees)
    outlines = tuple(
        mover.line.here(each.outline)
        for each in site.once(_by_thing).get(_key(meeting.fixed), ())
        if _overlap(each.up, mover.up)
    )
    return _clear_by(site, lambda by: tuple(moved(shape, by) for shape in base), outlines)


def _key(fixed: Fixed) -> object:
    return id(fixed.standing) if fixed.standing is not None else fixed.name


def _by_thing(site: Site) -> dict[object, list[Fixed]]:
    found: dict[object, list[Fixed]] = {}
    for fixed in fixed_things(site):
        found.setdefault(_key(fixed), []).append(fixed)
    return found


def _reached(mover: Mover, outline: Outline) -> Fraction:
    """How far a door opens, in whole degrees, before it meets an outline."""
    low, high = 0, int(mover.angle)
    while high - low > 1:
        middle = (low + high) // 2
        sweep = door_sweep(mover.leaf, mover.pivot, Fraction(middle))
        if any(shares(shape, outline) for shape in sweep):
            high = middle
        else:
            low = middle
    return Fraction(low)


def _angle(words: str, degrees: Fraction, *, ruled: bool = False) -> Figure:
    return Figure(words, Measure(degrees, Dimension.ANGLE), None, "", ruled)


def _more_room(site: Site, by: Fraction | None, what: str) -> str:
    if by is None:
        return f"no filler helps: move {what}"
    return f"{site.say(abs(by))} more between them clears it: make the filler so much wider"


@check(
    "door-meets-wall",
    Severity.ERROR,
    doc="A door can't open square, because it or its pull meets a wall.",
    why="Drawers and shelves behind it don't come past, and the pull marks the wall.",
    mend="Hang it on the other side, or make the filler as wide as the report says.",
    source="geometry: at 90 degrees a door stands in line with its closed edge, its pull beyond",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall west  length 60
      wall north length 72
    }
    run sink_wall on north from left length 26 {
      filler 1 scribe
      S1: door_base share  hung left
      space 3
    }
    """,
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall west  length 60
      wall north length 72
    }
    run sink_wall on north from left length 26 {
      filler 1 scribe
      S1: door_base share  hung right
      space 3
    }
    """,
)
def door_meets_wall(site: Site) -> Iterator[Report]:
    for meeting in site.once(meetings):
        mover = meeting.mover
        if mover.kind != "swing" or not meeting.is_wall:
            continue
        reached = _reached(mover, meeting.outline)
        wanted = min(SQUARE, mover.angle)
        if reached >= wanted:
            continue
        by = _needed(site, meeting, wanted)
        yield Report(
            f"the door of {mover.standing.name} opens to {reached}deg only, then meets "
            f"{meeting.fixed.name}",
            mover.standing.line,
            (mover.standing,),
            (
                _angle("wants", wanted),
                _angle("reaches", reached),
                _angle("short", wanted - reached, ruled=True),
            ),
            help=_more_room(site, by, mover.standing.name) + ", or hang it on the other side",
        )


@check(
    "door-opens-less",
    Severity.ADVICE,
    doc="A door opens square but not as far as its hinge would let it: a wall is in the way.",
    why="It will be pushed against the wall, and its hinges bent.",
    mend="Set a stop, or make the filler wider.",
    source="geometry",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall west  length 60
      wall north length 72
    }
    run sink_wall on north from left length 26 {
      filler 3 scribe
      S1: door_base share  hung left  swing 110deg
      space 3
    }
    """,
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall west  length 60
      wall north length 72
    }
    run sink_wall on north from left length 26 {
      filler 3 scribe
      S1: door_base share  hung left  swing 90deg
      space 3
    }
    """,
)
def door_opens_less(site: Site) -> Iterator[Report]:
    for meeting in site.once(meetings):
        mover = meeting.mover
        if mover.kind != "swing" or not meeting.is_wall or mover.angle <= SQUARE:
            continue
        reached = _reached(mover, meeting.outline)
        if reached >= SQUARE:
            yield Report(
                f"the door of {mover.standing.name} opens to {reached}deg of {mover.angle}deg, "
                f"then meets {meeting.fixed.name}",
                mover.standing.line,
                (mover.standing,),
                (
                    _angle("its hinge opens", mover.angle),
                    _angle("reaches", reached),
                ),
                help="set a stop, or make the filler wider",
            )


@check(
    "door-meets-fixed",
    Severity.ERROR,
    doc="A door, or its pull, runs into something that can't move before it stands open square.",
    why="It can't be opened as far as it must.",
    mend="Hang it on the other side, or widen the filler between the two.",
    source="geometry: the door's far corners and its pull, turned about its hinge side",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall west  length 60
      wall north length 72
    }
    run west_wall on west from right length 50 {
      W1: open_base share
      space 26
    }
    run sink_wall on north from left length 46 {
      space 24
      S1: door_base 20  hung left
      space 2
    }
    """,
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall west  length 60
      wall north length 72
    }
    run west_wall on west from right length 50 {
      W1: open_base share
      space 26
    }
    run sink_wall on north from left length 50 {
      space 28
      S1: door_base 20  hung left
      space 2
    }
    """,
)
def door_meets_fixed(site: Site) -> Iterator[Report]:
    for meeting in site.once(meetings):
        mover = meeting.mover
        if mover.kind != "swing" or meeting.is_wall:
            continue
        reached = _reached(mover, meeting.outline)
        wanted = min(SQUARE, mover.angle)
        if reached < wanted:
            by = _needed(site, meeting, wanted)
            yield Report(
                f"the door of {mover.standing.name} opens to {reached}deg only, then meets "
                f"{meeting.fixed.name}",
                mover.standing.line,
                (mover.standing,),
                (
                    _angle("wants", wanted),
                    _angle("reaches", reached),
                    _angle("short", wanted - reached, ruled=True),
                ),
                help=_more_room(site, by, mover.standing.name) + ", or hang it on the other side",
            )


@check(
    "drawer-meets-fixed",
    Severity.ERROR,
    doc="A drawer, its front or its pull runs into something that can't move.",
    why=(
        "It doesn't come out. This is what the filler in a corner is for: fronts and pulls of the "
        "two runs must pass one another, and a range's handle stands out farther than a pull."
    ),
    mend="Make the filler in the corner as much wider as the report says.",
    source="geometry: the drawer's own travel, its front and its pull",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall west  length 60
      wall north length 72
    }
    run west_wall on west from right length 50 {
      W1: open_base share
      space 26
    }
    run sink_wall on north from left length 46 {
      space 23
      S1: drawer_base 20
      space 3
    }
    """,
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall west  length 60
      wall north length 72
    }
    run west_wall on west from right length 50 {
      W1: open_base share
      space 26
    }
    run sink_wall on north from left length 46 {
      space 24
      S1: drawer_base 20
      space 2
    }
    """,
)
def drawer_meets_fixed(site: Site) -> Iterator[Report]:
    told: set[tuple[int, object]] = set()
    for meeting in site.once(meetings):
        mover = meeting.mover
        key = (id(mover.standing), _key(meeting.fixed))
        if mover.kind != "travel" or key in told:
            continue
        told.add(key)
        by = _needed(site, meeting)
        yield Report(
            f"a drawer of {mover.standing.name} runs into {meeting.fixed.name}",
            mover.standing.line,
            (mover.standing,),
            (length("short between them", abs(by)),) if by is not None else (),
            help=_more_room(site, by, mover.standing.name),
        )


@check(
    "appliance-door-blocked",
    Severity.ERROR,
    doc="The door of an appliance runs into something that can't move.",
    why="It doesn't open, and the maker won't take it back.",
    mend="Move it along the run, or leave as much more room as the report says.",
    source="geometry: the reach of the open door and its handle",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall west  length 60
      wall north length 72
    }
    run west_wall on west from right length 50 {
      W1: open_base share
      space 26
    }
    run sink_wall on north from left length 46 {
      space 20
      S1: dishwasher 24  confirmed
      space 2
    }
    """,
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall west  length 60
      wall north length 72
    }
    run west_wall on west from right length 50 {
      W1: open_base share
      space 26
    }
    run sink_wall on north from left length 50 {
      space 24
      S1: dishwasher 24  confirmed
      space 2
    }
    """,
)
def appliance_blocked(site: Site) -> Iterator[Report]:
    for meeting in site.once(meetings):
        mover = meeting.mover
        if mover.kind != "appliance":
            continue
        if mover.leaf and _reached(mover, meeting.outline) >= min(SQUARE, mover.angle):
            continue
        by = _needed(site, meeting)
        reach = mover.standing.stands.reach
        yield Report(
            f"the door of {mover.standing.name} runs into {meeting.fixed.name}",
            mover.standing.line,
            (mover.standing,),
            (
                *((figure("its door reaches", reach),) if reach is not None else ()),
                *((length("short between them", abs(by), ruled=True),) if by is not None else ()),
            ),
            help=f"leave {site.say(abs(by))} more" if by is not None else "move one of them",
        )


@check(
    "sweeps-meet",
    Severity.WARNING,
    doc="Two doors or drawers of different runs meet when both are open.",
    why="One has to be closed before the other opens, and someone will forget.",
    mend="Hang a door on its other side, or widen the filler in the corner.",
    source="geometry",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall west  length 60
      wall north length 72
    }
    run west_wall on west from right length 48 {
      W1: drawer_base share
      space 28
    }
    run sink_wall on north from left length 50 {
      space 28
      S1: drawer_base 20
      space 2
    }
    """,
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall west  length 60
      wall north length 72
    }
    run west_wall on west from right length 48 {
      W1: open_base share
      space 28
    }
    run sink_wall on north from left length 50 {
      space 28
      S1: drawer_base 20
      space 2
    }
    """,
)
def sweeps_meet(site: Site) -> Iterator[Report]:
    told: set[tuple[int, int]] = set()
    cells: dict[tuple[int, int], list[Mover]] = {}
    for mover in site.once(all_movers):
        for cell in cells_of(mover):
            for other in cells.get(cell, ()):
                key = (id(mover.standing), id(other.standing))
                if key in told or other.standing.run is mover.standing.run:
                    continue
                if not _overlap(mover.up, other.up) or apart(mover.around, other.around):
                    continue
                if _meet(_swept(mover), _swept(other)):
                    told.add(key)
                    yield _crossing(mover, other)
            cells.setdefault(cell, []).append(mover)


def _swept(mover: Mover) -> tuple[Outline, ...]:
    """What a mover sweeps, as outlines in plan."""
    turns = tuple(turn_of(mover.angle * step / CHORDS) for step in range(1, CHORDS + 1))
    return tuple(
        tuple(mover.line.place(point) for point in outline_of(shape, turns))
        for shape in mover.shapes
    )


def _meet(first: tuple[Outline, ...], second: tuple[Outline, ...]) -> bool:
    return any(shares(one, other) for one in first for other in second)


def _crossing(mover: Mover, other: Mover) -> Report:
    words = {"swing": "the door of", "travel": "a drawer of", "appliance": "the door of"}
    first = f"{words[other.kind]} {other.standing.name}"
    second = f"{words[mover.kind]} {mover.standing.name}"
    return Report(
        f"{second} and {first} meet when both are open",
        mover.standing.line,
        (mover.standing,),
        help=f"{first} has to be closed before {second} is opened",
    )
