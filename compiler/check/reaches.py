"""What hands reach from a wheelchair, as standards of access limit it."""

from collections.abc import Iterator
from fractions import Fraction

from casewright.compiler.check.measured import LOW, Measured, over, quantity
from casewright.compiler.check.site import Site, Standing, assemblies, parts
from casewright.compiler.shop.yardstick import COUNT, LENGTH

HUNG = "wall_unit"

LOWEST, HIGHEST = Fraction(15), Fraction(48)
"""What hands reach from a wheelchair, the way free (2010 ADA Standards, 308.2.1, 308.3.1)."""

OVER_A_COUNTER = Fraction(46)
COUNTER_MOST = Fraction(34)
"""From the side over a counter no higher than this they reach so high; over a higher one, nothing
(308.3.2)."""

TENTH = Fraction(1, 10)


@quantity(
    "reach_over",
    LENGTH,
    "reach-over-ruled",
    doc=(
        "What stands before a shelf on the wall is higher than a rule lets anyone reach over "
        "from the side."
    ),
    why="From a wheelchair the shelf can't be reached at all, however low it is.",
    bad="""
    use plain_room
    rule_pack trial { limit reach_over most 34  basis access }
    run uppers on north from left length 32 up 54 {
      filler 2
      U1: wall_unit share  high 18  hung left
    }
    run sink_wall on north from left length 32 {
      S1: open_base share
    }
    """,
    good={"most 34": "most 36"},
)
def reach_over(site: Site) -> Iterator[Measured]:
    counter = site.job.room.counter.value
    for standing in site.standings:
        if standing.role == LOW and counter > 0:
            for other in over(site, standing):
                words = f"counter one has to reach over to {other.name}"
                yield Measured(counter, words, other.line, (other,))


@quantity(
    "reach_up",
    LENGTH,
    "reach-up-ruled",
    doc="The lowest shelf of a unit over a counter is higher than a rule lets anyone reach.",
    why="It can't be reached from a wheelchair.",
    bad="""
    use plain_room
    rule_pack trial { limit reach_up most 46  basis access }
    run uppers on north from left length 32 up 54 {
      filler 2
      U1: wall_unit share  high 18  hung left
    }
    run sink_wall on north from left length 32 {
      S1: open_base share
    }
    """,
    good={"most 46": "most 60"},
)
def reach_up(site: Site) -> Iterator[Measured]:
    for standing in site.standings:
        if standing.role == HUNG and standing.unit is not None:
            floor = min((part.box.up[1] for part in parts(standing.unit, "floor")), default=None)
            if floor is not None:
                words = f"lowest shelf of {standing.name}"
                yield Measured(standing.low + floor, words, standing.line, (standing,))


@quantity(
    "shelf_in_reach",
    COUNT,
    "shelf-in-reach-ruled",
    doc="Less of the shelves is within reach than a rule asks for.",
    why="Whoever sits in a wheelchair asks for every plate.",
    bad="""
    use plain_room
    rule_pack trial { limit shelf_in_reach least 50  basis access }
    run sink_wall on north from left length 32 {
      S1: open_base share
    }
    """,
    good={"open_base share": "open_base share  shelves 2"},
)
def shelf_in_reach(site: Site) -> Iterator[Measured]:
    """Of a hundred parts of shelf, by area, how many lie at a height that hands reach; a box's
    floor is a shelf unless drawers stand on it. To a tenth, down."""
    counter = site.job.room.counter.value
    behind = {
        id(other)
        for standing in site.standings
        if standing.low == 0 and standing.placed.kind != "space"
        for other in over(site, standing)
    }
    whole = reached = Fraction(0)
    first: Standing | None = None
    for standing in site.standings:
        highest = HIGHEST
        if id(standing) in behind:
            highest = OVER_A_COUNTER if counter <= COUNTER_MOST else Fraction(0)
        for high, area in _shelves(standing):
            first = first or standing
            whole += area
            reached += area if LOWEST <= high <= highest else 0
    if first is not None:
        share = (reached / whole * 100 / TENTH).__floor__() * TENTH
        yield Measured(share, "of 100 parts of shelf, within reach", first.line)


def _shelves(standing: Standing) -> Iterator[tuple[Fraction, Fraction]]:
    """The height above the floor and the area of each shelf of a unit."""
    unit = standing.unit
    if unit is None or standing.placed.kind != "unit":
        return
    roles = ("shelf",) if any(assemblies(unit, "tray")) else ("shelf", "floor")
    for part in parts(unit, *roles):
        if part.thick_axis == "up":
            area = part.box.size("across") * part.box.size("deep")
            yield standing.low + part.box.up[1], area
