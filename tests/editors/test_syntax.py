"""The syntax file for editors: never stale, and right about whole lines."""

import importlib.util
import json
import re
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from casewright.compiler.words.schema import SCHEMA
from casewright.lang.schema import HeadRule, schema_of

ROOT = Path(__file__).parents[2]


def load() -> ModuleType:
    spec = importlib.util.spec_from_file_location("generate", ROOT / "editors" / "generate.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


generate = load()


def test_the_file_is_not_stale() -> None:
    written = generate.SYNTAX.read_text(encoding="utf-8")
    assert written == generate.text_of(SCHEMA), "run: python editors/generate.py"


def test_a_new_word_would_make_it_stale() -> None:
    heads = dict(SCHEMA.heads)
    first = heads[SCHEMA.file]
    heads["brand_new"] = HeadRule("brand_new", "a word")
    file = HeadRule(first.name, first.doc, body=(*first.body, "brand_new"))
    heads[SCHEMA.file] = file
    assert generate.text_of(schema_of(SCHEMA.file, *heads.values())) != generate.text_of(SCHEMA)


GRAMMAR: dict[str, Any] = json.loads(generate.text_of(SCHEMA))


def flat(patterns: list[dict[str, Any]]) -> Iterator[dict[str, Any]]:
    """`patterns` with what they include."""
    for pattern in patterns:
        if "include" in pattern:
            rule = GRAMMAR["repository"][pattern["include"].removeprefix("#")]
            yield from flat(rule["patterns"]) if "begin" not in rule else [rule]
        else:
            yield pattern


def coloured(line: str, patterns: list[dict[str, Any]] | None = None) -> list[tuple[str, str]]:
    """The stretches of `line` that have a scope, as an editor finds them: what begins first wins,
    and of two that begin together the one that stands first."""
    rules = list(flat(GRAMMAR["patterns"] if patterns is None else patterns))
    found: list[tuple[str, str]] = []
    at = 0
    while at <= len(line):
        matches = [
            (match.start(), number, match)
            for number, rule in enumerate(rules)
            if (match := re.compile(str(rule.get("match") or rule["begin"])).search(line, at))
        ]
        if not matches:
            break
        _, number, match = min(matches, key=lambda each: each[:2])
        rule = rules[number]
        at = match.end() if match.end() > match.start() else match.end() + 1
        if "begin" in rule:
            end = line.find('"', at) + 1 or len(line)
            found.append((line[match.start() : end], rule["name"]))
            at = end
        elif "name" in rule:
            found.append((match[0], rule["name"]))
        else:
            for group, scope in rule["captures"].items():
                if match[int(group)]:
                    found.append((match[int(group)], scope["name"]))
    return [(text, scope.removesuffix(".casewright")) for text, scope in found]


@pytest.mark.parametrize(
    ("line", "scopes"),
    [
        (
            "  S2a: drawer_base share min 24  # c",
            [
                ("S2a", "entity.name.section"),
                (":", "punctuation.separator"),
                ("drawer_base", "entity.name.function"),
                ("share", "keyword.other"),
                ("min", "keyword.other"),
                ("24", "constant.numeric"),
                ("# c", "comment.line.number-sign"),
            ],
        ),
        (
            "job Tern Quay {",
            [("job", "keyword.control"), ("Tern Quay", "string.unquoted")],
        ),
        (
            "note it's # said",
            [("note", "keyword.control"), ("it's # said", "string.unquoted")],
        ),
        (
            "S1: x { note no # here }",
            [
                ("S1", "entity.name.section"),
                (":", "punctuation.separator"),
                ("x", "entity.name.function"),
                ("note", "keyword.control"),
                ("no # here", "string.unquoted"),
            ],
        ),
        ("  date 2026-11-25", [("date", "keyword.other"), ("2026-11-25", "constant.other.date")]),
        (
            "part a of opening.front  up 7' 6 1/2\" - x",
            [
                ("part", "keyword.control"),
                ("of", "keyword.other"),
                ("up", "keyword.other"),
                ("7' 6 1/2\"", "constant.numeric"),
                ("-", "keyword.operator"),
            ],
        ),
        (
            'require a is b "only {c} # left" # why',
            [
                ("require", "keyword.control"),
                ("is", "keyword.operator.word"),
                ('"only {c} # left"', "string.quoted.double"),
                ("# why", "comment.line.number-sign"),
            ],
        ),
    ],
)
def test_lines_are_coloured(line: str, scopes: list[tuple[str, str]]) -> None:
    assert coloured(line) == scopes


def test_every_word_of_the_schema_is_coloured() -> None:
    for head in generate.head_words(SCHEMA):
        assert coloured(head)[0] == (head, "keyword.control")
    for word in generate.clause_words(SCHEMA):
        assert (word, "keyword.other") in coloured(f"x {word} 5")
