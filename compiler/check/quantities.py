"""What limits of published sources may be put on: every quantity that is measured in a job."""

from collections.abc import Mapping

from casewright.compiler.check import (
    areas,
    counters,
    heights,
    knees,
    landings,
    microwaves,
    outlets,
    passages,
    reaches,
    shared_landings,
    sinks,
    triangle,
    uppers,
    walkways,
    washing,
)
from casewright.compiler.check.measured import Quantity
from casewright.compiler.shop.yardstick import Kind

MODULES = (
    heights,
    reaches,
    uppers,
    washing,
    sinks,
    landings,
    shared_landings,
    microwaves,
    counters,
    areas,
    outlets,
    knees,
    passages,
    walkways,
    triangle,
)
"""Where quantities stand."""

EVERY: tuple[Quantity, ...] = tuple(
    each for module in MODULES for each in vars(module).values() if isinstance(each, Quantity)
)
"""Every quantity, in the order of their declaration."""

QUANTITIES: Mapping[str, Kind] = {each.word: each.kind for each in EVERY}
"""What limits may name, and of which kind each is."""
