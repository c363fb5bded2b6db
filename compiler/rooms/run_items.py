"""What stands in a run, as its lines say: units, fillers, appliances and empty spaces."""

from collections.abc import Callable
from itertools import pairwise
from typing import Literal

from attrs import define, evolve

from casewright.compiler.rooms.kitchen import Head, Reader
from casewright.compiler.text.resolve import Declaration, Program, makes_parts
from casewright.lang.cells import Quantity, divide, literal
from casewright.lang.findings import Figure
from casewright.lang.measure import Dimension
from casewright.lang.shape import Clause, Statement, bare_word, clause_span, span_of, suggestion
from casewright.lang.source import Span
from casewright.lang.tree import Word

Kind = Literal["unit", "filler", "appliance", "space"]


@define(eq=False)
class Item:
    """A thing of a run being sized.

    `fixed` is a width that is said; without one the item takes `shares` of what is left, between
    `least` and `most`. One that is said and has these gives or takes within them when the sum
    doesn't close. `pin` says how it is pinned to a place along the wall, `pinned_on` to what: a
    feature's name or a tag, empty for the middle of the wall. `centre` and `left` are the place.
    `dead` names the run around the corner that this item leaves closed. `width` is what it comes
    to, `at` its left end along the run.
    """

    kind: Kind
    tag: str
    address: str
    statement: Statement
    declaration: Declaration | None
    construction: Declaration | None
    fixed: Quantity | None = None
    shares: int = 0
    least: Quantity | None = None
    most: Quantity | None = None
    pin: Literal["", "centred", "over"] = ""
    pinned_on: str = ""
    centre: Quantity | None = None
    left: Quantity | None = None
    dead: str = ""
    width: Quantity | None = None
    at: Quantity | None = None

    @property
    def name(self) -> str:
        """What a sum calls it."""
        return self.tag or self.statement.rule.replace("_", " ")

    @property
    def pin_span(self) -> Span | None:
        """The word that pins it."""
        centred, over = self.statement.clause("centred"), self.statement.clause("over")
        on = centred.clause("on") if centred is not None else None
        clause = over if self.pin == "over" else on or centred
        if clause is None:
            return self.line
        return span_of(clause.values[0].origin if clause.values else clause.origin)

    @property
    def line(self) -> Span | None:
        return span_of(self.statement.origin)

    def says(self, word: str) -> Clause | None:
        """What its own line says, else its declaration."""
        usual = self.declaration.statement.clause(word) if self.declaration is not None else None
        return self.statement.clause(word) or usual


