"""The difference of two revisions as a page: what changed, by which line, what is cut again."""

from collections.abc import Iterable, Iterator, Sequence
from difflib import SequenceMatcher

from casewright.compiler.commands.kitchen import printing_of
from casewright.compiler.difference import Difference, Fate, PartChange, UnitChange
from casewright.compiler.model import Job
from casewright.lang.cells import Quantity
from casewright.lang.plain_text import cells, cut_to, padded, visible, wrapped
from casewright.lang.printing import Printing, in_words
from casewright.lang.source import Span

NUMBERS = (
    *("no", "one", "two", "three", "four", "five", "six"),
    *("seven", "eight", "nine", "ten", "eleven", "twelve"),
)
"""Counts up to twelve are written as words."""

KINDS = {
    "unit": "units",
    "appliance": "appliances",
    "filler": "fillers",
    "space": "spaces",
    "base": "bases",
}
"""What stands in a run: one of it, and several."""

PLACES = ("at", "up")
"""Words of figures that say where a thing stands."""

MOST_WHERE = 30
"""Columns for the addresses of things that changed alike; more of them go on below."""

NARROWEST = 24
"""Columns for what follows, however narrow the terminal."""

_FATES = {
    Fate.CUT_AGAIN: "cut again",
    Fate.CUT_DOWN: "cut down",
    Fate.NEW: "new",
    Fate.KEPT: "kept",
    Fate.SPARE: "spare",
}

_Row = tuple[str, str, str, str]


def page(difference: Difference, was: Job, now: Job, width: int) -> str:
    """The whole page, in at most about `width` columns: revisions, a table of what changed, the
    lines of text, what becomes of the parts, a count, and what is owed."""
    printing = printing_of(now)
    blocks = [
        _revisions(was, now),
        _table([*_unit_rows(difference, printing), *_other_rows(difference, printing)], width),
        list(_causes(difference, width)),
        list(_fates(difference, width)),
        [line for said in _conclusion(difference) for line in wrapped(said, width)],
    ]
    return "\n".join("".join(f"{line}\n" for line in block) for block in blocks if block)


def _revisions(was: Job, now: Job) -> list[str]:
    if was.revision == now.revision or not (was.revision and now.revision):
        return []
    return [f"    revision {visible(was.revision)}, now {visible(now.revision)}"]


def _table(rows: Sequence[_Row], width: int) -> list[str]:
    if not rows:
        return []
    told = [("where", "was", "is", "so"), *rows]
    columns = [max(cells(row[column]) for row in told) + 4 for column in range(3)]
    columns[0] = min(columns[0], MOST_WHERE)
    lead = 4 + sum(columns)
    lines = []
    for where, before, after, so in told:
        left = wrapped(where, columns[0] - 2) or [""]
        right = wrapped(so, max(width - lead, NARROWEST)) or [""]
        middle = padded(before, columns[1]) + padded(after, columns[2])
        for number in range(max(len(left), len(right))):
            head = padded(left[number] if number < len(left) else "", columns[0])
            body = middle if number == 0 else " " * (columns[1] + columns[2])
            tail = right[number] if number < len(right) else ""
            lines.append(f"    {head}{body}{tail}".rstrip())
    return lines


def _unit_rows(difference: Difference, printing: Printing) -> Iterator[_Row]:
    for alike in _alike(difference.units):
        first = alike[0]
        where = ", ".join(change.address for change in alike)
        so = said(alike)
        if first.now is None or first.was is None:
            before = visible(first.was.title) if first.was is not None else ""
            after = visible(first.now.title) if first.now is not None else ""
            yield where, before, after, so
            continue
        figures = [each for each in first.figures if each[0] not in PLACES] or first.figures
        for word, was, now in figures or (("", "", ""),):
            told = "" if word in ("", "across", "is") else f"{word.replace('_', ' ')} "
            yield where, told + _figure(was, printing), told + _figure(now, printing), so
            where = so = ""


def _alike(changes: Iterable[UnitChange]) -> list[list[UnitChange]]:
    """Things that changed alike, by all that is printed of it, in the order of the first."""
    found: dict[object, list[UnitChange]] = {}
    for change in changes:
        figures = tuple(
            (word, *(each.value if isinstance(each, Quantity) else each for each in both))
            for word, *both in change.figures
        )
        alone = change.address if change.kind in ("added", "removed", "moved") else ""
        found.setdefault((alone, change.kind, figures), []).append(change)
    return list(found.values())


def _other_rows(difference: Difference, printing: Printing) -> Iterator[_Row]:
    for run in difference.runs:
        was = _figure(run.was.space, printing) if run.was is not None else ""
        now = _figure(run.now.space, printing) if run.now is not None else ""
        so = "new" if run.was is None else "no more" if run.now is None else ""
        yield run.name, was, now, so or _passed(run.gave, run.took, printing)
    for figure in difference.room:
        was = _figure(figure.was, printing) if figure.was is not None else ""
        now = _figure(figure.now, printing) if figure.now is not None else ""
        yield figure.address, was, now, "new" if not was else "no more" if not now else ""


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


def said(changes: Sequence[UnitChange]) -> str:
    """What follows from changes that are alike, in a sentence without a stop."""
    if changes[0].kind == "moved":
        return "moves; its parts are as they were"
    counts: dict[Fate, int] = {}
    for change in changes:
        for part in change.parts:
            counts[part.fate] = counts.get(part.fate, 0) + 1
    told: list[str] = []
    for fate, word in _FATES.items():
        count = counts.get(fate, 0)
        if count:
            verb = "is" if count == 1 else "are"
            parts = " part" if not told and count == 1 else " parts" if not told else ""
            told.append(f"{_number(count)}{parts} {verb} {word}")
    return ", ".join(told) or "nothing is cut for it"


