"""Plan files of boards: how they are named, and what is said of them, without the planner."""

from typing import Final

BOARDS: Final = "boards_"
"""How the name of a lumber plan's file begins: a sheet may be called as a lumber is."""

LINEAR: Final = "linear_"
"""How the name of the plan of a linear list begins."""

_GOODS: Final = {BOARDS: "board", LINEAR: "length"}


def words_for(name: str, words: str) -> str:
    """What is said of the plan in the file of a name: of boards or lengths where it is of those."""
    for prefix, goods in _GOODS.items():
        if name.startswith(prefix):
            return words.replace("sheet", goods)
    return words
