"""Scopes: what the words of a construction's text mean where they are read."""

from typing import TYPE_CHECKING

from attrs import evolve, frozen

from casewright.compiler.construct.build import OUTSIDE, Build
from casewright.compiler.construct.evaluate import evaluate
from casewright.compiler.construct.faults import fault
from casewright.compiler.construct.leaf import Leaf
from casewright.compiler.construct.opening_tree import BESIDE, SIDES, Member
from casewright.compiler.construct.things import DIAGONALS, Thing
from casewright.compiler.construct.values import (
    ByEdge,
    Choice,
    Datum,
    Missing,
    Outside,
    Several,
    Sides,
    Spatial,
    Value,
)
from casewright.compiler.facing import Look, are_askew, between, turned_place
from casewright.compiler.model import AXES, EDGES
from casewright.lang.cells import Quantity, negate, subtract
from casewright.lang.measure import Dimension, System
from casewright.lang.printing import in_words
from casewright.lang.shape import suggestion
from casewright.lang.source import Origin
from casewright.lang.tree import Expression

if TYPE_CHECKING:
    from casewright.compiler.construct.holder import Holder

MOUTH = "mouth"
"""The rule of a statement that opens a unit to one side."""

TWINS = (("left", "right"), ("before", "after"))

Item = Leaf | Member | Quantity
"""What a `for each` goes over: an opening, what stands between two, or a number."""


def twin(word: str) -> str:
    """The word with left and right, before and after exchanged; itself where it has neither."""
    for first, second in TWINS:
        if word == first:
            return second
        if word == second:
            return first
    if word.startswith("left_"):
        return "right_" + word.removeprefix("left_")
    if word.startswith("right_"):
        return "left_" + word.removeprefix("right_")
    return word


@frozen(eq=False)
class Turn:
    """One turn of a `for each`: its word, what it is at, its number from 1, and of how many."""

    word: str
    item: Item
    number: int
    of: int

    @property
    def key(self) -> tuple[object, ...]:
        if isinstance(self.item, Member):
            return (self.word, id(self.item.parent), self.item.index)
        if isinstance(self.item, Leaf):
            return (self.word, id(self.item))
        return (self.word, self.number)


