"""Areas of shelf, drawer and counter in square feet, as old property standards ask for them."""

from collections.abc import Iterator
from fractions import Fraction

from casewright.compiler.check.measured import (
    LOW,
    Measured,
    carries_counter,
    quantity,
    serving,
)
from casewright.compiler.check.site import Site, Standing, assemblies, parts
from casewright.compiler.joints.oblique import volume_of
from casewright.compiler.shop.yardstick import COUNT

HUNG = "wall_unit"
FOOT_SQUARED = 144

WIDE_RANGE = Fraction(39)
RANGE_SHELF, RANGE_COUNTER = Fraction(4), Fraction(2)
"""A range so wide counts for as many square feet of shelf under the counter, and of counter (FHA
Minimum Property Standards, rev. July 1959)."""

EIGHTH = Fraction(1, 8)


def _shelf(standing: Standing) -> Fraction:
    """Square feet of a unit's shelves; its floor is one, unless drawers stand on it."""
    unit = standing.unit
    if unit is None or standing.placed.kind != "unit":
        return Fraction(0)
    roles = ("shelf",) if any(assemblies(unit, "tray")) else ("shelf", "floor")
    areas = (
        volume_of(part) / part.box.size("up")
        for part in parts(unit, *roles)
        if part.thick_axis == "up"
    )
    return sum(areas, Fraction(0)) / FOOT_SQUARED


def _wide_ranges(site: Site) -> int:
    return sum(1 for each in serving(site, "cooking") if each.placed.width.value >= WIDE_RANGE)


def _found(site: Site, area: Fraction, words: str) -> Iterator[Measured]:
    """To an eighth, down; of a kitchen in which something stands."""
    if site.standings:
        value = (area / EIGHTH).__floor__() * EIGHTH
        yield Measured(value, f"square feet of {words}", site.standings[0].line)


@quantity(
    "shelf_area",
    COUNT,
    "shelf-area-ruled",
    doc="The shelves together have less area, in square feet, than a rule asks for. A floor is a "
    "shelf unless drawers stand on it; a range of 39 and more counts for 4.",
    why="Boxes in the hall.",
    bad="""
    use plain_room
    rule_pack trial { limit shelf_area least 50  basis code }
    run sink_wall on north from left length 44 {
      S1: open_base 44
    }
    """,
    good={"least 50": "least 6"},
)
def shelf_area(site: Site) -> Iterator[Measured]:
    shelves = sum((_shelf(each) for each in site.standings), Fraction(0))
    yield from _found(site, shelves + RANGE_SHELF * _wide_ranges(site), "shelf")


@quantity(
    "shelf_area_hung",
    COUNT,
    "hung-shelf-area-ruled",
    doc="The shelves on the wall together have less area, in square feet, than a rule asks for.",
    why="Plates stand where pots should.",
    bad="""
    use plain_room
    rule_pack trial { limit shelf_area_hung least 20  basis code }
    run uppers on north from left length 40 {
      filler 2
      U1: wall_unit 20  hung left  shelves 1
      filler share
    }
    """,
    good={"least 20": "least 3"},
)
def shelf_area_hung(site: Site) -> Iterator[Measured]:
    hung = sum((_shelf(each) for each in site.standings if each.role == HUNG), Fraction(0))
    yield from _found(site, hung, "shelf on the wall")


@quantity(
    "shelf_area_low",
    COUNT,
    "low-shelf-area-ruled",
    doc="The shelves under the counter together have less area, in square feet, than a rule asks "
    "for. A range of 39 and more counts for 4.",
    why="Pots stand on the counter.",
    bad="""
    use plain_room
    rule_pack trial { limit shelf_area_low least 20  basis code }
    run sink_wall on north from left length 44 {
      S1: open_base 44
    }
    """,
    good={"least 20": "least 6"},
)
def shelf_area_low(site: Site) -> Iterator[Measured]:
    low = sum((_shelf(each) for each in site.standings if each.role == LOW), Fraction(0))
    yield from _found(site, low + RANGE_SHELF * _wide_ranges(site), "shelf under the counter")


@quantity(
    "drawer_area",
    COUNT,
    "drawer-area-ruled",
    doc="The bottoms of all drawers together have less area, in square feet, than a rule asks for.",
    why="Forks lie in a jar.",
    bad="""
    use plain_room
    rule_pack trial { limit drawer_area least 16  basis code }
    run sink_wall on north from left length 44 {
      space 2
      S1: drawer_base 20
      S2: drawer_base 20
      space 2
    }
    """,
    good={"least 16": "least 11"},
)
def drawer_area(site: Site) -> Iterator[Measured]:
    total = Fraction(0)
    for standing in site.standings:
        for tray in assemblies(standing.unit, "tray") if standing.unit is not None else ():
            total += tray.extents.box.size("across") * tray.extents.box.size("deep") / FOOT_SQUARED
    yield from _found(site, total, "drawer bottoms")


@quantity(
    "counter_area",
    COUNT,
    "counter-area-ruled",
    doc="The counters together have less area, in square feet, than a rule asks for: what stands "
    "under them, by its width and depth. A range of 39 and more counts for 2.",
    why="Dough is rolled on the table.",
    bad="""
    use plain_room
    rule_pack trial { limit counter_area least 11  basis code }
    run sink_wall on north from left {
      S1: open_base 36
      S2: sink_base 30  hung right
      space share
    }
    """,
    good={"least 11": "least 5"},
)
def counter_area(site: Site) -> Iterator[Measured]:
    total = sum(
        (
            each.placed.width.value * each.depth / FOOT_SQUARED
            for each in site.standings
            if each.low == 0 and carries_counter(each)
        ),
        Fraction(0),
    )
    yield from _found(site, total + RANGE_COUNTER * _wide_ranges(site), "counter")
