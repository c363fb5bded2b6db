"""What is bought and what it costs, as papers show it: plain values, whoever worked them out."""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Final, Literal

from attrs import field, frozen

from casewright.compiler.model import Job
from casewright.compiler.shop.supply import Bought, Rates

Section = Literal["sheets", "lumber", "bands", "linear", "hardware", "fasteners", "coats"]

SECTION_WORDS: Final[Mapping[Section, str]] = {
    "sheets": "sheets",
    "lumber": "lumber",
    "bands": "bands",
    "linear": "by the length",
    "hardware": "hardware",
    "fasteners": "fasteners",
    "coats": "finish and glue",
}
"""Sections as papers head them."""

Measure = Literal["sheet", "board foot", "cubic metre", "inch", "piece", "pack"]

Kind = Literal["things", "labour", "overhead", "profit", "rounding", "tax"]


@frozen
class Needed:
    """One thing that is bought.

    `net` is what the job takes, `needed` with what is lost; both in `measure`. `held` is on hand,
    `to_order` is bought, in `packs` packs where it comes in packs. `uses` says how much of the net
    each unit takes, by address. `note` says how the figure was reached.
    """

    section: Section
    name: str
    title: str
    size: str
    long: Fraction | None
    measure: Measure
    net: Fraction
    needed: Fraction
    held: Fraction
    to_order: Fraction
    packs: int | None
    bought: Bought | None
    uses: Mapping[str, Fraction] = field(eq=False)
    note: str = ""


@frozen
class BuyingList:
    """Everything to buy, by section, and what is not on it, in sentences; `unplanned` are the
    things among them that belong on it."""

    rows: tuple[Needed, ...]
    left_out: tuple[str, ...]
    unplanned: tuple[str, ...] = ()


@frozen
class Line:
    """One line of an estimate: what, how it was reckoned, its total in cents, and each unit's
    share of it by address. `trade` is what it is added under, `name` the declared thing it is
    of, where it is of one."""

    kind: Kind
    trade: str
    title: str
    words: str
    total: int
    shares: Mapping[str, int] = field(eq=False)
    name: str = ""


@frozen
class Missing:
    """What belongs to a job and isn't in its estimate: things without a price, things without a
    plan that would say how many, all work where rates have none, and places of the shop's text
    that can't be read."""

    unpriced: tuple[str, ...] = ()
    unplanned: tuple[str, ...] = ()
    work: bool = False
    unread: tuple[str, ...] = ()

    @property
    def named(self) -> tuple[str, ...]:
        """Everything of it that has a name, each once."""
        return (*dict.fromkeys((*self.unplanned, *self.unpriced)), *(["work"] if self.work else []))

    @property
    def sentences(self) -> tuple[str, ...]:
        """It as the owner reads it; why there is no plan of a thing stands on the buying list."""
        said = []
        if self.unpriced:
            said.append(f"Not in this sum, since no price is stated: {'; '.join(self.unpriced)}.")
        if self.work:
            said.append("No labour is in these rates: work is not in this sum.")
        if self.unread:
            said.append(unread_words(self.unread))
        return tuple(said)

    def __bool__(self) -> bool:
        return bool(self.unpriced or self.unplanned or self.work or self.unread)


