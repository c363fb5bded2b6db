"""Text as it was read, and places in it."""

from bisect import bisect_right
from functools import cached_property

from attrs import field, frozen


@frozen(eq=False, slots=False)
class Source:
    """One text with the label a person knows it by.

    `label` is how findings name the file (`kitchen.case`, `std boxes.case`); two sources of one
    build never share a label. Line ends are already `\\n`.
    """

    label: str
    text: str

    @cached_property
    def line_starts(self) -> tuple[int, ...]:
        """Offset of the first character of every line."""
        starts = [0]
        for offset, character in enumerate(self.text):
            if character == "\n":
                starts.append(offset + 1)
        return tuple(starts)

    def line_of(self, offset: int) -> int:
        """Line number, from 1, of the character at `offset`."""
        return bisect_right(self.line_starts, offset)

    def line_text(self, line: int) -> str:
        """The text of line number `line` without its line end; empty past the last line."""
        if not 1 <= line <= len(self.line_starts):
            return ""
        start = self.line_starts[line - 1]
        end = self.text.find("\n", start)
        return self.text[start:] if end < 0 else self.text[start:end]


@frozen
class Span:
    """A stretch of a source: offsets `start` up to but not including `end`."""

    source: Source = field(repr=lambda source: source.label)
    start: int
    end: int

    @property
    def line(self) -> int:
        return self.source.line_of(self.start)

    @property
    def column(self) -> int:
        """Column, from 1, in characters."""
        return self.start - self.source.line_starts[self.line - 1] + 1

    @property
    def text(self) -> str:
        return self.source.text[self.start : self.end]

    @property
    def where(self) -> str:
        """`file:line` as a person reads it."""
        return f"{self.source.label}:{self.line}"


@frozen
class Own:
    """A place in the text of a placed thing, by its position in that text instead of by line.

    Equal units on different lines share one result; what the result says about its own lines is
    bound to real spans only when it is read (`compiler/keys.py`).
    """

    index: int


Origin = Span | Own
