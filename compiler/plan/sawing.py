"""The plan as the sawyer works it: numbered cuts, fence settings, stops, the rip list.

Sizes are exact lengths in the request's measure. Rips are set by the fence, crosscuts by a stop.
"""

from collections.abc import Iterator
from fractions import Fraction

from attrs import frozen

from casewright.compiler.plan.request import Request
from casewright.compiler.plan.tree import CutPlan, Node


@frozen
class Cut:
    """One pass of the saw.

    `number` counts the cuts of a sheet in sawing order; `kind` is `rip` or `crosscut`; `setting`
    the fence or stop, which is the size of the board that comes off; `stage` 1 to 4.
    """

    sheet: int
    number: int
    stage: int
    kind: str
    setting: Fraction
    board: Node


@frozen
class Setting:
    """A fence or stop setting and how often it is sawn, over all sheets of the material."""

    setting: Fraction
    cuts: int
    sheets: tuple[int, ...]


@frozen
class NarrowRip:
    """A rip with less than the saw's least strip between fence and blade."""

    sheet: int
    number: int
    width: Fraction


def cuts_of(plan: CutPlan) -> tuple[Cut, ...]:
    """Every cut in sawing order: a sheet's first stage wholly, then board by board.

    The last board of a row comes off with the cut before it; where the row fills its board exactly
    there is one cut fewer than boards.
    """
    return tuple(cut for index in range(len(plan.sheets)) for cut in _sheet_cuts(plan, index))


def _sheet_cuts(plan: CutPlan, index: int) -> Iterator[Cut]:
    numbered = 0
    stages = _by_stage(plan.sheets[index].root, 1)
    for stage, node in sorted(stages, key=lambda pair: pair[0]):
        boards = [child for child in node.children if child.use not in ("offcut", "waste")]
        boards += [child for child in node.children if child.use in ("offcut", "waste")]
        rip = node.cut == "rip"
        sawn = sum((c.width if rip else c.length) for c in boards) + plan.kerf * (len(boards) - 1)
        spare = (node.width if rip else node.length) - sawn
        passes = boards if spare > 0 else boards[:-1]
        for board in passes:
            numbered += 1
            setting = (board.width if rip else board.length) * plan.step
            yield Cut(index + 1, numbered, stage, node.cut, setting, board)


def _by_stage(node: Node, stage: int) -> Iterator[tuple[int, Node]]:
    if not node.cut:
        return
    yield stage, node
    for child in node.children:
        yield from _by_stage(child, stage + 1)


def settings(plan: CutPlan, kind: str) -> tuple[Setting, ...]:
    """The rip list (`rip`) or the list of stops (`crosscut`): each setting once, widest first."""
    found: dict[Fraction, list[int]] = {}
    for cut in cuts_of(plan):
        if cut.kind == kind:
            found.setdefault(cut.setting, []).append(cut.sheet)
    return tuple(
        Setting(setting, len(sheets), tuple(sorted(set(sheets))))
        for setting, sheets in sorted(found.items(), reverse=True)
    )


def narrow_rips(request: Request, plan: CutPlan) -> tuple[NarrowRip, ...]:
    """Rips that set the fence nearer to the blade than the saw's least strip."""
    return tuple(
        NarrowRip(cut.sheet, cut.number, cut.setting)
        for cut in cuts_of(plan)
        if cut.kind == "rip" and cut.setting < request.saw.least_strip
    )


def stacks(plan: CutPlan) -> tuple[tuple[int, ...], ...]:
    """Sheets that are sawn alike, by their numbers: they may be stacked and sawn together."""
    alike: dict[tuple[str, object], list[int]] = {}
    for number, sheet in enumerate(plan.sheets, 1):
        alike.setdefault((sheet.stock, _shape(sheet.root)), []).append(number)
    return tuple(tuple(numbers) for numbers in alike.values())


def _shape(node: Node) -> object:
    return (node.length, node.width, node.cut, tuple(_shape(child) for child in node.children))
