"""`build`: a kitchen's job book and its files, as a folder."""

from argparse import Namespace
from pathlib import Path

from casewright.compiler.commands.kitchen import chosen, exit_code, printing_of, report
from casewright.compiler.commands.terminal import Terminal, Unusable
from casewright.compiler.commands.world import open_project
from casewright.compiler.commands.writing import write_folder
from casewright.lang.plain_text import visible


def run(arguments: Namespace, terminal: Terminal) -> int:
    kitchen = chosen(arguments.kitchen, Path())
    world, entry = open_project(kitchen)
    folder = Path(arguments.folder) if arguments.folder else beside(kitchen)
    # The compiler is loaded only when there is something to compile.
    from casewright.compiler.compile import compile_job
    from casewright.compiler.papers.book import job_book

    compiled = compile_job(world, entry)
    printing = printing_of(compiled.job)
    if compiled.job is None or not compiled.tree_read:
        report(arguments, terminal, compiled.findings, compiled.progress, printing, written=None)
        terminal.complain(f"no book is written, since the kitchen can't be built; see {kitchen}")
        return 2
    if arguments.tag and arguments.tag not in {each.tag for each in compiled.job.placed}:
        raise Unusable(f"nothing in {kitchen} has the tag {arguments.tag}")
    files = job_book(compiled.job, compiled.findings, reader=arguments.reader, tag=arguments.tag)
    write_folder(folder, files)
    written = {"folder": str(folder), "files": sorted(files)}
    report(arguments, terminal, compiled.findings, compiled.progress, printing, written=written)
    if arguments.form == "full":
        count = "1 file" if len(files) == 1 else f"{len(files)} files"
        terminal.report(f"{visible(str(folder))}: {count} written\n")
    return exit_code(compiled.findings, strict=arguments.strict, tree_read=True)


def beside(kitchen: Path) -> Path:
    """The folder of a kitchen's book where none is named: its own name, beside it."""
    bare = kitchen.with_suffix("")
    return bare if bare != kitchen else kitchen.with_name(f"{kitchen.name} book")
