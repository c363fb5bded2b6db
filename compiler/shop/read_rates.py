"""A shop's rates read: currency, prices, labour, overhead, profit and tax."""

from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING, Final, Literal

from casewright.compiler.construct.materials import called
from casewright.compiler.shop.currencies import PLACES
from casewright.compiler.shop.supply import Bought, Labour, Price, Rates
from casewright.compiler.shop.which import nearest
from casewright.compiler.text.resolve import Declaration, Program
from casewright.compiler.words.buying import WORKED_PER
from casewright.lang.findings import Finding, Label, error
from casewright.lang.measure import Dimension
from casewright.lang.shape import Clause, Statement, bare_word, span_of, suggestion
from casewright.lang.source import Span
from casewright.lang.tree import Expression, Number

if TYPE_CHECKING:
    from casewright.compiler.shop.read_supply import SupplyReader

BY_LENGTH: Final = ("foot", "metre")
BY_COUNT: Final = ("piece", "pair", "hundred", "thousand")

FINER: Final = 2
"""Decimals that a price may have beyond its currency's: a screw costs a part of a cent (common
practice)."""

PRICED: Final = {
    "sheet": ("sheet",),
    "lumber": ("board_foot", "cubic_metre"),
    "band": (*BY_LENGTH, "pack"),
    "slide": (*BY_COUNT, "pack"),
    "hinge": (*BY_COUNT, "pack"),
    "fitting": (*BY_COUNT, "pack"),
    "fastener": (*BY_COUNT, "pack"),
    "coat": ("pack",),
    "linear": (*BY_LENGTH, "piece"),
}
"""What a thing of each kind may be priced for."""


def read_rates(
    program: Program, reader: "SupplyReader", bought: Sequence[Bought]
) -> tuple[Rates | None, tuple[Finding, ...]]:
    """The rates the job names, else the nearest that are declared; None where there are none, or
    where a line of them can't be read that is no price and no labour: overhead, profit and tax go
    into every sum."""
    before = len(reader.findings)
    declaration = _chosen(program, reader)
    rates = None
    if declaration is not None:
        chosen = len(reader.findings)
        spoilt = reader.faults.spoil(program, declaration)
        rates = _rates(program, reader, declaration, bought, spoilt=spoilt)
        if spoilt:
            # Of a head that can't be read nothing is known; its prices are looked at all the same,
            # so that a person mends all of them at once.
            rates = None
            lines = [span_of(each.origin) for each in declaration.statement.body]
            reader.findings[chosen:] = [
                each
                for each in reader.findings[chosen:]
                if each.span is not None and any(_within(each.span, line) for line in lines)
            ]
    found = tuple(reader.findings[before:])
    del reader.findings[before:]
    return rates, found


def _chosen(program: Program, reader: "SupplyReader") -> Declaration | None:
    names = program.names("rates")
    clause = program.jobs[0].clause("rates") if program.jobs else None
    if clause is not None and clause.values:
        name = bare_word(clause.values[0])
        found = program.find("rates", name)
        if found is None:
            reader.findings.append(
                error(
                    "unknown-rates",
                    f"no rates are called {name}",
                    span_of(clause.values[0].origin),
                    help=suggestion(name, names),
                )
            )
        return found
    chosen, unsaid = nearest(program, "rates")
    reader.findings += unsaid
    return chosen


def _rates(
    program: Program,
    reader: "SupplyReader",
    declaration: Declaration,
    bought: Sequence[Bought],
    *,
    spoilt: bool,
) -> Rates | None:
    """The rates as they are said; None where a figure of their head can't be used, or, `spoilt`,
    where a line of it couldn't be read before."""
    statement = declaration.statement
    currency = _currency(program, reader, declaration)
    if currency is None:
        return None
    before = len(reader.findings)
    wage = _money(reader, statement.clause("wage"), "wage")
    margin, mark_up = statement.clause("margin"), statement.clause("mark_up")
    if margin is not None and mark_up is not None:
        reader.findings.append(
            error(
                "margin-and-mark-up",
                "profit is a margin or a mark-up, and here it is both",
                span_of(mark_up.origin),
                help="a margin is a share of the price, a mark-up a share of the cost: keep one",
            )
        )
    profit_is: Literal["margin", "mark_up"] = "margin" if margin is not None else "mark_up"
    rounding = statement.clause("round")
    to = rounding.clause("to") if rounding is not None else None
    cent = Fraction(1, 10 ** PLACES[currency])
    step = _money(reader, rounding, "round")
    overhead = _share(reader, statement.clause("overhead"), "overhead")
    profit = (
        reader.share(margin, "margin")
        if margin is not None
        else _share(reader, mark_up, "a mark-up")
    )
    tax = _share(reader, statement.clause("tax"), "tax")
    for clause in (statement.clause("wage"), rounding):
        _too_fine(reader, clause.values[0] if clause and clause.values else None, currency)
    unusable = spoilt or len(reader.findings) > before
    sound = [line for line in statement.body if not reader.faults.within(line.origin)]
    prices = _last(reader, statement, (line for line in sound if line.rule == "price"))
    works = _last(reader, statement, (line for line in sound if line.rule == "labour"))
    priced = [_price(reader, line, currency, bought) for line in prices]
    # A wage that can't be used is blamed once, and not again by every line that is paid by it.
    paid = Fraction(0) if wage is None and unusable else wage
    worked = [_labour(reader, line, paid) for line in works]
    if unusable:
        return None
    return Rates(
        statement.name,
        called(statement, statement.name),
        span_of(statement.head.origin),
        currency.upper(),
        PLACES[currency],
        _word(statement.clause("sheets")) != "cut",
        overhead,
        profit,
        profit_is,
        tax,
        step if step else cent,
        _word(to) == "up",
        tuple(each for each in priced if each is not None),
        tuple(each for each in worked if each is not None),
    )


