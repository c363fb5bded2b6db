"""Everything a unit's text tells, gathered in one walk: things, joins, steps, strips."""

from collections.abc import Iterable, Iterator
from functools import partial

from attrs import define, evolve, field

from casewright.compiler.blame import finding_at
from casewright.compiler.construct.blanks import Strips
from casewright.compiler.construct.boring import Bored, holes_of
from casewright.compiler.construct.build import Build
from casewright.compiler.construct.declared import PLACED
from casewright.compiler.construct.edges import edges_of
from casewright.compiler.construct.evaluate import compared, condition, quantity, words_of
from casewright.compiler.construct.faults import Fault, fault
from casewright.compiler.construct.holder import Holder
from casewright.compiler.construct.materials import fixing_of
from casewright.compiler.construct.scope import MOUTH, Scope
from casewright.compiler.construct.things import Thing
from casewright.compiler.construct.values import Missing, Several
from casewright.compiler.model import AXES, Axis, Order, Wish
from casewright.lang.cells import Quantity, growth, subtract
from casewright.lang.measure import Dimension
from casewright.lang.shape import Statement
from casewright.lang.source import Origin
from casewright.lang.tree import Expression, Text

Told = tuple[Statement, Scope]
"""A line in force, and the scope it is read in."""


@define(eq=False)
class Gathered:
    """What a unit's text tells, in the order it is read. `caller` is the line that asks for it."""

    build: Build
    caller: Origin
    things: list[Thing] = field(factory=list)
    strips: list[Strips] = field(factory=list)
    joins: list[Told] = field(factory=list)
    steps: list[Told] = field(factory=list)
    bored: list[Bored] = field(factory=list)

    def visit(self, holder: Holder) -> None:
        """Adds everything of a holder and of what it holds."""
        for statement, scope in holder.walk():
            match statement.rule:
                case rule if rule in PLACED and statement.name:
                    self._place(holder, statement, scope)
                case rule if rule == MOUTH:
                    self._open(holder, statement, scope)
                case "join":
                    self.joins.append((statement, scope))
                case "step":
                    self.steps.append((statement, scope))
                case "require":
                    self.build.attempt(partial(self._require, statement, scope))
                case "holes":
                    bored = self.build.attempt(partial(holes_of, statement, scope))
                    if bored is not None:
                        self.bored.append(bored)
                case "rip":
                    strips = self.build.attempt(partial(_strips, statement, scope))
                    if strips is not None:
                        self.strips.append(strips)

    def _place(self, holder: Holder, statement: Statement, scope: Scope) -> None:
        thing = self.build.attempt(partial(holder.make, statement, scope))
        if thing is None:
            return
        self.things.append(thing)
        if thing.rule == "assembly":
            inner = self.build.attempt(partial(getattr, thing, "inner"))
            if inner is not None:
                self.visit(inner)

    def _open(self, holder: Holder, statement: Statement, scope: Scope) -> None:
        mouth = self.build.attempt(partial(holder.make, statement, scope))
        if mouth is None:
            return
        inner = self.build.attempt(partial(getattr, mouth, "inner"))
        if inner is not None:
            self.visit(inner)

    def _require(self, statement: Statement, scope: Scope) -> None:
        if condition(statement.values[0], scope):
            return
        text = statement.values[1]
        words = words_of(text, scope) if isinstance(text, Text) else "this must be so"
        mend = statement.values[2] if len(statement.values) > 2 else None
        found = finding_at(
            self.caller,
            "requirement-not-met",
            words,
            labels=((statement.head.origin, "asked for here"),),
            help=words_of(mend, scope) if isinstance(mend, Text) else "",
        )
        too_large, too_small = _mended_by_size(statement.values[0], scope)
        raise Fault(evolve(found, too_large=too_large, too_small=too_small))

    def wishes(self) -> tuple[Wish, ...]:
        """The joints the text declares, those of things that are there."""
        found = (self.build.attempt(partial(_wish, *told)) for told in self.joins)
        return tuple(wish for wish in found if wish is not None and wish.first and wish.second)

    def orders(self) -> tuple[Order, ...]:
        """The steps as the text tells them; one that says after what goes behind that."""
        orders: list[Order] = []
        for statement, scope in self.steps:
            order = self.build.attempt(partial(_order, statement, scope))
            if order is None or not (order.brings or order.words):
                continue
            after = statement.clause("after")
            index = len(orders)
            if after is not None:
                named = self.build.attempt(partial(listed, after.values, scope))
                paths = {thing.path for thing in named or ()}
                for position, each in enumerate(orders):
                    if paths & set(each.brings):
                        index = position + 1
            orders.insert(index, order)
        return tuple(orders)