@frozen(eq=False)
class Scope:
    """Where a text is read: in a holder, at some turns of its `for each` blocks, and perhaps
    mirrored."""

    holder: "Holder"
    turns: tuple[Turn, ...] = ()
    mirrored: bool = False

    @property
    def build(self) -> Build:
        return self.holder.build

    @property
    def faces(self) -> Look:
        return self.holder.faces

    def system_of(self, origin: Origin | None) -> System:
        return self.build.system_of(origin)

    def say(self, value: Value) -> str:
        return say_value(value, self.build)

    def value_of(self, expression: Expression) -> Value:
        return evaluate(expression, self)

    def at(self, turn: Turn) -> "Scope":
        return evolve(self, turns=(*self.turns, turn))

    def look_up(
        self, words: tuple[str, ...], origin: Origin | None, want: Dimension | None
    ) -> Value:
        value = self.first(words[0], origin, want)
        for word in words[1:]:
            value = self.next(value, word, origin, want)
        turned = self.mirrored and isinstance(value, Quantity) and value.axis == "across"
        if turned and isinstance(value, Quantity) and value.dimension is Dimension.PLACE:
            return negate(value)
        return value

    def first(self, written: str, origin: Origin | None, want: Dimension | None) -> Value:
        """What the first word of a path is worth."""
        for turn in reversed(self.turns):
            if turn.word == written:
                return turn.item
        if written in EDGES:
            return self.holder.edge(twin(written) if self.mirrored else written)
        if written in (*AXES, *DIAGONALS):
            return self.holder.size(written)
        holder: Holder | None = self.holder
        scope = self
        while holder is not None:
            # Words face as the text is read here, in whichever holder they are found.
            word = twin(written) if self.mirrored and holder.declares(twin(written)) else written
            if holder.declares(word):
                return self._here(holder.value(word, scope, origin, want), holder, written, origin)
            outer = holder.outer
            if outer is None:
                break
            holder, scope = outer.holder, outer
        if written in OUTSIDE:
            return Outside(written)
        if self.holder.left_out(written):
            return Missing(f"{written.replace('_', ' ')} is left out here")
        datum = self.build.datum(written)
        if datum is not None:
            return datum
        raise fault(
            "unknown-name",
            f"nothing here is called {written}",
            origin,
            help=suggestion(written, self.known()),
        )

    def _here(self, value: Value, holder: "Holder", written: str, origin: Origin | None) -> Value:
        """A value of another holder; a place that its text names is one of this space. Raises
        Fault for one of a space that is turned askew."""
        if not isinstance(value, Quantity) or value.dimension is not Dimension.PLACE:
            return value
        axis = next(each for each in AXES if each == value.axis)
        if are_askew(holder.faces, self.faces):
            if axis == "up":
                return value
            raise fault(
                "place-across-turn",
                f"{written.replace('_', ' ')} is a place of a space that is turned otherwise",
                origin,
                help="say a thing of it, or a length",
            )
        return turned_place(value, *between(holder.faces, self.faces, axis))

    def outside(self, of: str, word: str, origin: Origin | None) -> Value:
        """What a word says of something outside: of its sides, those of the mouth read in."""
        holder: Holder | None = self.holder
        while holder is not None and not holder.is_mouth:
            holder = holder.outer.holder if holder.outer is not None else None
        if holder is None or word not in TWINS[0]:
            return self.build.read_outside(of, word, origin)
        if word in holder.meeting:
            return self.build.read_outside(of, "meeting", origin)
        around = "around" if holder.faces != "front" else word
        return self.build.read_outside(of, around, origin)

    def _edge(self, thing: Spatial, word: str) -> Quantity:
        axis, side = EDGES[word]
        extent = thing.seen(axis, self.faces)
        return extent.high if side > 0 else extent.low

    def known(self) -> set[str]:
        """Every word that means something here."""
        words = {*EDGES, *OUTSIDE, *(turn.word for turn in self.turns)}
        holder: Holder | None = self.holder
        while holder is not None:
            words |= set(holder.index)
            holder = holder.outer.holder if holder.outer is not None else None
        for declarations in self.build.program.declarations.values():
            words |= set(declarations)
        return words

    def next(
        self, value: Value, written: str, origin: Origin | None, want: Dimension | None
    ) -> Value:
        """What a word says of what stands before its dot."""
        word = twin(written) if self.mirrored and twin(written) != written else written
        match value:
            case Missing():
                return value
            case Thing():
                return self._of_thing(value, written, word, origin, want)
            case Leaf() | Member():
                return self._of_item(value, written, word, origin, want)
            case Datum():
                return self.build.property(value.declaration, written, origin, want)
            case Outside():
                return self.outside(value.word, word, origin)
            case Sides():
                return word in value.words
            case ByEdge():
                return self._by_edge(value, word, origin)
            case Several():
                raise fault(
                    "which-one",
                    f"there are several; {written} of which?",
                    origin,
                    help="reach one through the opening, level or post it was made for",
                )
            case _:
                raise fault("unknown-name", f"{self.say(value)} has no {written}", origin)

    def _of_thing(
        self,
        thing: Thing,
        written: str,
        word: str,
        origin: Origin | None,
        want: Dimension | None,
    ) -> Value:
        if word in EDGES:
            return self._edge(thing, word)
        for axis in AXES:
            if word == axis:
                return thing.size(between(self.faces, thing.faces, axis)[0])
        if word in DIAGONALS:
            return thing.diagonal(word)
        if word in ("length", "width", "thick") and thing.rule == "part":
            if word == "thick":
                return thing.thick()
            length_axis, width_axis = thing.flat_axes()
            return thing.size(length_axis if word == "length" else width_axis)
        if thing.rule in ("assembly", MOUTH):
            inner = thing.inner
            wanted = word if inner.declares(word) else written
            if inner.declares(wanted):
                found = inner.value(wanted, inner.scope(), origin, want)
                return self._here(found, inner, written, origin)
            if self.build.is_made_elsewhere(wanted):
                return Missing(f"{thing.name.replace('_', ' ')} has no {written.replace('_', ' ')}")
            known = {*EDGES, *AXES, *inner.index}
        else:
            known = {*EDGES, *AXES, "length", "width", "thick"}
        raise fault(
            "unknown-name",
            f"{thing.name} has no {written}",
            origin,
            help=suggestion(written, known),
        )

    def _of_item(
        self,
        item: Leaf | Member,
        written: str,
        word: str,
        origin: Origin | None,
        want: Dimension | None,
    ) -> Value:
        if word in SIDES:
            return self._edge(item, word)
        for axis in AXES:
            if word == axis:
                extent = item.seen(axis, self.faces)
                return subtract(extent.high, extent.low)
        if word in BESIDE:
            return item.beside(word)
        if isinstance(item, Leaf):
            if word in ("cover", "gap", "front"):
                return ByEdge(item, word)
            if written == "behind":
                return item.behind()
            option = item.option(written, want)
            if option is not None:
                return option
            if written == "faced":
                return item.faced
        return self._made_for(item, written, origin)

    def _made_for(self, item: Leaf | Member, word: str, origin: Origin | None) -> Value:
        """The thing of a name that a `for each` makes for an item."""
        holder: Holder | None = self.holder
        while holder is not None:
            found = holder.made_within(word, item)
            if found is not None:
                return found
            holder = holder.outer.holder if holder.outer is not None else None
        if self.holder.build.is_made_elsewhere(word):
            return Missing(f"no {word} is made for it")
        raise fault(
            "unknown-name",
            f"nothing called {word} is made for it",
            origin,
            help=suggestion(word, self.known()),
        )

    def _by_edge(self, value: ByEdge, word: str, origin: Origin | None) -> Value:
        leaf = value.opening
        assert isinstance(leaf, Leaf), "only openings have covers and gaps"
        if value.word == "cover" and word in SIDES:
            return leaf.cover(word)
        if value.word == "front" and word in SIDES:
            return leaf.front(word)
        edge = {"above": "top", "below": "bottom"}.get(word, word)
        if value.word == "gap" and edge in SIDES:
            return leaf.gap(edge)
        raise fault("unknown-name", f"{value.word} has left, right, top and bottom", origin)


def say_value(value: Value, build: Build) -> str:
    """A value in words, for a message."""
    match value:
        case Quantity():
            return in_words(value.measure, build.printing)
        case Choice():
            return value.word
        case Datum():
            return value.declaration.name
        case bool():
            return "yes" if value else "no"
        case Sides():
            return " and ".join(sorted(value.words)) or "none"
        case Thing():
            return value.name.replace("_", " ")
        case Leaf():
            return value.title
        case Missing():
            return value.why
        case _:
            return "this"
