"""Exact measures as words: inch fractions, millimetres, and decimals for lists.

A figure rounded for print says so as the bench does: `shy` where the exact value is a shade less
than what is printed, `full` where it is a shade more. Nothing here rounds a value that is used
again; these are words only.
"""

from fractions import Fraction

from attrs import field, frozen

from casewright.lang.measure import INCH, Dimension, Measure, System, nearest

POUND = Fraction(45359237, 100_000_000)
"""Kilograms in a pound, exactly (international avoirdupois pound, 1959)."""

FINEST_FRACTION = 128
"""The finest part of an inch printed as a fraction; rules halve the inch again and again."""

DECIMAL_PLACES = 4
"""Places of a decimal, in lists for spreadsheets and wherever a fraction won't say it."""

_FINEST_DECIMAL = Fraction(1, 10_000)

LARGEST = Fraction(10**12)
"""The largest size that is written out; past it, this is printed as `full`."""

NO_BREAK = "\u00a0"
"""The blank that keeps a fraction one word on a page."""

_UNITS = {
    (Dimension.LENGTH, System.INCHES): '"',
    (Dimension.PLACE, System.INCHES): '"',
    (Dimension.AREA, System.INCHES): " sq in",
    (Dimension.WEIGHT, System.INCHES): " lb",
    (Dimension.LENGTH, System.MILLIMETRES): " mm",
    (Dimension.PLACE, System.MILLIMETRES): " mm",
    (Dimension.AREA, System.MILLIMETRES): " sq mm",
    (Dimension.WEIGHT, System.MILLIMETRES): " kg",
    (Dimension.ANGLE, System.INCHES): "deg",
    (Dimension.ANGLE, System.MILLIMETRES): "deg",
}

_HELD_IN = {
    Dimension.LENGTH: "in",
    Dimension.PLACE: "in",
    Dimension.AREA: "sq in",
    Dimension.ANGLE: "deg",
    Dimension.WEIGHT: "lb",
}

_MILLIMETRE_FACTORS = {
    Dimension.LENGTH: INCH,
    Dimension.PLACE: INCH,
    Dimension.AREA: INCH * INCH,
    Dimension.WEIGHT: POUND,
}

_STEPS = {
    Dimension.AREA: Fraction(1, 100),
    Dimension.ANGLE: Fraction(1, 10),
    Dimension.WEIGHT: Fraction(1, 10),
    Dimension.MONEY: Fraction(1, 100),
    Dimension.TIME: Fraction(1, 100),
}


def is_printable(system: System, step: Fraction) -> bool:
    """Whether lengths can be printed to the nearest `step` inches: in inches a whole number or a
    halving down to 1/128, in millimetres a step of at most four decimal places."""
    if step <= 0:
        return False
    if system is System.MILLIMETRES:
        return (step * INCH / _FINEST_DECIMAL).denominator == 1
    return step.denominator in (1, 2, 4, 8, 16, 32, 64, FINEST_FRACTION)


@frozen
class Printing:
    """How a job prints: its system, and the length in inches that printed lengths are whole
    multiples of. Raises ValueError for a step that `is_printable` refuses."""

    system: System = System.INCHES
    step: Fraction = field(default=Fraction(1, 32))

    @step.validator
    def _check(self, _attribute: object, step: Fraction) -> None:
        if not is_printable(self.system, step):
            raise ValueError(f"lengths in {self.system.value} don't print in steps of {step} inch")


def unit_word(dimension: Dimension) -> str:
    """The unit in which values of `dimension` are held, for other programs; empty for none."""
    return _HELD_IN.get(dimension, "")


@frozen
class Printed:
    """A measure in words, in the pieces that a column is ranged by.

    `whole` is the whole number with its minus (empty before a lone fraction), `part` the fraction
    with its blank (` 31/32`) or the decimals with their point (`.5`), `unit` the sign or word of
    the unit, `mark` is `shy`, `full` or empty.
    """

    whole: str
    part: str
    unit: str
    mark: str

    @property
    def bare(self) -> str:
        """The figure without its unit and mark."""
        return (self.whole + self.part).lstrip(" ")

    @property
    def text(self) -> str:
        """The figure with its unit and, where it is rounded, its mark."""
        words = self.bare + self.unit
        return f"{words} {self.mark}" if self.mark else words


