"""What runs along units, as pieces: how long each, where its joints stand, from what length.

A stretch goes on over neighbours that touch, as long as the edge it follows keeps its height and
its distance from the wall; past what it only passes it goes on whatever its size. A stretch longer
than any length that is bought is jointed where two units meet, as late as the length allows, never
beside what it keeps clear of. Then lengths are planned by exact cutting stock, with the proof.
"""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise

from attrs import evolve, field, frozen

from casewright.compiler.cutting.board_files import LINEAR
from casewright.compiler.cutting.named import label
from casewright.compiler.model import Job, Placed, Run
from casewright.compiler.plan.boards import (
    BOARDS,
    Bar,
    Ends,
    Length,
    board_rows,
    plan_lengths,
)
from casewright.compiler.plan.plan import Effort, Planned
from casewright.compiler.plan.request import FINEST, Problem, on_step
from casewright.compiler.shop.supply import Linear
from casewright.lang.findings import Finding, Severity
from casewright.lang.measure import INCH, System

NOTHING = Fraction(0)


@frozen
class LinearPiece:
    """A piece of what runs along units, in inches.

    `at` is where it begins, from the left end of its run; `length` is what it covers, `cut` what is
    sawn for it. `left` and `right` say what its ends are; `bar` is the bought length that it comes
    from. `shares` is how much of it runs along each placed thing, by address.
    """

    number: int
    run: str
    first: str
    last: str
    at: Fraction
    length: Fraction
    cut: Fraction
    left: str
    right: str
    bar: int = 0
    shares: Mapping[str, Fraction] = field(factory=dict, eq=False)


@frozen
class LinearList:
    """Everything of one kind: its pieces, the lengths that are bought for them (of bar 1, 2 …),
    and whether no fewer, or no shorter, would do."""

    linear: Linear
    pieces: tuple[LinearPiece, ...]
    bars: tuple[Fraction, ...]
    headline: str
    proved: bool


@frozen
class LinearLists:
    """All lists of a job, and what the planner made of each, by file name."""

    lists: tuple[LinearList, ...] = ()
    planned: Mapping[str, Planned] = field(factory=dict, eq=False)


def linear_lists(job: Job, effort: Effort = BOARDS) -> tuple[LinearLists, tuple[Finding, ...]]:
    """The lists of everything that runs along units of this job; what can't be planned is said."""
    lists: list[LinearList] = []
    findings: list[Finding] = []
    planned: dict[str, Planned] = {}
    for linear in job.supply.linear:
        pieces = tuple(
            evolve(piece, number=number)
            for number, piece in enumerate(
                (piece for run in job.runs for piece in _of_run(job, linear, run)), 1
            )
        )
        if not pieces:
            continue
        made, problems = _planned(job, linear, pieces, effort)
        if made is None or not made.verdict.sound:
            found = (*problems, *(made.verdict.problems if made is not None else ()))
            findings.append(_not_planned(linear, found[0].message))
            continue
        planned[f"{LINEAR}{linear.name}"] = made
        lists.append(_listed(linear, pieces, made))
    return LinearLists(tuple(lists), planned), tuple(findings)


def _not_planned(linear: Linear, problem: str) -> Finding:
    return Finding(
        "boards-not-planned",
        Severity.ERROR,
        f"the lengths of {linear.title} can't be planned: {problem}",
        linear.span,
        help="say its lengths as they are bought",
    )


@frozen
class _Passed:
    """A thing that a stretch runs along, or only past (`edge` is then None): from where to where
    on its run, and the height and depth of the edge that is followed."""

    placed: Placed
    low: Fraction
    high: Fraction
    edge: tuple[Fraction, Fraction] | None
    clear: bool


def _of_run(job: Job, linear: Linear, run: Run) -> Iterator[LinearPiece]:
    for stretch in _stretches(job, linear, run):
        yield from _pieces(linear, run, stretch)


def _stretches(job: Job, linear: Linear, run: Run) -> Iterator[list[_Passed]]:
    """Neighbours that one stretch runs along, from the left."""
    held: list[_Passed] = []
    edge: tuple[Fraction, Fraction] | None = None
    for placed in sorted(run.placed, key=lambda each: each.at.value):
        passed = _passed(job, linear, placed)
        breaks = (
            passed is not None
            and held
            and (
                passed.low != held[-1].high
                or (passed.edge is not None and edge is not None and passed.edge != edge)
            )
        )
        if held and (passed is None or breaks):
            if edge is not None:
                yield held
            held, edge = [], None
        if passed is not None:
            held.append(passed)
            edge = edge or passed.edge
    if held and edge is not None:
        yield held


