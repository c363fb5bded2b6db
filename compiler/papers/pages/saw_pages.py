"""Pages for the sawyer: the cut list, in an order a saw is set in."""

from collections.abc import Iterator

from attrs import frozen

from casewright.compiler.model import Job, Material
from casewright.compiler.papers.figures import Figure, figure, marked, printing_of
from casewright.compiler.papers.lists.cut_list import (
    Fence,
    Group,
    Row,
    corner_words,
    cut_list,
    later_strips,
)
from casewright.compiler.papers.names import plural
from casewright.compiler.papers.pages.pages import Caution, Page, lines_in, paged, part_of, room_on
from casewright.compiler.papers.pieces import Built
from casewright.lang.printing import Printing

SAY = (
    "For the sawyer. Before: sheets are in and their thickness measured. "
    "After: label each piece, then band; blanks are ripped after banding."
)

CAUTIONS = (
    # 29 CFR 1910.213(c): hood guard, spreader and anti-kickback for ripping, push sticks.
    Caution(
        "WARNING",
        "A saw can maim, and a narrow rip can be thrown back. Guard and riving knife or spreader "
        "stay on, and a push stick or block takes whatever brings a hand near the blade. The "
        "machine's manual and local rules decide.",
    ),
    # 29 CFR 1910.1000: 15 mg/m3 total and 5 mg/m3 respirable dust as an 8-hour average.
    Caution("CAUTION", "Wood dust harms the lungs: run the extraction, wear a fitting mask."),
)

_UNIT_ROOM, _PART_ROOM, _BAND_ROOM, _LATER_ROOM = 20.5, 37.5, 15.5, 15.5
_LINE, _PADDING = 4.45, 1.75
_HEADING, _FENCE = 20.0, 9.0
_CAUTIONS_HIGH = 52.0


@frozen
class UnitLink:
    holder: str
    label: str


@frozen
class SetRow:
    """A row of the cut list with what a page says of it."""

    row: Row
    units: tuple[UnitLink, ...]
    later: str
    grain_said: bool
    planed: str
    cornered: str

    @property
    def number(self) -> int:
        return self.row.number

    @property
    def pieces(self) -> tuple[object, ...]:
        return self.row.pieces

    @property
    def first(self) -> object:
        return self.row.first

    @property
    def part_words(self) -> str:
        grain = ", along the grain" if self.grain_said else ""
        return f"{self.row.part_words}{grain}{self.cornered}"

    @property
    def height(self) -> float:
        """Millimetres the row takes on paper."""
        lines = max(
            lines_in(", ".join(unit.label for unit in self.units), _UNIT_ROOM, bold=True),
            lines_in(f"{self.part_words}{self.planed}", _PART_ROOM),
            lines_in(self.row.first.bands, _BAND_ROOM),
            lines_in(self.later, _LATER_ROOM),
        )
        return lines * _LINE + _PADDING


@frozen
class SetFence:
    rip: Figure
    rows: tuple[SetRow, ...]
    continued: bool


@frozen
class SetGroup:
    material: Material
    thick: Figure
    count_words: str
    grained: bool
    fences: tuple[SetFence, ...]
    continued: bool


def pages(job: Job, only: str | None = None) -> Iterator[Page]:
    """The cut list over as many pages as it takes."""
    groups = cut_list(job, only)
    printing = printing_of(job)
    flat = [
        (group, fence, set_row(row, printing, _mixed(group)), first_of_group, first_of_fence)
        for group in groups
        for fence in group.fences
        for row in fence.rows
        for first_of_group in [row is group.fences[0].rows[0]]
        for first_of_fence in [row is fence.rows[0]]
    ]
    heights = [
        row.height + (_HEADING if is_group else 0) + (_FENCE if is_fence else 0)
        for _, _, row, is_group, is_fence in flat
    ]
    if heights:
        heights[0] += _CAUTIONS_HIGH
    # A page that begins inside a group or fence says both again.
    shared = paged(
        zip(((each[0], each[1], each[2]) for each in flat), heights, strict=True),
        room_on(job),
        _HEADING + _FENCE,
    )
    begun_groups: set[int] = set()
    begun_fences: set[int] = set()
    for number, entries in enumerate(shared, 1):
        if not entries:
            continue
        yield Page(
            f"cut-list-{number}",
            "saw",
            "Cut list",
            SAY,
            "cut_list.html",
            {
                "cautions": CAUTIONS if number == 1 else (),
                "groups": _set_groups(entries, begun_groups, begun_fences),
            },
            frozenset(piece.built.holder for _, _, row in entries for piece in row.row.pieces)
            if only is not None
            else frozenset(),
            "cut list" if number == 1 else "",
            part=part_of(number, shared),
            more=number > 1,
        )


def _mixed(group: Group) -> bool:
    return len({row.first.grained for row in group.rows}) > 1


def set_row(row: Row, printing: Printing, mixed: bool) -> SetRow:
    """A row as a page shows it; in a `mixed` group each row says whether the grain counts."""
    units: dict[str, Built] = {piece.built.holder: piece.built for piece in row.pieces}
    links = tuple(UnitLink(holder, item.label) for holder, item in units.items())
    milled = row.first.milled
    planed = f", planed to {marked(milled.measure, printing)}" if milled else ""
    later, cornered = later_strips(row, printing), corner_words(row, printing)
    return SetRow(row, links, later, mixed and row.first.grained, planed, cornered)


def _set_groups(
    entries: list[tuple[Group, Fence, SetRow]], begun_groups: set[int], begun_fences: set[int]
) -> list[SetGroup]:
    found: list[SetGroup] = []
    by_group: dict[int, tuple[Group, dict[int, tuple[Fence, list[SetRow]]]]] = {}
    for group, fence, row in entries:
        _, fences = by_group.setdefault(id(group), (group, {}))
        fences.setdefault(id(fence), (fence, []))[1].append(row)
    for key, (group, fences) in by_group.items():
        found.append(
            SetGroup(
                group.material,
                figure(group.material.thick, f"{group.material.name}.thick"),
                plural(group.count, "piece"),
                all(row.first.grained for row in group.rows),
                tuple(
                    SetFence(fence.rip, tuple(rows), name in begun_fences)
                    for name, (fence, rows) in fences.items()
                ),
                key in begun_groups,
            )
        )
        begun_fences.update(fences)
    begun_groups.update(by_group)
    return found
