"""Pages for the customer and the owner: each wall's elevation and plan."""

from collections.abc import Iterator

from casewright.compiler.model import Job
from casewright.compiler.papers.elevation import elevation
from casewright.compiler.papers.pages import Page
from casewright.compiler.papers.walls import sides

SAY = (
    "For the customer and the owner. Before: the room is measured. "
    "After: agree, sign, and the shop buys."
)


def pages(job: Job, only: str | None = None) -> Iterator[Page]:
    """A page for each wall with a run."""
    for side in sides(job):
        tags = frozenset(thing.holder for thing in side.things if thing.placed.tag)
        if only is not None and only not in tags:
            continue
        yield Page(
            f"wall-{side.name}",
            "agree",
            f"The {side.title}",
            SAY,
            "drawings.html",
            {"drawings": [elevation(job, side)]},
            tags,
            side.title,
        )
