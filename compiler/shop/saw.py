"""The shop's own data read: its saw and the offcuts it keeps."""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Final

from casewright.compiler.construct.materials import called
from casewright.compiler.model import Offcut, Saw, Stock, Trims
from casewright.compiler.rooms.kitchen import Reader
from casewright.compiler.shop.faults import faults_of
from casewright.compiler.shop.which import nearest
from casewright.compiler.text.resolve import Declaration, Program
from casewright.lang.cells import Quantity, literal
from casewright.lang.findings import Finding, error
from casewright.lang.measure import Dimension, Measure, System
from casewright.lang.shape import Clause, Statement, bare_word, span_of, suggestion
from casewright.lang.tree import Date, Text

EDGES_TRIMMED = ("fence", "far", "near", "end")
"""Words for a sheet's edges as the sawyer stands, each with a trim of its own where one is said."""

LIMITS: Final[Mapping[str, tuple[Fraction, Fraction]]] = {
    "kerf": (Fraction(1, 32), Fraction(1)),
    "trim": (Fraction(0), Fraction(4)),
    "stack": (Fraction(0), Fraction(8)),
}
"""Inches, from and to: a figure of a saw outside them is of another measure or a slip of the hand
(common practice: cutters that part sheets are 1/16 to 1/2 thick, sheets are stacked to 6)."""

MOST_ALIKE: Final = 1000
"""Offcuts of one size that a shop can hold; more is a slip of the hand."""


def read_saw(
    program: Program, system: System, known: Sequence[Finding] = ()
) -> tuple[Saw | None, tuple[Finding, ...]]:
    """The saw the job names; else the nearest one that is declared. None where there is none, or
    where a line of it can't be read (`known` are the findings so far): a plan with half a saw's
    data can't be sawn."""
    reader = Reader(program, system)
    names = program.names("saw")
    unsaid: tuple[Finding, ...] = ()
    clause = program.jobs[0].clause("saw") if program.jobs else None
    if clause is not None and clause.values:
        name = bare_word(clause.values[0])
        found = program.find("saw", name)
        if found is None:
            finding = error(
                "unknown-saw",
                f"no saw is called {name}",
                span_of(clause.values[0].origin),
                help=suggestion(name, names),
            )
            return None, (finding,)
    else:
        found, unsaid = nearest(program, "saw")
        if found is None:
            return None, ()
    saw = None if faults_of(known).spoil(program, found) else _saw(reader, found)
    return (None if reader.findings else saw), (*unsaid, *reader.findings)


def _saw(reader: Reader, declaration: Declaration) -> Saw | None:
    statement = declaration.statement
    name = declaration.name

    def measure(clause: Clause | None, word: str) -> Quantity | None:
        found = reader.measure(clause, f"{name} {word}")
        if found is None or clause is None:
            return found
        if found.value < 0:
            reader.complain(
                "less-than-nothing",
                f"{word} is nothing or more",
                span_of(clause.origin),
                help="write 0 or more",
            )
            return None
        return found if _is_likely(reader, found, word, clause) else None

    def said(word: str) -> Quantity:
        return measure(statement.clause(word), word) or literal(0)

    cut = statement.clause("kerf")
    if cut is None:
        reader.findings.append(
            error(
                "value-missing",
                f"saw {name} doesn't say what its cut takes",
                span_of(statement.head.origin),
                help="add kerf and a length",
            )
        )
        return None
    kerf = reader.positive_measure(
        cut,
        f"{name} kerf",
        "a kerf",
        "measure the slot that a cut leaves, for instance 1/8 in",
    )
    if kerf is None or not _is_likely(reader, kerf, "kerf", cut):
        return None
    keeps = statement.clause("keeps")
    if keeps is not None and keeps.clause("by") is None:
        reader.findings.append(
            error(
                "value-missing",
                f"saw {name} keeps offcuts of a width, and no length is said",
                span_of(keeps.origin),
                help="add by, and the least length",
            )
        )
        return None
    first = statement.clause("first")
    trim = statement.clause("trim")
    whole = measure(trim, "trim") or literal(0)
    edges = (trim.clause(word) if trim is not None else None for word in EDGES_TRIMMED)
    reach, crosscuts = (statement.clause(word) for word in ("reach", "crosscuts"))
    return Saw(
        name,
        called(statement, name),
        kerf,
        Trims(*(measure(edge, "trim") or whole for edge in edges)),
        said("least"),
        said("stack"),
        bare_word(first.values[0]) if first is not None and first.values else "rip",
        _size(reader, keeps, name) or Stock(Fraction(0), Fraction(0)),
        reader.positive_measure(reach, f"{name} reach", "a reach"),
        reader.positive_measure(crosscuts, f"{name} crosscuts", "a width"),
    )


