"""A material's cutting plan as papers show it: sheets drawn as the sawyer stands, numbered cuts.

All lengths are exact inches. On a sheet `across` counts from the fence edge and `along` from the
near end, where the sawyer stands; both from the raw edges of the sheet as it comes.
"""

from fractions import Fraction
from typing import Literal

from attrs import frozen

from casewright.compiler.model import Material, Stock

Use = Literal["piece", "keep", "waste"]

Way = Literal["rip", "crosscut"]


@frozen
class Board:
    """What lies on a sheet once it is cut up: a piece, an offcut that is kept, or waste.

    `address` is the piece's in the job, `label` its unit's tag, `title` its name in words;
    `later` are the places where it is ripped again after banding, from its fence edge (from its
    near end where it lies `turned`), and `strips` the parts it is then ripped into. Boards with
    one name in `matched` were one piece, so that their figure runs on.
    """

    use: Use
    along: Fraction
    across: Fraction
    length: Fraction
    width: Fraction
    address: str = ""
    holder: str = ""
    label: str = ""
    title: str = ""
    turned: bool = False
    later: tuple[Fraction, ...] = ()
    strips: tuple[str, ...] = ()
    matched: str = ""


@frozen
class Pass:
    """One pass of the saw.

    `setting` is the fence or stop: the size of the board that comes off, or what is left where a
    pass only `trims` a factory edge. `words` name what it frees and `tag` its unit; both are empty
    where that is cut again, `tag` too where the unit has none. `stage` is 1 for the whole sheet, 5
    and more where matched parts are cut apart; `strip` is the width of the strip that is
    crosscut. The line runs from (`along`, `across`) to (`to_along`, `to_across`), the
    middle of the kerf.
    """

    number: int
    stage: int
    way: Way
    setting: Fraction
    trims: bool
    strip: Fraction
    along: Fraction
    across: Fraction
    to_along: Fraction
    to_across: Fraction
    words: str = ""
    tag: str = ""


@frozen
class PlannedSheet:
    """One sheet, or one kept offcut: `place` says where that stands. `weight` is in pounds, None
    where the material doesn't say how dense it is."""

    number: int
    title: str
    size: Stock
    kept: bool
    place: str
    boards: tuple[Board, ...]
    passes: tuple[Pass, ...]
    weight: Fraction | None
    alike: tuple[int, ...] = ()


@frozen
class Setting:
    """A fence or stop setting, once, with the passes that need it: sheet and cut numbers."""

    stage: int
    way: Way
    setting: Fraction
    trims: bool
    passes: tuple[tuple[int, tuple[int, ...]], ...]

    @property
    def count(self) -> int:
        """How often it is sawn."""
        return sum(len(numbers) for _, numbers in self.passes)


@frozen
class Used:
    """So many sheets of one size, or kept offcuts, that a plan uses."""

    title: str
    size: Stock
    count: int
    kept: bool


@frozen
class MaterialPlan:
    """How one material is sawn.

    `headline` says how many sheets and why fewer can't do, or what is open; `why` and `scope` are
    its small print; `proved` whether plan and bound meet. `narrow` are rips of less than the
    saw's least (sheet, cut, width), `stack` is how high sheets may lie under the blade, `density`
    is in pounds a cubic foot where the text says it.
    """

    material: Material
    headline: str
    why: str
    scope: str
    proved: bool
    yield_words: str
    sheets: tuple[PlannedSheet, ...]
    used: tuple[Used, ...]
    settings: tuple[Setting, ...]
    narrow: tuple[tuple[int, int, Fraction], ...]
    stack: Fraction
    density: Fraction | None = None

    @property
    def kept(self) -> tuple[tuple[int, Board], ...]:
        """Offcuts worth keeping, with the number of their sheet."""
        return tuple(
            (sheet.number, board)
            for sheet in self.sheets
            for board in sheet.boards
            if board.use == "keep"
        )


@frozen
class NotPlanned:
    """A sheet material of which there is no plan, and why, as a clause."""

    material: Material
    pieces: int
    why: str
