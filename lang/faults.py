"""Findings of one text as they come: one for a bad line, and an end to them."""

from casewright.lang.findings import Finding, error
from casewright.lang.source import Source, Span

MOST_FAULTS = 500
"""After so many findings a text is left alone: it is hardly a kitchen."""

_LONGEST_QUOTED = 40


class Faults:
    """What is wrong with a text. `full` once there is too much of it; nothing is added then."""

    def __init__(self, source: Source) -> None:
        self.source = source
        self.findings: list[Finding] = []
        self.full = False
        self._lines: set[int] = set()

    def add(self, finding: Finding) -> None:
        """Adds `finding`, or in its place the last one, that there are too many."""
        if self.full:
            return
        if len(self.findings) == MOST_FAULTS:
            self.full = True
            finding = too_many(finding.span)
        self.findings.append(finding)

    def add_once(self, offset: int, finding: Finding) -> None:
        """Adds `finding` unless its line, the one at `offset`, has one of this kind already."""
        line = self.source.line_of(offset)
        if line not in self._lines:
            self._lines.add(line)
            self.add(finding)


def too_many(span: Span | None) -> Finding:
    """What stands in place of all findings past the limit; `span` is the first of them."""
    return error(
        "too-many-faults",
        f"more than {MOST_FAULTS} faults; the rest of the text was left alone",
        span,
    )


def quoted(text: str) -> str:
    """`text` as a message quotes it: cut when it is long."""
    return text if len(text) <= _LONGEST_QUOTED else f"{text[:_LONGEST_QUOTED]}…"
