"""A corner unit as it stands along the wall around its corner, or across it: turned, exactly.

What checks and papers know of a unit, they know as seen before its front. The leg around the corner
is looked at the same way by whoever stands before its own mouth: this is the unit turned until that
mouth is its front, and the line it stands on there.
"""

from fractions import Fraction

from attrs import evolve

from casewright.compiler.facing import SIDES, between, edge_in_unit, turned_cut, turned_place
from casewright.compiler.model import (
    AXES,
    EDGES,
    Assembly,
    Axis,
    Box,
    Cut,
    Extent,
    Extents,
    Faces,
    Hole,
    Joint,
    Mouth,
    Opening,
    Part,
    Placed,
    Return,
    Run,
    Slant,
    Spot,
    Unit,
)
from casewright.compiler.plane import PLAY
from casewright.compiler.rooms.angles import turned
from casewright.compiler.rooms.room import plan_point
from casewright.lang.cells import Quantity, literal, negate, subtract
from casewright.lang.measure import nearest


def around_corner(run: Run, placed: Placed) -> tuple[Run, Placed] | None:
    """The leg of a corner unit around its corner, alone in a run of its own; None for what has no
    such leg."""
    returns, unit = placed.returns, placed.unit
    if returns is None or unit is None or run.origin is None:
        return None
    nothing = literal(0, label="the corner unit's own line")
    right = returns.end == "right"
    across = placed.at.value + (placed.width.value if right else 0)
    x, y = plan_point(
        run.origin, run.direction, across, Fraction(0) if right else returns.length.value
    )
    cosine, sine = run.direction
    line = evolve(
        run,
        wall=returns.wall,
        start=nothing,
        space=returns.length,
        origin=Spot(literal(x, label="plan x"), literal(y, label="plan y")),
        direction=(sine, -cosine) if right else (-sine, cosine),
        depth=returns.depth,
        placed=(),
        span=run.span,
    )
    seen = evolve(
        placed,
        unit=_turned(unit, placed, returns),
        at=nothing,
        width=returns.length,
        depth=returns.depth,
        scribe=None,
        returns=None,
    )
    return evolve(line, placed=(seen,)), seen


def across_corner(run: Run, placed: Placed) -> tuple[tuple[Run, Placed], ...]:
    """What stands in each mouth of a unit that looks across a corner, alone in a run of its own:
    as whoever stands before that mouth sees it, and as far back as both legs of the unit reach."""
    unit, returns = placed.unit, placed.returns
    if unit is None or run.origin is None:
        return ()
    found = []
    for mouth in unit.mouths:
        if mouth.slant is not None:
            legs = [placed.depth] if returns is None else [placed.depth, returns.depth]
            depth = min(legs, key=lambda leg: leg.value)
            found.append(_before(run, run.origin, placed, unit, mouth.slant, depth))
    return tuple(found)


def _before(
    run: Run, origin: Spot, placed: Placed, unit: Unit, slant: Slant, depth: Quantity
) -> tuple[Run, Placed]:
    nothing = literal(0, label="the mouth's own zero")
    width = _width_of(unit, slant)
    across, deep = slant.in_unit(Fraction(0), depth.value)
    x, y = plan_point(origin, run.direction, placed.at.value + across, placed.depth.value - deep)
    line = evolve(
        run,
        start=nothing,
        space=width,
        origin=Spot(literal(x, label="plan x"), literal(y, label="plan y")),
        direction=turned(slant.direction, run.direction),
        depth=depth,
        placed=(),
    )
    seen = evolve(
        placed,
        unit=in_its_mouth(unit, slant, width, depth),
        at=nothing,
        width=width,
        depth=depth,
        scribe=None,
        returns=None,
    )
    return evolve(line, placed=(seen,)), seen


def _width_of(unit: Unit, slant: Slant) -> Quantity:
    """From corner to corner of the box that a mouth across a corner has, rounded once."""
    mouth = next(each for each in unit.mouths if each.slant == slant)
    box = mouth.extents.box
    far = slant.here(box.across[1], box.deep[0] if slant.direction[1] < 0 else box.deep[1])
    return literal(nearest(far[0], PLAY), label="from leg to leg")


def in_its_mouth(unit: Unit, slant: Slant, width: Quantity, depth: Quantity) -> Unit:
    """A unit with nothing but what stands in one of its mouths, by the axes of that one."""
    return evolve(
        unit,
        parts=tuple(evolve(each, slant=None) for each in unit.parts if each.slant == slant),
        assemblies=tuple(
            evolve(each, slant=None) for each in unit.assemblies if each.slant == slant
        ),
        openings=tuple(evolve(each, slant=None) for each in unit.openings if each.slant == slant),
        members=(),
        joints=(),
        steps=(),
        blanks=(),
        mouths=(),
        width=width,
        depth=depth,
    )


def looks_to(returns: Return) -> Faces:
    """The side of its unit to which the mouth of a leg around a corner looks."""
    return "left" if returns.end == "right" else "right"


def turned_to(unit: Unit, faces: Faces) -> Unit:
    """A unit by the axes of whoever stands before a mouth that looks to a side."""
    nothing = literal(0, label="the unit's own zero")
    turner = _Turner(faces, nothing, nothing)
    return evolve(
        unit,
        parts=tuple(turner.part(part) for part in unit.parts),
        assemblies=tuple(turner.assembly(each) for each in unit.assemblies),
        joints=tuple(turner.joint(each) for each in unit.joints),
    )


