"""The job book: one page of HTML for screen and paper, chapters by reader, nothing fetched."""

import re
from base64 import b64encode
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from hashlib import sha256

from attrs import evolve, frozen
from markupsafe import Markup

from casewright.compiler.model import Job
from casewright.compiler.papers.drawings.run_strip import run_strip
from casewright.compiler.papers.figures import Figure, Term, printing_of
from casewright.compiler.papers.names import words
from casewright.compiler.papers.pages import (
    agree_pages,
    band_pages,
    bench_pages,
    finding_pages,
    fit_pages,
    install_pages,
    marks_page,
    paint_pages,
    saw_pages,
)
from casewright.compiler.papers.pages.contents import contents_pages
from casewright.compiler.papers.pages.pages import (
    READERS,
    Page,
    joined_high,
    part_of,
    room_on,
    room_on_first,
)
from casewright.compiler.papers.pages.press import Press, set_piece, template_text
from casewright.compiler.papers.pieces import holder
from casewright.lang.findings import Finding, Severity
from casewright.lang.measure import Measure, System
from casewright.lang.render_explain import Row

PAPERS: tuple[tuple[str, Callable[[Job, str | None], Iterator[Page]]], ...] = (
    ("agree", agree_pages.pages),
    ("saw", saw_pages.pages),
    ("band", band_pages.pages),
    ("bench", bench_pages.pages),
    ("paint", paint_pages.pages),
    ("fit", fit_pages.pages),
    ("install", install_pages.pages),
    ("all chapters", finding_pages.pages),
    ("all chapters", marks_page.pages),
)
"""What makes the pages of a chapter, in the order of the work: each takes a job and the tag of one
unit or None."""


@frozen
class Paper:
    """A page as set, without what it was set from: a large book would hold too much."""

    page: Page
    body: Markup


@frozen
class Derivation:
    """A figure in the last chapter, with the rows of its sum."""

    figure: Figure
    rows: tuple[Row, ...]


@frozen
class DerivationGroup:
    title: str
    entries: tuple[Derivation, ...]


def book(
    job: Job,
    findings: Sequence[Finding],
    why: Mapping[str, tuple[Row, ...]],
    more: Sequence[Page] = (),
    *,
    chapters: Collection[str] = READERS,
    only: str | None = None,
    partial: Sequence[str] = (),
) -> str:
    """The job book as HTML.

    `why` gives the rows that explain an address; `more` are pages that others than the job stand
    behind, put at the end of their chapters. `chapters` are those of READERS that are kept,
    `only` keeps the papers of the unit with that tag; page one and the marks stay, and page one
    names what is `partial`.
    """
    pieces = book_pieces(job, findings, why, more, chapters=chapters, only=only, partial=partial)
    return "".join(pieces)


def book_pieces(
    job: Job,
    findings: Sequence[Finding],
    why: Mapping[str, tuple[Row, ...]],
    more: Sequence[Page] = (),
    *,
    chapters: Collection[str] = READERS,
    only: str | None = None,
    partial: Sequence[str] = (),
) -> Iterator[str]:
    """The book in pieces, a page at a time, so that a large one is never held twice."""
    press = Press(printing_of(job))
    room = room_on(job)
    papers = [
        Paper(evolve(each, values={}), press.set(each.template, **each.values))
        for each in _in_order(job, only, more, chapters)
    ]
    sheets = packed(papers, room)
    before = contents_pages(
        [[paper.page for paper in sheet] for sheet in sheets],
        findings,
        room,
        partial,
        first=room_on_first(job),
    )
    contents = [
        [
            Paper(
                Page(
                    "book" if number == 1 else f"book-{number}", "job book", job.name, _WHOLE,
                    "", here=_tags(job), part=part_of(number, before), more=number > 1,
                ),
                press.set("contents.html", page=each),
            )
        ]
        for number, each in enumerate(before, 1)
    ]  # fmt: skip
    last = Paper(
        Page(_WHY_PAGE, "all chapters", "Where figures come from", _WHY, "", long=True),
        Markup("").join(
            press.set("derivations.html", group=group, first=index == 0)
            for index, group in enumerate(derivations(job, press.figures, why))
        ),
    )
    sheets = [*contents, *sheets, [last]]
    there = {name for sheet in sheets for paper in sheet for name in _ids(paper)}
    values = _values(job, findings)
    runs = run_strip(job)
    there.update(runs.names)
    yield set_piece("book_head.html", **values)
    for number, sheet in enumerate(sheets, 1):
        here = frozenset(name for paper in sheet for name in paper.page.here)
        strip = runs.svg(here, first=number == 1) if sheet[0].page.strip else ""
        piece = set_piece(
            "page.html",
            sheet=sheet,
            strip=Markup(strip),
            number=number,
            count=len(sheets) - 1,
            before=sheets[number - 2][0].page.identifier if number > 1 else "",
            after=sheets[number][0].page.identifier if number < len(sheets) else "",
            **values,
        )
        yield _only_sound_links(piece, there)
    yield set_piece("book_foot.html", **values)


