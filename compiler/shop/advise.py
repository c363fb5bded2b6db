"""Which changes of a kitchen would save the most, found by building and planning it with each.

Tried one at a time: another size of sheet among those of the job's materials, every other choice of
the options of the job's construction, and every unit of a stated width an inch (25 mm) narrower in
runs that have a share to take it up. A change that brings an error or a warning isn't counted. The
sums compared are costs (things, work and overhead): a price is rounded, and would hide a change.
"""

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from itertools import zip_longest
from typing import Final

from attrs import evolve, frozen

from casewright.compiler.compile import Compiled
from casewright.compiler.cutting.planner import Planner
from casewright.compiler.model import Job, Material, Stock
from casewright.compiler.shop.priced import Advice, Estimate, Saving
from casewright.compiler.shop.supply import Price
from casewright.compiler.shop.variations import (
    Outcome,
    Varied,
    built_otherwise,
    edited,
    outcome,
    priced,
)
from casewright.compiler.text.load import STANDARD
from casewright.compiler.text.resolve import Declaration, Program
from casewright.compiler.world import World
from casewright.lang.findings import Finding
from casewright.lang.measure import INCH, System, length
from casewright.lang.printing import Printing, printed
from casewright.lang.shape import Clause, Statement, bare_word, clause_span, span_of
from casewright.lang.source import Span
from casewright.lang.tree import Number

SHEET: Final = "sheet"

MOST_PARTS: Final = 12_000
"""Parts that are made again over all changes; a large kitchen is tried with fewer of them."""

FEWEST, MOST = 6, 48
"""Changes that are tried of any kitchen, however large or small."""

NAMED: Final = 3
"""How many savings are told."""

NARROWER: Final = {System.INCHES: Fraction(1), System.MILLIMETRES: Fraction(25)}
"""By how much a unit is tried narrower, in the measure of its text."""


@frozen
class _Change:
    """A change that is tried: of what, what it is in words, how its line would read, and where
    that stands; and the job, or the texts, with it."""

    of: str
    words: str
    line: str
    where: Span | None
    varied: Job | Varied

    def outcome(
        self, compiled: Compiled, entry: str, known: tuple[Finding, ...], planner: Planner
    ) -> Outcome:
        """What comes of it."""
        if isinstance(self.varied, Job):
            return priced(compiled, self.varied, planner)
        return outcome(self.varied, entry, known, planner)


def advise(
    world: World,
    entry: str,
    compiled: Compiled,
    estimate: Estimate,
    known: tuple[Finding, ...],
    planner: Planner | None = None,
) -> Advice:
    """What would save the most in a kitchen whose estimate is `estimate`; `known` are the findings
    of the kitchen as it is, `planner` knows its plans."""
    planner = planner or Planner()
    best: dict[str, Saving] = {}
    tried = unbuilt = less = 0
    changes = _changes(world, compiled)
    for change in changes[: _most(compiled)]:
        came = change.outcome(compiled, entry, known, planner)
        tried += 1
        # What isn't planned or has no price would seem to be saved.
        if came.estimate is None or not _left_out(came.estimate) <= _left_out(estimate):
            unbuilt += 1
            continue
        if came.job is not None and compiled.job is not None and _less(compiled.job, came.job):
            less += 1
            continue
        cents = estimate.cost - came.estimate.cost
        known_best = best.get(change.of)
        # Of several changes of one thing only one can be made.
        if cents > 0 and (known_best is None or known_best.cents < cents):
            best[change.of] = Saving(change.words, change.line, _place(change.where), cents)
    savings = sorted(best.values(), key=lambda each: -each.cents)
    untried = len(changes) - tried
    return Advice(estimate.cost, tuple(savings[:NAMED]), tried, unbuilt, less, untried)


def _less(was: Job, now: Job) -> bool:
    """Whether a kitchen has fewer parts of some role and more of none: to leave out pulls or
    stretchers saves nothing that a customer would call a saving."""
    had, has = _roles(was), _roles(now)
    return any(has[role] < had[role] for role in had) and not any(
        has[role] > had[role] for role in has
    )


def _roles(job: Job) -> Counter[str]:
    return Counter(
        part.role
        for placed in job.placed
        for part in (placed.unit.parts if placed.unit is not None else ())
        if part.role
    )


def _left_out(estimate: Estimate) -> set[str]:
    """What is missing in an estimate, by name."""
    return {*estimate.missing.named, *estimate.missing.unread}


def _place(span: Span | None) -> str:
    return "" if span is None else f"{span.source.label}:{span.line}"


