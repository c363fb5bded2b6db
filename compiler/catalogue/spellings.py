"""Findings about words, figures, dates and tags that are spelt in another way."""

from collections.abc import Mapping

from casewright.compiler.catalogue.rule import Around, Rule

RULES: Mapping[str, Rule] = {
    "character-misplaced": Rule(
        doc=(
            "A character is no part of the language, or can't stand where it stands. Quotes, "
            "slashes and minus signs that an editor has made curly or long are the usual ones."
        ),
        mend="Write the plain one that the report shows.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard 20, S2: cupboard 40
        }
        """,
        good="""
        run sink_wall on north from left {
          S1: cupboard 20
          S2: cupboard 40
        }
        """,
    ),
    "date-misspelt": Rule(
        doc="A date is written in another order than year-month-day (ISO 8601).",
        mend="Write it as 2026-11-25.",
        bad="""
        job Boathouse {
          date 11/25/2026
        }
        """,
        good={"11/25/2026": "2026-11-25"},
    ),
    "no-such-date": Rule(
        doc="No such day is in the calendar.",
        mend="Write the day that was meant; a sum has blanks around its minus.",
        bad="""
        job Boathouse {
          date 2026-02-30
        }
        """,
        good={"2026-02-30": "2026-02-28"},
    ),
    "name-misspelt": Rule(
        doc="Names are written in small letters, figures and _, and begin with a letter.",
        mend="Write it small.",
        around=Around.KITCHEN,
        bad="""
        run Sink_wall on north from left {
          S1: cupboard share
        }
        """,
        good={"Sink_wall": "sink_wall"},
    ),
    "negative-size": Rule(
        doc="A size is never negative: a minus only takes away.",
        mend="In a sum, put a blank on both sides of the minus.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard -20
        }
        """,
        good={"cupboard -20": "cupboard (80 - 20)"},
    ),
    "signed-size": Rule(
        doc="A size has no sign.",
        mend="Leave the plus out; in a sum, put a blank on both sides of it.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard +60
        }
        """,
        good={"cupboard +60": "cupboard 60"},
    ),
    "number-misspelt": Rule(
        doc="A measure is written in a way that can't be read, or that could be read in two ways.",
        mend='The report shows how it is written: 27, 5 1/2, 3/4", 7\' 6 1/2", 686mm.',
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard 39½
          S2: cupboard share
        }
        """,
        good={"cupboard 39½": "cupboard 39 1/2"},
    ),
    "number-too-long": Rule(
        doc="A number has more digits than any measure needs.",
        mend="Write it shorter.",
        no_example="It takes a number of more than 5,000 digits.",
    ),
    "tag-misspelt": Rule(
        doc="A tag is one capital letter and a number, and a small letter for one put in later.",
        mend="Write it as S1 or S1a.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          sink: cupboard share
        }
        """,
        good={"sink: cupboard": "S1: cupboard"},
    ),
    "tag-misplaced": Rule(
        doc="A tag stands before a word that takes none.",
        mend="Tags are for what stands in a run.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: note by the window
        }
        """,
        good="""
        run sink_wall on north from left {
          S1: cupboard share
          note by the window
        }
        """,
    ),
}
