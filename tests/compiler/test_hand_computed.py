"""Four cabinets worked out by hand, as a bench hand would: sums of written sizes.

All sizes are common practice, with no source. A figure is a sum in the trade's spelling, worked out
here and nowhere else; the drawers are numbered from the top.
"""

import ast
import operator
import re
from collections.abc import Callable, Mapping
from fractions import Fraction

import pytest

from casewright.compiler.compile import Compiled
from casewright.compiler.explain import Explainer
from casewright.lang.findings import Severity
from casewright.lang.measure import INCH
from tests.compiler.examples import compiled

KITCHEN = """
measure in inches
use std edition 1
job Worked out by hand {{
  built shop
}}
construction shop from {construction} {{
  case      {case}
  fronts    birch_ply
  toe_board birch_ply
}}
room bench {{
  ceiling 96
  counter 36 thick 1 1/2
  wall north length 27
}}
run only on north from left {{
  S1: drawer_base 27 {{
    stack {{
      {openings}
    }}
  }}
}}
"""


def cabinet(construction: str, case: str, *openings: str) -> Compiled:
    text = KITCHEN.format(
        construction=construction,
        case=case,
        openings="\n      ".join(f"drawer {each}" for each in openings),
    )
    return compiled({"hand.case": text.encode()}, "hand.case")


_OPERATORS: Mapping[type[ast.operator], Callable[[Fraction, Fraction], Fraction]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
}


def worked(sum_: str) -> Fraction:
    """A sum of sizes in inches, `30 1/2 - 2 * 3/4`, or of millimetres, `1mm`."""
    figures = re.sub(r"\b([0-9]+) ([0-9]+)/([0-9]+)", r"(\1 + \2/\3)", sum_)
    figures = re.sub(r"\b([0-9]+)mm", rf"(\1 / ({INCH.numerator}/{INCH.denominator}))", figures)
    return _worked(ast.parse(figures, mode="eval").body)


def _worked(node: ast.expr) -> Fraction:
    if isinstance(node, ast.BinOp):
        return _OPERATORS[type(node.op)](_worked(node.left), _worked(node.right))
    assert isinstance(node, ast.Constant)
    assert isinstance(node.value, int)
    return Fraction(node.value)


def errors(built: Compiled) -> list[tuple[str, str]]:
    """What stops a cabinet; advice on where it stands is another matter."""
    return [
        (each.slug, each.headline) for each in built.findings if each.severity is Severity.ERROR
    ]


def differing(built: Compiled, expected: Mapping[str, str]) -> dict[str, tuple[str, str]]:
    """The figures that came out otherwise: as they did, and as they were expected."""
    assert errors(built) == []
    assert built.job is not None
    explainer = Explainer(built.job)
    found = {}
    for address, sum_ in expected.items():
        figure = explainer.figure(
            address.replace("base.", "only.base_S1.", 1)
            if address.startswith("base.")
            else f"S1.{address}"
        )
        value = figure.value if figure is not None else None
        if value != worked(sum_):
            found[address] = (str(value), f"{sum_} = {worked(sum_)}")
    return found


