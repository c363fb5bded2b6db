"""Every lumber of a job planned, checked and ready for papers; what can't be is said."""

from collections.abc import Iterator, Mapping

from attrs import field, frozen

from casewright.compiler.cutting.board_cuts import LumberPlan, lumber_plan
from casewright.compiler.cutting.board_files import BOARDS as FILE
from casewright.compiler.cutting.boards import (
    LUMBER,
    BoardsWanted,
    TooLong,
    boards_wanted,
)
from casewright.compiler.cutting.held import take_held
from casewright.compiler.cutting.matched import matching_findings
from casewright.compiler.cutting.plan_files import HeldPlan
from casewright.compiler.cutting.planner import Planner, Result
from casewright.compiler.keys import binder
from casewright.compiler.model import Job
from casewright.compiler.plan.boards import BOARDS
from casewright.compiler.plan.plan import Effort, Planned
from casewright.lang.findings import Finding, Label, Severity


@frozen
class BoardPlans:
    """The lumber plans of a job, what the planner made of each for files, by file name, and
    sentences about lumber of which there is no plan."""

    plans: tuple[LumberPlan, ...] = ()
    planned: Mapping[str, Planned] = field(factory=dict, eq=False)
    unplanned: tuple[str, ...] = ()

    def of(self, material: str) -> LumberPlan | None:
        """The plan of a lumber, where there is one."""
        return next((each for each in self.plans if each.material.name == material), None)


def board_plans(
    job: Job,
    effort: Effort = BOARDS,
    held: Mapping[str, HeldPlan] | None = None,
    planner: Planner | None = None,
) -> tuple[BoardPlans, tuple[Finding, ...]]:
    """Plans the boards of every lumber; one that can't be leaves the others as they are.

    `held` are plans read from beside the kitchen, by file name; `planner` knows what was planned
    before.
    """
    planner = planner or Planner()
    plans: list[LumberPlan] = []
    planned: dict[str, Planned] = {}
    unplanned = list(_unsaid(job))
    findings: list[Finding] = []
    for wanted in boards_wanted(job):
        material = wanted.material
        findings += matching_findings(material, wanted.matched, "board")
        if wanted.too_long:
            findings.append(_too_long(wanted))
            unplanned.append(f"{material.title}: no board is as long as one of its parts.")
            continue
        if not wanted.requests:
            continue
        many = len(wanted.requests) > 1
        names = [
            f"{FILE}{material.name}" + (f"_{index}" if many else "")
            for index in range(1, len(wanted.requests) + 1)
        ]
        made: list[Result] = []
        for name, request in zip(names, wanted.requests, strict=True):
            taken = take_held(request, f"{material.title} boards", (held or {}).get(name))
            findings += taken.findings
            known = taken.planned
            made.append((known, []) if known is not None else planner.plan(request, effort))
        problems = [problem.message for _, found in made for problem in found]
        problems += [
            problem.message
            for each, _ in made
            for problem in (each.verdict.problems if each is not None else ())
        ]
        if problems:
            unplanned.append(f"{material.title}: its boards can't be planned as they are.")
            findings.append(_not_planned(wanted, problems[0]))
            continue
        sound = [each for each, _ in made if each is not None]
        plans.append(lumber_plan(wanted, sound))
        planned.update(zip(names, sound, strict=True))
    return BoardPlans(tuple(plans), planned, tuple(unplanned)), tuple(findings)


def _unsaid(job: Job) -> Iterator[str]:
    for material in job.materials:
        if material.kind == LUMBER and job.supply.boards_of(material.name) is None:
            yield f"{material.title}: no text says how its boards come, so none is planned."


def _too_long(wanted: BoardsWanted) -> Finding:
    first = wanted.too_long[0]
    others = len(wanted.too_long) - 1
    more = f" (and {others} more)" if others else ""
    return Finding(
        "longer-than-boards",
        Severity.ERROR,
        f"{first.placed.tag or first.placed.address} {_words(first.part.address)}{more} is longer "
        f"than any board of {wanted.material.title} yields",
        first.placed.span,
        labels=tuple(dict.fromkeys(_labels(first))),
        help="say a longer board, or fewer ends and defects; else build the part from two",
        tags=tuple(dict.fromkeys(each.placed.tag for each in wanted.too_long if each.placed.tag)),
    )


def _labels(each: TooLong) -> Iterator[Label]:
    origin = each.part.origin
    where = binder(each.placed.spans)(origin) if origin is not None else None
    if where is not None and where != each.placed.span:
        yield Label(where, "is made here")


def _not_planned(wanted: BoardsWanted, problem: str) -> Finding:
    return Finding(
        "boards-not-planned",
        Severity.ERROR,
        f"the boards of {wanted.material.title} can't be planned: {problem}",
        wanted.boards.span,
        help="say their lengths and width as they are bought",
    )


def _words(address: str) -> str:
    return address.replace(".", " ").replace("_", " ")
