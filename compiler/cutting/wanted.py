"""What is asked of the planner: every sheet material of a job with its pieces, stock and saw.

A cut size is taken up to the saw's grid (1/64 inch or 0.01 mm), so that a piece is never planned
smaller than it is; the papers print it as the job rounds it.
"""

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction

from attrs import evolve, frozen

from casewright.compiler.cutting.matched import MatchedSet, matched, matching_findings
from casewright.compiler.model import Job, Material, Offcut, Part, Placed, Saw
from casewright.compiler.plan.request import (
    FINEST,
    Inner,
    Piece,
    Request,
    Stock,
    Trim,
    fits,
    on_step,
)
from casewright.compiler.plan.request import Saw as PlanSaw
from casewright.lang.findings import Finding, Severity
from casewright.lang.measure import INCH, System
from casewright.lang.shape import span_of

SHEET = "sheet"


@frozen
class Wanted:
    """One material of a job and what is asked of the planner for it."""

    material: Material
    request: Request


def requests(job: Job) -> tuple[tuple[Wanted, ...], tuple[Finding, ...]]:
    """What is asked for every sheet material of a job, by the material's name; nothing is
    planned of a material without stock, an error since its plan is missing in the papers, nor for
    a job without a saw, an advice."""
    if job.saw is None and job.saw_declared:
        return (), ()
    if job.saw is None:
        return (), (_unplanned("no-saw", "no saw is known, so no sheet is planned", "a saw"),)
    wanted: list[Wanted] = []
    findings: list[Finding] = []
    for material in job.materials:
        findings += _sawn(job, material)
        if material.kind != SHEET or not any(_pieces(job, material, frozenset())):
            continue
        if material.name in job.supply.unsized:
            continue
        if not material.stock:
            findings.append(
                Finding(
                    "no-stock",
                    Severity.ERROR,
                    f"{material.title} says no size it is bought in, so its sheets aren't planned",
                    span_of(material.thick.origin) if material.thick.origin is not None else None,
                    help=f"add stock, a width, by, and a length to {material.name}",
                )
            )
            continue
        request = _request(job, job.saw, material)
        found = matched(job, material, _held_by(request))
        findings += matching_findings(material, found, "sheet")
        held = frozenset(each.address for one in found.sets for each in one.parts)
        pieces = (
            *(_matched_piece(each, request) for each in found.sets),
            *_pieces(job, material, held),
        )
        asked = evolve(request, pieces=pieces)
        wanted.append(Wanted(material, evolve(asked, stock=tuple(_of_use(asked)))))
    return tuple(wanted), tuple(findings)


def _of_use(request: Request) -> Iterator[Stock]:
    """The stock of a request, without the kept offcuts that hold none of its pieces, and never
    more copies than there are pieces to cut."""
    most = sum(piece.quantity for piece in request.pieces)
    for stock, usable in zip(request.stock, request.usable, strict=True):
        if stock.kept and not any(fits(piece, usable) for piece in request.pieces):
            continue
        yield stock if stock.copies is None else evolve(stock, copies=min(stock.copies, most))


def _sawn(job: Job, material: Material) -> Iterator[Finding]:
    """That some of a material's parts are sawn already."""
    addresses = [
        f"{placed.address}.{part.address}"
        for placed in job.placed
        for part in (placed.unit.parts if placed.unit is not None else ())
        if part.material.name == material.name and not part.hardware
    ]
    done = sum(address in job.sawn for address in addresses)
    if done:
        left = len(addresses) - done
        yield Finding(
            "sawn-already",
            Severity.ADVICE,
            f"{done} of {len(addresses)} parts of {material.title} are sawn already; the plan, "
            f"and what is bought and charged for it, is for {left or 'none'}"
            + (" that are left" if left > 1 else " that is left" if left else ""),
            None,
            help="take the sawn lines out to plan, buy and charge for all of them",
        )


def _unplanned(slug: str, headline: str, add: str) -> Finding:
    return Finding(slug, Severity.ADVICE, headline, None, help=f"add {add}")


