"""Line drawings in millimetres on paper, as SVG.

A drawing knows every letter it holds, so that it grows to what is drawn and nothing is clipped.
Coordinates run right and down, as SVG has them, and are millimetres on paper; they are floats,
since nothing reads a value back from a drawing.
"""

from collections.abc import Iterable, Sequence
from fractions import Fraction
from html import escape
from importlib.resources import files
from math import hypot
from typing import Literal

from attrs import define, field, frozen

from casewright.compiler.papers.figures import Figure, Note, read
from casewright.lang.measure import INCH, System
from casewright.lang.printing import Printing

Line = Literal[
    "cut", "seen", "thin", "hidden", "centre", "later", "pencil", "triangle", "solid", "none"
]
"""A line by what it means; `drawing.css` gives each its width of ISO 128-2. `cut` is 0.7, `seen`
0.35, `thin` 0.18, `hidden` short dashes, `centre` long-short, `later` long-two-short, `pencil`
0.7 in violet, `triangle` the cabinetmaker's 0.7, `solid` a black area, `none` an area
without a line."""

Anchor = Literal["start", "middle", "end"]

WIDEST = 196.0
"""What a drawing may take across a page of A4 or Letter, in millimetres."""

LETTER = 4.2
"""Letter size in millimetres: figures come out 3 mm high in common faces."""

CAPITAL = 3.1
"""What a line of letters takes above its baseline, in millimetres."""

TAIL = 1.0
"""What a line of letters takes below its baseline, in millimetres."""

_FREE = 0.5
_NARROW, _SLIM, _WIDE = "iIjl.,:;'|!()[] /\u00a0", "frt-", "mwMW@%"
_CAPITALS = "ABCDEFGHJKLNOPQRSTUVXYZ"


def letters_width(text: str, *, bold: bool = False) -> float:
    """The width in millimetres to keep free for `text` at 4.2 mm. The reader's face isn't known,
    so 2.7 mm are kept for a figure or a letter."""
    width = 0.0
    for letter in text:
        if letter in _NARROW:
            width += 1.6
        elif letter in _SLIM:
            width += 2.0
        elif letter in _WIDE:
            width += 4.0
        elif letter in _CAPITALS:
            width += 3.2
        else:
            width += 2.7
    return width * (1.08 if bold else 1.0)


def fitted(text: str, room: float, *, bold: bool = False) -> str:
    """`text`, cut with `…` so that it takes at most `room` millimetres; empty for no room."""
    if letters_width(text, bold=bold) <= room:
        return text
    while text and letters_width(text + "…", bold=bold) > room:
        text = text[:-1]
    return text.rstrip() + "…" if text else ""


def number(value: float) -> str:
    """A coordinate as SVG text, two places."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


@frozen
class Letters:
    """A line of text: where its anchor stands, and how it is read.

    `turned` text runs upwards, read from the right. A text with a `figure` is explained at the
    figure's address.
    """

    x: float
    y: float
    text: str
    anchor: Anchor = "middle"
    turned: bool = False
    kind: str = ""
    figure: Figure | None = None
    href: str = ""

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom of what is kept free for it."""
        width = letters_width(self.text, bold="bold" in self.kind or "tag" in self.kind)
        before = {"start": 0.0, "middle": width / 2, "end": width}[self.anchor]
        if self.turned:
            top = self.y - (width - before)
            return self.x - CAPITAL, top, self.x + TAIL, top + width
        left = self.x - before
        return left, self.y - CAPITAL, left + width, self.y + TAIL


@frozen
class Shape:
    """Any SVG element that holds no text, already written."""

    text: str


@frozen
class Drawing:
    """A finished drawing: `name` is a file name's stem, `title` says what is seen."""

    name: str
    title: str
    left: float
    top: float
    width: float
    height: float
    elements: tuple[Letters | Shape, ...] = field(repr=False)
    note: Note = ()

    @property
    def letters(self) -> tuple[Letters, ...]:
        return tuple(each for each in self.elements if isinstance(each, Letters))

    def body(self, *, links: bool) -> str:
        """The elements as SVG; with `links`, figures lead to where they are explained."""
        return "".join(
            each.text if isinstance(each, Shape) else _text(each, links) for each in self.elements
        )

    def svg(self, identifier: str) -> str:
        """As part of a page; `identifier` is unique on it."""
        return (
            f'<svg class="drawing" {self.size} role="group" aria-labelledby="{identifier}">'
            f'<title id="{identifier}">{escape(self.title)}</title>{self.body(links=True)}</svg>'
        )

    def file(self) -> bytes:
        """As a file of its own, with its line widths in it."""
        style = (files("casewright.compiler.papers") / "templates" / "drawing.css").read_text(
            encoding="utf-8"
        )
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" class="drawing" {self.size}>'
            f"<title>{escape(self.title)}</title><style>{style}</style>"
            f"{self.body(links=False)}</svg>\n"
        ).encode()

    @property
    def size(self) -> str:
        """The attributes that say how large it is, in SVG's words."""
        return size_of(self.left, self.top, self.width, self.height)


