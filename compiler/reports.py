"""What a person is told of a kitchen: every report once, in order, none another's echo."""

from collections.abc import Iterable, Mapping, Sequence, Set

from casewright.compiler.shop.faults import in_shop_data
from casewright.compiler.text.resolve import Program
from casewright.lang.findings import Finding, Severity
from casewright.lang.source import Span

SUMS = frozenset(
    ("run-too-long", "run-too-short", "share-over-most", "share-below-least", "nothing-left")
)
"""Findings of a run's sum: vain where a line of the run could not be read."""

UNBUILT = frozenset(("not-built", "unknown-construction", "builds-nothing"))
"""Findings of how units are built: said once, in the job's head or at the first that wants it."""

BUILT_ALL_THE_SAME = SUMS - {"nothing-left"} | frozenset(
    (
        "pinned-out-of-place",
        "dead-corner-differs",
        "two-in-one-corner",
        "in-one-place",
        "island-through-wall",
        "deeper-than-island",
    )
)
"""Errors of a job that exists all the same: papers are written, and say so on their first page."""


def breaks(program: Program, finding: Finding) -> bool:
    """Whether no job comes of a text with this finding. What a shop says of its saw, its stock and
    its prices makes no part, so that a fault there is said on papers that are written."""
    return (
        finding.severity is Severity.ERROR
        and finding.slug not in BUILT_ALL_THE_SAME
        and not in_shop_data(program, finding)
    )


def without_vain_sums(
    program: Program, findings: Iterable[Finding], misfits: Set[str] = frozenset()
) -> tuple[Finding, ...]:
    """The findings of reading and placing, less the sums of runs in which a line could not be
    read, and of `misfits`, in which a thing can't be as wide as its line says: once it is read, or
    has another width, the sum is another."""
    findings = tuple(findings)
    spoilt = list(_spoilt(program, findings).values())
    spoilt += [
        run.origin for run in program.runs if run.name in misfits and isinstance(run.origin, Span)
    ]
    return tuple(
        finding
        for finding in findings
        if finding.slug not in SUMS or not any(_holds(run, finding.span) for run in spoilt)
    )


def spoilt_runs(program: Program, findings: Iterable[Finding]) -> frozenset[str]:
    """The runs in which a line could not be read: where their things would stand isn't known."""
    return frozenset(_spoilt(program, findings))


def all_in_runs(program: Program, findings: Iterable[Finding]) -> bool:
    """Whether whatever of these keeps a job from coming lies in some run, so that all else is as
    the text says it."""
    runs = [run.origin for run in program.runs if isinstance(run.origin, Span)]
    return all(
        any(_holds(run, finding.span) for run in runs)
        for finding in findings
        if breaks(program, finding)
    )


def _wrong(program: Program, findings: Sequence[Finding]) -> frozenset[str]:
    """The names of what a room's lines declare and that have an error: a wall, an island."""
    faults = [each.span for each in findings if each.severity is Severity.ERROR]
    return frozenset(
        line.name
        for room in program.rooms
        for line in room.body
        if isinstance(line.origin, Span) and any(_holds(line.origin, span) for span in faults)
    )


def _spoilt(program: Program, findings: Iterable[Finding]) -> Mapping[str, Span]:
    runs = {run.name: run.origin for run in program.runs if isinstance(run.origin, Span)}
    faults = [
        finding
        for finding in findings
        if finding.severity is Severity.ERROR and finding.slug not in SUMS | BUILT_ALL_THE_SAME
    ]
    if any(
        each.slug in UNBUILT and not any(_holds(run, each.span) for run in runs.values())
        for each in faults
    ):
        return runs
    return {
        name: run for name, run in runs.items() if any(_holds(run, each.span) for each in faults)
    }


def _holds(outer: Span, inner: Span | None) -> bool:
    return (
        inner is not None
        and inner.source is outer.source
        and outer.start <= inner.start < outer.end
    )


def in_order(program: Program, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Every report once, by file and line; none of a name that a line declares which can't be
    read, or which is wrong itself, since that line has its own."""
    findings = tuple(findings)
    spoilt = frozenset().union(*(text.spoilt for text in program.texts), _wrong(program, findings))
    distinct: dict[tuple[object, ...], Finding] = {}
    for finding in findings:
        name = finding.span.text.split(".")[0] if finding.span is not None else ""
        if finding.slug.startswith("unknown-") and name in spoilt:
            continue
        distinct.setdefault((finding.order, finding.headline), finding)
    return tuple(sorted(distinct.values(), key=lambda finding: finding.order))
