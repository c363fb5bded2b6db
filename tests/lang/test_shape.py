"""Lines sorted into statements by a schema: what is a value, a clause, an option, or neither."""

import pytest

from casewright.lang.faults import MOST_FAULTS
from casewright.lang.findings import Finding
from casewright.lang.parser import parse
from casewright.lang.schema import ClauseRule, HeadRule, Takes, schema_of
from casewright.lang.shape import Statement, shape
from casewright.lang.source import Source

SCHEMA = schema_of(
    "file",
    HeadRule("file", "a whole text", body=("plank", "crate")),
    HeadRule(
        "plank",
        "a plank",
        "a name",
        1,
        1,
        clauses=(
            ClauseRule("long", Takes.ONE, "a length", "its length"),
            ClauseRule(
                "side",
                Takes.ONE,
                "left or right",
                "where it lies",
                (ClauseRule("by", Takes.ONE, "a length", "how far in"),),
                choices=("left", "right"),
            ),
            ClauseRule("pieces", Takes.ONE, "a count", "how many", postfix=True),
        ),
    ),
    HeadRule("crate", "a crate", "a name", 1, 1, options=True, block=True, body=("plank",)),
)


def shaped(text: str) -> tuple[tuple[Statement, ...], tuple[Finding, ...]]:
    tree, findings = parse(Source("text.case", text))
    assert findings == ()
    return shape(tree, SCHEMA)


def test_a_line_is_a_name_clauses_and_clauses_of_those() -> None:
    (plank,), findings = shaped("plank top  long 48  side left by 3\n")
    assert findings == ()
    assert plank.name == "top"
    assert [clause.word for clause in plank.clauses] == ["long", "side"]
    side = plank.clause("side")
    assert side is not None
    assert side.clause("by") is not None
    assert plank.clause("by") is None


def test_a_word_that_comes_after_its_value_takes_the_one_before_it() -> None:
    (crate,), findings = shaped("crate low {\n  plank top\n  lid 4\n}\n")
    assert findings == ()
    assert [line.name for line in crate.body] == ["top"]
    option = crate.option("lid")
    assert option is not None
    assert len(option.values) == 1


@pytest.mark.parametrize(
    ("text", "slug", "headline"),
    [
        ("plonk top\n", "unknown-word", "no statement is called plonk at the top of a file"),
        ("plank\n", "value-missing", "plank wants a name"),
        ("plank long\n", "value-missing", "plank wants a name"),
        ("plank top long\n", "value-missing", "long wants a length"),
        ("plank top wide 3\n", "unknown-clause", "wide says nothing here"),
        ("plank top long 3 long 4\n", "said-twice", "long is said twice"),
        ("plank top side middle\n", "unknown-choice", "side is never middle"),
        ("plank top = 3\n", "equals-out-of-place", "plank takes no ="),
        ("plank top {\n}\n", "block-out-of-place", "plank takes no block"),
        ("S1: plank top\n", "tag-out-of-place", None),
        ("crate low {\n  lid = 4\n}\n", "equals-out-of-place", "lid is set without ="),
    ],
)
def test_what_no_rule_takes_is_said_once(text: str, slug: str, headline: str | None) -> None:
    _, findings = shaped(text)
    assert [finding.slug for finding in findings] == [slug]
    assert headline is None or findings[0].headline == headline


def test_after_so_many_faults_the_rest_is_left_alone() -> None:
    _, findings = shaped("plonk top\n" * (MOST_FAULTS + 50))
    assert len(findings) == MOST_FAULTS + 1
    assert findings[-1].slug == "too-many-faults"
