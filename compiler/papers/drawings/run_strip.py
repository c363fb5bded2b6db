"""The run strip at the head of every page: every run to scale, tags on, a tap opens the unit.

A large kitchen has the strip on hundreds of pages, so it is written once, on the first page, with
its links, and the others show the same; the mark of a page's units is each page's own. A building
of many runs would fill the page with it: there each page shows the walls of its own units only.
"""

from collections.abc import Collection, Sequence
from fractions import Fraction
from html import escape

from attrs import frozen

from casewright.compiler.model import Job
from casewright.compiler.papers.drawings.drawing import Canvas, Drawing, View, letters_width, number
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
    """Walls that stand on one floor line: their outlines, and what stands on them."""

    outlines: Drawing
    tags: tuple[Tag, ...]

    @property
    def svg(self) -> str:
        """All of it with its links."""
        return self.outlines.body(links=False) + "".join(tag.written() for tag in self.tags)


@frozen
class RunStrip:
    """The strip of a job: one shelf for all where its pages show it whole."""

    shelves: tuple[Shelf, ...]
    whole: bool

    def svg(self, here: Collection[str], *, first: bool = False) -> str:
        """The strip of a page about the units whose addresses are in `here`; empty where nothing
        of it is shown. The `first` one of a book is written out, the others show the same."""
        if not self.whole:
            return self._own(here)
        (shelf,) = self.shelves
        lines, title = f'<use href="#{_OUTLINES}"/>', "run strip"
        if first:
            lines = f'<g id="{_OUTLINES}" class="drawing runs">{shelf.svg}</g>'
            title = shelf.outlines.title
        marks = "".join(tag.marked() for tag in shelf.tags if tag.holder in here and not first)
        return _drawn(shelf.outlines, title, lines + marks)

    def _own(self, here: Collection[str]) -> str:
        """The walls of a page's own units, as many as stand beside its title."""
        used, drawn = 0.0, []
        for shelf in self.shelves:
            marks = "".join(tag.marked() for tag in shelf.tags if tag.holder in here)
            high = shelf.outlines.height
            if marks and used + high <= FEW_HIGH:
                used += high
                drawn.append(_drawn(shelf.outlines, shelf.outlines.title, shelf.svg + marks))
        return "".join(drawn)


def _drawn(outlines: Drawing, title: str, inner: str) -> str:
    return (
        f'<svg class="drawing runs" {outlines.size} role="group" '
        f'aria-label="{escape(title)}">{inner}</svg>'
    )


def has_whole_strip(job: Job) -> bool:
    """Whether every page shows every run."""
    return len(job.runs) <= MANY_RUNS


def strip_high(job: Job) -> float:
    """Millimetres a page keeps for its strip."""
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
    shelves = [
        [every[index] for index in shelf]
        for shelf in _shelves([(len(side.rows), _wide(side, scale)) for side in every])
    ]
    if has_whole_strip(job):
        return RunStrip((_shelf(job, shelves, scale),), whole=True)
    return RunStrip(tuple(_shelf(job, [each], scale) for each in shelves), whole=False)


def _scale(job: Job, long: Sequence[Fraction]) -> int:
    """The strip is a key, not a drawing to measure from: its scale is what fits."""
    longest = max(long, default=job.room.counter.value)
    return max(1, -(-(longest * INCH).__ceil__() // int(WIDE)))


def _shelf(job: Job, shelves: list[list[Side]], scale: int) -> Shelf:
    canvas = Canvas(printing_of(job))
    tags: list[Tag] = []
    top = 0.0
    for shelf in shelves:
        floor = top + max(_high(len(side.rows)) for side in shelf)
        left = 0.0
        for side in shelf:
            _side(canvas, tags, side, View(left, floor, scale))
            left += _wide(side, scale) + _BESIDE
        canvas.reach((0.0, floor + _MARK))
        top = floor + _UNDER_LOW
    titles = ", ".join(side.title for shelf in shelves for side in shelf)
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