# A side is the unit's height less its toe; it carries a band that counts, so it is sawn 1 mm
# narrower. What lies between the sides is the width less two of them. From front to back: 24,
# less the strip it hangs by, less a back of 1/4.
FRAMELESS_3_4 = {
    "left_side.length": "34 1/2 - 4",
    "left_side.width": "24",
    "left_side.cut_width": "24 - 1mm",
    "floor.length": "27 - 2 * 3/4",
    "floor.width": "24 - 3/4 - 1/4",
    "floor.cut_width": "24 - 3/4 - 1/4 - 1mm",
    "top_stretcher.length": "27 - 2 * 3/4",
    "top_stretcher.width": "5",
    "stretcher_1.bottom": "34 1/2 - 3/4 - 5 1/2 - 3/4",
    "stretcher_2.bottom": "34 1/2 - 3/4 - 5 1/2 - 3/4 - 11 - 3/4",
    # 3/8 deep in each side
    "back_panel.width": "27 - 2 * 3/4 + 2 * 3/8",
    "back_panel.length": "34 1/2 - 4",
    # four members and three openings make the side
    "drawer_1.opening": "30 1/2 - 4 * 3/4 - 11 - 11",
    "drawer_3.bottom": "4 + 3/4",
    # a front reaches half way over a stretcher, less half of 1/8; to the top less 1/8; to the floor
    "drawer_1.face.length": "3/4 + 5 1/2 + 3/8 - 1/8 - 1/16",
    "drawer_2.face.length": "3/8 + 11 + 3/8 - 1/16 - 1/16",
    "drawer_3.face.length": "3/8 + 11 + 3/4 - 1/16",
    # between two walls
    "drawer_1.face.width": "27 - 2 * 1/8",
    # a slide of 1/2 and 1/64 to ease it on each side; the longest that leaves 1/8 before the back
    "drawer_1.tray.across": "27 - 2 * 3/4 - 2 * (1/2 + 1/64)",
    "drawer_1.left_side.length": "22",
    "drawer_1.left_side.width": "5 1/2 - 1/4 - 1/4",
    "drawer_1.front_piece.length": "27 - 2 * 3/4 - 2 * (1/2 + 1/64) - 2 * 1/2",
    # 1/4 deep in each side
    "drawer_2.tray_floor.length": "27 - 2 * 3/4 - 2 * (1/2 + 1/64) - 2 * 1/2 + 2 * 1/4",
    "base.toe_rail.length": "27",
    "base.toe_rail.width": "4",
    "base.left_cross.length": "24 - 3 - 1/4 - 2 * 3/4",
}

# The same with board that the caliper makes 23/32; the openings take up what that gives.
FRAMELESS_23_32 = {
    "left_side.thick": "23/32",
    "left_side.length": "34 1/2 - 4",
    "floor.length": "27 - 2 * 23/32",
    "floor.width": "24 - 23/32 - 1/4",
    # its band doesn't count
    "floor.cut_width": "24 - 23/32 - 1/4",
    "back_panel.width": "27 - 2 * 23/32 + 2 * 3/8",
    "drawer_1.opening": "30 1/2 - 4 * 23/32 - 11 - 11",
    "stretcher_1.bottom": "34 1/2 - 23/32 - 5 5/8 - 23/32",
    "drawer_2.face.length": "23/64 + 11 + 23/64 - 1/16 - 1/16",
    "drawer_3.face.length": "23/64 + 11 + 23/32 - 1/16",
    "drawer_1.tray.across": "27 - 2 * 23/32 - 2 * (1/2 + 1/64)",
    "drawer_1.left_side.length": "22",
}

# The frame fills the face. The box stands back 1/4 behind it at each side, and its floor is flush
# with the top of the bottom rail, so the base is higher by a rail less a floor.
FRAMED_3_4 = {
    "left_stile.length": "34 1/2 - 4",
    "left_stile.width": "1 1/2",
    "bottom_rail.length": "27 - 2 * 1 1/2",
    "mid_rail_1.length": "27 - 2 * 1 1/2",
    "mid_rail_1.bottom": "34 1/2 - 1 1/2 - 6 - 1 1/2",
    "left_side.length": "34 1/2 - (4 + 1 1/2 - 3/4)",
    "left_side.width": "24 - 3/4",
    "floor.length": "27 - 2 * 1/4 - 2 * 3/4",
    "floor.width": "24 - 3/4 - 3/4 - 1/4",
    "floor.top": "4 + 1 1/2",
    "base.toe_rail.width": "4 + 1 1/2 - 3/4",
    "base.toe_rail.length": "27 - 2 * 1/4",
    # two equal shares of what four rails and the first leave
    "drawer_2.opening": "(30 1/2 - 4 * 1 1/2 - 6) / 2",
    "drawer_3.opening": "(30 1/2 - 4 * 1 1/2 - 6) / 2",
    "drawer_1.opening_width": "27 - 2 * 1 1/2",
    # it laps the frame by 1/2
    "drawer_1.face.length": "6 + 2 * 1/2",
    "drawer_2.face.length": "9 1/4 + 2 * 1/2",
    "drawer_1.face.width": "27 - 2 * 1 1/2 + 2 * 1/2",
    # packing carries the slide out to the frame's opening
    "drawer_1.left_packing.thick": "(27 - 2 * 1/4 - 2 * 3/4 - 24) / 2",
    "drawer_1.tray.across": "24 - 2 * (1/2 + 1/64)",
    # 24 less frame, strip and back, less 1/8, and the front of the box lies in the face
    "drawer_1.left_side.length": "22",
}

