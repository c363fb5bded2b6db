"""A word out of the few that a clause may be is a finding with all of them, wherever it stands."""

from collections.abc import Iterator

import pytest

from casewright.compiler.words.schema import SCHEMA
from casewright.lang.findings import Finding
from casewright.lang.parser import parse
from casewright.lang.schema import ClauseRule, HeadRule, schema_of
from casewright.lang.shape import shape
from casewright.lang.source import Source

ANYWHERE = schema_of(
    "anything",
    HeadRule("anything", "a text of any statements", body=tuple(SCHEMA.heads)),
    *SCHEMA.heads.values(),
)
"""The schema, with every statement allowed at the top of a text."""


def chosen(
    clauses: tuple[ClauseRule, ...], before: tuple[str, ...]
) -> Iterator[tuple[tuple[str, ...], ClauseRule]]:
    for clause in clauses:
        words = (*before, clause.word)
        if clause.choices:
            yield words, clause
        yield from chosen(clause.clauses, words)


ENTRIES = {
    f"{head.name} {' '.join(words)}": (head, words, clause)
    for head in SCHEMA.heads.values()
    for words, clause in chosen(head.clauses, ())
}


def found(head: HeadRule, words: tuple[str, ...], word: str) -> tuple[Finding, ...]:
    tree, unread = parse(Source("page.case", f"{head.name} {' '.join(words)} {word}\n"))
    assert unread == ()
    _, findings = shape(tree, ANYWHERE)
    return tuple(each for each in findings if each.slug == "unknown-choice")


@pytest.mark.parametrize("entry", ENTRIES)
def test_a_word_out_of_the_list_is_blamed_and_one_in_it_is_not(entry: str) -> None:
    head, words, clause = ENTRIES[entry]
    assert [found(head, words, choice) for choice in clause.choices] == [()] * len(clause.choices)
    wrong = found(head, words, "nosuchword")
    if clause.or_other:
        assert wrong == ()
        return
    (finding,) = wrong
    assert finding.span is not None
    assert finding.span.text == "nosuchword"
    assert all(choice in finding.help for choice in clause.choices)


def test_the_schema_has_many_such_clauses_and_few_that_take_more() -> None:
    assert len(ENTRIES) >= 20
    assert [entry for entry, (_, _, clause) in ENTRIES.items() if clause.or_other] == [
        "measure in",
        "openings sized_by",
        "price per",
    ]
