"""Whether a unit takes a filler into its frame, and what is said where a line asks in vain."""

from casewright.compiler.construct.mouths import looks_across_corner
from casewright.compiler.text.resolve import Declaration
from casewright.lang.findings import Finding, Severity
from casewright.lang.shape import Clause, span_of


def takes_filler(unit: Declaration | None, construction: Declaration | None) -> bool:
    """Whether a unit, built so, takes a filler into its frame."""
    return (
        unit is not None
        and construction is not None
        and _has_own_frame(unit)
        and any(statement.rule == "takes" for statement in construction.statement.body)
    )


def _has_own_frame(unit: Declaration) -> bool:
    """Whether a construction gives a unit a frame that a filler could widen. One across a corner
    can't be: it would widen askew to what the filler closes."""
    own = unit.statement
    return own.clause("bare") is None and not any(map(looks_across_corner, own.body))


def untaken_filler(
    into: Clause, tag: str, unit: Declaration | None, construction: Declaration | None
) -> Finding:
    """That a filler goes into no frame though its line says so."""
    mend = f"take `into {tag}` out"
    if unit is not None and construction is not None and _has_own_frame(unit):
        mend += f"; {construction.name} takes no fillers, a construction with a face frame would"
    else:
        mend += ", or name the unit on its other side"
    return Finding(
        "filler-not-taken",
        Severity.WARNING,
        f"{tag} can't take this filler into a frame: it is cut as a strip of its own",
        span_of(into.origin),
        help=mend,
    )