class ItemReader:
    """Reads the lines of runs. A tag is an address: it may stand in one run only."""

    def __init__(self, program: Program, head: Head, reader: Reader) -> None:
        self.program = program
        self.head = head
        self.reader = reader
        self.tags: dict[str, Span | None] = {}

    def complain_once(self, slug: str, headline: str, span: Span | None, help: str = "") -> None:
        """A complaint that every unit would repeat is made at the first."""
        if all(each.headline != headline for each in self.reader.findings):
            self.reader.complain(slug, headline, span, help)

    def items(self, run: Statement) -> list[Item]:
        items: list[Item] = []
        counts: dict[str, int] = {}

        def numbered(word: str) -> str:
            counts[word] = counts.get(word, 0) + 1
            return f"{run.name}.{word}_{counts[word]}"

        around = self._filler_of(run, "after"), self._filler_of(run, "before")
        lines = (around[0], *run.body, around[1])
        for line in (each for each in lines if each is not None):
            if line.rule == "placed":
                item = self._placed(line, run)
            elif line.rule in ("filler", "space"):
                kind: Kind = "filler" if line.rule == "filler" else "space"
                built = self._construction(line, run) if kind == "filler" else None
                item = Item(kind, "", numbered(line.rule), line, None, built)
            elif line.rule == "dead_corner":
                items.extend(self._dead_corner(line, run, items, numbered))
                continue
            else:
                continue
            if item is not None and self._width(item):
                items.append(item)
        return items

    def _filler_of(self, run: Statement, word: str) -> Statement | None:
        """The filler between a run and what it is after or before, as a line of the run."""
        clause = run.clause(word)
        filler = clause.clause("filler") if clause is not None else None
        return _as_filler(filler) if filler is not None else None

    def _dead_corner(
        self, line: Statement, run: Statement, before: list[Item], numbered: Callable[[str], str]
    ) -> list[Item]:
        """A dead corner as two things: what it leaves closed, and the filler on the run's side."""
        clause, filler = line.clause("with"), line.clause("filler")
        other = bare_word(clause.values[0]) if clause is not None and clause.values else ""
        if not other:
            self.reader.complain(
                "value-missing",
                "a dead corner says with which run",
                span_of(line.head.origin),
                "write dead_corner with, and the run around the corner",
            )
            return []
        found = [Item("space", "", numbered("dead_corner"), line, None, None, dead=other)]
        if filler is not None:
            strip = _as_filler(filler)
            built = self._construction(strip, run)
            item = Item("filler", "", numbered("filler"), strip, None, built)
            if self._width(item):
                found.append(item)
        return found if not before else found[::-1]

    def _placed(self, line: Statement, run: Statement) -> Item | None:
        tag = line.tag.text if line.tag is not None else ""
        span = span_of(line.tag.origin) if line.tag is not None else None
        if tag in self.tags:
            first = self.tags[tag]
            self.reader.complain(
                "tag-twice",
                f"{tag} is there already, on line {first.line if first else 0}",
                span,
                "a tag is an address: give this one the next free number",
            )
            return None
        self.tags[tag] = span
        word = line.head.text
        unit = self.program.find("unit", word)
        if unit is not None:
            construction = self._construction(line, run, unit)
            if construction is None:
                return None
            return Item("unit", tag, tag, line, unit, construction)
        appliance = self.program.find("appliance", word)
        if appliance is not None:
            return Item("appliance", tag, tag, line, appliance, None)
        known = (*self.program.names("unit"), *self.program.names("appliance"))
        self.reader.complain(
            "unknown-unit",
            f"no unit is called {word}",
            span_of(line.head.origin),
            suggestion(word, known)
            or "see casewright list units; what is bought is declared: "
            "appliance, its name, wide, high, depth",
        )
        return None

    def _construction(
        self, line: Statement, run: Statement, unit: Declaration | None = None
    ) -> Declaration | None:
        """How a unit is built: as it says itself, else its run, else the job (inner wins)."""
        word, span = self.head.built, self.head.built_span
        statements = (run, unit.statement if unit is not None else None, line)
        for statement in statements:
            clause = statement.clause("built") if statement is not None else None
            if clause is not None and clause.values:
                word = bare_word(clause.values[0])
                span = span_of(clause.values[0].origin)
        if not word:
            self.complain_once(
                "not-built",
                "nothing says how units are built",
                span_of(line.head.origin),
                "on a line of the job's block say: built, and a construction",
            )
            return None
        found = self.program.find("construction", word)
        if found is None:
            self.complain_once(
                "unknown-construction",
                f"no construction is called {word}",
                span,
                suggestion(word, self.program.names("construction")),
            )
        elif unit is not None and found.statement.options and not _made(found, unit):
            self.complain_once(
                "builds-nothing",
                f"{word} only chooses, and makes no part of a unit",
                span,
                f"name a construction that is from one that makes parts, with {word}",
            )
            return None
        return found

    def _width(self, item: Item) -> bool:
        """Reads how wide an item is to be; False where that can't be read (and is blamed)."""
        line = item.statement
        name = f"{item.address}.across"
        item.least = self.reader.measure(line.clause("min"), f"{item.address}.min")
        item.most = self.reader.measure(line.clause("max"), f"{item.address}.max")
        self._pin(item)
        share, shares = line.clause("share"), line.clause("shares")
        if share is not None or shares is not None:
            item.shares = 1
            if shares is not None:
                count = self.reader.measure(shares, name, Dimension.COUNT)
                if count is None:
                    return False
                item.shares = int(count.value)
            return self._within(item)
        if line.values:
            value = self.reader.value(line, 0, name)
            item.fixed = self.reader.positive(value, f"the width of {item.address}")
            return item.fixed is not None and self._within(item)
        if item.pin == "over":
            return True
        usual = item.declaration.statement.clause("wide") if item.declaration else None
        item.fixed = self.reader.measure(usual, name)
        # What is no width after all was said to be something else, and is blamed there.
        taken = line.value is not None or any(not option.values for option in line.options)
        if item.fixed is None and not taken:
            self.reader.complain(
                "width-missing",
                f"{item.tag or item.kind} doesn't say how wide it is",
                span_of(line.head.origin),
                "a width, or share",
            )
        return item.fixed is not None

    def _within(self, item: Item) -> bool:
        """Whether least, width and most are in their order."""
        sizes = [
            (word, each)
            for word, each in (("least", item.least), ("width", item.fixed), ("most", item.most))
            if each is not None
        ]
        for (low_word, low), (high_word, high) in pairwise(sizes):
            if low.value > high.value:
                self.reader.complain(
                    "limits-cross",
                    f"the {low_word} of {item.name} is more than its {high_word}",
                    item.line,
                    figures=(
                        Figure(low_word, low.measure, item.line),
                        Figure(high_word, high.measure, item.line),
                    ),
                )
                return False
        return True

    def _pin(self, item: Item) -> None:
        centred, over = item.statement.clause("centred"), item.statement.clause("over")
        clause = over
        if centred is not None:
            item.pin, clause = "centred", centred.clause("on")
        elif over is not None:
            item.pin = "over"
        if clause is not None and clause.values:
            item.pinned_on = getattr(clause.values[0], "text", "")


def own_text(statement: Statement) -> Statement:
    """What of a placed statement belongs to the unit itself: not its width, not its place."""
    kept = ("high", "depth", "return")
    body = tuple(line for line in statement.body if line.rule not in ("note", "accept"))
    return evolve(
        statement,
        tag=None,
        values=(),
        clauses=tuple(clause for clause in statement.clauses if clause.word in kept),
        body=body,
    )


def _as_filler(clause: Clause) -> Statement:
    """A clause `filler LENGTH` as the line of a run that it stands for."""
    head = Word("filler", clause.origin)
    whole = clause_span(clause) or clause.origin
    return Statement("filler", None, head, clause.values, (), (), None, None, (), whole)


def half(whole: Quantity) -> Quantity:
    return divide(whole, literal(2, Dimension.COUNT, None, "half"), Dimension.LENGTH)


def _made(construction: Declaration, unit: Declaration) -> bool:
    return makes_parts(construction.statement) or makes_parts(unit.statement)
