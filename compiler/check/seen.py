"""Faces of units that are seen: what of their ends and backs nothing stands against.

An end is looked at as the side of a box, by its depth and its heights. Whatever stands right beside
it, on its own line or another's, a wall too, takes out of it as much as it lies against; what is
left is bare. A back is seen only where it doesn't stand at a wall: on an island, where what stands
on its other side covers it.
"""

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from itertools import combinations
from typing import Literal

from attrs import frozen

from casewright.compiler.check.meetings import fixed_grid, overlap
from casewright.compiler.check.plan import common, rectangle
from casewright.compiler.check.site import Site, Standing, stands_at_end
from casewright.compiler.check.sweeps import Fixed, around, line_of
from casewright.compiler.model import Range

Side = Literal["left", "right", "back"]
Cover = tuple[Range, Range]
"""What something covers of a face: along it, and above the floor."""

STRIPE = Fraction(1)
"""What isn't an inch wide and high isn't seen as an end: a face frame's lip, the play at a filler.
As near a thing must lie to cover one."""


@frozen
class Bare:
    """What is seen of a face: the largest rectangle that nothing covers. `along` is measured from
    the wall, or of a back from the left end of what the unit stands on; `up` from the floor."""

    side: Side
    along: Range
    up: Range
    whole: bool


def with_faces(site: Site) -> Iterator[Standing]:
    """What has ends to be seen: every unit, and the legs around their corners of corner units."""
    for standing in (*site.standings, *site.returns):
        if standing.unit is not None and standing.placed.kind == "unit":
            yield standing


def bare_faces(site: Site, standing: Standing) -> tuple[Bare, ...]:
    """The faces of a unit, or of a leg of one, that are seen, whole or in part."""
    return site.once(_all_bare).get(id(standing), ())


def _all_bare(site: Site) -> Mapping[int, tuple[Bare, ...]]:
    beside = _neighbours(site)
    legs = _legs(site)
    islands = {island.name: island for island in site.job.room.islands}
    found: dict[int, tuple[Bare, ...]] = {}
    for standing in with_faces(site):
        faces = []
        for side in _free_ends(site, standing, legs.get(id(standing))):
            covers = list(_covers(site, standing, side, STRIPE))
            covers += (
                ((Fraction(0), each.depth), _heights(site, each))
                for each in beside.get((standing.placed.address, side), ())
            )
            faces.append(_bare(side, (Fraction(0), standing.depth), standing, covers))
        island = islands.get(standing.run.island)
        if island is not None and id(standing) not in legs:
            deep = island.depth if standing.run.facing in ("front", "back") else island.width
            behind = max(STRIPE, deep.value - standing.depth)
            covers = list(_covers(site, standing, "back", behind))
            faces.append(_bare("back", (standing.left, standing.right), standing, covers))
        found[id(standing)] = tuple(each for each in faces if each is not None)
    return found


def _legs(site: Site) -> Mapping[int, Side]:
    """The legs around their corners, each with the end that it has for itself."""
    ends: dict[str, Side] = {
        standing.placed.address: standing.placed.returns.end
        for standing in site.standings
        if standing.placed.returns is not None
    }
    return {id(leg): ends[leg.placed.address] for leg in site.returns}


def _free_ends(site: Site, standing: Standing, leg: Side | None) -> tuple[Side, ...]:
    """The ends of a unit that don't stand at a corner of their wall."""
    if leg is not None:
        return (leg,)
    around = standing.placed.returns
    wall = site.walls.get(standing.run.wall)
    ends: tuple[Side, Side] = ("left", "right")
    return tuple(
        side
        for side in ends
        if not (around is not None and around.end == side)
        and not (wall is not None and stands_at_end(site, standing, wall, side))
    )


def _neighbours(site: Site) -> Mapping[tuple[str, Side], list[Standing]]:
    """What stands right beside a thing on its wall, legs around corners among them, by address and
    side; an empty space doesn't."""
    found: dict[tuple[str, Side], list[Standing]] = {}
    for standings in site.on_wall.values():
        things = [each for each in standings if each.placed.kind != "space"]
        begin: dict[Fraction, list[Standing]] = {}
        for each in things:
            begin.setdefault(each.left, []).append(each)
        for left in things:
            for right in begin.get(left.right, ()):
                found.setdefault((left.placed.address, "right"), []).append(right)
                found.setdefault((right.placed.address, "left"), []).append(left)
    return found


def _heights(site: Site, standing: Standing) -> Range:
    """From its underside to its top, or to that of the counter that lies on it."""
    counter = site.job.room.counter.value
    on_floor = standing.low == 0 and standing.high <= counter
    return (standing.low, counter if on_floor else standing.high)


def _covers(site: Site, standing: Standing, side: Side, near: Fraction) -> Iterator[Cover]:
    """What of a face something within `near` of it covers."""
    line = line_of(standing)
    if line is None:
        return
    left, right, nothing = standing.left, standing.right, Fraction(0)
    stripe = {
        "left": rectangle((left - near, nothing), (left, standing.depth)),
        "right": rectangle((right, nothing), (right + near, standing.depth)),
        "back": rectangle((left, -near), (right, nothing)),
    }[side]
    axis = 0 if side == "back" else 1
    for fixed in site.once(fixed_grid).near(around(line, stripe)):
        if fixed.part is not None or fixed.kind == "casing" or _is_own(fixed, standing):
            continue
        shared = common(stripe, line.here(fixed.outline))
        if shared:
            places = [point[axis] for point in shared]
            up = _heights(site, fixed.standing) if fixed.standing is not None else fixed.up
            yield (min(places), max(places)), up


def _is_own(fixed: Fixed, standing: Standing) -> bool:
    """Whether something is of the unit itself, whichever of its legs."""
    other = fixed.standing
    return other is not None and other.placed.address == standing.placed.address


def _bare(side: Side, along: Range, standing: Standing, covers: list[Cover]) -> Bare | None:
    """The largest rectangle of a face that nothing covers; None where none is a stripe wide."""
    up = (standing.low, standing.high)
    best: tuple[Fraction, Range, Range] | None = None
    for wide in _spans(along, (cover[0] for cover in covers)):
        over = [cover[1] for cover in covers if overlap(wide, cover[0])]
        for high in _spans(up, over):
            area = (wide[1] - wide[0]) * (high[1] - high[0])
            if not any(overlap(high, each) for each in over) and (best is None or area > best[0]):
                best = (area, wide, high)
    if best is None:
        return None
    return Bare(side, best[1], best[2], (best[1], best[2]) == (along, up))


def _spans(whole: Range, covers: Iterable[Range]) -> list[Range]:
    """The spans of a range, between its ends and those of what lies over it, from a stripe on."""
    ends = {whole[0], whole[1]}
    ends.update(end for cover in covers for end in cover if whole[0] < end < whole[1])
    return [(low, high) for low, high in combinations(sorted(ends), 2) if high - low >= STRIPE]
