"""Pages for the bench: what is grooved, cut and bored in each unit, part by part."""

from collections.abc import Iterator

from attrs import frozen

from casewright.compiler.model import Job, Part
from casewright.compiler.papers.drawings.drawing import Drawing, scale_words
from casewright.compiler.papers.drawings.machining_views import PartView, part_view
from casewright.compiler.papers.figures import Figure, Note, exactly, figure, marked, printing_of
from casewright.compiler.papers.lists.machining import Work, Worked, is_inside, worked
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
from casewright.lang.printing import Printing

SAY = (
    "For the bench hand. Before: parts are cut, banded and labelled. "
    "After: lay them out in the order of assembly."
)

COLUMNS = (24.0, 64.0, 34.0)
"""What the columns of a list take beside its drawing, in millimetres: work, where, size."""

_LINE, _PADDING, _GAP = 4.45, 1.75, 2.2
_HEADING, _ROW_HEAD, _CAPTION, _OTHERS = 11.5, 6.5, 11.0, 5.0


_SIZES = "00 00/00 full × 00 00/00 full, 0/0 thick; its right face, the inside, 1 to 12"
"""Room for what a heading says after the name."""


@frozen
class SetPart:
    """A worked part on a page: its drawing where it begins, and rows of its list."""

    each: Worked
    holder: str
    view: PartView | None
    scale: str
    inside: bool
    sizes: tuple[Figure, Figure, Figure]
    works: tuple[Work, ...]
    height: float

    @property
    def drawing(self) -> Drawing | None:
        return self.view.drawing if self.view is not None else None


@frozen
class AsTold:
    """A part that is worked as one of another unit is, whose page tells it."""

    each: Worked
    holder: str
    told: "Told"

    @property
    def words(self) -> str:
        said = f": as {self.told.label} {words(self.told.part.address)}. "
        return f"{self.each.name}{said}{self.each.others}".strip()

    @property
    def height(self) -> float:
        return _OTHERS * lines_in(self.words, 190.0) + 1.5


@frozen
class Told:
    """A worked part of which a page has told all."""

    holder: str
    label: str
    part: Part


def machining_pages(
    job: Job, item: Built, taken: float = 0.0, told: dict[object, Told] | None = None
) -> Iterator[Page]:
    """The machining of a unit over as many pages as it takes; none where nothing is worked. Other
    papers have `taken` so many millimetres of the sheet on which it may begin. Parts worked as one
    that is `told` are said in a line; what this unit tells is told from then on."""
    room = room_on(job) - _CAPTION
    before: dict[object, Told] = {} if told is None else told
    entries: list[SetPart | AsTold] = []
    for number, each in enumerate(worked(item), 1):
        known = before.setdefault(
            _alike(item, each, printing_of(job)), Told(item.holder, item.label, each.part)
        )
        if known.holder != item.holder:
            entries.append(AsTold(each, item.holder, known))
        else:
            entries += _set(job, item, each, number, room)
    if not entries:
        return
    entries.sort(key=lambda entry: isinstance(entry, SetPart))
    left = left_after(room_on(job), taken, SAY)
    shared = paged(((each, each.height) for each in entries), room, first=max(0.0, left - _CAPTION))
    for number, held in enumerate(shared, 1):
        yield Page(
            f"{item.holder}-machining-{number}",
            "bench",
            f"{item.label} machining",
            SAY,
            "machining.html",
            {
                "parts": [each for each in held if isinstance(each, SetPart)],
                "alike": [each for each in held if isinstance(each, AsTold)],
                "label": item.label,
            },
            frozenset({item.holder}),
            f"{item.label} machining" if number == 1 else "",
            part=part_of(number, shared),
            more=number > 1,
            high=_CAPTION + sum(each.height for each in held),
        )


def _alike(item: Built, each: Worked, printing: Printing) -> object:
    """Equal for parts of which a page says and draws the same."""
    part = each.part
    works = tuple(
        tuple(said(note, printing) for note in (work.what, work.along, work.beside, work.size))
        for work in each.works
    )
    sizes = (part.width.value, part.length.value, part.thick.value)
    ways = (part.thick_axis, part.length_axis, each.face, is_inside(part, each.face, item.unit))
    return sizes, ways, works


def machining_views(job: Job, item: Built) -> tuple[Drawing, ...]:
    """The drawings of a unit's worked parts."""
    return tuple(
        part_view(job, item, each, order).drawing for order, each in enumerate(worked(item), 1)
    )


def _set(job: Job, item: Built, each: Worked, order: int, room: float) -> Iterator[SetPart]:
    """A part with its list; a list too long for a page goes on without the drawing."""
    view = part_view(job, item, each, order)
    printing = printing_of(job)
    address = f"{item.holder}.{each.part.address}"
    part = each.part
    heading = _HEADING + _OTHERS * (lines_in(each.others, 190.0) if each.others else 0)
    heading += _OTHERS * (lines_in(each.name + _SIZES, 170.0) - 1)
    lists = paged(((work, row_height(work, printing)) for work in each.works), room - heading - 8.0)
    for number, works in enumerate(lists):
        listed = _ROW_HEAD + sum(row_height(work, printing) for work in works)
        high = max(view.drawing.height, listed) if number == 0 else listed
        yield SetPart(
            each,
            item.holder,
            view if number == 0 else None,
            scale_words(view.scale, job.system),
            is_inside(part, each.face, item.unit),
            (
                figure(part.width, f"{address}.width"),
                figure(part.length, f"{address}.length"),
                figure(part.thick, f"{address}.thick"),
            ),
            tuple(works),
            heading + high + 3.0,
        )


def row_height(work: Work, printing: Printing) -> float:
    """Millimetres a row takes on paper."""
    what, where, size = (room - _GAP for room in COLUMNS)
    lines = max(
        lines_in(said(work.what, printing), what),
        lines_in(said(work.along, printing), where) + lines_in(said(work.beside, printing), where),
        lines_in(said(work.size, printing), size),
    )
    return lines * _LINE + _PADDING


def said(note: Note, printing: Printing) -> str:
    """A note as its page prints it."""
    return "".join(_told(piece, printing) for piece in note)


def _told(piece: str | Figure, printing: Printing) -> str:
    if isinstance(piece, str):
        return piece
    fine = exactly(piece.measure, printing)
    return marked(piece.measure, printing) + (f" ({fine})" if fine else "")
