"""Pages for the bander: what is banded, before and after ripping."""

from collections.abc import Iterator

from attrs import frozen

from casewright.compiler.model import Job
from casewright.compiler.papers.figures import figure, marked, printing_of
from casewright.compiler.papers.lists.band_list import BandGroup, BandRow, band_list
from casewright.compiler.papers.pages.pages import Page, lines_in, paged, part_of, room_on
from casewright.lang.printing import Printing

SAY = (
    "For the bander. Before: pieces are cut and labelled. "
    "After: blanks go back to the saw to be ripped, the rest to the bench."
)


@frozen
class SetBand:
    """One band's rows on one page."""

    group: BandGroup
    rows: tuple[BandRow, ...]
    continued: bool


def pages(job: Job, only: str | None = None) -> Iterator[Page]:
    """The band list over as many pages as it takes."""
    entries = [(group, row) for group in band_list(job, only) for row in group.rows]
    printing = printing_of(job)
    heights = [
        _height(row, printing) + (26.5 if row is group.rows[0] else 0.0) for group, row in entries
    ]
    shared = paged(zip(entries, heights, strict=True), room_on(job), 17.0)
    begun: set[str] = set()
    for number, held in enumerate(shared, 1):
        if not held:
            continue
        groups: dict[str, tuple[BandGroup, list[BandRow]]] = {}
        for group, row in held:
            groups.setdefault(group.band.name, (group, []))[1].append(row)
        yield Page(
            f"band-list-{number}",
            "band",
            "Band list",
            SAY,
            "band_list.html",
            {
                "when": when,
                "groups": [
                    SetBand(group, tuple(rows), name in begun)
                    for name, (group, rows) in groups.items()
                ],
                "thick": {
                    name: figure(group.band.thick, f"{name}.thick")
                    for name, (group, _) in groups.items()
                },
            },
            find="band list" if number == 1 else "",
            part=part_of(number, shared),
            more=number > 1,
        )
        begun.update(groups)


def when(row: BandRow) -> str:
    """When a row is banded: a blank's long edges before ripping, what a cut leaves after it."""
    said = ["long edges before ripping"] if row.ripped_later else []
    if any(not edge.of_cut for edge in row.edges) and not row.ripped_later:
        said.append("as cut")
    if any(edge.of_cut for edge in row.edges):
        said.append("what the cut leaves after it")
    return "; ".join(said)


def _height(row: BandRow, printing: Printing) -> float:
    edges = ", ".join(f"{edge.word} {marked(edge.length.measure, printing)}" for edge in row.edges)
    lines = max(
        lines_in(row.row.part_words, 40.0),
        lines_in(", ".join(row.row.labels), 22.0),
        lines_in(edges, 64.0),
        lines_in(when(row), 22.0),
    )
    return 1.75 + 4.45 * lines
