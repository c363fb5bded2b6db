"""What options and lets of a holder are worth: as chosen, by default, or as its text says."""

from functools import partial
from typing import TYPE_CHECKING

from attrs import evolve

from casewright.compiler.construct.evaluate import evaluate
from casewright.compiler.construct.faults import fault
from casewright.compiler.construct.options import read_option
from casewright.compiler.construct.values import Missing, Value
from casewright.lang.cells import Quantity, named, negate
from casewright.lang.measure import Dimension
from casewright.lang.shape import Statement
from casewright.lang.source import Origin
from casewright.lang.tree import Expression

if TYPE_CHECKING:
    from casewright.compiler.construct.declared import Declared
    from casewright.compiler.construct.holder import Holder
    from casewright.compiler.construct.leaf import Leaf
    from casewright.compiler.construct.scope import Scope


def option_of(holder: "Holder", statement: Statement, want: Dimension | None) -> Value:
    """The value of an option `holder` declares: as chosen, else its default, else that of the
    nearest holder around it with the same name. Raises Fault."""
    name = statement.name
    if name in holder.settings:
        clause, scope = holder.settings[name]
        return named_in(
            holder,
            read_option(statement, clause.values[0], scope or holder.scope()),
            name,
            clause.origin,
        )
    if statement.value is not None:
        value = read_option(statement, statement.value, holder.scope())
        return named_in(holder, value, name, statement.head.origin)
    outer = holder.outer
    while outer is not None:
        if outer.holder.declares(name):
            return outer.holder.value(name, outer, statement.head.origin, want)
        outer = outer.holder.outer
    raise fault(
        "option-unsaid",
        f"{name} is not chosen, and has no default",
        statement.head.origin,
        help=f"say {name} and what it is, on the unit or its construction",
    )


def let_of(
    holder: "Holder", declared: "list[Declared]", scope: "Scope", want: Dimension | None
) -> Value:
    """The value of the first of the lets of one name, read from `scope`, whose conditions are so;
    Missing where none is. Raises Fault."""
    for each in declared:
        reading = holder.scope()
        if scope.holder is holder:
            reading = evolve(reading, turns=scope.turns)
        stands = all(
            holder.stands(guard.statement, reading)
            for guard in each.guards
            if guard.statement.rule == "when"
        )
        expression = each.statement.value
        if not stands or expression is None:
            continue
        name = each.statement.name
        wanted = Dimension.LENGTH if want is Dimension.PLACE else want
        turns = tuple(turn.key for turn in reading.turns)
        origin = each.statement.head.origin
        return holder.build.cell(
            (id(each), turns, wanted),
            name,
            origin,
            partial(_let_value, holder, expression, reading, wanted, name, origin),
        )
    return Missing(f"{declared[0].statement.name} isn't there")


def _let_value(
    holder: "Holder",
    expression: Expression,
    reading: "Scope",
    want: Dimension | None,
    name: str,
    origin: Origin,
) -> Value:
    value = evaluate(expression, reading, want)
    place = isinstance(value, Quantity) and value.dimension is Dimension.PLACE
    if isinstance(value, Quantity) and place and reading.mirrored and value.axis == "across":
        # Whoever reads it turns it as any place; it is kept as one of the unit.
        value = negate(value)
    return named_in(holder, value, name, origin)


def named_in(holder: "Holder", value: Value, name: str, origin: Origin | None) -> Value:
    """A value under its address in the unit."""
    if not isinstance(value, Quantity):
        return value
    return named(value, f"{holder.path}.{name}" if holder.path else name, origin)


def filling_option(
    holder: "Holder", leaf: "Leaf", name: str, want: Dimension | None
) -> Value | None:
    """An option of an opening's filling: as the opening says, its default, or the unit's."""
    for statement in leaf.filling.statement.body:
        if statement.rule != "option" or statement.name != name:
            continue
        chosen = leaf.statement.option(name)
        if chosen is not None and chosen.values:
            return read_option(statement, chosen.values[0], holder.scope())
        if name in holder.settings and not holder.declares(name):
            clause, scope = holder.settings[name]
            return read_option(statement, clause.values[0], scope or holder.scope())
        if statement.value is not None:
            return read_option(statement, statement.value, holder.scope())
        if holder.declares(name):
            return holder.value(name, holder.scope(), leaf.origin, want)
        unit = holder.outer.holder if holder.is_mouth and holder.outer is not None else None
        if unit is not None and unit.declares(name):
            return unit.value(name, unit.scope(), leaf.origin, want)
        raise fault(
            "option-unsaid",
            f"{name} of this {leaf.filling.name} is not chosen, and has no default",
            leaf.origin,
            help=f"add {name} and what it is",
        )
    return None
