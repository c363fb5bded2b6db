"""Small kitchens for tests about rooms: a library of one unit, walls, and the runs of a test."""

from fractions import Fraction

from casewright.compiler.compile import Compiled
from casewright.compiler.model import Job, Placed, Run
from tests.compiler.examples import compiled

HEAD = "measure in inches\nuse library\nuse job\n"


def kitchen(text: str) -> Compiled:
    """What comes of a room and runs in the small library."""
    return compiled({"kitchen.case": (HEAD + text).encode()}, "kitchen.case")


def built(text: str) -> Job:
    """The job of a text without a finding."""
    result = kitchen(text)
    assert [(each.slug, each.headline) for each in result.findings] == []
    assert result.job is not None
    return result.job


def run_of(job: Job, name: str) -> Run:
    (found,) = (run for run in job.runs if run.name == name)
    return found


def placed_of(job: Job, tag: str) -> Placed:
    (found,) = (placed for placed in job.placed if placed.tag == tag)
    return found


def widths(run: Run) -> list[Fraction]:
    return [placed.width.value for placed in run.placed]


def is_near(value: Fraction, wanted: str, within: str = "0.0005") -> bool:
    """Whether a figure is the wanted one to half of a thousandth of an inch."""
    return abs(value - Fraction(wanted)) <= Fraction(within)
