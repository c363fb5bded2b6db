"""A cabinet: its openings, members, parts and steps."""

from collections.abc import Mapping
from typing import Literal

from attrs import field, frozen

from casewright.compiler.blame import Blame
from casewright.compiler.model.bench import Assembly, Joint, Step
from casewright.compiler.model.parts import Blank, Part
from casewright.compiler.model.space import Extent, Extents, Faces, Slant
from casewright.lang.cells import Quantity
from casewright.lang.source import Origin


@frozen
class Opening:
    """A leaf of the opening tree, and what fills it.

    `clear` is the opening between its members; `cover` reaches half way over each member or to
    the outer edge; `gap` holds what a front stays back from its cover, by edge word. `load` is
    what it is to hold, where the text says so.
    """

    address: str
    title: str
    filling: str
    faced: bool
    across: Extent
    up: Extent
    cover: Mapping[str, Quantity] = field(eq=False)
    gap: Mapping[str, Quantity] = field(eq=False)
    options: Mapping[str, str] = field(eq=False)
    origin: Origin | None
    faces: Faces = "front"
    load: Quantity | None = None
    slant: Slant | None = None


@frozen
class Mouth:
    """Where a unit is open that isn't open to its front alone: to which side, and its box. One that
    looks across a corner runs from corner to corner of that box, by the axes of its `slant`."""

    name: str
    faces: Faces
    extents: Extents
    slant: Slant | None = None


@frozen
class Member:
    """What stands between two openings: `kind` is "level" (between two over one another) or
    "post" (side by side)."""

    kind: Literal["level", "post"]
    across: Extent
    up: Extent


@frozen
class Unit:
    """A cabinet worked out once for every placing that is equal to it.

    Paths in `joints` and `steps` are those of `parts` and `assemblies`. `named` holds every figure
    that can be asked for, by its address in the unit; `blames` what is wrong with it. `mouths`
    are there only where it is open elsewhere than to its front.
    """

    name: str
    title: str
    construction: str
    role: str
    width: Quantity
    height: Quantity
    depth: Quantity
    parts: tuple[Part, ...]
    assemblies: tuple[Assembly, ...]
    openings: tuple[Opening, ...]
    members: tuple[Member, ...]
    joints: tuple[Joint, ...]
    steps: tuple[Step, ...]
    blanks: tuple[Blank, ...]
    options: Mapping[str, str] = field(eq=False)
    named: Mapping[str, Quantity] = field(eq=False, repr=False)
    blames: tuple[Blame, ...] = field(eq=False, repr=False)
    mouths: tuple[Mouth, ...] = ()
