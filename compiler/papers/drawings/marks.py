"""Marks of the bench and of the page, drawn: tags, rings, grain, bands, the datum, the triangle."""

from collections.abc import Sequence

from casewright.compiler.papers.drawings.drawing import Canvas, letters_width

TAG_LINE = 1.4
"""Thickness of the short floor line under a tag, in millimetres."""


def tag(
    canvas: Canvas, x: float, y: float, text: str, *, here: bool = False, href: str = ""
) -> None:
    """A tag in bold on its short floor line; `y` is the baseline. Never on a door's line."""
    width = max(9.0, letters_width(text, bold=True) + 1)
    kind = " here" if here else ""
    canvas.write(x, y, text, kind=f"tag{kind}", href=href)
    canvas.reach((x - width / 2, y + 1.2), (x + width / 2, y + 1.2 + TAG_LINE))
    canvas.rectangle("solid", x - width / 2, y + 1.2, width, TAG_LINE, "here" if here else "")


def ring(canvas: Canvas, x: float, y: float, text: str) -> None:
    """A step's figure in a ring 6 mm across."""
    canvas.circle("seen", x, y, 3.0, "paper")
    canvas.write(x, y + 1.4, text, kind="bold small")


def grain(canvas: Canvas, x: float, y: float, *, upright: bool) -> None:
    """Three short strokes of unequal length along the grain, centred on (x, y)."""
    for offset, length in ((-1.6, 6.0), (0.0, 8.5), (1.6, 5.0)):
        if upright:
            canvas.line("thin", x + offset, y - length / 2, x + offset, y + length / 2)
        else:
            canvas.line("thin", x - length / 2, y + offset, x + length / 2, y + offset)


def banded(
    canvas: Canvas, x1: float, y1: float, x2: float, y2: float, outward: tuple[int, int],
    *, thick: bool = False,
) -> None:  # fmt: skip
    """A bar that floats 1 mm outside a banded edge: 0.7 filled, open and 1.4 for a thick band."""
    width = 1.4 if thick else 0.7
    near, far = 1.0, 1.0 + width
    dx, dy = outward
    left = min(x1, x2) + min(dx * near, dx * far)
    top = min(y1, y2) + min(dy * near, dy * far)
    across = abs(x2 - x1) if dx == 0 else width
    down = abs(y2 - y1) if dy == 0 else width
    canvas.rectangle(
        "thin" if thick else "solid", left, top, across, down, "paper" if thick else ""
    )


def datum(
    canvas: Canvas, x: float, y: float, outward: tuple[int, int] = (0, 1), size: float = 5.2
) -> None:
    """The bench's face-edge mark: a V whose point is on the edge measured from; `outward` is the
    way out of the part there, `size` how far the V reaches into it."""
    dx, dy = outward
    half = size / 2
    feet = [
        (x - size * dx + side * half * dy, y - size * dy + side * half * dx) for side in (-1, 1)
    ]
    canvas.polyline("cut", (feet[0], (x, y), feet[1]))


def crossed(canvas: Canvas, x: float, y: float, width: float, height: float) -> None:
    """Waste: tint and the carpenter's X corner to corner; tint alone under 3 mm."""
    canvas.rectangle("seen", x, y, width, height, "tint")
    if min(width, height) >= 3:
        canvas.line("thin", x, y, x + width, y + height)
        canvas.line("thin", x, y + height, x + width, y)


def triangle(canvas: Canvas, x: float, y: float, width: float, rows: Sequence[float]) -> float:
    """The cabinetmaker's triangle over boards laid side by side: draws the boards from the top
    (heights `rows`) and one triangle across them all; gives the height of the whole."""
    height = sum(rows)
    at = y
    for row in rows:
        canvas.rectangle("seen", x, at, width, row)
        at += row
    half = min(width / 2 - 2, height * 0.62)
    middle = x + width / 2
    canvas.polyline(
        "triangle", ((middle - half, y + height), (middle, y), (middle + half, y + height)),
        closed=True,
    )  # fmt: skip
    return height
