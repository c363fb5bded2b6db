"""A wall with its runs seen from above, to scale: what stands, what hangs, and what swings."""

from collections.abc import Iterator
from fractions import Fraction

from casewright.compiler.joints.oblique import prisms_of
from casewright.compiler.model import Feature, Job
from casewright.compiler.papers.drawings import chains
from casewright.compiler.papers.drawings.chains import Link
from casewright.compiler.papers.drawings.drawing import (
    WIDEST,
    Canvas,
    Drawing,
    Letters,
    Line,
    View,
    scale_words,
    scales,
)
from casewright.compiler.papers.drawings.marks import tag
from casewright.compiler.papers.drawings.outlines import Rectangle, draw
from casewright.compiler.papers.drawings.seen import hinge_side
from casewright.compiler.papers.figures import Figure, Term, difference, figure, printing_of, total
from casewright.compiler.papers.names import words
from casewright.compiler.papers.pieces import label
from casewright.compiler.papers.walls import Side, Standing, island_outlets
from casewright.compiler.rooms.room import on_line, place_step, plan_point, side_line

_WALL = 2.0
_RETURN = 8.0
_PIPE = 2.2


def plan_view(job: Job, side: Side) -> Drawing:
    """The plan of one wall, at the largest scale that fits a page's width."""
    for scale in scales(job.system, 16):
        drawn = _plan(job, side, scale)
        if drawn.width <= WIDEST:
            break
    return drawn


def _plan(job: Job, side: Side, scale: int) -> Drawing:
    canvas = Canvas(printing_of(job))
    # Paper runs down as the room runs away from the wall, so depth is drawn as minus height.
    view = View(0.0, 0.0, scale)
    left, right = view.x(side.left), view.x(side.right)
    low = [thing for thing in side.things if thing.low == 0]
    high = [thing for thing in side.things if thing.low > 0]
    square_low = [thing for thing in low if not _is_diagonal(thing)]
    square_high = [thing for thing in high if not _is_diagonal(thing)]
    outlines = [_outline(view, thing) for thing in square_low if thing.placed.kind != "space"]
    hanging = [_hanging(view, thing) for thing in square_high if thing.placed.kind == "unit"]
    outlines += [_leg(view, thing, "seen") for thing in square_low if thing.placed.returns]
    hanging += [_leg(view, thing, "hidden") for thing in square_high if thing.placed.returns]
    draw(canvas, [*outlines, *hanging])
    for thing in (each for each in side.things if _is_diagonal(each)):
        _diagonal(canvas, view, thing, "seen" if thing.low == 0 else "hidden")
    deepest = max((view.size(_reach(thing)) for thing in side.things), default=10.0)
    _walls(canvas, side, left, right, deepest)
    for feature in side.features:
        _feature(canvas, feature, view)
    reach = max([deepest, *(_swings(canvas, thing, view) for thing in low)])
    reach = max([reach, *(_swings_across(canvas, thing, view) for thing in low)])
    for thing in low:
        if thing.placed.tag:
            middle = (view.x(thing.left) + view.x(thing.right)) / 2
            bottom = view.size(thing.placed.depth.value)
            tag(canvas, middle, bottom - 4.4, label(thing.placed), href=thing.holder)
    for feature, across, out in _pipes(job, side):
        _pipe(canvas, feature, view.x(across), view.size(out) if out else _PIPE)
    small = _chains(canvas, job, side, view, right)
    note: list[str | Figure] = [f"Plan, {scale_words(scale, job.system)}."]
    if reach > deepest:
        note.append(" Dashed arcs are doors that swing.")
    if hanging or square_high != high:
        note.append(" Dashed: what hangs above.")
    return canvas.finished(
        f"plan_{side.name}",
        f"Plan of the {side.title}, seen from above",
        (*note, *chains.small_print(small)),
    )


def _outline(view: View, thing: Standing) -> Rectangle:
    depth = view.size(thing.placed.depth.value)
    fill = "tint" if thing.placed.kind == "filler" else ""
    if thing.placed.kind == "filler":
        # A filler stands at the front of its neighbours, not the depth of them.
        unit = thing.placed.unit
        thick = unit.depth.value if unit else Fraction(0)
        far = view.size(max(_front_of(thing), thick))
        return Rectangle(
            view.x(thing.left), far - view.size(thick), view.x(thing.right), far, "seen", fill
        )
    line: Line = "hidden" if thing.placed.kind == "appliance" else "seen"
    return Rectangle(view.x(thing.left), 0.0, view.x(thing.right), depth, line, fill)


