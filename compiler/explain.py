"""Where a figure comes from: its derivation as a sum, down to the lines of the text."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from attrs import evolve, frozen

from casewright.compiler.binding import Binder
from casewright.compiler.construct.shares import SHARES
from casewright.compiler.keys import binder
from casewright.compiler.model import Job, Placed, Unit
from casewright.lang.cells import INPUT, LITERAL, NAMED, Quantity
from casewright.lang.measure import Dimension, Measure
from casewright.lang.render_explain import Row
from casewright.lang.source import Span

LONGEST_QUOTE: Final = 44
"""Characters of a line that are quoted beside where it stands."""

HALF_OF: Final = "half of "

CHOOSING: Final = ("least", "most")
"""Operators that take one of their inputs as it is."""

DEEPEST: Final = 12
"""Names that stand for names that are looked through before one is shown as it is."""


@frozen(eq=False)
class Explained:
    """A figure, and the rows of the sum it comes from."""

    quantity: Quantity
    rows: tuple[Row, ...]


class Explainer:
    """Explains the figures of one job by their addresses."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self._placed = {placed.address: placed for placed in job.placed}
        self._binders: dict[str, Binder] = {}

    def addresses(self) -> Iterator[str]:
        """Every address that can be explained, once."""
        yield from self.job.named
        for placed in self.job.placed:
            for name in placed.unit.named if placed.unit is not None else ():
                address = f"{placed.address}.{name}"
                if address not in self.job.named:
                    yield address

    def figure(self, address: str) -> Quantity | None:
        """The figure at an address, its derivation bound to this job's own lines."""
        if address in self.job.named:
            return self.job.named[address]
        for at, character in enumerate(address):
            placed = self._placed.get(address[:at]) if character == "." else None
            if placed is not None and placed.unit is not None:
                found = placed.unit.named.get(address[at + 1 :])
                if found is not None:
                    return self._binder(placed, placed.unit).bind(found)
        return None

    def _binder(self, placed: Placed, unit: Unit) -> Binder:
        if placed.address not in self._binders:
            by_path = {part.path: part.address for part in unit.parts}
            by_path |= {each.path: each.address for each in unit.assemblies if each.path}

            def address_of(name: str) -> str:
                if " " in name:
                    return name
                path, _, word = name.rpartition(".")
                return f"{placed.address}.{by_path.get(path, path)}.{word}".replace("..", ".")

            self._binders[placed.address] = Binder(
                placed.bindings, binder(placed.spans), address_of
            )
        return self._binders[placed.address]

    def explain(self, address: str) -> Explained | None:
        """The figure at an address with the rows of its sum; None where there is none."""
        quantity = self.figure(address)
        if quantity is None:
            return None
        return Explained(quantity, tuple(rows_of(address, quantity)))


class Why(Mapping[str, tuple[Row, ...]]):
    """The rows of every figure of a job by its address, worked out when they are asked for."""

    def __init__(self, job: Job) -> None:
        self._explainer = Explainer(job)

    def __getitem__(self, address: str) -> tuple[Row, ...]:
        found = self._explainer.explain(address)
        if found is None:
            raise KeyError(address)
        return found.rows

    def __iter__(self) -> Iterator[str]:
        return self._explainer.addresses()

    def __len__(self) -> int:
        return sum(1 for _ in self._explainer.addresses())


def explain(job: Job, address: str) -> Explained | None:
    """One figure of a job explained; None where no figure has this address."""
    return Explainer(job).explain(address)


def addresses(job: Job) -> tuple[str, ...]:
    """Every address of a job that can be explained."""
    return tuple(Explainer(job).addresses())


def why(job: Job) -> Mapping[str, tuple[Row, ...]]:
    """The rows of every figure of a job, by address."""
    return Why(job)


