"""Runs commands as the command line does, in this process, with what they print caught."""

import io
import sys
from collections.abc import Mapping
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest
from attrs import frozen

from casewright.compiler.commands.main import parser
from casewright.compiler.commands.running import run_on
from casewright.compiler.commands.terminal import Terminal
from casewright.lang.findings import Finding, Progress


@frozen
class Ran:
    """What a command came to."""

    code: int
    out: str
    err: str


def ran(*typed: str | Path) -> Ran:
    """Runs what is typed; its exit code and what it printed."""
    out, err = io.StringIO(), io.StringIO()
    code = run_on(Terminal(out, err), parser().parse_args([str(each) for each in typed]))
    return Ran(code, out.getvalue(), err.getvalue())


LOOKED_AT = Progress(3, 2)


@frozen
class PlayedCompiled:
    """What a compiler in a play came to."""

    job: Any
    findings: tuple[Finding, ...]
    progress: Progress = LOOKED_AT
    tree_read: bool = True


def play_compiler(
    monkeypatch: pytest.MonkeyPatch,
    compiled: PlayedCompiled,
    files: Mapping[str, bytes] | None = None,
) -> None:
    """Puts a compiler in place whose outcome is known, so that a command is tried alone."""
    compiler: Any = ModuleType("casewright.compiler.compile")
    compiler.compile_job = lambda world, entry: world.read(entry) and compiled
    book: Any = ModuleType("casewright.compiler.papers.book")
    book.job_book = lambda job, findings, *, reader, tag: dict(files or {})
    monkeypatch.setitem(sys.modules, compiler.__name__, compiler)
    monkeypatch.setitem(sys.modules, book.__name__, book)
