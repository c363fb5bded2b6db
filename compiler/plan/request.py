"""What is asked of the planner: the pieces, the stock and the saw, as plain data.

Lengths run along the grain of the sheet (what a crosscut sets), widths across it (what a rip
sets). Every size is an exact `Fraction` of the request's measure, inch or millimetre.
"""

import json
import re
from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import ceil, floor, gcd, lcm
from typing import Final

from attrs import field, frozen

FINEST: Final[Mapping[str, Fraction]] = {"in": Fraction(1, 64), "mm": Fraction(1, 100)}
"""The finest step a size may have, by measure."""

MOST_PIECES: Final = 100_000
"""Above this a list is refused: it is a mistake or an attack, not a kitchen."""

LARGEST: Final[Mapping[str, int]] = {"in": 800, "mm": 20_000}
"""The longest sheet or board that is planned, by measure: it bounds the planner's tables."""

EXACT: Final = re.compile(r"[0-9]{1,30}(/[1-9][0-9]{0,29})?")

FIRST_CUTS: Final = ("rip", "crosscut", "either")


@frozen
class Problem:
    """Something wrong with what was asked: `slug` names the rule, `piece` the piece or stock."""

    slug: str
    message: str
    piece: str = ""


@frozen
class Inner:
    """What is cut from a piece once that is sawn, by the name plans use: a matched part."""

    address: str
    length: Fraction
    width: Fraction


@frozen
class Piece:
    """Equal rectangles to be cut. `turn` says that the grain may run either way.

    `inner` are matched parts that the piece is then cut into, in order with a kerf between them:
    one after another along its length (`apart` is `crosscut`) or its width (`rip`).
    """

    name: str
    unit: str
    length: Fraction
    width: Fraction
    quantity: int = 1
    turn: bool = False
    inner: tuple[Inner, ...] = ()
    apart: str = ""

    @property
    def address(self) -> str:
        """The name by which plans speak of it, as `S1.left side`."""
        return f"{self.unit}.{self.name}" if self.unit else self.name


@frozen
class Stock:
    """A size of sheet. `copies` is None where the shop can buy more; `cost` None where unpriced.

    A kept offcut is stock with `kept` set; unpriced, it counts as half its area, so that it is
    used before a new sheet is opened.
    """

    name: str
    length: Fraction
    width: Fraction
    copies: int | None = None
    cost: Fraction | None = None
    kept: bool = False

    @property
    def area(self) -> Fraction:
        """The area of a whole sheet."""
        return self.length * self.width


@frozen
class Trim:
    """What is taken off each factory edge, its kerf included: two long edges, two ends."""

    fence: Fraction = Fraction(0)
    far: Fraction = Fraction(0)
    head: Fraction = Fraction(0)
    foot: Fraction = Fraction(0)


@frozen
class Saw:
    """The saw's data: what a cut eats, what is trimmed, and how the shop likes to begin.

    `least_strip` is the narrowest strip that may be ripped against the fence; `first` is the
    first cut of a sheet: `rip`, `crosscut` (a head cut) or `either`.
    """

    kerf: Fraction = Fraction(0)
    trim: Trim = field(factory=Trim)
    least_strip: Fraction = Fraction(0)
    first: str = "rip"


@frozen
class Request:
    """One material's list: what to cut, from what, on which saw.

    An offcut at least `keep_length` by `keep_width` is kept; a smaller one is waste.
    """

    measure: str
    pieces: tuple[Piece, ...]
    stock: tuple[Stock, ...]
    saw: Saw = field(factory=Saw)
    keep_length: Fraction = Fraction(0)
    keep_width: Fraction = Fraction(0)

    @property
    def usable(self) -> tuple[tuple[Fraction, Fraction], ...]:
        """Length and width left of each stock after trimming."""
        trim = self.saw.trim
        return tuple(
            (s.length - trim.head - trim.foot, s.width - trim.fence - trim.far) for s in self.stock
        )

    @property
    def costs(self) -> tuple[Fraction, ...]:
        """What a copy of each stock counts when plans are compared.

        With one size, 1: the cost is the count of sheets. With several, the price, or the area
        where nothing is priced, half of it for a kept offcut.
        """
        if len(self.stock) == 1:
            return (Fraction(1),)
        half = Fraction(1, 2)
        return tuple(
            s.area * (half if s.kept else 1) if s.cost is None else s.cost for s in self.stock
        )

    @property
    def grid(self) -> Fraction:
        """The largest length of which every size, kerf and usable sheet is a whole multiple."""
        sizes = [self.saw.kerf]
        for piece in self.pieces:
            sizes += [piece.length, piece.width]
            sizes += [size for each in piece.inner for size in (each.length, each.width)]
        sizes += [size for sheet in self.usable for size in sheet]
        return common_step(sizes)


