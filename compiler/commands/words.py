"""The words of the language as `list words` and `explain WORD` print them, made from the schema."""

from collections.abc import Iterable, Iterator
from typing import Any

from casewright.compiler.words.schema import SCHEMA
from casewright.lang.plain_text import cells, padded, visible, wrapped
from casewright.lang.render_json import VERSION, as_text
from casewright.lang.schema import ClauseRule, HeadRule, Takes
from casewright.lang.shape import Clause, Statement
from casewright.lang.source import Origin, Span

WIDEST = 34
"""The widest left column: a clause with more choices has its words on the lines below."""

ENOUGH = 20
"""Lines that are looked at for a short example."""

DEEPEST = 2
"""How far clauses of clauses are indented."""


def spoken(rule: HeadRule) -> str:
    """A statement by its word; one that begins with any name, by what it is."""
    if rule.name in {each.tagged for each in SCHEMA.heads.values()}:
        return "a unit's line"
    if rule.name in {each.unnamed for each in SCHEMA.heads.values()}:
        return "an opening's line"
    return rule.name


def places_of(word: str) -> tuple[str, ...]:
    """In whose blocks a statement may stand."""
    return tuple(
        spoken(rule)
        for rule in SCHEMA.heads.values()
        if word in (*rule.body, rule.tagged, rule.unnamed) and rule.name != SCHEMA.file
    )


def held_by(rule: HeadRule) -> tuple[str, ...]:
    """What the block of a statement may hold."""
    words = (*rule.body, *filter(None, (rule.tagged, rule.unnamed)))
    return tuple(spoken(SCHEMA.heads[word]) for word in words)


def example_of(word: str, statements: Iterable[Statement], *, clauses: bool = True) -> str:
    """A line of a text that says `word`, as a statement or, where `clauses` are looked at, as a
    clause: of the first that have it, the shortest, without its block; empty where none has."""
    shortest = ""
    for number, line in enumerate(_lines_with(word, statements, clauses)):
        if number == ENOUGH:
            break
        if not shortest or len(line) < len(shortest):
            shortest = line
    return shortest


def _lines_with(word: str, statements: Iterable[Statement], clauses: bool) -> Iterator[str]:
    for each in statements:
        if each.rule == word:
            yield _first_line(each.origin)
        for clause in _every(each.clauses) if clauses else ():
            if clause.word == word:
                yield _first_line(clause.origin)
        yield from _lines_with(word, each.body, clauses)


def _first_line(origin: Origin) -> str:
    """The line on which something begins, without its comment and the brace of its block."""
    if not isinstance(origin, Span):
        return ""
    line = origin.source.line_text(origin.line).partition("  #")[0]
    return " ".join(line.strip().removesuffix("{").split())


def _every(clauses: Iterable[Clause]) -> Iterator[Clause]:
    for clause in clauses:
        yield clause
        yield from _every(clause.clauses)


def explained_word(rule: HeadRule, width: int, example: str = "") -> str:
    """What a statement says, its clauses, what its block may hold, and a line as an example."""
    where = [f"in {', '.join(places)}"] if (places := places_of(rule.name)) else []
    alone = rule.name in SCHEMA.heads[SCHEMA.file].body or not where
    told = {
        "takes": rule.values,
        "stands": " or ".join([*(["by itself"] if alone else []), *where]),
        "holds": ", ".join(held_by(rule)),
        "also": "an option by its name, with a value" if rule.options else "",
        "as in": example,
    }
    lines = [f"    {rule.name}", "", *(f"    {line}" for line in wrapped(rule.doc, width - 4))]
    for name, text in told.items():
        lines += _with_name(name, text, width)
    rows = list(clause_rows(rule.clauses))
    short = [cells(left) for left, _ in rows if cells(left) <= WIDEST]
    column = max(short, default=8) + 4
    lines += [""] if rows else []
    for left, doc in rows:
        first, *others = wrapped(doc, max(24, width - 4 - column))
        if cells(left) > WIDEST:
            lines += [f"    {line}" for line in wrapped(left, width - 4)]
            others, first = [first, *others], ""
        if first:
            lines.append(f"    {padded(left, column)}{first}")
        lines += [" " * (4 + column) + line for line in others]
    return "".join(f"{line}\n" for line in lines)