def _currency(program: Program, reader: "SupplyReader", declaration: Declaration) -> str | None:
    """The currency of the rates and of those they are from; two of them are a finding."""
    said: list[tuple[str, Span | None]] = []
    for name in declaration.chain:
        found = program.find("rates", name)
        clause = found.statement.clause("currency") if found is not None else None
        if clause is not None and clause.values:
            said.append((bare_word(clause.values[0]), span_of(clause.values[0].origin)))
    if not said:
        reader.findings.append(
            error(
                "value-missing",
                f"rates {declaration.name} don't say their currency",
                span_of(declaration.statement.head.origin),
                help="add currency and its ISO 4217 code in small letters, as eur",
            )
        )
        return None
    code, span = said[0]
    for other, place in said[1:]:
        if other != code:
            reader.findings.append(_two(code, span, other, place))
            return None
    if code not in PLACES:
        reader.findings.append(_unknown(code, span))
        return None
    return code


def _two(code: str, span: Span | None, other: str, place: Span | None = None) -> Finding:
    return error(
        "two-currencies",
        f"prices are in {code.upper()} and in {other.upper()}, and can't be added",
        span,
        labels=(Label(place, f"in {other.upper()}"),) if place is not None else (),
        help="rates have one currency: change the other prices into it",
    )


def _unknown(code: str, span: Span | None) -> Finding:
    return error(
        "unknown-currency",
        f"no currency has the code {code or 'this'}",
        span,
        help=suggestion(code, PLACES) or "an ISO 4217 code in small letters, as eur",
    )


def _last(reader: "SupplyReader", rates: Statement, lines: Iterable[Statement]) -> list[Statement]:
    """The lines of a block, where a later one goes over that of rates it is from; two of one
    block are a finding."""
    own = span_of(rates.origin)
    kept: dict[tuple[str, object], Statement] = {}
    for line in lines:
        long = line.clause("long")
        key = (line.name, getattr(long.values[0], "written", None) if long else None)
        first = kept.get(key)
        if first is not None and _inside(first, own) and _inside(line, own):
            reader.twice(first, line)
            continue
        kept[key] = line
    return list(kept.values())


def _inside(line: Statement, block: Span | None) -> bool:
    span = span_of(line.origin)
    return span is not None and _within(span, block)


def _within(span: Span, outer: Span | None) -> bool:
    return (
        outer is not None and span.source is outer.source and outer.start <= span.start < outer.end
    )


def _price(
    reader: "SupplyReader", line: Statement, currency: str, bought: Sequence[Bought]
) -> Price | None:
    kind = reader.kind_of(line.values[0]) if line.values else ""
    if not kind or len(line.values) < 2:
        return None
    amount = reader.value(line, 1, f"price {line.name}", Dimension.MONEY)
    if amount is None or _negative(reader, line, amount.value, "a price"):
        return None
    if _too_fine(reader, line.values[1], currency, FINER):
        return None
    own = line.clause("currency")
    if own is not None and _word(own) != currency:
        place = span_of(own.origin)
        unknown = _word(own) not in PLACES
        finding = _unknown(_word(own), place) if unknown else _two(_word(own), place, currency)
        reader.findings.append(finding)
        return None
    per = line.clause("per")
    word = _word(per)
    if kind not in PRICED or word not in PRICED[kind]:
        reader.findings.append(_wrong_per(line, kind, per))
        return None
    if word == "pack" and kind != "coat":
        how = next((each for each in bought if each.name == line.name), None)
        if how is None or how.pack is None:
            reader.findings.append(
                error(
                    "pack-unknown",
                    f"nothing says what a pack of {line.name} holds",
                    span_of(per.origin) if per is not None else None,
                    help=f"add buy {line.name} by, and a count or a length",
                )
            )
            return None
    long = reader.measure(line.clause("long"), f"price {line.name} long")
    if long is not None and not reader.is_made(kind, line, long):
        return None
    return Price(
        line.name,
        amount.value,
        word,
        long.value if long is not None else None,
        span_of(line.head.origin),
    )


