"""Small texts for what is bought: a bench wall with planks, and the tack room of the examples."""

from functools import cache
from pathlib import Path

from casewright.compiler.commands.world import InstalledLibrary, open_project
from casewright.compiler.compile import Compiled, compile_job
from casewright.compiler.model import Job
from casewright.compiler.shop.reckoning import ShopWork, shop_work
from casewright.compiler.world import HeldWorld
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


CHOICES = """
measure in inches

job Choices {
  precision 1/32
  built     shop
}

room loft {
  ceiling 96
  counter 36 thick 1 1/2
  wall long length 60
}

saw bench { kerf 1/8 }

sheet board { thick 3/4  stock 48 by 96  grain none }
sheet broad { thick 3/4  stock 49 by 97  grain none }

construction shop {
  option wood  sheet = board
  option backs choice one two sideways = two
  part skin of broad  deep from front
  part front_panel of wood  deep from skin
  when backs is two {
    part back_panel of wood  deep from front_panel
    join back_panel to front_panel
  }
  when backs is sideways { part lost of board  across 3 }
  join front_panel to skin
  step skin front_panel back_panel
}

unit cupboard { high 30  depth 2 1/4 }

run wall on long from left {
  S1: cupboard 24
  S2: cupboard share
}

rates shop_rates {
  currency usd
  wage     30
  overhead 10%
  margin   20%
  tax      5%
  price board 40 per sheet
  price broad 42 per sheet
  labour gluing 10min per piece
}
"""
"""A kitchen of two cupboards with a choice in their construction; every piece is ten minutes."""


def choices(text: str = CHOICES) -> tuple[HeldWorld, Compiled]:
    """The kitchen of CHOICES, or of a text made from it, and what comes of it."""
    world = HeldWorld({"choices.case": text.encode()}, InstalledLibrary())
    return world, compile_job(world, "choices.case")
