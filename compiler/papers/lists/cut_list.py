"""The cut list: every sawn part once, grouped as a sawyer works, by material and fence setting."""

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from itertools import groupby

from attrs import frozen

from casewright.compiler.model import EDGES, Blank, Job, Material, Part
from casewright.compiler.papers.figures import (
    Figure,
    figure,
    marked,
    printing_of,
    spreadsheet,
    suffix,
)
from casewright.compiler.papers.lists.spreadsheet import sheet
from casewright.compiler.papers.names import folded
from casewright.compiler.papers.pieces import Built, band_words, built, sawn, strips
from casewright.lang.measure import length
from casewright.lang.printing import NO_BREAK, Printing


@frozen
class Piece:
    """One thing that leaves the saw: a part, or a blank with the parts ripped from it later."""

    built: Built
    parts: tuple[Part, ...]
    blank: Blank | None

    @property
    def material(self) -> Material:
        return self.blank.material if self.blank else self.parts[0].material

    @property
    def address(self) -> str:
        """The piece's address in the job: `S2.left_side`."""
        return f"{self.built.holder}.{self.blank.name if self.blank else self.parts[0].address}"

    @property
    def rip(self) -> Figure:
        """The width that is sawn."""
        sawn_piece = self.blank or self.parts[0]
        return figure(sawn_piece.cut_width, f"{self.address}.cut_width")

    @property
    def crosscut(self) -> Figure:
        """The length that is sawn."""
        sawn_piece = self.blank or self.parts[0]
        return figure(sawn_piece.cut_length, f"{self.address}.cut_length")

    @property
    def widths(self) -> tuple[Figure, ...]:
        """The finished width of every part in the piece."""
        return tuple(
            figure(part.width, f"{self.built.holder}.{part.address}.width") for part in self.parts
        )

    @property
    def length(self) -> Figure:
        """The finished length of the parts in the piece."""
        part = self.parts[0]
        return figure(part.length, f"{self.built.holder}.{part.address}.length")

    @property
    def milled(self) -> Figure | None:
        """The thickness it is planed to, where that is not its stock's."""
        part = self.parts[0]
        if part.thick.value == part.material.thick.value:
            return None
        return figure(part.thick, f"{self.built.holder}.{part.address}.thick")

    @property
    def bands(self) -> str:
        """Banded edges in words."""
        texts = list(dict.fromkeys(band_words(part) for part in self.parts))
        text = "; ".join(text for text in texts if text)
        return f"{text} of each" if text and self.blank and len(texts) == 1 else text

    @property
    def grained(self) -> bool:
        return any(part.grained for part in self.parts)

    @property
    def key(self) -> tuple[object, ...]:
        """Equal for pieces that are the same to the sawyer and the bander."""
        banded = (
            *((each.edge, each.band.name) for part in self.parts for each in part.bands),
            *(
                (*edge.looks, edge.band.name, edge.length.value)
                for part in self.parts
                for edge in part.cut_edges
            ),
        )
        return (
            self.rip.value,
            self.crosscut.value,
            tuple(width.value for width in self.widths),
            self.length.value,
            self.parts[0].thick.value,
            self.grained,
            tuple(sorted(banded, key=str)),
            tuple((part.length_axis, part.width_axis) for part in self.parts) if banded else (),
            self.blank is not None,
        )


@frozen
class Row:
    """Equal pieces. `pieces` stand in the order of the job, so the first one's address explains
    the figures of all."""

    number: int
    pieces: tuple[Piece, ...]

    @property
    def first(self) -> Piece:
        return self.pieces[0]

    @property
    def labels(self) -> tuple[str, ...]:
        """The units the pieces belong to, each once."""
        return tuple(dict.fromkeys(piece.built.label for piece in self.pieces))

    @property
    def part_addresses(self) -> tuple[str, ...]:
        """Every part of the row as an address in the job."""
        return tuple(
            f"{piece.built.holder}.{part.address}" for piece in self.pieces for part in piece.parts
        )

    @property
    def part_words(self) -> str:
        """The parts' names, folded."""
        return folded(dict.fromkeys(part.address for piece in self.pieces for part in piece.parts))


@frozen
class Fence:
    """Rows that share one fence setting."""

    rip: Figure
    rows: tuple[Row, ...]


@frozen
class Group:
    """All rows of one material, widest fence setting first."""

    material: Material
    fences: tuple[Fence, ...]

    @property
    def rows(self) -> tuple[Row, ...]:
        return tuple(row for fence in self.fences for row in fence.rows)

    @property
    def count(self) -> int:
        """Pieces that leave the saw."""
        return sum(len(row.pieces) for row in self.rows)


