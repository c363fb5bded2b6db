"""Holes as the text tells them: on which face, where, how wide and how deep."""

from collections.abc import Iterable

from attrs import evolve, frozen

from casewright.compiler.blame import Row
from casewright.compiler.construct.evaluate import evaluate, place, quantity
from casewright.compiler.construct.faults import fault
from casewright.compiler.construct.leaf import Leaf
from casewright.compiler.construct.scope import Scope, twin
from casewright.compiler.construct.things import Thing
from casewright.compiler.construct.values import Missing
from casewright.compiler.facing import are_askew, between, hole_in_unit
from casewright.compiler.model import AXES, EDGES, Axis, Extent, Hole, Part
from casewright.lang.cells import Quantity, add, divide, literal, negate, scale, subtract
from casewright.lang.measure import Dimension
from casewright.lang.shape import Clause, Statement
from casewright.lang.tree import Binary, Expression, Name

MOST_HOLES = 1000
"""Holes of one line in one part; more are refused, so that work stays bounded."""


@frozen(eq=False)
class Bored:
    """The holes of one line, and the path of the part they are bored in."""

    path: str
    holes: tuple[Hole, ...]


def holes_of(statement: Statement, scope: Scope) -> Bored | None:
    """The holes a line tells; None where the part isn't there. Raises Fault."""
    found = _face(statement, scope)
    if found is None:
        return None
    thing, face = found
    axis, side = EDGES[face]
    faces = scope.faces
    if are_askew(thing.faces, faces):
        raise fault(
            "place-across-turn",
            f"{thing.name.replace('_', ' ')} is turned otherwise than the mouth its holes are for",
            statement.head.origin,
            help="bore what stands in the mouth itself",
        )
    flat = tuple(each for each in AXES if each != axis)
    first, second = (_places(statement, scope, each, thing) for each in flat)
    if len(first) * len(second) > MOST_HOLES:
        raise fault(
            "too-many-holes",
            f"more than {MOST_HOLES} holes in {thing.name.replace('_', ' ')}",
            statement.head.origin,
            help="set them further apart",
        )
    diameter, depth = (_length(statement, word, scope) for word in ("size", "into"))
    _check_depth(statement, thing, thing.seen(axis, faces), depth)
    for along, places in zip(flat, (first, second), strict=True):
        _check_inside(statement, thing, along, thing.seen(along, faces), places, diameter)
    return Bored(
        thing.path,
        tuple(
            hole_in_unit(
                Hole(
                    axis,
                    side,
                    (one, other),
                    (flat[0], flat[1]),
                    diameter,
                    depth,
                    statement.name,
                    statement.head.origin,
                ),
                faces,
            )
            for one in first
            for other in second
        ),
    )


def bore(parts: tuple[Part, ...], bored: Iterable[Bored]) -> tuple[Part, ...]:
    """The parts with their holes."""
    by_path: dict[str, list[Hole]] = {}
    for each in bored:
        by_path.setdefault(each.path, []).extend(each.holes)
    return tuple(
        evolve(part, holes=tuple(by_path[part.path])) if part.path in by_path else part
        for part in parts
    )


def _face(statement: Statement, scope: Scope) -> tuple[Thing, str] | None:
    """The thing that is bored and the edge word of its face; where only the thing is named, the
    face towards the opening the line is for."""
    clause = statement.clause("on")
    if clause is None or not clause.values:
        raise fault("value-missing", "holes say on which face", statement.head.origin)
    value = clause.values[0]
    face = ""
    if isinstance(value, Name) and len(value.words) > 1 and value.words[-1] in EDGES:
        face = twin(value.words[-1]) if scope.mirrored else value.words[-1]
        value = Name(value.words[:-1], value.origin)
    worth = evaluate(value, scope)
    if isinstance(worth, Missing):
        return None
    if not isinstance(worth, Thing) or worth.rule != "part":
        raise fault("wrong-kind", "holes are bored in a part", value.origin)
    return worth, face or _towards(worth, scope, value)


