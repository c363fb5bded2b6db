"""Texts with every name in them put into other words, as a person might who translates the library.

Units, constructions, patterns, materials, hardware, fillings, parts, assemblies, options and lets
are renamed, with the words that mean them; `left_` and `right_` stay, for they are grammar. Words
of the language, roles, choices and quoted words stay as they are.
"""

import random
from collections.abc import Iterable, Iterator, Mapping
from string import ascii_lowercase

from casewright.compiler.construct.build import OUTSIDE
from casewright.compiler.model import AXES, EDGES
from casewright.compiler.text.resolve import DECLARED
from casewright.compiler.words.clauses import ROLES
from casewright.compiler.words.schema import SCHEMA
from casewright.lang.grammar import RESERVED
from casewright.lang.parser import parse
from casewright.lang.schema import ClauseRule
from casewright.lang.shape import Clause, Statement, bare_word, shape
from casewright.lang.source import Origin, Source, Span
from casewright.lang.tree import Binary, Conditional, Expression, Group, Name, Not, Text

NAMED = (*DECLARED, "part", "hardware", "assembly", "option", "let")
"""Heads whose first value is a name that is declared."""

SETS = frozenset(("opening", "level", "post", "member"))
PREFIXES = ("left_", "right_")


def shaped(label: str, text: str) -> tuple[Statement, ...]:
    tree, parsing = parse(Source(label, text), SCHEMA.raw_heads)
    statements, shaping = shape(tree, SCHEMA)
    assert (*parsing, *shaping) == (), label
    return statements


def within(statements: Iterable[Statement]) -> Iterator[Statement]:
    for statement in statements:
        yield statement
        yield from within(statement.body)


def _clause_words(rules: Iterable[ClauseRule]) -> Iterator[str]:
    for rule in rules:
        yield rule.word
        yield from rule.choices
        yield from _clause_words(rule.clauses)


def words_of_the_language() -> set[str]:
    words = {*RESERVED, *AXES, *EDGES, *ROLES, *SETS}
    for head in SCHEMA.heads.values():
        words |= {head.name, *_clause_words(head.clauses)}
    return words


class Renaming:
    """New words for every name that `texts` declare; the same ones for the same `seed`."""

    def __init__(self, texts: Mapping[str, str], seed: int) -> None:
        self.texts = texts
        self.statements = {label: shaped(label, text) for label, text in texts.items()}
        everything = [each for held in self.statements.values() for each in within(held)]
        options = [each for each in everything if each.rule == "option"]
        self.kinds: dict[str, set[str]] = {}
        self.choices: set[str] = set()
        for each in options:
            kind = bare_word(each.values[1])
            self.kinds.setdefault(each.name, set()).add(kind)
            if kind == "choice":
                self.choices |= {bare_word(value) for value in each.values[2:]}
        names = {each.name for each in everything if each.rule in NAMED} - {""}
        chance = random.Random(seed)
        taken = words_of_the_language() | names | self.choices
        self.words: dict[str, str] = {}
        for stem in sorted({_stem(name) for name in names}):
            word = ""
            while not word or word in taken:
                word = "".join(chance.choices(ascii_lowercase, k=chance.randint(5, 9)))
            taken.add(word)
            self.words[stem] = word
        # `room` may be a let, and the word for what is outside: no text tells them apart.
        self.names = names - {*OUTSIDE, ""}
        self.edits: list[tuple[Span, str]] = []

    def renamed(self) -> dict[str, str]:
        """The texts in their new words."""
        return {label: self._text(label, text) for label, text in self.texts.items()}

    def word(self, word: str) -> str:
        if word not in self.names:
            return word
        stem = _stem(word)
        return word.removesuffix(stem) + self.words[stem]

    def _text(self, label: str, text: str) -> str:
        self.edits = []
        for statement in self.statements[label]:
            self._statement(statement)
        for span, word in sorted(self.edits, key=lambda each: -each[0].start):
            text = text[: span.start] + word + text[span.end :]
        return text

    def _put(self, origin: Origin, old: str, new: str) -> None:
        assert isinstance(origin, Span)
        assert origin.text == old, (origin.text, old)
        if new != old:
            self.edits.append((origin, new))

    def _statement(self, statement: Statement) -> None:
        rule = SCHEMA.heads[statement.rule]
        if statement.rule in ("placed", "fill"):
            self._put(statement.head.origin, statement.head.text, self.word(statement.head.text))
        choosing = statement.rule == "option" and bare_word(statement.values[1]) == "choice"
        for index, value in enumerate(statement.values):
            # The second value of an option is its kind, and those after it are its choices.
            if statement.rule != "option" or index == 0:
                self._expression(value)
        if statement.value is not None:
            (self._chosen if choosing else self._expression)(statement.value)
        for clause in statement.clauses:
            self._clause(clause, {each.word: each for each in rule.clauses})
        for clause in statement.options:
            self._put(clause.origin, clause.word, self.word(clause.word))
            if "choice" not in self.kinds.get(clause.word, ()):
                self._clause(clause, {})
        for line in statement.body:
            self._statement(line)

    def _clause(self, clause: Clause, rules: Mapping[str, ClauseRule]) -> None:
        rule = rules.get(clause.word)
        inner = {each.word: each for each in rule.clauses} if rule is not None else {}
        fixed = rule is not None and bool(rule.choices)
        of_set = clause.word == "each" and bare_word(clause.values[0]) in SETS
        if not fixed and not of_set:
            for value in clause.values:
                self._expression(value)
        for each in clause.clauses:
            self._clause(each, inner)

    def _chosen(self, expression: Expression) -> None:
        """Of a choice only what it hangs on: its words are looked up nowhere."""
        match expression:
            case Group():
                self._chosen(expression.inner)
            case Conditional():
                self._chosen(expression.value)
                self._expression(expression.condition)
                self._chosen(expression.otherwise)

    def _expression(self, expression: Expression) -> None:
        match expression:
            case Name():
                words = [self.word(word) for word in expression.words]
                self._put(expression.origin, expression.text, ".".join(words))
            case Group() | Not():
                self._expression(expression.inner)
            case Binary(operator="is"):
                self._expression(expression.left)
                if bare_word(expression.right) not in self.choices:
                    self._expression(expression.right)
            case Binary():
                self._expression(expression.left)
                self._expression(expression.right)
            case Conditional():
                for each in (expression.value, expression.condition, expression.otherwise):
                    self._expression(each)
            case Text():
                for piece in expression.pieces:
                    if not isinstance(piece, str):
                        self._expression(piece)


def _stem(name: str) -> str:
    for prefix in PREFIXES:
        if name.startswith(prefix):
            return name.removeprefix(prefix)
    return name