FRAMED_23_32 = {
    "left_side.length": "34 1/2 - (4 + 1 1/2 - 23/32)",
    "left_side.width": "24 - 3/4",
    "floor.length": "27 - 2 * 1/4 - 2 * 23/32",
    "floor.width": "24 - 3/4 - 23/32 - 1/4",
    "base.toe_rail.width": "4 + 1 1/2 - 23/32",
    "drawer_2.opening": "(30 1/2 - 4 * 1 1/2 - 6) / 2",
    "drawer_1.left_packing.thick": "(27 - 2 * 1/4 - 2 * 23/32 - 24) / 2",
    "drawer_1.tray.across": "24 - 2 * (1/2 + 1/64)",
}


@pytest.mark.parametrize(
    ("construction", "case", "openings", "expected"),
    [
        ("frameless", "white_melamine", ("5 1/2", "11", "11"), FRAMELESS_3_4),
        ("frameless", "thin_birch_ply", ("5 5/8", "11", "11"), FRAMELESS_23_32),
        ("face_frame", "white_melamine", ("6", "share", "share"), FRAMED_3_4),
        ("face_frame", "thin_birch_ply", ("6", "share", "share"), FRAMED_23_32),
    ],
)
def test_a_cabinet_worked_out_by_hand(
    construction: str, case: str, openings: tuple[str, ...], expected: Mapping[str, str]
) -> None:
    assert differing(cabinet(construction, case, *openings), expected) == {}


def test_fixed_openings_close_in_one_construction_and_not_in_the_other() -> None:
    """Common practice: 27 wide, sides of 30 1/2 in 3/4 board, openings 5 1/2, 11 and 11 and four
    members close exactly; with rails of 1 1/2 they are 3 too much, and both sums are shown."""
    openings = ("opening 5 1/2", "opening 11", "opening 11")
    assert errors(cabinet("frameless", "white_melamine", *openings)) == []

    framed = cabinet("face_frame", "white_melamine", *openings)
    assert framed.job is None
    (finding,) = framed.findings
    assert (finding.slug, finding.headline) == (
        "openings-dont-close",
        'the openings of this stack are 3" more than there is',
    )
    drawers = [("less drawer 1", "5 1/2"), ("less drawer 2", "11"), ("less drawer 3", "11")]
    rows = [
        (row.words, None if row.measure is None else row.measure.value) for row in finding.figures
    ]
    expected = [
        # the outer rails stand; the sum begins between them
        ("from edge to edge", "30 1/2 - 2 * 1 1/2"),
        ("less 2 between", "2 * 1 1/2"),
        *drawers,
        ("over", "3"),
        ("built frameless", ""),
        ("from edge to edge", "30 1/2 - 2 * 3/4"),
        ("less 2 between", "2 * 3/4"),
        *drawers,
        ("closes", "0"),
    ]
    assert rows == [(words, worked(sum_) if sum_ else None) for words, sum_ in expected]
    assert finding.help.endswith("built frameless they close")


def test_the_other_way_round_the_other_sum_is_short() -> None:
    openings = ("opening 5", "opening 9", "opening 10 1/2")
    assert errors(cabinet("face_frame", "white_melamine", *openings)) == []
    (finding,) = cabinet("frameless", "white_melamine", *openings).findings
    words = [row.words for row in finding.figures]
    assert words.count("from edge to edge") == 2
    assert finding.headline == 'the openings of this stack are 3" short'
    assert finding.help.endswith("built face_frame they close")


def test_sums_are_worked_out_here() -> None:
    assert worked("30 1/2 - 2 * 1 1/2") == Fraction(55, 2)
    assert worked("24 - 1mm") == 24 - Fraction(10, 254)
    assert worked("(27 - 24) / 2") == Fraction(3, 2)


def test_a_wrong_sum_is_seen() -> None:
    built = cabinet("frameless", "white_melamine", "5 1/2", "11", "11")
    assert differing(built, {"floor.length": "27 - 3/4"}) == {
        "floor.length": ("51/2", "27 - 3/4 = 105/4")
    }
