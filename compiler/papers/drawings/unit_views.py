"""A unit drawn for the bench: front, story stick and section, at one scale on one floor line."""

from collections.abc import Iterator, Sequence

from attrs import evolve, frozen

from casewright.compiler.model import Axis, Job, Part, Unit
from casewright.compiler.papers.drawings import chains
from casewright.compiler.papers.drawings.chains import Link
from casewright.compiler.papers.drawings.corner_plan import corner_plan
from casewright.compiler.papers.drawings.drawing import (
    WIDEST,
    Canvas,
    Drawing,
    View,
    scales,
)
from casewright.compiler.papers.drawings.marks import grain
from casewright.compiler.papers.drawings.outlines import Rectangle, draw
from casewright.compiler.papers.drawings.seen import (
    draw_pull,
    edge_figure,
    hinge_dashes,
    hinge_side,
    is_turned,
    name_in,
    pulls,
    toe_top,
    visible,
)
from casewright.compiler.papers.drawings.story_stick import sticks
from casewright.compiler.papers.drawings.unit_section import section
from casewright.compiler.papers.figures import Figure, difference, figure, printing_of
from casewright.compiler.papers.names import words
from casewright.compiler.papers.pieces import Built
from casewright.compiler.rooms.around import across_corner, around_corner
from casewright.lang.measure import System

VIEW_WIDE = 92.0
"""What a view may take across, in millimetres: two stand side by side on paper, one on a phone."""

TALLEST = 160.0
"""What a view may take in height where nothing else is said, in millimetres."""

_SMALLEST = 20
_BETWEEN = 2.2
_LAST = {system: scales(system)[-1] for system in System}


@frozen
class UnitViews:
    """The views of a unit, all to one scale; `note` tells what is said in words."""

    scale: int
    front: Drawing
    sticks: tuple[Drawing, ...]
    section: Drawing
    plan: Drawing | None = None
    """Of a corner unit, from above."""

    @property
    def standing(self) -> tuple[Drawing, ...]:
        """The views that stand on one floor line."""
        return (self.front, *self.sticks, self.section)

    @property
    def drawings(self) -> tuple[Drawing, ...]:
        return (*self.standing, *((self.plan,) if self.plan is not None else ()))

    @property
    def high(self) -> float:
        """What they take in height, in millimetres: a plan lies under what stands."""
        under = self.plan.height + _BETWEEN if self.plan is not None else 0.0
        return max(each.height for each in self.standing) + under


def unit_views(job: Job, item: Built, high: float = 0.0, most: float = TALLEST) -> UnitViews:
    """The views of a unit at the largest scale at which each is at most 92 mm wide and `most`
    millimetres high.

    `high` is what they should take in height: where one scale less does that, it is taken, but
    nothing smaller than 1 to 16 (metric 1 to 20) is chosen for it.
    """
    chosen: UnitViews | None = None
    for scale in scales(job.system, 8):
        views = UnitViews(
            scale,
            _front(job, item, scale),
            (*_around(job, item, scale), *sticks(job, item, scale)),
            section(job, item, scale),
            corner_plan(job, item, scale),
        )
        tallest = views.high
        if chosen is not None:
            if scale <= _SMALLEST and tallest <= high:
                chosen = views
            break
        fits = all(each.width <= VIEW_WIDE for each in views.drawings)
        beside = sum(each.width + _BETWEEN for each in views.standing)
        if (fits and beside <= WIDEST and tallest <= most) or scale == _LAST[job.system]:
            chosen = views
            if tallest <= high:
                break
    assert chosen is not None
    return _on_one_floor(chosen)


def _on_one_floor(views: UnitViews) -> UnitViews:
    """The views with as much under the floor line, so that they stand on one."""
    bottom = max(each.top + each.height for each in views.standing)
    drop = [evolve(each, height=bottom - each.top) for each in views.standing]
    return UnitViews(views.scale, drop[0], tuple(drop[1:-1]), drop[-1], views.plan)


def _floor(canvas: Canvas, left: float, right: float, y: float = 0.0) -> None:
    canvas.line("cut", left - 0.8, y, right + 4, y)


def _around(job: Job, item: Built, scale: int) -> Iterator[Drawing]:
    """The leg of a corner unit around its corner, from the front of that."""
    run = next((run for run in job.runs if run.name == item.placed.run), None)
    around = around_corner(run, item.placed) if run is not None else None
    if around is None or around[1].unit is None or is_turned(item.unit):
        return
    yield _seen_from(job, Built(around[1], around[1].unit), scale, "around the corner")


def _front(job: Job, item: Built, scale: int) -> Drawing:
    """A unit from its front; one whose mouth looks across a corner, from before that."""
    for run in (run for run in job.runs if run.name == item.placed.run):
        for _, seen in across_corner(run, item.placed):
            if seen.unit is not None:
                return _seen_from(job, Built(seen, seen.unit), scale, "before its door side")
    return _seen_from(job, item, scale, "from the front")


