"""Lists of pieces planned, each once: a kitchen that is built again with a change plans anew only
the materials whose lists have changed."""

from collections.abc import Iterable

from casewright.compiler.plan.certificate import request_mark
from casewright.compiler.plan.plan import Effort, Planned, plan_sheets
from casewright.compiler.plan.request import Problem, Request

Result = tuple[Planned | None, list[Problem]]


class Planner:
    """Plans lists and remembers them by their whole text and the effort, so that nothing that
    differs is shared, and what comes out is as if it were planned each time.

    `known` are plans of the kitchen as it is: where a change leaves a list alone, its plan is that
    of the kitchen, however much work went into that.
    """

    def __init__(self, known: Iterable[Planned] = ()) -> None:
        self._known = {request_mark(each.request): each for each in known}
        self._made: dict[tuple[str, Effort], Result] = {}

    def plan(self, request: Request, effort: Effort) -> Result:
        """As `plan_sheets`."""
        mark = request_mark(request)
        if mark in self._known:
            return self._known[mark], []
        if (mark, effort) not in self._made:
            self._made[mark, effort] = plan_sheets(request, effort)
        return self._made[mark, effort]
