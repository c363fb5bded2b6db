"""The built job: what every check and back end reads, in the trade's words. All of it is frozen.

Axes: `across` runs left to right as seen facing the wall, `up` from the floor, `deep` from the
front back to the wall. A unit's own space has its zero at the left end, at the bottom of what is
seen of it, and at its front (the face of a frame, the front edge of a frameless box); overlay
fronts have places below zero. Lengths are exact, in inches.
"""

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

from attrs import field, frozen

from casewright.compiler.blame import Blame
from casewright.compiler.shop.supply import Supply
from casewright.compiler.shop.yardstick import Yardstick
from casewright.lang.cells import Quantity
from casewright.lang.measure import System
from casewright.lang.source import Origin, Source, Span

Axis = Literal["across", "up", "deep"]
AXES: tuple[Axis, Axis, Axis] = ("across", "up", "deep")

EDGES: Mapping[str, tuple[Axis, int]] = {
    "left": ("across", -1),
    "right": ("across", 1),
    "bottom": ("up", -1),
    "top": ("up", 1),
    "front": ("deep", -1),
    "back": ("deep", 1),
}
"""The six edge words: the axis each lies on, and -1 for its low end or 1 for its high end."""

Faces = Literal["front", "back", "left", "right"]
"""The side of its unit to which the mouth looks that a thing stands in. Its extents are the
unit's; how it moves, its hand, and where an opening lies across are as seen before that mouth."""

Range = tuple[Fraction, Fraction]

Direction = tuple[Fraction, Fraction]
"""A direction in plan: the cosine and the sine of its angle from x, counted against the clock."""


@frozen
class Box:
    """A box with its faces square to the axes; each range is (low, high)."""

    across: Range
    up: Range
    deep: Range

    def along(self, axis: Axis) -> Range:
        if axis == "across":
            return self.across
        return self.up if axis == "up" else self.deep

    def size(self, axis: Axis) -> Fraction:
        low, high = self.along(axis)
        return high - low


@frozen
class Extent:
    """Where a thing lies along one axis, with the derivation of both ends."""

    low: Quantity
    high: Quantity


@frozen
class Extents:
    """Where a thing lies, with derivations."""

    across: Extent
    up: Extent
    deep: Extent

    def along(self, axis: Axis) -> Extent:
        if axis == "across":
            return self.across
        return self.up if axis == "up" else self.deep

    @property
    def box(self) -> Box:
        return Box(
            (self.across.low.value, self.across.high.value),
            (self.up.low.value, self.up.high.value),
            (self.deep.low.value, self.deep.high.value),
        )


@frozen
class Stock:
    """A size a sheet or board is bought in, inches; the length runs along the grain. `pieces` is
    how many of it can be had, None for as many as are wanted."""

    width: Fraction
    length: Fraction
    pieces: int | None = None


@frozen
class Material:
    """A sheet, lumber or band by its name in the text.

    `kind` is the head word it was declared with. `thick` is the actual thickness. `grained` says
    whether parts must follow the grain. `band` names the band that covers its edges. `counts`
    (bands): whether the band's thickness is deducted from the cut size. `data` holds every other
    property the text gives, by its word.
    """

    name: str
    kind: str
    title: str
    thick: Quantity
    stock: tuple[Stock, ...] = ()
    grained: bool = False
    band: str = ""
    counts: bool = False
    data: Mapping[str, Quantity | str] = field(factory=dict, eq=False)


@frozen
class Fixing:
    """How a joint is fastened: what locates it, what holds it, how often, and the room a driver
    needs. `drive` says from where: "through" the second part's far face, "inside" (through the
    first part, or aslant from one of its faces), or "" where nothing is driven."""

    name: str
    title: str
    locate: str = ""
    hold: str = ""
    every: Quantity | None = None
    ends: Quantity | None = None
    needs: Quantity | None = None
    drive: str = ""


@frozen
class Banding:
    """An edge that is banded, and with what."""

    edge: str
    band: Material


