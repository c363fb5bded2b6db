"""Findings about units that stand in a corner."""

from collections.abc import Mapping

from casewright.compiler.catalogue.neighbours import CORNER
from casewright.compiler.catalogue.rule import Around, Rule
from casewright.lang.findings import Severity

RULES: Mapping[str, Rule] = {
    "corner-unit-in-no-corner": Rule(
        doc="A unit with a `return` stands along two walls: it is the first or the last thing of "
        "a run that reaches into the corner of its wall and the next.",
        mend="Move it to the end of its run at the corner; the run around the corner begins "
        "`after` it.",
        bad=CORNER
        + """
        run sink_wall on north from left {
          S1: cupboard 30 return 30
          S2: cupboard share
        }
        """,
        good=CORNER
        + """
        run sink_wall on north from left {
          S1: cupboard share
          S2: cupboard 30 return 30
        }
        run range_wall on east after S2 {
          R1: cupboard share
        }
        """,
    ),
    "corner-unit-out-of-square": Rule(
        doc="A corner unit is square, and the corner it stands in isn't: one of its two backs "
        "leaves its wall.",
        mend="Scribe the counter to the wall, and pack where the unit is screwed to it.",
        severity=Severity.ADVICE,
        source="arithmetic: its reach along the wall x cotangent of the corner's angle",
        bad=CORNER.rstrip().removesuffix("}").rstrip()
        + """
          corner north east 88deg
        }
        run sink_wall on north from left {
          S1: cupboard share
          S2: cupboard 30 return 30
        }
        """,
        good=CORNER
        + """
        run sink_wall on north from left {
          S1: cupboard share
          S2: cupboard 30 return 30
        }
        """,
    ),
    "cut-corner-off": Rule(
        doc="A cut corner lies at no corner of its part in plan, or takes all of it: it begins at "
        "the two edges it names, goes through the part's whole height and leaves some of an edge.",
        mend="Let its places across and deep begin at the edges it names, and leave up out.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part shelf of board  up from bottom {
            cut corner left front  across 30 from left  deep 10 from front
          }
          step shelf
        }
        """,
        good={"across 30": "across 10"},
    ),
    "place-across-turn": Rule(
        doc="A place of one space is named in another that is turned askew to it, as in a mouth "
        "that looks across a corner: only heights are the same in both.",
        mend="Name a length, or a thing of that space; bore what stands in the mouth itself.",
        around=Around.BENCH,
        bad="""
        construction shop {
          let middle = left + 8
          mouth door_side  faces left_front  across 12 from left  deep 12 from front {
            part post of board  up 20 from bottom  across from middle  deep 2 from front
          }
          step post
        }
        """,
        good="""
        construction shop {
          mouth door_side  faces left_front  across 12 from left  deep 12 from front {
            part post of board  up 20 from bottom  across from left + 8  deep 2 from front
          }
          step post
        }
        """,
    ),
}
