"""Ends and backs that are seen, and whether they are finished."""

from collections.abc import Iterator

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.mends import named_instead
from casewright.compiler.check.seen import Bare, bare_faces, with_faces
from casewright.compiler.check.site import Site, Standing, length, parts
from casewright.compiler.model import Part, Unit
from casewright.lang.findings import Edit, Figure, Severity


@check(
    "seen-end-unfinished",
    Severity.WARNING,
    doc="The end of a unit is seen, and nothing finishes it.",
    why="The raw side of the box faces the room.",
    mend="Have the unit finish that end, with a panel of the fronts' material.",
    source="common practice",
    bad="""
    use plain_room
    run uppers on north from left {
      filler 2
      U1: wall_unit 30  hung left  case board
      space share
    }
    """,
    good={"left  case board": "left"},
)
def seen_end(site: Site) -> Iterator[Report]:
    if site.allowance("scribe_least") is None:
        return
    legs = {id(leg) for leg in site.returns}
    for standing in with_faces(site):
        for bare in bare_faces(site, standing):
            if bare.side == "back" or _finished(site, standing, bare.side):
                continue
            around = " around the corner" if id(standing) in legs else ""
            part = "" if bare.whole else " in part"
            yield Report(
                f"the {bare.side} end of {standing.name}{around} is seen{part} and not finished",
                standing.line,
                (standing,),
                () if bare.whole else _extent(bare, "from the wall"),
                help="finish that end with a panel, or build its side of the fronts' material",
                edits=_sides_of_fronts(standing),
            )


@check(
    "seen-back-unfinished",
    Severity.WARNING,
    doc="The back of a unit on an island is seen, and nothing finishes it.",
    why="Thin board and its fasteners face the room, or the seats.",
    mend="Stand a finished back against it, on the other side of the island.",
    source="common practice",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 200
      island work from north out 60 at 40 length 40 depth 24 3/8
    }
    run work_front on work facing front {
      S1: drawer_base 40
    }
    """,
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 200
      island work from north out 60 at 40 length 40 depth 24 3/8
    }
    run work_front on work facing front {
      S1: drawer_base 40
    }
    run work_back on work facing back {
      B1: back_panel share
    }
    """,
)
def seen_back(site: Site) -> Iterator[Report]:
    if site.allowance("scribe_least") is None:
        return
    for standing in with_faces(site):
        for bare in bare_faces(site, standing):
            if bare.side == "back" and not _finished_back(site, standing):
                part = "" if bare.whole else " in part"
                yield Report(
                    f"the back of {standing.name} is seen{part} and not finished",
                    standing.line,
                    (standing,),
                    () if bare.whole else _extent(bare, f"from the left of {standing.run.wall}"),
                    help="stand a finished back against it, on the other side of "
                    f"{standing.run.island}",
                )


def _extent(bare: Bare, along: str) -> tuple[Figure, ...]:
    """The figures of what is seen in part."""
    return (
        length(f"seen {along}, from", bare.along[0]),
        length("to", bare.along[1]),
        length("and above the floor, from", bare.up[0]),
        length("to", bare.up[1]),
    )


def _sides_of_fronts(standing: Standing) -> tuple[Edit, ...]:
    """Builds the sides of a unit of what its fronts are of, where each is of one material."""
    unit = standing.unit
    assert unit is not None, "only units have ends"
    sides = {part.material.name for part in parts(unit, "side")}
    shown = {part.material.name for part in parts(unit, "front")}
    if len(sides) != 1 or len(shown) != 1:
        return ()
    return named_instead(standing, sides.pop(), shown.pop())


def ends_seen(site: Site, standing: Standing) -> tuple[str, ...]:
    """Which ends of a unit are seen from the room, whole or in part: left, right."""
    return tuple(bare.side for bare in bare_faces(site, standing) if bare.side != "back")


def _finished(site: Site, standing: Standing, side: str) -> bool:
    """Whether that end shows a panel, or what the kitchen's fronts are made of."""
    unit = standing.unit
    assert unit is not None, "only units have ends"
    low = side == "left"
    if any(_on_side(part, unit, low) for part in parts(unit, "end")):
        return True
    shown = site.once(_shown)
    sides = [part for part in parts(unit, "side") if _on_side(part, unit, low)]
    if not sides or not shown:
        return True
    return any(side.material.name in shown for side in sides)


def _finished_back(site: Site, standing: Standing) -> bool:
    """Whether the back shows what the kitchen's fronts are made of; what has none is a panel."""
    unit = standing.unit
    assert unit is not None, "only units have backs"
    backs = list(parts(unit, "back"))
    shown = site.once(_shown)
    return not backs or not shown or all(part.material.name in shown for part in backs)


def _shown(site: Site) -> frozenset[str]:
    """What the kitchen shows: the materials of its fronts."""
    return frozenset(part.material.name for unit, _ in site.units for part in parts(unit, "front"))


def _on_side(part: Part, unit: Unit, low: bool) -> bool:
    middle = (part.box.across[0] + part.box.across[1]) / 2
    return (middle < unit.width.value / 2) == low
