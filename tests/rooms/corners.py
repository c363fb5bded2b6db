"""A kitchen with one library unit in a corner, for tests about corner units."""

from functools import cache

from casewright.compiler.commands.world import InstalledLibrary
from casewright.compiler.compile import Compiled, compile_job
from casewright.compiler.model import Unit
from casewright.compiler.world import world_of
from tests.rooms.rooms import placed_of

KITCHEN = """measure in {measure}
use std edition 1
job Quayside {{
  built {built}
}}
room quayside {{
  floor   finished
  ceiling 8'
  counter 36" thick 1 1/2"
  wall north length {wall}
  wall east  length {wall}
  {angle}
}}
{runs}
"""

RIGHT = """
run one on north from left {up} {{
  space share
  S2: {unit}
}}
run two on east after S2 {up} {{
  {around}
  S3: {beside}
  space share
}}
"""

LEFT = """
run two on east from left {up} {{
  S2: {unit}
  space share
}}
run one on north from left before S2 {up} {{
  space share
  S3: {beside}
  {around}
}}
"""


@cache
def in_corner(
    unit: str,
    built: str = "frameless",
    hand: str = "right",
    measure: str = "inches",
    angle: str = "",
    more: str = "",
    around: str = "",
) -> Compiled:
    """A unit, `S2`, in a corner on its run's right or left, with one beside it around the corner;
    its other end is seen. `more` are further declarations, `around` a line of the run around the
    corner that stands right beside the unit."""
    up, beside = ("up 54", 'wall_open 18"') if "wall" in unit else ("", 'open_base 18"')
    runs = (RIGHT if hand == "right" else LEFT).format(
        unit=unit, up=up, beside=beside, around=around
    )
    wall = "9'" if measure == "inches" else "2700"
    text = KITCHEN.format(
        built=built, runs=f"{more}\n{runs}", measure=measure, wall=wall, angle=angle
    )
    return compile_job(world_of({"kitchen.case": text}, InstalledLibrary()), "kitchen.case")


def errors(found: Compiled) -> list[str]:
    return [each.headline for each in found.findings if each.severity.value == "error"]


def unit_of(found: Compiled) -> Unit:
    """The unit in the corner."""
    assert found.job is not None, errors(found)
    unit = placed_of(found.job, "S2").unit
    assert unit is not None
    return unit
