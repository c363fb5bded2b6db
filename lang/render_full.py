"""Findings set out in full: a sum on a scrap of ply, or the line with the words underlined."""

from collections.abc import Iterable

from attrs import frozen

from casewright.lang.findings import Finding, Label, Progress, Severity
from casewright.lang.plain_text import Quote, cells, cut_to, padded, quoted, visible, wrapped
from casewright.lang.printing import Printed, Printing, printed
from casewright.lang.source import Source, Span

INDENT = "    "
NARROWEST = 40
"""Columns; a narrower terminal gets this width and breaks the lines itself."""
LONGEST_QUOTE = 44
"""Columns of a line quoted beside figures; a longer one keeps its first word and what is meant."""
LONGEST_HEADLINE = 1000
"""Columns of a headline; only one that quotes a monstrous word is longer."""
MOST_TAGS = 40
"""Tags named under a finding that stands for many units; the rest are counted."""


@frozen
class Paint:
    """How emphasis is put on: terminal sequences, or nothing."""

    colour: bool

    def strong(self, text: str) -> str:
        return f"\x1b[1m{text}\x1b[0m" if self.colour else text

    def violet(self, text: str) -> str:
        # The terminal's own magenta, since the reader's theme keeps it legible on any ground.
        return f"\x1b[35m{text}\x1b[0m" if self.colour else text


def render_full(
    findings: Iterable[Finding],
    progress: Progress,
    printing: Printing,
    *,
    width: int = 100,
    colour: bool = False,
) -> str:
    """Every finding, in the order of the text, and a last line that counts them."""
    paint = Paint(colour)
    width = max(width, NARROWEST)
    listed = sorted(findings, key=lambda finding: finding.order)
    blocks = ["\n".join(_finding(each, printing, width, paint)) for each in listed]
    return "\n\n".join([*blocks, counted(listed, progress)]) + "\n"


def counted(findings: Iterable[Finding], progress: Progress) -> str:
    """`1 error, 2 warnings`, or what was looked at where nothing was found."""
    listed = list(findings)
    accepted = sum(bool(finding.accepted) for finding in listed)
    severities = [finding.severity for finding in listed if not finding.accepted]
    words = []
    for severity in Severity:
        count = severities.count(severity)
        if count == 1:
            words.append(f"1 {severity.value}")
        elif count and severity is Severity.ADVICE:
            words.append(f"{count} pieces of advice")
        elif count:
            words.append(f"{count} {severity.value}s")
    if accepted:
        words.append(f"{accepted} accepted")
    if words:
        return ", ".join(words)
    units = "1 unit" if progress.units_placed == 1 else f"{progress.units_placed} units"
    return f"no findings; {units} placed, {progress.units_evaluated} worked out"


def _finding(finding: Finding, printing: Printing, width: int, paint: Paint) -> list[str]:
    lines = _headline(finding, width, paint)
    gutter = _gutter(finding)
    if finding.figures:
        lines += _sum(finding, gutter, printing, width)
    elif finding.span is not None:
        lines += _underlined(finding.span, gutter, width)
    home = None if finding.span is None else finding.span.source
    for label in finding.labels:
        lines += _label(label, home, gutter, width)
    if len(finding.tags) > 1:
        lines += _hanging("in", _tags(finding.tags), width)
    if finding.help and not finding.accepted:
        lines += _hanging("help", visible(finding.help), width)
    if finding.accepted:
        lines += _hanging("accepted", visible(finding.accepted), width)
    return lines


def _headline(finding: Finding, width: int, paint: Paint) -> list[str]:
    where = "" if finding.span is None else f"{visible(finding.span.where)}   "
    severity = finding.severity.value
    headline = cut_to(visible(finding.headline), LONGEST_HEADLINE)
    slug = finding.slug
    lead = cells(where) + len(severity) + 3
    start = where + paint.strong(severity) + "   "
    if lead + cells(headline) + 3 + len(slug) <= width:
        return [start + paint.strong(headline) + "   " + paint.violet(slug)]
    indent = lead if lead <= width // 2 else len(INDENT)
    # The first line begins after the lead; with a short indent it has less room than the others.
    first, *others = wrapped(headline, width - lead) or [""]
    if indent != lead:
        others = wrapped(" ".join(others), width - indent)
    lines = [start + paint.strong(first)]
    lines += [" " * indent + paint.strong(line) for line in others]
    taken = cells(others[-1]) + indent if others else lead + cells(first)
    if taken + 3 + len(slug) <= width:
        lines[-1] += "   " + paint.violet(slug)
    else:
        lines.append(" " * indent + paint.violet(slug))
    return lines


