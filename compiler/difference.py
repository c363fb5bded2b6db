"""Two builds of a kitchen compared: the difference first, its wording elsewhere.

Identity is by address: a tag is a unit, a tag and a name a part. What becomes of the parts of a
changed unit is decided here, since a shop wants to know what it has to cut again.
"""

from collections.abc import Iterator, Mapping
from enum import Enum

from attrs import frozen

from casewright.compiler.model import AXES, EDGES, Axis, Job, Part, Placed, Room, Run
from casewright.compiler.naming import room_figures
from casewright.lang.cells import Quantity
from casewright.lang.source import Span


class Fate(Enum):
    """What becomes of a part."""

    KEPT = "kept"
    CUT_DOWN = "cut down"
    CUT_AGAIN = "cut again"
    NEW = "new"
    SPARE = "spare"


@frozen
class PartChange:
    """A part of a changed unit. `was` is its old self, `now` its new one; one of them is None for
    a part that came or went. `why` says in words what forbids keeping it or cutting it down, or
    what is still to be done to one that is kept. `sawn`: one of the two texts says that it is sawn
    already."""

    address: str
    title: str
    fate: Fate
    was: Part | None
    now: Part | None
    why: str = ""
    sawn: bool = False


@frozen
class UnitChange:
    """A placed thing that came, went, moved or changed. `figures` holds what about it differs, by
    word, first its sizes and places (inches), then its options, those that both constructions
    have; `lines` the two texts of its own, where they differ."""

    address: str
    kind: str
    was: Placed | None
    now: Placed | None
    figures: tuple[tuple[str, Quantity | str, Quantity | str], ...]
    lines: tuple[Span | None, Span | None]
    parts: tuple[PartChange, ...]


@frozen
class RunChange:
    """A run whose space, place or sum differs, or whose things share it out otherwise."""

    name: str
    was: Run | None
    now: Run | None
    gave: tuple[tuple[str, Quantity], ...]
    took: tuple[tuple[str, Quantity], ...]


@frozen
class RoomChange:
    """A figure of the room that differs, by its address; None where a wall or what is on it came
    or went."""

    address: str
    was: Quantity | None
    now: Quantity | None


@frozen
class Difference:
    """Everything that differs between two builds; `same` counts cabinets that are as they were.
    `resumed`: some parts of one of them are sawn already."""

    units: tuple[UnitChange, ...]
    runs: tuple[RunChange, ...]
    room: tuple[RoomChange, ...]
    same: int
    resumed: bool

    @property
    def equal(self) -> bool:
        return not self.units and not self.runs and not self.room

    @property
    def recuts(self) -> tuple[tuple[str, PartChange], ...]:
        """Parts that are sawn already and are not kept, each with its full address."""
        return tuple(
            (f"{change.address}.{part.address}", part)
            for change in self.units
            for part in change.parts
            if part.sawn and part.fate in (Fate.CUT_AGAIN, Fate.CUT_DOWN)
        )


def compare(was: Job, now: Job) -> Difference:
    """What differs from `was` to `now`, in the order of the new kitchen, what went last."""
    old = {placed.address: placed for placed in was.placed}
    new = {placed.address: placed for placed in now.placed}
    sawn = was.sawn | now.sawn
    changes: list[UnitChange] = []
    same = 0
    for address, placed in new.items():
        before = old.get(address)
        change = _arrived(placed) if before is None else _changed(before, placed, sawn)
        if change is None:
            same += placed.kind == "unit"
        else:
            changes.append(change)
    changes.extend(_left(placed) for address, placed in old.items() if address not in new)
    return Difference(tuple(changes), _runs(was, now), tuple(_room(was, now)), same, bool(sawn))


def _arrived(placed: Placed) -> UnitChange:
    parts = tuple(
        PartChange(part.address, part.title, Fate.NEW, None, part) for part in _cut_parts(placed)
    )
    return UnitChange(placed.address, "added", None, placed, (), (None, placed.span), parts)


def _left(placed: Placed) -> UnitChange:
    parts = tuple(
        PartChange(part.address, part.title, Fate.SPARE, part, None) for part in _cut_parts(placed)
    )
    return UnitChange(placed.address, "removed", placed, None, (), (placed.span, None), parts)


def _cut_parts(placed: Placed) -> tuple[Part, ...]:
    """What is cut for it: its parts but for bought things."""
    parts = placed.unit.parts if placed.unit is not None else ()
    return tuple(part for part in parts if not part.hardware)


