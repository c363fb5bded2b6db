"""What checks measure by, read from the text: allowances, goods, limits and acceptances."""

from collections.abc import Iterator, Mapping
from typing import TypeVar

from casewright.compiler.construct.materials import called
from casewright.compiler.construct.wording import is_bare
from casewright.compiler.rooms.kitchen import Reader
from casewright.compiler.shop.yardstick import (
    ALLOWANCES,
    ANGLE,
    BASES,
    FIGURES,
    LENGTH,
    REPORTED,
    Acceptance,
    Bowl,
    Goods,
    Kind,
    Limit,
    Pack,
    Stands,
    Yardstick,
)
from casewright.compiler.text.resolve import DATA, Declaration, Program
from casewright.lang.cells import Quantity
from casewright.lang.findings import Finding, error
from casewright.lang.measure import System
from casewright.lang.shape import Clause, Statement, bare_word, span_of, suggestion
from casewright.lang.source import Span
from casewright.lang.tree import Text

W = TypeVar("W", bound=str)


def read_yardstick(
    program: Program, system: System, quantities: Mapping[str, Kind]
) -> tuple[Yardstick, tuple[Finding, ...]]:
    """What the text says checks shall measure by. `quantities` are those that limits may name."""
    reading = _Reading(program, system, quantities)
    yardstick = Yardstick(
        reading.allowances(),
        reading.goods(),
        reading.stands(),
        reading.packs(),
        tuple(reading.acceptances()),
        any(room.clause("floor") is not None for room in program.rooms[:1]),
    )
    return yardstick, (*reading.reader.findings, *reading.findings)


