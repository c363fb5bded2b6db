"""The band list: every banded edge, by band, with what is banded before it is ripped apart."""

from attrs import frozen

from casewright.compiler.model import EDGES, Job, Material, Part
from casewright.compiler.papers.figures import Figure, Term, figure, total
from casewright.compiler.papers.lists.cut_list import Row, cut_list
from casewright.compiler.papers.names import listed
from casewright.compiler.papers.pieces import cut_edge_words, edges_of


@frozen
class Edge:
    """One edge of equal pieces: its word, and how long it is. `of_cut` says that a cut leaves it,
    so that it is banded after that cut."""

    word: str
    length: Figure
    of_cut: bool = False


@frozen
class BandRow:
    """Equal pieces that get one band. `ripped_later` says that they still hang together in a
    blank: its long edges are banded first, the short ones after ripping."""

    row: Row
    edges: tuple[Edge, ...]
    ripped_later: bool

    @property
    def count(self) -> int:
        """Pieces to band, as they come from the saw."""
        return len(self.row.pieces)

    @property
    def words(self) -> str:
        return listed(dict.fromkeys(edge.word for edge in self.edges))


@frozen
class BandGroup:
    """All edges that get one band. `length` is what they take end to end."""

    band: Material
    rows: tuple[BandRow, ...]
    length: Figure


def band_list(job: Job, only: str | None = None) -> tuple[BandGroup, ...]:
    """The banded edges of a job, or of one unit, in the order of the cut list."""
    groups: dict[str, tuple[Material, list[BandRow]]] = {}
    for group in cut_list(job, only):
        for row in group.rows:
            for band, found in _banded(row).items():
                _, rows = groups.setdefault(band, (found[0], []))
                rows.append(BandRow(row, found[1], row.first.blank is not None))
    return tuple(
        BandGroup(material, tuple(rows), _length(name, rows))
        for name, (material, rows) in groups.items()
    )


def _banded(row: Row) -> dict[str, tuple[Material, tuple[Edge, ...]]]:
    found: dict[str, tuple[Material, list[Edge]]] = {}
    holder = row.first.built.holder
    for part in row.first.parts:
        for banding in sorted(part.bands, key=lambda each: list(EDGES).index(each.edge)):
            _, edges = found.setdefault(banding.band.name, (banding.band, []))
            edges.append(Edge(banding.edge, _edge_length(part, banding.edge, holder)))
        for cut_edge in part.cut_edges:
            _, edges = found.setdefault(cut_edge.band.name, (cut_edge.band, []))
            address = f"{holder}.{part.address}.{cut_edge.name}"
            edges.append(
                Edge(cut_edge_words(part, cut_edge), figure(cut_edge.length, address), of_cut=True)
            )
    return {name: (band, tuple(edges)) for name, (band, edges) in found.items()}


def _edge_length(part: Part, edge: str, holder: str) -> Figure:
    long_edges = edges_of(part)[:2]
    if edge in long_edges:
        return figure(part.length, f"{holder}.{part.address}.length")
    return figure(part.width, f"{holder}.{part.address}.width")


def _length(name: str, rows: list[BandRow]) -> Figure:
    terms = [Term(row.count, edge.length) for row in rows for edge in row.edges]
    return total(f"{name}.all", tuple(terms))
