"""Whether it can be made: sheets and saws, grooves, panels that move, boxes a little too deep."""

from collections.abc import Iterator
from fractions import Fraction

from attrs import frozen

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.site import (
    Site,
    Standing,
    assemblies,
    figure,
    inside,
    length,
    parts,
)
from casewright.compiler.model import Axis, Blank, Material, Part, Saw, Stock, Unit
from casewright.lang.findings import Figure, Severity
from casewright.lang.measure import Dimension, Measure

SHEET, LUMBER = "sheet", "lumber"


def _usable(stock: Stock, saw: Saw | None) -> tuple[Fraction, Fraction]:
    """What is left of a sheet, width and length, when its factory edges are off."""
    trim = 2 * saw.trim.value if saw is not None else Fraction(0)
    return stock.width - trim, stock.length - trim


def _fits(part: Part | Blank, material: Material, stock: Stock, saw: Saw | None) -> bool:
    wide, long = _usable(stock, saw)
    width, tall = part.cut_width.value, part.cut_length.value
    if width <= wide and tall <= long:
        return True
    return not material.grained and width <= long and tall <= wide


@check(
    "part-larger-than-sheet",
    Severity.ERROR,
    doc="A part is larger than every sheet its material is bought in, the grain considered.",
    why="It can't be cut.",
    mend="Part it in two, choose a larger sheet, or turn the grain where that may be seen.",
    source="arithmetic: cut size against stock less trim",
    bad="""
    use plain_room
    sheet short_board { thick 3/4  stock 24 by 36  grain none  density 45  modulus 1800000 }
    run sink_wall on north from left length 42 {
      S1: open_base 42  case short_board  fronts short_board  backing short_board
    }
    """,
    good="""
    use plain_room
    sheet short_board { thick 3/4  stock 48 by 96  grain none  density 45  modulus 1800000 }
    run sink_wall on north from left length 42 {
      S1: open_base 42  case short_board  fronts short_board  backing short_board
    }
    """,
)
def larger_than_sheet(site: Site) -> Iterator[Report]:
    saw = site.job.saw
    for unit, standings in site.units:
        blanks = {blank.name: blank for blank in unit.blanks}
        told: set[str] = set()
        by_size = sorted(unit.parts, key=lambda part: -part.cut_length.value * part.cut_width.value)
        for part in by_size:
            material = part.material
            piece = blanks.get(part.blank, part)
            if part.hardware or material.kind != SHEET or not material.stock:
                continue
            if any(_fits(piece, material, stock, saw) for stock in material.stock):
                continue
            # The largest stands for the others of its material.
            if material.name in told:
                continue
            told.add(material.name)
            best = max(material.stock, key=lambda stock: stock.width * stock.length)
            wide, long = _usable(best, saw)
            yield Report(
                f"{_words(part)} is larger than any sheet of {material.title}",
                part.origin,
                standings,
                (
                    length("its length, cut", piece.cut_length.value),
                    length("the sheet has", long),
                    length("its width, cut", piece.cut_width.value),
                    length("the sheet has", wide),
                ),
                help="part it in two, or choose a larger sheet",
            )


def _words(part: Part) -> str:
    return part.address.replace("_", " ").replace(".", " ")


@check(
    "strip-too-narrow",
    Severity.WARNING,
    doc="A part is narrower than the shop rips against the fence, and isn't cut from a blank.",
    why="The hand comes too near the blade, and a narrow strip is slow to band.",
    mend="Cut it as a wider blank that is banded first and ripped afterwards: `rip`.",
    source="common practice; the least strip is the saw's own data",
    bad="""
    use plain_room
    run sink_wall on north from left length 24 {
      S1: open_base 24  cleat_high 1
    }
    """,
    good="""
    use plain_room
    run sink_wall on north from left length 24 {
      S1: open_base 24  cleat_high 3
    }
    """,
)
def too_narrow(site: Site) -> Iterator[Report]:
    saw = site.job.saw
    for unit, standings in site.units if saw is not None else ():
        for part in unit.parts:
            if saw is None or part.hardware or part.material.kind != SHEET or part.blank:
                continue
            # A filler falls off the edge of a wide piece, whatever its own width.
            if part.role == "filler":
                continue
            least = min(part.cut_width.value, part.cut_length.value)
            if least < saw.least.value:
                yield Report(
                    f"{_words(part)} is a strip of {site.say(least)}; "
                    f"{site.say(saw.least.value)} is the least that is ripped",
                    part.origin,
                    standings,
                    (
                        figure("the least the saw rips", saw.least),
                        length("it is", least),
                        length("too narrow by", saw.least.value - least, ruled=True),
                    ),
                    help="rip it from a wider blank",
                )
                break


