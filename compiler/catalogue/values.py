"""Findings about what words and figures are worth."""

from collections.abc import Mapping

from casewright.compiler.catalogue.rule import Around, Rule

RULES: Mapping[str, Rule] = {
    "unknown-name": Rule(
        doc="Nothing here has this name.",
        mend="See how it is spelt, and in which block it was made.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of bord  deep from front
          step panel
        }
        """,
        good={"of bord": "of board"},
    ),
    "wrong-kind": Rule(
        doc="A value of another kind is wanted here.",
        mend="Say one of the kind that the report names.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front  up 5" * 3" from bottom
          step panel
        }
        """,
        good={'* 3"': "* 3"},
    ),
    "bare-factors": Rule(
        doc=(
            "Where a length is wanted, one factor of a product is a length and the other a count. "
            "Neither says which it is."
        ),
        mend='Give one of them its unit: 2 * 3".',
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front  up 5 * 3 from bottom
          step panel
        }
        """,
        good={"* 3": '* 3"'},
    ),
    "kinds-dont-mix": Rule(
        doc=(
            "Lengths, areas, counts, angles, weights, money and time don't mix in one sum, product "
            "or comparison."
        ),
        mend="Compare like with like; a length times a count is a length.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front  up 5" + 2kg from bottom
          step panel
        }
        """,
        good={"+ 2kg": "+ 2mm"},
    ),
    "divided-by-nothing": Rule(
        doc="A division by nothing has no value.",
        mend="Change what it is divided by.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front  up 20" / 0 from bottom
          step panel
        }
        """,
        good={"/ 0": "/ 2"},
    ),
    "place-plus-place": Rule(
        doc="Two places are added; only their difference means anything.",
        mend="Add a length to a place.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front  across left + right .. right
          step panel
        }
        """,
        good={"+ right": "+ 3"},
    ),
    "length-not-place": Rule(
        doc="A place is wanted, and a length doesn't say from where.",
        mend="Add the edge or face it is measured from: left + 3.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front  across 3 .. right
          step panel
        }
        """,
        good={"across 3 ..": "across left + 3 .."},
    ),
    "which-face": Rule(
        doc="A place is wanted, and a thing has two faces on each axis.",
        mend="Say which: left_side.left.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front
          let middle = panel + 3
          part shelf of board  up from bottom  deep panel .. middle
          join shelf to panel with screwed
          step panel shelf
        }
        """,
        good={"= panel": "= panel.back"},
    ),
    "which-one": Rule(
        doc="There are several of this name.",
        mend="Reach one through the opening, level or post it was made for.",
        around=Around.BENCH,
        bad="""
        construction shop {
          for each n of 2 {
            part shelf of board  up from bottom + n * 4"  deep front .. panel
          }
          part panel of board  deep to back  up bottom .. shelf
          join shelf to panel with screwed
          step panel shelf
        }
        """,
        good={"back  up bottom .. shelf": "back"},
    ),
    "not-there": Rule(
        doc="A thing that isn't made in this case is asked for.",
        mend="Say what else is meant: or else …",
        around=Around.BENCH,
        bad="""
        construction shop {
          option capped choice yes no = no
          when capped is yes { part cap of board  up to top  deep panel .. back }
          part panel of board  deep from front  up bottom .. cap
          step panel
        }
        """,
        good={".. cap": ".. (cap or else top)"},
    ),
    "none-fits": Rule(
        doc="None of the lengths it is made in fits.",
        mend="Make the unit deeper, or choose another that is made shorter.",
        around=Around.BENCH,
        bad="""
        slide long { lengths 28 32 }
        construction shop {
          part panel of board  deep from front  up long.lengths within 24" from bottom
          step panel
        }
        """,
        good={"slide long { lengths 28": "slide long { lengths 20 28"},
    ),
    "unknown-choice": Rule(
        doc="An option is never what is said here. The report names its choices.",
        mend="Say one of them.",
        around=Around.BENCH,
        bad="""
        construction shop {
          option capped choice yes no = perhaps
          when capped is yes { part panel of board  deep from front }
          step panel
        }
        """,
        good={"= perhaps": "= yes"},
    ),
    "needs-too-many": Rule(
        doc=(
            "A figure needs another, which needs another, and so on, further than the compiler "
            "follows."
        ),
        mend="Let some of them stand on fewer others.",
        no_example="It takes more than 250 figures in a row.",
    ),
    "needs-itself": Rule(
        doc=(
            "A figure can't be worked out, since it needs itself. The report shows the loop, line "
            "by line."
        ),
        mend="Say one of these without the others.",
        around=Around.BENCH,
        bad="""
        construction shop {
          option reach length = deeper
          option deeper length = reach + 1
          part panel of board  deep from front  up reach from bottom
          step panel
        }
        """,
        good={"= deeper": "= 5"},
    ),
}