def _request(job: Job, saw: Saw, material: Material) -> Request:
    """The stock and saw of a material, no piece asked for yet."""
    metric = job.system is System.MILLIMETRES
    measure = "mm" if metric else "in"

    def down(value: Fraction) -> Fraction:
        return _on_grid(value, measure, up=False)

    def up(value: Fraction) -> Fraction:
        return _on_grid(value, measure, up=True)

    edges = (saw.trim.fence, saw.trim.far, saw.trim.near, saw.trim.end)
    trim = Trim(*(up(each.value) for each in edges))
    prices = _prices(job, material)
    bought = tuple(
        Stock(
            f"{material.name} {index}",
            down(size.length),
            down(size.width),
            size.pieces,
            prices[index - 1] if prices else None,
        )
        for index, size in enumerate(material.stock, start=1)
    )
    area = min(
        (price / size.area for price, size in zip(prices, bought, strict=False)), default=None
    )
    kept = tuple(
        Stock(
            each.name,
            down(each.size.length),
            down(each.size.width),
            each.pieces,
            None if area is None else area / 2 * down(each.size.length) * down(each.size.width),
            kept=True,
        )
        for each in _offcuts_of(job, material)
    )
    return Request(
        measure,
        (),
        (*bought, *kept),
        PlanSaw(up(saw.kerf.value), trim, up(saw.least.value), saw.first),
        down(saw.keeps.length),
        down(saw.keeps.width),
    )


def _prices(job: Job, material: Material) -> tuple[Fraction, ...]:
    """What a sheet of each stock size costs by the shop's rates; nothing where there is but one
    size, or one of them has no price: sheets are then compared by area."""
    rates = job.supply.rates
    if rates is None or len(material.stock) < 2:
        return ()
    found = [rates.price_of(material.name, size.length) for size in material.stock]
    prices = [price.amount for price in found if price is not None and price.amount > 0]
    return tuple(prices) if len(prices) == len(material.stock) else ()


def _offcuts_of(job: Job, material: Material) -> Iterator[Offcut]:
    return (offcut for offcut in job.offcuts if offcut.material == material.name)


def _on_grid(value: Fraction, measure: str, *, up: bool) -> Fraction:
    """A length in inches on the planner's grid, in the planner's measure."""
    return on_step(value * INCH if measure == "mm" else value, FINEST[measure], up=up)


def _is_sawn(job: Job, placed: Placed, strips: Iterable[str]) -> bool:
    """Whether a blank is sawn: all of its strips are; it is sawn whole for one that is spoilt."""
    return all(f"{placed.address}.{strip}" in job.sawn for strip in strips)


def _held_by(request: Request) -> Callable[[MatchedSet], bool]:
    """Whether some sheet of a request holds a matched set."""
    return lambda parts: any(fits(_matched_piece(parts, request), each) for each in request.usable)


def _pieces(job: Job, material: Material, held: frozenset[str]) -> Iterator[Piece]:
    """Every part and blank of a material, one by one, but the parts that a matched set holds: each
    is cut for an address of its own."""
    measure = "mm" if job.system is System.MILLIMETRES else "in"
    for placed in job.placed:
        if placed.unit is None:
            continue
        for part in placed.unit.parts:
            if part.material.name != material.name or part.hardware or part.blank:
                continue
            address = f"{placed.address}.{part.address}"
            if address not in held and address not in job.sawn:
                yield _part_piece(placed, part, measure)
        for blank in placed.unit.blanks:
            if blank.material.name == material.name and not _is_sawn(job, placed, blank.strips):
                yield Piece(
                    blank.name,
                    placed.address,
                    _on_grid(blank.cut_length.value, measure, up=True),
                    _on_grid(blank.cut_width.value, measure, up=True),
                    turn=not material.grained,
                )


def _part_piece(placed: Placed, part: Part, measure: str) -> Piece:
    return Piece(
        part.address,
        placed.address,
        _on_grid(part.cut_length.value, measure, up=True),
        _on_grid(part.cut_width.value, measure, up=True),
        turn=not part.grained,
    )


def _matched_piece(parts: MatchedSet, request: Request) -> Piece:
    """One piece for a set of matched parts, with what it is cut into."""
    inner = tuple(
        Inner(
            each.address,
            _on_grid(each.part.cut_length.value, request.measure, up=True),
            _on_grid(each.part.cut_width.value, request.measure, up=True),
        )
        for each in parts.parts
    )
    between = request.saw.kerf * (len(inner) - 1)
    long, wide = [each.length for each in inner], [each.width for each in inner]
    return Piece(
        parts.name,
        parts.holder,
        sum(long) + between if parts.along else max(long),
        max(wide) if parts.along else sum(wide) + between,
        turn=not parts.grained,
        inner=inner,
        apart="crosscut" if parts.along else "rip",
    )
