"""From a request to a proved plan: every phase in order, on one screen.

No clock takes part in any decision. How far a search goes is counted in restarts, table cells,
columns and branch-and-bound nodes, so that the same request gives the same plan.
"""

from math import ceil
from typing import Final

from attrs import frozen

from casewright.compiler.plan.arrange import arrange
from casewright.compiler.plan.bounds import Bound, area_bound, dual_feasible_bound
from casewright.compiler.plan.certificate import write_certificate
from casewright.compiler.plan.dive import dive
from casewright.compiler.plan.greedy import greedy
from casewright.compiler.plan.layout import SheetLayout, build_plan, cost_of
from casewright.compiler.plan.master import Limits, choose_sheets, make_pool, solve_master
from casewright.compiler.plan.refine import refine
from casewright.compiler.plan.relax import Engines, Relaxed, engines_work, make_engines, relax
from casewright.compiler.plan.request import Problem, Request, check_request
from casewright.compiler.plan.task import Task, make_task
from casewright.compiler.plan.tighten import tighten
from casewright.compiler.plan.tree import CutPlan
from casewright.compiler.plan.verify import Verdict, verify


@frozen
class Effort:
    """How much work a plan may take; works count table cells, in thousands.

    `greedy` is kinds times pieces over all greedy plans, `work` goes into prices and
    `counted_work` into each sharper bound; `master` limits the integer master, `chosen` the one
    over whole sheets, `tries` are searches that plan a few sheets anew, and `tidy` limits the
    master that looks for fewer rip settings.
    """

    greedy: int
    work: int
    counted_work: int
    master: Limits
    chosen: Limits
    tries: int
    tidy: Limits


DEFAULT: Final = Effort(
    300_000, 1_000_000, 200_000, Limits(10, 300), Limits(3, 120), 4, Limits(2, 150)
)
HARD: Final = Effort(
    4_000_000, 50_000_000, 20_000_000, Limits(2000, 2000), Limits(2000, 2000), 400, Limits(500, 600)
)

MOST_RESTARTS: Final = 150
"""Greedy plans of even the shortest list."""


@frozen
class Planned:
    """A plan, its certificate and what the independent check said of them."""

    request: Request
    plan: CutPlan
    certificate: str
    verdict: Verdict


def plan_sheets(request: Request, effort: Effort = DEFAULT) -> tuple[Planned | None, list[Problem]]:
    """The plan of a request with its verdict, or None and what is wrong with the request."""
    found = check_request(request)
    if found:
        return None, found
    task = make_task(request)
    demands = task.demands
    restarts = max(1, min(MOST_RESTARTS, effort.greedy // (len(demands) * sum(demands))))
    added = max(area_bound(task), dual_feasible_bound(task), key=lambda b: b.cost)
    bound = added
    layouts, strips, left = greedy(task, demands, restarts, 1, bound.cost)
    if restarts > 1:
        strips += greedy(task, demands, restarts // 2, 2, 0)[1]
    pool = make_pool(task, demands, layouts, strips)
    if cost_of(task, layouts) > bound.cost and engines_work(task) <= effort.work // 10:
        engines = make_engines(task)
        relaxed = relax(task, engines, layouts, cost_of(task, layouts), effort.work)
        bound = max(bound, relaxed.bound, key=lambda b: b.cost)
        if any(left) or cost_of(task, layouts) > bound.cost:
            known = [*layouts, *relaxed.layouts]
            dived = dive(task, engines, known, bound.cost, effort.work // 8)
            if dived and (any(left) or cost_of(task, dived) < cost_of(task, layouts)):
                layouts, left = dived, [0] * len(left)
        pool = make_pool(task, demands, [*layouts, *relaxed.layouts], strips)
        if any(left) or cost_of(task, layouts) > bound.cost:
            better = solve_master(task, demands, pool, effort.master, bound.cost)
            if better and (any(left) or cost_of(task, better) < cost_of(task, layouts)):
                layouts, left = better, [0] * len(left)
        if not any(left) and cost_of(task, layouts) > bound.cost:
            layouts, bound, known = _tightened(task, engines, relaxed, layouts, bound, effort)
            pool = make_pool(task, demands, known, strips)
        if not any(left) and cost_of(task, layouts) > bound.cost:
            layouts = refine(task, layouts, pool, bound.cost, effort.tries)
    if any(left):
        return None, stock_short(task, left)
    layouts = arrange(task, layouts, pool, effort.tidy)
    keep = (ceil(request.keep_length / task.step), ceil(request.keep_width / task.step))
    plan = build_plan(task, layouts, keep)
    certificate = write_certificate(request, task, bound)
    verdict = verify(request, plan, certificate)
    if any(problem.slug == "too-much-work" for problem in verdict.problems):
        # What nobody can check in bounded time isn't claimed.
        certificate = write_certificate(request, task, added)
        verdict = verify(request, plan, certificate)
    return Planned(request, plan, certificate, verdict), []


def _tightened(
    task: Task,
    engines: Engines,
    relaxed: Relaxed,
    layouts: list[SheetLayout],
    bound: Bound,
    effort: Effort,
) -> tuple[list[SheetLayout], Bound, list[SheetLayout]]:
    """The plan and the bound after a sharper bound was looked for, with every sheet known by then.

    A bound for any number of stages says more; one for three closes more gaps, and the dear
    sheets of three stages that it meets may make a cheaper plan.
    """
    known = [*layouts, *relaxed.layouts]
    cost = cost_of(task, layouts)
    start = tuple(known)
    for staged, runs, work in (
        (False, 20, effort.counted_work // 2),
        (True, 20, effort.counted_work // 2),
        (True, 8, effort.counted_work),
    ):
        sharper, met = tighten(task, engines, relaxed, start, cost, work, staged=staged, runs=runs)
        bound = max(bound, sharper, key=lambda b: b.cost)
        known += met
        if bound.cost >= cost:
            return layouts, bound, known
    better = choose_sheets(task, known, effort.chosen, bound.cost)
    if better and cost_of(task, better) < cost:
        layouts = better
    return layouts, bound, known


def stock_short(task: Task, left: list[int]) -> list[Problem]:
    """One problem for each kind of piece that the limited stock has no room for."""
    return [
        Problem("stock-short", f"{count} of these don't fit the stock there is", member.address)
        for kind, count in zip(task.kinds, left, strict=True)
        if count
        for member in kind.members[:1]
    ]
