"""The run strip at the head of every page: every run to scale, tags on, a tap opens the unit.

A large kitchen has the strip on hundreds of pages, so it is written once, on the first page, with
its links, and the others show the same; the mark of a page's units is each page's own. On paper,
where it would take more than a title does, each page but the first shows the walls of its own units
only; in a building of many runs on screens too.
"""

from collections.abc import Collection, Sequence
from fractions import Fraction
from html import escape

from attrs import frozen

from casewright.compiler.model import Job
from casewright.compiler.papers.drawings.drawing import (
    Canvas,
    Drawing,
    View,
    letters_width,
    number,
    size_of,
)
from casewright.compiler.papers.figures import printing_of
from casewright.compiler.papers.pieces import label
from casewright.compiler.papers.walls import Row, Side, reaches, sides
from casewright.lang.measure import INCH

WIDE = 90.0
"""The strip's longest run, in millimetres on paper."""

_HIGH = 5.8
_UNDER_HIGH, _UNDER_LOW, _BESIDE = 1.8, 2.5, 5.0
_MARK = 1.05
"""How far the mark of a page's unit reaches under its floor line, in millimetres."""

_FREE = 1.0
"""What a drawing keeps free above and below, together."""

_OUTLINES = "runs"

MANY_RUNS = 12
"""A job with more runs than this shows on each page those of its own units only."""

FEW_HIGH = 24.0
"""What those take at most, in millimetres: no more than a title beside them."""


@frozen
class Tag:
    """A unit or an appliance on the strip: where its box lies on paper. `text` is empty where its
    tag has no room, `target` where there is no page to open."""

    holder: str
    text: str
    target: str
    left: float
    floor: float
    width: float

    def written(self) -> str:
        """The tag with its link, as all pages show it."""
        if not self.text:
            return ""
        text = self._letters("")
        return f'<a href="#{escape(self.target)}">{text}</a>' if self.target else text

    def marked(self) -> str:
        """The mark of a unit that the page is about, and its tag in the same colour."""
        top = self.floor + _MARK - 1.4
        mark = (
            f'<rect class="solid here" x="{number(self.left)}" y="{number(top)}" '
            f'width="{number(self.width)}" height="1.4"/>'
        )
        return mark + (self._letters(" class=here") if self.text else "")

    def _letters(self, kind: str) -> str:
        return (
            f'<text{kind} x="{number(self.left + self.width / 2)}" '
            f'y="{number(self.floor - 1.5)}">{escape(self.text)}</text>'
        )


@frozen
class Shelf:
    """Walls that stand on one floor line: their outlines, and what stands on them. All shelves of a
    strip are drawn in one space."""

    outlines: Drawing
    tags: tuple[Tag, ...]

    @property
    def svg(self) -> str:
        """All of it with its links."""
        return self.outlines.body(links=False) + "".join(tag.written() for tag in self.tags)

    def marks(self, here: Collection[str]) -> str:
        """The marks of a page's own units."""
        return "".join(tag.marked() for tag in self.tags if tag.holder in here)


@frozen
class RunStrip:
    """The strip of a job. On screens its pages show it `whole`, but in a building of many runs; on
    paper they do where it is no higher than a title, else the walls of their own units."""

    shelves: tuple[Shelf, ...]
    whole: bool

    @property
    def names(self) -> tuple[str, ...]:
        """The ids under which the first page writes what others show."""
        if not self.whole:
            return ()
        return (_OUTLINES, *(_shelf_name(index) for index, _ in enumerate(self.shelves)))

    def svg(self, here: Collection[str], *, first: bool = False) -> str:
        """The strip of a page about the units whose addresses are in `here`; empty where nothing
        of it is shown. The `first` one of a book is written out, the others show the same."""
        if not self.whole:
            return self._own(here)
        if first:
            written = "".join(
                f'<g id="{_shelf_name(index)}" class="drawing runs">{shelf.svg}</g>'
                for index, shelf in enumerate(self.shelves)
            )
            return _drawn(
                self._size,
                ", ".join(shelf.outlines.title for shelf in self.shelves),
                f'<g id="{_OUTLINES}">{written}</g>',
            )
        marks = "".join(shelf.marks(here) for shelf in self.shelves)
        short = _whole_high(self.shelves) > FEW_HIGH
        strip = _drawn(
            self._size,
            "run strip",
            f'<use href="#{_OUTLINES}"/>{marks}',
            "onscreen" if short else "",
        )
        return strip + self._own(here) if short else strip

    @property
    def _size(self) -> str:
        drawn = [shelf.outlines for shelf in self.shelves]
        left, top = min(each.left for each in drawn), min(each.top for each in drawn)
        wide = max(each.left + each.width for each in drawn) - left
        return size_of(left, top, wide, _whole_high(self.shelves))

    def _own(self, here: Collection[str]) -> str:
        """The walls of a page's own units; none where they are more than stand beside its title."""
        own = [(index, shelf) for index, shelf in enumerate(self.shelves) if shelf.marks(here)]
        if sum(shelf.outlines.height for _, shelf in own) > FEW_HIGH:
            return ""
        return "".join(
            _drawn(
                shelf.outlines.size,
                shelf.outlines.title,
                (f'<use href="#{_shelf_name(index)}"/>' if self.whole else shelf.svg)
                + shelf.marks(here),
                "onpaper" if self.whole else "",
            )
            for index, shelf in own
        )


