"""What the working-out of one unit shares: its cells, what it reads from outside, its blames."""

from collections.abc import Callable, Hashable, Iterator, Mapping
from contextlib import contextmanager
from fractions import Fraction
from sys import getrecursionlimit, setrecursionlimit
from typing import TypeVar

from attrs import define, field

from casewright.compiler.blame import Blame, Row, finding_at
from casewright.compiler.construct.evaluate import evaluate
from casewright.compiler.construct.faults import Fault, fault
from casewright.compiler.construct.values import Choice, Datum, Lengths, Missing, Value
from casewright.compiler.facing import Look
from casewright.compiler.text.resolve import DATA, Declaration, Program, reopen
from casewright.compiler.words.schema import SCHEMA
from casewright.lang.cells import Cells, Cycle, Poisoned, Quantity, given, named
from casewright.lang.measure import INCH, Dimension, System
from casewright.lang.printing import Printing
from casewright.lang.shape import Clause, Statement, bare_word, suggestion
from casewright.lang.source import Origin

T = TypeVar("T")

_DATA_KINDS = {
    "a length": Dimension.LENGTH,
    "a count": Dimension.COUNT,
    "a weight": Dimension.WEIGHT,
    "an angle": Dimension.ANGLE,
}
"""What bare numbers of a datum's own words are, as the schema says their kind."""

OUTSIDE = ("room", "filler", "beside", "beyond", "stands")
"""Words for what stands outside a unit: the room, a filler it takes, what is beside it, what past a
filler, and the height it stands at."""

_OF_ROOM = {
    "counter": ("how high its counter is", "in the room say counter, and its height"),
    "counter_thick": ("how thick its counter is", "say thick behind the height of the counter"),
    "ceiling": ("how high its ceiling is", "in the room say ceiling, and its height"),
}
"""Figures that a room may leave unsaid: in words, and what would say them."""


Words = str | Callable[[], str]
"""How a cell is called, or what says it: few are ever asked."""


def said(words: Words) -> str:
    return words if isinstance(words, str) else words()


MOST_OPEN = 250
"""Figures that may need one another in a row, before the first of them is known."""

DEEPEST = 20_000
"""Python's own frames for those, with all that stands in their expressions."""

MOST_TURNS = 5_000
"""Turns of all the `for each` blocks of one unit together; blocks that count within one another
reach it soon."""


def _too_deep(words: str, origin: Origin | None) -> Fault:
    return fault(
        "needs-too-many",
        f"{words} needs more than {MOST_OPEN} figures, each for the one before",
        origin,
        help="let some of them stand on fewer others",
    )


@contextmanager
def deep() -> Iterator[None]:
    """Room for a chain of `MOST_OPEN` figures on Python's stack."""
    before = getrecursionlimit()
    setrecursionlimit(max(before, DEEPEST))
    try:
        yield
    finally:
        setrecursionlimit(before)


def too_many_turns(origin: Origin | None) -> Fault:
    return fault(
        "too-many-turns",
        f"the for each blocks of this unit go round more than {MOST_TURNS} times",
        origin,
        help="let the inner block count less, or leave it out",
    )


