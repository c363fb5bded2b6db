"""From lines to statements: the schema decides which items are values and which begin a clause."""

from collections.abc import Iterable, Sequence
from difflib import get_close_matches

from attrs import frozen

from casewright.lang.faults import MOST_FAULTS, too_many
from casewright.lang.findings import Finding, error
from casewright.lang.schema import ClauseRule, HeadRule, Schema, Takes
from casewright.lang.source import Origin, Span
from casewright.lang.tree import Binary, Expression, Line, Name, Tree, Word


@frozen
class Clause:
    """A clause of a statement, with the clauses that belong to it."""

    word: str
    values: tuple[Expression, ...]
    clauses: tuple["Clause", ...]
    origin: Origin

    def clause(self, word: str) -> "Clause | None":
        return next((each for each in self.clauses if each.word == word), None)


@frozen
class Statement:
    """A line the schema has understood. `options` are clauses no schema knows by name."""

    rule: str
    tag: Word | None
    head: Word
    values: tuple[Expression, ...]
    clauses: tuple[Clause, ...]
    options: tuple[Clause, ...]
    value: Expression | None
    raw: Word | None
    body: tuple["Statement", ...]
    origin: Origin

    def clause(self, word: str) -> Clause | None:
        for each in self.clauses:
            if each.word == word:
                return each
        return None

    def option(self, word: str) -> Clause | None:
        return next((each for each in self.options if each.word == word), None)

    @property
    def name(self) -> str:
        """The first value when it is a plain word, else empty."""
        return bare_word(self.values[0]) if self.values else ""


def bare_word(expression: Expression) -> str:
    """The word, when an expression is a single word; else empty."""
    if isinstance(expression, Name) and len(expression.words) == 1:
        return expression.words[0]
    return ""


def suggestion(word: str, known: Iterable[str]) -> str:
    """ "did you mean …?" for a misspelt word, or nothing."""
    close = nearest_word(word, known)
    return f"did you mean {close}?" if close else ""


def nearest_word(word: str, known: Iterable[str]) -> str | None:
    """The word that a misspelt one is most likely meant for; None where none is like it."""
    close = get_close_matches(word, sorted(set(known)), n=1, cutoff=0.6)
    return close[0] if close else None


def _is_signed(item: Expression) -> bool:
    """Whether a minus or plus was read as a sum where a sign is written: `price ply -40`. The tree
    has an error at the sign already, and that a value is missing would only repeat it."""
    if not isinstance(item, Binary) or item.operator not in ("+", "-"):
        return False
    span, right = span_of(item.origin), span_of(item.right.origin)
    if span is None or right is None:
        return False
    before = span.source.text[span.start : right.start]
    return before.endswith((f" {item.operator}", f"\t{item.operator}"))


def span_of(origin: Origin) -> Span | None:
    return origin if isinstance(origin, Span) else None


def clause_span(clause: Clause) -> Span | None:
    """A clause from its word to the end of its last value."""
    start = span_of(clause.origin)
    if start is None:
        return None
    ends = [start.end, *(span.end for each in clause.values if (span := span_of(each.origin)))]
    ends += [span.end for each in clause.clauses if (span := clause_span(each))]
    return Span(start.source, start.start, max(ends))


def shape(tree: Tree, schema: Schema) -> tuple[tuple[Statement, ...], tuple[Finding, ...]]:
    """The statements of a file, and what of it no rule takes."""
    shaper = _Shaper(schema)
    _, statements = shaper.block(tree.lines, schema.heads[schema.file], ())
    return statements, tuple(shaper.findings)