def rows_of(address: str, quantity: Quantity) -> Iterator[Row]:
    """The rows of a figure: the terms of its sum in order, a rule, and the figure. A share shows
    the sum of what was left for all shares first."""
    inner = _opened(quantity)
    if inner.operator in CHOOSING and not any(map(_is_sum, inner.inputs)):
        yield from _single(address, quantity, inner)
        return
    terms = _collected(_terms(inner, 1))
    while len(terms) == 1 and terms[0].count == 1:
        share = _share(terms[0].quantity)
        if share is not None:
            yield from _sum_rows(_collected(_terms(share.left, 1)))
            yield Row(f"left for {share.of} shares", share.left.measure, "", True)
            yield Row(f"{address}, {share.words}", quantity.measure, _where(quantity))
            return
        inner = _opened(terms[0].quantity)
        if not _is_sum(inner):
            yield from _single(address, quantity, inner)
            return
        # The one term that the sum comes down to is itself a sum under another name.
        terms = _collected(_terms(inner, 1))
    yield from _sum_rows(terms)
    yield Row(address, quantity.measure, _where(quantity), True)


@frozen(eq=False)
class Term:
    """A term of a sum: how often it is taken, less where that is below nothing. `chosen` says of
    what it is the least or the most, where it is."""

    quantity: Quantity
    count: int
    chosen: str = ""


def _sum_rows(terms: list[Term]) -> Iterator[Row]:
    for index, term in enumerate(terms):
        number = abs(term.count)
        what = _what(term.quantity)
        halves = number == 2 and what.startswith(HALF_OF)
        yield Row(
            what.removeprefix(HALF_OF) if halves else f"{number} of {what}" if number > 1 else what,
            Measure(term.quantity.value * number, _length_of(term.quantity)),
            "; ".join(filter(None, (term.chosen, _where(term.quantity)))),
            False,
            "less" if term.count < 0 else "and" if index else "",
        )


def _length_of(quantity: Quantity) -> Dimension:
    """The dimension a term is shown with: a place in a sum is a length from its zero."""
    place = quantity.dimension is Dimension.PLACE
    return Dimension.LENGTH if place else quantity.dimension


def _collected(terms: Iterator[Term]) -> list[Term]:
    """Equal terms taken together; what is added and taken away again is left out."""
    counts: dict[object, int] = {}
    first: dict[object, Term] = {}
    for term in terms:
        key = _same(term.quantity)
        counts[key] = counts.get(key, 0) + term.count
        first.setdefault(key, term)
    found = [evolve(first[key], count=count) for key, count in counts.items() if count]
    # What adds nothing says nothing, unless nothing is all there is.
    found = [term for term in found if term.quantity.value] or found[:1]
    found.sort(key=lambda term: term.count < 0)
    return found


def _same(quantity: Quantity) -> object:
    """What makes two terms one: a name and a figure, or being the very same derivation."""
    if quantity.operator in (NAMED, INPUT) and quantity.name:
        return (quantity.name, quantity.value)
    if quantity.operator == LITERAL:
        return (quantity.origin or quantity.label, quantity.value, quantity.dimension)
    if quantity.operator in ("*", "/", "nearest", "least", "most"):
        return (quantity.operator, *(_same(each) for each in quantity.inputs))
    return id(quantity)


@frozen(eq=False)
class Share:
    """A figure that is so many (`own`) of all shares (`of`) of what was left for them."""

    left: Quantity
    own: int
    of: int

    @property
    def words(self) -> str:
        return f"{self.own} of {self.of} shares"


def _share(quantity: Quantity) -> Share | None:
    """The share that a figure is, before or after it was rounded; None where it is none."""
    at = _opened(quantity)
    at = at.inputs[0] if at.operator == "nearest" else at
    if at.operator != "/" or at.inputs[0].operator != "*" or at.inputs[1].label != SHARES:
        return None
    left, own = at.inputs[0].inputs
    return Share(left, int(own.value), int(at.inputs[1].value))


