"""A page for everyone: what the job was looked over for, made from the catalogue of checks."""

from collections.abc import Iterator

from attrs import frozen

from casewright.compiler.catalogue.checks import GROUPS
from casewright.compiler.model import Job
from casewright.compiler.papers.pages.pages import Page

SAY = (
    "For everyone who relies on these papers: what the job was looked over for. What was found "
    "stands after the contents."
)


@frozen
class Group:
    """Checks that look at one thing, by their names as words."""

    title: str
    names: tuple[str, ...]


@frozen
class Source:
    """A rule pack the job is held against."""

    title: str
    edition: str
    limits: int


def pages(job: Job, only: str | None = None) -> Iterator[Page]:
    """One page, the same for every unit."""
    del only
    groups = tuple(
        Group(title, tuple(slug.replace("-", " ") for slug in slugs))
        for title, slugs in GROUPS.items()
        if slugs
    )
    sources = tuple(
        Source(pack.title, pack.edition, len(pack.limits)) for pack in job.yardstick.packs
    )
    values = {"groups": groups, "sources": sources}
    yield Page(
        "checked", "all chapters", "What was checked", SAY, "checked.html", values, find="checks"
    )
