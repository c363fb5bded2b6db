"""What is done at the bench: joints, steps and the way each part comes in."""

from fractions import Fraction
from typing import Literal

from attrs import frozen

from casewright.compiler.model.materials import Fixing
from casewright.compiler.model.parts import Motion
from casewright.compiler.model.space import Axis, Box, Extents, Faces, Slant
from casewright.lang.cells import Quantity
from casewright.lang.source import Origin


@frozen
class Wish:
    """A joint as the text declares it: which things, to or into which, with what fixing.

    `first` and `second` are part paths or assembly paths. `play` widens a groove on each side.
    `alike` groups those of them that the mouths of a unit made under one name: one of a group
    meets what is joined.
    """

    first: tuple[str, ...]
    second: tuple[str, ...]
    way: Literal["to", "into"]
    fixing: Fixing | None
    play: Quantity | None
    origin: Origin | None
    alike: tuple[tuple[str, ...], ...] = ()


@frozen
class Fasteners:
    """A row of equal fasteners along a joint: what, how many, and how far apart (0 for one)."""

    name: str
    use: Literal["locate", "hold"]
    count: int
    spacing: Fraction


@frozen
class Joint:
    """A contact between two parts (paths). `axis` is square to the contact; `side` is 1 if the
    second part lies towards high along it. `area` is flat along `axis` for a butt (the largest
    rectangle over which both parts touch throughout), and the overlap for a groove. Where a part
    is turned, `axis` and `area` are by the axes of the joint's `slant`."""

    first: str
    second: str
    kind: Literal["butt", "groove"]
    axis: Axis
    side: int
    area: Box
    depth: Quantity | None
    fixing: Fixing | None
    fasteners: tuple[Fasteners, ...]
    origin: Origin | None
    slant: Slant | None = None


@frozen
class Order:
    """A step as the text tells it: what comes in, in that order, into `assembly` ("" is the unit).

    `lies` is the edge word of the face that lies on the bench; `words` are the bench's own words
    for work that brings nothing in (sand, glue, square).
    """

    assembly: str
    brings: tuple[str, ...]
    lies: str
    words: str
    origin: Origin | None


@frozen
class Way:
    """The proved way in of one thing: from far along `axis`, from the low (-1) or high (1) end.
    The first thing on the bench has no need of one: `axis` is then empty."""

    thing: str
    axis: str
    side: int


@frozen
class Step:
    """A proved step. `number` counts within its assembly from 1; `joints` index the unit's joints
    that this step closes."""

    number: int
    assembly: str
    ways: tuple[Way, ...]
    lies: str
    words: str
    joints: tuple[int, ...]
    origin: Origin | None


@frozen
class Assembly:
    """A group of parts built as one. `path` is its address; "" is the unit itself."""

    path: str
    address: str
    title: str
    role: str
    opening: str
    extents: Extents
    motion: Motion | None
    parts: tuple[str, ...]
    assemblies: tuple[str, ...]
    origin: Origin | None
    faces: Faces = "front"
    slant: Slant | None = None
