"""Holders: a unit or an assembly as it is being worked out, and the things its names mean."""

from collections.abc import Iterator, Mapping
from functools import partial

from attrs import define, evolve, field

from casewright.compiler.construct.build import MOST_TURNS, Build, too_many_turns
from casewright.compiler.construct.chosen import let_of, option_of
from casewright.compiler.construct.declared import PLACED, Declared, left_out_by, names_in
from casewright.compiler.construct.evaluate import condition
from casewright.compiler.construct.faults import fault
from casewright.compiler.construct.leaf import Leaf
from casewright.compiler.construct.mouths import extents_of, faces_of, made_in, meeting, of_mouths
from casewright.compiler.construct.opened import (
    assembly_settings,
    assembly_text,
    mouth_settings,
    mouth_text,
)
from casewright.compiler.construct.opening_tree import Member
from casewright.compiler.construct.openings import Openings
from casewright.compiler.construct.scope import MOUTH, Scope, Turn, twin
from casewright.compiler.construct.sets import OF_MEMBERS, each_word, turns_of
from casewright.compiler.construct.things import DIAGONALS, Thing, diagonal_of
from casewright.compiler.construct.values import Missing, Several, Value
from casewright.compiler.construct.wording import written
from casewright.compiler.facing import Look
from casewright.compiler.model import AXES, EDGES, Axis, Extent
from casewright.lang.cells import Quantity, subtract
from casewright.lang.measure import Dimension
from casewright.lang.shape import Clause, Statement, suggestion
from casewright.lang.source import Origin


