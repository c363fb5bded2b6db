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
    "stock-too-large": Rule(
        doc="A sheet of stock is larger than any that is made, so a figure must be wrong.",
        mend="Say the stock in width by length.",
        around=Around.KITCHEN,
        bad="""
        saw table_saw { kerf 1/8 }
        sheet raw_board { thick 3/4  stock 49 by 970 }
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
    "not-planned": Rule(
        doc="A sheet material can't be planned as it is asked for; the report says why. The papers "
        "of the other materials are made all the same.",
        mend="Mend what the report names.",
    ),
    "plan-unsound": Rule(
        doc="The planner's plan did not pass the independent check, so it is not shown. This is a "
        "fault of the program's own.",
        mend="Report it with the kitchen's text.",
    ),
    "hard-plan-of-other-pieces": Rule(
        doc="The plan that is kept beside the kitchen is for other pieces, stock or another saw: "
        "the kitchen has changed since. A new plan is made with the usual effort.",
        mend="Build with --plan hard to search long again.",
        severity=Severity.ADVICE,
    ),
    "hard-plan-unsound": Rule(
        doc="The plan that is kept beside the kitchen did not pass the independent check. A new "
        "plan is made with the usual effort.",
        mend="Build with --plan hard to search long again.",
        severity=Severity.WARNING,
    ),
}
