"""The mouths of a unit: where it is open, each in a space of its own.

A unit without a word about it has one mouth, its front, and that is the unit's own space. Where its
text says `mouth`, what a construction makes of openings, their fronts and the frame around them is
made once in each, as whoever stands before that mouth sees it; all else is the unit's.
"""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from attrs import evolve

from casewright.compiler.blame import Row
from casewright.compiler.construct.faults import fault
from casewright.compiler.construct.scope import MOUTH, twin
from casewright.compiler.construct.things import Thing
from casewright.compiler.construct.values import Several, Spatial, Value
from casewright.compiler.facing import SIDES, Look
from casewright.compiler.model import Axis, Extent, Slant
from casewright.compiler.rooms.angles import degrees_of, direction
from casewright.lang.cells import Quantity, as_place, literal
from casewright.lang.measure import Dimension, nearest
from casewright.lang.shape import Statement, bare_word
from casewright.lang.source import Origin

if TYPE_CHECKING:
    from casewright.compiler.construct.holder import Holder

FRAME_ROLE = "frame"


def of_mouths(body: Sequence[Statement]) -> tuple[Statement, ...]:
    """The lines of a unit's text that each of its mouths reads; none where it has only a front."""
    if all(statement.rule != MOUTH for statement in body):
        return ()
    return tuple(line for line in body if _stands_in_a_mouth(line))


def _stands_in_a_mouth(statement: Statement) -> bool:
    if statement.rule == "for":
        return statement.clause("of") is None
    serves = statement.clause("serves") if statement.rule == "assembly" else None
    role = bare_word(serves.values[0]) if serves is not None and serves.values else ""
    return statement.rule == "openings" or role == FRAME_ROLE


ACROSS_CORNER = ("left_front", "right_front")
"""The words for a mouth that looks across a corner of its unit."""


SLANTED: tuple[Axis, Axis] = ("across", "deep")


def faces_of(mouth: Thing) -> Look:
    """Where a mouth looks: to a side of its unit, its front where its text says no other, or
    across one of its front corners in a space of its own. Raises Fault."""
    word = _looks(mouth)
    return _slant(mouth, word) if word in ACROSS_CORNER else _side(word)


def _side(looks: str) -> Look:
    return next((faces for faces in SIDES if faces == looks), "front")


def _looks(mouth: Thing) -> str:
    word = _word(mouth.statement)
    return twin(word) if mouth.scope.mirrored else word


def _word(statement: Statement) -> str:
    clause = statement.clause("faces")
    return bare_word(clause.values[0]) if clause is not None and clause.values else ""


def looks_across_corner(statement: Statement) -> bool:
    """Whether a line of a unit's text is a mouth that looks across a corner of it."""
    return statement.rule == "mouth" and _word(statement) in ACROSS_CORNER


def _slant(mouth: Thing, looks: str) -> Slant:
    """The space of a mouth that looks across a corner: its front runs from corner to corner of the
    box its text gives it, on the side it looks to."""
    for axis in SLANTED:
        if mouth.size(axis).value <= 0:
            raise fault(
                "size-not-positive",
                f"no room is left for {mouth.name.replace('_', ' ')} {axis}",
                mouth.origin,
                rows=(Row(f"{mouth.name.replace('_', ' ')}, {axis}", mouth.size(axis).measure),),
                help="what looks across a corner goes some way along both of its walls",
            )
    across, deep = mouth.extent("across"), mouth.extent("deep")
    angle = degrees_of(mouth.size("deep").value, mouth.size("across").value)
    if looks == "left_front":
        return Slant(mouth.name, across.low.value, deep.high.value, direction(-angle))
    return Slant(mouth.name, across.low.value, deep.low.value, direction(angle))


def extents_of(mouth: Thing) -> Mapping[Axis, Extent]:
    """Where a slanted mouth lies in its own space: from one of its ends to the other, and from its
    front to the farthest corner of its unit; nothing for any other, which lies where its unit's
    text says. A root is rounded once, and marked so. Raises Fault."""
    looks = faces_of(mouth)
    if not isinstance(looks, Slant):
        return {}
    step = mouth.build.rounding
    outer = mouth.scope.holder
    rights, backs = outer.extent("across"), outer.extent("deep")
    far = max(
        looks.here(right.value, back.value)[1]
        for right in (rights.low, rights.high)
        for back in (backs.low, backs.high)
    )
    reach = literal(nearest(far, step), label="to the farthest corner")
    ends: dict[Axis, Quantity] = {"across": mouth.diagonal("plan_diagonal"), "deep": reach}
    found: dict[Axis, Extent] = {"up": mouth.extent("up")}
    for axis, length in ends.items():
        nothing = as_place(literal(Fraction(0), label=f"the mouth's own zero {axis}"), axis)
        found[axis] = Extent(nothing, evolve(as_place(length, axis), off=True))
    return found


def meeting(mouth: Thing) -> tuple[str, ...]:
    """The sides on which another mouth meets one at an inside corner."""
    clause = mouth.statement.clause("meets")
    words = [bare_word(value) for value in clause.values] if clause is not None else []
    return tuple(twin(word) if mouth.scope.mirrored else word for word in words)


def made_in(
    mouths: Sequence["Holder"], word: str, origin: Origin | None, want: Dimension | None
) -> Value:
    """Everything that the mouths of a unit make under a name; the thing itself where one is all."""
    found: list[Spatial] = []
    for mouth in mouths:
        if mouth.textual(word) not in mouth.index:
            continue
        value = mouth.value(word, mouth.scope(), origin, want)
        if isinstance(value, Several):
            found.extend(value.things)
        elif isinstance(value, Thing):
            found.append(value)
    return found[0] if len(found) == 1 else Several(tuple(found), of_mouths=True)
