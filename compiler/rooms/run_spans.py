"""What of its wall each run has, and the places along it that its things are pinned to."""

from casewright.compiler.rooms.bases import End
from casewright.compiler.rooms.layouts import OTHER, Layout, Layouts
from casewright.compiler.rooms.run_ends import Ends
from casewright.compiler.rooms.run_items import Item, half
from casewright.lang.cells import Quantity, add, named, subtract
from casewright.lang.findings import Figure
from casewright.lang.measure import Measure, length
from casewright.lang.shape import Clause, bare_word, span_of, suggestion
from casewright.lang.source import Span

FEW = 12
"""Names that are all told where one isn't there."""


class Spanner:
    """Works out the start and space of runs, and pins their things; what is wrong is blamed."""

    def __init__(self, layouts: Layouts, step: Quantity) -> None:
        self.layouts = layouts
        self.reader = layouts.reader
        self.ends = Ends(layouts, step)

    # -- which runs must be placed first ---------------------------------------------------------

    def needs(self, layout: Layout) -> list[tuple[Layout, Span | None]]:
        """The runs that one is measured from, with the words that say so."""
        found: list[tuple[Layout, Span | None]] = []
        ends: tuple[End, End] = ("left", "right")
        for end in ends:
            clause = layout.clause(end)
            other = self.ends.other(clause)
            if clause is None or other is None or other.layout in (None, layout):
                continue
            same = other.layout.base.name == layout.base.name
            if same or self._says_so_too(other.layout, OTHER[end], layout):
                found.append((other.layout, span_of(clause.origin)))
        for item in layout.items:
            pinned = self.layouts.by_tag.get(item.pinned_on)
            if pinned is not None and pinned[0] is not layout:
                found.append((pinned[0], item.pin_span))
        return found

    def named_by(self, layout: Layout) -> frozenset[str]:
        """The runs that one names: those beside it, and those to which its things are pinned."""
        ends: tuple[End, End] = ("left", "right")
        found = [self.ends.other(layout.clause(end)) for end in ends]
        names = {each.layout.name for each in found if each is not None and each.layout is not None}
        for item in layout.items:
            if item.dead:
                names.add(item.dead)
            if item.pinned_on in self.layouts.by_tag:
                names.add(self.layouts.by_tag[item.pinned_on][0].name)
        return frozenset(names)

    def _says_so_too(self, other: Layout, end: End, layout: Layout) -> bool:
        """Whether a run around a corner is measured from this one at that same corner."""
        found = self.ends.other(other.clause(end))
        return found is not None and found.layout is layout

    # -- one run -------------------------------------------------------------------------------

    def span(self, layout: Layout) -> bool:
        """Sets the start and space of a run; False where they can't be said (and it is blamed)."""
        run, name = layout.statement, layout.name
        at = self.reader.measure(run.clause("at"), f"{name}.at")
        long = self.reader.positive_measure(
            run.clause("length"), f"{name}.space", f"the length of {name}"
        )
        if self._failed(run.clause("at"), at) or self._failed(run.clause("length"), long):
            return False
        left, right = self.ends.edge(layout, "left"), self.ends.edge(layout, "right")
        if left is None or right is None:
            return False
        begin, end = left[0], right[0]
        layout.ends = {"left": left[1], "right": right[1]}
        clause = run.clause("from")
        from_right = (
            clause is not None and bool(clause.values) and (bare_word(clause.values[0]) == "right")
        )
        if clause is None and layout.clause("right") and not layout.clause("left"):
            from_right = True
        if at is not None:
            layout.opens("right" if from_right else "left")
            begin, end = (begin, at) if from_right else (at, end)
        if long is not None:
            layout.opens("left" if from_right else "right")
            begin, end = (subtract(end, long), end) if from_right else (begin, add(begin, long))
        if not self._on_base(layout, begin, end, left[0], right[0]):
            return False
        whole = begin.value == 0 and not begin.inputs
        space = long or (end if whole else subtract(end, begin))
        layout.start = named(begin, f"{name}.start")
        layout.space = named(space, f"{name}.space", space.origin)
        return True

    def _failed(self, clause: Clause | None, measure: Quantity | None) -> bool:
        return clause is not None and measure is None

    def _on_base(
        self, layout: Layout, begin: Quantity, end: Quantity, first: Quantity, last: Quantity
    ) -> bool:
        """Whether a run lies on what it stands on, between its corners or what is beside it."""
        name, base = layout.name, layout.base.name
        span = span_of(layout.statement.head.origin)
        if end.value <= begin.value:
            self.reader.complain(
                "run-without-room",
                f"nothing is left of {base} for run {name}",
                span,
                "begin it nearer to its end, or on another wall",
                (
                    Figure("it would begin at", begin.measure, _span(begin)),
                    Figure("and end at", end.measure, _span(end)),
                    Figure("less than nothing by", length(begin.value - end.value), ruled=True),
                ),
            )
            return False
        for off, word, at, edge in (
            (first.value - begin.value, "left", begin, first),
            (end.value - last.value, "right", end, last),
        ):
            if off > 0:
                self.reader.complain(
                    "run-off-wall",
                    f"run {name} reaches {self.reader.say(length(off))} past the {word} end of "
                    f"{base}",
                    span,
                    "give it another place, or less length",
                    (
                        Figure(f"its {word} end is at", Measure(at.value, at.dimension), span),
                        Figure(f"{base} ends at", edge.measure, _span(edge)),
                        Figure("past it", length(off), ruled=True),
                    ),
                )
                return False
        return True

    # -- what is pinned --------------------------------------------------------------------------

    def pin(self, layout: Layout) -> bool:
        """Finds the places that things are pinned to; False where one isn't there."""
        found = [self._pin(layout, item) for item in layout.items if item.pin]
        return all(found)

    def _pin(self, layout: Layout, item: Item) -> bool:
        word = item.pinned_on
        if not word:
            item.centre = half(layout.base.length)
            return True
        feature = next((each for each in layout.base.features if each.name == word), None)
        if feature is not None:
            if item.pin == "centred":
                item.centre = add(feature.at, half(feature.wide))
                return True
            wide = add(feature.wide, add(feature.casing, feature.casing))
            return self._over(item, subtract(feature.at, feature.casing), wide)
        if word in self.layouts.lost:
            return False
        if word not in self.layouts.by_tag:
            base = layout.base
            names = (*(each.name for each in base.features), *self.layouts.by_tag)
            self.reader.complain(
                "unknown-feature",
                f"{'wall ' if base.wall is not None else ''}{base.name} has no {word}",
                item.pin_span,
                suggestion(word, names)
                or (f"what may be named: {', '.join(names)}" if len(names) <= FEW else ""),
            )
            return False
        other, below = self.layouts.by_tag[word]
        if other is layout or other.base.name != layout.base.name:
            self.reader.complain(
                "pinned-elsewhere",
                f"{item.name} can't be pinned to {word}, which is "
                + ("in its own run" if other is layout else f"on {other.base.name}"),
                item.pin_span,
                "pin it to a unit of another run on the same wall",
            )
            return False
        left = other.place_of(below, "left")
        if left is None or below.width is None:
            return False
        if item.pin == "over":
            return self._over(item, left, below.width)
        item.centre = add(left, half(below.width))
        return True

    def _over(self, item: Item, left: Quantity, wide: Quantity) -> bool:
        item.left, item.shares = left, 0
        item.fixed = item.fixed or wide
        return True


def _span(quantity: Quantity) -> Span | None:
    return span_of(quantity.origin) if quantity.origin is not None else None
