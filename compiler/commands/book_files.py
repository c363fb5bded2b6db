"""The files of a job book: every back end that writes one is registered here, once."""

from collections.abc import Callable, Iterator, Mapping, Sequence

from attrs import frozen

from casewright.compiler.model import Job
from casewright.compiler.papers.book import book
from casewright.compiler.papers.buy_pages import buy_pages, buying_csv
from casewright.compiler.papers.cut_list import cut_list_csv
from casewright.compiler.papers.estimate_pages import estimate_pages
from casewright.compiler.papers.label_pages import label_pages
from casewright.compiler.papers.pages import Page
from casewright.compiler.papers.sheet_pages import sheet_pages
from casewright.compiler.shop_work import ShopWork
from casewright.lang.findings import Finding
from casewright.lang.render_explain import Row

BOOK = "book.html"

Why = Mapping[str, tuple[Row, ...]]
"""The rows that explain an address."""


@frozen
class BackEnd:
    """A file beside the book: its path, the chapter whose reader it is for, and what writes it
    from a job and the tag of one unit or None."""

    path: str
    chapter: str
    write: Callable[[Job, str | None], str]


def work_pages(job: Job, work: ShopWork) -> Iterator[Page]:
    """Pages about the whole job that the shop's own reckoning stands behind."""
    yield from estimate_pages(job, work.estimate)
    yield from buy_pages(job, work.buying, work.estimate)
    yield from sheet_pages(job, work.sheets.plans, work.sheets.unplanned)
    yield from label_pages(job, work.sheets.plans)


BACK_ENDS = (BackEnd("cut_list.csv", "saw", cut_list_csv),)


def book_files(
    job: Job,
    findings: Sequence[Finding],
    why: Why,
    work: ShopWork,
    *,
    chapter: str | None,
    tag: str | None,
) -> dict[str, bytes]:
    """Every file of the book by its path, or those of one chapter, or of the unit with a tag."""
    pages = () if tag is not None else tuple(work_pages(job, work))
    files = {BOOK: book(job, findings, why, pages, for_reader=chapter, only=tag).encode()}
    if tag is None and chapter in (None, "buy"):
        files["buying_list.csv"] = buying_csv(job, work.buying).encode()
    if tag is None and chapter in (None, "saw"):
        files.update(work.files)
    for each in BACK_ENDS:
        if chapter in (None, each.chapter):
            files[each.path] = each.write(job, tag).encode()
    return files
