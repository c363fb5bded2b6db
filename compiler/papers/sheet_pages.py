"""Pages for the sawyer: for each material its rip list, then a cutting plan a sheet."""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import groupby

from attrs import frozen

from casewright.compiler.cutting.sawing import (
    Board,
    MaterialPlan,
    NotPlanned,
    Pass,
    PlannedSheet,
    Setting,
)
from casewright.compiler.model import Job
from casewright.compiler.papers.as_cut import as_cut
from casewright.compiler.papers.drawing import WIDEST, Drawing
from casewright.compiler.papers.figures import marked, printing_of, read
from casewright.compiler.papers.names import listed, plural, words
from casewright.compiler.papers.pages import (
    Caution,
    Page,
    lines_in,
    paged,
    part_of,
    room_on,
    room_without_strip,
)
from casewright.compiler.papers.sheet_drawing import sheet_drawing, sheet_scales, size_words
from casewright.lang.measure import Dimension, Measure, System, length
from casewright.lang.printing import NO_BREAK, Printing, in_words

SAY_SHEET = (
    "For the sawyer. Before: sheets are in and measured. "
    "After: label each piece as it comes off, then to the band."
)
SAY_LIST = (
    "For the sawyer. Before: sheets are in, their thickness measured. "
    "After: set each fence once for all sheets, tick, then crosscut by the plans."
)

TRIMS = 4
"""The stage that only trims; later ones cut matched parts apart."""

LIFTED_ALONE = Fraction(51)
"""Pounds: the load constant of the NIOSH lifting equation (Applications Manual, 94-110), what one
person lifts at best, close to the body and without bending; 23 kg."""

_LINE, _PADDING, _CAPTION, _HEADLINE = 4.6, 1.8, 3.6, 7.0
_TABLE, _CAUTION, _WHERE = 17.5, 8.0, 118.0
_STEP, _GROUP, _COLUMN, _SLACK = 5.3, 8.0, 55.0, 14.0
"""What rows, headings and columns of these pages take on paper, in millimetres."""


@frozen
class Step:
    """A row of the steps: the numbers of equal passes, the setting, and what comes off."""

    numbers: str
    setting: str
    words: str


@frozen
class StepGroup:
    """Steps under one heading: what is set, and on what board."""

    heading: str
    steps: tuple[Step, ...]


def span_words(numbers: Sequence[int]) -> str:
    """`7`, `7 8`, `7 to 12`, with a comma where they part."""
    runs: list[list[int]] = []
    for each in numbers:
        if runs and each == runs[-1][-1] + 1:
            runs[-1].append(each)
        else:
            runs.append([each])
    return ", ".join(
        " ".join(str(each) for each in run) if len(run) < 3 else f"{run[0]} to {run[-1]}"
        for run in runs
    )


def heading(each: Pass, printing: Printing) -> str:
    """What is set, and on what board."""
    tool = "fence" if each.way == "rip" else "stop"
    if each.stage == 1:
        return f"{tool}, whole sheet"
    if each.way == "crosscut" and each.stage == 2:
        return f"stop, strip {read(length(each.strip), printing)}"
    if each.stage > TRIMS:
        return "fence, matched parts" if each.way == "rip" else "stop, matched parts"
    if each.stage < TRIMS:
        return "fence, rip again" if each.way == "rip" else "stop, crosscut again"
    return "fence, trim to width" if each.way == "rip" else "stop, trim to length"


def step_groups(sheet: PlannedSheet, printing: Printing) -> tuple[StepGroup, ...]:
    """A sheet's passes in sawing order, equal ones in one row."""
    return tuple(
        StepGroup(title, tuple(_steps(tuple(passes), printing)))
        for title, passes in groupby(sheet.passes, lambda each: heading(each, printing))
    )


def _steps(passes: tuple[Pass, ...], printing: Printing) -> Iterator[Step]:
    for (setting, trims, way), found in groupby(
        passes, lambda each: (each.setting, each.trims, each.way)
    ):
        equal = tuple(found)
        numbers = span_words([each.number for each in equal])
        if trims and way == "crosscut":
            yield Step(numbers, "trim near end", "")
        elif trims:
            yield Step(numbers, marked(length(setting), printing), "trim, turn")
        else:
            yield Step(numbers, marked(length(setting), printing), came_off(equal))


def came_off(passes: Sequence[Pass]) -> str:
    """What equal passes yield: `2 floors` where it is all one thing, else the count."""
    names = {each.words for each in passes}
    count = len(passes)
    if passes[0].way == "rip" and passes[0].stage == 1:
        return f"rip {count}"
    if len(names) == 1 and "" not in names and count < 10:
        name = names.pop()
        return plural(count, name, many(name))
    return str(count)


