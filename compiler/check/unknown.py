"""What the text doesn't say, and a colleague would ask: never taken as clear."""

from collections.abc import Iterator
from itertools import pairwise

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.site import Site, Standing, figure, length, parts
from casewright.lang.findings import Severity

ASKS = "UNKNOWN"


@check(
    "floor-unsaid",
    Severity.ADVICE,
    doc="Nothing says whether heights are from the finished floor.",
    why="The floor tiled later takes its thickness from every height, and the dishwasher's.",
    mend="Say `floor finished` in the room, or `floor rough finish` and what is still to be laid.",
    source="common practice",
    bad="""
    room galley {
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72
    }
    run sink_wall on north from left length 20 {
      S1: open_base 20
    }
    """,
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72
    }
    run sink_wall on north from left length 20 {
      S1: open_base 20
    }
    """,
)
def floor_unsaid(site: Site) -> Iterator[Report]:
    if site.yardstick.floor_said or not site.yardstick.allowances or not site.standings:
        return
    walls = site.job.room.walls
    yield Report(
        f"{ASKS}: whether heights are from the finished floor",
        walls[0].span if walls else None,
        help="say floor finished in the room, or floor rough finish and what is still to be laid",
    )


@check(
    "appliance-unconfirmed",
    Severity.ADVICE,
    doc="The sizes of an appliance aren't confirmed from its maker's sheet.",
    why="An appliance swapped after cutting costs a run of boxes.",
    mend="Read the sheet, correct the sizes, and say `confirmed` on the appliance's line.",
    source="common practice",
    bad="""
    use plain_room
    run sink_wall on north from left length 28 {
      space 2
      S1: dishwasher 24
      space 2
    }
    """,
    good={"dishwasher 24": "dishwasher 24  confirmed"},
)
def appliance_unconfirmed(site: Site) -> Iterator[Report]:
    for standing in site.standings:
        if standing.placed.kind != "appliance" or standing.stands.confirmed:
            continue
        if site.yardstick.allowances:
            yield Report(
                f"{ASKS}: the sizes of {standing.name} aren't confirmed from its maker's sheet",
                standing.line,
                (standing,),
                help=f"read the sheet, then say confirmed on the line of {standing.name}",
            )


@check(
    "handle-unsaid",
    Severity.ADVICE,
    doc="Nothing says how far an appliance's handle stands out, and another run's drawers pass it.",
    why="A drawer against a range's handle in the corner is found when the range is delivered.",
    mend="Say `handle` and a length on the appliance.",
    source="common practice",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall west  length 60
      wall north length 72
    }
    appliance range { wide 30  high 36  depth 24  serves cooking }
    run west_wall on west from right length 50 {
      W1: range 20  confirmed
      space 30
    }
    run sink_wall on north from left length 50 {
      space 28
      S1: drawer_base 20
      space 2
    }
    """,
    good={"serves cooking": "serves cooking  handle 2"},
)
def handle_unsaid(site: Site) -> Iterator[Report]:
    corners = {(corner.first, corner.second) for corner in site.job.room.corners}
    around = {wall for pair in corners for wall in pair}
    drawers = {
        standing.run.wall
        for standing in site.standings
        if standing.unit is not None and any(each.motion for each in standing.unit.assemblies)
    }
    for standing in site.standings:
        if standing.placed.kind != "appliance" or standing.stands.handle is not None:
            continue
        wall = standing.run.wall
        near = {b for a, b in corners if a == wall} | {a for a, b in corners if b == wall}
        handled = set(standing.stands.serves) & {"cooking", "cold", "baking"}
        if handled and wall in around and near & drawers and site.yardstick.allowances:
            yield Report(
                f"{ASKS}: how far the handle of {standing.name} stands out",
                standing.line,
                (standing,),
                help="say handle and a length on the appliance; drawers around the corner pass it",
            )