def _changed(was: Placed, now: Placed, sawn: frozenset[str]) -> UnitChange | None:
    figures = tuple(_figures(was, now))
    parts = _parts(was, now, sawn)
    touched = any(change.fate is not Fate.KEPT for change in parts) or was.title != now.title
    lines = _lines(was, now)
    kinds = was.kind != now.kind
    if not touched and not figures and not kinds:
        return None
    moved = not touched and not kinds and all(word in ("at", "up") for word, _, _ in figures)
    return UnitChange(now.address, "moved" if moved else "changed", was, now, figures, lines, parts)


def _figures(was: Placed, now: Placed) -> list[tuple[str, Quantity | str, Quantity | str]]:
    found: list[tuple[str, Quantity | str, Quantity | str]] = []
    for word, before, after in (
        ("across", was.width, now.width),
        ("high", was.height, now.height),
        ("depth", was.depth, now.depth),
        ("at", was.at, now.at),
        ("up", was.up, now.up),
    ):
        if before.value != after.value:
            found.append((word, before, after))
    if was.title != now.title:
        found.append(("is", was.title, now.title))
    if was.unit is None or now.unit is None:
        return found
    old, new = was.unit.options, now.unit.options
    built = was.unit.construction, now.unit.construction
    if built[0] != built[1]:
        found.append(("built", *built))
    elif old.keys() != new.keys() and was.title == now.title:
        # One name, two parents: what options there are says it, and each of them would say nothing.
        found.append(("built", built[0], f"{built[1]}, made otherwise"))
    found += [
        (name, old[name], new[name])
        for name in sorted(old.keys() & new.keys())
        if old[name] != new[name]
    ]
    return found


def _lines(was: Placed, now: Placed) -> tuple[Span | None, Span | None]:
    """The lines of the two texts, where their words differ."""

    def words(span: Span | None) -> list[str]:
        return span.text.split() if span is not None else []

    return (was.span, now.span) if words(was.span) != words(now.span) else (None, None)


def _parts(was: Placed, now: Placed, sawn: frozenset[str]) -> tuple[PartChange, ...]:
    old = {part.address: part for part in _cut_parts(was)}
    new = {part.address: part for part in _cut_parts(now)}
    changes: list[PartChange] = []
    for address, part in new.items():
        before = old.get(address)
        if before is None:
            changes.append(PartChange(address, part.title, Fate.NEW, None, part))
        else:
            fate, why = fate_of(before, part)
            done = f"{now.address}.{address}" in sawn
            changes.append(PartChange(address, part.title, fate, before, part, why, done))
    changes.extend(
        PartChange(address, part.title, Fate.SPARE, part, None)
        for address, part in old.items()
        if address not in new
    )
    return tuple(changes)


def fate_of(was: Part, now: Part) -> tuple[Fate, str]:
    """What becomes of a part that was cut as `was` and is wanted as `now`, and why.

    It is kept if nothing about the piece of wood differs but for holes that are bored as well; cut
    down if the old piece holds the new one and no band or machining is lost on the way (common
    practice); else cut again.
    """
    if was.material.name != now.material.name or was.thick.value != now.thick.value:
        return Fate.CUT_AGAIN, "of another material"
    if _axes(was) != _axes(now):
        return Fate.CUT_AGAIN, "the grain runs otherwise"
    if _bands(was) != _bands(now):
        return Fate.CUT_AGAIN, "banded otherwise"
    shrunk: list[Axis] = []
    for axis in (now.length_axis, now.width_axis):
        before, after = was.box.size(axis), now.box.size(axis)
        if after > before:
            return Fate.CUT_AGAIN, "larger than it was"
        if after < before:
            shrunk.append(axis)
    for axis in shrunk:
        if len(_finished_ends(now, axis)) > 1:
            return Fate.CUT_AGAIN, "banded on both edges that would be cut"
    if _slanted_or_banded(was) != _slanted_or_banded(now):
        return Fate.CUT_AGAIN, "machined otherwise"
    still = tuple(axis for axis in AXES if axis not in shrunk)
    if _machined(was, still) != _machined(now, still):
        return Fate.CUT_AGAIN, "machined otherwise"
    old, new = _bored(was, still), _bored(now, still)
    if not old <= new:
        return Fate.CUT_AGAIN, "bored otherwise"
    return Fate.CUT_DOWN if shrunk else Fate.KEPT, "more holes are bored" if old < new else ""


