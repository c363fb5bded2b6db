"""The cut list of one unit of each kind, beside a list worked by hand: nothing more, nothing less.

Each line of a list is: pieces, length by width as finished, and what it is (left to right as the
bench would write it; the words are for the reader). A frameless base's box is 30 1/2 high and 24
deep, its floor 23: before it come a back of 1/4 and a strip of 3/4. A drawer box is 1 1/32 narrower
than what it rides between. What a unit stands on is in its list, as it stands alone: the ladder is
24 less a toe of 3 and a skin of 1/4 deep, its crosses less two boards of 3/4.
"""

import csv
import re
from collections import Counter
from fractions import Fraction
from io import StringIO

import pytest

from casewright.compiler.papers.lists.cut_list import cut_list_csv
from tests.stdlib.kitchens import inches, job_of, kitchen
from tests.stdlib.sizes import CONSTRUCTIONS, USUAL
from tests.stdlib.test_units import BARE

LISTS = {
    ("door_base 18", "frameless"): """
        2  30 1/2   x 24        sides
        1  23       x 16 1/2    floor
        1  16 1/2   x 5         top stretcher
        1  16 1/2   x 4         hanging strip
        1  30 1/2   x 17 1/4    back
        1  16 3/8   x 22 11/16  shelf
        2  18       x 4         ladder, front and back
        1  18       x 4         skin
        2  19 1/4   x 4         ladder, crosses
        1  30 3/8   x 17 3/4    door
    """,
    ("drawer_base 24", "frameless"): """
        2  30 1/2   x 24        sides
        1  23       x 22 1/2    floor
        3  22 1/2   x 5         stretchers
        1  22 1/2   x 4         hanging strip
        1  30 1/2   x 23 1/4    back
        2  24       x 4         ladder, front and back
        1  24       x 4         skin
        2  19 1/4   x 4         ladder, crosses
        2  22       x 5 1/2     upper drawer, sides
        2  20 15/32 x 5 1/2     upper drawer, front and back
        4  22       x 10 1/4    lower drawers, sides
        4  20 15/32 x 10 1/4    lower drawers, fronts and backs
        3  20 31/32 x 21 1/2    drawer bottoms
        1  6 15/16  x 23 3/4    upper front, grain up
        1  11 3/8   x 23 3/4    middle front
        1  11 13/16 x 23 3/4    lower front
    """,
    ("drawer_pair_base 30", "frameless"): """
        2  30 1/2   x 24        sides
        1  28 1/2   x 23        floor
        2  28 1/2   x 5         stretchers
        1  28 1/2   x 4         hanging strip
        1  30 1/2   x 29 1/4    back
        2  30       x 4         ladder, front and back
        1  30       x 4         skin
        3  19 1/4   x 4         ladder, crosses
        2  22       x 5 1/2     drawer, sides
        2  26 15/32 x 5 1/2     drawer, front and back
        1  26 31/32 x 21 1/2    drawer bottom
        1  6 15/16  x 29 3/4    drawer front
        2  23 5/16  x 14 13/16  doors
    """,
    ("sink_base 36", "frameless"): """
        2  30 1/2   x 24        sides
        1  34 1/2   x 23        floor
        1  34 1/2   x 2         stretcher, upright
        1  34 1/2   x 4         hanging strip
        1  30 1/2   x 35 1/4    back
        2  36       x 4         ladder, front and back
        1  36       x 4         skin
        3  19 1/4   x 4         ladder, crosses
        1  6 3/16   x 35 3/4    false front
        1  34 1/2   x 2 1/2     strip behind it
        2  24 1/16  x 17 13/16  doors
    """,
    ("cooktop_base 36", "frameless"): """
        2  30 1/2   x 24        sides
        1  34 1/2   x 23        floor
        2  34 1/2   x 5         stretchers
        1  34 1/2   x 4         hanging strip
        1  30 1/2   x 35 1/4    back
        2  36       x 4         ladder, front and back
        1  36       x 4         skin
        3  19 1/4   x 4         ladder, crosses
        4  22       x 11 5/8    drawers, sides
        4  32 15/32 x 11 5/8    drawers, fronts and backs
        2  32 31/32 x 21 1/2    drawer bottoms
        1  4 3/16   x 35 3/4    false front
        1  34 1/2   x 2 1/2     strip behind it
        1  12 3/4   x 35 3/4    upper front
        1  13 3/16  x 35 3/4    lower front
    """,
    ("open_base 24", "frameless"): """
        2  30 1/2   x 24        sides
        1  23       x 22 1/2    floor
        1  22 1/2   x 5         top stretcher
        1  22 1/2   x 4         hanging strip
        1  30 1/2   x 23 1/4    back
        1  22 1/2   x 22 3/4    fixed shelf
        2  24       x 4         ladder, front and back
        1  24       x 4         skin
        2  19 1/4   x 4         ladder, crosses
    """,
    ("wall_unit 30", "frameless"): """
        2  30       x 12        sides
        2  28 1/2   x 11        floor and top
        2  28 1/2   x 4         strips
        1  30       x 29 1/4    back
        2  28 3/8   x 10 11/16  shelves
        2  29 7/8   x 14 13/16  doors
    """,
    ("wall_hood 30", "frameless"): """
        2  18       x 12        sides
        2  28 1/2   x 11        floor and top
        2  28 1/2   x 4         strips
        1  18       x 29 1/4    back
        2  17 7/8   x 14 13/16  doors
    """,
    ("pantry 30", "frameless"): """
        2  80       x 24        sides
        2  28 1/2   x 23        floor and top
        1  28 1/2   x 5         stretcher
        3  28 1/2   x 4         strips
        1  80       x 29 1/4    back
        6  28 3/8   x 22 11/16  shelves
        2  30       x 4         ladder, front and back
        1  30       x 4         skin
        3  19 1/4   x 4         ladder, crosses
        2  30 11/16 x 14 13/16  upper doors
        2  49 1/16  x 14 13/16  lower doors
    """,
    ("oven_tall 33", "frameless"): """
        2  80       x 24        sides
        2  31 1/2   x 23        floor and top
        3  31 1/2   x 5         stretchers
        3  31 1/2   x 4         strips
        1  80       x 32 1/4    back
        2  33       x 4         ladder, front and back
        1  33       x 4         skin
        3  19 1/4   x 4         ladder, crosses
        4  22       x 9 1/2     drawers, sides
        4  29 15/32 x 9 1/2     drawers, fronts and backs
        2  29 31/32 x 21 1/2    drawer bottoms
        1  10 5/8   x 32 3/4    upper front
        1  11 1/16  x 32 3/4    lower front
        2  28 11/16 x 16 5/16   doors
    """,
    ("end_panel 3/4", "frameless"): """
        1  34 1/2   x 24        panel
    """,
    # Four equal openings: 30 1/2 - 2 x 3/4 - 3 x 3/4 = 26 3/4, a quarter is 6 11/16. A box is 1/2
    # lower; a front is its opening and 3/4 - 1/8 or 3/8 - 1/16 above, 3/8 - 1/16 or 3/4 below.
    ("drawer_bank 24", "frameless"): """
        2  30 1/2   x 24        sides
        1  23       x 22 1/2    floor
        4  22 1/2   x 5         stretchers
        1  22 1/2   x 4         hanging strip
        1  30 1/2   x 23 1/4    back
        2  24       x 4         ladder, front and back
        1  24       x 4         skin
        2  19 1/4   x 4         ladder, crosses
        8  22       x 6 3/16    drawers, sides
        8  20 15/32 x 6 3/16    drawers, fronts and backs
        4  20 31/32 x 21 1/2    drawer bottoms
        1  7 5/8    x 23 3/4    upper front, grain up
        2  7 5/16   x 23 3/4    middle fronts
        1  7 3/4    x 23 3/4    lower front
    """,
    # Two doors: 30 - 3 x 1/8 = 29 5/8, half is 14 13/16; a shelf is 28 1/2 - 2 x 1/16.
    ("pair_base 30", "frameless"): """
        2  30 1/2   x 24        sides
        1  28 1/2   x 23        floor
        1  28 1/2   x 5         top stretcher
        1  28 1/2   x 4         hanging strip
        1  30 1/2   x 29 1/4    back
        1  28 3/8   x 22 11/16  shelf
        2  30       x 4         ladder, front and back
        1  30       x 4         skin
        3  19 1/4   x 4         ladder, crosses
        2  30 3/8   x 14 13/16  doors
    """,
    # Under a drawer of 6 stay 29 - 6 - 3/4 = 22 1/4; the door is 22 1/4 + 3/8 - 1/16 + 3/4.
    ("drawer_door_base 18", "frameless"): """
        2  30 1/2   x 24        sides
        1  23       x 16 1/2    floor
        2  16 1/2   x 5         stretchers
        1  16 1/2   x 4         hanging strip
        1  30 1/2   x 17 1/4    back
        1  16 3/8   x 22 11/16  shelf
        2  18       x 4         ladder, front and back
        1  18       x 4         skin
        2  19 1/4   x 4         ladder, crosses
        2  22       x 5 1/2     drawer, sides
        2  14 15/32 x 5 1/2     drawer, front and back
        1  14 31/32 x 21 1/2    drawer bottom
        1  6 15/16  x 17 3/4    drawer front
        1  23 5/16  x 17 3/4    door
    """,
    # 12 less a back of 1/4 and a strip of 3/4 is 11; a shelf 11 - 1/4 - 1/16.
    ("wall_door 18", "frameless"): """
        2  30       x 12        sides
        2  16 1/2   x 11        floor and top
        2  16 1/2   x 4         strips
        1  30       x 17 1/4    back
        2  16 3/8   x 10 11/16  shelves
        1  29 7/8   x 17 3/4    door
    """,
    ("wall_open 24", "frameless"): """
        2  30       x 12        sides
        2  22 1/2   x 11        floor and top
        2  22 1/2   x 4         strips
        1  30       x 23 1/4    back
        2  22 3/8   x 10 11/16  shelves
    """,
    ("tall_panel 3/4", "frameless"): """
        1  84       x 24        panel
    """,
    # Rails 36 - 2 x 1 1/2; the box 36 - 2 x 1/4, inside 34. Doors over 30 1/2 - 3 x 1 1/2 - 6 = 20:
    # 20 + 2 x 1/2 high, (33 + 2 x 1/2 - 1/8) / 2 wide.
    ("sink_base 36", "face_frame"): """
        2  30 1/2   x 1 1/2     stiles
        3  33       x 1 1/2     rails
        2  29 3/4   x 23 1/4    sides
        1  34       x 22 1/4    floor
        1  34       x 2         stretcher, upright
        1  34       x 4         hanging strip
        1  29 3/4   x 34 3/4    back
        2  35 1/2   x 4 3/4     ladder, front and back
        1  35 1/2   x 4 3/4     skin
        3  19 1/4   x 4 3/4     ladder, crosses
        1  7        x 34        false front
        2  21       x 16 15/16  doors
    """,
    ("door_base 18", "face_frame"): """
        2  30 1/2   x 1 1/2     stiles
        2  15       x 1 1/2     rails
        2  29 3/4   x 23 1/4    sides
        1  22 1/4   x 16        floor
        1  16       x 5         top stretcher
        1  16       x 4         hanging strip
        1  29 3/4   x 16 3/4    back
        1  15 7/8   x 21 15/16  shelf
        2  17 1/2   x 4 3/4     ladder, front and back
        1  17 1/2   x 4 3/4     skin
        2  19 1/4   x 4 3/4     ladder, crosses
        1  28 1/2   x 16        door
    """,
    ("drawer_base 24", "face_frame"): """
        2  30 1/2   x 1 1/2     stiles
        4  21       x 1 1/2     rails
        2  29 3/4   x 23 1/4    sides
        1  22 1/4   x 22        floor
        3  22       x 5         stretchers
        1  22       x 4         hanging strip
        1  29 3/4   x 22 3/4    back
        6  22 1/4   x 1 3/4     packing
        2  23 1/2   x 4 3/4     ladder, front and back
        1  23 1/2   x 4 3/4     skin
        2  19 1/4   x 4 3/4     ladder, crosses
        2  22       x 5 1/2     upper drawer, sides
        2  18 31/32 x 5 1/2     upper drawer, front and back
        4  22       x 8 3/4     lower drawers, sides
        4  18 31/32 x 8 3/4     lower drawers, fronts and backs
        3  19 15/32 x 21 1/2    drawer bottoms
        1  7        x 22        upper front
        2  10 1/4   x 22        lower fronts
    """,
    ("wall_unit 30", "face_frame"): """
        2  30       x 1 1/2     stiles
        2  27       x 1 1/2     rails
        2  29 1/4   x 11 1/4    sides
        2  28       x 10 1/4    floor and top
        2  28       x 4         strips
        1  29 1/4   x 28 3/4    back
        2  27 7/8   x 9 15/16   shelves
        2  28       x 13 15/16  doors
    """,
}

