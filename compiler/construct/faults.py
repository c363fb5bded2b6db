"""How a formula stops when the text it reads is wrong.

Inside the construction a fault is raised to leave the formula; it never leaves the phase: the
statement that was being worked out catches it and keeps its blame.
"""

from casewright.compiler.blame import Blame, Row, finding_at
from casewright.lang.source import Origin


class Fault(Exception):
    """A formula that can't be worked out, with the finding that says why."""

    def __init__(self, blame: Blame) -> None:
        super().__init__(blame.finding.headline)
        self.blame = blame


def fault(
    slug: str,
    headline: str,
    origin: Origin | None,
    *,
    rows: tuple[Row, ...] = (),
    labels: tuple[tuple[Origin | None, str], ...] = (),
    help: str = "",
) -> Fault:
    return Fault(finding_at(origin, slug, headline, rows=rows, labels=labels, help=help))
