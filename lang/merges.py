"""What a merge left in a text: both versions of a conflict, between git's markers."""

import re

from casewright.lang.findings import Finding, Label, error
from casewright.lang.source import Source, Span

_MARKER = re.compile(r"^(?:<{7}|\|{7}|={7}|>{7})(?:[ \t].*)?$", re.MULTILINE)
_LONGEST_SHOWN = 48


def without_merges(source: Source) -> tuple[str, tuple[Finding, ...]]:
    """The text with only the first version of every conflict (the rest is blank), and the findings.

    Markers that don't make a whole conflict stay, and are lines that can't be read.
    """
    text = source.text
    pieces: list[str] = []
    findings: list[Finding] = []
    done = 0
    begun: re.Match[str] | None = None
    first_end: int | None = None
    parted: re.Match[str] | None = None
    for marker in _MARKER.finditer(text):
        sign = marker[0][0]
        if sign == "<":
            begun, first_end, parted = marker, None, None
        elif begun is None:
            continue
        elif sign == "|" and first_end is None:
            first_end = marker.start()
        elif sign == "=" and parted is None:
            first_end = marker.start() if first_end is None else first_end
            parted = marker
        elif sign == ">" and parted is not None and first_end is not None:
            first = Span(source, begun.end() + 1, first_end)
            second = Span(source, parted.end() + 1, marker.start())
            findings.append(_two_versions(begun, first, second))
            pieces += (
                text[done : begun.start()],
                _blank(text[begun.start() : first.start]),
                text[first.start : first.end],
                _blank(text[first.end : marker.end()]),
            )
            done = marker.end()
            begun = None
    pieces.append(text[done:])
    return "".join(pieces), tuple(findings)


def _blank(text: str) -> str:
    return re.sub(r"[^\n]", " ", text)


def _two_versions(marker: re.Match[str], first: Span, second: Span) -> Finding:
    return error(
        "merge-left-two-versions",
        f"a merge left two versions here: {_shown(first)}, or {_shown(second)}",
        Span(first.source, marker.start(), marker.end()),
        labels=(*_labels(first, "one version"), *_labels(second, "the other")),
        help="keep one of the two and take the markers out",
    )


def _shown(version: Span) -> str:
    lines = [line.strip() for line in version.text.split("\n") if line.strip()]
    if not lines:
        return "nothing"
    more = f" and {len(lines) - 1} more" if len(lines) > 1 else ""
    line = lines[0] if len(lines[0]) <= _LONGEST_SHOWN else f"{lines[0][:_LONGEST_SHOWN]}…"
    return f"`{line}`{more}"


def _labels(version: Span, words: str) -> tuple[Label, ...]:
    lines = re.finditer(r"[^ \t\n][^\n]*", version.text)
    return tuple(
        Label(Span(version.source, version.start + line.start(), version.start + line.end()), words)
        for line in lines
    )
