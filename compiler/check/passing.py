"""Things that are open together, and who still gets past them."""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from attrs import evolve, frozen

from casewright.compiler.check.declare import Gathered, Report, check
from casewright.compiler.check.grid import Grid
from casewright.compiler.check.meetings import all_movers, facing, fixed_grid, overlap
from casewright.compiler.check.plan import (
    Outline,
    bounds,
    common,
    outline_of,
    rectangle,
    shares,
    turned_about,
)
from casewright.compiler.check.site import SQUARE, Site, Standing, figure, length
from casewright.compiler.check.sweeps import Fixed, Mover, around, turn_of
from casewright.lang.findings import Severity

CHORDS = 16
"""Chords that a swing is looked at with, where two of them may meet."""


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
    good={"W1: drawer_base": "W1: open_base"},
)
def sweeps_meet(site: Site) -> Iterator[Report]:
    told: set[tuple[int, int]] = set()
    across: dict[frozenset[str], Gathered] = {}
    grid: Grid[Mover] = Grid()
    for mover in site.once(all_movers):
        for other in grid.near(mover.around):
            key = (id(mover.standing), id(other.standing))
            if key in told or _beside(mover, other) or not overlap(mover.up, other.up):
                continue
            if _meet(_swept(mover), _swept(other)):
                told.add(key)
                yield _crossing(mover, other, _across(across, mover, other))
        grid.add(mover, mover.around)


def _beside(mover: Mover, other: Mover) -> bool:
    """Whether two stand on one line: neighbours' doors lean over one another, and none minds. The
    doors of one unit are opened one after the other."""
    if mover.standing.placed.address == other.standing.placed.address:
        return True
    run, beside = mover.standing.run, other.standing.run
    return run.wall == beside.wall and run.facing == beside.facing


def _swept(mover: Mover) -> tuple[Outline, ...]:
    """What a mover sweeps, as outlines in plan."""
    turns = tuple(turn_of(mover.angle * step / CHORDS) for step in range(1, CHORDS + 1))
    return tuple(
        tuple(mover.line.place(point) for point in outline_of(shape, turns))
        for shape in mover.shapes
    )


def _meet(first: tuple[Outline, ...], second: tuple[Outline, ...]) -> bool:
    return any(shares(one, other) for one in first for other in second)


def words_of(mover: Mover) -> str:
    words = {"swing": "the door of", "travel": "a drawer of", "appliance": "the door of"}
    return f"{words[mover.kind]} {mover.standing.name}"


def _across(across: dict[frozenset[str], Gathered], mover: Mover, other: Mover) -> Gathered | None:
    """What gathers all that meet across one aisle; around a corner each two are told alone."""
    run, beyond = mover.standing.run, other.standing.run
    if not facing(run, beyond):
        return None
    names = frozenset((run.name, beyond.name))
    return across.setdefault(names, Gathered(names, _all_that_meet))


def _all_that_meet(reports: Sequence[Report]) -> Report:
    first, *others = reports
    if not others:
        return first
    more = f"so do {len(others)} more" if len(others) > 1 else "so does one more"
    return evolve(
        first,
        headline=f"{first.headline}; {more} of the two runs that face one another",
        help="what stands open on one side is closed before its like opposite is opened",
    )


def _crossing(mover: Mover, other: Mover, gathered: Gathered | None) -> Report:
    first, second = words_of(other), words_of(mover)
    return Report(
        f"{second} and {first} meet when both are open",
        mover.standing.line,
        (mover.standing,),
        help=f"{first} has to be closed before {second} is opened",
        and_of=(other.standing,),
        gathered=gathered,
    )


@check(
    "little-passage",
    Severity.ADVICE,
    doc="With a door or a drawer open, little is left to pass between it and what faces it.",
    why="Whoever stands at the open dishwasher holds up everyone else.",
    mend="Move the two runs apart, or put what opens where nobody passes.",
    source="common practice; the least passage is the shop's allowance",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72
      wall east  length 100
      wall south length 72
    }
    run one on north from right length 40 {
      space 2
      S1: dishwasher 24  confirmed
      space share
    }
    run other on south from left length 40 {
      T1: open_base 40
    }
    """,
    good={"length 100": "length 104"},
)
def little_passage(site: Site) -> Iterator[Report]:
    least = site.allowance("passage_least")
    if least is None:
        return
    for passages in site.once(straits).values():
        worst = min(passages, key=lambda each: each.left)
        standing = worst.mover.standing
        about = {id(each.mover.standing): each.mover.standing for each in passages}
        yield Report(
            f"only {site.say(worst.left)} is left to pass between {words_of(worst.mover)}, open, "
            f"and {worst.fixed.name}",
            standing.line,
            (standing, *(each for each in about.values() if each is not standing)),
            (
                length("free, all closed", worst.left + worst.reach),
                length("it opens by", worst.reach),
                length("left", worst.left, ruled=True),
                figure("should be left", least),
                length("short", least.value - worst.left, ruled=True),
            ),
            help="move the two apart, or put what opens where nobody passes",
            and_of=(worst.fixed.standing,) if worst.fixed.standing is not None else (),
        )


def straits(site: Site) -> Mapping[frozenset[str], tuple["Passage", ...]]:
    """Where little is left to pass, by the two things it lies between: a run by its name, a wall by
    its own."""
    least = site.allowance("passage_least")
    found: dict[frozenset[str], list[Passage]] = {}
    for mover in site.once(all_movers) if least is not None else ():
        if least is None or mover.up[0] >= WAIST:
            continue
        passage = _passage(mover, site.once(fixed_grid), least.value)
        if passage is not None:
            key = frozenset((mover.standing.run.name, _faced(passage.fixed)))
            found.setdefault(key, []).append(passage)
    return {key: tuple(passages) for key, passages in found.items()}


WAIST = Fraction(36)
"""What begins above this opens over whoever passes."""


@frozen(eq=False)
class Passage:
    """What is left between a thing that stands open and what faces it; it opens by `reach`."""

    mover: Mover
    fixed: Fixed
    left: Fraction
    reach: Fraction


def _faced(fixed: Fixed) -> str:
    return fixed.standing.run.name if fixed.standing is not None else fixed.name


def _faces(mover: Mover, standing: Standing) -> bool:
    """Whether something that stands on the floor looks the other way: the run around a corner is no
    passage."""
    return standing.low < WAIST and facing(mover.standing.run, standing.run)


def _passage(mover: Mover, nearby: Grid[Fixed], least: Fraction) -> Passage | None:
    """The narrowest passage before a thing that stands open, where it is less than `least`; none
    where something stands in its very way, which is told by itself."""
    open_ = mover.shapes
    if mover.leaf:
        turn = turn_of(min(SQUARE, mover.angle))
        open_ = tuple(
            tuple(turned_about(point, mover.pivot, turn) for point in leaf) for leaf in mover.leaf
        )
    left, _, right, out = bounds(open_)
    shut = [point[1] for outline in mover.closed for point in outline]
    begin = max(shut, default=mover.standing.depth)
    before = rectangle((left, out), (right, out + least))
    found: list[Passage] = []
    for fixed in nearby.near(around(mover.line, before)):
        own = fixed.standing is mover.standing
        if own or (fixed.standing is not None and not _faces(mover, fixed.standing)):
            continue
        shared = common(before, mover.line.here(fixed.outline))
        if shared:
            nearest = min(point[1] for point in shared)
            found.append(Passage(mover, fixed, nearest - out, out - begin))
    narrowest = min(found, key=lambda each: each.left, default=None)
    return narrowest if narrowest is not None and narrowest.left > 0 else None
