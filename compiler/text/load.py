"""Reads a kitchen's text and whatever it uses, each once."""

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache

from attrs import frozen

from casewright.compiler.words.schema import SCHEMA
from casewright.compiler.world import Outside, Reader, Unreadable, World, inside
from casewright.lang.findings import Finding, error
from casewright.lang.measure import System
from casewright.lang.parser import parse
from casewright.lang.reading import read_source
from casewright.lang.shape import Statement, bare_word, shape, span_of, suggestion
from casewright.lang.source import Source, Span
from casewright.lang.tree import Line

_WORDS = re.compile(r"[a-z][a-z0-9_]*")

ENTRY, PROJECT, STANDARD = 0, 1, 2
"""How near a text is to the person: the entry file, the project's other texts, the library."""

LONGEST_CHAIN = 64
"""Texts that may use one another in a chain."""

EDITIONS = ("1",)
"""Editions of the standard library that this compiler brings."""


@frozen
class Text:
    """One text, shaped. `level` says how near it is; `system` what its bare numbers are. `spoilt`
    are the words of the lines that can't be read: what they declare is not missing."""

    source: Source
    level: int
    system: System
    statements: tuple[Statement, ...]
    spoilt: frozenset[str]


@frozen
class Texts:
    """All texts of a build; the entry first. `broken` is set when one could not be read at all.
    `edition` is the library's that they use, empty where they use none."""

    texts: tuple[Text, ...]
    broken: bool
    edition: str


def load(world: World, entry: str) -> tuple[Texts, tuple[Finding, ...]]:
    """Reads `entry` and everything it uses.

    Raises Unreadable when the entry itself can't be had.
    """
    loader = _Loader(world)
    loader.read(world, entry, entry, ENTRY, None, ())
    texts = tuple(sorted(loader.texts.values(), key=lambda text: text.level))
    return Texts(texts, loader.broken, loader.edition), tuple(loader.findings)


def _spoilt(lines: Iterable[Line]) -> Iterator[str]:
    """The words of the lines that can't be read, and of their blocks."""
    for line in lines:
        if line.broken and isinstance(line.origin, Span):
            yield from _WORDS.findall(line.origin.text)
        else:
            yield from _spoilt(line.block)


@frozen(eq=False)
class _Shaped:
    """What comes of one text by itself; `source` is None where it could not be read at all."""

    source: Source | None
    statements: tuple[Statement, ...]
    spoilt: frozenset[str]
    findings: tuple[Finding, ...]


def _shaped(label: str, data: bytes) -> _Shaped:
    source, reading = read_source(label, data)
    if source is None:
        return _Shaped(None, (), frozenset(), tuple(reading))
    tree, parsing = parse(source, SCHEMA.raw_heads, SCHEMA.verbatim_heads)
    statements, shaping = shape(tree, SCHEMA)
    return _Shaped(
        source,
        statements,
        frozenset(_spoilt(tree.lines)),
        (*reading, *parsing, *shaping),
    )


_shaped_once = lru_cache(maxsize=64)(_shaped)


class _Loader:
    def __init__(self, world: World) -> None:
        self.world = world
        self.texts: dict[str, Text] = {}
        self.findings: list[Finding] = []
        self.broken = False
        self.edition = ""

    def read(
        self,
        reader: Reader,
        path: str,
        label: str,
        level: int,
        span: Span | None,
        chain: tuple[str, ...],
    ) -> None:
        """Reads one text, then those it uses. `span` is the line that asks for it."""
        if label in chain:
            loop = " uses ".join((*chain[chain.index(label) :], label))
            self.findings.append(error("uses-itself", f"{loop}: a circle", span))
            return
        if label in self.texts:
            return
        if len(chain) >= LONGEST_CHAIN:
            self.findings.append(
                error("too-many-uses", f"more than {LONGEST_CHAIN} texts in a chain", span)
            )
            return
        try:
            data = reader.read(path)
        except Unreadable as why:
            if span is None:
                raise
            self.findings.append(
                error("use-not-found", f"{why.path} can't be used: {why.reason}", span)
            )
            return
        # The library's texts are the same for every build of a process; a project's may be large.
        shaped = (_shaped_once if level == STANDARD else _shaped)(label, data)
        self.findings.extend(shaped.findings)
        if shaped.source is None:
            self.broken = self.broken or level == ENTRY
            return
        statements = shaped.statements
        self.texts[label] = Text(
            shaped.source, level, self.system(statements), statements, shaped.spoilt
        )
        for statement in statements:
            if statement.rule == "use":
                self.use(statement, level, (*chain, label))

    def system(self, statements: tuple[Statement, ...]) -> System:
        """What the head of a text says of its bare numbers; inches where it says nothing."""
        for statement in statements:
            if statement.rule == "measure":
                clause = statement.clause("in")
                word = bare_word(clause.values[0]) if clause and clause.values else ""
                if word == "mm":
                    return System.MILLIMETRES
                if word and word != "inches":
                    self.findings.append(
                        error(
                            "unknown-measure",
                            f"bare numbers are inches or mm, not {word}",
                            span_of(statement.origin),
                        )
                    )
        return System.INCHES

    def use(self, statement: Statement, level: int, chain: tuple[str, ...]) -> None:
        span = span_of(statement.raw.origin if statement.raw else statement.head.origin)
        words = statement.raw.text.split() if statement.raw else []
        if not words:
            self.findings.append(
                error("value-missing", "use wants std edition 1, shop, or a path", span)
            )
        elif words[0] == "std":
            self.use_library(words, span, chain)
        elif len(words) > 1:
            self.findings.append(
                error("unknown-use", f"use takes one path, not {statement.raw.text}", span)  # type: ignore[union-attr]
            )
        else:
            self.use_path(words[0], level, span, chain)

    def use_library(self, words: list[str], span: Span | None, chain: tuple[str, ...]) -> None:
        edition = words[2] if len(words) == 3 and words[1] == "edition" else ""
        if edition not in EDITIONS:
            known = ", ".join(EDITIONS)
            asked = " ".join(words[1:]) or "none"
            self.findings.append(
                error(
                    "unknown-edition",
                    f"the library has edition {known}; this asks for {asked}",
                    span,
                    help=f"write use std edition {EDITIONS[-1]}",
                )
            )
            return
        self.edition = edition
        for path in self.world.std.texts():
            name = path.removesuffix(".case")
            self.read(self.world.std, path, f"std {name}", STANDARD, span, ())

    def _refused(self, path: str) -> str:
        """Why a path that is no text of the project isn't one, where a link of it leads out."""
        try:
            self.world.read(path)
        except Outside as refused:
            return f"a link in it {refused.reason}"
        except Unreadable:
            pass
        return ""

    def use_path(self, word: str, level: int, span: Span | None, chain: tuple[str, ...]) -> None:
        path = word if word.endswith(".case") else f"{word}.case"
        try:
            path = inside(path)
        except Unreadable as why:
            self.findings.append(
                error("use-not-found", f"{word} can't be used: it {why.reason}", span)
            )
            return
        if level != STANDARD and self.world.exists(path):
            self.read(self.world, path, path, PROJECT, span, chain)
            return
        refusal = self._refused(path) if level != STANDARD else ""
        if refusal:
            self.findings.append(error("use-not-found", f"{path} can't be used: {refusal}", span))
            return
        known = [text.removesuffix(".case") for text in self.world.std.texts()]
        self.findings.append(
            error(
                "use-not-found",
                f"there is no {path} in this project",
                span,
                help=suggestion(word, known) or "paths start at the project's root",
            )
        )
