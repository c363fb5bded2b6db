"""Runs in the room: which things stand in a row, how wide each is, and where."""

from collections.abc import Mapping, Sequence, Set
from fractions import Fraction

from attrs import evolve, field, frozen

from casewright.compiler.model import Room, Run, Scribe
from casewright.compiler.rooms.angles import direction
from casewright.compiler.rooms.bases import Bases, End, Meeting
from casewright.compiler.rooms.fillers import takes_filler, untaken_filler
from casewright.compiler.rooms.ignored import ignored
from casewright.compiler.rooms.kitchen import Head, Reader
from casewright.compiler.rooms.layouts import OTHER, Layout, Layouts, Neighbour
from casewright.compiler.rooms.room import (
    SQUARE,
    Line,
    Mitre,
    place_step,
    spot,
    spread,
    taken_by_run,
)
from casewright.compiler.rooms.run_ends import WORDS
from casewright.compiler.rooms.run_items import Item, ItemReader, Kind
from casewright.compiler.rooms.run_sizes import Sizer
from casewright.compiler.rooms.run_spans import Spanner
from casewright.compiler.text.resolve import Declaration, Program
from casewright.lang.cells import Quantity, add, literal, named, subtract
from casewright.lang.findings import Figure, Finding, Label, Severity, error
from casewright.lang.measure import System, length, nearest
from casewright.lang.shape import Statement, span_of
from casewright.lang.source import Span


@frozen(eq=False)
class Turn:
    """How a corner unit goes around its corner: the end of the run it is at, the wall around it,
    how far the unit reaches along that, how much of it it takes, and what stands next to it."""

    end: End
    wall: str
    length: Quantity
    taken: Quantity
    beside: Neighbour


@frozen(eq=False)
class Slot:
    """One thing in a run, with its width and its left end along the run. `shares` says that the
    width is what others leave it, `astray` that it is a corner unit in no corner (it is blamed)."""

    kind: Kind
    tag: str
    address: str
    statement: Statement
    declaration: Declaration | None
    construction: Declaration | None
    width: Quantity
    at: Quantity
    taken_by: str = ""
    scribe: Scribe | None = None
    turn: Turn | None = None
    dead_with: str = ""
    shares: bool = False
    astray: bool = False


@frozen(eq=False)
class Row:
    """A run with its slots; `space` is what it has to fill, from `start` along what it stands on.
    `line` is where its backs stand in plan, from its own left end. `ends` says what is beside its
    first and last slot, `hidden` how much of their fronts a run around the corner hides, `mitres`
    how faces meet there around a corner, and `legs` by the tag of which corner unit's leg.
    `follows` names the runs from which it is measured."""

    name: str
    wall: str
    start: Quantity
    up: Quantity | None
    space: Quantity
    slots: tuple[Slot, ...]
    span: Span | None
    depth: Quantity
    line: Line
    island: str = ""
    facing: str = ""
    ends: Mapping[End, Neighbour] = field(factory=dict)
    hidden: Mapping[End, Quantity] = field(factory=dict)
    mitres: Mapping[End, Mitre] = field(factory=dict)
    legs: Mapping[End, str] = field(factory=dict)
    follows: frozenset[str] = frozenset()


def where_known(rows: Sequence[Row], runs: Sequence[Run], spoilt: Set[str]) -> tuple[Run, ...]:
    """The runs whose places can be trusted: not `spoilt` ones, nor what is measured from them."""
    lost = set(spoilt)
    while more := {row.name for row in rows if row.name not in lost and row.follows & lost}:
        lost |= more
    return tuple(run for run in runs if run.name not in lost)


def place(
    program: Program, room: Room | None, head: Head, system: System
) -> tuple[tuple[Row, ...], tuple[Finding, ...]]:
    """Every run, placed. A run that can't be placed is left out, and said."""
    placer = _Placer(program, room, head, system)
    rows = placer.rows(program.runs)
    return rows, tuple(placer.reader.findings)


