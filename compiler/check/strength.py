"""Strength: what sags under its load, and what hangs on too few screws.

A shelf is taken as a beam on two supports under an even load: it sags by 5 w L^4 / (384 E I) (Wood
Handbook, FPL-GTR-282, ch. 9, eq. 9-2 and table 9-1), with I = b t^3 / 12. The width b cancels out
of load and stiffness. All of it is worked out exactly.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from attrs import evolve, frozen

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.hardware import full_drawer
from casewright.compiler.check.site import (
    Site,
    Standing,
    assemblies,
    inside,
    length,
    parts,
)
from casewright.compiler.model import Box, Part, Unit
from casewright.compiler.shop.yardstick import LOAD, STIFFNESS, Kind
from casewright.lang.cells import Quantity
from casewright.lang.findings import Figure, Severity
from casewright.lang.measure import Dimension, Measure, nearest

FOOT_SQUARED = 144
"""Square inches in a square foot."""
TENTH = Fraction(1, 10)
HUNG = "wall_unit"


def sag(load: Fraction, span: Fraction, modulus: Fraction, thick: Fraction) -> Fraction:
    """How far a shelf sags in the middle, in inches. `load` in pounds a square foot, `modulus` in
    pounds a square inch, lengths in inches."""
    return 60 * load * span**4 / (FOOT_SQUARED * 384 * modulus * thick**3)


def longest(bent: "Bent", step: Fraction) -> Fraction:
    """The longest whole number of steps at which the same board sags no more than it may. What it
    may sag grows with the span, and what it sags grows faster."""

    def holds(steps: int) -> bool:
        span = step * steps
        sags = bent.creep * sag(bent.load, span, bent.modulus.value, bent.part.thick.value)
        return sags <= allowed(span, bent.over, bent.most)

    low, high = 0, int(bent.span / step) + 1
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if holds(middle) else (low, middle)
    return low * step


def allowed(span: Fraction, over: Fraction, most: Fraction | None) -> Fraction:
    """What a span may sag: its length over a number, and never more than `most`."""
    return span / over if most is None else min(span / over, most)


@frozen(eq=False)
class Bent:
    """A board that sags more than it may."""

    part: Part
    span: Fraction
    load: Fraction
    modulus: Quantity
    creep: Fraction
    sags: Fraction
    may: Fraction
    over: Fraction
    most: Fraction | None


def _bent(
    site: Site, part: Part, span: Fraction, load: Fraction, over: Quantity, most: Quantity | None
) -> Bent | None:
    goods = site.goods(part.material.kind, part.material.name)
    modulus = goods.figures.get("modulus") if goods is not None else None
    if goods is None or modulus is None or modulus.value <= 0 or over.value <= 0:
        return None
    creep = goods.figures.get("creep")
    factor = creep.value if creep is not None else Fraction(1)
    sags = factor * sag(load, span, modulus.value, part.thick.value)
    at_most = most.value if most is not None else None
    may = allowed(span, over.value, at_most)
    if sags <= may:
        return None
    return Bent(part, span, load, modulus, factor, sags, may, over.value, at_most)


def _told(site: Site, bent: Bent, what: str, standings: tuple[Standing, ...]) -> Report:
    far = longest(bent, site.job.precision.value)
    sags, may = site.say(bent.sags), site.say(bent.may)
    return Report(
        f"{what} sags {sags}; {may} is the most"
        if sags != may
        else f"{what} sags a shade more than {may}, which is the most",
        bent.part.origin,
        standings,
        (
            length("span", bent.span),
            length("thickness", bent.part.thick.value),
            _counted(
                site, f"stiffness of {bent.part.material.title}", bent.modulus.value, STIFFNESS
            ),
            _counted(site, "load", bent.load, LOAD),
            length("sags", bent.sags, ruled=True),
            length("may sag", bent.may),
        ),
        help=f"of this board {site.say(far)} is the longest that holds; make it thicker, or set a "
        "partition at its middle",
    )


def _counted(site: Site, words: str, value: Fraction, kind: Kind) -> Figure:
    """A row of a figure that goes by a unit of its own, as the job's measure counts it, to three
    figures at least."""
    shown, unit = kind.counted(value, site.job.system)
    step = TENTH if shown < 100 else 1
    return Figure(words, Measure(nearest(shown, Fraction(step)), Dimension.COUNT), None, unit)


@check(
    "shelf-sags",
    Severity.WARNING,
    doc="A shelf sags more under its load than the shop allows.",
    why="It is seen from across the room, and it never comes back all the way.",
    mend="Make it shorter or thicker, take a stiffer board, or set a partition under it.",
    source=(
        "Wood Handbook (FPL-GTR-282), ch. 9, eq. 9-2; load and limit as the allowances say: 40 "
        "pounds a square foot and span over 144 are Architectural Woodwork Standards, 1st ed., "
        "2009, section 10, 1.2.21"
    ),
    bad="""
    use plain_room
    run sink_wall on north from left length 44 {
      S1: open_base 44  shelves 1  case board
    }
    """,
    good={"length 44": "length 28", "open_base 44": "open_base 28"},
)
def shelf_sags(site: Site) -> Iterator[Report]:
    load, over = site.allowance("shelf_load"), site.allowance("shelf_span_over")
    most = site.allowance("shelf_sag_most")
    if load is None or over is None:
        return
    for unit, standings in site.units:
        bent = [
            found
            for part in parts(unit, "shelf")
            if part.thick_axis == "up"
            and (found := _bent(site, part, _span(unit, part), load.value, over, most))
        ]
        if bent:
            yield _told(site, max(bent, key=lambda each: each.sags), "a shelf", standings)


def _under(standing: Standing) -> tuple[Box, ...]:
    """What carries of the base under a unit, as it lies in the unit's own space: a skin before it
    carries nothing."""
    base = standing.run.base_under(standing.placed)
    if base is None or base.unit is None:
        return ()
    aside = base.at.value - standing.placed.at.value
    frames = [each.path for each in assemblies(base.unit, "base")]
    boxes = (
        part.box for part in base.unit.parts if any(inside(part.path, each) for each in frames)
    )
    return tuple(
        evolve(box, across=(box.across[0] + aside, box.across[1] + aside)) for box in boxes
    )


def _span(unit: Unit, part: Part, under: Sequence[Box] = ()) -> Fraction:
    """The longest stretch of a board with nothing under it: its own length, parted by whatever
    touches its underside across its middle from front to back, in the unit or `under` it."""
    low, high = part.box.across
    middle = (part.box.deep[0] + part.box.deep[1]) / 2
    ends = [low, high]
    others = (each.box for each in unit.parts if each is not part and not each.hardware)
    for box in (*others, *under):
        if box.up[1] != part.box.up[0]:
            continue
        if box.deep[0] < middle < box.deep[1] and box.size("across") < high - low:
            ends += [end for end in box.across if low < end < high]
        elif box.across[0] <= low and box.across[1] >= high:
            return Fraction(0)
    ordered = sorted(ends)
    return max(b - a for a, b in pairwise(ordered))


@check(
    "floor-sags",
    Severity.WARNING,
    doc="The floor of a unit sags more under its load than the shop allows.",
    why="Doors under it bind, and what stands on it leans together.",
    mend="Make the unit narrower, its floor thicker, or part it in two.",
    source="as for shelves; ANSI/KCMA A161.1-2012, 5.1, loads shelves and bottoms alike",
    bad="""
    use plain_room
    run uppers on north from left length 42 {
      filler 2
      U1: wall_unit share  hung left  high 18  case board
      filler 2
    }
    """,
    good={"length 42": "length 32"},
)
def floor_sags(site: Site) -> Iterator[Report]:
    load, over = site.allowance("shelf_load"), site.allowance("shelf_span_over")
    most = site.allowance("shelf_sag_most")
    if load is None or over is None:
        return
    for unit, standings in site.units:
        trays = [tray.path for tray in assemblies(unit, "tray")]
        for part in parts(unit, "floor"):
            if part.thick_axis != "up" or any(inside(part.path, tray) for tray in trays):
                continue
            span = max(_span(unit, part, _under(each)) for each in standings)
            bent = _bent(site, part, span, load.value, over, most)
            if bent is not None:
                yield _told(site, bent, "the floor", standings)


@check(
    "drawer-bottom-sags",
    Severity.WARNING,
    doc="The bottom of a full drawer sags more than the shop allows.",
    why="It slips out of its groove, or rubs on what is under it.",
    mend="Take a thicker bottom for wide drawers.",
    source=(
        "Wood Handbook (FPL-GTR-282), ch. 9, eq. 9-2, over the shorter way of the bottom; the load "
        "is the drawer's height of what fills it, or what its text says it is to hold"
    ),
    bad="""
    use plain_room
    slide stout { each_side 1/2  carries 300lb }
    run sink_wall on north from left length 68 {
      space 2
      S1: drawer_base 64  tray_bottom thin_board  runs_on stout  fronts board  case board
      space 2
    }
    """,
    good="""
    use plain_room
    run sink_wall on north from left length 24 {
      space 2
      S1: drawer_base 20
      space 2
    }
    """,
)
def drawer_bottom_sags(site: Site) -> Iterator[Report]:
    over = site.allowance("drawer_sag_over")
    if over is None:
        return
    for unit, standings in site.units:
        worst: Bent | None = None
        for tray in assemblies(unit, "tray"):
            full = full_drawer(site, unit, tray)
            if full is None:
                continue
            box = tray.extents.box
            load = full.load * FOOT_SQUARED / (box.size("across") * box.size("deep"))
            for part in parts(unit, "floor"):
                if part.thick_axis == "up" and inside(part.path, tray.path):
                    span = min(part.box.size("across"), part.box.size("deep"))
                    found = _bent(site, part, span, load, over, None)
                    if found is not None and (worst is None or found.sags > worst.sags):
                        worst = found
        if worst is not None:
            yield _told(site, worst, "the bottom of a full drawer", standings)
