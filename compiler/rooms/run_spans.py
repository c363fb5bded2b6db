"""Where each run begins and ends along what it stands on, and what of it the corners take."""

from casewright.compiler.model import Island
from casewright.compiler.rooms.bases import End
from casewright.compiler.rooms.layouts import OTHER, Found, Layout, Layouts, Neighbour
from casewright.compiler.rooms.room import clear_length, taken_by_lean, taken_by_run, taken_by_wall
from casewright.compiler.rooms.run_items import Item, half
from casewright.lang.cells import Quantity, add, literal, named, subtract
from casewright.lang.findings import Figure, Label, error
from casewright.lang.measure import Measure, length
from casewright.lang.shape import Clause, bare_word, span_of, suggestion
from casewright.lang.source import Span

Edge = tuple[Quantity, Neighbour]
"""The place of an end of a run along its base, and what is beside it."""

WORDS = {"left": "after", "right": "before"}


class Spanner:
    """Works out the start and space of runs, and pins their things; what is wrong is blamed."""

    def __init__(self, layouts: Layouts, step: Quantity) -> None:
        self.layouts = layouts
        self.reader = layouts.reader
        self.step = step

    # -- which runs must be placed first ---------------------------------------------------------

    def needs(self, layout: Layout) -> list[tuple[Layout, Span | None]]:
        """The runs that one is measured from, with the words that say so."""
        found: list[tuple[Layout, Span | None]] = []
        ends: tuple[End, End] = ("left", "right")
        for end in ends:
            clause = layout.clause(end)
            other = self._other(clause)
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

    def _other(self, clause: Clause | None) -> Found | None:
        return self.layouts.find(_text(clause)) if clause is not None else None

    def _says_so_too(self, other: Layout, end: End, layout: Layout) -> bool:
        """Whether a run around a corner is measured from this one at that same corner."""
        found = self._other(other.clause(end))
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
        left, right = self._edge(layout, "left"), self._edge(layout, "right")
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
            layout.ends["right" if from_right else "left"] = "open"
            begin, end = (begin, at) if from_right else (at, end)
        if long is not None:
            layout.ends["left" if from_right else "right"] = "open"
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

    # -- one end of a run ------------------------------------------------------------------------

    def _edge(self, layout: Layout, end: End) -> Edge | None:
        clause, dead = layout.clause(end), layout.dead_corner(end)
        if clause is not None:
            return self._beside(layout, end, clause)
        if dead is not None and (end == "left" or len(layout.items) > 1):
            return self._dead(layout, end, dead)
        return self._bare(layout, end)

    def _far(self, layout: Layout, end: End) -> Quantity:
        """An end of what a run stands on."""
        if end == "right":
            return layout.base.length
        return literal(0, label=f"the left end of {layout.base.name}")

    def _bare(self, layout: Layout, end: End) -> Edge:
        """The end of what the run stands on, at the narrowest over its depth and height."""
        at = self._far(layout, end)
        meeting = self.layouts.bases.meeting(layout.base, end)
        wall = layout.base.wall
        if wall is None:
            return at, "wall" if meeting is not None else "open"
        up = layout.up or literal(0, label="the floor")
        high = self.layouts.height(layout)
        if end == "right":
            at = clear_length(wall, up, high)
        if meeting is None:
            return at, "wall"
        deep = self.layouts.depth(layout)
        reach = self.layouts.return_of(layout.outermost(end))
        if reach is not None and reach.value > deep.value:
            deep = reach
        takes = [taken_by_wall(meeting.corner, deep, self.step)]
        if not wall.lengths and meeting.wall in self.layouts.bases.walls:
            around = self.layouts.bases.walls[meeting.wall]
            takes.append(taken_by_lean(around, meeting.corner, up, high))
        for taken in takes:
            if taken is not None:
                at = _inward(at, end, taken)
        return at, "wall"

    def _beside(self, layout: Layout, end: End, clause: Clause) -> Edge | None:
        found = self._other(clause)
        word = _text(clause)
        span = span_of(clause.values[0].origin if clause.values else clause.origin)
        if word in self.layouts.lost:
            return None
        if found is None:
            known = (*self.layouts.by_tag, *self.layouts.by_name, *self.layouts.bases.islands)
            self.reader.complain(
                "unknown-neighbour",
                f"no unit, run or peninsula is called {word}",
                span,
                suggestion(word, known),
            )
            return None
        if found.peninsula is not None:
            return self._beside_peninsula(layout, end, found.peninsula, span)
        other = found.layout
        assert other is not None, "what is found is a run, a thing of one, or a peninsula"
        if other is layout:
            self.reader.complain(
                "after-itself", f"run {layout.name} can't be {WORDS[end]} itself", span
            )
            return None
        if other.base.name == layout.base.name:
            item = found.item or other.outermost(OTHER[end])
            at = other.place_of(found.item, OTHER[end]) if found.item else other.edge(OTHER[end])
            return None if at is None else (at, item.kind if item is not None else "open")
        return self._around(layout, end, found, span)

    def _beside_peninsula(
        self, layout: Layout, end: End, island: Island, span: Span | None
    ) -> Edge | None:
        if island.wall != layout.base.name:
            self._not_beside(layout, end, island.name, span)
            return None
        at = island.at if end == "right" else add(island.at, island.width)
        return at, "corner"

    def _around(self, layout: Layout, end: End, found: Found, span: Span | None) -> Edge | None:
        """Past a run around the corner."""
        other = found.layout
        assert other is not None, "only runs are around corners"
        meeting = self.layouts.around(layout, end, other)
        if meeting is None:
            self._not_beside(layout, end, found.item.tag if found.item else other.name, span)
            return None
        nearest = other.outermost(OTHER[end])
        if found.item is not None and nearest is not found.item:
            self.reader.complain(
                "not-in-the-corner",
                f"{found.item.tag} doesn't stand in the corner of {layout.base.name} and "
                f"{other.base.name}",
                span,
                f"the one that does is {nearest.name}" if nearest is not None else "",
            )
            return None
        island = other.base.island
        if island is not None and island.wall == layout.base.name:
            return (island.at if end == "right" else add(island.at, island.width)), "corner"
        depths = self._depths(layout, end, other)
        if depths is None:
            return None
        taken = taken_by_run(meeting.corner, depths[1], depths[0], self.step)
        if self.layouts.return_of(nearest) is not None:
            other.around[OTHER[end]] = layout
        else:
            hidden = taken_by_run(meeting.corner, depths[0], depths[1], self.step)
            other.hidden[OTHER[end]] = hidden
        return _inward(self._far(layout, end), end, taken), "corner"

    def _not_beside(self, layout: Layout, end: End, what: str, span: Span | None) -> None:
        self.reader.complain(
            "not-beside",
            f"{what} stands neither on {layout.base.name} nor around its {end} corner",
            span,
            f"name what the {end} end of run {layout.name} comes to",
        )

    def _depths(self, layout: Layout, end: End, other: Layout) -> tuple[Quantity, Quantity] | None:
        """How far the two runs that meet in a corner reach out from their walls, this one first;
        a corner unit reaches as far as its return."""
        found = []
        for each, at in ((layout, end), (other, OTHER[end])):
            item = each.outermost(at)
            depth = self.layouts.reach_of(item)
            if depth is None:
                self.reader.complain(
                    "depth-unsaid",
                    f"nothing says how deep run {each.name} is in its corner with "
                    f"{other.name if each is layout else layout.name}",
                    item.line if item is not None else span_of(each.statement.head.origin),
                    "let a unit or appliance of a stated depth stand there",
                )
                return None
            found.append(depth)
        return found[0], found[1]

    # -- dead corners ----------------------------------------------------------------------------

    def _dead(self, layout: Layout, end: End, item: Item) -> Edge | None:
        """A dead corner takes the other run's depth, and both runs say so alike."""
        other = self.layouts.by_name.get(item.dead)
        with_clause = item.statement.clause("with")
        span = span_of(with_clause.values[0].origin) if with_clause is not None else item.line
        if item.dead in self.layouts.lost:
            return None
        if other is None:
            self.reader.complain(
                "unknown-run",
                f"no run is called {item.dead}",
                span,
                suggestion(item.dead, self.layouts.by_name),
            )
            return None
        meeting = self.layouts.around(layout, end, other)
        if meeting is None:
            self._not_beside(layout, end, other.name, span)
            return None
        twin = other.dead_corner(OTHER[end])
        if twin is None or twin.dead != layout.name:
            self.reader.complain(
                "dead-corner-alone",
                f"run {other.name} has no dead corner with {layout.name}",
                item.line,
                f"as the {'last' if end == 'left' else 'first'} line of run {other.name} write: "
                f"dead_corner with {layout.name}, and the same filler",
            )
            return None
        self._agree(layout, item, twin)
        depths = self._depths(layout, end, other)
        if depths is None:
            return None
        item.fixed = taken_by_run(meeting.corner, depths[1], depths[0], self.step)
        island = other.base.island
        if island is None or island.wall != layout.base.name:
            return self._far(layout, end), "corner"
        face = island.at if end == "right" else add(island.at, island.width)
        return (add if end == "right" else subtract)(face, depths[1]), "corner"

    def _agree(self, layout: Layout, item: Item, twin: Item) -> None:
        """Says once where the fillers of a dead corner differ."""
        sizes = []
        for each in (item, twin):
            clause = each.statement.clause("filler")
            sizes.append(self.reader.glance(clause, f"{each.address}.filler"))
        nothing = literal(0, label="no filler")
        first, second = (each or nothing for each in sizes)
        if first.value == second.value or (
            item.line and twin.line and item.line.line > twin.line.line
        ):
            return
        figures = tuple(
            Figure(f"{name} says filler", size.measure, each.line)
            for name, size, each in zip(
                (layout.name, item.dead), (first, second), (item, twin), strict=True
            )
        )
        off = abs(first.value - second.value)
        self.reader.findings.append(
            error(
                "dead-corner-differs",
                f"runs {layout.name} and {item.dead} don't agree on their dead corner's filler",
                item.line,
                figures=(*figures, Figure("apart by", length(off), ruled=True)),
                labels=(Label(twin.line, "the other"),) if twin.line is not None else (),
                help="give both the same filler",
            )
        )

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
                suggestion(word, names),
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


def _inward(at: Quantity, end: End, by: Quantity) -> Quantity:
    if end == "right":
        return subtract(at, by)
    return by if at.value == 0 and not at.inputs else add(at, by)


def _text(clause: Clause) -> str:
    return getattr(clause.values[0], "text", "") if clause.values else ""


def _span(quantity: Quantity) -> Span | None:
    return span_of(quantity.origin) if quantity.origin is not None else None
