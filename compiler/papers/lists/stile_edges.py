"""How the outer edges of a frame across a corner meet the faces beside it, for who mills them."""

from fractions import Fraction

from casewright.compiler.model import Job, Part, Unit
from casewright.compiler.papers.figures import Figure, Note, printing_of
from casewright.compiler.rooms.angles import degrees_of, root
from casewright.lang.measure import Dimension, Measure
from casewright.lang.printing import printed


def stile_edges(job: Job, unit: Unit, stiles: tuple[Part, ...]) -> tuple[Note, ...]:
    """What the frame's page says of its first and last stile: nothing of a frame that looks
    straight out of its unit, nor of one whose text bevels them.

    The stiles are square and stand in the face: its front arris meets the one beside it, and a
    wedge of room opens behind. Both edges bevelled by half the angle would close it.
    """
    slant = stiles[0].slant if stiles else None
    if slant is None or any(cut.corner for stile in stiles for cut in stile.cuts):
        return ()
    mouth = next(each for each in unit.mouths if each.name == slant.mouth)
    along = mouth.extents.box.size("across")
    around = mouth.extents.box.size("deep")
    # A mouth to the left runs from the end of its run's leg, one to the right ends there.
    own, other = (along, around) if slant.direction[1] < 0 else (around, along)
    if along == around:
        ends = [("both ends", own, other)]
    else:
        ends = [("the left end", own, other), ("the right end", other, own)]
    thick = stiles[0].thick.value
    return (
        ("The outer edges of both stiles are square.",),
        *(_end(job, *end, thick) for end in ends),
        ("The drawings, the list and what is cut have them square.",),
    )


def _end(job: Job, where: str, own: Fraction, other: Fraction, thick: Fraction) -> Note:
    """One end of a face that runs `own` along the face beside it and `other` out from it."""
    face = root(own * own + other * other)
    turned = degrees_of(other, own)
    gap = thick * root(2 * (1 - own / face))
    wider = thick * (face - own) / other
    printing = printing_of(job)

    def angle(value: Fraction) -> str:
        shown = printed(Measure(value, Dimension.ANGLE), printing)
        return f"{'about ' if shown.mark else ''}{shown.bare}{shown.unit}"

    return (
        f"At {where} this face and the one beside it make {angle(180 - turned)}: their front "
        "arrises meet, and behind them a gap opens to ",
        Figure(gap, Dimension.LENGTH, ""),
        f" between the back ones. Both edges bevelled {angle(turned / 2)} from square would close "
        "it; each stile is then milled wider, at its back, by ",
        Figure(wider, Dimension.LENGTH, ""),
        ".",
    )
