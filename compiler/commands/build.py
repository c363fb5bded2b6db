"""`build`: a kitchen's job book and its files, as a folder."""

from argparse import Namespace
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from casewright.compiler.commands.kitchen import chosen, exit_code, report
from casewright.compiler.commands.terminal import Terminal, Unusable
from casewright.compiler.commands.world import open_project
from casewright.compiler.commands.writing import write_folder
from casewright.lang.plain_text import visible, wrapped

if TYPE_CHECKING:
    from casewright.compiler.shop.priced import Offer


def run(arguments: Namespace, terminal: Terminal) -> int:
    kitchen = chosen(arguments.kitchen, Path())
    world, entry = open_project(kitchen)
    folder = Path(arguments.folder) if arguments.folder else beside(kitchen)
    # The compiler is loaded only when there is something to compile.
    from casewright.compiler.commands import kept_plans
    from casewright.compiler.commands.book_files import RECKONED, book_files
    from casewright.compiler.compile import compile_job
    from casewright.compiler.explain import why
    from casewright.compiler.papers.pages.pages import READERS
    from casewright.compiler.papers.pages.saving_pages import saving_lines, saving_members
    from casewright.compiler.shop.advise import advise
    from casewright.compiler.shop.offers import offers
    from casewright.compiler.shop.reckoning import shop_work

    chapters = chapters_for(arguments.reader, READERS)
    compiled = compile_job(world, entry)
    job, findings = compiled.job, compiled.findings
    printing = compiled.printing
    if job is None or not compiled.tree_read:
        report(arguments, terminal, findings, compiled.progress, printing, written=None)
        terminal.complain(f"no book is written, since {kitchen} can't be built as it is")
        return 2
    if arguments.tag and arguments.tag not in {each.tag for each in job.placed}:
        raise Unusable(f"nothing in {kitchen} has the tag {arguments.tag}")
    hard = arguments.plan == "hard"
    work = None
    # Planning takes longest: papers that nothing is reckoned for don't wait for it.
    if (
        hard
        or arguments.advise
        or (not arguments.tag and any(chapter in RECKONED for chapter in chapters))
    ):
        held = {} if hard else kept_plans.read(world, entry)
        work, reckoning = shop_work(job, held, hard=hard)
        findings = (*findings, *reckoning)
    offered: tuple[Offer, ...] = ()
    priced = work is not None and work.estimate is not None
    planner = work.planner if work is not None else None
    if priced and compiled.program is not None and not {"agree", "buy"}.isdisjoint(chapters):
        offered, offering = offers(world, entry, compiled.program, findings, planner)
        findings = (*findings, *offering)
    advice = None
    if arguments.advise:
        if work is None or work.estimate is None:
            raise Unusable("there is nothing to save without rates; --advise wants them")
        advice = advise(world, entry, compiled, work.estimate, findings, planner)
    files = book_files(
        job, findings, why(job), work,
        chapters=chapters, tag=arguments.tag, offers=offered, advice=advice,
    )  # fmt: skip
    write_folder(folder, files)
    if hard and work is not None and work.searched:
        kept_plans.write(kitchen, work)
    told: dict[str, object] = {"written": {"folder": str(folder), "files": sorted(files)}}
    if advice is not None and work is not None and work.estimate is not None:
        told["savings"] = saving_members(advice, work.estimate)
    report(arguments, terminal, findings, compiled.progress, printing, **told)
    if arguments.form == "full":
        sentences = work.sentences if work is not None else ()
        if work is not None and work.partial:
            sentences = (*sentences, f"these papers are partial: {'; '.join(work.partial)}")
        told_lines = (line for said in sentences for line in wrapped(said, terminal.width))
        terminal.report("".join(f"{visible(line)}\n" for line in told_lines))
        if advice is not None and work is not None and work.estimate is not None:
            lines = saving_lines(advice, work.estimate)
            terminal.report("".join(f"{visible(line)}\n" for line in lines))
        count = "1 file" if len(files) == 1 else f"{len(files)} files"
        terminal.report(f"{visible(str(folder))}: {count} written\n")
    return exit_code(findings, strict=arguments.strict, tree_read=True)


def beside(kitchen: Path) -> Path:
    """The folder of a kitchen's book where none is named: its own name, beside it."""
    bare = kitchen.with_suffix("")
    return bare if bare != kitchen else kitchen.with_name(f"{kitchen.name} book")


def chapters_for(word: str | None, readers: Mapping[str, str]) -> tuple[str, ...]:
    """The chapters that `word` asks for: one by its own name, or all that a reader reads.

    `readers` gives every chapter's readers, with commas. Raises Unusable for any other word.
    """
    if word is None:
        return tuple(readers)
    if word in readers:
        return (word,)
    spoken = word.replace("_", " ")
    chapters = tuple(chapter for chapter, names in readers.items() if spoken in names.split(", "))
    if chapters:
        return chapters
    known = dict.fromkeys(name for names in readers.values() for name in names.split(", "))
    raise Unusable(f"nobody here is a {spoken}; the readers are {', '.join(known)}")
