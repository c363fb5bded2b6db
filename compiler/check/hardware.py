"""Hardware: slides and their loads, hinges and their doors, fasteners and what they go into."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.site import (
    Site,
    assemblies,
    figure,
    length,
    parts,
    weight,
)
from casewright.compiler.model import Assembly, Box, Hole, Joint, Part, Unit
from casewright.lang.findings import Figure, Severity
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
        "arithmetic: volume of the drawer box x the density of what fills it (a shop's allowance), "
        "against the slide's own figure"
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
    good="""
    use plain_room
    slide stout { each_side 1/2  carries 120lb }
    run sink_wall on north from left length 44 {
      space 2
      S1: drawer_base 40  runs_on stout
      space 2
    }
    """,
)
def slide_overloaded(site: Site) -> Iterator[Report]:
    fill = site.allowance("drawer_fill")
    for unit, standings in site.units if fill is not None else ():
        heaviest: tuple[Fraction, Assembly, Part] | None = None
        for tray in assemblies(unit, "tray"):
            slide = next((each for each in _of_opening(unit, "slide", tray.opening)), None)
            if slide is None or fill is None:
                continue
            box = tray.extents.box
            volume = box.size("across") * box.size("up") * box.size("deep")
            load = volume / CUBIC_FOOT * fill.value
            if heaviest is None or load > heaviest[0]:
                heaviest = (load, tray, slide)
        if heaviest is None:
            continue
        load, tray, slide = heaviest
        goods = site.goods("slide", slide.material.name)
        carries = goods.figures.get("carries") if goods is not None else None
        if carries is None or load <= carries.value:
            continue
        yield Report(
            f"a full drawer weighs {site.say(load, Dimension.WEIGHT)}; its slides carry "
            f"{site.say(carries.value, Dimension.WEIGHT)}",
            None,
            standings,
            (
                weight("full, it weighs", load),
                figure(f"{slide.material.title} carries", carries),
                weight("too much", load - carries.value, ruled=True),
            ),
            help="choose a slide that carries more, or make the drawer smaller",
        )


def _of_opening(unit: Unit, role: str, opening: str) -> Iterator[Part]:
    return (part for part in parts(unit, role) if opening and part.opening == opening)


def hinges_wanted(heights: tuple[Fraction | None, ...], height: Fraction) -> int:
    """Two hinges, and one more for each height that a door passes."""
    return 2 + sum(each is not None and height > each for each in heights)


@check(
    "too-few-hinges",
    Severity.WARNING,
    doc="A door hangs on fewer hinges than its height wants.",
    why="It sags at its free corner, and its screws work loose.",
    mend="Give it as many hinges as the report says.",
    source=(
        "common practice: cup hinges 2 up to 40 inches, 3 to 60, 4 to 80, then 5 (from memory); "
        "butt hinges one for each 30 inches or part of it. The heights are the hinge's own data"
    ),
    bad="""
    use plain_room
    run tall on north from left length 28 {
      space 2
      T1: tall_unit 24  hung left  hinges 3
      space 2
    }
    """,
    good="""
    use plain_room
    run tall on north from left length 28 {
      space 2
      T1: tall_unit 24  hung left  hinges 4
      space 2
    }
    """,
)
def too_few_hinges(site: Site) -> Iterator[Report]:
    for unit, standings in site.units:
        moving: tuple[Part | Assembly, ...] = (*unit.parts, *unit.assemblies)
        for door in moving:
            if door.motion is None or door.motion.kind != "about":
                continue
            hinges = list(_of_opening(unit, "hinge", door.opening))
            goods = site.goods("hinge", hinges[0].material.name) if hinges else None
            if goods is None:
                continue
            data = tuple(goods.figures.get(word) for word in ("two_to", "three_to", "four_to"))
            heights = tuple(each.value if each is not None else None for each in data)
            height = door.extents.box.size("up")
            wanted = hinges_wanted(heights, height)
            if len(hinges) < wanted:
                yield Report(
                    f"a door {site.say(height)} high hangs on {len(hinges)} hinges; it wants "
                    f"{wanted}",
                    None,
                    standings,
                    (
                        length("height of the door", height),
                        *(
                            figure(f"{goods.title}, {count} up to", each)
                            for count, each in zip((2, 3, 4), data, strict=True)
                            if each is not None
                        ),
                        Figure("wants", Measure(Fraction(wanted), Dimension.COUNT), ruled=True),
                    ),
                    help=f"give it {wanted} hinges",
                )


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
    good="""
    use plain_room
    run sink_wall on north from left length 24 {
      S1: open_base 24  ended yes
    }
    """,
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
                f"{name} is {site.say(long - room)} longer than {_words(first)} and "
                f"{_words(second)} together",
                joint.origin,
                standings,
                (
                    length(_words(first), first.box.size(joint.axis)),
                    length(_words(second), second.box.size(joint.axis)),
                    length("both", room, ruled=True),
                    length(name, long),
                    length("too long", long - room, ruled=True),
                ),
                help="name a shorter fastener in the fixing",
            )


def _words(part: Part) -> str:
    return part.address.replace("_", " ").replace(".", " ")


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
    room = first.box.size(joint.axis) + second.box.size(joint.axis)
    for fasteners in joint.fasteners:
        goods = site.goods("fastener", fasteners.name)
        long = goods.figures.get("long") if goods is not None else None
        if goods is not None and long is not None and long.value > room:
            return goods.title, long.value, first, second, room
    return None


def parts_by_path(unit: Unit) -> dict[str, Part]:
    return {part.path: part for part in unit.parts}


@check(
    "hole-too-deep",
    Severity.ERROR,
    doc="A hole that isn't bored through leaves too little stock behind it.",
    why="The point of the bit shows on the far face, or breaks out of it.",
    mend="Bore less deep, or into a thicker part.",
    source="common practice; how much must stay is the shop's allowance",
    bad="""
    use plain_room
    construction ours from shop {
      holes pins on box.left_side.right { size 5mm  into 5/8  up bottom + 20  deep front + 2 }
    }
    run sink_wall on north from left length 44 {
      S1: open_base 44  built ours
    }
    """,
    good="""
    use plain_room
    construction ours from shop {
      holes pins on box.left_side.right { size 5mm  into 1/2  up bottom + 20  deep front + 2 }
    }
    run sink_wall on north from left length 44 {
      S1: open_base 44  built ours
    }
    """,
)
def hole_too_deep(site: Site) -> Iterator[Report]:
    least = site.allowance("least_stock")
    for unit, standings in site.units if least is not None else ():
        told: set[str] = set()
        for part in unit.parts:
            for hole in part.holes:
                thick = part.box.size(hole.axis)
                left = thick - hole.depth.value
                if least is None or not 0 < left < least.value or hole.use in told:
                    continue
                told.add(hole.use)
                yield Report(
                    f"a hole leaves {site.say(left)} of {_words(part)}",
                    hole.origin,
                    standings,
                    (
                        length(_words(part), thick),
                        figure("bored", hole.depth),
                        length("left", left, ruled=True),
                        length("must stay", least.value),
                    ),
                    help="bore less deep",
                )


@check(
    "hole-near-edge",
    Severity.WARNING,
    doc="A hole lies too near an edge of its part.",
    why="The edge breaks out when the pin or the screw goes in.",
    mend="Move the row, or the shelf, away from the edge.",
    source="common practice; the least distance is the shop's allowance",
    bad="""
    use plain_room
    construction ours from shop {
      holes pins on box.left_side.right { size 5mm  into 1/2  up bottom + 20  deep front + 1/4 }
    }
    run sink_wall on north from left length 44 {
      S1: open_base 44  built ours
    }
    """,
    good="""
    use plain_room
    construction ours from shop {
      holes pins on box.left_side.right { size 5mm  into 1/2  up bottom + 20  deep front + 37mm }
    }
    run sink_wall on north from left length 44 {
      S1: open_base 44  built ours
    }
    """,
)
def hole_near_edge(site: Site) -> Iterator[Report]:
    least = site.allowance("hole_edge")
    for unit, standings in site.units if least is not None else ():
        told: set[str] = set()
        for part in unit.parts:
            for hole in part.holes:
                clear = _to_edge(part, hole)
                if least is None or clear >= least.value or hole.use in told:
                    continue
                told.add(hole.use)
                yield Report(
                    f"a hole lies {site.say(max(clear, Fraction(0)))} from an edge of "
                    f"{_words(part)}",
                    hole.origin,
                    standings,
                    (
                        length("from its rim to the edge", clear),
                        length("must stay", least.value),
                    ),
                    help="move it away from the edge",
                )


def _to_edge(part: Part, hole: Hole) -> Fraction:
    """From a hole's rim to the nearest edge of its part."""
    radius = hole.diameter.value / 2
    found = []
    for axis, at in zip(hole.at_axes, hole.at, strict=True):
        low, high = part.box.along(axis)
        found += [at.value - low - radius, high - at.value - radius]
    return min(found)


