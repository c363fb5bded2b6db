"""Parts whose figure must run on: cut from one piece of one sheet, one after another, in order.

A sheet's text says of which role its parts match (`matches front`). In a unit, those that stand
over one another are one set, from the top down; those left that stand side by side are another,
from left to right. A set is asked of the planner as one piece as large as its parts with a kerf
between them, so that whatever is planned keeps them together.
"""

from collections.abc import Iterable, Iterator
from typing import Final

from attrs import frozen

from casewright.compiler.model import Axis, Material, Part, Range

MATCHES: Final = "matches"
"""The word by which a sheet says what of its parts must match."""


@frozen
class MatchedSet:
    """Parts of one unit in the order they are cut from one piece.

    `along` says that they follow one another along the grain (crosscut apart), else across it
    (ripped apart).
    """

    name: str
    parts: tuple[Part, ...]
    along: bool

    @property
    def grained(self) -> bool:
        """Whether the grain of any of them is locked."""
        return any(part.grained for part in self.parts)


def matched_sets(parts: Iterable[Part], material: Material) -> tuple[MatchedSet, ...]:
    """The sets of a material among the parts of a unit; a part that stands alone is in none."""
    role = material.data.get(MATCHES)
    matching = [
        part
        for part in parts
        if part.material.name == material.name
        and part.role == role
        and not part.hardware
        and not part.blank
    ]
    over = list(_standing(matching, "across", "up", falling=True))
    held = {part.path for group in over for part in group}
    beside = _standing([each for each in matching if each.path not in held], "up", "across")
    return tuple(
        MatchedSet(f"matched_{number}", tuple(group), group[0].length_axis == axis)
        for number, (group, axis) in enumerate(
            [*((group, "up") for group in over), *((group, "across") for group in beside)], 1
        )
    )


def _standing(
    parts: Iterable[Part], same: Axis, order: Axis, *, falling: bool = False
) -> Iterator[list[Part]]:
    """Parts of one extent along `same`, in order along `order`; only where there are several."""
    groups: dict[tuple[Range, Axis, Axis], list[Part]] = {}
    for part in parts:
        key = (part.box.along(same), part.length_axis, part.thick_axis)
        # A part that lies flat along the order has no next one in its own plane.
        if part.thick_axis != order:
            groups.setdefault(key, []).append(part)
    for group in groups.values():
        if len(group) > 1:
            yield sorted(group, key=lambda part: part.box.along(order)[0], reverse=falling)
