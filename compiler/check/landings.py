"""Counter beside cooking, ovens and cold that rule packs ask for: landings."""

from collections.abc import Iterator

from casewright.compiler.check.measured import (
    Measured,
    landings,
    quantity,
    serving,
)
from casewright.compiler.check.site import Site
from casewright.compiler.shop.yardstick import LENGTH


@quantity(
    "cooking_landing_wide",
    LENGTH,
    "cooking-landing-ruled",
    doc="The larger free counter beside a cooking surface is shorter than a rule asks for.",
    why="A hot pan has nowhere to go.",
    bad="""
    use plain_room
    rule_pack trial { limit cooking_landing_wide least 30 }
    appliance range { wide 30  high 36  depth 24  serves cooking  confirmed  handle 2 }
    run cooks on north from left {
      S1: open_base 16
      C1: range 30
      S3: open_base share
    }
    """,
    good={"least 30": "least 15"},
)
def cooking_landing_wide(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "cooking"):
        words = f"free counter on the better side of {standing.name}"
        yield Measured(max(landings(site, standing)), words, standing.line, (standing,))


@quantity(
    "cooking_landing_narrow",
    LENGTH,
    "cooking-other-landing-ruled",
    doc="The smaller free counter beside a cooking surface is shorter than a rule asks for.",
    why="Handles stick out into the room.",
    bad="""
    use plain_room
    rule_pack trial { limit cooking_landing_narrow least 12 }
    appliance range { wide 30  high 36  depth 24  serves cooking  confirmed  handle 2 }
    run cooks on north from left {
      S1: open_base 11
      C1: range 30
      S3: open_base share
    }
    """,
    good={"open_base 11": "open_base 14"},
)
def cooking_landing_narrow(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "cooking"):
        words = f"free counter on the other side of {standing.name}"
        yield Measured(min(landings(site, standing)), words, standing.line, (standing,))


@quantity(
    "cold_landing",
    LENGTH,
    "cold-landing-ruled",
    doc="Free counter beside a refrigerator is shorter than a rule asks for.",
    why="Its door is held with a knee while hands are full.",
    bad="""
    use plain_room
    rule_pack trial { limit cold_landing least 30 }
    appliance fridge { wide 30  high 70  depth 24  serves cold  confirmed  handle 2 }
    run cooks on north from left {
      S1: open_base 16
      C1: fridge 30
      S3: open_base share
    }
    """,
    good={"least 30": "least 15"},
)
def cold_landing(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "cold"):
        words = f"free counter beside {standing.name}"
        yield Measured(max(landings(site, standing)), words, standing.line, (standing,))


@quantity(
    "oven_landing",
    LENGTH,
    "oven-landing-ruled",
    doc="Free counter beside an oven is shorter than a rule asks for.",
    why="A hot dish has to be set down at once.",
    bad="""
    use plain_room
    rule_pack trial { limit oven_landing least 15 }
    appliance oven { wide 30  high 34 1/2  depth 24  serves baking  confirmed  handle 2 }
    run sink_wall on north from left length 44 {
      C1: oven 30
      S1: open_base share
    }
    """,
    good={"length 44": "length 45"},
)
def oven_landing(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "baking"):
        words = f"free counter beside {standing.name}"
        yield Measured(max(landings(site, standing)), words, standing.line, (standing,))
