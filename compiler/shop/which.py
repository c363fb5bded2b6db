"""Which of several declared things a job means, where it doesn't say."""

from collections.abc import Sequence

from casewright.compiler.text.resolve import Declaration, Program
from casewright.lang.findings import Finding, Label, Severity
from casewright.lang.shape import span_of


def nearest(program: Program, kind: str) -> tuple[Declaration | None, tuple[Finding, ...]]:
    """The one declared nearest to the job, the first where several are, and then a warning; none
    that another of them is from. None where there is none."""
    found = [each for name in program.names(kind) if (each := program.find(kind, name)) is not None]
    parents = {parent for each in found for parent in each.chain[1:]}
    found = [each for each in found if each.name not in parents]
    level = min((each.level for each in found), default=None)
    meant = [each for each in found if each.level == level]
    if not meant:
        return None, ()
    return meant[0], (_unsaid(kind, meant),) if len(meant) > 1 else ()


def _unsaid(kind: str, meant: Sequence[Declaration]) -> Finding:
    first, *others = meant
    names = ", ".join(each.name for each in others)
    span = span_of(first.statement.head.origin)
    labels = tuple(
        Label(where, "declared as near")
        for each in others
        if (where := span_of(each.statement.head.origin)) is not None
    )
    return Finding(
        f"{kind}-not-named",
        Severity.WARNING,
        f"the job doesn't name its {kind}: {first.name} is taken, not {names}",
        span,
        labels=labels,
        help=f"write {kind} {first.name}, or another, in the job",
    )
