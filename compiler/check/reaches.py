"""What hands reach from a wheelchair, as standards of access limit it."""

from collections.abc import Iterator
from fractions import Fraction

from casewright.compiler.check.measured import LOW, Measured, outlets, over, quantity
from casewright.compiler.check.site import Site, Standing, assemblies, parts
from casewright.compiler.joints.oblique import volume_of
from casewright.compiler.shop.yardstick import COUNT, LENGTH

HUNG = "wall_unit"

LOWEST, HIGHEST = Fraction(15), Fraction(48)
"""What hands reach from a wheelchair, the way free (2010 ADA Standards, 308.2.1, 308.3.1)."""

SHALLOW = Fraction(10)
"""What stands before it and is no deeper hinders no reach from the side (308.3.1, 308.3.2)."""

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
    doc="The lowest shelf of a unit over a counter deeper than 10 is higher than a rule lets "
    "anyone reach.",
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
    yield from (found for found, free in _lowest_shelves(site) if not free)


@quantity(
    "reach_up_free",
    LENGTH,
    "reach-up-free-ruled",
    doc="The lowest shelf of a unit on the wall, with nothing deeper than 10 before it, is higher "
    "than a rule lets anyone reach.",
    why="It can't be reached from a wheelchair, though nothing stands in the way.",
    bad="""
    use plain_room
    rule_pack trial { limit reach_up_free most 48  basis access }
    run uppers on north from left length 32 up 48 {
      filler 2
      U1: wall_unit share  high 18  hung left
    }
    """,
    good={"up 48": "up 47"},
)
def reach_up_free(site: Site) -> Iterator[Measured]:
    yield from (found for found, free in _lowest_shelves(site) if free)


def _lowest_shelves(site: Site) -> Iterator[tuple[Measured, bool]]:
    """The lowest shelf of each unit on the wall, and whether the way to it is free."""
    for standing in site.standings:
        if standing.role == HUNG and standing.unit is not None:
            floor = min((part.box.up[1] for part in parts(standing.unit, "floor")), default=None)
            if floor is not None:
                words = f"lowest shelf of {standing.name}"
                high = Measured(standing.low + floor, words, standing.line, (standing,))
                yield high, _is_free(site, standing.run.wall, standing.left, standing.right)


def _is_free(site: Site, wall: str, left: Fraction, right: Fraction) -> bool:
    """Whether nothing deep stands on the floor before a stretch of a wall."""
    return not any(
        other.low == 0
        and other.placed.kind != "space"
        and other.depth > SHALLOW
        and other.left < right
        and left < other.right
        for other in site.on_wall.get(wall, ())
    )


@quantity(
    "outlet_reach_over",
    LENGTH,
    "outlet-reach-over-ruled",
    doc="An outlet over a counter deeper than 10 is higher than a rule lets anyone reach.",
    why="From a wheelchair nobody plugs in a kettle.",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 34 thick 1 1/2
      wall north length 72 {
        outlet at 20 up 47
      }
    }
    rule_pack trial { limit outlet_reach_over most 46  basis access }
    run sink_wall on north from left length 48 {
      S1: open_base share
    }
    """,
    good={"up 47": "up 46"},
)
def outlet_reach_over(site: Site) -> Iterator[Measured]:
    for wall in site.job.room.walls:
        for outlet in outlets(site, wall.name):
            if not _is_free(site, wall.name, outlet.at.value, outlet.at.value + outlet.wide.value):
                yield Measured(outlet.up.value, f"height of {outlet.name}", outlet.span)


@quantity(
    "outlet_free_height",
    LENGTH,
    "outlet-free-height-ruled",
    doc="An outlet of a wall with nothing deeper than 10 before it is lower or higher than a rule "
    "lets anyone reach.",
    why="It can't be reached from a wheelchair, though nothing stands in the way.",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        outlet at 60 up 12
      }
    }
    rule_pack trial { limit outlet_free_height least 15  most 48  basis access }
    run sink_wall on north from left length 48 {
      S1: open_base share
    }
    """,
    good={"up 12": "up 15"},
)
def outlet_free_height(site: Site) -> Iterator[Measured]:
    for wall in site.job.room.walls:
        for outlet in wall.features:
            if outlet.kind == "outlet" and _is_free(
                site, wall.name, outlet.at.value, outlet.at.value + outlet.wide.value
            ):
                yield Measured(outlet.up.value, f"height of {outlet.name}", outlet.span)


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
            yield standing.low + part.box.up[1], volume_of(part) / part.box.size("up")
