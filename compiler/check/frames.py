"""Frames and the boxes behind them: openings that differ by more than packing makes up."""

from collections.abc import Iterator
from fractions import Fraction

from attrs import frozen

from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.site import Site, assemblies, inside, length, words_of
from casewright.compiler.model import Axis, Opening, Part, Unit
from casewright.lang.findings import Severity

ACROSS = ("side", "partition")
UPRIGHT = ("floor", "cap", "stretcher")
"""What of a box bounds its openings, by the axis along which it does."""


@frozen(eq=False)
class Standing:
    """A part of the box that stands in an opening of the frame, and by how much."""

    part: Part
    opening: Opening
    axis: Axis
    deep: Fraction


@check(
    "box-in-opening",
    Severity.ERROR,
    doc="A board of the box stands in an opening of the frame before it.",
    why="What goes in through the frame, a drawer or a tray, runs into the box behind it.",
    mend="Widen the stile or the rail, or let the frame stand less past the box.",
    source="geometry: every opening of the frame against the boards that bound the box's",
    bad="""
    use plain_room
    construction framed from shop {
      option proud length = 1
      assembly frame  up bottom + toe_up .. top  deep 3/4 from front  serves frame {
        part left_stile of fronts   across 1 1/2 from left  grain up  serves stile
        part right_stile of fronts  across 1 1/2 to right   grain up  serves stile
        part rail of fronts  across left_stile .. right_stile  up 2 to top  serves rail
        join rail to left_stile right_stile with screwed
        step left_stile rail right_stile
      }
      assembly box of carcase  up bottom + toe_up .. top  deep frame .. back {
        across left + proud .. right - proud
      }
      openings {
        across frame.left_stile .. frame.right_stile
        up     box.floor .. frame.rail
        level  3/4
        post   3/4
        covers frame
        between front_gap
        above   top_gap
        below   low_gap
        end     side_gap
      }
      join frame to box.left_side box.right_side with screwed
      step frame
    }
    run sink_wall on north from left length 28 {
      filler 2
      S1: open_base 24  built framed
      filler 2
    }
    """,
    good={"= 1": "= 3/4"},
)
def box_in_opening(site: Site) -> Iterator[Report]:
    for unit, standings in site.units:
        found = tuple(_standing(unit))
        if not found:
            continue
        worst = max(found, key=lambda each: each.deep)
        opening = worst.opening.across if worst.axis == "across" else worst.opening.up
        size = opening.high.value - opening.low.value
        yield Report(
            f"{words_of(worst.part)} stands {site.say(worst.deep)} in the opening of the frame",
            worst.part.origin,
            standings,
            (
                length(f"opening of the frame for {worst.opening.title}", size),
                length("the box leaves of it", size - worst.deep),
                length("stands in it", worst.deep, ruled=True),
            ),
            help=(
                f"make the {'stile' if worst.axis == 'across' else 'rail'} before it "
                f"{site.say(worst.deep)} wider, or let the frame stand so much less past the box"
            ),
        )


def _standing(unit: Unit) -> Iterator[Standing]:
    frames = [each.path for each in assemblies(unit, "frame")]
    trays = [each.path for each in assemblies(unit, "tray")]
    apart = (*frames, *trays)
    for part in unit.parts if frames else ():
        axis = _bounds(part)
        if axis is None or any(inside(part.path, each) for each in apart):
            continue
        low, high = part.box.along(axis)
        for opening in unit.openings:
            if opening.faces != "front" or not _behind(part, opening, axis):
                continue
            extent = opening.across if axis == "across" else opening.up
            left, right = extent.low.value, extent.high.value
            # What lies in the middle of an opening is a shelf's business, or a divider's.
            if low <= left < high < right:
                yield Standing(part, opening, axis, high - left)
            elif left < low < right <= high:
                yield Standing(part, opening, axis, right - low)


def _bounds(part: Part) -> Axis | None:
    """The axis along which a board bounds an opening."""
    if part.role in ACROSS and part.thick_axis == "across":
        return "across"
    return "up" if part.role in UPRIGHT and part.thick_axis == "up" else None


def _behind(part: Part, opening: Opening, axis: Axis) -> bool:
    """Whether a part lies behind an opening along the other axis."""
    other: Axis = "up" if axis == "across" else "across"
    extent = opening.up if other == "up" else opening.across
    low, high = part.box.along(other)
    return low < extent.high.value and extent.low.value < high
