"""What a job costs by a shop's rates: by unit, run and trade, to the cent in every direction.

Each line's total is rounded to the cent once and shared out over the units it is for by largest
remainder, so that units, runs and trades all add up to the same price. Overhead, profit and tax
are reckoned on sums that are already whole cents, as anyone can do again on paper.
"""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Final

from attrs import evolve, frozen

from casewright.compiler.cutting.sawing import MaterialPlan
from casewright.compiler.model import Job, Part, Placed, Unit
from casewright.compiler.shop.buying import banded_lengths, piece_areas, surface
from casewright.compiler.shop.priced import (
    SECTION_WORDS,
    BuyingList,
    Estimate,
    Kind,
    Line,
    Missing,
    Needed,
    hours,
    money,
    nearest_whole,
    pack_word,
    percent,
    plain,
    says_its_count,
)
from casewright.compiler.shop.supply import Bought, Labour, Price, Rates
from casewright.lang.measure import INCH
from casewright.lang.printing import decimal

MINUTES_OF_AN_HOUR = 60

_PIECES: Final[Mapping[str, int]] = {"piece": 1, "pair": 2, "hundred": 100, "thousand": 1000}

NO_CABINET: Final = ("base", "filler")
"""Roles of what goes with cabinets and is none."""

BY_USE: Final = "Packs are charged by what the job takes of them; what is left over is the shop's."

_INCHES: Final[Mapping[str, Fraction]] = {"foot": Fraction(12), "metre": 1000 / INCH}


def apportion(total: int, weights: Sequence[Fraction]) -> list[int]:
    """`total` in whole parts by `weights` (none below nothing), which add up to it exactly.

    Largest remainder (Hamilton's method), ties to the earlier; equal parts where all weights are
    nothing. Raises ValueError where there is nobody to share a total that isn't nothing.
    """
    if not weights:
        if total:
            raise ValueError("there is nobody to share this")
        return []
    if total < 0:
        return [-each for each in apportion(-total, weights)]
    whole = sum(weights, Fraction(0))
    if whole == 0:
        weights, whole = [Fraction(1)] * len(weights), Fraction(len(weights))
    exact = [total * weight / whole for weight in weights]
    parts = [each.__floor__() for each in exact]
    by_remainder = sorted(range(len(parts)), key=lambda i: (parts[i] - exact[i], i))
    for index in by_remainder[: total - sum(parts)]:
        parts[index] += 1
    return parts


@frozen
class _Book:
    """What an estimate is reckoned from."""

    job: Job
    rates: Rates
    plans: tuple[MaterialPlan, ...]
    buying: BuyingList
    holders: tuple[str, ...]

    def line(
        self, kind: Kind, trade: str, title: str, words: str, exact: Fraction,
        weights: Mapping[str, Fraction],
    ) -> Line:  # fmt: skip
        """A line of an exact amount of money, rounded once and shared out."""
        total = nearest_whole(exact / self.rates.cent)
        return self.shared(kind, trade, title, words, total, weights)

    def shared(
        self, kind: Kind, trade: str, title: str, words: str, total: int,
        weights: Mapping[str, Fraction],
    ) -> Line:  # fmt: skip
        sharing = [holder for holder in self.holders if weights.get(holder)] or self.holders
        parts = apportion(total, [weights.get(holder, Fraction(0)) for holder in sharing])
        return Line(kind, trade, title, words, total, dict(zip(sharing, parts, strict=True)))


def estimate(job: Job, plans: Sequence[MaterialPlan], buying: BuyingList) -> Estimate | None:
    """The estimate of a job by its shop's rates; None where it has none, or nothing to build."""
    rates = job.supply.rates
    holders = tuple(placed.address for placed in job.placed if placed.unit is not None)
    if rates is None or not holders:
        return None
    book = _Book(job, rates, tuple(plans), buying, holders)
    left_out: list[str] = []
    unpriced: list[str] = []
    lines = [*_things(book, unpriced), *_labour(book, left_out)]
    _finish(book, lines)
    missing = Missing(
        tuple(dict.fromkeys(unpriced)), buying.unplanned, not rates.labour, job.supply.unread
    )
    if any(used.kept for plan in plans for used in plan.used):
        left_out.append("Kept offcuts are used and not charged.")
    if any(row.packs and row.to_order > row.needed - row.held for row in buying.rows):
        left_out.append(BY_USE)
    left_out.append("Whatever has no line here is not in the price.")
    said = dict.fromkeys((*missing.sentences, *buying.left_out, *left_out))
    return Estimate(rates, holders, tuple(lines), missing, tuple(said))


