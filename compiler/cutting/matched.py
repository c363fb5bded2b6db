"""Parts whose figure must run on: cut from one piece of one sheet, one after another, in order.

A sheet's text says of which role its parts match (`matches front`). In a unit, those that stand
over one another are one set, from the top down; those left that stand side by side are another,
from left to right. Where it says `along run`, those that stand side by side at one height in
neighbouring units are a set first, in their order along the run. A set is asked of the planner as
one piece as large as its parts with a kerf between them, so that whatever is planned keeps them
together; a row that no sheet holds whole is parted between units, each piece as long as can be.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import groupby, pairwise
from typing import Final

from attrs import frozen

from casewright.compiler.cutting.named import in_words, label
from casewright.compiler.model import Axis, Job, Material, Part, Placed, Range, Run
from casewright.lang.findings import Finding, Severity

MATCHES: Final = "matches"
"""The word by which a sheet says what of its parts must match."""

ALONG: Final = "along"
"""The word by which it says how far they match."""

RUN: Final = "run"
"""That they match along a run."""


@frozen
class Match:
    """One of the parts that match, where it stands."""

    placed: Placed
    part: Part

    @property
    def address(self) -> str:
        """Its address in the job."""
        return f"{self.placed.address}.{self.part.address}"


@frozen
class MatchedSet:
    """Parts in the order they are cut from one piece; `holder` is the address of their unit, or
    the name of their run.

    `along` says that they follow one another along the grain (crosscut apart), else across it
    (ripped apart).
    """

    name: str
    holder: str
    parts: tuple[Match, ...]
    along: bool

    @property
    def grained(self) -> bool:
        """Whether the grain of any of them is locked."""
        return any(each.part.grained for each in self.parts)

    @property
    def label(self) -> str:
        """What papers call whatever they are all of: the unit's tag, or the run."""
        first = self.parts[0].placed
        return label(first) if first.address == self.holder else in_words(self.holder)


@frozen
class Break:
    """A place where the figure of a row doesn't run on, since no piece is large enough."""

    before: Match
    after: Match


@frozen
class Matched:
    """The sets of a material that a piece holds, those that none does, and for each row that
    breaks the places where it does."""

    sets: tuple[MatchedSet, ...]
    too_large: tuple[MatchedSet, ...]
    breaks: tuple[tuple[Break, ...], ...]


Holds = Callable[[MatchedSet], bool]
"""Whether some sheet or board holds a set as one piece."""


def matched(job: Job, material: Material, holds: Holds) -> Matched:
    """The sets of a material among the parts of a job that aren't sawn yet; a part that stands
    alone is in none."""
    role = material.data.get(MATCHES)
    if role is None:
        return Matched((), (), ())
    left = {
        placed.address: tuple(
            Match(placed, part)
            for part in placed.unit.parts
            if part.material.name == material.name
            and part.role == role
            and not part.hardware
            and not part.blank
            and f"{placed.address}.{part.address}" not in job.sawn
        )
        for placed in job.placed
        if placed.unit is not None
    }
    sets: list[MatchedSet] = []
    too_large: list[MatchedSet] = []
    breaks: list[tuple[Break, ...]] = []
    if material.data.get(ALONG) == RUN:
        for run in job.runs:
            for row in _rows(run, left):
                pieces = _parted(run, row, len(sets), holds)
                sets += [each for each in pieces if len(each.parts) > 1 and holds(each)]
                if len(pieces) > 1:
                    ends = pairwise(pieces)
                    breaks.append(
                        tuple(Break(one.parts[-1], other.parts[0]) for one, other in ends)
                    )
    held = {each.address for one in sets for each in one.parts}
    for address, found in left.items():
        alone = [each for each in found if each.address not in held]
        for each in _in_unit(address, alone):
            (sets if holds(each) else too_large).append(each)
    return Matched(tuple(sets), tuple(too_large), tuple(breaks))


def _set(holder: str, number: int, parts: Iterable[Match], axis: Axis) -> MatchedSet:
    parts = tuple(parts)
    return MatchedSet(f"matched_{number}", holder, parts, parts[0].part.length_axis == axis)


def _in_unit(address: str, matching: Sequence[Match]) -> Iterator[MatchedSet]:
    """The sets within a unit: over one another first, then side by side."""
    over = list(_standing(matching, "across", "up", falling=True))
    held = {each.address for group in over for each in group}
    rest = [each for each in matching if each.address not in held]
    beside = _standing(rest, "up", "across")
    axes: list[tuple[list[Match], Axis]] = [(group, "up") for group in over]
    axes += [(group, "across") for group in beside]
    for number, (group, axis) in enumerate(axes, 1):
        yield _set(address, number, group, axis)


