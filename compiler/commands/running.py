"""Runs one command, and puts into a sentence whatever the system refuses meanwhile."""

import argparse
import gc
import os
import signal
import sys
from collections.abc import Callable
from importlib import import_module

from casewright.compiler.commands.terminal import (
    STANDARD_INPUT,
    Terminal,
    Unusable,
    standard_terminal,
)
from casewright.compiler.commands.world import in_words
from casewright.compiler.world import Unreadable

UNUSABLE = 2
SELDOM = (200_000, 50, 100)
"""How seldom Python looks for garbage in circles while a command runs."""

INTERRUPTED = 130
"""What a shell expects of a command that was stopped from the keyboard."""


def run(arguments: argparse.Namespace) -> int:
    """Runs the command of `arguments` on the terminal; its exit code."""
    # Asked to end, a command ends as from the keyboard, and takes its half-written folder with it.
    signal.signal(signal.SIGTERM, signal.default_int_handler)
    # A build makes many small values that live to its end: going over them again and again frees
    # nothing.
    gc.set_threshold(*SELDOM)
    try:
        terminal = standard_terminal()
    except Unusable as why:
        Terminal(sys.stderr, sys.stderr).complain(str(why))
        return UNUSABLE
    return run_on(terminal, arguments)


def run_on(terminal: Terminal, arguments: argparse.Namespace) -> int:
    """Runs the command of `arguments`; its exit code.

    Every command is the function `run` of the module of its name, from arguments and a terminal
    to an exit code.
    """
    try:
        module = import_module(f"casewright.compiler.commands.{arguments.command}")
        command: Callable[[argparse.Namespace, Terminal], int] = module.run
        try:
            code = command(arguments, terminal)
        except (Unusable, Unreadable) as why:
            _refuse(str(why), arguments, terminal)
            code = UNUSABLE
        terminal.out.flush()
    except BrokenPipeError:
        _let_go(terminal)
        terminal.complain("whoever was reading the report stopped")
    except OSError as problem:
        _let_go(terminal)
        what = f"{problem.filename}: " if isinstance(problem.filename, str) else ""
        terminal.complain(f"{what}{in_words(problem)}")
    except KeyboardInterrupt:
        terminal.complain("stopped")
        return INTERRUPTED
    else:
        return code
    return UNUSABLE


def _refuse(sentence: str, arguments: argparse.Namespace, terminal: Terminal) -> None:
    """Says that nothing was done, and why; to another program as a document of no findings."""
    terminal.complain(sentence)
    passes_on = STANDARD_INPUT in getattr(arguments, "files", ())
    if getattr(arguments, "form", "") == "json" and not passes_on:
        from casewright.lang.findings import Progress
        from casewright.lang.printing import Printing
        from casewright.lang.render_json import render_json

        terminal.report(render_json((), Progress(), Printing(), problems=[sentence]))


def _let_go(terminal: Terminal) -> None:
    """Keeps Python from trying once more, at its end, to write what can't be written."""
    if terminal.out is sys.stdout:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
        os.close(nowhere)
