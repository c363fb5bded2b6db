"""How a shop buys, what it has, and what it charges: the data behind buying list and estimate.

Money is an exact number of the currency's units. Time is in minutes. Lengths are in inches, areas
in square inches, shares are parts of one.
"""

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

from attrs import evolve, field, frozen

from casewright.lang.source import Span


@frozen
class Bought:
    """How a thing is bought.

    `pack` is how many pieces, or inches, a pack or roll holds (None: one by one); `over` is taken
    longer at each end of a piece; `waste` is the share that is lost. `supplier` and `order_name`
    stand on order papers only where the shop's text gives them.
    """

    name: str
    pack: Fraction | None
    by_length: bool
    pack_title: str
    over: Fraction
    waste: Fraction
    supplier: str
    order_name: str
    span: Span | None = field(eq=False)


@frozen
class OnHand:
    """What the shop has of a thing: pieces, sheets, board feet, packs, or inches of what comes by
    length. `long` is its own length where it is made in several."""

    name: str
    amount: Fraction
    by_length: bool
    long: Fraction | None
    span: Span | None = field(eq=False)


@frozen
class Boards:
    """How the boards of a lumber come, and what is lost of them on their way to parts.

    `lengths` are bought, the shortest first; `wide` is what each is counted on to be wide (`random`
    where wider ones come too), None where each section is bought at its own width. `rough` is the
    thickness as bought, None where the usual allowance gives it. Of a piece `over` is cut off each
    end and `edge` off each edge once it is planed; `ends` is cut off each end of a board and
    `defects` is the share of its length that is cut out. `strip` is the widest strip of a panel
    that is glued up, None for whatever a board yields. `first` is the first cut: rip or crosscut.
    """

    name: str
    lengths: tuple[Fraction, ...]
    wide: Fraction | None
    random: bool
    rough: Fraction | None
    over: Fraction
    edge: Fraction
    ends: Fraction
    defects: Fraction
    strip: Fraction | None
    first: str
    span: Span | None = field(eq=False)

    def named(self, name: str) -> "Boards":
        """The same of another lumber."""
        return evolve(self, name=name)


@frozen
class Linear:
    """What comes by the length and runs along units: along what serves a role of `along`, and past
    what serves one of `past`. It follows the units' `edge`, top or bottom. `lengths` are bought,
    the shortest first; a piece is cut `over` longer at each end, and no joint stands beside what
    serves a role of `clear_of`. It `rises` so many inches past the top it runs along."""

    name: str
    title: str
    along: tuple[str, ...]
    past: tuple[str, ...]
    edge: str
    lengths: tuple[Fraction, ...]
    over: Fraction
    clear_of: tuple[str, ...]
    span: Span | None = field(eq=False)
    rises: Fraction = Fraction(0)


@frozen
class Setting:
    """What units are set in the room with: pieces of the fastener or fitting `driven`.

    Through parts of the roles `through` into the wall, or into what serves one of `to` in the base
    that a unit stands on; between neighbours, where parts of the roles `between` (and `to`, where
    they differ) meet; or under what serves one of `under`. One goes at `every` so many inches, or
    `studs` says that each stud takes some; never fewer than `least`.
    """

    name: str
    title: str
    driven: str
    through: tuple[str, ...]
    between: tuple[str, ...]
    to: tuple[str, ...]
    under: tuple[str, ...]
    studs: bool
    every: Fraction | None
    least: int


@frozen
class Coat:
    """What is spread on parts of some materials, or in joints of some fixings, `coats` times;
    `covers` is what a pack covers once."""

    name: str
    title: str
    materials: tuple[str, ...]
    fixings: tuple[str, ...]
    coats: Fraction
    covers: Fraction
    span: Span | None = field(eq=False)


@frozen
class Price:
    """What a thing costs: `amount` for one of `per`, of the length `long` where it has several."""

    name: str
    amount: Fraction
    per: str
    long: Fraction | None
    span: Span | None = field(eq=False)


@frozen
class Labour:
    """A kind of work: `time` for each of `per` (of parts with one of `serves`, where any is said),
    and `set_up` once a job; `wage` is an hour's."""

    name: str
    title: str
    time: Fraction
    per: str
    serves: tuple[str, ...]
    set_up: Fraction
    wage: Fraction
    span: Span | None = field(eq=False)


@frozen
class Rates:
    """A shop's rates in one currency.

    `places` are the decimals of the currency's smaller unit. `profit_is` says whether `profit` is
    a share of the price ("margin") or of the cost ("mark_up"). The price before tax is rounded
    to `step`, to the nearest or `up`.
    """

    name: str
    title: str
    span: Span | None = field(eq=False)
    currency: str
    places: int
    whole_sheets: bool
    overhead: Fraction
    profit: Fraction
    profit_is: Literal["margin", "mark_up"]
    tax: Fraction
    step: Fraction
    rounds_up: bool
    prices: tuple[Price, ...]
    labour: tuple[Labour, ...]

    def price_of(self, name: str, long: Fraction | None) -> Price | None:
        """The price of a thing: of its length where one is stated, else of any."""
        named = [price for price in self.prices if price.name == name]
        exact = next((price for price in named if price.long == long), None)
        return exact or next((price for price in named if price.long is None), None)

    @property
    def cent(self) -> Fraction:
        """The currency's smallest unit."""
        return Fraction(1, 10**self.places)


@frozen
class Supply:
    """All that a shop says of buying; `titles` name fasteners, and what else has no material.
    `unread` are the places of the shop's data that can't be read, as file and line; `unsized` the
    sheets of which some size they are bought in can't."""

    bought: tuple[Bought, ...] = ()
    on_hand: tuple[OnHand, ...] = ()
    coats: tuple[Coat, ...] = ()
    titles: Mapping[str, str] = field(factory=dict, eq=False)
    rates: Rates | None = None
    boards: tuple[Boards, ...] = ()
    linear: tuple[Linear, ...] = ()
    unread: tuple[str, ...] = ()
    settings: tuple[Setting, ...] = ()
    unsized: frozenset[str] = frozenset()

    def how(self, name: str) -> Bought | None:
        """How a thing is bought, where the text says."""
        return next((each for each in self.bought if each.name == name), None)

    def boards_of(self, name: str) -> Boards | None:
        """How the boards of a lumber come, where the text says."""
        return next((each for each in self.boards if each.name == name), None)

    def has(self, name: str, long: Fraction | None = None) -> Fraction:
        """What is on hand of a thing."""
        return sum(
            (each.amount for each in self.on_hand if (each.name, each.long) == (name, long)),
            Fraction(0),
        )
