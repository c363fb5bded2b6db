"""`new`: a kitchen is started, and nothing is ever overwritten."""

from pathlib import Path

import pytest

from tests.commands.command_line import ran


@pytest.fixture(autouse=True)
def _in_a_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


@pytest.mark.parametrize(
    ("name", "file", "title"),
    [
        ("galley", "galley.case", "galley"),
        ("Tern Quay", "tern_quay.case", "Tern Quay"),
        ("hill_house.case", "hill_house.case", "hill house"),
        ("O'Hara & Sons", "o'hara_&_sons.case", "O'Hara & Sons"),
        ("Küche 2", "küche_2.case", "Küche 2"),
    ],
)
def test_a_kitchen_is_started_under_its_name(name: str, file: str, title: str) -> None:
    result = ran("new", name)
    assert (result.code, result.err) == (0, "")
    assert f"casewright check {file}" in result.out
    text = Path(file).read_text(encoding="utf-8")
    assert f"\njob {title} {{\n" in text
    assert "My kitchen" not in text
    assert [each.name for each in Path().iterdir()] == [file]


def test_nothing_is_overwritten() -> None:
    Path("galley.case").write_text("mine")
    result = ran("new", "galley")
    assert (result.code, result.out) == (2, "")
    assert result.err == (
        "casewright: galley.case is there already, and nothing is ever overwritten\n"
    )
    assert Path("galley.case").read_text() == "mine"


@pytest.mark.parametrize(
    "name", ["", ".", "..", "/", "-x {", "a{b", "a\nb", "a#b", "\x1b[2J", ".case", 'a"b', "x" * 101]
)
def test_what_is_no_name_is_refused(name: str) -> None:
    result = ran("new", "--", name) if name.startswith("-") else ran("new", name)
    assert (result.code, result.out) == (2, "")
    assert "is no name for a kitchen" in result.err
    assert result.err.count("\n") == 1
    assert list(Path().iterdir()) == []


def test_a_folder_that_is_not_there_is_said() -> None:
    result = ran("new", "jobs/galley")
    assert result.code == 2
    assert result.err == "casewright: jobs/galley.case can't be written: its folder is not there\n"
