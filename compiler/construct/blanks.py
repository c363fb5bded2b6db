"""Blanks: strips that are banded as one wide piece on its long edges, then ripped."""

from collections.abc import Sequence

from attrs import evolve, frozen

from casewright.compiler.blame import Row
from casewright.compiler.construct.faults import fault
from casewright.compiler.model import EDGES, Banding, Blank, Part
from casewright.lang.cells import Quantity, add, named, subtract
from casewright.lang.source import Origin

LONG_EDGES = 2


@frozen(eq=False)
class Strips:
    """Parts, by path, that the text wants ripped from blanks, each `width` wide finished (None: as
    wide as its strips and the kerfs between them)."""

    paths: tuple[str, ...]
    width: Quantity | None
    kerf: Quantity | None
    trim: Quantity | None
    origin: Origin


def blanks_of(
    parts: tuple[Part, ...], wanted: Sequence[Strips]
) -> tuple[tuple[Part, ...], tuple[Blank, ...]]:
    """The parts with their blanks named, and the blanks.

    Strips of one blank have one material, thickness and length. A blank has two long edges to
    band, so at most two of its strips carry a band; a strip left alone is cut as a part of its
    own. Raises Fault where a text's strip can't come from a blank.
    """
    by_path = {part.path: part for part in parts}
    blanks: list[Blank] = []
    for strips in wanted:
        groups: dict[tuple[object, ...], list[Part]] = {}
        for path in strips.paths:
            part = by_path.get(path)
            if part is None:
                continue
            _check_strip(part, strips)
            key = (part.material.name, part.length.value, part.length_axis)
            groups.setdefault(key, []).append(part)
        for group in groups.values():
            for chosen in _in_blanks(group):
                number = len(blanks) + 1
                blank = _blank(f"blank_{number}", chosen, strips)
                blanks.append(blank)
                for part in chosen:
                    by_path[part.path] = evolve(part, blank=blank.name)
    return tuple(by_path[part.path] for part in parts), tuple(blanks)


def _long_bands(part: Part) -> list[Banding]:
    return [band for band in part.bands if EDGES[band.edge][0] == part.width_axis]


def _check_strip(part: Part, strips: Strips) -> None:
    if len(_long_bands(part)) == LONG_EDGES:
        raise fault(
            "strip-banded-twice",
            f"{part.title} is banded on both long edges; it can't share a blank",
            strips.origin,
            help="leave it out of rip, or band one edge",
        )


def _in_blanks(group: list[Part]) -> list[list[Part]]:
    """Divides equal-length strips among blanks: two banded ones at the edges of each, plain ones
    between them in the first."""
    banded = [part for part in group if _long_bands(part)]
    plain = [part for part in group if not _long_bands(part)]
    blanks = [banded[index : index + LONG_EDGES] for index in range(0, len(banded), LONG_EDGES)]
    if plain:
        if blanks:
            blanks[0][1:1] = plain
        else:
            blanks.append(plain)
    return [blank for blank in blanks if len(blank) > 1]


def _blank(name: str, strips: list[Part], wanted: Strips) -> Blank:
    width = strips[0].width
    for strip in strips[1:]:
        if wanted.kerf is not None:
            width = add(width, wanted.kerf)
        width = add(width, strip.width)
    if wanted.width is not None:
        width = _holding(wanted.width, width, strips, wanted)
    bands = tuple(band for strip in strips for band in _long_bands(strip))
    cut = width
    for band in bands:
        if band.band.counts:
            cut = subtract(cut, band.band.thick)
    if wanted.trim is not None:
        cut = add(cut, wanted.trim)
    return Blank(
        name,
        strips[0].material,
        tuple(strip.address for strip in strips),
        strips[0].length,
        named(width, f"{name}.width", wanted.origin),
        strips[0].cut_length,
        named(cut, f"{name}.cut_width", wanted.origin),
        bands,
        wanted.origin,
    )


def _holding(stated: Quantity, needed: Quantity, strips: list[Part], wanted: Strips) -> Quantity:
    """The stated width of a blank, where it holds its strips. Raises Fault where it doesn't."""
    if needed.value <= stated.value:
        return stated
    raise fault(
        "blank-too-narrow",
        f"a blank can't hold {' and '.join(strip.title for strip in strips)}",
        wanted.origin,
        rows=(
            *(Row(strip.title, strip.width.measure, strip.origin) for strip in strips),
            Row("with the cuts between them", needed.measure),
            Row("the blank is", stated.measure, stated.origin),
            Row("short", subtract(needed, stated).measure, ruled=True),
        ),
        help="make the blank wider, or a strip narrower",
    )