def _axes(part: Part) -> tuple[Axis, Axis | None]:
    """How the piece stands; without grain its length is only the longer of two sides."""
    return (part.thick_axis, part.length_axis if part.grained else None)


def _bands(part: Part) -> frozenset[tuple[str, str]]:
    return frozenset(
        (
            *((banding.edge, banding.band.name) for banding in part.bands),
            *((" ".join(edge.looks), edge.band.name) for edge in part.cut_edges),
        )
    )


def _finished_ends(part: Part, axis: Axis) -> frozenset[int]:
    """The ends along an axis (-1 low, 1 high) that nothing can be taken off: their edge is banded,
    or a cut that slants or is banded begins there."""
    ends = {EDGES[each.edge][1] for each in part.bands if EDGES[each.edge][0] == axis}
    low, high = part.box.along(axis)
    for cut in part.cuts:
        if cut.edges or cut.corner:
            start, end = cut.box.along(axis)
            ends |= {side for side, at_end in ((-1, start <= low), (1, end >= high)) if at_end}
    return frozenset(ends)


def _slanted_or_banded(part: Part) -> frozenset[tuple[object, ...]]:
    """The sizes of the cuts that can't be made again on what is left of a part."""
    return frozenset(
        (cut.corner, tuple(cut.box.size(axis) for axis in AXES))
        for cut in part.cuts
        if cut.edges or cut.corner
    )


def _machined(part: Part, axes: tuple[Axis, ...]) -> frozenset[tuple[object, ...]]:
    """Its cuts and grooves, told from its own low corner along `axes`."""
    box = part.box
    return frozenset(
        (
            cut.kind,
            cut.corner,
            *((cut.box.along(axis)[0] - box.along(axis)[0], cut.box.size(axis)) for axis in axes),
        )
        for cut in part.cuts
    )


def _bored(part: Part, axes: tuple[Axis, ...]) -> frozenset[tuple[object, ...]]:
    """Its holes, told from its own low corner along `axes`."""
    box = part.box
    return frozenset(
        (
            hole.axis,
            hole.side,
            hole.diameter.value,
            hole.depth.value,
            *(
                (axis, at.value - box.along(axis)[0])
                for axis, at in zip(hole.at_axes, hole.at, strict=True)
                if axis in axes
            ),
        )
        for hole in part.holes
    )


def _surveyed(room: Room) -> dict[str, Quantity]:
    found = room_figures(room)
    for corner in room.corners:
        found[f"corner {corner.first} {corner.second}"] = corner.angle
    for island in room.islands:
        for word in ("at", "out", "width", "depth", "turn"):
            found[f"{island.name}.{word}"] = getattr(island, word)
    return found


def _room(was: Job, now: Job) -> Iterator[RoomChange]:
    """What differs of the room as measured; of what is new or gone, where it is."""
    old, new = _surveyed(was.room), _surveyed(now.room)
    for address in dict.fromkeys((*new, *old)):
        before, after = old.get(address), new.get(address)
        if before is not None and after is not None:
            if before.value != after.value:
                yield RoomChange(address, before, after)
        elif address.endswith((".at", ".length")):
            yield RoomChange(address, before, after)


def _runs(was: Job, now: Job) -> tuple[RunChange, ...]:
    old = {run.name: run for run in was.runs}
    new = {run.name: run for run in now.runs}
    changes: list[RunChange] = []
    for name in dict.fromkeys((*new, *old)):
        before, after = old.get(name), new.get(name)
        if before is None or after is None:
            changes.append(RunChange(name, before, after, (), ()))
            continue
        gave, took = _passed(_widths(before), _widths(after))
        if gave or took or before.space.value != after.space.value:
            changes.append(RunChange(name, before, after, gave, took))
    return tuple(changes)


def _widths(run: Run) -> Mapping[str, Quantity]:
    return {placed.address: placed.width for placed in run.placed}


def _passed(
    was: Mapping[str, Quantity], now: Mapping[str, Quantity]
) -> tuple[tuple[tuple[str, Quantity], ...], tuple[tuple[str, Quantity], ...]]:
    """Who of a run became narrower, and who wider, and by how much."""
    gave: list[tuple[str, Quantity]] = []
    took: list[tuple[str, Quantity]] = []
    for address, width in now.items():
        by = width.value - was[address].value if address in was else width.value
        if by:
            change = Quantity(abs(by), width.dimension)
            (took if by > 0 else gave).append((address, change))
    gave.extend((address, width) for address, width in was.items() if address not in now)
    return tuple(gave), tuple(took)
