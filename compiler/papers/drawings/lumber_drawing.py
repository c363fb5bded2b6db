"""A board as a bar: pieces in their places, each with the number of the cut that frees it."""

from fractions import Fraction
from typing import Final

from casewright.compiler.cutting.board_cuts import LumberPlan, Lying, PlannedBoard
from casewright.compiler.model import Job
from casewright.compiler.papers.drawings.drawing import WIDEST, Canvas, Drawing, fitted, scales
from casewright.compiler.papers.drawings.marks import crossed
from casewright.compiler.papers.figures import printing_of, read
from casewright.lang.measure import INCH, length

ROW: Final = 6.4
"""What the narrowest piece is drawn high, in millimetres, so that letters stand in it."""

HIGHEST: Final = 64.0
"""What a board is drawn high at most, in millimetres."""

_LEAST_SEEN: Final = 0.7


def board_drawing(job: Job, plan: LumberPlan, board: PlannedBoard) -> Drawing:
    """A board lying along the page, its near end at the left. Along it is to scale; across it is
    drawn wider than that where letters would find no room."""
    canvas = Canvas(printing_of(job))
    scale = next(
        (each for each in scales(job.system) if float(board.length * INCH / each) <= WIDEST - 4.0),
        scales(job.system)[-1],
    )
    along = float(INCH / scale)
    across = _across(board, along)
    ends = plan.wanted.boards.ends
    whole, high = float(board.length) * along, float(board.width) * across
    canvas.rectangle("cut", 0.0, 0.0, whole, high, "paper")
    for start, end in ((Fraction(0), ends), (ends + board.clear, board.length)):
        if end > start:
            crossed(canvas, float(start) * along, 0.0, float(end - start) * along, high)
    for lying in board.lies:
        _lying(canvas, lying, along, across)
    name = f"{plan.material.title}, board {board.number}"
    printing = printing_of(job)
    size = " × ".join(read(length(each), printing) for each in (board.width, board.length))
    note = (
        f"Board {board.number} of {len(plan.boards)}, {size}, 1 to {scale} along, wider across; "
        "near end left, jointed edge at the top. A figure is the cut that frees a piece; crossed: "
        "waste, ends, and what defects take.",
    )
    return canvas.finished(f"board-{plan.material.name}-{board.number}", name, note)


def _across(board: PlannedBoard, along: float) -> float:
    """Millimetres for an inch across a board: enough for letters in its narrowest piece."""
    widths = [float(each.width) for each in board.lies if each.piece is not None]
    wanted = ROW / min(widths) if widths else along
    return max(along, min(wanted, HIGHEST / float(board.width)))


def _lying(canvas: Canvas, lying: Lying, along: float, across: float) -> None:
    x, y = float(lying.along) * along, float(lying.across) * across
    wide, high = float(lying.length) * along, float(lying.width) * across
    if lying.piece is None:
        if min(wide, high) >= _LEAST_SEEN:
            crossed(canvas, x, y, wide, high)
        return
    canvas.rectangle("seen", x, y, wide, high, "paper")
    if high < ROW - 1.6:
        return
    middle = y + high / 2 + 1.5
    number = f"{lying.cut} " if lying.cut else ""
    full = f"{number}{lying.piece.label} {_name(lying)}"
    words = fitted(full, wide - 1.2)
    # A name cut short to nothing but its figure says the figure alone.
    if "…" in words and len(words) < len(number) + 3:
        words = fitted(number.strip(), wide - 1.2)
    if words:
        canvas.write(x + wide / 2, middle, words)


def _name(lying: Lying) -> str:
    """A piece's name, with its strip where it is one of several."""
    piece = lying.piece
    assert piece is not None
    if not piece.strips:
        return piece.title
    return f"{piece.title}, strip {piece.strip}"