def exact(text: str) -> Fraction:
    """A figure of a plan or certificate: whole or a fraction, as `5` or `3/64`.

    Raises ValueError for anything else: a power of ten could be too long to be held.
    """
    if not EXACT.fullmatch(text):
        raise ValueError(f"{text[:40]!r} is no figure")
    return Fraction(text)


def on_step(value: Fraction, step: Fraction, *, up: bool) -> Fraction:
    """A length taken up, or down, to a whole number of steps."""
    steps = value / step
    return (ceil(steps) if up else floor(steps)) * step


def common_step(sizes: Sequence[Fraction]) -> Fraction:
    """The greatest common divisor of the sizes that aren't 0; 1 where there are none."""
    solid = [size for size in sizes if size]
    if not solid:
        return Fraction(1)
    under = lcm(*(size.denominator for size in solid))
    return Fraction(gcd(*(int(size * under) for size in solid)), under)


def fits(piece: Piece, usable: tuple[Fraction, Fraction]) -> bool:
    """Whether one such piece can be cut from a usable sheet of this length and width."""
    length, width = usable
    return (piece.length <= length and piece.width <= width) or (
        piece.turn and piece.width <= length and piece.length <= width
    )


def check_request(request: Request) -> list[Problem]:
    """Everything that keeps a request from being planned; empty where it can be."""
    found: list[Problem] = []
    if request.measure not in FINEST:
        found.append(Problem("measure-unknown", f"{request.measure!r} is neither in nor mm"))
        return found
    if request.saw.first not in FIRST_CUTS:
        found.append(Problem("first-cut-unknown", f"{request.saw.first!r} is no first cut"))
    found += _check_saw(request)
    if not request.stock:
        found.append(Problem("stock-missing", "there is no stock to cut from"))
    if not request.pieces:
        found.append(Problem("pieces-missing", "there is no piece to cut"))
    if sum(piece.quantity for piece in request.pieces) > MOST_PIECES:
        found.append(Problem("too-many-pieces", f"a list may hold {MOST_PIECES} pieces"))
    if any(s.cost is None for s in request.stock) and any(s.cost for s in request.stock):
        unpriced = next(s.name for s in request.stock if s.cost is None)
        found.append(Problem("price-missing", "some stock is priced and this isn't", unpriced))
    found += _check_stock(request)
    if not found:
        found += _check_pieces(request)
    return found


def _check_saw(request: Request) -> list[Problem]:
    saw, trim = request.saw, request.saw.trim
    sizes = {
        "kerf": saw.kerf,
        "least strip": saw.least_strip,
        "trim at the fence": trim.fence,
        "trim at the far edge": trim.far,
        "trim at the head": trim.head,
        "trim at the foot": trim.foot,
        "keep length": request.keep_length,
        "keep width": request.keep_width,
    }
    found = [
        Problem("size-negative", f"{name} is less than 0") for name, v in sizes.items() if v < 0
    ]
    step = FINEST[request.measure]
    found += [
        Problem("finer-than-grid", f"{name} {v} isn't a whole number of {step} {request.measure}")
        for name, v in sizes.items()
        if (v / step).denominator != 1
    ]
    return found


def _check_stock(request: Request) -> list[Problem]:
    found: list[Problem] = []
    step = FINEST[request.measure]
    names: set[str] = set()
    for stock, usable in zip(request.stock, request.usable, strict=True):
        if stock.name in names:
            found.append(Problem("name-twice", "two stocks have this name", stock.name))
        names.add(stock.name)
        if min(stock.length, stock.width) <= 0:
            found.append(Problem("size-not-positive", "a sheet must have a size", stock.name))
        elif max(stock.length, stock.width) > LARGEST[request.measure]:
            found.append(Problem("stock-too-large", "no sheet is so large", stock.name))
        elif min(usable) <= 0:
            found.append(Problem("trim-eats-stock", "nothing is left after trimming", stock.name))
        if (stock.length / step).denominator != 1 or (stock.width / step).denominator != 1:
            found.append(Problem("finer-than-grid", f"a size isn't on {step}", stock.name))
        if stock.copies is not None and stock.copies < 0:
            found.append(Problem("copies-negative", "copies can't be less than 0", stock.name))
        if stock.cost is not None and stock.cost <= 0:
            found.append(Problem("price-not-positive", "a price must be more than 0", stock.name))
    return found


