"""The job as checks look at it: what stands where, worked out once for all of them."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from fractions import Fraction
from functools import cached_property
from typing import TypeVar, cast

from attrs import define, evolve, field, frozen

from casewright.compiler.keys import binder
from casewright.compiler.model import Assembly, Feature, Job, Part, Placed, Run, Unit, Wall
from casewright.compiler.rooms.angles import direction
from casewright.compiler.rooms.around import across_corner, around_corner
from casewright.compiler.shop.yardstick import Goods, Stands, Yardstick
from casewright.lang.cells import LITERAL, NAMED, Quantity
from casewright.lang.findings import Edit, Figure
from casewright.lang.measure import INCH, Dimension, Measure, System
from casewright.lang.printing import Printing, decimal, in_words
from casewright.lang.source import Origin, Span

T = TypeVar("T")

SQUARE = Fraction(90)
"""A right angle, and a door that stands open square, in degrees."""
LIBRARY = "std "
"""How the labels of the library's own texts begin."""


@frozen(eq=False)
class Standing:
    """A placed thing on what its run stands on: inches from the left end of that wall (or side of
    an island) and above the floor."""

    placed: Placed
    run: Run
    stands: Stands
    left: Fraction
    low: Fraction

    @property
    def right(self) -> Fraction:
        return self.left + self.placed.width.value

    @property
    def high(self) -> Fraction:
        return self.low + self.placed.height.value

    @property
    def depth(self) -> Fraction:
        return self.placed.depth.value

    @property
    def unit(self) -> Unit | None:
        return self.placed.unit

    @property
    def role(self) -> str:
        return self.unit.role if self.unit is not None else ""

    @property
    def name(self) -> str:
        """What a report calls it: its tag, or what it is."""
        return self.placed.tag or self.placed.title

    @property
    def line(self) -> Span | None:
        return first_line(self.placed.span)

    def span_of(self, origin: Origin | None) -> Span | None:
        """A place of its unit's text, as a line."""
        if origin is None:
            return None
        return binder(self.placed.spans)(origin)


def _by_unit(
    standings: Iterable[Standing],
) -> tuple[tuple[Unit, tuple[Standing, ...]], ...]:
    """Every distinct unit with all its placings."""
    found: dict[int, tuple[Unit, list[Standing]]] = {}
    for standing in standings:
        if standing.unit is not None:
            found.setdefault(id(standing.unit), (standing.unit, []))[1].append(standing)
    return tuple((unit, tuple(alike)) for unit, alike in found.values())


def first_line(span: Span | None) -> Span | None:
    """A statement's own line, without its block."""
    if span is None:
        return None
    end = span.source.text.find("\n", span.start, span.end)
    if end < 0:
        return span
    text = span.source.text[span.start : end].rstrip().removesuffix("{").rstrip()
    return Span(span.source, span.start, span.start + len(text))


