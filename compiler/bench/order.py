"""Order: every step of the bench proved before it is printed.

Each thing a step brings (a part, or an assembly as one body) must be able to slide straight to its
place from far along one of its six own directions, past everything that stands on the same bench
already. Bodies are boxes less their cuts and grooves, the mover's and the standing ones' alike.
Nothing that stands is left out of the proof: what the mover will touch or enter bars its way like
anything else, except where it is cut away. The test is exact: the mover, drawn out without end
towards where it comes from, shares no space with what stands.

Where several ways are free, the one that is said presses the thing onto the most of what it is
joined to, so that faces meet at the last moment and no glue is wiped off by sliding; among equals
straight down onto what lies on the bench, for then nothing is held up while it is fastened; then
from above, the front, the sides and the back as the cabinet will stand; from the bench's side last,
because the work must be lifted off for it.

When a bring closes a joint, its fasteners are driven there and then: room for that is looked for
among what stands at that moment (`driving.py`). Which of the two parts comes last doesn't matter.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping
from fractions import Fraction
from functools import cache, partial

from attrs import define

from casewright.compiler.bench.brings import Bench, Bring, Names, read_orders
from casewright.compiler.bench.driving import Hindrance, Standing, driven, hindrances
from casewright.compiler.blame import Blame, Row, finding_at
from casewright.compiler.joints.geometry import (
    EVERY_WAY,
    Scale,
    around,
    replace,
    scale_of,
    shared,
    solid_of,
    volume,
    ways_blocked,
)
from casewright.compiler.joints.oblique import bars, has_corner_cut, prisms
from casewright.compiler.model import (
    AXES,
    EDGES,
    Assembly,
    Axis,
    Joint,
    Order,
    Part,
    Slant,
    Step,
    Way,
)
from casewright.lang.measure import length

End = tuple[Axis, int]
"""An axis and -1 for its low end or 1 for its high end."""

WAYS: Mapping[End, str] = {
    ("up", 1): "from above",
    ("deep", -1): "from the front",
    ("across", -1): "from the left",
    ("across", 1): "from the right",
    ("deep", 1): "from the back",
    ("up", -1): "from below",
}
"""The six ways in, as the cabinet will stand, the one that is said before all others first."""


def prove_order(
    parts: tuple[Part, ...],
    assemblies: tuple[Assembly, ...],
    joints: tuple[Joint, ...],
    orders: tuple[Order, ...],
) -> tuple[tuple[Step, ...], tuple[Blame, ...]]:
    """The steps with the way in of everything they bring and the joints they close, and faults.

    `parts` have their grooves. A name that is no part's or assembly's is passed over: whoever read
    the step has reported it. Steps stand bench by bench, every assembly's before those of what it
    is brought into; each order gives one step.
    """
    names = Names(
        {part.path: part for part in parts},
        {assembly.path: assembly for assembly in assemblies},
    )
    benches, blames = read_orders(names, orders)
    shop = _Shop(names, joints)
    steps = tuple(step for bench in benches for step in shop.prove(bench))
    return steps, (*blames, *shop.blames)


@define(init=False)
class _Shop:
    """The bodies of all parts, the joints of each by number, and the faults found so far."""

    names: Names
    scale: Scale
    bodies: dict[str, Standing]
    joints: tuple[Joint, ...]
    joints_of: dict[str, list[int]]
    blames: list[Blame]

    def __init__(self, names: Names, joints: tuple[Joint, ...]) -> None:
        self.names = names
        self.scale = scale_of(names.parts.values(), _lengths(joints))
        self.bodies = {}
        for path, part in names.parts.items():
            solid = solid_of(part, self.scale)
            block = around(solid) if solid else self.scale.block(part.box)
            whole = not has_corner_cut(part)
            body = cache(partial(prisms, part, solid, self.scale))
            self.bodies[path] = Standing(path, block, solid, part.slant, whole, body)
        self.joints = joints
        self.joints_of = {path: [] for path in names.parts}
        for number, joint in enumerate(joints):
            self.joints_of[joint.first].append(number)
            self.joints_of[joint.second].append(number)
        self.blames = []

    def prove(self, bench: Bench) -> Iterator[Step]:
        standing: dict[str, Standing] = {}
        lies = ""
        for number, (order, brings) in enumerate(bench.orders, 1):
            # The work lies as it was last laid.
            lies = order.lies or lies
            ways: list[Way] = []
            closed: list[int] = []
            for bring in brings:
                if not bring.body:
                    continue
                closing = self._closing(bring, standing)
                ways.append(self._way_in(order, bring, standing, lies, closing))
                standing.update((path, self.bodies[path]) for path in bring.body)
                for joint in closing:
                    self._find_room(order, self.joints[joint], standing)
                closed.extend(closing)
            yield Step(
                number,
                order.assembly,
                tuple(ways),
                order.lies,
                order.words,
                tuple(sorted(closed)),
                order.origin,
            )

    def _closing(self, bring: Bring, standing: Mapping[str, Standing]) -> list[int]:
        """The joints between what comes in and what stands."""
        return [
            number
            for path in bring.body
            for number in self.joints_of[path]
            if self.joints[number].first in standing or self.joints[number].second in standing
        ]

    def _way_in(
        self,
        order: Order,
        bring: Bring,
        standing: Mapping[str, Standing],
        lies: str,
        closing: list[int],
    ) -> Way:
        if not standing:
            return Way(bring.thing, "", 0)
        body = [self.bodies[path] for path in bring.body]
        barred = _barred(body, standing.values())
        free = [end for end in _preferred(lies) if not barred & _bit(*end)]
        if free:
            slant = _slant_of(body)
            pressing = [
                self._pressing(self.joints[joint], standing)
                for joint in closing
                if self.joints[joint].slant == slant
            ]
            return Way(bring.thing, *max(free, key=pressing.count))
        self.blames.append(_no_way_in(self.names, order, bring.thing, body, standing.values()))
        return Way(bring.thing, "", 0)

    def _pressing(self, joint: Joint, standing: Mapping[str, Standing]) -> End:
        """The end from which the part that comes is pressed onto the one that stands."""
        return joint.axis, -joint.side if joint.second in standing else joint.side

    def _find_room(self, order: Order, joint: Joint, standing: Mapping[str, Standing]) -> None:
        if driven(joint) is None:
            return
        parts = self.names.parts
        found = hindrances(
            self.scale, joint, parts[joint.first], parts[joint.second], standing.values()
        )
        if found:
            self.blames.append(_no_room(self.names, self.scale, order, joint, found))


def _lengths(joints: Iterable[Joint]) -> Iterator[Fraction]:
    """Every length of the joints that the scale must hold."""
    for joint in joints:
        if joint.fixing is not None and joint.fixing.needs is not None:
            yield joint.fixing.needs.value
            for axis in AXES:
                yield from joint.area.along(axis)


def _barred(body: Iterable[Standing], standing: Iterable[Standing]) -> int:
    """The ways in that what stands bars to `body`, as bits of `ways_blocked`."""
    barred = 0
    body = tuple(body)
    slant = _slant_of(body)
    for part in body:
        block, solid = part.block, part.solid
        for other in standing:
            if not _are_square(part, other, slant):
                barred |= _barred_askew(part, other, slant)
                continue
            # What the outlines of two parts don't bar, no piece of theirs does.
            could = ways_blocked(block, other.block)
            if could | barred == barred:
                continue
            if len(solid) == 1 and len(other.solid) == 1:
                barred |= could
            else:
                for piece in solid:
                    for obstacle in other.solid:
                        barred |= ways_blocked(piece, obstacle)
            if barred == EVERY_WAY:
                return barred
    return barred


def _slant_of(body: Iterable[Standing]) -> Slant | None:
    """By whose axes a thing comes in: its own, where all of it is turned alike."""
    slants = {part.slant for part in body}
    return slants.pop() if len(slants) == 1 else None


def _are_square(part: Standing, other: Standing, slant: Slant | None) -> bool:
    """Whether two parts lie as blocks by the axes that something comes in along."""
    return part.slant == other.slant == slant and part.whole and other.whole


def _barred_askew(part: Standing, other: Standing, slant: Slant | None) -> int:
    barred = 0
    for axis, side in WAYS:
        if bars(part.body(), other.body(), slant, axis, side):
            barred |= _bit(axis, side)
    return barred


def _bit(axis: Axis, side: int) -> int:
    return 1 << (2 * AXES.index(axis) + (side == 1))


def _preferred(lies: str) -> list[End]:
    """The six ends, the one to be said first standing first; see the module."""
    ends = list(WAYS)
    if lies in EDGES:
        axis, side = EDGES[lies]
        down, beneath = (axis, -side), (axis, side)
        ends = [down, *(end for end in ends if end not in (down, beneath)), beneath]
    return ends


def _no_way_in(
    names: Names,
    order: Order,
    thing: str,
    body: Collection[Standing],
    standing: Collection[Standing],
) -> Blame:
    rows = []
    blockers: dict[str, None] = {}
    for (axis, side), words in WAYS.items():
        blocker = _most_in_the_way(body, standing, axis, side)
        blockers[blocker] = None
        rows.append(Row(words, origin=names.origin(blocker), note=names.address(blocker)))
    listed = ", ".join(names.address(each) for each in blockers)
    address = names.address(thing)
    return finding_at(
        order.origin,
        "no-way-in",
        f"{address} has no way in past {listed}",
        rows=tuple(rows),
        labels=((names.origin(thing), address),),
        help=f"bring {address} in before one of them",
    )


def _most_in_the_way(
    body: Collection[Standing], standing: Collection[Standing], axis: Axis, side: int
) -> str:
    """Of what bars this way (something does), the part that covers most of it."""
    bit = _bit(axis, side)
    covered: dict[str, int] = {}
    slant = _slant_of(body)
    for other in standing:
        askew = [part for part in body if not _are_square(part, other, slant)]
        for part in askew:
            if _barred_askew(part, other, slant) & bit:
                covered[other.path] = covered.get(other.path, 0) + volume((other.block,))
        if askew:
            continue
        for obstacle in other.solid:
            for piece in (piece for part in body for piece in part.solid):
                if ways_blocked(piece, obstacle) & bit:
                    flat = (replace(piece, axis, 0, 1), replace(obstacle, axis, 0, 1))
                    covered[other.path] = covered.get(other.path, 0) + volume(
                        shared((flat[0],), (flat[1],))
                    )
    return max(covered, key=lambda path: covered[path])


def _no_room(
    names: Names, scale: Scale, order: Order, joint: Joint, found: tuple[Hindrance, ...]
) -> Blame:
    fixing = joint.fixing
    assert fixing is not None
    assert fixing.needs is not None
    first, second = names.address(joint.first), names.address(joint.second)
    rows = [Row(f"{fixing.name} needs", length(fixing.needs.value), fixing.needs.origin)]
    rows.extend(
        Row(
            f"{each.words}, as far as {names.address(each.by)}",
            length(scale.inches(each.room)),
            names.origin(each.by),
        )
        for each in found
    )
    listed = ", ".join(dict.fromkeys(names.address(each.by) for each in found))
    return finding_at(
        joint.origin,
        "no-room-to-drive",
        f"{listed} leaves no room to drive {fixing.name} between {first} and {second}",
        rows=tuple(rows),
        labels=((order.origin, "this step closes the joint"),),
        help=f"join {first} to {second} before {listed} stands there",
    )
