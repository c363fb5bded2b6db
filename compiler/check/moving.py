"""Things that move: what a door, a drawer or an appliance's door meets on its way."""

from collections.abc import Iterator, Mapping
from fractions import Fraction

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.hands import hung_otherwise
from casewright.compiler.check.meetings import Meeting, key_of, meetings, needed, reached_by
from casewright.compiler.check.mends import corner_filled, shifted
from casewright.compiler.check.site import SQUARE, Site, figure, length
from casewright.compiler.check.sweeps import Fixed, Mover
from casewright.lang.findings import Edit, Figure, Severity
from casewright.lang.measure import Dimension, Measure


def _angle(words: str, degrees: Fraction, *, ruled: bool = False) -> Figure:
    return Figure(words, Measure(degrees, Dimension.ANGLE), None, "", ruled)


def _more_room(site: Site, by: Fraction | None, what: str) -> str:
    if by is None:
        return f"no filler helps: move {what}"
    return f"{site.say(abs(by))} more between them clears it: make the filler so much wider"


def _room_made(site: Site, mover: Mover, by: Fraction | None) -> tuple[Edit, ...]:
    """Moves a thing along its run by what clears it, seen on its mover's own line."""
    if by is None:
        return ()
    return shifted(site, mover.standing, -by if mover.line.mirrored else by)


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
    good={"hung left": "hung right"},
)
def door_meets_wall(site: Site) -> Iterator[Report]:
    for meeting in site.once(meetings):
        mover = meeting.mover
        if mover.kind != "swing" or not meeting.is_wall:
            continue
        reached = reached_by(mover, meeting.outline)
        wanted = min(SQUARE, mover.angle)
        if reached >= wanted:
            continue
        by = needed(site, meeting, wanted)
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
            edits=_room_made(site, mover, by) or hung_otherwise(site, mover),
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
    good={"swing 110deg": "swing 90deg"},
)
def door_opens_less(site: Site) -> Iterator[Report]:
    for meeting in site.once(meetings):
        mover = meeting.mover
        if mover.kind != "swing" or not meeting.is_wall or mover.angle <= SQUARE:
            continue
        reached = reached_by(mover, meeting.outline)
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
    good={"length 46": "length 50", "space 24": "space 28"},
)
def door_meets_fixed(site: Site) -> Iterator[Report]:
    for meeting in site.once(meetings):
        mover = meeting.mover
        if mover.kind != "swing" or meeting.is_wall:
            continue
        reached = reached_by(mover, meeting.outline)
        wanted = min(SQUARE, mover.angle)
        if reached < wanted:
            by = needed(site, meeting, wanted)
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
                edits=_room_made(site, mover, by) or hung_otherwise(site, mover),
                and_of=meeting.with_,
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
    good={"space 23": "space 24", "space 3": "space 2"},
)
def drawer_meets_fixed(site: Site) -> Iterator[Report]:
    travels = [each for each in site.once(meetings) if each.mover.kind == "travel"]
    first: dict[tuple[int, object], Meeting] = {}
    for each in travels:
        first.setdefault((id(each.mover.standing), key_of(each.fixed)), each)
    told: set[int] = set()
    for meeting in first.values():
        if id(meeting) in told:
            continue
        back = _back(first, meeting)
        told.update(id(each) for each in (meeting, back))
        yield _drawer_met(site, meeting, back)


def _back(first: Mapping[tuple[int, object], Meeting], meeting: Meeting) -> Meeting | None:
    """Where around a corner each of two things has a drawer that the other bars, the other's."""
    other = meeting.fixed.standing
    if other is None or other.run is meeting.mover.standing.run:
        return None
    mine = id(meeting.mover.standing)
    return next(
        (
            each
            for (mover, _), each in first.items()
            if mover == id(other) and id(each.fixed.standing) == mine
        ),
        None,
    )


def _drawer_met(site: Site, meeting: Meeting, back: Meeting | None) -> Report:
    mover = meeting.mover
    by = needed(site, meeting)
    rates = (by, needed(site, back)) if back is not None else (by,)
    known = [abs(each) for each in rates if each is not None]
    most = max(known) if len(known) == len(rates) else None
    what = f"a drawer of {mover.standing.name} runs into {meeting.fixed.name}"
    figures = (length("short between them", most),) if most is not None else ()
    more = _more_room(site, most, mover.standing.name)
    if back is None:
        edits = _room_made(site, mover, by) or _corner_made(site, mover, meeting.fixed, most)
        return Report(
            what,
            mover.standing.line,
            (mover.standing,),
            figures,
            help=more,
            edits=edits,
            and_of=meeting.with_,
        )
    return Report(
        f"{what}, and one of {back.mover.standing.name} into {back.fixed.name}",
        mover.standing.line,
        (mover.standing,),
        figures,
        help=more,
        edits=_corner_made(site, mover, meeting.fixed, most),
        and_of=(back.mover.standing,),
    )


def _corner_made(site: Site, mover: Mover, fixed: Fixed, by: Fraction | None) -> tuple[Edit, ...]:
    """Makes the filler of a dead corner wider in both runs."""
    if by is None or fixed.standing is None:
        return ()
    return corner_filled(site, mover.standing.run, fixed.standing.run, by)


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
    good={"length 46": "length 50", "space 20": "space 24"},
)
def appliance_blocked(site: Site) -> Iterator[Report]:
    for meeting in site.once(meetings):
        mover = meeting.mover
        if mover.kind != "appliance":
            continue
        if mover.leaf and reached_by(mover, meeting.outline) >= min(SQUARE, mover.angle):
            continue
        by = needed(site, meeting)
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
            edits=_room_made(site, mover, by),
            and_of=meeting.with_,
        )
