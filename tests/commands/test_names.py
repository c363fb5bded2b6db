"""Names of 200 letters, from right to left, or with what can't be seen in them."""

import json
from pathlib import Path

import pytest

from tests.commands.command_line import ran

RIGHT_TO_LEFT = "מטבח הסירות مطبخ المرفأ "
"""A boathouse kitchen in Hebrew, a harbour kitchen in Arabic."""

LONGEST_OF_A_FILE = 255
"""Bytes of one file's name that common file systems take."""


def kitchen(length: int, title: str) -> str:
    """A kitchen all of whose names are so long; `title` is repeated where any letter may stand."""
    name = ("all_of_the_boathouse_" * 20)[: length - 2]
    shown = (title * 20)[:length].strip()
    return f"""measure in inches
use std edition 1
job {shown} {{
  built shop
}}
construction shop from frameless {{
  case m_{name}
}}
sheet m_{name} {{
  thick 3/4
  stock 49 by 97
  grain none
  band white_edge
  density 40
  modulus 400000
  called "{shown}"
}}
unit u_{name} from door_base  hung left {{ called "{shown}" }}
room k_{name} {{
  floor   finished
  ceiling 96
  counter 36 thick 1 1/2
  wall w_{name} length 60
}}
run r_{name} on w_{name} from left {{
  filler 2 scribe
  S1: u_{name} 18
  space share
}}
"""


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("names")
    (folder / "long.case").write_text(kitchen(200, RIGHT_TO_LEFT), encoding="utf-8")
    result = ran("build", folder / "long.case", "-o", folder / "book")
    assert (result.code, "Traceback" in result.err) == (0, False), result.err
    return folder / "book"


def test_long_names_from_right_to_left_are_printed(built: Path) -> None:
    book = (built / "book.html").read_text(encoding="utf-8")
    shown = (RIGHT_TO_LEFT * 20)[:200].strip()
    assert shown in book
    assert json.loads((built / "job.json").read_bytes())["name"] == shown
    # Lists that machines read name a sheet as the text does.
    assert "m_all_of_the_boathouse" in (built / "cut_list.csv").read_text(encoding="utf-8")


def test_files_have_names_that_a_disk_takes(built: Path) -> None:
    names = [path.name for path in built.rglob("*")]
    assert len(names) > 10
    assert max(len(name.encode()) for name in names) <= LONGEST_OF_A_FILE


def test_a_name_no_disk_takes_is_said_and_the_old_book_stays(built: Path) -> None:
    before = (built / "book.html").read_bytes()
    text = built.parent / "longer.case"
    text.write_text(kitchen(300, RIGHT_TO_LEFT), encoding="utf-8")
    result = ran("build", text, "-o", built)
    assert result.code == 2
    assert "the name is too long; what was there is untouched" in result.err
    assert (built / "book.html").read_bytes() == before


def test_letters_that_turn_a_line_around_are_refused(tmp_path: Path) -> None:
    text = tmp_path / "turned.case"
    text.write_text(kitchen(40, "galley \u202egnirts\u202c "), encoding="utf-8")
    result = ran("check", text)
    assert result.code == 1
    assert "the first U+202E" in result.out
    assert "\u202e" not in result.out + result.err


def test_a_sheet_that_says_no_thickness_is_a_finding(tmp_path: Path) -> None:
    text = tmp_path / "thin.case"
    text.write_text(kitchen(20, "galley ").replace("  thick 3/4\n", ""), encoding="utf-8")
    result = ran("check", text)
    assert result.code in (1, 2)
    assert "has no thickness" in result.out
