"""Hardware: slides and their loads, hinges and their doors, fasteners and what they go into."""

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from attrs import evolve, frozen

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.ends import ends_seen
from casewright.compiler.check.hanging import weight_of_parts
from casewright.compiler.check.mends import for_each, named_instead
from casewright.compiler.check.site import (
    Site,
    Standing,
    assemblies,
    figure,
    inside,
    length,
    parts,
    weight,
    words_of,
)
from casewright.compiler.joints.oblique import size_along
from casewright.compiler.model import Assembly, Joint, Part, Unit
from casewright.compiler.shop.yardstick import Goods
from casewright.lang.cells import Quantity
from casewright.lang.findings import Edit, Figure, Severity
from casewright.lang.measure import Dimension, Measure

CUBIC_FOOT = 1728
"""Cubic inches in one."""


@check(
    "slide-overloaded",
    Severity.ERROR,
    doc="A drawer, full, weighs more than its slides carry.",
    why="The slides bend, and the drawer drops when it is pulled out.",
    mend="Choose a slide that carries more, or make the drawer smaller.",
    source=(
        "arithmetic: what the text says it is to hold (`load`), else the volume of the drawer box "
        "x the density of what fills it (a shop's allowance), against the slide's own figure"
    ),
    bad="""
    use plain_room
    slide slight { each_side 1/2  carries 20lb }
    run sink_wall on north from left length 44 {
      space 2
      S1: drawer_base 40  runs_on slight
      space 2
    }
    """,
    good={
        "slight { each_side 1/2  carries 20lb": "stout { each_side 1/2  carries 120lb",
        "runs_on slight": "runs_on stout",
    },
)
def slide_overloaded(site: Site) -> Iterator[Report]:
    for unit, standings in site.units:
        worst: tuple[Fraction, Full, Part, Quantity] | None = None
        for tray in assemblies(unit, "tray"):
            slide = next((each for each in _of_opening(unit, "slide", tray.opening)), None)
            full = full_drawer(site, unit, tray)
            goods = site.goods("slide", slide.material.name) if slide is not None else None
            carries = goods.figures.get("carries") if goods is not None else None
            if slide is None or full is None or carries is None:
                continue
            over = full.load - carries.value
            if over > 0 and (worst is None or over > worst[0]):
                worst = (over, full, slide, carries)
        if worst is None:
            continue
        over, full, slide, carries = worst
        what = "a drawer is to hold" if full.said is not None else "a full drawer weighs"
        held = (
            figure("it is to hold", full.said)
            if full.said is not None
            else weight("full, it weighs", full.load)
        )
        yield Report(
            f"{what} {site.say(full.load, Dimension.WEIGHT)}; its slides carry "
            f"{site.say(carries.value, Dimension.WEIGHT)}",
            full.said.origin if full.said is not None else None,
            standings,
            (
                held,
                figure(f"{slide.material.title} carries", carries),
                weight("too much", over, ruled=True),
            ),
            help=_stouter(site, full.load) or "make the drawer smaller: no slide here carries that",
            edits=_in_its_place(site, slide.material.name, full.load, standings),
        )


def _in_its_place(
    site: Site, name: str, load: Fraction, standings: tuple[Standing, ...]
) -> tuple[Edit, ...]:
    """Names a slide that carries the load and is otherwise just as the one that doesn't."""
    now = site.goods("slide", name)
    alike = [
        (goods.figures["carries"].value, goods.name)
        for (kind, _), goods in site.yardstick.goods.items()
        if kind == "slide"
        and now is not None
        and "carries" in goods.figures
        and _but_for_load(goods) == _but_for_load(now)
    ]
    stout = [each for each in alike if each[0] >= load]
    if not stout:
        return ()
    return for_each(standings, lambda each: named_instead(each, name, min(stout)[1]))


def _but_for_load(goods: Goods) -> tuple[dict[str, Fraction], dict[str, str]]:
    figures = {word: each.value for word, each in goods.figures.items() if word != "carries"}
    return figures, dict(goods.words)


def _stouter(site: Site, load: Fraction) -> str:
    """Names the slide of the shop that carries a load with the least to spare."""
    stout = [
        (carries.value, goods.name)
        for (kind, _), goods in site.yardstick.goods.items()
        if kind == "slide"
        and (carries := goods.figures.get("carries")) is not None
        and carries.value >= load
    ]
    return f"choose a slide that carries more: {min(stout)[1]} does" if stout else ""


