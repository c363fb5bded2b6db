"""The terminal as a command sees it, and the word for what a command can't do."""

import os
import shutil
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import TextIO

from attrs import frozen

from casewright.lang.plain_text import visible

STANDARD_INPUT = "-"
"""What is typed for the standard input in place of a file."""

PAPER_WIDTH = 100
"""Columns where the output is no terminal."""


class Unusable(Exception):
    """What was asked for can't be done at all; the words are one clear sentence without a stop.

    The command ends with exit code 2.
    """


@frozen
class Terminal:
    """Where a command's report (`out`) and its complaints (`err`) go, how wide the report may be
    and whether it may be coloured."""

    out: TextIO
    err: TextIO
    width: int = PAPER_WIDTH
    colour: bool = False

    def report(self, text: str) -> None:
        """Prints `text` as it is; whoever made it has made it safe to show."""
        self.out.write(text)

    def pass_on(self, content: bytes) -> None:
        """Writes a text's own bytes, which are nobody's to change."""
        buffer = getattr(self.out, "buffer", None)
        if buffer is None:
            self.out.write(content.decode("utf-8", "replace"))
        else:
            self.out.flush()
            buffer.write(content)

    def complain(self, sentence: str) -> None:
        """Prints one line that is no part of the report."""
        self.err.write(f"casewright: {visible(sentence)}\n")


def terminal_of(out: TextIO, err: TextIO, environment: Mapping[str, str]) -> Terminal:
    """The terminal behind two streams. Colour is for terminals only, and not where the
    environment says NO_COLOR (anything but nothing) or names a terminal that has none."""
    if not out.isatty():
        return Terminal(out, err)
    dumb = environment.get("TERM", "") == "dumb"
    colour = not environment.get("NO_COLOR") and not dumb
    return Terminal(out, err, shutil.get_terminal_size((PAPER_WIDTH, 24)).columns, colour)


def standard_terminal() -> Terminal:
    """The terminal the program was started from. A letter that it can't show is written as its
    code instead of ending the command. Complaints that nobody can read go nowhere.

    Raises Unusable where the standard output is closed: whatever is reported would be lost.
    """
    if sys.stderr is None:
        sys.stderr = Path(os.devnull).open("w", encoding="utf-8")  # noqa: SIM115 - open to the end
    if sys.stdout is None:
        raise Unusable("the standard output is closed, so nothing can be reported")
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="backslashreplace")
    return terminal_of(sys.stdout, sys.stderr, os.environ)
