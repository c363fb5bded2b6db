"""Cuts that a part's text states: what they take, the edges they leave, and what is sawn of a
part whose counted bands come on later."""

from collections.abc import Iterable, Mapping
from fractions import Fraction

from attrs import evolve

from casewright.compiler.blame import Row
from casewright.compiler.construct.edges import band_of, edges_of
from casewright.compiler.construct.faults import fault
from casewright.compiler.construct.holder import Holder
from casewright.compiler.construct.scope import Scope
from casewright.compiler.construct.things import Thing, diagonal_of, read_extent, root_of
from casewright.compiler.model import (
    AXES,
    EDGES,
    Axis,
    Banding,
    Box,
    Cut,
    CutEdge,
    Extent,
    Extents,
    Range,
)
from casewright.lang.cells import Quantity, literal, named, subtract
from casewright.lang.shape import Clause, Statement

_PLAN: tuple[Axis, Axis] = ("across", "deep")


def stated_cuts(thing: Thing) -> tuple[Cut, ...]:
    """The cuts of a part, of its finished size. Raises Fault."""
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

    stated = [
        (statement, scope) for statement, scope in inner.walk(start) if statement.rule == "cut"
    ]
    several = sum(statement.clause("band") is not None for statement, _ in stated) > 1
    cuts: list[Cut] = []
    for statement, scope in stated:
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
        number = f"_{len(cuts) + 1}" if several else ""
        cuts.append(
            Cut(
                "corner" if corner else "cut",
                extents.box,
                "",
                _depth_of_cut(thing, extents),
                statement.head.origin,
                corner,
                _banded_edges(thing, extents, corner, statement, scope, f"cut{number}"),
            )
        )
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
    raise fault(
        "cut-corner-off",
        f"the cut corner of {thing.name.replace('_', ' ')} is no corner of it",
        clause.origin,
        rows=tuple(
            row
            for axis in _PLAN
            for row in (
                Row(f"it takes, {axis}", _size(cut.along(axis)).measure),
                Row(f"{thing.name.replace('_', ' ')}, {axis}", thing.size(axis).measure),
            )
        ),
        help="let it begin at the two edges it names, go through the whole height and leave some",
    )


def _size(extent: Extent) -> Quantity:
    return subtract(extent.high, extent.low)


def _depth_of_cut(thing: Thing, cut: Extents) -> Quantity:
    """Square to the face it is made from: along the thickness where it leaves some of it, else
    along the narrower of its two other sides."""
    thick = thing.thick_axis()
    sizes = {axis: _size(cut.along(axis)) for axis in AXES}
    if sizes[thick].value < thing.size(thick).value:
        return sizes[thick]
    return min((sizes[axis] for axis in AXES if axis != thick), key=lambda size: size.value)


def _banded_edges(
    thing: Thing,
    cut: Extents,
    corner: tuple[str, ...],
    statement: Statement,
    scope: Scope,
    name: str,
) -> tuple[CutEdge, ...]:
    """The edges a cut leaves that its text bands: those that look the ways it names, or all.
    Raises Fault where there is no such edge."""
    clause = statement.clause("band")
    if clause is None:
        return ()
    left = _corner_edge(thing, cut, corner) if corner else _edges_left(thing, cut)
    named_edges: list[tuple[str, ...]] = [(edge,) for edge in edges_of(clause, scope)]
    wanted = list(dict.fromkeys(named_edges or left))
    missing = next((looks for looks in wanted if looks not in left), None)
    if missing is not None or not left:
        words = ", ".join(looks[0] for looks in left if len(looks) == 1)
        raise fault(
            "band-off-cut",
            f"this cut of {thing.name.replace('_', ' ')} leaves no "
            f"{f'{missing[0]} edge' if missing else 'edge'} to band",
            clause.origin,
            help=f"it leaves: {words}"
            if words
            else "`band` alone bands what the cut corner leaves"
            if left
            else "let it go right through, from face to face, and leave some of the part",
        )
    found = []
    for looks in wanted:
        length, wide = left[looks]
        word = f"{name}_{'corner' if corner else looks[0]}"
        found.append(
            CutEdge(
                word,
                looks,
                named(length, f"{thing.path}.{word}", clause.origin),
                wide,
                band_of(thing, clause, wide.value),
            )
        )
    return tuple(found)


_Edges = dict[tuple[str, ...], tuple[Quantity, Quantity]]
"""The edges of a cut by how they look: how long and how wide each is."""


def _corner_edge(thing: Thing, cut: Extents, corner: tuple[str, ...]) -> _Edges:
    """The slanted edge where a corner is cut off a board, or an end is bevelled through."""
    thick = thing.thick_axis()
    slanted = diagonal_of(thing.build, *(_size(cut.along(axis)) for axis in _PLAN))
    if thick == "up":
        return {corner: (slanted, thing.size(thick))}
    if _size(cut.along(thick)).value < thing.size(thick).value:
        return {}
    return {corner: (thing.size("up"), slanted)}


def _edges_left(thing: Thing, cut: Extents) -> _Edges:
    """The edges within a part that a box cut right through it leaves, by the way they look."""
    thick, whole = thing.thick_axis(), thing.extents()
    taken, part = cut.box, whole.box
    if taken.along(thick)[0] > part.along(thick)[0] or taken.along(thick)[1] < part.along(thick)[1]:
        return {}
    found: _Edges = {}
    for edge, (axis, side) in EDGES.items():
        if axis == thick:
            continue
        face = taken.along(axis)[1 if side < 0 else 0]
        least, most = part.along(axis)
        other = next(each for each in AXES if each not in (axis, thick))
        stretch, limits = cut.along(other), whole.along(other)
        low = max(stretch.low, limits.low, key=lambda place: place.value)
        high = min(stretch.high, limits.high, key=lambda place: place.value)
        if least < face < most and low.value < high.value:
            found[(edge,)] = (subtract(high, low), thing.size(thick))
    return found


