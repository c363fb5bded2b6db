"""Ends that are seen: which they are, and whether they are finished."""

from collections.abc import Iterator, Mapping

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.mends import named_instead
from casewright.compiler.check.site import Site, Standing, parts, stands_at_end
from casewright.compiler.model import Part, Unit
from casewright.lang.findings import Edit, Severity


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
    for standing in site.standings if site.allowance("scribe_least") is not None else ():
        if standing.placed.kind != "unit":
            continue
        for side in ends_seen(site, standing):
            if not _finished(site, standing, side):
                yield Report(
                    f"the {side} end of {standing.name} is seen and not finished",
                    standing.line,
                    (standing,),
                    help="finish that end with a panel, or build its side of the fronts' material",
                    edits=_sides_of_fronts(standing),
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
    """Which ends of a unit on a wall are seen from the room: left, right."""
    return site.once(_all_ends_seen).get(id(standing), ())


def _all_ends_seen(site: Site) -> Mapping[int, tuple[str, ...]]:
    found: dict[int, tuple[str, ...]] = {}
    for run, row in site.rows:
        wall = site.walls.get(run.wall)
        for index, standing in enumerate(row if wall is not None else ()):
            if standing.unit is None or wall is None:
                continue
            left = row[index - 1] if index else None
            right = row[index + 1] if index + 1 < len(row) else None
            around = standing.placed.returns
            found[id(standing)] = tuple(
                side
                for side, beside, at_wall in (
                    ("left", left, stands_at_end(site, standing, wall, "left")),
                    ("right", right, stands_at_end(site, standing, wall, "right")),
                )
                if not (around is not None and around.end == side)
                and (beside.placed.kind == "space" if beside is not None else not at_wall)
                and not _covered(site, standing, side)
            )
    return found


def _covered(site: Site, standing: Standing, side: str) -> bool:
    """Whether something of another run on the wall stands right beside it."""
    edge = standing.left if side == "left" else standing.right
    return any(
        other is not standing
        and (other.right if side == "left" else other.left) == edge
        and other.placed.kind != "space"
        and other.low <= standing.low
        and other.high >= standing.high
        for other in site.on_wall.get(standing.run.wall, ())
    )


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


def _shown(site: Site) -> frozenset[str]:
    """What the kitchen shows: the materials of its fronts."""
    return frozenset(part.material.name for unit, _ in site.units for part in parts(unit, "front"))


def _on_side(part: Part, unit: Unit, low: bool) -> bool:
    middle = (part.box.across[0] + part.box.across[1]) / 2
    return (middle < unit.width.value / 2) == low
