"""Pages for the bench: where each part of a unit stands, measured as one would to set it."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from attrs import frozen

from casewright.compiler.model import AXES, Axis, Job, Part
from casewright.compiler.papers.figures import finely, printing_of
from casewright.compiler.papers.names import folded, words
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
from casewright.lang.printing import NO_BREAK, Printing

SAY = (
    "For the bench hand. Before: parts are cut, banded and bored. "
    "After: nothing; it is looked up while the unit is put together."
)

_NAME_ROOM, _CELL_ROOMS = 38.8, (22.8, 43.8, 43.8, 41.8)
_LINE, _PADDING, _HEAD, _CAPTION = 4.5, 1.9, 12.0, 14.0

_MOST = 6
"""Parts on one row: a longer one is hard to count along."""


@frozen
class PlaceRow:
    """Equal parts in their unit that differ in one direction at most: how far their near left
    bottom corners are from the unit's left end, its underside and its front, and their size
    across, up and deep. A cell of `corner` says one figure for all of them, or one
    for each in order."""

    addresses: tuple[str, ...]
    name: str
    corner: tuple[str, str, str]
    size: str

    @property
    def height(self) -> float:
        """Millimetres the row takes on paper."""
        lines = max(
            lines_in(self.name, _NAME_ROOM, bold=True),
            *(
                lines_in(cell, room)
                for cell, room in zip((*self.corner, self.size), _CELL_ROOMS, strict=True)
            ),
        )
        return lines * _LINE + _PADDING


def places_pages(job: Job, item: Built, taken: float = 0.0) -> Iterator[Page]:
    """A list of all parts of a unit, bought ones too, over as many pages as it takes. Other papers
    have `taken` so many millimetres of the sheet on which it may begin."""
    room, heads = room_on(job), _CAPTION + _HEAD
    rows = [(row, row.height) for row in place_rows(item, printing_of(job))]
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


def place_rows(item: Built, printing: Printing) -> list[PlaceRow]:
    """Where every part of a unit stands. Equal parts in a line share a row, along the direction
    that takes least paper."""
    alike: dict[tuple[object, ...], list[Part]] = {}
    for part in item.unit.parts:
        size = tuple(part.box.size(axis) for axis in AXES)
        alike.setdefault((size, part.slant.mouth if part.slant else None), []).append(part)
    rows: list[PlaceRow] = []
    for parts in alike.values():
        ways = [[_row(item, line, axis, printing) for line in _lines(parts, axis)] for axis in AXES]
        rows += min(ways, key=lambda way: sum(row.height for row in way))
    return rows


def _lines(parts: Sequence[Part], axis: Axis) -> Iterator[Sequence[Part]]:
    """Parts that differ only in where they stand along an axis."""
    lines: dict[tuple[Fraction, ...], list[Part]] = {}
    for part in parts:
        key = tuple(part.box.along(other)[0] for other in AXES if other != axis)
        lines.setdefault(key, []).append(part)
    for line in lines.values():
        for at in range(0, len(line), _MOST):
            yield line[at : at + _MOST]


def _row(item: Built, line: Sequence[Part], axis: Axis, printing: Printing) -> PlaceRow:
    """The row of equal parts that differ along `axis`; of those across the corner by what is left
    of them, and before them, in their own mouth."""
    name = folded(part.address for part in line)
    if line[0].slant is not None:
        name = f"{name}, as before the {words(line[0].slant.mouth)}"
    corner = {
        each: ", ".join(
            _from(part.box.along(each)[0], outside, printing)
            for part in (line if each == axis else line[:1])
        )
        for each, outside in zip(AXES, ("left of it", "under it", "before it"), strict=True)
    }
    return PlaceRow(
        tuple(f"{item.holder}.{part.address}" for part in line),
        name,
        (corner["across"], corner["up"], corner["deep"]),
        " × ".join(_told(line[0].box.size(each), printing) for each in AXES),
    )


def _told(value: Fraction, printing: Printing) -> str:
    """A figure as exactly as it is read; the caption says that brackets hold millimetres."""
    return finely(length(value), printing).replace(f"{NO_BREAK}mm)", ")")


def _from(value: Fraction, outside: str, printing: Printing) -> str:
    """How far from the unit's end; what stands past it is said in words, not by a sign."""
    far = _told(abs(value), printing)
    return far if value >= 0 else f"{far} {outside}"