class _Placer:
    def __init__(self, program: Program, room: Room | None, head: Head, system: System) -> None:
        self.head = head
        self.step = place_step(system)
        self.reader = Reader(program, system, room, head.printing)
        self.bases = Bases(room, self.reader)
        self.items = ItemReader(program, head, self.reader)

    def rows(self, runs: Sequence[Statement]) -> tuple[Row, ...]:
        read = [layout for run in runs if (layout := self._read(run)) is not None]
        layouts = Layouts(read, runs, self.bases, self.reader)
        spanner = Spanner(layouts, self.step)
        for layout in self._in_order(read, spanner):
            if spanner.span(layout) and spanner.pin(layout):
                self._size(layout)
            else:
                layout.start = None
        placed = [layout for layout in read if layout.start is not None]
        self._touching(placed)
        return tuple(
            evolve(self._row(layout, layouts), follows=spanner.named_by(layout))
            for layout in placed
        )

    def _read(self, run: Statement) -> Layout | None:
        base = self.bases.of(run)
        if base is None:
            return None
        items = self.items.items(run)
        for item in items:
            self.reader.findings.extend(ignored(item))
        for item in items[1:-1]:
            if item.dead:
                self.reader.complain(
                    "dead-corner-inside",
                    f"a dead corner stands at an end of its run, not between {run.name}'s units",
                    item.line,
                    "make it the first line of the run, or the last",
                )
                return None
        return Layout(run, base, items, self.reader.measure(run.clause("up"), f"{run.name}.up"))

    # -- in which order --------------------------------------------------------------------------

    def _in_order(self, read: Sequence[Layout], spanner: Spanner) -> list[Layout]:
        """Runs after those that they are measured from; runs that chase each other are left out,
        and said once."""
        done: dict[str, bool] = {}
        order: list[Layout] = []
        for first in read:
            trail: list[tuple[Layout, list[tuple[Layout, Span | None]]]] = []
            if first.name not in done:
                trail.append((first, spanner.needs(first)))
            while trail:
                layout, needs = trail[-1]
                if not needs:
                    trail.pop()
                    if done.setdefault(layout.name, True):
                        order.append(layout)
                    continue
                other, span = needs.pop(0)
                open_names = [each.name for each, _ in trail]
                if other.name in open_names:
                    loop = [each for each, _ in trail[open_names.index(other.name) :]]
                    self._chase(loop, span)
                    for each in loop:
                        done[each.name] = False
                elif other.name not in done:
                    trail.append((other, spanner.needs(other)))
        return order

    def _chase(self, loop: Sequence[Layout], span: Span | None) -> None:
        names = [layout.name for layout in loop]
        self.reader.findings.append(
            error(
                "runs-chase",
                f"runs {' and '.join(names)} are each measured from the other"
                if len(names) == 2
                else f"runs {', '.join(names)} are measured from one another in a circle",
                span,
                labels=tuple(
                    Label(line, f"run {layout.name}")
                    for layout in loop
                    if (line := span_of(layout.statement.head.origin)) is not None
                ),
                help="let one of them begin at a corner, or at a place: "
                f"take out its {' or '.join(WORDS.values())}",
            )
        )

    # -- sizes -----------------------------------------------------------------------------------

    def _size(self, layout: Layout) -> None:
        assert layout.start is not None, "a run is sized once it is placed"
        assert layout.space is not None, "a run is sized once it is placed"
        sizer = Sizer(layout.statement, self.head.precision, self.head.printing)
        sizer.size(layout.items, layout.space, layout.start)
        self.reader.findings.extend(sizer.findings)
        at = literal(0, label="the run's left end")
        for item in layout.items:
            if item.left is not None:
                at = item.left
            if item.width is None or item.width.value <= 0:
                continue
            item.width = named(item.width, f"{item.address}.across", item.statement.origin)
            item.at = named(at, f"{item.address}.at", item.statement.origin)
            at = add(item.at, item.width)

    def _touching(self, placed: Sequence[Layout]) -> None:
        """An open end at which another run of the same height begins is beside its unit."""
        ends: tuple[End, End] = ("left", "right")
        for layout in placed:
            for end in ends:
                here = layout.edge(end)
                if layout.ends[end] != "open" or here is None:
                    continue
                for other in placed:
                    there = other.edge(OTHER[end])
                    same = other.base.name == layout.base.name and _up(other) == _up(layout)
                    if same and there is not None and there.value == here.value and other.items:
                        layout.ends[end] = other.items[-1 if end == "left" else 0].kind

    # -- rows ------------------------------------------------------------------------------------

    def _row(self, layout: Layout, layouts: Layouts) -> Row:
        assert layout.start is not None, "only runs that are placed become rows"
        assert layout.space is not None, "only runs that are placed become rows"
        depth = layouts.depth(layout)
        line = layout.base.line(depth, self.step)
        origin = line.origin
        if layout.start.value != 0:
            origin = spot(origin, line.direction, layout.start, None, self.step)
        slots = [
            Slot(
                item.kind,
                item.tag,
                item.address,
                item.statement,
                item.declaration,
                item.construction,
                item.width,
                item.at,
                "",
                self._scribe(layout, layouts, index),
                turn,
                item.dead,
                item.fixed is None,
                turn is None and layouts.return_of(item) is not None,
            )
            for index, item in enumerate(layout.items)
            if item.width is not None and item.at is not None
            for turn in (self._turn(layout, layouts, item),)
        ]
        return Row(
            layout.name,
            layout.base.name,
            layout.start,
            layout.up,
            layout.space,
            self._take_fillers(slots),
            span_of(layout.statement.origin),
            depth,
            Line(origin, line.direction, layout.space),
            layout.base.island.name if layout.base.island is not None else "",
            layout.base.facing,
            layout.ends,
            self._hidden(layout),
            layout.mitres,
            {end: item.tag for end, item in layout.legs.items()},
        )

    def _turn(self, layout: Layout, layouts: Layouts, item: Item) -> Turn | None:
        """How a corner unit goes around its corner; None for what is no corner unit, and for one
        that stands in no corner (which is blamed)."""
        returns = layouts.return_of(item)
        if returns is None:
            return None
        ends: tuple[End, End] = ("right", "left")
        for end in ends:
            meeting = self.bases.meeting(layout.base, end)
            alone = layout.items[0 if end == "left" else -1] is item
            if alone and layout.ends[end] == "wall" and meeting is not None:
                around = layout.around.get(end)
                beside = around.items[-1 if end == "left" else 0] if around is not None else None
                kind: Neighbour = beside.kind if beside is not None else "open"
                own = layouts.depth_of(beside) or layouts.depth_of(item) or returns
                taken = taken_by_run(meeting.corner, returns, own, self.step)
                hung = layout.up is not None or item.says("up") is not None
                self._stands_off(
                    item, meeting, returns, "what lies on it" if hung else "the counter"
                )
                return Turn(end, meeting.wall, returns, taken, kind)
        self.reader.complain(
            "corner-unit-in-no-corner",
            f"{item.name} reaches around a corner, and stands in none",
            item.line,
            "let it be the first or the last of a run that reaches into the corner of two walls",
        )
        return None

    def _stands_off(self, item: Item, meeting: Meeting, returns: Quantity, above: str) -> None:
        """Says how far a square unit stands off the wall around its corner, where that is not
        square: at its back in a sharper corner, at the end of its leg in a wider one. What lies
        `above` it can close that."""
        corner = meeting.corner
        cosine, sine = direction(corner.angle.value)
        off = abs(nearest(returns.value * cosine / sine, self.step.value)) if sine > 0 else 0
        if off == 0:
            return
        where = "at its back" if corner.angle.value < SQUARE else "at the end of its leg"
        self.reader.findings.append(
            Finding(
                "corner-unit-out-of-square",
                Severity.ADVICE,
                f"{item.name} is square and its corner is not: {meeting.wall} stands "
                f"{self.reader.say(length(off))} off it {where}",
                item.line,
                (
                    Figure(f"it reaches along {meeting.wall}", returns.measure, item.line),
                    Figure("the corner is", corner.angle.measure, corner.span),
                    Figure(f"off {meeting.wall}, {where}", length(off), ruled=True),
                ),
                help=f"scribe {above} to {meeting.wall}, and pack between the unit and the "
                "wall where it is screwed",
            )
        )

    def _hidden(self, layout: Layout) -> dict[End, Quantity]:
        """How much a run around a corner hides of the thing in it, less the way from there to the
        corner itself."""
        found: dict[End, Quantity] = {}
        for end, hidden in layout.hidden.items():
            edge = layout.edge(end)
            if edge is None:
                continue
            off = edge if end == "left" else subtract(layout.base.length, edge)
            if hidden.value > off.value:
                found[end] = subtract(hidden, off) if off.value else hidden
        return found

    def _scribe(self, layout: Layout, layouts: Layouts, index: int) -> Scribe | None:
        """What a filler that is scribed to a wall has to close."""
        item = layout.items[index]
        end: End = "left" if index == 0 else "right"
        if item.statement.clause("scribe") is None or item.width is None:
            return None
        nominal = item.fixed or item.width
        at_end = index in (0, len(layout.items) - 1) and layout.ends[end] == "wall"
        meeting = self.bases.meeting(layout.base, end) if at_end else None
        if meeting is None:
            return Scribe(nominal, item.width, item.width)
        wider = spread(
            meeting.corner,
            self.bases.walls.get(meeting.wall),
            layouts.depth(layout),
            layouts.height(layout),
            self.step,
        )
        widest = item.width if wider is None else add(item.width, wider)
        return Scribe(nominal, item.width, widest)

    def _take_fillers(self, slots: list[Slot]) -> tuple[Slot, ...]:
        """Says which unit takes each filler: the one framed unit beside it, or the one the text
        names. What no unit takes is a part of its own."""
        result: list[Slot] = []
        for index, slot in enumerate(slots):
            if slot.kind != "filler":
                result.append(slot)
                continue
            beside = [slots[i] for i in (index - 1, index + 1) if 0 <= i < len(slots)]
            units = [each for each in beside if each.kind == "unit"]
            into = slot.statement.clause("into")
            if into is not None and into.values:
                tag = getattr(into.values[0], "text", "")
                units = [each for each in units if each.tag == tag]
                if not units:
                    self.reader.complain(
                        "filler-not-beside",
                        f"{tag} is not beside this filler",
                        span_of(into.values[0].origin),
                    )
                elif not _takes_filler(units[0]):
                    unit, built = units[0].declaration, units[0].construction
                    self.reader.findings.append(untaken_filler(into, tag, unit, built))
            taken = units[0].tag if len(units) == 1 and _takes_filler(units[0]) else ""
            result.append(evolve(slot, taken_by=taken))
        return tuple(result)


def _takes_filler(slot: Slot) -> bool:
    return takes_filler(slot.declaration, slot.construction)


def _up(layout: Layout) -> Fraction:
    return layout.up.value if layout.up is not None else Fraction(0)
