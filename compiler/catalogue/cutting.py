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
    "piece-larger-than-stock": Rule(
        doc="A part, or the blank it is ripped from, is larger than what any sheet of its material "
        "leaves after trimming.",
        mend="Make it smaller, join it from two, or give the material a larger stock.",
        around=Around.KITCHEN,
        bad="""
        saw table_saw { kerf 1/8 }
        sheet raw_board { thick 3/4  stock 20 by 20 }
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
    "piece-fits-only-turned": Rule(
        doc="A part fits its sheet only across the grain, and its grain must run along it.",
        mend="Turn its grain, make it smaller, or give the material a larger stock.",
        around=Around.KITCHEN,
        bad="""
        saw table_saw { kerf 1/8 }
        sheet raw_board { thick 3/4  stock 48 by 26  grain yes }
        run sink_wall on north from left {
          S1: cupboard 24  wood raw_board
          space share
        }
        """,
        good="""
        saw table_saw { kerf 1/8 }
        sheet raw_board { thick 3/4  stock 26 by 48  grain yes }
        run sink_wall on north from left {
          S1: cupboard 24  wood raw_board
          space share
        }
        """,
    ),
    "trim-eats-stock": Rule(
        doc="The saw's trim on both edges is as much as the sheet.",
        mend="Say the trim of one edge, and the stock in width by length.",
        around=Around.KITCHEN,
        bad="""
        saw table_saw { kerf 1/8  trim 24 }
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
        good="""
        saw table_saw { kerf 1/8  trim 1/4 }
        run sink_wall on north from left {
          S1: cupboard share
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
