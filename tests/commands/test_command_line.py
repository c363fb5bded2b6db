"""The program as it is started: help, what it loads, and what the system does to it."""

import io
import json
import os
import signal
import subprocess
import sys
from pathlib import Path
from typing import IO

import pytest
from jsonschema import Draft202012Validator

from casewright.compiler.commands.main import FORMS, KINDS, main, parser
from casewright.compiler.commands.running import run_on
from casewright.compiler.commands.terminal import Terminal, terminal_of
from tests.commands.command_line import PlayedCompiled, play_compiler, ran
from tests.lang.finding_samples import UNKNOWN

COMMANDS = ("new", "check", "build", "explain", "verify", "format", "diff", "list")

FINDINGS = Draft202012Validator(
    json.loads((Path(__file__).parents[2] / "lang" / "findings.schema.json").read_text("utf-8"))
)

START = "import sys; from casewright.compiler.commands.main import main; sys.exit(main())"


def started(
    *typed: str, stdout: int | IO[str] = subprocess.PIPE, **environment: str
) -> subprocess.CompletedProcess[str]:
    """Starts the program in a process of its own."""
    return subprocess.run(
        [sys.executable, "-c", START, *typed],
        check=False,
        text=True,
        stdout=stdout,
        stderr=subprocess.PIPE,
        env={**os.environ, **environment},
    )


def help_of(*typed: str, capsys: pytest.CaptureFixture[str]) -> str:
    with pytest.raises(SystemExit) as ended:
        main([*typed, "--help"])
    assert ended.value.code == 0
    return capsys.readouterr().out


def test_help_names_every_command_and_the_exit_codes(capsys: pytest.CaptureFixture[str]) -> None:
    told = help_of(capsys=capsys)
    for command in COMMANDS:
        assert f"\n    {command} " in told
    assert "exit codes\n  0  " in told


@pytest.mark.parametrize("command", COMMANDS)
def test_each_commands_help_has_examples_that_can_be_typed(
    command: str, capsys: pytest.CaptureFixture[str]
) -> None:
    told = help_of(command, capsys=capsys)
    examples = [
        line.removeprefix("  casewright ")
        for line in told.partition("for example\n")[2].splitlines()
    ]
    assert examples
    for example in examples:
        words = example.partition(" < ")[0].replace('"', "").split()
        if command == "new":
            words = [words[0], " ".join(words[1:])]
        assert parser().parse_args(words).command == command


@pytest.mark.parametrize("form", FORMS)
def test_whatever_reports_has_its_forms(form: str) -> None:
    for typed in (["check"], ["build"], ["explain", "S2.across"], ["list", KINDS[0]]):
        assert parser().parse_args([*typed, "--as", form]).form == form


def test_one_word_after_explain_is_what_is_asked_for() -> None:
    one = parser().parse_args(["explain", "S2.across"])
    assert (one.kitchen, one.about) == (None, "S2.across")
    two = parser().parse_args(["explain", "galley.case", "S2.across"])
    assert (two.kitchen, two.about) == ("galley.case", "S2.across")


@pytest.mark.parametrize("typed", [[], ["chekc"], ["check", "--as", "xml"], ["list", "doors"]])
def test_what_can_not_be_typed_ends_with_2(typed: list[str]) -> None:
    result = started(*typed)
    assert (result.returncode, result.stdout) == (2, "")
    assert result.stderr.startswith("usage: casewright")


def test_help_loads_nothing_it_does_not_use() -> None:
    asked = (
        "import sys\n"
        "from casewright.compiler.commands.main import main\n"
        "try:\n"
        "    main(['check', '--help'])\n"
        "except SystemExit:\n"
        "    print(sorted({name.partition('.')[0] for name in sys.modules} & {\n"
        "        'lark', 'attrs', 'attr', 'jinja2', 'graphviz', 'pygraphviz', 'numpy', 'highspy',\n"
        "        'json', 'fractions', 'decimal', 'importlib.resources', 'ctypes'}))\n"
        "    print(sorted(name for name in sys.modules if name.startswith('casewright')))\n"
    )
    told = subprocess.run(
        [sys.executable, "-c", asked], check=True, capture_output=True, text=True
    ).stdout.splitlines()[-2:]
    assert told[0] == "[]"
    assert set(told[1].strip("[]").replace("'", "").split(", ")) <= {
        "casewright",
        "casewright.compiler",
        "casewright.compiler.commands",
        "casewright.compiler.commands.main",
    }


def test_colour_is_for_terminals_and_not_where_it_is_refused() -> None:
    class Screen(io.StringIO):
        def isatty(self) -> bool:
            return True

    screen, paper = Screen(), io.StringIO()
    assert terminal_of(screen, paper, {}).colour
    assert terminal_of(screen, paper, {"NO_COLOR": ""}).colour
    assert not terminal_of(screen, paper, {"NO_COLOR": "1"}).colour
    assert not terminal_of(screen, paper, {"TERM": "dumb"}).colour
    assert not terminal_of(paper, screen, {}).colour


