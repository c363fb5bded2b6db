"""The cut lists of corner units beside lists worked by hand: nothing more, nothing less.

A base is 24 deep and its box 30 1/2 high; of a unit 36 along its wall and 40 along the other,
36 - 24 = 12 and 40 - 24 = 16 are left beside its legs, and a face from leg to leg is 20 long (3, 4
and 5, four times). Backs are 1/2, laid on, their grain up. A wall unit of 24 and 28 is 12 deep, and
has the same 12 and 16. The left end stands beside a space (a gap of 1/8), the other beside a unit
that shares the gap.
"""

from collections import Counter

import pytest

from casewright.compiler.papers.lists.cut_list import cut_list_csv
from tests.rooms.corners import errors, in_corner
from tests.stdlib.test_cut_lists import by_hand, listed

LISTS = {
    # Ladder: its toe stands 3 and a skin of 1/4 behind the faces. Rails: 12 + 3 1/4 = 15 1/4, and
    # 16 + 3 1/4 + 3/4 = 20; crosses 24 - 3 1/4 - 2 x 3/4. Doors keep 3/4 + 1/16 from the inside
    # corner: 12 - 13/16 - 1/8 and 16 - 13/16 - 1/16.
    ("corner_base 36 return 40", "frameless"): """
        2  30 1/2   x 23 1/2    sides, 24 - 1/2
        1  30 1/2   x 36        back
        1  30 1/2   x 39 1/2    back of the other leg, 40 - 1/2
        3  34 3/4   x 38 3/4    floor, top and shelf: 36 and 40, less 3/4 and 1/2
        1  34 3/4   x 4         hanging strip
        1  38       x 4         the other leg's, 38 3/4 - 3/4
        1  36       x 4         ladder, back
        1  39 1/4   x 4         ladder, side, 40 - 3/4
        1  15 1/4   x 4         ladder, toe rail
        1  20       x 4         ladder, toe rail of the other leg
        3  19 1/4   x 4         ladder, crosses
        1  15       x 4         skin, 15 1/4 - 1/4
        1  19 1/4   x 4         skin of the other leg, 16 + 3 1/4
        1  30 3/8   x 11 1/16   door
        1  30 3/8   x 15 1/8    door of the other leg
    """,
    # The frames stand 1/4 past the box at both ends and 3/4 before it; their bottom rail of 1 1/2
    # makes the box 3/4 lower and the ladder 3/4 higher. Doors lap their openings by 1/2 all round.
    ("corner_base 36 return 40", "face_frame"): """
        4  30 1/2   x 1 1/2     stiles
        2  9        x 1 1/2     rails, 12 - 2 x 1 1/2
        2  13       x 1 1/2     rails of the other leg, 16 - 3
        1  30 1/2   x 3/4       post between the frames
        2  29 3/4   x 22 3/4    sides, 24 - 3/4 - 1/2
        1  29 3/4   x 35 3/4    back, 36 - 1/4
        1  29 3/4   x 39 1/4    back of the other leg, 40 - 1/4 - 1/2
        3  34 1/2   x 38 1/2    floor, top and shelf: 1/4 less than without frames
        1  34 1/2   x 4         hanging strip
        1  37 3/4   x 4         the other leg's, 38 1/2 - 3/4
        1  35 3/4   x 4 3/4     ladder, back
        1  39       x 4 3/4     ladder, side, 40 - 1/4 - 3/4
        1  15       x 4 3/4     ladder, toe rail, 15 1/4 - 1/4
        1  19 3/4   x 4 3/4     ladder, toe rail of the other leg, 20 - 1/4
        3  19 1/4   x 4 3/4     ladder, crosses
        1  14 3/4   x 4 3/4     skin
        1  19       x 4 3/4     skin of the other leg
        1  28 1/2   x 10        door, 30 1/2 - 3 + 1 by 9 + 1
        1  28 1/2   x 14        door of the other leg
    """,
    # 24 - 12 = 12 and 27 - 12 = 15 are left beside its legs.
    ("corner_wall 24 return 27", "frameless"): """
        2  30       x 11 1/2    sides
        1  30       x 24        back
        1  30       x 26 1/2    back of the other leg
        4  22 3/4   x 25 3/4    floor, top and two shelves
        1  22 3/4   x 4         hanging strip
        1  25       x 4         the other leg's
        1  29 7/8   x 11 1/16   door
        1  29 7/8   x 14 1/8    door of the other leg, 15 - 13/16 - 1/16
    """,
    # A side is longer by its bevel: 3/4 x 16/12 = 1 on the left, 3/4 x 12/16 = 9/16. The door keeps
    # 1/8 and its thickness from both ends of the face. The ladder's left cross begins 3 1/4 x 20/12
    # - 1 = 4 5/12 behind the leg's front, its other 3 1/4 x 20/16 - 9/16 = 3 1/2. The toe rail is 4
    # behind the face at its back, 20 + 4 x 16/12 + 4 x 12/16 = 28 1/3 wide there, less the two
    # crosses of 3/4, 3/4 x 20/12 = 1 1/4 and 15/16; the skirt 3 behind it, 20 + 4 + 2 1/4.
    ("diagonal_base 36 return 40", "frameless"): """
        1  30 1/2   x 24 1/2    left side, 24 - 1/2 + 1
        1  30 1/2   x 24 1/16   right side, 24 - 1/2 + 9/16
        1  30 1/2   x 36        back
        1  30 1/2   x 39 1/2    back of the other leg
        3  34 3/4   x 38 3/4    floor, top and shelf
        1  34 3/4   x 4         hanging strip
        1  38       x 4         the other leg's
        2  29       x 2         posts, 30 1/2 - 2 x 3/4
        1  36       x 4         ladder, back
        1  39 1/4   x 4         ladder, side
        1  18 5/6   x 4         ladder, left cross, 24 - 3/4 - 4 5/12
        1  19 3/4   x 4         ladder, other cross, 24 - 3/4 - 3 1/2
        1  26 7/48  x 4         toe rail, 28 1/3 - 1 1/4 - 15/16
        1  26 1/4   x 4         toe skirt
        1  30 3/8   x 18 1/4    door, 20 - 2 x 7/8
    """,
    # Behind a frame of 3/4 the box begins 3/4 in, from both outer ends. A side ends, along its leg,
    # 3/4 x 20/12 = 1 1/4 less (3/4 + 3/4) x 16/12 = 2: 3/4 before the leg's front; the right one
    # 15/16 less 1 1/8: 3/16 before it. The ladder's crosses: 5 5/12 - 2 and 4 1/16 - 1 1/8 behind.
    ("diagonal_base 36 return 40", "face_frame"): """
        2  30 1/2   x 1 1/2     stiles
        2  17       x 1 1/2     rails, 20 - 3
        1  29 3/4   x 24 1/4    left side, 24 - 1/2 + 3/4
        1  29 3/4   x 23 11/16  right side, 24 - 1/2 + 3/16
        1  29 3/4   x 35 1/4    back, 36 - 3/4
        1  29 3/4   x 38 3/4    back of the other leg, 40 - 3/4 - 1/2
        3  34       x 38        floor, top and shelf
        1  34       x 4         hanging strip
        1  37 1/4   x 4         the other leg's
        1  35 1/4   x 4 3/4     ladder, back
        1  38 1/2   x 4 3/4     ladder, side, 40 - 3/4 - 3/4
        1  19 5/6   x 4 3/4     ladder, left cross, 24 - 3/4 - 3 5/12
        1  20 5/16  x 4 3/4     ladder, other cross, 24 - 3/4 - 2 15/16
        1  23 23/24 x 4 3/4     toe rail, 28 1/3 - 2 x (1 1/4 + 15/16)
        1  26 1/4   x 4 3/4     toe skirt
        1  28 1/2   x 18        door, 17 + 1
    """,
    ("diagonal_wall 24 return 28", "frameless"): """
        1  30       x 12 1/2    left side, 12 - 1/2 + 1
        1  30       x 12 1/16   right side
        1  30       x 24        back
        1  30       x 27 1/2    back of the other leg
        4  22 3/4   x 26 3/4    floor, top and two shelves
        1  22 3/4   x 4         hanging strip
        1  26       x 4         the other leg's, 26 3/4 - 3/4
        2  28 1/2   x 2         posts
        1  29 7/8   x 18 1/4    door
    """,
}


def test_one_corner_unit_of_each_kind_has_its_list() -> None:
    worked = {line.split()[0] for line, _ in LISTS}
    assert worked == {"corner_base", "corner_wall", "diagonal_base", "diagonal_wall"}


@pytest.mark.parametrize(("line", "built"), LISTS)
def test_cut_list_of_a_corner_unit(line: str, built: str) -> None:
    job = in_corner(line, built).job
    assert job is not None, errors(in_corner(line, built))
    expected, found = by_hand(LISTS[line, built]), listed(cut_list_csv(job, "S2"))
    assert found - expected == Counter(), "too many"
    assert expected - found == Counter(), "missing"
