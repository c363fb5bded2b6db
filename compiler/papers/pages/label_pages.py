"""Pages of labels: one for every piece that leaves the saw, in sawing order, and for every strip.

A label says what the piece is, where it goes next, and which way round it stands, and can be read
with its code torn off. The code (ISO/IEC 18004) holds job, revision, tag and part with commas, as
the book's find box takes them.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby

import segno
from attrs import frozen

from casewright.compiler.cutting.sawing import MaterialPlan
from casewright.compiler.model import EDGES, Job, Part, Unit
from casewright.compiler.papers.drawings.drawing import number
from casewright.compiler.papers.figures import printing_of, read
from casewright.compiler.papers.names import folded, listed, words
from casewright.compiler.papers.pages.pages import Page, part_of, room_without_strip
from casewright.compiler.papers.pieces import Built, band_words, built, sawn, strips
from casewright.lang.measure import length
from casewright.lang.printing import Printing

SAY = (
    "For the sawyer. Before: print on labels that come off again. "
    "After: stick each where it says, the triangle's point to the front."
)

LABEL_HIGH, BETWEEN = 38.0, 2.0
"""A label on paper and the gap to the next, in millimetres; two stand side by side."""

A_PAGE = 2 * int((room_without_strip() + BETWEEN) // (LABEL_HIGH + BETWEEN))

Point = tuple[float, float]


@frozen
class Label:
    """One label. `code` is a path of dark modules, `modules` how many stand in a row."""

    address: str
    title: str
    size: str
    after: str
    face: str
    tag: str
    triangle: str
    code: str
    modules: int
    job: str


def label_pages(job: Job, plans: Sequence[MaterialPlan]) -> Iterator[Page]:
    """The labels of each material on pages of their own: planned pieces in sawing order."""
    every = dict(labels(job))
    order = [
        board.address
        for plan in plans
        for sheet in plan.sheets
        for board in sheet.boards
        if board.use == "piece"
    ]
    rank = {address: index for index, address in enumerate(order)}
    groups: dict[str, list[tuple[int, Label]]] = {}
    for material, blank, label in every.values():
        groups.setdefault(material, []).append((rank.get(blank or label.address, len(rank)), label))
    for material, found in groups.items():
        ordered = [label for _, label in sorted(found, key=lambda each: each[0])]
        shared = [ordered[at : at + A_PAGE] for at in range(0, len(ordered), A_PAGE)]
        for place, held in enumerate(shared, 1):
            yield Page(
                f"labels-{material}" if place == 1 else f"labels-{material}-{place}",
                "saw",
                f"Labels, {words(material)}",
                SAY,
                "labels.html",
                {"labels": held},
                find=f"labels {words(material)}" if place == 1 else "",
                part=part_of(place, shared),
                more=place > 1,
                strip=False,
            )


def labels(job: Job) -> Iterator[tuple[str, tuple[str, str, Label]]]:
    """Every label by its address, with its material and the blank it is ripped from, if any."""
    printing = printing_of(job)
    for item in built(job):
        for blank in item.unit.blanks:
            cut = strips(item.unit, blank)
            address = f"{item.holder}.{blank.name}"
            names = folded(part.address for part in cut)
            bands = " and ".join(dict.fromkeys(band.edge for band in blank.bands))
            yield address, (
                blank.material.name,
                "",
                _label(
                    job, item, address, blank.name, f"{len(cut)} strips",
                    _size(blank.cut_length.value, blank.cut_width.value, printing),
                    f"{f'band {bands}, then ' if bands else ''}rip into {names}", cut[0],
                ),
            )  # fmt: skip
        for part in sawn(item.unit):
            address = f"{item.holder}.{part.address}"
            yield address, (
                part.material.name,
                f"{item.holder}.{part.blank}" if part.blank else "",
                _label(
                    job, item, address, part.address, words(part.address),
                    _finished(part, printing), _after(part), part,
                ),
            )  # fmt: skip


def _size(long: Fraction, wide: Fraction, printing: Printing) -> str:
    return f"{read(length(long), printing)} × {read(length(wide), printing)}"


def _finished(part: Part, printing: Printing) -> str:
    """A part's finished size, with its thickness where it is planed to one of its own."""
    size = _size(part.length.value, part.width.value, printing)
    if part.thick.value == part.material.thick.value:
        return size
    return f"{size}, planed to {read(length(part.thick.value), printing)}"


