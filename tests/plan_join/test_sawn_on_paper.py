"""The largest kitchen sawn on paper: sheets pass by pass, then banded, then ripped again.

Nothing of the planner takes part: a pass is a kerf that must go right through one board; what is
left on the table at the end is held against the parts of the job.
"""

from collections import Counter
from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import combinations

import pytest
from attrs import evolve, frozen

from casewright.compiler.cutting.sawing import MaterialPlan, Pass, PlannedSheet
from casewright.compiler.model import EDGES, Blank, Job, Part
from casewright.compiler.papers.drawings.drawing import CAPITAL, TAIL, Letters, letters_width
from casewright.compiler.papers.lists.as_cut import as_cut
from casewright.compiler.papers.pages.sheet_pages import fitted_sheet
from tests.plan_join.kitchens import largest, planned

GRID = Fraction(1, 64)
"""Cut sizes are planned up to this step, never smaller than asked."""

NAMES = ("first_cabinet/first_cabinet.case", "tack_room/tack_room.case")


@frozen
class Lying:
    """A board on the table: where it lies on its sheet."""

    along: Fraction
    across: Fraction
    length: Fraction
    width: Fraction

    @property
    def end(self) -> Fraction:
        return self.along + self.length

    @property
    def far(self) -> Fraction:
        return self.across + self.width


def sawn(sheet: PlannedSheet, kerf: Fraction) -> list[Lying]:
    """What is on the table when every pass of a sheet is done."""
    table = [Lying(Fraction(0), Fraction(0), sheet.size.length, sheet.size.width)]
    assert [each.number for each in sheet.passes] == list(range(1, len(sheet.passes) + 1))
    for each in sheet.passes:
        table = list(passed(table, each, kerf))
    return table


def passed(table: list[Lying], each: Pass, kerf: Fraction) -> Iterator[Lying]:
    """The table after one pass, which must go right through exactly one board."""
    hit = [board for board in table if lies_under(board, each)]
    assert len(hit) == 1, f"cut {each.number} goes through {len(hit)} boards"
    (board,) = hit
    yield from (other for other in table if other is not board)
    if each.way == "rip":
        near = Lying(board.along, board.across, board.length, each.across - kerf / 2 - board.across)
        rest = each.across + kerf / 2
        far = Lying(board.along, rest, board.length, board.far - rest)
        set_to = far.width if each.trims else near.width
    else:
        near = Lying(board.along, board.across, each.along - kerf / 2 - board.along, board.width)
        rest = each.along + kerf / 2
        far = Lying(rest, board.across, board.end - rest, board.width)
        set_to = far.length if each.trims else near.length
    assert set_to == each.setting, f"cut {each.number} is set to {each.setting}, gives {set_to}"
    # The blade may run off the edge with a part of its width; then nothing is left beyond it.
    yield from (piece for piece in (near, far) if piece.length > 0 and piece.width > 0)


def lies_under(board: Lying, each: Pass) -> bool:
    """Whether a pass runs from edge to edge of a board."""
    if each.way == "rip":
        through = (each.along, each.to_along) == (board.along, board.end)
        return through and board.across < each.across < board.far + Fraction(1, 2)
    through = (each.across, each.to_across) == (board.across, board.far)
    return through and board.along < each.along < board.end + Fraction(1, 2)


def pieces_of(plan: MaterialPlan, kerf: Fraction) -> dict[str, tuple[Fraction, Fraction]]:
    """Every piece of a plan by address with the length and width it was sawn to."""
    found: dict[str, tuple[Fraction, Fraction]] = {}
    for sheet in plan.sheets:
        table = Counter(sawn(sheet, kerf))
        for board in sheet.boards:
            lying = Lying(board.along, board.across, board.length, board.width)
            assert table[lying] == 1, f"{board.address or board.use} isn't on the table"
            del table[lying]
            if board.use == "piece":
                assert board.address not in found
                turned = (board.width, board.length)
                found[board.address] = turned if board.turned else turned[::-1]
        for trimmed in table:
            assert min(trimmed.length, trimmed.width) <= Fraction(1, 2), "a board nobody named"
    return found


def counted(part: Part, along: bool) -> Fraction:
    """The thickness of counted bands on a part's ends (`along` its length) or its long edges."""
    axis = part.length_axis if along else part.width_axis
    return sum(
        (
            each.band.thick.value
            for each in part.bands
            if each.band.counts and EDGES[each.edge][0] == axis
        ),
        Fraction(0),
    )


def finished(job: Job, plan: MaterialPlan, kerf: Fraction) -> dict[str, tuple[Fraction, Fraction]]:
    """What the parts measure once they are banded and every blank is ripped."""
    sawn_pieces = pieces_of(plan, kerf)
    done: dict[str, tuple[Fraction, Fraction]] = {}
    for placed in job.placed:
        if placed.unit is None:
            continue
        parts = {part.address: part for part in placed.unit.parts}
        for part in placed.unit.parts:
            address = f"{placed.address}.{part.address}"
            if address in sawn_pieces:
                length, width = sawn_pieces.pop(address)
                done[address] = (length + counted(part, True), width + counted(part, False))
        for blank in placed.unit.blanks:
            address = f"{placed.address}.{blank.name}"
            if address in sawn_pieces:
                size = sawn_pieces.pop(address)
                strips = [parts[each] for each in blank.strips]
                for part, made in zip(strips, ripped(blank, strips, size, kerf), strict=True):
                    done[f"{placed.address}.{part.address}"] = made
    assert sawn_pieces == {}, "a piece that is no part of the job"
    return done


