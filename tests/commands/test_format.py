"""`format`: texts are rewritten whole, and only where nothing is wrong with them."""

import io
import json
import sys
from pathlib import Path

import pytest

from casewright.compiler.commands.format import formatted_text
from casewright.lang.reading import LONGEST_TEXT
from tests.commands.command_line import Ran, ran

UNTIDY = b"measure   in inches\r\njob galley {\n revision   1 # first\n}\n"
TIDY = b"measure in inches\njob galley {\n  revision 1  # first\n}\n"
BROKEN = b"job galley {{\n   revision   1\n"


@pytest.fixture(autouse=True)
def _in_a_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def given(monkeypatch: pytest.MonkeyPatch, content: bytes, *typed: str) -> Ran:
    """Runs `format -` with `content` at the standard input."""
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(content)))
    return ran("format", "-", *typed)


def test_a_text_is_put_into_its_form_once() -> None:
    Path("a.case").write_bytes(UNTIDY)
    first = ran("format", "a.case")
    assert (first.code, first.out, first.err) == (0, "a.case is formatted\n", "")
    assert Path("a.case").read_bytes() == TIDY
    second = ran("format", "a.case")
    assert (second.code, second.out, second.err) == (0, "", "")


def test_check_writes_nothing() -> None:
    Path("a.case").write_bytes(UNTIDY)
    Path("b.case").write_bytes(TIDY)
    result = ran("format", "--check", "a.case", "b.case")
    assert (result.code, result.out) == (1, "a.case is not in its canonical form\n")
    assert Path("a.case").read_bytes() == UNTIDY
    assert ran("format", "--check", "b.case").code == 0


def test_a_broken_text_is_left_as_it_is_and_the_others_are_done() -> None:
    Path("broken.case").write_bytes(BROKEN)
    Path("a.case").write_bytes(UNTIDY)
    result = ran("format", "broken.case", "gone.case", "a.case")
    assert result.code == 2
    assert "broken.case:1   error   " in result.out
    assert result.err == "casewright: gone.case can't be read: there is no such file\n"
    assert Path("broken.case").read_bytes() == BROKEN
    assert Path("a.case").read_bytes() == TIDY
    assert ran("format", "broken.case").code == 1


def test_bytes_that_are_no_text_are_left_as_they_are() -> None:
    Path("a.case").write_bytes(b"job \xff\n")
    assert ran("format", "a.case").code == 2
    assert Path("a.case").read_bytes() == b"job \xff\n"


def test_standard_input_goes_to_standard_output(monkeypatch: pytest.MonkeyPatch) -> None:
    result = given(monkeypatch, UNTIDY)
    assert (result.code, result.out.encode(), result.err) == (0, TIDY, "")


def test_a_broken_text_passes_through_untouched(monkeypatch: pytest.MonkeyPatch) -> None:
    result = given(monkeypatch, BROKEN)
    assert (result.code, result.out.encode()) == (1, BROKEN)
    assert "standard input:1   error   " in result.err
    assert formatted_text("a", b"a\xffb\r").content == b"a\xffb\r"


def test_standard_input_can_be_checked_and_goes_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    assert given(monkeypatch, UNTIDY, "--check") == Ran(1, "", "")
    assert given(monkeypatch, TIDY, "--check") == Ran(0, "", "")
    assert given(monkeypatch, TIDY, "a.case") == Ran(
        2, "", "casewright: - stands for standard input and goes alone\n"
    )


def test_standard_input_has_a_limit(monkeypatch: pytest.MonkeyPatch) -> None:
    result = given(monkeypatch, b"#" * (LONGEST_TEXT + 1))
    assert (result.code, result.out) == (2, "")
    # The standard output is the text's place, whatever form the report has.
    assert given(monkeypatch, b"#" * (LONGEST_TEXT + 1), "--as", "json") == result
    assert "longer than a text may be" in result.err


def test_the_report_has_its_forms() -> None:
    Path("broken.case").write_bytes(BROKEN)
    told = json.loads(ran("format", "broken.case", "--as", "json").out)
    assert told["counts"]["error"] >= 1
    Path("a.case").write_bytes(TIDY)
    assert json.loads(ran("format", "a.case", "--as", "json").out)["findings"] == []
    assert ran("format", "a.case", "--as", "concise").out == ""