def behind_bands(
    thing: Thing, bands: Iterable[Banding], cuts: Iterable[Cut]
) -> Mapping[str, Quantity]:
    """How far a part's board, as it is sawn, lies inside each edge of its finished box: a counted
    band's thickness, and what the counted band of a bevel moves the end by. Raises Fault where
    an edge is banded that a cut takes away."""
    behind: dict[str, Quantity] = {}
    for banding in bands:
        for cut in cuts:
            if _takes_all(thing, cut, banding.edge):
                raise fault(
                    "band-cut-away",
                    f"{banding.edge} of {thing.name.replace('_', ' ')} is banded, and a cut takes "
                    "all of that edge",
                    cut.origin,
                    help=f"take {banding.edge} out of the part's `band`, and say `band` at the cut",
                )
        if banding.band.counts:
            behind[banding.edge] = banding.band.thick
    for cut in cuts:
        for edge, taken in _moved_ends(thing, cut).items():
            if edge not in behind or behind[edge].value < taken.value:
                behind[edge] = taken
    return behind


def _takes_all(thing: Thing, cut: Cut, edge: str) -> bool:
    axis, side = EDGES[edge]
    if cut.corner and edge not in cut.corner:
        return False
    box = thing.extents().box
    (low, high), (least, most) = cut.box.along(axis), box.along(axis)
    others = (each for each in AXES if each != axis)
    return (low <= least if side < 0 else high >= most) and all(
        cut.box.along(each)[0] <= box.along(each)[0]
        and cut.box.along(each)[1] >= box.along(each)[1]
        for each in others
    )


def _shift(thing: Thing, cut: Cut, axis: Axis) -> Quantity:
    """How far the line of a cut corner moves along an axis, where it is set back by its counted
    band's thickness square to itself."""
    (edge,) = cut.edges
    other = next(each for each in _PLAN if each != axis)
    slope = cut.box.size(axis) / cut.box.size(other)
    square = edge.band.thick.value**2 * (1 + slope**2)
    return root_of(thing.build, square, "behind the band of its slant")


def _set_back(cut: Cut) -> bool:
    return any(edge.band.counts for edge in cut.edges)


def _moved_ends(thing: Thing, cut: Cut) -> dict[str, Quantity]:
    """How much nearer an end of the board lies, where a cut corner with a counted band takes the
    whole of an edge."""
    found: dict[str, Quantity] = {}
    if not cut.corner or not _set_back(cut):
        return found
    for edge in cut.corner:
        axis = EDGES[edge][0]
        other = next(each for each in _PLAN if each != axis)
        shift = _shift(thing, cut, axis)
        kept = thing.size(other).value - cut.box.size(other)
        still = kept * cut.box.size(axis) / cut.box.size(other)
        if shift.value > still:
            found[edge] = subtract(shift, literal(still)) if still else shift
    return found


def cuts_of(thing: Thing, cuts: tuple[Cut, ...], behind: Mapping[str, Quantity]) -> tuple[Cut, ...]:
    """The cuts of a part, each with what is sawn of it where its edges are banded afterwards;
    `behind` says how far the sawn board lies inside the part's edges."""
    if not any(cut.edges for cut in cuts):
        return cuts
    whole = thing.extents().box
    ranges: list[Range] = []
    for axis in AXES:
        low, high = whole.along(axis)
        for edge, taken in behind.items():
            if EDGES[edge] == (axis, -1):
                low += taken.value
            elif EDGES[edge] == (axis, 1):
                high -= taken.value
        ranges.append((low, high))
    board = Box(*ranges)
    return tuple(
        evolve(cut, sawn=_sawn(thing, cut, whole, board)) if cut.edges else cut for cut in cuts
    )


def _sawn(thing: Thing, cut: Cut, whole: Box, board: Box) -> Box:
    """What is taken off a board before its bands are on."""
    found: dict[Axis, Range] = {}
    for axis in AXES:
        low, high = cut.box.along(axis)
        for edge in cut.edges:
            if not cut.corner and edge.band.counts and EDGES[edge.looks[0]][0] == axis:
                # The edge looks to the cut: what it looks from lies at the cut's other end.
                if EDGES[edge.looks[0]][1] < 0:
                    high += edge.band.thick.value
                else:
                    low -= edge.band.thick.value
        found[axis] = (max(low, board.along(axis)[0]), min(high, board.along(axis)[1]))
    for edge_word in cut.corner:
        axis, side = EDGES[edge_word]
        other_word = next(word for word in cut.corner if word != edge_word)
        other = EDGES[other_word][0]
        shift = _shift(thing, cut, axis).value if _set_back(cut) else Fraction(0)
        inset = _inset(whole, board, other_word) * cut.box.size(axis) / cut.box.size(other)
        reach = cut.box.size(axis) + shift - inset - _inset(whole, board, edge_word)
        reach = min(reach, board.size(axis))
        low, high = board.along(axis)
        found[axis] = (low, low + reach) if side < 0 else (high - reach, high)
    return Box(found["across"], found["up"], found["deep"])


def _inset(whole: Box, board: Box, edge: str) -> Fraction:
    axis, side = EDGES[edge]
    end = 0 if side < 0 else 1
    return abs(board.along(axis)[end] - whole.along(axis)[end])
