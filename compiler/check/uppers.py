"""What hangs on the wall, as rule packs limit it: depth, highest shelf, what it hangs by."""

from collections.abc import Iterator

from casewright.compiler.check.measured import Measured, over, quantity, serving, surface
from casewright.compiler.check.site import Site, Standing, parts
from casewright.compiler.model import Part
from casewright.compiler.shop.yardstick import LENGTH

HUNG = "wall_unit"


def _hung(site: Site) -> Iterator[Standing]:
    return (each for each in site.standings if each.role == HUNG and each.placed.kind == "unit")


@quantity(
    "upper_depth",
    LENGTH,
    "upper-depth-ruled",
    doc="A unit on the wall is deeper or shallower than a rule allows.",
    why="Whoever leans over the counter knocks a head on it.",
    bad="""
    use plain_room
    rule_pack trial { limit upper_depth most 12  basis practice }
    run uppers on north from left length 32 {
      filler 2
      U1: wall_unit share  high 18  hung left
    }
    """,
    good={"most 12": "most 13"},
)
def upper_depth(site: Site) -> Iterator[Measured]:
    for standing in _hung(site):
        yield Measured(standing.depth, f"depth of {standing.name}", standing.line, (standing,))


@quantity(
    "shelf_highest",
    LENGTH,
    "shelf-highest-ruled",
    doc="The highest shelf of a unit on the wall is higher than a rule counts.",
    why="Nobody reaches it without a stool.",
    bad="""
    use plain_room
    rule_pack trial { limit shelf_highest most 60  basis code }
    run uppers on north from left length 40 {
      filler 2
      U1: wall_unit share  high 18  hung left  shelves 1
    }
    """,
    good={"most 60": "most 65"},
)
def shelf_highest(site: Site) -> Iterator[Measured]:
    for standing in _hung(site):
        boards = parts(standing.unit, "shelf", "floor") if standing.unit is not None else ()
        tops = [part.box.up[1] for part in boards]
        if tops:
            words = f"highest shelf of {standing.name}"
            yield Measured(standing.low + max(tops), words, standing.line, (standing,))


def _rails(standing: Standing) -> tuple[Part, ...]:
    return tuple(parts(standing.unit, "hanging")) if standing.unit is not None else ()


@quantity(
    "hanging_rail_high",
    LENGTH,
    "rail-height-ruled",
    doc="A rail that a unit hangs by is lower than a rule asks for.",
    why="Its screws split it along their line.",
    bad="""
    use plain_room
    rule_pack trial { limit hanging_rail_high least 2 1/2 }
    run uppers on north from left length 32 {
      filler 2
      U1: wall_unit share  high 18  hung left  cleat_high 2
    }
    """,
    good={"cleat_high 2": "cleat_high 2 1/2"},
)
def hanging_rail_high(site: Site) -> Iterator[Measured]:
    for standing in _hung(site):
        sizes = [part.box.size("up") for part in _rails(standing)]
        if sizes:
            words = f"height of the rail of {standing.name}"
            yield Measured(min(sizes), words, standing.line, (standing,))


@quantity(
    "hanging_rail_thick",
    LENGTH,
    "rail-thickness-ruled",
    doc="A rail that a unit hangs by is thinner than a rule asks for.",
    why="The screw's head pulls through it.",
    bad="""
    use plain_room
    rule_pack trial { limit hanging_rail_thick least 7/8 }
    run uppers on north from left length 32 {
      filler 2
      U1: wall_unit share  high 18  hung left
    }
    """,
    good={"least 7/8": "least 1/2"},
)
def hanging_rail_thick(site: Site) -> Iterator[Measured]:
    for standing in _hung(site):
        sizes = [part.box.size("deep") for part in _rails(standing)]
        if sizes:
            words = f"thickness of the rail of {standing.name}"
            yield Measured(min(sizes), words, standing.line, (standing,))


@quantity(
    "hood_over_cooking",
    LENGTH,
    "hood-over-cooking-ruled",
    doc="A hood hangs nearer over a cooking surface than a rule allows.",
    why="A protected underside may hang lower than a bare one, but not as low as one likes.",
    bad="""
    use plain_room
    rule_pack trial { limit hood_over_cooking least 24  basis code }
    appliance range { wide 30  high 36  depth 24  serves cooking  confirmed  handle 2 }
    run low on north from left length 34 {
      space 2
      C1: range 30
      space 2
    }
    run uppers on north from left length 34 up 58 {
      filler 2
      U1: wall_unit share  high 18  hung left  holds hood
      filler 2
    }
    """,
    good={"up 58": "up 60"},
)
def hood_over_cooking(site: Site) -> Iterator[Measured]:
    for standing in serving(site, "cooking"):
        for other in over(site, standing):
            if "hood" in other.stands.serves:
                words = f"from {standing.name} up to {other.name}"
                yield Measured(other.low - surface(site, standing), words, other.line, (other,))
