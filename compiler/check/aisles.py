"""Runs that face one another: whether what opens between them has the room."""

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction

from attrs import frozen

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.meetings import (
    FARTHEST,
    Meeting,
    by_thing,
    facing,
    key_of,
    meetings,
    overlap,
)
from casewright.compiler.check.passing import straits, words_of
from casewright.compiler.check.plan import Outline, bounds, shares
from casewright.compiler.check.site import Site, Standing, length
from casewright.compiler.model import Run
from casewright.lang.findings import Label, Severity


@check(
    "runs-too-near",
    Severity.ERROR,
    doc="Two runs face one another, and what opens in them runs into what stands opposite.",
    why="It is no fault of any one door or drawer: there is too little floor between the two.",
    mend="Move the two runs apart by what the report says, or make one of them shallower.",
    source="geometry: what opens the farthest, against what faces it",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72
      wall east  length 66
      wall south length 72
    }
    run one on north from right length 42 {
      space 2
      S1: dishwasher 20  confirmed
      S2: drawer_base 18
      space 2
    }
    run other on south from left length 42 {
      T1: open_base share
    }
    """,
    good={"length 66": "length 108"},
)
def runs_too_near(site: Site) -> Iterator[Report]:
    for met in site.once(across_aisles).values():
        worst = max(met, key=lambda each: each.short)
        meeting, short = worst.meeting, worst.short
        mover, run = meeting.mover, worst.other
        reach = bounds(mover.shapes)[3] - mover.standing.depth
        of_both = (
            standing
            for each in met
            for standing in (each.meeting.mover.standing, *each.meeting.with_)
        )
        about = _each_once((*of_both, *_in_a_strait(site, mover.standing.run, run)))
        yield Report(
            f"{mover.standing.run.name} and {run.name} are {site.say(short)} too near one another "
            "for what opens between them",
            mover.standing.line,
            _first(mover.standing, about),
            (
                length(f"{words_of(mover)} opens by", reach, mover.standing.line),
                length("before it are", reach - short),
                length("short", short, ruled=True),
            ),
            labels=(Label(run.span, "the other"),) if run.span is not None else (),
            help=f"move the two {site.say(short)} apart, or make one so much shallower",
        )


@frozen(eq=False)
class Met:
    """A meeting with what stands in the run opposite, and how much farther off that run must be."""

    meeting: Meeting
    other: Run
    short: Fraction


def across_aisles(site: Site) -> Mapping[frozenset[str], tuple[Met, ...]]:
    """What meets across the floor between two runs, by their names, where it is of several doors
    or drawers: of a single one it is that one's own fault."""
    found: dict[frozenset[str], list[Met]] = {}
    for meeting in site.once(meetings):
        run = meeting.mover.standing.run
        for other in meeting.with_:
            if facing(run, other.run):
                short = _short(site, meeting, other.run)
                if short is not None:
                    key = frozenset((run.name, other.run.name))
                    found.setdefault(key, []).append(Met(meeting, other.run, short))
    return {
        key: tuple(met)
        for key, met in found.items()
        if len({id(each.meeting.mover.standing) for each in met}) > 1
    }


def _short(site: Site, meeting: Meeting, other: Run) -> Fraction | None:
    """By how many whole steps of the job the other run must stand farther off, for its thing to be
    out of a mover's way; None where it never is."""
    mover, step = meeting.mover, site.job.precision.value
    outlines = tuple(
        mover.line.here(each.outline)
        for each in site.once(by_thing).get(key_of(meeting.fixed), ())
        if overlap(each.up, mover.up)
    )

    def clears(steps: int) -> bool:
        return not any(
            shares(shape, _farther(outline, step * steps))
            for shape in mover.shapes
            for outline in outlines
        )

    if not clears(FARTHEST):
        return None
    low, high = 0, FARTHEST
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if clears(middle) else (middle, high)
    return step * high


def _in_a_strait(site: Site, one: Run, other: Run) -> Iterator[Standing]:
    """What opens between two runs and leaves too little to pass."""
    found = site.once(straits).get(frozenset((one.name, other.name)), ())
    yield from (passage.mover.standing for passage in found)


def _farther(outline: Outline, by: Fraction) -> Outline:
    return tuple((x, y + by) for x, y in outline)


def _each_once(standings: Iterable[Standing]) -> tuple[Standing, ...]:
    return tuple({id(each): each for each in standings}.values())


def _first(standing: Standing, about: tuple[Standing, ...]) -> tuple[Standing, ...]:
    return (standing, *(each for each in about if each is not standing))
