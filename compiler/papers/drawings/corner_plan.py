"""A corner unit from above: its backs at the walls, both legs, its face, and what is cut away."""

from collections.abc import Iterator, Sequence

from casewright.compiler.joints.oblique import corner_line, prisms_of
from casewright.compiler.model import Cut, Job, Part, Return, Unit
from casewright.compiler.papers.drawings import chains
from casewright.compiler.papers.drawings.chains import Link
from casewright.compiler.papers.drawings.drawing import Canvas, Drawing, View
from casewright.compiler.papers.figures import Figure, difference, figure, printing_of
from casewright.compiler.papers.names import words
from casewright.compiler.papers.pieces import Built
from casewright.compiler.plane import Point
from casewright.lang.measure import Dimension

_CUT = ("side", "back", "partition", "stile")
"""Roles of what stands upright in a box and its frames: cut through, seen from above."""

_BEFORE = ("front", "pull")


def corner_plan(job: Job, item: Built, scale: int) -> Drawing | None:
    """The plan of a corner unit, cut below its cap, with the wall of its run at the top; None for
    a unit that goes around no corner."""
    returns = item.placed.returns
    if returns is None:
        return None
    canvas = Canvas(printing_of(job))
    view = View(0.0, 0.0, scale)
    unit = item.unit
    for part in unit.parts:
        if part.role == "floor":
            for line in _edges_cut(part):
                canvas.polyline("seen", _on_paper(view, line))
    for part in sorted(unit.parts, key=lambda each: each.role in _CUT):
        if part.role in _CUT or part.role in _BEFORE:
            (body,) = prisms_of(part)
            outline = _on_paper(view, body.outline)
            canvas.polyline("cut" if part.role in _CUT else "seen", (*outline, outline[0]))
    _walls(canvas, view, unit, returns)
    small = _chains(canvas, view, item, returns)
    return canvas.finished(
        f"{item.holder}_plan",
        f"Plan of {item.label} {words(unit.title)}, from above, its run's wall at the top",
        (*_face(item), *chains.small_print(small)),
    )


def _on_paper(view: View, outline: Sequence[Point]) -> tuple[tuple[float, float], ...]:
    """Places of a unit in plan on paper: its back is at the top."""
    return tuple((view.x(across), -view.size(deep)) for across, deep in outline)


def _edges_cut(part: Part) -> Iterator[tuple[Point, ...]]:
    """The front edges that a board's cuts make, in plan."""
    for cut in part.cuts:
        if cut.kind == "corner":
            begin, end, _ = corner_line(part, cut)
            yield begin, end
        elif cut.kind == "cut":
            yield _inner_corner(part, cut)


def _inner_corner(part: Part, cut: Cut) -> tuple[Point, ...]:
    """The two edges of a corner that is cut out of a board."""
    across, deep = cut.box.across, cut.box.deep
    far = across[1] if across[0] == part.box.across[0] else across[0]
    near = across[0] if far == across[1] else across[1]
    front, back = deep
    return (near, back), (far, back), (far, front)


def _walls(canvas: Canvas, view: View, unit: Unit, returns: Return) -> None:
    back, width = -view.size(unit.depth.value), view.x(unit.width.value)
    far = view.size(returns.length.value - unit.depth.value)
    at_right = returns.end == "right"
    canvas.line("cut", 0.0 if at_right else -2.0, back, width + (2.0 if at_right else 0.0), back)
    x = width if at_right else 0.0
    canvas.line("cut", x, back - 2.0, x, far)


def _chains(canvas: Canvas, view: View, item: Built, returns: Return) -> tuple[Figure, ...]:
    """Both walls above and beside, both legs, and how much is cut away between them."""
    unit, holder = item.unit, item.holder
    width = figure(unit.width, f"{holder}.across")
    depth = figure(unit.depth, f"{holder}.depth")
    long = figure(returns.length, f"{holder}.return")
    leg = Figure(returns.depth.value, Dimension.LENGTH, f"{holder}.return_depth")
    at_right = returns.end == "right"
    back, front = -view.size(unit.depth.value), view.size(long.value - depth.value)
    right = view.x(width.value)
    beside = difference(width, leg, f"{holder}.beside_leg")
    before = difference(long, depth, f"{holder}.before_leg")
    along = [Link(beside), Link(leg)] if at_right else [Link(leg), Link(beside)]
    middle = view.x(beside.value if at_right else leg.value)
    across = chains.across(canvas, [0.0, middle, right], along, front + 7.0, Link(width))
    out = 1 if at_right else -1
    x = right + 5.0 if at_right else -5.0
    up = chains.upright(
        canvas, [front, 0.0, back], [Link(before), Link(depth)], x, Link(long), outward=out
    )
    return (*across.unlettered, *up.unlettered)


def _face(item: Built) -> Iterator[str | Figure]:
    for mouth in item.unit.mouths:
        if mouth.slant is not None:
            far = mouth.extents.box
            end = mouth.slant.here(
                far.across[1], far.deep[0] if mouth.slant.direction[1] < 0 else far.deep[1]
            )
            yield "The face runs from leg to leg: "
            yield Figure(end[0], Dimension.LENGTH, f"{item.holder}.{mouth.name}.wide")
            yield "."
