"""The independent check of a plan and its certificate: it trusts neither and shares no code.

Nothing of the planner is imported, only the data format of requests and trees. The plan is sawed
again on paper; `proof.py` works out the bound anew.
"""

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from attrs import frozen

from casewright.compiler.plan.proof import check_certificate
from casewright.compiler.plan.request import Piece, Problem, Request
from casewright.compiler.plan.tree import CutPlan, Node

if TYPE_CHECKING:
    pass

Rectangle = tuple[int, int]


@frozen
class Verdict:
    """What was found: the plan's cost, the least any plan costs, and everything that is wrong.

    The least holds for through cuts in any number of stages, or for plans of three (`staged`).
    """

    cost: Fraction
    least: Fraction
    problems: tuple[Problem, ...]
    staged: bool = False

    @property
    def sound(self) -> bool:
        """Whether plan and certificate hold as they stand."""
        return not self.problems


def verify(request: Request, plan: CutPlan, certificate: str) -> Verdict:
    """Checks every sheet of the plan, then the certificate's bound, then the two together."""
    problems = list(check_plan(request, plan))
    least, wrong = check_certificate(request, certificate)
    problems += wrong
    costs = dict(zip((stock.name for stock in request.stock), request.costs, strict=True))
    cost = sum((costs.get(sheet.stock, Fraction(0)) for sheet in plan.sheets), Fraction(0))
    if not problems and cost < least:
        problems.append(Problem("bound-above-plan", f"{cost} is cheaper than the bound {least}"))
    staged = any(line.startswith("stages ") for line in certificate.splitlines())
    return Verdict(cost, least, tuple(problems), staged)


def check_plan(request: Request, plan: CutPlan) -> Iterator[Problem]:
    """What is wrong with the sheets: pieces, places, kerf, cuts, grain, stages, copies of stock."""
    if plan.step <= 0 or plan.kerf * plan.step != request.saw.kerf:
        yield Problem("kerf-not-kept", "the plan was made for another kerf")
        return
    if (request.grid / plan.step).denominator != 1:
        yield Problem("step-too-coarse", "the plan's step doesn't divide every size")
        return
    usable = dict(zip((s.name for s in request.stock), request.usable, strict=True))
    pieces = {piece.address: piece for piece in request.pieces}
    found: Counter[str] = Counter()
    for number, sheet in enumerate(plan.sheets, 1):
        where = f"sheet {number}"
        size = usable.get(sheet.stock)
        if size is None:
            yield Problem("stock-unknown", f"there is no stock {sheet.stock!r}", where)
            continue
        if (sheet.root.length * plan.step, sheet.root.width * plan.step) != size:
            yield Problem("not-the-usable-sheet", "the tree doesn't start at the sheet", where)
        yield from _check_node(sheet.root, plan, pieces, where)
        yield from _check_stages(sheet.root, request.saw.first, where)
        found.update(_pieces_in(sheet.root))
    for address, piece in pieces.items():
        if found[address] != piece.quantity:
            message = f"cut {found[address]} times, asked {piece.quantity} times"
            yield Problem("piece-count", message, address)
    used = Counter(sheet.stock for sheet in plan.sheets)
    for stock in request.stock:
        if stock.copies is not None and used[stock.name] > stock.copies:
            yield Problem("stock-short", f"{used[stock.name]} used of {stock.copies}", stock.name)


def _pieces_in(node: Node) -> Iterator[str]:
    if node.use == "piece":
        yield node.piece
    for child in node.children:
        yield from _pieces_in(child)


def _check_node(
    node: Node, plan: CutPlan, pieces: dict[str, Piece], where: str
) -> Iterator[Problem]:
    """One board: either it is used as it is, or cut right through into smaller ones."""
    if node.length <= 0 or node.width <= 0:
        yield Problem("size-not-positive", "a board has no size", where)
        return
    if not node.cut:
        yield from _check_use(node, plan, pieces, where)
        return
    if node.cut not in ("rip", "crosscut") or node.use or node.piece or not node.children:
        yield Problem("not-a-cut", f"{node.cut!r} is no through cut", where)
        return
    rip = node.cut == "rip"
    for child in node.children:
        if (child.length if rip else child.width) != (node.length if rip else node.width):
            yield Problem("not-a-through-cut", "a board ends inside the cut", where)
    across = sum(child.width if rip else child.length for child in node.children)
    spare = (node.width if rip else node.length) - across
    spare -= plan.kerf * (len(node.children) - 1)
    # A last cut may run off the edge with part of the blade; more than a kerf would be a board.
    if spare < 0:
        yield Problem("kerf-not-kept", "the boards and kerfs are more than there is", where)
    elif spare > plan.kerf:
        yield Problem("board-forgotten", "part of the board is in no child", where)
    elif len(node.children) == 1 and spare == 0:
        yield Problem("not-a-cut", "nothing is cut off", where)
    for child in node.children:
        yield from _check_node(child, plan, pieces, where)


def _check_use(
    node: Node, plan: CutPlan, pieces: dict[str, Piece], where: str
) -> Iterator[Problem]:
    if node.children:
        yield Problem("not-a-cut", "boards without a cut", where)
    if node.use in ("offcut", "waste") and not node.piece:
        return
    piece = pieces.get(node.piece)
    if node.use != "piece" or piece is None:
        yield Problem("piece-unknown", f"{node.piece!r} was not asked for", where)
        return
    size = (node.length * plan.step, node.width * plan.step)
    if node.turned and not piece.turn:
        yield Problem("grain-turned", "the grain of this piece is locked", piece.address)
    if size != ((piece.width, piece.length) if node.turned else (piece.length, piece.width)):
        yield Problem("piece-size", "the board isn't as large as the piece", piece.address)


def _check_stages(root: Node, first: str, where: str) -> Iterator[Problem]:
    """At most three stages from the first cut the shop allows, and a cut that only trims."""
    firsts = ("rip", "crosscut") if first == "either" else (first,)
    if not any(_stages_kept(root, 1, start == "rip") for start in firsts):
        yield Problem("too-many-stages", "more than three stages and a trimming cut", where)


def _stages_kept(node: Node, stage: int, rip: bool) -> bool:
    if not node.cut:
        return True
    if (node.cut == "rip") != rip:
        return stage < 4 and _stages_kept(node, stage + 1, not rip)
    if stage == 4:
        pieces = [child for child in node.children if child.use == "piece"]
        return len(pieces) <= 1 and not any(child.cut for child in node.children)
    return stage < 4 and all(_stages_kept(c, stage + 1, not rip) for c in node.children)
