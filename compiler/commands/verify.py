"""`verify`: plans and certificates of a job book, checked again without the planner."""

import json
from argparse import Namespace
from pathlib import Path

from attrs import frozen

from casewright.compiler.commands.terminal import Terminal, Unusable
from casewright.compiler.commands.world import is_file, read_bounded
from casewright.compiler.cutting.board_files import goods_of
from casewright.compiler.cutting.plan_files import (
    CERTIFICATE,
    FOLDER,
    INDEX,
    PLAN,
    check_files,
    mark_of,
    read_index,
)
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
    answers = whole(folder)
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


def whole(folder: Path) -> list[Answer]:
    """What came of every plan there is, and of every one the index names that isn't there."""
    plans = plans_in(folder)
    inner = plans[0].parent
    index = inner / INDEX
    if not is_file(index):
        return [
            *map(check, plans),
            Answer(INDEX, "", ("it is missing, so no one can say whether a plan is",)),
        ]
    named = read_index(read_bounded(index, str(index)).decode("utf-8", "replace"))
    if named is None:
        return [*map(check, plans), Answer(INDEX, "", ("it is no list of plans",))]
    found = {path.name.removesuffix(PLAN): path for path in plans}
    answers = [check(path, named.get(name, "")) for name, path in found.items()]
    gone = [
        Answer(name, "", ("it is named in the list of plans, and isn't there",))
        for name in sorted(named.keys() - found.keys())
    ]
    return [*answers, *gone]


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


def check(path: Path, mark: str | None = None) -> Answer:
    """Checks one plan with the certificate beside it; `mark` is its list's in the index, empty
    where that doesn't name it, None where there is no index."""
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
    if mark == "":
        said = (*said, "the list of plans doesn't name it")
    elif mark is not None and mark != mark_of(checked.request):
        said = (*said, "it is for other pieces than the list of plans names")
    words = headline(checked.request, checked.plan, checked.verdict, goods_of(name))
    return Answer(name, words, said)