def packed(papers: Sequence[Paper], room: float) -> list[list[Paper]]:
    """Papers that follow each other in a chapter, on one sheet where `room` millimetres hold them;
    one whose height isn't told has a sheet to itself."""
    sheets: list[list[Paper]] = []
    used = 0.0
    for paper in papers:
        page = paper.page
        high = page.high + joined_high(page.say)
        if (
            sheets
            and used
            and page.high
            and page.chapter == sheets[-1][0].page.chapter
            and used + high <= room
        ):
            sheets[-1].append(paper)
            used += high
        else:
            sheets.append([paper])
            used = page.high
    return sheets


def _in_order(
    job: Job, only: str | None, more: Sequence[Page], chapters: Collection[str]
) -> Iterator[Page]:
    for chapter in READERS:
        if chapter in (*chapters, "all chapters"):
            for name, make in PAPERS:
                if name == chapter:
                    yield from make(job, only)
            yield from (page for page in more if page.chapter == chapter)


_LINK, _ID = re.compile(r' href="#([^"]*)"'), re.compile(r' id="([^"]*)"')
_WHY_PAGE = "where-figures-come-from"


def _ids(paper: Paper) -> Iterator[str]:
    yield paper.page.identifier
    yield from _ID.findall(paper.body)


def _only_sound_links(text: str, there: Collection[str]) -> str:
    """A piece without links to what isn't in the book: one for one reader has few."""
    return _LINK.sub(lambda link: link[0] if link[1] in there else "", text)


def _values(job: Job, findings: Sequence[Finding]) -> dict[str, object]:
    style = "".join(template_text(f"{name}.css") for name in ("drawing", "book", "work"))
    script = template_text("book.js")
    return {
        "job": job,
        "measures": _measures(job.system),
        "draft": _draft(findings),
        "style": Markup(style),
        "script": Markup(script),
        "style_hash": _hash(style),
        "script_hash": _hash(script),
    }


_WHOLE = (
    "For everyone who has a part in this kitchen. Before: the room is measured. "
    "After: each reader works from their own chapter."
)
_WHY = "For whoever doubts a figure. Before: read it on its page. After: change the line it names."


def _tags(job: Job) -> frozenset[str]:
    return frozenset(holder(placed) for placed in job.placed if placed.tag)


def _draft(findings: Iterable[Finding]) -> str:
    if any(finding.severity is Severity.ERROR for finding in findings):
        return "has errors, see page 1: do not cut"
    return "not released: do not cut"


def _measures(system: System) -> str:
    if system is System.INCHES:
        return "Measures in inches, third angle."
    return "Measures in millimetres, first angle."


def _hash(text: str) -> str:
    return b64encode(sha256(text.encode()).digest()).decode("ascii")


def derivations(
    job: Job, figures: Mapping[str, Figure], why: Mapping[str, tuple[Row, ...]]
) -> Iterator[DerivationGroup]:
    """Every figure the book printed, by what it belongs to, in the order first printed."""
    holders = {holder(placed): placed for placed in job.placed}
    groups: dict[str, list[str]] = {}
    for address in figures:
        owner = next((start for start in _starts(address) if start in holders), "")
        title = f"{words(owner)} {words(holders[owner].title)}" if owner else "room, walls and runs"
        groups.setdefault(title, []).append(address)
    for title, addresses in groups.items():
        yield DerivationGroup(
            title,
            tuple(
                Derivation(figures[each], tuple(why.get(each, ())) or _own_rows(figures[each]))
                for each in addresses
            ),
        )


def _starts(address: str) -> list[str]:
    pieces = address.split(".")
    return [".".join(pieces[:count]) for count in range(len(pieces), 0, -1)]


def _own_rows(figure: Figure) -> tuple[Row, ...]:
    """A sum the papers made themselves, or the bare figure where nothing explains it."""
    rows = tuple(_term_row(term, index == 0) for index, term in enumerate(figure.terms))
    return (*rows, Row(figure.address, figure.measure, "", bool(rows)))


def _term_row(term: Term, first: bool) -> Row:
    count = abs(term.times)
    what = term.figure.address if count == 1 else f"{count} × {term.figure.address}"
    sign = "less" if term.times < 0 else "" if first else "and"
    return Row(what, Measure(count * term.figure.value, term.figure.dimension), "", False, sign)
