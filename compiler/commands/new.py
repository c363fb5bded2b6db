"""`new`: starts a kitchen from the library's own beginning."""

import re
from argparse import Namespace
from importlib.resources import files
from pathlib import Path

from casewright.compiler.commands.terminal import Terminal, Unusable
from casewright.compiler.commands.world import START
from casewright.compiler.commands.writing import write_new
from casewright.lang.plain_text import visible

BEGINNING = f"{START}kitchen.case"
TITLE = "My kitchen"
"""The job's name in the beginning, which the new kitchen's name replaces."""

_NAME = re.compile(r"[^\W_][\w .'&-]*")


def run(arguments: Namespace, terminal: Terminal) -> int:
    file = file_of(arguments.name)
    write_new(file, beginning(title_of(arguments.name)).encode())
    shown = visible(str(file))
    terminal.report(f"{shown} is started; `casewright check {shown}` says how it stands\n")
    return 0


def _last(name: str) -> str:
    """The last step of the typed name without its ending, which must be a plain name."""
    last = Path(name).name.removesuffix(".case").strip()
    if not _NAME.fullmatch(last) or len(last) > 100:
        raise Unusable(
            f"{name or 'nothing'} is no name for a kitchen: begin with a letter or figure, then "
            "letters, figures, blanks, - and _"
        )
    return last


def file_of(name: str) -> Path:
    """The file of a kitchen called `name`, which may have folders before it: its words in small
    letters joined by `_`. Raises Unusable for what is no name."""
    return Path(name).with_name("_".join(_last(name).lower().split()) + ".case")


def title_of(name: str) -> str:
    """The job's name: `name` as typed, with blanks for `_`. Raises Unusable as `file_of` does."""
    words = _last(name).replace("_", " ").split()
    return " ".join(words)


def beginning(title: str) -> str:
    """The library's beginning of a kitchen as the job `title`."""
    text = files("casewright.stdlib").joinpath(BEGINNING).read_text(encoding="utf-8")
    return text.replace(f"job {TITLE}", f"job {title}", 1)