def _mended_by_size(wanted: Expression, scope: Scope) -> tuple[frozenset[Axis], frozenset[Axis]]:
    """The axes along which a smaller unit would come nearer to what is wanted of it, and those
    along which a larger one would."""
    sides = compared(wanted, scope)
    if sides is None:
        return frozenset(), frozenset()
    operator, left, right = sides
    root = scope.holder
    while root.outer is not None:
        root = root.outer.holder
    excess = subtract(left, right) if operator in ("<", "<=") else subtract(right, left)
    rates = {axis: growth(excess, root.extents[axis].high.inputs[0]) for axis in AXES}
    return (
        frozenset(axis for axis in AXES if rates[axis] > 0),
        frozenset(axis for axis in AXES if rates[axis] < 0),
    )


def listed(values: Iterable[Expression], scope: Scope) -> list[Thing]:
    """The things a list names: all that a `for each` made under a name, none that is not there.

    Raises Fault for what is no thing.
    """
    found: list[Thing] = []
    for value in values:
        worth = scope.value_of(value)
        if isinstance(worth, Missing):
            continue
        if isinstance(worth, Several):
            found.extend(thing for thing in worth.things if isinstance(thing, Thing))
        elif isinstance(worth, Thing):
            found.append(worth)
        else:
            raise fault("wrong-kind", "here parts and assemblies are named", value.origin)
    return found


def _length(statement: Statement, word: str, scope: Scope) -> Quantity | None:
    clause = statement.clause(word)
    return quantity(clause.values[0], scope, Dimension.LENGTH) if clause is not None else None


def _strips(statement: Statement, scope: Scope) -> Strips:
    return Strips(
        tuple(thing.path for thing in listed(statement.values, scope)),
        _length(statement, "from", scope),
        _length(statement, "kerf", scope),
        _length(statement, "trim", scope),
        statement.head.origin,
    )


def _wish(statement: Statement, scope: Scope) -> Wish:
    to, into = statement.clause("to"), statement.clause("into")
    target = to or into
    if target is None or (to is not None and into is not None):
        raise fault("value-missing", "join says to, or into, and what", statement.head.origin)
    fastened = statement.clause("with")
    return Wish(
        tuple(thing.path for thing in listed(statement.values, scope)),
        tuple(thing.path for thing in listed(target.values, scope)),
        "to" if to is not None else "into",
        fixing_of(scope.build, fastened.values[0], scope) if fastened is not None else None,
        _length(statement, "play", scope),
        statement.head.origin,
        tuple(_alike((*statement.values, *target.values), scope)),
    )


def _alike(values: Iterable[Expression], scope: Scope) -> Iterator[tuple[str, ...]]:
    """The paths of what the mouths of the unit made, those under one name together."""
    for value in values:
        worth = scope.value_of(value)
        if isinstance(worth, Several) and worth.of_mouths:
            paths = tuple(thing.path for thing in worth.things if isinstance(thing, Thing))
            if paths:
                yield paths


def _order(statement: Statement, scope: Scope) -> Order:
    words = [words_of(value, scope) for value in statement.values if isinstance(value, Text)]
    names = [value for value in statement.values if not isinstance(value, Text)]
    things = listed(names, scope)
    for thing in things:
        if thing.scope.holder.built_into != scope.holder.built_into:
            raise fault(
                "step-elsewhere",
                f"{thing.name.replace('_', ' ')} is built into "
                f"{thing.scope.holder.name.replace('_', ' ')}, not here",
                statement.head.origin,
                help="bring in the whole assembly, or move the step into it",
            )
    if statement.clause("square") is not None:
        words.append("square")
    lies = statement.clause("lies")
    return Order(
        scope.holder.built_into,
        tuple(thing.path for thing in things),
        edges_of(lies, scope)[0] if lies is not None else "",
        "; ".join(words),
        statement.head.origin,
    )
