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
        doc="A sheet material says no size it is bought in, so its sheets are not planned. "
        "The papers of other materials are made; for this one they are partial.",
        mend="Add `stock` to it: a width, by, and a length.",
        around=Around.KITCHEN,
        bad="""
        saw table_saw { kerf 1/8 }
        sheet raw_board { thick 3/4 }
        run sink_wall on north from left {
          S1: cupboard share  wood raw_board
        }
        """,
        good={"thick 3/4": "thick 3/4  stock 49 by 97"},
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
        good={"by 970": "by 97"},
    ),
    "stock-short": Rule(
        doc="A sheet can be had in so many pieces only, and they don't hold all that is cut from "
        "it. Nothing is planned of it.",
        mend="Say more `pieces`, or leave that out where any number can be bought.",
        around=Around.KITCHEN,
        bad="""
        saw table_saw { kerf 1/8 }
        sheet raw_board { thick 3/4  stock 49 by 97 pieces 0 }
        run sink_wall on north from left {
          S1: cupboard share  wood raw_board
        }
        """,
        good={"pieces 0": "pieces 9"},
    ),
    "rip-too-wide": Rule(
        doc="A cut of the plan needs more room between blade and fence than the saw has, on either "
        "side of the cut; the factory edge is trimmed with the whole sheet against the fence.",
        why="A part may be small while the board it comes from is wide.",
        mend="Begin with a crosscut (`first crosscut`), or break the sheet down with another saw.",
        source="arithmetic: every pass of the plan against the saw's own reach",
        severity=Severity.WARNING,
        around=Around.KITCHEN,
        bad="""
        saw table_saw { kerf 1/8  trim 1/4  reach 30 }
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
        good={"reach 30": "reach 150"},
    ),
    "crosscut-too-wide": Rule(
        doc="A cut of the plan crosscuts a board wider than the saw can.",
        why="A part may be small while the board it comes from is wide.",
        mend="Crosscut it with a track saw, or let sheets begin with a rip (`first rip`).",
        source="arithmetic: every pass of the plan against the saw's own data",
        severity=Severity.WARNING,
        around=Around.KITCHEN,
        bad="""
        saw table_saw { kerf 1/8  trim 1/4  crosscuts 12 }
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
        good={"crosscuts 12": "crosscuts 150"},
    ),
    "sawn-unknown": Rule(
        doc="What is said to be sawn isn't a part of this kitchen that comes from a sheet.",
        mend="Write its address as the plan has it, as S1.left_side, or a tag for all of a unit.",
        around=Around.KITCHEN,
        bad="""
        saw table_saw { kerf 1/8 }
        run sink_wall on north from left {
          S1: cupboard share
        }
        sawn S1.left_sied
        """,
        good="""
        saw table_saw { kerf 1/8 }
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
    ),
    "sawn-already": Rule(
        doc="Some parts are sawn already, so plan, buying list and price are for the others. So a "
        "plan goes on after a spoilt sheet: list what came out well.",
        mend="Take the sawn lines out to plan all of it again.",
        severity=Severity.ADVICE,
        around=Around.KITCHEN,
        bad="""
        saw table_saw { kerf 1/8 }
        run sink_wall on north from left {
          S1: cupboard share
        }
        sawn S1 but S1.floor
        """,
        good="""
        saw table_saw { kerf 1/8 }
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
    ),
    "matched-parts-too-large": Rule(
        doc="Parts whose figure must run on are larger, together and with the cuts between them, "
        "than any sheet of their material; they are planned singly.",
        why="The figure breaks where a part comes from another sheet.",
        mend="Choose a larger sheet, make the unit smaller, or don't ask them to match.",
        source="arithmetic: the parts and a kerf between them against stock less trim",
        severity=Severity.WARNING,
        around=Around.KITCHEN,
        bad="""
        saw table_saw { kerf 1/8 }
        sheet figured { thick 3/4  stock 64 by 24  grain yes  matches front }
        unit faced from cupboard {
          part upper of figured  up 18 to top  deep to front  grain up  serves front
          part lower of figured  up 11 from bottom  deep to front  grain up  serves front
          join upper lower to left_side right_side with screwed
          step upper lower
        }
        run sink_wall on north from left {
          S1: faced share
        }
        """,
        good={"by 24": "by 97"},
    ),
    "figure-breaks": Rule(
        doc="Fronts match along a run, and no sheet or board is large enough for the whole row: it "
        "comes from several pieces, each as long as can be.",
        why="Between two of them the figure starts anew.",
        mend="Agree with the customer where it breaks, or choose a larger sheet.",
        source="arithmetic: the parts and a kerf between them against stock less trim",
        severity=Severity.ADVICE,
        around=Around.KITCHEN,
        bad="""
        saw table_saw { kerf 1/8 }
        sheet figured { thick 3/4  stock 48 by 97  grain yes  matches front  along run }
        unit faced from cupboard {
          part face of figured  up 18 to top  deep to front  grain up  serves front
          join face to left_side right_side with screwed
          step face
        }
        run sink_wall on north from left {
          S1: faced 30
          S2: faced 30
        }
        """,
        good={"stock 48": "stock 61"},
    ),
    "not-planned": Rule(
        doc="A sheet material can't be planned as it is asked for; the report says why. The papers "
        "of the other materials are made all the same.",
        mend="Mend what the report names.",
        no_example="Whatever a person can mend is said by a slug of its own.",
    ),
    "plan-unsound": Rule(
        doc="The planner's plan did not pass the independent check, so it is not shown. This is a "
        "fault of the program's own.",
        mend="Report it with the kitchen's text.",
        no_example="It is a fault of the program's own.",
    ),
    "hard-plan-of-other-pieces": Rule(
        doc="The plan that is kept beside the kitchen is for other pieces, stock or another saw: "
        "the kitchen has changed since. A new plan is made with the usual effort.",
        mend="Build with --plan hard to search long again.",
        severity=Severity.ADVICE,
        no_example="It is about a file beside the kitchen.",
    ),
    "hard-plan-of-nothing": Rule(
        doc="The file of kept plans beside the kitchen has one under a name that no material here "
        "has: the kitchen has changed since, or the file was.",
        mend="Build with --plan hard to keep plans of what there is now.",
        severity=Severity.ADVICE,
        no_example="It is about a file beside the kitchen.",
    ),
    "hard-plan-unsound": Rule(
        doc="The plan that is kept beside the kitchen did not pass the independent check. A new "
        "plan is made with the usual effort.",
        mend="Build with --plan hard to search long again.",
        severity=Severity.WARNING,
        no_example="It is about a file beside the kitchen.",
    ),
    "longer-than-boards": Rule(
        doc="A part of solid wood is longer than any board yields once its ends, its defects and "
        "what milling takes are off. Nothing is planned of that lumber.",
        mend="Say a longer board, or less that is cut off; else build the part from two.",
        around=Around.KITCHEN,
        bad="""
        saw table_saw { kerf 1/8 }
        lumber oak { thick 3/4  grain yes }
        boards oak { lengths 48 }
        unit plank  bare  {
          high  60
          depth 3/4
          part stave of oak  deep from front  grain up
          step stave
        }
        run sink_wall on north from left {
          S1: plank 6
          S2: cupboard share
        }
        """,
        good={"boards oak { lengths 48 }": "boards oak { lengths 48 72 }"},
    ),
    "boards-not-planned": Rule(
        doc="The boards of a lumber can't be planned as their sizes are said.",
        mend="Say their lengths and their width as they are bought.",
        around=Around.KITCHEN,
        bad="""
        saw table_saw { kerf 1/8 }
        lumber oak { thick 3/4  grain yes }
        boards oak { lengths 960 }
        unit plank  bare  {
          high  60
          depth 3/4
          part stave of oak  deep from front  grain up
          step stave
        }
        run sink_wall on north from left {
          S1: plank 6
          S2: cupboard share
        }
        """,
        good={"lengths 960": "lengths 96"},
    ),
}