@check(
    "holes-meet",
    Severity.ERROR,
    doc="Two holes of one face run into one another, or a hole runs into a groove.",
    why="Neither holds anything any more.",
    mend="Move one of the two rows.",
    source="geometry",
    bad="""
    use plain_room
    construction ours from shop {
      holes pins on box.left_side.right { size 5mm  into 1/2  up bottom + 20  deep front + 37mm }
      holes plates on box.left_side.right { size 5mm  into 1/2  up bottom + 20.1 deep front + 37mm }
    }
    run sink_wall on north from left length 44 {
      S1: open_base 44  built ours
    }
    """,
    good="""
    use plain_room
    construction ours from shop {
      holes pins on box.left_side.right { size 5mm  into 1/2  up bottom + 20  deep front + 37mm }
      holes plates on box.left_side.right { size 5mm  into 1/2  up bottom + 21  deep front + 37mm }
    }
    run sink_wall on north from left length 44 {
      S1: open_base 44  built ours
    }
    """,
)
def holes_meet(site: Site) -> Iterator[Report]:
    for unit, standings in site.units:
        for part in unit.parts:
            found = _meeting(part)
            if found is not None:
                hole, what = found
                yield Report(
                    f"a hole for {hole.use.replace('_', ' ')} runs into {what} of {_words(part)}",
                    hole.origin,
                    standings,
                    help="move one of the two",
                )
                break


