"""Pages for the sawyer: for each material its rip list, then a cutting plan a sheet."""

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import groupby

from attrs import evolve, frozen

from casewright.compiler.cutting.sawing import (
    MaterialPlan,
    NotPlanned,
    Pass,
    PlannedSheet,
)
from casewright.compiler.model import Job
from casewright.compiler.papers.drawings.drawing import WIDEST, Drawing
from casewright.compiler.papers.drawings.sheet_drawing import sheet_drawing, sheet_scales
from casewright.compiler.papers.figures import marked, printing_of, read
from casewright.compiler.papers.lists.as_cut import as_cut
from casewright.compiler.papers.names import listed
from casewright.compiler.papers.pages.pages import (
    Page,
    lines_in,
    listed_width,
    room_on,
    room_without_strip,
)
from casewright.compiler.papers.pages.rip_list import (
    HEADLINE,
    TRIMS,
    rip_list,
    span_words,
    weight_words,
    words_high,
)
from casewright.compiler.shop.priced import several
from casewright.lang.measure import length
from casewright.lang.printing import Printing

SAY_SHEET = (
    "For the sawyer. Before: sheets are in and measured. "
    "After: label each piece as it comes off, then to the band."
)
_STEP, _GROUP, _COLUMN, _SLACK = 5.3, 8.0, 55.0, 14.0
_TICK, _GAPS, _BESIDE, _ACROSS, _UNDER = 5.2, 3.5, 50.0, 38.0, 4.6
"""What rows, headings and columns of these pages take on paper, in millimetres."""

_SMALLER = 1.34
"""How much smaller a sheet is drawn at most, so that its steps are on its page."""


@frozen
class Step:
    """A row of the steps: the numbers of equal passes, the setting, and what comes off, in a line
    of its own (`under`) where it is too long to stand beside them."""

    numbers: str
    setting: str
    words: str
    under: bool = False

    @property
    def height(self) -> float:
        """Millimetres the row takes on paper."""
        return _STEP + (_UNDER * lines_in(self.words, _ACROSS) if self.under else 0.0)


@frozen
class StepGroup:
    """Steps under one heading: what is set, and on what board."""

    heading: str
    steps: tuple[Step, ...]


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
        StepGroup(title, _beside(tuple(_steps(tuple(passes), printing))))
        for title, passes in groupby(sheet.passes, lambda each: heading(each, printing))
    )


