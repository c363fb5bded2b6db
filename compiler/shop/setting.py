"""What sets units in the room: wall screws, screws into bases and between neighbours, shims.

Nothing of it is in a unit's own joints, since it follows from where a unit stands and beside what.
It is counted here alone; the buying list and the installer's pages print the same figures.
"""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from attrs import evolve, frozen

from casewright.compiler.model import Axis, Job, Part, Placed, Run
from casewright.compiler.rooms.around import around_corner
from casewright.compiler.shop.supply import Setting

SPACING, AT_STUD = "stud_spacing", "screws_at_stud"
"""The allowances that say where studs are and how many screws each takes."""


@frozen
class Driven:
    """So many pieces of one thing that set a unit: through its parts of these addresses, to the
    `neighbour` or the base (its address; empty for the wall or the floor), there
    into its parts `into`, where they are not known by the setting alone. `wall` is the one
    around the corner where they go into that, and not into the wall of the unit's run. `dead` says
    that the two meet in a dead corner, which the neighbour's run begins with."""

    setting: Setting
    holder: str
    parts: tuple[str, ...]
    neighbour: str
    count: int
    into: tuple[str, ...] = ()
    wall: str = ""
    dead: bool = False


def set_with(job: Job) -> tuple[Driven, ...]:
    """Everything that the units of a job are set with, run by run, in the order of the settings.
    What one setting has joined, a later one leaves alone."""
    along = (each for run in job.runs for each in _of_run(job, run))
    return (*along, *_around_corners(job), *_in_dead_corners(job))


def _of_run(job: Job, run: Run) -> Iterator[Driven]:
    units = [each for each in run.placed if each.kind == "unit" and each.unit is not None]
    for setting in job.supply.settings:
        if setting.through and setting.to:
            yield from (each for unit in units for each in _into_base(job, setting, run, unit))
        elif setting.through:
            yield from (each for unit in units for each in _through(job, setting, unit))
        if setting.under:
            yield from _under(setting, run, units)
    for left, right in pairwise(sorted(units, key=lambda each: each.at.value)):
        if left.at.value + left.width.value == right.at.value:
            yield from _between(job, left, right)


def studs_met(job: Job, long: Fraction) -> int | None:
    """How many studs something so long may meet at most; None where no allowance says."""
    spacing = job.yardstick.allowances.get(SPACING)
    return None if spacing is None or spacing.value <= 0 else int(long / spacing.value) + 1


def _through(job: Job, setting: Setting, placed: Placed) -> Iterator[Driven]:
    behind: dict[str, list[Part]] = {}
    for part in _with_role(placed, setting.through):
        turned = placed.returns is not None and part.box.size("deep") > part.box.size("across")
        behind.setdefault(placed.returns.wall if placed.returns and turned else "", []).append(part)
    for wall, parts in behind.items():
        axis: Axis = "deep" if wall else "across"
        count = sum(_along(job, setting, part.box.size(axis)) for part in parts)
        if count:
            names = tuple(part.address for part in parts)
            yield Driven(setting, placed.address, names, "", count, wall=wall)


def _into_base(job: Job, setting: Setting, run: Run, placed: Placed) -> Iterator[Driven]:
    """Down into the base that a unit stands on: along each of its rails that the parts lie on. One
    that no part reaches takes none; the wall screws hold a unit there (common practice)."""
    base = run.base_under(placed)
    if base is None or base.unit is None:
        return
    aside = base.at.value - placed.at.value
    frames = [
        f"{each.path}." for each in base.unit.assemblies if each.path and each.role in setting.to
    ]
    carrying = [
        part
        for part in base.unit.parts
        if part.role in setting.to or any(part.path.startswith(frame) for frame in frames)
    ]
    taken: list[str] = []
    into: list[str] = []
    count = 0
    for part in _with_role(placed, setting.through):
        along = [
            (rail.address, long)
            for rail in carrying
            if placed.up.value + part.box.up[0] == base.up.value + rail.box.up[1]
            and (long := _lies_on(part, rail, aside)) > 0
        ]
        if along:
            taken.append(part.address)
            into += [address for address, _ in along if address not in into]
            count += sum(_along(job, setting, long) for _, long in along)
    if count:
        yield Driven(setting, placed.address, tuple(taken), base.address, count, tuple(into))


