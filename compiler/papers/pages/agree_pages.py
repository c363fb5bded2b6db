"""Pages for the customer and the owner: each wall's elevation and plan."""

from collections.abc import Iterator

from casewright.compiler.model import Job
from casewright.compiler.papers.drawings.drawing import Drawing
from casewright.compiler.papers.drawings.elevation import elevation
from casewright.compiler.papers.drawings.plan_view import plan_view
from casewright.compiler.papers.pages.pages import Page, paged, part_of, room_on
from casewright.compiler.papers.walls import Side, sides

SAY = (
    "For the customer and the owner. Before: the room is measured. "
    "After: agree, sign, and the shop buys."
)


CAPTION_HIGH = 9.0


def pages(job: Job, only: str | None = None) -> Iterator[Page]:
    """For each wall with a run its elevation and plan, on one page where both have room."""
    for side in sides(job):
        tags = frozenset(thing.holder for thing in side.things if thing.placed.tag)
        if only is not None and only not in tags:
            continue
        drawings = [(each, each.height + CAPTION_HIGH) for each in views(job, side)]
        shared = paged(drawings, room_on(job))
        for number, drawn in enumerate(shared, 1):
            yield Page(
                f"wall-{side.name}" if number == 1 else f"wall-{side.name}-{number}",
                "agree",
                f"The {side.title}",
                SAY,
                "drawings.html",
                {"drawings": drawn},
                tags,
                side.title if number == 1 else "",
                part=part_of(number, shared),
                more=number > 1,
            )


def views(job: Job, side: Side) -> tuple[Drawing, ...]:
    """What a customer is shown of a wall."""
    high = room_on(job) - CAPTION_HIGH
    return elevation(job, side, high=high), plan_view(job, side)