@define(eq=False, slots=False)
class Site:
    """A job and what stands in it. What is asked of it is worked out at most once. `clashing` are
    the lines of things that are known to stand in one another: what they would meet isn't told."""

    job: Job
    clashing: frozenset[Span] = frozenset()
    _memory: dict[object, object] = field(factory=dict, init=False)

    def once(self, work: "Callable[[Site], T]") -> T:
        """What `work` makes of the job, made the first time it is asked for."""
        if work not in self._memory:
            self._memory[work] = work(self)
        return cast("T", self._memory[work])

    def once_per(self, unit: Unit, work: Callable[[Unit], T]) -> T:
        """What `work` makes of a unit, made the first time it is asked for."""
        key = (work, id(unit))
        if key not in self._memory:
            self._memory[key] = work(unit)
        return cast("T", self._memory[key])

    @property
    def yardstick(self) -> Yardstick:
        return self.job.yardstick

    @cached_property
    def printing(self) -> Printing:
        return Printing(self.job.system, self.job.precision.value)

    def allowance(self, word: str) -> Quantity | None:
        return self.yardstick.allowances.get(word)

    def goods(self, kind: str, name: str) -> Goods | None:
        return self.yardstick.goods.get((kind, name))

    # -- what stands where ---------------------------------------------------------------------

    @cached_property
    def rows(self) -> tuple[tuple[Run, tuple[Standing, ...]], ...]:
        """Every run with what stands in it, from its left."""
        stands = self.yardstick.stands
        unsaid = Stands()
        return tuple(
            (
                run,
                tuple(
                    Standing(
                        placed,
                        run,
                        stands.get(placed.address, unsaid),
                        run.start.value + placed.at.value,
                        placed.up.value,
                    )
                    for placed in run.placed
                ),
            )
            for run in self.job.runs
        )

    @cached_property
    def standings(self) -> tuple[Standing, ...]:
        return tuple(standing for _, row in self.rows for standing in row)

    @cached_property
    def returns(self) -> tuple[Standing, ...]:
        """The legs of corner units around their corners, each as seen before its own mouth and
        alone on a line of its own, from nought."""
        found = []
        for standing in self.standings:
            around = around_corner(standing.run, standing.placed)
            if around is not None:
                run, placed = around
                found.append(Standing(placed, run, Stands(), Fraction(0), standing.low))
        return tuple(found)

    @cached_property
    def slanted(self) -> tuple[Standing, ...]:
        """What stands in the mouths of units that look across a corner, each as seen before its own
        and alone on a line of its own, from nought."""
        return tuple(
            Standing(placed, run, Stands(), Fraction(0), standing.low)
            for standing in self.standings
            for run, placed in across_corner(standing.run, standing.placed)
        )

    @cached_property
    def walls(self) -> dict[str, Wall]:
        return {wall.name: wall for wall in self.job.room.walls}

    @cached_property
    def features(self) -> dict[str, tuple[Feature, ...]]:
        """What lies on each wall, and on each side of an island, by the names runs know it by."""
        found = {wall.name: wall.features for wall in self.job.room.walls}
        for island in self.job.room.islands:
            for each in island.features:
                name = f"{island.name} {each.facing}"
                found[name] = (*found.get(name, ()), each)
        return found

    @cached_property
    def on_wall(self) -> dict[str, tuple[Standing, ...]]:
        """What stands on each wall, from its left."""
        found: dict[str, list[Standing]] = {}
        for standing in self.standings:
            found.setdefault(standing.run.wall, []).append(standing)
            around = standing.placed.returns
            if around is not None and around.wall in self.walls:
                address = standing.placed.address
                leg = next(each for each in self.returns if each.placed.address == address)
                left = around.left_on(self.walls[around.wall])
                found.setdefault(around.wall, []).append(evolve(leg, left=left))
        return {
            wall: tuple(sorted(each, key=lambda standing: standing.left))
            for wall, each in found.items()
        }

    @cached_property
    def units(self) -> tuple[tuple[Unit, tuple[Standing, ...]], ...]:
        """Every distinct unit with all its placings."""
        return _by_unit(self.standings)

    @cached_property
    def bases(self) -> tuple[tuple[Unit, tuple[Standing, ...]], ...]:
        """Every distinct unit that stands under others, with all its placings."""
        return _by_unit(
            Standing(base, run, Stands(), run.start.value + base.at.value, base.up.value)
            for run in self.job.runs
            for base in run.bases
        )

    # -- words ---------------------------------------------------------------------------------

    def say(self, value: Fraction, dimension: Dimension = Dimension.LENGTH) -> str:
        return in_words(Measure(value, dimension), self.printing)

    def edit(self, quantity: Quantity, value: Fraction) -> tuple[Edit, ...]:
        """Writes `value` in place of the length a quantity is written as, where it is one."""
        span = written_at(quantity)
        if span is None:
            return ()
        return (Edit(span, self.written(value)),)

    def written(self, value: Fraction) -> str:
        """A length as an edit writes it, true in a text of either measure."""
        if self.job.system is System.MILLIMETRES:
            return f"{decimal(value * INCH)}mm"
        return in_words(Measure(value, Dimension.LENGTH), self.printing)

    def own_edit(self, standing: Standing, quantity: Quantity, value: Fraction) -> tuple[Edit, ...]:
        """The same where the length is written in the text that places a thing; a library's own
        line is never changed for one of its units."""
        span, line = written_at(quantity), standing.line
        if span is None or line is None or span.source is not line.source:
            return ()
        return self.edit(quantity, value)

    def up_to_step(self, value: Fraction) -> Fraction:
        """The next length the job prints that is not less than `value`."""
        step = self.job.precision.value
        return -((-value / step).__floor__()) * step

    def down_to_step(self, value: Fraction) -> Fraction:
        step = self.job.precision.value
        return (value / step).__floor__() * step


