"""A sheet's plan with the sizes the job has: a planner may round a size up to a grid finer than
any fence, and a piece has one size on every page."""

from collections.abc import Mapping
from fractions import Fraction

from attrs import evolve

from casewright.compiler.cutting.sawing import Board, MaterialPlan
from casewright.compiler.model import Job
from casewright.compiler.papers.pieces import built, sawn

Size = tuple[Fraction, Fraction]


def as_cut(job: Job, plan: MaterialPlan) -> MaterialPlan:
    """`plan` with every board, pass and setting that is of a piece's size set to the size the job
    cuts that piece to. Where pieces of two sizes were given one setting, both keep the larger."""
    cut = _cut_sizes(job)
    pieces = [
        (board, cut[board.address])
        for sheet in plan.sheets
        for board in sheet.boards
        if board.use == "piece" and board.address in cut
    ]
    sizes: dict[Fraction, Fraction] = {}
    for board, exact in pieces:
        for planned, own in zip((board.length, board.width), _lying(board, exact), strict=True):
            sizes[planned] = max(own, sizes.get(planned, own))
    return evolve(
        plan,
        sheets=tuple(
            evolve(
                sheet,
                boards=tuple(_board(board, sizes) for board in sheet.boards),
                passes=tuple(
                    evolve(
                        each,
                        setting=sizes.get(each.setting, each.setting),
                        strip=sizes.get(each.strip, each.strip),
                    )
                    for each in sheet.passes
                ),
            )
            for sheet in plan.sheets
        ),
        settings=tuple(
            evolve(each, setting=sizes.get(each.setting, each.setting)) for each in plan.settings
        ),
    )


def _board(board: Board, sizes: Mapping[Fraction, Fraction]) -> Board:
    if board.use != "piece":
        return board
    return evolve(
        board,
        length=sizes.get(board.length, board.length),
        width=sizes.get(board.width, board.width),
    )


def _lying(board: Board, exact: Size) -> Size:
    """A piece's length and width as it lies: along the sheet, then across."""
    long, wide = exact
    return (wide, long) if board.turned else (long, wide)


def _cut_sizes(job: Job) -> dict[str, Size]:
    """What each piece is cut to, by its address: blanks and the parts that come from none."""
    found: dict[str, Size] = {}
    for item in built(job):
        for blank in item.unit.blanks:
            found[f"{item.holder}.{blank.name}"] = (blank.cut_length.value, blank.cut_width.value)
        for part in sawn(item.unit):
            if not part.blank:
                address = f"{item.holder}.{part.address}"
                found[address] = (part.cut_length.value, part.cut_width.value)
    return found