def _causes(difference: Difference, width: int) -> Iterator[str]:
    """The lines of text that changed, came or went, old over new; each once."""
    rows: dict[tuple[str, str, str], None] = {}
    for change in difference.units:
        was, now = change.lines
        if was is not None and now is not None:
            rows |= dict.fromkeys(_changed_lines(was, now))
        elif _kind(change) != "base":
            rows |= dict.fromkeys(_whole(was, "was")) | dict.fromkeys(_whole(now, "is "))
    column = max((cells(where) for where, _, _ in rows), default=0) + 4
    for where, word, text in rows:
        yield cut_to(f"    {padded(where, column)}{word}  {text}".rstrip(), width)


def _whole(span: Span | None, word: str) -> Iterator[tuple[str, str, str]]:
    """The first line of a text that only one of two kitchens has."""
    if span is not None:
        yield visible(span.where), word, visible(" ".join(span.text.partition("\n")[0].split()))


def _changed_lines(was: Span, now: Span) -> Iterator[tuple[str, str, str]]:
    """Where each line stands that one of two texts has and the other hasn't, and its words."""
    old, new = ([" ".join(line.split()) for line in span.text.split("\n")] for span in (was, now))
    for tag, i, i_end, j, j_end in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if tag == "equal":
            continue
        for span, word, lines, start, end in (
            (was, "was", old, i, i_end),
            (now, "is ", new, j, j_end),
        ):
            for index in range(start, end):
                where = f"{span.source.label}:{span.line + index}"
                yield visible(where), word, visible(lines[index])


def _fates(difference: Difference, width: int) -> Iterator[str]:
    """What becomes of each changed thing's parts, by name, with what forbids keeping them. Things
    to which the same happens stand together."""
    told: dict[tuple[tuple[str, str], ...], list[str]] = {}
    for change in difference.units:
        if change.kind not in ("added", "removed", "moved"):
            told.setdefault(tuple(_fates_of(change)), []).append(change.address)
    groups = [(", ".join(where), rows) for rows, where in told.items() if rows]
    column = min(max((cells(where) for where, _ in groups), default=0) + 3, MOST_WHERE)
    for addresses, rows in groups:
        where = wrapped(addresses, column - 2)
        before = ""
        for fate, names in rows:
            head = padded("" if fate == before else fate, 11)
            before = fate
            for line in wrapped(names, max(width - 4 - column - cells(head), NARROWEST)):
                yield f"    {padded(where.pop(0) if where else '', column)}{head}{line}"
                head = " " * cells(head)
        yield from (f"    {more}" for more in where)


def _fates_of(change: UnitChange) -> Iterator[tuple[str, str]]:
    """Each fate of a thing's parts, and the parts; nothing where all of them are kept."""
    if all(part.fate is Fate.KEPT and not part.why for part in change.parts):
        return
    for fate in (Fate.KEPT, Fate.CUT_DOWN, Fate.CUT_AGAIN, Fate.NEW, Fate.SPARE):
        found = [part for part in change.parts if part.fate is fate]
        for why in dict.fromkeys(part.why for part in found):
            names = _names(part for part in found if part.why == why)
            yield fate.value, f"{names}: {why}" if why else names


def _names(parts: Iterable[PartChange]) -> str:
    """Parts in words, equal ones counted: `drawer left side (3), floor`."""
    counts: dict[str, int] = {}
    for part in parts:
        opening, _, name = part.address.rpartition(".")
        words = (
            each.rstrip("0123456789").rstrip("_").replace("_", " ") for each in (opening, name)
        )
        title = " ".join(words).strip()
        counts[title] = counts.get(title, 0) + 1
    return ", ".join(
        f"{title} ({count})" if count > 1 else title for title, count in counts.items()
    )


def _conclusion(difference: Difference) -> Iterator[str]:
    same = f"{_count(difference.same, 'unit', 'units')} {_as_it_was(difference.same)}"
    if difference.equal:
        yield f"Nothing is different; {same}."
        return
    changed = [
        _count(count, kind, several)
        for kind, several in KINDS.items()
        if (count := sum(_kind(change) == kind for change in difference.units))
    ]
    if changed:
        one = len(changed) == 1 and changed[0].startswith("one ")
        listed = _listed(changed)
        differ = "differs" if one else "differ"
        yield f"{listed[0].upper()}{listed[1:]} {differ}; {same}."
    else:
        yield f"Nothing that stands in the kitchen differs; {same}."
    owed = difference.recuts
    if not difference.resumed:
        yield "Nothing is marked sawn yet: no recuts are owed."
    elif not owed:
        yield "Of what is marked sawn nothing is cut again: no recuts are owed."
    else:
        told = ", ".join(f"{address} ({part.fate.value})" for address, part in owed)
        parts = _count(len(owed), "part that is", "parts that are")
        yield (
            f"{parts[0].upper()}{parts[1:]} marked sawn {'is' if len(owed) == 1 else 'are'} owed: "
            f"{told}. Say `but` and the address on the sawn line for each, so that it is planned "
            "again."
        )


def _kind(change: UnitChange) -> str:
    placed = change.now or change.was
    return placed.kind if placed is not None else ""


def _as_it_was(count: int) -> str:
    return "is as it was" if count == 1 else "are as they were"


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _figure(value: Quantity | str, printing: Printing) -> str:
    return in_words(value.measure, printing) if isinstance(value, Quantity) else visible(value)


def _number(count: int) -> str:
    return NUMBERS[count] if count < len(NUMBERS) else str(count)


def _count(count: int, one: str, several: str) -> str:
    return f"{_number(count)} {one if count == 1 else several}"
