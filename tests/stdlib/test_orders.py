"""The way in of everything, contradicted by a slow slider on random orders of every unit."""

import pytest

from casewright.compiler.bench.order import prove_order
from casewright.compiler.model import Order, Step, Unit
from tests.compiler.slow_slider import PairSlider, check_random_orders
from tests.stdlib.kitchens import kitchen, units_of
from tests.stdlib.test_units import CONSTRUCTIONS, USUAL, lines

TIMES = 100
"""Random orders of each unit in each construction: 200 of every unit."""


def check(unit: Unit) -> tuple[int, int]:
    slider = PairSlider()

    def prove(orders: tuple[Order, ...]) -> tuple[Step, ...]:
        return prove_order(unit.parts, unit.assemblies, unit.joints, orders)[0]

    tally = check_random_orders(unit.parts, unit.assemblies, prove, slider.free_ways, TIMES)
    assert tally.disagreements == (), unit.name
    return tally.free, tally.barred


@pytest.mark.parametrize("built", CONSTRUCTIONS)
def test_a_slow_slider_agrees_on_200_random_orders(built: str) -> None:
    free = barred = 0
    for unit in units_of(kitchen(lines(USUAL), built)):
        counts = check(unit)
        free, barred = free + counts[0], barred + counts[1]
    # Orders of chance go wrong often, and right often: both answers were put to the slider.
    assert free > 10_000
    assert barred > 1_000
