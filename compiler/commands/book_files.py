"""The files of a job book: those of its papers, and those of the shop's own reckoning."""

from collections.abc import Collection, Iterator, Mapping, Sequence

from casewright.compiler.model import Job
from casewright.compiler.papers.files import write_papers
from casewright.compiler.papers.lists.lumber_list import lumber_csv
from casewright.compiler.papers.pages.buy_pages import buy_pages, buying_csv
from casewright.compiler.papers.pages.estimate_pages import estimate_pages
from casewright.compiler.papers.pages.label_pages import label_pages
from casewright.compiler.papers.pages.linear_pages import linear_csv, linear_pages
from casewright.compiler.papers.pages.lumber_pages import lumber_pages
from casewright.compiler.papers.pages.offer_pages import offer_pages
from casewright.compiler.papers.pages.pages import Page
from casewright.compiler.papers.pages.saving_pages import saving_pages
from casewright.compiler.papers.pages.sheet_pages import sheet_pages
from casewright.compiler.shop.priced import Advice, Offer
from casewright.compiler.shop.reckoning import ShopWork
from casewright.lang.findings import Finding
from casewright.lang.render_explain import Row

RECKONED = ("agree", "buy", "saw")
"""The chapters that stand on the shop's own reckoning: plans, what to buy, what it costs."""

Why = Mapping[str, tuple[Row, ...]]
"""The rows that explain an address."""


def work_pages(
    job: Job, work: ShopWork, offers: Sequence[Offer] = (), advice: Advice | None = None
) -> Iterator[Page]:
    """Pages about the whole job that the shop's own reckoning stands behind."""
    yield from estimate_pages(job, work.estimate)
    yield from offer_pages(job, work.estimate, offers)
    yield from buy_pages(job, work.buying, work.estimate)
    yield from saving_pages(advice, work.estimate)
    yield from linear_pages(job, work.linear.lists, work.buying)
    yield from sheet_pages(job, work.sheets.plans, work.sheets.unplanned)
    yield from lumber_pages(job, work.boards.plans, work.boards.unplanned)
    yield from label_pages(job, work.sheets.plans)


def book_files(
    job: Job,
    findings: Sequence[Finding],
    why: Why,
    work: ShopWork | None,
    *,
    chapters: Collection[str],
    tag: str | None,
    offers: Sequence[Offer] = (),
    advice: Advice | None = None,
) -> dict[str, bytes]:
    """Every file of the book by its path, or those of some chapters, or of the unit with a tag.

    `work` may be None where no chapter of RECKONED is asked for, and for a unit's papers.
    """
    pages = () if tag is not None or work is None else tuple(work_pages(job, work, offers, advice))
    partial = () if work is None else work.partial
    files = write_papers(job, findings, why, pages, chapters=chapters, only=tag, partial=partial)
    if work is not None and tag is None and "buy" in chapters:
        files["buying_list.csv"] = buying_csv(job, work.buying).encode()
        if work.linear.lists:
            files["linear_list.csv"] = linear_csv(job, work.linear.lists).encode()
    if work is not None and tag is None and "saw" in chapters:
        files.update(work.files)
        if work.boards.plans:
            files["lumber.csv"] = lumber_csv(job, work.boards.plans).encode()
    return files
