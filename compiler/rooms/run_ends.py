"""One end of a run: what it comes to, and what of its wall the corner there takes."""

from casewright.compiler.model import Island
from casewright.compiler.rooms.bases import End
from casewright.compiler.rooms.layouts import OTHER, Found, Layout, Layouts, Neighbour
from casewright.compiler.rooms.room import (
    clear_length,
    mitre_of,
    taken_by_lean,
    taken_by_run,
    taken_by_wall,
)
from casewright.compiler.rooms.run_items import Item
from casewright.lang.cells import Quantity, add, literal, subtract
from casewright.lang.findings import Figure, Label, error
from casewright.lang.measure import length
from casewright.lang.shape import Clause, span_of, suggestion
from casewright.lang.source import Span

Edge = tuple[Quantity, Neighbour]
"""The place of an end of a run along its base, and what is beside it."""

WORDS = {"left": "after", "right": "before"}


class Ends:
    """Finds where runs begin and end; what is wrong is blamed."""

    def __init__(self, layouts: Layouts, step: Quantity) -> None:
        self.layouts = layouts
        self.reader = layouts.reader
        self.step = step

    def edge(self, layout: Layout, end: End) -> Edge | None:
        """Where an end of a run is, with what meets it there noted in the layout; None where that
        can't be said (and it is blamed)."""
        clause, dead = layout.clause(end), layout.dead_corner(end)
        if clause is not None:
            return self._beside(layout, end, clause)
        if dead is not None and (end == "left" or len(layout.items) > 1):
            return self._dead(layout, end, dead)
        return self._bare(layout, end)

    def other(self, clause: Clause | None) -> Found | None:
        """What the run says that it is after or before."""
        return self.layouts.find(word_of(clause)) if clause is not None else None

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
        found = self.other(clause)
        word = word_of(clause)
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
        for other in self.layouts.every:
            meeting = self.layouts.around(layout, end, other)
            if other.base.island is island and meeting is not None:
                layout.mitres[end] = mitre_of(meeting.corner)
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
        layout.mitres[end] = mitre_of(meeting.corner)
        island = other.base.island
        if island is not None and island.wall == layout.base.name:
            return (island.at if end == "right" else add(island.at, island.width)), "corner"
        depths = self._depths(layout, end, other)
        if depths is None:
            return None
        taken = taken_by_run(meeting.corner, depths[1], depths[0], self.step)
        if nearest is not None and self.layouts.return_of(nearest) is not None:
            # Its leg is in line with this run; how its mouth meets it is known once it is built.
            del layout.mitres[end]
            layout.legs[end] = nearest
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
        layout.mitres[end] = mitre_of(meeting.corner)
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


def _inward(at: Quantity, end: End, by: Quantity) -> Quantity:
    if end == "right":
        return subtract(at, by)
    return by if at.value == 0 and not at.inputs else add(at, by)


def word_of(clause: Clause) -> str:
    """The first word that a clause gives; empty where there is none."""
    return getattr(clause.values[0], "text", "") if clause.values else ""
