"""What runs along units, piece by piece: worked out by hand from rows of planks."""

import csv
import io
from fractions import Fraction

import pytest

from casewright.compiler.cutting.linear import LinearList, linear_lists
from casewright.compiler.cutting.plan_files import check_files, plan_file
from casewright.compiler.model import Job
from casewright.compiler.papers.pages.linear_pages import linear_csv, linear_pages
from casewright.compiler.papers.pages.press import Press
from casewright.compiler.shop.buying import buying_list
from casewright.compiler.shop.estimate import estimate
from casewright.lang.printing import Printing
from tests.buying.shops import planks

SAW = "saw bench { kerf 1/8 }"

UNITS = """
unit plank  bare  built nothing_else  serves %(role)s {
  high  30
  depth 3/4
  part board of oak  deep from front  grain up
  step board
}
"""


def rail(
    count: int, says: str, *, wide: str = "30", role: str = "base_unit", more: str = ""
) -> Job:
    """So many units in a row, 30 wide, and a rail along them."""
    return planks(
        count,
        wide=wide,
        more=f"{SAW}\nlinear rail {{ along base_unit  {says} }}\n{more}",
        unit=UNITS % {"role": role},
    )


def only(job: Job) -> LinearList:
    lists, findings = linear_lists(job)
    assert findings == ()
    (listed,) = lists.lists
    return listed


def test_a_rail_is_one_piece_where_a_length_holds_it() -> None:
    listed = only(rail(3, "lengths 96  over 1"))
    (piece,) = listed.pieces
    assert (piece.at, piece.length, piece.cut) == (0, 90, 92)
    assert (piece.left, piece.right) == ("end", "end")
    assert piece.shares == {"S1": 30, "S2": 30, "S3": 30}
    assert listed.headline == "1 length"


def test_joints_stand_where_two_units_meet_as_late_as_the_length_allows() -> None:
    """150 from 96s: three units are 90, and two are left, 60: a fourth unit would be 120."""
    first, second = only(rail(5, "lengths 96")).pieces
    assert (first.at, first.length) == (0, 90)
    assert (second.at, second.length) == (90, 60)
    assert first.right == second.left == "joint between S3 and S4"
    # An inch over at each end is still held; four inches are not.
    assert [each.length for each in only(rail(5, "lengths 96  over 3")).pieces] == [90, 60]
    assert [each.length for each in only(rail(5, "lengths 96  over 4")).pieces] == [60, 60, 30]


def test_no_joint_stands_beside_what_it_keeps_clear_of() -> None:
    """Every unit keeps it away, so the joint is said to stand where it must."""
    listed = only(rail(4, "lengths 96  clear_of base_unit"))
    assert listed.pieces[0].right == "joint between S3 and S4, since none stands clear"


def test_a_unit_longer_than_any_length_is_jointed_at_it() -> None:
    pieces = only(rail(1, "lengths 48", wide="60")).pieces
    assert [(each.at, each.length) for each in pieces] == [(0, 48), (48, 12)]
    assert pieces[0].right == "joint at S1, since no two units meet before"


@pytest.mark.parametrize(
    ("count", "lengths", "bars"),
    [
        # Units of 30 against 31: a piece a unit, each a length of its own.
        (3, "lengths 31", [31, 31, 31]),
        # 90 in one; its left-overs are too short for the 30 that is jointed to it.
        (4, "lengths 96", [96, 96]),
        # 90 and 30: the 48 takes the 30 (144 together), a second 96 would be 192.
        (4, "lengths 48 96", [48, 96]),
    ],
)
def test_the_least_is_bought(count: int, lengths: str, bars: list[int]) -> None:
    listed = only(rail(count, lengths))
    assert sorted(listed.bars) == bars
    assert listed.proved


def test_nothing_runs_along_what_serves_another_role() -> None:
    assert linear_lists(rail(2, "lengths 96", role="wall_unit"))[0].lists == ()
    past = rail(2, "lengths 96  past wall_unit", role="wall_unit")
    assert linear_lists(past)[0].lists == ()


def test_a_plan_of_lengths_holds_and_a_tampered_one_does_not() -> None:
    lists, _ = linear_lists(rail(5, "lengths 96"))
    made = lists.planned["linear_rail"]
    text = plan_file("rail", made.request, made.plan)
    assert check_files(text, made.certificate)[1] == ()
    longer = text.replace('"length":"90"', '"length":"91"', 1)
    assert longer != text
    assert check_files(longer, made.certificate)[1] != ()


def test_what_cannot_be_planned_is_said_at_its_line() -> None:
    """No length of stock is longer than 800 inches."""
    lists, findings = linear_lists(rail(1, "lengths 900"))
    assert lists.lists == ()
    assert [each.slug for each in findings] == ["boards-not-planned"]
    assert findings[0].span is not None


def test_lengths_are_bought_and_priced_by_the_foot_or_the_piece() -> None:
    """120 from a 96 and a 48 is 12 feet at 2.50, 30.00; by the piece, two at 11, 22.00."""
    for price, cents in (("2.50 per foot", 3000), ("11 per piece", 2200)):
        job = rail(
            4,
            "lengths 48 96",
            more=f"rates r {{\n  currency usd\n  price rail {price}\n}}",
        )
        lists, _ = linear_lists(job)
        buying = buying_list(job, (), linear=lists)
        rows = [row for row in buying.rows if row.section == "linear"]
        assert [(row.long, row.needed) for row in rows] == [(48, 1), (96, 1)]
        assert sum(sum(row.uses.values()) for row in rows) == 2
        made = estimate(job, (), buying)
        assert made is not None
        assert made.trades()["by the length"] == cents


def test_the_list_and_the_page_say_every_piece() -> None:
    job = rail(5, "lengths 96  over 1/2")
    lists, _ = linear_lists(job)
    rows = list(csv.DictReader(io.StringIO(linear_csv(job, lists.lists))))
    assert [(row["begins_in"], row["covers_in"], row["cut_in"]) for row in rows] == [
        ("0", "90", "91"),
        ("90", "60", "61"),
    ]
    (page,) = linear_pages(job, lists.lists, buying_list(job, (), linear=lists))
    text = Press(Printing(job.system, job.precision.value)).set(page.template, **page.values)
    assert "left: joint between S3 and S4; right: end" in text
    assert "A piece is cut 1/2 longer at each end" in text
    assert sum((piece.length for piece in lists.lists[0].pieces), Fraction(0)) == 150
