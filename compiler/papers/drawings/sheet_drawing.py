"""One sheet drawn as the sawyer stands before it: fence on the right, near end at the foot.

What is cut is numbered at its line; pieces carry tag, name and size, waste the carpenter's X, an
offcut the word `keep`. Beside it stands the fence stick, with every fence setting once.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from attrs import define, field

from casewright.compiler.cutting.sawing import Board, MaterialPlan, Pass, PlannedSheet
from casewright.compiler.model import Job
from casewright.compiler.papers.drawings.drawing import (
    CAPITAL,
    TAIL,
    Canvas,
    Drawing,
    Letters,
    letters_width,
    scales,
)
from casewright.compiler.papers.drawings.marks import crossed, ring
from casewright.compiler.papers.figures import printing_of, read
from casewright.lang.measure import INCH, length
from casewright.lang.printing import Printing

TALLEST, WIDEST = 158.0, 104.0
"""What a sheet may take on paper, in millimetres, so that rings, stick and steps have room."""

LINE = 4.7
RING = 3.2
STICK_WIDE = 4.4

Box = tuple[float, float, float, float]

_TWENTIETHS = tuple(each / 20 for each in range(21))
_NINE = tuple(each / 8 for each in range(9))
_MIDDLE_FIRST = sorted(
    ((across, up) for across in _NINE for up in _NINE),
    key=lambda each: ((each[0] - 0.5) ** 2 + (each[1] - 0.5) ** 2, each),
)
"""Where in a board words may stand, as shares of its room, the middle first."""


def size_words(board: Board, printing: Printing) -> str:
    """`30 1/2 × 23 31/32`: along the sheet, then across, as the saw is set."""
    return f"{read(length(board.length), printing)} × {read(length(board.width), printing)}"


def sheet_scales(job: Job, sheet: PlannedSheet) -> range:
    """The scales a sheet may be drawn to, the largest first: one a shop reads, then every whole
    one down to half of it, for a page with little room. Nothing is measured off this drawing."""
    size = sheet.size
    fitting = (
        each
        for each in scales(job.system)
        if float(size.length * INCH) / each <= TALLEST and float(size.width * INCH) / each <= WIDEST
    )
    first = next(fitting, scales(job.system)[-1])
    return range(first, 2 * first + 1)


def sheet_drawing(
    job: Job, plan: MaterialPlan, sheet: PlannedSheet, scale: int | None = None
) -> tuple[Drawing, list[str]]:
    """The drawing, at its largest scale where none is given, and in words the boards too small to
    letter."""
    chosen = sheet_scales(job, sheet)[0] if scale is None else scale
    drawer = _Drawer(printing_of(job), sheet, float(INCH) / chosen)
    drawer.draw()
    title = f"{plan.material.title}, sheet {sheet.number}"
    return drawer.canvas.finished(f"sheet_{sheet.number}", title), drawer.unlettered


def reach(each: Pass) -> Fraction:
    """How long the line of a cut is."""
    return each.to_along - each.along + each.to_across - each.across


def overlaps(one: Box, other: Box, margin: float = 0.3) -> bool:
    """Whether two boxes (left, top, right, bottom) come nearer than `margin`."""
    return not (
        one[2] + margin < other[0]
        or other[2] + margin < one[0]
        or one[3] + margin < other[1]
        or other[3] + margin < one[1]
    )


def letter_of(index: int) -> str:
    """`a` to `z`, then `aa`, `ab` …"""
    first, last = divmod(index, 26)
    return (chr(ord("a") + first - 1) if first else "") + chr(ord("a") + last)


@define
class _Drawer:
    printing: Printing
    sheet: PlannedSheet
    scale: float
    canvas: Canvas = field(init=False)
    taken: list[Box] = field(factory=list)
    rings: list[tuple[float, float, str]] = field(factory=list)
    unlettered: list[str] = field(factory=list)

    def __attrs_post_init__(self) -> None:
        self.canvas = Canvas(self.printing)

    @property
    def high(self) -> float:
        return float(self.sheet.size.length) * self.scale

    @property
    def wide(self) -> float:
        return float(self.sheet.size.width) * self.scale

    def x(self, across: Fraction) -> float:
        """The fence is on the right, so what lies farther across lies farther left."""
        return self.wide - float(across) * self.scale

    def y(self, along: Fraction) -> float:
        return -float(along) * self.scale

    def box(self, board: Board) -> Box:
        return (
            self.x(board.across + board.width),
            self.y(board.along + board.length),
            self.x(board.across),
            self.y(board.along),
        )

    def draw(self) -> None:
        canvas = self.canvas
        canvas.rectangle("seen", 0, -self.high, self.wide, self.high, "paper")
        for board in self.sheet.boards:
            left, top, right, bottom = self.box(board)
            if board.use == "waste":
                crossed(canvas, left, top, right - left, bottom - top)
            else:
                canvas.rectangle("seen", left, top, right - left, bottom - top, "paper")
            for place in board.later:
                if board.turned:
                    y = self.y(board.along + place)
                    canvas.line("later", left, y, right, y)
                else:
                    x = self.x(board.across + place)
                    canvas.line("later", x, top, x, bottom)
        canvas.rectangle("cut", 0, -self.high, self.wide, self.high)
        by_size = sorted(self.sheet.boards, key=lambda each: each.length * each.width)
        # A piece that no words fit has but its letter, and little room for that: numbers give way.
        small = [each for each in by_size if each.use == "piece" and not self.has_room(each)]
        for board in small:
            self.refer(board, self.box(board))
        # A short line leaves the least choice, so its number is placed first.
        by_length = sorted(self.sheet.passes, key=lambda each: (each.stage != 1, reach(each)))
        for each in by_length:
            self.rings.append(self.ring_place(each))
        for board in by_size:
            if board.use != "waste" and board not in small:
                self.letter(board)
        for x, y, text in self.rings:
            ring(canvas, x, y, text)
        self.outside()

    def ring_place(self, each: Pass) -> tuple[float, float, str]:
        """Where a cut's number stands: at an end of its line, or along it, clear of the others."""
        low_x, high_x = self.x(each.to_across), self.x(each.across)
        low_y, high_y = self.y(each.to_along), self.y(each.along)
        places = list(self.places(each, low_x, high_x, low_y, high_y))
        for margin in (0.6, -0.4):
            for x, y in places:
                box = (x - RING, y - RING, x + RING, y + RING)
                if not any(overlaps(box, other, margin) for other in self.taken):
                    self.taken.append(box)
                    return x, y, str(each.number)
        x, y = min(places, key=self.covered)
        self.taken.append((x - RING, y - RING, x + RING, y + RING))
        return x, y, str(each.number)

    def covered(self, place: tuple[float, float]) -> float:
        """How much of what stands already a number here would cover, letters counted tenfold: a
        ring may touch another, but hides a letter."""
        x, y = place
        return sum(
            (10.0 if other[2] - other[0] < 2 * RING - 0.1 else 1.0)
            * max(0.0, min(x + RING, other[2]) - max(x - RING, other[0]))
            * max(0.0, min(y + RING, other[3]) - max(y - RING, other[1]))
            for other in self.taken
        )

    def places(
        self, each: Pass, low_x: float, high_x: float, low_y: float, high_y: float
    ) -> Iterator[tuple[float, float]]:
        """Places for a number, the best first: whole-sheet cuts outside the sheet."""
        if each.way == "rip":
            x = (low_x + high_x) / 2
            if each.stage == 1:
                for row in range(3):
                    yield x, -self.high - 4.2 - 7.4 * row
                return
            for part in (0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9, 0.0, 1.0, *_TWENTIETHS):
                yield x, low_y + (high_y - low_y) * part
            return
        y = (low_y + high_y) / 2
        if each.stage == 1 or high_x > self.wide - 1.5:
            for column in range(3):
                for shift in (0.0, 2.6, -2.6):
                    yield self.wide + 4.2 + 7.4 * column, y + shift
        for part in (0.0, 1.0, 0.5, 0.25, 0.75, *_TWENTIETHS):
            yield low_x + (high_x - low_x) * part, y

    def has_room(self, board: Board) -> bool:
        """Whether some of its words would stand on a board, were no numbers there."""
        return next(self.fitting(board), None) is not None

    def fitting(self, board: Board) -> Iterator[tuple[list[tuple[str, bool]], float, float, bool]]:
        """What may be written on a board, with its width and height, the best first."""
        left, top, right, bottom = self.box(board)
        for lines in self.texts(board):
            for turned in (False, True):
                across = max(letters_width(text, bold=bold) for text, bold in lines)
                deep = LINE * (len(lines) - 1) + CAPITAL + TAIL
                wide, high = (deep, across) if turned else (across, deep)
                if wide + 1.0 <= right - left and high + 1.0 <= bottom - top:
                    yield lines, wide, high, turned

    def letter(self, board: Board) -> None:
        """Tag, name and size, as much as there is room for, clear of the rings."""
        left, top, right, bottom = self.box(board)
        for lines, wide, high, turned in self.fitting(board):
            spot = self.spot(left, top, right, bottom, wide, high)
            if spot is not None:
                self.write(lines, spot, wide, high, turned)
                return
        if board.use == "piece":
            self.refer(board, (left, top, right, bottom))

    def refer(self, board: Board, box: Box) -> None:
        """A piece too small for its name carries a letter, which is explained under the drawing."""
        left, top, right, bottom = box
        key = letter_of(len(self.unlettered))
        size = size_words(board, self.printing)
        self.unlettered.append(f"{key} {board.label} {board.title} {size}")
        wide, high = letters_width(key, bold=True), CAPITAL + TAIL
        spot = self.spot(left, top, right, bottom, wide, high)
        if spot is None:
            spot = ((left + right) / 2, (top + bottom) / 2)
            x, y = spot
            self.taken.append((x - wide / 2, y - high / 2, x + wide / 2, y + high / 2))
        self.write([(key, True)], spot, wide, high, False)

    def texts(self, board: Board) -> Iterator[list[tuple[str, bool]]]:
        size = size_words(board, self.printing)
        if board.use == "keep":
            yield [("keep", True), (size, False)]
            yield [(f"keep {size}", True)]
            return
        yield [(board.label, True), (board.title, False), (size, False)]
        yield [(f"{board.label} {board.title}", True), (size, False)]
        yield [(f"{board.label} {board.title} {size}", False)]
        named = board.title.split()
        for at in range(len(named) - 1, 0, -1):
            first, second = " ".join(named[:at]), " ".join(named[at:])
            yield [(f"{board.label} {first}", True), (second, True), (size, False)]
            yield [(f"{board.label} {first}", True), (f"{second} {size}", False)]
            yield [(f"{board.label} {first}", True), (second, True)]
        yield [(f"{board.label} {board.title}", False)]

    def spot(
        self, left: float, top: float, right: float, bottom: float, wide: float, high: float
    ) -> tuple[float, float] | None:
        """A middle for a text of this size, in the box and clear of what is there."""
        for across, up in _MIDDLE_FIRST:
            x = left + wide / 2 + 0.5 + (right - left - wide - 1.0) * across
            y = top + high / 2 + 0.5 + (bottom - top - high - 1.0) * up
            box = (x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)
            if not any(overlaps(box, each) for each in self.taken):
                self.taken.append(box)
                return x, y
        return None

    def write(
        self, lines: Sequence[tuple[str, bool]], spot: tuple[float, float],
        wide: float, high: float, turned: bool,
    ) -> None:  # fmt: skip
        x, y = spot
        for index, (text, bold) in enumerate(lines):
            kind = "bold" if bold else ""
            if turned:
                at = x - wide / 2 + CAPITAL + LINE * index
                self.canvas.letters(Letters(at, y, text, "middle", True, kind))
            else:
                at = y - high / 2 + CAPITAL + LINE * index
                self.canvas.letters(Letters(x, at, text, "middle", False, kind))

    def outside(self) -> None:
        """The fence, where one stands, the factory edge, and the stick."""
        canvas = self.canvas
        right = max([self.wide + 1.5, *(x + 3.4 for x, _, _ in self.rings)])
        canvas.line("cut", right + 2.0, -self.high - 3.0, right + 2.0, 3.0)
        canvas.write(right + 6.6, -self.high / 2, "FENCE", kind="bold", turned=True)
        canvas.write(self.wide / 2, 6.6, "near end: you stand here", kind="grey")
        left = min([0.0, *(x - RING for x, _, _ in self.rings)])
        canvas.write(left - 1.8, -self.high / 2, "factory edge", kind="grey", turned=True)
        self.stick(right + 11.0)

    def stick(self, left: float) -> None:
        """Every fence setting once, measured from 0 at the foot, on a scale of its own."""
        settings = sorted(
            {each.setting for each in self.sheet.passes if each.way == "rip" and not each.trims}
        )
        if not settings:
            return
        canvas = self.canvas
        canvas.rectangle("seen", left, -self.high, STICK_WIDE, self.high)
        longest = self.high - 8.0
        ticks = [float(setting / settings[-1]) * longest for setting in settings]
        canvas.write(left + STICK_WIDE + 4.0, 0.0, "0", "start")
        gaps = zip([0.0, *ticks], [*ticks, self.high], strict=True)
        low, high = max(gaps, key=lambda gap: gap[1] - gap[0])
        if high - low > letters_width("fence stick") + 2.0:
            middle = -(low + high) / 2
            canvas.write(left + STICK_WIDE - 1.2, middle, "fence stick", kind="grey", turned=True)
        below = 5.4
        for setting, tick in zip(settings, ticks, strict=True):
            y = -tick
            canvas.line("cut", left, y, left + STICK_WIDE, y)
            beside = min(y, -below)
            below = -beside + 5.0
            canvas.polyline(
                "thin",
                (
                    (left + STICK_WIDE, y),
                    (left + STICK_WIDE + 2.4, beside),
                    (left + STICK_WIDE + 3.4, beside),
                ),
            )
            words = read(length(setting), self.printing)
            canvas.write(left + STICK_WIDE + 4.0, beside + 1.4, words, "start")