def _label(
    job: Job, item: Built, address: str, name: str, title: str, size: str, after: str, part: Part
) -> Label:
    content = ",".join((job.number or job.name, job.revision, item.label, name))
    code, modules = code_path(content)
    said = ", ".join(
        each
        for each in (
            f"job {job.number}" if job.number else job.name,
            f"revision {job.revision}" if job.revision else "",
        )
        if each
    )
    return Label(
        address,
        f"{item.label} {title}",
        size,
        after,
        unseen_face(item.unit, part),
        item.label,
        triangle_piece(item.unit, part),
        code,
        modules,
        said,
    )


def _after(part: Part) -> str:
    """Where a piece goes next."""
    bands = band_words(part)
    if part.blank:
        long_edges = {edge for edge, (axis, _) in EDGES.items() if axis == part.width_axis}
        bands = " and ".join(each.edge for each in part.bands if each.edge not in long_edges)
    # What cuts leave is banded with the rest, once they are made.
    first = ["cut out"] if part.cut_edges else []
    kinds = {cut.kind for cut in part.cuts if not cut.edges}
    work = [word for kind, word in (("groove", "groove"), ("cut", "cut out")) if kind in kinds]
    if part.holes:
        work.append("bore")
    stations = [*first, *([f"band {bands}"] if bands else []), *([listed(work)] if work else [])]
    return ", then ".join(stations) or "to the bench"


def unseen_face(unit: Unit, part: Part) -> str:
    """The face a label sits on (common practice): the back of what stands before the box, the
    outside of a side unless it is a seen end, the underside of what lies."""
    low, high = part.box.along(part.thick_axis)
    if part.thick_axis == "deep":
        return "back"
    if part.thick_axis == "up":
        return "top" if part.role == "cap" else "bottom"
    outer = "left" if low + high < unit.width.value else "right"
    inner = "right" if outer == "left" else "left"
    return inner if part.role == "end" else outer


def triangle_piece(unit: Unit, part: Part) -> str:
    """The part's piece of the triangle that all parts of its assembly share along its thickness,
    as a path in a box 100 wide and 100 high, the apex at the top: the front."""
    mates = sorted(
        (
            each
            for each in sawn(unit)
            if each.assembly == part.assembly and each.thick_axis == part.thick_axis
        ),
        key=lambda each: (each.box.along(each.thick_axis), each.path),
    )
    index = next((i for i, each in enumerate(mates) if each.path == part.path), 0)
    return clipped(index / len(mates), (index + 1) / len(mates))


def clipped(low: float, high: float) -> str:
    """The strip of the triangle (0, 100), (50, 0), (100, 100) between two shares of its width,
    drawn as wide as the box."""

    def top(x: float) -> float:
        return 100 - 200 * x if x < 0.5 else 200 * x - 100

    inner = [0.5] if low < 0.5 < high else []
    edge = [low, *inner, high]

    def across(x: float) -> float:
        return (x - low) / (high - low) * 100

    points: list[Point] = [(across(x), top(x)) for x in edge]
    points += [(100.0, 100.0), (0.0, 100.0)]
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points) + "Z"


def code_path(content: str) -> tuple[str, int]:
    """The dark modules of a code as an SVG path whose line is one module wide, and how many
    modules a side has with the quiet zone of four that ISO/IEC 18004 asks for."""
    made = segno.make(content, error="m", micro=False)
    quiet = 4
    lines: list[str] = []
    for y, row in enumerate(made.matrix):
        lines.append(f"M{quiet} {y + quiet}.5")
        for dark, run in groupby(row, bool):
            lines.append(f"{'h' if dark else 'm'}{len(tuple(run))}{'' if dark else ' 0'}")
    return "".join(lines), len(made.matrix) + 2 * quiet
