"""`build`: what is written where, and what is left alone."""

import json
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest
from attrs import frozen
from jsonschema import Draft202012Validator

from casewright.compiler.commands.build import beside, chapters_for
from casewright.compiler.commands.terminal import Unusable
from casewright.lang.cells import Quantity, literal
from casewright.lang.measure import System
from tests.commands.command_line import PlayedCompiled, play_compiler, ran
from tests.lang.finding_samples import CASING, RUN_TOO_LONG

FILES = {"book.html": b"<!doctype html>", "saw/cut_list.csv": b"material\r\n"}


@frozen
class PlayedThing:
    tag: str


ONE_INCH = literal(1)


@frozen
class PlayedJob:
    """As much of a job as the command itself reads."""

    system: System = System.INCHES
    precision: Quantity = ONE_INCH
    placed: tuple[PlayedThing, ...] = (PlayedThing("S1"),)


@pytest.fixture
def kitchen(tmp_path: Path) -> Path:
    (tmp_path / "galley.case").write_text("job galley\n")
    return tmp_path / "galley.case"


def written(folder: Path) -> set[str]:
    return {each.relative_to(folder).as_posix() for each in folder.rglob("*") if each.is_file()}


def test_the_book_stands_beside_the_kitchen(kitchen: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    play_compiler(monkeypatch, PlayedCompiled(PlayedJob(), ()), FILES)
    result = ran("build", kitchen)
    assert result.code == 0
    assert result.out.endswith(f"{kitchen.parent}/galley: 2 files written\n")
    assert written(kitchen.parent / "galley") == {*FILES, ".casewright"}


def test_a_job_with_errors_is_written_and_says_so(
    kitchen: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    play_compiler(monkeypatch, PlayedCompiled(PlayedJob(), (RUN_TOO_LONG,)), FILES)
    assert ran("build", kitchen, "-o", tmp_path / "out").code == 1
    assert written(tmp_path / "out") == {*FILES, ".casewright"}


def test_a_warning_is_an_error_only_when_strict(
    kitchen: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    play_compiler(monkeypatch, PlayedCompiled(PlayedJob(), (CASING,)), FILES)
    assert ran("build", kitchen).code == 0
    assert ran("build", kitchen, "--strict").code == 1


@pytest.mark.parametrize("tree_read", [True, False])
def test_without_a_job_the_old_book_stays(
    kitchen: Path, monkeypatch: pytest.MonkeyPatch, tree_read: bool
) -> None:
    play_compiler(monkeypatch, PlayedCompiled(PlayedJob(), ()), {"old.html": b""})
    assert ran("build", kitchen).code == 0
    play_compiler(monkeypatch, PlayedCompiled(None, (RUN_TOO_LONG,), tree_read=tree_read), FILES)
    result = ran("build", kitchen)
    assert result.code == 2
    assert "run-too-long" in result.out
    assert result.err.startswith("casewright: no book is written")
    assert written(kitchen.parent / "galley") == {"old.html", ".casewright"}


def test_a_folder_of_someone_else_is_left_alone(
    kitchen: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (kitchen.parent / "galley").mkdir()
    (kitchen.parent / "galley" / "photo.jpg").write_bytes(b"")
    play_compiler(monkeypatch, PlayedCompiled(PlayedJob(), ()), FILES)
    result = ran("build", kitchen)
    assert (result.code, result.out) == (2, "")
    assert "galley holds files that casewright did not write" in result.err
    assert written(kitchen.parent / "galley") == {"photo.jpg"}


def test_an_unknown_tag_is_one_sentence(kitchen: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    play_compiler(monkeypatch, PlayedCompiled(PlayedJob(), ()), FILES)
    result = ran("build", kitchen, "--only", "S9")
    assert (result.code, result.out) == (2, "")
    assert result.err == f"casewright: nothing in {kitchen} has the tag S9\n"
    assert ran("build", kitchen, "--only", "S1").code == 0


def test_what_was_written_is_told_to_other_programs(
    kitchen: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    schema = json.loads(files("casewright.lang").joinpath("findings.schema.json").read_text())
    play_compiler(monkeypatch, PlayedCompiled(PlayedJob(), ()), FILES)
    told: Any = json.loads(ran("build", kitchen, "--as", "json").out)
    Draft202012Validator(schema).validate(told)
    assert told["written"]["files"] == ["book.html", "saw/cut_list.csv"]
    play_compiler(monkeypatch, PlayedCompiled(None, (RUN_TOO_LONG,)), FILES)
    told = json.loads(ran("build", kitchen, "--as", "json").out)
    Draft202012Validator(schema).validate(told)
    assert told["written"] is None


def test_the_folder_is_named_after_the_kitchen() -> None:
    assert beside(Path("a/galley.case")) == Path("a/galley")
    assert beside(Path("a/galley")) == Path("a/galley book")


def test_a_reader_gets_every_chapter_that_is_theirs() -> None:
    readers = {"saw": "sawyer", "bench": "bench hand, frame maker", "fit": "bench hand"}
    assert chapters_for(None, readers) == ("saw", "bench", "fit")
    assert chapters_for("fit", readers) == ("fit",)
    assert chapters_for("sawyer", readers) == ("saw",)
    assert chapters_for("frame_maker", readers) == ("bench",)
    assert chapters_for("bench hand", readers) == ("bench", "fit")
    with pytest.raises(Unusable, match="the readers are sawyer, bench hand, frame maker"):
        chapters_for("me", readers)


def test_an_unknown_reader_is_one_sentence(kitchen: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    play_compiler(monkeypatch, PlayedCompiled(PlayedJob(), ()), FILES)
    result = ran("build", kitchen, "--for", "me")
    assert (result.code, result.out) == (2, "")
    assert result.err.startswith("casewright: nobody here is a me; the readers are ")
    assert ran("build", kitchen, "--for", "sawyer").code == 0
