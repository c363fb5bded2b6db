"""Findings about joints: what touches, what enters, and what nothing holds."""

from collections.abc import Mapping

from casewright.compiler.catalogue.rule import Around, Rule

RULES: Mapping[str, Rule] = {
    "joint-does-not-touch": Rule(
        doc="A joint says `to`, but the two parts don't touch.",
        mend="Move one of them up to the other, or leave the joint out.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front
          part shelf of board  up from bottom  deep panel.back + 1/4 .. back
          join shelf to panel with screwed
          step panel shelf
        }
        """,
        good={"panel.back + 1/4": "panel"},
    ),
    "joint-does-not-enter": Rule(
        doc=(
            "A joint says `into`, but the first part doesn't enter the second through one of its "
            "faces."
        ),
        mend="Let it reach in from one face, or say `to`.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front
          part shelf of board  up from bottom  deep panel .. back
          join shelf into panel
          step panel shelf
        }
        """,
        good={"deep panel ..": "deep panel - 3/8 .."},
    ),
    "groove-through": Rule(
        doc=(
            "A joint's groove would leave no stock behind it: it goes right through the part, or "
            "two grooves meet."
        ),
        mend="Make the groove shallower, or move one of the two.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front
          part shelf of board  up from bottom  deep front .. back
          join shelf into panel
          step panel shelf
        }
        """,
        good={"deep front ..": "deep front + 3/8 .."},
    ),
    "parts-overlap": Rule(
        doc="Two parts stand in the same space and no joint says that one enters the other.",
        mend="End one where the other begins, or join one into the other.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front
          part shelf of board  up from bottom
          join shelf to panel with screwed
          step panel shelf
        }
        """,
        good={"from bottom": "from bottom  deep panel .. back"},
    ),
    "part-loose": Rule(
        doc="A part is joined to nothing else in its unit: it would fall.",
        mend="Say with `join` what it is fastened to.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front
          part shelf of board  up from bottom  deep panel .. back
          step panel shelf
        }
        """,
        good="""
        construction shop {
          part panel of board  deep from front
          part shelf of board  up from bottom  deep panel .. back
          join shelf to panel with screwed
          step panel shelf
        }
        """,
    ),
    "fasteners-too-close": Rule(
        doc="One joint would need more fasteners than can be right.",
        mend="Set them further apart in the fixing.",
        around=Around.BENCH,
        bad="""
        fixing sewn { hold screw every 1/1000 }
        construction shop {
          part panel of board  deep from front
          part shelf of board  up from bottom  deep panel .. back
          join shelf to panel with sewn
          step panel shelf
        }
        """,
        good={"every 1/1000": "every 6"},
    ),
    "bored-and-spaced": Rule(
        doc=(
            "A fixing says both that its fasteners stand in bored holes and how far apart they "
            "are driven: the holes decide, and the spacing would be ignored."
        ),
        mend="Leave out the spacing, and space the holes; or leave out `bored`.",
        around=Around.BENCH,
        bad="""
        fixing in_row { hold screw bored every 6 }
        construction shop {
          part panel of board  deep from front
          part shelf of board  up from bottom  deep panel .. back
          holes row on panel.back {
            size   1/8
            into   1/2
            across left + 4 .. right - 4 every 8
            up     shelf.bottom + shelf.up / 2
          }
          join shelf to panel with in_row
          step panel shelf
        }
        """,
        good={"fixing in_row { hold screw bored every 6 }": "fixing in_row { hold screw bored }"},
    ),
    "nothing-bored": Rule(
        doc=(
            "A fixing's fasteners stand in bored holes, and none are bored where the two parts "
            "meet: nothing would hold them."
        ),
        mend="Bore holes where the parts meet, or say in the fixing how far apart it is driven.",
        around=Around.BENCH,
        bad="""
        fixing in_row { hold screw bored }
        construction shop {
          part panel of board  deep from front
          part shelf of board  up from bottom  deep panel .. back
          join shelf to panel with in_row
          step panel shelf
        }
        """,
        good="""
        fixing in_row { hold screw bored }
        construction shop {
          part panel of board  deep from front
          part shelf of board  up from bottom  deep panel .. back
          holes row on panel.back {
            size   1/8
            into   1/2
            across left + 4 .. right - 4 every 8
            up     shelf.bottom + shelf.up / 2
          }
          join shelf to panel with in_row
          step panel shelf
        }
        """,
    ),
}