def pieces_of(item: Built) -> Iterator[Piece]:
    """What the saw makes for one unit: its blanks, and the parts that come from none."""
    from_blanks: set[str] = set()
    for blank in item.unit.blanks:
        parts = strips(item.unit, blank)
        from_blanks.update(part.path for part in parts)
        yield Piece(item, parts, blank)
    for part in sawn(item.unit):
        if part.path not in from_blanks:
            yield Piece(item, (part,), None)


def cut_list(job: Job, only: str | None = None) -> tuple[Group, ...]:
    """The cut list of a job, or of the unit with the tag `only`.

    Materials stand in the order in which the job first names them.
    """
    pieces = [
        piece
        for item in built(job)
        if only is None or item.holder == only
        for piece in pieces_of(item)
    ]
    order = {material.name: place for place, material in enumerate(job.materials)}
    pieces.sort(key=lambda piece: order.get(piece.material.name, len(order)))
    groups = []
    number = 0
    for _, of_material in groupby(pieces, key=lambda piece: piece.material.name):
        equal: dict[tuple[object, ...], list[Piece]] = {}
        for piece in of_material:
            equal.setdefault(piece.key, []).append(piece)
        found = sorted(equal.values(), key=lambda same: _descending(same[0]))
        fences = []
        for _, of_fence in groupby(found, key=lambda same: same[0].rip.value):
            rows = []
            for same in of_fence:
                number += 1
                rows.append(Row(number, tuple(same)))
            fences.append(Fence(rows[0].first.rip, tuple(rows)))
        groups.append(Group(fences[0].rows[0].first.material, tuple(fences)))
    return tuple(groups)


def _descending(piece: Piece) -> tuple[Fraction, Fraction]:
    return (-piece.rip.value, -piece.crosscut.value)


def later_strips(row: Row, printing: Printing) -> str:
    """What a blank is ripped into later: `2 at 5`; empty for a part that is no blank."""
    return _strips(row, lambda width: marked(width.measure, printing), NO_BREAK)


def corner_words(row: Row, printing: Printing) -> str:
    """Which corners are cut off the parts of a row once they are sawn, by how much of their two
    edges goes: the machining pages say where. Empty where none is."""
    of: dict[str, dict[str, None]] = {}
    for part in (part for piece in row.pieces for part in piece.parts):
        for cut in part.cuts:
            if cut.kind != "corner":
                continue
            bevel = cut.box.size(part.thick_axis) == part.thick.value and part.thick_axis != "up"
            taken = cut.sawn or cut.box
            sizes = (taken.size(EDGES[edge][0]) for edge in cut.corner)
            size = " by ".join(marked(length(each), printing) for each in sizes)
            said = f"{'end bevelled' if bevel else 'corner cut off'} {size}"
            of.setdefault(said, {})[part.address] = None
    if len(of) == 1 and row.first.blank is None:
        return f"; {next(iter(of))}"
    return "".join(f"; {folded(names)}: {said}" for said, names in of.items())


def _strips(row: Row, spell: Callable[[Figure], str], blank: str = " ") -> str:
    if row.first.blank is None:
        return ""
    counts: dict[str, int] = {}
    for width in row.first.widths:
        counts[spell(width)] = counts.get(spell(width), 0) + 1
    return ", ".join(f"{count}{blank}at{blank}{text}" for text, count in counts.items())


def cut_list_csv(job: Job, only: str | None = None) -> str:
    """The cut list as CSV, in the list's order."""
    printing = printing_of(job)
    unit = suffix(printing)
    header = (
        "material",
        f"thickness_{unit}",
        f"rip_{unit}",
        f"crosscut_{unit}",
        f"finished_width_{unit}",
        f"finished_length_{unit}",
        "pieces",
        "unit",
        "part",
        "grain",
        "banded_edges",
        "blank",
    )
    return sheet(header, _csv_rows(cut_list(job, only), printing))


def _csv_rows(groups: Sequence[Group], printing: Printing) -> Iterator[tuple[str, ...]]:
    for group in groups:
        for row in group.rows:
            piece = row.first
            widths = {width.value for width in piece.widths}
            yield (
                group.material.name,
                spreadsheet(row.first.parts[0].thick, printing),
                spreadsheet(piece.rip, printing),
                spreadsheet(piece.crosscut, printing),
                spreadsheet(piece.widths[0], printing) if len(widths) == 1 else "",
                spreadsheet(piece.length, printing),
                str(len(row.pieces)),
                ", ".join(row.labels),
                row.part_words,
                "lengthwise" if piece.grained else "any",
                piece.bands,
                _strips(row, lambda width: spreadsheet(width, printing)),
            )
