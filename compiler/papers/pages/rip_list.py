"""The rip list of a material: every fence and stop once over all its sheets, and what to beware."""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from attrs import frozen

from casewright.compiler.cutting.named import in_words as name_in_words
from casewright.compiler.cutting.sawing import Board, MaterialPlan, NotPlanned, Setting
from casewright.compiler.model import Job
from casewright.compiler.papers.drawings.drawing import WIDEST
from casewright.compiler.papers.drawings.sheet_drawing import size_words
from casewright.compiler.papers.figures import marked, printing_of, read
from casewright.compiler.papers.names import listed, plural, words
from casewright.compiler.papers.pages.pages import Caution, Page, lines_in, paged, part_of, room_on
from casewright.lang.measure import Dimension, Measure, System, length
from casewright.lang.printing import NO_BREAK, Printing, in_words

SAY_LIST = (
    "For the sawyer. Before: sheets are in, their thickness measured. "
    "After: set each fence once for all sheets, tick, then crosscut by the plans."
)

TRIMS = 4
"""The stage that only trims; later ones cut matched parts apart."""

LIFTED_ALONE = Fraction(51)
"""Pounds: the load constant of the NIOSH lifting equation (Applications Manual, 94-110), what one
person lifts at best, close to the body and without bending; 23 kg."""

LINE, _PADDING, CAPTION, HEADLINE = 4.6, 1.8, 3.6, 7.0
_TABLE, _CAUTION, _WHERE = 17.5, 8.0, 118.0
"""What rows, headings and captions of the sawyer's pages take on paper, in millimetres."""


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


def words_high(text: str) -> float:
    return lines_in(text, WIDEST - 4.0) * LINE + CAPTION


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
"""What a rip list is set from: `head`, `rows` with their title, `keep`, `line` or `taken`."""


def rip_list(job: Job, plan: MaterialPlan, unplanned: Iterable[NotPlanned]) -> Iterator[Page]:
    printing = printing_of(job)
    warned = cautions(plan, printing)
    missing = [
        f"{each.material.title}: {each.pieces} pieces have no plan, since {each.why}."
        for each in unplanned
    ]
    used = f"Take {used_words(plan, printing)}."
    head = HEADLINE + words_high(f"{plan.why} {plan.scope}") + words_high(used)
    head += sum(words_high(each) for each in missing)
    head += sum(_CAUTION + LINE * lines_in(each.text, 150.0) for each in warned)
    items: list[tuple[Block, float]] = [(("head", "", ()), head)]
    for group in list_groups(plan, printing):
        for row in group.rows:
            high = LINE * lines_in(row.where, _WHERE) + _PADDING
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
        items.append((("keep", kept, ()), _TABLE + 2 * words_high(kept)))
        items += [(("line", line, ()), words_high(line)) for line in offcut_lines(job, plan)]
    taken = used_up(job, plan)
    if taken:
        items.append((("taken", taken, ()), words_high(taken)))
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
                "taken": "".join(text for kind, text, _ in held if kind == "taken"),
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


def used_up(job: Job, plan: MaterialPlan) -> str:
    """What a shop changes in its text once kept offcuts are used; empty where none is."""
    counts = {used.title: used.count for used in plan.used if used.kept}
    said: list[str] = []
    for each in job.offcuts:
        count = (
            counts.get(name_in_words(each.name), 0) if each.material == plan.material.name else 0
        )
        left = each.pieces - count
        if count:
            mend = f"write pieces {left}" if left else "take it out, it is used"
            said.append(f"offcut {each.name}: {mend}")
    return f"Once they are sawn, in the shop's text: {'; '.join(said)}." if said else ""


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
