"""What is grooved, cut and bored in a unit's parts: each work once, measured from the part's own
edges, and parts that are worked alike together.

Places are measured on the finished part from its bottom and its front, and across from the nearer
of left and right, as a fence or a square is laid to it (common practice).
"""

from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction
from string import ascii_lowercase

from attrs import frozen

from casewright.compiler.model import AXES, EDGES, Axis, Cut, Hole, Part, Range, Unit
from casewright.compiler.papers.figures import Figure, Note, difference, figure
from casewright.compiler.papers.lists.hole_rows import HoleRow, rows_of
from casewright.compiler.papers.names import folded, plural, words
from casewright.compiler.papers.pieces import Built
from casewright.lang.measure import Dimension

_EDGE = {place: edge for edge, place in EDGES.items()}


@frozen
class Work:
    """One row: equal holes in a row or in equal rows, or one groove or cut.

    `face` is the edge word of the face it is made from, empty for a cut right through the part.
    `along` and `beside` are the two ways it is measured on that face, `size` what tool and how
    deep. `edges` are the edges it is measured from.
    """

    mark: str
    face: str
    holes: tuple[Hole, ...]
    cut: Cut | None
    what: Note
    along: Note
    beside: Note
    size: Note
    edges: tuple[str, ...]


@frozen
class Worked:
    """A part that is worked, and the parts worked as it is.

    `same` are equal as they stand (the part itself first), `mirrored` are it with left and right
    changed, `turned` are it turned half round, its front to the back.
    """

    part: Part
    face: str
    same: tuple[Part, ...]
    mirrored: tuple[Part, ...]
    turned: tuple[Part, ...]
    works: tuple[Work, ...]

    @property
    def parts(self) -> tuple[Part, ...]:
        return (*self.same, *self.mirrored, *self.turned)

    @property
    def name(self) -> str:
        return folded(part.address for part in self.same)

    @property
    def others(self) -> str:
        """`right side: as left side, mirrored`; empty where there is none."""
        as_this = words(self.part.address)
        said = [
            f"{folded(part.address for part in parts)}: as {as_this}, {how}"
            for parts, how in ((self.mirrored, "mirrored"), (self.turned, "turned half round"))
            if parts
        ]
        return "; ".join(said)


def worked(item: Built) -> tuple[Worked, ...]:
    """The parts of a unit that are grooved, cut or bored, in the unit's order."""
    groups: list[tuple[Part, list[Part], list[Part], list[Part]]] = []
    for part in item.unit.parts:
        if not (part.cuts or part.holes):
            continue
        for first, *kinds in groups:
            shape = _shape(first)
            kind = next(
                (
                    found
                    for found, flipped in zip(kinds, _FLIPS, strict=True)
                    if _shape(part, flipped) == shape
                ),
                None,
            )
            if kind is not None:
                kind.append(part)
                break
        else:
            groups.append((part, [part], [], []))
    return tuple(
        Worked(
            first, _main_face(first, item.unit), tuple(same), tuple(mirrored), tuple(turned),
            tuple(_works(item, first)),
        )
        for first, same, mirrored, turned in groups
    )  # fmt: skip


_FLIPS: tuple[tuple[Axis, ...], ...] = ((), ("across",), ("across", "deep"))
"""As it stands; mirrored left for right; turned half round about an upright line."""


def _shape(part: Part, flipped: Sequence[Axis] = ()) -> object:
    """Equal for parts of one size worked alike; `flipped` axes are counted from the other end."""

    def place(axis: Axis, low: Fraction, high: Fraction) -> Range:
        start, end = part.box.along(axis)
        return (end - high, end - low) if axis in flipped else (low - start, high - start)

    cuts = sorted(
        (
            cut.kind,
            _last(cut.by),
            cut.depth.value,
            *(place(a, *cut.box.along(a)) for a in AXES),
            *(
                _EDGE[a, -s] if a in flipped else _EDGE[a, s]
                for a, s in (EDGES[edge] for edge in cut.corner)
            ),
        )
        for cut in part.cuts
    )
    holes = sorted(
        (
            hole.use, hole.axis, -hole.side if hole.axis in flipped else hole.side,
            hole.diameter.value, hole.depth.value,
            *sorted(
                (axis, place(axis, at.value, at.value))
                for axis, at in zip(hole.at_axes, hole.at, strict=True)
            ),
        )
        for hole in part.holes
    )  # fmt: skip
    return part.thick_axis, tuple(part.box.size(axis) for axis in AXES), tuple(cuts), tuple(holes)


def _last(address: str) -> str:
    return address.rpartition(".")[2]


