"""A kitchen with something changed in its text, built and priced anew: what else it would cost.

A change is an edit of the texts themselves, so that whatever follows from it follows: sizes,
joints, checks, plans, prices. Nothing is ever written; the changed texts are held in memory.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Final

from attrs import evolve, frozen

from casewright.compiler.compile import Compiled, compile_job
from casewright.compiler.cutting.planner import Planner
from casewright.compiler.model import Job
from casewright.compiler.plan.master import Limits
from casewright.compiler.plan.plan import DEFAULT, Effort
from casewright.compiler.shop.priced import Estimate
from casewright.compiler.shop.reckoning import shop_work
from casewright.compiler.text.resolve import Program
from casewright.compiler.world import Library, World
from casewright.lang.findings import Edit, Finding, Severity
from casewright.lang.shape import bare_word, span_of
from casewright.lang.source import Span

QUICK: Final[Effort] = evolve(
    DEFAULT, greedy=60_000, work=100_000, counted_work=0, master=Limits(3, 100), tries=1,
    tidy=Limits(0, 0),
)  # fmt: skip
"""The work spent on the sheets of a varied kitchen. Its plan can be sawn, but may be no minimum:
what a change is said to save, it saves at least."""


@frozen
class Varied:
    """A project with some of its texts changed, by path."""

    world: World
    changed: Mapping[str, bytes]

    @property
    def std(self) -> Library:
        return self.world.std

    def read(self, path: str) -> bytes:
        found = self.changed.get(path)
        return self.world.read(path) if found is None else found

    def exists(self, path: str) -> bool:
        return path in self.changed or self.world.exists(path)


@frozen
class Outcome:
    """What came of a varied kitchen: `estimate` is None where it can't be built or priced, and
    `fault` then says why in a sentence without a stop."""

    compiled: Compiled
    estimate: Estimate | None
    fault: str = ""

    @property
    def job(self) -> Job | None:
        """The kitchen as it would be."""
        return self.compiled.job


def edited(world: World, edits: Sequence[Edit]) -> Varied | None:
    """The project with some places of its texts said otherwise; None where two of them meet."""
    by_source: dict[str, list[Edit]] = {}
    for edit in edits:
        by_source.setdefault(edit.span.source.label, []).append(edit)
    changed: dict[str, bytes] = {}
    for label, found in by_source.items():
        found.sort(key=lambda each: (each.span.start, each.span.end))
        if any(one.span.end > other.span.start for one, other in pairwise(found)):
            return None
        text = found[0].span.source.text
        for edit in reversed(found):
            text = f"{text[: edit.span.start]}{edit.replacement}{text[edit.span.end :]}"
        changed[label] = text.encode()
    return Varied(world, changed)


def built_otherwise(
    program: Program, lines: str, by: str = ""
) -> tuple[tuple[Edit, ...], Span] | None:
    """The edits by which the job is built by the construction `by` (its own, where that is empty)
    with `lines` changed, and the place where the job says how it is built; None where it doesn't
    say."""
    clause = program.jobs[0].clause("built") if program.jobs else None
    span = span_of(clause.values[0].origin) if clause is not None and clause.values else None
    if clause is None or span is None:
        return None
    own = by or bare_word(clause.values[0])
    if not lines:
        return (Edit(span, own),), span
    name = f"varied_{own}"
    while program.find("construction", name) is not None:
        name = f"varied_{name}"
    end = len(span.source.text)
    more = f"\nconstruction {name} from {own} {{\n{lines}\n}}\n"
    return (Edit(span, name), Edit(Span(span.source, end, end), more)), span


def outcome(
    world: World,
    entry: str,
    known: tuple[Finding, ...],
    planner: Planner,
    effort: Effort = QUICK,
) -> Outcome:
    """A varied kitchen built and priced, with so much work spent on its sheets; `planner` knows
    what was planned before.

    It counts as sound only where it has no error or warning that the kitchen as it is, with the
    findings `known`, hasn't.
    """
    compiled = compile_job(world, entry)
    fault = _worse(compiled.findings, known)
    if compiled.job is None or fault:
        return Outcome(compiled, None, fault or "it can't be built")
    return priced(compiled, compiled.job, planner, effort)


def priced(compiled: Compiled, job: Job, planner: Planner, effort: Effort = QUICK) -> Outcome:
    """A job of a varied kitchen priced."""
    work, findings = shop_work(job, effort=effort, planner=planner)
    wrong = [each.headline for each in findings if each.severity is Severity.ERROR]
    if wrong:
        return Outcome(compiled, None, wrong[0])
    return Outcome(compiled, work.estimate, "" if work.estimate is not None else "no rates")


def _worse(now: tuple[Finding, ...], known: tuple[Finding, ...]) -> str:
    """The first finding that is new, in words; empty where none is."""
    left = Counter(each.slug for each in known if _counts(each))
    for each in now:
        if not _counts(each):
            continue
        if left[each.slug] == 0:
            return each.headline
        left[each.slug] -= 1
    return ""


def _counts(finding: Finding) -> bool:
    # What the text accepts, it accepts of the kitchen as it is; with a change there may be nothing
    # to accept.
    if finding.slug == "accepts-nothing":
        return False
    return finding.severity in (Severity.ERROR, Severity.WARNING) and not finding.accepted
