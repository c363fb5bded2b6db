"""What is seen of a unit from the front, and the words and dashes drawn on it."""

from collections.abc import Iterator
from fractions import Fraction

from attrs import frozen

from casewright.compiler.joints.oblique import prisms_of
from casewright.compiler.model import Axis, Motion, Part, Range, Unit
from casewright.compiler.papers.drawings.drawing import Canvas, fitted, letters_width
from casewright.compiler.papers.figures import Figure, figure
from casewright.compiler.papers.pieces import Built

_NEAREST = 0.7
"""Two lines nearer than this, in millimetres, are drawn as one."""

_OF_A_MOUTH = ("front", "stile", "rail", "panel")
"""Roles of what closes or frames a mouth: seen from before it only."""

_SEEN = ("front", "stile", "rail", "toe", "end", "filler", "panel")


def visible(unit: Unit) -> tuple[Part, ...]:
    """The parts that are seen from the front: fronts, frames, toe kicks, ends and fillers; in a
    unit without any of these, all parts."""
    seen = tuple(
        part
        for part in unit.parts
        if part.role in _SEEN
        and not part.hardware
        and part.slant is None
        and (part.faces == "front" or part.role not in _OF_A_MOUTH)
    )
    square = (part for part in unit.parts if not part.hardware and part.slant is None)
    return seen or (() if is_turned(unit) else tuple(square))


def is_turned(unit: Unit) -> bool:
    """Whether something of a unit stands in a mouth across its corner."""
    return any(part.slant is not None for part in unit.parts)


@frozen
class Foreshortened:
    """A turned part as it is seen from its unit's front: what it covers across, and how far its
    nearest edge stands before the unit's front."""

    part: Part
    across: Range
    near: Fraction


def foreshortened(unit: Unit) -> Iterator[Foreshortened]:
    """What is seen of a mouth across a corner from the unit's front."""
    for part in unit.parts:
        if part.slant is not None and (part.role == "pull" or part.role in _SEEN):
            (body,) = prisms_of(part)
            right = [point[0] for point in body.outline]
            deep = [point[1] for point in body.outline]
            yield Foreshortened(part, (min(right), max(right)), -min(deep))


def pulls(unit: Unit) -> tuple[Part, ...]:
    """The pulls that are seen from the front, of whatever is bought for them."""
    return tuple(
        part
        for part in unit.parts
        if part.role == "pull" and part.faces == "front" and part.slant is None
    )


def draw_pull(canvas: Canvas, left: float, top: float, right: float, bottom: float) -> None:
    """A pull by its outline, or by one line where its two would print as one."""
    if bottom - top < _NEAREST:
        canvas.line("seen", left, (top + bottom) / 2, right, (top + bottom) / 2)
    elif right - left < _NEAREST:
        canvas.line("seen", (left + right) / 2, top, (left + right) / 2, bottom)
    else:
        canvas.rectangle("seen", left, top, right - left, bottom - top, "paper")


def edge_figure(item: Built, part: Part, edge: str, axis: Axis, side: int) -> Figure:
    """Where a part's edge lies, as the figure explained at `S2.left_side.top`."""
    extent = part.extents.along(axis)
    quantity = extent.high if side > 0 else extent.low
    return figure(quantity, f"{item.holder}.{part.address}.{edge}")


def toe_top(item: Built) -> Figure | None:
    """How much of the toe kick is seen above the floor, or None without one: a frame that hangs
    before it hides the rest. A unit without one of its own stands on a base where its box begins
    above the floor."""
    toes = [part for part in item.unit.parts if part.role == "toe" and part.slant is None]
    if not toes:
        return _underside(item)
    toe = max(toes, key=lambda part: part.box.up[1])
    hiding = [
        part
        for part in visible(item.unit)
        if part.box.deep[0] < toe.box.deep[0] and 0 < part.box.up[0] < toe.box.up[1]
    ]
    if not hiding:
        return edge_figure(item, toe, "top", "up", 1)
    lowest = min(hiding, key=lambda part: part.box.up[0])
    return edge_figure(item, lowest, "bottom", "up", -1)


def _underside(item: Built) -> Figure | None:
    """The lower edge of what is lowest of a unit whose box begins above the floor."""
    boxes = [each for each in item.unit.assemblies if each.role == "box"]
    if item.placed.up.value > 0 or not boxes or boxes[0].extents.up.low.value <= 0:
        return None
    seen = visible(item.unit)
    if not seen:
        return None
    lowest = min(seen, key=lambda part: part.box.up[0])
    box = boxes[0].extents.up.low
    if lowest.box.up[0] < box.value:
        return edge_figure(item, lowest, "bottom", "up", -1)
    return figure(box, f"{item.holder}.{boxes[0].address}.bottom")


def hinge_side(unit: Unit, part: Part) -> str:
    """The edge a front swings about, or empty: its own motion, or that of what holds it."""
    motion = _hinge(unit, part)
    return motion.edge if motion else ""


def _hinge(unit: Unit, part: Part) -> Motion | None:
    if part.role != "front":
        return None
    motions = [part.motion] + [
        assembly.motion
        for assembly in unit.assemblies
        if assembly.path and part.path.startswith(assembly.path + ".")
    ]
    return next((each for each in motions if each is not None and each.kind == "about"), None)


def hinge_dashes(
    canvas: Canvas, edge: str, left: float, top: float, right: float, bottom: float
) -> None:
    """Thin dashes that meet in the middle of the hinge side."""
    middle, centre = (top + bottom) / 2, (left + right) / 2
    if edge == "left":
        canvas.polyline("hidden", ((right, top), (left, middle), (right, bottom)))
    elif edge == "right":
        canvas.polyline("hidden", ((left, top), (right, middle), (left, bottom)))
    elif edge == "top":
        canvas.polyline("hidden", ((left, bottom), (centre, top), (right, bottom)))
    elif edge == "bottom":
        canvas.polyline("hidden", ((left, top), (centre, bottom), (right, top)))


def name_in(canvas: Canvas, text: str, x: float, y: float, wide: float, high: float) -> None:
    """`text` in grey, centred on (x, y), within a room `wide` by `high`: in up to three lines, or
    turned and cut short where a word is too wide."""
    lines = wrapped(text, wide)
    if any(letters_width(line) > wide for line in lines) or len(lines) * 4.8 > high:
        canvas.write(x + 1.5, y, fitted(text, high), kind="grey", turned=True)
        return
    for index, line in enumerate(lines):
        canvas.write(x, y + 1.5 + (index - (len(lines) - 1) / 2) * 4.8, line, kind="grey")


def wrapped(text: str, room: float) -> list[str]:
    """`text` in lines of at most `room` millimetres; a word that is too long stays whole."""
    lines: list[str] = []
    for word in text.split():
        if lines and letters_width(f"{lines[-1]} {word}") <= room:
            lines[-1] = f"{lines[-1]} {word}"
        else:
            lines.append(word)
    return lines
