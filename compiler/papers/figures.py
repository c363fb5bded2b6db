"""Figures as papers print them, bare, each with the address that explains it."""

from fractions import Fraction

from attrs import frozen

from casewright.compiler.model import Job
from casewright.lang.cells import Quantity
from casewright.lang.measure import INCH, Dimension, Measure, System
from casewright.lang.printing import NO_BREAK, Printing, bare, decimal_of, printed


@frozen
class Term:
    """One line of a sum the papers make themselves: so many times a figure, or -1 times it."""

    times: int
    figure: "Figure"


@frozen
class Figure:
    """A quantity on paper.

    `address` is what `explain` takes (`S2.left_side.length`). A figure that papers add up from
    others (a gap in a chain) has `terms`; its address then only names it on the page.
    """

    value: Fraction
    dimension: Dimension
    address: str
    terms: tuple[Term, ...] = ()

    @property
    def measure(self) -> Measure:
        return Measure(self.value, self.dimension)


Note = tuple[str | Figure, ...]
"""Words with figures among them."""


def figure(quantity: Quantity, address: str) -> Figure:
    """`quantity` as the figure explained at `address`."""
    return Figure(quantity.value, quantity.dimension, address)


def difference(high: Figure, low: Figure, address: str) -> Figure:
    """high - low, as a sum of two terms; `high` itself where `low` is nothing."""
    if low.value == 0:
        return high
    return total(address, (Term(1, high), Term(-1, low)))


def total(address: str, terms: tuple[Term, ...]) -> Figure:
    """The sum of `terms`, at least one, as a length."""
    value = sum((term.times * term.figure.value for term in terms), Fraction(0))
    return Figure(value, Dimension.LENGTH, address, terms)


def printing_of(job: Job) -> Printing:
    """How `job` prints its lengths."""
    return Printing(job.system, job.precision.value)


def read(measure: Measure, printing: Printing) -> str:
    """The bare figure without its mark, a fraction kept one word: for drawings."""
    return printed(measure, printing).bare.replace(" ", NO_BREAK)


def marked(measure: Measure, printing: Printing) -> str:
    """The bare figure with `shy` or `full` where it is rounded: for lists."""
    return bare(measure, printing, blank=NO_BREAK)


def exactly(measure: Measure, printing: Printing) -> str:
    """What a figure is where the job's step doesn't say it: `22 63/64`, or `72.97 mm`, to 1/100.
    Empty for a figure that is printed as it is."""
    if not printed(measure, printing).mark:
        return ""
    if printing.system is System.INCHES and not printed(measure, _FINE_INCH).mark:
        return read(measure, _FINE_INCH)
    return f"{read(measure, _FINE_METRIC)}{NO_BREAK}mm"


def finely(measure: Measure, printing: Printing) -> str:
    """A figure as exactly as it is read on paper: millimetres to 1/100; inches to 1/64, or, where
    that doesn't say it, with millimetres in brackets."""
    if printing.system is System.MILLIMETRES:
        return read(measure, _FINE_METRIC)
    if not printed(measure, _FINE_INCH).mark:
        return read(measure, _FINE_INCH)
    return f"{marked(measure, printing)} ({exactly(measure, printing)})"


_FINE_INCH = Printing(System.INCHES, Fraction(1, 64))
_FINE_METRIC = Printing(System.MILLIMETRES, Fraction(1, 100) / INCH)


def shade(measure: Measure, printing: Printing) -> str:
    """`shy`, `full` or empty."""
    return printed(measure, printing).mark


def suffix(printing: Printing) -> str:
    """The unit in a column's name: `in` or `mm`."""
    return "in" if printing.system is System.INCHES else "mm"


def spreadsheet(value: Quantity | Figure, printing: Printing) -> str:
    """The decimal that stands in a CSV cell."""
    return decimal_of(value.measure, printing.system)