@frozen(eq=False)
class Full:
    """What a drawer holds when it is full, in pounds, and where the text says so."""

    load: Fraction
    said: Quantity | None


def full_drawer(site: Site, unit: Unit, tray: Assembly) -> Full | None:
    """What a drawer is to hold, as its text says; else its volume full of the shop's usual. None
    where nobody says either."""
    said = next((each.load for each in unit.openings if each.address == tray.opening), None)
    if said is not None:
        return Full(said.value, said)
    fill = site.allowance("drawer_fill")
    if fill is None:
        return None
    box = tray.extents.box
    volume = box.size("across") * box.size("up") * box.size("deep")
    return Full(volume / CUBIC_FOOT * fill.value, None)


def _of_opening(unit: Unit, role: str, opening: str) -> Iterator[Part]:
    return (part for part in parts(unit, role) if opening and part.opening == opening)


def hinges_wanted(heights: tuple[Fraction | None, ...], height: Fraction) -> int:
    """Two hinges, and one more for each height that a door passes."""
    return 2 + sum(each is not None and height > each for each in heights)


@check(
    "too-few-hinges",
    Severity.WARNING,
    doc="A door hangs on fewer hinges than its height or its weight wants.",
    why="It sags at its free corner, and its screws work loose.",
    mend="Give it as many hinges as the report says.",
    source=(
        "common practice: cup hinges 2 up to 40 inches, 3 to 60, 4 to 80, then 5 (from memory); "
        "butt hinges one for each 30 inches or part of it. The heights, and the weight that one "
        "carries, are the hinge's own data; the door's weight is that of its materials"
    ),
    bad="""
    use plain_room
    run tall on north from left length 28 {
      space 2
      T1: tall_unit 24  hung left  hinges 3
      space 2
    }
    """,
    good={"hinges 3": "hinges 4"},
)
def too_few_hinges(site: Site) -> Iterator[Report]:
    for unit, standings in site.units:
        moving: tuple[Part | Assembly, ...] = (*unit.parts, *unit.assemblies)
        for door in moving:
            if door.motion is None or door.motion.kind != "about":
                continue
            hinges = list(_of_opening(unit, "hinge", door.opening))
            goods = site.goods("hinge", hinges[0].material.name) if hinges else None
            if goods is not None:
                report = _hung_on(site, unit, door, len(hinges), goods)
                if report is not None:
                    yield evolve(report, about=standings)


def _hung_on(
    site: Site, unit: Unit, door: Part | Assembly, hinges: int, goods: Goods
) -> Report | None:
    """A report where so many hinges are too few for a door."""
    data = tuple(goods.figures.get(word) for word in ("two_to", "three_to", "four_to"))
    height = door.extents.box.size("up")
    by_height = hinges_wanted(tuple(each.value if each else None for each in data), height)
    pounds = weight_of_parts(site, _leaves(unit, door))
    carries = goods.figures.get("carries")
    by_weight = 0
    if pounds is not None and carries is not None and carries.value > 0:
        by_weight = ceil(pounds / carries.value)
    wanted = max(by_height, by_weight)
    if hinges >= wanted:
        return None
    heavy = pounds is not None and carries is not None and by_weight > by_height
    what = f"{site.say(height)} high"
    if heavy and pounds is not None:
        what = f"of {site.say(pounds, Dimension.WEIGHT)}"
    return Report(
        f"a door {what} hangs on {hinges} hinges; it wants {wanted}",
        None,
        figures=(
            length("height of the door", height),
            *(
                figure(f"{goods.title}, {count} up to", each)
                for count, each in zip((2, 3, 4), data, strict=True)
                if each is not None
            ),
            *((weight("the door weighs", pounds),) if heavy and pounds is not None else ()),
            *((figure("a hinge carries", carries),) if heavy and carries is not None else ()),
            Figure("wants", Measure(Fraction(wanted), Dimension.COUNT), ruled=True),
        ),
        help=f"give it {wanted} hinges",
    )


def _leaves(unit: Unit, door: Part | Assembly) -> tuple[Part, ...]:
    """What a door is made of."""
    if isinstance(door, Part):
        return (door,)
    return tuple(part for part in unit.parts if inside(part.path, door.path))


