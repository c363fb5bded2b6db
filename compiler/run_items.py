"""What stands in a run, as its lines say: units, fillers, appliances and empty spaces."""

from typing import Literal

from attrs import define

from casewright.compiler.kitchen import Head, Reader
from casewright.compiler.model import Feature, Wall
from casewright.compiler.resolve import Declaration, Program
from casewright.lang.cells import Quantity, add, divide, literal, subtract
from casewright.lang.findings import error
from casewright.lang.measure import Dimension
from casewright.lang.shape import Statement, bare_word, span_of, suggestion
from casewright.lang.source import Span

Kind = Literal["unit", "filler", "appliance", "space"]


@define(eq=False)
class Item:
    """A thing of a run being sized.

    `fixed` is a width that is said; without one the item takes `shares` of what is left, between
    `least` and `most`. `centre` and `left` pin it to a place along the wall. `width` is what it
    comes to.
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
    centre: Quantity | None = None
    left: Quantity | None = None
    width: Quantity | None = None

    @property
    def name(self) -> str:
        """What a sum calls it."""
        return self.tag or self.kind

    @property
    def line(self) -> Span | None:
        return span_of(self.statement.origin)


class ItemReader:
    """Reads the lines of runs. A tag is an address: it may stand in one run only."""

    def __init__(self, program: Program, head: Head, reader: Reader) -> None:
        self.program = program
        self.head = head
        self.reader = reader
        self.tags: dict[str, Span | None] = {}

    def complain(self, slug: str, headline: str, span: Span | None, help: str = "") -> None:
        self.reader.findings.append(error(slug, headline, span, help=help))

    def complain_once(self, slug: str, headline: str, span: Span | None, help: str = "") -> None:
        """A complaint that every unit would repeat is made at the first."""
        if all(each.headline != headline for each in self.reader.findings):
            self.complain(slug, headline, span, help)

    def items(self, statement: Statement, wall: Wall) -> list[Item]:
        items: list[Item] = []
        counts: dict[str, int] = {}
        for line in statement.body:
            if line.rule == "placed":
                item = self._placed(line, statement)
            elif line.rule in ("filler", "space"):
                counts[line.rule] = counts.get(line.rule, 0) + 1
                address = f"{statement.name}.{line.rule}_{counts[line.rule]}"
                kind: Kind = "filler" if line.rule == "filler" else "space"
                built = self._construction(line, statement) if kind == "filler" else None
                item = Item(kind, "", address, line, None, built)
            else:
                continue
            if item is not None and self._width(item, wall):
                items.append(item)
        return items

    def _placed(self, line: Statement, run: Statement) -> Item | None:
        tag = line.tag.text if line.tag is not None else ""
        span = span_of(line.tag.origin) if line.tag is not None else None
        if tag in self.tags:
            first = self.tags[tag]
            self.complain(
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
        self.complain(
            "unknown-unit",
            f"no unit is called {word}",
            span_of(line.head.origin),
            suggestion(word, known) or "see casewright list units",
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
        return found

    def _width(self, item: Item, wall: Wall) -> bool:
        """Reads how wide an item is to be; False where that can't be read (and is blamed)."""
        line = item.statement
        name = f"{item.address}.across"
        item.least = self.reader.measure(line.clause("min"), f"{item.address}.min")
        item.most = self.reader.measure(line.clause("max"), f"{item.address}.max")
        if not self._pin(item, wall):
            return False
        share, shares = line.clause("share"), line.clause("shares")
        if share is not None or shares is not None:
            item.shares = 1
            if shares is not None:
                count = self.reader.measure(shares, name, Dimension.COUNT)
                if count is None:
                    return False
                item.shares = int(count.value)
            return True
        if item.fixed is not None:
            return True
        if line.values:
            value = self.reader.value(line, 0, name)
            item.fixed = self.reader.positive(value, f"the width of {item.address}")
            return item.fixed is not None
        usual = item.declaration.statement.clause("wide") if item.declaration else None
        item.fixed = self.reader.measure(usual, name)
        # What is no width after all was said to be something else, and is blamed there.
        taken = line.value is not None or any(not option.values for option in line.options)
        if item.fixed is None and not taken:
            self.complain(
                "width-missing",
                f"{item.tag or item.kind} doesn't say how wide it is",
                span_of(line.head.origin),
                "a width, or share",
            )
        return item.fixed is not None

    def _pin(self, item: Item, wall: Wall) -> bool:
        line = item.statement
        centred = line.clause("centred")
        on = centred.clause("on") if centred is not None else None
        over = line.clause("over")
        if centred is not None and on is None:
            item.centre = half(wall.length)
            return True
        for clause in (on, over):
            if clause is None or not clause.values:
                continue
            word = getattr(clause.values[0], "text", "")
            feature = self._feature(word, wall)
            if feature is None:
                self.complain(
                    "unknown-feature",
                    f"wall {wall.name} has no {word}",
                    span_of(clause.values[0].origin),
                    suggestion(word, {each.name for each in wall.features}),
                )
                return False
            if clause is on:
                item.centre = add(feature.at, half(feature.wide))
            else:
                item.left = subtract(feature.at, feature.casing)
                item.fixed = add(feature.wide, add(feature.casing, feature.casing))
        return True

    def _feature(self, word: str, wall: Wall) -> Feature | None:
        return next((each for each in wall.features if each.name == word), None)


def half(whole: Quantity) -> Quantity:
    return divide(whole, literal(2, Dimension.COUNT, None, "half"), Dimension.LENGTH)
