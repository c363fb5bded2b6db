"""Findings about parts: their sizes, stock, bands, holes and blanks."""

from collections.abc import Mapping

from casewright.compiler.catalogue.rule import Around, Rule

RULES: Mapping[str, Rule] = {
    "requirement-not-met": Rule(
        doc=(
            "Something that the construction or the unit requires isn't so. The headline is its own"
            " sentence."
        ),
        mend="Change what the report's lines name.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front
          require panel.across >= 30 "only {panel.across} is left for the panel"
          step panel
        }
        """,
        good={">= 30": ">= 20"},
    ),
    "size-not-positive": Rule(
        doc="A size comes out nothing or less; no more is said of the unit until it is mended.",
        mend="Make the unit larger, or what stands on either side smaller.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front  up bottom + 40 .. top
          step panel
        }
        """,
        good={"+ 40": "+ 4"},
    ),
    "material-missing": Rule(
        doc="A part says nothing of what it is made of.",
        mend="Say: of, and a material.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel  deep from front
          step panel
        }
        """,
        good={"part panel": "part panel of board"},
    ),
    "unknown-material": Rule(
        doc="No material of this name is declared.",
        mend="`casewright list materials` names those of the library.",
        around=Around.BENCH,
        bad="""
        construction shop {
          option colour choice red white = red
          part panel of colour  deep from front
          step panel
        }
        """,
        good={"choice red white = red": "sheet = board"},
    ),
    "place-missing": Rule(
        doc="A thing doesn't say where it lies along one axis.",
        mend="Say it: A .. B, SIZE from A, SIZE to B, SIZE centred, or a thing as wide as it.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front  up 20
          step panel
        }
        """,
        good={"up 20": "up 20 from bottom"},
    ),
    "thickness-differs": Rule(
        doc="A part is as thick as its material in no direction. The report shows both.",
        mend="Leave the size out on that axis: it is then the material's thickness.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep 1/2 from front
          step panel
        }
        """,
        good={"part panel of board  deep 1/2 from": "part panel of board  deep from"},
    ),
    "stock-too-thin": Rule(
        doc="The part can't be milled from stock of this thickness.",
        mend="Choose thicker stock.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part strip of board milled  deep 1 from front  up 2 from bottom
          step strip
        }
        """,
        good={"deep 1": "deep 1/2"},
    ),
    "unknown-edge": Rule(
        doc="The edges are front, back, left, right, top and bottom.",
        mend="Name one of them.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front  band side
          step panel
        }
        """,
        good={"band side": "band left"},
    ),
    "band-on-a-face": Rule(
        doc=(
            "A band covers an edge, which is one of the four narrow sides of a part; the side named"
            " here is one of its two faces."
        ),
        mend="Name an edge.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front  band front
          step panel
        }
        """,
        good={"band front": "band top"},
    ),
    "band-off-cut": Rule(
        doc=(
            "A cut is to be banded that leaves no such edge: it doesn't go right through, or what "
            "it leaves looks another way. A cut corner leaves one slanted edge, without a word."
        ),
        mend="Name an edge that the cut leaves, or say `band` alone for all of them.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part shelf of board  up from bottom {
            cut across 6 from left  deep 6 from front  band back
          }
          step shelf
        }
        """,
        good={"band back": "band left front"},
    ),
    "band-cut-away": Rule(
        doc="An edge of a part is banded, and a cut takes all of that edge.",
        mend="Take the edge out of the part's `band`, and say `band` at the cut.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part side of board  across from left  band front {
            cut corner left front  deep 1/4 from front
          }
          step side
        }
        """,
        good={"left  band front": "left", "from front": "from front  band"},
    ),
    "unknown-band": Rule(
        doc="A material names a band that isn't declared, or none at all.",
        mend="Add `band` and its name to the material.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of bare_board  deep from front  band top
          step panel
        }
        """,
        good={"bare_board": "board"},
    ),
    "strip-banded-twice": Rule(
        doc=(
            "A strip that is ripped from a blank is banded on one long edge at most: the blank is "
            "banded before it is ripped."
        ),
        mend="Leave it out of `rip`, or band one edge.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part rail of board  deep from front  up 4 from bottom  band top bottom
          part lower of board  deep from front  up 4 to top
          part side of board  across from left  deep rail .. back
          join rail lower to side with screwed
          rip rail lower
          step side rail lower
        }
        """,
        good={"top bottom": "top"},
    ),
    "unknown-fastener": Rule(
        doc="No fastener of this name is declared.",
        mend="`casewright list hardware` names those of the library.",
        around=Around.BENCH,
        bad="""
        fixing nailed { hold nial every 6 }
        construction shop {
          part panel of board  deep from front
          part shelf of board  up from bottom  deep panel .. back
          join shelf to panel with nailed
          step panel shelf
        }
        """,
        good={"hold nial": "hold screw"},
    ),
    "blank-too-narrow": Rule(
        doc="The strips of a blank, with what the saw takes between, are wider than the blank.",
        mend="Make the blank wider, or one of its strips narrower.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part rail of board   deep from front  up 4 from bottom
          part lower of board  deep from front  up 4 to top
          part side of board   across from left  deep rail .. back
          join rail lower to side with screwed
          rip rail lower  from 7
          step side rail lower
        }
        """,
        good={"from 7": "from 9"},
    ),
    "hole-through": Rule(
        doc="A hole is bored deeper than its part is thick.",
        mend="Bore it less deep, or choose thicker stock.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front
          holes pins on panel.front {
            size   5mm
            into   1
            across left + 2
            up     bottom + 4 .. top - 4  every 32mm
          }
          step panel
        }
        """,
        good={"into   1": "into   12mm"},
    ),
    "hole-past-edge": Rule(
        doc="A bored hole reaches past the edge of its part.",
        mend="Move it in, or make the part larger.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front
          holes pins on panel.front {
            size   5mm
            into   12mm
            across left + 2
            up     bottom + 2mm
          }
          step panel
        }
        """,
        good={"+ 2mm": "+ 37mm"},
    ),
    "too-many-holes": Rule(
        doc="One line asks for more holes than one part may have.",
        mend="Set them further apart.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front
          holes pins on panel.front {
            size   5mm
            into   12mm
            across left + 2
            up     bottom .. top  every 1/1000
          }
          step panel
        }
        """,
        good={".. top  every 1/1000": "+ 4 .. top - 4  every 32mm"},
    ),
    "cleat-on-air": Rule(
        doc="A wall screw through what the unit hangs by would cross air before it meets the wall.",
        mend="Let that part reach the wall, or put touching stock behind it.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep to back - 1  serves hanging
          step panel
        }
        """,
        good={"back - 1": "back"},
    ),
}