def _wrong_per(line: Statement, kind: str, per: Clause | None) -> Finding:
    may = PRICED.get(kind, ())
    if not may:
        return error(
            "price-of-another-kind",
            f"a {kind} has no price of its own",
            span_of(line.values[0].origin),
        )
    words = " or ".join(each.replace("_", " ") for each in may)
    said = _word(per)
    return error(
        "price-of-another-kind",
        f"{line.name} is a {kind}: its price is per {words}"
        + (f", not per {said.replace('_', ' ')}" if said else ""),
        span_of(per.values[0].origin if per is not None and per.values else line.head.origin),
        help=f"write per {may[0]}",
    )


def _labour(reader: "SupplyReader", line: Statement, wage: Fraction | None) -> Labour | None:
    if len(line.values) < 2:
        return None
    time = reader.value(line, 1, f"labour {line.name}", Dimension.TIME)
    if time is None or _negative(reader, line, time.value, "a time"):
        return None
    per = line.clause("per")
    if not _word(per):
        reader.findings.append(
            error(
                "value-missing",
                f"labour {line.name} doesn't say what takes so long",
                span_of(line.head.origin),
                help=f"add per, and {', '.join(WORKED_PER[:-1])} or {WORKED_PER[-1]}",
            )
        )
        return None
    set_up = reader.measure(line.clause("set_up"), f"labour {line.name} set_up", Dimension.TIME)
    own = _money(reader, line.clause("wage"), f"labour {line.name} wage")
    paid = own if own is not None else wage
    if paid is None:
        if line.clause("wage") is None:
            reader.findings.append(
                error(
                    "value-missing",
                    f"nothing says what an hour of {line.name} costs",
                    span_of(line.head.origin),
                    help="add wage and an amount to the rates, or to this line",
                )
            )
        return None
    serves = line.clause("serves")
    roles = tuple(bare_word(value) for value in serves.values) if serves is not None else ()
    return Labour(
        line.name,
        line.name.replace("_", " "),
        time.value,
        _word(per),
        roles,
        set_up.value if set_up is not None else Fraction(0),
        paid,
        span_of(line.head.origin),
    )


def _word(clause: Clause | None) -> str:
    return bare_word(clause.values[0]) if clause is not None and clause.values else ""


def _money(reader: "SupplyReader", clause: Clause | None, name: str) -> Fraction | None:
    value = reader.measure(clause, name, Dimension.MONEY)
    if value is None or clause is None:
        return None
    if value.value >= 0:
        return value.value
    reader.findings.append(_less_than_nothing(name, span_of(clause.origin)))
    return None


def _too_fine(
    reader: "SupplyReader", said: Expression | None, currency: str, finer: int = 0
) -> bool:
    """Whether a number is written with more decimals than its currency has, and `finer` more."""
    places = PLACES[currency] + finer
    decimals = len(said.written.partition(".")[2]) if isinstance(said, Number) else 0
    if said is None or decimals <= places:
        return False
    most = "no decimals" if not places else f"{places} decimals at most"
    reader.findings.append(
        error(
            "price-too-fine",
            f"{said.written} has {decimals} decimals; in {currency.upper()} this has {most}"
            if isinstance(said, Number)
            else f"in {currency.upper()} this has {most}",
            span_of(said.origin),
            help="round it, or say the price of more of it: per hundred, per thousand",
        )
    )
    return True


def _negative(reader: "SupplyReader", line: Statement, value: Fraction, what: str) -> bool:
    if value >= 0:
        return False
    reader.findings.append(_less_than_nothing(what, span_of(line.values[1].origin)))
    return True


def _less_than_nothing(what: str, span: Span | None) -> Finding:
    return error("less-than-nothing", f"{what} is nothing or more", span, help="write 0 or more")


def _share(reader: "SupplyReader", clause: Clause | None, what: str) -> Fraction:
    """A share that may pass one: overhead, a mark-up, a tax."""
    value = reader.measure(clause, what, Dimension.COUNT)
    if value is None or clause is None:
        return Fraction(0)
    if 0 <= value.value <= 10:
        return value.value
    reader.findings.append(
        error(
            "share-out-of-range",
            f"{what} is a share from 0 to 1000 %",
            span_of(clause.values[0].origin),
            help="for instance 20%",
        )
    )
    return Fraction(0)
