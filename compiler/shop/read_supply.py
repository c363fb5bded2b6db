"""The shop's buying read: packs, what is on hand, coats, and the rates of a job."""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Final, TypeVar

from attrs import evolve

from casewright.compiler.construct.build import DatumScope
from casewright.compiler.construct.evaluate import evaluate
from casewright.compiler.construct.faults import fault
from casewright.compiler.construct.materials import called
from casewright.compiler.rooms.kitchen import Reader
from casewright.compiler.shop.faults import faults_of, unread
from casewright.compiler.shop.heirs import and_heirs, passed_on, sheets_from
from casewright.compiler.shop.priced import nearest_whole
from casewright.compiler.shop.read_boards import read_boards
from casewright.compiler.shop.read_linear import read_linear
from casewright.compiler.shop.read_rates import read_rates
from casewright.compiler.shop.read_settings import read_settings
from casewright.compiler.shop.supply import Bought, Coat, OnHand, Supply
from casewright.compiler.text.resolve import DATA, Declaration, Program
from casewright.lang.cells import Quantity
from casewright.lang.findings import Finding, Label, error
from casewright.lang.measure import INCH, Dimension, System
from casewright.lang.shape import Clause, Statement, bare_word, span_of, suggestion
from casewright.lang.tree import Expression, Number, Text

T = TypeVar("T")

PRICED_KINDS = (*DATA, "coat", "linear")
"""Kinds of declared things that can be bought."""

EMPTY_PACK: Final = "say what a pack holds, as by 250; leave by out where it is bought one by one"
SHEET: Final = "sheet"

BAND: Final = "band"
"""What alone is counted by its length."""

WHOLE: Final = frozenset((SHEET, "slide", "hinge", "fitting", "fastener", "linear"))
"""What is counted in whole pieces; half a can of finish is half a can."""

NONE_LEFT: Final = "take the line away where nothing is left"


def read_supply(
    program: Program, system: System, known: Sequence[Finding] = ()
) -> tuple[Supply, tuple[Finding, ...]]:
    """All that the texts say of buying; what can't be read is left out, and said. `known` are the
    findings so far: a line with an error among them is left out whole."""
    reader = SupplyReader(program, system, known)
    heirs = sheets_from(program)
    said = tuple(_kept(reader.bought(line) for line in reader.nearest("buy")))
    bought = (*said, *passed_on(said, heirs))
    on_hand = tuple(_kept(reader.on_hand(line) for line in reader.nearest("on_hand")))
    coats = tuple(
        _kept(
            reader.coat(declaration.statement)
            for name in program.names("coat")
            if (declaration := program.find("coat", name)) is not None
            and not reader.faults.spoil(program, declaration)
        )
    )
    titles = {
        name: reader.titled(declaration)
        for kind in DATA
        for name in program.names(kind)
        if (declaration := program.find(kind, name)) is not None
    }
    coats = tuple(evolve(each, materials=and_heirs(each.materials, heirs)) for each in coats)
    rates, rating = read_rates(program, reader, bought)
    if rates is not None:
        rates = evolve(rates, prices=(*rates.prices, *passed_on(rates.prices, heirs)))
    boards, linear, settings = read_boards(reader), read_linear(reader), read_settings(reader)
    unsized = frozenset(name for name in program.names(SHEET) if not reader.is_sized(name))
    found = (*reader.findings, *rating)
    faulty = unread(program, (*known, *found))
    return Supply(
        bought, on_hand, coats, titles, rates, boards, linear, faulty, settings, unsized
    ), found  # fmt: skip


def _kept(found: Iterator[T | None]) -> Iterator[T]:
    return (each for each in found if each is not None)