@check(
    "groove-too-deep",
    Severity.WARNING,
    doc="A groove, dado or notch leaves less of the board than the shop wants.",
    why="The board breaks along it.",
    mend="Make it shallower, or the board thicker.",
    source="common practice; how much must stay is the shop's allowance",
    bad="""
    use plain_room
    construction ours from shop {
      assembly stand  across 10 centred  up 10 from box.floor  deep 6 centred {
        part left_post of fronts   across from left  grain up
        part right_post of fronts  across to right   grain up
        part rail of fronts  across left_post - 5/8 .. right_post + 5/8  up from bottom + 2
        join rail into left_post right_post
        step left_post rail right_post
      }
      join stand to box.floor with screwed
      step stand
    }
    run sink_wall on north from left length 24 {
      S1: open_base 24  built ours
    }
    """,
    good="""
    use plain_room
    construction ours from shop {
      assembly stand  across 10 centred  up 10 from box.floor  deep 6 centred {
        part left_post of fronts   across from left  grain up
        part right_post of fronts  across to right   grain up
        part rail of fronts  across left_post - 3/8 .. right_post + 3/8  up from bottom + 2
        join rail into left_post right_post
        step left_post rail right_post
      }
      join stand to box.floor with screwed
      step stand
    }
    run sink_wall on north from left length 24 {
      S1: open_base 24  built ours
    }
    """,
)
def groove_too_deep(site: Site) -> Iterator[Report]:
    least = site.allowance("least_stock")
    for unit, standings in site.units if least is not None else ():
        for part in unit.parts:
            for cut in part.cuts:
                if cut.kind != "groove" or least is None:
                    continue
                axis = _depth_axis(part, cut.depth.value)
                left = part.box.size(axis) - cut.depth.value
                if axis != part.thick_axis or left >= least.value:
                    continue
                yield Report(
                    f"a groove leaves {site.say(left)} of {_words(part)}",
                    cut.origin,
                    standings,
                    (
                        length(_words(part), part.thick.value),
                        figure("groove", cut.depth),
                        length("left", left, ruled=True),
                        figure("must stay", least),
                    ),
                    help="make the groove shallower",
                )
                return


def _depth_axis(part: Part, depth: Fraction) -> Axis:
    """The axis a groove goes deep along: that of the part's thickness, where it isn't the whole."""
    return part.thick_axis if depth < part.thick.value else part.width_axis


