"""Counter between two of sink, cooking, cold and oven: one landing that serves both."""

from collections.abc import Iterator
from fractions import Fraction

from casewright.compiler.check.measured import (
    Measured,
    carries_counter,
    landings,
    main_sink,
    quantity,
)
from casewright.compiler.check.site import Site, Standing
from casewright.compiler.shop.yardstick import LENGTH

LANDINGS = {
    "sink": ("sink_landing_wide", "sink_landing_narrow"),
    "second_sink": ("second_sink_landing_wide", "second_sink_landing_narrow"),
    "cooking": ("cooking_landing_wide", "cooking_landing_narrow"),
    "cold": ("cold_landing",),
    "baking": ("oven_landing",),
}
"""The limits on a thing's landings by what it serves: the wider side's, and the other's."""


@quantity(
    "shared_landing",
    LENGTH,
    "shared-landing-ruled",
    doc=(
        "Counter that is the landing of two things at once is too little longer than the longer of "
        "their landings."
    ),
    why="A hot pan comes out while the sink's side is full of plates.",
    bad="""
    use plain_room
    rule_pack trial {
      limit cooking_landing_wide   least 15
      limit cold_landing           least 10
      limit shared_landing         least 12
    }
    appliance range  { wide 20  high 36  depth 24  serves cooking  confirmed  handle 2 }
    appliance fridge { wide 20  high 70  depth 24  serves cold     confirmed  handle 2 }
    run cooks on north from left {
      C1: range 20
      S1: open_base 26
      C2: fridge 20
      space share
    }
    """,
    good={"open_base 26": "open_base 27"},
)
def shared_landing(site: Site) -> Iterator[Measured]:
    """How much longer the counter between two things is than the longer of the landings that the
    job's rules ask for there (planning guideline 24: it is to be 12)."""
    for _, row in site.rows:
        before: Standing | None = None
        wide = Fraction(0)
        for standing in row:
            if carries_counter(standing):
                wide += standing.placed.width.value
                continue
            if before is not None and wide > 0:
                wanted = (_wanted(site, before, 0), _wanted(site, standing, 1))
                if all(wanted):
                    words = f"counter that {before.name} and {standing.name} share, over the longer"
                    beyond = wide - max(wanted)
                    yield Measured(beyond, f"{words} landing", standing.line, (standing,))
            before = standing if LANDINGS.keys() & set(standing.stands.serves) else None
            wide = Fraction(0)


def _wanted(site: Site, standing: Standing, away: int) -> Fraction:
    """The landing that rules ask for on one side of a thing; `away` is the other side, 0 its left:
    where that is long enough for the wider landing, this side has to be the other one, or none."""
    wanted = Fraction(0)
    second = standing is not site.once(main_sink)
    for serves in standing.stands.serves:
        role = "second_sink" if serves == "sink" and second else serves
        wider, *other = (_least(site, word) for word in LANDINGS.get(role, ()) or ("",))
        there = landings(site, standing)[away]
        wanted = max(wanted, wider if there < wider else max(other, default=Fraction(0)))
    return wanted


def _least(site: Site, word: str) -> Fraction:
    """What the job's rules ask for at least of a quantity; nothing where they don't name it."""
    return max(
        (
            limit.least.value
            for pack in site.yardstick.packs
            for limit in pack.limits
            if limit.quantity == word and limit.least is not None
        ),
        default=Fraction(0),
    )
