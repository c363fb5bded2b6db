"""A part, a bought thing or an assembly as it is being worked out: where it lies, by cells."""

from collections.abc import Callable, Mapping
from fractions import Fraction
from functools import partial
from math import isqrt
from typing import TYPE_CHECKING

from attrs import evolve

from casewright.compiler.blame import Row
from casewright.compiler.construct.build import Build
from casewright.compiler.construct.evaluate import evaluate, place, quantity
from casewright.compiler.construct.faults import fault
from casewright.compiler.construct.values import Choice, Datum, Spatial
from casewright.compiler.facing import Look, extents_in_unit
from casewright.compiler.model import AXES, EDGES, Axis, Extent, Extents
from casewright.lang.cells import (
    Quantity,
    add,
    divide,
    literal,
    named,
    negate,
    subtract,
)
from casewright.lang.measure import Dimension
from casewright.lang.shape import Clause, Statement
from casewright.lang.source import Origin
from casewright.lang.tree import Binary, Expression

if TYPE_CHECKING:
    from casewright.compiler.construct.holder import Holder
    from casewright.compiler.construct.scope import Scope

HALF = 2

DIAGONALS: Mapping[str, tuple[Axis, Axis]] = {
    "diagonal": ("across", "up"),
    "plan_diagonal": ("across", "deep"),
}
"""Words for the distance from corner to corner, as seen from the front and from above."""

ThicknessOf = Callable[[], Quantity]
"""Gives a material's thickness, where a place leaves the size out."""


