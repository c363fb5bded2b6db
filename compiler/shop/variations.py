"""A kitchen with something changed in its text, built and priced anew: what else it would cost.

A change is an edit of the texts themselves, so that whatever follows from it follows: sizes,
joints, checks, plans, prices. Nothing is ever written; the changed texts are held in memory.
"""

from collections import Counter
from collections.abc import Mapping
from typing import Final

from attrs import evolve, frozen

from casewright.compiler.compile import Compiled, compile_job
from casewright.compiler.model import Job
from casewright.compiler.plan.master import Limits
from casewright.compiler.plan.plan import DEFAULT, Effort
from casewright.compiler.shop.priced import Estimate
from casewright.compiler.shop.reckoning import shop_work
from casewright.compiler.text.resolve import Program
from casewright.compiler.world import Library, World
from casewright.lang.findings import Finding, Severity
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


def built_otherwise(
    world: World, entry: str, program: Program, lines: str
) -> tuple[Varied, Span] | None:
    """The project whose job is built by a construction of its own with `lines` changed, and the
    place where the job says how it is built; None where it doesn't say."""
    clause = program.jobs[0].clause("built") if program.jobs else None
    span = span_of(clause.values[0].origin) if clause is not None and clause.values else None
    if clause is None or span is None:
        return None
    own = bare_word(clause.values[0])
    name = f"varied_{own}"
    while program.find("construction", name) is not None:
        name = f"varied_{name}"
    text = span.source.text
    said = f"{text[: span.start]}{name}{text[span.end :]}"
    said += f"\nconstruction {name} from {own} {{\n{lines}\n}}\n"
    return Varied(world, {span.source.label: said.encode()}), span


def outcome(
    world: World, entry: str, known: tuple[Finding, ...], effort: Effort = QUICK
) -> Outcome:
    """A varied kitchen built and priced, with so much work spent on its sheets.

    It counts as sound only where it has no error or warning that the kitchen as it is, with the
    findings `known`, hasn't.
    """
    compiled = compile_job(world, entry)
    fault = _worse(compiled.findings, known)
    if compiled.job is None or fault:
        return Outcome(compiled, None, fault or "it can't be built")
    return priced(compiled, compiled.job, effort)


def priced(compiled: Compiled, job: Job, effort: Effort = QUICK) -> Outcome:
    """A job of a varied kitchen priced."""
    work, findings = shop_work(job, effort=effort)
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
    return finding.severity in (Severity.ERROR, Severity.WARNING) and not finding.accepted