@check(
    "stiffness-unknown",
    Severity.ADVICE,
    doc="A shelf's material says nothing of its stiffness, so its sag isn't known.",
    why="A shelf that isn't reckoned isn't a shelf that holds.",
    mend="Add `modulus` to the material, from its maker's sheet.",
    source="common practice",
    bad="""
    use plain_room
    sheet plain_board { thick 3/4  stock 49 by 97  grain none  density 45 }
    run sink_wall on north from left length 20 {
      S1: open_base 20  shelves 1  case plain_board
    }
    """,
    good={"density 45": "density 45  modulus 400000"},
)
def stiffness_unknown(site: Site) -> Iterator[Report]:
    if site.allowance("shelf_load") is None:
        return
    told: set[str] = set()
    for unit, standings in site.units:
        for part in parts(unit, "shelf"):
            goods = site.goods(part.material.kind, part.material.name)
            if goods is None or "modulus" in goods.figures or goods.name in told:
                continue
            told.add(goods.name)
            yield Report(
                f"{ASKS}: how stiff {goods.title} is, so whether its shelves sag",
                standings[0].line,
                (standings[0],),
                help=f"add modulus to {goods.kind} {goods.name}",
            )


@check(
    "figure-past-unit",
    Severity.ADVICE,
    doc="Fronts that match within a unit stand beside fronts of another unit of the same sheet.",
    why="Each unit's fronts are cut from one piece; nothing says that the next unit's follow on.",
    mend="Say `along run` in the sheet; or agree with the customer where the figure may break, and "
    "accept the finding.",
    source="common practice",
    bad="""
    use plain_room
    sheet walnut { thick 3/4  stock 48 by 96  grain yes  density 42  matches front }
    run sink_wall on north from left length 44 {
      filler 2
      S1: drawer_base 20  fronts walnut
      S2: drawer_base 20  fronts walnut
      filler 2
    }
    """,
    good={"S2: drawer_base 20  fronts walnut": "S2: open_base 20"},
)
def figure_past_unit(site: Site) -> Iterator[Report]:
    for _, row in site.rows:
        pairs = [
            (left, right)
            for left, right in pairwise(row)
            if left.right == right.left and _matching(site, left) & _matching(site, right)
        ]
        if pairs:
            left, right = pairs[0]
            about = {id(each): each for pair in pairs for each in pair}
            yield Report(
                f"{ASKS}: whether the figure runs on from {left.name} to {right.name}",
                right.line,
                tuple(about.values()),
                help="let it run on (along run, in the sheet), or agree where it may break and "
                "accept this with the reason",
            )


def _matching(site: Site, standing: Standing) -> frozenset[str]:
    """The sheets that match among a unit's fronts, and no farther."""
    unit = standing.unit
    named = {part.material.name for part in parts(unit, "front")} if unit is not None else set()
    goods = [site.goods("sheet", name) for name in named]
    return frozenset(
        each.name
        for each in goods
        if each and each.words.get("matches") == "front" and each.words.get("along") != "run"
    )


@check(
    "thinner-than-named",
    Severity.ADVICE,
    doc="A sheet is thinner, or thicker, than the size it is sold as.",
    why="Whatever was bought or ploughed for its name is loose on it, or doesn't go on.",
    mend="Measure each delivery, and order routers, dados and edges for the thickness it has.",
    source="arithmetic: the size it is `sold_as` less its `thick`",
    bad="""
    use plain_room
    sheet thin_ply { thick 23/32  sold_as 3/4  stock 48 by 96  grain yes  density 42 }
    run sink_wall on north from left length 28 {
      filler 2
      S1: open_base 24  case thin_ply
      filler 2
    }
    """,
    good={"thick 23/32": "thick 3/4"},
)
def thinner_than_named(site: Site) -> Iterator[Report]:
    told: set[str] = set()
    for unit, standings in site.units:
        for name in dict.fromkeys(part.material.name for part in unit.parts):
            goods = site.goods("sheet", name)
            sold = goods.figures.get("sold_as") if goods is not None else None
            thick = goods.figures.get("thick") if goods is not None else None
            if goods is None or sold is None or thick is None or name in told:
                continue
            told.add(name)
            if sold.value == thick.value:
                continue
            by = abs(sold.value - thick.value)
            word = "thinner" if thick.value < sold.value else "thicker"
            yield Report(
                f"{goods.title} is {site.say(by)} {word} than it is sold as",
                standings[0].line,
                (standings[0],),
                (
                    figure("sold as", sold),
                    figure("it is", thick),
                    length("differs by", by, ruled=True),
                ),
                help="order what fits it by the thickness it has",
            )