class Thing(Spatial):
    """One placed thing. `path` is its full address in the unit, `scope` where its text is read
    (mirrored for a thing that mirrors another), `opening` the address of what it was made for."""

    def __init__(
        self,
        build: Build,
        statement: Statement,
        scope: "Scope",
        path: str,
        name: str,
        opening: str,
    ) -> None:
        self.build = build
        self.statement = statement
        self.scope = scope
        self.path = path
        self.name = name
        self.opening = opening
        self._inner: Holder | None = None
        # What is worked out already stands here too: it is asked for far more often than made.
        self._known: dict[Axis, Extent] = {}
        self._sizes: dict[Axis, Quantity] = {}

    @property
    def faces(self) -> Look:
        return self.scope.holder.faces

    @property
    def rounding(self) -> Fraction:
        return self.build.rounding

    @property
    def origin(self) -> Origin:
        return self.statement.head.origin

    @property
    def rule(self) -> str:
        return self.statement.rule

    @property
    def inner(self) -> "Holder":
        """What an assembly holds."""
        if self._inner is None:
            self._inner = self.scope.holder.open(self)
        return self._inner

    def extent(self, axis: Axis) -> Extent:
        known = self._known.get(axis)
        if known is None:
            known = self._known[axis] = self.build.cell(
                (id(self), axis),
                f"{self.path} {axis}",
                self._clause_origin(axis),
                partial(self._extent, axis),
            )
        return known

    def extents(self) -> Extents:
        """Where it lies as seen before the mouth it stands in."""
        return Extents(self.extent("across"), self.extent("up"), self.extent("deep"))

    def in_unit(self) -> Extents:
        """Where it lies in its unit; what stands in a slanted mouth, in the space of that."""
        return extents_in_unit(self.faces, self.extent)

    def _clause_origin(self, axis: Axis) -> Origin:
        clause = self.statement.clause(axis)
        return clause.origin if clause is not None else self.statement.head.origin

    def _extent(self, axis: Axis) -> Extent:
        clause = self.statement.clause(axis)
        if clause is None:
            whole = self.scope.holder.extent(axis)
            low, high = whole.low, whole.high
        else:
            extent = read_extent(clause, self.scope, axis, self._thickness)
            low, high = extent.low, extent.high
        origin = self._clause_origin(axis)
        low_edge, high_edge = edge_words(axis)
        return Extent(
            named(low, f"{self.path}.{low_edge}", origin),
            named(high, f"{self.path}.{high_edge}", origin),
        )

    def edge(self, word: str) -> Quantity:
        axis, side = EDGES[word]
        extent = self.extent(axis)
        return extent.high if side > 0 else extent.low

    def size(self, axis: Axis) -> Quantity:
        """Its extent along `axis`, as a length."""
        if axis not in self._sizes:
            extent = self.extent(axis)
            self._sizes[axis] = subtract(extent.high, extent.low)
        return self._sizes[axis]

    def diagonal(self, word: str) -> Quantity:
        first, second = DIAGONALS[word]
        return diagonal_of(self.build, self.size(first), self.size(second))

    def material(self) -> Datum:
        """What it is made of. Raises Fault where the text says nothing or no such thing."""
        return self.build.cell(
            (id(self), "material"), f"{self.path} of", self.origin, self._material
        )

    def _material(self) -> Datum:
        clause = self.statement.clause("of")
        if clause is None or not clause.values:
            raise fault(
                "material-missing",
                f"{self.name} says nothing of what it is made of",
                self.origin,
                help="say: of, and a material",
            )
        value = evaluate(clause.values[0], self.scope)
        if isinstance(value, Choice):
            raise fault(
                "unknown-material", f"no material is called {value.word}", clause.values[0].origin
            )
        if not isinstance(value, Datum):
            raise fault(
                "wrong-kind",
                f"{self.name} must be of a material",
                clause.values[0].origin,
            )
        return value

    def _thickness(self) -> Quantity:
        datum = self.material()
        thick = self.build.property(datum.declaration, "thick", self.origin, Dimension.LENGTH)
        if not isinstance(thick, Quantity):
            raise fault("wrong-kind", f"{datum.declaration.name} has no thickness", self.origin)
        return thick

    @property
    def milled(self) -> bool:
        """Whether it is planed thinner than its stock."""
        return self.statement.clause("milled") is not None

    def thick(self) -> Quantity:
        """Its thickness: the material's, or what it is milled to."""
        return self.size(self.thick_axis()) if self.milled else self._thickness()

    def thick_axis(self) -> Axis:
        """The axis its thickness lies along: the one whose size was left out, else the one whose
        size is the material's thickness, one the text says nothing of first."""
        return self.build.cell(
            (id(self), "thick axis"), f"{self.path} thickness", self.origin, self._thick_axis
        )

    def _thick_axis(self) -> Axis:
        if self.milled:
            return self._milled_axis()
        for axis in AXES:
            clause = self.statement.clause(axis)
            if clause is not None and clause.clauses and not clause.values:
                return axis
        thick = self._thickness()
        fitting = [axis for axis in AXES if self.size(axis).value == thick.value]
        unsaid = [axis for axis in fitting if self.statement.clause(axis) is None]
        if unsaid or fitting:
            return (unsaid or fitting)[0]
        near = min(AXES, key=lambda axis: abs(self.size(axis).value - thick.value))
        material = self.material().declaration.name
        raise fault(
            "thickness-differs",
            f"{self.name} is as thick as {material} in no direction",
            self._clause_origin(near),
            rows=(
                Row(f"{self.name}, {near}", self.size(near).measure, self._clause_origin(near)),
                Row(f"{material} is", thick.measure, thick.origin),
                Row(
                    "apart",
                    subtract(self.size(near), thick).measure,
                    None,
                    ruled=True,
                ),
            ),
            help="leave the size out on that axis: it is then the material's thickness",
        )

    def _milled_axis(self) -> Axis:
        """The axis of its smallest size, which is not more than its stock's thickness."""
        axis = min(AXES, key=lambda each: self.size(each).value)
        size, stock = self.size(axis), self._thickness()
        if size.value <= stock.value:
            return axis
        material = self.material().declaration.name
        raise fault(
            "stock-too-thin",
            f"{self.name} can't be milled from {material}",
            self._clause_origin(axis),
            rows=(
                Row(f"{self.name}, {axis}", size.measure, self._clause_origin(axis)),
                Row(f"{material} is", stock.measure, stock.origin),
            ),
            help="choose thicker stock",
        )

    def flat_axes(self) -> tuple[Axis, Axis]:
        """The axes of its length and its width: length along the stated grain, else the longer."""
        thick_axis = self.thick_axis()
        first, second = (axis for axis in AXES if axis != thick_axis)
        grain = self.grain_axis()
        if grain is not None and grain != thick_axis:
            return (first, second) if grain == first else (second, first)
        if self.size(first).value >= self.size(second).value:
            return first, second
        return second, first

    def grain_axis(self) -> Axis | None:
        """The axis its text says the grain runs along."""
        clause = self.statement.clause("grain")
        if clause is None or not clause.values:
            return None
        word = getattr(clause.values[0], "text", "")
        return next((axis for axis in AXES if word == axis), None)