class _Reading:
    def __init__(self, program: Program, system: System, quantities: Mapping[str, Kind]) -> None:
        self.program = program
        self.system = system
        self.quantities = quantities
        self.reader = Reader(program, system)
        self.findings: list[Finding] = []

    def figure(self, clause: Clause, name: str, kind: Kind) -> Quantity | None:
        """A figure of a clause in the units checks reckon in; None where it is wrong."""
        read = self.reader.measure(clause, name, kind.dimension)
        if read is None:
            return None
        expression = clause.values[0]
        metric = self.program.system_of(clause.origin, self.system) is System.MILLIMETRES
        if kind.metric and metric and is_bare(expression):
            value = read.value * kind.in_ours
            return Quantity(value, read.dimension, name=name, origin=clause.origin, label=name)
        return read

    # -- allowances ----------------------------------------------------------------------------

    def allowances(self) -> Mapping[str, Quantity]:
        """Those the job names, else the nearest that are declared; none where none are."""
        found = self._chosen()
        if found is None:
            return {}
        figures: dict[str, Quantity] = {}
        for clause in found.statement.options:
            kind = ALLOWANCES.get(clause.word)
            if kind is None:
                self.findings.append(
                    error(
                        "unknown-allowance",
                        f"no check reckons with {clause.word}",
                        span_of(clause.origin),
                        help=suggestion(clause.word, ALLOWANCES),
                    )
                )
                continue
            figure = self.figure(clause, f"{found.name}.{clause.word}", kind)
            if figure is not None:
                figures[clause.word] = figure
        return figures

    def _chosen(self) -> Declaration | None:
        names = self.program.names("allowances")
        clause = self.program.jobs[0].clause("allowances") if self.program.jobs else None
        if clause is not None and clause.values:
            word = bare_word(clause.values[0])
            found = self.program.find("allowances", word)
            if found is None:
                self.findings.append(
                    error(
                        "unknown-allowances",
                        f"no allowances are called {word}",
                        span_of(clause.values[0].origin),
                        help=suggestion(word, names),
                    )
                )
            return found
        declared = [each for name in names if (each := self.program.find("allowances", name))]
        nearest = min((each.level for each in declared), default=None)
        return next((each for each in declared if each.level == nearest), None)

    # -- goods ---------------------------------------------------------------------------------

    def goods(self) -> Mapping[tuple[str, str], Goods]:
        found: dict[tuple[str, str], Goods] = {}
        for kind in DATA:
            for name in self.program.names(kind):
                declaration = self.program.find(kind, name)
                if declaration is not None:
                    found[kind, name] = self._goods(declaration)
        return found

    def _goods(self, declaration: Declaration) -> Goods:
        statement = declaration.statement
        figures: dict[str, Quantity] = {}
        words: dict[str, str] = {}
        # What is wrong with a datum's own figures is said where a part is made of it.
        quiet = Reader(self.program, self.system)
        loud, self.reader = self.reader, quiet
        for clause in (*statement.clauses, *statement.options):
            if len(clause.values) != 1 or isinstance(clause.values[0], Text):
                continue
            word = bare_word(clause.values[0])
            if word:
                words[clause.word] = word
                continue
            kind = FIGURES.get(clause.word, LENGTH)
            figure = self.figure(clause, f"{declaration.name}.{clause.word}", kind)
            if figure is not None:
                figures[clause.word] = figure
        self.reader = loud
        return Goods(
            declaration.kind,
            declaration.name,
            called(statement, declaration.name),
            figures,
            words,
            span_of(statement.head.origin),
        )

    # -- what stands in the runs ---------------------------------------------------------------

    def stands(self) -> Mapping[str, Stands]:
        found: dict[str, Stands] = {}
        for run in self.program.runs:
            for line in run.body:
                if line.rule == "placed" and line.tag is not None:
                    found[line.tag.text] = self._stands(line)
        return found

    def _stands(self, line: Statement) -> Stands:
        word = line.head.text
        declared = self.program.find("appliance", word) or self.program.find("unit", word)
        statements = (line, declared.statement) if declared is not None else (line,)
        serves: list[str] = []
        for statement in statements:
            for name in ("holds", "serves"):
                clause = statement.clause(name)
                if clause is not None:
                    serves += [bare_word(value) for value in clause.values]
        opens = declared.statement.clause("opens") if declared is not None else None
        tag = line.tag.text if line.tag is not None else ""
        return Stands(
            tuple(dict.fromkeys(serves)),
            bare_word(opens.values[0]) if opens is not None and opens.values else "",
            self._of(opens, "reach", tag, LENGTH),
            self._angle(opens, tag),
            self._handle(declared, tag),
            any(statement.clause("confirmed") is not None for statement in statements),
            next(filter(None, (self._bowl(statement, tag) for statement in statements)), None),
        )

    def _bowl(self, statement: Statement, tag: str) -> Bowl | None:
        clause = statement.clause("bowl")
        if clause is None:
            return None
        wide = self.figure(clause, f"{tag}.bowl", LENGTH)
        by, down = self._of(clause, "by", tag, LENGTH), self._of(clause, "down", tag, LENGTH)
        if wide is not None and by is not None and down is not None:
            return Bowl(wide, by, down)
        if clause.clause("by") is None or clause.clause("down") is None:
            self.findings.append(
                error(
                    "value-missing",
                    "a bowl wants its width, by what to its back, and down how far",
                    span_of(clause.origin),
                    help="write it as bowl 30 by 17 down 9",
                )
            )
        return None

    def _of(self, clause: Clause | None, word: str, tag: str, kind: Kind) -> Quantity | None:
        inner = clause.clause(word) if clause is not None else None
        return self.figure(inner, f"{tag}.{word}", kind) if inner is not None else None

    def _angle(self, opens: Clause | None, tag: str) -> Quantity | None:
        inner = opens.clause("angle") if opens is not None else None
        return self.figure(inner, f"{tag}.angle", ANGLE) if inner is not None else None

    def _handle(self, declared: Declaration | None, tag: str) -> Quantity | None:
        clause = declared.statement.clause("handle") if declared is not None else None
        return self.figure(clause, f"{tag}.handle", LENGTH) if clause is not None else None

    # -- limits --------------------------------------------------------------------------------

    def packs(self) -> tuple[Pack, ...]:
        clause = self.program.jobs[0].clause("rules") if self.program.jobs else None
        found: list[Pack] = []
        for value in clause.values if clause is not None else ():
            word = bare_word(value)
            declaration = self.program.find("rule_pack", word)
            if declaration is None:
                self.findings.append(
                    error(
                        "unknown-rules",
                        f"no rule pack is called {word or 'that'}",
                        span_of(value.origin),
                        help=suggestion(word, self.program.names("rule_pack")),
                    )
                )
            elif all(each.name != word for each in found):
                found.append(self._pack(declaration, span_of(value.origin)))
        return tuple(found)

    def _pack(self, declaration: Declaration, asked: Span | None) -> Pack:
        statement = declaration.statement
        limits = [
            limit
            for line in statement.body
            if line.rule == "limit" and (limit := self._limit(line, declaration)) is not None
        ]
        return Pack(
            declaration.name,
            _text(statement.clause("title")) or declaration.name.replace("_", " "),
            _text(statement.clause("published")),
            tuple(limits),
            span_of(statement.head.origin),
            asked,
        )

    def _limit(self, line: Statement, declaration: Declaration) -> Limit | None:
        word = line.name
        kind = self.quantities.get(word)
        span = span_of(line.head.origin)
        if kind is None:
            self.findings.append(
                error(
                    "unknown-quantity",
                    f"no check measures {word or 'that'}",
                    span_of(line.values[0].origin) if line.values else span,
                    help=suggestion(word, self.quantities),
                )
            )
            return None
        name = f"{declaration.name}.{word}"
        clauses = {each: line.clause(each) for each in ("least", "most")}
        figures = {
            each: self.figure(clause, name, kind)
            for each, clause in clauses.items()
            if clause is not None
        }
        if not figures:
            self.findings.append(
                error("value-missing", f"{word} has no limit", span, help="add least or most")
            )
        if not figures or None in figures.values():
            return None
        basis = _one_of(line.clause("basis"), BASES, "practice")
        reported = _one_of(line.clause("reported"), REPORTED, "advice")
        return Limit(
            word,
            figures.get("least"),
            figures.get("most"),
            _text(line.clause("section")),
            basis,
            reported,
            _text(line.clause("says")),
            line.clause("from_memory") is not None,
            span,
        )

    # -- acceptances ---------------------------------------------------------------------------

    def acceptances(self) -> Iterator[Acceptance]:
        for job in self.program.jobs[:1]:
            yield from self._accepted(job.body, "", None)
        for run in self.program.runs:
            yield from self._accepted(run.body, run.name, span_of(run.origin))
            for line in run.body:
                tag = line.tag.text if line.tag is not None else ""
                yield from self._accepted(line.body, tag, span_of(line.origin))

    def _accepted(
        self, body: tuple[Statement, ...], holder: str, holds_on: Span | None
    ) -> Iterator[Acceptance]:
        for line in body:
            if line.rule != "accept":
                continue
            span = span_of(line.origin)
            slug, _, reason = (line.raw.text if line.raw is not None else "").strip().partition(" ")
            if not slug or not reason.strip():
                self.findings.append(
                    error(
                        "acceptance-without-reason",
                        "what is accepted is said with its reason",
                        span,
                        help="write accept, the finding's name, and why",
                    )
                )
                continue
            yield Acceptance(slug, reason.strip(), holder, span, holds_on)


def _one_of(clause: Clause | None, words: tuple[W, ...], usual: W) -> W:
    """The word of a clause that takes one of a few; any other has been blamed already."""
    said = bare_word(clause.values[0]) if clause is not None and clause.values else usual
    return next((word for word in words if word == said), usual)


def _text(clause: Clause | None) -> str:
    if clause is None or not clause.values or not isinstance(clause.values[0], Text):
        return ""
    return "".join(piece for piece in clause.values[0].pieces if isinstance(piece, str))
