"""What cuts leave is banded on the boards of corner units: lengths and sizes worked by hand.

The white edge is 1 mm, 0.0393701 in, and counts; 22 mm of it cover a board, 45 mm a bevel.
"""

from fractions import Fraction

import pytest
from attrs import evolve

from casewright.compiler.difference import Fate, fate_of
from casewright.compiler.explain import explain
from casewright.compiler.papers.job_json import job_json
from casewright.compiler.papers.lists.band_list import BandGroup, band_list
from casewright.compiler.papers.lists.machining import worked
from casewright.compiler.papers.pages.band_pages import when
from casewright.compiler.papers.pieces import built
from casewright.compiler.shop.buying import banded_lengths
from tests.rooms.corners import in_corner, unit_of
from tests.stdlib.kitchens import part, size

F = Fraction

MM = 1 / F("25.4")


def edges(line: str, address: str) -> list[tuple[str, F, F, str]]:
    """The banded edges that cuts leave on a part: name, length, width and band."""
    found = part(unit_of(in_corner(line)), address)
    return [
        (each.name, each.length.value, each.wide.value, each.band.name) for each in found.cut_edges
    ]


def test_a_diagonal_unit_with_legs_alike() -> None:
    line = "diagonal_base 36 return 36"
    # Floor and cap lose a corner of 12 - 2 x 3/4 = 10 1/2: 10 1/2 x 1.414214 = 14.849242.
    assert edges(line, "floor") == [("cut_corner", F("14.849"), F("0.75"), "white_edge")]
    assert edges(line, "cap") == edges(line, "floor")
    # The shelf's stands 2 behind it: 2 x 16.971 / 12 = 2.8285 more, 13.3285 x 1.414214 = 18.849350.
    assert edges(line, "shelf") == [("cut_corner", F("18.849"), F("0.75"), "white_edge")]
    # A side of 3/4 shows 3/4 x 1.414214 = 1.060660 in the face, more than 7/8, all its height up.
    for side in ("left_side", "right_side"):
        assert edges(line, side) == [("cut_corner", F("30.5"), F("1.061"), "white_edge_wide")]
    unit = unit_of(in_corner(line))
    # Before its band the floor's cut is 1 mm deeper, 0.0393701 x 1.414214 = 0.055678 along a leg.
    (cut,) = part(unit, "floor").cuts
    assert cut.sawn is not None
    assert (cut.sawn.size("across"), cut.sawn.size("deep")) == (F("10.556"), F("10.556"))
    assert cut.box.size("across") == F("10.5")
    # The board is whole but for that; the side is sawn shorter by as much, its bevel as finished.
    assert part(unit, "floor").cut_width.value == F("34.75")
    side_part = part(unit, "left_side")
    assert (side_part.width.value, side_part.cut_width.value) == (F("24.25"), F("24.194"))
    (bevel,) = side_part.cuts
    assert bevel.sawn is not None
    assert (bevel.sawn.size("across"), bevel.sawn.size("deep")) == (F("0.75"), F("0.75"))
    assert bevel.sawn.deep[0] - bevel.box.deep[0] == F("0.056")


def test_a_diagonal_unit_with_legs_of_3_and_4() -> None:
    line = "diagonal_base 36 return 40"
    # 12 and 16 are left beside the legs: the face is 20 long, exactly. The sides are bevelled by
    # 3/4 x 4/3 = 1 and 3/4 x 3/4 = 9/16; the floor loses 12 - 3/4 - 9/16 = 10 11/16 by 16 - 3/4 - 1
    # = 14 1/4, and 10 11/16 x 5/3 = 17 13/16.
    assert edges(line, "floor") == [("cut_corner", F("17.813"), F("0.75"), "white_edge")]
    # 3/4 x 5/3 = 1 1/4 and 3/4 x 5/4 = 15/16 show in the face.
    assert edges(line, "left_side") == [("cut_corner", F("30.5"), F("1.25"), "white_edge_wide")]
    assert edges(line, "right_side") == [("cut_corner", F("30.5"), F("0.938"), "white_edge_wide")]
    # The shelf stands 2 behind it: 2 x 5/4 and 2 x 5/3 more; 13 3/16 x 5/3 = 21.979167.
    assert edges(line, "shelf") == [("cut_corner", F("21.979"), F("0.75"), "white_edge")]
    # 1 mm x 5/4 = 0.049213 and 1 mm x 5/3 = 0.065617 more are sawn of the floor.
    (cut,) = part(unit_of(in_corner(line)), "floor").cuts
    assert cut.sawn is not None
    assert cut.sawn.size("across") == F("10.6875") + F("0.049")
    assert cut.sawn.size("deep") == F("14.25") + F("0.066")


