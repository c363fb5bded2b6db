"""Pages for the mill and the sawyer: how each lumber is milled, ripped, crosscut and glued up."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby

from attrs import evolve, frozen

from casewright.compiler.cutting.board_cuts import BoardCut, LumberPlan, PlannedBoard, Setting
from casewright.compiler.cutting.boards import Panel, RoughPiece
from casewright.compiler.model import Job
from casewright.compiler.papers.drawings.drawing import Drawing
from casewright.compiler.papers.drawings.lumber_drawing import board_drawing
from casewright.compiler.papers.figures import marked, printing_of, read
from casewright.compiler.papers.names import plural
from casewright.compiler.papers.pages.pages import Page, lines_in, paged, part_of, room_on
from casewright.compiler.papers.pages.rip_list import span_words
from casewright.compiler.papers.pages.saw_pages import CAUTIONS
from casewright.compiler.shop.priced import percent, plain
from casewright.lang.measure import INCH, System, length
from casewright.lang.printing import Printing, decimal

SAY = (
    "For the mill and the sawyer. Before: boards are in, dry, and looked over for defects. "
    "After: mark each piece with its tag and part, then to the frame maker."
)

_LINE, _PADDING, _CAPTION, _HEADING, _TABLE = 4.6, 1.8, 3.6, 9.0, 9.0
_CAUTIONS_HIGH = 52.0
_WIDE = 192.0


@frozen
class CutRow:
    """A row of a board's cuts: their numbers, what is set to what, and what comes off."""

    numbers: str
    tool: str
    setting: str
    words: str
    finished: str

    @property
    def height(self) -> float:
        """Millimetres the row takes on paper."""
        return lines_in(self.words, 74.0) * _LINE + _PADDING


@frozen
class SettingRow:
    """A setting of fence or stop, how often it is sawn, and where."""

    setting: str
    count: int
    where: str

    @property
    def height(self) -> float:
        """Millimetres the row takes on paper."""
        return lines_in(self.where, 110.0) * _LINE + _PADDING


@frozen
class GlueRow:
    """How one kind of panel is glued up."""

    panel: str
    where: str
    strips: int
    strip: str
    finished: str

    @property
    def height(self) -> float:
        """Millimetres the row takes on paper."""
        return max(lines_in(self.panel, 42.0), lines_in(self.where, 26.0)) * _LINE + _PADDING


@frozen
class Section:
    """A table of the plan under its heading: `kind` is settings, glue or board. A board has its
    `drawing` where it begins; `high` is what its rows don't take, in millimetres."""

    kind: str
    heading: str
    rows: tuple[CutRow | SettingRow | GlueRow, ...]
    high: float
    tool: str = ""
    drawing: Drawing | None = None
    continued: bool = False
    holders: frozenset[str] = frozenset()


def lumber_pages(job: Job, plans: Sequence[LumberPlan], unplanned: Sequence[str]) -> Iterator[Page]:
    """The plan of every lumber, over as many pages as it takes."""
    for index, plan in enumerate(plans):
        yield from _pages(job, plan, unplanned if index == 0 else (), first_of_all=index == 0)


def _pages(
    job: Job, plan: LumberPlan, unplanned: Sequence[str], *, first_of_all: bool
) -> Iterator[Page]:
    said = said_of(job, plan)
    top = _HEADING + sum(lines_in(each, _WIDE) * _LINE + _CAPTION for each in (*said, *unplanned))
    if first_of_all:
        top += _CAUTIONS_HIGH
    entries = [
        ((section, row), row.height + (section.high if row is section.rows[0] else 0.0))
        for section in sections(job, plan)
        for row in section.rows
    ]
    entries[0] = (entries[0][0], entries[0][1] + top)
    shared = paged(entries, room_on(job), _HEADING + _TABLE)
    name = plan.material.name
    for number, held in enumerate(shared, 1):
        shown = [
            evolve(section, rows=rows, continued=rows[0] is not section.rows[0])
            for section, group in groupby(held, lambda each: each[0])
            for rows in [tuple(row for _, row in group)]
        ]
        yield Page(
            f"lumber-{name}-{number}",
            "saw",
            f"Lumber plan, {plan.material.title}",
            SAY,
            "lumber_plan.html",
            {
                "first": number == 1,
                "headline": plan.headline,
                "title": plan.material.title,
                "said": said,
                "unplanned": unplanned if number == 1 else (),
                "cautions": CAUTIONS if number == 1 and first_of_all else (),
                "sections": shown,
            },
            frozenset(holder for section in shown for holder in section.holders),
            f"lumber {plan.material.title}" if number == 1 else "",
            part=part_of(number, shared),
            more=number > 1,
        )


def sections(job: Job, plan: LumberPlan) -> tuple[Section, ...]:
    """Everything that a plan's pages show under headings, in the order of the work."""
    return tuple(each for each in _sections(job, plan) if each.rows)


def _sections(job: Job, plan: LumberPlan) -> Iterator[Section]:
    printing = printing_of(job)
    high = _HEADING + _TABLE
    for heading, tool, found in (
        ("Rip plan", "fence", plan.rips),
        ("Crosscut plan", "stop", plan.stops),
    ):
        rows = tuple(_setting_row(each, printing) for each in found)
        yield Section("settings", heading, rows, high, tool)
    panels = tuple(_glue_row(each, printing) for each in plan.panels)
    yield Section("glue", "Glue up", panels, high)
    for board in plan.boards:
        drawing = board_drawing(job, plan, board)
        yield Section(
            "board",
            f"Board {board.number}",
            cut_rows(board, printing),
            high + drawing.height + 2 * _LINE + _CAPTION,
            drawing=drawing,
            holders=frozenset(each.piece.holder for each in board.lies if each.piece is not None),
        )


