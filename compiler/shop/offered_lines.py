"""What an offer's lines change, as edits of the kitchen's own texts.

An offer says lines as the kitchen itself would have them. A bare word is an option of the job's
construction. A line with a tag goes in place of the line with that tag. A run, an island or a
peninsula is opened again: its clauses go over those of the kitchen's own line; a run with a block
is written anew whole. `without` takes a tagged line out.
"""

from collections.abc import Iterator

from attrs import frozen

from casewright.compiler.shop.variations import built_otherwise
from casewright.compiler.text.resolve import Program
from casewright.lang.findings import Edit
from casewright.lang.measure import System
from casewright.lang.shape import Statement, bare_word, clause_span, span_of, suggestion
from casewright.lang.source import Span

OPENED_AGAIN = ("run", "island", "peninsula")


class Impossible(Exception):
    """A line of an offer that changes nothing: why, as a clause, and where it stands."""

    def __init__(self, why: str, span: Span | None, help: str = "") -> None:
        super().__init__(why)
        self.why = why
        self.span = span
        self.help = help


@frozen
class Offered:
    """An offer's lines as written but for aligned columns, and the edits they come to."""

    lines: tuple[str, ...]
    edits: tuple[Edit, ...]


def offered(program: Program, statement: Statement) -> Offered:
    """What an offer changes. Raises Impossible at the first line that can change nothing."""
    lines: list[str] = []
    edits: list[Edit] = []
    options = [_text(clause_span(each)) for each in statement.options]
    built = statement.clause("built")
    if options or built is not None:
        by = bare_word(built.values[0]) if built is not None and built.values else ""
        made = built_otherwise(program, "\n".join(options), by)
        if made is None:
            raise Impossible(
                "the job doesn't say how it is built",
                span_of(statement.head.origin),
                "add built, and a construction, to the job",
            )
        lines += [*([f"built {by}"] if by else []), *options]
        edits += made[0]
    for line in statement.body:
        if line.rule == "note":
            continue
        edits += _line(program, line)
        lines.append(_text(span_of(line.origin)))
    return Offered(tuple(lines), tuple(edits))


def _text(span: Span | None) -> str:
    """What is written, its first line alone, without aligned columns."""
    first = span.text.partition("\n")[0] if span is not None else ""
    return " ".join(first.split())


def _line(program: Program, line: Statement) -> Iterator[Edit]:
    here = span_of(line.origin)
    assert here is not None, "an offer is never detached from its lines"
    if line.tag is not None or line.rule == "without":
        tag = line.tag.text if line.tag is not None else line.name
        found = _tagged(program, tag, line)
        yield Edit(found, here.text if line.tag is not None else "")
        _same_measure(program, here, found)
        return
    named = [each for each in _opened(program, line.rule) if each.name == line.name]
    if not named:
        raise Impossible(
            f"no {line.rule} is called {line.name}",
            here,
            suggestion(line.name, [each.name for each in _opened(program, line.rule)]),
        )
    own = named[0]
    whole = span_of(own.origin)
    name = span_of(own.values[0].origin)
    if whole is None or name is None:
        raise Impossible(f"{line.rule} {line.name} isn't written in the kitchen", here)
    _same_measure(program, here, whole)
    if line.body:
        yield Edit(whole, here.text)
        return
    if not line.clauses:
        raise Impossible(f"{line.rule} {line.name} says nothing of its own", here)
    for clause in line.clauses:
        said = clause_span(clause)
        old = own.clause(clause.word)
        where = clause_span(old) if old is not None else None
        if where is not None:
            yield Edit(where, said.text if said is not None else "")
        elif said is not None:
            yield Edit(Span(name.source, name.end, name.end), f" {said.text}")


def _tagged(program: Program, tag: str, line: Statement) -> Span:
    """Where the line with a tag stands."""
    tags: dict[str, Span] = {}
    for run in program.runs:
        for each in run.body:
            span = span_of(each.origin)
            if each.tag is not None and span is not None:
                tags.setdefault(each.tag.text, span)
    if tag not in tags:
        where = span_of(line.tag.origin) if line.tag is not None else span_of(line.origin)
        raise Impossible(f"nothing has the tag {tag}", where, suggestion(tag, tags))
    return tags[tag]


def _opened(program: Program, rule: str) -> list[Statement]:
    if rule == "run":
        return list(program.runs)
    return [each for room in program.rooms for each in room.body if each.rule == rule]


def _same_measure(program: Program, here: Span, there: Span) -> None:
    """Bare numbers of a line keep their meaning only in a text of the same measure."""
    said, wanted = (program.system_of(each, System.INCHES) for each in (here, there))
    if said is not wanted:
        raise Impossible(
            f"{here.source.label} and {there.source.label} measure in different units",
            here,
            f"write the offer in {there.source.label}",
        )
