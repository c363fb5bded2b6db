"""`diff`: two revisions of a kitchen, in the trade's terms."""

from argparse import Namespace
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from casewright.compiler.commands.kitchen import chosen, printing_of, report
from casewright.compiler.commands.terminal import Terminal
from casewright.compiler.commands.world import open_project
from casewright.lang.cells import Quantity
from casewright.lang.plain_text import visible, wrapped
from casewright.lang.printing import Printing, exact, in_words
from casewright.lang.render_json import VERSION, as_text

if TYPE_CHECKING:
    from casewright.compiler.difference import Difference, PartChange, UnitChange
    from casewright.compiler.model import Job

NUMBERS = (
    "no",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
)
"""Counts up to twelve are written as words."""


def run(arguments: Namespace, terminal: Terminal) -> int:
    was = _built(arguments.old, arguments, terminal)
    now = _built(arguments.new, arguments, terminal)
    if was is None or now is None:
        return 2
    from casewright.compiler.difference import compare

    difference = compare(was, now)
    printing = printing_of(now)
    if arguments.form == "json":
        terminal.report(as_text(document(difference)))
    elif arguments.form == "concise":
        for change in difference.units:
            terminal.report(f"{change.address}  {change.kind}  {said(change)}\n")
    else:
        terminal.report("".join(f"{line}\n" for line in lines(difference, printing, terminal)))
    return 0 if difference.equal else 1


def _built(kitchen: str, arguments: Namespace, terminal: Terminal) -> "Job | None":
    """The job of a kitchen; None where it can't be built, and its findings are reported."""
    path = chosen(kitchen, Path())
    world, entry = open_project(path)
    # The compiler is loaded only when there is something to compile.
    from casewright.compiler.compile import compile_job

    compiled = compile_job(world, entry)
    if compiled.job is None:
        report(arguments, terminal, compiled.findings, compiled.progress, printing_of(None))
        terminal.complain(f"nothing is compared, since {kitchen} can't be built as it is")
    return compiled.job


def lines(difference: "Difference", printing: Printing, terminal: Terminal) -> Iterator[str]:
    """The difference as a page: the changes, what becomes of the parts, the count."""
    rows = [("where", "was", "is", "so"), *_unit_rows(difference, printing)]
    rows += _run_rows(difference, printing)
    if len(rows) > 1:
        widths = [max(len(row[column]) for row in rows) + 4 for column in range(3)]
        for row in rows:
            head = "".join(cell.ljust(width) for cell, width in zip(row, widths, strict=False))
            text = wrapped(row[3], max(terminal.width - len(head) - 4, 24)) or [""]
            yield f"    {head}{text[0]}".rstrip()
            for more in text[1:]:
                yield f"    {' ' * len(head)}{more}"
        yield ""
    causes = list(_causes(difference))
    if causes:
        yield from causes
        yield ""
    fates = list(_fates(difference))
    if fates:
        yield from fates
        yield ""
    changed = len(difference.units)
    if difference.equal:
        yield f"nothing is different; {difference.same} units are as they were"
        return
    yield (
        f"{_count(changed, 'unit', 'units')} changed, "
        f"{_number(difference.same)} {'is' if difference.same == 1 else 'are'} as "
        f"{'it was' if difference.same == 1 else 'they were'}. "
        "Nothing is marked cut yet: no recuts are owed."
    )


def _unit_rows(difference: "Difference", printing: Printing) -> Iterator[tuple[str, str, str, str]]:
    for change in difference.units:
        if change.kind == "added":
            assert change.now is not None, "what was added is there now"
            yield (change.address, "", visible(change.now.title), said(change))
        elif change.kind == "removed":
            assert change.was is not None, "what was removed was there"
            yield (change.address, visible(change.was.title), "", said(change))
        else:
            shown = [each for each in change.figures if each[0] not in ("at", "up")]
            figures = shown or change.figures
            first = True
            for word, was, now in figures:
                told = "" if word in ("across", "is") else f"{word.replace('_', ' ')} "
                yield (
                    change.address if first else "",
                    told + _figure(was, printing),
                    told + _figure(now, printing),
                    said(change) if first else "",
                )
                first = False
            if first:
                yield (change.address, "", "", said(change))


def _run_rows(difference: "Difference", printing: Printing) -> Iterator[tuple[str, str, str, str]]:
    for run in difference.runs:
        was = in_words(run.was.space.measure, printing) if run.was is not None else ""
        now = in_words(run.now.space.measure, printing) if run.now is not None else ""
        yield (run.name, was, now, _passed(run.gave, run.took, printing))


