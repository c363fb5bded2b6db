"""The words of a shop: its saw and how it likes to cut."""

from casewright.compiler.words.clauses import many, one
from casewright.lang.schema import ClauseRule, HeadRule, Takes

SHOP = (
    HeadRule(
        "saw",
        "a saw, and how the shop likes to cut on it",
        "a name",
        1,
        1,
        clauses=(
            one("kerf", "a length", "what a cut takes"),
            one(
                "trim",
                "a length",
                "taken off each factory edge, its kerf included; 0 keeps the edge",
                one("fence", "a length", "off the edge against the fence, where it is another"),
                one("far", "a length", "off the far edge"),
                one("near", "a length", "off the near end"),
                one("end", "a length", "off the far end"),
            ),
            one("least", "a length", "the narrowest strip ripped against the fence"),
            one("reach", "a length", "the widest board between blade and fence"),
            one("crosscuts", "a length", "the widest board it crosscuts"),
            one("stack", "a length", "how high sheets may lie on one another under the blade"),
            ClauseRule(
                "first",
                Takes.ONE,
                "rip, crosscut or either",
                "the first cut of a sheet",
                choices=("rip", "crosscut", "either"),
            ),
            one(
                "keeps",
                "a width",
                "offcuts from this size on are kept",
                one("by", "a length", "the length, along the grain"),
            ),
            one("called", "words in quotes", "how papers name it"),
        ),
        block=True,
    ),
    HeadRule(
        "lot",
        "the sheets of a material that are in the shop, as measured; those of a second lot are a "
        "sheet of their own, from this one",
        "a sheet",
        1,
        1,
        clauses=(
            one("thick", "a length", "what a caliper reads; every part and groove follows it"),
            one("date", "a date", "when it was measured"),
        ),
        block=True,
    ),
    HeadRule(
        "sawn",
        "what is sawn already, and isn't planned or bought again",
        "addresses",
        1,
        64,
        clauses=(
            one("of", "a sheet", "only what is cut from this"),
            many("but", "addresses", "all but these: they were spoilt"),
        ),
    ),
    HeadRule(
        "offcut",
        "a kept piece of a sheet",
        "a name",
        1,
        1,
        clauses=(
            one("of", "a sheet", "what it is of"),
            one(
                "size",
                "a width",
                "width by length, the length along the grain",
                one("by", "a length", "the length"),
            ),
            one("pieces", "a count", "how many there are"),
            one("place", "words in quotes", "where it stands"),
            one("date", "a date", "since when it is kept"),
        ),
        block=True,
    ),
)
