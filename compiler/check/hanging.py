"""What units weigh, and what hangs on too few screws."""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from attrs import frozen

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.site import (
    Site,
    Standing,
    figure,
    parts,
    weight,
)
from casewright.compiler.joints.oblique import volume_of
from casewright.compiler.model import Part, Unit
from casewright.lang.findings import Figure, Severity
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
    mend="Let blocking into the wall behind the rails and accept it with that as the reason; set "
    "it beside a neighbour, to hang as one; or make the unit shallower.",
    source=(
        "arithmetic: weight of the unit and its load against studs it is sure to meet x rails x "
        "screws x the hold of one (shop's allowances). Two screws a rail into studs are common "
        "practice; the load proof is ANSI/KCMA A161.1-2012, 5.2"
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
    good="""
    use plain_room
    run uppers on north from left {
      filler 2
      U1: wall_unit 20  hung left
      space 4
      U2: wall_unit share  hung left  high 24
      filler 2
    }
    """,
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
        rails = min((each.rails for each in known), default=0)
        if len(known) < len(row) or not rails:
            continue
        own = sum((each.own for each in known), Fraction(0))
        filled = sum((each.load for each in known), Fraction(0))
        studs = int((row[-1].right - row[0].left) / spacing.value)
        holds = studs * rails * screws.value * hold.value
        if own + filled <= holds:
            continue
        names = row[0].name if len(row) == 1 else f"{row[0].name} to {row[-1].name}"
        what = "it weighs" if len(row) == 1 else f"{names} weigh"
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
                Figure("studs it is sure to meet", Measure(Fraction(studs), Dimension.COUNT)),
                Figure("rails", Measure(Fraction(rails), Dimension.COUNT)),
                weight("the screws hold", holds, ruled=True),
            ),
            help="let blocking into the wall behind its rails, and say in the block of "
            f"{row[0].name}: accept hangs-on-too-few-screws screwed to blocking; or let it stand "
            "against its neighbour, to hang as one",
        )


@frozen(eq=False)
class Full:
    """What a hung unit weighs itself, what its boards may be loaded with, and the heights at which
    it has a rail."""

    own: Fraction
    load: Fraction
    rails: int


def _full(site: Site, unit: Unit | None, load: Fraction) -> Full | None:
    own = weight_of(site, unit) if unit is not None else None
    if unit is None or own is None:
        return None
    boards = (*parts(unit, "shelf"), *parts(unit, "floor"))
    area = sum(
        (
            part.box.size("across") * part.box.size("deep")
            for part in boards
            if part.thick_axis == "up"
        ),
        Fraction(0),
    )
    rails = len({part.box.up for part in parts(unit, "hanging")})
    return Full(own, area / FOOT_SQUARED * load, rails)


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
