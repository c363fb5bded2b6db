"""`diff` as it is typed."""

import json
import shutil
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from tests.commands.command_line import ran

ROOT = Path(__file__).parents[2]
GALLEY = ROOT / "examples" / "galley"


def revised(revisions: tuple[Path, Path], *changes: tuple[str, str], name: str = "kitchen") -> None:
    """Writes the second revision's text anew, with words of the first exchanged."""
    text = revisions[0].with_name(f"{name}.case").read_text(encoding="utf-8")
    for old, new in changes:
        assert text.count(old) == 1
        text = text.replace(old, new)
    revisions[1].with_name(f"{name}.case").write_text(text, encoding="utf-8")


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
    assert told.out == "Nothing is different; eight units are as they were.\n"


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
    assert "cut again  door face: banded on both edges that would be cut\n" in told.out
    assert told.out.endswith("sawn yet: no recuts are owed.\n")


def test_the_json_form_is_exact(revisions: tuple[Path, Path]) -> None:
    told = ran("diff", *revisions, "--as", "json")
    document = json.loads(told.out)
    assert not document["equal"]
    units = {unit["address"]: unit for unit in document["units"]}
    widths = [f for f in units["S6"]["figures"] if f["word"] == "across"]
    assert widths == [{"word": "across", "was": "123/4", "is": "135/4"}]
    assert {part["fate"] for part in units["S5"]["parts"]} == {"kept", "cut down", "cut again"}
    schema = json.loads((ROOT / "compiler" / "difference.schema.json").read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    Draft202012Validator(schema).validate(document)
    with_it = ran("diff", revisions[0], revisions[0].with_name("framed.case"), "--as", "json")
    Draft202012Validator(schema).validate(json.loads(with_it.out))


def test_what_changes_alike_is_told_once(revisions: tuple[Path, Path]) -> None:
    revised(revisions)
    revised(revisions, ("fronts birch_ply", "fronts maple_ply"), name="galley")
    told = ran("diff", *revisions)
    assert told.out.count("fronts birch_ply") == 1
    assert "\nEight units, four fillers and two bases differ; no units are as" in told.out
    assert "    S1, S5               " in told.out
    assert max(map(len, told.out.splitlines())) <= 100


def test_another_construction_is_one_row_and_no_list_of_its_options(
    revisions: tuple[Path, Path],
) -> None:
    told = ran("diff", revisions[0], revisions[0].with_name("framed.case"))
    assert "built shop, made otherwise" in told.out
    assert "none" not in told.out.replace("none are", "")
    assert "flush" not in told.out


def test_only_the_lines_that_differ_of_a_block_are_shown(revisions: tuple[Path, Path]) -> None:
    line = "S2: drawer_base share min 24 max 36"
    block = line + " {\n    stack {\n      drawer share\n      %s\n    }\n  }"
    for number, second in enumerate(("drawer share", "drawer 2 shares")):
        first = revisions[number].with_name("kitchen.case")
        text = (GALLEY / "kitchen.case").read_text(encoding="utf-8")
        first.write_text(text.replace(line, block % second), encoding="utf-8")
    told = ran("diff", *revisions)
    assert "    was  drawer share\n" in told.out
    assert "    is   drawer 2 shares\n" in told.out
    assert "was  S2" not in told.out


def test_the_lines_that_came_or_went_are_told_once(revisions: tuple[Path, Path]) -> None:
    lines = ("  S1: door_base 18  hung left\n", "  S5a: door_base 12 hung left\n")
    revised(revisions, lines)
    told = ran("diff", *revisions).out.splitlines()
    causes = [line.split(maxsplit=1)[1] for line in told if "kitchen.case:" in line]
    assert sorted(causes) == ["is   S5a: door_base 12 hung left", "was  S1: door_base 18 hung left"]


def test_a_filler_of_a_corner_is_told_with_its_words(tmp_path: Path) -> None:
    texts = []
    for filler in ("3", "4"):
        folder = tmp_path / filler
        shutil.copytree(ROOT / "examples" / "corner", folder)
        kitchen = folder / "kitchen.case"
        text = kitchen.read_text(encoding="utf-8")
        kitchen.write_text(text.replace("filler 3", f"filler {filler}"), encoding="utf-8")
        texts.append(folder / "frameless.case")
    told = ran("diff", *texts)
    assert told.code == 1
    causes = [line.split(maxsplit=1)[1] for line in told.out.splitlines() if ".case:" in line]
    assert causes == ["was  filler 3", "is   filler 4"] * 2


def test_a_room_measured_again_is_a_difference(revisions: tuple[Path, Path]) -> None:
    revised(revisions, ("outlet at 130 up 44", "outlet at 128 up 44\n    gas at 20 up 30"))
    told = ran("diff", *revisions)
    rows = [line.split() for line in told.out.splitlines()]
    assert ["north.outlet.at", '130"', '128"'] in rows
    assert ["north.gas.at", '20"', "new"] in rows
    assert "Nothing that stands in the kitchen differs; eight units" in told.out
    assert told.code == 1


def test_what_is_marked_sawn_and_is_not_kept_is_owed(revisions: tuple[Path, Path]) -> None:
    for path in revisions:
        galley = path.with_name("galley.case")
        galley.write_text(galley.read_text(encoding="utf-8") + "\nsawn S5\n", encoding="utf-8")
    told = " ".join(ran("diff", *revisions).out.split())
    assert (
        "Six parts that are marked sawn are owed: S5.door.face (cut again), S5.floor (cut" in told
    )
    assert "no recuts" not in told
    revised(revisions, ("S6: drawer_base share min 24", "S6: drawer_base share min 20"))
    told = " ".join(ran("diff", *revisions).out.split())
    assert "Nothing is different" in told


def test_a_kitchen_that_cant_be_built_is_not_compared(
    revisions: tuple[Path, Path],
) -> None:
    kitchen = revisions[1].parent / "kitchen.case"
    kitchen.write_text(kitchen.read_text(encoding="utf-8").replace("door_base 15", "dor_base 15"))
    told = ran("diff", *revisions)
    assert told.code == 2
    assert "no unit is called dor_base" in told.out
    assert "nothing is compared" in told.err
    # However many kitchens can't be built, what is printed is one document.
    both = ran("diff", revisions[1], revisions[1], "--as", "json")
    assert both.code == 2
    assert json.loads(both.out)["counts"]["error"] == 1
