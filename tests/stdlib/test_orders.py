"""The way in of everything, contradicted by a slow slider on random orders of every unit.

Each run takes a few orders of each unit, 200 and more in all;
`python3 -m tests.benchmarks.orders` takes 200 of each.
"""

import pytest

from casewright.compiler.bench.order import prove_order
from casewright.compiler.model import Order, Step, Unit
from tests.compiler.slow_slider import PairSlider, Tally, check_random_orders
from tests.stdlib.kitchens import kitchen, units_of
from tests.stdlib.sizes import CONSTRUCTIONS, USUAL, lines

TIMES = 7
"""Random orders of each unit in each construction."""


def contradicted(unit: Unit, times: int, seed: int) -> Tally:
    """What the slider makes of random orders of a unit."""
    slider = PairSlider()

    def prove(orders: tuple[Order, ...]) -> tuple[Step, ...]:
        return prove_order(unit.parts, unit.assemblies, unit.joints, orders)[0]

    return check_random_orders(unit.parts, unit.assemblies, prove, slider.free_ways, times, seed)


@pytest.mark.parametrize("built", CONSTRUCTIONS)
def test_a_slow_slider_agrees_on_random_orders(built: str) -> None:
    units = units_of(kitchen(lines(USUAL), built))
    assert len(units) * len(CONSTRUCTIONS) * TIMES >= 200
    free = barred = 0
    for seed, unit in enumerate(units):
        tally = contradicted(unit, TIMES, seed)
        assert tally.disagreements == (), unit.name
        free, barred = free + tally.free, barred + tally.barred
    # Orders of chance go wrong often, and right often: both answers were put to the slider.
    assert free > 1_000
    assert barred > 100