def _shelf_name(index: int) -> str:
    return f"{_OUTLINES}-{index + 1}"


def _whole_high(shelves: Sequence[Shelf]) -> float:
    drawn = [shelf.outlines for shelf in shelves]
    return max(each.top + each.height for each in drawn) - min(each.top for each in drawn)


def _drawn(size: str, title: str, inner: str, kind: str = "") -> str:
    return (
        f'<svg class="{f"drawing runs {kind}".rstrip()}" {size} role="group" '
        f'aria-label="{escape(title)}">{inner}</svg>'
    )


def has_whole_strip(job: Job) -> bool:
    """Whether every page on screen shows every run."""
    return len(job.runs) <= MANY_RUNS


def strip_high(job: Job) -> float:
    """Millimetres the strip of page one takes."""
    if not has_whole_strip(job):
        return FEW_HIGH
    lines = reaches(job)
    scale = _scale(job, [long for _, long in lines])
    shelves = _shelves([(rows, float(long * INCH / scale)) for rows, long in lines])
    high = sum(max(_high(lines[index][0]) for index in shelf) for shelf in shelves)
    return high + _MARK + _UNDER_LOW * max(0, len(shelves) - 1) + _FREE


def run_strip(job: Job) -> RunStrip:
    """Every wall with a run, in the job's order; short ones stand beside each other."""
    every = sides(job)
    scale = _scale(job, [side.right - side.left for side in every])
    if not has_whole_strip(job):
        return RunStrip(tuple(_shelf(job, [each], scale, 0.0) for each in every), whole=False)
    shelves: list[Shelf] = []
    top = 0.0
    for indices in _shelves([(len(side.rows), _wide(side, scale)) for side in every]):
        held = [every[index] for index in indices]
        shelves.append(_shelf(job, held, scale, top))
        top += max(_high(len(side.rows)) for side in held) + _UNDER_LOW
    return RunStrip(tuple(shelves), whole=True)


def _scale(job: Job, long: Sequence[Fraction]) -> int:
    """The strip is a key, not a drawing to measure from: its scale is what fits."""
    longest = max(long, default=job.room.counter.value)
    return max(1, -(-(longest * INCH).__ceil__() // int(WIDE)))


def _shelf(job: Job, held: Sequence[Side], scale: int, top: float) -> Shelf:
    canvas = Canvas(printing_of(job))
    tags: list[Tag] = []
    floor = top + max(_high(len(side.rows)) for side in held)
    left = 0.0
    for side in held:
        _side(canvas, tags, side, View(left, floor, scale))
        left += _wide(side, scale) + _BESIDE
    canvas.reach((0.0, floor + _MARK))
    titles = ", ".join(side.title for side in held)
    return Shelf(canvas.finished("run_strip", f"Run strip: {titles}"), tuple(tags))


def _wide(side: Side, scale: int) -> float:
    return float((side.right - side.left) * INCH / scale)


def _high(rows: int) -> float:
    return rows * _HIGH + (rows - 1) * _UNDER_HIGH


def _shelves(lines: Sequence[tuple[int, float]]) -> list[list[int]]:
    """Which walls, by their rows and width on paper, stand on one floor line: as many as the
    strip's width holds."""
    shelves: list[list[int]] = []
    used = 0.0
    for index, (_, wide) in enumerate(lines):
        if shelves and used + _BESIDE + wide <= WIDE:
            shelves[-1].append(index)
            used += _BESIDE + wide
        else:
            shelves.append([index])
            used = wide
    return shelves


def _side(canvas: Canvas, tags: list[Tag], side: Side, view: View) -> None:
    floor = view.y0
    for row in sorted(side.rows, key=lambda row: row.is_high):
        _row(canvas, tags, side, row, View(view.x0, floor, view.scale))
        floor -= _HIGH + _UNDER_HIGH
    canvas.line(
        "cut", view.x0 - 1.0, view.y0, view.x0 + view.size(side.right - side.left) + 1.0, view.y0
    )


def _row(canvas: Canvas, tags: list[Tag], side: Side, row: Row, view: View) -> None:
    top = view.y0 - _HIGH
    for thing in row.things:
        left, width = view.x(thing.left - side.left), view.size(thing.placed.width.value)
        kind = thing.placed.kind
        if kind == "space":
            continue
        if kind == "filler":
            canvas.rectangle("thin", left, top, width, _HIGH, "tint")
            continue
        canvas.rectangle("hidden" if kind == "appliance" else "seen", left, top, width, _HIGH)
        text = label(thing.placed)
        fits = letters_width(text, bold=True) <= width - 0.4
        target = thing.holder if thing.placed.unit else ""
        tags.append(Tag(thing.holder, text if fits else "", target, left, view.y0, width))