@frozen
class Cut:
    """Material taken from a part's box: a stated cut, or the groove a joint makes.

    `kind` is "cut" or "groove"; `by` is the address of the part that enters a groove, else empty.
    `depth` is measured square to the face it is made from.
    """

    kind: str
    box: Box
    by: str
    depth: Quantity
    origin: Origin | None


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
    that takes up room (a slide): it is on no cut list.
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

    @property
    def box(self) -> Box:
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
    rectangle over which both parts touch throughout), and the overlap for a groove."""

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


@frozen
class Opening:
    """A leaf of the opening tree, and what fills it.

    `clear` is the opening between its members; `cover` reaches half way over each member or to
    the outer edge; `gap` holds what a front stays back from its cover, by edge word.
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


@frozen
class Mouth:
    """Where a unit is open that isn't open to its front alone: to which side, and its box."""

    name: str
    faces: Faces
    extents: Extents


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


@frozen
class Scribe:
    """How wide the gap is that a scribed filler closes: as laid out, and at its narrowest and
    widest over its depth and height, as the room was measured."""

    nominal: Quantity
    least: Quantity
    most: Quantity


@frozen
class Spot:
    """A place in plan, inches: x to the right and y up the page. The wall of the first run lies
    along the top of the plan, with the room below it."""

    x: Quantity
    y: Quantity


@frozen
class Return:
    """The part of a corner unit that stands along the wall around the corner.

    `end` is the end of its run at which the corner is, `wall` the wall around it. `length` is how
    far it reaches out from its run's own wall, `depth` how far from the one around the corner.
    `taken` is how much of that one it takes, from the corner.
    """

    end: Literal["left", "right"]
    wall: str
    length: Quantity
    depth: Quantity
    taken: Quantity

    def left_on(self, wall: "Wall") -> Fraction:
        """Where its left end lies along the wall around the corner, inches."""
        if self.end == "right":
            return self.taken.value - self.length.value
        return wall.length.value - self.taken.value


@frozen
class Placed:
    """One thing in a run: a unit, a filler, an appliance, an empty space, or the base that several
    units stand on.

    `at` is the place of its left end along the run, `up` of its bottom above the floor.
    `bindings` bind the unit's inputs to this placing's own quantities, and `spans` its own lines
    (`lang.source.Own`), so that `explain` shows the lines of this very unit.
    """

    tag: str
    address: str
    title: str
    kind: Literal["unit", "filler", "appliance", "space", "base"]
    run: str
    unit: Unit | None
    at: Quantity
    width: Quantity
    up: Quantity
    height: Quantity
    depth: Quantity
    bindings: Mapping[str, Quantity] = field(eq=False, repr=False)
    spans: tuple[Span, ...] = field(eq=False, repr=False)
    span: Span | None = field(eq=False)
    scribe: Scribe | None = None
    returns: Return | None = None


@frozen
class Feature:
    """Something on a wall. `at` and `wide` are along the wall, `up` and `high` above the finished
    floor; the casing is outside the opening. `out` is how far it stands out from the wall."""

    kind: str
    name: str
    at: Quantity
    wide: Quantity
    up: Quantity
    high: Quantity
    casing: Quantity
    span: Span | None = field(eq=False)
    out: Quantity | None = None


@frozen
class Wall:
    """A wall seen from inside the room, lengths from its left end.

    What a survey adds: `plumb` is how far the wall leans into the room for each inch of height
    (below nothing where it leans out), the points are floor and ceiling heights by place along the
    wall (a floor under its high point is below nothing), `lengths` pairs heights with the length
    measured there. In plan the wall runs from `origin` along `direction`, the room to its right.
    """

    name: str
    length: Quantity
    height: Quantity
    features: tuple[Feature, ...]
    plumb: Quantity | None = None
    floor_points: tuple[tuple[Quantity, Quantity], ...] = ()
    ceiling_points: tuple[tuple[Quantity, Quantity], ...] = ()
    span: Span | None = field(eq=False, default=None)
    lengths: tuple[tuple[Quantity, Quantity], ...] = ()
    origin: Spot | None = None
    direction: Direction = (Fraction(1), Fraction(0))


@frozen
class Corner:
    """Where two walls meet, the right end of the first and the left end of the second; the inside
    angle in degrees. `stated` is False where it was taken as square, or is what the other corners
    leave."""

    first: str
    second: str
    angle: Quantity
    stated: bool = True
    span: Span | None = field(eq=False, default=None)