class _Shaper:
    def __init__(self, schema: Schema) -> None:
        self.schema = schema
        self.findings: list[Finding] = []
        self.full = False
        """Whether so much was found that the rest is left alone."""

    def blame(self, slug: str, headline: str, origin: Origin, *, help: str = "") -> None:
        """An error at `origin`; where there are too many of them, the last one says so."""
        if len(self.findings) < MOST_FAULTS:
            self.findings.append(error(slug, headline, span_of(origin), help=help))
        elif not self.full:
            self.full = True
            self.findings.append(too_many(span_of(origin)))

    def block(
        self, lines: Sequence[Line], rule: HeadRule, clause_rules: tuple[ClauseRule, ...]
    ) -> tuple[list["_Open"], tuple[Statement, ...]]:
        """Reads the lines of a block: further clauses of its owner, and statements."""
        clauses: list[_Open] = []
        statements: list[Statement] = []
        words = {each.word for each in clause_rules}
        for line in lines:
            if self.full:
                break
            if line.broken:
                continue
            head = line.head.text
            # A block behind a statement's word shows that a statement is meant, and no option.
            may_be_option = not (line.blocked and head in self.schema.heads)
            carries_on = head in words or (rule.options and not rule.unnamed and may_be_option)
            if line.tag is None and head not in rule.body and carries_on:
                clauses.extend(self.clause_line(line, rule, clause_rules))
                continue
            inner = self.rule_for(line, rule)
            if inner is None:
                self.unknown(line, rule)
            else:
                statements.append(self.statement(line, inner))
        return clauses, tuple(statements)

    def rule_for(self, line: Line, rule: HeadRule) -> HeadRule | None:
        if line.tag is not None:
            return self.schema.heads[rule.tagged] if rule.tagged else None
        if line.head.text in rule.body:
            return self.schema.heads[line.head.text]
        return self.schema.heads[rule.unnamed] if rule.unnamed else None

    def unknown(self, line: Line, rule: HeadRule) -> None:
        if line.tag is not None and not rule.tagged:
            self.blame(
                "tag-out-of-place",
                f"{line.tag.text} is tagged, but only what stands in a run has a tag",
                line.tag.origin,
            )
            return
        known = [*rule.body, *(each.word for each in rule.clauses)]
        elsewhere = line.head.text in self.schema.heads
        place = f"in {rule.name}" if rule.name != self.schema.file else "at the top of a file"
        headline = f"{line.head.text} doesn't belong {place}"
        if not elsewhere:
            headline = f"no statement is called {line.head.text} {place}"
        help = suggestion(line.head.text, known)
        if not help and known:
            help = "here may stand: " + ", ".join(sorted(set(known)))
            if rule.tagged and not elsewhere:
                help = f"what is placed here has a tag first, as S1: {line.head.text}; else {help}"
        self.blame("unknown-word", headline, line.head.origin, help=help)

    def clause_line(
        self, line: Line, rule: HeadRule, clause_rules: tuple[ClauseRule, ...]
    ) -> list["_Open"]:
        """A line of a block that carries on its owner's clauses."""
        head = Name((line.head.text,), line.head.origin)
        reader = _Reader(self, rule, clause_rules, 0)
        reader.read((head, *line.items))
        if line.value is not None:
            self.blame(
                "equals-out-of-place",
                f"{line.head.text} is set without =",
                line.origin,
                help=f"write {line.head.text}, a blank, and its value",
            )
            # The value is the word's all the same, so that one slip gives one report.
            waiting = reader.opened[-1] if reader.opened else None
            if waiting is not None and not waiting.full:
                waiting.values.append(line.value)
        if line.block:
            opened = reader.opened[-1] if reader.opened else None
            if opened is not None and opened.rule is not None and opened.rule.clauses:
                inner = HeadRule(opened.rule.word, opened.rule.doc, clauses=opened.rule.clauses)
                more, _ = self.block(line.block, inner, inner.clauses)
                opened.inner.extend(more)
            else:
                self.blame(
                    "block-out-of-place", f"{line.head.text} takes no block", line.head.origin
                )
        return reader.opened

    def statement(self, line: Line, rule: HeadRule) -> Statement:
        reader = _Reader(self, rule, rule.clauses, rule.most)
        reader.read(line.items)
        body: tuple[Statement, ...] = ()
        opened = reader.opened
        if line.blocked:
            if not rule.block:
                self.blame(
                    "block-out-of-place", f"{line.head.text} takes no block", line.head.origin
                )
            else:
                more, body = self.block(line.block, rule, rule.clauses)
                opened = [*opened, *more]
        if not rule.raw and len(reader.values) < rule.least:
            opened = self.without_values(line, rule, opened)
        if line.value is not None and not rule.assigns:
            self.blame(
                "equals-out-of-place",
                f"{line.head.text} takes no =",
                line.head.origin,
                help="a value follows its word after a blank",
            )
        clauses = self.once(opened, rule)
        return Statement(
            rule.name,
            line.tag,
            line.head,
            tuple(reader.values),
            tuple(each.close() for each in clauses if each.rule is not None),
            tuple(each.close() for each in clauses if each.rule is None),
            line.value,
            line.raw,
            body,
            line.origin,
        )

    def without_values(self, line: Line, rule: HeadRule, opened: list["_Open"]) -> list["_Open"]:
        """Blames a line for what it lacks; the clauses it has, less the one that was taken for
        its name."""
        if any(map(_is_signed, line.items)):
            return opened
        taken = opened[0] if opened and not opened[0].values and not opened[0].inner else None
        named = bare_word(line.items[0]) if line.items else ""
        help = ""
        if taken is not None and taken.word == named:
            opened = opened[1:]
            help = f"{named} is a clause of {line.head.text}, so it can't be a name here"
        self.blame(
            "value-missing", f"{line.head.text} wants {rule.values}", line.head.origin, help=help
        )
        return opened

    def once(self, opened: list["_Open"], rule: HeadRule) -> list["_Open"]:
        """Keeps the first of two equal clauses, and says so."""
        kept: dict[str, _Open] = {}
        result: list[_Open] = []
        for each in opened:
            repeats = each.rule is not None and each.rule.repeats
            if each.word in kept and not repeats:
                first = kept[each.word]
                self.blame(
                    "said-twice",
                    f"{each.word} is said twice",
                    each.origin,
                    help=f"keep one: the other stands on line {_line(first.origin)}",
                )
                continue
            kept[each.word] = each
            result.append(each)
        # An option without its value is kept, since it tells what a word was taken for.
        return [each for each in result if self.complete(each) or each.rule is None]

    def complete(self, each: "_Open") -> bool:
        """Whether a clause has the value it wants; one that hasn't is said and is left out."""
        each.inner = [inner for inner in each.inner if self.complete(inner)]
        takes = each.rule.takes if each.rule is not None else Takes.ONE
        kind = each.rule.kind if each.rule is not None else ""
        if takes in (Takes.ONE, Takes.MANY) and not each.values and not each.inner:
            # A word that no clause is called by is taken for an option.
            words = f"{each.word} wants {kind}" if each.rule else f"option {each.word} has no value"
            self.blame("value-missing", words, each.origin)
            return False
        if each.rule is not None and each.rule.choices and not each.rule.or_other:
            self.chosen(each, each.rule.choices)
        return True

    def chosen(self, each: "_Open", choices: tuple[str, ...]) -> None:
        """Blames what is none of the words that a clause may be. The clause is kept, so that
        nobody misses it; whoever reads it takes no other word for one of those."""
        for value in each.values:
            word = bare_word(value)
            if word not in choices:
                close = suggestion(word, choices)
                allowed = ", ".join(choices)
                self.blame(
                    "unknown-choice",
                    f"{each.word} is never {word}" if word else f"{each.word} takes a word",
                    value.origin,
                    help=f"{close} It may be: {allowed}" if close else f"say one of: {allowed}",
                )