LINE = re.compile(r"\s*(\d+)\s+([\d /]+?)\s+x\s+([\d /]+?)\s{2,}\S")

Sizes = Counter[tuple[str, str]]


def by_hand(text: str) -> Sizes:
    found: Sizes = Counter()
    lines = [line for line in text.splitlines() if line.strip()]
    for line in lines:
        match = LINE.match(line)
        assert match is not None, line
        pieces, length, width = match.groups()
        found[decimal(inches(length)), decimal(inches(width))] += int(pieces)
    return found


def decimal(value: Fraction) -> str:
    return f"{float(value):.4f}"


def listed(list_of: str) -> Sizes:
    """Pieces by finished length and width, out of the cut list a build writes; a blank counts as
    the strips it gives."""
    found: Sizes = Counter()
    for row in csv.DictReader(StringIO(list_of)):
        strips = re.match(r"(\d+) at", row["blank"])
        pieces = int(row["pieces"]) * (int(strips[1]) if strips else 1)
        length, width = (float(row[f"finished_{word}_in"]) for word in ("length", "width"))
        found[f"{length:.4f}", f"{width:.4f}"] += pieces
    return found


def test_one_unit_of_each_kind_has_its_list() -> None:
    worked = {line.split()[0] for line, _ in LISTS}
    assert worked == {*USUAL, *BARE}
    assert {built for _, built in LISTS} == set(CONSTRUCTIONS)


@pytest.mark.parametrize(("line", "built"), LISTS)
def test_cut_list(line: str, built: str) -> None:
    expected = by_hand(LISTS[line, built])
    found = listed(cut_list_csv(job_of(kitchen([line], built))))
    assert found - expected == Counter(), "too many"
    assert expected - found == Counter(), "missing"