def _with_name(name: str, text: str, width: int) -> Iterator[str]:
    """A text behind its name, as wide as there is room; nothing for an empty one."""
    for number, line in enumerate(wrapped(text, width - 12) if text else ()):
        yield f"    {padded('' if number else name, 8)}{visible(line)}"


def clause_rows(clauses: Iterable[ClauseRule], depth: int = 0) -> Iterator[tuple[str, str]]:
    """Every clause with what it takes, its own clauses indented below it; and what it says."""
    for clause in clauses:
        takes = "" if clause.takes is Takes.NOTHING else clause.kind
        takes = f"[{takes}]" if clause.takes in (Takes.MAYBE, Takes.ANY) else takes
        left = f"{takes} {clause.word}" if clause.postfix else f"{clause.word} {takes}"
        yield "  " * depth + left.strip(), clause.doc
        if depth < DEEPEST:
            yield from clause_rows(clause.clauses, depth + 1)


def clauses_called(word: str) -> tuple[tuple[str, ClauseRule], ...]:
    """Every clause of this word with where it stands: a statement and the clauses it is of, from
    without to within."""

    def within(place: str, clauses: Iterable[ClauseRule]) -> Iterator[tuple[str, ClauseRule]]:
        for clause in clauses:
            if clause.word == word:
                yield place, clause
            yield from within(f"{place}, {clause.word}", clause.clauses)

    return tuple(
        found
        for rule in SCHEMA.heads.values()
        if rule.name != SCHEMA.file
        for found in within(spoken(rule), rule.clauses)
    )


def explained_clauses(
    word: str, found: Iterable[tuple[str, ClauseRule]], width: int, example: str = ""
) -> str:
    """What a clause says, and in which statements; where it says several things, each of them; and
    a line as an example."""
    places: dict[ClauseRule, list[str]] = {}
    for place, clause in found:
        places.setdefault(clause, []).append(place)
    lines = [f"    {word}"]
    for clause, where in places.items():
        lines += ["", *(f"    {line}" for line in wrapped(clause.doc, width - 4))]
        takes = "nothing" if clause.takes is Takes.NOTHING else clause.kind
        lines += _with_name("takes", takes, width)
        lines += _with_name("stands", f"in {'; in '.join(where)}", width)
        for left, doc in clause_rows(clause.clauses):
            lines += [f"    {line}" for line in wrapped(f"{left}: {doc}", width - 4)]
    if example:
        lines += ["", *_with_name("as in", example, width)]
    return "".join(f"{line}\n" for line in lines)


def clauses_json(word: str, found: Iterable[tuple[str, ClauseRule]]) -> str:
    """The same for other programs."""
    told = [{"stands_in": place, **_clause_json(clause)} for place, clause in found]
    return as_text({"version": VERSION, "about": word, "clauses": told})


def word_json(rule: HeadRule) -> str:
    """The same for other programs."""
    return as_text(
        {
            "version": VERSION,
            "about": rule.name,
            "doc": rule.doc,
            "takes": rule.values,
            "stands_in": list(places_of(rule.name)),
            "holds": list(held_by(rule)),
            "clauses": [_clause_json(clause) for clause in rule.clauses],
        }
    )


def _clause_json(clause: ClauseRule) -> dict[str, Any]:
    return {
        "word": clause.word,
        "takes": clause.kind,
        "how_many": clause.takes.value,
        "doc": clause.doc,
        "choices": list(clause.choices),
        "clauses": [_clause_json(each) for each in clause.clauses],
    }
