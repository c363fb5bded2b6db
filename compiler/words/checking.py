"""The words of checks: allowances, rule packs and their limits."""

from casewright.compiler.words.clauses import flag, one
from casewright.lang.schema import ClauseRule, HeadRule, Takes

_FIGURE = "a figure of the quantity's own kind"

CHECKING = (
    HeadRule(
        "allowances",
        "figures that checks reckon with: loads, limits, reserves",
        "a name",
        1,
        1,
        clauses=(
            one("from", "allowances", "are those, changed"),
            one("called", "words in quotes", "how papers name them"),
        ),
        options=True,
        block=True,
    ),
    HeadRule(
        "rule_pack",
        "limits from one published source, for jobs that name it",
        "a name",
        1,
        1,
        clauses=(
            one("from", "a rule pack", "is that one, changed"),
            one("title", "words in quotes", "the title of the source"),
            one("published", "words in quotes", "its edition or year"),
        ),
        block=True,
        body=("limit", "without", "note"),
    ),
    HeadRule(
        "limit",
        "what a measured quantity may be",
        "a quantity",
        1,
        1,
        clauses=(
            one("least", _FIGURE, "no less than this"),
            one("most", _FIGURE, "no more than this"),
            one("section", "words in quotes", "where the source says it"),
            ClauseRule(
                "basis",
                Takes.ONE,
                "recommended, code, access or practice",
                "what the limit rests on",
                choices=("recommended", "code", "access", "practice"),
            ),
            ClauseRule(
                "reported",
                Takes.ONE,
                "error, warning or advice",
                "how a miss is reported",
                choices=("error", "warning", "advice"),
            ),
            one("says", "words in quotes", "the limit in plain words"),
            flag("from_memory", "the source was not at hand when this was written"),
        ),
        block=True,
    ),
)
