"""Parts as the model has them, from things that have been worked out."""

from collections.abc import Mapping

from casewright.compiler.blame import Row
from casewright.compiler.construct.build import Build
from casewright.compiler.construct.evaluate import evaluate, quantity
from casewright.compiler.construct.faults import fault
from casewright.compiler.construct.holder import Holder
from casewright.compiler.construct.scope import Scope, twin
from casewright.compiler.construct.things import Thing, read_extent
from casewright.compiler.construct.values import Choice, Datum, Lengths
from casewright.compiler.facing import part_in_unit
from casewright.compiler.model import (
    AXES,
    EDGES,
    Axis,
    Banding,
    Cut,
    Extents,
    Fixing,
    Material,
    Motion,
    Part,
    Stock,
)
from casewright.compiler.text.resolve import Declaration
from casewright.lang.cells import Quantity, add, literal, named, subtract
from casewright.lang.measure import Dimension
from casewright.lang.shape import Clause, Statement, bare_word
from casewright.lang.tree import Expression, Text


def called(statement: Statement, name: str) -> str:
    """How papers name a declared thing: as its text says, else its name in plain words."""
    clause = statement.clause("called")
    if clause is not None and clause.values and isinstance(clause.values[0], Text):
        return "".join(piece for piece in clause.values[0].pieces if isinstance(piece, str))
    return name.replace("_", " ")


def material_of(build: Build, declaration: Declaration) -> Material:
    """A declared sheet, lumber, band, slide … as the model has it."""
    key = ("material", declaration.kind, declaration.name)
    return build.cell(
        key,
        declaration.name,
        declaration.statement.head.origin,
        lambda: _material(build, declaration),
    )


def _material(build: Build, declaration: Declaration) -> Material:
    statement = declaration.statement
    origin = statement.head.origin
    thick = literal(0)
    if statement.clause("thick") is not None:
        value = build.property(declaration, "thick", origin, Dimension.LENGTH)
        if isinstance(value, Quantity):
            thick = value
    stock: list[Stock] = []
    for clause in statement.clauses:
        by = clause.clause("by") if clause.word == "stock" else None
        if by is not None:
            scope = Scope(Holder(build, "", "", (), {}, None, None, False))
            width = quantity(clause.values[0], scope, Dimension.LENGTH)
            length = quantity(by.values[0], scope, Dimension.LENGTH)
            most = clause.clause("pieces")
            pieces = None
            if most is not None:
                pieces = max(0, int(quantity(most.values[0], scope, Dimension.COUNT).value))
            stock.append(Stock(width.value, length.value, pieces))
    data: dict[str, Quantity | str] = {}
    for clause in (*statement.clauses, *statement.options):
        if clause.word in ("stock", "called") or not clause.values:
            continue
        value = build.property(declaration, clause.word, origin, None)
        if isinstance(value, Quantity):
            data[clause.word] = value
        elif isinstance(value, Choice):
            data[clause.word] = value.word
        elif isinstance(value, Datum):
            data[clause.word] = value.declaration.name
        elif isinstance(value, Lengths):
            continue
    return Material(
        declaration.name,
        declaration.kind,
        called(statement, declaration.name),
        thick,
        tuple(stock),
        data.get("grain") not in (None, "none"),
        str(data.get("band", "")),
        data.get("counts") == "yes",
        data,
    )


def fixing_of(build: Build, expression: Expression, scope: Scope) -> Fixing:
    """The fixing an expression names. Raises Fault where it names none."""
    value = evaluate(expression, scope)
    if not isinstance(value, Datum) or value.declaration.kind != "fixing":
        raise fault("wrong-kind", "a joint is fastened with a fixing", expression.origin)
    declaration = value.declaration
    statement = declaration.statement
    hold = statement.clause("hold")

    def length(clause: Clause | None) -> Quantity | None:
        if clause is None or not clause.values:
            return None
        return quantity(clause.values[0], scope, Dimension.LENGTH)

    def fastener(clause: Clause | None) -> str:
        if clause is None or not clause.values:
            return ""
        word = bare_word(clause.values[0])
        found = build.program.find("fastener", word)
        if found is None:
            raise fault(
                "unknown-fastener", f"no fastener is called {word}", clause.values[0].origin
            )
        return word

    if hold is not None and hold.clause("bored") is not None:
        for word in ("every", "ends"):
            spaced = hold.clause(word)
            if spaced is not None:
                raise fault(
                    "bored-and-spaced",
                    f"fixing {declaration.name} stands in bored holes, so {word} would be ignored",
                    spaced.origin,
                    help=f"leave out {word}: the holes say where it stands; or leave out bored",
                )
    drive = statement.clause("drive")
    return Fixing(
        declaration.name,
        called(statement, declaration.name),
        fastener(statement.clause("locate")),
        fastener(hold),
        length(hold.clause("every") if hold is not None else None),
        length(hold.clause("ends") if hold is not None else None),
        length(statement.clause("needs")),
        bare_word(drive.values[0]) if drive is not None else "",
        hold is not None and hold.clause("bored") is not None,
    )


def edges_of(clause: Clause, scope: Scope) -> tuple[str, ...]:
    """The edge words of a clause, as they stand in the unit; `all` is every one of them."""
    edges: list[str] = []
    for value in clause.values:
        word = bare_word(value)
        if word not in EDGES and (not word or word in scope.known()):
            chosen = evaluate(value, scope)
            word = chosen.word if isinstance(chosen, Choice) else word
        if word not in EDGES:
            raise fault(
                "unknown-edge",
                f"{word or 'this'} is no edge",
                value.origin,
                help="one of: " + ", ".join(EDGES),
            )
        edges.append(twin(word) if scope.mirrored else word)
    return tuple(edges)


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
    bands = _bands(thing, thick_axis)
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
        cut_length=_cut_size(thing, length, length_axis, bands, "cut_length"),
        cut_width=_cut_size(thing, width, width_axis, bands, "cut_width"),
        grained=material.grained,
        bands=bands,
        cuts=_cuts(thing),
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


