"""Exact measures: a rational number with a dimension, read and printed as the trade writes it."""

from enum import Enum
from fractions import Fraction

from attrs import frozen

INCH = Fraction(254, 10)
"""Millimetres in an inch, exactly (international inch, 1959)."""


class Dimension(Enum):
    """What a measure measures. A place is a length from an agreed zero: places subtract to a
    length, a place and a length add to a place, two places never add."""

    LENGTH = "length"
    PLACE = "place"
    AREA = "area"
    COUNT = "count"
    ANGLE = "angle"
    WEIGHT = "weight"
    MONEY = "money"
    TIME = "time"


class System(Enum):
    """How lengths are written: inches with fractions, or millimetres."""

    INCHES = "inches"
    MILLIMETRES = "mm"


@frozen
class Measure:
    """An exact value with a dimension. Lengths and places are in inches, areas in square inches,
    angles in degrees, weights in pounds."""

    value: Fraction
    dimension: Dimension


def length(value: Fraction | int) -> Measure:
    """A length of `value` inches."""
    return Measure(Fraction(value), Dimension.LENGTH)


def nearest(value: Fraction, step: Fraction) -> Fraction:
    """`value` at the nearest multiple of `step` (greater than nothing), ties up."""
    return (value / step + Fraction(1, 2)).__floor__() * step
