"""The tree of a text: what was written, before anything is known of what it means.

A text is lines; a line is a head word, items and perhaps a block. Which items are values and
which begin a clause is the schema's to say (`lang/shape.py`), so the grammar stays small.
"""

from fractions import Fraction

from attrs import frozen

from casewright.lang.source import Origin


@frozen
class Word:
    """A word as written, with its place."""

    text: str
    origin: Origin


@frozen
class Number:
    """A written measure. `unit` is None, "in", "mm", "deg", "lb" ...; feet are already inches.

    `value` is exact, in the written unit. `written` is the spelling, for messages to quote.
    """

    value: Fraction
    unit: str | None
    written: str
    origin: Origin


@frozen
class Name:
    """A path of words joined by dots: `opening.cover.left`; a single word has one element."""

    words: tuple[str, ...]
    origin: Origin

    @property
    def text(self) -> str:
        return ".".join(self.words)


@frozen
class Date:
    """A date as ISO 8601 writes it, kept as text."""

    written: str
    origin: Origin


@frozen
class Text:
    """A quoted text; the odd pieces are expressions that stood in braces."""

    pieces: tuple["str | Expression", ...]
    origin: Origin


@frozen
class Not:
    inner: "Expression"
    origin: Origin


@frozen
class Group:
    """An expression in parentheses."""

    inner: "Expression"
    origin: Origin


@frozen
class Binary:
    """Two operands and one of `+ - * / .. is within and or < <= > >=` or `or else`."""

    operator: str
    left: "Expression"
    right: "Expression"
    origin: Origin


@frozen
class Conditional:
    """`value if condition else otherwise`."""

    value: "Expression"
    condition: "Expression"
    otherwise: "Expression"
    origin: Origin


Expression = Number | Name | Date | Text | Not | Group | Binary | Conditional


@frozen
class Line:
    """One written line: `TAG: head item item … = value { block }`.

    `raw` is the rest of the line for heads that take it as it stands (a job's title, a note).
    `broken` marks a line the parser could not read; its text is kept and its findings are made.
    `blocked` tells an empty block from none.
    """

    tag: Word | None
    head: Word
    items: tuple[Expression, ...]
    value: Expression | None
    raw: Word | None
    block: tuple["Line", ...]
    blocked: bool
    origin: Origin
    broken: bool = False


@frozen
class Comment:
    """A comment beside the tree: where it stands and its text from `#` on."""

    text: str
    origin: Origin


@frozen
class Tree:
    """A whole text."""

    lines: tuple[Line, ...]
    comments: tuple[Comment, ...]
