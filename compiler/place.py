"""Runs in the room: which things stand in a row, how wide each is, and where."""

from collections.abc import Sequence

from attrs import frozen

from casewright.compiler.kitchen import Head, Reader
from casewright.compiler.model import Room, Wall
from casewright.compiler.resolve import Declaration, Program
from casewright.compiler.run_items import Item, ItemReader, Kind
from casewright.compiler.run_sizes import Sizer
from casewright.lang.cells import Quantity, add, literal, named, subtract
from casewright.lang.findings import Finding, error
from casewright.lang.measure import System
from casewright.lang.shape import Statement, bare_word, span_of, suggestion
from casewright.lang.source import Span


@frozen(eq=False)
class Slot:
    """One thing in a run, with its width and its left end."""

    kind: Kind
    tag: str
    address: str
    statement: Statement
    declaration: Declaration | None
    construction: Declaration | None
    width: Quantity
    at: Quantity
    taken_by: str = ""


@frozen(eq=False)
class Row:
    """A run with its slots; `space` is what it has to fill, from `start` along the wall."""

    name: str
    wall: str
    start: Quantity
    up: Quantity | None
    space: Quantity
    slots: tuple[Slot, ...]
    span: Span | None


def place(
    program: Program, room: Room | None, head: Head, system: System
) -> tuple[tuple[Row, ...], tuple[Finding, ...]]:
    """Every run, placed. A run that can't be placed is left out, and said."""
    placer = _Placer(program, room, head, system)
    rows = [row for run in program.runs if (row := placer.run(run)) is not None]
    return tuple(rows), tuple(placer.reader.findings)


class _Placer:
    def __init__(self, program: Program, room: Room | None, head: Head, system: System) -> None:
        self.program = program
        self.room = room
        self.head = head
        self.reader = Reader(program, system)
        self.items = ItemReader(program, head, self.reader)

    def complain(self, slug: str, headline: str, span: Span | None, help: str = "") -> None:
        self.reader.findings.append(error(slug, headline, span, help=help))

    # -- one run -------------------------------------------------------------------------------

    def run(self, statement: Statement) -> Row | None:
        wall = self._wall(statement)
        if wall is None:
            return None
        name = statement.name
        space = wall.length
        stated = self.reader.positive(
            self.reader.measure(statement.clause("length"), f"{name}.space"),
            f"the length of {name}",
        )
        if stated is not None:
            space = stated
        space = named(space, f"{name}.space", space.origin)
        start = self._start(statement, wall, space)
        items = self.items.items(statement, wall)
        sizer = Sizer(statement, self.head.precision, self.head.printing)
        sizer.size(items, space, start)
        self.reader.findings.extend(sizer.findings)
        slots = self._slots(items, start)
        return Row(
            name,
            wall.name,
            start,
            self.reader.measure(statement.clause("up"), f"{name}.up"),
            space,
            self._take_fillers(slots),
            span_of(statement.origin),
        )

    def _wall(self, statement: Statement) -> Wall | None:
        on = statement.clause("on")
        span = span_of(statement.head.origin)
        if on is None or not on.values:
            self.complain(
                "value-missing",
                f"run {statement.name} doesn't say which wall it is on",
                span,
                "add on and a wall",
            )
            return None
        word = bare_word(on.values[0])
        walls = {wall.name: wall for wall in self.room.walls} if self.room is not None else {}
        if word not in walls:
            self.complain(
                "unknown-wall",
                f"no wall is called {word}",
                span_of(on.values[0].origin),
                suggestion(word, walls) or "declare it in a room, with its length",
            )
            return None
        return walls[word]

    def _start(self, statement: Statement, wall: Wall, space: Quantity) -> Quantity:
        """Where along its wall the run begins; from the right it ends at the wall's right end."""
        clause = statement.clause("from")
        word = bare_word(clause.values[0]) if clause is not None and clause.values else "left"
        if word not in ("left", "right"):
            self.complain(
                "unknown-choice",
                "a run begins from left or from right",
                span_of(clause.origin) if clause is not None else None,
            )
        if word == "right":
            return named(subtract(wall.length, space), f"{statement.name}.start")
        return named(literal(0, label="the wall's left end"), f"{statement.name}.start")

    def _slots(self, items: Sequence[Item], start: Quantity) -> list[Slot]:
        slots: list[Slot] = []
        at = start
        for item in items:
            if item.left is not None:
                at = add(start, item.left)
            if item.width is None or item.width.value <= 0:
                continue
            width = named(item.width, f"{item.address}.across", item.statement.origin)
            here = named(at, f"{item.address}.at", item.statement.origin)
            slots.append(
                Slot(
                    item.kind,
                    item.tag,
                    item.address,
                    item.statement,
                    item.declaration,
                    item.construction,
                    width,
                    here,
                )
            )
            at = add(at, width)
        return slots

    def _take_fillers(self, slots: list[Slot]) -> tuple[Slot, ...]:
        """Says which unit takes each filler: the one framed unit beside it, or the one the text
        names."""
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
                    self.complain(
                        "filler-not-beside",
                        f"{tag} is not beside this filler",
                        span_of(into.values[0].origin),
                    )
            taken = units[0].tag if len(units) == 1 and takes_filler(units[0]) else ""
            result.append(
                Slot(
                    slot.kind,
                    slot.tag,
                    slot.address,
                    slot.statement,
                    slot.declaration,
                    slot.construction,
                    slot.width,
                    slot.at,
                    taken,
                )
            )
        return tuple(result)


def takes_filler(slot: Slot) -> bool:
    """Whether the slot's construction takes a filler into its frame."""
    if slot.construction is None or slot.declaration is None:
        return False
    if slot.declaration.statement.clause("bare") is not None:
        return False
    return any(statement.rule == "takes" for statement in slot.construction.statement.body)
