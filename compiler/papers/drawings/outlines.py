"""Outlines on one sheet: lines that would print nearer than 0.7 mm are drawn as one."""

from collections.abc import Iterable

from attrs import define, evolve, field, frozen

from casewright.compiler.papers.drawings.drawing import Canvas, Line

NEAREST = 0.7
"""Two lines nearer than this, in millimetres on paper, are one."""


@frozen
class Rectangle:
    """An outline by its edges on paper; `line` is its kind, `fill` empty or `tint`.

    What is nearer to the eye (`near` is higher) hides what lies behind it.
    """

    left: float
    top: float
    right: float
    bottom: float
    line: Line = "seen"
    fill: str = ""
    near: float = -1000.0


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
    placed = [
        evolve(
            each, left=across.at(each.left), right=across.at(each.right),
            top=down.at(each.top), bottom=down.at(each.bottom),
        )
        for each in held
    ]  # fmt: skip
    for each in sorted(placed, key=lambda each: each.near):
        if each.fill:
            width, height = each.right - each.left, each.bottom - each.top
            canvas.rectangle("none", each.left, each.top, width, height, each.fill)
    done: set[tuple[str, bool, float, float, float]] = set()
    for each in placed:
        for level, at, low, high in (
            (True, each.top, each.left, each.right),
            (True, each.bottom, each.left, each.right),
            (False, each.left, each.top, each.bottom),
            (False, each.right, each.top, each.bottom),
        ):
            for start, end in _seen(placed, each, level, at, low, high):
                key = (each.line, level, round(at, 2), round(start, 2), round(end, 2))
                if key in done:
                    continue
                done.add(key)
                if level:
                    canvas.line(each.line, start, at, end, at)
                else:
                    canvas.line(each.line, at, start, at, end)
    return across, down


def _seen(
    every: list[Rectangle], own: Rectangle, level: bool, at: float, low: float, high: float
) -> list[tuple[float, float]]:
    """The stretches of one edge that nothing nearer hides."""
    stretches = [(low, high)] if high > low else []
    for other in every:
        if other.near <= own.near:
            continue
        near, far = (other.top, other.bottom) if level else (other.left, other.right)
        if not near < at < far:
            continue
        start, end = (other.left, other.right) if level else (other.top, other.bottom)
        stretches = [
            piece
            for first, last in stretches
            for piece in ((first, min(last, start)), (max(first, end), last))
            if piece[1] > piece[0]
        ]
    return stretches
