"""Solid panels between grooves: what moisture does to their width."""

from collections.abc import Iterator
from fractions import Fraction

from attrs import frozen

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.mends import for_each, moved_by
from casewright.compiler.check.site import Site, Standing, length, parts
from casewright.compiler.model import Part, Unit
from casewright.lang.findings import Edit, Severity

LUMBER = "lumber"


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
    good={"11/32 .. right_post + 11/32": "1/4 .. right_post + 1/4"},
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
                edits=_wider(site, found, -site.up_to_step((found.swells - found.room) / 2)),
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
    good={"3/32 .. right_post + 3/32": "1/4 .. right_post + 1/4"},
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
                # What is added shrinks too.
                edits=_wider(
                    site,
                    found,
                    site.up_to_step(
                        (found.shrinks - found.held) / (1 - 2 * found.shrinks / found.width)
                    ),
                ),
            )


def _wider(site: Site, panel: "Panel", by: Fraction) -> tuple[Edit, ...]:
    """Makes a panel wider by so much at each of its edges, where both are said."""
    part = panel.part
    edges = part.extents.along(part.width_axis)
    one = for_each(panel.standings, lambda each: moved_by(site, each, edges.low, -by, part.origin))
    other = for_each(
        panel.standings, lambda each: moved_by(site, each, edges.high, by, part.origin)
    )
    if not one or not other or {edit.span for edit in one} & {edit.span for edit in other}:
        return ()
    return (*one, *other)


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