@define(eq=False)
class Holder:
    """A unit or an assembly being worked out: its text, and what it gives to what it holds.

    `settings` are options chosen for it from outside, `outer` the scope it stands in (None for the
    unit itself), `thing` the assembly it is (None for the unit).
    """

    build: Build
    path: str
    name: str
    body: tuple[Statement, ...]
    settings: Mapping[str, tuple[Clause, Scope | None]]
    outer: Scope | None
    thing: Thing | None
    mirrored: bool
    _faces: Look | None = "front"
    """None for a mouth's, until it is asked for: it may need what the unit's text says."""
    extents: Mapping[Axis, Extent] = field(factory=dict)
    index: dict[str, list[Declared]] = field(factory=dict)
    things: dict[object, Thing] = field(factory=dict)
    turned: dict[object, tuple[Turn, ...]] = field(factory=dict)
    known: dict[tuple[str, tuple[object, ...]], Thing | Several | Missing] = field(factory=dict)
    """What its names were found to mean, by the turns they were read at."""
    without: set[str] = field(factory=set)
    in_mouths: tuple[Statement, ...] = ()
    """The lines that each of its mouths reads in its own space, where it has more than a front."""
    mouth_lines: tuple[Statement, ...] = ()
    _openings: Openings | None = None

    def __attrs_post_init__(self) -> None:
        self.build.held.append(self)
        self.in_mouths = of_mouths(self.body)
        if self.in_mouths:
            apart = {id(line) for line in self.in_mouths}
            self.body = tuple(line for line in self.body if id(line) not in apart)
        self.mouth_lines = tuple(line for line in self.body if line.rule == MOUTH)
        self.index = names_in(self.body)
        self.without = left_out_by(self.body)

    def left_out(self, word: str) -> bool:
        """Whether a `without` here or around leaves the word out."""
        outer = self.outer.holder if self.outer is not None else None
        return word in self.without or (outer is not None and outer.left_out(word))

    @property
    def faces(self) -> Look:
        """To where what it holds looks. Raises Fault where a mouth's own place has one."""
        if self._faces is None:
            assert self.thing is not None, "only a mouth is asked where it looks"
            self._faces = faces_of(self.thing)
        return self._faces

    @property
    def is_mouth(self) -> bool:
        return self.thing is not None and self.thing.rule == MOUTH

    @property
    def built_into(self) -> str:
        """The path of what is built as one with what it holds: a mouth's is its unit's."""
        if self.is_mouth and self.outer is not None:
            return self.outer.holder.built_into
        return self.path

    @property
    def meeting(self) -> tuple[str, ...]:
        """The sides on which another mouth meets this one at an inside corner."""
        return meeting(self.thing) if self.thing is not None and self.is_mouth else ()

    def mouths(self) -> "tuple[Holder, ...]":
        """Its mouths, where it has more than a front."""
        return tuple(self.make(line, self.scope()).inner for line in self.mouth_lines)

    def scope(self) -> Scope:
        return Scope(self, (), self.mirrored)

    def textual(self, word: str) -> str:
        """The word as this holder's text has it: exchanged where the holder is mirrored."""
        return twin(word) if self.mirrored and twin(word) in self.index else word

    def declares(self, word: str) -> bool:
        return self.textual(word) in self.index or any(
            mouth.textual(word) in mouth.index for mouth in self.mouths()
        )

    def extent(self, axis: Axis) -> Extent:
        if self.is_mouth and self.thing is not None and not self.extents:
            self.extents = extents_of(self.thing)
        if axis in self.extents:
            return self.extents[axis]
        if self.thing is not None:
            return self.thing.seen(axis, self.faces)
        # A unit's height and depth are worked out before anything lies in it.
        raise fault(
            "needs-itself",
            f"the size of {self.name.replace('_', ' ')} needs what lies in it, and so itself",
            None,
            help="say high and depth by options and by the room",
        )

    def edge(self, word: str) -> Quantity:
        axis, side = EDGES[word]
        extent = self.extent(axis)
        return extent.high if side > 0 else extent.low

    def size(self, word: str) -> Quantity:
        """Its own size along an axis, or from corner to corner."""
        if word in DIAGONALS:
            first, second = DIAGONALS[word]
            return diagonal_of(self.build, self.size(first), self.size(second))
        axis = next(each for each in AXES if each == word)
        extent = self.extent(axis)
        return subtract(extent.high, extent.low)

    # -- names ---------------------------------------------------------------------------------

    def value(
        self, word: str, scope: Scope, origin: Origin | None, want: Dimension | None
    ) -> Value:
        """What a declared name is worth, read from `scope` (of this holder or one it holds)."""
        if self.textual(word) not in self.index:
            return made_in(self.mouths(), word, origin, want)
        declared = self.index[self.textual(word)]
        first = declared[0]
        if first.statement.rule == "option":
            return self.option(first, want)
        if first.statement.rule == "let":
            declared = [each for each in declared if self._at_hand(each, scope)] or declared
            return let_of(self, declared, scope, want)
        turns = tuple(turn.key for turn in scope.turns) if scope.holder is self else ()
        if (word, turns) not in self.known:
            self.known[word, turns] = self._made(declared, word, scope)
        return self.known[word, turns]

    def _made(self, declared: list[Declared], word: str, scope: Scope) -> Thing | Several | Missing:
        """What is made under a name, as it is read from `scope`."""
        # At a turn, a name means what was made at that turn, whatever else goes by it elsewhere.
        declared = [each for each in declared if self._at_hand(each, scope)] or declared
        found: list[Thing] = []
        for each in declared:
            found.extend(self._instances(each, word, scope.turns if scope.holder is self else ()))
        looped = any(guard.statement.rule == "for" for each in declared for guard in each.guards)
        if not found:
            return Missing(f"there is no {word.replace('_', ' ')} in this unit")
        if len(found) == 1 and (not looped or self._bound(declared, scope)):
            return found[0]
        return Several(tuple(found))

    def _bound(self, declared: list[Declared], scope: Scope) -> bool:
        """Whether every `for each` around a name is at a turn in `scope`."""
        words = self._turning(scope)
        return all(word in words for each in declared for word in each.loops)

    def _at_hand(self, declared: Declared, scope: Scope) -> bool:
        """Whether a name is declared in a `for each` that is at a turn in `scope`."""
        return bool(declared.loops) and declared.loops[0] in self._turning(scope)

    def _turning(self, scope: Scope) -> set[str]:
        return {turn.word for turn in scope.turns} if scope.holder is self else set()

    def _instances(self, declared: Declared, word: str, turns: tuple[Turn, ...]) -> list[Thing]:
        scopes = [Scope(self, (), self.mirrored)]
        for guard in declared.guards:
            following: list[Scope] = []
            for scope in scopes:
                if guard.statement.rule == "when":
                    if self.stands(guard.statement, scope):
                        following.append(scope)
                    continue
                bound = [turn for turn in turns if turn.word == each_word(guard.statement)]
                for turn in self.turns(guard.statement, scope):
                    if not bound or any(turn.key == each.key for each in bound):
                        following.append(scope.at(turn))
                if len(following) > MOST_TURNS:
                    raise too_many_turns(guard.statement.head.origin)
            scopes = following
        return [self.make(declared.statement, scope) for scope in scopes]

    def stands(self, when: Statement, scope: Scope) -> bool:
        """Whether a `when` is so. It is a cell, so that a thing which is there only when it isn't
        is a circle that is reported."""
        expression = when.values[0]
        return self.build.cell(
            (id(scope.holder), id(when), tuple(turn.key for turn in scope.turns), scope.mirrored),
            lambda: f"when {written(expression)}",
            when.head.origin,
            partial(condition, expression, scope),
        )

    def made_for(self, word: str, item: Leaf | Member) -> Thing | Missing | None:
        """The thing called `word` made for `item`: Missing where its conditions are not so, or
        it is made for other members; None where this holder makes none for such items."""
        makes = False
        for declared in self.index[self.textual(word)]:
            for guard in declared.guards:
                if guard.statement.rule != "for" or declared.statement.rule not in PLACED:
                    continue
                of_members = each_word(guard.statement) in OF_MEMBERS
                makes = makes or (of_members and isinstance(item, Member))
                for turn in self.turns(guard.statement, self.scope(), every=True):
                    same = Turn(turn.word, item, 0, 0).key == turn.key
                    makes = makes or same
                    if same:
                        for thing in self._instances(declared, word, (turn,)):
                            return thing
        return Missing(f"no {word.replace('_', ' ')} is made there") if makes else None

    def made_within(self, word: str, item: Leaf | Member) -> Thing | Missing | None:
        """As `made_for`, here or in an assembly this holder always has. Only those whose text
        can hold the word are opened: opening all would make circles where there are none."""
        found = self.made_for(word, item) if self.textual(word) in self.index else None
        if isinstance(found, Thing):
            return found
        for declared in tuple(self.index.values()):
            statement = declared[0].statement
            if statement.rule != "assembly" or declared[0].guards:
                continue
            if word not in self.build.words_of(statement):
                continue
            inner = self.make(statement, self.scope()).inner
            deeper = inner.made_within(word, item)
            if isinstance(deeper, Thing):
                return deeper
            found = found or deeper
        return found

    def make(self, statement: Statement, scope: Scope) -> Thing:
        """The thing a statement places at a scope's turns; the same one each time it is asked."""
        key = (id(statement), tuple(turn.key for turn in scope.turns))
        if key in self.things:
            return self.things[key]
        name = twin(statement.name) if self.mirrored else statement.name
        steps = [self.path] if self.path else []
        opening = ""
        suffix = ""
        for turn in scope.turns:
            if isinstance(turn.item, Leaf):
                opening = turn.item.address
                # The openings of a mouth have its name in theirs.
                steps = [opening] if self.is_mouth else [*steps, opening]
            elif turn.of > 1:
                suffix += f"_{turn.number}"
        if self.thing is not None and not opening:
            opening = self.thing.opening
        path = ".".join([*steps, name + suffix])
        text, reading = self._read_as(statement, scope)
        thing = Thing(self.build, text, reading, path, name + suffix, opening)
        self.things[key] = thing
        return thing

    def _read_as(self, statement: Statement, scope: Scope) -> tuple[Statement, Scope]:
        """The text of a thing: its own, or that of the one it mirrors, read from right to left."""
        clause = statement.clause("mirrors")
        if clause is None:
            return statement, scope
        word = getattr(clause.values[0], "text", "")
        for declared in self.index.get(word, ()):
            original = declared.statement
            if original.rule == statement.rule and original.clause("mirrors") is None:
                text = evolve(
                    original,
                    values=statement.values,
                    head=statement.head,
                )
                return text, evolve(scope, mirrored=not scope.mirrored)
        raise fault(
            "unknown-name",
            f"no {statement.rule} here is called {word}",
            clause.values[0].origin,
            help=suggestion(word, self.index),
        )

    def open(self, thing: Thing) -> "Holder":
        """The holder a thing of this one is: an assembly, or a mouth, whose faces are asked for
        later. Raises Fault."""
        mouth = thing.rule == MOUTH
        return Holder(
            self.build,
            thing.path,
            thing.name,
            mouth_text(self, thing) if mouth else assembly_text(self, thing),
            mouth_settings(self, thing) if mouth else assembly_settings(self, thing),
            thing.scope,
            thing,
            thing.scope.mirrored,
            None if mouth else thing.faces,
        )

    # -- options and lets ----------------------------------------------------------------------

    def option(self, declared: Declared, want: Dimension | None) -> Value:
        """The value of a declared option: as chosen, else its default, else the holder's of the
        same name."""
        statement = declared.statement
        name = statement.name
        self.build.options_read.add(name)
        return self.build.cell(
            (id(self), "option", name),
            name,
            statement.head.origin,
            lambda: option_of(self, statement, want),
        )

    # -- sets ----------------------------------------------------------------------------------

    def openings(self) -> Openings | None:
        """The openings of this holder, or of the nearest one around it that has some."""
        for statement in self.body:
            if statement.rule == "openings":
                if self._openings is None:
                    tree = next((s for s in self.body if s.rule in ("stack", "row")), None)
                    self._openings = Openings(self, statement, tree)
                return self._openings
        return self.outer.holder.openings() if self.outer is not None else None

    def all_openings(self) -> tuple[Openings, ...]:
        """Its openings, or those of all its mouths."""
        holders = self.mouths() or (self,)
        return tuple(found for each in holders if (found := each.openings()) is not None)

    def turns(self, statement: Statement, scope: Scope, *, every: bool = False) -> tuple[Turn, ...]:
        """The turns of a `for each`, those its `with` keeps; `every` one where that is asked."""
        key = (id(statement), tuple(turn.key for turn in scope.turns), every)
        if key not in self.turned:
            self.turned[key] = tuple(turns_of(self, statement, scope, every))
        return self.turned[key]

    def walk(self, scope: Scope | None = None) -> Iterator[tuple[Statement, Scope]]:
        """Every statement of the text that is in force, with the scope it is read in: within
        `scope`, or that of the holder alone."""
        yield from self._walk(self.body, scope or self.scope())

    def everything(self) -> tuple[Thing, ...]:
        """Every thing it holds, at any depth."""
        key = (id(self), "everything")
        return self.build.cell(key, f"all of {self.name}", None, self._everything)

    def _everything(self) -> tuple[Thing, ...]:
        found: list[Thing] = []
        for statement, scope in self.walk():
            if statement.rule in PLACED and statement.name:
                thing = self.make(statement, scope)
                found.append(thing)
                if thing.rule == "assembly":
                    found.extend(thing.inner.everything())
        return tuple(found)

    def _walk(self, body: tuple[Statement, ...], scope: Scope) -> Iterator[tuple[Statement, Scope]]:
        for statement in body:
            if statement.rule == "when":
                if self.build.attempt(partial(self.stands, statement, scope)):
                    yield from self._walk(statement.body, scope)
            elif statement.rule == "for":
                for turn in self.build.attempt(partial(self.turns, statement, scope)) or ():
                    if not self.build.may_turn(statement.head.origin):
                        return
                    yield from self._walk(statement.body, scope.at(turn))
            else:
                yield statement, scope