def _reach(thing: Standing) -> Fraction:
    """How far a thing stands out from the wall."""
    around = thing.placed.returns
    return around.length.value if around is not None else thing.placed.depth.value


def _leg(view: View, thing: Standing, line: Line) -> Rectangle:
    """The leg of a corner unit around its corner, as far as it stands out past its run."""
    around = thing.placed.returns
    assert around is not None, "only corner units have a leg around their corner"
    wide = around.depth.value
    left = thing.left if around.end == "left" else thing.right - wide
    near, far = view.size(thing.placed.depth.value), view.size(around.length.value)
    return Rectangle(view.x(left), near, view.x(left + wide), far, line)


def _is_diagonal(thing: Standing) -> bool:
    """Whether a thing stands here with a leg around its corner and a face across it."""
    unit = thing.placed.unit
    slanted = unit is not None and any(mouth.slant is not None for mouth in unit.mouths)
    return slanted and thing.placed.returns is not None


def _diagonal(canvas: Canvas, view: View, thing: Standing, line: Line) -> None:
    """A corner unit whose face runs from leg to leg, and what stands before that."""
    around, unit = thing.placed.returns, thing.placed.unit
    assert around is not None, "a diagonal unit goes around a corner"
    assert unit is not None, "only units are diagonal"
    near, far = view.size(thing.placed.depth.value), view.size(around.length.value)
    left, right = view.x(thing.left), view.x(thing.right)
    if around.end == "right":
        inner = view.x(thing.right - around.depth.value)
        corners = ((left, 0.0), (right, 0.0), (right, far), (inner, far), (left, near))
    else:
        inner = view.x(thing.left + around.depth.value)
        corners = ((left, 0.0), (right, 0.0), (right, near), (inner, far), (left, far))
    canvas.polyline(line, (*corners, corners[0]))
    for part in unit.parts:
        if part.slant is not None and part.role in ("front", "pull"):
            (body,) = prisms_of(part)
            drawn = tuple(_on_paper(view, thing, x, z) for x, z in body.outline)
            canvas.polyline(line, (*drawn, drawn[0]))


def _front_of(thing: Standing) -> Fraction:
    return thing.placed.depth.value


def _hanging(view: View, thing: Standing) -> Rectangle:
    depth = view.size(thing.placed.depth.value)
    return Rectangle(view.x(thing.left), 0.0, view.x(thing.right), depth, "hidden")


def _walls(canvas: Canvas, side: Side, left: float, right: float, deepest: float) -> None:
    canvas.line("cut", left - _WALL, 0.0, right + _WALL, 0.0)
    if side.wall is None:
        return
    for x in (left, right):
        canvas.line("cut", x, 0.0, x, deepest + _RETURN)


def _feature(canvas: Canvas, feature: Feature, view: View) -> None:
    """An opening in the wall, by its place along it: white across the wall, with its glass line."""
    width = view.size(feature.wide.value)
    if width == 0 or feature.high.value == 0:
        return
    x = view.x(feature.at.value)
    canvas.rectangle("seen", x, -1.2, width, 2.4, "paper")
    canvas.line("thin", x, 0.0, x + width, 0.0)


def _pipes(job: Job, side: Side) -> Iterator[tuple[Feature, Fraction, Fraction]]:
    """Pipes and outlets with their places along a side and out from the line of its backs: of an
    island, also the outlets in those of its faces that no run has."""
    for feature in side.features:
        if feature.kind != "outlet" or not feature.facing:
            yield feature, feature.at.value + feature.wide.value / 2, Fraction(0)
    run = side.rows[0].run
    if run.origin is None:
        return
    for island, feature in island_outlets(job, side):
        line = side_line(island, feature.facing, None, place_step(job.system))
        middle = feature.at.value + feature.wide.value / 2
        place = plan_point(line.origin, line.direction, middle, Fraction(0))
        across, out = on_line(run.origin, run.direction, place)
        yield feature, run.start.value + across, out