def many(name: str) -> str:
    """More than one of a thing, in the usual ways of English."""
    if name.endswith("lf"):
        return f"{name[:-1]}ves"
    return f"{name}es" if name.endswith(("s", "x", "z", "ch", "sh")) else f"{name}s"


def sheet_pages(
    job: Job, plans: Sequence[MaterialPlan], unplanned: Sequence[NotPlanned]
) -> Iterator[Page]:
    """The rip list and the sheets of every material that is planned."""
    for index, planned in enumerate(plans):
        plan = as_cut(job, planned)
        yield from _rip_list(job, plan, unplanned if index == 0 else ())
        for sheet in plan.sheets:
            yield from _sheet(job, plan, sheet)


@frozen
class Fitted:
    """A sheet drawn for its page: the drawing, what is said of small pieces, and what the page
    has left for it, in millimetres."""

    drawing: Drawing
    unlettered: str
    left: float
    strip: bool


def fitted_sheet(job: Job, plan: MaterialPlan, sheet: PlannedSheet) -> Fitted:
    """The drawing at the largest scale at which it and the words about it are on one page; before
    a sheet is drawn smaller, the strip of a large kitchen leaves its page."""
    foot = foot_words(plan, sheet, printing_of(job))
    said = _HEADLINE + _words_high(f"{plan.why} {plan.scope}") + _words_high(foot)
    for scale in sheet_scales(job, sheet):
        drawing, small = sheet_drawing(job, plan, sheet, scale)
        unlettered = f"Letters on small pieces: {'; '.join(small)}." if small else ""
        said_too = said + (_words_high(unlettered) if small else 0.0)
        strip = drawing.height <= room_on(job) - said_too
        left = (room_on(job) if strip else room_without_strip()) - said_too
        if drawing.height <= left and drawing.width + _COLUMN <= WIDEST:
            break
    return Fitted(drawing, unlettered, left, strip)


def _words_high(text: str) -> float:
    return lines_in(text, WIDEST - 4.0) * _LINE + _CAPTION


