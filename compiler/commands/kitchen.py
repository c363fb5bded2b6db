"""Which kitchen a command is about, and what its findings come to."""

import re
from argparse import Namespace
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from casewright.compiler.commands.terminal import Terminal, Unusable
from casewright.compiler.commands.world import is_file, read_bounded
from casewright.compiler.world import Unreadable
from casewright.lang.findings import Finding, Progress, Severity
from casewright.lang.printing import Printing
from casewright.lang.render_concise import render_concise
from casewright.lang.render_full import render_full
from casewright.lang.render_json import render_json

if TYPE_CHECKING:
    from casewright.compiler.model import Job

_JOB_LINE = re.compile(rb"^[ \t]*job\b", re.MULTILINE)


def chosen(kitchen: str | None, folder: Path) -> Path:
    """The kitchen that was named, else the only text in `folder` with a job line.

    Raises Unusable where a folder is named, or where none is named and there isn't just one.
    """
    if kitchen is None:
        return _only_kitchen(folder)
    path = Path(kitchen)
    if path.is_dir():
        inside = _kitchens(path)
        such = f", such as {inside[0]}" if inside else ""
        raise Unusable(f"{kitchen} is a folder; name a kitchen's text{such}")
    return path


def _only_kitchen(folder: Path) -> Path:
    kitchens = _kitchens(folder)
    if len(kitchens) == 1:
        return kitchens[0]
    if kitchens:
        names = ", ".join(each.name for each in kitchens[:4])
        more = ", …" if len(kitchens) > 4 else ""
        raise Unusable(f"there are {len(kitchens)} kitchens here, name one: {names}{more}")
    raise Unusable("there is no kitchen here (a .case text with a job line); name one")


def _kitchens(folder: Path) -> list[Path]:
    found = []
    for path in sorted(folder.glob("*.case")):
        try:
            if is_file(path) and _JOB_LINE.search(read_bounded(path, path.name)):
                found.append(path)
        except Unreadable:
            # A text one may not read is no kitchen one could mean by saying nothing.
            continue
    return found


def printing_of(job: "Job") -> Printing:
    """How a job's figures are printed."""
    return Printing(job.system, job.precision.value)


def report(
    arguments: Namespace,
    terminal: Terminal,
    findings: Iterable[Finding],
    progress: Progress,
    printing: Printing,
    **more: object,
) -> None:
    """Prints findings in the form that was asked for; `more` goes into the JSON form only."""
    if arguments.form == "json":
        terminal.report(render_json(findings, progress, printing, **more))
    elif arguments.form == "concise":
        terminal.report(render_concise(findings))
    else:
        terminal.report(
            render_full(findings, progress, printing, width=terminal.width, colour=terminal.colour)
        )


def exit_code(findings: Iterable[Finding], *, strict: bool, tree_read: bool) -> int:
    """2 where there is no tree at all, 1 where an error is found (or a warning, when strict),
    else 0. What the text accepts doesn't count."""
    if not tree_read:
        return 2
    severities = {finding.severity for finding in findings if not finding.accepted}
    bad = {Severity.ERROR, Severity.WARNING} if strict else {Severity.ERROR}
    return 1 if severities & bad else 0
