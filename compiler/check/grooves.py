"""Grooves and dados: what they leave of a part, and whether they hold what stands in them."""

from collections.abc import Iterator
from fractions import Fraction
from functools import partial

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.mends import for_each, moved_by, written_across
from casewright.compiler.check.site import (
    Site,
    Standing,
    figure,
    length,
    words_of,
)
from casewright.compiler.model import AXES, Axis, Cut, Part, Unit
from casewright.lang.findings import Severity


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
    good={"5/8 .. right_post + 5/8": "3/8 .. right_post + 3/8"},
)
def groove_too_deep(site: Site) -> Iterator[Report]:
    least = site.allowance("least_stock")
    if least is None:
        return
    found = list(_too_deep(site, least.value))
    # Grooves are ploughed alike; one stands for all, and all are mended together.
    for standings, part, cut, left in found[:1]:
        short = [(each, groove, over) for about, _, groove, over in found for each in about]
        edits = [moved_by(site, at, cut.depth, over - least.value) for at, cut, over in short]
        yield Report(
            f"a groove leaves {site.say(left)} of {words_of(part)}",
            cut.origin,
            standings,
            (
                length(words_of(part), part.thick.value),
                figure("groove", cut.depth),
                length("left", left, ruled=True),
                figure("must stay", least),
            ),
            help="make the groove shallower",
            edits=tuple(dict.fromkeys(edit for each in edits for edit in each))
            if all(edits)
            else (),
        )


def _too_deep(
    site: Site, least: Fraction
) -> Iterator[tuple[tuple[Standing, ...], Part, Cut, Fraction]]:
    """The grooves into the thickness of a board that leave less of it than must stay: in what, and
    how much is left."""
    for unit, standings in site.units:
        for part in unit.parts:
            for cut in part.cuts:
                if cut.kind != "groove":
                    continue
                axis = _depth_axis(part, cut)
                left = part.box.size(axis) - cut.depth.value
                if axis == part.thick_axis and left < least:
                    yield standings, part, cut, left


def _depth_axis(part: Part, cut: Cut) -> Axis:
    """The axis a groove goes deep along: it is open at one of the part's two ends there. A mortise
    goes into an edge, a groove into a face."""
    for axis in (part.thick_axis, part.width_axis, part.length_axis):
        low, high = cut.box.along(axis)
        first, last = part.box.along(axis)
        if high - low == cut.depth.value and (low <= first) != (high >= last):
            return axis
    return part.thick_axis


@check(
    "dado-by-name",
    Severity.WARNING,
    doc="A dado that is cut to a stated width is wider than the board that stands in it.",
    why=(
        "Board sold as 3/4 is often 23/32: in a dado cut for its name it stands loose, and the "
        "glue bridges a gap."
    ),
    mend="Say the dado's width by the board's own thickness, as `shelf.thick`, or let `join into` "
    "make it.",
    source="arithmetic: width of the cut less the board's actual thickness",
    bad="""
    use plain_room
    sheet thin_ply { thick 23/32  stock 48 by 96  grain yes  density 42  modulus 1800000 }
    construction ours from shop {
      part post of ply  across 3/4 centred  up 10 from box.floor  deep 10 from front + 6  grain up {
        cut up 3/4 from bottom + 5  across 1/4 from left
      }
      part rail of thin_ply  across box.left_side .. post.left + 1/4  deep 10 from front + 6 {
        up from post.bottom + 5
      }
      join post to box.floor with screwed
      join rail to post box.left_side with screwed
      step rail post
    }
    run sink_wall on north from left length 44 {
      S1: open_base 44  built ours
    }
    """,
    good={"up 3/4": "up 23/32"},
)
def dado_by_name(site: Site) -> Iterator[Report]:
    loose = site.allowance("dado_loose")
    for unit, standings in site.units if loose is not None else ():
        for part in unit.parts:
            for cut in part.cuts:
                held = _stands_in(unit, part, cut)
                if held is None or loose is None:
                    continue
                free = cut.box.size(held.thick_axis) - held.thick.value
                if not loose.value < free < held.thick.value / 2:
                    continue
                yield Report(
                    f"{words_of(held)} stands {site.say(free)} loose in the dado of "
                    f"{words_of(part)}",
                    cut.origin,
                    standings,
                    (
                        length("the dado is wide", cut.box.size(held.thick_axis)),
                        figure(f"{held.material.title} is thick", held.thick),
                        length("loose by", free, ruled=True),
                    ),
                    help="cut the dado to the board's own thickness",
                    edits=for_each(
                        standings,
                        partial(
                            written_across,
                            site,
                            origin=cut.origin,
                            axis=held.thick_axis,
                            now=cut.box.size(held.thick_axis),
                            value=held.thick.value,
                        ),
                    ),
                )


def _stands_in(unit: Unit, part: Part, cut: Cut) -> Part | None:
    """The board that stands with its thickness in a stated cut of a part, if one does."""
    if cut.kind != "cut":
        return None
    for other in unit.parts:
        if other is part or other.hardware:
            continue
        shared = all(
            max(cut.box.along(axis)[0], other.box.along(axis)[0])
            < min(cut.box.along(axis)[1], other.box.along(axis)[1])
            for axis in AXES
        )
        low, high = cut.box.along(other.thick_axis)
        within = low <= other.box.along(other.thick_axis)[0] < high
        if shared and within and high - low < part.box.size(other.thick_axis):
            return other
    return None
