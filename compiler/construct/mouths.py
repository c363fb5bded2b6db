"""The mouths of a unit: where it is open, each in a space of its own.

A unit without a word about it has one mouth, its front, and that is the unit's own space. Where its
text says `mouth`, what a construction makes of openings, their fronts and the frame around them is
made once in each, as whoever stands before that mouth sees it; all else is the unit's.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from casewright.compiler.construct.scope import MOUTH, twin
from casewright.compiler.construct.things import Thing
from casewright.compiler.construct.values import Several, Spatial, Value
from casewright.compiler.facing import SIDES
from casewright.compiler.model import Faces
from casewright.lang.measure import Dimension
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


def faces_of(mouth: Thing) -> Faces:
    """The side of its unit to which a mouth looks; its front where its text says no other."""
    clause = mouth.statement.clause("faces")
    word = bare_word(clause.values[0]) if clause is not None and clause.values else ""
    looks = twin(word) if mouth.scope.mirrored else word
    return next((faces for faces in SIDES if faces == looks), "front")


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
