"""`diff`: two revisions of a kitchen, in the trade's terms."""

from argparse import Namespace
from pathlib import Path
from typing import TYPE_CHECKING

from casewright.compiler.commands.kitchen import chosen, report
from casewright.compiler.commands.terminal import Terminal
from casewright.compiler.commands.world import open_project
from casewright.lang.cells import Quantity
from casewright.lang.printing import exact
from casewright.lang.render_json import VERSION, as_text

if TYPE_CHECKING:
    from casewright.compiler.difference import Difference


def run(arguments: Namespace, terminal: Terminal) -> int:
    # The compiler is loaded only when there is something to compile.
    from casewright.compiler.commands.diff_page import page, said
    from casewright.compiler.compile import compile_job
    from casewright.compiler.difference import compare

    jobs = []
    for kitchen in (arguments.old, arguments.new):
        world, entry = open_project(chosen(kitchen, Path()))
        compiled = compile_job(world, entry)
        if compiled.job is None:
            # One report only: two would be no document that another program can read.
            report(arguments, terminal, compiled.findings, compiled.progress, compiled.printing)
            terminal.complain(f"nothing is compared, since {kitchen} can't be built as it is")
            return 2
        jobs.append(compiled.job)
    was, now = jobs
    difference = compare(was, now)
    if arguments.form == "json":
        terminal.report(as_text(document(difference)))
    elif arguments.form == "concise":
        for change in difference.units:
            terminal.report(f"{change.address}  {change.kind}  {said([change])}\n")
        for figure in difference.room:
            terminal.report(f"{figure.address}  measured otherwise\n")
    else:
        terminal.report(page(difference, was, now, terminal.width))
    return 0 if difference.equal else 1


def document(difference: "Difference") -> dict[str, object]:
    """The difference as plain data, figures exact and in inches (angles in degrees);
    `compiler/difference.schema.json` says what stands in it."""

    def value(figure: Quantity | str | None) -> str | None:
        return exact(figure.value) if isinstance(figure, Quantity) else figure

    return {
        "version": VERSION,
        "equal": difference.equal,
        "same": difference.same,
        "units": [
            {
                "address": change.address,
                "kind": change.kind,
                "figures": [
                    {"word": word, "was": value(was), "is": value(now)}
                    for word, was, now in change.figures
                ],
                "lines": [
                    {"where": span.where, "text": " ".join(span.text.split())}
                    for span in change.lines
                    if span is not None
                ],
                "parts": [
                    {
                        "address": part.address,
                        "fate": part.fate.value,
                        "why": part.why,
                        "sawn": part.sawn,
                    }
                    for part in change.parts
                ],
            }
            for change in difference.units
        ],
        "runs": [
            {
                "name": run.name,
                "was": value(run.was.space) if run.was is not None else None,
                "is": value(run.now.space) if run.now is not None else None,
                "gave": [{"address": each, "by": value(by)} for each, by in run.gave],
                "took": [{"address": each, "by": value(by)} for each, by in run.took],
            }
            for run in difference.runs
        ],
        "room": [
            {"address": each.address, "was": value(each.was), "is": value(each.now)}
            for each in difference.room
        ],
    }