def _gutter(finding: Finding) -> int:
    """Columns that the line numbers take."""
    home = None if finding.span is None else finding.span.source
    spans = [finding.span, *(figure.span for figure in finding.figures)]
    spans += [label.span for label in finding.labels]
    numbers = [str(span.line) for span in spans if span is not None and span.source is home]
    return max(2, *map(len, numbers)) if numbers else 2


def _number(span: Span | None, home: Source | None, gutter: int) -> tuple[str, str]:
    """The line number in its gutter, and for a line of another file what stands before its text."""
    if span is None:
        return " " * gutter, ""
    if span.source is home:
        return str(span.line).rjust(gutter), ""
    return " " * gutter, f"{visible(span.where)}  "


def _quote(span: Span, room: int, *, beyond: bool = True) -> Quote:
    line = span.source.line_text(span.line)
    start = span.column - 1
    return quoted(line, start, start + span.end - span.start, room, beyond=beyond)


def _aside(span: Span, room: int) -> str:
    """A line quoted beside something else, without the brace that opens its block."""
    return _quote(span, room, beyond=False).text.removesuffix("{").rstrip()


def _sum(finding: Finding, gutter: int, printing: Printing, width: int) -> list[str]:
    home = None if finding.span is None else finding.span.source
    shown = [
        None if each.measure is None else printed(each.measure, printing)
        for each in finding.figures
    ]
    column = FigureColumn.of(shown)
    words = [visible(figure.words) for figure in finding.figures]
    words_width = max(map(cells, words))
    lead = len(INDENT) + gutter + 2
    room = width - lead - 4 - words_width - 2 - column.width
    room = max(16, min(LONGEST_QUOTE, room))
    numbers, texts = [], []
    for figure in finding.figures:
        number, text = _number(figure.span, home, gutter)
        if figure.span is not None:
            text += _aside(figure.span, room - cells(text))
        numbers.append(number)
        texts.append(text)
    text_width = max(map(cells, texts))
    before_words = lead + (text_width + 4 if text_width else 0)
    lines = []
    for figure, number, text, word, each in zip(
        finding.figures, numbers, texts, words, shown, strict=True
    ):
        if figure.ruled:
            lines.append(" " * before_words + "-" * (words_width + 2 + column.width))
        row = f"{INDENT}{number}  "
        if text_width:
            row += padded(text, text_width) + INDENT
        row += padded(word, words_width) + "  " + column.ranged(each)
        if figure.note:
            row += "  " + visible(figure.note)
        lines.append(row.rstrip())
    return lines


def _underlined(span: Span, gutter: int, width: int) -> list[str]:
    lead = len(INDENT) + gutter + 2
    quote = _quote(span, width - lead)
    number = str(span.line).rjust(gutter)
    return [
        f"{INDENT}{number}  {quote.text}".rstrip(),
        " " * (lead + quote.start) + "~" * quote.length,
    ]


def _label(label: Label, home: Source | None, gutter: int, width: int) -> list[str]:
    number, prefix = _number(label.span, home, gutter)
    lead = len(INDENT) + gutter + 2
    text = prefix + _aside(label.span, max(16, width - lead - cells(prefix)))
    note = visible(label.text)
    first = f"{INDENT}{number}  {text}"
    if not note:
        return [first.rstrip()]
    if cells(first) + 4 + cells(note) <= width:
        return [f"{first}    {note}"]
    under = " " * (lead + 4)
    return [first, *(under + line for line in wrapped(note, width - len(under)))]


def _tags(tags: tuple[str, ...]) -> str:
    named = [visible(tag) for tag in tags[:MOST_TAGS]]
    left = len(tags) - len(named)
    last = f"{left} more" if left else named.pop()
    return f"{', '.join(named)} and {last}"


def _hanging(word: str, text: str, width: int) -> list[str]:
    lead = INDENT + padded(word, 4) + "  "
    lines = wrapped(text, width - len(lead)) or [""]
    return [lead + lines[0], *(" " * len(lead) + line for line in lines[1:])]


@frozen
class FigureColumn:
    """A column of figures: whole numbers ranged right, their fractions in line after them."""

    whole: int
    after: int

    @classmethod
    def of(cls, figures: Iterable[Printed | None]) -> "FigureColumn":
        shown = [each for each in figures if each is not None]
        return cls(
            max((len(each.whole) for each in shown), default=0),
            max((len(_after(each)) for each in shown), default=0),
        )

    @property
    def width(self) -> int:
        return self.whole + self.after

    def ranged(self, figure: Printed | None) -> str:
        """`figure` in its place, with blanks up to the width of the column."""
        if figure is None:
            return " " * self.width
        return figure.whole.rjust(self.whole) + _after(figure).ljust(self.after)


def _after(figure: Printed) -> str:
    mark = f" {figure.mark}" if figure.mark else ""
    return figure.part + figure.unit + mark
