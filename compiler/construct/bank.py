"""Units worked out once per key, and shared by every placing that is equal."""

from collections.abc import Mapping

from attrs import define, field

from casewright.compiler.construct.unit import Wanted, work_out
from casewright.compiler.model import Unit
from casewright.compiler.text.resolve import Program
from casewright.lang.cells import Quantity


@define(eq=False)
class Bank:
    """Results by key. What of the outside matters is known only after a unit was worked out, so a
    key holds the results with what each read, and a hit replays those reads."""

    program: Program
    results: dict[object, list[tuple[Mapping[str, object], Unit]]] = field(factory=dict)
    worked_out: int = 0

    def unit(self, wanted: Wanted) -> Unit:
        """The unit that is wanted: an equal one that was worked out already, or a new one."""
        key = (
            wanted.unit.name,
            wanted.construction.name,
            wanted.own,
            wanted.system,
            wanted.printing,
            wanted.width.value,
            _value(wanted.high),
            _value(wanted.depth),
            wanted.mirrored,
        )
        known = self.results.setdefault(key, [])
        for reads, unit in known:
            if all(_outside(wanted.outside, name) == value for name, value in reads.items()):
                return unit
        unit, reads = work_out(self.program, wanted)
        self.worked_out += 1
        known.append((dict(reads), unit))
        return unit


def _value(quantity: Quantity | None) -> object:
    return quantity.value if quantity is not None else None


def _outside(outside: Mapping[str, Quantity | str], name: str) -> object:
    value = outside.get(name)
    return value.value if isinstance(value, Quantity) else value
