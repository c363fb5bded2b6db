"""From the bytes of a file to a source: encoding, line ends, characters nobody can see."""

import re

from casewright.lang.findings import Finding, Label, Severity, error
from casewright.lang.source import Source, Span

LONGEST_TEXT = 1024 * 1024
"""Bytes in the longest text that is read (1 MiB)."""

MOST_LABELS = 20
"""Places named after the first, when the same fault stands in many."""

_MARK = b"\xef\xbb\xbf"
_WIDE_MARKS = (b"\xff\xfe", b"\xfe\xff")
_UNSEEN = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff\ufff9-\ufffb]"
)
"""Controls, and characters that turn or hide what stands beside them."""


def read_source(label: str, data: bytes) -> tuple[Source | None, tuple[Finding, ...]]:
    """The source `label` of a file's bytes, and what is wrong with them.

    No source comes of a text that is too long or not UTF-8. Line ends become `\\n`, a byte order
    mark goes, unseen characters become blanks, so that they reach neither papers nor terminals.
    """
    if len(data) > LONGEST_TEXT:
        # How long it is nobody knows: whoever read it stopped there.
        return None, (
            error(
                "text-too-long",
                f"this text is longer than {LONGEST_TEXT // 1024} KiB",
                Span(Source(label, ""), 0, 0),
                help="put parts of it into files of their own and say `use`",
            ),
        )
    findings: list[Finding] = []
    marked = data.startswith(_MARK)
    if marked:
        data = data[len(_MARK) :]
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as fault:
        return None, (_not_utf8(label, data, fault),)
    ended = text.count("\r")
    if ended:
        text = _plain_ends(text)
    unseen = list(_UNSEEN.finditer(text))
    source = Source(label, _UNSEEN.sub(" ", text) if unseen else text)
    if marked:
        findings.append(
            _advice(
                "byte-order-mark",
                "the text begins with a byte order mark, which says nothing",
                Span(source, 0, 0),
                "`casewright format` takes it out",
            )
        )
    if ended:
        end = source.text.find("\n")
        findings.append(
            _advice(
                "line-ends-differ",
                f"{ended} {'line ends' if ended == 1 else 'lines end'} with a carriage return",
                Span(source, end, end),
                "`casewright format` takes them out",
            )
        )
    tabs = source.text.count("\t")
    if tabs:
        at = source.text.index("\t")
        findings.append(
            _advice(
                "tabs-for-blanks",
                f"{tabs} {'tab stands' if tabs == 1 else 'tabs stand'} for blanks",
                Span(source, at, at + 1),
                "`casewright format` puts blanks in their place",
            )
        )
    if unseen:
        findings.append(_unseen(source, unseen))
    return source, tuple(findings)


def _plain_ends(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _advice(slug: str, headline: str, span: Span, help: str) -> Finding:
    return Finding(slug, Severity.ADVICE, headline, span, help=help)


def _not_utf8(label: str, data: bytes, fault: UnicodeDecodeError) -> Finding:
    if data.startswith(_WIDE_MARKS):
        span = Span(Source(label, ""), 0, 0)
        headline = "this text is in UTF-16, not UTF-8"
    else:
        before = data[: fault.start].decode("utf-8")
        rest = data[fault.start :].split(b"\n", 1)[0].decode("ascii", "replace")
        before = _plain_ends(before)
        span = Span(Source(label, before + _plain_ends(rest)), len(before), len(before) + 1)
        headline = f"this text isn't UTF-8: byte {data[fault.start]:02X} stands on line {span.line}"
    return error("not-utf-8", headline, span, help="save it as UTF-8, plain, in your editor")


def _unseen(source: Source, found: list[re.Match[str]]) -> Finding:
    spans = [Span(source, match.start(), match.end()) for match in found]
    first = f"U+{ord(found[0][0]):04X}"
    headline = (
        f"a character that can't be seen stands here, {first}"
        if len(found) == 1
        else f"{len(found)} characters that can't be seen stand in this text, the first {first}"
    )
    return error(
        "unseen-character",
        headline,
        spans[0],
        labels=tuple(Label(span) for span in spans[1 : MOST_LABELS + 1]),
        help="type the blank or the letter that was meant",
    )
