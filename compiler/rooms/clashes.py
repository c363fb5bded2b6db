"""What can't stand where it is placed: things of two runs in one place, islands through walls."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import combinations

from attrs import frozen

from casewright.compiler.model import Direction, Island, Placed, Range, Room, Run, Wall
from casewright.compiler.rooms.around import across_corner
from casewright.compiler.rooms.room import Point, on_line, outline, plan_point
from casewright.lang.cells import Quantity
from casewright.lang.findings import Figure, Finding, Label, error
from casewright.lang.measure import length
from casewright.lang.printing import Printing, in_words
from casewright.lang.source import Span

Quarter = tuple[Point, Point, Point, Point]


@frozen(eq=False)
class Stand:
    """What stands on the floor or hangs: its outline in plan, square to `direction`, and from what
    height to what height."""

    name: str
    outline: Quarter
    direction: Direction
    up: Range
    span: Span | None


@frozen(eq=False)
class Shared:
    """Two things in one place: the least they would have to be moved apart, and how high the place
    is that they share."""

    one: Stand
    other: Stand
    apart: Fraction
    up: Fraction


def footprint(run: Run, placed: Placed) -> Quarter:
    """The outline of a placed thing in plan: back left, back right, front right, front left."""
    assert run.origin is not None, "runs are placed in a room that is laid out"
    left, depth = placed.at.value, placed.depth.value
    right = left + placed.width.value

    def at(across: Fraction, out: Fraction) -> Point:
        assert run.origin is not None, "runs are placed in a room that is laid out"
        return plan_point(run.origin, run.direction, across, out)

    nothing = Fraction(0)
    return at(left, nothing), at(right, nothing), at(right, depth), at(left, depth)


def footprints(run: Run, placed: Placed) -> tuple[Quarter, ...]:
    """The outlines of a placed thing in plan: one, and that of the return of a corner unit."""
    around = placed.returns
    if around is None or run.origin is None:
        return (footprint(run, placed),)
    left, right = placed.at.value, placed.at.value + placed.width.value
    if around.end == "right":
        left = right - around.depth.value
    else:
        right = left + around.depth.value
    low, high = placed.depth.value, around.length.value
    corners = ((left, low), (right, low), (right, high), (left, high))
    one, two, three, four = (
        plan_point(run.origin, run.direction, across, out) for across, out in corners
    )
    return footprint(run, placed), (one, two, three, four)


def clashes(
    room: Room, runs: Sequence[Run], printing: Printing, step: Quantity
) -> tuple[Finding, ...]:
    """What stands in the same place as something else, a report for each two runs; and islands
    that go through a wall. `step` is what turned places are rounded to."""
    found = [each for run in runs for each in _through(room, run, printing, step)]
    for island in room.islands:
        found.extend(_off_floor(room, island, printing, step))
    stands = {run.name: list(_stands(run)) for run in runs}
    for one, other in combinations(runs, 2):
        shared = _worst(stands[one.name], stands[other.name], step)
        if shared is not None:
            found.append(_said(room, one, other, shared, printing))
    for island in room.islands:
        block = Stand(
            island.name,
            outline(island),
            island.direction,
            (Fraction(0), room.counter.value),
            island.span,
        )
        for run in (each for each in runs if each.island != island.name):
            if island.kind == "peninsula" and run.wall == island.wall:
                continue
            shared = _worst([block], stands[run.name], step)
            if shared is not None:
                found.append(_in_one_place(shared, printing))
    return tuple(found)


def _stands(run: Run) -> Iterator[Stand]:
    """What stands in a run; not what reaches past its space, which is a sum that doesn't close."""
    for placed in run.placed:
        if placed.kind == "space" or placed.depth.value <= 0 or placed.height.value <= 0:
            continue
        if placed.at.value < 0 or placed.at.value + placed.width.value > run.space.value:
            continue
        name = placed.tag or f"the {placed.title} of {run.title}"
        low = placed.up.value
        up = (low, low + placed.height.value)
        for outlined in footprints(run, placed):
            yield Stand(name, outlined, run.direction, up, placed.span)
        for line, seen in across_corner(run, placed):
            yield Stand(name, footprint(line, seen), line.direction, up, placed.span)