def _single(address: str, quantity: Quantity, inner: Quantity) -> Iterator[Row]:
    """The rows of a figure that is no sum: what goes into it, and what is done."""
    for each in inner.inputs:
        yield Row(_what(each), each.measure, _where(each))
    done = _DONE.get(inner.operator, "")
    where = _where(quantity) or _where(inner)
    words = f"{address}, {done}" if done else address
    yield Row(words, quantity.measure, where, ruled=bool(inner.inputs))


_DONE = {
    "*": "multiplied",
    "/": "divided",
    "nearest": "at the nearest step",
    "least": "the least of these",
    "most": "the most of these",
}


def _opened(quantity: Quantity) -> Quantity:
    """What is behind a name, and behind names that only stand for another."""
    at = quantity
    for _ in range(DEEPEST):
        if at.operator != NAMED or not at.inputs:
            break
        at = at.inputs[0]
    return at


def _terms(quantity: Quantity, sign: int) -> Iterator[Term]:
    """The terms of a sum in the order they are written, each with its sign. Places are looked
    through down to the lengths they are made of; the zero of an axis is left out. Of several of
    which the least or the most counts, that one is gone into."""
    waiting = [(sign, quantity, "")]
    while waiting:
        sign, at, chosen = waiting.pop()
        if _is_sum(at):
            left, right = at.inputs
            waiting.append((sign if at.operator == "+" else -sign, right, ""))
            waiting.append((sign, left, chosen))
        elif at.operator == "negate":
            waiting.append((-sign, at.inputs[0], chosen))
        elif at.operator == NAMED and at.dimension is Dimension.PLACE:
            waiting.append((sign, at.inputs[0], chosen))
        elif at.operator in CHOOSING:
            taken = next(each for each in at.inputs if each.value == at.value)
            others = [each for each in at.inputs if each is not taken]
            waiting.append((sign, taken, _rather_than(at.operator, others)))
        elif not _is_zero(at):
            yield Term(at, sign, chosen)


def _rather_than(operator: str, others: Sequence[Quantity]) -> str:
    """Why what begins with a term is taken: it is the least, or the most, of itself and others."""
    named = " or ".join(_what(each) for each in others)
    if len(named) > LONGEST_QUOTE:
        return f"the {operator} of {len(others) + 1}"
    return f"the {operator}, rather than {named}" if others else ""


def _is_sum(quantity: Quantity) -> bool:
    return quantity.operator in ("+", "-")


def _is_zero(quantity: Quantity) -> bool:
    at = _opened(quantity)
    return at.value == 0 and at.operator == LITERAL and at.dimension is Dimension.PLACE


def _what(quantity: Quantity) -> str:
    """A term in words: its address, what it stands for, or how it is made."""
    if quantity.operator in (NAMED, INPUT) and quantity.name:
        return quantity.name
    if quantity.operator == LITERAL:
        return quantity.label or "as written"
    parts = [_what(each) for each in quantity.inputs]
    match quantity.operator:
        case "*":
            return f"{parts[0]} times {parts[1]}"
        case "/":
            return f"{parts[0]} over {parts[1]}" if parts[1] != "half" else HALF_OF + parts[0]
        case "nearest" if (share := _share(quantity)) is not None:
            return share.words
        case "nearest":
            return f"{parts[0]}, to the nearest {parts[1]}"
        case "least" | "most":
            return f"the {quantity.operator} of " + " and ".join(parts)
        case "negate":
            return parts[0]
        case _:
            return f"({parts[0]} {'and' if quantity.operator == '+' else 'less'} {parts[1]})"


def _where(quantity: Quantity) -> str:
    """The line a figure is written on, with its words; for a figure made of others, none."""
    origin = quantity.origin
    if not isinstance(origin, Span):
        return ""
    words = " ".join(origin.source.line_text(origin.line).split())
    if len(words) > LONGEST_QUOTE:
        words = words[: LONGEST_QUOTE - 1].rstrip() + "…"
    return f"{origin.where}  {words}"