def _pipe(canvas: Canvas, feature: Feature, x: float, y: float) -> None:
    if feature.wide.value and feature.high.value and not feature.facing:
        return
    canvas.circle("seen", x, y, 1.2, "paper")
    name = words(feature.name)
    right = Letters(x + 2.0, y + 1.8, name, "start", False, "grey")
    left = Letters(x - 2.0, y + 1.8, name, "end", False, "grey")
    below = (Letters(x, y + down, name, "middle", False, "grey") for down in (6.6, 11.4))
    canvas.letters(canvas.freest((right, left, *below)))


def _swings(canvas: Canvas, thing: Standing, view: View) -> float:
    """The quarter turns of a unit's doors; gives how far they reach from the wall."""
    unit = thing.placed.unit
    reach = 0.0
    for part in unit.parts if unit else ():
        square = part.faces == "front" and part.slant is None
        edge = hinge_side(unit, part) if unit and square else ""
        if edge not in ("left", "right"):
            continue
        face = view.size(thing.placed.depth.value - part.box.deep[0])
        low, high = (view.x(thing.left + each) for each in part.box.across)
        hinge, free = (low, high) if edge == "left" else (high, low)
        end = (hinge, face + high - low)
        canvas.quarter("hidden", (hinge, face), (free, face), end)
        reach = max(reach, end[1])
    return reach


def _swings_across(canvas: Canvas, thing: Standing, view: View) -> float:
    """The quarter turns of doors that stand across a corner, each about the end of its face that
    it hangs on; gives how far they reach from the wall."""
    unit = thing.placed.unit
    reach = 0.0
    for part in unit.parts if unit else ():
        edge = hinge_side(unit, part) if unit and part.slant is not None else ""
        if part.slant is None or edge not in ("left", "right"):
            continue
        low, high = part.box.across
        front, wide = part.box.deep[0], high - low
        hung, free = (low, high) if edge == "left" else (high, low)
        ends = ((hung, front), (free, front), (hung, front - wide))
        hinge, start, end = (_on_paper(view, thing, *part.slant.in_unit(*each)) for each in ends)
        canvas.swing("hidden", hinge, start, end, clockwise=edge == "left")
        reach = max(reach, end[1])
    return reach


def _on_paper(view: View, thing: Standing, across: Fraction, deep: Fraction) -> tuple[float, float]:
    """A place of a unit's plan, by the unit's own axes, on the sheet."""
    return view.x(thing.left + across), view.size(thing.placed.depth.value - deep)


def _chains(canvas: Canvas, job: Job, side: Side, view: View, right: float) -> tuple[Figure, ...]:
    small: tuple[Figure, ...] = ()
    wall = side.wall
    openings = sorted(
        (each for each in wall.features if each.wide.value and each.high.value) if wall else (),
        key=lambda each: each.at.value,
    )
    if wall is not None and openings:
        places, links = [view.x(Fraction(0))], []
        at: Figure | None = None
        for each in openings:
            address = f"{wall.name}.{each.name}"
            start = figure(each.at, f"{address}.at")
            gap = start if at is None else difference(start, at, f"{address}.after")
            if gap.value > 0:
                links.append(Link(gap))
                places.append(view.x(each.at.value))
            links.append(Link(figure(each.wide, f"{address}.wide"), words(each.name)))
            places.append(view.x(each.at.value + each.wide.value))
            at = total(
                f"{address}.end", (Term(1, start), Term(1, figure(each.wide, f"{address}.wide")))
            )
        whole = figure(wall.length, f"{wall.name}.length")
        if at is not None and whole.value > at.value:
            links.append(Link(difference(whole, at, f"{wall.name}.after_openings")))
            places.append(view.x(whole.value))
        small += chains.across(
            canvas, places, links, -6.0, Link(whole, "wall to wall"), outward=-1
        ).unlettered
    depths = {
        thing.placed.depth.value: thing for thing in side.things if thing.placed.kind == "unit"
    }
    x = right + 5.0
    for value in sorted(depths):
        link = Link(depths[value].depth)
        x = chains.upright(canvas, [view.size(value), 0.0], [link], x).next
    return small
