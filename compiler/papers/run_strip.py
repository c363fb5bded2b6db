"""The run strip at the head of every page: every run to scale, tags on, a tap opens the unit.

A large kitchen has the strip on hundreds of pages, so its outlines are written once, on the first
page, and the others show the same; tags and the mark of a page's units are each page's own.
"""

from collections.abc import Collection
from html import escape

from attrs import frozen

from casewright.compiler.model import Job
from casewright.compiler.papers.drawing import Canvas, Drawing, View, letters_width, number
from casewright.compiler.papers.figures import printing_of
from casewright.compiler.papers.pieces import label
from casewright.compiler.papers.walls import Row, Side, sides
from casewright.lang.measure import INCH

WIDE = 90.0
"""The strip's longest run, in millimetres on paper."""

_HIGH = 5.8
_UNDER_HIGH, _UNDER_LOW, _BESIDE = 1.8, 2.5, 5.0
_MARK = 1.05
"""How far the mark of a page's unit reaches under its floor line, in millimetres."""

_OUTLINES = "runs"


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

    def svg(self, here: bool) -> str:
        """The tag, and the mark of a unit the page is about."""
        top = self.floor + _MARK - 1.4
        mark = (
            f'<rect class="solid here" x="{number(self.left)}" y="{number(top)}" '
            f'width="{number(self.width)}" height="1.4"/>'
            if here
            else ""
        )
        if not self.text:
            return mark
        text = (
            f'<text{" class=here" if here else ""} x="{number(self.left + self.width / 2)}" '
            f'y="{number(self.floor - 1.5)}">{escape(self.text)}</text>'
        )
        return mark + (f'<a href="#{escape(self.target)}">{text}</a>' if self.target else text)


@frozen
class RunStrip:
    """The strip of a job: its outlines, and what stands on them."""

    outlines: Drawing
    tags: tuple[Tag, ...]

    @property
    def height(self) -> float:
        """Millimetres on paper."""
        return self.outlines.height

    def svg(self, here: Collection[str], *, first: bool = False) -> str:
        """The strip of a page about the units whose addresses are in `here`. The `first` one of a
        book holds the outlines."""
        drawn = self.outlines
        lines, title = f'<use href="#{_OUTLINES}"/>', "run strip"
        if first:
            lines, title = (
                f'<g id="{_OUTLINES}" class="drawing">{drawn.body(links=False)}</g>',
                drawn.title,
            )
        tags = "".join(tag.svg(tag.holder in here) for tag in self.tags)
        return (
            f'<svg class="drawing runs" {drawn.size} role="group" '
            f'aria-label="{escape(title)}">{lines}{tags}</svg>'
        )


def run_strip(job: Job) -> RunStrip:
    """Every wall with a run, in the job's order; short ones stand beside each other."""
    canvas = Canvas(printing_of(job))
    every = sides(job)
    longest = max((side.right - side.left for side in every), default=job.room.counter.value)
    # The strip is a key, not a drawing to measure from: its scale is what fits.
    scale = max(1, -(-(longest * INCH).__ceil__() // int(WIDE)))
    tags: list[Tag] = []
    top = 0.0
    for shelf in _shelves(every, scale):
        floor = top + max(_high(side) for side in shelf)
        left = 0.0
        for side in shelf:
            _side(canvas, tags, side, View(left, floor, scale))
            left += _wide(side, scale) + _BESIDE
        canvas.reach((0.0, floor + _MARK))
        top = floor + _UNDER_LOW
    titles = ", ".join(side.title for side in every)
    return RunStrip(canvas.finished("run_strip", f"Run strip: {titles}"), tuple(tags))


def _wide(side: Side, scale: int) -> float:
    return float((side.right - side.left) * INCH / scale)


def _high(side: Side) -> float:
    rows = len(side.rows)
    return rows * _HIGH + (rows - 1) * _UNDER_HIGH


def _shelves(every: tuple[Side, ...], scale: int) -> list[list[Side]]:
    """Walls that stand on one floor line, as many as the strip's width holds."""
    shelves: list[list[Side]] = []
    used = 0.0
    for side in every:
        wide = _wide(side, scale)
        if shelves and used + _BESIDE + wide <= WIDE:
            shelves[-1].append(side)
            used += _BESIDE + wide
        else:
            shelves.append([side])
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
