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
    """What came of every plan there is, and of every one that a certificate or the index names
    and that isn't there. Raises Unusable where there is nothing of the sort."""
    inner = folder_of(folder)
    plans, alone = plans_in(inner)
    if not plans and not alone:
        raise Unusable(f"{folder} holds no plans")
    index = inner / INDEX
    lonely = [Answer(name, "", ("its certificate is here, and the plan isn't",)) for name in alone]
    if not is_file(index):
        return [
            *map(check, plans),
            *lonely,
            Answer(INDEX, "", ("it is missing, so no one can say whether a plan is",)),
        ]
    named = read_index(read_bounded(index, str(index)).decode("utf-8", "replace"))
    if named is None:
        return [*map(check, plans), *lonely, Answer(INDEX, "", ("it is no list of plans",))]
    found = {path.name.removesuffix(PLAN): path for path in plans}
    answers = [check(path, named.get(name, "")) for name, path in found.items()]
    gone = [
        Answer(name, "", ("it is named in the list of plans, and isn't there",))
        for name in sorted(named.keys() - found.keys() - set(alone))
    ]
    return [*answers, *lonely, *gone]


def folder_of(folder: Path) -> Path:
    """A book's folder of plans, or `folder` itself. Raises Unusable where it is no folder."""
    inner = folder / FOLDER if (folder / FOLDER).is_dir() else folder
    if not inner.is_dir():
        raise Unusable(f"{folder} is no folder")
    return inner


def plans_in(folder: Path) -> tuple[list[Path], list[str]]:
    """The plan files of a folder of plans, and the names of certificates without their plan."""
    plans = sorted(path for path in folder.glob(f"*{PLAN}") if is_file(path))
    names = {path.name.removesuffix(PLAN) for path in plans}
    certified = sorted(path.name for path in folder.glob(f"*{CERTIFICATE}"))
    alone = [name for each in certified if (name := each.removesuffix(CERTIFICATE)) not in names]
    return plans, alone


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