def _check_pieces(request: Request) -> list[Problem]:
    found: list[Problem] = []
    step = FINEST[request.measure]
    addresses: set[str] = set()
    for piece in request.pieces:
        where = piece.address
        for name in (where, *(inner.address for inner in piece.inner)):
            if name in addresses:
                found.append(Problem("name-twice", "two pieces have this name", name))
            addresses.add(name)
        if piece.inner and not _holds(piece, request.saw.kerf, step):
            found.append(Problem("matched-not-held", "it can't be cut into its parts", where))
        if min(piece.length, piece.width) <= 0:
            found.append(Problem("size-not-positive", "a piece must have a size", where))
            continue
        if piece.quantity < 1:
            found.append(Problem("quantity-not-positive", "at least one must be asked", where))
        if (piece.length / step).denominator != 1 or (piece.width / step).denominator != 1:
            found.append(Problem("finer-than-grid", f"a size isn't on {step}", where))
        if not any(fits(piece, usable) for usable in request.usable):
            found.append(_oversize(piece, request))
    return found


def _holds(piece: Piece, kerf: Fraction, step: Fraction) -> bool:
    """Whether a piece is just as large as its matched parts in order, a kerf between them."""
    if piece.apart not in ("rip", "crosscut") or piece.quantity != 1 or len(piece.inner) < 2:
        return False
    crosscut = piece.apart == "crosscut"
    run = [each.length if crosscut else each.width for each in piece.inner]
    other = [each.width if crosscut else each.length for each in piece.inner]
    sizes = (piece.length, piece.width) if crosscut else (piece.width, piece.length)
    if min(run + other) <= 0 or any((size / step).denominator != 1 for size in run + other):
        return False
    return (sum(run) + kerf * (len(run) - 1), max(other)) == sizes


def _oversize(piece: Piece, request: Request) -> Problem:
    size = f"{piece.length} x {piece.width}"
    turned = Piece(piece.name, piece.unit, piece.width, piece.length)
    if any(fits(turned, usable) for usable in request.usable):
        return Problem(
            "piece-fits-only-turned",
            f"{size} fits the stock only across the grain, and its grain is locked",
            piece.address,
        )
    return Problem("piece-larger-than-stock", f"{size} is larger than any stock", piece.address)


def write_request(request: Request) -> str:
    """The request as JSON with keys in one order, so that equal requests give equal text."""

    def size(value: Fraction) -> str:
        return str(value)

    trim = request.saw.trim
    document = {
        "measure": request.measure,
        "saw": {
            "kerf": size(request.saw.kerf),
            "trim": {e: size(getattr(trim, e)) for e in ("fence", "far", "head", "foot")},
            "least_strip": size(request.saw.least_strip),
            "first": request.saw.first,
        },
        "keep_length": size(request.keep_length),
        "keep_width": size(request.keep_width),
        "stock": [
            {
                "name": s.name,
                "length": size(s.length),
                "width": size(s.width),
                "copies": s.copies,
                "cost": None if s.cost is None else size(s.cost),
                "kept": s.kept,
            }
            for s in request.stock
        ],
        "pieces": [
            {
                "name": p.name,
                "unit": p.unit,
                "length": size(p.length),
                "width": size(p.width),
                "quantity": p.quantity,
                "turn": p.turn,
                **_inner_document(p),
            }
            for p in request.pieces
        ],
    }
    return json.dumps(document, indent=1, ensure_ascii=False) + "\n"


def _inner_document(piece: Piece) -> dict[str, object]:
    """A piece's matched parts as JSON values; nothing where it has none."""
    if not piece.inner:
        return {}
    return {
        "apart": piece.apart,
        "inner": [
            {"address": each.address, "length": str(each.length), "width": str(each.width)}
            for each in piece.inner
        ],
    }
