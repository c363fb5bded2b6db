"""Findings about units that stand in a corner."""

from collections.abc import Mapping

from casewright.compiler.catalogue.rule import Rule
from casewright.compiler.catalogue.runs import CORNER
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
}
