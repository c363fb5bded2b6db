"""Looks over a job: runs every check, binds what it found to lines, sorts out what is accepted."""

from collections.abc import Hashable, Iterable, Iterator, Sequence
from difflib import get_close_matches
from itertools import chain

from attrs import evolve

from casewright.compiler.check import (
    aisles,
    banding,
    behind,
    boring,
    bringing,
    ceilings,
    contradictions,
    covering,
    doors,
    ends,
    frames,
    fronts,
    grooves,
    hanging,
    hardware,
    lifting,
    lining_up,
    making,
    moving,
    outlets,
    panels,
    passing,
    scribes,
    strength,
    unknown,
    worktops,
)
from casewright.compiler.check.declare import Check, Gathered, Report
from casewright.compiler.check.echoes import without_echoes
from casewright.compiler.check.quantities import EVERY
from casewright.compiler.check.site import LIBRARY, Site, Standing
from casewright.compiler.model import Job
from casewright.compiler.shop.yardstick import Acceptance
from casewright.lang.findings import Finding, Label, Severity
from casewright.lang.source import Span

MODULES = (
    covering,
    behind,
    outlets,
    lining_up,
    scribes,
    frames,
    fronts,
    ends,
    aisles,
    moving,
    passing,
    hardware,
    doors,
    boring,
    strength,
    worktops,
    hanging,
    making,
    grooves,
    banding,
    panels,
    ceilings,
    bringing,
    lifting,
    unknown,
    contradictions,
)
"""Where checks stand, in the order in which a colleague would look."""

CHECKS: tuple[Check, ...] = (
    *(each for module in MODULES for each in vars(module).values() if isinstance(each, Check)),
    *(quantity.check for quantity in EVERY),
)
"""Every check, by the order of its declaration."""


CLASHES = ("in-one-place", "two-in-one-corner")
"""Findings about two things that stand in one another."""


def look_over(job: Job, found: Iterable[Finding], *, whole: bool = True) -> tuple[Finding, ...]:
    """What is wrong with a job: what was found already, and what its checks find; what the text
    accepts carries its reason. The job itself is never changed. Of one that isn't `whole`, with
    broken units that are no more than their outlines, only those are judged."""
    found = tuple(found)
    site = Site(job, _clashing(found))
    acceptances = _Acceptances(job.yardstick.acceptances)
    findings = [acceptances.settle(finding, ()) for finding in found]
    for check in (each for each in CHECKS if whole or each.of_outlines):
        findings.extend(_found(check, site, acceptances))
    findings = list(without_echoes(site, _folded(findings)))
    return (*findings, *(acceptances.idle() if whole else ()))


def _folded(findings: Sequence[Finding]) -> list[Finding]:
    """Equal reports of several things are one that names them all."""
    first: dict[tuple[object, ...], int] = {}
    kept: list[Finding] = []
    for finding in findings:
        figures = tuple((each.words, each.measure, each.note) for each in finding.figures)
        said = (
            finding.slug,
            finding.headline,
            figures,
            finding.help,
            finding.edits,
            finding.accepted,
        )
        at = first.setdefault(said, len(kept)) if finding.tags else len(kept)
        if at == len(kept):
            kept.append(finding)
        else:
            tags = dict.fromkeys((*kept[at].tags, *finding.tags))
            kept[at] = evolve(kept[at], tags=tuple(tags))
    return kept


def _clashing(found: Sequence[Finding]) -> frozenset[Span]:
    """The lines of things that stand in one another."""
    clashes = [each for each in found if each.slug in CLASHES]
    spans = [span for each in clashes for span in (each.span, *(at.span for at in each.labels))]
    return frozenset(span for span in spans if span is not None)


def _found(check: Check, site: Site, acceptances: "_Acceptances") -> Iterator[Finding]:
    """The findings of a check. Each report is accepted or not by itself; what is gathered is then
    told at once, where the first of it was found."""
    findings: list[tuple[Finding, ...]] = []
    gathered: dict[tuple[Hashable, str], tuple[int, list[Report]]] = {}
    for report in check.find(site):
        bound = tuple(_bound(check, report, acceptances))
        if report.gathered is not None:
            key = (report.gathered.key, bound[0].accepted)
            at, reports = gathered.setdefault(key, (len(findings), []))
            reports.append(report)
            if at < len(findings):
                findings[at] = (_gathered(check, report.gathered, reports, key[1]),)
                continue
        findings.append(bound)
    yield from chain.from_iterable(findings)