def written_at(quantity: Quantity) -> Span | None:
    """Where a figure is written, if it stands in the text as it is."""
    at = quantity
    while at.operator == NAMED:
        at = at.inputs[0]
    return at.origin if at.operator == LITERAL and isinstance(at.origin, Span) else None


def line_of(quantity: Quantity | None) -> Span | None:
    """The nearest line that has to do with a figure."""
    waiting = [quantity] if quantity is not None else []
    while waiting:
        at = waiting.pop(0)
        if isinstance(at.origin, Span):
            return at.origin
        waiting.extend(at.inputs)
    return None


def figure(words: str, quantity: Quantity, *, ruled: bool = False, note: str = "") -> Figure:
    """A row of a ruled sum, with the line the figure comes from."""
    return Figure(words, quantity.measure, line_of(quantity), note, ruled)


def length(
    words: str, value: Fraction, span: Span | None = None, *, ruled: bool = False, note: str = ""
) -> Figure:
    return Figure(words, Measure(value, Dimension.LENGTH), span, note, ruled)


def weight(words: str, value: Fraction, *, ruled: bool = False) -> Figure:
    return Figure(words, Measure(value, Dimension.WEIGHT), None, "", ruled)


def parts(unit: Unit, *roles: str) -> Iterator[Part]:
    """The unit's parts that serve one of `roles`."""
    return (part for part in unit.parts if part.role in roles)


def corner_at(site: Site, wall: Wall, end: str) -> Fraction | None:
    """The inside angle at a wall's left or right end, in degrees; None where nothing meets it."""
    for corner in site.job.room.corners:
        if (corner.second if end == "left" else corner.first) == wall.name:
            return corner.angle.value
    return None


def stands_at_end(site: Site, standing: Standing, wall: Wall, end: str) -> bool:
    """Whether a thing stands at the end of its wall, as near as the wall there lets it: one that
    leans in over its depth, in a corner less than square, keeps it off by so much."""
    off = standing.left if end == "left" else wall.length.value - standing.right
    degrees = corner_at(site, wall, end)
    if degrees is None or degrees >= SQUARE:
        return off == 0
    cosine, sine = direction(degrees)
    return off < standing.depth * cosine / sine + site.job.precision.value


def toe_of(standing: Standing) -> Part | None:
    """The board that closes the toe space of a thing along its front, the one before all others:
    its own, or that of the base under it."""
    base = standing.run.base_under(standing.placed)
    for unit in (standing.unit, base.unit if base is not None else None):
        found = parts(unit, "toe") if unit is not None else ()
        toes = [part for part in found if part.thick_axis == "deep"]
        if toes:
            return min(toes, key=lambda part: part.box.deep[0])
    return None


def assemblies(unit: Unit, *roles: str) -> Iterator[Assembly]:
    return (each for each in unit.assemblies if each.role in roles)


def together(standings: Sequence[Standing]) -> str:
    """What a report calls things of which it says the same."""
    names = [each.name for each in standings]
    return f"{', '.join(names[:-1])} and {names[-1]}" if len(names) > 1 else names[0]


def words_of(part: Part) -> str:
    """What a report calls a part: its address, as words."""
    return part.address.replace("_", " ").replace(".", " ")


def inside(path: str, assembly: str) -> bool:
    """Whether a path lies in an assembly."""
    return not assembly or path == assembly or path.startswith(f"{assembly}.")
