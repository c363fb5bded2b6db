"""`format`: texts in their one canonical form."""

import sys
from argparse import Namespace
from pathlib import Path

from attrs import frozen

from casewright.compiler.commands.kitchen import report
from casewright.compiler.commands.terminal import STANDARD_INPUT, Terminal, Unusable
from casewright.compiler.commands.world import read_bounded
from casewright.compiler.commands.writing import replace_file
from casewright.compiler.words.schema import SCHEMA
from casewright.compiler.world import Unreadable
from casewright.lang.findings import Finding, Progress, Severity
from casewright.lang.formatter import format_text
from casewright.lang.plain_text import visible
from casewright.lang.printing import Printing
from casewright.lang.reading import LONGEST_TEXT, read_source


@frozen
class Formatted:
    """A text's canonical form, as bytes; those it had where something is wrong with it."""

    content: bytes
    findings: tuple[Finding, ...]
    readable: bool


def run(arguments: Namespace, terminal: Terminal) -> int:
    if STANDARD_INPUT in arguments.files:
        if len(arguments.files) > 1:
            raise Unusable("- stands for standard input and goes alone")
        if sys.stdin is None:
            raise Unusable("the standard input is closed")
        return _pass_through(arguments, terminal, sys.stdin.buffer.read(LONGEST_TEXT + 1))
    codes = [0]
    findings: list[Finding] = []
    changed: list[str] = []
    problems: list[str] = []
    for name in arguments.files:
        try:
            given = read_bounded(Path(name), name)
            formatted = formatted_text(name, given)
            if formatted.content != given:
                changed.append(name)
                if not arguments.check:
                    replace_file(Path(name), formatted.content)
        except (Unreadable, Unusable) as why:
            # One text that can't be had is no reason to leave the others as they are.
            terminal.complain(str(why))
            problems.append(str(why))
            codes.append(2)
            continue
        findings += formatted.findings
        codes.append(_code(formatted))
    if findings or arguments.form == "json":
        told = {"problems": problems} if problems else {}
        report(arguments, terminal, findings, Progress(), Printing(), **told)
    if arguments.form == "full":
        said = "is not in its canonical form" if arguments.check else "is formatted"
        terminal.report("".join(f"{visible(name)} {said}\n" for name in changed))
    if arguments.check and changed:
        codes.append(1)
    return max(codes)


def _pass_through(arguments: Namespace, terminal: Terminal, given: bytes) -> int:
    if len(given) > LONGEST_TEXT:
        raise Unusable("standard input is longer than a text may be; nothing is written")
    formatted = formatted_text("standard input", given)
    if formatted.findings:
        # The report goes beside the text, whose place is the standard output.
        beside = Terminal(terminal.err, terminal.err, terminal.width)
        report(arguments, beside, formatted.findings, Progress(), Printing())
    code = _code(formatted)
    if not arguments.check:
        terminal.pass_on(formatted.content)
    elif formatted.content != given:
        code = max(code, 1)
    return code


def _code(formatted: Formatted) -> int:
    if not formatted.readable:
        return 2
    errors = any(finding.severity is Severity.ERROR for finding in formatted.findings)
    return 1 if errors else 0


def formatted_text(label: str, given: bytes) -> Formatted:
    """The text `given` in its canonical form, and what is wrong with it; with an error its bytes
    are left as they are. What formatting mends is not reported."""
    source, reading = read_source(label, given)
    if source is None:
        return Formatted(given, reading, readable=False)
    text, parsing = format_text(source, SCHEMA.raw_heads, SCHEMA.verbatim_heads)
    findings = (*reading, *parsing)
    if any(finding.severity is Severity.ERROR for finding in findings):
        return Formatted(given, findings, readable=True)
    left = tuple(each for each in findings if each.severity is not Severity.ADVICE)
    return Formatted(text.encode(), left, readable=True)
