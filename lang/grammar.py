"""The grammar made ready: grammar.lark with its open terminals filled in."""

from functools import cache
from importlib.resources import files

import lark
from lark.lexer import PatternRE, TerminalDef

from casewright.lang.numbers import SPELLING
from casewright.lang.trivia import (
    INLINE_TEXT,
    INLINE_VERBATIM_TEXT,
    RAW_TEXT,
    VERBATIM_TEXT,
    Heads,
    words,
)

RESERVED = frozenset({"if", "else", "or", "and", "not", "is", "within"})
"""Words that are neither names nor heads."""

_WORD = "[a-z][a-z0-9_]*"
_TAG = "[A-Z][0-9]+[a-z]?(?![A-Za-z0-9_])"

STARTS = ["file", "header"]
"""A whole text, and one line without its block."""


def grammar_text() -> str:
    """The text of grammar.lark."""
    return files("casewright.lang").joinpath("grammar.lark").read_text(encoding="utf-8")


def terminals(heads: Heads) -> dict[str, str]:
    """The patterns of the terminals that grammar.lark leaves open."""
    return {
        "HEAD": rf"(?!{words(heads.all | RESERVED)}){_WORD}",
        "NAME": rf"(?!{words(RESERVED)})(?:{_TAG}|{_WORD})(?:\.{_WORD})*",
        "NUMBER": SPELLING,
        "RAW_HEAD": words(heads.commented),
        "VERBATIM_HEAD": words(heads.verbatim),
        "INLINE_HEAD": words(heads.commented),
        "INLINE_VERBATIM_HEAD": words(heads.verbatim),
        "RAW_TEXT": RAW_TEXT,
        "VERBATIM_TEXT": VERBATIM_TEXT,
        "INLINE_TEXT": INLINE_TEXT,
        "INLINE_VERBATIM_TEXT": INLINE_VERBATIM_TEXT,
    }


def build(heads: Heads, *, strict: bool = False) -> lark.Lark:
    """The parser for texts in which `heads` take their lines raw.

    `strict` (tests only: it needs interegular and is slow) refuses a grammar with a conflict that
    LALR would settle silently.
    """
    filled = terminals(heads)

    def fill(terminal: TerminalDef) -> None:
        pattern = filled.get(terminal.name)
        if pattern is not None:
            terminal.pattern = PatternRE(pattern)

    return lark.Lark(
        grammar_text(),
        parser="lalr",
        start=STARTS,
        maybe_placeholders=False,
        edit_terminals=fill,
        strict=strict,
    )


@cache
def grammar(heads: Heads) -> lark.Lark:
    """As `build`, once for each set of heads."""
    return build(heads)
