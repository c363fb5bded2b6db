"""Writes the syntax file that editors colour kitchens by, from the schema's words.

    python editors/generate.py

The file is a TextMate grammar, which most editors read. It is written anew whenever the words
change; a test compares it with what would be written.
"""

import json
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from casewright.compiler.words.schema import SCHEMA
from casewright.lang.grammar import RESERVED
from casewright.lang.numbers import READABLE
from casewright.lang.schema import ClauseRule, Schema
from casewright.lang.trivia import (
    INLINE_TEXT,
    INLINE_VERBATIM_TEXT,
    RAW_TEXT,
    VERBATIM_TEXT,
    words,
)

SYNTAX = Path(__file__).with_name("casewright.tmLanguage.json")

_BEGINNING = r"(?:^|(?<=\{))[ \t]*"
_TAG = "[A-Z][0-9]+[a-z]?"
_APART = "(?<![A-Za-z0-9_.])"
_ENDS = "(?![A-Za-z0-9_.])"


def head_words(schema: Schema) -> frozenset[str]:
    """The words that a line may begin with, wherever it stands."""
    return frozenset(name for rule in schema.heads.values() for name in rule.body)


def clause_words(schema: Schema) -> frozenset[str]:
    """The words that begin a clause, wherever it stands."""

    def of(clauses: Iterable[ClauseRule]) -> Iterator[str]:
        for clause in clauses:
            yield clause.word
            yield from of(clause.clauses)

    return frozenset(word for rule in schema.heads.values() for word in of(rule.clauses))


def _captures(*scopes: str) -> dict[str, dict[str, str]]:
    return {
        str(number): {"name": f"{scope}.casewright"}
        for number, scope in enumerate(scopes, 1)
        if scope
    }


def _raw(beginning: str, heads: frozenset[str], text: str) -> dict[str, Any]:
    return {
        "match": f"{beginning}({words(heads)})(?:[ \\t]*({text}))?",
        "captures": _captures("keyword.control", "string.unquoted"),
    }


def _line(word: str, scope: str) -> dict[str, Any]:
    return {
        "match": f"{_BEGINNING}(?:({_TAG})[ \\t]*(:)[ \\t]*)?({word})",
        "captures": _captures("entity.name.section", "punctuation.separator", scope),
    }


def syntax(schema: Schema) -> dict[str, Any]:
    """The grammar for the words of `schema`."""
    raw = schema.raw_heads - schema.verbatim_heads
    values: list[dict[str, Any]] = [
        {"match": r"[0-9]{4}-[0-9]{2}-[0-9]{2}(?![0-9])", "name": "constant.other.date.casewright"},
        {"match": f"{_APART}{READABLE}(?![A-Za-z0-9_])", "name": "constant.numeric.casewright"},
        {
            "match": f"{_APART}{words(RESERVED)}{_ENDS}",
            "name": "keyword.operator.word.casewright",
        },
        {
            "match": f"{_APART}{words(clause_words(schema))}{_ENDS}",
            "name": "keyword.other.casewright",
        },
        {"match": f"{_APART}{_TAG}(?![A-Za-z0-9_])", "name": "entity.name.section.casewright"},
        {"match": r"\.\.|<=|>=|[-+*/<>=]", "name": "keyword.operator.casewright"},
    ]
    return {
        "name": "Casewright",
        "scopeName": "source.casewright",
        "fileTypes": ["case"],
        "patterns": [
            _raw("^[ \\t]*", schema.verbatim_heads, VERBATIM_TEXT),
            _raw("^[ \\t]*", raw, RAW_TEXT),
            _raw(r"(?<=\{)[ \t]*", schema.verbatim_heads, INLINE_VERBATIM_TEXT),
            _raw(r"(?<=\{)[ \t]*", raw, INLINE_TEXT),
            {"match": "#.*", "name": "comment.line.number-sign.casewright"},
            _line(words(head_words(schema)), "keyword.control"),
            _line(words(clause_words(schema)), "keyword.other"),
            _line("[a-z][a-z0-9_]*", "entity.name.function"),
            {"include": "#values"},
            {"include": "#text"},
        ],
        "repository": {
            "values": {"patterns": values},
            "text": {
                "begin": '"',
                "end": '"|$',
                "name": "string.quoted.double.casewright",
                "patterns": [
                    {
                        "begin": r"\{",
                        "end": r"\}|$",
                        "name": "meta.embedded.casewright",
                        "patterns": [{"include": "#values"}],
                    }
                ],
            },
        },
    }


def text_of(schema: Schema) -> str:
    """The syntax file as it is written."""
    return json.dumps(syntax(schema), indent=2, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    SYNTAX.write_text(text_of(SCHEMA), encoding="utf-8", newline="\n")
