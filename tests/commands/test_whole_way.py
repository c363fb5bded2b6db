"""The commands one after another on real kitchens, as a new user meets them."""

import csv
import io
import json
import re
import shutil
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from tests.commands.command_line import ran
from tests.plan_join.kitchens import QUICK

ROOT = Path(__file__).parents[2]


@pytest.fixture
def started(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A kitchen as `new` starts it, in a folder of its own."""
    monkeypatch.chdir(tmp_path)
    assert ran("new", "galley").code == 0
    return tmp_path / "galley.case"


def schema(name: str) -> Draft202012Validator:
    read = json.loads((ROOT / "lang" / f"{name}.schema.json").read_text(encoding="utf-8"))
    return Draft202012Validator(read)


def test_a_started_kitchen_is_clean_and_in_its_canonical_form(started: Path) -> None:
    checked = ran("check")
    assert (checked.code, checked.err) == (0, "")
    assert checked.out.startswith("no findings; ")
    assert ran("format", "--check", started).code == 0


@pytest.mark.parametrize("built", ["frameless", "face_frame"])
def test_a_started_kitchen_builds_either_way(started: Path, built: str) -> None:
    text = started.read_text()
    assert "built     frameless" in text
    started.write_text(text.replace("built     frameless", f"built     {built}"))
    result = ran("build", "--as", "json")
    assert result.code == 0
    schema("findings").validate(json.loads(result.out))
    listed = list(csv.DictReader(io.StringIO(Path("galley/cut_list.csv").read_text())))
    assert listed
    assert "<!doctype html>" in Path("galley/book.html").read_text().lower()


def test_one_width_is_changed_and_the_share_follows(started: Path) -> None:
    told: Any = json.loads(ran("explain", "S3.across", "--as", "json").out)
    before = Fraction(told["reads"][-1]["value"]["exact"])
    started.write_text(started.read_text().replace("length 116 1/2", "length 117"))
    told = json.loads(ran("explain", "S3.across", "--as", "json").out)
    schema("explanation").validate(told)
    assert Fraction(told["reads"][-1]["value"]["exact"]) == before + Fraction(1, 2)


def test_one_line_is_broken_and_the_old_book_stays(started: Path) -> None:
    assert ran("build").code == 0
    book = Path("galley/book.html").read_bytes()
    line = started.read_text().splitlines().index("  S2: sink_base 36  bowl 30 by 17 down 9") + 1
    started.write_text(started.read_text().replace("S2: sink_base", "S2: sink_bass"))
    result = ran("build")
    assert result.code == 2
    assert result.out.startswith(f"galley.case:{line}   error   no unit is called sink_bass   ")
    assert "did you mean sink_base?" in result.out
    assert Path("galley/book.html").read_bytes() == book


def test_a_run_too_long_is_written_with_its_sum_and_exit_1(started: Path) -> None:
    text = re.sub(r"(S3: drawer_base) share.*", r"\1 47", started.read_text())
    started.write_text(text)
    result = ran("build")
    assert result.code == 1
    assert "run-too-long" in result.out
    assert re.search(r"-{5,}\n +over +11 1/2\"\n", result.out)
    assert "run-too-long" in Path("galley/book.html").read_text()


SMALL = ("first_cabinet", "galley", "tack_room")
"""Examples that are built a second time, to see the same bytes again."""


@pytest.mark.parametrize(
    "kitchen",
    sorted(
        path.relative_to(ROOT).as_posix()
        for path in (ROOT / "examples").rglob("*.case")
        if re.search(r"^job\b", path.read_text(encoding="utf-8"), re.MULTILINE)
    ),
)
def test_every_example_checks_clean_and_builds(
    kitchen: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # A quick plan is a plan too; how good the usual one is, the benchmark says.
    monkeypatch.setattr("casewright.compiler.shop.reckoning.DEFAULT", QUICK)
    copy = tmp_path / "example"
    shutil.copytree((ROOT / kitchen).parent, copy)
    result = ran("check", copy / Path(kitchen).name, "--strict")
    assert (result.code, result.err) == (0, "")
    assert ran("build", copy / Path(kitchen).name, "-o", tmp_path / "book").code == 0
    book = tmp_path / "book"
    files = [path.relative_to(book) for path in book.rglob("*") if path.is_file()]
    assert Path("plans") in {path.parent for path in files}
    if kitchen == "examples/galley/galley.case":  # the README shows its wall
        drawn = (book / "drawings" / "elevation_north.svg").read_bytes()
        assert (copy / "sink_wall.svg").read_bytes() == drawn
    if Path(kitchen).parent.name not in SMALL:
        return
    again = tmp_path / "again"
    assert ran("build", copy / Path(kitchen).name, "-o", again).code == 0
    for file in files:
        assert (book / file).read_bytes() == (again / file).read_bytes()
