"""What lies on a wall or on a side of an island, as measured; and what is let into a wall."""

from collections.abc import Callable, Iterator, Mapping, Sequence

from attrs import evolve

from casewright.compiler.model import Feature
from casewright.compiler.rooms.kitchen import Reader
from casewright.compiler.words.kitchen import FEATURES
from casewright.lang.cells import Quantity, literal
from casewright.lang.findings import Figure, Label, error
from casewright.lang.measure import length
from casewright.lang.shape import Statement, bare_word, span_of
from casewright.lang.source import Span

BLOCKING = "blocking"
OPENINGS = ("window", "doorway")
"""What goes through a wall."""

KINDS = frozenset(rule.name for rule in FEATURES)


class FeatureReader:
    """Reads features; `height` makes of a measured height one above the finished floor."""

    def __init__(
        self, reader: Reader, height: Callable[[Quantity | None], Quantity | None]
    ) -> None:
        self.reader = reader
        self.height = height

    def of_wall(
        self, statement: Statement, long: Quantity, high: Quantity
    ) -> tuple[tuple[Feature, ...], tuple[Feature, ...]]:
        """The features of a wall so long and so high, and the blocking in it."""
        wall = statement.name
        features: list[Feature] = []
        blocking: list[Feature] = []
        for line in (each for each in statement.body if each.rule in KINDS):
            facing = line.clause("facing")
            if facing is not None:
                self.reader.complain(
                    "facing-a-wall",
                    f"{_name(line)} lies on a wall, which has one side",
                    span_of(facing.origin),
                    "leave facing out",
                )
            feature = self._feature(line, wall, wall, long)
            if line.rule != BLOCKING:
                features.append(feature)
            elif self._is_whole(line, feature):
                blocking.append(feature)
                self._under_top(feature, wall, high)
        for each in blocking:
            self._beside_openings(each, features)
        return tuple(features), tuple(blocking)

    def of_island(self, statement: Statement, sides: Mapping[str, Quantity]) -> tuple[Feature, ...]:
        """The features of an island or a peninsula, whose sides are so long."""
        return tuple(self._of_sides(statement, sides))

    def _of_sides(self, statement: Statement, sides: Mapping[str, Quantity]) -> Iterator[Feature]:
        for line in (each for each in statement.body if each.rule in KINDS):
            clause = line.clause("facing")
            facing = bare_word(clause.values[0]) if clause is not None and clause.values else ""
            if facing not in sides:
                self.reader.complain(
                    "island-side-missing",
                    f"{_name(line)} doesn't say which side of {statement.name} it is on"
                    if not facing
                    else f"{statement.rule} {statement.name} has no side {facing}",
                    span_of(line.head.origin),
                    f"add facing and one of: {', '.join(sides)}",
                )
                continue
            side = f"{statement.name} {facing}"
            feature = self._feature(line, statement.name, side, sides[facing])
            yield evolve(feature, facing=facing)

    def _feature(self, line: Statement, holder: str, where: str, long: Quantity) -> Feature:
        """A feature as its line says, by the name of its `holder`; `where` is so long."""
        name = _name(line)
        nothing = literal(0, label="unsaid")

        def measure(word: str) -> Quantity | None:
            return self.reader.measure(line.clause(word), f"{holder}.{name}.{word}")

        at, wide = measure("at"), measure("wide") or nothing
        if at is None and line.clause("at") is None:
            self.reader.complain(
                "value-missing",
                f"{name} doesn't say where along {where} it is",
                span_of(line.head.origin),
                "add at and a length",
            )
        at = at or nothing
        end = at.value + wide.value
        if end > long.value:
            over = length(end - long.value)
            self.reader.complain(
                "feature-off-wall",
                f"{name} reaches {self.reader.say(over)} past the right end of {where}",
                span_of(line.origin),
                figures=(
                    Figure(f"{name} ends at", length(end), span_of(line.origin)),
                    Figure(f"{where} is long", long.measure, _span(long)),
                    Figure("past it", over, ruled=True),
                ),
            )
        return Feature(
            line.rule,
            name,
            at,
            wide,
            self.height(measure("up")) or nothing,
            measure("high") or nothing,
            measure("casing") or nothing,
            span_of(line.origin),
            measure("out"),
        )

    # -- blocking --------------------------------------------------------------------------------

    def _is_whole(self, line: Statement, blocking: Feature) -> bool:
        """Whether blocking says how large it is and where; else it is blamed."""
        missing = [word for word in ("wide", "up", "high") if line.clause(word) is None]
        if missing:
            self.reader.complain(
                "value-missing",
                f"{blocking.name} doesn't say: {', '.join(missing)}",
                span_of(line.head.origin),
                "say all of: at, wide, up, high",
            )
        return not missing

    def _under_top(self, blocking: Feature, wall: str, high: Quantity) -> None:
        top = blocking.up.value + blocking.high.value
        if not high.value or top <= high.value:
            return
        over = length(top - high.value)
        self.reader.complain(
            "feature-off-wall",
            f"{blocking.name} reaches {self.reader.say(over)} past the top of {wall}",
            blocking.span,
            figures=(
                Figure(f"{blocking.name} ends at", length(top), blocking.span),
                Figure(f"{wall} is high", high.measure, _span(high)),
                Figure("past it", over, ruled=True),
            ),
        )

    def _beside_openings(self, blocking: Feature, features: Sequence[Feature]) -> None:
        for each in features:
            if each.kind in OPENINGS and _overlap(blocking, each):
                self.reader.findings.append(
                    error(
                        "blocking-in-opening",
                        f"{blocking.name} runs through {each.name}",
                        blocking.span,
                        labels=(Label(each.span, "here"),) if each.span is not None else (),
                        help=f"end it beside {each.name}, and begin another past it",
                    )
                )


def _overlap(one: Feature, other: Feature) -> bool:
    return (
        one.at.value < other.at.value + other.wide.value
        and other.at.value < one.at.value + one.wide.value
        and one.up.value < other.up.value + other.high.value
        and other.up.value < one.up.value + one.high.value
    )


def _name(line: Statement) -> str:
    return line.name or line.rule


def _span(quantity: Quantity) -> Span | None:
    return span_of(quantity.origin) if quantity.origin is not None else None