def _worst(ones: Sequence[Stand], others: Sequence[Stand], step: Quantity) -> Shared | None:
    """The two of two rows that are deepest in one another, of the first where several are."""
    if not ones or not others or _clear(_hull(ones), _hull(others)):
        return None
    worst: Shared | None = None
    for one in ones:
        for other in others:
            up = min(one.up[1], other.up[1]) - max(one.up[0], other.up[0])
            if up <= 0:
                continue
            apart = _apart(one, other)
            # Turned places are rounded; what meets at them is not in one another.
            slack = Fraction(0) if _square(one, other) else 4 * step.value
            if apart > slack and (worst is None or apart > worst.apart):
                worst = Shared(one, other, apart, up)
    return worst


def _square(one: Stand, other: Stand) -> bool:
    """Whether two things lie square to the page, so that their places are exact."""
    return all(0 in each.direction for each in (one, other))


def _hull(stands: Sequence[Stand]) -> tuple[Range, Range]:
    xs = [point[0] for stand in stands for point in stand.outline]
    ys = [point[1] for stand in stands for point in stand.outline]
    return (min(xs), max(xs)), (min(ys), max(ys))


def _clear(one: tuple[Range, Range], other: tuple[Range, Range]) -> bool:
    return any(a[1] <= b[0] or b[1] <= a[0] for a, b in zip(one, other, strict=True))


def _apart(one: Stand, other: Stand) -> Fraction:
    """How far two rectangles would have to be moved to be clear of one another, along the axis on
    which that is least: nothing or less where they are clear already."""
    axes: list[Direction] = []
    for cosine, sine in (one.direction, other.direction):
        axes.extend(((cosine, sine), (-sine, cosine)))
    return min(_overlap(one.outline, other.outline, axis) for axis in axes)


def _overlap(one: Quarter, other: Quarter, axis: Direction) -> Fraction:
    first = [x * axis[0] + y * axis[1] for x, y in one]
    second = [x * axis[0] + y * axis[1] for x, y in other]
    return min(max(first) - min(second), max(second) - min(first))


def _said(room: Room, one: Run, other: Run, shared: Shared, printing: Printing) -> Finding:
    pair = {one.wall, other.wall}
    corner = next((each for each in room.corners if {each.first, each.second} == pair), None)
    if corner is None:
        return _in_one_place(shared, printing)
    first, second = (one, other) if one.wall == corner.first else (other, one)
    return error(
        "two-in-one-corner",
        f"{shared.one.name} and {shared.other.name} stand in the same corner of "
        f"{corner.first} and {corner.second}",
        shared.other.span,
        figures=(
            Figure(f"run {first.name} ends at", length(_end(first)), first.span),
            Figure(f"{first.wall} is long", _wall(room, first.wall).length.measure),
            Figure(f"run {second.name} begins at", second.start.measure, second.span),
            Figure("in one another by", length(shared.apart), ruled=True),
        ),
        labels=_labels(shared),
        help=_apart_in_corner(first, second),
    )


def _apart_in_corner(first: Run, second: Run) -> str:
    """How two runs share a corner: past what reaches along both walls, or as runs agree."""
    for run, word, other in ((first, "after", second), (second, "before", first)):
        reaching = next((each for each in run.placed if each.returns is not None), None)
        if reaching is not None:
            return f"let run {other.name} say {word} {reaching.tag}, which takes both walls there"
    return (
        f"begin {second.name} after the unit in the corner, or {first.name} before it, or let "
        f"both say dead_corner: in {first.name} with {second.name}, in {second.name} with "
        f"{first.name}"
    )


