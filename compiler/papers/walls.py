"""What stands on each wall, with places along the wall and above the floor."""

from collections.abc import Mapping
from fractions import Fraction

from attrs import evolve, frozen

from casewright.compiler.model import Feature, Island, Job, Placed, Run, Wall
from casewright.compiler.papers.figures import Figure, Term, figure, total
from casewright.compiler.papers.pieces import holder
from casewright.compiler.rooms.around import around_corner


@frozen
class Standing:
    """A placed thing on its wall; `left` and `low` are inches from the wall's left end and from
    the floor. `around` says that it is the leg of a corner unit around its corner, which stands in
    a run of the other wall."""

    placed: Placed
    left: Fraction
    low: Fraction
    around: bool = False

    @property
    def right(self) -> Fraction:
        return self.left + self.placed.width.value

    @property
    def high(self) -> Fraction:
        return self.low + self.placed.height.value

    @property
    def holder(self) -> str:
        return holder(self.placed)

    @property
    def across(self) -> Figure:
        word = "return" if self.around else "across"
        return figure(self.placed.width, f"{self.holder}.{word}")

    @property
    def height(self) -> Figure:
        return figure(self.placed.height, f"{self.holder}.high")

    @property
    def depth(self) -> Figure:
        word = "return_depth" if self.around else "depth"
        return figure(self.placed.depth, f"{self.holder}.{word}")

    @property
    def bottom(self) -> Figure:
        """How far its underside is above the floor."""
        return figure(self.placed.up, f"{self.holder}.up")

    @property
    def top(self) -> Figure:
        """How far its top is above the floor."""
        if self.low == 0:
            return self.height
        return total(f"{self.holder}.top", (Term(1, self.bottom), Term(1, self.height)))


@frozen
class Row:
    """A run on its wall."""

    run: Run
    things: tuple[Standing, ...]
    bases: tuple[Standing, ...] = ()
    """What its things stand on, no part of the row."""

    @property
    def left(self) -> Fraction:
        return self.run.start.value

    @property
    def right(self) -> Fraction:
        return max((thing.right for thing in self.things), default=self.left)

    @property
    def is_high(self) -> bool:
        """Whether it hangs on the wall."""
        return self.run.up.value > 0


@frozen
class Side:
    """A wall, or the face of an island, with the runs on it. A run on something that isn't a wall
    of the room has a side of its own, as long as the run."""

    name: str
    wall: Wall | None
    rows: tuple[Row, ...]
    features: tuple[Feature, ...] = ()

    @property
    def left(self) -> Fraction:
        return Fraction(0) if self.wall else min(row.left for row in self.rows)

    @property
    def right(self) -> Fraction:
        reach = max((row.right for row in self.rows), default=Fraction(0))
        return max(self.wall.length.value, reach) if self.wall else reach

    @property
    def things(self) -> tuple[Standing, ...]:
        return tuple(thing for row in self.rows for thing in row.things)

    @property
    def bases(self) -> tuple[Standing, ...]:
        return tuple(base for row in self.rows for base in row.bases)

    @property
    def title(self) -> str:
        """What papers call it: its runs' names."""
        return " and ".join(row.run.title for row in self.rows)


def sides(job: Job) -> tuple[Side, ...]:
    """Every wall with a run on it, in the order in which runs first name them."""
    walls = {wall.name: wall for wall in job.room.walls}
    rows: dict[str, list[Row]] = {}
    for run in job.runs:
        things, bases = (
            tuple(
                Standing(placed, run.start.value + placed.at.value, placed.up.value)
                for placed in found
            )
            for found in (run.placed, run.bases)
        )
        rows.setdefault(run.wall, []).append(Row(run, things, bases))
    for run in job.runs:
        for placed in run.placed:
            _goes_around(rows, walls, run, placed)
    lying = {wall.name: wall.features for wall in job.room.walls}
    for run in job.runs:
        for island in (each for each in job.room.islands if each.name == run.island):
            lying[run.wall] = island.features_of(run.facing)
    return tuple(
        Side(name, walls.get(name), tuple(found), lying.get(name, ()))
        for name, found in rows.items()
    )


def island_outlets(job: Job, side: Side) -> tuple[tuple[Island, Feature], ...]:
    """The outlets of an island that the papers of a side of it show: those in its own face, and
    those in faces that no run has. None on a wall."""
    run = side.rows[0].run
    elsewhere = {each.facing for each in job.runs if each.island == run.island} - {run.facing}
    return tuple(
        (island, each)
        for island in job.room.islands
        if island.name == run.island
        for each in island.features
        if each.kind == "outlet" and each.facing not in elsewhere
    )


def _goes_around(
    rows: dict[str, list[Row]], walls: Mapping[str, Wall], run: Run, placed: Placed
) -> None:
    """Puts the leg of a corner unit around its corner into the row there that it stands beside, or
    into one of its own."""
    around, returns = around_corner(run, placed), placed.returns
    if around is None or returns is None or returns.wall not in walls:
        return
    line, turned = around
    leg = Standing(turned, returns.left_on(walls[returns.wall]), placed.up.value, around=True)
    found = rows.setdefault(returns.wall, [])
    for index, row in enumerate(found):
        if row.run.up.value == run.up.value and row.left == leg.right:
            found[index] = evolve(row, things=(leg, *row.things))
            return
        if row.run.up.value == run.up.value and row.right == leg.left:
            found[index] = evolve(row, things=(*row.things, leg))
            return
    found.append(Row(line, (leg,)))


def reaches(job: Job) -> tuple[tuple[int, Fraction], ...]:
    """For each of `sides`, how many rows it has and how long it is, in inches: what a page's
    height depends on, without the units as they stand around a corner."""
    walls = {wall.name: wall for wall in job.room.walls}
    rows: dict[str, list[tuple[Fraction, Fraction, Fraction]]] = {}
    legs: list[tuple[str, Fraction, Fraction, Fraction]] = []
    for run in job.runs:
        start, up = run.start.value, run.up.value
        ends = (start + placed.at.value + placed.width.value for placed in run.placed)
        rows.setdefault(run.wall, []).append((up, start, max(ends, default=start)))
        for placed in run.placed:
            back = placed.returns
            if back is None or placed.unit is None or run.origin is None:
                continue
            if back.wall in walls:
                left = back.left_on(walls[back.wall])
                legs.append((back.wall, up, left, left + back.length.value))
    for name, up, left, right in legs:
        found = rows.setdefault(name, [])
        for index, (height, start, end) in enumerate(found):
            if height == up and (start == right or end == left):
                found[index] = (up, min(start, left), max(end, right))
                break
        else:
            found.append((up, left, right))
    return tuple((len(found), _reach(walls.get(name), found)) for name, found in rows.items())


def _reach(wall: Wall | None, rows: list[tuple[Fraction, Fraction, Fraction]]) -> Fraction:
    end = max(right for _, _, right in rows)
    return max(wall.length.value, end) if wall else end - min(left for _, left, _ in rows)
