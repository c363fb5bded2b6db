"""The command line: what may be typed. Nothing else is loaded until a command is known."""

import argparse
from collections.abc import Sequence
from typing import Protocol

FORMS = ("full", "concise", "json")
"""The forms of a report."""

KINDS = (
    "units",
    "appliances",
    "materials",
    "findings",
    "words",
    "options",
    "constructions",
    "fillings",
    "hardware",
    "shop",
    "rules",
)
"""What `list` can list."""

_CODES = """\
exit codes
  0  nothing is wrong
  1  there is an error (with --strict: or a warning), or a difference
  2  a text can't be read or is past the limits, or what was asked for can't be done
"""


_EXAMPLES = """\
for example
  casewright new galley               starts galley.case
  casewright check galley.case        says what is wrong with it, and how to mend it
  casewright build galley.case        writes the job book into the folder galley
  casewright explain galley.case S2.across
                                      says where a figure comes from

"""


class _Adds(Protocol):
    """What makes a command's own parser: `add_parser` of argparse."""

    def __call__(
        self,
        name: str,
        *,
        help: str,
        description: str,
        epilog: str,
        formatter_class: type[argparse.HelpFormatter],
    ) -> argparse.ArgumentParser: ...


def parser() -> argparse.ArgumentParser:
    """The parser of every command, with its help."""
    top = argparse.ArgumentParser(
        prog="casewright",
        description=(
            "From a kitchen written as text to its job book: drawings, estimate, buying list,\n"
            "cutting plans, cut lists, order of assembly, the installer's pages."
        ),
        epilog=_EXAMPLES + _CODES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    add = top.add_subparsers(dest="command", metavar="COMMAND", required=True).add_parser
    for command in (_new, _check, _build, _explain, _verify, _format, _diff, _list):
        command(add)
    return top


def _command(
    add: _Adds, name: str, does: str, *examples: str, more: str = ""
) -> argparse.ArgumentParser:
    """A command's parser; `does` stands in the list of commands and heads its own help."""
    return add(
        name,
        help=does,
        description=f"{does[0].upper()}{does[1:]}.{more}",
        epilog="for example\n" + "".join(f"  casewright {example}\n" for example in examples),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )


def _new(add: _Adds) -> None:
    command = _command(
        add,
        "new",
        "starts a kitchen",
        "new galley",
        'new "Tern Quay galley"',
        more=" Nothing is ever overwritten.",
    )
    command.add_argument(
        "name", metavar="NAME", help="the kitchen's name; its file is named after it"
    )


def _check(add: _Adds) -> None:
    command = _command(
        add,
        "check",
        "says what is wrong with a kitchen",
        "check galley.case",
        "check galley.case --as json",
        "check --strict",
        more=(
            "\nEach report has its line, its figures and the mend; `explain` and its name say why."
        ),
    )
    _takes_kitchen(command)
    _reports(command)


def _build(add: _Adds) -> None:
    command = _command(
        add,
        "build",
        "writes a kitchen's job book",
        "build galley.case",
        "build galley.case -o /tmp/book",
        "build galley.case --for sawyer",
        "build galley.case --only S2",
        "build galley.case --advise",
        more=(
            " Where the kitchen can't be built,\n"
            "nothing is written and an older book stays as it is."
        ),
    )
    _takes_kitchen(command)
    command.add_argument(
        "-o",
        dest="folder",
        metavar="DIR",
        help="the folder to write (else one named after the kitchen, beside it)",
    )
    command.add_argument(
        "--for",
        dest="reader",
        metavar="READER",
        help="only the papers for one reader (sawyer, installer …) or one chapter (saw, bench …)",
    )
    command.add_argument("--only", dest="tag", metavar="TAG", help="only the papers of one unit")
    command.add_argument(
        "--plan",
        choices=("hard",),
        metavar="hard",
        help="search long for the fewest sheets, and keep the plans beside the kitchen",
    )
    command.add_argument(
        "--advise",
        action="store_true",
        help="try changes one by one, and say which three would save the most (it takes longer)",
    )
    _reports(command)


def _explain(add: _Adds) -> None:
    command = _command(
        add,
        "explain",
        "says where a figure comes from, or what a finding, a unit or a word is",
        "explain galley.case S2.across",
        "explain S2.left_side.cut_width",
        "explain run-too-long",
        "explain dead_corner",
    )
    command.add_argument(
        "kitchen",
        metavar="KITCHEN",
        nargs="?",
        help="the kitchen's text (else the only one in this folder)",
    )
    command.add_argument(
        "about",
        metavar="ADDRESS|SLUG|NAME",
        help="a figure's address or a tag; a finding's slug; a unit's name; a word of the language",
    )
    _takes_form(command)


def _verify(add: _Adds) -> None:
    command = _command(
        add,
        "verify",
        "checks a book's cutting plans and certificates again",
        "verify galley",
        more=(
            " Nothing of the planner takes part.\n"
            "Exits with 0 where every plan and every count holds."
        ),
    )
    command.add_argument("folder", metavar="DIR", help="the folder of a job book")
    _takes_form(command)


def _format(add: _Adds) -> None:
    command = _command(
        add,
        "format",
        "puts texts into their canonical form",
        "format galley.case shop.case",
        "format --check galley.case",
        "format - < galley.case",
        more=(
            " A text that can't be read is left as it is.\n"
            "With `-` standard input is formatted to standard output."
        ),
    )
    command.add_argument("files", metavar="FILE", nargs="+", help="a text, or - alone")
    command.add_argument(
        "--check",
        action="store_true",
        help="write nothing; exit with 1 where a text is not in its canonical form",
    )
    _takes_form(command)


def _diff(add: _Adds) -> None:
    command = _command(
        add,
        "diff",
        "says what differs between two kitchens, and what is cut again",
        "diff revision_1/galley.case revision_2/galley.case",
        "diff old.case new.case --as json",
        more="\nExits with 0 where nothing differs, with 1 where something does.",
    )
    command.add_argument("old", metavar="OLD", help="the kitchen as it was")
    command.add_argument("new", metavar="NEW", help="the kitchen as it is")
    _takes_form(command)


def _list(add: _Adds) -> None:
    command = _command(
        add,
        "list",
        "lists what the library holds",
        "list units",
        "list options",
        "list words",
        more=" `explain` and a name tell more of each.",
    )
    command.add_argument("kind", choices=KINDS, metavar="KIND", help=", ".join(KINDS))
    _takes_form(command)


def _takes_kitchen(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "kitchen",
        metavar="KITCHEN",
        nargs="?",
        help="the kitchen's text (else the only one in this folder)",
    )


def _takes_form(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--as",
        dest="form",
        choices=FORMS,
        default="full",
        metavar="FORM",
        help=f"the form of the report: {', '.join(FORMS)}",
    )


def _reports(command: argparse.ArgumentParser) -> None:
    _takes_form(command)
    command.add_argument("--strict", action="store_true", help="a warning counts as an error")


def main(typed: Sequence[str] | None = None) -> int:
    """Runs a command; its exit code."""
    arguments = parser().parse_args(typed)
    try:
        from casewright.compiler.commands.running import run
    except KeyboardInterrupt:
        return 130
    return run(arguments)
