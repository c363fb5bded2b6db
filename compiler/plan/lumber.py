"""Board feet, rough sizes and glue-ups for solid wood, by the NHLA's rules of measurement.

Lengths are in inches unless a name says feet. Sources: NHLA Rules for the Measurement and
Inspection of Hardwood and Cypress, as taught on the American hardwood export pages "Measurement"
and "Hardwood Lumber - Dimensions".
"""

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from math import ceil, floor
from typing import Final

from attrs import frozen

TWO_FACES: Final[Mapping[Fraction, Fraction]] = {
    Fraction(rough): Fraction(surfaced)
    for rough, surfaced in [
        ("3/8", "3/16"),
        ("1/2", "5/16"),
        ("5/8", "7/16"),
        ("3/4", "9/16"),
        ("1", "13/16"),
        ("5/4", "17/16"),
        ("3/2", "21/16"),
        ("7/4", "3/2"),
        ("2", "7/4"),
        ("3", "11/4"),
        ("4", "15/4"),
    ]
}
"""Thickness after surfacing two faces (S2S), by rough thickness."""

ONE_FACE: Final[Mapping[Fraction, Fraction]] = {
    Fraction(rough): Fraction(surfaced)
    for rough, surfaced in [("1", "7/8"), ("5/4", "9/8"), ("3/2", "11/8"), ("2", "29/16")]
}
"""Thickness after surfacing one face (S1S), by rough thickness."""

CLEAR_SHARE: Final[Mapping[str, Fraction]] = {
    "FAS": Fraction(5, 6),
    "No. 1 Common": Fraction(2, 3),
}
"""The least share of a board's area that is clear cuttings, by grade."""


@frozen
class Board:
    """A rough board: nominal thickness and width in inches, length in feet."""

    thickness: Fraction
    width: Fraction
    feet: Fraction


@frozen
class Tally:
    """Boards as the grader writes them down: total surface measure and board feet."""

    surface: int
    board_feet: Fraction


def counted_thickness(thickness: Fraction) -> Fraction:
    """The thickness that is paid for: less than an inch counts as an inch."""
    return max(thickness, Fraction(1))


def board_feet(board: Board) -> Fraction:
    """Volume of one board exactly, unrounded: thickness x width x feet / 12."""
    return counted_thickness(board.thickness) * board.width * board.feet / 12


def surface_measure(width: Fraction, feet: Fraction, half_up: bool = True) -> int:
    """Width in inches x length in feet / 12 to the nearest whole square foot.

    An exact half goes up or down as `half_up` says: a tally lets it go up and down by turns.
    """
    return _nearest(width * feet / 12, half_up)


def _nearest(value: Fraction, half_up: bool) -> int:
    whole = floor(value)
    rest = value - whole
    if rest == Fraction(1, 2):
        return whole + int(half_up)
    return whole + int(rest > Fraction(1, 2))


def tally_size(width: Fraction, feet: Fraction, half_up: bool = True) -> tuple[int, int]:
    """A random-width board as tallied: width to the nearest inch, length down to the foot."""
    return _nearest(width, half_up), floor(feet)


def tally(boards: Iterable[Board]) -> Tally:
    """The tally of boards: surface measure board by board, exact halves up and down by turns."""
    surface = 0
    total = Fraction(0)
    half_up = True
    for board in boards:
        feet = Fraction(floor(board.feet))
        measure = surface_measure(board.width, feet, half_up)
        if (board.width * feet / 12 % 1) == Fraction(1, 2):
            half_up = not half_up
        surface += measure
        total += measure * counted_thickness(board.thickness)
    return Tally(surface, total)


def rough_thickness(
    finished: Fraction, surfaced: Mapping[Fraction, Fraction] = TWO_FACES
) -> Fraction | None:
    """The thinnest rough stock that still has the finished thickness; None where none has."""
    fitting = [rough for rough, left in surfaced.items() if left >= finished]
    return min(fitting, default=None)


def gross(net: Fraction, waste: Fraction) -> Fraction:
    """What must be bought for `net` where the share `waste`, under 1, of it is lost.

    By yield, not by mark-up: 100 net at 30 % waste is 100 / 0.7, not 130.
    """
    if not 0 <= waste < 1:
        raise ValueError("waste is a share from 0 to under 1")
    return net / (1 - waste)


@frozen
class GlueUp:
    """A wide panel from strips: how many, and how wide each is ripped before jointing."""

    strips: int
    ripped_width: Fraction
    panel_width: Fraction


def glue_up(
    width: Fraction, widest: Fraction, jointing: Fraction, trim: Fraction = Fraction(0)
) -> GlueUp:
    """The fewest equal strips for a panel `width` wide and `trim` oversize.

    No strip is ripped wider than `widest`; `jointing` is what planing takes off a strip's
    edges in all. `widest` must be more than `jointing`.
    """
    if widest <= jointing:
        raise ValueError("nothing is left of a strip after jointing")
    panel = width + trim
    strips = ceil(panel / (widest - jointing))
    return GlueUp(strips, panel / strips + jointing, panel)


def rough_boards(
    sections: Sequence[tuple[Fraction, Fraction]], lengths: Sequence[Fraction]
) -> tuple[Board, ...]:
    """Boards for planned lengths: finished thickness and width of each, and length in inches.

    The thickness becomes rough stock; the tally counts whole feet, so a length is rounded up.
    """
    boards: list[Board] = []
    for (thickness, width), length in zip(sections, lengths, strict=True):
        rough = rough_thickness(thickness) or thickness
        boards.append(Board(rough, width, Fraction(ceil(length / 12))))
    return tuple(boards)
