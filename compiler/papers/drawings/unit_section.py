"""A unit cut through from front to back."""

from fractions import Fraction

from casewright.compiler.model import Job, Part, Unit
from casewright.compiler.papers.drawings import chains
from casewright.compiler.papers.drawings.chains import Link
from casewright.compiler.papers.drawings.drawing import Canvas, Drawing, View
from casewright.compiler.papers.drawings.outlines import Rectangle, draw
from casewright.compiler.papers.drawings.seen import edge_figure
from casewright.compiler.papers.figures import difference, figure, printing_of
from casewright.compiler.papers.pieces import Built

_BLACK = 2.0
"""What is thinner than so many millimetres on paper is drawn solid."""


def section(job: Job, item: Built, scale: int) -> Drawing:
    """Cut through the middle of the widest opening, seen from the right: the front is at the
    left, the wall at the right."""
    canvas = Canvas(printing_of(job))
    unit = item.unit
    view = View(0.0, 0.0, scale)
    cut_at = _cut_place(unit)
    own = [part for part in unit.parts if not part.hardware and part.slant is None]
    through = [part for part in own if part.box.across[0] < cut_at < part.box.across[1]]
    beyond = [part for part in own if part.box.across[1] <= cut_at and part.role != "front"]
    depth, height = view.size(unit.depth.value), view.size(unit.height.value)
    seen = [_deep(view, part) for part in beyond if _reaches(part)]
    draw(canvas, seen)
    for part in through:
        box = _deep(view, part)
        wide, high = box.right - box.left, box.bottom - box.top
        if min(wide, high) < _BLACK:
            canvas.rectangle("solid", box.left, box.top, wide, high)
        else:
            canvas.rectangle("cut", box.left, box.top, wide, high, "paper")
    front = min((part.box.deep[0] for part in own), default=Fraction(0))
    canvas.line("cut", depth, 0.0 if item.placed.up.value == 0 else 5.0, depth, -height - 6.0)
    if item.placed.up.value == 0:
        canvas.line("cut", view.x(front) - 4, 0.0, depth + 4, 0.0)
    canvas.write(depth + 4.6, min(-height / 2, -6.0), "wall", kind="grey", turned=True)
    _section_chain(canvas, item, view, depth)
    return canvas.finished(
        f"{item.holder}_section", f"Section of {item.heading}, seen from the right"
    )


def _reaches(part: Part) -> bool:
    return part.thick_axis == "across" or part.role in ("toe", "base")


def _deep(view: View, part: Part) -> Rectangle:
    box = part.box
    return Rectangle(view.x(box.deep[0]), view.y(box.up[1]), view.x(box.deep[1]), view.y(box.up[0]))


def _cut_place(unit: Unit) -> Fraction:
    widest = max(
        (each for each in unit.openings if each.slant is None and each.faces == "front"),
        key=lambda each: each.across.high.value - each.across.low.value,
        default=None,
    )
    if widest is None:
        return unit.width.value / 2
    low, high = widest.across.low.value, widest.across.high.value
    return low + (high - low) * Fraction(2, 5)


def _section_chain(canvas: Canvas, item: Built, view: View, depth: float) -> None:
    unit = item.unit
    whole = Link(figure(unit.depth, f"{item.holder}.depth"))
    y = 7.0
    toes = [
        part
        for part in unit.parts
        if part.role == "toe" and part.slant is None and part.box.deep[0] > 0
    ]
    if toes:
        foremost = min(toes, key=lambda part: part.box.deep[0])
        setback = edge_figure(item, foremost, "front", "deep", -1)
        rest = difference(whole.figure, setback, f"{item.holder}.behind_toe")
        places = [0.0, view.x(setback.value), depth]
        y = chains.across(canvas, places, [Link(setback), Link(rest)], y).next
    # A tray (role) that pulls out shows how far it reaches, and what is left behind it.
    trays = [each for each in unit.assemblies if each.motion and each.motion.kind == "out"]
    if trays:
        tray = max(trays, key=lambda each: each.extents.deep.high.value)
        front, back = tray.extents.deep.low, tray.extents.deep.high
        address = f"{item.holder}.{tray.address}"
        links = [Link(difference(figure(back, f"{address}.back"), figure(front, f"{address}.front"),
                                 f"{address}.deep"))]  # fmt: skip
        places = [view.x(front.value), view.x(back.value)]
        if front.value > 0:
            links.insert(0, Link(figure(front, f"{address}.front")))
            places.insert(0, 0.0)
        if unit.depth.value > back.value:
            links.append(
                Link(difference(whole.figure, figure(back, f"{address}.back"), f"{address}.behind"))
            )
            places.append(depth)
        chains.across(canvas, places, links, y, whole)
    else:
        chains.across(canvas, [0.0, depth], [whole], y)
