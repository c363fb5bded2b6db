"""Placed rows furnished with their units: each worked out once, its findings bound to its lines."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import groupby

from attrs import evolve

from casewright.compiler.binding import Binder
from casewright.compiler.blame import Blame, bind, bound_row, broken
from casewright.compiler.construct.bank import Bank
from casewright.compiler.construct.materials import called
from casewright.compiler.construct.unit import Wanted, outer_size
from casewright.compiler.keys import binder, detach
from casewright.compiler.model import Placed, Return, Room, Run, Unit
from casewright.compiler.rooms.bases import End
from casewright.compiler.rooms.kitchen import Head, Reader, figures_of
from casewright.compiler.rooms.otherwise import otherwise
from casewright.compiler.rooms.place import Row, Slot
from casewright.compiler.rooms.run_items import own_text
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
from casewright.compiler.text.load import STANDARD
from casewright.compiler.text.resolve import Declaration, Program
from casewright.lang.cells import Quantity, add, literal, named, subtract
from casewright.lang.findings import Finding, Label, error
from casewright.lang.measure import Dimension, System
from casewright.lang.shape import Statement, span_of, suggestion
from casewright.lang.source import Origin, Span

FILLER_ROLE = "filler"


class Furnisher:
    """Works out what stands in each slot. `findings` holds what is wrong, equal reports folded."""

    def __init__(self, program: Program, room: Room | None, head: Head, system: System) -> None:
        self.program = program
        self.head = head
        self.system = system
        self.bank = Bank(program)
        self.reader = Reader(program, system, room)
        self.reports: dict[tuple[object, ...], Finding] = {}
        self.library = {text.source.label for text in program.texts if text.level == STANDARD}
        self.room_figures = figures_of(room) if room is not None else {}

    @property
    def findings(self) -> tuple[Finding, ...]:
        return (*self.reader.findings, *self.reports.values())

    def run(self, row: Row) -> tuple[Run, bool]:
        """The run with its units; False where one of them is broken."""
        placed: list[Placed | None] = [None] * len(row.slots)
        for index, slot in enumerate(row.slots):
            if slot.kind != "filler":
                placed[index] = self.slot(row, index, None)
        for index, slot in enumerate(row.slots):
            if slot.kind == "filler":
                placed[index] = self.slot(row, index, _neighbour(placed, index))
        kept = tuple(each for each in placed if each is not None)
        sound = all(each.unit is None or not broken(each.unit.blames) for each in kept)
        bases = tuple(self._bases(row, placed)) if sound else ()
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
        assert slot.construction is not None, "a slot without a construction was left out"
        own, spans = detach(own_text(slot.statement))
        up = self._up(row, slot, declaration, beside)
        turn = slot.turn
        outside = {**self._outside(row, index), "stands.up": up}
        outside["stands.return"] = (
            turn.length if turn is not None else literal(0, label="not around a corner")
        )
        outside["beside.around"] = turn.beside if turn is not None else "open"
        outside["beside.meeting"] = "corner"
        for side in ("around", "meeting"):
            outside[f"filler.{side}"] = literal(0, label="no filler")
        wanted = Wanted(
            declaration,
            slot.construction,
            own,
            self._system_of(slot.statement),
            self.head.printing,
            self.head.precision,
            slot.width,
            beside.height if beside is not None else None,
            beside.depth if beside is not None else None,
            outside,
            turn is not None and turn.end == "left",
        )
        unit = self.bank.unit(wanted)
        bindings: dict[str, Quantity] = {
            name: value for name, value in outside.items() if isinstance(value, Quantity)
        }
        bindings["width"] = slot.width
        bindings["job.precision"] = self.head.precision
        if beside is not None:
            bindings["high"], bindings["depth"] = beside.height, beside.depth
        self._report(unit, slot, spans, wanted)
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

    def _bases(self, row: Row, placed: Sequence[Placed | None]) -> Iterator[Placed]:
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
        self.reports.setdefault((finding.slug, finding.headline), finding)
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
        outside = {**self._outside(row, first.index), "stands.up": first.placed.up}
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
            beside = _slot(row, index + step)
            filled = beside is not None and beside.kind == "filler"
            outside[f"filler.{side}"] = (
                add(inset, beside.width) if filled and beside is not None else literal(0)
            )
            beyond = _slot(row, index + 2 * step)
            # Around a dead corner stands another base, as far back from its fronts as this one.
            if filled and beyond is not None and beyond.statement.rule == "dead_corner":
                outside[f"beside.{side}"] = "corner"
        return Wanted(
            declaration,
            first.slot.construction,
            own,
            self._system_of(first.slot.statement),
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
        self._report(unit, first.slot, spans, wanted)
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

    def _system_of(self, statement: Statement) -> System:
        return self.program.system_of(statement.head.origin, self.system)

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
        )

    def _outside(self, row: Row, index: int) -> Mapping[str, Quantity | str]:
        """What a unit may read from outside: the room, the fillers it takes, what is beside it."""
        figures: dict[str, Quantity | str] = dict(self.room_figures)
        slot = row.slots[index]
        ends: tuple[tuple[End, int], ...] = (("left", index - 1), ("right", index + 1))
        for side, at in ends:
            neighbour = row.slots[at] if 0 <= at < len(row.slots) else None
            taken = neighbour is not None and neighbour.taken_by == slot.tag != ""
            figures[f"filler.{side}"] = (
                neighbour.width
                if taken and neighbour is not None
                else literal(0, Dimension.LENGTH, None, "no filler")
            )
            beside = neighbour.kind if neighbour is not None else row.ends.get(side, "wall")
            figures[f"beside.{side}"] = beside
            hidden = row.hidden.get(side) if neighbour is None else None
            nothing = literal(0, Dimension.LENGTH, None, "nothing hidden")
            figures[f"beside.{side}_hidden"] = hidden or nothing
        return figures

    def _report(self, unit: Unit, slot: Slot, spans: Sequence[Span], wanted: Wanted) -> None:
        """Binds a unit's blames to this placing; equal reports of equal units are folded into
        one that names every tag."""
        bound = binder(spans)
        for blame in unit.blames:
            finding = self._caller_first(bind(blame, bound), slot)
            # A fault on a line of a construction or the library is one cause, whatever units
            # show it; a place in a unit's own text means its line only together with the unit.
            of_unit = 0 if isinstance(blame.origin, Span) else id(unit)
            figures = tuple((each.words, each.measure) for each in finding.figures)
            key = (of_unit, finding.slug, finding.headline, blame.origin, figures)
            if key in self.reports:
                first = self.reports[key]
                self.reports[key] = evolve(first, tags=(*first.tags, slot.address))
            else:
                finding = self._with_other_ways(finding, blame, wanted, bound)
                if finding.slug == "requirement-not-met":
                    finding = self._with_width(finding, slot)
                self.reports[key] = evolve(finding, tags=(slot.address,))

    def _with_width(self, finding: Finding, slot: Slot) -> Finding:
        """A requirement that isn't met, with the width that the thing has in its run."""
        wide = f"{slot.tag or slot.kind} is {self.reader.say(slot.width.measure)} wide"
        mend = finding.help or "change that, or what its lines choose, until this is so"
        return evolve(finding, help=f"{wide}; {mend}")

    def _with_other_ways(
        self,
        finding: Finding,
        blame: Blame,
        wanted: Wanted,
        bound: Callable[[Origin], Span | None],
    ) -> Finding:
        """A sum that doesn't close is shown in the other ways to build too."""
        ways = tuple(otherwise(self.program, wanted, blame))
        figures = [bound_row(row, bound) for way in ways for row in way.rows]
        closing = [f"built {way.construction} they close" for way in ways if way.closes]
        return evolve(
            finding,
            figures=(*finding.figures, *figures),
            help="; ".join((finding.help, *closing)),
        )

    def _caller_first(self, finding: Finding, slot: Slot) -> Finding:
        """A fault in library text is blamed on the line that asked for it; the library's line is
        a note."""
        caller = span_of(slot.statement.head.origin)
        if finding.span is None:
            return evolve(finding, span=caller)
        if finding.span.source.label not in self.library:
            return finding
        note = Label(finding.span, "in the library")
        return evolve(finding, span=caller, labels=(note, *finding.labels))


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


def _by_construction(stood: Sequence[Stood]) -> Iterator[tuple[Stood, ...]]:
    """The units in their order, as long as they are built one way."""
    for _, group in groupby(stood, key=lambda each: each.unit.construction):
        yield tuple(group)


def _slot(row: Row, index: int) -> Slot | None:
    return row.slots[index] if 0 <= index < len(row.slots) else None


def _neighbour(placed: Sequence[Placed | None], index: int) -> Placed | None:
    """What stands beside a filler: a unit before an appliance, the left one first."""
    beside = [placed[at] for at in (index - 1, index + 1) if 0 <= at < len(placed)]
    for kind in ("unit", "appliance"):
        for each in beside:
            if each is not None and each.kind == kind:
                return each
    return None
