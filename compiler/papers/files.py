"""Every file of a job book, as bytes by path: the same job gives the same bytes."""

import re
from collections.abc import Collection, Iterator, Mapping, Sequence

from casewright.compiler.model import Job
from casewright.compiler.papers.drawings.drawing import Drawing
from casewright.compiler.papers.drawings.frame_views import frames
from casewright.compiler.papers.job_json import job_json
from casewright.compiler.papers.lists.cut_list import cut_list_csv
from casewright.compiler.papers.lists.hardware_list import hardware_csv
from casewright.compiler.papers.pages import agree_pages, bench_pages, install_pages
from casewright.compiler.papers.pages.book import book_pieces
from casewright.compiler.papers.pages.machining_pages import machining_views
from casewright.compiler.papers.pages.pages import READERS, Page
from casewright.compiler.papers.pieces import built
from casewright.compiler.papers.walls import sides
from casewright.lang.findings import Finding
from casewright.lang.render_explain import Row

_UNSAFE = re.compile(r"[^A-Za-z0-9_-]+")


def write_papers(
    job: Job,
    findings: Sequence[Finding],
    why: Mapping[str, tuple[Row, ...]],
    more: Sequence[Page] = (),
    *,
    chapters: Collection[str] = READERS,
    only: str | None = None,
    partial: Sequence[str] = (),
) -> dict[str, bytes]:
    """The files of a job book by their path in its folder.

    `why` gives the rows that explain an address, `more` further pages of the book. `chapters`
    are those of READERS whose papers are kept, `only` those of the unit with that tag; the job
    itself is always whole. `partial` says what the papers should hold and don't.
    """
    pieces = book_pieces(job, findings, why, more, chapters=chapters, only=only, partial=partial)
    files = {
        "book.html": b"".join(piece.encode() for piece in pieces),
        "job.json": job_json(job).encode(),
    }
    if "saw" in chapters:
        files["cut_list.csv"] = cut_list_csv(job, only).encode()
    if "fit" in chapters:
        files["hardware.csv"] = hardware_csv(job, only).encode()
    for chapter, drawing in drawings(job, only):
        if chapter in chapters:
            files[drawing_path(drawing)] = drawing.file()
    return files


def drawing_path(drawing: Drawing) -> str:
    """Where a drawing's file stands; whatever it is called, this is one plain name."""
    return f"drawings/{_UNSAFE.sub('_', drawing.name)}.svg"


def drawings(job: Job, only: str | None = None) -> Iterator[tuple[str, Drawing]]:
    """Every drawing of the book with its chapter."""
    for side in sides(job):
        tags = {thing.holder for thing in side.things}
        if only is None or only in tags:
            for drawing in agree_pages.views(job, side):
                yield "agree", drawing
            yield "install", install_pages.view(job, side)
    for item in built(job):
        if only is not None and item.holder != only:
            continue
        for drawing in machining_views(job, item):
            yield "bench", drawing
        if len(item.unit.parts) < 2:
            continue
        for drawing in bench_pages.sheet_views(job, item).drawings:
            yield "bench", drawing
        for frame in frames(item):
            views = bench_pages.views_of_frame(job, frame)
            for drawing in (views.front, views.back, views.stick, *views.triangles):
                yield "bench", drawing
        for drawing in bench_pages.order_drawings(job, item):
            yield "bench", drawing
