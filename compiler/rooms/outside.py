"""What a unit may read from outside: the room, the fillers it takes, what is beside it and beyond.

`beside.left` and `beside.right` say what is right beside it; `beyond.left` and `beyond.right` the
same past a filler, so that a unit knows what its face comes to with the filler beside it. How that
face meets one around a corner is said by `beyond.left_mitre` and `beyond.left_slope`, and to the
right: see `Mitre`. Both are nothing between faces in one line.
"""

from collections.abc import Mapping
from fractions import Fraction

from attrs import define, field

from casewright.compiler.model import Direction, Unit
from casewright.compiler.rooms.bases import End
from casewright.compiler.rooms.layouts import OTHER
from casewright.compiler.rooms.place import Row, Slot, Turn
from casewright.compiler.rooms.room import Mitre, mitre_between
from casewright.lang.cells import Quantity, literal

ENDS: tuple[tuple[End, int], ...] = (("left", -1), ("right", 1))
"""The ends of a unit, and the way to what is beside it there."""

IN_LINE: Direction = (Fraction(1), Fraction(0))
"""By how much faces in one line turn from one another."""

DEAD_CORNER = "dead_corner"
"""What is beside a unit where a dead corner is, by the rule of its line."""


@define(eq=False)
class Outside:
    """`room` holds what can be read of the room, by name; `legs` how the mouth of each corner unit
    meets the faces beside its two ends, by its tag."""

    room: Mapping[str, Quantity | str]
    legs: dict[str, Mapping[End, Mitre]] = field(factory=dict)

    def of(self, row: Row, index: int) -> dict[str, Quantity | str]:
        """What the unit in a slot may read, by name."""
        figures: dict[str, Quantity | str] = dict(self.room)
        slot = row.slots[index]
        for side, step in ENDS:
            beside = slot_at(row, index + step)
            taken = beside is not None and beside.taken_by == slot.tag != ""
            figures[f"filler.{side}"] = (
                beside.width if taken and beside is not None else literal(0, label="no filler")
            )
            figures[f"beside.{side}"] = _what(row, beside, side)
            hidden = row.hidden.get(side) if beside is None else None
            figures[f"beside.{side}_hidden"] = hidden or literal(0, label="nothing hidden")
            figures |= self._beyond(row, index + step, side, step)
        return figures

    def _beyond(self, row: Row, at: int, side: End, step: int) -> dict[str, Quantity | str]:
        if (beside := slot_at(row, at)) is not None and beside.kind == "filler":
            at += step
        beyond = slot_at(row, at)
        found: Mitre | None = None
        if beyond is None or beyond.statement.rule == DEAD_CORNER:
            leg = self.legs.get(row.legs.get(side, ""))
            found = leg[OTHER[side]] if leg is not None else row.mitres.get(side)
        elif beyond.tag in self.legs:
            found = self.legs[beyond.tag][OTHER[side]]
        met = found or mitre_between(*IN_LINE)
        return {
            f"beyond.{side}": _what(row, beyond, side),
            f"beyond.{side}_mitre": met.past,
            f"beyond.{side}_slope": met.slope,
        }


def turn_figures(turn: Turn | None) -> dict[str, Quantity | str]:
    """What a unit may read of the corner it goes around."""
    figures: dict[str, Quantity | str] = {
        "stands.return": (
            turn.length if turn is not None else literal(0, label="not around a corner")
        ),
        "beside.around": turn.beside if turn is not None else "open",
        "beside.meeting": "corner",
    }
    return figures | {
        f"filler.{side}": literal(0, label="no filler") for side in ("around", "meeting")
    }


def mitres_of(unit: Unit, end: End) -> Mapping[End, Mitre]:
    """How the faces beside both ends of a unit in a corner at its `end` meet its mouth that looks
    across the corner; faces beside a unit of two legs are in line with them."""
    slant = next((mouth.slant for mouth in unit.mouths if mouth.slant is not None), None)
    # The leg along the run turns to the face by the slant's angle, the other by what is left of a
    # right one.
    cosine, sine = (abs(each) for each in slant.direction) if slant is not None else IN_LINE
    return {
        OTHER[end]: mitre_between(cosine, sine),
        end: mitre_between(*((sine, cosine) if slant is not None else IN_LINE)),
    }


def slot_at(row: Row, index: int) -> Slot | None:
    """What stands at a place in a row; None beyond its ends."""
    return row.slots[index] if 0 <= index < len(row.slots) else None


def _what(row: Row, slot: Slot | None, side: End) -> str:
    if slot is None:
        return row.ends.get(side, "wall")
    return DEAD_CORNER if slot.statement.rule == DEAD_CORNER else slot.kind
