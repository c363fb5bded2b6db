"""A page of the job book before it is set, and the readers in the order of the work."""

from collections.abc import Iterable, Sequence
from typing import Any, TypeVar

from attrs import field, frozen

from casewright.compiler.papers.drawing import letters_width

Item = TypeVar("Item")

READERS: dict[str, str] = {
    "agree": "customer, owner",
    "saw": "sawyer",
    "band": "bander",
    "bench": "bench hand, frame maker",
    "fit": "bench hand",
    "install": "installer",
    "all chapters": "everyone",
}
"""Chapters of the book in the order of the work, and who reads each."""

ROOM = 196.0
"""What stands free between header and foot of a page that prints on A4 and Letter, in
millimetres, under a run strip of two rows."""

LETTER_ON_PAGE = 2.15
"""Millimetres kept for a letter of a list; lists are set in 10 pt, whatever the reader's face."""

_OF_DRAWING = LETTER_ON_PAGE / 2.7


@frozen
class Page:
    """One page: `identifier` is its address in the book, `here` the units it is about, `find` the
    words by which the find box knows it. A `long` page takes as many sheets as it needs."""

    identifier: str
    chapter: str
    title: str
    say: str
    template: str
    values: dict[str, Any] = field(factory=dict, eq=False)
    here: frozenset[str] = frozenset()
    find: str = ""
    long: bool = False


@frozen
class Caution:
    """A boxed caution: its signal word as in ANSI Z535 (from memory): WARNING can maim or kill,
    CAUTION can hurt."""

    word: str
    text: str


def lines_in(text: str, room: float) -> int:
    """How many lines `text` takes in a column `room` millimetres wide, at least one; words that
    don't fit a line are broken."""
    width = letters_width(text) * _OF_DRAWING
    return max(1, -(-int(width * 1.06 * 10) // int(room * 10)))


def paged(items: Iterable[tuple[Item, float]], room: float) -> list[list[Item]]:
    """`items` with their heights, shared out over pages with `room` each; an item too high for a
    page has one to itself."""
    pages: list[list[Item]] = [[]]
    used = 0.0
    for item, height in items:
        if pages[-1] and used + height > room:
            pages.append([])
            used = 0.0
        pages[-1].append(item)
        used += height
    return pages


def of_pages(number: int, pages: Sequence[object]) -> str:
    """`, sheet 2 of 3` where there is more than one."""
    return f", part {number} of {len(pages)}" if len(pages) > 1 else ""
