"""Findings one to a line, for pipes and editors."""

from collections.abc import Iterable

from casewright.lang.findings import Finding
from casewright.lang.plain_text import visible


def render_concise(findings: Iterable[Finding]) -> str:
    """`kitchen.case:28:5  error  run sink_wall is 1 1/2" longer than its wall  run-too-long`, in
    the order of the text; nothing where nothing was found."""
    listed = sorted(findings, key=lambda finding: finding.order)
    return "".join(f"{_line(finding)}\n" for finding in listed)


def _line(finding: Finding) -> str:
    pieces = [finding.severity.value, visible(finding.headline), finding.slug]
    if finding.span is not None:
        pieces.insert(0, visible(f"{finding.span.where}:{finding.span.column}"))
    if len(finding.tags) > 1:
        pieces.append(f"({len(finding.tags)} units)")
    if finding.accepted:
        pieces.append(f"accepted: {visible(finding.accepted)}")
    return "  ".join(pieces)
