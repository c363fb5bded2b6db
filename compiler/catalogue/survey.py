"""Findings about the room as it was measured."""

from collections.abc import Mapping

from casewright.compiler.catalogue.rule import Rule
from casewright.lang.findings import Severity

RULES: Mapping[str, Rule] = {
    "room-out-of-scale": Rule(
        doc="A ceiling is lower than 12 inches or higher than 600: its figures are of another "
        "measure than the text says. Nothing else is looked at, since every figure would be wrong.",
        mend="Say at the top of the text what bare numbers are, or write the unit behind each.",
        source="common practice",
        bad="""
        room galley {
          ceiling 2440
          wall north length 158
        }
        """,
        good={"ceiling 2440": "ceiling 2440mm"},
    ),
    "wall-too-long": Rule(
        doc="A wall is longer than any drawing shows: a slip of the pen.",
        mend="Give the wall its measured length.",
        bad="""
        room galley { wall north length 158000 }
        """,
        good="""
        room galley { wall north length 158 }
        """,
    ),
    "feature-off-wall": Rule(
        doc="A window, doorway or the like reaches past the right end of its wall, or of its side "
        "of an island; or blocking past the top. Places on a wall are from its left end, as seen "
        "facing it.",
        mend="Measure its place, its width or the wall again.",
        bad="""
        room galley {
          wall north length 96 {
            window at 60 wide 48 up 42 high 42
          }
        }
        """,
        good={"at 60": "at 24"},
    ),
    "blocking-in-opening": Rule(
        doc="Blocking runs through a window or a doorway, where the wall has none to let it into.",
        mend="End it beside the opening, and begin another past it.",
        bad="""
        room galley {
          wall north length 96 {
            window   at 24 wide 48 up 42 high 42
            blocking at 10 wide 60 up 54 high 10
          }
        }
        """,
        good={"wide 60": "wide 14"},
    ),
    "corner-out-of-order": Rule(
        doc="A corner names two walls of which the second is not the next one clockwise. Walls are "
        "listed as they follow one another to the right, seen from inside.",
        mend="Name the wall on the left first, or list the walls in their order.",
        bad="""
        room galley {
          wall west  length 96
          wall north length 120
          corner north west 90deg
        }
        """,
        good={"north west": "west north"},
    ),
    "corner-twice": Rule(
        doc="A corner is measured twice, or in two ways at once.",
        mend="Keep the measure that is right.",
        bad="""
        room galley {
          wall west  length 96
          wall north length 120
          corner west north 90deg
          corner west north 91deg
        }
        """,
        good="""
        room galley {
          wall west  length 96
          wall north length 120
          corner west north 91deg
        }
        """,
    ),
    "corner-angle-missing": Rule(
        doc="A corner is named and nothing says how wide it is.",
        mend="Give an angle, or how far it is out of square over a distance, or two legs and their "
        "diagonal.",
        bad="""
        room galley {
          wall west  length 96
          wall north length 120
          corner west north
        }
        """,
        good={"west north": "west north out 3/8 over 48"},
    ),
    "corner-open-between": Rule(
        doc="Only the last wall and the first may be left open: of the others each has its place "
        "by the one before it.",
        mend="Begin the list with the wall after the opening, or measure the opening as a wall.",
        bad="""
        room galley {
          wall west  length 96
          wall north length 120
          wall east  length 96
          corner west north open
        }
        """,
        good={"west north": "east west"},
    ),
    "angle-impossible": Rule(
        doc="The inside angle of a corner lies between 0 and 360 degrees.",
        mend="Measure it from inside: a square corner is 90deg.",
        bad="""
        room galley {
          wall west  length 96
          wall north length 120
          corner west north 400deg
        }
        """,
        good={"north 400deg": "north 40deg"},
    ),
    "diagonal-impossible": Rule(
        doc="Two legs of a corner and the diagonal between their ends make a triangle; these "
        "don't.",
        mend="Measure the three again.",
        bad="""
        room galley {
          wall west  length 96
          wall north length 120
          corner west north legs 36 by 48 diagonal 90
        }
        """,
        good={"diagonal 90": "diagonal 60"},
    ),
    "corners-dont-close": Rule(
        doc="The inside corners of a room of so many walls come to a known sum: 360 degrees for "
        "four. These don't, by more than measuring explains.",
        mend="Measure the corners again.",
        severity=Severity.WARNING,
        bad="""
        room galley {
          wall west  length 96
          wall north length 120
          wall east  length 96
          wall south length 120
          corner south west 95deg
        }
        """,
        good={"west 95deg": "west 90deg"},
    ),
    "walls-dont-close": Rule(
        doc="The end of the last wall misses the beginning of the first by more than measuring "
        "explains. Corners that aren't measured are taken as square.",
        mend="Measure walls and corners again, or say that the last corner is open.",
        severity=Severity.WARNING,
        bad="""
        room galley {
          wall west  length 96
          wall north length 120
          wall east  length 96
          wall south length 112
        }
        """,
        good="""
        room galley {
          wall west  length 96
          wall north length 120
          wall east  length 96
          wall south length 112
          corner south west open
        }
        """,
    ),
}
