"""A slow saw for tests: it cuts a sheet made of cells and says what lies on the bench after."""

from collections import Counter

import numpy as np
from numpy.typing import NDArray

from casewright.compiler.plan.request import Request
from casewright.compiler.plan.tree import CutPlan, Node

Cells = NDArray[np.int64]


def saw_plan(request: Request, plan: CutPlan) -> Counter[tuple[str, int, int]]:
    """Saws every sheet and counts the pieces by address, length and width along their own grain.

    A sheet is a table of cells, one a grid step, each with a number of its own: a cell that was
    turned to dust or belongs to another board can't come off the saw again.
    """
    bench: Counter[tuple[str, int, int]] = Counter()
    usable = dict(zip((stock.name for stock in request.stock), request.usable, strict=True))
    kerf = request.saw.kerf / plan.step
    assert kerf.denominator == 1
    for sheet in plan.sheets:
        length, width = (int(size / plan.step) for size in usable[sheet.stock])
        cells = np.arange(length * width, dtype=np.int64).reshape(length, width)
        seen: set[int] = set()
        _saw(sheet.root, cells, int(kerf), bench, seen)
    return bench


def _saw(
    node: Node,
    board: Cells,
    kerf: int,
    bench: Counter[tuple[str, int, int]],
    seen: set[int],
) -> None:
    assert board.shape == (node.length, node.width)
    if not node.cut:
        cells = set(board.ravel().tolist())
        assert len(cells) == board.size
        assert not cells & seen
        seen |= cells
        if node.use == "piece":
            size = (node.width, node.length) if node.turned else (node.length, node.width)
            bench[(node.piece, *size)] += 1
        return
    rest = board
    for child in node.children:
        if node.cut == "rip":
            taken, rest = rest[:, : child.width], rest[:, child.width + kerf :]
        else:
            taken, rest = rest[: child.length], rest[child.length + kerf :]
        _saw(child, taken, kerf, bench, seen)
    assert rest.size == 0


def wanted(request: Request, plan: CutPlan) -> Counter[tuple[str, int, int]]:
    """What should lie on the bench."""
    return Counter(
        {
            (p.address, int(p.length / plan.step), int(p.width / plan.step)): p.quantity
            for p in request.pieces
        }
    )
