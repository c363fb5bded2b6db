"""From a request to a proved plan, every phase in order."""

from attrs import frozen

from casewright.compiler.plan.bounds import area_bound, dual_feasible_bound
from casewright.compiler.plan.certificate import write_certificate
from casewright.compiler.plan.greedy import greedy
from casewright.compiler.plan.layout import build_plan
from casewright.compiler.plan.request import Problem, Request, check_request
from casewright.compiler.plan.task import make_task
from casewright.compiler.plan.tree import CutPlan
from casewright.compiler.plan.verify import Verdict, verify


@frozen
class Planned:
    """A plan, its certificate and what the independent check said of them."""

    request: Request
    plan: CutPlan
    certificate: str
    verdict: Verdict


def plan_sheets(request: Request) -> tuple[Planned | None, list[Problem]]:
    found = check_request(request)
    if found:
        return None, found
    task = make_task(request)
    bound = max(area_bound(task), dual_feasible_bound(task), key=lambda b: b.cost)
    layouts, _, _ = greedy(task, task.demands, 20, 1, bound.cost)
    step = task.step
    plan = build_plan(
        task, layouts, (int(request.keep_length / step), int(request.keep_width / step))
    )
    certificate = write_certificate(request, task, bound)
    verdict = verify(request, plan, certificate)
    return Planned(request, plan, certificate, verdict), []