def _sheet(job: Job, plan: MaterialPlan, sheet: PlannedSheet) -> Iterator[Page]:
    """A sheet with its steps beside it, and a page for the steps that find no room there."""
    printing = printing_of(job)
    fitted = fitted_sheet(job, plan, sheet)
    columns = max(1, int((WIDEST - fitted.drawing.width) // _COLUMN))
    first = max(fitted.left, fitted.drawing.height) * columns - _SLACK * (columns - 1)
    groups = step_groups(sheet, printing)
    shared = parted_steps(groups, first, 3 * (room_on(job) - _HEADLINE) - 2 * _SLACK)
    name = plan.material.name
    for index, held in enumerate(shared):
        yield Page(
            f"steps-{name}-{sheet.number}-{index + 1}" if index else f"sheet-{name}-{sheet.number}",
            "saw",
            f"Cutting plan, {plan.material.title}",
            SAY_SHEET,
            "sheet.html",
            {
                "plan": plan,
                "sheet": sheet,
                "drawing": None if index else fitted.drawing,
                "groups": held,
                "foot": foot_words(plan, sheet, printing),
                "unlettered": fitted.unlettered,
                "over": index + 1 < len(shared),
            },
            frozenset(board.holder for board in sheet.boards if board.use == "piece"),
            "" if index else f"sheet {sheet.number} {plan.material.title}",
            part=f"{sheet.number} of {len(plan.sheets)}" + (", its further steps" if index else ""),
            more=sheet.number > 1 or index > 0,
            strip=fitted.strip,
        )


def parted_steps(
    groups: Sequence[StepGroup], first: float, later: float
) -> list[tuple[StepGroup, ...]]:
    """Steps shared out over pages with `first` millimetres on the first and `later` on others; a
    group that is broken says its heading again."""
    pages: list[list[StepGroup]] = [[]]
    left = first
    for group in groups:
        held: list[Step] = []
        heading = group.heading
        left -= _GROUP
        for step in group.steps:
            if left < _STEP:
                if held:
                    pages[-1].append(StepGroup(heading, tuple(held)))
                    heading = f"{group.heading}, continued"
                pages.append([])
                held, left = [], later - _GROUP
            held.append(step)
            left -= _STEP
        pages[-1].append(StepGroup(heading, tuple(held)))
    return [tuple(page) for page in pages]


def foot_words(plan: MaterialPlan, sheet: PlannedSheet, printing: Printing) -> str:
    """The footnote of a sheet: its size, weight, grain, and what its lines mean."""
    size = (
        f"{read(length(sheet.size.width), printing)} × {read(length(sheet.size.length), printing)}"
    )
    said = [
        f"{'Kept offcut' if sheet.kept else 'Sheet'} {sheet.number} of {len(plan.sheets)}, {size}"
    ]
    if sheet.kept:
        said[0] += f": {sheet.title}" + (f", at {sheet.place}" if sheet.place else "")
    if sheet.weight is not None:
        said.append(f"about {weight_words(sheet.weight, printing)}")
    if plan.material.grained:
        said.append("the grain runs from the near end to the far one")
    text = ", ".join(said) + "."
    if any(board.later for board in sheet.boards):
        text += " Long line with two short: rip later, after banding."
    for names in matched_names(sheet):
        text += f" Cut in one piece, then apart in order, so that the figure runs on: {names}."
    if sheet.alike:
        text += f" Sawn as sheet {listed(str(each) for each in sheet.alike)}{_stacked(plan)}."
    return f"{text} {plan.yield_words[0].upper()}{plan.yield_words[1:]}."


def matched_names(sheet: PlannedSheet) -> Iterator[str]:
    """The parts of each matched piece of a sheet, in the order they are cut apart."""
    sets: dict[str, list[str]] = {}
    for board in sheet.boards:
        if board.matched:
            sets.setdefault(board.matched, []).append(f"{board.label} {board.title}")
    yield from (listed(names) for names in sets.values())


def _stacked(plan: MaterialPlan) -> str:
    """How many may lie on one another under the blade, where that is more than one."""
    thick = plan.material.thick.value
    many = int(plan.stack / thick) if thick else 0
    return f": {many} may be sawn on one another" if many > 1 else ""


def weight_words(pounds: Fraction, printing: Printing) -> str:
    """`84 lb` or `38 kg`, to the pound or kilogram."""
    shown = in_words(Measure(Fraction(round(pounds)), Dimension.WEIGHT), printing)
    if printing.system is System.INCHES:
        return shown.split(" shy")[0].split(" full")[0]
    return f"{round(pounds * Fraction(45359237, 100_000_000))} kg"


@frozen
class ListRow:
    """A setting once, with every sheet and cut that needs it."""

    setting: str
    count: int
    where: str


@frozen
class ListGroup:
    title: str
    rows: tuple[ListRow, ...]


def list_groups(plan: MaterialPlan, printing: Printing) -> tuple[ListGroup, ...]:
    """All settings of a material: fences of whole sheets first, then stops, then later rips."""
    titles: dict[str, list[ListRow]] = {}
    for each in plan.settings:
        titles.setdefault(_list_title(each), []).append(
            ListRow(
                marked(length(each.setting), printing),
                each.count,
                "; ".join(
                    f"sheet {sheet}: {span_words(numbers)}" for sheet, numbers in each.passes
                ),
            )
        )
    return tuple(ListGroup(title, tuple(rows)) for title, rows in titles.items())


def _list_title(setting: Setting) -> str:
    tool = "fence" if setting.way == "rip" else "stop"
    if setting.trims:
        return f"{tool}, to trim the first edge"
    if setting.stage == 1:
        return f"{tool}, whole sheets"
    if setting.stage == 2:
        return f"{tool}, strips" if setting.way == "crosscut" else f"{tool}, boards"
    if setting.stage == 3:
        return f"{tool}, again"
    if setting.stage > TRIMS:
        return f"{tool}, matched parts"
    return f"{tool}, to trim"


Block = tuple[str, str, tuple[ListRow, ...]]
"""What a rip list is set from: `head`, `rows` with their title, `keep` or `line`."""


def _rip_list(job: Job, plan: MaterialPlan, unplanned: Iterable[NotPlanned]) -> Iterator[Page]:
    printing = printing_of(job)
    warned = cautions(plan, printing)
    missing = [
        f"{each.material.title}: {each.pieces} pieces have no plan, since {each.why}."
        for each in unplanned
    ]
    used = f"Take {used_words(plan, printing)}."
    head = _HEADLINE + _words_high(f"{plan.why} {plan.scope}") + _words_high(used)
    head += sum(_words_high(each) for each in missing)
    head += sum(_CAUTION + _LINE * lines_in(each.text, 150.0) for each in warned)
    items: list[tuple[Block, float]] = [(("head", "", ()), head)]
    for group in list_groups(plan, printing):
        for row in group.rows:
            high = _LINE * lines_in(row.where, _WHERE) + _PADDING
            items.append(
                (
                    ("rows", group.title, (row,)),
                    high + (0.0 if row is not group.rows[0] else _TABLE),
                )
            )
    if plan.kept:
        kept = "; ".join(
            f"sheet {number}: {size_words(board, printing)}" for number, board in plan.kept
        )
        kept = f"Mark with date and grain, and put on the rack: {kept}."
        items.append((("keep", kept, ()), _TABLE + 2 * _words_high(kept)))
        items += [(("line", line, ()), _words_high(line)) for line in offcut_lines(job, plan)]
    shared = paged(items, room_on(job), _TABLE)
    begun: set[str] = set()
    for number, held in enumerate(shared, 1):
        rows: dict[str, list[ListRow]] = {}
        for kind, title, found in held:
            if kind == "rows":
                rows.setdefault(title, []).extend(found)
        yield Page(
            f"rip-list-{plan.material.name}" + (f"-{number}" if number > 1 else ""),
            "saw",
            f"Rip list, {plan.material.title}",
            SAY_LIST,
            "rip_list.html",
            {
                "plan": plan,
                "first": number == 1,
                "cautions": warned,
                "groups": [
                    (f"{title}, continued" if title in begun else title, found)
                    for title, found in rows.items()
                ],
                "keep": "".join(text for kind, text, _ in held if kind == "keep"),
                "lines": [text for kind, text, _ in held if kind == "line"],
                "used": used,
                "unplanned": missing,
            },
            find=f"rip list {words(plan.material.name)}" if number == 1 else "",
            part=part_of(number, shared),
            more=number > 1,
        )
        begun.update(rows)


def offcut_lines(job: Job, plan: MaterialPlan) -> list[str]:
    """What a shop adds to its text once the offcuts stand on the rack, as the language has it."""
    printing = printing_of(job)
    date = f"  date {job.date}" if job.date else ""
    mark = "".join(each for each in job.number if each.isdigit())
    name = f"{plan.material.name}_{mark}" if mark else plan.material.name

    def line(index: int, board: Board) -> str:
        size = f"{_plain(board.width, printing)} by {_plain(board.length, printing)}"
        return f"offcut {name}_{index} {{ of {plan.material.name}  size {size}{date} }}"

    return [line(index, board) for index, (_, board) in enumerate(plan.kept, 1)]


def _plain(size: Fraction, printing: Printing) -> str:
    """A length as the text of a job writes it, never longer than the board is."""
    step = printing.step
    whole = (size / step).__floor__() * step
    return read(length(whole), printing).replace(NO_BREAK, " ") + (
        "mm" if printing.system is System.MILLIMETRES else '"'
    )


def used_words(plan: MaterialPlan, printing: Printing) -> str:
    """What is taken from the rack: `5 sheets of 49 × 97 and the kept offcut of June`."""
    return listed(
        (
            f"{used.title} ({read(length(used.size.width), printing)} × "
            f"{read(length(used.size.length), printing)})"
            if used.kept
            else f"{plural(used.count, 'sheet')} of {read(length(used.size.width), printing)} × "
            f"{read(length(used.size.length), printing)}"
        )
        for used in plan.used
    )


def cautions(plan: MaterialPlan, printing: Printing) -> tuple[Caution, ...]:
    """Narrow strips, and sheets too heavy for one person."""
    found: list[Caution] = []
    if plan.narrow:
        where = listed(
            f"sheet {sheet} cut {cut} ({read(length(width), printing)})"
            for sheet, cut, width in plan.narrow
        )
        found.append(
            Caution(
                "WARNING",
                f"Narrower than this saw's least strip: {where}. A strip so narrow can be thrown "
                "back, and a hand comes near the blade. Use a push block over blade and strip, or "
                "rip it on another machine.",
            )
        )
    weights = [sheet.weight for sheet in plan.sheets if sheet.weight is not None]
    heaviest = max(weights, default=None)
    if heaviest is not None and heaviest > LIFTED_ALONE:
        found.append(
            Caution(
                "CAUTION",
                f"A sheet weighs about {weight_words(heaviest, printing)}. One person lifts "
                f"{weight_words(LIFTED_ALONE, printing)} at best, close to the body, and less from "
                "the floor (NIOSH lifting equation): two people, or a lift.",
            )
        )
    heavy = heavy_pieces(plan)
    if heavy:
        found.append(Caution("CAUTION", f"Heavy once it is cut, for two people: {listed(heavy)}."))
    return tuple(found)


def heavy_pieces(plan: MaterialPlan) -> list[str]:
    """The pieces that weigh more than one person lifts, by name."""
    return [
        f"{board.label} {board.title}"
        for sheet in plan.sheets
        if sheet.weight is not None
        for board in sheet.boards
        if board.use == "piece"
        and sheet.weight * board.length * board.width
        > LIFTED_ALONE * sheet.size.width * sheet.size.length
    ]
