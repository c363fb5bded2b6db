"""What stands under the units of a run: a unit that spans, once for each stretch of them."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby

from casewright.compiler.binding import Binder
from casewright.compiler.blame import broken
from casewright.compiler.construct.bank import Bank
from casewright.compiler.construct.unit import Wanted, outer_size
from casewright.compiler.keys import binder, detach
from casewright.compiler.model import Placed, Unit
from casewright.compiler.rooms.bases import End
from casewright.compiler.rooms.kitchen import Head
from casewright.compiler.rooms.outside import Outside, slot_at
from casewright.compiler.rooms.place import Row
from casewright.compiler.rooms.stretches import (
    BASE_ROLE,
    Stood,
    Stretch,
    longest,
    spanned,
    spans_of,
    stood_of,
    stretches,
    text_of,
)
from casewright.compiler.rooms.unit_reports import UnitReports
from casewright.compiler.text.resolve import Declaration, Program
from casewright.lang.cells import Quantity, add, literal, named, subtract
from casewright.lang.findings import error
from casewright.lang.measure import System
from casewright.lang.shape import span_of, suggestion


class UnderUnits:
    """Works out the bases of runs; what is wrong with them goes to the `reports` of all units."""

    def __init__(
        self,
        program: Program,
        head: Head,
        system: System,
        bank: Bank,
        reports: UnitReports,
        outside: Outside,
    ) -> None:
        self.program = program
        self.head = head
        self.system = system
        self.bank = bank
        self.reports = reports
        self.outside = outside

    def bases(self, row: Row, placed: Sequence[Placed | None]) -> Iterator[Placed]:
        """What the run's units stand on: a unit that spans, once for each stretch of them."""
        stood = tuple(stood_of(row.slots, placed))
        for name in self.program.names("unit"):
            declaration = self.program.find("unit", name)
            if declaration is None or not (options := spanned(declaration)):
                continue
            for group in _by_construction(stood):
                if not self._spans_known(declaration, group[0].unit):
                    continue
                most = self._longest(row, group[0], declaration, options)
                for stretch in stretches(group, options, most):
                    base = self._base(row, stretch, declaration, options)
                    if base.unit is not None and (base.unit.parts or broken(base.unit.blames)):
                        yield base

    def _spans_known(self, declaration: Declaration, unit: Unit) -> bool:
        """Whether a unit of a stretch has all the options that its base spans; else it is said."""
        unknown = next(
            (each for each in spans_of(declaration) if each[0] not in unit.options), None
        )
        if unknown is None:
            return True
        word, origin = unknown
        finding = error(
            "unknown-option",
            f"{declaration.name} spans {word}, which units {unit.construction} don't have",
            span_of(origin),
            help=suggestion(word, unit.options) or "name options of the construction",
        )
        self.reports.once(finding)
        return False

    def _longest(
        self, row: Row, stood: Stood, declaration: Declaration, options: Sequence[str]
    ) -> Fraction | None:
        """How long a stretch may be."""
        said = longest(declaration)
        if said is None:
            return None
        wanted = self._base_wanted(row, Stretch((stood,)), said, options)
        most = outer_size(self.program, wanted, "most")
        return most.value if most is not None else None

    def _base_wanted(
        self, row: Row, stretch: Stretch, declaration: Declaration, options: Sequence[str]
    ) -> Wanted:
        first = stretch.first
        assert first.slot.construction is not None, "a unit has a construction"
        own, _ = detach(text_of(stretch, options))
        outside = self.outside.of(row, first.index)
        at_right = self.outside.of(row, stretch.last.index)
        outside |= {name: figure for name, figure in at_right.items() if ".right" in name}
        outside["stands.up"] = first.placed.up
        ends: tuple[tuple[End, int, int, Quantity], ...] = (
            ("left", first.index, -1, subtract(first.left, first.slot.at)),
            (
                "right",
                stretch.last.index,
                1,
                subtract(add(stretch.last.slot.at, stretch.last.slot.width), stretch.last.right),
            ),
        )
        for side, index, step, inset in ends:
            beside = slot_at(row, index + step)
            filled = beside is not None and beside.kind == "filler"
            outside[f"filler.{side}"] = (
                add(inset, beside.width) if filled and beside is not None else literal(0)
            )
        return Wanted(
            declaration,
            first.slot.construction,
            own,
            self.program.system_of(first.slot.statement.head.origin, self.system),
            self.head.printing,
            self.head.precision,
            stretch.width,
            first.bottom,
            first.placed.depth,
            outside,
        )

    def _base(
        self, row: Row, stretch: Stretch, declaration: Declaration, options: Sequence[str]
    ) -> Placed:
        first = stretch.first
        wanted = self._base_wanted(row, stretch, declaration, options)
        _, spans = detach(text_of(stretch, options))
        unit = self.bank.unit(wanted)
        self.reports.add(unit, first.slot, spans, wanted)
        name = first.slot.address.rpartition(".")[2]
        address = f"{row.name}.{BASE_ROLE}_{name}"
        width = named(wanted.width, f"{address}.across")
        bindings = {
            each: value for each, value in wanted.outside.items() if isinstance(value, Quantity)
        }
        high = named(first.bottom, f"{address}.high")
        depth = named(first.placed.depth, f"{address}.depth")
        bindings |= {"width": width, "high": high, "depth": depth}
        bindings["job.precision"] = self.head.precision
        binding = Binder(bindings, binder(spans), lambda name: f"{address}.{name}")
        return Placed(
            "",
            address,
            unit.title,
            "base",
            row.name,
            unit,
            named(first.left, f"{address}.at"),
            width,
            first.placed.up,
            binding.bind(unit.height),
            binding.bind(unit.depth),
            bindings,
            spans,
            span_of(first.slot.statement.origin),
        )


def _by_construction(stood: Sequence[Stood]) -> Iterator[tuple[Stood, ...]]:
    """The units in their order, as long as they are built one way."""
    for _, group in groupby(stood, key=lambda each: each.unit.construction):
        yield tuple(group)