def size_of(left: float, top: float, width: float, height: float) -> str:
    """An SVG's attributes for a window on its drawing space; a unit of it is a millimetre."""
    return (
        f'width="{number(width)}mm" height="{number(height)}mm" '
        f'viewBox="{number(left)} {number(top)} {number(width)} {number(height)}"'
    )


def _text(letters: Letters, links: bool) -> str:
    turn = (
        f' transform="rotate(-90 {number(letters.x)} {number(letters.y)})"'
        if letters.turned
        else ""
    )
    kind = f' class="{letters.kind}"' if letters.kind else ""
    anchor = "" if letters.anchor == "start" else f' text-anchor="{letters.anchor}"'
    text = (
        f'<text{kind} x="{number(letters.x)}" y="{number(letters.y)}"{anchor}{turn}>'
        f"{escape(letters.text)}</text>"
    )
    if links and letters.figure is not None:
        address = escape(letters.figure.address)
        return f'<a class="why" data-why="{address}" href="#why-{address}">{text}</a>'
    if links and letters.href:
        return f'<a href="#{escape(letters.href)}">{text}</a>'
    return text


@define
class Canvas:
    """A sheet that is drawn on. It grows with what is put on it."""

    printing: Printing
    elements: list[Letters | Shape] = field(factory=list)
    _left: float = 0.0
    _top: float = 0.0
    _right: float = 0.0
    _bottom: float = 0.0
    _empty: bool = True

    def reach(self, *points: tuple[float, float]) -> None:
        """Makes the sheet hold `points`."""
        for x, y in points:
            if self._empty:
                self._left = self._right = x
                self._top = self._bottom = y
                self._empty = False
            self._left, self._right = min(self._left, x), max(self._right, x)
            self._top, self._bottom = min(self._top, y), max(self._bottom, y)

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom of what is drawn so far."""
        return self._left, self._top, self._right, self._bottom

    def is_free(self, letters: Letters, margin: float = 0.0) -> bool:
        """Whether `letters` would stand `margin` clear of all letters drawn so far."""
        left, top, right, bottom = letters.box
        left, top, right, bottom = left - margin, top - margin, right + margin, bottom + margin
        return all(
            right < box[0] or box[2] < left or bottom < box[1] or box[3] < top
            for box in (each.box for each in self.elements if isinstance(each, Letters))
        )

    def freest(self, places: Sequence[Letters]) -> Letters:
        """The first of `places` that stands well clear of all letters, or at least clear."""
        for margin in (2.4, 1.0, 0.2):
            for each in places:
                if self.is_free(each, margin):
                    return each
        return places[0]

    def polyline(
        self, line: Line, points: Iterable[tuple[float, float]], *, closed: bool = False
    ) -> None:
        held = list(points)
        self.reach(*held)
        path = "L".join(f"{number(x)} {number(y)}" for x, y in held)
        self.elements.append(Shape(f'<path class="{line}" d="M{path}{"Z" if closed else ""}"/>'))

    def line(self, line: Line, x1: float, y1: float, x2: float, y2: float) -> None:
        self.polyline(line, ((x1, y1), (x2, y2)))

    def rectangle(
        self, line: Line, x: float, y: float, width: float, height: float, fill: str = ""
    ) -> None:
        """A rectangle by its left top corner; `fill` is empty, `paper` or `tint`."""
        self.reach((x, y), (x + width, y + height))
        self.elements.append(
            Shape(
                f'<rect class="{f"{line} {fill}".rstrip()}" x="{number(x)}" y="{number(y)}" '
                f'width="{number(width)}" height="{number(height)}"/>'
            )
        )

    def circle(self, line: Line, x: float, y: float, radius: float, fill: str = "") -> None:
        self.reach((x - radius, y - radius), (x + radius, y + radius))
        self.elements.append(
            Shape(
                f'<circle class="{f"{line} {fill}".rstrip()}" cx="{number(x)}" cy="{number(y)}" '
                f'r="{number(radius)}"/>'
            )
        )

    def quarter(
        self, line: Line, hinge: tuple[float, float], start: tuple[float, float],
        end: tuple[float, float],
    ) -> None:  # fmt: skip
        """A swing along the sheet's axes: `start` lies straight beside `hinge`, `end` over or
        under it."""
        self.swing(line, hinge, start, end, clockwise=(start[0] > hinge[0]) == (end[1] > hinge[1]))

    def swing(
        self, line: Line, hinge: tuple[float, float], start: tuple[float, float],
        end: tuple[float, float], *, clockwise: bool,
    ) -> None:  # fmt: skip
        """A swing: an arc about `hinge` from `start` to `end`, and the leaf at `end`."""
        radius = hypot(start[0] - hinge[0], start[1] - hinge[1])
        sweep = 1 if clockwise else 0
        self.reach(hinge, start, end)
        self.elements.append(
            Shape(
                f'<path class="{line}" d="M{number(start[0])} {number(start[1])}A{number(radius)} '
                f"{number(radius)} 0 0 {sweep} {number(end[0])} {number(end[1])}"
                f'L{number(hinge[0])} {number(hinge[1])}"/>'
            )
        )

    def letters(self, letters: Letters) -> None:
        left, top, right, bottom = letters.box
        self.reach((left, top), (right, bottom))
        self.elements.append(letters)

    def write(
        self, x: float, y: float, text: str, anchor: Anchor = "middle", kind: str = "",
        *, turned: bool = False, href: str = "",
    ) -> None:  # fmt: skip
        """Words; the baseline is at `y`."""
        self.letters(Letters(x, y, text, anchor, turned, kind, None, href))

    def figure(
        self, x: float, y: float, figure: Figure, anchor: Anchor = "middle", words: str = "",
        *, turned: bool = False,
    ) -> None:  # fmt: skip
        """A figure, with `words` after it, explained at its address."""
        text = f"{read(figure.measure, self.printing)} {words}".rstrip()
        self.letters(Letters(x, y, text, anchor, turned, "", figure))

    def finished(self, name: str, title: str, note: Note = ()) -> Drawing:
        """The drawing, with a little free all round."""
        left, top, right, bottom = self.bounds
        return Drawing(
            name,
            title,
            left - _FREE,
            top - _FREE,
            right - left + 2 * _FREE,
            bottom - top + 2 * _FREE,
            tuple(self.elements),
            note,
        )


@frozen
class View:
    """Where a thing is drawn: paper place of its zero, and the scale 1 to `scale`."""

    x0: float
    y0: float
    scale: int

    def size(self, value: Fraction) -> float:
        """`value` in inches as millimetres on paper."""
        return float(value * INCH / self.scale)

    def x(self, across: Fraction) -> float:
        return self.x0 + self.size(across)

    def y(self, up: Fraction) -> float:
        return self.y0 - self.size(up)


_INCH_SCALES = (4, 8, 12, 16, 24, 32, 48, 64, 96, 192)
_METRIC_SCALES = (5, 10, 20, 25, 50, 100, 200)
_FOOT = {
    4: "3 inches", 8: "1 1/2 inches", 12: "1 inch", 16: "3/4 inch", 24: "1/2 inch",
    32: "3/8 inch", 48: "1/4 inch", 64: "3/16 inch", 96: "1/8 inch", 192: "1/16 inch",
}  # fmt: skip


def scales(system: System, largest: int = 1) -> tuple[int, ...]:
    """The scales a shop reads, the largest drawing first: 1 to 12, 1 to 24 … in inch jobs (common
    practice), 1 to 10, 1 to 20, 1 to 50 … in metric ones (ISO 5455, from memory) with
    1 to 25 between (common practice). None is larger
    than 1 to `largest`."""
    every = _INCH_SCALES if system is System.INCHES else _METRIC_SCALES
    return tuple(scale for scale in every if scale >= largest)


def scale_words(scale: int, system: System) -> str:
    """`1 to 24 (1/2 inch to the foot)`."""
    if system is System.INCHES and scale in _FOOT:
        return f"1 to {scale} ({_FOOT[scale]} to the foot)"
    return f"1 to {scale}"