def _end(run: Run) -> Fraction:
    return run.start.value + run.space.value


def _wall(room: Room, name: str) -> Wall:
    return next(wall for wall in room.walls if wall.name == name)


def _in_one_place(shared: Shared, printing: Printing) -> Finding:
    by = in_words(length(shared.apart), printing)
    return error(
        "in-one-place",
        f"{shared.one.name} and {shared.other.name} stand {by} in one another",
        shared.other.span,
        figures=(
            Figure("in one another by", length(shared.apart)),
            Figure("over a height of", length(shared.up)),
        ),
        labels=_labels(shared),
        help="move one of the two, or end its run before the other begins",
    )


def _labels(shared: Shared) -> tuple[Label, ...]:
    return (Label(shared.one.span, shared.one.name),) if shared.one.span is not None else ()


# -- walls -------------------------------------------------------------------------------------


def _through(room: Room, run: Run, printing: Printing, step: Quantity) -> Iterator[Finding]:
    """Things on an island that stand out behind its other side."""
    island = next((each for each in room.islands if each.name == run.island), None)
    if island is None:
        return
    deep = island.depth if run.facing in ("front", "back") else island.width
    by = run.depth.value - deep.value if run.depth is not None else Fraction(0)
    if by > 0 and run.depth is not None:
        yield error(
            "deeper-than-island",
            f"run {run.name} is {in_words(length(by), printing)} deeper than {island.name}",
            run.span,
            figures=(
                Figure(f"run {run.name} is deep", run.depth.measure, run.span),
                Figure(f"{island.name} is deep, from {run.facing}", deep.measure, island.span),
                Figure("over", length(by), ruled=True),
            ),
            help=f"make {island.name} deeper, or its units shallower",
        )


def _off_floor(room: Room, island: Island, printing: Printing, step: Quantity) -> Iterator[Finding]:
    """An island that goes through a wall, or lies outside the room."""
    corners = outline(island)
    slack = Fraction(0) if 0 in island.direction else 4 * step.value
    deepest: tuple[Fraction, Wall] | None = None
    for wall in room.walls:
        behind = _behind(wall, corners)
        if behind > slack and (deepest is None or behind > deepest[0]):
            deepest = behind, wall
    if deepest is None:
        return
    behind, wall = deepest
    by = in_words(length(behind), printing)
    yield error(
        "island-through-wall",
        f"{island.kind} {island.name} goes {by} through wall {wall.name}",
        island.span,
        figures=(
            Figure(f"{island.name} is out from {island.wall}", island.out.measure),
            Figure(f"begins along {island.wall} at", island.at.measure),
            Figure("is long", island.width.measure),
            Figure("is deep", island.depth.measure),
            Figure(f"past {wall.name}", length(behind), ruled=True),
        ),
        labels=(Label(wall.span, f"wall {wall.name}"),) if wall.span is not None else (),
        help=f"move {island.name} by that much, or make it smaller",
    )


def _behind(wall: Wall, corners: Quarter) -> Fraction:
    """How far an outline reaches behind a wall, between the wall's two ends."""
    assert wall.origin is not None, "walls are laid out"
    within = [on_line(wall.origin, wall.direction, corner) for corner in corners]
    for end, keeps_right in ((Fraction(0), True), (wall.length.value, False)):
        within = _cut(within, end, keeps_right)
    return -min((out for _, out in within), default=Fraction(0))


def _cut(points: Sequence[Point], end: Fraction, keeps_right: bool) -> list[Point]:
    """A convex outline cut off at a place along a wall."""
    kept: list[Point] = []
    for (along, out), (after, far) in zip(points, [*points[1:], *points[:1]], strict=False):
        inside = along > end if keeps_right else along < end
        after_inside = after > end if keeps_right else after < end
        if inside:
            kept.append((along, out))
        if inside != after_inside and after != along:
            kept.append((end, out + (far - out) * (end - along) / (after - along)))
    return kept
