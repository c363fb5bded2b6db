"""What stands between the words of a text: comments, and line ends that are only blanks.

One scan of a text finds its comments, its braces and its line ends, past quoted and raw texts. The
parser reads the flat text the scan leaves: comments, and line ends inside ( ), are blanks in it,
offset for offset.
"""

import re
from functools import cache

from attrs import frozen

from casewright.lang.source import Source, Span
from casewright.lang.tree import Comment

_WORD_END = r"(?![a-z0-9_])"
NEVER = r"(?!)x"
"""Matches nothing, and is not empty, as a terminal must not be."""


@frozen
class Heads:
    """Heads that take the rest of their line as it stands, up to a final `{`.

    `commented` are those in whose text `#` begins a comment; in `verbatim` ones it is text.
    """

    commented: frozenset[str] = frozenset()
    verbatim: frozenset[str] = frozenset()

    @staticmethod
    def of(raw_heads: frozenset[str], verbatim_heads: frozenset[str]) -> "Heads":
        return Heads(raw_heads - verbatim_heads, verbatim_heads)

    @property
    def all(self) -> frozenset[str]:
        return self.commented | self.verbatim


def words(choices: frozenset[str]) -> str:
    """A pattern for any of `choices` as a whole word."""
    if not choices:
        return NEVER
    return f"(?:{'|'.join(sorted(map(re.escape, choices)))}){_WORD_END}"


def _raw_text(stop: str, end: str) -> str:
    """Words up to the line's end or a final brace; blanks at either side stay out."""
    character = rf"(?!\{{[ \t]*{end})[^ \t\n{stop}]"
    return rf"(?:{character})+(?:[ \t]+(?:{character})+)*"


RAW_TEXT = _raw_text("#", r"(?:[\n#]|\Z)")
VERBATIM_TEXT = _raw_text("", r"(?:\n|\Z)")
INLINE_TEXT = r"[^ \t\n#{}]+(?:[ \t]+[^ \t\n#{}]+)*"
INLINE_VERBATIM_TEXT = INLINE_TEXT.replace("#", "")
"""A raw text in a block of one line holds no braces, else nobody could say where the block ends."""

TEXT = r'"(?:[^"{}\n]|\{(?:[^"{}\n]|(?<=[0-9])")*\})*"'
_OPEN_TEXT = r'"(?:[^{}\n]|[{}](?![ \t]*$))*'
"""A text that isn't closed: the braces in it, but for those that end its line, are no block's."""
INCHES = r'(?<![A-Za-z0-9_])[0-9][0-9A-Za-z_]*"'


@cache
def _scanner(heads: Heads) -> re.Pattern[str]:
    return re.compile(
        rf"""
        ^[ \t]*{words(heads.commented)}(?:[ \t]*{RAW_TEXT})?
        | ^[ \t]*{words(heads.verbatim)}(?:[ \t]*{VERBATIM_TEXT})?
        | (?<=\{{)[ \t]*{words(heads.commented)}(?:[ \t]*{INLINE_TEXT})?
        | (?<=\{{)[ \t]*{words(heads.verbatim)}(?:[ \t]*{INLINE_VERBATIM_TEXT})?
        | {INCHES}
        | {TEXT}
        | {_OPEN_TEXT}
        | (?P<mark>[(){{}}\n]|[#][^\n]*)
        """,
        re.VERBOSE | re.MULTILINE,
    )


@frozen
class Scan:
    """A text after one look: the flat text, its comments, and its marks in order.

    `marks` are offsets into the flat text of the braces and of the line ends that end a line.
    `deepest` is how far braces are nested.
    """

    flat: str
    comments: tuple[Comment, ...]
    marks: tuple[int, ...]
    deepest: int


def scan(source: Source, heads: Heads, text: str | None = None) -> Scan:
    """`source` after one look; `text`, when given, is the same text with more of it blank."""
    written = source.text if text is None else text
    comments: list[Comment] = []
    blanks: list[tuple[int, int]] = []
    marks: list[int] = []
    open_at: list[list[int]] = []
    depth = deepest = 0
    for match in _scanner(heads).finditer(written):
        mark = match["mark"]
        if mark is None:
            continue
        start, end = match.span()
        if mark == "\n":
            if open_at:
                open_at[-1].append(start)
            marks.append(start)
        elif mark == "(":
            open_at.append([])
        elif mark == ")":
            if open_at:
                blanks.extend((line_end, line_end + 1) for line_end in open_at.pop())
        elif mark[0] == "#":
            comments.append(Comment(mark.rstrip(" \t"), Span(source, start, end)))
            blanks.append((start, end))
        else:
            open_at.clear()
            marks.append(start)
            depth += 1 if mark == "{" else -1
            deepest = max(deepest, depth)
    if not blanks:
        return Scan(written, (), tuple(marks), deepest)
    pieces: list[str] = []
    done = 0
    for start, end in sorted(blanks):
        pieces += (written[done:start], " " * (end - start))
        done = end
    pieces.append(written[done:])
    flat = "".join(pieces)
    return Scan(flat, tuple(comments), tuple(mark for mark in marks if flat[mark] != " "), deepest)
