"""Findings about the job, the room and its runs."""

from collections.abc import Mapping

from casewright.compiler.catalogue.rule import Around, Rule
from casewright.lang.findings import Severity

RULES: Mapping[str, Rule] = {
    "no-job": Rule(
        doc="The text has runs and no job line.",
        mend="Begin with: job, and its name.",
        bad="""
        use room
        use library
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
        good="""
        use room
        use library
        job Boathouse {
          built shop
        }
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
    ),
    "room-figure-unsaid": Rule(
        doc="A unit is made by a figure of its room, as the height of the counter, and the room "
        "doesn't say it.",
        mend="Say it in the room: counter 36 thick 1 1/2.",
        around=Around.CHECKS,
        bad="""
        room galley {
          floor   finished
          ceiling 96
          wall north length 72
        }
        run sink_wall on north from left length 24 {
          S1: open_base 24
        }
        """,
        good="""
        room galley {
          floor   finished
          ceiling 96
          counter 36 thick 1 1/2
          wall north length 72
        }
        run sink_wall on north from left length 24 {
          S1: open_base 24
        }
        """,
    ),
    "not-built": Rule(
        doc="Nothing says how the unit is built.",
        mend="Say `built` and a construction on the job, the run or the unit.",
        bad="""
        use room
        use library
        job Boathouse
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
        good="""
        use room
        use library
        job Boathouse {
          built shop
        }
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
    ),
    "precision-not-printable": Rule(
        doc="Lists can't be printed to this precision.",
        mend="In inches take a halving down to 1/128, in mm a decimal.",
        bad="""
        job Boathouse {
          precision 1/30
        }
        """,
        good={"precision 1/30": "precision 1/32"},
    ),
    "unknown-wall": Rule(
        doc="The room has no wall of this name.",
        mend="Name one that it has, or add it to the room.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on noth from left {
          S1: cupboard share
        }
        """,
        good={"on noth": "on north"},
    ),
    "unknown-feature": Rule(
        doc="The wall has no feature of this name.",
        mend="Name one that the wall has, or add it to the wall.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard share
          S2: cupboard 24  centred on windwo
          S3: cupboard share
        }
        """,
        good={"on windwo": "on window"},
    ),
    "width-missing": Rule(
        doc="Something in a run doesn't say how wide it is.",
        mend="Give it a width, or share.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard
        }
        """,
        good={"cupboard": "cupboard share"},
    ),
    "tag-twice": Rule(
        doc="Two things have one tag. A tag is an address, so it is given once.",
        mend="Give one of them the next free number.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard share
          S1: cupboard share
        }
        """,
        good="""
        run sink_wall on north from left {
          S1: cupboard share
          S2: cupboard share
        }
        """,
    ),
    "filler-not-beside": Rule(
        doc="A filler names a unit to go into that doesn't stand beside it.",
        mend="Name a neighbour, or move the filler.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          filler 2 into S2
          S1: cupboard share
          S2: cupboard share
        }
        """,
        good="""
        construction framed from shop { takes filler }
        run sink_wall on north from left {
          filler 2 into S1
          S1: cupboard share  built framed
          S2: cupboard share
        }
        """,
    ),
    "filler-not-taken": Rule(
        doc="A filler is to go into the frame of a unit that takes none: its construction says no "
        "`takes filler`, or it stands across a corner, where a wider stile would run askew to what "
        "the filler closes. It is cut as a strip of its own, and no stile is wider.",
        mend="Take `into` out, or build the unit in a construction that takes fillers.",
        severity=Severity.WARNING,
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          filler 2 into S1
          S1: cupboard share
        }
        """,
        good="""
        construction framed from shop { takes filler }
        run sink_wall on north from left {
          filler 2 into S1
          S1: cupboard share  built framed
        }
        """,
    ),
    "no-filler-unit": Rule(
        doc="Nothing that is declared serves as a filler.",
        mend="Declare a unit that serves filler.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front
          step panel
        }
        run other on south from left {
          filler 2
          S2: cupboard 22
        }
        """,
        good="""
        construction shop {
          part panel of board  deep from front
          step panel
        }
        unit strip  bare  serves filler {
          high 30
          depth 24
          part strip of board  deep from front
          step strip
        }
        run other on south from left {
          filler 2
          S2: cupboard 22
        }
        """,
    ),
    "run-too-long": Rule(
        doc="What stands in a run needs more than its space. The report shows the sum.",
        mend="Make a unit smaller, or give one `share`.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard 36
          S2: cupboard 24 1/2
        }
        """,
        good={"24 1/2": "share"},
    ),
    "run-too-short": Rule(
        doc="What stands in a run leaves some of its space, and nothing takes it up.",
        mend="Give a unit `share`, or add a filler or a space.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard 36
          S2: cupboard 20
        }
        """,
        good="""
        run sink_wall on north from left {
          S1: cupboard 36
          S2: cupboard 20
          filler share
        }
        """,
    ),
    "share-below-least": Rule(
        doc="A share comes out less than its least size. The report shows the sum.",
        mend="Make something else smaller, or lower its `min`.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard 40
          S2: cupboard share min 24
        }
        """,
        good={"cupboard 40": "cupboard 36"},
    ),
    "share-over-most": Rule(
        doc="A share comes out more than its greatest size. The report shows the sum.",
        mend="Make something else larger, add a unit or a filler, or raise its `max`.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard 20
          S2: cupboard share max 36
        }
        """,
        good={"cupboard 20": "cupboard 24"},
    ),
    "saw-not-named": Rule(
        doc="Several saws are declared as near to the job as each other, and it names none of "
        "them; the first is taken.",
        why="Another saw's kerf gives other plans.",
        mend="Name the saw in the job.",
        severity=Severity.WARNING,
        bad="""
        job Boathouse galley {
          number 7
        }
        saw bench { kerf 1/8 }
        saw panel { kerf 5/32 }
        """,
        good="""
        job Boathouse galley {
          number 7
          saw    panel
        }
        saw bench { kerf 1/8 }
        saw panel { kerf 5/32 }
        """,
    ),
    "unknown-saw": Rule(
        doc="No saw of this name is declared.",
        mend="Name one that is, or declare it in the shop's file.",
        bad="""
        job Boathouse {
          saw band_saw
        }
        saw table_saw { kerf 1/8 }
        """,
        good={"band_saw": "table_saw"},
    ),
}