def _passed(job: Job, linear: Linear, placed: Placed) -> _Passed | None:
    stands = job.yardstick.stands.get(placed.address)
    roles = set(stands.serves) if stands is not None else set()
    if placed.unit is not None:
        roles.add(placed.unit.role)
    follows = bool(roles & set(linear.along))
    if not follows and not roles & set(linear.past):
        return None
    up = placed.up.value + (placed.height.value if linear.edge == "top" else 0)
    low = placed.at.value
    return _Passed(
        placed,
        low,
        low + placed.width.value,
        (up, placed.depth.value) if follows else None,
        bool(roles & set(linear.clear_of)),
    )


def _pieces(linear: Linear, run: Run, stretch: Sequence[_Passed]) -> Iterator[LinearPiece]:
    most = max(linear.lengths) - 2 * linear.over
    at, end = stretch[0].low, stretch[-1].high
    left = "end"
    while at < end:
        to, right = _joint(stretch, at, end, most)
        along = [each for each in stretch if each.low < to and each.high > at]
        yield LinearPiece(
            0,
            run.title,
            label(along[0].placed),
            label(along[-1].placed),
            at,
            to - at,
            to - at + 2 * linear.over,
            left,
            right,
            shares={each.placed.address: min(each.high, to) - max(each.low, at) for each in along},
        )
        at, left = to, right


def _joint(
    stretch: Sequence[_Passed], at: Fraction, end: Fraction, most: Fraction
) -> tuple[Fraction, str]:
    """Where a piece that begins `at` ends, and what that end is."""
    if end - at <= most:
        return end, "end"
    allowed: list[tuple[Fraction, str]] = []
    others: list[tuple[Fraction, str]] = []
    for one, other in pairwise(stretch):
        if at < one.high <= at + most:
            words = f"joint between {label(one.placed)} and {label(other.placed)}"
            (others if one.clear or other.clear else allowed).append((one.high, words))
    if allowed:
        return allowed[-1]
    if others:
        place, words = others[-1]
        return place, f"{words}, since none stands clear"
    over = next(each for each in stretch if each.high > at + most)
    return at + most, f"joint at {label(over.placed)}, since no two units meet before"


def _planned(
    job: Job, linear: Linear, pieces: Sequence[LinearPiece], effort: Effort
) -> tuple[Planned | None, list[Problem]]:
    metric = job.system is System.MILLIMETRES
    measure = "mm" if metric else "in"
    scale = INCH if metric else Fraction(1)
    step = FINEST[measure]
    kerf = job.saw.kerf.value if job.saw is not None else NOTHING
    return plan_lengths(
        measure,
        [
            Length(f"piece_{piece.number}", "", on_step(piece.cut * scale, step, up=True))
            for piece in pieces
        ],
        [
            Bar(
                f"{linear.name} {index}",
                on_step(long * scale, step, up=False),
                cost=on_step(long * scale, step, up=False) if len(linear.lengths) > 1 else None,
            )
            for index, long in enumerate(linear.lengths, 1)
        ],
        Ends(on_step(kerf * scale, step, up=True)),
        effort,
    )


def _listed(linear: Linear, pieces: Sequence[LinearPiece], made: Planned) -> LinearList:
    bar_of: dict[int, int] = {}
    bars: list[Fraction] = []
    names = [stock.name for stock in made.request.stock]
    for number, (stock, row) in enumerate(board_rows(made.plan), 1):
        bars.append(linear.lengths[names.index(stock)])
        for name, _ in row:
            _, mark, index = name.partition("piece_")
            if mark:
                bar_of[int(index)] = number
    verdict = made.verdict
    proved = verdict.sound and verdict.cost == verdict.least
    count = len(bars)
    lengths = f"{count} length" if count == 1 else f"{count} lengths"
    if not proved:
        words = f"{lengths} planned; whether less would do is open"
    elif len(linear.lengths) > 1:
        words = f"{lengths}; no other choice of lengths is shorter together"
    else:
        words = lengths if count == 1 else f"{lengths}, and {count - 1} can't do"
    return LinearList(
        linear,
        tuple(evolve(piece, bar=bar_of[piece.number]) for piece in pieces),
        tuple(bars),
        words,
        proved,
    )
