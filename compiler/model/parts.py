"""Parts and what is machined into them; blanks they are ripped from."""

from typing import Literal

from attrs import frozen

from casewright.compiler.model.materials import Banding, Material
from casewright.compiler.model.space import Axis, Box, Extents, Faces, Slant
from casewright.lang.cells import Quantity
from casewright.lang.source import Origin


@frozen
class CutEdge:
    """An edge that a cut leaves and that is banded, once the cut is made.

    `name` is its figure's in its part (`cut_front`), `looks` the edge word it looks to, or the two
    that a corner lay between. `length` and `wide` are the finished edge's own: what a bevel leaves
    is wider than its part is thick.
    """

    name: str
    looks: tuple[str, ...]
    length: Quantity
    wide: Quantity
    band: Material


@frozen
class Cut:
    """Material taken from a part's box: a stated cut, or the groove a joint makes.

    `kind` is "cut", "corner" or "groove"; `by` is the address of the part that enters a groove,
    else empty. `depth` is measured square to the face it is made from. Of a "corner" only the half
    of the box at the part's own corner in plan is taken: from one to the other of the two edges
    that `corner` names, across and then deep. `box` is of the finished part. Where the cut leaves
    `edges` that are banded, it is made before, and `sawn` is what it then takes: more than `box`
    where a band counts, and none of what the part's own counted bands add.
    """

    kind: str
    box: Box
    by: str
    depth: Quantity
    origin: Origin | None
    corner: tuple[str, ...] = ()
    edges: tuple[CutEdge, ...] = ()
    sawn: Box | None = None


@frozen
class Hole:
    """One bored hole: centre on the face, bored along `axis` from the `side` (-1 low, 1 high)."""

    axis: Axis
    side: int
    at: tuple[Quantity, Quantity]
    at_axes: tuple[Axis, Axis]
    diameter: Quantity
    depth: Quantity
    use: str
    origin: Origin | None


@frozen
class Motion:
    """How a thing moves in use: `out` along deep by `reach`, or `about` an edge by `angle`."""

    kind: Literal["out", "about"]
    edge: str = ""
    reach: Quantity | None = None
    angle: Quantity | None = None


@frozen
class Part:
    """A box with cuts in its unit's space.

    `path` is the full dotted path of holders; `address` the shortest form papers use, unique in
    the unit. Length runs along the stated grain, without grain along the longer side; crosscut
    gives the length, rip the width. `length`, `width`, `thick` are finished, `cut_*` what is sawn
    (finished, less counted bands, plus trim that was asked for). `hardware` marks a bought thing
    that takes up room (a slide): it is on no cut list. What stands in a mouth across a corner has
    its extents, cuts and holes by the axes of that mouth, its `slant`; all else is in its unit's.
    """

    path: str
    address: str
    title: str
    assembly: str
    opening: str
    role: str
    material: Material
    hardware: bool
    extents: Extents
    thick_axis: Axis
    length_axis: Axis
    width_axis: Axis
    length: Quantity
    width: Quantity
    thick: Quantity
    cut_length: Quantity
    cut_width: Quantity
    grained: bool
    bands: tuple[Banding, ...]
    cuts: tuple[Cut, ...]
    holes: tuple[Hole, ...]
    motion: Motion | None
    blank: str
    origin: Origin | None
    faces: Faces = "front"
    slant: Slant | None = None

    @property
    def cut_edges(self) -> tuple[CutEdge, ...]:
        """The banded edges that its cuts leave."""
        return tuple(edge for cut in self.cuts for edge in cut.edges)

    @property
    def box(self) -> Box:
        """Where it lies by its own axes: those of its slant, or of its unit."""
        return self.extents.box


@frozen
class Blank:
    """An oversize piece that is banded once on its long edges and then ripped into strips.

    `strips` are part addresses in order across the blank; `kerf` lies between neighbours.
    `cut_width` is what is sawn before banding.
    """

    name: str
    material: Material
    strips: tuple[str, ...]
    length: Quantity
    width: Quantity
    cut_length: Quantity
    cut_width: Quantity
    bands: tuple[Banding, ...]
    origin: Origin | None
