"""Findings about what is asked of the planner: sheets, saw and stock."""

from collections.abc import Mapping

from casewright.compiler.catalogue.rule import Around, Rule
from casewright.lang.findings import Severity

RULES: Mapping[str, Rule] = {
    "no-saw": Rule(
        doc="No saw is declared, so nothing says what a cut takes and no sheet is planned.",
        mend="Declare a saw in shop.case, with its kerf.",
        severity=Severity.ADVICE,
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
        good="""
        saw table_saw { kerf 1/8 }
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
    ),
    "no-stock": Rule(
        doc="A sheet material says no size it is bought in, so its sheets are not planned.",
        mend="Add `stock` to it: a width, by, and a length.",
        severity=Severity.ADVICE,
        around=Around.KITCHEN,
        bad="""
        saw table_saw { kerf 1/8 }
        sheet raw_board { thick 3/4 }
        run sink_wall on north from left {
          S1: cupboard share  wood raw_board
        }
        """,
        good="""
        saw table_saw { kerf 1/8 }
        sheet raw_board { thick 3/4  stock 49 by 97 }
        run sink_wall on north from left {
          S1: cupboard share  wood raw_board
        }
        """,
    ),
}
