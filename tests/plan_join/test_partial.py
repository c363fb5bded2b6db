"""When one material can't be planned or priced, the papers of the others are made all the same."""

from pathlib import Path

import pytest

from casewright.compiler.shop.reckoning import shop_work
from tests.commands.command_line import ran
from tests.compiler.examples import compiled

SHOP = """
saw table_saw { kerf 1/8  trim 1/4 }
sheet plain_board { thick 3/4  stock 49 by 97 }
sheet small_board { thick 3/4  stock 20 by 20 }
run sink_wall on north from left {
  S1: cupboard 30  wood plain_board
  S2: cupboard 30  wood small_board
}
"""


def kitchen(text: str) -> str:
    return f"use kitchen\n{text}"


def test_the_others_are_planned_and_the_report_has_the_line() -> None:
    built = compiled({"page.case": kitchen(SHOP).encode()}, "page.case")
    assert built.job is not None
    work, findings = shop_work(built.job)
    # A check of the job has said it with its line; the planner doesn't say it again.
    assert findings == ()
    said = [each for each in built.findings if each.severity.value == "error"]
    assert said
    assert {each.slug for each in said} == {"part-larger-than-sheet"}
    assert {tag for each in said for tag in each.tags} == {"S2"}
    assert [plan.material.name for plan in work.sheets.plans] == ["plain_board"]
    (missing,) = work.sheets.unplanned
    assert (missing.material.name, missing.pieces) == ("small_board", 3)
    assert missing.why == "a piece fits none of its sheets"
    assert any("3 pieces are not planned" in each for each in work.buying.left_out)


def test_the_gap_is_said_in_words_and_never_more_than_was_shown() -> None:
    built = compiled({"page.case": kitchen(SHOP).encode()}, "page.case")
    assert built.job is not None
    work, _ = shop_work(built.job)
    for plan in work.sheets.plans:
        sheets = len(plan.sheets)
        if plan.proved:
            said = (
                f"{sheets} sheet" if sheets == 1 else f"{sheets} sheets, and {sheets - 1} can't do"
            )
        else:
            said = f"{sheets} planned; fewer than"
        assert plan.headline.startswith(said)
        assert "kerf 1/8, trim 1/4" in plan.scope


RATES = """
measure in inches
use std edition 1
use money

job A first cabinet {
  built frameless
}

room workshop {
  counter 36 thick 1 1/2
  wall bench length 27
}

run bench_wall on bench from left {
  S1: drawer_base 27
}
"""


@pytest.mark.parametrize(
    ("money", "slug"),
    [
        ("currency eur\n  price white_melamine 50 per sheet currency usd", "two-currencies"),
        ("currency eur\n  price white_melamine 50 per foot", "price-of-another-kind"),
        ("currency eur\n  price white_melamine 50mm per sheet", "wrong-kind"),
        ("currency eur\n  price white_melamnie 50 per sheet", "unknown-thing"),
    ],
)
def test_wrong_rates_stop_no_book(tmp_path: Path, money: str, slug: str) -> None:
    (tmp_path / "cabinet.case").write_text(RATES.strip() + "\n")
    (tmp_path / "money.case").write_text(f"measure in inches\n\nrates shop {{\n  {money}\n}}\n")
    result = ran("build", tmp_path / "cabinet.case")
    assert result.code == 1
    assert slug in result.out
    assert "money.case:5" in result.out
    book = (tmp_path / "cabinet" / "book.html").read_text()
    assert "has errors, see page 1" in book
    assert 'id="sheet-white_melamine-1"' in book


MISSING = """
saw table_saw {{ kerf 1/8  trim 1/4 }}
sheet plain_board {{ thick 3/4  stock 49 by 97 }}
sheet other_board {{ thick 3/4  {stock}  grain yes }}
run sink_wall on north from left {{
  S1: cupboard 30  wood plain_board
  S2: cupboard 30  wood other_board
}}
"""


