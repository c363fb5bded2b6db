"""The example kitchens: clean, in canonical form, and what their pages say of them.

That each builds, and to the same bytes twice, is held by tests/commands/test_whole_way.py.
"""

from functools import cache
from pathlib import Path

import pytest

from casewright.compiler.commands.world import InstalledLibrary
from casewright.compiler.compile import compile_job
from casewright.compiler.model import Job
from casewright.compiler.world import HeldWorld
from tests.commands.command_line import ran

EXAMPLES = Path(__file__).parents[2] / "examples"
ENTRIES = (
    "corner/frameless.case",
    "corner/framed.case",
    "horseshoe/frameless.case",
    "horseshoe/framed.case",
    "one_wall/kitchen.case",
    "island/frameless.case",
    "island/framed.case",
)


@cache
def job_of(entry: str) -> Job:
    path = EXAMPLES / entry
    texts = {each.name: each.read_bytes() for each in path.parent.glob("*.case")}
    result = compile_job(HeldWorld(texts, InstalledLibrary()), path.name)
    left = [(each.slug, each.headline) for each in result.findings if not each.accepted]
    assert left == []
    assert result.job is not None
    return result.job


@pytest.fixture(scope="module", params=ENTRIES)
def job(request: pytest.FixtureRequest) -> Job:
    return job_of(request.param)


@pytest.mark.parametrize("path", sorted(EXAMPLES.rglob("*.case")), ids=lambda path: path.name)
def test_an_example_is_in_its_canonical_form(path: Path) -> None:
    assert ran("format", "--check", path).code == 0


@pytest.mark.parametrize(
    "folder", sorted(each.name for each in EXAMPLES.iterdir() if each.is_dir())
)
def test_an_example_says_what_it_shows(folder: str) -> None:
    words = (EXAMPLES / folder / "README.md").read_text(encoding="utf-8")
    assert words.startswith("# ")
    assert "casewright build" in words
    assert f"]({folder})" in (EXAMPLES / "README.md").read_text(encoding="utf-8")


def test_every_run_closes(job: Job) -> None:
    for run in job.runs:
        last = run.placed[-1]
        assert last.at.value + last.width.value == run.space.value, run.name
        for one, other in zip(run.placed, run.placed[1:], strict=False):
            assert one.at.value + one.width.value <= other.at.value, other.address


def test_the_largest_is_large() -> None:
    for entry in ("island/frameless.case", "island/framed.case"):
        units = [placed.unit for placed in job_of(entry).placed if placed.unit is not None]
        assert len(units) >= 25
        assert len({unit.name for unit in units}) >= 12


def test_both_entries_of_an_example_have_the_same_layout() -> None:
    for folder in ("corner", "horseshoe", "island"):
        one, other = job_of(f"{folder}/frameless.case"), job_of(f"{folder}/framed.case")
        rows = [[each for run in job.runs for each in run.placed] for job in (one, other)]
        for placed, twin in zip(*rows, strict=True):
            assert (placed.address, placed.at.value, placed.width.value) == (
                twin.address,
                twin.at.value,
                twin.width.value,
            )
