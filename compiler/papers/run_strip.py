"""The run strip at the head of every page: every run to scale, tags on, a tap opens the unit."""

from collections.abc import Collection

from casewright.compiler.model import Job
from casewright.compiler.papers.drawing import Canvas, Drawing, View, letters_width
from casewright.compiler.papers.figures import printing_of
from casewright.compiler.papers.pieces import label
from casewright.compiler.papers.walls import Row, Side, sides
from casewright.lang.measure import INCH

WIDE = 90.0
"""The strip's longest run, in millimetres on paper."""

_HIGH = 6.2
_GAP = 3.4


def run_strip(job: Job, here: Collection[str]) -> Drawing:
    """The strip with the units whose addresses are in `here` on a violet floor line."""
    canvas = Canvas(printing_of(job))
    every = sides(job)
    longest = max((side.right - side.left for side in every), default=job.room.counter.value)
    # The strip is a key, not a drawing to measure from: its scale is what fits.
    scale = max(1, -(-(longest * INCH).__ceil__() // int(WIDE)))
    y = 0.0
    for side in every:
        rows = sorted(side.rows, key=lambda row: row.is_high, reverse=True)
        for row in rows:
            y += _HIGH
            _row(canvas, side, row, View(0.0, y, scale), here)
            y += _GAP
        y += 1.0
    titles = ", ".join(side.title for side in every)
    return canvas.finished("run_strip", f"Run strip: {titles}")


def _row(canvas: Canvas, side: Side, row: Row, view: View, here: Collection[str]) -> None:
    start = view.x(side.left)
    top = view.y0 - _HIGH
    for thing in row.things:
        left, width = view.x(thing.left) - start, view.size(thing.placed.width.value)
        kind = thing.placed.kind
        if kind == "space":
            continue
        if kind == "filler":
            canvas.rectangle("thin", left, top, width, _HIGH, "tint")
            continue
        canvas.rectangle("hidden" if kind == "appliance" else "seen", left, top, width, _HIGH)
        if thing.holder in here:
            canvas.rectangle("solid", left, view.y0 - 0.35, width, 1.4, "here")
        text = label(thing.placed)
        if letters_width(text, bold=True) <= width - 0.4:
            target = thing.holder if thing.placed.unit else ""
            look = "tag here" if thing.holder in here else "tag"
            canvas.write(left + width / 2, view.y0 - 1.7, text, kind=look, href=target)
    if not row.is_high:
        canvas.line("cut", -1.0, view.y0, view.size(side.right - side.left) + 1.0, view.y0)