@check(
    "rips-just-too-wide",
    Severity.ADVICE,
    doc="Boxes are a little too deep for one more rip out of each sheet.",
    why=(
        "Two 24s and a cut of 1/8 are 48 1/8: only one comes out of a 48 sheet, two out of a 49. A "
        "box a little shallower saves sheets."
    ),
    mend="Make the boxes as deep as the report says, or buy the wider sheet.",
    source="arithmetic: n x width + (n - 1) x kerf against the sheet less trim",
    bad="""
    use plain_room
    unit shallow from open_base { depth 23 7/8 }
    run sink_wall on north from left {
      S1: shallow share
      S2: shallow share
      S3: shallow share
      S4: shallow share
      S5: shallow share
    }
    """,
    good="""
    use plain_room
    unit shallow from open_base { depth 23 5/8 }
    run sink_wall on north from left {
      S1: shallow share
      S2: shallow share
      S3: shallow share
      S4: shallow share
      S5: shallow share
    }
    """,
)
def rips_too_wide(site: Site) -> Iterator[Report]:
    saw, near = site.job.saw, site.allowance("rip_near")
    if saw is None or near is None:
        return
    groups: dict[
        tuple[str, Fraction, Fraction], list[tuple[Material, int, tuple[Standing, ...]]]
    ] = {}
    for unit, standings in site.units:
        trays = [tray.path for tray in assemblies(unit, "tray")]
        for part in parts(unit, "side"):
            if any(inside(part.path, tray) for tray in trays):
                continue
            if part.material.kind == SHEET and len(part.material.stock) == 1 and not part.blank:
                key = (part.material.name, part.cut_width.value, part.cut_length.value)
                groups.setdefault(key, []).append((part.material, len(standings), standings))
    for (_, width, tall), found in groups.items():
        material = found[0][0]
        pieces = sum(count for _, count, _ in found)
        wide, long = _usable(material.stock[0], saw)
        now = int((wide + saw.kerf.value) / (width + saw.kerf.value))
        if now < 1:
            continue
        could = (wide + saw.kerf.value) / (now + 1) - saw.kerf.value
        each = max(1, int((long + saw.kerf.value) / (tall + saw.kerf.value)))
        saved = -(-pieces // (now * each)) - -(-pieces // ((now + 1) * each))
        if not 0 < width - could <= near.value or saved < 1:
            continue
        standing = found[0][2][0]
        less = site.up_to_step(width - could)
        yield Report(
            f"sides {site.say(less)} narrower would come {now + 1} and not {now} from each rip of "
            f"{material.title}",
            standing.line,
            (standing,),
            (
                length("sheet, trimmed", wide),
                figure("a cut takes", saw.kerf),
                length("sides are", width),
                length(f"{now + 1} to a sheet if at most", could, ruled=True),
                Figure("sides of this width", Measure(Fraction(pieces), Dimension.COUNT)),
            ),
            help=f"boxes {site.say(less)} shallower save {saved} of the sheets for sides",
        )


@check(
    "panel-has-no-room",
    Severity.ERROR,
    doc="A solid panel swells more, from the shop to the dampest season, than its grooves allow.",
    why="It bursts the frame's corners.",
    mend="Leave it more room in the grooves.",
    source=(
        "Wood Handbook (FPL-GTR-282), ch. 13, eq. 13-2: change = width x coefficient x change of "
        "moisture in per cent; the coefficient is the lumber's, the moisture the shop's allowances"
    ),
    bad="""
    use plain_room
    lumber oak { thick 1/4  grain yes  tangential 0.00369  density 44 }
    construction ours from shop {
      assembly door_frame  across 20 centred  up 20 from box.floor  deep 3/4 from front + 6 {
        part left_post of fronts   across 2 from left  grain up
        part right_post of fronts  across 2 to right   grain up
        part rail of thin_board  across left_post - 3/8 .. right_post + 3/8  deep 1/4 centred {
          up    2 from bottom
          grain across
        }
        part solid of oak  across left_post - 11/32 .. right_post + 11/32  deep 1/4 centred {
          up     rail + 1/4 .. top
          grain  up
          serves panel
        }
        join rail solid into left_post right_post
        step left_post rail solid right_post
      }
      join door_frame to box.floor with screwed
      step door_frame
    }
    run sink_wall on north from left length 24 {
      S1: open_base 24  built ours
    }
    """,
    good="""
    use plain_room
    lumber oak { thick 1/4  grain yes  tangential 0.00369  density 44 }
    construction ours from shop {
      assembly door_frame  across 20 centred  up 20 from box.floor  deep 3/4 from front + 6 {
        part left_post of fronts   across 2 from left  grain up
        part right_post of fronts  across 2 to right   grain up
        part rail of thin_board  across left_post - 3/8 .. right_post + 3/8  deep 1/4 centred {
          up    2 from bottom
          grain across
        }
        part solid of oak  across left_post - 1/4 .. right_post + 1/4  deep 1/4 centred {
          up     rail + 1/4 .. top
          grain  up
          serves panel
        }
        join rail solid into left_post right_post
        step left_post rail solid right_post
      }
      join door_frame to box.floor with screwed
      step door_frame
    }
    run sink_wall on north from left length 24 {
      S1: open_base 24  built ours
    }
    """,
)
def panel_has_no_room(site: Site) -> Iterator[Report]:
    for found in _panels(site):
        if found.swells > found.room:
            yield Report(
                f"a panel swells {site.say(found.swells)}; its grooves leave it "
                f"{site.say(found.room)}",
                found.part.origin,
                found.standings,
                (
                    length("width across the grain", found.width),
                    length("swells", found.swells),
                    length("room in its grooves", found.room),
                    length("short", found.swells - found.room, ruled=True),
                ),
                help=f"leave {site.say(found.swells - found.room)} more room in the grooves",
            )


@check(
    "panel-leaves-groove",
    Severity.ERROR,
    doc="A solid panel shrinks, in the driest season, until it slips out of a groove.",
    why="Light shows through beside it, and it rattles.",
    mend="Make the grooves deeper, or the panel wider.",
    source="as for a panel that has no room; at worst the whole change is on one side",
    bad="""
    use plain_room
    lumber oak { thick 1/4  grain yes  tangential 0.00369  density 44 }
    construction ours from shop {
      assembly door_frame  across 20 centred  up 20 from box.floor  deep 3/4 from front + 6 {
        part left_post of fronts   across 2 from left  grain up
        part right_post of fronts  across 2 to right   grain up
        part rail of thin_board  across left_post - 3/8 .. right_post + 3/8  deep 1/4 centred {
          up    2 from bottom
          grain across
        }
        part solid of oak  across left_post - 3/32 .. right_post + 3/32  deep 1/4 centred {
          up     rail + 1/4 .. top
          grain  up
          serves panel
        }
        join rail solid into left_post right_post
        step left_post rail solid right_post
      }
      join door_frame to box.floor with screwed
      step door_frame
    }
    run sink_wall on north from left length 24 {
      S1: open_base 24  built ours
    }
    """,
    good="""
    use plain_room
    lumber oak { thick 1/4  grain yes  tangential 0.00369  density 44 }
    construction ours from shop {
      assembly door_frame  across 20 centred  up 20 from box.floor  deep 3/4 from front + 6 {
        part left_post of fronts   across 2 from left  grain up
        part right_post of fronts  across 2 to right   grain up
        part rail of thin_board  across left_post - 3/8 .. right_post + 3/8  deep 1/4 centred {
          up    2 from bottom
          grain across
        }
        part solid of oak  across left_post - 1/4 .. right_post + 1/4  deep 1/4 centred {
          up     rail + 1/4 .. top
          grain  up
          serves panel
        }
        join rail solid into left_post right_post
        step left_post rail solid right_post
      }
      join door_frame to box.floor with screwed
      step door_frame
    }
    run sink_wall on north from left length 24 {
      S1: open_base 24  built ours
    }
    """,
)
def panel_leaves_groove(site: Site) -> Iterator[Report]:
    for found in _panels(site):
        if found.shrinks > found.held:
            yield Report(
                f"a panel shrinks {site.say(found.shrinks)}; only {site.say(found.held)} of it is "
                "in its groove",
                found.part.origin,
                found.standings,
                (
                    length("width across the grain", found.width),
                    length("shrinks", found.shrinks),
                    length("in its groove", found.held),
                    length("short", found.shrinks - found.held, ruled=True),
                ),
                help="make the grooves deeper, or the panel wider",
            )


@frozen(eq=False)
class Panel:
    """A solid panel between grooves: its width across the grain, how far it may grow between the
    grooves' bottoms, how much of it stands in the shallower one, and how it changes."""

    part: Part
    standings: tuple[Standing, ...]
    width: Fraction
    room: Fraction
    held: Fraction
    swells: Fraction
    shrinks: Fraction


def _panels(site: Site) -> Iterator[Panel]:
    low, made, high = (
        site.allowance(word) for word in ("moisture_low", "moisture_made", "moisture_high")
    )
    if low is None or made is None or high is None:
        return
    for unit, standings in site.units:
        for part in parts(unit, "panel"):
            goods = site.goods(part.material.kind, part.material.name)
            rate = goods.figures.get("tangential") if goods is not None else None
            if part.material.kind != LUMBER or rate is None:
                continue
            grooves = _grooves(unit, part)
            if len(grooves) != 2:
                continue
            width = part.width.value
            yield Panel(
                part,
                standings,
                width,
                sum((free for free, _ in grooves), Fraction(0)),
                min(held for _, held in grooves),
                width * rate.value * (high.value - made.value),
                width * rate.value * (made.value - low.value),
            )


def _grooves(unit: Unit, panel: Part) -> list[tuple[Fraction, Fraction]]:
    """The grooves a panel stands in along its width: what is free behind it, and how much of it
    stands in each. A frame's groove runs through, so the tongues of its rails show how deep it is.
    """
    axis, across = panel.width_axis, panel.thick_axis
    low, high = panel.box.along(axis)
    found: list[tuple[Fraction, Fraction]] = []
    for part in unit.parts:
        own = [cut.box for cut in part.cuts if cut.kind == "groove" and cut.by == panel.address]
        if not own:
            continue
        thin = panel.box.along(across)
        ploughed = [
            cut.box.along(axis)
            for cut in part.cuts
            if cut.box.along(across)[0] <= thin[0] and thin[1] <= cut.box.along(across)[1]
        ]
        begin, end = own[0].along(axis)
        if begin <= low < end < high:
            found.append((low - min(each[0] for each in ploughed), end - low))
        elif low < begin < high <= end:
            found.append((max(each[1] for each in ploughed) - high, high - begin))
    return found
