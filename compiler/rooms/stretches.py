"""Stretches: neighbours that stand on one base, and what of the run's text that base takes.

A library's unit that `spans` options stands under every stretch of touching units whose boxes
begin above the floor, at one height and of one depth, and which agree in those options. A stretch
is cut where two of its units meet, before it would be longer than the unit says; and where
something that stands on the floor comes between their boxes, as a finished end does.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from attrs import evolve, frozen

from casewright.compiler.binding import Binder
from casewright.compiler.keys import binder
from casewright.compiler.model import Assembly, Placed, Unit
from casewright.compiler.rooms.bases import End
from casewright.compiler.rooms.place import Slot
from casewright.compiler.rooms.run_items import own_text
from casewright.compiler.text.resolve import Declaration
from casewright.lang.cells import Quantity, add, as_place, literal, subtract
from casewright.lang.shape import Clause, Statement, bare_word
from casewright.lang.source import Origin

SPANS = "spans"
BOX_ROLE = "box"
BASE_ROLE = "base"


@frozen(eq=False)
class Stood:
    """A unit of a run, with the box that wants something to stand on."""

    index: int
    slot: Slot
    placed: Placed
    unit: Unit
    box: Assembly

    @property
    def left(self) -> Quantity:
        """Where its box begins, from the run's left end."""
        return self._along(self.box.extents.across.low)

    @property
    def right(self) -> Quantity:
        """Where its box ends, from the run's left end."""
        return self._along(self.box.extents.across.high)

    @property
    def bottom(self) -> Quantity:
        """How far its box is above the floor."""
        floor = as_place(literal(0, label="the unit's bottom"), "up")
        return subtract(self._bound(self.box.extents.up.low), floor)

    def _along(self, place: Quantity) -> Quantity:
        start = as_place(literal(0, label="the unit's left"), "across")
        return add(self.placed.at, subtract(self._bound(place), start))

    def _bound(self, quantity: Quantity) -> Quantity:
        address = self.placed.address
        lines = binder(self.placed.spans)
        return Binder(self.placed.bindings, lines, lambda name: f"{address}.{name}").bind(quantity)

    def blocked(self, end: End) -> bool:
        """Whether some part of it stands on the floor beside its box, at one of its ends."""
        low, high = self.box.extents.box.across
        for part in self.unit.parts:
            across, up = part.box.across, part.box.up
            beside = across[1] <= low if end == "left" else across[0] >= high
            if beside and up[0] < self.box.extents.box.up[0]:
                return True
        return False


@frozen(eq=False)
class Stretch:
    """Neighbours on one base, from the left."""

    stood: tuple[Stood, ...]

    @property
    def first(self) -> Stood:
        return self.stood[0]

    @property
    def last(self) -> Stood:
        return self.stood[-1]

    @property
    def width(self) -> Quantity:
        return subtract(self.last.right, self.first.left)


def spans_of(declaration: Declaration) -> tuple[tuple[str, Origin], ...]:
    """The options in which the units of a stretch agree, and where they are named; none where a
    unit doesn't span."""
    clause = declaration.statement.clause(SPANS)
    values = clause.values if clause is not None else ()
    return tuple((bare_word(value), value.origin) for value in values)


def spanned(declaration: Declaration) -> tuple[str, ...]:
    """The options in which the units of a stretch agree."""
    return tuple(word for word, _ in spans_of(declaration))


def longest(declaration: Declaration) -> Declaration | None:
    """The declaration with what it says of a stretch's length as its own clause `most`; None
    where it says nothing of it."""
    statement = declaration.statement
    clause = statement.clause(SPANS)
    at = clause.clause("at") if clause is not None else None
    most = at.clause("most") if at is not None else None
    if most is None:
        return None
    return evolve(declaration, statement=evolve(statement, clauses=(*statement.clauses, most)))


def stood_of(slots: Sequence[Slot], placed: Sequence[Placed | None]) -> Iterator[Stood]:
    """The units on the floor whose boxes don't reach down to it, but those that bring along what
    they stand on."""
    for index, (slot, each) in enumerate(zip(slots, placed, strict=True)):
        if each is None or each.unit is None or each.kind != "unit" or each.up.value != 0:
            continue
        boxes = [part for part in each.unit.assemblies if part.role == BOX_ROLE]
        own = any(part.role == BASE_ROLE for part in each.unit.assemblies)
        if boxes and not own and boxes[0].extents.box.up[0] > 0:
            yield Stood(index, slot, each, each.unit, boxes[0])


def stretches(
    stood: Sequence[Stood], options: Sequence[str], most: Fraction | None
) -> Iterator[Stretch]:
    """The stretches of a run's units, from the left, none longer than `most` if it can be cut."""
    open_ones: list[Stood] = []
    for before, each in pairwise((None, *stood)):
        assert each is not None, "only what precedes the first unit is nothing"
        start = open_ones[0] if open_ones else each
        length = each.right.value - start.left.value
        goes_on = before is not None and _agree(before, each, options)
        if open_ones and (not goes_on or (most is not None and length > most)):
            yield Stretch(tuple(open_ones))
            open_ones = []
        open_ones.append(each)
    if open_ones:
        yield Stretch(tuple(open_ones))


def _agree(one: Stood, other: Stood, options: Sequence[str]) -> bool:
    if other.index != one.index + 1 or one.blocked("right") or other.blocked("left"):
        return False
    if one.unit.construction != other.unit.construction:
        return False
    if (one.bottom.value, one.unit.depth.value) != (other.bottom.value, other.unit.depth.value):
        return False
    return all(one.unit.options.get(word) == other.unit.options.get(word) for word in options)


def text_of(stretch: Stretch, options: Sequence[str]) -> Statement:
    """What the base is told: the options it spans, as the first unit of the stretch chose them."""
    slot = stretch.first.slot
    assert slot.declaration is not None, "a unit has a declaration"
    chosen: list[Clause] = []
    for word in options:
        clause = slot.statement.option(word) or slot.declaration.statement.option(word)
        if clause is not None:
            chosen.append(clause)
    return evolve(own_text(slot.statement), clauses=(), body=(), options=tuple(chosen))
