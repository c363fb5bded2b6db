"""What parts are made of, and what holds them."""

from collections.abc import Mapping
from fractions import Fraction

from attrs import field, frozen

from casewright.lang.cells import Quantity


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
    first part, or aslant from one of its faces), or "" where nothing is driven. `bored`: what holds
    stands in holes that the text bores at the joint, and they say how many there are."""

    name: str
    title: str
    locate: str = ""
    hold: str = ""
    every: Quantity | None = None
    ends: Quantity | None = None
    needs: Quantity | None = None
    drive: str = ""
    bored: bool = False


@frozen
class Banding:
    """An edge that is banded, and with what."""

    edge: str
    band: Material


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
