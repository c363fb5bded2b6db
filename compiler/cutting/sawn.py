"""From a checked plan to what the sawyer works by: boards in their places, passes in sawing order.

The first factory edge against the fence is trimmed before anything is ripped from it; the far edge
is trimmed by the last rip, and an offcut that is kept keeps its factory edges. So are the ends:
the near one is trimmed first, the far one falls with the last crosscut.

A sheet's first cuts come first, then each strip is crosscut wholly, then what is ripped again (a
fence setting at a time, as far as the order on each board allows), then what is trimmed.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Final

from attrs import define, evolve, field, frozen

from casewright.compiler.cutting.named import Piece, in_words, later_rips, pieces_of
from casewright.compiler.cutting.sawing import (
    Board,
    MaterialPlan,
    Pass,
    PlannedSheet,
    Setting,
    Used,
    Way,
)
from casewright.compiler.cutting.why_fewest import scope_words, why_words
from casewright.compiler.model import Job, Material, Stock
from casewright.compiler.plan.plan import Planned
from casewright.compiler.plan.request import Piece as Wanted
from casewright.compiler.plan.request import Request
from casewright.compiler.plan.sawing import stacks
from casewright.compiler.plan.tree import Node, Sheet
from casewright.compiler.plan.words import headline, yield_words
from casewright.lang.measure import INCH

CUBIC_INCHES_OF_A_FOOT = 1728

NOTHING = Fraction(0)

APART: Final = 5
"""The stage at which matched parts are cut apart: after everything else on their sheet."""


def material_plan(job: Job, material: Material, planned: Planned) -> MaterialPlan:
    """The plan of a material as papers show it; `planned` has passed its check."""
    request, plan = planned.request, planned.plan
    inch = Fraction(1) if request.measure == "in" else 1 / INCH
    pieces = pieces_of(job)
    matched = {each.address: each for each in request.pieces if each.inner}
    density = _density(job, material)
    alike = {number: group for group in stacks(plan) if len(group) > 1 for number in group}
    sheets = []
    for number, sheet in enumerate(plan.sheets, 1):
        sawyer = _Sawyer(request, plan.step, plan.kerf * plan.step, inch, pieces, matched)
        boards, passes = sawyer.sheet(sheet)
        stock = next(each for each in request.stock if each.name == sheet.stock)
        size = Stock(stock.width * inch, stock.length * inch)
        volume = size.width * size.length * material.thick.value
        offcut = next((each for each in job.offcuts if each.name == stock.name), None)
        sheets.append(
            PlannedSheet(
                number,
                in_words(stock.name) if stock.kept else material.title,
                size,
                stock.kept,
                offcut.place if offcut is not None else "",
                boards,
                passes,
                None if density is None else density * volume / CUBIC_INCHES_OF_A_FOOT,
                alike=tuple(each for each in alike.get(number, ()) if each != number),
            )
        )
    least = request.saw.least_strip * inch
    return MaterialPlan(
        material,
        headline(request, plan, planned.verdict),
        why_words(request, planned),
        scope_words(request, staged=planned.verdict.staged),
        planned.verdict.sound and planned.verdict.cost == planned.verdict.least,
        yield_words(request, plan),
        tuple(sheets),
        _used(sheets),
        settings_of(sheets),
        tuple(
            (sheet.number, each.number, each.setting)
            for sheet in sheets
            for each in sheet.passes
            if each.way == "rip" and not each.trims and each.setting < least
        ),
        job.saw.stack.value if job.saw is not None else NOTHING,
        density,
    )


def _density(job: Job, material: Material) -> Fraction | None:
    """Pounds in a cubic foot of a material, where the text says."""
    goods = job.yardstick.goods.get((material.kind, material.name))
    density = goods.figures.get("density") if goods is not None else None
    return density.value if density is not None else None


def _used(sheets: Iterable[PlannedSheet]) -> tuple[Used, ...]:
    counts: dict[tuple[str, Stock, bool], int] = {}
    for sheet in sheets:
        key = (sheet.title, sheet.size, sheet.kept)
        counts[key] = counts.get(key, 0) + 1
    return tuple(Used(title, size, count, kept) for (title, size, kept), count in counts.items())


def settings_of(sheets: Iterable[PlannedSheet]) -> tuple[Setting, ...]:
    """Every fence and stop setting once over all sheets: the whole sheet first, widest first.

    Trims of factory ends have no setting and stand in no list.
    """
    found: dict[tuple[int, Way, bool, Fraction], dict[int, list[int]]] = {}
    for sheet in sheets:
        for each in sheet.passes:
            if each.trims and each.way == "crosscut":
                continue
            key = (each.stage, each.way, each.trims, each.setting)
            found.setdefault(key, {}).setdefault(sheet.number, []).append(each.number)
    ordered = sorted(found.items(), key=lambda one: (one[0][0], not one[0][2], -one[0][3]))
    return tuple(
        Setting(stage, way, setting, trims, tuple((n, tuple(cuts)) for n, cuts in on.items()))
        for (stage, way, trims, setting), on in ordered
    )


@frozen
class _Raw:
    """What of the factory's edges and ends is still on a board, in inches."""

    fence: Fraction = NOTHING
    far: Fraction = NOTHING
    near: Fraction = NOTHING
    end: Fraction = NOTHING