def in_system(measure: Measure, system: System) -> Fraction:
    """The value in the units that `system` prints: inches, square inches, pounds, or
    millimetres, square millimetres, kilograms; other dimensions as they are."""
    if system is System.INCHES:
        return measure.value
    return measure.value * _MILLIMETRE_FACTORS.get(measure.dimension, Fraction(1))


def printed(measure: Measure, printing: Printing) -> Printed:
    """`measure` in the job's system, at its precision (areas and money to 1/100, weights and
    angles to 1/10; counts as they are), ties up as everywhere."""
    if measure.dimension in (Dimension.LENGTH, Dimension.PLACE):
        metric = printing.system is System.MILLIMETRES
        step = printing.step * (INCH if metric else 1)
        return _rounded(measure, printing.system, step, as_fraction=not metric)
    if measure.dimension is Dimension.COUNT:
        if measure.value.denominator <= FINEST_FRACTION and abs(measure.value) <= LARGEST:
            # Millimetres are never written with fractions, and what is counted beside them neither
            # where a hundredth says it exactly.
            decimal = printing.system is System.MILLIMETRES and 100 % measure.value.denominator == 0
            return Printed(*_pieces(measure.value, as_fraction=not decimal), "", "")
        return printed_decimal(measure, printing)
    return _rounded(measure, printing.system, _STEPS[measure.dimension], as_fraction=False)


def printed_decimal(measure: Measure, printing: Printing) -> Printed:
    """`measure` as a decimal to four places, for a figure that no fraction of the job says."""
    return _rounded(measure, printing.system, _FINEST_DECIMAL, as_fraction=False)


def _rounded(measure: Measure, system: System, step: Fraction, *, as_fraction: bool) -> Printed:
    value = in_system(measure, system)
    shown = max(-LARGEST, min(LARGEST, nearest(value, step)))
    # A scale is read to its tenth; nobody says a weight is full or shy.
    even = shown == value or measure.dimension is Dimension.WEIGHT
    mark = "" if even else "shy" if value < shown else "full"
    whole, part = _pieces(shown, as_fraction=as_fraction)
    return Printed(whole, part, _UNITS.get((measure.dimension, system), ""), mark)


def _pieces(value: Fraction, *, as_fraction: bool) -> tuple[str, str]:
    minus = "-" if value < 0 else ""
    size = abs(value)
    whole = size.__floor__()
    rest = size - whole
    if as_fraction:
        if not rest:
            return f"{minus}{whole}", ""
        if not whole:
            return "", f" {minus}{rest}"
        return f"{minus}{whole}", f" {rest}"
    digits = str((rest / _FINEST_DECIMAL).__floor__()).rjust(DECIMAL_PLACES, "0").rstrip("0")
    return f"{minus}{whole}", f".{digits}" if digits else ""


def in_words(measure: Measure, printing: Printing) -> str:
    """`23 31/32" shy`: for messages, with the unit and the mark."""
    return printed(measure, printing).text


def bare(measure: Measure, printing: Printing, *, blank: str = " ") -> str:
    """`23 31/32 shy`: for pages whose foot names the unit. `blank` stands between a whole number
    and its fraction; NO_BREAK keeps them one word."""
    shown = printed(measure, printing)
    figure = shown.bare.replace(" ", blank)
    return f"{figure}{blank}{shown.mark}" if shown.mark else figure


def in_both_forms(measure: Measure, printing: Printing) -> str:
    """`23 31/32" shy (23.9606)`: as printed, and beside it the decimal where that says more."""
    shown = printed(measure, printing)
    fine = printed_decimal(measure, printing)
    if shown.bare == fine.bare:
        return shown.text
    return f"{shown.text} ({fine.bare})"


def decimal(value: Fraction) -> str:
    """`value` to four places, ties up, without idle noughts: `23.9606`, `0.75`, `18`."""
    whole, part = _pieces(nearest(value, _FINEST_DECIMAL), as_fraction=False)
    return whole + part


def decimal_of(measure: Measure, system: System) -> str:
    """The decimal of `measure` for spreadsheets, in the units of `system`."""
    return decimal(in_system(measure, system))


def exact(value: Fraction) -> str | None:
    """`value` with nothing left out, for other programs: `18`, `767/32`. None for a value that
    takes more digits than Python writes out; no limit of the language lets one through."""
    try:
        return str(value)
    except ValueError:
        return None
