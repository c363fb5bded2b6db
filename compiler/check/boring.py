"""Bored holes: how deep, how near an edge, and what they run into."""

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from itertools import combinations

from attrs import frozen

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.site import (
    Site,
    figure,
    length,
    words_of,
)
from casewright.compiler.joints.fastening import fastener_places
from casewright.compiler.model import AXES, Axis, Box, Hole, Part, Unit
from casewright.lang.findings import Severity


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
    good={"into 5/8": "into 1/2"},
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
                    f"a hole leaves {site.say(left)} of {words_of(part)}",
                    hole.origin,
                    standings,
                    (
                        length(words_of(part), thick),
                        figure("bored", hole.depth),
                        length("left", left, ruled=True),
                        length("must stay", least.value),
                    ),
                    help=f"bore {site.say(thick - least.value)} deep at most",
                    edits=site.edit(hole.depth, thick - least.value),
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
    good={"+ 1/4": "+ 37mm"},
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
                    f"{words_of(part)}",
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
    doc="Two holes of one face run into one another, or a hole into a groove or a fastener.",
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
    good={"bottom + 20.1 deep": "bottom + 21  deep"},
)
def holes_meet(site: Site) -> Iterator[Report]:
    for unit, standings in site.units:
        driven = site.once_per(unit, _driven)
        for part in unit.parts:
            found = into_another(part) or _on_fastener(part, driven.get(part.path, ()))
            if found is not None:
                hole, what = found
                yield Report(
                    f"a hole for {hole.use.replace('_', ' ')} runs into {what} of {words_of(part)}",
                    hole.origin,
                    standings,
                    help="move one of the two",
                )
                break


def into_another(part: Part) -> tuple[Hole, str] | None:
    """A hole of a part that runs into another or into a groove, and what that is."""
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


@frozen
class Driven:
    """A fastener that goes right through a part: along which axis, and where on the other two."""

    name: str
    axis: Axis
    at: Mapping[Axis, Fraction]


def _driven(unit: Unit) -> Mapping[str, tuple[Driven, ...]]:
    """What is driven through each part, by its path: a joint's fasteners come through the second
    part's far face, or from one of the first's own faces."""
    found: dict[str, list[Driven]] = {}
    turned = {part.path: part.slant for part in unit.parts}
    for joint in unit.joints:
        if joint.kind != "butt" or joint.fixing is None or joint.fixing.drive != "through":
            continue
        if turned.get(joint.second) != joint.slant:
            continue  # driven askew: along none of the axes its holes are bored along
        for fasteners, places in fastener_places(joint):
            for place in places:
                at = dict(zip(AXES, place, strict=True))
                found.setdefault(joint.second, []).append(Driven(fasteners.name, joint.axis, at))
    return {path: tuple(each) for path, each in found.items()}


def _on_fastener(part: Part, driven: Iterable[Driven]) -> tuple[Hole, str] | None:
    """A hole whose bit, or whose pin, meets a fastener's middle."""
    for fastener in driven:
        for hole in part.holes:
            if hole.axis != fastener.axis:
                continue
            apart = [
                at.value - fastener.at[axis] for axis, at in zip(hole.at_axes, hole.at, strict=True)
            ]
            radius = hole.diameter.value / 2
            if sum((each * each for each in apart), Fraction(0)) < radius * radius:
                return hole, f"a {fastener.name.replace('_', ' ')}"
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
