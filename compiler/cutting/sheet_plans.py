"""Every sheet material of a job planned, checked, and ready for papers; what can't be is said."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from attrs import field, frozen

from casewright.compiler.cutting.held import take_held
from casewright.compiler.cutting.named import pieces_of
from casewright.compiler.cutting.plan_files import HeldPlan
from casewright.compiler.cutting.planner import Planner
from casewright.compiler.cutting.sawing import MaterialPlan, NotPlanned
from casewright.compiler.cutting.sawn import material_plan
from casewright.compiler.cutting.wanted import Wanted, requests
from casewright.compiler.cutting.worst_moments import moment_findings, worst_moments
from casewright.compiler.keys import binder
from casewright.compiler.model import Job, Material
from casewright.compiler.plan.plan import DEFAULT, Effort, Planned
from casewright.compiler.plan.request import Problem
from casewright.lang.findings import Finding, Label, Severity
from casewright.lang.printing import Printing
from casewright.lang.shape import span_of
from casewright.lang.source import Span


@frozen
class SheetPlans:
    """The plans of a job for papers, what the planner made of each material for files, and the
    materials of which there is no plan."""

    plans: tuple[MaterialPlan, ...] = ()
    planned: Mapping[str, Planned] = field(factory=dict, eq=False)
    unplanned: tuple[NotPlanned, ...] = ()


@frozen
class _Said:
    """A problem of the planner in the words of a finding; `{material}` and `{piece}` are named."""

    headline: str
    help: str


SHORT: Final = "stock-short"
"""That limited stock holds not all pieces: its line is the sheet's, whatever was left over."""

PROBLEMS: Final[Mapping[str, _Said]] = {
    "stock-too-large": _Said(
        "no sheet is as large as the stock of {material}",
        "say the stock in width by length",
    ),
    SHORT: _Said(
        "the stock of {material} that can be had is too little: {piece} is left over",
        "say more pieces of its stock, or leave pieces out where any number can be bought",
    ),
}
"""What a person can mend, by the planner's own slug."""

SAID_ALREADY: Final = ("piece-larger-than-stock", "piece-fits-only-turned", "trim-eats-stock")
"""Problems that a check of the job has reported before, with each part's line."""


def sheet_plans(
    job: Job,
    effort: Effort = DEFAULT,
    held: Mapping[str, HeldPlan] | None = None,
    planner: Planner | None = None,
) -> tuple[SheetPlans, tuple[Finding, ...]]:
    """Plans every sheet material; a failing one leaves the others as they are.

    `held` are plans read from beside the kitchen, by material; `planner` knows what was planned
    before.
    """
    planner = planner or Planner()
    wanted, asking = requests(job)
    findings = list(asking)
    plans: list[MaterialPlan] = []
    planned: dict[str, Planned] = {}
    failed: dict[str, str] = {}
    for each in wanted:
        taken = take_held(each.request, each.material.title, (held or {}).get(each.material.name))
        findings += taken.findings
        made, problems = taken.planned, list[Problem]()
        if made is None:
            made, problems = planner.plan(each.request, effort)
        if made is None:
            failed[each.material.name] = _why(problems)
            findings += _findings(job, each.material, problems)
            continue
        if not made.verdict.sound:
            failed[each.material.name] = "its plan did not pass its check"
            findings.append(_unsound(each.material, made.verdict.problems))
            continue
        planned[each.material.name] = made
        plan = material_plan(job, each.material, made)
        plans.append(plan)
        if job.saw is not None:
            moments = worst_moments(plan.sheets, job.saw)
            printing = Printing(job.system, job.precision.value)
            findings += moment_findings(each.material, moments, printing)
    unplanned = tuple(_unplanned(job, wanted, failed))
    return SheetPlans(tuple(plans), planned, unplanned), tuple(findings)


def _why(problems: Sequence[Problem]) -> str:
    """Why a material has no plan, as a clause."""
    if any(problem.slug in SAID_ALREADY for problem in problems):
        return "a piece fits none of its sheets"
    return "it can't be planned as it is asked for"


def _unplanned(job: Job, wanted: tuple[Wanted, ...], failed: Mapping[str, str]) -> list[NotPlanned]:
    counts: dict[str, int] = {}
    materials: dict[str, Material] = {}
    asked = {each.material.name for each in wanted}
    for placed in job.placed:
        for part in placed.unit.parts if placed.unit is not None else ():
            material = part.material
            if material.kind != "sheet" or part.hardware:
                continue
            if f"{placed.address}.{part.address}" in job.sawn:
                continue
            if material.name in asked and material.name not in failed:
                continue
            materials[material.name] = material
            counts[material.name] = counts.get(material.name, 0) + 1
    unsaid = "it says no size it is bought in"
    if job.saw is None:
        unsaid = "its saw can't be read" if job.saw_declared else "no saw is known"

    def why(name: str) -> str:
        unread = "a size it is bought in can't be read" if name in job.supply.unsized else unsaid
        return failed.get(name, unread)

    return [
        NotPlanned(material, counts[name], why(name))
        for name, material in sorted(materials.items())
    ]


def _unsound(material: Material, problems: tuple[Problem, ...]) -> Finding:
    return Finding(
        "plan-unsound",
        Severity.ERROR,
        f"the plan of {material.title} did not pass its check, so there is none",
        None,
        help=f"this is a fault of the program's own: {problems[0].message}",
    )


def _findings(job: Job, material: Material, problems: Sequence[Problem]) -> Iterator[Finding]:
    """The planner's problems, those of one kind as one report with the lines of every piece: a
    unit's own line first, the part's after."""
    by_slug: dict[str, list[Problem]] = {}
    for problem in problems:
        if problem.slug not in SAID_ALREADY:
            by_slug.setdefault(problem.slug, []).append(problem)
    pieces = pieces_of(job)
    for slug, alike in by_slug.items():
        lines = [_lines(job, problem.piece) for problem in alike]
        labels = tuple(label for _, label in lines if label is not None)
        said = PROBLEMS.get(slug)
        first = pieces.get(alike[0].piece)
        named = f"{first.label} {first.title}" if first is not None else "a piece"
        others = "piece" if len(alike) == 2 else "sorts of pieces"
        more = f" (and {len(alike) - 1} more {others})" if len(alike) > 1 else ""
        tags = (pieces[each.piece].label for each in alike if each.piece in pieces)
        origin = material.thick.origin if slug == SHORT else None
        yield Finding(
            "not-planned" if said is None else slug,
            Severity.ERROR,
            f"{material.title} can't be planned: {alike[0].message}"
            if said is None
            else said.headline.format(material=material.title, piece=f"{named}{more}"),
            lines[0][0] if origin is None else span_of(origin),
            labels=tuple(dict.fromkeys(labels)) if slug != SHORT else (),
            help="" if said is None else said.help,
            tags=tuple(dict.fromkeys(tags)),
        )


def _lines(job: Job, address: str) -> tuple[Span | None, Label | None]:
    for placed in job.placed:
        if placed.unit is None:
            continue
        bind = binder(placed.spans)
        made = [(f"{placed.address}.{part.address}", part.origin) for part in placed.unit.parts]
        made += [(f"{placed.address}.{each.name}", each.origin) for each in placed.unit.blanks]
        for name, origin in made:
            if name == address:
                where = bind(origin) if origin is not None else None
                if placed.span is None or where is None:
                    return placed.span or where, None
                return placed.span, Label(where, "is made here")
    return None, None
