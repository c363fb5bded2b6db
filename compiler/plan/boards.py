"""Lengths from boards, bands and mouldings: cutting stock in one dimension.

A board is a sheet as wide as its pieces, so that all of the sheet planner serves, its proof and the
check included: crosscuts with a kerf between pieces, the ends trimmed.
"""

from collections.abc import Sequence
from fractions import Fraction
from typing import Final

from attrs import evolve, frozen

from casewright.compiler.plan.master import Limits
from casewright.compiler.plan.plan import DEFAULT, Effort, Planned, plan_sheets
from casewright.compiler.plan.request import Piece, Problem, Request, Saw, Stock, Trim
from casewright.compiler.plan.tree import CutPlan, places

BOARDS: Final = evolve(
    DEFAULT,
    greedy=100_000,
    work=150_000,
    counted_work=20_000,
    master=Limits(3, 100),
    tries=1,
    tidy=Limits(1, 50),
)
"""The work a build spends on the boards of one lumber: they are few, and one more is soon cut."""


@frozen
class Length:
    """Equal pieces of one section to be crosscut."""

    name: str
    unit: str
    length: Fraction
    quantity: int = 1


@frozen
class Bar:
    """A length that stock comes in; `copies` None where more can be bought, `cost` a board's."""

    name: str
    length: Fraction
    copies: int | None = None
    cost: Fraction | None = None


@frozen
class Ends:
    """What each crosscut eats and what is trimmed off the ends, its kerf included."""

    kerf: Fraction = Fraction(0)
    head: Fraction = Fraction(0)
    foot: Fraction = Fraction(0)


def board_request(
    measure: str, lengths: Sequence[Length], bars: Sequence[Bar], ends: Ends
) -> Request:
    """The sheet planner's request for lengths of one section: everything one unit wide."""
    width = Fraction(1)
    return Request(
        measure,
        tuple(Piece(p.name, p.unit, p.length, width, p.quantity) for p in lengths),
        tuple(Stock(bar.name, bar.length, width, bar.copies, bar.cost) for bar in bars),
        Saw(ends.kerf, Trim(head=ends.head, foot=ends.foot)),
    )


def plan_lengths(
    measure: str,
    lengths: Sequence[Length],
    bars: Sequence[Bar],
    ends: Ends,
    effort: Effort = DEFAULT,
) -> tuple[Planned | None, list[Problem]]:
    """The fewest, or cheapest, boards for the lengths, with the proof; or what is wrong."""
    return plan_sheets(board_request(measure, lengths, bars, ends), effort)


def board_rows(plan: CutPlan) -> tuple[tuple[str, tuple[tuple[str, Fraction], ...]], ...]:
    """Each board's stock and what is cut from it in order: address, or the use, and length."""
    return tuple(
        (
            sheet.stock,
            tuple(
                (place.node.piece or place.node.use, place.node.length * plan.step)
                for place in places(sheet.root, plan.kerf)
            ),
        )
        for sheet in plan.sheets
    )


def run_length(lengths: Sequence[Length], waste_each: Fraction) -> Fraction:
    """The length to buy of what comes on a roll: each piece with its waste at the ends."""
    return sum(((p.length + waste_each) * p.quantity for p in lengths), Fraction(0))
