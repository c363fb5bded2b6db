"""Reading a text that has faults: line by line, one finding a bad line, always a tree.

The braces and line ends cut the text into lines, each of which Lark reads alone. Where braces don't
pair off, the writer's indentation says which one is missing or too many.
"""

import re

from attrs import define, field
from lark import UnexpectedInput

from casewright.lang.building import MOST_NESTED, Builder, broken_line
from casewright.lang.faults import Faults
from casewright.lang.findings import Edit, Finding, Label, error
from casewright.lang.grammar import grammar
from casewright.lang.merges import without_merges
from casewright.lang.source import Source, Span
from casewright.lang.tree import Line, Tree, Word
from casewright.lang.trivia import Heads, scan
from casewright.lang.unreadable import why_unreadable

_BEGINNING = re.compile(r"(?:(?P<tag>[A-Z][0-9]+[a-z]?)[ \t]*:[ \t]*)?(?P<head>[A-Za-z0-9_]*)")


def recover(source: Source, heads: Heads) -> tuple[Tree, tuple[Finding, ...]]:
    """The tree of `source`, whatever its faults, and a finding for each."""
    text, merges = without_merges(source)
    scanned = scan(source, heads, text)
    faults = Faults(source)
    for merge in merges:
        faults.add(merge)
    outline = _Outline(source, heads, scanned.flat, faults)
    outline.read(scanned.marks)
    findings = sorted(faults.findings, key=lambda finding: finding.order)
    return Tree(tuple(outline.lines), scanned.comments), tuple(findings)


@define
class _Block:
    """A block being read: its line, its brace, how far its line and its first line stand in."""

    opener: Line | None
    brace: int
    indent: int
    lines: list[Line] = field(factory=list)
    inner: int | None = None

    def stands_in(self) -> bool:
        """Whether the writer indented this block, so that its indentation means something."""
        return self.inner is not None and self.inner > self.indent


