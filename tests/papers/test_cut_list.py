"""The cut list: nothing missing, nothing twice, and the figures a sawyer sets."""

import csv
import io
from collections import Counter
from fractions import Fraction

import pytest
from attrs import evolve

from casewright.compiler.papers.lists.cut_list import cut_list, cut_list_csv
from casewright.compiler.papers.lists.spreadsheet import guarded, sheet
from casewright.compiler.papers.pieces import built, sawn
from tests.papers.sample import galley, metric


def rows_of(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline="")))


@pytest.mark.parametrize("framed", [False, True])
def test_every_part_is_on_exactly_one_row(framed: bool) -> None:
    job = galley(framed)
    wanted = Counter(
        f"{item.holder}.{part.address}" for item in built(job) for part in sawn(item.unit)
    )
    listed = Counter(
        address for group in cut_list(job) for row in group.rows for address in row.part_addresses
    )
    assert listed == wanted
    assert len(wanted) > 100


def test_hardware_is_not_sawn() -> None:
    assert "slide" not in cut_list_csv(galley())


def test_rows_stand_by_material_then_fence_then_crosscut() -> None:
    for group in cut_list(galley()):
        settings = [fence.rip.value for fence in group.fences]
        assert settings == sorted(settings, reverse=True)
        assert len(settings) == len(set(settings))
        for fence in group.fences:
            lengths = [row.first.crosscut.value for row in fence.rows]
            assert lengths == sorted(lengths, reverse=True)


def test_equal_pieces_share_a_row_and_list_their_units() -> None:
    # Ten sides of base units, 24 deep by 30 1/2: five units, two each. The band is 1 mm and counts.
    (row,) = [row for row in rows_of(cut_list_csv(galley())) if row["finished_width_in"] == "24"]
    assert row["pieces"] == str(5 * 2)
    assert row["unit"] == "S1, S2, S3, S5, S6"
    assert row["part"] == "left side, right side"
    assert row["crosscut_in"] == "30.5"
    assert Fraction(row["rip_in"]) == Fraction(24 * 10000 - round(10 / 254 * 10000), 10000)


def test_a_blank_is_one_piece_that_says_what_it_becomes() -> None:
    rows = [row for row in rows_of(cut_list_csv(galley())) if row["blank"]]
    assert [row["unit"] for row in rows] == ["S6", "S2"]
    # Two strips of 5 and a kerf of 1/8, less a 1 mm band on both long edges: 10 1/8 - 2/25.4.
    assert {row["rip_in"] for row in rows} == {"10.0463"}
    assert {row["blank"] for row in rows} == {"2 at 5"}
    assert {row["banded_edges"] for row in rows} == {"front of each"}
    assert {row["part"] for row in rows} == {"stretcher 1, 2"}


def test_metric_lists_are_in_millimetres() -> None:
    rows = rows_of(cut_list_csv(metric()))
    (sides,) = [row for row in rows if row["unit"].startswith("S1, S2, S3")]
    assert sides["thickness_mm"] == "19.05"
    assert sides["crosscut_mm"] == "774.7"
    # 24 in is 609.6 mm, less the band of 1 mm.
    assert sides["rip_mm"] == "608.6"


def test_one_unit_alone() -> None:
    rows = rows_of(cut_list_csv(galley(), "S2"))
    assert {row["unit"] for row in rows} == {"S2"}
    whole = rows_of(cut_list_csv(galley()))
    assert sum(int(row["pieces"]) for row in rows) < sum(int(row["pieces"]) for row in whole)


@pytest.mark.parametrize(
    ("cell", "safe"),
    [
        ("=1+1", "'=1+1"),
        ("+cmd", "'+cmd"),
        ("-cmd", "'-cmd"),
        ("@sum", "'@sum"),
        ("-1.5", "-1.5"),
        ("left side", "left side"),
        ("", ""),
    ],
)
def test_no_cell_is_taken_for_a_formula(cell: str, safe: str) -> None:
    assert guarded(cell) == safe


def test_csv_is_rfc_4180() -> None:
    assert sheet(("a", "b"), [('5" wide', "x, y"), ("line\nend", "")]) == (
        'a,b\r\n"5"" wide","x, y"\r\n"line\nend",\r\n'
    )


def test_an_empty_job_has_an_empty_list() -> None:
    job = evolve(galley(), runs=())
    assert cut_list(job) == ()
    assert cut_list_csv(job).count("\r\n") == 1
