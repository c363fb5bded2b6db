"""From a built job to what the shop reckons: sheets planned, what to buy, what it costs."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from attrs import frozen

from casewright.compiler.cutting.board_plans import BoardPlans, board_plans
from casewright.compiler.cutting.held import of_nothing
from casewright.compiler.cutting.linear import LinearLists, linear_lists
from casewright.compiler.cutting.plan_files import HeldPlan, plan_files
from casewright.compiler.cutting.planner import Planner
from casewright.compiler.cutting.sheet_plans import SheetPlans, sheet_plans
from casewright.compiler.model import Job
from casewright.compiler.plan.boards import BOARDS
from casewright.compiler.plan.certificate import request_mark
from casewright.compiler.plan.plan import DEFAULT, HARD, Effort, Planned
from casewright.compiler.shop.buying import buying_list
from casewright.compiler.shop.estimate import estimate
from casewright.compiler.shop.priced import BuyingList, Estimate
from casewright.lang.findings import Finding, Severity

MOST_NAMED: Final = 8
"""How many things without a price are named in a report; the estimate names all."""


@frozen
class ShopWork:
    """What stands behind the papers for buying, sawing and price. `estimate` is None where the
    shop has no rates."""

    sheets: SheetPlans
    boards: BoardPlans
    linear: LinearLists
    buying: BuyingList
    estimate: Estimate | None
    unread: tuple[str, ...] = ()

    @property
    def marks(self) -> Mapping[str, str]:
        """What ties a plan to its list, by the plan's name."""
        return {name: request_mark(made.request) for name, made in self.searched.items()}

    @property
    def searched(self) -> Mapping[str, Planned]:
        """The plans that a long search may better, by name."""
        return {**self.sheets.planned, **self.boards.planned}

    @property
    def planner(self) -> Planner:
        """A planner that knows these plans."""
        return Planner(self.searched.values())

    @property
    def files(self) -> Mapping[str, bytes]:
        """Plans and certificates as files of the book, by path."""
        titles = {plan.material.name: plan.material.title for plan in self.sheets.plans}
        made = {**self.searched, **self.linear.planned}
        return plan_files(
            (name, titles.get(name, name), each.request, each.plan, each.certificate)
            for name, each in made.items()
        )

    @property
    def partial(self) -> tuple[str, ...]:
        """What the papers should hold and don't, as clauses; nothing where they are whole."""
        unplanned = (
            *(f"{each.material.title} has no cutting plan" for each in self.sheets.unplanned),
            *(each.removesuffix(".") for each in self.boards.unplanned),
        )
        unread = tuple(f"{place} can't be read" for place in self.unread)
        if self.estimate is None or not self.estimate.missing:
            return (*unplanned, *unread)
        named = self.estimate.missing.named
        priced = (f"the estimate is without {_some(named)}",) if named else ()
        return (*unplanned, *unread, *priced)

    @property
    def sentences(self) -> tuple[str, ...]:
        """How many sheets or boards of each material, and why fewer can't do or what is open."""
        sheets = [(plan.material.title, plan.headline) for plan in self.sheets.plans]
        boards = [(plan.material.title, plan.headline) for plan in self.boards.plans]
        linear = [(each.linear.title, each.headline) for each in self.linear.lists]
        return tuple(f"{title}: {headline}" for title, headline in (*sheets, *boards, *linear))


def shop_work(
    job: Job,
    held: Mapping[str, HeldPlan] | None = None,
    *,
    hard: bool = False,
    effort: Effort = DEFAULT,
    planner: Planner | None = None,
) -> tuple[ShopWork, tuple[Finding, ...]]:
    """Plans, buying list and estimate of a job, and what keeps parts of them from being made.

    `held` are plans kept beside the kitchen; `hard` searches long instead of using them, `effort`
    is spent otherwise; `planner` knows what was planned before.
    """
    planner = planner or Planner()
    known = None if hard else held
    sheets, findings = sheet_plans(job, HARD if hard else effort, known, planner)
    boards, lumbering = board_plans(job, HARD if hard else BOARDS, known, planner)
    linear, running = linear_lists(job)
    buying = buying_list(job, sheets.plans, sheets.unplanned, boards, linear)
    priced = estimate(job, sheets.plans, buying)
    work = ShopWork(sheets, boards, linear, buying, priced, job.supply.unread)
    unused = of_nothing(known or (), (each.name for each in job.materials))
    return work, (*findings, *lumbering, *running, *unused, *_not_whole(priced))


def _some(named: Sequence[str]) -> str:
    """The first of some things, and how many more there are."""
    more = f"; and {len(named) - MOST_NAMED} more" if len(named) > MOST_NAMED else ""
    return "; ".join(named[:MOST_NAMED]) + more


def _not_whole(priced: Estimate | None) -> Iterator[Finding]:
    """That an estimate is no whole price; what can't be read has its own report."""
    if priced is None or not priced.missing.named:
        return
    yield Finding(
        "estimate-not-whole",
        Severity.WARNING,
        f"the estimate is no whole price: it is without {_some(priced.missing.named)}",
        priced.rates.span,
        help="add a price for each to the rates, 0 where overhead carries it; for work, labour",
    )
