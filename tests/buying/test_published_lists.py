"""Board feet of two published bills of material, as texts: H. H. Windsor, "Mission Furniture: How
to Make It", Chicago, 1909 to 1912 (public domain): "A Bookcase", and "A China Closet" of part 2.

The books give finished sizes and no board feet; the sums are worked out here by the rules of the
National Hardwood Lumber Association: rough stock 4/4 for 3/4, 5/4 for 1 inch, 6/4 for 1 1/4, 12/4
for 2 (surfaced two sides: 13/16, 1 1/16, 1 5/16, 2 3/4), less than an inch counted as one.
"""

from fractions import Fraction

import pytest

from casewright.compiler.model import Job
from casewright.compiler.shop.buying import buying_list
from casewright.lang.printing import decimal
from tests.compiler.examples import compiled

# Pieces, thickness, width and length in inches, as printed.
BOOKCASE = """
1  3/4    15    31.25
1  3/4    4     30.25
2  3/4    14    50
1  3/4    14    28.75
1  3/4    4     28.75
1  3/4    2     45.75
4  3/4    1.5   45.25
4  3/4    1.5   14
4  1/2    0.5   12.5
4  1/2    0.5   7
2  5/4    1.25  13
2  1      1     12.5
3  1/2    12    28.5
12 3/8    4     29.75
"""

CHINA_CLOSET = """
4  2      2     54
2  3/4    15.75 39.5
2  3/4    15.5  38
2  3/4    5     15
2  3/4    4.25  15
1  3/4    3     40
1  3/4    2.25  40
4  3/4    1.75  43.5
4  3/4    2     19
4  3/4    1.5   39.5
5  1/2    8     46.5
2  1      1     37.75
4  1      1     12.75
4  1/2    1     1.5
"""

FIXED = """
measure in inches

job Mission furniture {
  precision 1/64
}

construction bare from nothing_else { }
construction nothing_else { }
"""


def bill(text: str) -> Job:
    """A row of everything in a bill of material, a lumber for each thickness."""
    rows = [tuple(Fraction(cell) for cell in line.split()) for line in text.split("\n") if line]
    lines = [FIXED]
    for thick in sorted({row[1] for row in rows}):
        lines.append(f"lumber {lumber(thick)} {{ thick {decimal(thick)}  grain yes }}")
    places: list[str] = []
    across = Fraction(0)
    for index, (count, thick, wide, long) in enumerate(rows, 1):
        lines.append(
            f"unit piece_{index}  bare  built nothing_else {{\n  high {decimal(long)}\n"
            f"  depth {decimal(thick)}\n"
            f"  part board of {lumber(thick)}  deep from front  grain up\n  step board\n}}"
        )
        for _ in range(int(count)):
            places.append(f"  S{len(places) + 1}: piece_{index} {decimal(wide)}")
            across += wide
    lines.append(
        f"room loft {{\n  ceiling 400\n  counter 36 thick 1 1/2\n"
        f"  wall long length {decimal(across)}\n}}"
    )
    lines += ["run wall on long from left {", *places, "}"]
    built = compiled({"bill.case": "\n".join(lines).encode() + b"\n"}, "bill.case")
    assert built.job is not None
    return built.job


def lumber(thick: Fraction) -> str:
    return f"oak_{thick.numerator}_{thick.denominator}"


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        # 3/4: 2954.25 square inches; 1/2: 1065; 3/8: 1428, all counted as an inch. Cleats of
        # 1 1/4 from 6/4: 32.5 x 1.5; of 1 from 5/4: 25 x 1.25.
        (BOOKCASE, Fraction("2954.25") + 1065 + 1428 + Fraction("48.75") + Fraction("31.25")),
        # 3/4: 3603.25; 1/2: 1866; cleats of 1 from 5/4: 126.5 x 1.25; posts from 12/4: 432 x 3.
        (CHINA_CLOSET, Fraction("3603.25") + 1866 + Fraction("158.125") + 1296),
    ],
    ids=["bookcase", "china closet"],
)
def test_board_feet_of_a_published_bill(text: str, inches: Fraction) -> None:
    rows = buying_list(bill(text), ()).rows
    assert {row.measure for row in rows} == {"board foot"}
    assert sum(row.net for row in rows) == inches / 144
