"""Runs commands as the command line does, in this process, with what they print caught."""

import io
import sys
from collections.abc import Mapping
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest
from attrs import field, frozen

from casewright.compiler.commands.main import parser
from casewright.compiler.commands.running import run_on
from casewright.compiler.commands.terminal import Terminal
from casewright.lang.cells import Quantity
from casewright.lang.findings import Finding, Progress
from casewright.lang.printing import Printing
from casewright.lang.render_explain import Row


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
    printing: Printing = field(factory=Printing)


@frozen
class PlayedExplanation:
    """Why a figure is what it is, in a play."""

    rows: tuple[Row, ...]
    quantity: Quantity


@frozen
class PlayedSheets:
    """No sheets at all."""

    planned: Mapping[str, Any] = field(factory=dict)


@frozen
class PlayedWork:
    """As much of the shop's reckoning as `build` itself reads."""

    sheets: PlayedSheets = PlayedSheets()
    sentences: tuple[str, ...] = ()
    partial: tuple[str, ...] = ()
    estimate: None = None
    planner: None = None


def play_compiler(
    monkeypatch: pytest.MonkeyPatch,
    compiled: PlayedCompiled,
    files: Mapping[str, bytes] | None = None,
    explained: Mapping[str, PlayedExplanation] | None = None,
) -> None:
    """Puts a compiler in place whose outcome is known, so that a command is tried alone."""
    why = dict(explained or {})
    played: dict[str, dict[str, Any]] = {
        "compile": {"compile_job": lambda world, entry: world.read(entry) and compiled},
        "shop.reckoning": {"shop_work": lambda *_given, **_named: (PlayedWork(), ())},
        "shop.advise": {"advise": lambda *_given: None},
        "shop.offers": {"offers": lambda *_given: ((), ())},
        "commands.book_files": {
            "book_files": lambda *_given, **_named: dict(files or {}),
            "RECKONED": ("buy",),
        },
        "explain": {
            "explain": lambda _job, address: why.get(address),
            "addresses": lambda _job: tuple(why),
            "why": lambda _job: {address: each.rows for address, each in why.items()},
        },
    }
    for name, members in played.items():
        module = ModuleType(f"casewright.compiler.{name}")
        vars(module).update(members)
        monkeypatch.setitem(sys.modules, module.__name__, module)
