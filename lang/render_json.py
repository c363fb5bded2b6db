"""Findings for other programs; `findings.schema.json` beside this file says what stands in it."""

import json
from collections.abc import Iterable, Mapping
from typing import Any

from casewright.lang.findings import Edit, Figure, Finding, Label, Progress, Severity
from casewright.lang.measure import Measure
from casewright.lang.printing import Printing, exact, in_words, unit_word
from casewright.lang.source import Span

VERSION = 1
"""The form of the document; a change that a reader could trip over raises it."""


def render_json(
    findings: Iterable[Finding],
    progress: Progress,
    printing: Printing,
    **more: object,
) -> str:
    """One document with every finding in the order of the text, and the counts. `more` are
    further members that a command adds (`written`, `problems`)."""
    listed = sorted(findings, key=lambda finding: finding.order)
    severities = [finding.severity for finding in listed if not finding.accepted]
    document = {
        "version": VERSION,
        "findings": [_finding(each, printing) for each in listed],
        "counts": {each.value: severities.count(each) for each in Severity},
        "progress": {
            "units_placed": progress.units_placed,
            "units_evaluated": progress.units_evaluated,
        },
        **more,
    }
    return as_text(document)


def as_text(document: Mapping[str, object]) -> str:
    """`document` as JSON text (RFC 8259), ASCII, so that nothing in it can move a terminal."""
    return json.dumps(document, indent=2) + "\n"


def place(span: Span | None) -> dict[str, Any] | None:
    """Where a span is: lines and columns from 1, in characters; the end is the first character
    after it."""
    if span is None:
        return None
    source = span.source
    last = source.line_of(span.end)
    return {
        "file": source.label,
        "line": span.line,
        "column": span.column,
        "end_line": last,
        "end_column": span.end - source.line_starts[last - 1] + 1,
    }


def value(measure: Measure | None, printing: Printing) -> dict[str, Any] | None:
    """A measure: exact in the language's own units, and as the job prints it."""
    if measure is None:
        return None
    return {
        "exact": exact(measure.value),
        "unit": unit_word(measure.dimension),
        "dimension": measure.dimension.value,
        "printed": in_words(measure, printing),
    }


def _finding(finding: Finding, printing: Printing) -> dict[str, Any]:
    return {
        "slug": finding.slug,
        "severity": finding.severity.value,
        "headline": finding.headline,
        "place": place(finding.span),
        "figures": [_figure(each, printing) for each in finding.figures],
        "labels": [_label(each) for each in finding.labels],
        "help": finding.help,
        "edits": [_edit(each) for each in finding.edits],
        "tags": list(finding.tags),
        "accepted": finding.accepted or None,
    }


def _figure(figure: Figure, printing: Printing) -> dict[str, Any]:
    return {
        "words": figure.words,
        "value": value(figure.measure, printing),
        "place": place(figure.span),
        "note": figure.note,
        "ruled": figure.ruled,
    }


def _label(label: Label) -> dict[str, Any]:
    return {"text": label.text, "place": place(label.span)}


def _edit(edit: Edit) -> dict[str, Any]:
    return {"place": place(edit.span), "replacement": edit.replacement}
