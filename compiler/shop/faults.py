"""Faults in a shop's own data: they keep no kitchen from being built, and what they spoil is left
out whole.

A price, a pack or an offcut makes no part. Where its line cannot be read the job exists all the
same, its papers are made without it, and they say so. Half a line is never used: rates without the
line that says their overhead would give a price that is too low and looks right.
"""

from bisect import bisect_right
from collections.abc import Iterable
from typing import Final

from attrs import frozen

from casewright.compiler.text.resolve import Declaration, Program
from casewright.compiler.words.schema import SCHEMA
from casewright.lang.findings import Finding, Severity
from casewright.lang.shape import Statement, clause_span, nearest_word, span_of
from casewright.lang.source import Origin, Source, Span

SHOP_DATA: Final = frozenset(
    ("saw", "offcut", "buy", "on_hand", "boards", "linear", "coat", "rates", "offer", "setting")
)
"""Rules of statements from which no part of a kitchen follows."""


AT_THE_TOP: Final = frozenset(SCHEMA.heads[SCHEMA.file].body)
"""Words with which a statement at the top of a file begins."""


@frozen
class Faults:
    """Where the errors are that are known so far."""

    spans: tuple[Span, ...] = ()

    def within(self, origin: Origin) -> bool:
        """Whether something that is written there has an error."""
        return any(_holds(origin, span) for span in self.spans)

    def spoil(self, program: Program, declaration: Declaration) -> bool:
        """Whether a declared thing has an error, or one that it is from; those of its lines that
        have a value of their own (a price, a kind of labour) are told apart by `within`."""
        return any(
            self._spoils(found.statement)
            for name in declaration.chain
            if (found := program.find(declaration.kind, name)) is not None
        )

    def _spoils(self, statement: Statement) -> bool:
        return any(
            _holds(statement.origin, span)
            and not any(_holds(line.origin, span) for line in statement.body)
            for span in self.spans
        )


def faults_of(findings: Iterable[Finding]) -> Faults:
    """Where the errors among `findings` are."""
    return Faults(
        tuple(
            each.span
            for each in findings
            if each.severity is Severity.ERROR and each.span is not None
        )
    )


def in_shop_data(program: Program, finding: Finding) -> bool:
    """Whether a finding is about the shop's own data alone."""
    return _is_of_shop(Statements(program), finding)


class Statements:
    """The statements of a program by their places. No two of one text overlap, so that the one
    around a place is found by halving, however many there are."""

    def __init__(self, program: Program) -> None:
        self._begins: dict[Source, list[int]] = {}
        self._placed: dict[Source, list[Statement]] = {}
        for text in program.texts:
            for each in text.statements:
                span = span_of(each.origin)
                if span is not None:
                    self._begins.setdefault(span.source, []).append(span.start)
                    self._placed.setdefault(span.source, []).append(each)

    def around(self, span: Span) -> Statement | None:
        """The statement in which a place lies; None between statements."""
        at = bisect_right(self._begins.get(span.source, ()), span.start) - 1
        if at < 0:
            return None
        found = self._placed[span.source][at]
        return found if _holds(found.origin, span) else None


def _is_of_shop(statements: Statements, finding: Finding) -> bool:
    span = finding.span
    if span is None:
        return False
    around = statements.around(span)
    if around is not None:
        return around.rule in SHOP_DATA or _in_stock(around, span)
    # A line that can't be read is no statement; it still begins with its word, or with one that is
    # most likely meant for it.
    words = span.source.line_text(span.line).split()
    return bool(words) and (nearest_word(words[0], AT_THE_TOP) or "") in SHOP_DATA


def _in_stock(statement: Statement, span: Span) -> bool:
    """Whether a place lies in what a statement says of the sizes that a thing is bought in."""
    stock = (clause_span(each) for each in statement.clauses if each.word == "stock")
    return any(
        said is not None and said.source is span.source and said.start <= span.start <= said.end
        for said in stock
    )


def unread(program: Program, findings: Iterable[Finding]) -> tuple[str, ...]:
    """The places of the shop's data that can't be read, as file and line, each once and in the
    order of the text."""
    statements = Statements(program)
    spans = [
        each.span
        for each in findings
        if each.span is not None
        and each.severity is Severity.ERROR
        and _is_of_shop(statements, each)
    ]
    spans.sort(key=lambda span: (span.source.label, span.start))
    return tuple(dict.fromkeys(span.where for span in spans))


def _holds(origin: Origin, span: Span) -> bool:
    outer = span_of(origin)
    return (
        outer is not None and outer.source is span.source and outer.start <= span.start < outer.end
    )
