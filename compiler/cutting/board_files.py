"""Plan files of boards: how they are named, and what is said of them, without the planner."""

from typing import Final

from casewright.compiler.plan.words import SHEETS, Goods

BOARDS: Final = "boards_"
"""How the name of a lumber plan's file begins: a sheet may be called as a lumber is."""

LINEAR: Final = "linear_"
"""How the name of the plan of a linear list begins."""

_GOODS: Final = {
    BOARDS: Goods("board", "boards", priced=False),
    LINEAR: Goods("length", "lengths", priced=False),
}


def goods_of(name: str) -> Goods:
    """What the plan in the file of a name counts."""
    return next((goods for start, goods in _GOODS.items() if name.startswith(start)), SHEETS)