@frozen
class Estimate:
    """A priced job, in whole cents of one currency. It is a whole price only where nothing is
    `missing`; `left_out` says in sentences what isn't in."""

    rates: Rates
    holders: tuple[str, ...]
    lines: tuple[Line, ...]
    missing: Missing
    left_out: tuple[str, ...]

    def of(self, *kinds: Kind) -> int:
        """The total of the lines of some kinds."""
        return sum(line.total for line in self.lines if line.kind in kinds)

    @property
    def cost(self) -> int:
        """Things, labour and overhead."""
        return self.of("things", "labour", "overhead")

    @property
    def price(self) -> int:
        """The price before tax."""
        return self.cost + self.of("profit", "rounding")

    @property
    def total(self) -> int:
        """The price with tax."""
        return self.price + self.of("tax")

    def unit(self, holder: str, *kinds: Kind) -> int:
        """A unit's share of the lines of some kinds, or of all."""
        return sum(
            line.shares.get(holder, 0) for line in self.lines if not kinds or line.kind in kinds
        )

    def trades(self) -> dict[str, int]:
        """Totals by trade, in the order of the lines."""
        found: dict[str, int] = {}
        for line in self.lines:
            found[line.trade] = found.get(line.trade, 0) + line.total
        return found

    def money(self, cents: int) -> str:
        """`1,234.50`."""
        return money(cents, self.rates.places)


@frozen
class Offer:
    """An option the customer may choose: the job that has it, and its estimate; `lines` are what it
    changes."""

    name: str
    title: str
    lines: tuple[str, ...]
    job: Job
    estimate: Estimate


@frozen
class Saving:
    """A change that would save so many cents of cost: what it is, how its line would read, and
    where that stands, as file and line."""

    words: str
    line: str
    where: str
    cents: int


@frozen
class Advice:
    """The changes that would save the most of a cost, the largest first; how many were tried, how
    many of those can't be built or bring a new fault, how many only leave parts out, and how many
    more there are that a kitchen so large isn't tried with."""

    cost: int
    savings: tuple[Saving, ...]
    tried: int
    unbuilt: int
    less: int = 0
    untried: int = 0


def unread_words(places: Sequence[str]) -> str:
    """That lines of the shop's own data, as file and line, can't be read."""
    return f"What can't be read in the shop's text is left out: {', '.join(places)}."


def money(cents: int, places: int) -> str:
    """Whole cents as a decimal with its thousands apart."""
    minus = "-" if cents < 0 else ""
    whole, rest = divmod(abs(cents), 10**places)
    return f"{minus}{whole:,}.{rest:0{places}d}" if places else f"{minus}{whole:,}"


SAYS_ITS_COUNT: Final[Mapping[str, int]] = {
    "pair": 2, "dozen": 12, "hundred": 100, "thousand": 1000,
}  # fmt: skip
"""Packs whose name says what they hold."""


def says_its_count(bought: Bought) -> bool:
    """Whether the name of a pack says how many it holds, so that no paper says it twice."""
    return not bought.by_length and SAYS_ITS_COUNT.get(bought.pack_title) == bought.pack


def pack_word(bought: Bought | None, amount: Fraction) -> str:
    """What is bought by the pack alone is counted in: `quart` where it comes so, else `packs`."""
    title = bought.pack_title if bought is not None and bought.pack == 1 else "pack"
    return title if amount == 1 else several(title)


def several(name: str) -> str:
    """More than one of a thing, in the usual ways of English: `boxes`, `shelves`."""
    if name.endswith("lf"):
        return f"{name[:-1]}ves"
    return f"{name}es" if name.endswith(("s", "x", "z", "ch", "sh")) else f"{name}s"


def nearest_whole(value: Fraction) -> int:
    """The nearest whole number, a half up."""
    return (value + Fraction(1, 2)).__floor__()


def percent(share: Fraction) -> str:
    """`70 %`, with two decimals at most."""
    hundredths = round(share * 10_000)
    text = f"{hundredths // 100}.{hundredths % 100:02d}".rstrip("0").rstrip(".")
    return f"{text} %"


def plain(value: Fraction) -> str:
    """A decimal of at most two places."""
    hundredths = nearest_whole(value * 100)
    text = f"{hundredths // 100:,}.{hundredths % 100:02d}"
    return text.removesuffix(".00")


def hours(minutes: Fraction) -> str:
    """`7 h 36 min`, to the minute."""
    whole = nearest_whole(minutes)
    return f"{whole // 60} h {whole % 60} min" if whole >= 60 else f"{whole} min"
