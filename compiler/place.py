"""Runs in the room: which things stand in a row, how wide each is, and where."""

from collections.abc import Sequence
from fractions import Fraction
from typing import Literal

from attrs import define, frozen

from casewright.compiler.construct.shares import divide_in_shares
from casewright.compiler.kitchen import Head, Reader
from casewright.compiler.model import Feature, Room, Wall
from casewright.compiler.resolve import Declaration, Program
from casewright.lang.cells import Quantity, add, divide, literal, named, subtract
from casewright.lang.findings import Figure, Finding, error
from casewright.lang.measure import Dimension, System
from casewright.lang.printing import in_words
from casewright.lang.shape import Statement, bare_word, span_of, suggestion
from casewright.lang.source import Span

Kind = Literal["unit", "filler", "appliance", "space"]


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


@define(eq=False)
class _Item:
    """A slot being sized."""

    kind: Kind
    tag: str
    address: str
    statement: Statement
    declaration: Declaration | None
    construction: Declaration | None
    fixed: Quantity | None = None
    shares: int = 0
    least: Quantity | None = None
    most: Quantity | None = None
    centre: Quantity | None = None
    left: Quantity | None = None
    width: Quantity | None = None


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
        self.tags: dict[str, Span | None] = {}

    def say(self, quantity: Quantity) -> str:
        return in_words(quantity.measure, self.head.printing)

    def complain(self, slug: str, headline: str, span: Span | None, help: str = "") -> None:
        self.reader.findings.append(error(slug, headline, span, help=help))

    def complain_once(self, slug: str, headline: str, span: Span | None, help: str = "") -> None:
        """A complaint that every unit would repeat is made at the first."""
        if all(each.headline != headline for each in self.reader.findings):
            self.complain(slug, headline, span, help)

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
        space = named(space, f"{name}.space", statement.head.origin)
        start = self._start(statement, wall, space)
        items = self._items(statement, wall)
        self._size(items, space, start, statement)
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

    # -- what stands in it ---------------------------------------------------------------------

    def _items(self, statement: Statement, wall: Wall) -> list[_Item]:
        items: list[_Item] = []
        counts: dict[str, int] = {}
        for line in statement.body:
            if line.rule == "placed":
                item = self._placed(line, statement)
            elif line.rule in ("filler", "space"):
                counts[line.rule] = counts.get(line.rule, 0) + 1
                address = f"{statement.name}.{line.rule}_{counts[line.rule]}"
                kind: Kind = "filler" if line.rule == "filler" else "space"
                built = self._construction(line, statement) if kind == "filler" else None
                item = _Item(kind, "", address, line, None, built)
            else:
                continue
            if item is not None and self._width(item, wall):
                items.append(item)
        return items

    def _placed(self, line: Statement, run: Statement) -> _Item | None:
        tag = line.tag.text if line.tag is not None else ""
        span = span_of(line.tag.origin) if line.tag is not None else None
        if tag in self.tags:
            first = self.tags[tag]
            self.complain(
                "tag-twice",
                f"{tag} is there already, on line {first.line if first else 0}",
                span,
                "a tag is an address: give this one the next free number",
            )
            return None
        self.tags[tag] = span
        word = line.head.text
        unit = self.program.find("unit", word)
        if unit is not None:
            construction = self._construction(line, run, unit)
            if construction is None:
                return None
            return _Item("unit", tag, tag, line, unit, construction)
        appliance = self.program.find("appliance", word)
        if appliance is not None:
            return _Item("appliance", tag, tag, line, appliance, None)
        known = (*self.program.names("unit"), *self.program.names("appliance"))
        self.complain(
            "unknown-unit",
            f"no unit is called {word}",
            span_of(line.head.origin),
            suggestion(word, known) or "see casewright list units",
        )
        return None

    def _construction(
        self, line: Statement, run: Statement, unit: Declaration | None = None
    ) -> Declaration | None:
        """How a unit is built: as it says itself, else its run, else the job (inner wins)."""
        word, span = self.head.built, self.head.built_span
        statements = (run, unit.statement if unit is not None else None, line)
        for statement in statements:
            clause = statement.clause("built") if statement is not None else None
            if clause is not None and clause.values:
                word = bare_word(clause.values[0])
                span = span_of(clause.values[0].origin)
        if not word:
            self.complain_once(
                "not-built",
                "nothing says how units are built",
                span_of(line.head.origin),
                "on a line of the job's block say: built, and a construction",
            )
            return None
        found = self.program.find("construction", word)
        if found is None:
            self.complain_once(
                "unknown-construction",
                f"no construction is called {word}",
                span,
                suggestion(word, self.program.names("construction")),
            )
        return found

    def _width(self, item: _Item, wall: Wall) -> bool:
        """Reads how wide an item is to be; False where that can't be read (and is blamed)."""
        line = item.statement
        name = f"{item.address}.across"
        item.least = self.reader.measure(line.clause("min"), f"{item.address}.min")
        item.most = self.reader.measure(line.clause("max"), f"{item.address}.max")
        if not self._pin(item, wall):
            return False
        share, shares = line.clause("share"), line.clause("shares")
        if share is not None or shares is not None:
            item.shares = 1
            if shares is not None:
                count = self.reader.measure(shares, name, Dimension.COUNT)
                if count is None:
                    return False
                item.shares = int(count.value)
            return True
        if item.fixed is not None:
            return True
        if line.values:
            value = self.reader.value(line, 0, name)
            item.fixed = self.reader.positive(value, f"the width of {item.address}")
            return item.fixed is not None
        usual = item.declaration.statement.clause("wide") if item.declaration else None
        item.fixed = self.reader.measure(usual, name)
        if item.fixed is None and line.value is None:
            self.complain(
                "width-missing",
                f"{item.tag or item.kind} doesn't say how wide it is",
                span_of(line.head.origin),
                "a width, or share",
            )
        return item.fixed is not None

    def _pin(self, item: _Item, wall: Wall) -> bool:
        line = item.statement
        centred = line.clause("centred")
        on = centred.clause("on") if centred is not None else None
        over = line.clause("over")
        if centred is not None and on is None:
            item.centre = _half(wall.length)
            return True
        for clause in (on, over):
            if clause is None or not clause.values:
                continue
            word = getattr(clause.values[0], "text", "")
            feature = self._feature(word, wall)
            if feature is None:
                self.complain(
                    "unknown-feature",
                    f"wall {wall.name} has no {word}",
                    span_of(clause.values[0].origin),
                    suggestion(word, {each.name for each in wall.features}),
                )
                return False
            if clause is on:
                item.centre = add(feature.at, _half(feature.wide))
            else:
                item.left = subtract(feature.at, feature.casing)
                item.fixed = add(feature.wide, add(feature.casing, feature.casing))
        return True

    def _feature(self, word: str, wall: Wall) -> Feature | None:
        return next((each for each in wall.features if each.name == word), None)

    # -- sizes ---------------------------------------------------------------------------------

    def _size(
        self, items: Sequence[_Item], space: Quantity, start: Quantity, run: Statement
    ) -> None:
        """Gives every item its width: a pinned one splits what is left, and each side's shares
        divide their own."""
        begin = literal(0, label="the run's left end")
        waiting: list[_Item] = []
        for item in items:
            if item.centre is not None and item.fixed is not None:
                item.left = subtract(subtract(item.centre, start), _half(item.fixed))
            elif item.left is not None:
                item.left = subtract(item.left, start)
            if item.left is None:
                waiting.append(item)
                continue
            item.width = item.fixed
            self._divide(waiting, subtract(item.left, begin), run, f"left of {item.address}")
            waiting = []
            begin = add(item.left, item.fixed or literal(0))
        self._divide(waiting, subtract(space, begin), run, run.name)

    def _divide(self, items: Sequence[_Item], room: Quantity, run: Statement, what: str) -> None:
        left = room
        for item in items:
            if item.fixed is not None:
                item.width = item.fixed
                left = subtract(left, item.fixed)
        sharing = [item for item in items if item.fixed is None]
        if sharing:
            self._share(items, sharing, room, left, what)
        elif left.value != 0:
            self._misfit(items, room, left, run, what)

    def _share(
        self,
        items: Sequence[_Item],
        sharing: Sequence[_Item],
        room: Quantity,
        left: Quantity,
        what: str,
    ) -> None:
        """Divides `left`, clamping to least and most and dividing again."""
        active = list(sharing)
        while active:
            total = sum(item.shares for item in active)
            each = left.value / total
            over = Fraction(0)
            least_hit: list[_Item] = []
            most_hit: list[_Item] = []
            for item in active:
                size = each * item.shares
                if item.least is not None and size < item.least.value:
                    least_hit.append(item)
                    over += item.least.value - size
                elif item.most is not None and size > item.most.value:
                    most_hit.append(item)
                    over += item.most.value - size
            clamped = least_hit if over > 0 else most_hit if over < 0 else []
            if not clamped:
                break
            for item in clamped:
                bound = item.least if clamped is least_hit else item.most
                assert bound is not None, "an item is clamped to a bound it has"
                item.width = bound
                left = subtract(left, bound)
                active.remove(item)
        if active and left.value > 0:
            sizes = divide_in_shares(left, [item.shares for item in active], self.head.precision)
            for item, width in zip(active, sizes, strict=True):
                item.width = width
            return
        if active or left.value != 0:
            self._no_share(items, sharing, room, left, what)
        for item in active:
            item.width = None

    def _no_share(
        self,
        items: Sequence[_Item],
        sharing: Sequence[_Item],
        room: Quantity,
        left: Quantity,
        what: str,
    ) -> None:
        short = left.value <= 0
        bounds = [item.least if short else item.most for item in sharing]
        bound = next((each for each in bounds if each is not None), None)
        first = sharing[0]
        rest = room
        figures = [Figure(what, room.measure, _span(room))]
        for item in items:
            if item.fixed is not None:
                rest = subtract(rest, item.fixed)
                figures.append(Figure(f"less {_name(item)}", item.fixed.measure, _line_of(item)))
        names = ", ".join(_name(item) for item in sharing)
        figures.append(Figure(f"leaves {names}", rest.measure, _line_of(first), ruled=True))
        by = Quantity(abs(left.value), left.dimension)
        if bound is not None:
            wants = literal(sum(each.value for each in bounds if each is not None))
            word = "wants" if short else "takes"
            figures.append(Figure(word, wants.measure, _line_of(first)))
        figures.append(Figure("short" if short else "over", by.measure, ruled=True))
        if short and bound is not None:
            slug = "share-below-least"
            headline = f"{names} {_is(sharing)} {self.say(by)} less than the least width"
        elif short:
            slug = "nothing-left"
            headline = f"nothing is left for {names}"
        else:
            slug = "share-over-most"
            headline = f"{self.say(by)} is left over when {names} {_is(sharing)} at the most"
        self.reader.findings.append(
            error(
                slug,
                headline,
                _line_of(first),
                figures=tuple(figures),
                help=self._mend(items, by, short),
            )
        )

    def _misfit(
        self,
        items: Sequence[_Item],
        room: Quantity,
        left: Quantity,
        run: Statement,
        what: str,
    ) -> None:
        """A run without shares that doesn't close."""
        over = left.value < 0
        by = Quantity(abs(left.value), left.dimension)
        if not items and not over:
            return
        needs = subtract(room, left)
        span = span_of(run.head.origin)
        end = "its wall" if what == run.name else "its space"
        word = "longer" if over else "shorter"
        self.reader.findings.append(
            error(
                "run-too-long" if over else "run-too-short",
                f"run {run.name} is {self.say(by)} {word} than {end}",
                span,
                figures=(
                    Figure("needs", needs.measure, span),
                    Figure("has", room.measure, _span(room)),
                    Figure("over" if over else "short", by.measure, ruled=True),
                ),
                help=self._mend(items, by, over),
            )
        )

    def _mend(self, items: Sequence[_Item], by: Quantity, over: bool) -> str:
        """A change of one width that closes the sum, where some unit can give or take it."""
        for item in reversed(items):
            if item.kind != "unit" or item.fixed is None:
                continue
            new = item.fixed.value - by.value if over else item.fixed.value + by.value
            line = _line_of(item)
            if new > by.value and line is not None:
                becomes = self.say(literal(new))
                return (
                    f"line {line.line}: give {item.tag} `share` in place of "
                    f"{_plain(self.say(item.fixed))}; it becomes {becomes}"
                )
        return "" if over else "add a filler, or give a unit `share`"

    def _slots(self, items: Sequence[_Item], start: Quantity) -> list[Slot]:
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


def _half(whole: Quantity) -> Quantity:
    return divide(whole, literal(2, Dimension.COUNT, None, "half"), Dimension.LENGTH)


def _span(quantity: Quantity) -> Span | None:
    at: Quantity | None = quantity
    while at is not None:
        if isinstance(at.origin, Span):
            return at.origin
        at = at.inputs[0] if at.inputs else None
    return None


def _line_of(item: _Item) -> Span | None:
    return span_of(item.statement.origin)


def _name(item: _Item) -> str:
    return item.tag or item.kind


def _is(items: Sequence[_Item]) -> str:
    return "is" if len(items) == 1 else "are"


def _plain(words: str) -> str:
    return words.rstrip('"')
