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
from casewright.compiler.plan.work import Work


@frozen
class Effort:
    """How much work a plan may take; works count table cells, in thousands (`work.py`).

    `greedy` is kinds times pieces over all greedy plans. `whole` is what all that follows may take
    together; of it at most `work` goes into prices and `counted_work` into each sharper bound.
    `master` limits the integer master, `chosen` the one over whole sheets, `tries` are searches
    that plan a few sheets anew, and `tidy` limits the master that looks for fewer rip settings.
    """

    greedy: int
    whole: int
    work: int
    counted_work: int
    master: Limits
    chosen: Limits
    tries: int
    tidy: Limits


DEFAULT: Final = Effort(
    300_000, 3_000_000, 700_000, 400_000, Limits(10, 300), Limits(3, 120), 4, Limits(2, 150)
)
HARD: Final = Effort(
    4_000_000,
    400_000_000,
    50_000_000,
    40_000_000,
    Limits(2000, 2000),
    Limits(2000, 2000),
    400,
    Limits(500, 600),
)

TIDYING: Final = 8
"""The share of the whole work that goes into fewer rip settings, as one part of so many."""

FIRST_MASTER: Final = 20
"""The share of the whole work of the master before any search, as one part of so many; what the
searches leave over comes back to it."""

CHOOSING: Final = 64
"""The share of the whole work of the master over whole sheets, as one part of so many."""

CHECKING: Final = 25
"""A check of a bound by prices takes about as long as so many runs of the programme behind it."""

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
    tidying = Work(effort.whole // TIDYING)
    work = Work(effort.whole - tidying.left)
    if cost_of(task, layouts) > bound.cost and engines_work(task) <= effort.work // 10:
        engines = make_engines(task)
        # What is claimed is checked, and that takes as long as so many runs.
        work.take(CHECKING * sum(programme.work for programme in engines.programmes))
        relaxed = relax(task, engines, layouts, cost_of(task, layouts), work.part(effort.work))
        bound = max(bound, relaxed.bound, key=lambda b: b.cost)
        if any(left) or cost_of(task, layouts) > bound.cost:
            known = [*layouts, *relaxed.layouts]
            dived = dive(task, engines, known, bound.cost, work.part(effort.work * 2 // 5))
            if dived and (any(left) or cost_of(task, dived) < cost_of(task, layouts)):
                layouts, left = dived, [0] * len(left)
        pool = make_pool(task, demands, [*layouts, *relaxed.layouts], strips)
        if any(left) or cost_of(task, layouts) > bound.cost:
            better = solve_master(
                task,
                demands,
                pool,
                effort.master,
                bound.cost,
                work.part(effort.whole // FIRST_MASTER),
            )
            if better and (any(left) or cost_of(task, better) < cost_of(task, layouts)):
                layouts, left = better, [0] * len(left)
        if not any(left) and cost_of(task, layouts) > bound.cost:
            layouts, bound, known = _tightened(task, engines, relaxed, layouts, bound, effort, work)
            pool = make_pool(task, demands, known, strips)
        if not any(left) and cost_of(task, layouts) > bound.cost:
            layouts = refine(task, layouts, pool, bound.cost, effort.tries, work)
        if not any(left) and cost_of(task, layouts) > bound.cost and work.left > 0:
            # What the searches left over goes to the master, with all sheets that they met.
            better = solve_master(task, demands, pool, effort.master, bound.cost, work)
            if better and cost_of(task, better) < cost_of(task, layouts):
                layouts = better
    if any(left):
        return None, stock_short(task, left)
    layouts = arrange(task, layouts, pool, effort.tidy, tidying)
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
    work: Work,
) -> tuple[list[SheetLayout], Bound, list[SheetLayout]]:
    """The plan and the bound after a sharper bound was looked for, with every sheet known by then.

    A bound for any number of stages says more; one for three closes more gaps, and the dear
    sheets of three stages that it meets may make a cheaper plan.
    """
    known = [*layouts, *relaxed.layouts]
    cost = cost_of(task, layouts)
    start = tuple(known)
    for staged, runs, most in (
        (False, 20, effort.counted_work // 2),
        (True, 20, effort.counted_work // 2),
        (True, 8, effort.counted_work),
    ):
        sharper, met = tighten(
            task, engines, relaxed, start, cost, work.part(most), staged=staged, runs=runs
        )
        bound = max(bound, sharper, key=lambda b: b.cost)
        known += met
        if bound.cost >= cost:
            return layouts, bound, known
    better = choose_sheets(
        task, known, effort.chosen, bound.cost, work.part(effort.whole // CHOOSING)
    )
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
