"""The lumber plan as CSV: every piece of solid wood in the order it is sawn, board by board."""

from collections.abc import Sequence
from fractions import Fraction

from casewright.compiler.cutting.board_cuts import LumberPlan, PlannedBoard
from casewright.compiler.model import Job
from casewright.compiler.papers.figures import printing_of, suffix
from casewright.compiler.papers.lists.spreadsheet import sheet
from casewright.lang.measure import length
from casewright.lang.printing import decimal_of


def lumber_csv(job: Job, plans: Sequence[LumberPlan]) -> str:
    """CSV (RFC 4180): sizes as decimals; `rip` and `crosscut` are rough, `strip` is a panel's."""
    unit = suffix(printing_of(job))
    return sheet(
        (
            "material", f"rough_thickness_{unit}", f"planed_thickness_{unit}", "board",
            f"board_width_{unit}", f"board_length_{unit}", "cut", f"rip_{unit}",
            f"crosscut_{unit}", f"finished_width_{unit}", f"finished_length_{unit}", "unit",
            "part", "strip", "strips_in_panel",
        ),
        (
            row
            for plan in plans
            for board in plan.boards
            for row in _rows(job, plan, board)
        ),
    )  # fmt: skip


def _rows(job: Job, plan: LumberPlan, board: PlannedBoard) -> list[tuple[str, ...]]:
    def cell(value: int) -> str:
        return str(value) if value else ""

    def size(value: Fraction) -> str:
        return decimal_of(length(value), job.system)

    pieces = [each for each in board.lies if each.piece is not None]
    found: list[tuple[str, ...]] = []
    for lying in sorted(pieces, key=lambda each: (each.cut, each.across, each.along)):
        piece = lying.piece
        assert piece is not None
        found.append(
            (
                plan.material.title, size(plan.wanted.rough), size(plan.wanted.surfaced),
                str(board.number), size(board.width), size(board.length), cell(lying.cut),
                size(piece.rough_width), size(piece.rough_length), size(piece.width),
                size(piece.length), piece.label, piece.title, cell(piece.strip),
                cell(piece.strips),
            )
        )  # fmt: skip
    return found