def _lies_on(part: Part, rail: Part, aside: Fraction) -> Fraction:
    """How long a part lies on a rail that runs along it; nothing where that runs from front to
    back. `aside` is how far right of the part's unit the rail's base begins, inches."""
    low, high = rail.box.across
    long = min(part.box.across[1], high + aside) - max(part.box.across[0], low + aside)
    wide = min(part.box.deep[1], rail.box.deep[1]) - max(part.box.deep[0], rail.box.deep[0])
    return long if wide > 0 and rail.box.size("across") > rail.box.size("deep") else Fraction(0)


def _along(job: Job, setting: Setting, long: Fraction) -> int:
    """How many pieces something so long takes."""
    if setting.every is not None:
        return max(setting.least, int(-(-long // setting.every)) + 1)
    studs = studs_met(job, long) if setting.studs else None
    at_each = job.yardstick.allowances.get(AT_STUD)
    if studs is None or at_each is None:
        return setting.least
    return max(setting.least, int(studs * at_each.value))


def _under(setting: Setting, run: Run, units: list[Placed]) -> Iterator[Driven]:
    """Under what stands on the floor: a base that several units share, or a unit by itself."""
    on_floor = [
        each
        for each in units
        if each.up.value == 0
        and each.unit is not None
        and each.unit.role in setting.under
        and run.base_under(each) is None
    ]
    for each in (*run.bases, *on_floor):
        every = setting.every
        count = 0 if every is None else int(-(-each.width.value // every)) + 1
        yield Driven(setting, each.address, (), "", max(setting.least, count))


def _between(job: Job, left: Placed, right: Placed) -> Iterator[Driven]:
    """The first setting whose parts of the two units meet."""
    for setting in job.supply.settings:
        for one, other in ((setting.between, setting.to or setting.between),
                           (setting.to, setting.between)):  # fmt: skip
            met = [
                (part, beside, high)
                for part in _with_role(left, one)
                if part.box.across[1] >= _right_end(left, part)
                for beside in _with_role(right, other)
                if beside.box.across[0] <= 0
                if (high := _shared(left, part, right, beside)) > 0
            ]
            if met:
                part, _, high = max(met, key=lambda each: each[2])
                count = _along(job, setting, high)
                yield Driven(setting, left.address, (part.address,), right.address, count)
                return


def _around_corners(job: Job) -> Iterator[Driven]:
    """Between the leg of a corner unit around its corner and what stands beside it there."""
    walls = {wall.name: wall for wall in job.room.walls}
    for run in job.runs:
        for placed in run.placed:
            around, returns = around_corner(run, placed), placed.returns
            if around is None or returns is None or returns.wall not in walls:
                continue
            leg = around[1]
            left = returns.left_on(walls[returns.wall])
            for other in (each for each in job.runs if each.wall == returns.wall):
                for unit in (each for each in other.placed if each.kind == "unit"):
                    begins = other.start.value + unit.at.value
                    if begins == left + leg.width.value:
                        yield from _between(job, leg, unit)
                    elif begins + unit.width.value == left:
                        yield from _between(job, unit, leg)


def _in_dead_corners(job: Job) -> Iterator[Driven]:
    """Between what two runs bring to the dead corner that they leave: their fillers, or the units
    that took these."""
    runs = {run.name: run for run in job.runs}
    for run in job.runs:
        around = runs.get(run.placed[-1].dead_with) if len(run.placed) > 1 else None
        if around is None:
            continue
        left = next((each for each in reversed(run.placed) if each.unit is not None), None)
        right = next((each for each in around.placed if each.unit is not None), None)
        if left is not None and right is not None:
            yield from (evolve(each, dead=True) for each in _between(job, left, right))


def _right_end(placed: Placed, part: Part) -> Fraction:
    """Where the right end of a unit lies in the space of one of its parts: that of a part turned
    with its face ends with the last like it, which stands at the end of the leg."""
    if part.slant is None:
        return placed.width.value
    alike = [each for each in _with_role(placed, (part.role,)) if each.slant is not None]
    return max(each.box.across[1] for each in alike)


def _with_role(placed: Placed, roles: tuple[str, ...]) -> list[Part]:
    if placed.unit is None:
        return []
    return [part for part in placed.unit.parts if part.role in roles and not part.hardware]


def _shared(left: Placed, part: Part, right: Placed, beside: Part) -> Fraction:
    """How high two parts stand beside one another."""
    (low, top), (other_low, other_top) = part.box.up, beside.box.up
    return min(top + left.up.value, other_top + right.up.value) - max(
        low + left.up.value, other_low + right.up.value
    )
