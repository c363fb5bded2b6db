"""Quantities that know where they come from, and cells that remember formulas.

A quantity is an exact value and the way it was reached: a literal in a text, an input given by
whatever stands outside, an operation on other quantities, or a name given to one of them. So
"where does this figure come from" is answered by the figure itself, down to literals.
"""

from collections.abc import Callable, Hashable, Sequence
from fractions import Fraction
from typing import Any

from attrs import define, field, frozen

from casewright.lang.measure import Dimension, Measure, nearest
from casewright.lang.source import Origin

LITERAL = "literal"
INPUT = "input"
NAMED = "named"


@frozen(eq=False)
class Quantity:
    """An exact value with its dimension and its derivation.

    `operator` is LITERAL, INPUT (bound when the result is read), NAMED (one input, given an
    address) or one of `+ - * / negate nearest least most`, applied to `inputs` in order;
    `nearest` takes a value and a step. `axis` is the axis of a place, else empty. `label` says in
    words what a literal or an input is. `off` marks a share that took the rest of its total.
    """

    value: Fraction
    dimension: Dimension
    operator: str = LITERAL
    inputs: tuple["Quantity", ...] = ()
    name: str = ""
    origin: Origin | None = None
    axis: str = ""
    label: str = ""
    off: bool = False

    @property
    def measure(self) -> Measure:
        return Measure(self.value, self.dimension)


def literal(
    value: Fraction | int,
    dimension: Dimension = Dimension.LENGTH,
    origin: Origin | None = None,
    label: str = "",
) -> Quantity:
    return Quantity(Fraction(value), dimension, LITERAL, (), "", origin, "", label)


def given(quantity: Quantity, name: str, label: str = "") -> Quantity:
    """`quantity` as an input called `name`: its derivation is bound only when it is read."""
    return Quantity(quantity.value, quantity.dimension, INPUT, (), name, None, quantity.axis, label)


def named(quantity: Quantity, name: str, origin: Origin | None = None) -> Quantity:
    """`quantity` under an address of its own."""
    return Quantity(
        quantity.value, quantity.dimension, NAMED, (quantity,), name, origin, quantity.axis
    )


def add(left: Quantity, right: Quantity, origin: Origin | None = None) -> Quantity:
    """left + right; a place and a length make a place."""
    place = left if left.dimension is Dimension.PLACE else right
    return Quantity(
        left.value + right.value, place.dimension, "+", (left, right), "", origin, place.axis
    )


def subtract(left: Quantity, right: Quantity, origin: Origin | None = None) -> Quantity:
    """left - right; two places make a length."""
    both = left.dimension is Dimension.PLACE and right.dimension is Dimension.PLACE
    return Quantity(
        left.value - right.value,
        Dimension.LENGTH if both else left.dimension,
        "-",
        (left, right),
        "",
        origin,
        "" if both else left.axis,
    )


def negate(quantity: Quantity) -> Quantity:
    return Quantity(
        -quantity.value, quantity.dimension, "negate", (quantity,), "", None, quantity.axis
    )


def scale(
    left: Quantity, right: Quantity, dimension: Dimension, origin: Origin | None = None
) -> Quantity:
    """left * right, of `dimension`."""
    return Quantity(left.value * right.value, dimension, "*", (left, right), "", origin)


def divide(
    left: Quantity, right: Quantity, dimension: Dimension, origin: Origin | None = None
) -> Quantity:
    """left / right, of `dimension`. `right` is not nothing."""
    return Quantity(left.value / right.value, dimension, "/", (left, right), "", origin)


def to_nearest(quantity: Quantity, step: Quantity) -> Quantity:
    """`quantity` at the nearest multiple of `step`, ties up."""
    return Quantity(
        nearest(quantity.value, step.value),
        quantity.dimension,
        "nearest",
        (quantity, step),
        "",
        None,
        quantity.axis,
    )


def least(*quantities: Quantity) -> Quantity:
    """The smallest of `quantities`, at least one."""
    return Quantity(
        min(each.value for each in quantities),
        quantities[0].dimension,
        "least",
        quantities,
        "",
        None,
        quantities[0].axis,
    )


def most(*quantities: Quantity) -> Quantity:
    """The largest of `quantities`, at least one."""
    return Quantity(
        max(each.value for each in quantities),
        quantities[0].dimension,
        "most",
        quantities,
        "",
        None,
        quantities[0].axis,
    )


def as_place(quantity: Quantity, axis: str) -> Quantity:
    """A length read as the place that far from the zero of `axis`."""
    return Quantity(
        quantity.value,
        Dimension.PLACE,
        quantity.operator,
        quantity.inputs,
        quantity.name,
        quantity.origin,
        axis,
        quantity.label,
    )


def growth(quantity: Quantity, by: Quantity) -> Fraction:
    """How much `quantity` grows where `by`, which it may be made of, grows by a little: nothing
    where it isn't made of it. A rounded figure grows as what it is rounded from."""
    return _growth(quantity, by, {})


def _growth(quantity: Quantity, by: Quantity, known: dict[int, Fraction]) -> Fraction:
    if quantity is by:
        return Fraction(1)
    found = known.get(id(quantity))
    if found is None:
        rates = [_growth(each, by, known) for each in quantity.inputs]
        found = known[id(quantity)] = _rate(quantity, rates)
    return found


def _rate(quantity: Quantity, rates: Sequence[Fraction]) -> Fraction:
    """The rate of an operation whose inputs have these `rates`."""
    match quantity.operator, quantity.inputs:
        case "+", _:
            return rates[0] + rates[1]
        case "-", _:
            return rates[0] - rates[1]
        case "*", (left, right):
            return rates[0] * right.value + rates[1] * left.value
        case "/", (left, right):
            return (rates[0] * right.value - rates[1] * left.value) / right.value**2
        case "negate", _:
            return -rates[0]
        case "least" | "most", inputs:
            values = [each.value for each in inputs]
            return rates[values.index(quantity.value)]
        case _:
            return rates[0] if rates else Fraction(0)


class Cycle(Exception):
    """A cell was wanted while it was being worked out; `loop` holds the keys around, in order."""

    def __init__(self, loop: tuple[Hashable, ...]) -> None:
        super().__init__("a quantity needs itself")
        self.loop = loop


class Poisoned(Exception):
    """A cell's formula failed earlier and its finding is already made: say nothing more."""


_POISON = object()


@define
class Cells:
    """Formulas worked out at most once each. A failed formula poisons its cell, so that whatever
    reads it later is silent: one cause gives one report."""

    _values: dict[Hashable, Any] = field(factory=dict)
    _open: list[Hashable] = field(factory=list)

    @property
    def depth(self) -> int:
        """How many cells are being worked out, each for the one before."""
        return len(self._open)

    def get(self, key: Hashable, formula: Callable[[], Any]) -> Any:
        """The value of the cell `key`, by `formula` the first time.

        Raises Cycle if the cell is being worked out already, Poisoned if it failed before, and
        whatever `formula` raises the first time it fails.
        """
        if key in self._values:
            value = self._values[key]
            if value is _POISON:
                raise Poisoned
            return value
        if key in self._open:
            start = self._open.index(key)
            raise Cycle(tuple(self._open[start:]))
        self._open.append(key)
        try:
            value = formula()
        except BaseException:
            self._values[key] = _POISON
            raise
        finally:
            self._open.pop()
        self._values[key] = value
        return value
