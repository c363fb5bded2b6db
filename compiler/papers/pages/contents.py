"""Page one and those after it: errors, what is in the book, and the other findings."""

from collections.abc import Iterable, Iterator, Sequence

from attrs import frozen

from casewright.compiler.papers.names import plural, words
from casewright.compiler.papers.pages.pages import READERS, Page, lines_in, paged
from casewright.lang.findings import Finding, Severity


@frozen
class Place:
    """Where a page stands: what the contents call it, and its number."""

    identifier: str
    title: str
    number: int


@frozen
class Listed:
    """A line of the contents: a page, and further ones about the same unit."""

    chapter: str
    first: Place
    further: tuple[Place, ...]

    @property
    def height(self) -> float:
        """Millimetres of its column; two stand side by side."""
        text = "; ".join(f"{each.title}, page 000" for each in (self.first, *self.further))
        return lines_in(text, _COLUMN) * _LINE


@frozen
class Chapter:
    """Lines of one chapter on one page."""

    name: str
    reader: str
    lines: tuple[Listed, ...]


@frozen
class ContentsPage:
    """What one of these pages holds; `begins` is true where the list of pages begins."""

    errors: tuple[Finding, ...]
    chapters: tuple[Chapter, ...]
    begins: bool
    others: tuple[Finding, ...]
    said: str
    partial: str


Item = Finding | Listed | str

_COLUMN, _LINE, _CHAPTER = 75.0, 5.3, 12.0
_HEADING, _SAID = 10.0, 9.0


def sorted_findings(findings: Iterable[Finding]) -> list[Finding]:
    """Errors, then warnings, then advice; each in the order of the text."""
    order = (Severity.ERROR, Severity.WARNING, Severity.ADVICE)
    return sorted(findings, key=lambda each: (order.index(each.severity), each.order))


def contents_pages(
    sheets: Sequence[Sequence[Page]],
    findings: Sequence[Finding],
    room: float,
    partial: Sequence[str] = (),
    *,
    first: float = 0.0,
) -> list[ContentsPage]:
    """The pages before `sheets`, with `room` millimetres each, the `first` with so many: what
    the papers should hold and don't (`partial`) and errors stand first, so that they are on page
    one."""
    lacking = f"These papers are partial: {'; '.join(partial)}." if partial else ""
    ordered = sorted_findings(findings)
    errors = [each for each in ordered if each.severity is Severity.ERROR]
    others = [each for each in ordered if each.severity is not Severity.ERROR]

    def laid(before: int) -> list[list[Item]]:
        items: list[tuple[Item, float]] = [("", _SAID + _HEADING)]
        if lacking:
            items.append(("lacking", _SAID + 5.2 * lines_in(lacking, 165.0)))
        items += [(each, finding_height(each)) for each in errors]
        items.append(("begins", _HEADING))
        last = ""
        for line in listed(sheets, before + 1):
            items.append((line, line.height / 2 + (_CHAPTER if line.chapter != last else 0.0)))
            last = line.chapter
        items.append(("others", _HEADING))
        items += [(each, finding_height(each)) for each in others]
        return paged(items, room, _CHAPTER, first)

    # Their own count moves every page number, but no line's height.
    shared = laid(len(laid(1)))
    return [
        ContentsPage(
            tuple(each for each in held if isinstance(each, Finding) and each in errors),
            tuple(_chapters(each for each in held if isinstance(each, Listed))),
            "begins" in held,
            tuple(each for each in held if isinstance(each, Finding) and each not in errors),
            _said(errors, others) if number == 1 else "",
            lacking if number == 1 else "",
        )
        for number, held in enumerate(shared, 1)
    ]


def listed(sheets: Sequence[Sequence[Page]], first: int) -> Iterator[Listed]:
    """The lines of the contents; the first of `sheets` has the number `first`."""
    found: list[tuple[Page, int]] = [
        (page, number)
        for number, sheet in enumerate(sheets, first)
        for page in sheet
        if not page.more
    ]
    for name in READERS:
        held: list[tuple[Page, int]] = []
        for page, number in found:
            if page.chapter != name:
                continue
            if held and not (len(page.here) == 1 and page.here == held[0][0].here):
                yield _line(name, held)
                held = []
            held.append((page, number))
        if held:
            yield _line(name, held)


def _line(name: str, held: Sequence[tuple[Page, int]]) -> Listed:
    (page, number), *rest = held
    # Pages of one unit begin with what it is called.
    label = f"{words(next(iter(page.here), page.title))} "
    return Listed(
        name,
        Place(page.identifier, page.title, number),
        tuple(Place(each.identifier, each.title.removeprefix(label), at) for each, at in rest),
    )


def _chapters(lines: Iterable[Listed]) -> Iterator[Chapter]:
    held: dict[str, list[Listed]] = {}
    for line in lines:
        held.setdefault(line.chapter, []).append(line)
    for name, found in held.items():
        yield Chapter(name, READERS[name], tuple(found))


def _said(errors: Sequence[Finding], others: Sequence[Finding]) -> str:
    warnings = sum(each.severity is Severity.WARNING for each in others)
    counts = (
        (len(errors), "error"), (warnings, "warning"), (len(others) - warnings, "piece of advice")
    )  # fmt: skip
    many = {"piece of advice": "pieces of advice"}
    said = [plural(count, one, many.get(one, "")) for count, one in counts if count]
    if not said:
        return "No findings: everything that is checked holds."
    where = "Errors stand first, the rest after the contents." if errors else "After the contents."
    return f"Findings: {', '.join(said)}. {where}"


def finding_height(finding: Finding) -> float:
    """Millimetres a finding takes on paper."""
    high = 6.5 * lines_in(finding.headline + " warning", 150.0) + 14.0
    for row in finding.figures:
        quoted = row.span.source.line_text(row.span.line).strip() if row.span else ""
        high += 5.2 * lines_in(f"{quoted}{row.note} {row.words}", 105.0) + 0.8
    if not finding.figures and finding.span is not None:
        quoted = finding.span.source.line_text(finding.span.line).strip()
        high += 5.2 * lines_in(quoted, 150.0) + 7.5
    for label in finding.labels:
        if label.text and label.span:
            high += 4.6 * lines_in(f"{label.span.where}: {label.text}", 160.0) + 3.5
    if finding.help:
        high += 5.2 * lines_in(f"help {finding.help}", 160.0) + 7.5
    return high
