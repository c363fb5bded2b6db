"""Parts as the model has them, from things that have been worked out."""

from collections.abc import Mapping

from casewright.compiler.blame import Row
from casewright.compiler.construct.cuts import behind_bands, cuts_of, stated_cuts
from casewright.compiler.construct.edges import banded, edges_of
from casewright.compiler.construct.evaluate import quantity
from casewright.compiler.construct.faults import fault
from casewright.compiler.construct.materials import material_of
from casewright.compiler.construct.things import Thing
from casewright.compiler.facing import part_in_unit
from casewright.compiler.model import AXES, EDGES, Axis, Motion, Part
from casewright.lang.cells import Quantity, add, literal, named, subtract
from casewright.lang.measure import Dimension
from casewright.lang.shape import Clause, Statement, bare_word


def part_of(thing: Thing, addresses: Mapping[str, str]) -> Part:
    """The part a thing is. Raises Fault, naming the first size that is not more than nothing."""
    build = thing.build
    for axis in AXES:
        _check_size(thing, axis)
    extents = thing.extents()
    material = material_of(build, thing.material().declaration)
    hardware = thing.rule == "hardware"
    if hardware:
        by_size = sorted(AXES, key=lambda axis: thing.size(axis).value)
        thick_axis, width_axis, length_axis = by_size
        thick = thing.size(thick_axis)
    else:
        thick_axis = thing.thick_axis()
        length_axis, width_axis = thing.flat_axes()
        thick = thing.thick()
    bands = banded(thing, thick_axis)
    stated = stated_cuts(thing)
    behind = behind_bands(thing, bands, stated)
    address = addresses[thing.path]
    length = named(thing.size(length_axis), f"{thing.path}.length", thing.origin)
    width = named(thing.size(width_axis), f"{thing.path}.width", thing.origin)
    part = Part(
        path=thing.path,
        address=address,
        title=thing.name.replace("_", " "),
        assembly=thing.scope.holder.built_into,
        opening=thing.opening,
        role=role_of(thing.statement),
        material=material,
        hardware=hardware,
        extents=extents,
        thick_axis=thick_axis,
        length_axis=length_axis,
        width_axis=width_axis,
        length=length,
        width=width,
        thick=thick,
        cut_length=_cut_size(thing, length, length_axis, behind, "cut_length"),
        cut_width=_cut_size(thing, width, width_axis, behind, "cut_width"),
        grained=material.grained,
        bands=bands,
        cuts=cuts_of(thing, stated, behind),
        holes=(),
        motion=motion_of(thing),
        blank="",
        origin=thing.origin,
    )
    return part_in_unit(part, thing.faces)


def role_of(statement: Statement) -> str:
    clause = statement.clause("serves")
    return bare_word(clause.values[0]) if clause is not None and clause.values else ""


def _check_size(thing: Thing, axis: Axis) -> None:
    size = thing.size(axis)
    if size.value > 0:
        return
    extent = thing.extent(axis)
    clause = thing.statement.clause(axis)
    raise fault(
        "size-not-positive",
        f"no room is left for {thing.path.replace('.', ' ').replace('_', ' ')} {axis}",
        clause.origin if clause is not None else thing.origin,
        rows=(
            Row("ends at", extent.high.measure, extent.high.origin),
            Row("begins at", extent.low.measure, extent.low.origin),
            Row("leaves", size.measure, ruled=True),
        ),
        help="make the unit larger, or what stands on either side smaller",
    )


def _cut_size(
    thing: Thing, finished: Quantity, axis: Axis, behind: Mapping[str, Quantity], word: str
) -> Quantity:
    """What is sawn: the finished size less what its counted bands take at its two ends (cutting
    size with band: common practice), and what is left on there to be trimmed or scribed."""
    size = finished
    for edge, taken in behind.items():
        if EDGES[edge][0] == axis:
            size = subtract(size, taken, thing.origin)
    clause = thing.statement.clause("trim")
    edges = clause.clause("on") if clause is not None else None
    if clause is not None and edges is not None:
        trim = quantity(clause.values[0], thing.scope, Dimension.LENGTH)
        for edge in edges_of(edges, thing.scope):
            if EDGES[edge][0] == axis:
                size = add(size, trim, clause.origin)
    return named(size, f"{thing.path}.{word}", thing.origin)


def motion_of(thing: Thing) -> Motion | None:
    """How a thing moves in use, as its text says."""
    clause = thing.statement.clause("moves")
    if clause is None:
        return None
    out, about = clause.clause("out"), clause.clause("about")
    if out is not None:
        reach = (
            quantity(out.values[0], thing.scope, Dimension.LENGTH)
            if out.values
            else thing.size("deep")
        )
        return Motion("out", reach=reach)
    if about is None or not about.values:
        raise fault("value-missing", "moves says out or about an edge", clause.origin)
    edge = edges_of(Clause("about", about.values[:1], (), about.origin), thing.scope)[0]
    angle = (
        quantity(about.values[1], thing.scope, Dimension.ANGLE)
        if len(about.values) > 1
        else literal(90, Dimension.ANGLE, about.origin)
    )
    return Motion("about", edge=edge, angle=angle)
