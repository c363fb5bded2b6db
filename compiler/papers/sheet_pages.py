"""Pages for the sawyer: a cutting plan a sheet, and the rip list over all sheets."""

from collections.abc import Iterator, Sequence

from casewright.compiler.model import Job
from casewright.compiler.papers.pages import Page
from casewright.compiler.sawing import MaterialPlan, NotPlanned


def sheet_pages(
    job: Job, plans: Sequence[MaterialPlan], unplanned: Sequence[NotPlanned]
) -> Iterator[Page]:
    """The rip list and the sheets of every material."""
    yield from ()
