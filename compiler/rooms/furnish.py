"""Placed rows furnished with their units: each worked out once, its findings bound to its lines."""

from collections.abc import Sequence, Set

from attrs import evolve

from casewright.compiler.binding import Binder
from casewright.compiler.blame import broken
from casewright.compiler.construct.bank import Bank
from casewright.compiler.construct.materials import called
from casewright.compiler.construct.unit import Wanted
from casewright.compiler.keys import binder, detach
from casewright.compiler.model import Placed, Return, Room, Run, Unit
from casewright.compiler.rooms.kitchen import Head, Reader, figures_of
from casewright.compiler.rooms.outside import Outside, mitres_of, turn_figures
from casewright.compiler.rooms.place import Row, Slot
from casewright.compiler.rooms.run_items import own_text
from casewright.compiler.rooms.under import UnderUnits
from casewright.compiler.rooms.unit_reports import UnitReports
from casewright.compiler.text.resolve import Declaration, Program
from casewright.lang.cells import Quantity, add, literal, named, subtract
from casewright.lang.findings import Finding, error
from casewright.lang.measure import System
from casewright.lang.shape import span_of

FILLER_ROLE = "filler"


class Furnisher:
    """Works out what stands in each slot. `findings` holds what is wrong, equal reports folded."""

    def __init__(self, program: Program, room: Room | None, head: Head, system: System) -> None:
        self.program = program
        self.head = head
        self.system = system
        self.bank = Bank(program)
        self.reader = Reader(program, system, room, head.printing)
        self.reports = UnitReports(program, self.reader)
        self.outside = Outside(figures_of(room) if room is not None else {})
        self.under = UnderUnits(program, head, system, self.bank, self.reports, self.outside)
        self.spoilt: Set[str] = frozenset()
        self.misfits: Set[str] = frozenset()

    @property
    def findings(self) -> tuple[Finding, ...]:
        return (*self.reader.findings, *self.reports.findings)

    def runs(self, rows: Sequence[Row], spoilt: Set[str]) -> tuple[tuple[Run, bool], ...]:
        """Every run with its units; False where one of them is broken. Of what takes a share in one
        of the `spoilt` runs no size is blamed, since its width is not what it will be; nor where
        a thing of the run has a width that it can't have, which makes the run one of `misfits`."""
        for row in rows:
            for index, slot in enumerate(row.slots):
                if slot.turn is not None and slot.declaration is not None:
                    unit = self.bank.unit(self._wanted(row, index, slot.declaration, None))
                    self.outside.legs[slot.tag] = mitres_of(unit, slot.turn.end)
        self.misfits = frozenset(row.name for row in rows if self._has_misfit(row)) - spoilt
        self.spoilt = spoilt | self.misfits
        return tuple(self._run(row) for row in rows)

    def _has_misfit(self, row: Row) -> bool:
        """Whether something stands in a row that can't be as wide as its line says."""
        units = (
            self.bank.unit(self._wanted(row, index, slot.declaration, None))
            for index, slot in enumerate(row.slots)
            if slot.kind == "unit"
            and slot.declaration is not None
            and not (slot.shares or slot.astray)
        )
        return any(
            "across" in blame.too_large | blame.too_small for unit in units for blame in unit.blames
        )

    def _run(self, row: Row) -> tuple[Run, bool]:
        placed: list[Placed | None] = [None] * len(row.slots)
        for index, slot in enumerate(row.slots):
            if slot.kind != "filler":
                placed[index] = self.slot(row, index, None)
        for index, slot in enumerate(row.slots):
            if slot.kind == "filler":
                placed[index] = self.slot(row, index, _neighbour(placed, index))
        kept = tuple(each for each in placed if each is not None)
        sound = all(each.unit is None or not broken(each.unit.blames) for each in kept)
        bases = tuple(self.under.bases(row, placed)) if sound else ()
        sound = sound and all(each.unit is None or not broken(each.unit.blames) for each in bases)
        run = Run(
            row.name,
            row.name.replace("_", " "),
            row.wall,
            row.start,
            row.up or literal(0, label="the floor"),
            row.space,
            kept,
            row.span,
            row.island,
            row.facing,
            row.line.origin,
            row.line.direction,
            row.depth,
            bases,
        )
        return run, sound

    def slot(self, row: Row, index: int, beside: Placed | None) -> Placed:
        slot = row.slots[index]
        if slot.kind == "unit" and slot.declaration is not None:
            return self._unit(row, index, slot.declaration, None)
        if slot.kind == "filler" and not slot.taken_by and slot.construction is not None:
            filler = self._filler_unit(slot)
            if filler is not None:
                return self._unit(row, index, filler, beside)
        return self._plain(row, slot, beside)

    def _filler_unit(self, slot: Slot) -> Declaration | None:
        """The library's unit that serves as a filler."""
        for name in self.program.names("unit"):
            found = self.program.find("unit", name)
            clause = found.statement.clause("serves") if found is not None else None
            if clause is not None and getattr(clause.values[0], "text", "") == FILLER_ROLE:
                return found
        self.reader.findings.append(
            error(
                "no-filler-unit",
                "nothing in the library serves as a filler",
                span_of(slot.statement.head.origin),
                help="declare a unit that serves filler",
            )
        )
        return None

    def _unit(
        self, row: Row, index: int, declaration: Declaration, beside: Placed | None
    ) -> Placed:
        slot = row.slots[index]
        _, spans = detach(own_text(slot.statement))
        up = self._up(row, slot, declaration, beside)
        wanted = self._wanted(row, index, declaration, beside)
        unit = self.bank.unit(wanted)
        bindings: dict[str, Quantity] = {
            name: value for name, value in wanted.outside.items() if isinstance(value, Quantity)
        }
        bindings["width"] = slot.width
        bindings["job.precision"] = self.head.precision
        if beside is not None:
            bindings["high"], bindings["depth"] = beside.height, beside.depth
        sized = not (slot.shares and row.name in self.spoilt)
        # A filler is as high as what stands beside it, which here could not be read.
        alone = slot.kind == "filler" and beside is None and row.name in self.spoilt
        if not slot.astray and not alone:
            self.reports.add(unit, slot, spans, wanted, sized=sized)
        binding = Binder(bindings, binder(spans), lambda name: f"{slot.address}.{name}")
        return Placed(
            slot.tag,
            slot.address,
            unit.title,
            "filler" if slot.kind == "filler" else "unit",
            row.name,
            unit,
            slot.at,
            slot.width,
            up,
            binding.bind(unit.height),
            binding.bind(unit.depth),
            bindings,
            spans,
            span_of(slot.statement.origin),
            slot.scribe,
            _return(slot, unit, binding),
        )

    def _wanted(
        self, row: Row, index: int, declaration: Declaration, beside: Placed | None
    ) -> Wanted:
        slot = row.slots[index]
        assert slot.construction is not None, "a slot without a construction was left out"
        own, _ = detach(own_text(slot.statement))
        up = self._up(row, slot, declaration, beside)
        outside = {**self.outside.of(row, index), "stands.up": up, **turn_figures(slot.turn)}
        return Wanted(
            declaration,
            slot.construction,
            own,
            self.program.system_of(slot.statement.head.origin, self.system),
            self.head.printing,
            self.head.precision,
            slot.width,
            beside.height if beside is not None else None,
            beside.depth if beside is not None else None,
            outside,
            slot.turn is not None and slot.turn.end == "left",
        )

    def _up(
        self, row: Row, slot: Slot, declaration: Declaration | None, beside: Placed | None
    ) -> Quantity:
        """How high above the floor a thing begins: as its own line says, its run, the unit beside
        a filler, or its declaration. What is lifted stands higher than its run by that much."""
        own = self.reader.measure(slot.statement.clause("up"), f"{slot.address}.up")
        if own is not None:
            return own
        if row.up is not None:
            lift = declaration.statement.clause("lifted") if declaration is not None else None
            lifted = self.reader.measure(lift, f"{slot.address}.lifted")
            return row.up if lifted is None else add(row.up, lifted)
        if beside is not None:
            return beside.up
        clause = declaration.statement.clause("up") if declaration is not None else None
        stated = self.reader.measure(clause, f"{row.name}.up")
        return stated or literal(0, label="the floor")

    def _plain(self, row: Row, slot: Slot, beside: Placed | None) -> Placed:
        """An appliance, a space, or a filler that a unit takes."""
        declaration = slot.declaration

        def measure(word: str) -> Quantity:
            clause = declaration.statement.clause(word) if declaration is not None else None
            own = slot.statement.clause(word)
            found = self.reader.measure(own or clause, f"{slot.address}.{word}")
            return found or literal(0, label="unsaid")

        title = slot.statement.rule.replace("_", " ")
        if declaration is not None:
            title = called(declaration.statement, declaration.name)
        return Placed(
            slot.tag,
            slot.address,
            title,
            slot.kind,
            row.name,
            None,
            slot.at,
            slot.width,
            self._up(row, slot, declaration, beside),
            beside.height if beside is not None else measure("high"),
            beside.depth if beside is not None else measure("depth"),
            {},
            (),
            span_of(slot.statement.origin),
            slot.scribe,
            None,
            slot.dead_with,
        )