def _is_likely(reader: Reader, said: Quantity, word: str, clause: Clause) -> bool:
    """Whether a saw can have such a figure; it is blamed if not."""
    least, most = LIMITS.get(word, (said.value, said.value))
    if least <= said.value <= most:
        return True
    low, high, found = (
        reader.say(Measure(each, Dimension.LENGTH)) for each in (least, most, said.value)
    )
    reader.complain(
        "saw-figure-unlikely",
        f"no saw has a {word} of {found}",
        span_of(clause.values[0].origin),
        help=f"it lies between {low} and {high}; a figure of another measure says so, "
        "as 3.2mm or 1/8in",
    )
    return False


def _size(reader: Reader, clause: Clause | None, name: str) -> Stock | None:
    """Width by length, both more than nothing."""
    by = clause.clause("by") if clause is not None else None
    width = reader.positive(reader.measure(clause, f"{name} width"), "a width")
    length = reader.positive(reader.measure(by, f"{name} length"), "a length")
    if width is None or length is None:
        return None
    return Stock(width.value, length.value)


def read_offcuts(
    program: Program, system: System, known: Sequence[Finding] = ()
) -> tuple[tuple[Offcut, ...], tuple[Finding, ...]]:
    """The kept offcuts that texts list; those that can't be read are left out, and said. `known`
    are the findings so far."""
    reader = Reader(program, system)
    faults = faults_of(known)
    found: list[Offcut] = []
    for name in program.names("offcut"):
        declaration = program.find("offcut", name)
        if declaration is None or faults.spoil(program, declaration):
            continue
        offcut = _offcut(reader, program, declaration.statement)
        if offcut is not None:
            found.append(offcut)
    return tuple(found), tuple(reader.findings)


def _offcut(reader: Reader, program: Program, statement: Statement) -> Offcut | None:
    of = statement.clause("of")
    sheet = bare_word(of.values[0]) if of is not None and of.values else ""
    if program.find("sheet", sheet) is None:
        reader.findings.append(
            error(
                "unknown-material",
                f"offcut {statement.name} is of no sheet that is known"
                if not sheet
                else f"no sheet is called {sheet}",
                span_of(statement.head.origin),
                help=suggestion(sheet, program.names("sheet")),
            )
        )
        return None
    before = len(reader.findings)
    size = _size(reader, statement.clause("size"), statement.name)
    if size is None and len(reader.findings) > before:
        return None
    if size is None:
        reader.findings.append(
            error(
                "value-missing",
                f"offcut {statement.name} doesn't say its size",
                span_of(statement.head.origin),
                help="add size, a width, by, and a length",
            )
        )
        return None
    said = statement.clause("pieces")
    pieces = reader.measure(said, f"{statement.name} pieces", Dimension.COUNT)
    if said is not None and pieces is None:
        return None
    if pieces is not None and (pieces.value < 1 or pieces.value.denominator != 1):
        reader.findings.append(
            error(
                "count-not-whole",
                f"offcut {statement.name} is so many whole pieces",
                span_of(said.values[0].origin) if said is not None else None,
                help="write 1 or more, or take the line away",
            )
        )
        return None
    if pieces is not None and pieces.value > MOST_ALIKE:
        reader.complain(
            "count-too-large",
            f"no shop keeps so many pieces as offcut {statement.name}",
            span_of(said.values[0].origin) if said is not None else None,
            help=f"write how many stand there, {MOST_ALIKE} at most",
        )
        return None
    if _is_too_large(reader, program, sheet, size):
        reader.complain(
            "offcut-larger-than-sheet",
            f"offcut {statement.name} is larger than any sheet that {sheet} is bought in",
            span_of(statement.clause("size").origin),  # type: ignore[union-attr]
            help=f"check its figures; or if {sheet} comes so large, add that stock to it",
        )
        return None
    return Offcut(
        statement.name,
        sheet,
        size,
        int(pieces.value) if pieces is not None else 1,
        _words(statement.clause("place")),
        _words(statement.clause("date")),
    )


def _is_too_large(reader: Reader, program: Program, sheet: str, size: Stock) -> bool:
    """Whether no size that a sheet is bought in is so large either way; False where one of them
    isn't known, which is blamed elsewhere."""
    declaration = program.find("sheet", sheet)
    clauses = declaration.statement.clauses if declaration is not None else ()
    stocks = [each for each in clauses if each.word == "stock"]
    for stock in stocks:
        width = reader.glance(stock, f"{sheet} width")
        length = reader.glance(stock.clause("by"), f"{sheet} length")
        if width is None or length is None:
            return False
        large, small = sorted((width.value, length.value), reverse=True)
        if size.length <= large and size.width <= small:
            return False
        if size.length <= small and size.width <= large:
            return False
    return bool(stocks)


def _words(clause: Clause | None) -> str:
    if clause is None or not clause.values:
        return ""
    value = clause.values[0]
    if isinstance(value, Text):
        return "".join(piece for piece in value.pieces if isinstance(piece, str))
    return value.written if isinstance(value, Date) else bare_word(value)
