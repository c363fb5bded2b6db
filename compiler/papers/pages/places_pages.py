"""Pages for the bench: where each part of a unit stands, measured as one would to set it."""

from collections.abc import Iterator
from fractions import Fraction

from attrs import frozen

from casewright.compiler.model import AXES, Job, Part
from casewright.compiler.papers.figures import finely, printing_of
from casewright.compiler.papers.names import words
from casewright.compiler.papers.pages.pages import (
    Page,
    left_after,
    lines_in,
    paged,
    part_of,
    room_on,
)
from casewright.compiler.papers.pieces import Built
from casewright.lang.measure import System, length
from casewright.lang.printing import Printing

SAY = (
    "For the bench hand. Before: parts are cut, banded and bored. "
    "After: nothing; it is looked up while the unit is put together."
)

_NAME_ROOM, _CELL_ROOM = 44.0, 23.1
_LINE, _PADDING, _HEAD, _CAPTION = 4.5, 1.9, 12.0, 14.0


@frozen
class PlaceRow:
    """A part in its unit: its near left bottom corner from the unit's left end, underside and
    front, and its size across, up and deep."""

    address: str
    name: str
    corner: tuple[str, str, str]
    size: tuple[str, str, str]

    @property
    def height(self) -> float:
        """Millimetres the row takes on paper."""
        # A figure and the exact one behind it are words that aren't broken.
        lines = max(
            lines_in(self.name, _NAME_ROOM, bold=True),
            *(
                sum(lines_in(word, _CELL_ROOM) for word in cell.replace(" (", "\n(").split("\n"))
                for cell in (*self.corner, *self.size)
            ),
        )
        return lines * _LINE + _PADDING


def places_pages(job: Job, item: Built, taken: float = 0.0) -> Iterator[Page]:
    """A list of all parts of a unit, bought ones too, over as many pages as it takes. Other papers
    have `taken` so many millimetres of the sheet on which it may begin."""
    room, heads = room_on(job), _CAPTION + _HEAD
    rows = [
        (row, row.height)
        for row in (place_row(item, each, printing_of(job)) for each in item.unit.parts)
    ]
    high = dict(rows)
    shared = paged(rows, room - heads, first=max(0.0, left_after(room, taken, SAY) - heads))
    for number, held in enumerate(shared, 1):
        yield Page(
            f"{item.holder}-places-{number}",
            "bench",
            f"{item.label} where parts stand",
            SAY,
            "places.html",
            {
                "rows": held,
                "metric": job.system is System.MILLIMETRES,
                "label": item.label,
                "up_from": "the floor" if item.placed.up.value == 0 else "its underside",
            },
            frozenset({item.holder}),
            f"{item.label} where parts stand" if number == 1 else "",
            part=part_of(number, shared),
            more=number > 1,
            high=heads + sum(high[row] for row in held),
        )


def place_row(item: Built, part: Part, printing: Printing) -> PlaceRow:
    """Where a part stands, as its page prints it; one across the corner by what is left of it,
    and before it, in its own mouth."""
    name = words(part.address)
    if part.slant is not None:
        name = f"{name}, as before the {words(part.slant.mouth)}"
    across, up, deep = (part.box.along(axis)[0] for axis in AXES)
    wide, high, far_back = (finely(length(part.box.size(axis)), printing) for axis in AXES)
    return PlaceRow(
        f"{item.holder}.{part.address}",
        name,
        (
            _from(across, "left of it", printing),
            _from(up, "under it", printing),
            _from(deep, "before it", printing),
        ),
        (wide, high, far_back),
    )


def _from(value: Fraction, outside: str, printing: Printing) -> str:
    """How far from the unit's end; what stands past it is said in words, not by a sign."""
    far = finely(length(abs(value)), printing)
    return far if value >= 0 else f"{far} {outside}"
