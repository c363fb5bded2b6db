"""From Lark's trees to our nodes, in one pass."""

from datetime import date
from typing import Any

from lark import Token

from casewright.lang.faults import Faults
from casewright.lang.findings import Edit, Finding, error
from casewright.lang.numbers import spell
from casewright.lang.source import Source, Span
from casewright.lang.tree import (
    Binary,
    Conditional,
    Date,
    Expression,
    Group,
    Line,
    Name,
    Not,
    Number,
    Text,
    Word,
)

MOST_NESTED = 64
"""Blocks inside blocks, and values inside values, go no deeper."""

_HEADS = frozenset({"HEAD", "RAW_HEAD", "VERBATIM_HEAD", "INLINE_HEAD", "INLINE_VERBATIM_HEAD"})
_RAW_TEXTS = frozenset({"RAW_TEXT", "VERBATIM_TEXT", "INLINE_TEXT", "INLINE_VERBATIM_TEXT"})


def broken_line(
    source: Source,
    start: int,
    end: int,
    tag: Word | None,
    head: Word,
    block: tuple[Line, ...] = (),
    blocked: bool = False,
    block_end: int | None = None,
) -> Line:
    """A line that can't be read: its text stands in `raw`, its block is kept."""
    return Line(
        tag,
        head,
        (),
        None,
        Word(source.text[start:end], Span(source, start, end)),
        block,
        blocked,
        Span(source, start, end if block_end is None else block_end),
        broken=True,
    )


