"""The example kitchens, built, so that papers are tested on what people print."""

from functools import cache
from pathlib import Path

from casewright.compiler.commands.world import open_project
from casewright.compiler.compile import Compiled, compile_job
from casewright.compiler.model import Job
from casewright.compiler.papers.pages.book import book

EXAMPLES = Path(__file__).parents[2] / "examples"


@cache
def compiled_kitchen(name: str) -> Compiled:
    """What comes of the example `name`, as `galley/framed`."""
    return compile_job(*open_project(EXAMPLES / f"{name}.case"))


def kitchen(name: str) -> Job:
    """The example `name` as a job."""
    job = compiled_kitchen(name).job
    assert job is not None, name
    return job


@cache
def printed_book(name: str) -> str:
    """The book of the example `name` without what the shop reckons; figures aren't explained."""
    return book(kitchen(name), compiled_kitchen(name).findings, {})