def without_oversized(run: Run) -> Run:
    """A run without the units that would have to be lower or shallower to stand at all: what they
    meet as they are isn't told."""
    return evolve(
        run,
        placed=tuple(
            each
            for each in run.placed
            if each.unit is None
            or not any({"up", "deep"} & blame.too_large for blame in each.unit.blames)
        ),
    )


def outlined(run: Run) -> Run:
    """A run of which no unit that is broken is more than its outline: its sizes, and what it is."""
    return evolve(
        run,
        placed=tuple(
            evolve(
                each,
                unit=evolve(
                    each.unit,
                    parts=(),
                    assemblies=(),
                    openings=(),
                    members=(),
                    joints=(),
                    steps=(),
                    blanks=(),
                    named={},
                ),
            )
            if each.unit is not None and broken(each.unit.blames)
            else each
            for each in run.placed
        ),
    )


def _return(slot: Slot, unit: Unit, binding: Binder) -> Return | None:
    """How a corner unit stands along the wall around its corner: as deep as from there to the
    mouth that looks along its run."""
    turn = slot.turn
    looks = "left" if turn is not None and turn.end == "right" else "right"
    mouth = next((each for each in unit.mouths if each.faces == looks or each.slant), None)
    if turn is None or mouth is None:
        return None
    across = mouth.extents.across
    low, high = binding.bind(across.low), binding.bind(across.high)
    if mouth.slant is not None:
        # It runs from leg to leg: what is left of the unit beside it is the leg around the corner.
        right = turn.end == "right"
        low, high = (high, unit.width) if right else (literal(0, label="the unit's left"), low)
    depth = named(subtract(high, low), f"{slot.address}.return_depth")
    return Return(turn.end, turn.wall, turn.length, depth, turn.taken)


def _neighbour(placed: Sequence[Placed | None], index: int) -> Placed | None:
    """What stands beside a filler: a unit before an appliance, the left one first."""
    beside = [placed[at] for at in (index - 1, index + 1) if 0 <= at < len(placed)]
    for kind in ("unit", "appliance"):
        for each in beside:
            if each is not None and each.kind == kind:
                return each
    return None