class Builder:
    """Makes nodes of `source` from Lark's trees of the text from `base` on."""

    def __init__(self, source: Source, faults: Faults, base: int = 0) -> None:
        self.source = source
        self.faults = faults
        self.base = base
        self._spoiled = False
        """Whether something on the line being built can't be known."""

    def line(self, node: Any) -> Line:
        """The line of a `line` or `header` node."""
        children = node.children
        blocked = not isinstance(children[-1], Token) and children[-1].data == "block"
        header = children[:-1] if blocked else children
        self._spoiled = False
        start = end = children[0].start_pos + self.base
        tag: Word | None = None
        head = raw = None
        items: list[Expression] = []
        value: Expression | None = None
        valued = False
        for child in header:
            kind = child.type if isinstance(child, Token) else child.data
            if kind in _HEADS:
                head = self._word(child)
                end = child.end_pos + self.base
            elif kind == "EQUALS":
                valued = True
            elif kind == "TAG":
                text = child[:-1].rstrip()
                tag = Word(text, Span(self.source, start, start + len(text)))
            elif kind in _RAW_TEXTS:
                raw = self._word(child)
                end = child.end_pos + self.base
            else:
                expression = self._expression(child, 0)
                end = _end(expression)
                if valued:
                    value = expression
                else:
                    items.append(expression)
        assert head is not None
        spoiled = self._spoiled
        block: tuple[Line, ...] = ()
        block_end = end
        if blocked:
            block = tuple(self.line(child) for child in children[-1].children[1:-1])
            block_end = children[-1].children[-1].end_pos + self.base
        if spoiled:
            return broken_line(self.source, start, end, tag, head, block, blocked, block_end)
        span = Span(self.source, start, block_end)
        return Line(tag, head, tuple(items), value, raw, block, blocked, span)

    def _word(self, token: Token) -> Word:
        return Word(str(token), self._span(token.start_pos, token.end_pos))

    def _span(self, start: int | None, end: int | None) -> Span:
        assert start is not None
        assert end is not None
        return Span(self.source, start + self.base, end + self.base)

    def _expression(self, node: Any, depth: int) -> Expression:
        if isinstance(node, Token):
            origin = self._span(node.start_pos, node.end_pos)
            if node.type == "NAME":
                return Name(tuple(node.split(".")), origin)
            if node.type == "NUMBER":
                return self._number(node, origin)
            return self._date(node, origin)
        if depth >= MOST_NESTED:
            return self._too_deep(node)
        kind = node.data
        children = node.children
        if kind == "binary":
            left = self._expression(children[0], depth + 1)
            right = self._expression(children[2], depth + 1)
            operator = children[1]
            if operator.type in ("MINUS", "PLUS"):
                self._check_sign(operator)
            word = "or else" if operator.type == "OR_ELSE" else str(operator)
            return Binary(word, left, right, self._around(left, right))
        if kind == "group":
            inner = self._expression(children[1], depth + 1)
            return Group(inner, self._span(children[0].start_pos, children[2].end_pos))
        if kind == "conditional":
            value = self._expression(children[0], depth + 1)
            condition = self._expression(children[1], depth + 1)
            otherwise = self._expression(children[2], depth + 1)
            return Conditional(value, condition, otherwise, self._around(value, otherwise))
        if kind == "negation":
            inner = self._expression(children[1], depth + 1)
            start = children[0].start_pos + self.base
            return Not(inner, Span(self.source, start, _end(inner)))
        return self._text(children, depth)

    def _around(self, left: Expression, right: Expression) -> Span:
        assert isinstance(left.origin, Span)
        return Span(self.source, left.origin.start, _end(right))

    def _text(self, children: list[Any], depth: int) -> Text:
        pieces: list[str | Expression] = []
        literal = ""
        for child in children[1:-1]:
            if not isinstance(child, Token):
                pieces += (literal, self._expression(child, depth + 1))
                literal = ""
            elif child.type == "TEXT_PART":
                literal = str(child)
            elif child.type not in ("LBRACE", "RBRACE"):
                pieces += (literal, self._expression(child, depth + 1))
                literal = ""
        pieces.append(literal)
        return Text(tuple(pieces), self._span(children[0].start_pos, children[-1].end_pos))

    def _number(self, token: Token, origin: Span) -> Expression:
        if self.faults.full:
            self._spoiled = True
            return Name(("unread",), origin)
        spelt = spell(str(token))
        written = " ".join(token.split())
        if spelt.headline:
            edits = (Edit(origin, spelt.mend),) if spelt.certain else ()
            self.faults.add(error(spelt.slug, spelt.headline, origin, help=spelt.help, edits=edits))
        if spelt.date:
            return Date(spelt.mend, origin)
        if spelt.value is None:
            self._spoiled = True
            return Name(("unread",), origin)
        return Number(spelt.value, spelt.unit, written, origin)

    def _date(self, token: Token, origin: Span) -> Date:
        written = str(token)
        try:
            date.fromisoformat(written)
        except ValueError:
            self._spoiled = True
            self.faults.add(
                error(
                    "no-such-date",
                    f"there is no date {written}",
                    origin,
                    help="a date is year-month-day; a sum has blanks around its minus",
                )
            )
        return Date(written, origin)

    def _check_sign(self, operator: Token) -> None:
        """A sign that stands against what follows, and only that, may be meant as a sign."""
        start = (operator.start_pos or 0) + self.base
        text = self.source.text
        if text[start - 1] in " \t\n" and text[start + 1] not in " \t\n":
            self.faults.add(sign_finding(Span(self.source, start, start + 1)))

    def _too_deep(self, node: Any) -> Expression:
        token = node
        while not isinstance(token, Token):
            token = token.children[0]
        origin = self._span(token.start_pos, token.end_pos)
        self._spoiled = True
        self.faults.add(
            error(
                "nested-too-deep",
                f"this value is worked out in more than {MOST_NESTED} steps",
                origin,
                help="give parts of it names with `let` and use those",
            )
        )
        return Name(("unread",), origin)


def _end(expression: Expression) -> int:
    assert isinstance(expression.origin, Span)
    return expression.origin.end


def sign_finding(span: Span) -> Finding:
    """What is said of a `+` or `-` that looks like a sign."""
    if span.text == "+":
        return error(
            "signed-size",
            "a size has no sign",
            span,
            help="leave the plus out; a sum has a blank on both sides of it",
        )
    return error(
        "negative-size",
        "a size is never negative: a minus only takes away",
        span,
        help="leave the minus out; a sum has a blank on both sides of it: a - 3",
    )