def _meeting(part: Part) -> tuple[Hole, str] | None:
    by_face: dict[tuple[str, int], list[Hole]] = {}
    for hole in part.holes:
        by_face.setdefault((hole.axis, hole.side), []).append(hole)
    for holes in by_face.values():
        ordered = sorted(holes, key=lambda hole: (hole.at[0].value, hole.at[1].value))
        for one, other in combinations(ordered, 2):
            reach = (one.diameter.value + other.diameter.value) / 2
            if other.at[0].value - one.at[0].value >= reach:
                continue
            across = one.at[0].value - other.at[0].value
            along = one.at[1].value - other.at[1].value
            if across * across + along * along < reach * reach and (across or along):
                return other, f"one for {one.use.replace('_', ' ')}"
    for hole in part.holes:
        for cut in part.cuts:
            if cut.kind == "groove" and _in_groove(hole, cut.box, part):
                return hole, "a groove"
    return None


def _in_groove(hole: Hole, box: Box, part: Part) -> bool:
    radius = hole.diameter.value / 2
    inside = True
    for axis, at in zip(hole.at_axes, hole.at, strict=True):
        low, high = box.along(axis)
        inside = inside and low - radius < at.value < high + radius
    low, high = part.box.along(hole.axis)
    bored = (low, low + hole.depth.value) if hole.side < 0 else (high - hole.depth.value, high)
    cut = box.along(hole.axis)
    return inside and bored[0] < cut[1] and cut[0] < bored[1]
