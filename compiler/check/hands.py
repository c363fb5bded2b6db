"""Doors hung on their other side: whether that clears them, and the edit that does it."""

from fractions import Fraction

from attrs import evolve

from casewright.compiler.check.meetings import all_movers, fixed_grid, overlap
from casewright.compiler.check.mends import named_instead
from casewright.compiler.check.plan import Outline, apart, rectangle, shares
from casewright.compiler.check.site import Site
from casewright.compiler.check.sweeps import Mover, door_sweep
from casewright.lang.findings import Edit


def hung_otherwise(site: Site, mover: Mover) -> tuple[Edit, ...]:
    """Hangs a door on its other side, by the word on its unit's own line. None where it isn't the
    one door of that unit, or where it would meet anything there, or leave no room to pass."""
    doors = [each for each in site.once(all_movers) if each.standing is mover.standing]
    if len(doors) != 1 or not mover.leaf:
        return ()
    other = other_hand(mover)
    if _meets_fixed(site, other) or _meets_moving(site, other):
        return ()
    now, then = ("right", "left") if mover.line.mirrored else ("left", "right")
    return named_instead(mover.standing, now, then)


def other_hand(mover: Mover) -> Mover:
    """The same door hung on its other side, its pull with it."""
    face = [x for x, _ in mover.leaf[0]]
    by = -(min(face) + max(face))
    leaf = tuple(tuple((x + by, y) for x, y in outline) for outline in mover.leaf)
    pivot = (mover.pivot[0] + by, mover.pivot[1])
    return evolve(
        mover,
        line=evolve(mover.line, mirrored=not mover.line.mirrored),
        shapes=door_sweep(leaf, pivot, mover.angle),
        closed=leaf,
        leaf=leaf,
        pivot=pivot,
    )


def _meets_fixed(site: Site, door: Mover) -> bool:
    """Whether a door, or who passes before it while it stands open, meets something fixed."""
    shapes = (*door.shapes, _before(site, door))
    wide = evolve(door, shapes=shapes)
    return any(
        fixed.standing is not door.standing
        and overlap(door.up, fixed.up)
        and any(shares(shape, door.line.here(fixed.outline)) for shape in shapes)
        for fixed in site.once(fixed_grid).near(wide.around)
    )


def _before(site: Site, door: Mover) -> Outline:
    """What a door standing open square takes of the room before its face, and who passes it."""
    points = door.leaf[0]
    low, high = min(x for x, _ in points), max(x for x, _ in points)
    face = max(y for _, y in points)
    least = site.allowance("passage_least")
    pass_by = least.value if least is not None else Fraction(0)
    return rectangle((low, face), (high, face + (high - low) + pass_by))


def _meets_moving(site: Site, door: Mover) -> bool:
    """Whether a door sweeps near what any other door or drawer of another run sweeps: a box around
    each is looked at, so that no meeting is missed."""
    box = door.around
    return any(
        other.standing.run is not door.standing.run
        and overlap(door.up, other.up)
        and not apart(box, other.around)
        for other in site.once(all_movers)
    )