def _seen_from(job: Job, item: Built, scale: int, words_for: str) -> Drawing:
    around = words_for != "from the front"
    canvas = Canvas(printing_of(job))
    unit = item.unit
    view = View(0.0, 0.0, scale)
    width, height = view.size(unit.width.value), view.size(unit.height.value)
    outlines = [Rectangle(0.0, -height, width, 0.0)]
    seen = visible(unit)
    for part in seen:
        box = part.box
        outlines.append(
            Rectangle(
                view.x(box.across[0]), view.y(box.up[1]), view.x(box.across[1]), view.y(box.up[0]),
                "seen", "tint" if part.role == "toe" else "paper", -float(box.deep[0]),
            )
        )  # fmt: skip
    draw(canvas, outlines)
    _floor(canvas, 0.0, width)
    for part in seen:
        if part.role != "front":
            continue
        left, right = view.x(part.box.across[0]), view.x(part.box.across[1])
        top, bottom = view.y(part.box.up[1]), view.y(part.box.up[0])
        edge = hinge_side(unit, part)
        if edge:
            hinge_dashes(canvas, edge, left, top, right, bottom)
        clear = _clear_of_pulls(unit, part, view, top, bottom)
        name_in(
            canvas, words(part.opening or part.address), (left + right) / 2, sum(clear) / 2,
            right - left - 2, clear[1] - clear[0] - 1,
        )  # fmt: skip
        upright = part.length_axis == "up"
        if part.grained and edge and bottom - top > 26:
            grain(canvas, (left + right) / 2, (top + bottom) / 2 + 8.5, upright=upright)
        elif part.grained and not edge and right - left > 40 and bottom - top > 9.5:
            grain(canvas, right - 6.5, top + 5.2, upright=upright)
    for part in pulls(unit):
        draw_pull(
            canvas, view.x(part.box.across[0]), view.y(part.box.up[1]), view.x(part.box.across[1]),
            view.y(part.box.up[0]),
        )  # fmt: skip
    small = _front_chains(canvas, item, view, width, around)
    return canvas.finished(
        f"{item.holder}_around" if words_for == "around the corner" else f"{item.holder}_front",
        f"{item.heading} {words_for}",
        tuple(chains.small_print(small)),
    )


def _clear_of_pulls(
    unit: Unit, front: Part, view: View, top: float, bottom: float
) -> tuple[float, float]:
    """The height of a front that its name may take: the higher side of a pull that lies across
    its middle, else all of it."""
    middle = sum(front.box.across) / 2
    for part in pulls(unit):
        (low, high), (left, right) = part.box.up, part.box.across
        if left < middle < right and front.box.up[0] <= low and high <= front.box.up[1]:
            sides = ((top, view.y(high)), (view.y(low), bottom))
            return max(sides, key=lambda each: each[1] - each[0])
    return top, bottom


def _front_chains(
    canvas: Canvas, item: Built, view: View, width: float, around: bool
) -> tuple[Figure, ...]:
    unit = item.unit
    fronts = [part for part in visible(unit) if part.role == "front"]
    height = figure(unit.height, f"{item.holder}.high")
    toe = toe_top(item)
    column = _column(fronts)
    places: list[float] = [0.0]
    links: list[Link] = []
    at: Figure | None = None
    if toe is not None:
        places.append(view.y(toe.value))
        links.append(Link(toe))
        at = toe
    for part in column:
        bottom = edge_figure(item, part, "bottom", "up", -1)
        top = edge_figure(item, part, "top", "up", 1)
        if bottom.value > (at.value if at else 0):
            links.append(Link(_from(bottom, at, f"{item.holder}.{part.address}.below")))
            places.append(view.y(bottom.value))
        links.append(Link(_size(item, part, "up")))
        places.append(view.y(top.value))
        at = top
    if links and at is not None and at.value < unit.height.value:
        links.append(Link(difference(height, at, f"{item.holder}.over_fronts")))
        places.append(view.y(unit.height.value))
    if not links:
        places.append(view.y(unit.height.value))
        links.append(Link(height))
    small = chains.upright(canvas, places, links, -6.5, Link(height), outward=-1).unlettered
    whole = Link(figure(unit.width, f"{item.holder}.{'return' if around else 'across'}"))
    first = column[0] if column else None
    row = _beside(fronts, first) if first else []
    if row:
        across_places = [0.0]
        across_links: list[Link] = []
        reached: Figure | None = None
        for part in row:
            left = edge_figure(item, part, "left", "across", -1)
            right = edge_figure(item, part, "right", "across", 1)
            if left.value > (reached.value if reached else 0):
                gap = _from(left, reached, f"{item.holder}.{part.address}.beside")
                if around and reached is None:
                    # In the unit's own space it lies elsewhere: here it is what the leg leaves.
                    gap = Figure(left.value, whole.figure.dimension, f"{item.holder}.beside_leg")
                across_links.append(Link(gap))
                across_places.append(view.x(left.value))
            across_links.append(Link(_size(item, part, "across")))
            across_places.append(view.x(right.value))
            reached = right
        if reached is not None and reached.value < unit.width.value:
            rest = difference(whole.figure, reached, f"{item.holder}.right_of_fronts")
            across_links.append(Link(rest))
            across_places.append(width)
        small += chains.across(canvas, across_places, across_links, 7.0, whole).unlettered
    else:
        chains.across(canvas, [0.0, width], [whole], 7.0)
    return small


def _from(high: Figure, low: Figure | None, address: str) -> Figure:
    return high if low is None else difference(high, low, address)


def _size(item: Built, part: Part, axis: Axis) -> Figure:
    """A front's size along an axis of its face."""
    address = f"{item.holder}.{part.address}"
    if part.length_axis == axis:
        return figure(part.length, f"{address}.length")
    return figure(part.width, f"{address}.width")


def _column(fronts: Sequence[Part]) -> list[Part]:
    """Fronts over one another, from the bottom up, at the left end of the face."""
    found: list[Part] = []
    for part in sorted(fronts, key=lambda each: (each.box.up[0], each.box.across[0])):
        if not found or part.box.up[0] >= found[-1].box.up[1]:
            found.append(part)
    return found


def _beside(fronts: Sequence[Part], first: Part) -> list[Part]:
    """The fronts in one row with `first`, from left to right."""
    row = [part for part in fronts if part.box.up == first.box.up]
    return sorted(row, key=lambda each: each.box.across[0])
