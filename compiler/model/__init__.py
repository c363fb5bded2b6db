"""The built job: what every check and back end reads, in the trade's words. All of it is frozen.

Axes: `across` runs left to right as seen facing the wall, `up` from the floor, `deep` from the
front back to the wall. A unit's own space has its zero at the left end, at the bottom of what is
seen of it, and at its front (the face of a frame, the front edge of a frameless box); overlay
fronts have places below zero. Lengths are exact, in inches.
"""

from casewright.compiler.model.bench import Assembly, Fasteners, Joint, Order, Step, Way, Wish
from casewright.compiler.model.job import Job, Placed, Return, Run, Scribe
from casewright.compiler.model.materials import Banding, Fixing, Material, Offcut, Saw, Stock, Trims
from casewright.compiler.model.parts import Blank, Cut, CutEdge, Hole, Motion, Part
from casewright.compiler.model.room import Corner, Feature, Island, Room, Wall
from casewright.compiler.model.space import (
    AXES,
    EDGES,
    Axis,
    Box,
    Direction,
    Extent,
    Extents,
    Faces,
    Range,
    Slant,
    Spot,
)
from casewright.compiler.model.unit import Member, Mouth, Opening, Unit

__all__ = [
    "AXES",
    "EDGES",
    "Assembly",
    "Axis",
    "Banding",
    "Blank",
    "Box",
    "Corner",
    "Cut",
    "CutEdge",
    "Direction",
    "Extent",
    "Extents",
    "Faces",
    "Fasteners",
    "Feature",
    "Fixing",
    "Hole",
    "Island",
    "Job",
    "Joint",
    "Material",
    "Member",
    "Motion",
    "Mouth",
    "Offcut",
    "Opening",
    "Order",
    "Part",
    "Placed",
    "Range",
    "Return",
    "Room",
    "Run",
    "Saw",
    "Scribe",
    "Slant",
    "Spot",
    "Step",
    "Stock",
    "Trims",
    "Unit",
    "Wall",
    "Way",
    "Wish",
]
