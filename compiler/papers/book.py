"""The job book: one page of HTML for screen and paper, chapters by reader, nothing fetched."""

import re
from base64 import b64encode
from collections.abc import Collection, Iterable, Mapping, Sequence
from hashlib import sha256

from attrs import frozen
from markupsafe import Markup

from casewright.compiler.model import Job
from casewright.compiler.papers import (
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
from casewright.compiler.papers.contents import contents_pages
from casewright.compiler.papers.figures import Figure, Term, printing_of
from casewright.compiler.papers.names import words
from casewright.compiler.papers.pages import READERS, Page, part_of, room_on
from casewright.compiler.papers.pieces import holder
from casewright.compiler.papers.press import Press, page, template_text
from casewright.compiler.papers.run_strip import run_strip
from casewright.lang.findings import Finding, Severity
from casewright.lang.measure import Measure, System
from casewright.lang.render_explain import Row

PAPERS = (
    agree_pages.pages,
    saw_pages.pages,
    band_pages.pages,
    bench_pages.pages,
    paint_pages.pages,
    fit_pages.pages,
    install_pages.pages,
    finding_pages.pages,
    marks_page.pages,
)
"""What makes pages, in the order of the work: each takes a job and the tag of one unit or None."""


@frozen
class SetPage:
    """A page as set: what stands in `book.html`."""

    identifier: str
    chapter: str
    title: str
    say: str
    strip: Markup
    body: Markup
    find: str
    long: bool
    number: int
    part: str
    more: bool


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
    pages = [page for make in PAPERS for page in make(job, only)]
    pages = sorted((*pages, *more), key=lambda page: list(READERS).index(page.chapter))
    pages = [page for page in pages if page.chapter in (*chapters, "all chapters")]
    press = Press(printing_of(job))
    runs = run_strip(job)
    before = contents_pages(pages, findings, room_on(job), partial)

    def strip(here: frozenset[str]) -> Markup:
        return Markup(runs.svg(here))

    set_pages = [
        SetPage(
            each.identifier,
            each.chapter,
            each.title,
            each.say,
            strip(each.here) if each.strip else Markup(),
            press.set(each.template, **each.values),
            each.find,
            each.long,
            number,
            each.part,
            each.more,
        )
        for number, each in enumerate(pages, len(before) + 1)
    ]
    contents = [
        SetPage(
            "book" if number == 1 else f"book-{number}", "job book", job.name, _WHOLE,
            Markup(runs.svg(_tags(job), first=number == 1)),
            press.set("contents.html", page=each),
            "", False, number, part_of(number, before), number > 1,
        )
        for number, each in enumerate(before, 1)
    ]  # fmt: skip
    last = SetPage(
        "where-figures-come-from", "all chapters", "Where figures come from", _WHY,
        strip(frozenset()),
        press.set("derivations.html", groups=derivations(job, press.figures, why)),
        "", True, len(before) + len(set_pages) + 1, "", False,
    )  # fmt: skip
    return _only_sound_links(page(_values(job, findings, [*contents, *set_pages, last])))


_LINK, _ID = re.compile(r' href="#([^"]*)"'), re.compile(r' id="([^"]*)"')


def _only_sound_links(text: str) -> str:
    """The book without links to pages that aren't in it: a book for one reader has few."""
    there = set(_ID.findall(text))
    return _LINK.sub(lambda link: link[0] if link[1] in there else "", text)


def _values(job: Job, findings: Sequence[Finding], pages: Sequence[SetPage]) -> dict[str, object]:
    style = "".join(template_text(f"{name}.css") for name in ("drawing", "book", "work"))
    script = template_text("book.js")
    return {
        "job": job,
        "pages": pages,
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
) -> list[DerivationGroup]:
    """Every figure the book printed, by what it belongs to, in the order first printed."""
    holders = {holder(placed): placed for placed in job.placed}
    groups: dict[str, list[Derivation]] = {}
    for address, figure in figures.items():
        owner = next(
            (
                start
                for start in (address.rpartition(".")[0], *_starts(address))
                if start in holders
            ),
            "",
        )
        title = f"{words(owner)} {words(holders[owner].title)}" if owner else "room, walls and runs"
        groups.setdefault(title, []).append(
            Derivation(figure, tuple(why.get(address, ())) or _own_rows(figure))
        )
    return [DerivationGroup(title, tuple(entries)) for title, entries in groups.items()]


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