def cut_rows(board: PlannedBoard, printing: Printing) -> tuple[CutRow, ...]:
    """A board's cuts in sawing order, rips at one setting in one row; then what falls uncut."""
    freed = {each.cut: each.piece for each in board.lies if each.cut and each.piece is not None}
    rows: list[CutRow] = []
    for (way, setting, alone), group in groupby(
        board.cuts, lambda each: (each.way, each.setting, _alone(each, freed))
    ):
        cuts = list(group)
        piece = freed.get(alone)
        rows.append(
            CutRow(
                span_words([each.number for each in cuts]),
                "fence" if way == "rip" else "stop",
                marked(length(setting), printing),
                _came_off(cuts, piece),
                _finished(piece, printing) if piece is not None else "",
            )
        )
    rows += (
        CutRow(
            "", "", "", f"{_piece_words(each.piece)}, as it falls", _finished(each.piece, printing)
        )
        for each in board.lies
        if each.piece is not None and not each.cut
    )
    return tuple(rows)


def _alone(cut: BoardCut, freed: dict[int, RoughPiece]) -> int:
    """What keeps a cut in a row of its own: that it frees a piece."""
    return cut.number if cut.number in freed else 0


def _came_off(cuts: Sequence[BoardCut], piece: RoughPiece | None) -> str:
    if piece is not None:
        return _piece_words(piece)
    if cuts[0].way == "rip":
        return plural(len(cuts), "strip")
    return f"{plural(len(cuts), 'length')}, cut again below"


def _piece_words(piece: RoughPiece) -> str:
    strip = f", strip {piece.strip} of {piece.strips}" if piece.strips else ""
    runs_on = "; figure runs on" if piece.matched else ""
    return f"{piece.label} {piece.title}{strip}{runs_on}"


def _finished(piece: RoughPiece, printing: Printing) -> str:
    return " × ".join(marked(length(each), printing) for each in (piece.width, piece.length))


def _setting_row(setting: Setting, printing: Printing) -> SettingRow:
    where = "; ".join(f"board {board}: {span_words(cuts)}" for board, cuts in setting.cuts)
    return SettingRow(marked(length(setting.setting), printing), setting.count, where)


def _glue_row(panel: Panel, printing: Printing) -> GlueRow:
    return GlueRow(
        panel.title,
        ", ".join(panel.labels),
        panel.glued.strips,
        " × ".join(
            marked(length(each), printing)
            for each in (panel.glued.ripped_width, panel.rough_length)
        ),
        " × ".join(marked(length(each), printing) for each in (panel.width, panel.length)),
    )


def said_of(job: Job, plan: LumberPlan) -> tuple[str, ...]:
    """How the lumber is milled and bought, and what the plan allows for, in sentences."""
    printing = printing_of(job)
    wanted, boards = plan.wanted, plan.wanted.boards

    def size(value: Fraction) -> str:
        return marked(length(value), printing)

    thick = plan.material.thick.value
    milled = f"Bought {rough_words(wanted.rough, job.system, printing)}; planed to "
    milled += size(wanted.surfaced)
    if wanted.surfaced != thick:
        milled += f", and to {size(thick)} once it is joined and sanded"
    allowed = [f"{size(boards.over)} over at each end of a piece"] if boards.over else []
    allowed += [f"{size(boards.edge)} for each jointed edge"] if boards.edge else []
    allowed += [f"{size(boards.ends)} off each end of a board"] if boards.ends else []
    allowed += [f"{percent(boards.defects)} of its length for defects"] if boards.defects else []
    sizes = "Rough sizes take in " + ", ".join(allowed) + "." if allowed else ""
    layout = "Pieces of one strip may change places so that a defect falls between them."
    if boards.random:
        layout += (
            " Boards come in random widths: any at least as wide as drawn will do, and a wider "
            "one saves."
        )
    return tuple(each for each in (f"{milled}.", sizes, layout, _bought(job, plan)) if each)


def rough_words(rough: Fraction, system: System, printing: Printing) -> str:
    """`4/4 (1 rough)`: inch jobs name rough stock by its quarters."""
    size = read(length(rough), printing)
    quarters = rough * 4
    if system is System.INCHES and quarters.denominator == 1:
        return f"{quarters}/4 ({size} rough)"
    return f"{size} rough"


def _bought(job: Job, plan: LumberPlan) -> str:
    """What is bought, by the rules it is sold by."""
    parts = f"{percent(Fraction(round(plan.yielded * 100), 100))} of it becomes parts"
    if job.system is System.MILLIMETRES:
        metres = Fraction(round(plan.volume * (INCH / 1000) ** 3 * 10_000), 10_000)
        return f"{plan.scope} {decimal(metres)} cubic metres; {parts}."
    # National Hardwood Lumber Association: surface measure to the nearest whole, a board at a time.
    feet = plain(plan.bought.board_feet)
    return f"{plan.scope} {feet} board feet as a grader tallies them; {parts}."