def _most(compiled: Compiled) -> int:
    """How many changes of a kitchen are tried."""
    placed = compiled.job.placed if compiled.job is not None else ()
    parts = sum(len(each.unit.parts) for each in placed if each.unit is not None)
    return max(FEWEST, min(MOST, MOST_PARTS // max(1, parts)))


def _changes(world: World, compiled: Compiled) -> list[_Change]:
    """Every change, one of each kind in turn, so that some of each are tried."""
    job, program = compiled.job, compiled.program
    if job is None or program is None:
        return []
    kinds = (_sheets(job, program), _choices(world, job, program), _units(world, program))
    return [each for found in zip_longest(*kinds) for each in found if each is not None]


def _sheets(job: Job, program: Program) -> Iterator[_Change]:
    """Every sheet of the job in the sizes that its other sheets are bought in, at the same price
    by area where the shop has no price for that size."""
    sizes = {
        (size.width, size.length): size
        for material in job.materials
        if material.kind == SHEET
        for size in material.stock
    }
    for material in job.materials:
        if material.kind != SHEET or len(material.stock) != 1:
            continue
        for size in sizes.values():
            old = material.stock[0]
            if (size.width, size.length) == (old.width, old.length):
                continue
            declaration = program.find(SHEET, material.name)
            clause = declaration.statement.clause("stock") if declaration is not None else None
            by = " by ".join(_figure(job, each) for each in (size.width, size.length))
            yield _Change(
                f"sheet {material.name}",
                f"{material.title} in sheets of {by.replace(' by ', ' × ')}, at the same price "
                "by area",
                stock_line(declaration, clause, by),
                _own_place(span_of(clause.origin) if clause is not None else None),
                _in_sheets(job, material, old, Stock(size.width, size.length)),
            )


def stock_line(declaration: Declaration | None, clause: Clause | None, by: str) -> str:
    """The line that says another stock: the whole of a sheet of the library's, which a shop says
    again in a text of its own."""
    span = span_of(declaration.statement.origin) if declaration is not None else None
    stock = clause_span(clause) if clause is not None else None
    if declaration is None or declaration.level != STANDARD or span is None or stock is None:
        name = declaration.name if declaration is not None else ""
        return f"sheet {name}: stock {by}"
    text = span.source.text
    said = f"{text[span.start : stock.start]}stock {by}{text[stock.end : span.end]}"
    lines = (" ".join(line.partition("#")[0].split()) for line in said.splitlines())
    return "  ".join(line for line in lines if line)


def _own_place(span: Span | None) -> Span | None:
    """A place that a shop can change: nothing of the library's is."""
    return None if span is not None and span.source.label.startswith("std ") else span


def _in_sheets(job: Job, material: Material, old: Stock, new: Stock) -> Job:
    """The job with a material bought in another size."""
    ratio = new.width * new.length / (old.width * old.length)
    materials = tuple(
        evolve(each, stock=(new,)) if each.name == material.name else each for each in job.materials
    )
    rates = job.supply.rates
    if rates is not None:

        def scaled(price: Price) -> Price:
            if price.name != material.name or price.per != SHEET or price.long is not None:
                return price
            return evolve(price, amount=price.amount * ratio)

        own = any(each.name == material.name and each.long == new.length for each in rates.prices)
        if not own:
            rates = evolve(rates, prices=tuple(scaled(each) for each in rates.prices))
    return evolve(job, materials=materials, supply=evolve(job.supply, rates=rates))


def _figure(job: Job, value: Fraction) -> str:
    return printed(length(value), Printing(job.system, job.precision.value)).bare


def _choices(world: World, job: Job, program: Program) -> Iterator[_Change]:
    """Every other choice of each option of the construction that the job is built by."""
    clause = program.jobs[0].clause("built") if program.jobs else None
    name = bare_word(clause.values[0]) if clause is not None and clause.values else ""
    declaration = program.find("construction", name)
    if declaration is None:
        return
    for statement in declaration.statement.body:
        words = [bare_word(value) for value in statement.values]
        if statement.rule != "option" or len(words) < 3 or words[1] != "choice":
            continue
        option, _, *choices = words
        used = {
            placed.unit.options.get(option)
            for placed in job.placed
            if placed.unit is not None and option in placed.unit.options
        }
        for choice in choices:
            # Where units differ in it, each of them has chosen for itself.
            if len(used) != 1 or choice in used or not choice:
                continue
            line = f"{option} {choice}"
            built = built_otherwise(program, line)
            varied = edited(world, built[0]) if built is not None else None
            if built is not None and varied is not None:
                where = built[1]
                was = next(iter(used))
                words_of = f"{option.replace('_', ' ')}: {choice} in place of {was}"
                yield _Change(option, words_of, f"construction {name}: {line}", where, varied)


def _units(world: World, program: Program) -> Iterator[_Change]:
    """Every unit of a stated width a little narrower, in runs where a share takes it up."""
    for run in program.runs:
        if not any(line.clause("share") or line.clause("shares") for line in run.body):
            continue
        for line in run.body:
            if line.tag is None or not line.values:
                continue
            width = line.values[0]
            span = span_of(width.origin)
            if not isinstance(width, Number) or width.unit is not None or span is None:
                continue
            system = program.system_of(width.origin, System.INCHES)
            less = width.value - NARROWER[system]
            if less <= 0:
                continue
            yield _narrower(world, line, span, less, system)


def _narrower(world: World, line: Statement, span: Span, less: Fraction, system: System) -> _Change:
    tag = line.tag.text if line.tag is not None else ""
    inches = less if system is System.INCHES else less / INCH
    written = printed(length(inches), Printing(system, Fraction(1, 128))).bare
    text = span.source.text
    said = text[: span.start] + written + text[span.end :]
    by = "an inch" if system is System.INCHES else "25 mm"
    varied = Varied(world, {span.source.label: said.encode()})
    return _Change(tag, f"{tag} {by} narrower", f"{tag}: {line.head.text} {written}", span, varied)
