"""Pages of labels: one for every piece that leaves the saw."""

from collections.abc import Iterator, Sequence

from casewright.compiler.model import Job
from casewright.compiler.papers.pages import Page
from casewright.compiler.sawing import MaterialPlan


def label_pages(job: Job, plans: Sequence[MaterialPlan]) -> Iterator[Page]:
    """Labels, many a page."""
    yield from ()
