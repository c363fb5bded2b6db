"""The files of a job book: every back end that writes one is registered here, once."""

from collections.abc import Callable, Mapping, Sequence

from attrs import frozen

from casewright.compiler.model import Job
from casewright.compiler.papers.book import book
from casewright.compiler.papers.cut_list import cut_list_csv
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


BACK_ENDS = (BackEnd("cut_list.csv", "saw", cut_list_csv),)


def book_files(
    job: Job, findings: Sequence[Finding], why: Why, *, chapter: str | None, tag: str | None
) -> dict[str, bytes]:
    """Every file of the book by its path, or those of one chapter, or of the unit with a tag."""
    files = {BOOK: book(job, findings, why, for_reader=chapter, only=tag).encode()}
    for each in BACK_ENDS:
        if chapter in (None, each.chapter):
            files[each.path] = each.write(job, tag).encode()
    return files