def _standing(
    matching: Iterable[Match], same: Axis, order: Axis, *, falling: bool = False
) -> Iterator[list[Match]]:
    """Parts of one extent along `same`, in order along `order`; only where there are several."""
    groups: dict[tuple[Range, Axis, Axis], list[Match]] = {}
    for each in matching:
        part = each.part
        key = (part.box.along(same), part.length_axis, part.thick_axis)
        # A part that lies flat along the order has no next one in its own plane.
        if part.thick_axis != order:
            groups.setdefault(key, []).append(each)
    for group in groups.values():
        if len(group) > 1:
            yield sorted(group, key=lambda each: each.part.box.along(order)[0], reverse=falling)


# -- along a run -------------------------------------------------------------------------------


def _across(match: Match) -> Range:
    """Where a part lies along its run."""
    low, high = match.part.box.across
    return match.placed.at.value + low, match.placed.at.value + high


def _up(match: Match) -> Range:
    """Where a part lies above the floor."""
    low, high = match.part.box.up
    return match.placed.up.value + low, match.placed.up.value + high


def _rows(run: Run, left: dict[str, tuple[Match, ...]]) -> Iterator[list[Match]]:
    """Parts at one height that follow one another in neighbouring units, nothing that matches
    between them; only rows that go past one unit."""
    order = {placed.address: index for index, placed in enumerate(run.placed)}
    facing = sorted(
        (
            each
            for address in order
            for each in left.get(address, ())
            if each.part.faces == "front" and each.part.slant is None
            if each.part.thick_axis == "deep"
        ),
        key=lambda each: (_across(each), _up(each)),
    )
    alike: dict[tuple[Range, Axis], list[Match]] = {}
    for each in facing:
        alike.setdefault((_up(each), each.part.length_axis), []).append(each)
    for group in alike.values():
        row: list[Match] = []
        for each in group:
            if row and not _follows(row[-1], each, order, facing):
                yield from _past_a_unit(row)
                row = []
            row.append(each)
        yield from _past_a_unit(row)


def _past_a_unit(row: list[Match]) -> Iterator[list[Match]]:
    if len({each.placed.address for each in row}) > 1:
        yield row


def _follows(one: Match, other: Match, order: dict[str, int], facing: Sequence[Match]) -> bool:
    """Whether a part is the next of another's row: in the same unit or the next one, and no part
    that matches stands between them."""
    if order[other.placed.address] - order[one.placed.address] > 1:
        return False
    start, end = _across(one)[1], _across(other)[0]
    low, high = _up(one)
    return not any(
        start <= _across(each)[0] < end and _up(each)[0] < high and _up(each)[1] > low
        for each in facing
    )


def _parted(run: Run, row: Sequence[Match], before: int, holds: Holds) -> list[MatchedSet]:
    """A row as the longest pieces that are held, one after another, parted between units only."""
    pieces: list[list[Match]] = []
    for _, group in groupby(row, key=lambda each: each.placed.address):
        of_unit = list(group)
        longer = [*pieces[-1], *of_unit] if pieces else []
        if longer and holds(_set(run.name, 0, longer, "across")):
            pieces[-1] = longer
        else:
            pieces.append(of_unit)
    return [
        _set(run.name, before + number, piece, "across") for number, piece in enumerate(pieces, 1)
    ]


def matching_findings(material: Material, found: Matched, stock: str) -> Iterator[Finding]:
    """What a person reads of figures that don't run on; `stock` is what they are cut from."""
    for each in found.too_large:
        placed = each.parts[0].placed
        yield Finding(
            "matched-parts-too-large",
            Severity.WARNING,
            f"{len(each.parts)} matched parts of {each.label} are larger together than a {stock} "
            f"of {material.title}; they are cut singly",
            placed.span,
            help=f"their figure won't run on: choose a larger {stock}, or a smaller unit",
            tags=(placed.tag,) if placed.tag else (),
        )
    for row in found.breaks:
        beside = [each for gap in row for each in (gap.before.placed, gap.after.placed)]
        between = (f"{label(gap.before.placed)} and {label(gap.after.placed)}" for gap in row)
        yield Finding(
            "figure-breaks",
            Severity.ADVICE,
            f"the figure of {material.title} breaks between {', '.join(between)}: no {stock} "
            "holds the whole row",
            row[0].after.placed.span,
            help=f"agree with the customer that it breaks there, or choose a larger {stock}",
            tags=tuple(dict.fromkeys(each.tag for each in beside if each.tag)),
        )
