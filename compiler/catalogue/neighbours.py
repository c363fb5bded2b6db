"""Findings about what runs say of one another, and where they meet in corners and elsewhere."""

from collections.abc import Mapping

from casewright.compiler.catalogue.rule import Around, Rule
from casewright.compiler.catalogue.runs import ISLAND

CORNER = """
        use library
        job Boathouse {
          built shop
        }
        room galley {
          counter 36
          wall north length 96
          wall east  length 90
        }"""
"""A room of two walls that meet, for what two runs say of one another."""

RULES: Mapping[str, Rule] = {
    "unknown-neighbour": Rule(
        doc="What a run is to be after or before is not there.",
        mend="Name a unit, a run or a peninsula that is.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north after sinc_run {
          S1: cupboard share
        }
        """,
        good={"after sinc_run": "from left"},
    ),
    "after-itself": Rule(
        doc="A run can't be after or before itself.",
        mend="Name what stands beside it.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north after sink_wall {
          S1: cupboard share
        }
        """,
        good={"after sink_wall": "from left"},
    ),
    "not-beside": Rule(
        doc="What a run is to be after, before or in a dead corner with stands neither on "
        "the same wall nor around the corner at that end.",
        mend="Name what that end of the run comes to.",
        bad=ISLAND
        + """
        run sink_wall on north from left {
          S1: cupboard share
        }
        run cook on work facing front after sink_wall {
          S2: cupboard share
        }
        """,
        good=ISLAND
        + """
        run sink_wall on north from left {
          S1: cupboard share
        }
        run cook on work facing front {
          S2: cupboard share
        }
        """,
    ),
    "not-in-the-corner": Rule(
        doc="A run begins after a unit around the corner, and another unit stands between "
        "that one and the corner.",
        mend="Name the unit in the corner.",
        bad=CORNER
        + """
        run sink_wall on north from left {
          S1: cupboard 48
          S2: cupboard share
        }
        run range_wall on east after S1 {
          R1: cupboard share
        }
        """,
        good=CORNER
        + """
        run sink_wall on north from left {
          S1: cupboard 48
          S2: cupboard share
        }
        run range_wall on east after S2 {
          R1: cupboard share
        }
        """,
    ),
    "depth-unsaid": Rule(
        doc="How much of a wall a corner takes depends on how deep the unit in it is, and "
        "nothing says that.",
        mend="Let a unit or appliance of a stated depth stand in the corner.",
        bad=CORNER
        + """
        run sink_wall on north from left {
          space share
        }
        run range_wall on east after sink_wall {
          R1: cupboard share
        }
        """,
        good=CORNER
        + """
        run sink_wall on north from left {
          S1: cupboard share
        }
        run range_wall on east after sink_wall {
          R1: cupboard share
        }
        """,
    ),
    "unknown-run": Rule(
        doc="A dead corner names a run that is not there.",
        mend="Name the run around the corner.",
        bad=CORNER
        + """
        run sink_wall on north from left {
          S1: cupboard share
          dead_corner with range_wal filler 3
        }
        run range_wall on east from right length 40 {
          R1: cupboard share
        }
        """,
        good=CORNER
        + """
        run sink_wall on north from left {
          S1: cupboard share
          dead_corner with range_wall filler 3
        }
        run range_wall on east from left {
          dead_corner with sink_wall filler 3
          R1: cupboard share
        }
        """,
    ),
    "dead-corner-alone": Rule(
        doc="One run leaves a corner dead, and the run around it doesn't say so.",
        mend="Say `dead_corner` in both runs.",
        bad=CORNER
        + """
        run sink_wall on north from left {
          S1: cupboard share
          dead_corner with range_wall filler 3
        }
        run range_wall on east from right length 40 {
          R1: cupboard share
        }
        """,
        good=CORNER
        + """
        run sink_wall on north from left {
          S1: cupboard share
          dead_corner with range_wall filler 3
        }
        run range_wall on east from left {
          dead_corner with sink_wall filler 3
          R1: cupboard share
        }
        """,
    ),
    "dead-corner-differs": Rule(
        doc="The two runs of a dead corner give it fillers of different widths.",
        mend="Give both the same filler.",
        bad=CORNER
        + """
        run sink_wall on north from left {
          S1: cupboard share
          dead_corner with range_wall filler 3
        }
        run range_wall on east from left {
          dead_corner with sink_wall filler 2
          R1: cupboard share
        }
        """,
        good=CORNER
        + """
        run sink_wall on north from left {
          S1: cupboard share
          dead_corner with range_wall filler 3
        }
        run range_wall on east from left {
          dead_corner with sink_wall filler 3
          R1: cupboard share
        }
        """,
    ),
    "dead-corner-inside": Rule(
        doc="A dead corner stands between two units of its run.",
        mend="Make it the first line of the run, or the last.",
        bad=CORNER
        + """
        run sink_wall on north from left {
          S1: cupboard 24
          dead_corner with sink_wall filler 3
          S2: cupboard share
        }
        """,
        good=CORNER
        + """
        run sink_wall on north from left {
          S1: cupboard 24
          S2: cupboard share
        }
        """,
    ),
    "runs-chase": Rule(
        doc="Two or more runs are each measured from the next, so that none has a place.",
        mend="Let one of them begin at a corner or at a stated place.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left after range_wall length 30 {
          S1: cupboard share
        }
        run range_wall on north from left after sink_wall length 30 {
          R1: cupboard share
        }
        """,
        good={
            " after range_wall": "",
            "range_wall on north from left": "range_wall on north",
        },
    ),
    "two-in-one-corner": Rule(
        doc="Two runs on walls that meet both fill the corner.",
        mend="Begin one run after the other, or say `dead_corner` in both.",
        bad=CORNER
        + """
        run sink_wall on north from left {
          S1: cupboard share
        }
        run range_wall on east from left {
          R1: cupboard share
        }
        """,
        good=CORNER
        + """
        run sink_wall on north from left {
          S1: cupboard share
        }
        run range_wall on east after sink_wall {
          R1: cupboard share
        }
        """,
    ),
}
