"""What a person got wrong, as data; worded where the fault is found, rendered elsewhere."""

from enum import Enum

from attrs import frozen

from casewright.lang.measure import Measure
from casewright.lang.source import Span


class Severity(Enum):
    ERROR = "error"
    WARNING = "warning"
    ADVICE = "advice"


@frozen
class Label:
    """A line that has to do with a finding, with a word on why."""

    span: Span
    text: str = ""


@frozen
class Figure:
    """One row of a ruled sum: the line it comes from, what it is, and the figure.

    `ruled` draws a rule above the row, as on a scrap of ply. A figure without a span stands for
    something no line of the text says.
    """

    words: str
    measure: Measure | None
    span: Span | None = None
    note: str = ""
    ruled: bool = False


@frozen
class Edit:
    """A change of the text that mends a finding for certain."""

    span: Span
    replacement: str


@frozen
class Finding:
    """A report.

    `slug` is a stable short clause; `headline` stands alone; `span` is the smallest place at
    fault; `figures` are set out as a sum; `labels` are further lines (the caller's first, library
    lines after); `help` says how to mend; `edits` mend for certain and never delete a thing,
    loosen a limit or accept. `tags` names every unit an equal report was folded over. `accepted`
    is the reason the text accepts it for; it then counts no more.
    """

    slug: str
    severity: Severity
    headline: str
    span: Span | None
    figures: tuple[Figure, ...] = ()
    labels: tuple[Label, ...] = ()
    help: str = ""
    edits: tuple[Edit, ...] = ()
    tags: tuple[str, ...] = ()
    accepted: str = ""

    @property
    def order(self) -> tuple[str, int, int, str]:
        """Sorts findings by file, line, column and slug."""
        if self.span is None:
            return ("", 0, 0, self.slug)
        return (self.span.source.label, self.span.line, self.span.column, self.slug)


@frozen
class Progress:
    """Counts that a check reports beside its findings."""

    units_placed: int = 0
    units_evaluated: int = 0


def error(
    slug: str,
    headline: str,
    span: Span | None,
    *,
    figures: tuple[Figure, ...] = (),
    labels: tuple[Label, ...] = (),
    help: str = "",
    edits: tuple[Edit, ...] = (),
) -> Finding:
    """An error, by far the most usual finding of the language itself."""
    return Finding(slug, Severity.ERROR, headline, span, figures, labels, help, edits)
