"""`diff` as it is typed."""

import json
import shutil
from pathlib import Path

import pytest

from tests.commands.command_line import ran

GALLEY = Path(__file__).parents[2] / "examples" / "galley"


@pytest.fixture
def revisions(tmp_path: Path) -> tuple[Path, Path]:
    """The galley twice; in the second S5 is 15 wide."""
    old, new = tmp_path / "one", tmp_path / "two"
    for folder in (old, new):
        folder.mkdir()
        for path in GALLEY.glob("*.case"):
            shutil.copy(path, folder)
    kitchen = new / "kitchen.case"
    text = kitchen.read_text(encoding="utf-8")
    kitchen.write_text(text.replace("S5: door_base 18", "S5: door_base 15"), encoding="utf-8")
    return old / "galley.case", new / "galley.case"


def test_equal_kitchens_exit_with_nought(revisions: tuple[Path, Path]) -> None:
    told = ran("diff", revisions[0], revisions[0])
    assert told.code == 0
    assert told.out == "nothing is different; 8 units are as they were\n"


def test_a_changed_width_is_told_with_its_line_and_its_parts(
    revisions: tuple[Path, Path],
) -> None:
    told = ran("diff", *revisions)
    assert told.code == 1
    rows = [line.split() for line in told.out.splitlines()]
    assert rows[1][:3] == ["S5", '18"', '15"']
    assert rows[2][:5] == ["S6", "30", '3/4"', "33", '3/4"']
    assert "S5: door_base 15 hung right" in told.out
    assert 'S6 took 3"; S5 gave 3"' in told.out
    assert "cut again  door face" in told.out


def test_the_json_form_is_exact(revisions: tuple[Path, Path]) -> None:
    told = ran("diff", *revisions, "--as", "json")
    document = json.loads(told.out)
    assert not document["equal"]
    units = {unit["address"]: unit for unit in document["units"]}
    widths = [f for f in units["S6"]["figures"] if f["word"] == "across"]
    assert widths == [{"word": "across", "was": "123/4", "is": "135/4"}]
    assert {part["fate"] for part in units["S5"]["parts"]} == {"kept", "cut down", "cut again"}


def test_a_kitchen_that_cant_be_built_is_not_compared(
    revisions: tuple[Path, Path],
) -> None:
    kitchen = revisions[1].parent / "kitchen.case"
    kitchen.write_text(kitchen.read_text(encoding="utf-8").replace("door_base 15", "dor_base 15"))
    told = ran("diff", *revisions)
    assert told.code == 2
    assert "no unit is called dor_base" in told.out
    assert "nothing is compared" in told.err
