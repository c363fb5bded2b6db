"""What checks measure by, beside the built parts: the shop's allowances, data of bought goods,
limits from published sources, and the findings that a text accepts. All of it is frozen.

Stiffness and pressure are in pounds a square inch, densities in pounds a cubic foot, loads on an
area in pounds a square foot, weights in pounds, lengths in inches.
"""

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

from attrs import field, frozen

from casewright.lang.cells import Quantity
from casewright.lang.measure import INCH, Dimension, System
from casewright.lang.printing import POUND
from casewright.lang.source import Span

Basis = Literal["recommended", "code", "access", "practice"]
"""What a limit rests on: a recommendation, the text of a code, a standard of access, a habit."""

Reported = Literal["error", "warning", "advice"]

BASES: tuple[Basis, ...] = ("recommended", "code", "access", "practice")
REPORTED: tuple[Reported, ...] = ("error", "warning", "advice")


@frozen
class Goods:
    """A material or a bought thing as the text declares it, with every figure and word it gives."""

    kind: str
    name: str
    title: str
    figures: Mapping[str, Quantity] = field(eq=False)
    words: Mapping[str, str] = field(eq=False)
    span: Span | None = field(eq=False, default=None)


@frozen
class Bowl:
    """A sink's bowl, outside: its width, `by` what from front to back, and how far `down` it hangs
    under the top of the counter."""

    wide: Quantity
    by: Quantity
    down: Quantity


@frozen
class Stands:
    """What checks know of a placed thing that isn't in its parts.

    `serves` holds the roles of what it is or holds (a sink, a cooktop). An appliance's door
    `opens` down, to the left or right, or out, by `reach` or `angle`; `handle` stands out from its
    face. `confirmed` says that its sizes were read from its maker's sheet. `bowl` is that of the
    sink it holds.
    """

    serves: tuple[str, ...] = ()
    opens: str = ""
    reach: Quantity | None = None
    angle: Quantity | None = None
    handle: Quantity | None = None
    confirmed: bool = False
    bowl: Bowl | None = None


@frozen
class Acceptance:
    """A finding that the text accepts, with the reason. `holder` is "" for the whole job, else a
    run's name or a placed thing's address; it holds for findings on the lines of `holds_on`."""

    slug: str
    reason: str
    holder: str
    span: Span | None = field(eq=False)
    holds_on: Span | None = field(eq=False, default=None)


@frozen
class Limit:
    """What a measured quantity may be, by one clause of a published source."""

    quantity: str
    least: Quantity | None
    most: Quantity | None
    section: str
    basis: Basis
    severity: Reported
    words: str
    from_memory: bool
    span: Span | None = field(eq=False)


@frozen
class Pack:
    """Limits from one source, by its title and edition; on only where a job names it: `asked`."""

    name: str
    title: str
    edition: str
    limits: tuple[Limit, ...]
    span: Span | None = field(eq=False)
    asked: Span | None = field(eq=False, default=None)


@frozen
class Yardstick:
    """All that checks measure by. `stands` is by the address of a placed thing, `goods` by kind
    and name. `floor_said` is whether the room says what its floor is."""

    allowances: Mapping[str, Quantity] = field(factory=dict, eq=False)
    goods: Mapping[tuple[str, str], Goods] = field(factory=dict, eq=False)
    stands: Mapping[str, Stands] = field(factory=dict, eq=False)
    packs: tuple[Pack, ...] = ()
    acceptances: tuple[Acceptance, ...] = ()
    floor_said: bool = False


FOOT = 12 * INCH
"""Millimetres in a foot, exactly."""

_GRAVITY = Fraction(980665, 100_000)
"""Standard gravity in metres a second a second, exactly (ISO 80000-3)."""


@frozen
class Kind:
    """What a figure is: its dimension, what texts in inches and in millimetres count it in where
    they write a bare number, and how many of ours one of the metric unit is."""

    dimension: Dimension
    inch: str = ""
    metric: str = ""
    in_ours: Fraction = Fraction(1)

    def counted(self, value: Fraction, system: System) -> tuple[Fraction, str]:
        """A value of ours as a text of `system` counts it, with the unit in words."""
        if system is System.INCHES or not self.metric:
            return value, self.inch
        return value / self.in_ours, self.metric


LENGTH = Kind(Dimension.LENGTH)
COUNT = Kind(Dimension.COUNT)
ANGLE = Kind(Dimension.ANGLE)
WEIGHT = Kind(Dimension.WEIGHT, "lb", "kg", 1 / POUND)
STIFFNESS = Kind(
    Dimension.COUNT,
    "pounds a square inch",
    "N a square mm",
    INCH * INCH / (POUND * _GRAVITY),
)
DENSITY = Kind(
    Dimension.COUNT, "pounds a cubic foot", "kg a cubic metre", (FOOT / 1000) ** 3 / POUND
)
LOAD = Kind(
    Dimension.COUNT, "pounds a square foot", "kg a square metre", (FOOT / 1000) ** 2 / POUND
)

FIGURES: Mapping[str, Kind] = {
    "modulus": STIFFNESS,
    "density": DENSITY,
    "creep": COUNT,
    "radial": COUNT,
    "tangential": COUNT,
    "carries": WEIGHT,
}
"""Figures of goods that are no lengths, by their word."""

ALLOWANCES: Mapping[str, Kind] = {
    "shelf_load": LOAD,
    "shelf_span_over": COUNT,
    "shelf_sag_most": LENGTH,
    "drawer_fill": DENSITY,
    "drawer_sag_over": COUNT,
    "stud_spacing": LENGTH,
    "screw_hold": WEIGHT,
    "screws_at_stud": COUNT,
    "least_stock": LENGTH,
    "hole_edge": LENGTH,
    "stand_clear": LENGTH,
    "doorway_clear": LENGTH,
    "lift_reach": LENGTH,
    "lift_from": LENGTH,
    "lift_travel": LENGTH,
    "lift_grip": COUNT,
    "carry_reach": LENGTH,
    "carry_from": LENGTH,
    "carry_travel": LENGTH,
    "carry_grip": COUNT,
    "line_up_within": LENGTH,
    "front_gap_least": LENGTH,
    "scribe_least": LENGTH,
    "plate": LENGTH,
    "sink_off_within": LENGTH,
    "rip_near": LENGTH,
    "moisture_low": COUNT,
    "moisture_made": COUNT,
    "moisture_high": COUNT,
    "counter_span": LENGTH,
    "sink_span": LENGTH,
    "band_least": LENGTH,
    "band_shortest": LENGTH,
    "band_widest": LENGTH,
    "dado_loose": LENGTH,
    "passage_least": LENGTH,
}
"""Every figure that checks reckon with, by the word an `allowances` block gives it. What a text
leaves unsaid is not reckoned with."""