def _passed(
    gave: tuple[tuple[str, Quantity], ...],
    took: tuple[tuple[str, Quantity], ...],
    printing: Printing,
) -> str:
    def listed(changes: tuple[tuple[str, Quantity], ...], word: str) -> str:
        told = (f"{address} {word} {in_words(by.measure, printing)}" for address, by in changes)
        return ", ".join(told)

    both = (listed(took, "took"), listed(gave, "gave"))
    return "; ".join(each for each in both if each)


def said(change: "UnitChange") -> str:
    """What follows from a change, in a sentence."""
    from casewright.compiler.difference import Fate

    if change.kind == "moved":
        return "moves; its parts are as they were"
    counts: dict[Fate, int] = {}
    for part in change.parts:
        counts[part.fate] = counts.get(part.fate, 0) + 1
    words = {
        Fate.CUT_AGAIN: "cut again",
        Fate.CUT_DOWN: "cut down",
        Fate.NEW: "new",
        Fate.KEPT: "kept",
        Fate.SPARE: "spare",
    }
    told: list[str] = []
    for fate, word in words.items():
        count = counts.get(fate, 0)
        if count:
            verb = "is" if count == 1 else "are"
            parts = " part" if not told and count == 1 else " parts" if not told else ""
            told.append(f"{_number(count)}{parts} {verb} {word}")
    return ", ".join(told) or "nothing is cut for it"


def _causes(difference: "Difference") -> Iterator[str]:
    """The lines of text that changed, old over new."""
    for change in difference.units:
        was, now = change.lines
        if was is not None and now is not None:
            yield f"    {was.where}    {_line(was.text)}"
            yield f"    {now.where}    {_line(now.text)}"


def _line(text: str) -> str:
    words = visible(" ".join(text.split()))
    return words if len(words) <= 80 else words[:79] + "…"


def _fates(difference: "Difference") -> Iterator[str]:
    """What becomes of each changed unit's parts, by name."""
    from casewright.compiler.difference import Fate

    for change in difference.units:
        if change.kind in ("moved", "added", "removed"):
            continue
        for fate in (Fate.KEPT, Fate.CUT_DOWN, Fate.CUT_AGAIN, Fate.NEW, Fate.SPARE):
            names = _names(part for part in change.parts if part.fate is fate)
            if names:
                yield f"    {change.address.ljust(4)} {fate.value.ljust(10)} {names}"


def _names(parts: "Iterable[PartChange]") -> str:
    counts: dict[str, int] = {}
    for part in parts:
        opening, _, name = part.address.rpartition(".")
        word = name.rstrip("0123456789").rstrip("_").replace("_", " ")
        owner = opening.rstrip("0123456789").rstrip("_").replace("_", " ")
        title = f"{owner} {word}".strip()
        counts[title] = counts.get(title, 0) + 1
    return ", ".join(
        f"{title} ({count})" if count > 1 else title for title, count in counts.items()
    )


def _figure(value: Quantity | str, printing: Printing) -> str:
    return in_words(value.measure, printing) if isinstance(value, Quantity) else value


def _number(count: int) -> str:
    return NUMBERS[count] if count < len(NUMBERS) else str(count)


def _count(count: int, one: str, several: str) -> str:
    return f"{_number(count)} {one if count == 1 else several}"


def document(difference: "Difference") -> dict[str, object]:
    """The difference as plain data, figures exact and in inches."""

    def value(figure: Quantity | str) -> object:
        return exact(figure.value) if isinstance(figure, Quantity) else figure

    return {
        "version": VERSION,
        "equal": difference.equal,
        "same": difference.same,
        "units": [
            {
                "address": change.address,
                "kind": change.kind,
                "figures": [
                    {"word": word, "was": value(was), "is": value(now)}
                    for word, was, now in change.figures
                ],
                "lines": [
                    {"where": span.where, "text": " ".join(span.text.split())}
                    for span in change.lines
                    if span is not None
                ],
                "parts": [
                    {"address": part.address, "fate": part.fate.value, "why": part.why}
                    for part in change.parts
                ],
            }
            for change in difference.units
        ],
        "runs": [
            {
                "name": run.name,
                "was": exact(run.was.space.value) if run.was is not None else None,
                "is": exact(run.now.space.value) if run.now is not None else None,
                "gave": [{"address": each, "by": exact(by.value)} for each, by in run.gave],
                "took": [{"address": each, "by": exact(by.value)} for each, by in run.took],
            }
            for run in difference.runs
        ],
    }