class SupplyReader(Reader):
    """Reads statements about things that are declared elsewhere."""

    def __init__(self, program: Program, system: System, known: Sequence[Finding] = ()) -> None:
        super().__init__(program, system)
        self.program = program
        self.system = system
        self.faults = faults_of(known)

    def nearest(self, rule: str) -> Iterator[Statement]:
        """Statements of a rule, the nearest text's for each thing; two in texts equally near are
        a finding."""
        first: dict[tuple[object, ...], tuple[Statement, int]] = {}
        for text in self.program.texts:
            for statement in text.statements:
                if statement.rule != rule or not statement.values:
                    continue
                key = _key(statement)
                kept, level = first.setdefault(key, (statement, text.level))
                if kept is not statement and level == text.level:
                    self.twice(kept, statement)
        return (
            statement for statement, _ in first.values() if not self.faults.within(statement.origin)
        )

    def twice(self, first: Statement, second: Statement) -> None:
        """Reports that two lines say the same thing differently."""
        where = span_of(first.head.origin)
        self.findings.append(
            error(
                "said-twice",
                f"{second.rule} {second.name} is said twice",
                span_of(second.head.origin),
                labels=(Label(where, "the first"),) if where is not None else (),
                help="keep one",
            )
        )

    def kind_of(self, expression: Expression) -> str:
        """The kind of the thing that is named; empty, with a finding, where there is none."""
        name = bare_word(expression)
        for kind in PRICED_KINDS:
            if self.program.find(kind, name) is not None:
                return kind
        known = [each for kind in PRICED_KINDS for each in self.program.names(kind)]
        self.findings.append(
            error(
                "unknown-thing",
                f"nothing that can be bought is called {name}"
                if name
                else "what is bought is named by one word",
                span_of(expression.origin),
                help=suggestion(name, known),
            )
        )
        return ""

    def share(self, clause: Clause | None, what: str) -> Fraction:
        """A share from nothing to under one; nothing where it is unsaid or wrong (and blamed)."""
        value = self.measure(clause, what, Dimension.COUNT)
        if value is None:
            return Fraction(0)
        if 0 <= value.value < 1:
            return value.value
        self.findings.append(
            error(
                "share-out-of-range",
                f"{what} is a share from 0 to under 100 %",
                span_of(clause.values[0].origin) if clause is not None else None,
                help="for instance 20%",
            )
        )
        return Fraction(0)

    def amount(self, expression: Expression, help: str) -> tuple[Fraction, bool] | None:
        """A count, or a length (then True); more than nothing, or `help` is said."""
        value = self.attempt(lambda: evaluate(expression, DatumScope(self.build), Dimension.COUNT))
        if value is None:
            return None
        if not isinstance(value, Quantity) or value.dimension not in (
            Dimension.COUNT,
            Dimension.LENGTH,
        ):
            self.attempt(lambda: _refuse(expression))
            return None
        if self.positive(value, "an amount", help) is None:
            return None
        return value.value, value.dimension is Dimension.LENGTH

    def bought(self, statement: Statement) -> Bought | None:
        kind = self.kind_of(statement.values[0])
        if not kind:
            return None
        by = statement.clause("by")
        held = self.amount(by.values[0], EMPTY_PACK) if by is not None and by.values else None
        if held is not None and by is not None and not self.is_counted(kind, by.values[0], held):
            return None
        over = self.measure(statement.clause("over"), f"{statement.name} over")
        return Bought(
            statement.name,
            held[0] if held is not None else None,
            held is not None and held[1],
            words_in(statement.clause("pack")) or "pack",
            over.value if over is not None else Fraction(0),
            self.share(statement.clause("waste"), f"{statement.name} waste"),
            words_in(statement.clause("from")),
            words_in(statement.clause("as")),
            span_of(statement.head.origin),
        )

    def on_hand(self, statement: Statement) -> OnHand | None:
        kind = self.kind_of(statement.values[0])
        if not kind or len(statement.values) < 2:
            return None
        lengths = self.lengths_of(kind, statement.name)
        if len(lengths) > 1 and statement.clause("long") is None:
            self.findings.append(
                error(
                    "value-missing",
                    f"on_hand {statement.name} doesn't say of which length",
                    span_of(statement.head.origin),
                    help=f"it is made {listed_lengths(lengths)} long: add long {lengths[-1]}, or "
                    "another of these",
                )
            )
            return None
        held = self.amount(statement.values[1], NONE_LEFT)
        if held is None or not self.is_counted(kind, statement.values[1], held):
            return None
        long = self.measure(statement.clause("long"), f"{statement.name} long")
        if long is not None and not self.is_made(kind, statement, long):
            return None
        return OnHand(
            statement.name,
            held[0],
            held[1],
            long.value if long is not None else None,
            span_of(statement.head.origin),
        )

    def is_counted(self, kind: str, said: Expression, held: tuple[Fraction, bool]) -> bool:
        """Whether an amount is of the kind that such a thing is counted in; it is blamed if not."""
        amount, by_length = held
        if by_length is (kind == BAND):
            if kind not in WHOLE or amount.denominator == 1:
                return True
            self.complain(
                "count-not-whole",
                f"a {kind} is counted in whole pieces, packs or sheets",
                span_of(said.origin),
                help="write a whole number"
                + ("; what is left of a sheet is an offcut" if kind == SHEET else ""),
            )
            return False
        self.findings.append(
            error(
                "amount-of-another-kind",
                f"a {kind} is counted in pieces, packs or sheets, not by its length"
                if by_length
                else f"a {kind} is counted by its length, and this is a count",
                span_of(said.origin),
                help="write a count, as 12" if by_length else "write a length, as 250' or 75000mm",
            )
        )
        return False

    def is_made(self, kind: str, statement: Statement, long: Quantity) -> bool:
        """Whether what a line is about is made in the length that it says; it is blamed if not."""
        name = statement.name
        declaration = self.program.find(kind, name)
        if kind == SHEET and declaration is not None:
            clauses = [
                by
                for each in declaration.statement.clauses
                if each.word == "stock" and (by := each.clause("by")) is not None
            ]
        else:
            clause = declaration.statement.clause("lengths") if declaration is not None else None
            clauses = [evolve(clause, values=(value,)) for value in clause.values] if clause else []
        made = [self.glance(each, name) for each in clauses]
        # What can't be read has its own report.
        if None in made or long.value in {each.value for each in made if each is not None}:
            return True
        said = statement.clause("long")
        spans = (span_of(each.values[0].origin) for each in clauses if each.values)
        lengths = tuple(span.text for span in spans if span is not None)
        self.findings.append(
            error(
                "length-not-made",
                f"{name} isn't made {self.say(long.measure)} long"
                if lengths
                else f"{name} is made in no lengths to choose from",
                span_of(said.values[0].origin if said is not None else statement.head.origin),
                help=f"it is made {listed_lengths(lengths)} long" if lengths else "leave long out",
            )
        )
        return False

    def is_sized(self, name: str) -> bool:
        """Whether every size that a sheet is bought in can be read; the others are blamed."""
        before = len(self.findings)
        declaration = self.program.find(SHEET, name)
        for clause in declaration.statement.clauses if declaration is not None else ():
            if clause.word == "stock":
                self.positive(self.measure(clause, f"{name} width"), "a width")
                self.positive(self.measure(clause.clause("by"), f"{name} length"), "a length")
                self.measure(clause.clause("pieces"), f"{name} pieces", Dimension.COUNT)
        return len(self.findings) == before

    def lengths_of(self, kind: str, name: str) -> tuple[str, ...]:
        """The lengths a thing is made in, as its text writes them; none where it says none."""
        declaration = self.program.find(kind, name)
        clause = declaration.statement.clause("lengths") if declaration is not None else None
        written = (span_of(value.origin) for value in (clause.values if clause is not None else ()))
        return tuple(span.text for span in written if span is not None)

    def coat(self, statement: Statement) -> Coat | None:
        covers = statement.clause("covers")
        by = covers.clause("by") if covers is not None else None
        width = self.positive(self.measure(covers, f"{statement.name} covers"), "a width")
        length = self.positive(self.measure(by, f"{statement.name} covers"), "a length")
        if width is None or length is None:
            self.findings.append(
                error(
                    "value-missing",
                    f"coat {statement.name} doesn't say what a pack of it covers",
                    span_of(statement.head.origin),
                    help="add covers, a width, by, and a length",
                )
            )
            return None
        coats = self.positive(
            self.measure(statement.clause("coats"), f"{statement.name} coats", Dimension.COUNT),
            "the number of coats",
        )
        return Coat(
            statement.name,
            called(statement, statement.name),
            tuple(self.named(statement.clause("on"), ("sheet", "lumber"))),
            tuple(self.named(statement.clause("with"), ("fixing",))),
            coats.value if coats is not None else Fraction(1),
            width.value * length.value,
            span_of(statement.head.origin),
        )

    def titled(self, declaration: Declaration) -> str:
        """What papers call a bought thing. In a metric job one that is named by its length in
        inches keeps that name of the trade, and its millimetres stand behind it."""
        title = called(declaration.statement, declaration.name)
        said = [each for each in declaration.statement.options if each.word == "long"]
        if declaration.kind != "fastener" or self.system is System.INCHES or not said:
            return title
        value = said[0].values[0] if said[0].values else None
        inches = self.program.system_of(said[0].origin, self.system) is System.INCHES
        long = self.glance(said[0], declaration.name)
        if long is None or not inches or (isinstance(value, Number) and value.unit is not None):
            return title
        return f"{title} ({nearest_whole(long.value * INCH)} mm long)"

    def named(self, clause: Clause | None, kinds: tuple[str, ...]) -> Iterator[str]:
        """The words of a clause that name something of these kinds; others are blamed."""
        for value in clause.values if clause is not None else ():
            word = bare_word(value)
            if any(self.program.find(kind, word) is not None for kind in kinds):
                yield word
                continue
            known = [each for kind in kinds for each in self.program.names(kind)]
            self.findings.append(
                error(
                    "unknown-thing",
                    f"no {' or '.join(kinds)} is called {word or 'this'}",
                    span_of(value.origin),
                    help=suggestion(word, known),
                )
            )


def listed_lengths(lengths: Sequence[str]) -> str:
    """`10, 12 or 14`."""
    return " or ".join(filter(None, (", ".join(lengths[:-1]), lengths[-1])))


def _refuse(expression: Expression) -> None:
    raise fault(
        "wrong-kind", "an amount is a count or a length", expression.origin, help="as 200, or 250'"
    )


def _key(statement: Statement) -> tuple[object, ...]:
    """What two lines about the same thing share: its name, and the length they are for."""
    long = statement.clause("long")
    written: Mapping[str, object] = {}
    if long is not None and long.values:
        written = {"long": getattr(long.values[0], "written", None)}
    return (statement.name, *written.items())


def words_in(clause: Clause | None) -> str:
    """The words in quotes of a clause; empty where there are none."""
    value = clause.values[0] if clause is not None and clause.values else None
    if not isinstance(value, Text):
        return ""
    return "".join(piece for piece in value.pieces if isinstance(piece, str))
