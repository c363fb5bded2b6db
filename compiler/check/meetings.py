"""What a door, a drawer or an appliance's door meets on its way, and how much clears it."""

from collections.abc import Callable
from fractions import Fraction

from attrs import frozen

from casewright.compiler.check.grid import Grid
from casewright.compiler.check.plan import Outline, Shape, moved, shares
from casewright.compiler.check.site import SQUARE, Site, Standing
from casewright.compiler.check.sweeps import (
    Fixed,
    Mover,
    door_sweep,
    fixed_things,
    grid_of,
    movers,
)
from casewright.compiler.model import Range, Run

FARTHEST = 1 << 12
"""Steps of the job's precision that a thing is moved at most, to find where it would clear."""


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

    @property
    def with_(self) -> tuple[Standing, ...]:
        """What it runs into, where that stands in a run."""
        return (self.fixed.standing,) if self.fixed.standing is not None else ()


def facing(run: Run, other: Run) -> bool:
    """Whether two runs look at one another across the floor: the run around a corner doesn't."""
    one, two = run.direction, other.direction
    return one[0] * two[0] + one[1] * two[1] < -Fraction(1, 2)


def overlap(first: Range, second: Range) -> bool:
    return first[0] < second[1] and second[0] < first[1]


def meetings(site: Site) -> tuple[Meeting, ...]:
    """Every mover that runs into something fixed; of one thing's outlines, one meeting."""
    nearby = site.once(fixed_grid)
    found: list[Meeting] = []
    of_one: list[Meeting] = []
    for mover in site.once(all_movers):
        met: set[object] = set()
        for fixed in nearby.near(mover.around):
            key = id(fixed.standing) if fixed.standing is not None else fixed.name
            if fixed.standing is mover.standing or not overlap(mover.up, fixed.up) or key in met:
                continue
            outline = mover.line.here(fixed.outline)
            # What meets when both are closed is another fault, with a report of its own.
            if any(shares(closed, outline) for closed in mover.closed):
                continue
            if any(shares(shape, outline) for shape in mover.shapes):
                if fixed.part is not None and _is_one(mover, fixed):
                    of_one.append(Meeting(mover, fixed, outline))
                    continue
                met.add(key)
                found.append(Meeting(mover, _foremost(nearby, mover, fixed), outline))
    return (*found, *_neither_first(of_one))


def _is_one(mover: Mover, fixed: Fixed) -> bool:
    """Whether both are of one unit."""
    return (
        fixed.standing is not None
        and fixed.standing.placed.address == mover.standing.placed.address
    )


def _neither_first(of_one: list[Meeting]) -> tuple[Meeting, ...]:
    """Of what the doors of one unit meet of one another, what bars both: where one of the two is
    free to open first, it is out of the other's way. Once for each two."""
    kept: list[Meeting] = []
    told: set[frozenset[int]] = set()
    for each in of_one:
        pair = (id(each.mover.standing), id(each.fixed.standing))
        turned = any((id(o.fixed.standing), id(o.mover.standing)) == pair for o in of_one)
        if turned and frozenset(pair) not in told:
            told.add(frozenset(pair))
            kept.append(each)
    return tuple(kept)


def fixed_grid(site: Site) -> Grid[Fixed]:
    return grid_of(fixed_things(site))


def _foremost(nearby: Grid[Fixed], mover: Mover, fixed: Fixed) -> Fixed:
    """Of the outlines of one thing that a mover meets, the one that is met first: its pull before
    its front, its front before its box."""
    if fixed.standing is None:
        return fixed
    own = [
        each
        for each in nearby.near(mover.around)
        if each.standing is fixed.standing
        and overlap(mover.up, each.up)
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


def needed(site: Site, meeting: Meeting, degrees: Fraction | None = None) -> Fraction | None:
    mover = meeting.mover
    base = mover.shapes
    if degrees is not None:
        base = door_sweep(mover.leaf, mover.pivot, degrees)
    outlines = tuple(
        mover.line.here(each.outline)
        for each in site.once(by_thing).get(key_of(meeting.fixed), ())
        if overlap(each.up, mover.up)
    )
    return _clear_by(site, lambda by: tuple(moved(shape, by) for shape in base), outlines)


def key_of(fixed: Fixed) -> object:
    return id(fixed.standing) if fixed.standing is not None else fixed.name


def by_thing(site: Site) -> dict[object, list[Fixed]]:
    found: dict[object, list[Fixed]] = {}
    for fixed in fixed_things(site):
        found.setdefault(key_of(fixed), []).append(fixed)
    return found


def reached_by(mover: Mover, outline: Outline) -> Fraction:
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


def stopped_by_wall(site: Site) -> frozenset[int]:
    """What has a door that a wall keeps from opening square, or a drawer it keeps in, by
    identity."""
    return frozenset(
        id(meeting.mover.standing)
        for meeting in site.once(meetings)
        if meeting.is_wall and _is_kept(meeting)
    )


def _is_kept(meeting: Meeting) -> bool:
    mover = meeting.mover
    if mover.kind == "swing":
        return reached_by(mover, meeting.outline) < min(SQUARE, mover.angle)
    return mover.kind == "travel"
