"""Options that a customer is offered, each priced by building the kitchen with it.

An offer says lines as the kitchen itself would have them (`offered_lines.py`). Every difference is
between whole cents that are added the same way, so that units, runs and trades of an offer add up
to its price as the estimate's own do.
"""

from collections.abc import Iterator
from typing import Final

from casewright.compiler.construct.materials import called
from casewright.compiler.cutting.planner import Planner
from casewright.compiler.plan.plan import DEFAULT
from casewright.compiler.shop.faults import faults_of
from casewright.compiler.shop.offered_lines import Impossible, offered
from casewright.compiler.shop.priced import Offer
from casewright.compiler.shop.variations import edited, outcome
from casewright.compiler.text.resolve import Program
from casewright.compiler.world import World
from casewright.lang.findings import Finding, Severity, error
from casewright.lang.shape import Statement, span_of

MOST_OFFERS: Final = 12
"""Offers of one kitchen that are priced: each builds and plans it once more."""


def offers(
    world: World,
    entry: str,
    program: Program,
    known: tuple[Finding, ...],
    planner: Planner | None = None,
) -> tuple[tuple[Offer, ...], tuple[Finding, ...]]:
    """Every offer of a kitchen, priced; one that can't be is a warning, and left out. `known` are
    the findings of the kitchen as it is, `planner` knows its plans."""
    planner = planner or Planner()
    declared = tuple(_declared(program))
    faults = faults_of(known)
    findings: list[Finding] = []
    found: list[Offer] = []
    for statement in declared[:MOST_OFFERS]:
        if faults.within(statement.origin):
            continue
        try:
            said = offered(program, statement)
        except Impossible as found_so:
            findings.append(_changes_nothing(statement, found_so))
            continue
        varied = edited(world, said.edits) if said.edits else None
        if varied is None:
            why = "two of its lines change one place" if said.edits else "it says no line"
            findings.append(_changes_nothing(statement, Impossible(why, None)))
            continue
        came = outcome(varied, entry, known, planner, DEFAULT)
        if came.estimate is None or came.compiled.job is None:
            findings.append(_unbuilt(statement, came.fault))
            continue
        title = called(statement, statement.name)
        found.append(Offer(statement.name, title, said.lines, came.compiled.job, came.estimate))
    if len(declared) > MOST_OFFERS:
        findings.append(
            error(
                "too-many-offers",
                f"{len(declared)} options are offered, and {MOST_OFFERS} is the most",
                span_of(declared[MOST_OFFERS].head.origin),
                help="keep those that the customer is to choose among",
            )
        )
    return tuple(found), tuple(findings)


def _declared(program: Program) -> Iterator[Statement]:
    for name in program.names("offer"):
        declaration = program.find("offer", name)
        if declaration is not None:
            yield declaration.statement


def _changes_nothing(statement: Statement, why: Impossible) -> Finding:
    return Finding(
        "offer-changes-nothing",
        Severity.WARNING,
        f"offer {statement.name} isn't priced: {why.why}",
        why.span or span_of(statement.head.origin),
        help=why.help
        or "say an option of the job's construction, a line with its tag, a run or an island",
    )


def _unbuilt(statement: Statement, fault: str) -> Finding:
    return Finding(
        "offer-not-built",
        Severity.WARNING,
        f"offer {statement.name} isn't priced: with it, {fault}",
        span_of(statement.head.origin),
        help="change what the offer says, or the kitchen where it doesn't suit it",
    )