def _finish(book: _Book, lines: list[Line]) -> None:
    """Adds overhead, profit, rounding and tax, each on whole cents that stand above it."""
    rates = book.rates

    def add(kind: Kind, title: str, words: str, total: int) -> None:
        if total:
            weights = {
                holder: Fraction(sum(line.shares.get(holder, 0) for line in lines))
                for holder in book.holders
            }
            lines.append(book.shared(kind, kind, title, words, total, weights))

    def above() -> int:
        return sum(line.total for line in lines)

    def of(share: Fraction) -> str:
        return f"{percent(share)} of {money(above(), rates.places)}"

    add("overhead", "overhead", of(rates.overhead), nearest_whole(above() * rates.overhead))
    if rates.profit_is == "margin":
        words = f"a margin: {percent(rates.profit)} of the price before tax"
        share = rates.profit / (1 - rates.profit)
    else:
        words = f"a mark-up: {of(rates.profit)}, the cost"
        share = rates.profit
    add("profit", "profit", words, nearest_whole(above() * share))
    step = max(1, nearest_whole(rates.step / rates.cent))
    steps = Fraction(above(), step)
    rounded = (-(-steps // 1) if rates.rounds_up else nearest_whole(steps)) * step
    way = "up to the next" if rates.rounds_up else "to the nearest"
    add("rounding", "rounding", f"{way} {money(step, rates.places)}", int(rounded) - above())
    add("tax", "tax", of(rates.tax), nearest_whole(above() * rates.tax))


def _things(book: _Book, unpriced: list[str]) -> Iterator[Line]:
    for row in book.buying.rows:
        price = book.rates.price_of(row.name, row.long)
        if price is None:
            unpriced.append(row.title)
            continue
        amount = _charged(book, row)
        exact = amount * price.amount / _held_by(book, price, row)
        words = f"{_amount_words(amount, row, price)} at {_rate(book, price.amount)}"
        title = row.title if not row.size or row.size == row.title else f"{row.title} {row.size}"
        line = book.line("things", SECTION_WORDS[row.section], title, words, exact, row.uses)
        yield evolve(line, name=row.name)


def _rate(book: _Book, amount: Fraction) -> str:
    """A price as money where it is whole cents, else as the decimal it is."""
    cents = amount / book.rates.cent
    return money(int(cents), book.rates.places) if cents.denominator == 1 else decimal(amount)


def _charged(book: _Book, row: Needed) -> Fraction:
    """How much of a thing is charged: what is needed, or of sheets what is cut from them."""
    if row.section != "sheets" or book.rates.whole_sheets:
        return row.needed
    plan = next(each for each in book.plans if each.material.name == row.name)
    area = sum((piece_area for piece_area in piece_areas(plan).values()), Fraction(0))
    sheets = sum((each.size.width * each.size.length for each in plan.sheets), Fraction(0))
    waste = row.bought.waste if row.bought is not None else Fraction(0)
    return min(row.needed, row.needed * area / sheets / (1 - waste))


def _held_by(book: _Book, price: Price, row: Needed) -> Fraction:
    """How much of a row's own measure one price pays for."""
    if price.per in _PIECES:
        return Fraction(_PIECES[price.per])
    if price.per in _INCHES:
        # What runs along units is counted in its bought lengths.
        return _INCHES[price.per] / (row.long or 1 if row.section == "linear" else 1)
    if price.per == "pack" and row.section != "coats" and row.bought is not None:
        return row.bought.pack or Fraction(1)
    if price.per == "cubic_metre" and row.measure == "board foot":
        return (1000 / INCH) ** 3 / 144
    if price.per == "board_foot" and row.measure == "cubic metre":
        return 144 / (1000 / INCH) ** 3
    return Fraction(1)


def _of_a_pack(amount: Fraction, bought: Bought) -> str:
    """`72 of a box of 250`; more than a pack as `600 by the box of 250`, `12 by the pair`."""
    title, unit = bought.pack_title, " feet" if bought.by_length else ""
    pack = bought.pack or Fraction(1)
    if bought.by_length:
        amount, pack = amount / 12, pack / 12
    article = "an" if title[:1].lower() in "aeiou" else "a"
    of = f"of {article}" if amount <= pack else "by the"
    holds = "" if says_its_count(bought) else f" of {plain(pack)}{unit}"
    return f"{plain(amount)}{unit} {of} {title}{holds}"


def _amount_words(amount: Fraction, row: Needed, price: Price) -> str:
    per = price.per.replace("_", " ")
    bought = row.bought
    if price.per == "pack" and row.section != "coats" and bought is not None and bought.pack:
        return _of_a_pack(amount, bought)
    if row.section == "linear" and row.long is not None and price.per in _INCHES:
        feet = "feet" if price.per == "foot" else price.per
        return f"{plain(amount * row.long / _INCHES[price.per])} {feet}"
    if row.measure == "inch" and price.per in _INCHES:
        return f"{plain(amount / _INCHES[price.per])} {per if per == 'metre' else 'feet'}"
    if price.per in _PIECES:
        unit = "pieces" if price.per == "piece" else f"pieces by the {per}"
        return f"{plain(amount)} {unit}"
    if row.measure == "pack":
        return f"{plain(amount)} {pack_word(bought, amount)}"
    many = {"board foot": "board feet"}.get(row.measure, f"{row.measure}s")
    return f"{plain(amount)} {row.measure if amount == 1 else many}"


def _labour(book: _Book, left_out: list[str]) -> Iterator[Line]:
    for labour in book.rates.labour:
        counts = _counted(book, labour)
        count = sum(counts.values(), Fraction(0))
        if not count:
            left_out.append(f"There is nothing of {labour.title} to do in this job.")
            continue
        minutes = count * labour.time + labour.set_up
        words = (
            f"{plain(count)} {_many(labour.per, count)} at {plain(labour.time)} min"
            + (f", {plain(labour.set_up)} min to set up" if labour.set_up else "")
            + f": {hours(minutes)} at {_rate(book, labour.wage)}"
        )
        exact = minutes * labour.wage / MINUTES_OF_AN_HOUR
        yield book.line("labour", labour.title, labour.title, words, exact, counts)


def _many(per: str, count: Fraction) -> str:
    if count == 1:
        return per.replace("_", " ")
    return {"foot": "feet", "square_foot": "square feet"}.get(per, f"{per}s").replace("_", " ")


def _counted(book: _Book, labour: Labour) -> dict[str, Fraction]:
    """How often a kind of work is done, by unit."""
    if labour.per == "cut":
        return _cuts(book)
    if labour.per == "job":
        return dict.fromkeys(book.holders, Fraction(1, len(book.holders)))
    counts: dict[str, Fraction] = {}
    for placed in book.job.placed:
        unit = placed.unit
        if unit is None:
            continue
        parts, assembled = _served(unit, labour.serves)
        count = Fraction(0)
        if labour.per == "piece":
            inside = {part.path for part in parts if _holding(part.assembly, assembled)}
            count = Fraction(len(parts) - len(inside) + len(assembled))
        elif labour.per == "hole":
            count = Fraction(sum(len(part.holes) for part in parts))
        elif labour.per in ("foot", "metre"):
            inches = sum(
                (long for part in parts for _, long in banded_lengths(part)),
                Fraction(0),
            )
            count = inches / _INCHES[labour.per]
        elif labour.per in ("square_foot", "square_metre"):
            side = _INCHES[labour.per.removeprefix("square_")]
            count = _finished(book.job, parts) / side**2
        elif labour.per == "joint":
            count = Fraction(len(unit.joints))
        elif labour.per == "step":
            count = Fraction(len(unit.steps))
        elif labour.per == "unit":
            count = Fraction(_is_worked(placed, unit, labour.serves))
        if count:
            counts[placed.address] = count
    return counts


def _finished(job: Job, parts: Sequence[Part]) -> Fraction:
    """The area of parts that is finished, once for each coat, in square inches."""
    return sum(
        (
            surface(part) * coat.coats
            for coat in job.supply.coats
            for part in parts
            if part.material.name in coat.materials
        ),
        Fraction(0),
    )


def _served(unit: Unit, roles: tuple[str, ...]) -> tuple[list[Part], tuple[str, ...]]:
    """The parts a kind of work is done on, and the paths of the assemblies that serve a role as a
    whole: a door of five pieces is one front. Of assemblies in one another only the outer is told;
    the parts of one are among the parts. Without `roles` they are all parts, each for itself."""
    parts = [part for part in unit.parts if not part.hardware]
    if not roles:
        return parts, ()
    serving = [each.path for each in unit.assemblies if each.role in roles]
    outer = tuple(
        path for path in serving if not _holding(path, [each for each in serving if each != path])
    )
    found = [part for part in parts if part.role in roles or _holding(part.assembly, outer)]
    return found, outer


def _holding(path: str, assemblies: Sequence[str]) -> bool:
    """Whether an assembly is one of these, or is in one of them, all by their paths."""
    return any(path == each or path.startswith(f"{each}.") for each in assemblies)


def _is_worked(placed: Placed, unit: Unit, roles: tuple[str, ...]) -> bool:
    """Whether work by the unit is done on what stands there: on what serves one of `roles`;
    where none is said on every cabinet, and a base under cabinets or a filler is none."""
    if roles:
        return unit.role in roles
    return placed.kind == "unit" and unit.role not in NO_CABINET


def _cuts(book: _Book) -> dict[str, Fraction]:
    """Passes of the saw over all plans, shared out by the pieces on each sheet."""
    counts: dict[str, Fraction] = {}
    for plan in book.plans:
        for sheet in plan.sheets:
            pieces = [board.holder for board in sheet.boards if board.use == "piece"]
            for holder in pieces:
                share = Fraction(len(sheet.passes), len(pieces))
                counts[holder] = counts.get(holder, Fraction(0)) + share
    return counts
