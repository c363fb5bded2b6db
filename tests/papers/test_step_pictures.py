"""Every part of a unit is drawn heavy in one step's picture, as it comes to lie at the bench."""

import re
from collections import Counter
from fractions import Fraction

import pytest

from casewright.compiler.model import Box
from casewright.compiler.papers.drawings.step_pictures import (
    HIGH,
    WIDE,
    as_it_lies,
    far_to_near,
    step_pictures,
)
from casewright.compiler.papers.lists.bench_order import bench_order
from casewright.compiler.papers.pieces import built
from tests.papers.kitchens import kitchen


@pytest.mark.parametrize("name", ["galley/framed"])
def test_every_part_comes_in_with_one_picture(name: str) -> None:
    job = kitchen(name)
    units = [item for item in built(job) if len(item.unit.parts) > 1]
    assert len(units) > 4
    for item in units:
        pictures = step_pictures(job, item)
        drawn = Counter(part.path for picture in pictures for part in picture.new)
        assert drawn == Counter(part.path for part in item.unit.parts), item.holder
        for picture, step in zip(
            pictures, (step for step in bench_order(item.unit) if step.comings), strict=True
        ):
            text = picture.drawing.body(links=False)
            heavy = len(re.findall(r'class="pencil paper"', text))
            assert heavy == len(re.findall(r'class="hidden"', text))
            assert heavy >= sum(coming.part is not None for coming in step.comings)
            assert heavy > 0
            assert picture.drawing.width <= WIDE + 2
            assert picture.drawing.height <= HIGH + 2


BOX = Box((Fraction(1), Fraction(2)), (Fraction(10), Fraction(30)), (Fraction(0), Fraction(20)))


@pytest.mark.parametrize(
    ("lies", "solid"),
    [
        # Standing, its front is towards whoever looks: 20 deep is 20 away.
        ("", ((1, 2), (10, 30), (-20, 0))),
        # On its left face, what is across stands up, and its top is at the left hand.
        ("left", ((-30, -10), (1, 2), (-20, 0))),
        ("right", ((10, 30), (-2, -1), (-20, 0))),
        # On its back, the front looks up and its bottom is near.
        ("back", ((1, 2), (-20, 0), (-30, -10))),
        ("front", ((1, 2), (0, 20), (10, 30))),
        ("top", ((-2, -1), (-30, -10), (-20, 0))),
    ],
)
def test_it_is_turned_as_it_lies(lies: str, solid: object) -> None:
    assert as_it_lies(BOX, lies) == solid


def test_what_is_near_covers_what_is_far() -> None:
    far = ((0.0, 10.0), (0.0, 10.0), (-10.0, -9.0))
    near = ((0.0, 10.0), (0.0, 10.0), (-1.0, 0.0))
    top = ((0.0, 10.0), (10.0, 11.0), (-10.0, 0.0))
    for order in ([near, far, top], [top, near, far], [far, top, near]):
        drawn = [solid for solid, _ in far_to_near([(each, "seen") for each in order])]
        assert drawn.index(far) < drawn.index(near) < drawn.index(top)