def test_a_unit_of_two_legs() -> None:
    line = "corner_base 36 return 40"
    # Between its side (3/4) and the leg around the corner (36 - 24 = 12) 11 1/4 are cut, 40 - 24 -
    # 3/4 = 15 1/4 the other way; one edge looks to the left, the other to the front.
    floor = [
        ("cut_left", F("15.25"), F("0.75"), "white_edge"),
        ("cut_front", F("11.25"), F("0.75"), "white_edge"),
    ]
    assert edges(line, "floor") == edges(line, "cap") == floor
    # The shelf's front edges stand 1/4 further in.
    assert [length for _, length, _, _ in edges(line, "shelf")] == [F("15.5"), F("11.5")]
    (cut,) = part(unit_of(in_corner(line)), "floor").cuts
    assert cut.sawn is not None
    assert cut.sawn.size("across") == F("11.25") + MM
    assert cut.sawn.size("deep") == F("15.25") + MM


def groups(line: str) -> dict[str, BandGroup]:
    job = in_corner(line).job
    assert job is not None
    return {group.band.name: group for group in band_list(job, "S2")}


def test_the_band_list_has_them() -> None:
    found = groups("diagonal_base 36 return 36")
    said = {
        row.row.part_words: ([(edge.word, edge.length.value) for edge in row.edges], when(row))
        for group in found.values()
        for row in group.rows
    }
    after = "what the cut leaves after it"
    assert said["floor, cap"] == ([("cut corner", F("14.849"))], after)
    assert said["left side"] == ([("bevel", F("30.5"))], after)
    posts = next(found for words, found in said.items() if "post" in words)
    assert posts == ([("front", 29)], "as cut")
    # Floor, cap, shelf and two posts of 30 1/2 - 2 x 3/4; and both bevels.
    white, wide = found["white_edge"], found["white_edge_wide"]
    assert white.length.value == 2 * F("14.849") + F("18.849") + 2 * 29
    assert wide.length.value == 2 * F("30.5")


def test_lists_agree_on_what_is_banded() -> None:
    found = in_corner("corner_base 36 return 40")
    job = found.job
    assert job is not None
    lengths: dict[str, F] = {}
    for item in built(job):
        for each in item.unit.parts:
            for band, long in banded_lengths(each):
                lengths[band.name] = lengths.get(band.name, F(0)) + long
    listed = {group.band.name: group.length.value for group in band_list(job)}
    assert listed == lengths
    explained = explain(job, "S2.floor.cut_front")
    assert explained is not None
    assert explained.quantity.value == F("11.25")
    assert '"looks": [\n' in job_json(job) or '"looks":' in job_json(job)


def test_machining_says_what_is_sawn_before_the_band() -> None:
    job = in_corner("diagonal_base 36 return 36").job
    assert job is not None
    item = next(each for each in built(job) if each.label == "S2")
    notes = {
        each.part.address: [
            "".join(piece if isinstance(piece, str) else str(piece.value) for piece in work.size)
            for work in each.works
        ]
        for each in worked(item)
    }
    assert notes["floor"] == ["right through; before banding 2639/250 by 2639/250"]
    assert notes["left_side"] == ["right through; banded after it"]


@pytest.mark.parametrize(
    ("was", "now", "fates"),
    [
        # 2 come off its right end, at the wall, where nothing is banded.
        ("corner_base 36 return 36", "corner_base 34 return 36 leg_deep 22", ("cut down",) * 2),
        # What is cut out of it is 2 less across: its banded edge would have to come off.
        ("corner_base 36 return 36", "corner_base 34 return 36", ("cut again",) * 2),
        ("diagonal_base 36 return 36", "diagonal_base 35 return 36", ("cut again",) * 2),
        ("diagonal_base 36 return 36", "diagonal_base 36 return 36", ("kept",) * 2),
    ],
)
def test_what_becomes_of_a_board_that_is_cut(was: str, now: str, fates: tuple[str, ...]) -> None:
    old, new = (unit_of(in_corner(line)) for line in (was, now))
    found = tuple(fate_of(part(old, name), part(new, name))[0] for name in ("floor", "cap"))
    assert found == tuple(Fate(word) for word in fates)


def test_a_banded_cut_is_not_the_bare_one() -> None:
    banded = part(unit_of(in_corner("corner_base 36 return 36")), "floor")
    bare = evolve(banded, cuts=tuple(evolve(cut, edges=(), sawn=None) for cut in banded.cuts))
    assert fate_of(bare, banded) == (Fate.CUT_AGAIN, "banded otherwise")


def test_a_left_corner_has_the_same_bands() -> None:
    right, left = (
        unit_of(in_corner("corner_base 36 return 40", hand=hand)) for hand in ("right", "left")
    )
    assert size(right, "floor") == size(left, "floor")
    looks = {each.looks: each.length.value for each in part(left, "floor").cut_edges}
    # Its text is read in a mirror: what looks to the left there looks to the right here.
    assert looks == {("right",): F("15.25"), ("front",): F("11.25")}
