"""`verify`: plans and certificates of a job book, checked again without the planner."""

import json
from argparse import Namespace
from pathlib import Path

from attrs import frozen

from casewright.compiler.commands.terminal import Terminal, Unusable
from casewright.compiler.commands.world import is_file, read_bounded
from casewright.compiler.cutting.board_files import goods_of
from casewright.compiler.cutting.plan_files import CERTIFICATE, FOLDER, PLAN, check_files
from casewright.compiler.plan.words import headline
from casewright.lang.plain_text import visible
from casewright.lang.reading import LONGEST_TEXT


@frozen
class Answer:
    """What came of one plan: its name, the words for it, and everything that is wrong."""

    name: str
    words: str
    problems: tuple[str, ...]


def run(arguments: Namespace, terminal: Terminal) -> int:
    folder = Path(arguments.folder)
    answers = [check(plan) for plan in plans_in(folder)]
    if arguments.form == "json":
        document = {
            "version": 1,
            "plans": [
                {"name": each.name, "says": each.words, "problems": list(each.problems)}
                for each in answers
            ],
        }
        terminal.report(json.dumps(document, ensure_ascii=False, indent=2) + "\n")
    else:
        for each in answers:
            if not each.problems:
                terminal.report(f"{visible(each.name)}: {each.words}. It holds.\n")
            for problem in each.problems:
                terminal.report(f"{visible(each.name)}: does not hold: {visible(problem)}\n")
    return 1 if any(each.problems for each in answers) else 0


def plans_in(folder: Path) -> list[Path]:
    """The plan files of a book, or of its folder of plans.

    Raises Unusable where there are none, or where a certificate stands without its plan.
    """
    inner = folder / FOLDER if (folder / FOLDER).is_dir() else folder
    if not inner.is_dir():
        raise Unusable(f"{folder} is no folder")
    plans = sorted(path for path in inner.glob(f"*{PLAN}") if is_file(path))
    alone = [
        path
        for path in sorted(inner.glob(f"*{CERTIFICATE}"))
        if not is_file(path.with_name(path.name.removesuffix(CERTIFICATE) + PLAN))
    ]
    if alone:
        raise Unusable(f"{alone[0]} is a certificate without its plan")
    if not plans:
        raise Unusable(f"{folder} holds no plans")
    return plans


def check(path: Path) -> Answer:
    """Checks one plan with the certificate beside it."""
    name = path.name.removesuffix(PLAN)
    beside = path.with_name(name + CERTIFICATE)
    if not is_file(beside):
        return Answer(name, "", ("its certificate is missing",))
    texts: list[str] = []
    for file in (path, beside):
        data = read_bounded(file, str(file))
        if len(data) > LONGEST_TEXT:
            return Answer(name, "", (f"{file.name} is too long",))
        texts.append(data.decode("utf-8", "replace"))
    checked, problems = check_files(*texts)
    said = tuple(
        f"{problem.piece}: {problem.message}" if problem.piece else problem.message
        for problem in problems
    )
    if checked is None:
        return Answer(name, "", said)
    words = headline(checked.request, checked.plan, checked.verdict, goods_of(name))
    return Answer(name, words, said)