@define(eq=False)
class Build:
    """The working-out of one unit.

    `outside` gives what may be read from outside, by name (`room.counter`); `reads` records what
    was in fact read, so that a later unit with equal reads can share the result.
    """

    program: Program
    own_system: System
    printing: Printing
    precision: Quantity
    outside: Mapping[str, Quantity | str]
    cells: Cells = field(factory=Cells)
    reads: dict[str, object] = field(factory=dict)
    blames: list[Blame] = field(factory=list)
    options_read: set[str] = field(factory=set)
    turned: int = 0
    places: dict[Hashable, tuple[Words, Origin | None]] = field(factory=dict)
    held: list[object] = field(factory=list)
    """Everything that cells are keyed by. It is kept, because Python gives the identity of what is
    gone to what comes next, which would then find the cells of another."""

    def cell(
        self, key: Hashable, words: Words, origin: Origin | None, formula: Callable[[], T]
    ) -> T:
        """The value of a cell; `words` and `origin` name it should it turn out to need itself."""
        self.places.setdefault(key, (words, origin))
        if self.cells.depth > MOST_OPEN:
            raise _too_deep(said(words), origin)
        try:
            return self.cells.get(key, formula)  # type: ignore[no-any-return]
        except Cycle as cycle:
            raise self._circle(cycle) from None

    def _circle(self, cycle: Cycle) -> Fault:
        """A cycle, shown line by line."""
        steps = [self.places.get(key, (str(key), None)) for key in cycle.loop]
        words, origin = said(steps[0][0]), steps[0][1]
        rows = tuple(
            Row(f"{said(step[0])} needs {said(after[0])}", None, step[1])
            for step, after in zip(steps, [*steps[1:], steps[0]], strict=True)
        )
        return fault(
            "needs-itself",
            f"{words} needs itself",
            origin,
            rows=rows,
            help="say one of these without the others",
        )

    def attempt(self, work: Callable[[], T]) -> T | None:
        """What `work` gives, or None where it failed; the blame is kept once."""
        try:
            return work()
        except Fault as found:
            self.blames.append(found.blame)
        except Poisoned:
            pass
        except RecursionError:
            self.blames.append(_too_deep("a figure of this unit", None).blame)
        return None

    def may_turn(self, origin: Origin | None) -> bool:
        """Whether a `for each` may go round once more; the first time it may not is blamed."""
        self.turned += 1
        if self.turned == MOST_TURNS + 1:
            self.blames.append(too_many_turns(origin).blame)
        return self.turned <= MOST_TURNS

    def glance(self, work: Callable[[], T]) -> T | None:
        """What `work` gives, or None where it failed: for what is only shown, and is blamed where
        it is needed."""
        try:
            return work()
        except (Fault, Poisoned, RecursionError):
            return None

    def blame(self, slug: str, headline: str, origin: Origin | None, **more: object) -> None:
        self.blames.append(finding_at(origin, slug, headline, **more))  # type: ignore[arg-type]

    def system_of(self, origin: Origin | None) -> System:
        return self.program.system_of(origin, self.own_system)

    @property
    def rounding(self) -> Fraction:
        """What a root is rounded to: 1/1000 in, or 0.01 mm in a metric text."""
        metric = self.own_system is System.MILLIMETRES
        return Fraction(1, 100) / INCH if metric else Fraction(1, 1000)

    def read_outside(self, word: str, of: str, origin: Origin | None) -> Value:
        """A property of something outside, recorded as read. Raises Fault where there is none."""
        name = f"{word}.{of}"
        if name not in self.outside:
            if word == "room" and of in _OF_ROOM:
                what, mend = _OF_ROOM[of]
                raise fault("room-figure-unsaid", f"the room doesn't say {what}", origin, help=mend)
            known = [each.split(".")[1] for each in self.outside if each.startswith(f"{word}.")]
            raise fault(
                "unknown-name",
                f"{word} has no {of}",
                origin,
                help=suggestion(of, known) or f"{word} has: " + ", ".join(sorted(known)),
            )
        value = self.outside[name]
        if isinstance(value, str):
            self.reads[name] = value
            return Choice(value)
        self.reads[name] = value.value
        return given(value, name, name.replace(".", " "))

    def opened(self, parent: Statement, child: Statement) -> tuple[Statement, ...]:
        """The text of `parent` opened again by `child`."""
        return reopen(parent, child).body

    def words_of(self, assembly: Statement) -> frozenset[str]:
        """Names that an assembly's text can declare: its own, its pattern's, and those of the
        assemblies in it."""
        clause = assembly.clause("of")
        word = bare_word(clause.values[0]) if clause is not None and clause.values else ""
        key = ("words", id(assembly))
        return self.cell(key, word, assembly.origin, lambda: self._words_of(assembly, word))

    def _words_of(self, assembly: Statement, pattern: str) -> frozenset[str]:
        words: set[str] = set()
        found = self.program.find("pattern", pattern)
        waiting = [*assembly.body, *(found.statement.body if found is not None else ())]
        while waiting:
            statement = waiting.pop()
            words.add(statement.name)
            if statement.rule == "assembly":
                words |= self.words_of(statement)
            waiting.extend(statement.body)
        return frozenset(words)

    def is_made_elsewhere(self, word: str) -> bool:
        """Whether some construction or pattern makes a thing of this name: where another one
        doesn't, it isn't there, and the word is no mistake."""
        return word in self.cell("made anywhere", "all that is made", None, self._made)

    def _made(self) -> frozenset[str]:
        words: set[str] = set()
        for kind in ("construction", "pattern"):
            for name in self.program.names(kind):
                found = self.program.find(kind, name)
                waiting = list(found.statement.body) if found is not None else []
                while waiting:
                    line = waiting.pop()
                    if line.rule in ("part", "hardware", "assembly"):
                        words.add(line.name)
                    waiting.extend(line.body)
        return frozenset(words)

    def datum(self, name: str) -> Datum | None:
        """The declared material, slide, fixing … called `name`, of whichever kind."""
        for kind in DATA:
            found = self.program.find(kind, name)
            if found is not None:
                return Datum(found)
        return None

    def property(
        self,
        declaration: Declaration,
        word: str,
        origin: Origin | None,
        want: Dimension | None,
    ) -> Value:
        """A property of a datum, as `want` reads bare numbers; Missing where it says none."""
        clause = declaration.statement.clause(word) or declaration.statement.option(word)
        if clause is None or not clause.values:
            return Missing(f"{declaration.kind} {declaration.name} says nothing of {word}")
        want = _DATA_KINDS.get(kind_of(declaration.kind, word), want)
        key = ("property", declaration.kind, declaration.name, word, want)
        title = f"{declaration.name} {word}"
        return self.cell(key, title, clause.origin, lambda: self._property(clause, title, want))

    def _property(self, clause: Clause, title: str, want: Dimension | None) -> Value:
        scope = DatumScope(self)
        if len(clause.values) > 1:
            quantities: list[Quantity] = []
            for expression in clause.values:
                value = evaluate(expression, scope, want or Dimension.LENGTH)
                if isinstance(value, Quantity):
                    quantities.append(named(value, title, expression.origin))
            quantities.sort(key=lambda each: each.value)
            return Lengths(tuple(quantities))
        expression = clause.values[0]
        word = bare_word(expression)
        if word:
            return self.datum(word) or Choice(word)
        value = evaluate(expression, scope, want or Dimension.LENGTH)
        if isinstance(value, Quantity):
            return named(value, title, clause.origin)
        return value


@define(eq=False)
class DatumScope:
    """Where a datum's properties are read: words are data or choices, and nothing lies anywhere."""

    build: Build
    mirrored: bool = False
    faces: Look = "front"

    def system_of(self, origin: Origin | None) -> System:
        return self.build.system_of(origin)

    def look_up(
        self, words: tuple[str, ...], origin: Origin | None, want: Dimension | None
    ) -> Value:
        found = self.build.datum(words[0])
        if found is None:
            raise fault("unknown-name", f"nothing here is called {words[0]}", origin)
        value: Value = found
        for word in words[1:]:
            if not isinstance(value, Datum):
                return Missing(f"{'.'.join(words)} isn't there")
            value = self.build.property(value.declaration, word, origin, want)
        return value

    def say(self, value: Value) -> str:
        return str(value)


def kind_of(rule: str, word: str) -> str:
    """What the schema says a clause of a rule takes, in words; nothing for an option."""
    clauses = SCHEMA.heads[rule].clauses
    return next((each.kind for each in clauses if each.word == word), "")
