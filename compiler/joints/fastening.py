"""Where fasteners stand along a joint, and how many there are.

A joint's row runs along the longer side of its contact, on the middle of the shorter one. What
holds stands a fixing's `ends` in from each end of the row and at most `every` apart, all equal.
Two never stand nearer to each other than to the ends, or they would split the stock they share
(common practice): a contact too short for that takes one, in the middle. What locates is driven
first, near both ends, and stands between what holds so that no two meet.
"""

from collections.abc import Callable
from fractions import Fraction
from math import ceil

from casewright.compiler.model import AXES, Axis, Fasteners, Fixing, Joint

Point = tuple[Fraction, Fraction, Fraction]
"""A place across, up and deep in the unit's space, inches."""

MOST_FASTENERS = 1000
"""More than this along one joint is refused: no bench drives them, and work stays bounded."""


def strip(axis: Axis, size: Callable[[Axis], Fraction | int]) -> tuple[Axis, Axis]:
    """The longer and the shorter side of a contact square to `axis`, by its sizes."""
    one, other = (each for each in AXES if each != axis)
    return (other, one) if size(other) > size(one) else (one, other)


def hold_count(length: Fraction, fixing: Fixing) -> int:
    """How many fasteners hold a contact of `length` inches. `every` is greater than nothing."""
    ends = fixing.ends.value if fixing.ends is not None else Fraction(0)
    run = length - 2 * ends
    if run < ends or run == 0:
        return 1
    if fixing.every is None:
        return 2
    return max(2, ceil(run / fixing.every.value) + 1)


def fasteners_of(length: Fraction, fixing: Fixing) -> tuple[Fasteners, ...]:
    """The rows of fasteners that `fixing` sets along a contact of `length` inches."""
    rows = []
    if fixing.locate:
        places = _locate_places(length, fixing)
        rows.append(Fasteners(fixing.locate, "locate", len(places), _spacing(places)))
    if fixing.hold:
        places = _hold_places(length, fixing)
        rows.append(Fasteners(fixing.hold, "hold", len(places), _spacing(places)))
    return tuple(rows)


def fastener_places(joint: Joint) -> tuple[tuple[Fasteners, tuple[Point, ...]], ...]:
    """Where each of a joint's fasteners crosses the contact (in a groove, half way in)."""
    if joint.fixing is None:
        return ()
    long, _ = strip(joint.axis, joint.area.size)
    low, high = joint.area.along(long)
    middle = {axis: sum(joint.area.along(axis), Fraction(0)) / 2 for axis in AXES}
    found = []
    for fasteners in joint.fasteners:
        places = (
            _hold_places(high - low, joint.fixing)
            if fasteners.use == "hold"
            else _locate_places(high - low, joint.fixing)
        )
        points = []
        for place in places:
            at = {**middle, long: low + place}
            points.append((at["across"], at["up"], at["deep"]))
        found.append((fasteners, tuple(points)))
    return tuple(found)


def _hold_places(length: Fraction, fixing: Fixing) -> tuple[Fraction, ...]:
    count = hold_count(length, fixing)
    if count == 1:
        return (length / 2,)
    ends = fixing.ends.value if fixing.ends is not None else Fraction(0)
    spacing = (length - 2 * ends) / (count - 1)
    return tuple(ends + spacing * place for place in range(count))


def _locate_places(length: Fraction, fixing: Fixing) -> tuple[Fraction, ...]:
    held = _hold_places(length, fixing)
    if not fixing.hold:
        return held if len(held) < 2 else (held[0], held[-1])
    if len(held) == 1:
        return (length / 4,)
    gap = held[1] - held[0]
    if len(held) == 2:
        return (held[0] + gap / 3, held[1] - gap / 3)
    return (held[0] + gap / 2, held[-1] - gap / 2)


def _spacing(places: tuple[Fraction, ...]) -> Fraction:
    return places[1] - places[0] if len(places) > 1 else Fraction(0)
