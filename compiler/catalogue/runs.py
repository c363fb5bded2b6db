"""Findings about where runs stand: on walls and islands, pinned, within their space."""

from collections.abc import Mapping

from casewright.compiler.catalogue.rule import Around, Rule
from casewright.lang.findings import Severity

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
        good={"run sink_wall on north facing front {": "run sink_wall on north {"},
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
        good={"min 2": "min 1/2"},
    ),
    "limits-unread": Rule(
        severity=Severity.WARNING,
        doc="A thing that is pinned to a place says how wide it may become. What is pinned keeps "
        "its width, and those beside it give and take.",
        mend="Take `min` and `max` out, or what it is pinned to.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cupboard share
          S2: cupboard 20 centred max 30
          S3: cupboard share
        }
        """,
        good={"centred max 30": "centred"},
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
          space share
          S1: cupboard 36 centred on window
          space share
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
        good={
            "east from right length 20 up 54": "north from left up 87",
            "over S1": "over S1  high 8",
        },
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
        good={"length 60": "length 36"},
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
        good={"at 40": "at 30"},
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
        good={"length 40": "length 36"},
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
        good={"length 96": "length 144"},
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
