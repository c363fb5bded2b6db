"""Why a line can't be read, in the words of whoever wrote it."""

import re

from lark import UnexpectedCharacters, UnexpectedInput, UnexpectedToken

from casewright.lang.building import sign_finding
from casewright.lang.faults import quoted
from casewright.lang.findings import Edit, Finding, error
from casewright.lang.source import Source, Span
from casewright.lang.trivia import INCHES, TEXT, Heads

MERGE_MARKERS = ("<<<<<<<", "|||||||", "=======", ">>>>>>>")

_TYPED = {
    "−": "-", "–": "-", "—": "-", "‐": "-", "‑": "-", "×": "*", "÷": "/", "⁄": "/",
    "≤": "<=", "≥": ">=", "…": "..", "“": '"', "”": '"', "„": '"', "″": '"', "：": ":",
    "\u00a0": " ", "\u2009": " ", "\u202f": " ", "\u3000": " ",
}  # fmt: skip
"""Characters that typesetters and word processors put in place of plain ones."""

_CLUMSY = {
    "!=": "`not` before the whole comparison", "&&": "`and`", "||": "`or`",
    "&": "`and`", "|": "`or`", "!": "`not`", "[": "( )", "]": "( )",
    ";": "a line of its own for each statement",
}  # fmt: skip

_LOOSE_TAG = re.compile(r"(?P<tag>[A-Za-z]{1,20}[ \t]?[0-9]{0,9}[A-Za-z]{0,9})[ \t]?:")
_WORD = re.compile(r"[A-Za-z_][A-Za-z0-9_]*")
_LEXEME = re.compile(r"[A-Za-z0-9_.]+|[^A-Za-z0-9_ \t]")
_LONGEST_WORD = 40
_A_TAG = re.compile(r"[A-Z][0-9]+[a-z]?")
_PLAIN_WORD = re.compile(r"[a-z][a-z0-9_]*")
_CONDITIONS = re.compile(r"(?<![.\w])(?:or[ \t]+else|if|else)\b")
_GOING_ON = re.compile(r"\.\.|<=|>=|[-+*/<>=)]|(?:or|and|if|else|is|within)(?![a-z0-9_.])")
_QUOTES = re.compile(rf'{INCHES}|{TEXT}|(?P<open>")')


def why_unreadable(
    source: Source, start: int, text: str, fault: UnexpectedInput, heads: Heads
) -> Finding:
    """The finding for the line `text`, which begins at `start` and which Lark refused."""
    ended = isinstance(fault, UnexpectedToken) and fault.token.type == "$END"
    at = len(text) if ended else fault.pos_in_stream or 0
    expected: set[str] = set()
    if isinstance(fault, UnexpectedToken):
        expected = set(fault.expected)
    elif isinstance(fault, UnexpectedCharacters):
        expected = set(fault.allowed)
    return _Line(source, start, text, at, expected, heads).finding()


