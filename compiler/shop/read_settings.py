"""What a shop sets its units with, read: `setting` statements."""

from fractions import Fraction
from typing import TYPE_CHECKING, Final

from casewright.compiler.construct.materials import called
from casewright.compiler.shop.supply import Setting
from casewright.lang.measure import Dimension
from casewright.lang.shape import Clause, Statement, bare_word, span_of, suggestion

if TYPE_CHECKING:
    from casewright.compiler.shop.read_supply import SupplyReader

WAYS: Final = ("through", "between", "under")
"""What a setting says where its pieces go: one of these."""

DRIVEN: Final = ("fastener", "fitting")


def read_settings(reader: "SupplyReader") -> tuple[Setting, ...]:
    """Every setting, the nearest text's first; what can't be read is blamed and left out."""
    program = reader.program
    declared = [
        declaration
        for name in program.names("setting")
        if (declaration := program.find("setting", name)) is not None
        and not reader.faults.spoil(program, declaration)
    ]
    found = [_setting(reader, each.statement) for each in sorted(declared, key=lambda d: d.level)]
    return tuple(each for each in found if each is not None)


def _setting(reader: "SupplyReader", statement: Statement) -> Setting | None:
    name = statement.name
    ways = [word for word in WAYS if statement.clause(word) is not None]
    driven = statement.clause("with")
    thing = bare_word(driven.values[0]) if driven is not None and driven.values else ""
    if len(ways) != 1 or driven is None:
        reader.complain(
            "value-missing",
            f"setting {name} doesn't say one of through, between and under"
            if len(ways) != 1
            else f"setting {name} doesn't say with what",
            span_of(statement.head.origin),
            help="say with, a fastener, and where it goes",
        )
        return None
    if not any(reader.program.find(kind, thing) is not None for kind in DRIVEN):
        known = [each for kind in DRIVEN for each in reader.program.names(kind)]
        reader.complain(
            "unknown-thing",
            f"no fastener or fitting is called {thing or 'this'}",
            span_of(driven.values[0].origin),
            help=suggestion(thing, known),
        )
        return None
    before = len(reader.findings)
    every = reader.positive_measure(statement.clause("every"), f"{name} every", "a spacing")
    clause = statement.clause("least")
    least = reader.measure(clause, f"{name} least", Dimension.COUNT)
    if least is not None and (least.value < 0 or least.value.denominator != 1):
        reader.complain(
            "count-not-whole",
            f"setting {name} takes a whole number of pieces",
            span_of(clause.values[0].origin) if clause is not None else None,
        )
    if len(reader.findings) > before:
        return None
    return Setting(
        name,
        called(statement, name),
        thing,
        _roles(statement.clause("through")),
        _roles(statement.clause("between")),
        _roles(statement.clause("to")),
        _roles(statement.clause("under")),
        statement.clause("studs") is not None,
        every.value if every is not None else None,
        int(least.value if least is not None else Fraction(0)),
    )


def _roles(clause: Clause | None) -> tuple[str, ...]:
    return tuple(bare_word(each) for each in clause.values) if clause is not None else ()