class _Outline:
    """Lines and blocks of the flat text of a source."""

    def __init__(self, source: Source, heads: Heads, flat: str, faults: Faults) -> None:
        self.source = source
        self.faults = faults
        self.flat = flat
        self.heads = heads
        self.lark = grammar(heads)
        self.lines: list[Line] = []
        self.blocks: list[_Block] = []
        self.missing = self.extra = 0

    def read(self, marks: tuple[int, ...]) -> None:
        self._count(marks)
        start = 0
        indent: int | None = None
        """How far the physical line stands in; None once something of it was read."""
        width = 0
        closed = False
        """Whether a } was read on this physical line."""
        for mark in (*marks, len(self.flat)):
            stretch = self.flat[start:mark]
            text = stretch.strip(" \t\n")
            if start == 0 or self.flat[start - 1] == "\n":
                blanks = len(stretch) - len(stretch.lstrip(" \t\n"))
                indent = width = len(stretch[:blanks].rpartition("\n")[2])
                closed = False
            character = self.flat[mark : mark + 1]
            line: Line | None = None
            if text:
                at = start + stretch.index(text[0])
                if indent is not None:
                    self._close_missing(indent, Span(self.source, at, at + len(text)))
                line = self._line(at, text)
                if closed:
                    self.faults.add_once(
                        at,
                        error(
                            "brace-ends-its-line",
                            "after a } stands nothing more on its line",
                            Span(self.source, at, at + len(text)),
                            help="begin a new line",
                        ),
                    )
                if len(self.blocks) <= MOST_NESTED:
                    self._put(line, indent)
                indent = None
            if character == "{":
                self._open(mark, line, width)
                indent = None
            elif character == "}":
                self._close(mark, indent)
                indent = None
                closed = True
            start = mark + 1
            if self.faults.full:
                break
        while self.blocks:
            self._miss(self.blocks[-1])
            self._end_block(len(self.flat.rstrip(" \t\n")))

    def _count(self, marks: tuple[int, ...]) -> None:
        """How many closing braces are missing or too many, taking the text as it stands."""
        depth = 0
        for mark in marks:
            if self.flat[mark] == "{":
                depth += 1
            elif self.flat[mark] == "}":
                if depth:
                    depth -= 1
                else:
                    self.extra += 1
        self.missing = depth

    def _put(self, line: Line, indent: int | None) -> None:
        if not self.blocks:
            self.lines.append(line)
            return
        block = self.blocks[-1]
        block.lines.append(line)
        if block.inner is None and indent is not None:
            block.inner = indent

    def _line(self, at: int, text: str) -> Line:
        """The line without its block that `text` says."""
        if len(self.blocks) <= MOST_NESTED:
            try:
                node = self.lark.parse(text, start="header")
            except UnexpectedInput as fault:
                self.faults.add_once(at, why_unreadable(self.source, at, text, fault, self.heads))
            else:
                return Builder(self.source, self.faults, at).line(node)
        beginning = _BEGINNING.match(text)
        assert beginning is not None
        tag = None
        if beginning["tag"] is not None:
            tag = Word(beginning["tag"], Span(self.source, at, at + len(beginning["tag"])))
        start, end = beginning.span("head")
        head = Word(beginning["head"], Span(self.source, at + start, at + end))
        return broken_line(self.source, at, at + len(text), tag, head)

    def _open(self, brace: int, line: Line | None, indent: int) -> None:
        siblings = self.blocks[-1].lines if self.blocks else self.lines
        if line is None:
            line = self._without_line(brace, siblings)
        if len(self.blocks) == MOST_NESTED:
            self.faults.add_once(
                brace,
                error(
                    "nested-too-deep",
                    f"blocks stand in one another more than {MOST_NESTED} deep",
                    Span(self.source, brace, brace + 1),
                ),
            )
        self.blocks.append(_Block(line, brace, indent))

    def _without_line(self, brace: int, siblings: list[Line]) -> Line | None:
        """The line meant by a brace that stands alone: the one before it, if it has no block."""
        span = Span(self.source, brace, brace + 1)
        before = siblings[-1] if siblings else None
        if before is None or before.blocked:
            self.faults.add_once(
                brace, error("brace-opens-nothing", "this { belongs to no line", span)
            )
            return None
        assert isinstance(before.origin, Span)
        between = Span(self.source, before.origin.end, brace)
        edits = (Edit(between, " "),) if not between.text.strip(" \t\n") else ()
        self.faults.add_once(
            brace,
            error(
                "brace-opens-nothing",
                "a { stands at the end of the line it belongs to",
                span,
                help="put it there",
                edits=edits,
            ),
        )
        return before

    def _close(self, brace: int, indent: int | None) -> None:
        if indent is not None:
            self._close_missing(indent, None)
            block = self.blocks[-1] if self.blocks else None
            if self.extra and block and block.stands_in() and indent > block.indent:
                if not self._opened_late(brace, indent, block.lines):
                    self._close_nothing(brace)
                return
            if self.extra and not block and self._opened_late(brace, indent, self.lines):
                return
        if self.blocks:
            self._end_block(brace + 1)
        else:
            self._close_nothing(brace)

    def _opened_late(self, brace: int, indent: int, siblings: list[Line]) -> bool:
        """Takes the lines before a } that stand further in than it for the block of the line above
        them, which opens none, and says so; False where there are no such lines."""
        inner = 0
        while inner < len(siblings) and self._indent(siblings[-1 - inner]) > indent:
            inner += 1
        opener = siblings[-1 - inner] if inner < len(siblings) else None
        if not inner or opener is None or opener.blocked or self._indent(opener) != indent:
            return False
        assert isinstance(opener.origin, Span)
        end = Span(self.source, opener.origin.end, opener.origin.end)
        self.extra -= 1
        self.faults.add_once(
            brace,
            error(
                "brace-missing",
                f"no {{ opens the block of this {opener.head.text}",
                Span(self.source, opener.origin.start, opener.origin.end),
                labels=(Label(Span(self.source, brace, brace + 1), "here it ends"),),
                help="end its line with a blank and {",
                edits=(Edit(end, " {"),),
            ),
        )
        lines = tuple(siblings[-inner:])
        del siblings[-inner:]
        siblings[-1] = Line(
            opener.tag,
            opener.head,
            opener.items,
            opener.value,
            opener.raw,
            lines,
            True,
            Span(self.source, opener.origin.start, brace + 1),
            opener.broken,
        )
        return True

    def _indent(self, line: Line) -> int:
        """How far a line stands in."""
        assert isinstance(line.origin, Span)
        start = line.origin.start
        return start - (self.flat.rfind("\n", 0, start) + 1)

    def _close_nothing(self, brace: int) -> None:
        self.extra -= 1
        self.faults.add_once(
            brace,
            error(
                "brace-closes-nothing",
                "this } closes nothing",
                Span(self.source, brace, brace + 1),
                help="take it out, or see whether a { is missing above",
            ),
        )

    def _close_missing(self, indent: int, line: Span | None) -> None:
        """Ends the blocks that `line`, or a brace, so far to the left can't stand in."""
        while self.missing and self.blocks and self.blocks[-1].stands_in():
            block = self.blocks[-1]
            if indent > block.indent or (indent == block.indent and line is None):
                return
            self._miss(block, line)
            self._end_block(_end(block))
            self.missing -= 1

    def _miss(self, block: _Block, before: Span | None = None) -> None:
        line = self.source.line_of(block.brace)
        self.faults.add_once(
            block.brace,
            error(
                "brace-left-open",
                f"a }} is missing for the {{ on line {line}",
                Span(self.source, block.brace, block.brace + 1),
                labels=() if before is None else (Label(before, "it may stand before this line"),),
            ),
        )

    def _end_block(self, end: int) -> None:
        """Puts the innermost block, which ends at `end`, into its line."""
        block = self.blocks.pop()
        opener = block.opener
        siblings = self.blocks[-1].lines if self.blocks else self.lines
        if len(self.blocks) > MOST_NESTED:
            return
        if opener is None:
            siblings.extend(block.lines)
            return
        assert isinstance(opener.origin, Span)
        siblings[-1] = Line(
            opener.tag,
            opener.head,
            opener.items,
            opener.value,
            opener.raw,
            tuple(block.lines),
            True,
            Span(self.source, opener.origin.start, end),
            opener.broken,
        )


def _end(block: _Block) -> int:
    last = block.lines[-1].origin
    assert isinstance(last, Span)
    return last.end
