"""What a library declares to buy: boards, wood, bands, hardware, and what fastens."""

from casewright.compiler.words.clauses import GIVEN, flag, many, one
from casewright.lang.schema import ClauseRule, HeadRule, Takes

GOODS = (
    HeadRule(
        "sheet",
        "a board or ply, bought in sheets; of another lot, or another size, it is from one: "
        "sheet second_lot from ply { thick 0.71 }",
        "a name",
        1,
        1,
        clauses=(one("from", "a sheet", "is that one, changed; priced like it too"), *GIVEN),
        options=True,
        block=True,
    ),
    HeadRule("lumber", "solid wood", "a name", 1, 1, clauses=GIVEN, options=True, block=True),
    HeadRule(
        "band", "what covers an edge", "a name", 1, 1, clauses=GIVEN, options=True, block=True
    ),
    HeadRule(
        "slide",
        "a drawer slide",
        "a name",
        1,
        1,
        clauses=(
            many("lengths", "lengths", "the lengths it is made in"),
            one("carries", "a weight", "what a pair carries"),
            one("called", "words in quotes", "how papers name it"),
        ),
        options=True,
        block=True,
    ),
    HeadRule(
        "hinge",
        "a hinge",
        "a name",
        1,
        1,
        clauses=(one("called", "words in quotes", "how papers name it"),),
        options=True,
        block=True,
    ),
    HeadRule(
        "fitting",
        "any other bought thing: a pull, a shelf pin, a leg",
        "a name",
        1,
        1,
        clauses=(one("called", "words in quotes", "how papers name it"),),
        options=True,
        block=True,
    ),
    HeadRule(
        "fixing",
        "how a joint is fastened",
        "a name",
        1,
        1,
        clauses=(
            one("locate", "a fastener", "what holds it in place while it is fastened"),
            one(
                "hold",
                "a fastener",
                "what holds it for good",
                one("every", "a length", "how far apart at most"),
                one("ends", "a length", "how far from each end"),
                flag("bored", "one stands in each hole that is bored at the joint"),
            ),
            one("needs", "a length", "room to drive it"),
            ClauseRule(
                "drive",
                Takes.ONE,
                "through or inside",
                "through the second part, or from the face of the first",
                choices=("through", "inside"),
            ),
            one("called", "words in quotes", "how papers name it"),
        ),
        block=True,
    ),
    HeadRule(
        "fastener",
        "a nail, staple, screw or dowel",
        "a name",
        1,
        1,
        clauses=(one("called", "words in quotes", "how papers name it"),),
        options=True,
        block=True,
    ),
)
