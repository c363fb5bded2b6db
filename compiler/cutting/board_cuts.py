"""How boards are sawn, as papers show it: each board with its pieces in place and its cuts.

All lengths are inches. On a board `along` counts from its near end and `across` from the edge that
is jointed, both from the board as it is bought. Ends are cut off first, then an edge is jointed,
then cuts follow stage by stage: the whole board, then each strip wholly.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Literal

from attrs import frozen

from casewright.compiler.cutting.boards import BoardsWanted, Panel, RoughPiece
from casewright.compiler.model import Material
from casewright.compiler.plan.lumber import Board, Tally, tally
from casewright.compiler.plan.plan import Planned
from casewright.compiler.plan.request import Request
from casewright.compiler.plan.tree import CutPlan, Node, Sheet
from casewright.lang.measure import INCH

Way = Literal["rip", "crosscut"]


@frozen
class Lying:
    """What lies on a board once it is cut up: a piece, or what is left. `cut` is the number of the
    cut that frees it."""

    along: Fraction
    across: Fraction
    length: Fraction
    width: Fraction
    piece: RoughPiece | None
    cut: int


@frozen
class BoardCut:
    """One cut: `setting` is the size of what comes off, `strip` the width of what is cut. The line
    runs from (`along`, `across`) to (`to_along`, `to_across`), the middle of the kerf."""

    number: int
    way: Way
    setting: Fraction
    strip: Fraction
    along: Fraction
    across: Fraction
    to_along: Fraction
    to_across: Fraction


@frozen
class PlannedBoard:
    """One board: as bought, and what becomes of it. `clear` is the length that is left without
    its ends and the share that defects take."""

    number: int
    width: Fraction
    length: Fraction
    clear: Fraction
    lies: tuple[Lying, ...]
    cuts: tuple[BoardCut, ...]


@frozen
class Setting:
    """A setting of fence or stop, with the cuts that need it by board."""

    setting: Fraction
    cuts: tuple[tuple[int, tuple[int, ...]], ...]

    @property
    def count(self) -> int:
        """How often it is sawn."""
        return sum(len(numbers) for _, numbers in self.cuts)


@frozen
class LumberPlan:
    """How one lumber is bought, milled and sawn.

    `headline` says how many boards and why fewer can't do, or what is open; `scope` what the proof
    holds for. `yielded` is the share of what is bought that ends up as parts.
    """

    wanted: BoardsWanted
    headline: str
    scope: str
    proved: bool
    boards: tuple[PlannedBoard, ...]
    rips: tuple[Setting, ...]
    stops: tuple[Setting, ...]
    panels: tuple[Panel, ...]
    bought: Tally
    volume: Fraction
    yielded: Fraction

    @property
    def material(self) -> Material:
        return self.wanted.material


def lumber_plan(wanted: BoardsWanted, planned: Sequence[Planned]) -> LumberPlan:
    """The plan of a lumber as papers show it; every list in `planned` has passed its check."""
    boards: list[PlannedBoard] = []
    for made in planned:
        boards += _boards(wanted, made, len(boards))
    proved = all(made.verdict.cost == made.verdict.least for made in planned)
    volume = sum((each.width * each.length for each in boards), Fraction(0)) * wanted.rough
    parts = sum((each.length * each.width for each in wanted.pieces.values()), Fraction(0))
    # A glued panel stands once for each of its strips.
    parts -= sum(
        (
            each.length * each.width * Fraction(each.strips - 1, each.strips)
            for each in wanted.pieces.values()
            if each.strips
        ),
        Fraction(0),
    )
    area = sum((each.width * each.length for each in boards), Fraction(0))
    return LumberPlan(
        wanted,
        headline(wanted, planned),
        scope_words(wanted),
        proved,
        tuple(boards),
        _settings(boards, "rip"),
        _settings(boards, "crosscut"),
        wanted.panels,
        tally(Board(wanted.rough, each.width, each.length / 12) for each in boards),
        volume,
        parts / area,
    )


def _boards(wanted: BoardsWanted, made: Planned, before: int) -> Iterator[PlannedBoard]:
    inch = Fraction(1) if made.request.measure == "in" else 1 / INCH
    for number, sheet in enumerate(made.plan.sheets, before + 1):
        yield _Sawyer(made.request, made.plan, inch, wanted).board(number, sheet)


class _Sawyer:
    """Saws one board on paper."""

    def __init__(
        self, request: Request, plan: CutPlan, inch: Fraction, wanted: BoardsWanted
    ) -> None:
        self.request, self.inch, self.wanted = request, inch, wanted
        self.step = plan.step * inch
        self.kerf = plan.kerf * self.step
        self.matched = {each.address: each for each in request.pieces if each.inner}
        self.cuts: list[BoardCut] = []
        self.lies: list[Lying] = []

    def board(self, number: int, sheet: Sheet) -> PlannedBoard:
        trim = self.request.saw.trim
        waiting = [(sheet.root, trim.head * self.inch, trim.fence * self.inch, 0)]
        while waiting:
            below: list[tuple[Node, Fraction, Fraction, int]] = []
            for node, along, across, cut in waiting:
                if node.cut:
                    below += self.apart(node, along, across)
                else:
                    self.lay(node, along, across, cut)
            waiting = below
        index = [each.name for each in self.request.stock].index(sheet.stock)
        stock = self.request.stock[index]
        return PlannedBoard(
            number,
            stock.width * self.inch,
            self.wanted.boards.lengths[index],
            sheet.root.length * self.step,
            tuple(sorted(self.lies, key=lambda each: (each.across, each.along))),
            tuple(self.cuts),
        )

    def apart(
        self, node: Node, along: Fraction, across: Fraction
    ) -> Iterator[tuple[Node, Fraction, Fraction, int]]:
        """The boards that a board is cut into, with their places and the cut that frees each."""
        rip = node.cut == "rip"
        long, wide = node.length * self.step, node.width * self.step
        left = wide if rip else long
        for child in node.children:
            size = (child.width if rip else child.length) * self.step
            left -= size
            number = 0
            # What is as large as all that is left falls without a cut, and so does waste.
            if left > 0 and child.use != "waste":
                number = self.cut("rip" if rip else "crosscut", size, along, across, long, wide)
            yield child, along, across, number
            if rip:
                across += size + self.kerf
            else:
                along += size + self.kerf
            left -= self.kerf

    def cut(
        self, way: Way, setting: Fraction, along: Fraction, across: Fraction,
        long: Fraction, wide: Fraction,
    ) -> int:  # fmt: skip
        """Notes a cut of the setting off what lies here, `long` by `wide`; its number."""
        number = len(self.cuts) + 1
        middle = setting + self.kerf / 2
        line = (
            (along, across + middle, along + long, across + middle)
            if way == "rip"
            else (along + middle, across, along + middle, across + wide)
        )
        self.cuts.append(BoardCut(number, way, setting, wide, *line))
        return number

    def lay(self, node: Node, along: Fraction, across: Fraction, cut: int) -> None:
        """Puts down what is cut no more; matched parts are cut apart last, in order."""
        whole = self.matched.get(node.piece)
        if whole is None:
            piece = self.wanted.pieces.get(node.piece) if node.use == "piece" else None
            size = (node.length * self.step, node.width * self.step)
            self.lies.append(Lying(along, across, *size, piece, cut))
            return
        rip = whole.apart == "rip"
        long, wide = node.length * self.step, node.width * self.step
        for index, each in enumerate(whole.inner):
            length, width = each.length * self.inch, each.width * self.inch
            number = cut
            if index < len(whole.inner) - 1:
                way: Way = "rip" if rip else "crosscut"
                number = self.cut(way, width if rip else length, along, across, long, wide)
            # A part that is smaller the other way than the largest of its set is cut to size.
            if rip and length < long:
                number = self.cut("crosscut", length, along, across, long, width)
            elif not rip and width < wide:
                number = self.cut("rip", width, along, across, length, wide)
            self.lies.append(
                Lying(along, across, length, width, self.wanted.pieces[each.address], number)
            )
            if rip:
                across += width + self.kerf
                wide -= width + self.kerf
            else:
                along += length + self.kerf
                long -= length + self.kerf


def _settings(boards: Sequence[PlannedBoard], way: Way) -> tuple[Setting, ...]:
    """Every fence or stop setting once over all boards, the largest first."""
    found: dict[Fraction, dict[int, list[int]]] = {}
    for board in boards:
        for each in board.cuts:
            if each.way == way:
                found.setdefault(each.setting, {}).setdefault(board.number, []).append(each.number)
    return tuple(
        Setting(setting, tuple((board, tuple(cuts)) for board, cuts in found[setting].items()))
        for setting in sorted(found, reverse=True)
    )


def headline(wanted: BoardsWanted, planned: Sequence[Planned]) -> str:
    """How many boards, and why fewer can't do or what is open: never more than the check found.

    With several lengths to choose from the wood is compared, else the count of boards.
    """
    if len(wanted.boards.lengths) > 1:
        return _wood_words(wanted, planned)
    cost = sum(int(each.verdict.cost) for each in planned)
    least = sum(int(each.verdict.least) for each in planned)
    boards = f"{cost} board" if cost == 1 else f"{cost} boards"
    if cost == least:
        return boards if cost == 1 else f"{boards}, and {cost - 1} can't do"
    return f"{boards} planned; fewer than {least} is impossible; between them is open"


def _wood_words(wanted: BoardsWanted, planned: Sequence[Planned]) -> str:
    cost = sum((each.verdict.cost for each in planned), Fraction(0))
    least = sum((each.verdict.least for each in planned), Fraction(0))
    count = sum(len(each.plan.sheets) for each in planned)
    boards = f"{count} board" if count == 1 else f"{count} boards"
    if cost == least:
        return f"{boards}; no other choice of lengths takes less wood"
    percent = -(-100 * (cost - least) // cost)
    return f"{boards}; no choice can take {percent} % less wood, and up to that is open"


def scope_words(wanted: BoardsWanted) -> str:
    """What the count holds for."""
    held = "with this kerf, these allowances and straight cuts through a board or strip"
    return f"The count is checked {held}."
