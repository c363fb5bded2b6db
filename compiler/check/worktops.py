"""The worktop: what carries it, and whether a sink's bowl hangs free in its cabinet."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.site import Site, Standing, figure, length, words_of
from casewright.compiler.check.unknown import ASKS
from casewright.compiler.model import Part, Unit
from casewright.compiler.shop.yardstick import Bowl
from casewright.lang.cells import Quantity
from casewright.lang.findings import Severity

LOW = "base_unit"


@check(
    "counter-unsupported",
    Severity.ADVICE,
    doc=(
        "The counter runs a long way over an appliance, a space or a sink's cabinet with nothing "
        "under it, or ends over a dishwasher."
    ),
    why="It sags, or cracks at a joint or a cut-out.",
    mend="Give it a panel to lie on, or a rail at the wall and one at the front.",
    source="common practice; the longest free stretch is the shop's allowance",
    bad="""
    use plain_room
    run sink_wall on north from left {
      S1: open_base 20
      space 32
      S2: open_base 20
    }
    """,
    good={
        "S1: open_base 20": "S1: open_base 22",
        "space 32": "space 28",
        "S2: open_base 20": "S2: open_base 22",
    },
)
def counter_unsupported(site: Site) -> Iterator[Report]:
    yield from _over_appliances(site)
    yield from _over_sinks(site)
    yield from _over_ends(site)


def _free(site: Site, standing: Standing, what: str, wide: Fraction, most: Quantity) -> Report:
    return Report(
        f"the counter lies free for {site.say(wide)} over {what}",
        standing.line,
        (standing,),
        (
            length("free", wide, standing.line),
            figure("may lie free", most),
            length("too far", wide - most.value, ruled=True),
        ),
        help="give it a panel to lie on, or a rail at the wall and one at the front",
    )


def _over_appliances(site: Site) -> Iterator[Report]:
    most = site.allowance("counter_span")
    for _, row in site.rows if most is not None else ():
        for index, standing in enumerate(row[1:-1], start=1):
            if standing.placed.kind == "unit" or standing.low > 0 or most is None:
                continue
            sides = (row[index - 1], row[index + 1])
            wide = standing.placed.width.value
            if wide > most.value and all(each.role == LOW for each in sides):
                yield _free(site, standing, standing.name, wide, most)


def _over_sinks(site: Site) -> Iterator[Report]:
    most = site.allowance("sink_span")
    for standing in site.standings if most is not None else ():
        unit = standing.unit
        if unit is None or most is None or "sink" not in standing.stands.serves:
            continue
        wide = _span_over(unit)
        if wide > most.value:
            yield _free(site, standing, f"the sink of {standing.name}", wide, most)


def _span_over(unit: Unit) -> Fraction:
    """The longest free stretch along the front half of a unit's top; nought where a board runs
    under all of it."""
    top = unit.height.value
    middle = unit.depth.value / 2
    ends = {Fraction(0), unit.width.value}
    for part in unit.parts:
        box = part.box
        if part.hardware or part.motion is not None or box.up[1] != top:
            continue
        if part.role == "front" or box.deep[0] >= middle:
            continue
        if part.thick_axis == "across":
            ends |= set(box.across)
        elif box.size("across") >= unit.width.value / 2:
            return Fraction(0)
    return max(high - low for low, high in pairwise(sorted(ends)))


def _over_ends(site: Site) -> Iterator[Report]:
    for run, row in site.rows:
        wall = site.walls.get(run.wall)
        for standing in (row[0], row[-1]) if row and wall is not None else ():
            if "dishes" not in standing.stands.serves or standing.unit is not None or wall is None:
                continue
            sides = []
            if standing is row[0] and standing.left > 0:
                sides.append("left")
            if standing is row[-1] and standing.right < wall.length.value:
                sides.append("right")
            for side in sides:
                edge = standing.left if side == "left" else standing.right
                if any(
                    other is not standing and edge in (other.left, other.right)
                    for other in site.on_wall.get(run.wall, ())
                ):
                    continue
                yield Report(
                    f"nothing carries the counter at the {side} end of {standing.name}",
                    standing.line,
                    (standing,),
                    help="set a panel beside it, to the floor, for the counter to lie on",
                )


@check(
    "bowl-meets-box",
    Severity.ERROR,
    doc="A sink's bowl runs into the cabinet that is to hold it: a side, a stretcher, its back.",
    why="The box is cut up on site, or the sink goes back to the shop that sold it.",
    mend="Choose a narrower bowl, or a wider cabinet; move the stretcher out of its way.",
    source="geometry: the bowl as its line says, in the middle of the width, against every part",
    bad="""
    use plain_room
    run sink_wall on north from left length 34 {
      space 2
      S1: sink_base 30  hung left  bowl 29 by 16 down 9
      space 2
    }
    """,
    good={"bowl 29": "bowl 27"},
)
def bowl_meets_box(site: Site) -> Iterator[Report]:
    for standing in site.standings:
        bowl, unit = standing.stands.bowl, standing.unit
        if bowl is None or unit is None:
            continue
        beside = _beside_bowl(site, standing, unit, bowl)
        report = _too_wide(site, standing, unit, bowl, beside) or _too_deep(
            site, standing, unit, bowl, beside
        )
        if report is not None:
            yield report


def _beside_bowl(site: Site, standing: Standing, unit: Unit, bowl: Bowl) -> tuple[Part, ...]:
    """The parts of a unit that lie as high as the bowl and under or beside it along the wall."""
    room = site.job.room
    low = room.counter.value - bowl.down.value - standing.low
    high = room.counter.value - room.counter_thick.value - standing.low
    left, right = _across(unit, bowl)
    return tuple(
        part
        for part in unit.parts
        if not part.hardware
        and part.box.up[0] < high
        and low < part.box.up[1]
        and part.box.across[0] < right
        and left < part.box.across[1]
    )


def _across(unit: Unit, bowl: Bowl) -> tuple[Fraction, Fraction]:
    middle = unit.width.value / 2
    return middle - bowl.wide.value / 2, middle + bowl.wide.value / 2


def _too_wide(
    site: Site, standing: Standing, unit: Unit, bowl: Bowl, beside: tuple[Part, ...]
) -> Report | None:
    """A report where the bowl runs into what stands upright on one of its sides."""
    left, right = _across(unit, bowl)
    middle = unit.width.value / 2
    into = [
        (part.box.across[1] - left if part.box.across[0] < middle else right - part.box.across[0])
        for part in beside
        if part.thick_axis == "across"
    ]
    if not into:
        return None
    worst = max(into)
    part = next(
        part
        for part, deep in zip(
            (part for part in beside if part.thick_axis == "across"), into, strict=True
        )
        if deep == worst
    )
    clear = bowl.wide.value - 2 * worst
    return Report(
        f"the bowl runs {site.say(worst)} into {words_of(part)}",
        standing.line,
        (standing,),
        (
            figure("width of the bowl", bowl.wide),
            length("clear for it", clear, standing.line),
            length("too wide", 2 * worst, ruled=True),
        ),
        help=f"choose a bowl no wider than {site.say(clear)}, or make {standing.name} "
        f"{site.say(2 * worst)} wider",
    )


def _too_deep(
    site: Site, standing: Standing, unit: Unit, bowl: Bowl, beside: tuple[Part, ...]
) -> Report | None:
    """A report where no stretch from front to back is as long as the bowl."""
    blocks = sorted(part.box.deep for part in beside if part.role != "front")
    clear, at = Fraction(0), Fraction(0)
    for low, high in (*blocks, (unit.depth.value, unit.depth.value)):
        clear = max(clear, low - at)
        at = max(at, high)
    if bowl.by.value <= clear:
        return None
    return Report(
        f"the bowl is {site.say(bowl.by.value)} from front to back; {site.say(clear)} is clear",
        standing.line,
        (standing,),
        (
            figure("the bowl, from front to back", bowl.by),
            length("clear for it", clear, standing.line),
            length("too deep", bowl.by.value - clear, ruled=True),
        ),
        help=f"choose a bowl that is {site.say(clear)} from front to back, or that hangs less far "
        "down",
    )


@check(
    "bowl-unsaid",
    Severity.ADVICE,
    doc="Nothing says how large the bowl is that a sink's cabinet is to hold.",
    why="A bowl that meets the box's sides is found out when the counter lies on them.",
    mend="Read its maker's sheet, and say `bowl 30 by 17 down 9` on the cabinet's line.",
    source="common practice",
    bad="""
    use plain_room
    unit washing_place from base_unit  holds sink { stack { open share } }
    run sink_wall on north from left length 30 {
      filler 2
      S1: washing_place share
      filler 2
    }
    """,
    good={"washing_place share": "washing_place share  bowl 20 by 16 down 9"},
)
def bowl_unsaid(site: Site) -> Iterator[Report]:
    for standing in site.standings if site.yardstick.allowances else ():
        stands = standing.stands
        if standing.unit is not None and "sink" in stands.serves and stands.bowl is None:
            yield Report(
                f"{ASKS}: whether the bowl of {standing.name} goes between its sides",
                standing.line,
                (standing,),
                help="say bowl, its width, by what from front to back, and down how far",
            )
