"""Small texts for what is bought: a bench wall with planks, and the tack room of the examples."""

from functools import cache
from pathlib import Path

from casewright.compiler.commands.world import open_project
from casewright.compiler.compile import compile_job
from casewright.compiler.model import Job
from casewright.compiler.shop.reckoning import ShopWork, shop_work
from tests.compiler.examples import compiled

ROOT = Path(__file__).parents[2]
TACK_ROOM = ROOT / "examples" / "tack_room" / "tack_room.case"

PLANKS = """
measure in inches

job Planks {
  precision 1/32
}

room loft {
  ceiling 400
  counter 36 thick 1 1/2
  wall long length %(length)s
}

lumber oak { thick %(thick)s  grain yes }

construction bare from nothing_else { }
construction nothing_else { }
%(unit)s
run wall on long from left {
%(units)s
}
%(more)s
"""

PLANK = """
unit plank  bare  built nothing_else  {
  high  %(high)s
  depth %(thick)s
  part board of oak  deep from front  grain up
  step board
}
"""


def planks(
    count: int = 1,
    *,
    wide: str = "6",
    high: str = "96",
    thick: str = "3/4",
    more: str = "",
    unit: str = PLANK,
) -> Job:
    """A run of equal planks of one lumber, each a single board (or whatever `unit` says)."""
    length = str(int(wide) * count)
    units = "\n".join(f"  S{index}: plank {wide}" for index in range(1, count + 1))
    text = PLANKS % {
        "length": length, "thick": thick, "units": units, "more": more,
        "unit": unit % {"high": high, "thick": thick} if unit == PLANK else unit,
    }  # fmt: skip
    built = compiled({"planks.case": text.encode()}, "planks.case")
    assert [each.headline for each in built.findings if each.severity.value == "error"] == []
    assert built.job is not None
    return built.job


@cache
def tack_room() -> tuple[Job, ShopWork]:
    """The tack room with its plans, its buying list and its estimate."""
    world, entry = open_project(TACK_ROOM)
    built = compile_job(world, entry)
    assert built.job is not None
    work, findings = shop_work(built.job)
    assert findings == ()
    return built.job, work
