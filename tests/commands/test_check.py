"""`check`: forms, exit codes, and which kitchen is meant."""

import json
from pathlib import Path

import pytest

from casewright.lang.findings import Finding
from tests.commands.command_line import PlayedCompiled, play_compiler, ran
from tests.lang.finding_samples import CASING, FOLDED, RUN_TOO_LONG, UNKNOWN

JOB = "measure in inches\njob Tern Quay galley\n"


@pytest.fixture
def kitchen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "kitchen.case").write_text(JOB)
    return tmp_path / "kitchen.case"


@pytest.mark.parametrize(
    ("findings", "strict", "code"),
    [
        ((), False, 0),
        ((), True, 0),
        ((FOLDED,), True, 0),
        ((CASING,), False, 0),
        ((CASING,), True, 1),
        ((UNKNOWN,), False, 1),
        ((UNKNOWN, CASING), True, 1),
    ],
)
def test_the_exit_code_is_the_worst_finding(
    kitchen: Path,
    monkeypatch: pytest.MonkeyPatch,
    findings: tuple[Finding, ...],
    strict: bool,
    code: int,
) -> None:
    play_compiler(monkeypatch, PlayedCompiled(None, findings))
    assert ran("check", kitchen, *(["--strict"] if strict else [])).code == code


def test_no_tree_is_unusable(kitchen: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    play_compiler(monkeypatch, PlayedCompiled(None, (UNKNOWN,), tree_read=False))
    result = ran("check", kitchen)
    assert result.code == 2
    assert "no unit is called dor_base" in result.out


def test_a_report_has_three_forms(kitchen: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    play_compiler(monkeypatch, PlayedCompiled(None, (RUN_TOO_LONG,)))
    full = ran("check", kitchen).out
    assert full.endswith("\n1 error\n")
    assert '159 3/4"' in full
    concise = ran("check", kitchen, "--as", "concise").out
    assert concise.count("\n") == 1
    assert concise.startswith("kitchen.case:11:5  error  ")
    told = json.loads(ran("check", kitchen, "--as", "json").out)
    assert told["counts"]["error"] == 1
    assert told["progress"] == {"units_placed": 3, "units_evaluated": 2}


def test_the_only_kitchen_of_the_folder_is_meant(
    kitchen: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (kitchen.parent / "shop.case").write_text("measure in inches\n# no job here\n")
    play_compiler(monkeypatch, PlayedCompiled(None, ()))
    assert ran("check").out == "no findings; 3 units placed, 2 worked out\n"


def test_of_two_kitchens_one_must_be_named(kitchen: Path) -> None:
    (kitchen.parent / "pantry.case").write_text(JOB)
    result = ran("check")
    assert result.code == 2
    assert result.err == (
        "casewright: there are 2 kitchens here, name one: kitchen.case, pantry.case\n"
    )


def test_without_a_kitchen_it_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "notes.case").write_text("# a job in a comment, and jobs\njobs 3\n")
    result = ran("check")
    assert (result.code, result.out) == (2, "")
    assert result.err == (
        "casewright: there is no kitchen here (a .case text with a job line); name one\n"
    )


def test_a_missing_file_is_one_sentence(tmp_path: Path) -> None:
    result = ran("check", tmp_path / "gone.case")
    assert (result.code, result.out) == (2, "")
    assert result.err == (
        f"casewright: {tmp_path}/gone.case can't be read: there is no such file\n"
    )


def test_a_folder_is_one_sentence_and_a_hint(kitchen: Path) -> None:
    result = ran("check", kitchen.parent)
    assert (result.code, result.out) == (2, "")
    assert result.err == (
        f"casewright: {kitchen.parent} is a folder; name a kitchen's text, such as {kitchen}\n"
    )


@pytest.mark.parametrize("name", ["a\0b", "x" * 5000, "\udcff\x1b[2J", ""])
def test_an_odd_name_is_one_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    monkeypatch.chdir(tmp_path)
    result = ran("check", name)
    assert (result.code, result.out) == (2, "")
    assert result.err.count("\n") == 1
    assert result.err.rstrip("\n").isprintable()