@check(
    "fastener-comes-through",
    Severity.ERROR,
    doc="A fastener is longer than the two parts it goes through, so its point comes out.",
    why="It spoils a face that is seen, or a hand.",
    mend="Name a shorter fastener in the fixing, or join thicker parts.",
    source="arithmetic: length of the fastener against both parts along the joint",
    bad="""
    use plain_room
    run sink_wall on north from left length 24 {
      S1: open_base 24  ended yes  ended_with held_long
    }
    """,
    good={"yes  ended_with held_long": "yes"},
)
def fastener_through(site: Site) -> Iterator[Report]:
    for unit, standings in site.units:
        told: set[str] = set()
        for joint in unit.joints:
            found = _comes_through(site, unit, joint)
            if found is None:
                continue
            name, long, first, second, room = found
            if name + first.role + second.role in told:
                continue
            told.add(name + first.role + second.role)
            yield Report(
                f"{name} is {site.say(long - room)} longer than {words_of(first)} and "
                f"{words_of(second)} together",
                joint.origin,
                standings,
                (
                    length(words_of(first), first.box.size(joint.axis)),
                    length(words_of(second), second.box.size(joint.axis)),
                    length("both", room, ruled=True),
                    length(name, long),
                    length("too long", long - room, ruled=True),
                ),
                help="name a shorter fastener in the fixing",
            )


def _comes_through(
    site: Site, unit: Unit, joint: Joint
) -> tuple[str, Fraction, Part, Part, Fraction] | None:
    """The fastener of a joint that is too long: its name and length, the parts, and their sum."""
    held = site.once_per(unit, parts_by_path)
    first, second = held.get(joint.first), held.get(joint.second)
    # What is driven aslant from a face of the first part never reaches as deep as it is long.
    if first is None or second is None or joint.fixing is None or joint.fixing.drive == "inside":
        return None
    if first.hardware or second.hardware:
        return None
    room = size_along(first, joint) + size_along(second, joint)
    for fasteners in joint.fasteners:
        goods = site.goods("fastener", fasteners.name)
        long = goods.figures.get("long") if goods is not None else None
        if goods is not None and long is not None and long.value > room:
            return goods.title, long.value, first, second, room
    return None


def parts_by_path(unit: Unit) -> dict[str, Part]:
    return {part.path: part for part in unit.parts}


@check(
    "fastener-shows",
    Severity.WARNING,
    doc="Screws or staples are driven through a face that is seen.",
    why="Their heads stand in the finished side of the kitchen.",
    mend="Finish that end with a panel, or join it from inside.",
    source="geometry: the face a fastener is driven from, against the ends that are seen",
    bad="""
    use plain_room
    fixing driven { hold screw every 12 ends 2  drive through }
    construction ours from shop {
      part rail of ply  across box.left_side .. box.right_side  deep 8 to box.back_panel {
        up from box.floor + 3
      }
      join rail to box.left_side box.right_side with driven
      step rail
    }
    run sink_wall on north from left length 30 {
      space 6
      S1: open_base 24  built ours
    }
    """,
    good="""
    use plain_room
    fixing driven { hold screw every 12 ends 2  drive through }
    construction ours from shop {
      part rail of ply  across box.left_side .. box.right_side  deep 8 to box.back_panel {
        up from box.floor + 3
      }
      join rail to box.left_side box.right_side with driven
      step rail
    }
    run sink_wall on north from left length 36 {
      filler 6
      S1: open_base 24  built ours
      filler 6
    }
    """,
)
def fastener_shows(site: Site) -> Iterator[Report]:
    for unit, standings in site.units:
        shown = {
            side: joint
            for joint in unit.joints
            if (side := _end_driven_through(site, unit, joint)) is not None
        }
        by_sides: dict[tuple[str, ...], list[Standing]] = {}
        for standing in standings if shown else ():
            sides = tuple(side for side in ends_seen(site, standing) if side in shown)
            if sides:
                by_sides.setdefault(sides, []).append(standing)
        for sides, about in by_sides.items():
            ends = "both ends, which are" if len(sides) > 1 else f"the {sides[0]} end, which is"
            yield Report(
                f"fasteners are driven through {ends} seen",
                shown[sides[0]].origin,
                tuple(about),
                help="finish that end with a panel, or join it from inside",
            )


def _end_driven_through(site: Site, unit: Unit, joint: Joint) -> str | None:
    """The end of a unit, left or right, through which a joint is fastened from outside."""
    fixing = joint.fixing
    if fixing is None or fixing.drive != "through" or joint.axis != "across" or not fixing.hold:
        return None
    second = site.once_per(unit, parts_by_path).get(joint.second)
    if second is None:
        return None
    if joint.side < 0 and second.box.across[0] <= 0:
        return "left"
    if joint.side > 0 and second.box.across[1] >= unit.width.value:
        return "right"
    return None
