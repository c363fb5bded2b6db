"""A worked part drawn on the face that has most work, to scale, with the edges to measure from."""

from collections.abc import Sequence
from fractions import Fraction

from attrs import frozen

from casewright.compiler.joints.oblique import corner_line
from casewright.compiler.model import EDGES, Axis, Cut, Job, Part
from casewright.compiler.papers.drawings.drawing import (
    Anchor,
    Canvas,
    Drawing,
    Letters,
    Line,
    View,
    letters_width,
    scales,
)
from casewright.compiler.papers.drawings.marks import datum
from casewright.compiler.papers.figures import printing_of
from casewright.compiler.papers.lists.machining import Work, Worked
from casewright.compiler.papers.names import words
from casewright.compiler.papers.pieces import Built

WIDE = 64.0
"""What a drawing may take across, in millimetres: the list stands beside it."""

_HIGH = 74.0
_NEAREST = 0.7
_SMALLEST_HOLE, _SMALLEST_HIDDEN = 0.45, 1.2
_HANDS = {"left": "LEFT", "right": "RIGHT"}
_HERE = "measure from here"

Spot = tuple[float, float]


@frozen
class PartView:
    """A worked part drawn, and its scale 1 to `scale`."""

    scale: int
    drawing: Drawing


@frozen
class Flat:
    """A face of a part laid flat: which axis runs across the paper and which up it, and whether
    each is counted from its high end, as whoever looks at the face sees it."""

    part: Part
    face: str
    view: View

    @property
    def level(self) -> Axis:
        return "deep" if self.part.thick_axis == "across" else "across"

    @property
    def upright(self) -> Axis:
        return "deep" if self.part.thick_axis == "up" else "up"

    @property
    def left_edge(self) -> str:
        """The edge at the left of the paper."""
        if self.part.thick_axis == "across":
            return "front" if self.face == "right" else "back"
        return "right" if self.face == "back" else "left"

    @property
    def right_edge(self) -> str:
        opposite = {"front": "back", "back": "front", "left": "right", "right": "left"}
        return opposite[self.left_edge]

    @property
    def bottom_edge(self) -> str:
        """The edge at the foot of the paper; a part that lies is turned up by its front."""
        if self.part.thick_axis != "up":
            return "bottom"
        return "back" if self.face == "bottom" else "front"

    @property
    def wide(self) -> float:
        return self.view.size(self.part.box.size(self.level))

    @property
    def high(self) -> float:
        return self.view.size(self.part.box.size(self.upright))

    def x(self, place: Fraction) -> float:
        start, end = self.part.box.along(self.level)
        low = EDGES[self.left_edge][1] < 0
        return self.view.size(place - start if low else end - place)

    def y(self, place: Fraction) -> float:
        start, end = self.part.box.along(self.upright)
        low = EDGES[self.bottom_edge][1] < 0
        return -self.view.size(place - start if low else end - place)


def part_view(job: Job, item: Built, each: Worked, number: int) -> PartView:
    """The part of `each`, the unit's worked part of that `number`, at the largest scale at which
    its list has room beside it."""
    for scale in scales(job.system, 4):
        drawing = _drawn(job, item, each, scale, number)
        if drawing.width <= WIDE and drawing.height <= _HIGH:
            break
    return PartView(scale, drawing)


def _drawn(job: Job, item: Built, each: Worked, scale: int, number: int) -> Drawing:
    flat = Flat(each.part, each.face, View(0.0, 0.0, scale))
    canvas = Canvas(printing_of(job))
    canvas.rectangle("seen", 0.0, -flat.high, flat.wide, flat.high)
    for work in each.works:
        if work.cut is not None:
            _cut(canvas, flat, work.cut, work)
    for work in each.works:
        _holes(canvas, flat, work)
    taken = [spot for work in each.works for spot in _bored(flat, work)]
    taken += _edges(canvas, flat, each, taken)
    for work in each.works:
        _mark(canvas, flat, work, taken)
    name = f"{item.holder}_machining_{number}"
    return canvas.finished(name, f"{item.label} {words(each.part.address)}, its {each.face} face")


def _edges(canvas: Canvas, flat: Flat, each: Worked, taken: Sequence[Spot]) -> list[Spot]:
    """The words of the edges, and the V at those that are measured from; where the Vs stand."""
    measured = {edge for work in each.works for edge in work.edges}
    wide, high = flat.wide, flat.high
    stand: list[Spot] = []
    corners = 0.0
    size = min(5.2, 0.7 * wide, 0.7 * high)
    for edge, x, outward in ((flat.left_edge, 0.0, -1), (flat.right_edge, wide, 1)):
        text = _HANDS.get(edge, edge)
        if edge in measured:
            _, y = _free([(x, -high * share) for share in _SHARES], taken)
            datum(canvas, x, y, (outward, 0), size)
            stand.append((x - 2.6 * outward, y))
            if letters_width(f"{text}: {_HERE}") <= high:
                text = f"{text}: {_HERE}"
        if letters_width(text) <= high:
            canvas.write(x - 1.8 if outward < 0 else x + 4.4, -high / 2, text, turned=True)
        else:
            # Too low for words up its end: they stand under its corner.
            anchor: Anchor = "start" if outward < 0 else "end"
            canvas.write(x, 4.8, text, anchor)
            corners = max(corners, letters_width(text) + 2.0)
    text = flat.bottom_edge
    if text in measured:
        x, _ = _free([(wide * share, 0.0) for share in _SHARES], taken)
        datum(canvas, x, 0.0, (0, 1), size)
        stand.append((x, -2.6))
        if not corners and letters_width(f"{text}: {_HERE}") <= WIDE - 2:
            text = f"{text}: {_HERE}"
    under = 4.8 if letters_width(text) + 2 * corners <= wide or not corners else 9.4
    canvas.write(wide / 2, under, text)
    return stand