def _beside(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """Steps whose words stand beside them as far as a column holds the widest of each cell."""
    room = _BESIDE - _TICK - _GAPS
    room -= max(listed_width(each.numbers, bold=True) for each in steps)
    room -= max((listed_width(each.setting) for each in steps if each.words), default=0.0)
    return tuple(
        evolve(each, under=each.words != "" and listed_width(each.words) > room) for each in steps
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
    """What equal passes free, by name: `S1, 2 S2 floors, 1 to cut again`."""
    if passes[0].way == "rip" and passes[0].stage == 1 and not any(each.words for each in passes):
        return f"rip {len(passes)}"
    names: dict[str, Counter[str]] = {}
    for each in passes:
        names.setdefault(each.words, Counter())[each.tag] += 1
    said: list[str] = []
    for name, tags in names.items():
        count = tags.total()
        if not name:
            said.append(f"{count} to cut again")
            continue
        tagged = ", ".join(
            tag if n == 1 and (tag or count == 1) else f"{n} {tag}".strip()
            for tag, n in tags.items()
        )
        noun = name if count == 1 else several(name)
        said.append(f"{tagged} {noun}".strip())
    return ", ".join(said)


def sheet_pages(
    job: Job, plans: Sequence[MaterialPlan], unplanned: Sequence[NotPlanned]
) -> Iterator[Page]:
    """The rip list and the sheets of every material that is planned."""
    for index, planned in enumerate(plans):
        plan = as_cut(job, planned)
        yield from rip_list(job, plan, unplanned if index == 0 else ())
        for sheet in plan.sheets:
            yield from _sheet(job, plan, sheet)


@frozen
class Fitted:
    """A sheet drawn for its page: the drawing, what is said of small pieces, and what the page
    has left for it, in millimetres; `bare_left` without the strip."""

    drawing: Drawing
    unlettered: str
    left: float
    bare_left: float
    strip: bool


def fitted_sheet(job: Job, plan: MaterialPlan, sheet: PlannedSheet) -> Fitted:
    """The drawing at the largest scale at which it and the words about it are on one page."""
    return next(fitted_sheets(job, plan, sheet))


def fitted_sheets(job: Job, plan: MaterialPlan, sheet: PlannedSheet) -> Iterator[Fitted]:
    """The drawing at each scale at which it and the words about it are on one page, the largest
    first, at least one; before a sheet is drawn smaller, the strip of a large kitchen leaves its
    page."""
    foot = foot_words(plan, sheet, printing_of(job))
    said = HEADLINE + words_high(f"{plan.why} {plan.scope}") + words_high(foot)
    scales = sheet_scales(job, sheet)
    largest = 0
    for scale in scales:
        if largest and scale > largest * _SMALLER:
            return
        drawing, small = sheet_drawing(job, plan, sheet, scale)
        unlettered = f"Letters on small pieces: {'; '.join(small)}." if small else ""
        said_too = said + (words_high(unlettered) if small else 0.0)
        strip = drawing.height <= room_on(job) - said_too
        bare_left = room_without_strip() - said_too
        left = room_on(job) - said_too if strip else bare_left
        fits = drawing.height <= left and drawing.width + _COLUMN <= WIDEST
        if fits or (scale == scales[-1] and not largest):
            largest = largest or scale
            yield Fitted(drawing, unlettered, left, bare_left, strip)


@frozen
class Shared:
    """A sheet's drawing, the steps `beside` it, those `under` it, and those on pages of their
    own."""

    fitted: Fitted
    beside: tuple[StepGroup, ...]
    under: tuple[StepGroup, ...]
    further: Sequence[tuple[StepGroup, ...]]


def shared_steps(
    job: Job, plan: MaterialPlan, sheet: PlannedSheet, groups: Sequence[StepGroup]
) -> Shared:
    """The drawing as large as it can be with all steps on its page; where a scale less won't do
    that either, it keeps its size and the last steps have another page."""
    later = 3 * (room_on(job) - HEADLINE) - 2 * _SLACK
    first: Shared | None = None
    for fitted in fitted_sheets(job, plan, sheet):
        columns = max(1, int((WIDEST - fitted.drawing.width) // _COLUMN))
        high = max(fitted.left, fitted.drawing.height)
        beside = high * columns - _SLACK * (columns - 1)
        shared = parted_steps(groups, beside, later)
        if len(shared) == 1:
            return Shared(fitted, shared[0], (), ())
        first = first or Shared(fitted, shared[0], (), shared[1:])
        low = fitted.bare_left - fitted.drawing.height - _GROUP
        if low > _GROUP + 2 * _STEP:
            beside = fitted.drawing.height * columns - _SLACK * (columns - 1)
            shared = parted_steps(groups, beside, 3 * (low - _SLACK))
            if len(shared) == 2:
                return Shared(evolve(fitted, strip=False), shared[0], shared[1], ())
    assert first is not None
    return first


def _sheet(job: Job, plan: MaterialPlan, sheet: PlannedSheet) -> Iterator[Page]:
    """A sheet with its steps around it, and a page for the steps that find no room there."""
    printing = printing_of(job)
    shared = shared_steps(job, plan, sheet, step_groups(sheet, printing))
    name = plan.material.name
    for index, held in enumerate((shared.beside, *shared.further)):
        yield Page(
            f"steps-{name}-{sheet.number}-{index + 1}" if index else f"sheet-{name}-{sheet.number}",
            "saw",
            f"Cutting plan, {plan.material.title}",
            SAY_SHEET,
            "sheet.html",
            {
                "plan": plan,
                "sheet": sheet,
                "drawing": None if index else shared.fitted.drawing,
                "groups": held,
                "under": () if index else shared.under,
                "foot": foot_words(plan, sheet, printing),
                "unlettered": shared.fitted.unlettered,
                "over": index < len(shared.further),
            },
            frozenset(board.holder for board in sheet.boards if board.use == "piece"),
            "" if index else f"sheet {sheet.number} {plan.material.title}",
            part=f"{sheet.number} of {len(plan.sheets)}" + (", its further steps" if index else ""),
            more=sheet.number > 1 or index > 0,
            strip=shared.fitted.strip,
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
            if left < step.height:
                if held:
                    pages[-1].append(StepGroup(heading, tuple(held)))
                    heading = f"{group.heading}, continued"
                pages.append([])
                held, left = [], later - _GROUP
            held.append(step)
            left -= step.height
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
