"""Findings about texts together: what they use, and what is declared twice or not at all."""

from collections.abc import Mapping

from casewright.compiler.catalogue.rule import Around, Rule
from casewright.lang.findings import Severity

RULES: Mapping[str, Rule] = {
    "use-not-found": Rule(
        doc="A text that is used isn't there, or lies outside the project.",
        mend="Paths start at the project's root.",
        bad="""
        use ../other_shop
        """,
        good="""
        measure in inches
        """,
    ),
    "uses-itself": Rule(
        doc="Texts use one another in a circle.",
        mend="Take one `use` out.",
        bad="""
        use example
        """,
        good="""
        measure in inches
        """,
    ),
    "too-many-uses": Rule(
        doc="Texts use one another in too long a chain.",
        mend="Use them from one text.",
        no_example="It takes more than 64 files.",
    ),
    "unknown-use": Rule(
        doc="A `use` says more than one path.",
        mend="Give each path a line of its own.",
        bad="""
        use shop islands
        """,
        good="""
        measure in inches
        """,
    ),
    "unknown-edition": Rule(
        doc="The library doesn't have this edition.",
        mend="Ask for one it has.",
        bad="""
        use std edition 7
        """,
        good="""
        use std edition 1
        """,
    ),
    "unknown-measure": Rule(
        doc="A text's head says `measure in` and something else than inches or mm.",
        mend="Say one of the two.",
        bad="""
        measure in feet
        """,
        good="""
        measure in inches
        """,
    ),
    "declared-twice": Rule(
        doc="Two things of one kind have the same name in texts that are equally near.",
        mend="Give one of them another name.",
        bad="""
        sheet ply { thick 3/4 }
        sheet ply { thick 1/2 }
        """,
        good={"ply { thick 1/2": "thin { thick 1/2"},
    ),
    "goes-over": Rule(
        doc=(
            "A thing of this name is there already, further away: in the shop's texts or in the "
            "library. The nearer one is used."
        ),
        mend="Nothing needs doing; give it another name if it was not meant.",
        severity=Severity.ADVICE,
        around=Around.KITCHEN,
        bad="""
        unit cupboard { high 36  depth 24 }
        """,
        good="""
        unit tall_cupboard { high 84  depth 24 }
        """,
    ),
    "from-itself": Rule(
        doc="A thing is declared from another that is, in the end, declared from it.",
        mend="Break the circle: declare one of them without `from`.",
        bad="""
        unit base from tall
        unit tall from base
        """,
        good={"base from tall": "base"},
    ),
    "unknown-unit": Rule(
        doc="No unit of this name is declared.",
        mend="`casewright list units` names those of the library.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left {
          S1: cuboard share
        }
        """,
        good={"S1: cuboard": "S1: cupboard"},
    ),
    "unknown-construction": Rule(
        doc="No construction of this name is declared.",
        mend="`casewright list constructions` names those of the library.",
        around=Around.KITCHEN,
        bad="""
        run sink_wall on north from left built shpo {
          S1: cupboard share
        }
        """,
        good={"built shpo": "built shop"},
    ),
    "not-choices-alone": Rule(
        doc="A construction is made `with` one that does more than choose.",
        mend="Put what both ways share into a construction that only chooses.",
        around=Around.KITCHEN,
        bad="""
        construction other from shop
        construction mine from shop with other
        """,
        good={"other from shop": "of_bare { wood bare_board }", "with other": "with of_bare"},
    ),
    "builds-nothing": Rule(
        doc="A unit is built in a construction that only chooses, so that nothing makes its parts.",
        mend="Name a construction that is `from` one that makes parts, `with` this one's choices.",
        around=Around.KITCHEN,
        bad="""
        construction of_bare { wood bare_board }
        run sink_wall on north from left built of_bare {
          S1: cupboard share
        }
        """,
        good="""
        construction of_bare { wood bare_board }
        construction bare_shop from shop with of_bare
        run sink_wall on north from left built bare_shop {
          S1: cupboard share
        }
        """,
    ),
    "unknown-pattern": Rule(
        doc="No pattern of this name is declared.",
        mend="Declare it, or name one that is.",
        bad="""
        pattern deep_box from box
        """,
        good="""
        pattern box
        pattern deep_box from box
        """,
    ),
    "edge-word-as-name": Rule(
        doc=(
            "Something is called by one of the six edge words, which mean places everywhere: "
            "front, back, left, right, top and bottom."
        ),
        mend="Call it otherwise: cap, floor, left_side, back_panel.",
        around=Around.BENCH,
        bad="""
        construction shop {
          let top = 12
          part panel of board  deep from front  up 12 from bottom
          step panel
        }
        """,
        good={"let top": "let reach", "up 12": "up reach"},
    ),
}