def _towards(thing: Thing, scope: Scope, value: Expression) -> str:
    axis, _ = between(thing.faces, scope.faces, thing.thick_axis())
    for turn in reversed(scope.turns):
        if isinstance(turn.item, Leaf) and axis != "deep":
            low, high = (word for word, (of, _) in EDGES.items() if of == axis)
            item = turn.item.seen(axis, scope.faces)
            before = thing.seen(axis, scope.faces).high.value <= item.low.value
            return high if before else low
    raise fault(
        "which-face",
        "say which face is bored",
        value.origin,
        help=f"for instance {thing.name}.left",
    )


def _places(statement: Statement, scope: Scope, axis: Axis, thing: Thing) -> tuple[Quantity, ...]:
    """The centres along one axis: a place, both ends of a range, or a row along it."""
    found = _as_read(statement, scope, axis, thing)
    return tuple(map(negate, found)) if scope.mirrored and axis == "across" else found


def _as_read(statement: Statement, scope: Scope, axis: Axis, thing: Thing) -> tuple[Quantity, ...]:
    clause = statement.clause(axis)
    if clause is None or not clause.values:
        raise fault(
            "value-missing",
            f"say where the holes lie {axis}",
            statement.head.origin,
            help=f"{axis} and a place, or A .. B every a length",
        )
    value, every = clause.values[0], clause.clause("every")
    if not (isinstance(value, Binary) and value.operator == ".."):
        return (place(value, scope, axis, 1),)
    low, high = place(value.left, scope, axis, 1), place(value.right, scope, axis, -1)
    if every is None:
        return (low, high)
    return _row(low, high, quantity(every.values[0], scope, Dimension.LENGTH), every)


def _row(low: Quantity, high: Quantity, step: Quantity, every: Clause) -> tuple[Quantity, ...]:
    if step.value <= 0:
        raise fault("size-not-positive", "a spacing is more than nothing", every.origin)
    count = (high.value - low.value) // step.value
    if count > MOST_HOLES:
        raise fault("too-many-holes", f"more than {MOST_HOLES} holes in one row", every.origin)
    steps = (literal(number, Dimension.COUNT, None, "spaces") for number in range(count + 1))
    return tuple(add(low, scale(step, each, Dimension.LENGTH)) for each in steps)


def _length(statement: Statement, word: str, scope: Scope) -> Quantity:
    clause = statement.clause(word)
    if clause is None or not clause.values:
        raise fault("value-missing", f"holes say their {word}", statement.head.origin)
    length = quantity(clause.values[0], scope, Dimension.LENGTH)
    if length.value <= 0:
        raise fault("size-not-positive", f"{word} is more than nothing", clause.origin)
    return length


def _check_depth(statement: Statement, thing: Thing, extent: Extent, depth: Quantity) -> None:
    size = subtract(extent.high, extent.low)
    if depth.value <= size.value:
        return
    raise fault(
        "hole-through",
        f"holes for {statement.name.replace('_', ' ')} go right through "
        f"{thing.name.replace('_', ' ')}",
        statement.head.origin,
        rows=(
            Row("they go in", depth.measure, depth.origin),
            Row(f"{thing.name.replace('_', ' ')} is", size.measure, thing.origin),
        ),
        help="bore them less deep",
    )


def _check_inside(
    statement: Statement,
    thing: Thing,
    axis: Axis,
    extent: Extent,
    places: tuple[Quantity, ...],
    diameter: Quantity,
) -> None:
    radius = diameter.value / 2
    for at in places:
        spare = min(at.value - extent.low.value, extent.high.value - at.value) - radius
        if spare >= 0:
            continue
        two = literal(2, Dimension.COUNT)
        raise fault(
            "hole-past-edge",
            f"a hole for {statement.name.replace('_', ' ')} reaches past the edge of "
            f"{thing.name.replace('_', ' ')}",
            statement.head.origin,
            rows=(
                Row(f"its middle, {axis}", at.measure, at.origin),
                Row("its half width", divide(diameter, two, Dimension.LENGTH).measure),
                Row("the part begins", extent.low.measure, extent.low.origin),
                Row("the part ends", extent.high.measure, extent.high.origin),
            ),
            help="move it in, or make the part larger",
        )