def diagonal_of(build: Build, first: Quantity, second: Quantity) -> Quantity:
    """From corner to corner of two sides: rounded once, and marked so."""
    return root_of(build, first.value**2 + second.value**2, "from corner to corner")


def root_of(build: Build, square: Fraction, label: str) -> Quantity:
    """The length whose square this is, in inches: rounded once, and marked so."""
    step = build.rounding
    # Twice as fine, so that the half steps tell which way to round.
    halves = isqrt(int(4 * square / step**2))
    return evolve(literal((halves + 1) // 2 * step, label=label), off=True)


def edge_words(axis: Axis) -> tuple[str, str]:
    """The edge words of an axis, low end first."""
    low, high = (word for word, (of, _) in EDGES.items() if of == axis)
    return low, high


def read_extent(
    clause: Clause,
    scope: "Scope",
    axis: Axis,
    thickness: ThicknessOf,
) -> Extent:
    """Where a place clause puts a thing along `axis`: `A .. B`, `[SIZE] from A`, `[SIZE] to B`,
    `[SIZE] centred [on A]`, or a thing alone. In a mirrored scope the text is read from right to
    left and the result turned back. Raises Fault."""
    turned = scope.mirrored and axis == "across"
    low, high = _ends(clause, scope, axis, thickness)
    if turned:
        low, high = negate(high), negate(low)
    return Extent(low, high)


def _ends(
    clause: Clause, scope: "Scope", axis: Axis, thickness: ThicknessOf
) -> tuple[Quantity, Quantity]:
    start, end, middle = (clause.clause(word) for word in ("from", "to", "centred"))
    said = [each for each in (start, end, middle) if each is not None]
    value = clause.values[0] if clause.values else None
    if len(said) > 1:
        raise fault(
            "said-twice",
            f"{said[0].word} and {said[1].word} can't both place it",
            said[1].origin,
        )
    if isinstance(value, Binary) and value.operator == "..":
        if said:
            raise fault("said-twice", f"{said[0].word} can't stand beside ..", said[0].origin)
        return place(value.left, scope, axis, 1), place(value.right, scope, axis, -1)
    if not said:
        if value is None:
            raise fault("value-missing", f"{clause.word} wants a place", clause.origin)
        return _whole(value, scope, axis)
    size = quantity(value, scope, Dimension.LENGTH) if value is not None else thickness()
    if start is not None:
        low = place(start.values[0], scope, axis, 1)
        return low, add(low, size, clause.origin)
    if end is not None:
        high = place(end.values[0], scope, axis, -1)
        return subtract(high, size, clause.origin), high
    assert middle is not None, "one of from, to and centred was said"
    return _centred(middle, scope, axis, size, clause.origin)


def _whole(value: Expression, scope: "Scope", axis: Axis) -> tuple[Quantity, Quantity]:
    worth = evaluate(value, scope, Dimension.PLACE)
    if isinstance(worth, Spatial):
        extent = worth.seen(axis, scope.faces)
        if scope.mirrored and axis == "across":
            return negate(extent.high), negate(extent.low)
        return extent.low, extent.high
    raise fault(
        "place-missing",
        f"say where along {axis} it lies",
        value.origin,
        help="A .. B, SIZE from A, SIZE to B, SIZE centred, or a thing as wide as it",
    )


def _centred(
    middle: Clause, scope: "Scope", axis: Axis, size: Quantity, origin: Origin
) -> tuple[Quantity, Quantity]:
    on = middle.clause("on")
    if on is not None:
        low, high = _whole(on.values[0], scope, axis)
    else:
        extent = scope.holder.extent(axis)
        low, high = extent.low, extent.high
        if scope.mirrored and axis == "across":
            low, high = negate(high), negate(low)
    two = literal(HALF, Dimension.COUNT, None, "half")
    spare = divide(subtract(subtract(high, low), size), two, Dimension.LENGTH, origin)
    start = add(low, spare)
    return start, add(start, size)
