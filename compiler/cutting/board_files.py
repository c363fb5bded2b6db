"""Plan files of boards: how they are named, and what is said of them, without the planner."""

from typing import Final

PREFIX: Final = "boards_"
"""How the name of a lumber plan's file begins: a sheet may be called as a lumber is."""


def words_for(name: str, words: str) -> str:
    """What is said of the plan in the file of a name: of boards where it is one of boards."""
    if not name.startswith(PREFIX):
        return words
    return words.replace("sheets", "boards").replace("sheet", "board")
