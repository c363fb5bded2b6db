"""Findings about where runs stand: at corners, after one another, on islands, pinned."""

from collections.abc import Mapping

from casewright.compiler.catalogue.rule import Around, Rule

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

ISLAND = """
        use library
        job Boathouse {
          built shop
        }
        room galley {
          counter 36
          wall north length 144
          wall east  length 144
          island work from north out 48 at 24 length 60 depth 48
        }"""
"""A room with an island."""

RULES: Mapping[str, Rule] = {
    "facing-a-wall": Rule(
        doc="A run on a wall faces into the room, and what lies on a wall is on that one side; "
        "only an island has sides to choose from.",
        mend="Leave `facing` out, or put it on an island.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north facing front {
          S1: cupboard share
        }
        """,
        good="""
        run sink_wall on north {
          S1: cupboard share
        }
        """,
    ),
    "island-side-missing": Rule(
        doc="A run on an island or a peninsula says which side its fronts are on, and an outlet or "
        "a pipe of it which side it is on; a peninsula has no back to face.",
        mend="Say `facing` and a side.",
        bad=ISLAND
        + """
        run cook on work {
          S1: cupboard share
        }
        """,
        good=ISLAND
        + """
        run cook on work facing front {
          S1: cupboard share
        }
        """,
    ),
    "limits-cross": Rule(
        doc="A width lies outside its own least and most, or the least is more than the most.",
        mend="Put the three in their order.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          filler 1 min 2
          S1: cupboard share
        }
        """,
        good="""
        run sink_wall on north from left {
          filler 1 min 1/2
          S1: cupboard share
        }
        """,
    ),
    "pinned-out-of-place": Rule(
        doc="What is centred on something, or stands over it, would reach past an end of "
        "its run or into something else that is pinned.",
        mend="Pin it to something else, make it smaller, or let it stand in line.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left length 40 {
          S1: cupboard 36 centred on window
        }
        """,
        good="""
        run sink_wall on north from left {
          S1: cupboard 36 centred on window
        }
        """,
    ),
    "pinned-elsewhere": Rule(
        doc="A thing can be pinned to a unit of another run on the same wall, and to no other.",
        mend="Name a unit on the same wall, or pin it to a window.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard share
        }
        run uppers on east from right length 20 up 54 {
          U1: cupboard over S1
        }
        """,
        good="""
        run sink_wall on north from left {
          S1: cupboard share
        }
        run uppers on north from left up 87 {
          U1: cupboard over S1  high 8
        }
        """,
    ),
    "unknown-neighbour": Rule(
        doc="What a run is to be after or before is not there.",
        mend="Name a unit, a run or a peninsula that is.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north after sinc_run {
          S1: cupboard share
        }
        """,
        good="""
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
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
        good="""
        run sink_wall on north from left {
          S1: cupboard share
        }
        """,
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
        good="""
        run sink_wall on north from left length 30 {
          S1: cupboard share
        }
        run range_wall on north after sink_wall length 30 {
          R1: cupboard share
        }
        """,
    ),
    "run-without-room": Rule(
        doc="Between what stands at its two ends a run has no length.",
        mend="Move or shorten what is beside it.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left length 60 {
          S1: cupboard share
        }
        run range_wall on north after sink_wall {
          R1: cupboard share
        }
        """,
        good="""
        run sink_wall on north from left length 36 {
          S1: cupboard share
        }
        run range_wall on north after sink_wall {
          R1: cupboard share
        }
        """,
    ),
    "run-off-wall": Rule(
        doc="A run reaches past the end of what it stands on, or past what is beside it there.",
        mend="Begin it at another place, or make it shorter.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north at 40 length 30 {
          S1: cupboard share
        }
        """,
        good="""
        run sink_wall on north at 30 length 30 {
          S1: cupboard share
        }
        """,
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
    "in-one-place": Rule(
        doc="Two things of different runs stand in one another.",
        mend="Move one of the two, or end its run before the other begins.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left length 40 {
          S1: cupboard share
        }
        run range_wall on north from right length 24 {
          R1: cupboard share
        }
        """,
        good="""
        run sink_wall on north from left length 36 {
          S1: cupboard share
        }
        run range_wall on north from right length 24 {
          R1: cupboard share
        }
        """,
    ),
    "island-through-wall": Rule(
        doc="An island or peninsula goes through a wall of the room.",
        mend="Move it, or make it smaller.",
        bad="""
        use library
        job Boathouse {
          built shop
        }
        room galley {
          counter 36
          wall north length 96
          wall east  length 144
          island work from north out 48 at 48 length 60 depth 48
        }
        """,
        good="""
        use library
        job Boathouse {
          built shop
        }
        room galley {
          counter 36
          wall north length 144
          wall east  length 144
          island work from north out 48 at 48 length 60 depth 48
        }
        """,
    ),
    "deeper-than-island": Rule(
        doc="What stands on a side of an island is deeper than the island.",
        mend="Make the island deeper, or its units shallower.",
        bad=ISLAND
        + """
        run cook on work facing left {
          S1: cupboard share depth 72
        }
        """,
        good=ISLAND
        + """
        run cook on work facing left {
          S1: cupboard share depth 48
        }
        """,
    ),
}
