"""Pages for the finisher: what is seen when the kitchen stands, by material, with its coats."""

from collections.abc import Iterator

from attrs import frozen

from casewright.compiler.model import Job, Material
from casewright.compiler.papers.figures import printing_of
from casewright.compiler.papers.lists.cut_list import Row, cut_list
from casewright.compiler.papers.names import listed
from casewright.compiler.papers.pages.pages import (
    Caution,
    Page,
    lines_in,
    paged,
    part_of,
    room_on,
)
from casewright.lang.printing import in_words

SAY = (
    "For the finisher. Before: fronts, frames and ends are sanded, nail holes filled. "
    "After: dry and wrapped, they go to be fitted."
)

FUMES = Caution(
    "WARNING",
    "Finishes burn and their fumes harm: fresh air, no flame or spark, a mask made for the vapour. "
    "Oily rags take fire by themselves: lay them flat outside or keep them under water in a closed "
    "can. The maker's data sheet and local rules decide.",
)

SEEN = frozenset(("front", "frame", "stile", "rail", "filler", "end", "panel", "toe"))
"""What is seen of a kitchen whose doors are closed."""


@frozen
class SetFinish:
    """One material's rows on one page; `coats` are the words for what is spread on it."""

    material: Material
    coats: str
    rows: tuple[Row, ...]
    continued: bool


def pages(job: Job, only: str | None = None) -> Iterator[Page]:
    """The finishing list over as many pages as it takes; none where nothing of it is seen."""
    groups = [(group.material, row) for group in cut_list(job, only) for row in group.rows]
    entries = [(material, row) for material, row in groups if _seen(row)]
    if not entries:
        return
    printing = printing_of(job)
    firsts = {material.name: id(row) for material, row in reversed(entries)}
    heights = [
        _height(row) + (26.5 if firsts[material.name] == id(row) else 0.0)
        for material, row in entries
    ]
    heights[0] += 24.0
    shared = paged(zip(entries, heights, strict=True), room_on(job), 17.0)
    begun: set[str] = set()
    for number, held in enumerate(shared, 1):
        by_name: dict[str, tuple[Material, list[Row]]] = {}
        for material, row in held:
            by_name.setdefault(material.name, (material, []))[1].append(row)
        yield Page(
            f"finishing-list-{number}",
            "paint",
            "Finishing list",
            SAY,
            "finishing_list.html",
            {
                "cautions": [FUMES] if number == 1 else [],
                "groups": [
                    SetFinish(material, coats_on(job, material), tuple(rows), name in begun)
                    for name, (material, rows) in by_name.items()
                ],
                "thick": {
                    name: in_words(material.thick.measure, printing)
                    for name, (material, _) in by_name.items()
                },
            },
            find="finishing list paint" if number == 1 else "",
            part=part_of(number, shared),
            more=number > 1,
        )
        begun.update(by_name)


def coats_on(job: Job, material: Material) -> str:
    """What is spread on a material, in words; what isn't known is said."""
    told = [
        f"{coat.title}, {'once' if coat.coats == 1 else f'{coat.coats} times'}"
        for coat in job.supply.coats
        if material.name in coat.materials
    ]
    return listed(told) if told else "No coat is declared for it: ask before you begin."


def _seen(row: Row) -> bool:
    return any(part.role in SEEN for piece in row.pieces for part in piece.parts)


def _height(row: Row) -> float:
    lines = max(
        lines_in(row.part_words, 37.0),
        lines_in(", ".join(row.labels), 41.0, bold=True),
        len(row.first.widths),
    )
    return 1.75 + 4.45 * lines