@frozen
class Island:
    """What stands in the room for runs to stand on, free or out from a wall.

    It is named from its front, which is away from its wall: `width` runs from its left to its
    right, `depth` from its back to its front. In plan its back runs from `origin` along
    `direction`. `at` is its left end along its wall, `out` how far its back is from it, `turn` its
    turn in degrees about its middle, clockwise as seen from above.
    """

    name: str
    kind: Literal["island", "peninsula"]
    wall: str
    at: Quantity
    out: Quantity
    width: Quantity
    depth: Quantity
    turn: Quantity
    origin: Spot
    direction: Direction
    span: Span | None = field(eq=False, default=None)


@frozen
class Room:
    """The room as surveyed, seen from inside, clockwise. `closed` says that the last wall meets
    the first. Heights are from the finished floor; `floor_finish` is what was still to be laid on
    the floor they were measured from."""

    name: str
    walls: tuple[Wall, ...]
    corners: tuple[Corner, ...]
    ceiling: Quantity
    counter: Quantity
    counter_thick: Quantity
    finished_floor: bool
    islands: tuple[Island, ...] = ()
    closed: bool = False
    floor_finish: Quantity | None = None


@frozen
class Run:
    """An ordered row on a wall, or on a side of an island. `space` is what it has to fill.

    `wall` names what it stands on; on an island `island` and `facing` say which side of which,
    and `wall` is both. In plan the backs of its things run from `origin` along `direction`, and
    their fronts are to the right of it. `depth` is the greatest of its things. `bases` stand
    under its units, one for each stretch of neighbours; they are no part of the row.
    """

    name: str
    title: str
    wall: str
    start: Quantity
    up: Quantity
    space: Quantity
    placed: tuple[Placed, ...]
    span: Span | None = field(eq=False)
    island: str = ""
    facing: str = ""
    origin: Spot | None = None
    direction: Direction = (Fraction(1), Fraction(0))
    depth: Quantity | None = None
    bases: tuple[Placed, ...] = ()

    @property
    def everything(self) -> tuple[Placed, ...]:
        """What stands in the row, and what that stands on."""
        return (*self.placed, *self.bases)

    def base_under(self, placed: Placed) -> Placed | None:
        """The base that a thing of this row stands on, with its neighbours."""
        middle = placed.at.value + placed.width.value / 2
        for base in self.bases:
            over = base.at.value < middle < base.at.value + base.width.value
            if over and placed.up.value == base.up.value:
                return base
        return None


@frozen
class Trims:
    """What is taken off a sheet's factory edges, its kerf included: along the fence, along the far
    edge, at the near end and at the far one."""

    fence: Quantity
    far: Quantity
    near: Quantity
    end: Quantity

    @property
    def across(self) -> Fraction:
        """What a sheet loses of its width, in inches."""
        return self.fence.value + self.far.value

    @property
    def along(self) -> Fraction:
        """What a sheet loses of its length, in inches."""
        return self.near.value + self.end.value


@frozen
class Saw:
    """The saw sheets are planned for. Lengths in inches: what a cut takes, what is taken off the
    factory edges (its kerf included), the narrowest strip that is ripped against the fence, how
    high sheets may be stacked, the least offcut that is kept (width by length), and the widest
    boards it rips and crosscuts, where the text says."""

    name: str
    title: str
    kerf: Quantity
    trim: Trims
    least: Quantity
    stack: Quantity
    first: str
    keeps: Stock
    reach: Quantity | None = None
    crosscuts: Quantity | None = None


@frozen
class Offcut:
    """A kept piece of a sheet, as the shop's text lists it."""

    name: str
    material: str
    size: Stock
    pieces: int
    place: str
    date: str


@frozen
class Job:
    """One kitchen, built. `sawn` holds the addresses of parts that are sawn already."""

    name: str
    number: str
    revision: str
    date: str
    system: System
    precision: Quantity
    edition: str
    room: Room
    runs: tuple[Run, ...]
    materials: tuple[Material, ...]
    saw: Saw | None
    offcuts: tuple[Offcut, ...]
    named: Mapping[str, Quantity] = field(eq=False, repr=False)
    sources: tuple[Source, ...] = field(eq=False, repr=False)
    sawn: frozenset[str] = frozenset()
    yardstick: Yardstick = field(factory=Yardstick, repr=False)
    supply: Supply = field(factory=Supply, repr=False)

    @property
    def placed(self) -> tuple[Placed, ...]:
        """Everything placed, run by run, what a run's units stand on after them."""
        return tuple(placed for run in self.runs for placed in run.everything)
