"""Published figures of the 32 mm system, each out of a kitchen that was built.

The chapters are "What all modular 32mm systems have in common" and "32mm Cabinetmaking".

Sources stand at each test: title and section for what was printed, `common practice` for what shops
do, `from memory` for what no page was at hand for.
"""

from fractions import Fraction
from itertools import pairwise

import pytest

from casewright.compiler.model import Hole, Unit
from casewright.compiler.shop.buying import buying_list
from casewright.lang.measure import INCH
from tests.stdlib.kitchens import job_of, kitchen, part, unit_of

F = Fraction
MM = 1 / INCH


def holes(unit: Unit, address: str, use: str) -> list[Hole]:
    return [each for each in part(unit, address).holes if each.use == use]


def places(found: list[Hole], axis: str) -> list[Fraction]:
    return sorted({each.at[each.at_axes.index(axis)].value for each in found})


@pytest.mark.parametrize(
    ("shop", "front"), [("", F(37) * MM), ("fitted inset", F(37) * MM + F("3/4"))]
)
def test_hole_rows(shop: str, front: Fraction) -> None:
    """5 mm holes 32 apart, the first row 37 from the front (and an inset door's thickness more),
    the second a multiple of 32 behind it."""
    unit = unit_of("wall_open 24", shop=shop)
    for side in ("left_side", "right_side"):
        found = holes(unit, side, "pins")
        ups, deeps = places(found, "up"), places(found, "deep")
        assert len(found) == len(ups) * len(deeps)
        assert {each.diameter.value for each in found} == {5 * MM}
        assert {second - first for first, second in pairwise(ups)} == {32 * MM}
        assert deeps[0] == front
        assert ((deeps[1] - deeps[0]) / (32 * MM)).denominator == 1
        assert {each.side for each in found} == {1 if side == "left_side" else -1}


def test_pins_stand_in_holes_and_the_shelf_on_them() -> None:
    """A pin's hole is about 13 mm deep (from memory: 12 here)."""
    unit = unit_of("door_base 18")
    rows = places(holes(unit, "left_side", "pins"), "up")
    pin = part(unit, "door.left_front_pin").box
    assert (pin.up[0] + pin.up[1]) / 2 in rows
    assert part(unit, "door.shelf").box.up[0] == pin.up[1]
    assert {each.depth.value for each in holes(unit, "left_side", "pins")} == {12 * MM}


TWO_FRONTS = """unit two_fronts from base_unit {{
  stack {{
    drawer {front}
    drawer share
  }}
}}"""


@pytest.mark.parametrize("count", [4, 5, 6, 8, 10, 16])
def test_fronts_of_whole_modules(count: int) -> None:
    """n x 32 less the gap of 3: 125, 157, 189, 253, 317, 509 (computed): said as fronts they
    come out as said."""
    expected = {4: 125, 5: 157, 6: 189, 8: 253, 10: 317, 16: 509}[count]
    front = count * 32 - 3
    assert front == expected
    unit = unit_of(
        "two_fronts 600",
        "metric_frameless",
        shop="sizes_are front\n pulled no",
        more=TWO_FRONTS.format(front=front),
        metric=True,
    )
    assert part(unit, "drawer_1.face").length.value == front * MM


NINETEEN = """
sheet nineteen {{ thick 19mm  stock 2070mm by 2800mm  grain none  band white_edge }}
unit two_doors from base_unit {{
  stack {{
    door front {front} hung left
    door share hung left  shelves 1
  }}
}}
"""

SYSTEM = "case nineteen\n toe none\n pulled no\n sizes_are front\n least_door 50"


@pytest.mark.parametrize("count", [15, 20, 22, 24])
def test_rows_begin_as_far_from_the_bottom_as_they_end_from_the_top(count: int) -> None:
    """Half the panel's thickness, 9.5 for 19, is a hole's distance, so that a side is n x 32 + 19:
    499, 659, 723, 787 (computed). The floor covers the first of them; the row begins at the
    second."""
    high = {15: 499, 20: 659, 22: 723, 24: 787}[count]
    assert high == count * 32 + 19
    unit = unit_of(
        f"wall_open 600 high {high}",
        "metric_frameless",
        shop=f"{SYSTEM}\n first_hole 22.5",
        more=NINETEEN.format(front=253),
        metric=True,
    )
    side = part(unit, "left_side").box.up
    ups = places(holes(unit, "left_side", "pins"), "up")
    assert ups[0] - side[0] == side[1] - ups[-1] == (F("9.5") + 32) * MM
    assert len(ups) == count - 1


@pytest.mark.parametrize("count", [8, 10, 12])
def test_an_edge_and_half_its_gap_fall_on_a_hole(count: int) -> None:
    """Face heights n x 32 less the gap, the edge and half the gap on, or midway between, two
    holes."""
    unit = unit_of(
        "two_doors 450 high 723 depth 580",
        "metric_frameless",
        shop=f"{SYSTEM}\n first_hole 22.5\n gap_above 11\n gap_below 11",
        more=NINETEEN.format(front=count * 32 - 3),
        metric=True,
    )
    row = places(holes(unit, "left_side", "pins"), "up")
    for address, heights in (("door_1.face", count), ("door_2.face", 22 - count)):
        face = part(unit, address)
        assert face.length.value == (heights * 32 - 3) * MM
        for edge in (face.box.up[0] - F("1.5") * MM, face.box.up[1] + F("1.5") * MM):
            assert ((edge - row[0]) / (16 * MM)).denominator == 1


def test_cups_stand_equally_from_both_ends_22_5_from_the_edge() -> None:
    """Cup 35 mm, its middle 17.5 + 5 from the edge (from memory), equal from top and bottom."""
    unit = unit_of("door_base 18  hung left")
    face = part(unit, "door.face")
    cups = holes(unit, "door.face", "cup")
    assert {each.diameter.value for each in cups} == {35 * MM}
    assert places(cups, "across") == [face.box.across[0] + F("22.5") * MM]
    low, high = places(cups, "up")
    assert low - face.box.up[0] == face.box.up[1] - high
    right = unit_of("door_base 18  hung right")
    edge = part(right, "door.face").box.across[1]
    assert places(holes(right, "door.face", "cup"), "across") == [edge - F("22.5") * MM]


def test_hinge_plates_have_two_holes_32_apart_on_the_line_of_37() -> None:
    """From memory; the plate's middle is the cup's."""
    unit = unit_of("door_base 18")
    cups = places(holes(unit, "door.face", "cup"), "up")
    plates = holes(unit, "left_side", "plate")
    assert places(plates, "deep") == [37 * MM]
    assert places(plates, "up") == sorted(
        [cup + half for cup in cups for half in (-16 * MM, 16 * MM)]
    )


def test_dowels_are_8_mm_and_three_screws_join_frames() -> None:
    """8 mm construction holes: common practice of the same system."""
    unit = unit_of("drawer_base 24", "face_frame", shop="frame_joint dowelled")
    dowelled = [each for each in unit.joints if each.fixing and each.fixing.hold == "dowel"]
    # Six rail ends, two more for each of the two mid rails' ends counted among them.
    assert len(dowelled) == 2 * 4
    assert {each.fasteners[0].count for each in dowelled} == {2}
    job = job_of(kitchen(["drawer_base 24"], "face_frame", shop="frame_joint dowelled"))
    titles = {row.title for row in buying_list(job, ()).rows}
    assert "dowel, 8 mm by 30 mm" in titles