def entry(part: Part, cut: Cut) -> tuple[Axis, int] | None:
    """The axis a cut is made along and the side it is made from (-1 low, 1 high): through a face
    where it reaches just one, else through the one edge it reaches; None for one right through."""
    reached: dict[Axis, list[int]] = {}
    for axis in AXES:
        (low, high), (start, end) = cut.box.along(axis), part.box.along(axis)
        reached[axis] = [side for side, met in ((-1, low <= start), (1, high >= end)) if met]
    thick = part.thick_axis
    if len(reached[thick]) == 2:
        return None
    edges = [axis for axis in AXES if axis != thick and len(reached[axis]) == 1]
    deep = [axis for axis in edges if cut.box.size(axis) == cut.depth.value]
    found = ([thick] if reached[thick] else []) + deep + edges
    return (found[0], reached[found[0]][0]) if found else None


def _main_face(part: Part, unit: Unit) -> str:
    """The face a part is drawn on: the one with most work; of equals the one that looks inward."""
    counts = dict.fromkeys((-1, 1), 0)
    for cut in part.cuts:
        found = entry(part, cut)
        if found is not None and found[0] == part.thick_axis:
            counts[found[1]] += 1
    rows = {(hole.side, hole.use) for hole in part.holes if hole.axis == part.thick_axis}
    for side, _ in rows:
        counts[side] += 1
    inward = _inward(part, unit)
    return _EDGE[part.thick_axis, max(counts, key=lambda side: (counts[side], side == inward))]


def _inward(part: Part, unit: Unit) -> int:
    """The side of a part that looks to the middle of what holds it."""
    holder = next((each for each in unit.assemblies if each.path == part.assembly), None)
    around = holder.extents.box.along(part.thick_axis) if holder is not None else None
    if around is None:
        whole = {"across": unit.width, "up": unit.height, "deep": unit.depth}
        around = (Fraction(0), whole[part.thick_axis].value)
    return 1 if sum(part.box.along(part.thick_axis)) < sum(around) else -1


def is_inside(part: Part, face: str, unit: Unit) -> bool:
    """Whether `face` looks to the middle of what holds the part."""
    return EDGES[face] == (part.thick_axis, _inward(part, unit))


def _works(item: Built, part: Part) -> Iterable[Work]:
    marks = iter(ascii_lowercase)
    rows = [*(_cut_work(item, part, cut) for cut in part.cuts), *_hole_works(part)]
    for index, make in enumerate(rows):
        yield make(next(marks, str(index + 1)))


_Make = Callable[[str], Work]


def _plain(value: Fraction) -> Figure:
    """A figure that stands at no address."""
    return Figure(value, Dimension.LENGTH, "")


def _cut_work(item: Built, part: Part, cut: Cut) -> _Make:
    if cut.kind == "corner":
        return _corner_work(part, cut)
    found = entry(part, cut)
    face = _EDGE[found] if found is not None else ""
    axis = found[0] if found is not None else part.thick_axis
    first, second = sorted(
        (each for each in AXES if each != axis),
        key=lambda each: (cut.box.size(each), each == part.length_axis),
        reverse=True,
    )
    along_edge, along = _stretch(item, part, cut, first)
    beside_edge, beside = _beside(item, part, cut, second)
    what: Note = (f"{cut.kind} for {words(_last(cut.by))}" if cut.by else words(cut.kind),)
    if found is not None and axis != part.thick_axis:
        what = (*what, f", in the {face} edge")
    elif face:
        what = (*what, f", {face} face")
    deep: Note = (_plain(cut.depth.value), " deep") if found is not None else ("right through",)
    size: Note = (
        _plain(cut.box.size(second)), " wide, ", *deep, *_before_banding(cut, (first, second)),
    )  # fmt: skip
    edges = tuple(edge for edge in (along_edge, beside_edge) if edge)
    return lambda mark: Work(mark, face, (), cut, what, along, beside, size, edges)


def _corner_work(part: Part, cut: Cut) -> _Make:
    """A corner that is cut off, or an end that is bevelled, by how much of its two edges goes."""
    axes = tuple(EDGES[edge][0] for edge in cut.corner)
    bevel = part.thick_axis in axes and cut.box.size(part.thick_axis) == part.thick.value
    what = "end bevelled" if bevel else "corner cut off"
    along, beside = (
        (_plain(cut.box.size(axis)), f" from the {edge}")
        for axis, edge in zip(axes, cut.corner, strict=True)
    )
    note: Note = (f"{what}, {' '.join(cut.corner)}",)
    size: Note = ("right through", *_before_banding(cut, axes))
    return lambda mark: Work(mark, "", (), cut, note, along, beside, size, cut.corner)


def _before_banding(cut: Cut, axes: Sequence[Axis]) -> Note:
    """That what a cut leaves is banded after it, and what is sawn where the band counts."""
    if not cut.edges:
        return ()
    sawn = cut.sawn or cut.box
    if all(sawn.size(axis) == cut.box.size(axis) for axis in axes):
        return ("; banded after it",)
    one, other = (_plain(sawn.size(axis)) for axis in axes)
    return ("; before banding ", one, " by ", other)