_SHARES = (0.6, 0.4, 0.75, 0.25, 0.85, 0.15, 0.92, 0.08)


def _free(places: Sequence[Spot], taken: Sequence[Spot]) -> Spot:
    """The first place for a V where no hole is under it; the first of all where there is none."""
    for x, y in places:
        if all(abs(x - other) > 6.0 or abs(y - down) > 4.0 for other, down in taken):
            return x, y
    return places[0]


def _line(flat: Flat, work: Work) -> Line:
    return "seen" if work.face in ("", flat.face) else "hidden"


def _cut(canvas: Canvas, flat: Flat, cut: Cut, work: Work) -> None:
    """A groove or cut as its outline, or as one line where its two would print as one."""
    left, right = sorted(flat.x(place) for place in cut.box.along(flat.level))
    top, bottom = sorted(flat.y(place) for place in cut.box.along(flat.upright))
    line = _line(flat, work)
    if cut.kind == "corner" and right - left >= _NEAREST and bottom - top >= _NEAREST:
        _corner(canvas, flat, cut)
    elif right - left < _NEAREST:
        canvas.line(line, (left + right) / 2, top, (left + right) / 2, bottom)
    elif bottom - top < _NEAREST:
        canvas.line(line, left, (top + bottom) / 2, right, (top + bottom) / 2)
    else:
        fill = "tint" if line == "seen" else ""
        canvas.rectangle(line, left, top, right - left, bottom - top, fill)


def _corner(canvas: Canvas, flat: Flat, cut: Cut) -> None:
    """A corner that is cut off: its line, and dashes where the board's corner was; a bevel, which
    is seen on its edge, as the line where it begins."""
    axes = [EDGES[edge][0] for edge in cut.corner]
    if flat.level not in axes or flat.upright not in axes:
        for edge in cut.corner:
            axis, side = EDGES[edge]
            low, high = cut.box.along(axis)
            inner = high if side < 0 else low
            if axis == flat.level:
                x = flat.x(inner)
                canvas.line("hidden", x, -flat.high, x, 0.0)
            elif axis == flat.upright:
                y = flat.y(inner)
                canvas.line("hidden", 0.0, y, flat.wide, y)
        return
    begin, end, _ = corner_line(flat.part, cut)
    on_paper = [
        (
            flat.x(across if flat.level == "across" else deep),
            flat.y(deep if flat.upright == "deep" else across),
        )
        for across, deep in (begin, end)
    ]
    canvas.polyline("cut", on_paper)


def _holes(canvas: Canvas, flat: Flat, work: Work) -> None:
    line = _line(flat, work)
    for hole in work.holes:
        places = dict(zip(hole.at_axes, (at.value for at in hole.at), strict=True))
        least = _SMALLEST_HOLE if line == "seen" else _SMALLEST_HIDDEN
        radius = max(least, flat.view.size(hole.diameter.value) / 2)
        if flat.level in places and flat.upright in places:
            canvas.circle(
                line, flat.x(places[flat.level]), flat.y(places[flat.upright]), radius, "paper"
            )
            continue
        # Bored into an edge: two dashes as deep as the hole.
        start, end = flat.part.box.along(hole.axis)
        near = start if hole.side < 0 else end
        far = near - hole.side * hole.depth.value
        if flat.level in places:
            x = flat.x(places[flat.level])
            for offset in (-radius, radius):
                canvas.line("hidden", x + offset, flat.y(near), x + offset, flat.y(far))
        else:
            y = flat.y(places[flat.upright])
            for offset in (-radius, radius):
                canvas.line("hidden", flat.x(near), y + offset, flat.x(far), y + offset)


def _mark(canvas: Canvas, flat: Flat, work: Work, taken: Sequence[Spot]) -> None:
    """The letter of a row, beside what it tells and on nothing else."""
    steps = ((3.2, 1.4), (-3.2, 1.4), (0.0, -1.8), (0.0, 5.0), (5.0, 4.4), (-5.0, 4.4))
    places = [
        Letters(x + dx, y + dy, work.mark, "middle", False, "bold")
        for x, y in (_bored(flat, work) or _middles(flat, work))
        for dx, dy in steps
    ]
    inside = [
        each
        for each in places
        if 1.5 <= each.x <= flat.wide - 1.5 and -flat.high + 3.5 <= each.y <= -0.4
    ]
    clear = [
        each
        for each in (*inside, *places)
        if all(abs(each.x - x) > 2.2 or abs(each.y - 1.5 - y) > 2.6 for x, y in taken)
    ]
    canvas.letters(canvas.freest([*clear, *inside, *places]))


def _middles(flat: Flat, work: Work) -> list[Spot]:
    """Places along the middle of a cut."""
    if work.cut is None:
        return []
    left, right = sorted(flat.x(place) for place in work.cut.box.along(flat.level))
    top, bottom = sorted(flat.y(place) for place in work.cut.box.along(flat.upright))
    level = right - left >= bottom - top
    return [
        (left + (right - left) * share, (top + bottom) / 2)
        if level
        else ((left + right) / 2, top + (bottom - top) * share)
        for share in (0.5, 0.7, 0.3, 0.85, 0.15)
    ]


def _bored(flat: Flat, work: Work) -> list[Spot]:
    """Where holes stand on paper; those bored into an edge at their mouth."""
    found = []
    for hole in work.holes:
        places = dict(zip(hole.at_axes, (at.value for at in hole.at), strict=True))
        mouth = flat.part.box.along(hole.axis)[0 if hole.side < 0 else 1]
        found.append(
            (flat.x(places.get(flat.level, mouth)), flat.y(places.get(flat.upright, mouth)))
        )
    return found