def _gathered(check: Check, gathered: Gathered, reports: Sequence[Report], reason: str) -> Finding:
    told = gathered.tell(reports)
    standings = [standing for report in reports for standing in report.about]
    tags = dict.fromkeys(each.placed.tag for each in standings if each.placed.tag)
    return evolve(_finding(check, told, standings[0]), tags=tuple(tags), accepted=reason)


def _bound(check: Check, report: Report, acceptances: "_Acceptances") -> Iterator[Finding]:
    """The findings of one report: one for all it is about, less one for each that is accepted."""
    if not report.about:
        yield acceptances.settle(_finding(check, report, None), ())
        return
    groups: dict[str, list[Standing]] = {}
    for standing in report.about:
        of = (standing, *report.and_of)
        settled = acceptances.settle(_finding(check, report, standing), of)
        groups.setdefault(settled.accepted, []).append(standing)
    for reason, standings in groups.items():
        told = report
        if report.among is not None and len(groups) > 1:
            told = report.among(tuple(standings))
        tags = tuple(each.placed.tag for each in standings if each.placed.tag)
        yield evolve(_finding(check, told, standings[0]), tags=tags, accepted=reason)


def _finding(check: Check, report: Report, standing: Standing | None) -> Finding:
    """A fault that lies in another text than the kitchen's is blamed on the line that asked for it;
    the other line is a note."""
    labels = report.labels
    span = report.origin if isinstance(report.origin, Span) else None
    if standing is not None:
        span, line = standing.span_of(report.origin), standing.line
        if span is not None and line is not None and span.source is not line.source:
            note = "in the library" if span.source.label.startswith(LIBRARY) else "made here"
            labels = (*labels, Label(span, note))
            span = line
        span = span or line
    tags = (standing.placed.tag,) if standing is not None and standing.placed.tag else ()
    return Finding(
        check.slug,
        report.severity or check.severity,
        report.headline,
        span,
        report.figures,
        labels,
        report.help,
        report.edits,
        tags,
    )


class _Acceptances:
    """What the text accepts, and which of it was met."""

    def __init__(self, acceptances: Sequence[Acceptance]) -> None:
        self.acceptances = acceptances
        self.met: set[int] = set()

    def settle(self, finding: Finding, about: Sequence[Standing]) -> Finding:
        """The finding with the first reason it is accepted for. Each acceptance that holds is met:
        two units may both accept what is of both."""
        holding = [
            index
            for index, acceptance in enumerate(self.acceptances)
            if acceptance.slug == finding.slug and _holds(acceptance, finding, about)
        ]
        self.met.update(holding)
        if not holding:
            return finding
        return evolve(finding, accepted=self.acceptances[holding[0]].reason)

    def idle(self) -> Iterator[Finding]:
        """A finding for each acceptance that nothing was found for."""
        known = [check.slug for check in CHECKS]
        for index, acceptance in enumerate(self.acceptances):
            if index in self.met:
                continue
            close = get_close_matches(acceptance.slug, known, n=1, cutoff=0.6)
            meant = close and close[0] != acceptance.slug
            yield Finding(
                "accepts-nothing",
                Severity.WARNING,
                f"there is no {acceptance.slug} here to accept",
                acceptance.span,
                help=f"did you mean {close[0]}?" if meant else "take the line out",
            )


def _holds(acceptance: Acceptance, finding: Finding, about: Sequence[Standing]) -> bool:
    if not acceptance.holder:
        return True
    if any(acceptance.holder in (each.placed.address, each.run.name) for each in about):
        return True
    there = acceptance.holds_on
    return there is not None and any(
        span is not None and there.source is span.source and there.start <= span.start <= there.end
        for span in (finding.span, *(each.span for each in finding.labels))
    )