def _stretch(item: Built, part: Part, cut: Cut, axis: Axis) -> tuple[str, Note]:
    """Where a cut lies along an axis, with the edge it is measured from: both ends, where it
    doesn't run out of the part."""
    (low, high), (start, end) = cut.box.along(axis), part.box.along(axis)
    if low <= start and high >= end:
        return "", ("all along",)
    edge = _datum(axis, [(low + high) / 2 - start], end - start)
    near, far = (low, high) if EDGES[edge][1] < 0 else (high, low)
    return edge, (
        _from_edge(item, part, cut, edge, near), " to ",
        _from_edge(item, part, cut, edge, far), f" from the {edge}",
    )  # fmt: skip


def _beside(item: Built, part: Part, cut: Cut, axis: Axis) -> tuple[str, Note]:
    """How far a cut's near side is from the edge it is measured from; its width says the rest."""
    (low, high), (start, end) = cut.box.along(axis), part.box.along(axis)
    if low <= start and high >= end:
        return "", ("all over",)
    edge = _datum(axis, [(low + high) / 2 - start], end - start)
    near = low if EDGES[edge][1] < 0 else high
    return edge, (_from_edge(item, part, cut, edge, near), f" from the {edge}")


def _from_edge(item: Built, part: Part, cut: Cut, edge: str, place: Fraction) -> Figure:
    """How far a cut's side is from a part's edge; a sum of two figures where it is as wide as
    the part that enters."""
    axis, side = EDGES[edge]
    extent = part.extents.along(axis)
    datum = extent.low if side < 0 else extent.high
    far = _plain(abs(place - datum.value))
    enters = next((each for each in item.unit.parts if each.address == cut.by), None)
    if enters is None:
        return far
    own = figure(datum, f"{item.holder}.{part.address}.{edge}")
    other = enters.extents.along(axis)
    for end, word in ((other.low, _EDGE[axis, -1]), (other.high, _EDGE[axis, 1])):
        if end.value == place and end.value != datum.value:
            its = figure(end, f"{item.holder}.{enters.address}.{word}")
            address = f"{item.holder}.{part.address}.{_last(enters.address)}_{word}"
            high, low = (its, own) if side < 0 else (own, its)
            made = difference(high, low, address)
            return made if made.value == far.value else far
    return far


def _datum(axis: Axis, places: Sequence[Fraction], size: Fraction) -> str:
    """The edge that places along an axis are measured from."""
    if axis == "across" and 2 * sum(places) > size * len(places):
        return "right"
    return _EDGE[axis, -1]


def _hole_works(part: Part) -> Iterable[_Make]:
    groups: dict[tuple[str, Axis, int, Fraction, Fraction, tuple[Axis, Axis]], list[Hole]] = {}
    for hole in part.holes:
        key = (
            hole.use, hole.axis, hole.side, hole.diameter.value, hole.depth.value, hole.at_axes,
        )  # fmt: skip
        groups.setdefault(key, []).append(hole)
    for (use, axis, side, diameter, depth, at_axes), holes in groups.items():
        face = _EDGE[axis, side]
        through = depth >= part.box.size(axis)
        size: Note = (_plain(diameter), " diameter, ")
        size += ("right through",) if through else (_plain(depth), " deep")
        for row in rows_of(holes, part.length_axis):
            first, second = at_axes if row.along == 0 else at_axes[::-1]
            along_edge, along = _run_words(part, first, row)
            beside_edge, beside = _places_words(part, second, row)
            where = f", {face} face" if axis == part.thick_axis else f", in the {face} edge"
            what: Note = (f"{words(use)}: {plural(len(row.holes), 'hole')}{where}",)
            edges = (along_edge, beside_edge)

            def make(
                mark: str,
                face: str = face,
                row: HoleRow = row,
                notes: tuple[Note, Note, Note, Note] = (what, along, beside, size),
                edges: tuple[str, ...] = edges,
            ) -> Work:
                return Work(mark, face, row.holes, None, *notes, edges)

            yield make


def _run_words(part: Part, axis: Axis, row: HoleRow) -> tuple[str, Note]:
    start, end = part.box.along(axis)
    last = row.first + row.spacing * (row.count - 1)
    edge = _datum(axis, [(row.first + last) / 2 - start], end - start)
    first = row.first - start if EDGES[edge][1] < 0 else end - last
    if row.count == 1:
        return edge, (_plain(first), f" from the {edge}")
    return edge, (
        "first ", _plain(first), f" from the {edge}, then every ", _plain(row.spacing),
        f", {row.count} in all",
    )  # fmt: skip


def _places_words(part: Part, axis: Axis, row: HoleRow) -> tuple[str, Note]:
    start, end = part.box.along(axis)
    edge = _datum(axis, [place - start for place in row.places], end - start)
    low = EDGES[edge][1] < 0
    places = sorted(place - start if low else end - place for place in row.places)
    note: list[str | Figure] = []
    for index, place in enumerate(places):
        if index:
            note.append(" and " if index == len(places) - 1 else ", ")
        note.append(_plain(place))
    return edge, (*note, f" from the {edge}")
