"""Fasteners that stand in holes bored for them: a joint has as many as there are holes at it.

Where a fixing says `bored`, the text's holes decide how many fasteners there are and where; no
spacing of the fixing's own is reckoned beside them.
"""

from fractions import Fraction
from itertools import pairwise

from attrs import evolve

from casewright.compiler.blame import Blame, finding_at
from casewright.compiler.model import AXES, Axis, Fasteners, Fixing, Joint, Part


def in_bored_holes(
    parts: tuple[Part, ...], joints: tuple[Joint, ...]
) -> tuple[tuple[Joint, ...], tuple[Blame, ...]]:
    """The joints, with what a fixing's holes hold counted by the holes at each; and a blame for
    each line whose fixing stands in bored holes where none are bored."""
    by_path = {part.path: part for part in parts}
    found: list[Joint] = []
    blames: dict[object, Blame] = {}
    for joint in joints:
        fixing = joint.fixing
        if fixing is None or not fixing.bored:
            found.append(joint)
            continue
        first, second = by_path[joint.first], by_path[joint.second]
        places = _places(first, second, joint)
        if not places:
            blames.setdefault(joint.origin, _nothing_bored(fixing, first, second, joint))
        row = Fasteners(fixing.hold, "hold", len(places), _spacing(places))
        located = tuple(each for each in joint.fasteners if each.use == "locate")
        found.append(evolve(joint, fasteners=(*located, row) if places else located))
    return tuple(found), tuple(blames.values())


def _places(first: Part, second: Part, joint: Joint) -> list[tuple[Fraction, Fraction]]:
    """Where the holes of either part open at the joint, on the two axes of its contact."""
    flat: list[Axis] = [axis for axis in AXES if axis != joint.axis]
    places = set()
    for part, side in ((first, joint.side), (second, -joint.side)):
        for hole in part.holes:
            if hole.axis != joint.axis:
                continue
            through = hole.depth.value >= part.box.size(hole.axis)
            at = dict(zip(hole.at_axes, (each.value for each in hole.at), strict=True))
            inside = all(
                low <= at[axis] <= high for axis in flat for low, high in (joint.area.along(axis),)
            )
            if inside and (through or hole.side == side):
                places.add((at[flat[0]], at[flat[1]]))
    return sorted(places)


def _spacing(places: list[tuple[Fraction, Fraction]]) -> Fraction:
    """How far apart holes in one row are, if all are equally far; else nothing."""
    for along, beside in ((0, 1), (1, 0)):
        row = sorted(place[along] for place in places)
        steps = {far - near for near, far in pairwise(row)}
        if len({place[beside] for place in places}) == 1 and len(steps) == 1:
            return steps.pop()
    return Fraction(0)


def _nothing_bored(fixing: Fixing, first: Part, second: Part, joint: Joint) -> Blame:
    return finding_at(
        joint.origin,
        "nothing-bored",
        f"fixing {fixing.name} wants bored holes, and there are none where {first.address} meets "
        f"{second.address}",
        help="add `holes` there, or say in the fixing how far apart they stand",
    )