def test_a_part_that_fits_only_turned_is_told_from_one_too_large() -> None:
    for stock, words in (
        ("stock 49 by 26", "fits a sheet of other board only across the grain"),
        ("stock 20 by 20", "is larger than any sheet of other board"),
    ):
        text = kitchen(MISSING.format(stock=stock))
        found = compiled({"page.case": text.encode()}, "page.case").findings
        (said,) = [each for each in found if each.slug == "part-larger-than-sheet"]
        assert words in said.headline


def test_stock_that_is_missing_is_said_with_its_line_and_the_others_are_planned() -> None:
    text = kitchen(MISSING.format(stock=""))
    built = compiled({"page.case": text.encode()}, "page.case")
    assert built.job is not None
    work, findings = shop_work(built.job)
    (said,) = findings
    assert (said.slug, said.severity.value) == ("no-stock", "error")
    assert said.span is not None
    assert said.span.where == "page.case:5"
    assert [plan.material.name for plan in work.sheets.plans] == ["plain_board"]
    assert [each.material.name for each in work.sheets.unplanned] == ["other_board"]


@pytest.mark.parametrize(
    ("stock", "words"),
    [
        ("48lb by 96", "48lb is a weight; a length is wanted here"),
        ("48 by 96 pieces 2lb", "2lb is a weight; a count is wanted here"),
        ("0 by 96", "a width is more than nothing"),
        ("48 by 96  stock 60 by 3%", "3% is a count; a length is wanted here"),
    ],
)
def test_a_size_that_cannot_be_read_leaves_the_other_sheets_planned(stock: str, words: str) -> None:
    text = SHOP.replace("stock 20 by 20", f"stock {stock}")
    built = compiled({"page.case": kitchen(text).encode()}, "page.case")
    (found,) = [each for each in built.findings if each.severity.value == "error"]
    assert (found.headline, found.span.line if found.span else 0) == (words, 5)
    assert built.job is not None
    work, findings = shop_work(built.job)
    assert findings == ()
    assert [each.why for each in work.sheets.unplanned] == ["a size it is bought in can't be read"]
    assert [plan.material.name for plan in work.sheets.plans] == ["plain_board"]
    assert "small board has no cutting plan" in work.partial


def test_a_saw_that_is_misspelt_is_no_missing_saw() -> None:
    text = kitchen(SHOP.replace("kerf 1/8", "kerv 1/8").replace("20 by 20", "49 by 97"))
    built = compiled({"page.case": text.encode()}, "page.case")
    assert built.job is not None
    work, findings = shop_work(built.job)
    assert findings == ()
    assert [each.slug for each in built.findings] == ["unknown-word"]
    assert {each.why for each in work.sheets.unplanned} == {"its saw can't be read"}


def test_a_kept_piece_that_holds_no_part_is_no_stock() -> None:
    text = kitchen(SHOP.replace("20 by 20", "49 by 97"))
    small = "offcut corner { of plain_board  size 1/4 by 3 }\n"
    planned = []
    for said in (text, text + small):
        built = compiled({"page.case": said.encode()}, "page.case")
        assert built.job is not None
        planned.append(shop_work(built.job)[0].sentences)
    assert planned[0] == planned[1]
    assert planned[0]


TURNED = """
measure in inches
use std edition 1
job Turned {
  built ours
}
construction ours from frameless { toe_board turned_board }
sheet turned_board { thick 3/4  stock 96 by 48  grain yes  density 45  modulus 1800000 }
room kitchen {
  floor   finished
  ceiling 96
  counter 36 thick 1 1/2
  wall north length 72
}
run lows on north from left {
  S1: open_base 36
  S2: open_base 36
}
"""


def test_what_stands_under_units_is_asked_whether_it_fits_a_sheet() -> None:
    built = compiled({"page.case": TURNED.encode()}, "page.case")
    said = [each for each in built.findings if each.slug == "part-larger-than-sheet"]
    assert [each.headline for each in said] == [
        "toe rail fits a sheet of turned board only across the grain"
    ]
