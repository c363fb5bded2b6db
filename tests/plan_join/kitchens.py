"""The examples, compiled and planned once."""

import re
from functools import cache
from pathlib import Path
from typing import Final

from attrs import evolve

from casewright.compiler.commands.world import open_project
from casewright.compiler.compile import compile_job
from casewright.compiler.cutting.sheet_plans import SheetPlans, sheet_plans
from casewright.compiler.model import Job
from casewright.compiler.plan.plan import DEFAULT

ROOT = Path(__file__).parents[2]

QUICK: Final = evolve(DEFAULT, greedy=20_000, work=0, counted_work=0, tries=0)
"""Little work: whatever plan comes of it is sawn all the same."""


def kitchens() -> dict[str, Path]:
    """Every example with a job, by its path in the folder of examples."""
    folder = ROOT / "examples"
    return {
        path.relative_to(folder).as_posix(): path
        for path in sorted(folder.glob("*/*.case"))
        if "\njob " in path.read_text(encoding="utf-8")
    }


@cache
def built(name: str) -> Job | None:
    """The job of an example; None where it can't be built as it is."""
    world, entry = open_project(kitchens()[name])
    return compile_job(world, entry).job


@cache
def planned(name: str) -> tuple[Job, SheetPlans]:
    """An example with plans that took little work."""
    job = built(name)
    assert job is not None
    plans, findings = sheet_plans(job, QUICK)
    assert [each.headline for each in findings] == []
    return job, plans


@cache
def largest() -> str:
    """The example with the most tagged units in its folder's texts."""

    def tags(name: str) -> int:
        texts = (
            path.read_text(encoding="utf-8") for path in kitchens()[name].parent.glob("*.case")
        )
        return sum(len(re.findall(r"^ *[A-Z][0-9]+[a-z]?:", text, re.MULTILINE)) for text in texts)

    return max(kitchens(), key=tags)
