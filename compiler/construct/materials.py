"""What parts are made of and fastened with, as the model has it, from what texts declare."""

from functools import partial

from casewright.compiler.construct.build import Build
from casewright.compiler.construct.evaluate import evaluate, quantity
from casewright.compiler.construct.faults import fault
from casewright.compiler.construct.holder import Holder
from casewright.compiler.construct.scope import Scope
from casewright.compiler.construct.values import Choice, Datum, Lengths
from casewright.compiler.model import Fixing, Material, Stock
from casewright.compiler.text.resolve import Declaration
from casewright.lang.cells import Quantity, literal
from casewright.lang.measure import Dimension
from casewright.lang.shape import Clause, Statement, bare_word
from casewright.lang.tree import Expression, Text


def called(statement: Statement, name: str) -> str:
    """How papers name a declared thing: as its text says, else its name in plain words."""
    clause = statement.clause("called")
    if clause is not None and clause.values and isinstance(clause.values[0], Text):
        return "".join(piece for piece in clause.values[0].pieces if isinstance(piece, str))
    return name.replace("_", " ")


def material_of(build: Build, declaration: Declaration) -> Material:
    """A declared sheet, lumber, band, slide … as the model has it."""
    key = ("material", declaration.kind, declaration.name)
    return build.cell(
        key,
        declaration.name,
        declaration.statement.head.origin,
        lambda: _material(build, declaration),
    )


def _material(build: Build, declaration: Declaration) -> Material:
    statement = declaration.statement
    origin = statement.head.origin
    thick = literal(0)
    if statement.clause("thick") is not None:
        value = build.property(declaration, "thick", origin, Dimension.LENGTH)
        if isinstance(value, Quantity):
            thick = value
    sizes = [
        # What can't be read of a size it is bought in makes no part: the shop's reader blames it.
        build.glance(partial(_stock, build, clause, by))
        for clause in statement.clauses
        if clause.word == "stock" and (by := clause.clause("by")) is not None
    ]
    stock = tuple(each for each in sizes if each is not None)
    data: dict[str, Quantity | str] = {}
    for clause in (*statement.clauses, *statement.options):
        if clause.word in ("stock", "called") or not clause.values:
            continue
        value = build.property(declaration, clause.word, origin, None)
        if isinstance(value, Quantity):
            data[clause.word] = value
        elif isinstance(value, Choice):
            data[clause.word] = value.word
        elif isinstance(value, Datum):
            data[clause.word] = value.declaration.name
        elif isinstance(value, Lengths):
            continue
    return Material(
        declaration.name,
        declaration.kind,
        called(statement, declaration.name),
        thick,
        stock if len(stock) == len(sizes) else (),
        data.get("grain") not in (None, "none"),
        str(data.get("band", "")),
        data.get("counts") == "yes",
        data,
    )


def _stock(build: Build, clause: Clause, by: Clause) -> Stock | None:
    """A size that a material is bought in; None where it is nothing. Raises Fault where it can't
    be read."""
    scope = Scope(Holder(build, "", "", (), {}, None, None, False))
    width = quantity(clause.values[0], scope, Dimension.LENGTH)
    length = quantity(by.values[0], scope, Dimension.LENGTH)
    most = clause.clause("pieces")
    pieces = None
    if most is not None:
        pieces = max(0, int(quantity(most.values[0], scope, Dimension.COUNT).value))
    if min(width.value, length.value) <= 0:
        return None
    return Stock(width.value, length.value, pieces)


def fixing_of(build: Build, expression: Expression, scope: Scope) -> Fixing:
    """The fixing an expression names. Raises Fault where it names none."""
    value = evaluate(expression, scope)
    if not isinstance(value, Datum) or value.declaration.kind != "fixing":
        raise fault("wrong-kind", "a joint is fastened with a fixing", expression.origin)
    declaration = value.declaration
    statement = declaration.statement
    hold = statement.clause("hold")

    def length(clause: Clause | None) -> Quantity | None:
        if clause is None or not clause.values:
            return None
        return quantity(clause.values[0], scope, Dimension.LENGTH)

    def fastener(clause: Clause | None) -> str:
        if clause is None or not clause.values:
            return ""
        word = bare_word(clause.values[0])
        found = build.program.find("fastener", word)
        if found is None:
            raise fault(
                "unknown-fastener", f"no fastener is called {word}", clause.values[0].origin
            )
        return word

    if hold is not None and hold.clause("bored") is not None:
        for word in ("every", "ends"):
            spaced = hold.clause(word)
            if spaced is not None:
                raise fault(
                    "bored-and-spaced",
                    f"fixing {declaration.name} stands in bored holes, so {word} would be ignored",
                    spaced.origin,
                    help=f"leave out {word}: the holes say where it stands; or leave out bored",
                )
    drive = statement.clause("drive")
    return Fixing(
        declaration.name,
        called(statement, declaration.name),
        fastener(statement.clause("locate")),
        fastener(hold),
        length(hold.clause("every") if hold is not None else None),
        length(hold.clause("ends") if hold is not None else None),
        length(statement.clause("needs")),
        bare_word(drive.values[0]) if drive is not None else "",
        hold is not None and hold.clause("bored") is not None,
    )
