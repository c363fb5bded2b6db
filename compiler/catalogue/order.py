"""Findings about the order of building."""

from collections.abc import Mapping

from casewright.compiler.catalogue.rule import Around, Rule

RULES: Mapping[str, Rule] = {
    "part-in-no-step": Rule(
        doc="A part is brought in by no step, so nobody would ever put it in.",
        mend="Name it in the step that brings it in.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front
          part shelf of board  up from bottom  deep panel .. back
          join shelf to panel with screwed
          step panel
        }
        """,
        good={"step panel": "step panel shelf"},
    ),
    "part-in-two-steps": Rule(
        doc="A part is brought in twice.",
        mend="Leave it out of one of the two steps.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front
          part shelf of board  up from bottom  deep panel .. back
          join shelf to panel with screwed
          step panel
          step shelf panel
        }
        """,
        good={"shelf panel": "shelf"},
    ),
    "step-elsewhere": Rule(
        doc="A step brings in a part that is built into another assembly.",
        mend="Bring in the whole assembly, or move the step into it.",
        around=Around.BENCH,
        bad="""
        construction shop {
          assembly frame {
            part rail of board  deep from front
            step rail
          }
          step frame.rail
        }
        """,
        good={"frame.rail": "frame"},
    ),
    "step-brings-itself": Rule(
        doc="A step brings in the very assembly it belongs to.",
        mend="Bring in only what the assembly is made of.",
        no_example="From a text, what a step can't reach is said first: `step-elsewhere`.",
    ),
    "no-way-in": Rule(
        doc=(
            "A part can't come into its place in this step: in each of its six directions something"
            " stands in the way. The report names it."
        ),
        mend="Bring the part in earlier, or what blocks it later.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part left_side of board  across from left
          part right_side mirrors left_side
          part front_wall of board  across left_side .. right_side  deep from front
          part back_wall of board  across left_side .. right_side  deep to back
          part panel of thin_board  up from bottom + 2 {
            across left_side - 3/8 .. right_side + 3/8
            deep front_wall - 3/8 .. back_wall + 3/8
          }
          join front_wall back_wall to left_side right_side with screwed
          join panel into left_side right_side front_wall back_wall
          step left_side front_wall back_wall right_side
          step panel
        }
        """,
        good={"back_wall right_side": "back_wall", "step panel": "step panel right_side"},
    ),
    "no-room-to-drive": Rule(
        doc="Something stands where the driver would have to be when the joint is fastened.",
        mend="Join the two before it stands there, or fasten from another side.",
        around=Around.BENCH,
        bad="""
        construction shop {
          part panel of board  deep from front
          part plate of board  deep from panel
          part shelf of board  up from bottom  deep plate .. back
          join plate to panel with screwed
          join shelf to plate with driven
          step panel plate shelf
        }
        """,
        good={"panel plate shelf": "plate shelf panel"},
    ),
}
