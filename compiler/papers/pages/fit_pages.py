"""Pages for fitting: bought things and fasteners, counted, and the fronts."""

from collections.abc import Iterator

from attrs import frozen

from casewright.compiler.model import Job
from casewright.compiler.papers.drawings.seen import hinge_side
from casewright.compiler.papers.figures import Figure, figure
from casewright.compiler.papers.lists.hardware_list import hardware_list
from casewright.compiler.papers.names import words
from casewright.compiler.papers.pages.pages import Page, lines_in, paged, part_of, room_on
from casewright.compiler.papers.pieces import built

SAY = "For the bench hand. Before: boxes stand and hardware is in. After: pack and install."


@frozen
class FrontRow:
    """A front as fitted: what opening it closes, its finished size, and its hinge side."""

    holder: str
    label: str
    address: str
    name: str
    width: Figure
    height: Figure
    hinge: str
    material: str


def front_rows(job: Job, only: str | None = None) -> tuple[FrontRow, ...]:
    """Every front of the job, unit by unit."""
    rows = []
    for item in built(job):
        if only is not None and item.holder != only:
            continue
        for part in item.unit.parts:
            if part.role != "front":
                continue
            address = f"{item.holder}.{part.address}"
            length = figure(part.length, f"{address}.length")
            width = figure(part.width, f"{address}.width")
            upright = part.length_axis == "up"
            rows.append(
                FrontRow(
                    item.holder,
                    item.label,
                    address,
                    words(part.opening or part.address),
                    width if upright else length,
                    length if upright else width,
                    hinge_side(item.unit, part),
                    words(part.material.name),
                )
            )
    return tuple(rows)


def pages(job: Job, only: str | None = None) -> Iterator[Page]:
    """Hardware, then fronts, over as many pages as they take."""
    hardware = hardware_list(job, only)
    heights = [
        2.0 + 4.6 * lines_in(", ".join(f"{label} 00" for _, label, _ in row.counts), 100.0)
        for row in hardware
    ]
    shared = paged(zip(hardware, heights, strict=True), room_on(job) - 16.0)
    for number, rows in enumerate(shared, 1):
        if rows:
            yield Page(
                f"hardware-{number}",
                "fit",
                "Hardware",
                SAY,
                "hardware.html",
                {"rows": rows},
                find="hardware" if number == 1 else "",
                part=part_of(number, shared),
                more=number > 1,
            )
    fronts = front_rows(job, only)
    paged_fronts = paged(((row, 6.6) for row in fronts), room_on(job) - 16.0)
    for number, front_page in enumerate(paged_fronts, 1):
        if front_page:
            yield Page(
                f"fronts-{number}",
                "fit",
                "Fronts",
                SAY,
                "fronts.html",
                {"rows": front_page},
                find="fronts" if number == 1 else "",
                part=part_of(number, paged_fronts),
                more=number > 1,
            )
