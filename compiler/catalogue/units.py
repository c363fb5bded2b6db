"""Findings about a unit as it is worked out: its options and its openings."""

from collections.abc import Mapping

from casewright.compiler.catalogue.rule import Around, Rule
from casewright.lang.findings import Severity

RULES: Mapping[str, Rule] = {
    "unknown-option": Rule(
        doc="Neither the unit nor its construction has this option.",
        mend="`casewright list options` names those of the library.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard share  dept 3
        }
        """,
        good={"share  dept": "share  depth"},
    ),
    "option-unsaid": Rule(
        doc="An option has no default, and nothing that holds the thing chooses it.",
        mend="Say it on the unit or on its construction.",
        around=Around.BENCH,
        bad="""
        construction shop {
          option reach length
          part panel of board  deep from front  up reach from bottom
          step panel
        }
        """,
        good={"reach length": "reach length = 12"},
    ),
    "unknown-kind": Rule(
        doc="An option says a kind that there isn't.",
        mend="Say length, count, choice, sheet, lumber or another kind that the report names.",
        around=Around.BENCH,
        bad="""
        construction shop {
          option reach lenght = 5
          part panel of board  deep from front  up reach from bottom
          step panel
        }
        """,
        good={"reach lenght": "reach length"},
    ),
    "unknown-filling": Rule(
        doc="No filling of this name is declared.",
        mend="`casewright list fillings` names those of the library.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard 60 {
            stack {
              drawre share
            }
          }
        }
        """,
        good={"drawre share": "open share"},
    ),
    "unknown-set": Rule(
        doc="A `for each` names a set that there isn't.",
        mend="Say opening, level, post, a filling, or a word `of` a count.",
        around=Around.BENCH,
        bad="""
        construction shop {
          for each shelf { part panel of board  deep from front }
          step panel
        }
        """,
        good={"each shelf": "each n of 1"},
    ),
    "nothing-in-it": Rule(
        doc="A stack or row holds no opening.",
        mend="Say what is in it.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard 60 {
            stack { }
          }
        }
        """,
        good={"stack { }": "stack { open share }"},
    ),
    "too-many-turns": Rule(
        doc=(
            "The `for each` blocks of a unit go round more often than can be right, as blocks do "
            "that count within one another."
        ),
        mend="Let the inner block count less, or leave it out.",
        around=Around.BENCH,
        bad="""
        construction shop {
          for each n of 200 {
            for each m of 200 { step "sand" }
          }
          part panel of board  deep from front
          step panel
        }
        """,
        good="""
        construction shop {
          for each n of 4 { step "sand" }
          part panel of board  deep from front
          step panel
        }
        """,
    ),
    "holds-itself": Rule(
        doc="A pattern places an assembly of itself, at once or through another pattern.",
        mend="Place another pattern in it.",
        around=Around.BENCH,
        bad="""
        pattern rack {
          assembly inner of rack
        }
        construction shop {
          assembly outer of rack
          part panel of board  deep from front
          step panel
        }
        """,
        good="""
        pattern rack {
          part panel of board  deep from front
          step panel
        }
        construction shop {
          assembly outer of rack
          step outer
        }
        """,
    ),
    "too-many-openings": Rule(
        doc="A unit has more openings than can be right.",
        mend="See whether a `for each` counts what was meant.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard 60 {
            stack {
              for each n of 200 {
                for each m of 200 { open share }
              }
            }
          }
        }
        """,
        good="""
        run sink_wall on north from left {
          S1: cupboard 60 {
            stack {
              for each n of 20 { open share }
            }
          }
        }
        """,
    ),
    "openings-dont-close": Rule(
        doc=(
            "The sizes of the openings and of what stands between them don't add up to what there "
            "is. The report shows the sum."
        ),
        mend="Give one of them `share` in place of its size.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard 60 {
            stack {
              open 20
              open 10
            }
          }
        }
        """,
        good={"open 10": "open share"},
    ),
    "nothing-left": Rule(
        doc="The fixed sizes leave nothing for the shares. The report shows the sum.",
        mend="Make one of them smaller, or the whole larger.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard 60 {
            stack {
              open 30
              open share
            }
          }
        }
        """,
        good={"open 30": "open 20"},
    ),
    "option-unread": Rule(
        doc="An option is chosen that nothing in the unit reads, or only another way to build.",
        mend="Leave it out, unless the unit is to be built otherwise later.",
        severity=Severity.ADVICE,
        around=Around.KITCHEN,
        bad="""
        construction other from shop {
          option shown choice yes no = no
          when shown is yes { step "sand the sides, which are seen" }
        }
        run sink_wall on north from left {
          S1: cupboard share  shown yes
        }
        """,
        good={
            "run sink_wall on north from left {": "run sink_wall on north from left built other {"
        },
    ),
}