class _Line:
    """A line, and the offset `at` in it where it stops making sense."""

    def __init__(
        self, source: Source, start: int, text: str, at: int, expected: set[str], heads: Heads
    ) -> None:
        self.source = source
        self.start = start
        self.text = text
        self.at = at
        self.expected = expected
        self.heads = heads
        self.rest = text[at:]
        self.before = text[:at].rstrip()

    def span(self, start: int, end: int) -> Span:
        return Span(self.source, self.start + start, self.start + end)

    def finding(self) -> Finding:
        return (
            self._marker()
            or self._quote()
            or self._character()
            or (self._early_end() if not self.rest else None)
            or self._beginning()
            or self._word()
            or self._anything()
        )

    def _marker(self) -> Finding | None:
        if not self.text.startswith(MERGE_MARKERS):
            return None
        return error(
            "merge-marker-left",
            "this line is left over from a merge",
            self.span(0, len(self.text)),
            help="keep one of the two versions and take the markers out",
        )

    def _quote(self) -> Finding | None:
        if "TEXT_PART" in self.expected and self.rest.startswith("}"):
            return error(
                "text-holds-brace",
                "a } in a text closes nothing",
                self.span(self.at, self.at + 1),
                help="in a text, braces stand around a value only",
            )
        opened = next((m.start() for m in _QUOTES.finditer(self.text) if m["open"]), len(self.text))
        if opened >= self.at:
            return None
        mark = re.search(r"[0-9][ \t]+$", self.text[:opened])
        return error(
            "quote-left-open",
            "the quote that opens here isn't closed on its line",
            self.span(opened, opened + 1),
            help="an inch mark stands right after its figure" if mark else 'close it with "',
        )

    def _character(self) -> Finding | None:
        character = self.rest[:1]
        if plain := _TYPED.get(character):
            span = self.span(self.at, self.at + 1)
            shown = "a plain blank" if plain == " " else plain
            return error(
                "character-misplaced",
                f"{_name(character)} is no part of the language",
                span,
                help=f"write {shown}",
                edits=(Edit(span, plain),),
            )
        if character == ",":
            span = self.span(self.at, self.at + 1)
            return error(
                "character-misplaced",
                "values stand apart by blanks, without commas",
                span,
                help="leave the comma out",
                edits=(Edit(span, " "),),
            )
        for clumsy, better in _CLUMSY.items():
            if self.rest.startswith(clumsy):
                return error(
                    "character-misplaced",
                    f"{clumsy} is no part of the language",
                    self.span(self.at, self.at + len(clumsy)),
                    help=f"use {better}",
                )
        if character and not (character.isascii() and character.isprintable()):
            return error(
                "character-misplaced",
                f"{_name(character)} can't stand here",
                self.span(self.at, self.at + 1),
                help="names are small letters a to z, figures and _",
            )
        return None

    def _early_end(self) -> Finding | None:
        opened = self.text.count("(") - self.text.count(")")
        if "RPAR" in self.expected and opened > 0:
            at = self.text.rfind("(")
            return error(
                "parenthesis-left-open",
                "a ) is missing for this (",
                self.span(at, at + 1),
                help="a line goes on to the next only between ( and )",
            )
        if otherwise := self._if_without_else():
            return otherwise
        last = _last_word(self.before)
        return error(
            "line-ends-early",
            f"something is missing after `{last}`",
            self.span(len(self.before) - len(last), len(self.before)),
        )

    def _if_without_else(self) -> Finding | None:
        if "_ELSE" not in self.expected:
            return None
        waiting: list[int] = []
        for word in _CONDITIONS.finditer(self.before):
            if word[0] == "if":
                waiting.append(word.start())
            elif word[0] == "else" and waiting:
                waiting.pop()
        if not waiting:
            return None
        at = waiting[-1]
        return error(
            "if-without-else",
            "this `if` has no `else`",
            self.span(at, at + 2),
            help="a value with an `if` says what it is otherwise: a if b else c",
        )

    def _beginning(self) -> Finding | None:
        """Faults in the tag and the head."""
        tag = _LOOSE_TAG.match(self.text)
        if tag and self.at <= tag.end() and not re.match(r"[A-Z][0-9]+[a-z]?[ \t]*:", self.text):
            return error(
                "tag-misspelt",
                f"{tag['tag'].strip()} is no tag",
                self.span(0, len(tag["tag"].rstrip())),
                help="a tag is one capital letter and a number: S1, or S1a for one put in later",
            )
        if self.before and not self.before.endswith(":"):
            return None
        if going_on := _GOING_ON.match(self.rest):
            return error(
                "line-without-word",
                f"a line can't begin with `{going_on[0]}`",
                self.span(self.at, self.at + len(going_on[0])),
                help="a line goes on to the next only between ( and )",
            )
        word = _WORD.match(self.rest)
        if word is None:
            return error(
                "line-without-word",
                f"a line begins with a word, not with {quoted(_first_word(self.rest))}",
                self.span(self.at, self.at + len(_first_word(self.rest))),
            )
        if word[0] in self.heads.all:
            return error(
                "tag-misplaced",
                f"a tag can't stand before `{word[0]}`",
                self.span(0, len(self.before)),
                help="tags are for what stands in a run",
            )
        return self._capital(word[0])

    def _word(self) -> Finding | None:
        if self.rest[0] == "=" and self.text[self.at - 1] == "=":
            return error(
                "character-misplaced",
                "== is no part of the language",
                self.span(self.at - 1, self.at + 1),
                help="use `is`",
            )
        if self.rest[0] in "+-" and re.match(r"[+-][^ \t]", self.rest):
            return sign_finding(self.span(self.at, self.at + 1))
        if re.match(r"not\b", self.rest) and re.search(r"\bis$", self.before):
            return error(
                "line-unreadable",
                "`is not` isn't a comparison",
                self.span(len(self.before) - 2, self.at + 3),
                help="say `not` before the whole comparison: not a is b",
            )
        if otherwise := self._if_without_else():
            return otherwise
        if self.rest[0] == ")":
            return error(
                "parenthesis-closes-nothing",
                "this ) closes nothing",
                self.span(self.at, self.at + 1),
            )
        word = _WORD.match(self.rest)
        if word and (capital := self._capital(word[0])):
            return capital
        value = re.search(r"(?<![=<>])=(?!=)", self.before)
        if value is not None and self.rest[0] != "=" and "$END" in self.expected:
            return error(
                "more-than-one-value",
                "after = stands one value and nothing more",
                self.span(self.at, self.at + len(_first_word(self.rest))),
                help="clauses stand in the block, or before the =",
            )
        return None

    def _capital(self, word: str) -> Finding | None:
        small = word.lower()
        if not self.before and _A_TAG.fullmatch(word):
            end = self.at + len(word)
            return error(
                "colon-missing",
                f"a colon is missing after {quoted(word)}",
                self.span(self.at, end),
                help=f"write {word}: and then what stands there",
                edits=(Edit(self.span(end, end), ":"),),
            )
        if small == word or not _PLAIN_WORD.fullmatch(small):
            return None
        span = self.span(self.at, self.at + len(word))
        return error(
            "name-misspelt",
            f"names are written small: {quoted(small)}, not {quoted(word)}",
            span,
            help=f"write {quoted(small)}",
            edits=(Edit(span, small),),
        )

    def _anything(self) -> Finding:
        word = _first_word(self.rest)
        span = self.span(self.at, self.at + len(word))
        if not self.before:
            return error("line-unreadable", f"no line begins with `{quoted(word)}`", span)
        last = _last_word(self.before)
        return error("line-unreadable", f"this line can't be read after `{last}`", span)


def _name(character: str) -> str:
    if character.isprintable() and not character.isspace():
        return character
    return f"the character U+{ord(character):04X}"


def _first_word(text: str) -> str:
    found = _LEXEME.match(text)
    return found[0] if found else text[:1]


def _last_word(text: str) -> str:
    """The last word of `text`, or its end, when that is a long one."""
    return [found[0] for found in _LEXEME.finditer(text[-_LONGEST_WORD:])][-1]
