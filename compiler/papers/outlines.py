"""Outlines on one sheet: lines that would print nearer than 0.7 mm are drawn as one."""

from collections.abc import Iterable

from attrs import define, field, frozen

from casewright.compiler.papers.drawing import Canvas, Line

NEAREST = 0.7
"""Two lines nearer than this, in millimetres on paper, are one."""


@frozen
class Rectangle:
    """An outline by its edges on paper; `line` is its kind, `fill` empty or `tint`."""

    left: float
    top: float
    right: float
    bottom: float
    line: Line = "seen"
    fill: str = ""


@define
class Grid:
    """The places on one axis where lines are drawn."""

    places: list[float] = field(factory=list)

    def hold(self, places: Iterable[float]) -> None:
        """Adds places, the most important first: a later one near an earlier one gives way."""
        for place in places:
            if all(abs(place - other) >= NEAREST for other in self.places):
                self.places.append(place)

    def at(self, place: float) -> float:
        """Where a line wanted at `place` is drawn."""
        near = min(self.places, key=lambda other: abs(other - place), default=place)
        return near if abs(near - place) < NEAREST else place


def draw(canvas: Canvas, rectangles: Iterable[Rectangle]) -> tuple[Grid, Grid]:
    """Draws `rectangles`, the first the most important, each line once.

    Gives back where lines stand across and up, for what else must meet them.
    """
    held = list(rectangles)
    across, down = Grid(), Grid()
    for each in held:
        across.hold((each.left, each.right))
        down.hold((each.top, each.bottom))
    done: set[tuple[str, float, float, float, float]] = set()
    lines: list[tuple[Line, float, float, float, float]] = []
    for each in held:
        left, right = across.at(each.left), across.at(each.right)
        top, bottom = down.at(each.top), down.at(each.bottom)
        if each.fill:
            canvas.rectangle("none", left, top, right - left, bottom - top, each.fill)
        for x1, y1, x2, y2 in (
            (left, top, right, top),
            (left, bottom, right, bottom),
            (left, top, left, bottom),
            (right, top, right, bottom),
        ):
            key = (each.line, round(x1, 2), round(y1, 2), round(x2, 2), round(y2, 2))
            if key not in done and (x1, y1) != (x2, y2):
                done.add(key)
                lines.append((each.line, x1, y1, x2, y2))
    for line in lines:
        canvas.line(*line)
    return across, down
