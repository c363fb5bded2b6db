"""What units weigh, and what hangs on too few screws."""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from attrs import frozen

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.mends import added_to_block
from casewright.compiler.check.site import (
    Site,
    Standing,
    figure,
    parts,
    weight,
)
from casewright.compiler.joints.oblique import volume_of
from casewright.compiler.model import Feature, Part, Unit
from casewright.compiler.rooms.features import OPENINGS
from casewright.lang.findings import Edit, Figure, Severity
from casewright.lang.measure import Dimension, Measure

FOOT_SQUARED = 144
"""Square inches in a square foot."""
CUBIC_FOOT = 1728
"""Cubic inches in one."""
HUNG = "wall_unit"


def weight_of(site: Site, unit: Unit) -> Fraction | None:
    """What a unit weighs, in pounds, by the densities of its materials; None where one is not
    known. Grooves and holes are left in, hardware out."""
    return weight_of_parts(site, unit.parts)


def weight_of_parts(site: Site, parts: Iterable[Part]) -> Fraction | None:
    """The same of some parts."""
    total = Fraction(0)
    for part in parts:
        if part.hardware:
            continue
        goods = site.goods(part.material.kind, part.material.name)
        density = goods.figures.get("density") if goods is not None else None
        if density is None:
            return None
        total += volume_of(part) / CUBIC_FOOT * density.value
    return total


@check(
    "hangs-on-too-few-screws",
    Severity.ERROR,
    doc="A unit on the wall, full, weighs more than the screws that reach studs can hold.",
    why="It comes down.",
    mend="Let `blocking` into the wall behind the rails; set it beside a neighbour, to hang as "
    "one; or make the unit shallower.",
    source=(
        "arithmetic: weight of the unit and its load against studs it is sure to meet, or places "
        "along the blocking behind it, x rails x screws x the hold of one (shop's allowances), a "
        "corner unit's along both walls. Two screws a rail into studs are common practice; the "
        "load proof is ANSI/KCMA A161.1-2012, 5.2"
    ),
    bad="""
    use plain_room
    run uppers on north from left {
      filler 2
      U1: wall_unit 20  hung left  shelves 1  depth 24
      space 4
      U2: wall_unit share  hung left  high 24
      filler 2
    }
    """,
    good={"left  shelves 1  depth 24": "left"},
)
def hangs_on_too_few(site: Site) -> Iterator[Report]:
    load = site.allowance("shelf_load")
    spacing, hold = site.allowance("stud_spacing"), site.allowance("screw_hold")
    screws = site.allowance("screws_at_stud")
    if load is None or spacing is None or hold is None or screws is None:
        return
    for row in _hung(site):
        weighed = [_full(site, standing.unit, load.value) for standing in row]
        known = [each for each in weighed if each is not None]
        if len(known) < len(row) or not min((len(each.rails) for each in known), default=0):
            continue
        own = sum((each.own for each in known), Fraction(0))
        filled = sum((each.load for each in known), Fraction(0))
        around = _around_corners(site, row, known, spacing.value)
        own_places = _places(row, known, blocking_of(site, row[0]), spacing.value)
        places = [sum(each) for each in zip(own_places, *around, strict=False)]
        holds = sum(places) * screws.value * hold.value
        if own + filled <= holds:
            continue
        names = row[0].name if len(row) == 1 else f"{row[0].name} to {row[-1].name}"
        what = "it weighs" if len(row) == 1 else f"{names} weigh"
        wanted = _wanted(site, row, known)
        let_in = _places(row, known, (*blocking_of(site, row[0]), wanted), spacing.value)
        backed = [sum(each) for each in zip(let_in, *around, strict=False)]
        enough = own + filled <= sum(backed) * screws.value * hold.value
        yield Report(
            f"full, {what} {site.say(own + filled, Dimension.WEIGHT)}; the screws hold "
            f"{site.say(holds, Dimension.WEIGHT)}",
            row[0].line,
            (row[0],),
            (
                weight(f"{names}, empty", own),
                weight("what is put in", filled),
                weight("together", own + filled, ruled=True),
                figure("a screw holds", hold),
                Figure("screws it is sure to have", _count(sum(places) * screws.value)),
                Figure("rails", _count(Fraction(sum(len(each) for each in (own_places, *around))))),
                weight("the screws hold", holds, ruled=True),
            ),
            help=_mend(site, row[0], wanted, enough),
            edits=_let_in(site, row[0], wanted) if enough else (),
        )


@frozen(eq=False)
class Blocked:
    """Blocking in a wall: its ends along the wall, and its edges above the floor, in inches."""

    across: tuple[Fraction, Fraction]
    up: tuple[Fraction, Fraction]


def blocking_of(site: Site, standing: Standing) -> tuple[Blocked, ...]:
    """The blocking in the wall that something stands on."""
    wall = site.walls.get(standing.run.wall)
    return tuple(
        Blocked(
            (each.at.value, each.at.value + each.wide.value),
            (each.up.value, each.up.value + each.high.value),
        )
        for each in (wall.blocking if wall is not None else ())
    )