class _Turner:
    """Turns what is known in a unit's space into that of one of its mouths, whose left end and
    front come to lie at nought."""

    def __init__(self, faces: Faces, left: Quantity, front: Quantity) -> None:
        self.faces = faces
        self.off: dict[Axis, Quantity | None] = {"across": left, "up": None, "deep": front}

    def axis(self, axis: Axis) -> Axis:
        return between("front", self.faces, axis)[0]

    def extents(self, extents: Extents) -> Extents:
        found = []
        for axis in AXES:
            unit_axis, sign = between(self.faces, "front", axis)
            extent = extents.along(unit_axis)
            ends = (extent.low, extent.high) if sign > 0 else (extent.high, extent.low)
            low, high = (self.moved(turned_place(each, axis, sign), axis) for each in ends)
            found.append(Extent(low, high))
        return Extents(*found)

    def moved(self, place: Quantity, axis: Axis) -> Quantity:
        off = self.off[axis]
        return place if off is None else subtract(place, off)

    def seen(self, faces: Faces) -> Faces:
        """To which side something looks, as the turned unit stands."""
        axis, side = EDGES[faces]
        own, sign = between("front", self.faces, axis)
        return next(word for word in SIDES if EDGES[word] == (own, side * sign))

    def edge(self, edge: str) -> str:
        return next(word for word in EDGES if edge_in_unit(self.faces, word) == edge)

    def slant(self, slant: Slant) -> Slant:
        """The same turned space, by the axes of this one."""
        zero: dict[Axis, Fraction] = {"across": slant.across, "deep": slant.deep}
        cosine, sine = slant.direction
        runs: dict[Axis, Fraction] = {"across": cosine, "deep": sine}
        places, ways = [], []
        axes: tuple[Axis, Axis] = ("across", "deep")
        for axis in axes:
            unit_axis, sign = between(self.faces, "front", axis)
            off = self.off[axis]
            places.append(sign * zero[unit_axis] - (off.value if off is not None else 0))
            ways.append(sign * runs[unit_axis])
        return Slant(slant.mouth, places[0], places[1], (ways[0], ways[1]))

    def part(self, part: Part) -> Part:
        if part.slant is not None:
            return evolve(part, slant=self.slant(part.slant))
        return evolve(
            part,
            extents=self.extents(part.extents),
            thick_axis=self.axis(part.thick_axis),
            length_axis=self.axis(part.length_axis),
            width_axis=self.axis(part.width_axis),
            bands=tuple(evolve(each, edge=self.edge(each.edge)) for each in part.bands),
            cuts=tuple(self.cut(each) for each in part.cuts),
            holes=tuple(self.hole(each) for each in part.holes),
            faces=self.seen(part.faces),
        )

    def box(self, box: Box) -> Box:
        ranges = []
        for axis in AXES:
            unit_axis, sign = between(self.faces, "front", axis)
            low, high = box.along(unit_axis)
            off = self.off[axis]
            by = off.value if off is not None else Fraction(0)
            ranges.append((low - by, high - by) if sign > 0 else (-high - by, -low - by))
        return Box(*ranges)

    def cut(self, cut: Cut) -> Cut:
        return turned_cut(cut, self.box, self.edge)

    def joint(self, joint: Joint) -> Joint:
        axis, sign = between("front", self.faces, joint.axis)
        return evolve(joint, axis=axis, side=joint.side * sign, area=self.box(joint.area))

    def hole(self, hole: Hole) -> Hole:
        places = {}
        for axis, place in zip(hole.at_axes, hole.at, strict=True):
            own, sign = between("front", self.faces, axis)
            places[own] = self.moved(turned_place(place, own, sign), own)
        own, sign = between("front", self.faces, hole.axis)
        first, second = (axis for axis in AXES if axis != own)
        return evolve(
            hole,
            axis=own,
            side=hole.side * sign,
            at=(places[first], places[second]),
            at_axes=(first, second),
        )

    def assembly(self, each: Assembly) -> Assembly:
        return evolve(each, extents=self.extents(each.extents), faces=self.seen(each.faces))

    def opening(self, opening: Opening) -> Opening:
        """An opening of this very mouth is known in its space already, but for where that is."""
        if opening.faces != self.faces:
            return evolve(opening, faces=self.seen(opening.faces))
        ends = (opening.across.low, opening.across.high)
        low, high = (self.moved(each, "across") for each in ends)
        return evolve(opening, across=Extent(low, high), faces="front")


def _turned(unit: Unit, placed: Placed, returns: Return) -> Unit:
    """The unit as seen before the mouth of its leg around the corner. It is looked at only: it
    keeps neither joints nor steps, which are told of the unit itself."""
    faces = looks_to(returns)
    turner = _Turner(faces, *_corner_of(placed, returns))
    return evolve(
        unit,
        width=returns.length,
        depth=returns.depth,
        parts=tuple(turner.part(part) for part in unit.parts),
        assemblies=tuple(turner.assembly(each) for each in unit.assemblies if each.slant is None),
        openings=tuple(turner.opening(each) for each in unit.openings if each.slant is None),
        members=(),
        joints=(),
        steps=(),
        blanks=(),
        mouths=tuple(
            Mouth(each.name, turner.seen(each.faces), turner.extents(each.extents))
            for each in unit.mouths
            if each.slant is None
        ),
    )


def _corner_of(placed: Placed, returns: Return) -> tuple[Quantity, Quantity]:
    """Where the left end and the front of the leg around the corner lie, in its mouth's space."""
    if returns.end == "right":
        # It looks left: across runs outward, from the run's own wall at the unit's depth.
        return negate(placed.depth), subtract(placed.width, returns.depth)
    return subtract(placed.depth, returns.length), negate(returns.depth)