def test_a_report_on_a_terminal_is_coloured_and_as_wide_as_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "kitchen.case").write_text("job galley\n")
    play_compiler(monkeypatch, PlayedCompiled(None, (UNKNOWN,)))
    typed = parser().parse_args(["check", str(tmp_path / "kitchen.case")])
    out = io.StringIO()
    assert run_on(Terminal(out, io.StringIO(), 50, colour=True), typed) == 1
    assert "\x1b[35munknown-unit\x1b[0m" in out.getvalue()
    assert "\x1b[" not in ran("check", tmp_path / "kitchen.case").out


class Closed(io.StringIO):
    """A stream whose reader is gone, or whose disk is full."""

    def __init__(self, problem: OSError) -> None:
        super().__init__()
        self.problem = problem

    def write(self, _text: str) -> int:
        raise self.problem


@pytest.mark.parametrize(
    ("problem", "sentence"),
    [
        (BrokenPipeError(32, "Broken pipe"), "whoever was reading the report stopped"),
        (OSError(28, "No space left on device"), "the disk is full"),
        (PermissionError(13, "Permission denied", "kitchen.case"), "permission is denied"),
        (OSError(5, "Input/output error"), "input/output error"),
    ],
)
def test_what_the_system_refuses_is_one_sentence(problem: OSError, sentence: str) -> None:
    err = io.StringIO()
    code = run_on(Terminal(Closed(problem), err), parser().parse_args(["list", "units"]))
    assert code == 2
    assert err.getvalue().count("\n") == 1
    assert err.getvalue().endswith(f"{sentence}\n")


@pytest.mark.parametrize(
    "typed",
    [
        ("check", "gone.case"),
        ("build", "gone.case"),
        ("explain", "gone.case", "S1.across"),
        ("explain", "no-such-finding"),
        ("diff", "gone.case", "gone.case"),
        ("verify", "gone"),
        ("format", "gone.case"),
    ],
)
def test_what_can_not_be_done_is_a_document_too(
    typed: tuple[str, ...], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    result = ran(*typed, "--as", "json")
    assert result.code == 2
    told = json.loads(result.out)
    FINDINGS.validate(told)
    assert told["findings"] == []
    assert [f"casewright: {each}\n" for each in told["problems"]] == [result.err]


def test_a_reader_that_stops_early_gets_no_traceback() -> None:
    reading, writing = os.pipe()
    os.close(reading)
    try:
        result = started("list", "units", "--as", "json", stdout=writing)
    finally:
        os.close(writing)
    assert result.returncode == 2
    assert result.stderr == "casewright: whoever was reading the report stopped\n"


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="there is no /dev/full here")
def test_a_full_disk_behind_the_report_gets_no_traceback() -> None:
    with Path("/dev/full").open("w") as full:
        result = started("list", "units", "--as", "json", stdout=full)
    assert result.returncode == 2
    assert result.stderr == "casewright: the disk is full\n"


@pytest.mark.parametrize(
    ("typed", "closed", "said"),
    [
        ("list units", ">&-", "the standard output is closed, so nothing can be reported"),
        ("format -", "<&-", "the standard input is closed"),
        ("check gone.case", "2>&-", ""),
    ],
)
@pytest.mark.skipif(not Path("/bin/sh").exists(), reason="there is no shell here")
def test_a_closed_stream_gets_no_traceback(
    typed: str, closed: str, said: str, tmp_path: Path
) -> None:
    result = subprocess.run(
        ["/bin/sh", "-c", f'exec "$0" -c "$1" {typed} {closed}', sys.executable, START],
        check=False,
        text=True,
        capture_output=True,
        cwd=tmp_path,
    )
    told = f"casewright: {said}\n" if said else ""
    assert (result.returncode, result.stdout, result.stderr) == (2, "", told)


def test_stopping_it_from_the_keyboard_gets_no_traceback(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "kitchen.case").write_text("job galley\n")
    play_compiler(monkeypatch, PlayedCompiled(None, ()))

    def stop(*_anything: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(sys.modules["casewright.compiler.compile"], "compile_job", stop)
    result = ran("check", tmp_path / "kitchen.case")
    assert (result.code, result.err) == (128 + signal.SIGINT, "casewright: stopped\n")


def test_letters_the_terminal_lacks_do_not_end_the_command(tmp_path: Path) -> None:
    result = started("check", str(tmp_path / "台所.case"), PYTHONIOENCODING="ascii")
    assert result.returncode == 2
    assert "\\u53f0\\u6240.case can't be read: there is no such file" in result.stderr