def _places(
    row: Sequence[Standing],
    known: "Sequence[Full]",
    blocking: Sequence[Blocked],
    spacing: Fraction,
) -> list[int]:
    """In how many places each rail of a row is sure to be screwed: at the studs it is sure to
    meet; or, where blocking runs behind the whole of a unit's rail, near both its ends and as often
    as studs would stand between."""
    studs = int((row[-1].right - row[0].left) / spacing)
    found = []
    for rank in range(min(len(each.rails) for each in known)):
        backed = sum(
            (
                standing.placed.width.value
                for standing, full in zip(row, known, strict=True)
                if any(_backs(each, standing, full.rails[rank]) for each in blocking)
            ),
            Fraction(0),
        )
        found.append(max(studs, int(backed / spacing) + 1 if backed else 0))
    return found


def _around_corners(
    site: Site, row: Sequence[Standing], known: "Sequence[Full]", spacing: Fraction
) -> list[list[int]]:
    """The same of the legs that units of a row have along the walls around their corners."""
    found = []
    for standing, full in zip(row, known, strict=True):
        around = standing.placed.returns
        for leg in site.on_wall.get(around.wall, ()) if around is not None else ():
            if leg.placed.address == standing.placed.address:
                found.append(_places([leg], [full], blocking_of(site, leg), spacing))
    return found


def _backs(blocked: Blocked, standing: Standing, rail: tuple[Fraction, Fraction]) -> bool:
    """Whether blocking runs behind the whole of a rail, the middle of which takes the screws."""
    middle = standing.low + (rail[0] + rail[1]) / 2
    return (
        blocked.across[0] <= standing.left
        and standing.right <= blocked.across[1]
        and blocked.up[0] < middle < blocked.up[1]
    )


def _wanted(site: Site, row: Sequence[Standing], known: "Sequence[Full]") -> Blocked:
    """The blocking that would run behind every rail of a row, on the job's own step."""
    rails = [
        (standing.low + low, standing.low + high)
        for standing, full in zip(row, known, strict=True)
        for low, high in full.rails
    ]
    return Blocked(
        (site.down_to_step(row[0].left), site.up_to_step(row[-1].right)),
        (
            site.down_to_step(min(low for low, _ in rails)),
            site.up_to_step(max(high for _, high in rails)),
        ),
    )


def _said(site: Site, blocked: Blocked) -> str:
    """Blocking as the text says it."""
    words = {
        "at": blocked.across[0],
        "wide": blocked.across[1] - blocked.across[0],
        "up": blocked.up[0],
        "high": blocked.up[1] - blocked.up[0],
    }
    return "blocking " + " ".join(f"{word} {site.written(each)}" for word, each in words.items())


def _mend(site: Site, first: Standing, wanted: Blocked, enough: bool) -> str:
    beside = "let it stand against its neighbour, to hang as one"
    if first.run.wall not in site.walls or not enough:
        return f"make it shallower or hang less in it; or {beside}"
    return (
        f"let blocking into the wall behind its rails, and say in the block of {first.run.wall}: "
        f"{_said(site, wanted)}; or {beside}"
    )


def _let_in(site: Site, first: Standing, wanted: Blocked) -> tuple[Edit, ...]:
    """Writes blocking into the block of the wall, where that stands in the kitchen's own text."""
    wall, line = site.walls.get(first.run.wall), first.line
    span = wall.span if wall is not None else None
    if wall is None or span is None or line is None or span.source is not line.source:
        return ()
    openings = [each for each in wall.features if each.kind in OPENINGS]
    if any(_crosses(wanted, each) for each in openings):
        return ()
    return added_to_block(span, _said(site, wanted))


def _crosses(blocked: Blocked, opening: Feature) -> bool:
    left, low = opening.at.value, opening.up.value
    return (
        blocked.across[0] < left + opening.wide.value
        and left < blocked.across[1]
        and blocked.up[0] < low + opening.high.value
        and low < blocked.up[1]
    )


def _count(value: Fraction) -> Measure:
    return Measure(value, Dimension.COUNT)


@frozen(eq=False)
class Full:
    """What a hung unit weighs itself, what its boards may be loaded with, and where it has rails:
    their lower and upper edges above its underside, from the lowest."""

    own: Fraction
    load: Fraction
    rails: tuple[tuple[Fraction, Fraction], ...]


def _full(site: Site, unit: Unit | None, load: Fraction) -> Full | None:
    own = weight_of(site, unit) if unit is not None else None
    if unit is None or own is None:
        return None
    boards = (*parts(unit, "shelf"), *parts(unit, "floor"))
    area = sum(
        (volume_of(part) / part.box.size("up") for part in boards if part.thick_axis == "up"),
        Fraction(0),
    )
    rails = sorted({part.box.up for part in parts(unit, "hanging")})
    return Full(own, area / FOOT_SQUARED * load, tuple(rails))


def _hung(site: Site) -> Iterator[list[Standing]]:
    """Units on the wall that touch: they are screwed to one another, and hang as one."""
    for _, row in site.rows:
        group: list[Standing] = []
        for standing in row:
            hung = standing.role == HUNG and standing.placed.kind == "unit"
            if group and (not hung or group[-1].right != standing.left):
                yield group
                group = []
            if hung:
                group.append(standing)
        if group:
            yield group
