"""Findings about lines that can't be read: braces, quotes, what a merge left."""

from collections.abc import Mapping

from casewright.compiler.catalogue.rule import Around, Rule

RULES: Mapping[str, Rule] = {
    "merge-left-two-versions": Rule(
        doc=(
            "Two versions of some lines stand in the text, between the marks that a merge leaves. "
            "Both values are shown."
        ),
        mend="Keep one of the two and take the marks out.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
        <<<<<<< ours
          S1: cupboard 60
        =======
          S1: cupboard share
        >>>>>>> theirs
        }
        """,
        good="""
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
    ),
    "merge-marker-left": Rule(
        doc="A mark that a merge leaves is still in the text.",
        mend="Keep one of the two versions and take the marks out.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard share
        >>>>>>> theirs
        }
        """,
        good="""
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
    ),
    "colon-missing": Rule(
        doc="A tag stands at the beginning of a line without its colon.",
        mend="Put a colon right after the tag.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1 cupboard share
        }
        """,
        good={"S1 cupboard": "S1: cupboard"},
    ),
    "brace-left-open": Rule(
        doc=(
            "A block is never closed. The report names the line from which the columns no longer "
            "fit, where there is one."
        ),
        mend="Add the closing brace.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard share
        """,
        good="""
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
    ),
    "brace-closes-nothing": Rule(
        doc="A closing brace has no opening one.",
        mend="Take it out, or see whether an opening brace is missing above.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard share
        }
        }
        """,
        good="""
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
    ),
    "brace-ends-its-line": Rule(
        doc="After a closing brace stands nothing more on its line.",
        mend="Begin a new line.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left { S1: cupboard share } note by the window
        """,
        good="""
        run sink_wall on north from left { S1: cupboard share }
        note by the window
        """,
    ),
    "brace-missing": Rule(
        doc="Lines that stand further in end in a }, and no { opens their block.",
        mend="End the line above them with a blank and {.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left
          S1: cupboard share
        }
        """,
        good={"from left": "from left {"},
    ),
    "brace-opens-nothing": Rule(
        doc="An opening brace stands where no block can begin.",
        mend="Put it at the end of the line it belongs to.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left
        {
          S1: cupboard share
        }
        """,
        good="""
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
    ),
    "if-without-else": Rule(
        doc="A value that depends on something says what it is otherwise.",
        mend="Write: a if b else c.",
        around=Around.BENCH,
        bad="""
        construction shop {
          option reach length = 5 if wide
          part panel of board  deep from front
          step panel
        }
        """,
        good="""
        construction shop {
          option wide  choice yes no = yes
          option reach length = 5 if wide is yes else 3
          part panel of board  deep from front
          step panel
        }
        """,
    ),
    "line-ends-early": Rule(
        doc="Something is missing at the end of the line.",
        mend="Say what follows the last word or sign.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front +
          step panel
        }
        """,
        good={"front +": "front + 1"},
    ),
    "line-unreadable": Rule(
        doc="The line can't be read from the word named on.",
        mend="See how the library writes such lines: `casewright explain` shows them.",
        around=Around.BENCH,
        bad="""
        construction shop {
          option wide choice yes no = yes
          when wide is not no { part panel of board  deep from front }
          step panel
        }
        """,
        good={"wide is not": "not wide is"},
    ),
    "line-without-word": Rule(
        doc="A line begins with a word that says what it is about.",
        mend="Begin it with one.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard share
            + 20
        }
        """,
        good={"cupboard share": "cupboard (40", "+ 20": "+ 20)"},
    ),
    "more-than-one-value": Rule(
        doc="After an equals sign stands one value.",
        mend="Put clauses into the block, or before the equals sign.",
        around=Around.BENCH,
        bad="""
        construction shop {
          option reach length = 5 6
          part panel of board  deep from front
          step panel
        }
        """,
        good={"5 6": "5"},
    ),
    "parenthesis-left-open": Rule(
        doc="A parenthesis is never closed. Only inside one does a line go on to the next.",
        mend="Add the closing one.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard (20 + 40
        }
        """,
        good={"+ 40": "+ 40)"},
    ),
    "parenthesis-closes-nothing": Rule(
        doc="A closing parenthesis has no opening one.",
        mend="Take it out.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard 20 + 40)
        }
        """,
        good={"cupboard 20": "cupboard (20"},
    ),
    "quote-left-open": Rule(
        doc="A quote isn't closed on its line.",
        mend="Close it; an inch mark stands right after its figure.",
        bad="""
        sheet ply { thick 3/4  called "birch ply }
        """,
        good="""
        sheet ply { thick 3/4  called "birch ply" }
        """,
    ),
    "text-holds-brace": Rule(
        doc="In a quoted text, braces stand around a value only.",
        mend="Take the brace out.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front
          require panel.up > 6 "only } is left"
          step panel
        }
        """,
        good={'"only }': '"only {panel.up}'},
    ),
    "nested-too-deep": Rule(
        doc="Blocks or values stand in one another too deep.",
        mend="Give parts of it names with `let`, or split the block.",
        bad="""
        option reach length = ((((((((((((((((((((((((((((((((((((
        (((((((((((((((((((((((((((((((((((5)))))))))))))))))))))))))))))))))))
        ))))))))))))))))))))))))))))))))))))
        """,
        good="""
        note one pair is enough
        """,
    ),
    "too-many-faults": Rule(
        doc="So many lines can't be read that the rest of the text was left alone.",
        mend="Mend the first ones and check again.",
        no_example="It takes more than 500 bad lines.",
    ),
    "format-unproved": Rule(
        doc=(
            "The canonical form of the text could not be proved to mean the same, so the text was "
            "left as it is. The fault is the program's own."
        ),
        mend="Report it with the text.",
        no_example="It is a fault of the program's own.",
    ),
}
