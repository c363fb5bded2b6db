"""Which finding comes of another: one cause gives one report.

What a cause brings with it is told again once the cause is mended, if it is still there. A cause
that is accepted silences nothing.
"""

from collections.abc import Iterator, Sequence, Set
from typing import Literal

from attrs import frozen

from casewright.compiler.check.site import Site
from casewright.compiler.model import Run
from casewright.lang.findings import Finding
from casewright.lang.source import Span


@frozen
class Precedence:
    """A cause, and what comes of it: in the same `thing`, or at the `ends` of a run: of what
    reaches past the run's space, and of the last thing before what is left of it."""

    cause: str
    echoes: frozenset[str]
    within: Literal["thing", "ends"]


AT_AN_END = frozenset(
    (
        "appliance-door-blocked",
        "door-meets-fixed",
        "door-meets-wall",
        "door-opens-less",
        "drawer-meets-fixed",
        "fastener-shows",
        "front-past-its-wall",
        "no-scribe-at-wall",
        "scribe-too-narrow",
        "seen-end-unfinished",
        "sweeps-meet",
        "unit-covers-doorway",
        "unit-covers-window",
        "unit-meets-casing",
    )
)
"""What is found of a thing where it ends, or of where it ends."""

OF_A_WIDTH = frozenset(
    (
        "drawer-bottom-sags",
        "floor-sags",
        "heavy-to-carry",
        "heavy-to-lift",
        "part-larger-than-sheet",
        "shelf-sags",
        "slide-overloaded",
        "too-few-hinges",
    )
)
"""What is found of a thing that is wider than was meant."""

ACROSS_AN_AISLE = frozenset(
    (
        "appliance-door-blocked",
        "door-meets-fixed",
        "drawer-meets-fixed",
        "little-passage",
        "sweeps-meet",
    )
)
"""What is found of things that open towards one another."""

PRECEDENCES = (
    Precedence(
        "higher-than-room",
        frozenset(("cannot-stand-up", "doorway-too-small", "heavy-to-carry", "heavy-to-lift")),
        "thing",
    ),
    Precedence("runs-too-near", ACROSS_AN_AISLE, "thing"),
    Precedence("pull-past-front", frozenset(("hole-near-edge",)), "thing"),
    Precedence("holes-meet", frozenset(("hole-near-edge",)), "thing"),
    Precedence("seen-end-unfinished", frozenset(("fastener-shows",)), "thing"),
    Precedence("run-too-long", AT_AN_END | OF_A_WIDTH, "ends"),
    Precedence("run-too-short", AT_AN_END - {"no-scribe-at-wall", "scribe-too-narrow"}, "ends"),
    Precedence("share-over-most", AT_AN_END, "ends"),
    Precedence("share-below-least", AT_AN_END, "ends"),
)


def without_echoes(site: Site, findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """The findings, less those that come of another."""
    silenced: dict[str, set[str]] = {}
    for precedence in PRECEDENCES:
        for finding in findings:
            if finding.slug == precedence.cause and not finding.accepted:
                tags = set(finding.tags) if precedence.within == "thing" else _ends(site, finding)
                for slug in precedence.echoes:
                    silenced.setdefault(slug, set()).update(tags)
    return tuple(each for each in findings if not _is_echo(each, silenced.get(each.slug, set())))


def _is_echo(finding: Finding, silenced: Set[str]) -> bool:
    return bool(finding.tags) and all(tag in silenced for tag in finding.tags)


def _ends(site: Site, finding: Finding) -> set[str]:
    """The tags of what stands where the sum of a run is off."""
    return {
        tag
        for run in site.job.runs
        if finding.span is not None and _holds(run.span, finding.span)
        for tag in _off(run)
    }


def _off(run: Run) -> Iterator[str]:
    at_end = [each for each in run.placed if each.kind in ("unit", "appliance")]
    for placed in at_end:
        if placed.at.value + placed.width.value > run.space.value or placed is at_end[-1]:
            yield placed.tag


def _holds(outer: Span | None, inner: Span) -> bool:
    return (
        outer is not None
        and outer.source is inner.source
        and outer.start <= inner.start < outer.end
    )
