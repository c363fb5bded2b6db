"""Laying out lines of plain text: what the reader's terminal shows, and how wide it is.

Texts of a kitchen are anyone's: whatever could move the cursor, turn the direction of writing or
hide is shown as what it is.
"""

import re
import unicodedata

from attrs import frozen

ELLIPSIS = "…"

_HIDDEN = {"Cc", "Cf", "Cs", "Co", "Zl", "Zp"}
"""Unicode general categories of characters that a terminal obeys instead of showing."""


def _shown(character: str) -> str:
    if unicodedata.category(character) not in _HIDDEN:
        return character
    code = ord(character)
    if character == "\t":
        return " "
    if code < 0x20:
        return chr(0x2400 + code)
    return "\u2421" if code == 0x7F else f"<U+{code:04X}>"


def visible(text: str) -> str:
    """`text` on one line, with control characters and turns of direction made visible."""
    if text.isascii() and text.isprintable():
        return text
    return "".join(map(_shown, text))


def cells(text: str) -> int:
    """How many columns of a terminal `text` takes; it is visible already."""
    if text.isascii():
        return len(text)
    return sum(map(_cells_of, text))


def _cells_of(character: str) -> int:
    if unicodedata.combining(character):
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def padded(text: str, width: int) -> str:
    """`text` with blanks after it, `width` columns wide or more."""
    return text + " " * (width - cells(text))


def cut_to(text: str, width: int) -> str:
    """`text`, or as much of it as goes into `width` columns with an ellipsis at the end."""
    if cells(text) <= width:
        return text
    kept = ""
    taken = 1
    for character in text:
        taken += _cells_of(character)
        if taken > width:
            break
        kept += character
    return kept.rstrip() + ELLIPSIS


_TOKEN = re.compile(r"-?(?:\d+ )?\d+/\d+[\"\w]*(?: (?:shy|full)\b)?\S*|\S+")
"""Words, where a whole number, its fraction and its mark are one word."""


def wrapped(text: str, width: int) -> list[str]:
    """`text` in lines of at most `width` columns, broken between words; a word that is longer
    stands alone on its line. A measure is one word. A text that fits is left as it is."""
    if text and cells(text) <= width:
        return [text]
    lines: list[str] = []
    for word in _TOKEN.findall(text):
        if lines and cells(lines[-1]) + 1 + cells(word) <= width:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


@frozen
class Quote:
    """A line of a text as shown, and the columns of it that are meant."""

    text: str
    start: int
    length: int


_LONGEST_LINE = 1000
"""Characters of a line that are looked at."""


def quoted(line: str, start: int, end: int, room: int, *, beyond: bool = True) -> Quote:
    """`line` without the blanks around it, in at most about `room` columns.

    `start` and `end` are the offsets in the line of what is meant. Where the line is too long its
    first word and what is meant are kept, with an ellipsis for what is left out; what stands
    `beyond` is then kept too, as far as there is room, or left out without a word.
    """
    if len(line) > _LONGEST_LINE:
        # So that a thousand findings in one monstrous line are still bounded work.
        first = max(0, start - _LONGEST_LINE // 2)
        line, start, end = line[first : first + _LONGEST_LINE], start - first, end - first
    stripped = line.strip()
    offset = len(line) - len(line.lstrip())
    start = max(0, min(start - offset, len(stripped)))
    end = max(start, min(end - offset, len(stripped)))
    before, meant = visible(stripped[:start]), visible(stripped[start:end])
    whole = visible(stripped)
    if cells(whole) <= room:
        return Quote(whole, cells(before), max(1, cells(meant)))
    head = whole.split(" ", 1)[0]
    lead = f"{head} {ELLIPSIS} "
    if cells(before) <= cells(lead) or cells(lead) > room // 2:
        lead = before if cells(before) <= room // 2 else f"{ELLIPSIS} "
    rest = cut_to(meant + visible(stripped[end:]) if beyond else meant, room - cells(lead))
    length = min(cells(meant), cells(rest))
    return Quote(lead + rest, cells(lead), max(1, length))
