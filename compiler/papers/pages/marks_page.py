"""The last page for everyone: what each mark means, drawn by what draws it elsewhere."""

from collections.abc import Callable, Iterator

from attrs import frozen

from casewright.compiler.model import Job
from casewright.compiler.papers.drawings import chains
from casewright.compiler.papers.drawings.chains import Link
from casewright.compiler.papers.drawings.drawing import Canvas, Drawing, Line
from casewright.compiler.papers.drawings.marks import banded, datum, grain, ring, tag, triangle
from casewright.compiler.papers.drawings.seen import hinge_dashes
from casewright.compiler.papers.figures import difference, figure, printing_of
from casewright.compiler.papers.pages.pages import Page

SAY = "For everyone who reads these papers. Each mark has its word beside it where there is room."


@frozen
class Mark:
    """A mark drawn, and what it means."""

    drawing: Drawing
    meaning: str


def pages(job: Job, only: str | None = None) -> Iterator[Page]:
    """One page, the same for every unit."""
    del only
    marks = []
    for name, meaning, draw in _MARKS:
        canvas = Canvas(printing_of(job))
        draw(canvas, job)
        marks.append(Mark(canvas.finished(f"mark_{name}", meaning), meaning))
    yield Page("marks", "all chapters", "Marks", SAY, "marks.html", {"marks": marks}, find="marks")


def _band(canvas: Canvas, job: Job) -> None:
    canvas.rectangle("seen", 0, 0, 40, 16)
    banded(canvas, 0, 16, 40, 16, (0, 1))
    canvas.write(20, 9.5, "front", kind="grey")


def _thick_band(canvas: Canvas, job: Job) -> None:
    canvas.rectangle("seen", 0, 0, 40, 16)
    banded(canvas, 0, 16, 40, 16, (0, 1), thick=True)
    canvas.write(20, 9.5, "front", kind="grey")


def _grain(canvas: Canvas, job: Job) -> None:
    canvas.rectangle("seen", 0, 0, 40, 18)
    grain(canvas, 20, 9, upright=True)


def _datum(canvas: Canvas, job: Job) -> None:
    canvas.rectangle("seen", 0, 0, 46, 14)
    datum(canvas, 23, 14)
    canvas.write(23, 19, "measure from here")


def _triangle(canvas: Canvas, job: Job) -> None:
    triangle(canvas, 0, 0, 40, (6.0, 6.0, 6.0))


def _hinge(canvas: Canvas, job: Job) -> None:
    canvas.rectangle("seen", 0, 0, 16, 22)
    hinge_dashes(canvas, "left", 0, 0, 16, 22)
    canvas.line("seen", 24, 0, 40, 0)
    canvas.quarter("hidden", (24, 0), (40, 0), (24, 16))


def _widths(canvas: Canvas, job: Job) -> None:
    _line_list(
        canvas,
        (
            ("cut", "cut, floor, wall"),
            ("seen", "seen"),
            ("thin", "dimension"),
            ("hidden", "hidden"),
        ),
    )


def _long_lines(canvas: Canvas, job: Job) -> None:
    _line_list(canvas, (("centre", "centre, stud"), ("later", "later rip")))


def _line_list(canvas: Canvas, lines: tuple[tuple[Line, str], ...]) -> None:
    for index, (line, text) in enumerate(lines):
        y = index * 6.0
        canvas.line(line, 0, y, 15, y)
        canvas.write(17, y + 1.4, text, "start")


def _tag(canvas: Canvas, job: Job) -> None:
    tag(canvas, 8, 0, "S2")
    ring(canvas, 26, -1.0, "2")


def _chain(canvas: Canvas, job: Job) -> None:
    whole = figure(job.room.counter, "room.counter")
    thick = figure(job.room.counter_thick, "room.counter_thick")
    rest = difference(whole, thick, "room.under_counter")
    chains.across(canvas, (0.0, 30.0, 34.0), (Link(rest), Link(thick)), 0.0, Link(whole))


def _section(canvas: Canvas, job: Job) -> None:
    canvas.rectangle("solid", 0, 0, 40, 1.6)
    canvas.rectangle("cut", 0, 6, 40, 4, "paper")
    canvas.rectangle("seen", 0, 14, 40, 4, "tint")


_MARKS: tuple[tuple[str, str, Callable[[Canvas, Job], None]], ...] = (
    ("band", "Banded edge: the bar floats outside the edge.", _band),
    ("thick_band", "Thick band: an open bar.", _thick_band),
    ("grain", "Grain, along the longest stroke.", _grain),
    ("datum", "Datum edge: the point of the V is on it.", _datum),
    ("triangle", "Which way round: one triangle shared by parts that belong together.", _triangle),
    ("hinge", "Hinge side in elevation, swing in plan.", _hinge),
    ("widths", "Line widths: 0.7, 0.35, 0.18 and 0.18 mm.", _widths),
    ("long_lines", "Longer dashes.", _long_lines),
    ("tag", "Tag on its floor line; a step in its ring.", _tag),
    ("chain", "A chain shows its total; a figure without room stands past its end.", _chain),
    ("section", "Cut and thin; cut; toe kick, counter or member.", _section),
)
