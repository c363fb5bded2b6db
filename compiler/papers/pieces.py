"""What is placed, one by one, with the word papers know it by; and its parts, blanks and bands."""

from collections.abc import Iterator

from attrs import frozen

from casewright.compiler.model import AXES, EDGES, Axis, Blank, CutEdge, Job, Part, Placed, Unit
from casewright.compiler.papers.names import listed, words


def holder(placed: Placed) -> str:
    """The address of a placed thing: its tag, where it has one."""
    return placed.address


def label(placed: Placed) -> str:
    """What papers call a placed thing: its tag, or its address in words."""
    return placed.tag or words(placed.address)


@frozen
class Built:
    """A placed thing that is built in the shop, with its unit."""

    placed: Placed
    unit: Unit

    @property
    def holder(self) -> str:
        return holder(self.placed)

    @property
    def label(self) -> str:
        return label(self.placed)

    @property
    def heading(self) -> str:
        """`S1 sink base`: its label, and what it is."""
        return f"{self.label} {words(self.unit.title)}"


def built(job: Job) -> tuple[Built, ...]:
    """Everything placed that has a unit, run by run."""
    return tuple(Built(placed, placed.unit) for placed in job.placed if placed.unit is not None)


def sawn(unit: Unit) -> Iterator[Part]:
    """The parts of a unit that are cut in the shop: all but bought hardware."""
    return (part for part in unit.parts if not part.hardware)


def by_address(unit: Unit) -> dict[str, Part]:
    """The parts of a unit by the address papers use."""
    return {part.address: part for part in unit.parts}


def by_path(unit: Unit) -> dict[str, Part]:
    """The parts of a unit by their full path."""
    return {part.path: part for part in unit.parts}


def strips(unit: Unit, blank: Blank) -> tuple[Part, ...]:
    """The parts ripped from a blank, in order across it; strips are known by address or path."""
    parts = by_path(unit) | by_address(unit)
    return tuple(parts[address] for address in blank.strips if address in parts)


def edges_of(part: Part) -> tuple[str, ...]:
    """The four edges of a part's face, long edges first: those across its width, then its
    length."""
    low_high: dict[Axis, list[str]] = {axis: [] for axis in AXES}
    for edge, (axis, _) in EDGES.items():
        low_high[axis].append(edge)
    return (*low_high[part.width_axis], *low_high[part.length_axis])


def band_words(part: Part) -> str:
    """Which edges are banded, in words: `front`, `front and back`, `all round`.

    The band is named where it isn't the one that the part's material asks for.
    """
    by_band: dict[str, list[str]] = {}
    for banding in part.bands:
        by_band.setdefault(banding.band.name, []).append(banding.edge)
    texts = []
    for band, edges in by_band.items():
        around = set(edges) == set(edges_of(part))
        text = "all round" if around else listed(edge for edge in EDGES if edge in edges)
        if band != part.material.band:
            text = f"{text} in {words(band)}"
        texts.append(text)
    by_band.clear()
    for cut_edge in part.cut_edges:
        by_band.setdefault(cut_edge.band.name, []).append(cut_edge_words(part, cut_edge))
    for band, found in by_band.items():
        text = listed(dict.fromkeys(found))
        texts.append(text if band == part.material.band else f"{text} in {words(band)}")
    return "; ".join(texts)


def cut_edge_words(part: Part, edge: CutEdge) -> str:
    """What papers call a banded edge that a cut leaves: where it looks to, a `cut corner`, or a
    `bevel`."""
    if len(edge.looks) == 1:
        return f"cut {edge.looks[0]}"
    return "bevel" if part.thick_axis in (EDGES[word][0] for word in edge.looks) else "cut corner"
