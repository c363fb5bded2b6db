"""Options that a customer is offered, each priced by building the kitchen with it.

An offer is the job's construction with some lines changed (`offer framed { made five_piece }`).
Every difference is between whole cents that are added the same way, so that units, runs and trades
of an offer add up to its price as the estimate's own do.
"""

from collections.abc import Iterator
from typing import Final

from casewright.compiler.construct.parts import called
from casewright.compiler.plan.plan import DEFAULT
from casewright.compiler.shop.priced import Offer
from casewright.compiler.shop.variations import built_otherwise, outcome
from casewright.compiler.text.resolve import Program
from casewright.compiler.world import World
from casewright.lang.findings import Finding, Severity, error
from casewright.lang.shape import Statement, span_of

MOST_OFFERS: Final = 12
"""Offers of one kitchen that are priced: each builds and plans it once more."""


def offers(
    world: World, entry: str, program: Program, known: tuple[Finding, ...]
) -> tuple[tuple[Offer, ...], tuple[Finding, ...]]:
    """Every offer of a kitchen, priced; one that can't be is a warning, and left out. `known` are
    the findings of the kitchen as it is."""
    declared = tuple(_declared(program))
    findings: list[Finding] = []
    found: list[Offer] = []
    for statement in declared[:MOST_OFFERS]:
        lines = lines_of(statement)
        built = built_otherwise(world, entry, program, "\n".join(lines)) if lines else None
        if built is None:
            findings.append(_changes_nothing(statement, bool(lines)))
            continue
        came = outcome(built[0], entry, known, DEFAULT)
        if came.estimate is None or came.compiled.job is None:
            findings.append(_unbuilt(statement, came.fault))
            continue
        title = called(statement, statement.name)
        found.append(Offer(statement.name, title, lines, came.compiled.job, came.estimate))
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


def lines_of(statement: Statement) -> tuple[str, ...]:
    """What an offer changes, as it is written but for aligned columns."""
    found: list[str] = []
    for each in statement.options:
        span = span_of(each.origin)
        if span is not None:
            end = max(
                (
                    value.end
                    for expression in each.values
                    for value in [span_of(expression.origin)]
                    if value is not None
                ),
                default=span.end,
            )
            found.append(" ".join(span.source.text[span.start : max(end, span.end)].split()))
    return tuple(found)


def _changes_nothing(statement: Statement, lines: bool) -> Finding:
    return Finding(
        "offer-changes-nothing",
        Severity.WARNING,
        f"offer {statement.name} changes nothing"
        if not lines
        else f"offer {statement.name} has nothing to change: the job doesn't say how it is built",
        span_of(statement.head.origin),
        help="say an option of the job's construction and its other value"
        if not lines
        else "add built, and a construction, to the job",
    )


def _unbuilt(statement: Statement, fault: str) -> Finding:
    return Finding(
        "offer-not-built",
        Severity.WARNING,
        f"offer {statement.name} isn't priced: with it, {fault}",
        span_of(statement.head.origin),
        help="change what the offer says, or the kitchen where it doesn't suit it",
    )