def _bands(thing: Thing, thick_axis: Axis) -> tuple[Banding, ...]:
    clause = thing.statement.clause("band")
    if clause is None:
        return ()
    build = thing.build
    declaration = thing.material().declaration
    value = None
    if declaration.statement.clause("band") is not None:
        value = build.property(declaration, "band", clause.origin, None)
    if not isinstance(value, Datum) or value.declaration.kind != "band":
        raise fault(
            "unknown-band",
            f"{declaration.name} says no band that is known",
            clause.origin,
            help=f"add band and its name to {declaration.kind} {declaration.name}",
        )
    band = material_of(build, value.declaration)
    edges = edges_of(clause, thing.scope)
    for edge in edges:
        if EDGES[edge][0] == thick_axis:
            raise fault(
                "band-on-a-face",
                f"{edge} of {thing.name.replace('_', ' ')} is a face, not an edge",
                clause.origin,
                help="band the edges: "
                + ", ".join(word for word, (axis, _) in EDGES.items() if axis != thick_axis),
            )
    return tuple(Banding(edge, band) for edge in dict.fromkeys(edges))


def _cut_size(
    thing: Thing, finished: Quantity, axis: Axis, bands: tuple[Banding, ...], word: str
) -> Quantity:
    """What is sawn: the finished size less the counted bands on its two ends (cutting size with
    band: common practice), and what is left on there to be trimmed or scribed."""
    size = finished
    for banding in bands:
        if EDGES[banding.edge][0] == axis and banding.band.counts:
            size = subtract(size, banding.band.thick, thing.origin)
    clause = thing.statement.clause("trim")
    edges = clause.clause("on") if clause is not None else None
    if clause is not None and edges is not None:
        trim = quantity(clause.values[0], thing.scope, Dimension.LENGTH)
        for edge in edges_of(edges, thing.scope):
            if EDGES[edge][0] == axis:
                size = add(size, trim, clause.origin)
    return named(size, f"{thing.path}.{word}", thing.origin)


def _cuts(thing: Thing) -> tuple[Cut, ...]:
    cuts: list[Cut] = []
    if not thing.statement.body:
        return ()
    inner = Holder(
        thing.build,
        thing.path,
        thing.name,
        thing.statement.body,
        {},
        thing.scope,
        thing,
        thing.scope.mirrored,
        thing.faces,
    )
    start = Scope(inner, thing.scope.turns, thing.scope.mirrored)

    def no_size() -> Quantity:
        raise fault("value-missing", "say how much is cut away", thing.origin)

    for statement, scope in inner.walk(start):
        if statement.rule != "cut":
            continue
        ranges = []
        for axis in AXES:
            clause = statement.clause(axis)
            extent = (
                read_extent(clause, scope, axis, no_size)
                if clause is not None
                else thing.extent(axis)
            )
            ranges.append(extent)
        extents = Extents(*ranges)
        clause = statement.clause("corner")
        corner = _corner_of(thing, extents, clause, scope) if clause is not None else ()
        kind = "corner" if corner else "cut"
        depth = _depth_of_cut(thing, extents)
        cuts.append(Cut(kind, extents.box, "", depth, statement.head.origin, corner))
    return tuple(cuts)


def _corner_of(thing: Thing, cut: Extents, clause: Clause, scope: Scope) -> tuple[str, ...]:
    """The two edges between which a corner of a part is cut off, across and then deep; it goes
    through the part's whole height, and leaves something of one edge. Raises Fault."""
    edges = tuple(sorted(edges_of(clause, scope), key=lambda edge: EDGES[edge][0]))
    if [EDGES[edge][0] for edge in edges] != ["across", "deep"]:
        raise fault(
            "cut-corner-off",
            "a corner lies between a left or right edge and a front or back one",
            clause.origin,
            help="for instance: corner left front",
        )
    taken, whole = cut.box, thing.extents().box
    inside = taken.up == whole.up
    for edge in edges:
        axis, side = EDGES[edge]
        (low, high), (least, most) = taken.along(axis), whole.along(axis)
        inside &= least <= low < high <= most and (low == least if side < 0 else high == most)
    if inside and (taken.across != whole.across or taken.deep != whole.deep):
        return edges
    axes: tuple[Axis, Axis] = ("across", "deep")
    raise fault(
        "cut-corner-off",
        f"the cut corner of {thing.name.replace('_', ' ')} is no corner of it",
        clause.origin,
        rows=tuple(
            row
            for axis in axes
            for row in (
                Row(f"it takes, {axis}", _size_of(cut, axis).measure),
                Row(f"{thing.name.replace('_', ' ')}, {axis}", thing.size(axis).measure),
            )
        ),
        help="let it begin at the two edges it names, go through the whole height and leave some",
    )


def _size_of(extents: Extents, axis: Axis) -> Quantity:
    return subtract(extents.along(axis).high, extents.along(axis).low)


def _depth_of_cut(thing: Thing, cut: Extents) -> Quantity:
    """Square to the face it is made from: along the thickness where it leaves some of it, else
    along the narrower of its two other sides."""
    thick = thing.thick_axis()
    sizes = {axis: subtract(cut.along(axis).high, cut.along(axis).low) for axis in AXES}
    if sizes[thick].value < thing.size(thick).value:
        return sizes[thick]
    return min((sizes[axis] for axis in AXES if axis != thick), key=lambda size: size.value)


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
