"""Options of a holder and of what fills its openings: as chosen, by default, or the holder's."""

from typing import TYPE_CHECKING

from casewright.compiler.construct.faults import fault
from casewright.compiler.construct.options import read_option
from casewright.compiler.construct.values import Value
from casewright.lang.cells import Quantity, named
from casewright.lang.measure import Dimension
from casewright.lang.shape import Statement
from casewright.lang.source import Origin

if TYPE_CHECKING:
    from casewright.compiler.construct.holder import Holder
    from casewright.compiler.construct.leaf import Leaf


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
