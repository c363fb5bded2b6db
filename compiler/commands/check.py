"""`check`: what is wrong with a kitchen."""

from argparse import Namespace
from pathlib import Path

from casewright.compiler.commands.kitchen import chosen, exit_code, report
from casewright.compiler.commands.terminal import Terminal
from casewright.compiler.commands.world import open_project


def run(arguments: Namespace, terminal: Terminal) -> int:
    world, entry = open_project(chosen(arguments.kitchen, Path()))
    # The compiler is loaded only when there is something to compile.
    from casewright.compiler.compile import compile_job

    compiled = compile_job(world, entry)
    report(arguments, terminal, compiled.findings, compiled.progress, compiled.printing)
    return exit_code(compiled.findings, strict=arguments.strict, tree_read=compiled.tree_read)