def _line(origin: Origin) -> int:
    return origin.line if isinstance(origin, Span) else 0


class _Open:
    """A clause being read."""

    def __init__(self, word: str, rule: ClauseRule | None, origin: Origin) -> None:
        self.word = word
        self.rule = rule
        self.origin = origin
        self.values: list[Expression] = []
        self.inner: list[_Open] = []

    @property
    def full(self) -> bool:
        takes = self.rule.takes if self.rule is not None else Takes.ONE
        if takes is Takes.NOTHING:
            return True
        return takes in (Takes.ONE, Takes.MAYBE) and bool(self.values)

    def waits_for(self, word: str) -> bool:
        """Whether `word` is one of the choices it still wants."""
        return self.rule is not None and not self.full and word in self.rule.choices

    def close(self) -> Clause:
        inner = tuple(each.close() for each in self.inner)
        return Clause(self.word, tuple(self.values), inner, self.origin)


class _Reader:
    """Sorts the items of one line into values and clauses."""

    def __init__(
        self, shaper: _Shaper, rule: HeadRule, clauses: tuple[ClauseRule, ...], most: int
    ) -> None:
        self.shaper = shaper
        self.rule = rule
        self.clauses = {each.word: each for each in clauses}
        self.most = most
        self.values: list[Expression] = []
        self.opened: list[_Open] = []
        self.chain: list[_Open] = []
        self.lost = False
        """Whether a word was met that nothing takes: what follows it belongs to it."""

    def read(self, items: Sequence[Expression]) -> None:
        for item in items:
            word = bare_word(item)
            if word and self.begin(word, item.origin):
                self.lost = False
                continue
            target = next((each for each in reversed(self.chain) if not each.full), None)
            if target is not None:
                target.values.append(item)
                self.chain = self.chain[: self.chain.index(target) + 1]
            elif self.may_be_option(word):
                self.open(_Open(word, None, item.origin))
            elif not self.chain and len(self.values) < self.most:
                self.values.append(item)
            elif not self.lost:
                self.left_over(item, word)
                self.lost = bool(word)

    def may_be_option(self, word: str) -> bool:
        """A bare word is an option where the place allows one, once the needed values are there."""
        needed = not self.chain and len(self.values) < min(self.rule.least, self.most)
        return bool(word) and self.rule.options and not needed

    def begin(self, word: str, origin: Origin) -> bool:
        """Opens the clause `word` begins here, if it begins one. A clause that waits for one of
        its choices takes such a word as its value, whatever else the word may begin."""
        last = self.chain[-1] if self.chain else None
        if last is not None and last.waits_for(word):
            return False
        for depth in range(len(self.chain) - 1, -1, -1):
            rule = self.chain[depth].rule
            inner = {each.word: each for each in rule.clauses} if rule is not None else {}
            if word in inner:
                opened = _Open(word, inner[word], origin)
                self.chain[depth].inner.append(opened)
                self.chain = [*self.chain[: depth + 1], opened]
                return True
        waiting = self.chain[-1] if self.chain else None
        if waiting is not None and waiting.rule is None and not waiting.values:
            return False
        found = self.clauses.get(word)
        if found is None:
            return False
        opened = _Open(word, found, origin)
        if found.postfix and self.values:
            opened.values.append(self.values.pop())
        self.open(opened)
        return True

    def open(self, opened: _Open) -> None:
        self.opened.append(opened)
        self.chain = [opened]

    def left_over(self, item: Expression, word: str) -> None:
        if _is_signed(item):
            return
        known = list(self.clauses)
        for each in self.chain:
            if each.rule is not None:
                known.extend(inner.word for inner in each.rule.clauses)
        what = f"{word} says nothing here" if word else "this value belongs to nothing"
        help = suggestion(word, known) if word else ""
        if not help and known:
            help = f"after {self.rule.name} may follow: " + ", ".join(sorted(set(known)))
        self.shaper.blame("unknown-clause", what, item.origin, help=help)