@frozen
class _Held:
    """A board on its way: where its usable part lies, and what is raw of it. `strip` is the width
    of the strip it was cut from."""

    node: Node
    along: Fraction
    across: Fraction
    raw: _Raw
    stage: int


@define
class _Sawyer:
    """Saws one sheet on paper. Lengths come in the plan's steps and go out in inches."""

    request: Request
    step: Fraction
    kerf: Fraction
    inch: Fraction
    pieces: Mapping[str, Piece]
    matched: Mapping[str, Wanted]
    boards: list[Board] = field(factory=list)
    pending: list[tuple[int, int, list[Pass]]] = field(factory=list)

    @property
    def sets(self) -> Mapping[str, str]:
        """The piece that each matched part is cut from."""
        return {part.address: name for name, whole in self.matched.items() for part in whole.inner}

    def sheet(self, sheet: Sheet) -> tuple[tuple[Board, ...], tuple[Pass, ...]]:
        trim = self.request.saw.trim
        raw = _Raw(*(each * self.inch for each in (trim.fence, trim.far, trim.head, trim.foot)))
        self.kerf *= self.inch
        self.step *= self.inch
        self.saw(_Held(sheet.root, raw.near, raw.fence, raw, 1))
        return tuple(self.boards), tuple(self.ordered())

    def length(self, node: Node) -> Fraction:
        return node.length * self.step

    def width(self, node: Node) -> Fraction:
        return node.width * self.step

    def saw(self, held: _Held) -> None:
        """Cuts a board as its node says; a piece that is raw somewhere is trimmed all round."""
        node, raw = held.node, held.raw
        if node.cut == "rip":
            self.rip(held, node.children)
        elif node.cut == "crosscut":
            self.crosscut(held, node.children)
        elif node.use == "piece" and (raw.fence or raw.far):
            self.rip(held, (node,))
        elif node.use == "piece" and (raw.near or raw.end):
            self.crosscut(held, (node,))
        elif node.piece in self.matched:
            self.saw(evolve(held, node=self.apart(node), stage=APART))
        else:
            self.lay(held)

    def apart(self, node: Node) -> Node:
        """The piece of matched parts as it is cut into them, in order; one that is smaller the
        other way is trimmed to its size."""
        whole = self.matched[node.piece]
        crosscut = (whole.apart == "crosscut") is not node.turned
        children: list[Node] = []
        for each in whole.inner:
            long, wide = (int(side * self.inch / self.step) for side in (each.length, each.width))
            length, width = (wide, long) if node.turned else (long, wide)
            part = Node(length, width, use="piece", piece=each.address, turned=node.turned)
            over = node.width - width if crosscut else node.length - length
            children.append(self.trimmed(part, over, crosscut) if over else part)
        return Node(node.length, node.width, "crosscut" if crosscut else "rip", tuple(children))

    def trimmed(self, part: Node, over: int, crosscut: bool) -> Node:
        """A board that is wider (or longer) than its part by so many steps."""
        left = over - int(self.kerf / self.step)
        if crosscut:
            waste = Node(part.length, left, use="waste")
            board = Node(part.length, part.width + over, "rip")
        else:
            waste = Node(left, part.width, use="waste")
            board = Node(part.length + over, part.width, "crosscut")
        return evolve(board, children=(part, waste) if left > 0 else (part,))

    def lay(self, held: _Held) -> None:
        """Puts down what is cut no more; an offcut or waste keeps its factory edges."""
        node, raw = held.node, held.raw
        along, across = held.along - raw.near, held.across - raw.fence
        length = self.length(node) + raw.near + raw.end
        width = self.width(node) + raw.fence + raw.far
        piece = self.pieces.get(node.piece) if node.use == "piece" else None
        if piece is None:
            use = "keep" if node.use == "offcut" else "waste"
            self.boards.append(Board(use, along, across, length, width))  # type: ignore[arg-type]
            return
        self.boards.append(
            Board(
                "piece", along, across, length, width,
                piece.address, piece.holder, piece.label, piece.title, node.turned,
                later_rips(piece, length if node.turned else width),
                piece.blank.strips if piece.blank is not None else (),
                self.sets.get(node.piece, ""),
            )
        )  # fmt: skip

    def rip(self, held: _Held, children: Sequence[Node]) -> None:
        passes: list[Pass] = []
        raw = held.raw
        near, end = held.along - raw.near, held.along + self.length(held.node) + raw.end
        strip = self.width(held.node)
        if raw.fence:
            x = held.across - self.kerf / 2
            passes.append(Pass(0, held.stage, "rip", strip + raw.far, True, strip, near, x, end, x))
        across = held.across
        below: list[_Held] = []
        for index, child in enumerate(children):
            last = index == len(children) - 1
            width = self.width(child)
            spare = held.across + strip + raw.far - across - width
            left = last and child.use in ("offcut", "waste")
            far = raw.far if left else NOTHING
            if spare > 0 and not left:
                x = across + width + self.kerf / 2
                named = self.named(child)
                passes.append(
                    Pass(0, held.stage, "rip", width, False, strip, near, x, end, x, *named)
                )
            below.append(
                _Held(
                    child, held.along, across, _Raw(NOTHING, far, raw.near, raw.end),
                    held.stage + (child is not held.node),
                )
            )  # fmt: skip
            across += width + self.kerf
        self.then(held, passes, below)

    def crosscut(self, held: _Held, children: Sequence[Node]) -> None:
        passes: list[Pass] = []
        raw = held.raw
        fence, far = held.across - raw.fence, held.across + self.width(held.node) + raw.far
        strip = self.width(held.node)
        whole = self.length(held.node)
        if raw.near:
            y = held.along - self.kerf / 2
            passes.append(
                Pass(0, held.stage, "crosscut", whole + raw.end, True, strip, y, fence, y, far)
            )
        along = held.along
        below: list[_Held] = []
        for index, child in enumerate(children):
            last = index == len(children) - 1
            length = self.length(child)
            spare = held.along + whole + raw.end - along - length
            left = last and child.use in ("offcut", "waste")
            end = raw.end if left else NOTHING
            if spare > 0 and not left:
                y = along + length + self.kerf / 2
                named = self.named(child)
                passes.append(
                    Pass(0, held.stage, "crosscut", length, False, strip, y, fence, y, far, *named)
                )
            below.append(
                _Held(
                    child, along, held.across, _Raw(raw.fence, raw.far, NOTHING, end),
                    held.stage + (child is not held.node),
                )
            )  # fmt: skip
            along += length + self.kerf
        self.then(held, passes, below)

    def then(self, held: _Held, passes: list[Pass], below: Iterable[_Held]) -> None:
        self.pending.append((held.stage, len(self.pending), passes))
        for each in below:
            self.saw(each)

    def named(self, node: Node) -> tuple[str, str]:
        """What a pass frees: the last word of its name that is no number, and its unit's tag."""
        piece = self.pieces.get(node.piece)
        if piece is None:
            return "", ""
        tag = piece.label if piece.label == piece.holder else ""
        if piece.blank is not None:
            return "blank", tag
        named = (word for word in reversed(piece.title.split()) if not word.isdigit())
        return next(named, piece.title), tag

    def ordered(self) -> Iterator[Pass]:
        """All passes, numbered: the whole sheet, then strips, alike ones together, then later
        stages a setting at a time."""
        number = 0
        for stage in sorted({stage for stage, _, _ in self.pending}):
            rows = [passes for at, _, passes in self.pending if at == stage and passes]
            ordered = strips_alike(rows) if stage <= 2 else by_setting(rows)
            for each in ordered:
                number += 1
                yield evolve(each, number=number)


def strips_alike(rows: Sequence[Sequence[Pass]]) -> Iterator[Pass]:
    """The passes of several boards, board by board, but those of boards that are cut alike side by
    side, so that a stop is set once for them."""
    groups: dict[tuple[object, ...], list[Sequence[Pass]]] = {}
    for row in rows:
        key = (row[0].strip, *((each.way, each.trims, each.setting) for each in row))
        groups.setdefault(key, []).append(row)
    for group in groups.values():
        for together in zip(*group, strict=True):
            yield from together


def by_setting(rows: Sequence[Sequence[Pass]]) -> Iterator[Pass]:
    """The passes of several boards, the largest setting first wherever a board's own order leaves
    the choice, so that the fence is set as seldom as can be."""
    waiting = [list(row) for row in rows]
    while any(waiting):
        largest = max(row[0].setting for row in waiting if row)
        for row in waiting:
            while row and row[0].setting == largest:
                yield row.pop(0)
