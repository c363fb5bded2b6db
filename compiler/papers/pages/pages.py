"""A page of the job book before it is set, and the readers in the order of the work."""

from collections.abc import Iterable, Sequence
from typing import Any, TypeVar

from attrs import field, frozen

from casewright.compiler.model import Job
from casewright.compiler.papers.drawings.drawing import letters_width
from casewright.compiler.papers.drawings.run_strip import FEW_HIGH, strip_high

Item = TypeVar("Item")

READERS: dict[str, str] = {
    "agree": "customer, owner",
    "buy": "owner",
    "saw": "sawyer",
    "band": "bander",
    "bench": "bench hand, frame maker",
    "paint": "finisher",
    "fit": "bench hand",
    "install": "installer",
    "all chapters": "everyone",
}
"""Chapters of the book in the order of the work, and who reads each."""

PAGE_HIGH = 258.0
"""What a page is high between its margins, in millimetres: Letter is the shorter sheet."""

FOOT_HIGH = 23.0
TITLE_HIGH = 29.0
BARE_TITLE_HIGH = 22.0

LETTER_ON_PAGE = 2.15
"""Millimetres kept for a letter of a list; lists are set in 10 pt, whatever the reader's face."""

_OF_DRAWING = LETTER_ON_PAGE / 2.7


@frozen
class Page:
    """One page: `identifier` is its address in the book, `here` the units it is about, `find` the
    words by which the find box knows it. A `long` page takes as many sheets as it needs.
    `part` says which of several pages it is; `more` pages after the first aren't listed. A page
    of labels has no run strip: the sheet is cut up. `high` is what its body takes on paper, in
    millimetres, where papers before and after it may share its sheet."""

    identifier: str
    chapter: str
    title: str
    say: str
    template: str
    values: dict[str, Any] = field(factory=dict, eq=False)
    here: frozenset[str] = frozenset()
    find: str = ""
    long: bool = False
    part: str = ""
    more: bool = False
    strip: bool = True
    high: float = 0.0


@frozen
class Caution:
    """A boxed caution: its signal word as in ANSI Z535 (from memory): WARNING can maim or kill,
    CAUTION can hurt."""

    word: str
    text: str


def lines_in(text: str, room: float, *, bold: bool = False) -> int:
    """How many lines `text` takes in a column `room` millimetres wide, at least one; a word that
    doesn't fit a line is broken."""
    lines, used = 1, 0.0
    for word in text.split(" "):
        wide = listed_width(word, bold=bold)
        if used and used + _BLANK + wide > room:
            lines, used = lines + 1, 0.0
        used += wide + (_BLANK if used else 0.0)
        broken = int(used * 10) // int(room * 10)
        lines, used = lines + broken, used - broken * room
    return lines


def listed_width(text: str, *, bold: bool = False) -> float:
    """Millimetres that `text` takes on one line of a list."""
    return letters_width(text, bold=bold) * _OF_DRAWING


_BLANK = listed_width(" ")


def joined_high(say: str) -> float:
    """Millimetres that a paper's heading takes where it stands under another on one sheet."""
    return 13.0 + 5.0 * lines_in(say, 190.0)


def left_after(room: float, taken: float, say: str) -> float:
    """What a sheet has left for a paper that says `say`, where others took `taken` millimetres;
    nothing where it isn't worth beginning."""
    left = room - taken - joined_high(say)
    return left if taken and left >= _WORTH else 0.0


_WORTH = 45.0


def paged(
    items: Iterable[tuple[Item, float]], room: float, head: float = 0.0, first: float = 0.0
) -> list[list[Item]]:
    """`items` with their heights, shared out over pages with `room` each; every page but the first
    begins with `head` millimetres of headings said again. An item too high for a page has one to
    itself. The first page has `first` millimetres, where that is said: it shares a sheet."""
    pages: list[list[Item]] = [[]]
    used = max(0.0, room - first) if first else 0.0
    for item, height in items:
        if (pages[-1] or used) and used + height > room:
            pages.append([])
            used = head
        pages[-1].append(item)
        used += height
    return [page for page in pages if page] or [[]]


def room_on(job: Job) -> float:
    """Millimetres between header and foot on the smaller of A4 and Letter."""
    return PAGE_HIGH - FOOT_HIGH - max(TITLE_HIGH, min(strip_high(job), FEW_HIGH) + 5.0)


def room_on_first(job: Job) -> float:
    """The same on page one, which shows every run."""
    return PAGE_HIGH - FOOT_HIGH - max(TITLE_HIGH, strip_high(job) + 5.0)


def room_without_strip() -> float:
    """The same on a page whose header is its title alone."""
    return PAGE_HIGH - FOOT_HIGH - BARE_TITLE_HIGH


def part_of(number: int, pages: Sequence[object]) -> str:
    """`2 of 3` where there is more than one."""
    return f"{number} of {len(pages)}" if len(pages) > 1 else ""
