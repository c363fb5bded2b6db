"""Findings about words: which statements and clauses may stand where."""

from collections.abc import Mapping

from casewright.compiler.catalogue.rule import Around, Rule

RULES: Mapping[str, Rule] = {
    "unknown-word": Rule(
        doc="A line begins with a word that nothing here is called.",
        mend="See how it is spelt.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard share
          spaec 3
        }
        """,
        good={"spaec 3": "space 3"},
    ),
    "unknown-clause": Rule(
        doc="A word is no clause of the line it stands on.",
        mend="See which clauses there are: `casewright explain` shows a thing as it is written.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north form left {
          S1: cupboard share
        }
        """,
        good={"north form": "north from"},
    ),
    "value-missing": Rule(
        doc="A word wants a value and has none.",
        mend="Say it after the word.",
        bad="""
        room galley {
          wall north
        }
        """,
        good={"wall north": "wall north length 158 1/4"},
    ),
    "said-twice": Rule(
        doc="Something that is said once is said twice.",
        mend="Keep one of the two.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left from right {
          S1: cupboard share
        }
        """,
        good={"left from right": "left"},
    ),
    "tag-out-of-place": Rule(
        doc="Something is tagged that doesn't stand in a run.",
        mend="Take the tag out.",
        around=Around.KITCHEN,
        bad="""
        S1: cupboard 20
        """,
        good="""
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
    ),
    "block-out-of-place": Rule(
        doc="A block stands behind a word that takes none.",
        mend="Put what is in the block on the line, or take the braces out.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front
          step panel { note face down }
        }
        """,
        good={"{ note face down }": '"face down"'},
    ),
    "equals-out-of-place": Rule(
        doc=(
            "An equals sign stands where a value follows its word after a blank, or where there is "
            "nothing to set."
        ),
        mend="Leave the sign out.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard = 60
        }
        """,
        good={"S1: cupboard = 60": "S1: cupboard 60"},
    ),
}
