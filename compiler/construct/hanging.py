"""What a unit hangs by: a screw through it must pass solid, touching material to the wall.

Common practice: a screw that crosses air pulls the board it holds out of its joint, or lets it
split.
"""

from collections.abc import Iterator

from casewright.compiler.blame import Blame, Row, finding_at
from casewright.compiler.joints.geometry import Scale, less, replace, scale_of, solid_of
from casewright.compiler.model import Part
from casewright.lang.cells import Quantity
from casewright.lang.measure import length

ROLE = "hanging"


def on_air(parts: tuple[Part, ...], back: Quantity) -> Iterator[Blame]:
    """What serves to hang the unit and has air between it and the wall at `back`."""
    hung = [part for part in parts if part.role == ROLE]
    if not hung:
        return
    scale = scale_of(parts, (back.value,))
    for part in hung:
        air = _air_behind(part, parts, scale, back)
        if air:
            yield finding_at(
                part.origin,
                "cleat-on-air",
                f"a wall screw through {part.title} would cross air",
                rows=(
                    Row(f"{part.title} ends at", part.extents.deep.high.measure, part.origin),
                    Row("the wall is at", back.measure, back.origin),
                    Row("of it air", length(scale.inches(air)), ruled=True),
                ),
                help="let it reach the wall, or fill what lies behind it with touching stock",
            )


def _air_behind(part: Part, parts: tuple[Part, ...], scale: Scale, back: Quantity) -> int:
    """The deepest air behind a part, in steps of the scale."""
    wall = scale.whole(back.value)
    block = scale.block(part.box)
    if block[5] >= wall:
        return 0
    column = replace(block, "deep", block[5], wall)
    solids = (solid for other in parts if other is not part for solid in solid_of(other, scale))
    return max((gap[5] - gap[4] for gap in less((column,), solids)), default=0)