def ripped(
    blank: Blank, strips: list[Part], size: tuple[Fraction, Fraction], kerf: Fraction
) -> Iterator[tuple[Fraction, Fraction]]:
    """The strips of a blank that was banded on its long edges first."""
    length, width = size
    width += sum((each.band.thick.value for each in blank.bands if each.band.counts), Fraction(0))
    for index, part in enumerate(strips):
        last = index == len(strips) - 1
        assert width >= part.width.value, f"{blank.name} is too narrow for {part.address}"
        yield length + counted(part, True), part.width.value
        width -= part.width.value + (0 if last else kerf)
    assert width >= 0


@pytest.mark.parametrize("name", [*NAMES, "the largest"])
def test_whoever_follows_the_plans_ends_with_exactly_the_parts(name: str) -> None:
    job, plans = planned(largest() if name == "the largest" else name)
    assert job.saw is not None
    kerf = job.saw.kerf.value
    assert plans.unplanned == ()
    done: dict[str, tuple[Fraction, Fraction]] = {}
    for plan in plans.plans:
        done |= finished(job, plan, kerf)
    wanted = {
        f"{placed.address}.{part.address}": part
        for placed in job.placed
        for part in (placed.unit.parts if placed.unit is not None else ())
        if part.material.kind == "sheet" and not part.hardware
    }
    assert done.keys() == wanted.keys()
    for address, part in wanted.items():
        length, width = done[address]
        trim_long = part.cut_length.value + counted(part, True) - part.length.value
        trim_wide = part.cut_width.value + counted(part, False) - part.width.value
        over = (length - trim_long - part.length.value, width - part.width.value)
        assert 0 <= over[0] < GRID, f"{address} is {over[0]} long of its length"
        if part.blank:
            assert over[1] == 0
        else:
            assert 0 <= over[1] - trim_wide < GRID, f"{address} is {over[1]} wide of its width"


@pytest.mark.parametrize("name", NAMES)
def test_every_setting_stands_once_and_is_sawn_as_often_as_it_says(name: str) -> None:
    _, plans = planned(name)
    for plan in plans.plans:
        set_passes = [
            each
            for sheet in plan.sheets
            for each in sheet.passes
            if not (each.trims and each.way == "crosscut")
        ]
        assert sum(setting.count for setting in plan.settings) == len(set_passes)
        keys = [(each.stage, each.way, each.trims, each.setting) for each in plan.settings]
        assert len(keys) == len(set(keys))


def test_a_kept_offcut_is_as_large_as_the_saw_asks() -> None:
    job, plans = planned(largest())
    assert job.saw is not None
    kept = [board for plan in plans.plans for _, board in plan.kept]
    assert kept
    for board in kept:
        assert board.length >= job.saw.keeps.length
        assert board.width >= job.saw.keeps.width


def printed_box(each: Letters) -> tuple[float, float, float, float]:
    """What a line of text takes: left, top, right, bottom."""
    wide = letters_width(each.text, bold=each.kind == "bold")
    before = {"start": 0.0, "middle": wide / 2, "end": wide}[each.anchor]
    if each.turned:
        return each.x - CAPITAL, each.y - wide + before, each.x + TAIL, each.y + before
    return each.x - before, each.y - CAPITAL, each.x - before + wide, each.y + TAIL


@pytest.mark.parametrize("name", [NAMES[1], "the largest"])
def test_no_letters_of_a_drawing_lie_on_others(name: str) -> None:
    job, plans = planned(largest() if name == "the largest" else name)
    for plan in plans.plans:
        for sheet in plan.sheets:
            letters = fitted_sheet(job, as_cut(job, plan), sheet).drawing.letters
            assert len(letters) > len(sheet.passes)
            for one, other in combinations(letters, 2):
                a, b = printed_box(one), printed_box(other)
                across = min(a[2], b[2]) - max(a[0], b[0])
                up = min(a[3], b[3]) - max(a[1], b[1])
                assert min(across, up) <= 0.2, f"{plan.material.name} {sheet.number}: {one.text}"


def moved(sheet: PlannedSheet) -> PlannedSheet:
    """A sheet with its last pass a step farther out."""
    last = sheet.passes[-1]
    step = Fraction(1, 32)
    shifted = (
        evolve(last, across=last.across + step, to_across=last.to_across + step)
        if last.way == "rip"
        else evolve(last, along=last.along + step, to_along=last.to_along + step)
    )
    return evolve(sheet, passes=(*sheet.passes[:-1], shifted))


def unsawn(sheet: PlannedSheet) -> PlannedSheet:
    """A sheet whose last pass is forgotten."""
    return evolve(sheet, passes=sheet.passes[:-1])


def swapped(sheet: PlannedSheet) -> PlannedSheet:
    """A sheet that is crosscut before it is ripped."""
    passes = sheet.passes[::-1]
    return evolve(sheet, passes=tuple(evolve(p, number=i) for i, p in enumerate(passes, 1)))


@pytest.mark.parametrize("change", [moved, unsawn, swapped])
def test_sawing_otherwise_is_found_out(
    change: Callable[[PlannedSheet], PlannedSheet],
) -> None:
    job, plans = planned(NAMES[0])
    assert job.saw is not None
    plan = plans.plans[0]
    assert pieces_of(plan, job.saw.kerf.value)
    other = evolve(plan, sheets=(change(plan.sheets[0]), *plan.sheets[1:]))
    with pytest.raises(AssertionError):
        pieces_of(other, job.saw.kerf.value)
