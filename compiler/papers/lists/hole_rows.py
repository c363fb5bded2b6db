"""Holes of one kind in a part's face as rows of equal steps: as few rows as say them all."""

from collections.abc import Iterable, Sequence
from fractions import Fraction
from itertools import pairwise

from attrs import frozen

from casewright.compiler.model import Axis, Hole


@frozen
class HoleRow:
    """Holes at equal steps along one of their two axes (`along` is its index), and again at each
    of `places` on the other."""

    along: int
    first: Fraction
    spacing: Fraction
    count: int
    places: tuple[Fraction, ...]
    holes: tuple[Hole, ...]


def rows_of(holes: Sequence[Hole], length_axis: Axis) -> list[HoleRow]:
    """Holes in as few rows as either of the two ways gives; of equals the longer rows."""
    ways = [_rows_along(holes, index) for index in (0, 1)]
    return min(
        ways,
        key=lambda rows: (
            sum(1 + 2 * max(0, len(row.places) - _PLACES) for row in rows),
            -max(row.count for row in rows),
            holes[0].at_axes[rows[0].along] != length_axis,
        ),
    )


_PLACES = 3
"""So many places at which a row is said again can be kept in the head; more are rows of their
own where they can be."""


def _rows_along(holes: Sequence[Hole], along: int) -> list[HoleRow]:
    lines: dict[Fraction, dict[Fraction, Hole]] = {}
    twice: list[Hole] = []
    for hole in holes:
        line = lines.setdefault(hole.at[1 - along].value, {})
        if hole.at[along].value in line:
            twice.append(hole)
        else:
            line[hole.at[along].value] = hole
    runs: dict[tuple[Fraction, Fraction, int], list[tuple[Fraction, list[Hole]]]] = {}
    for place, line in lines.items():
        for run in _equal_steps(sorted(line)):
            spacing = run[1] - run[0] if len(run) > 1 else Fraction(0)
            held = runs.setdefault((run[0], spacing, len(run)), [])
            held.append((place, [line[each] for each in run]))
    rows = [
        HoleRow(
            along, *run, tuple(sorted(place for place, _ in held)),
            tuple(hole for _, of_place in held for hole in of_place),
        )
        for run, held in runs.items()
    ]  # fmt: skip
    # A hole stated twice in one place is two holes of the job: each has its row.
    rows += [
        HoleRow(along, hole.at[along].value, Fraction(0), 1, (hole.at[1 - along].value,), (hole,))
        for hole in twice
    ]
    return rows


def _equal_steps(places: Sequence[Fraction]) -> Iterable[list[Fraction]]:
    """Places in rising order as runs of equal steps; a lone step that is wider than the next one
    ends a run, so that two pairs far apart are two pairs."""
    run: list[Fraction] = []
    steps = [high - low for low, high in pairwise(places)]
    for index, place in enumerate(places):
        alone = len(run) == 1 and index < len(steps) and steps[index] < steps[index - 1]
        if alone or (len(run) > 1 and place - run[-1] != run[1] - run[0]):
            yield run
            run = []
        run.append(place)
    if run:
        yield run
