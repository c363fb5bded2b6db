"""Pages for the bench: unit sheets, frames, and the order of work in words with its graph."""

from collections.abc import Iterable, Iterator, Sequence

from attrs import evolve, frozen

from casewright.compiler.model import Job, Part, Unit
from casewright.compiler.papers.drawings.assembly_graph import assembly_drawings
from casewright.compiler.papers.drawings.drawing import Drawing, scale_words
from casewright.compiler.papers.drawings.frame_views import (
    Frame,
    FrameViews,
    frame_rows,
    frame_views,
    frames,
)
from casewright.compiler.papers.drawings.step_pictures import (
    PictureRow,
    pattern,
    picture_rows,
    step_pictures,
)
from casewright.compiler.papers.drawings.story_stick import from_zero
from casewright.compiler.papers.drawings.unit_views import TALLEST, UnitViews, unit_views
from casewright.compiler.papers.figures import Figure, figure
from casewright.compiler.papers.lists.bench_order import (
    BenchStep,
    Coming,
    bench_order,
    fastening,
    fixed,
    from_where,
    holder_words,
    said_besides,
)
from casewright.compiler.papers.lists.cut_list import cut_list
from casewright.compiler.papers.lists.stile_edges import stile_edges
from casewright.compiler.papers.names import folded, words
from casewright.compiler.papers.pages.machining_pages import Told, machining_pages
from casewright.compiler.papers.pages.pages import (
    Page,
    joined_high,
    left_after,
    lines_in,
    paged,
    part_of,
    room_on,
)
from casewright.compiler.papers.pages.places_pages import places_pages
from casewright.compiler.papers.pieces import Built, band_words, built

UNIT_SAY = (
    "For the bench hand. Before: parts are cut, banded and labelled. "
    "After: fit the fronts, then install."
)
ORDER_SAY = "For the bench hand. Before: parts are banded, bored and labelled. After: fit and pack."
FRAME_SAY = (
    "For the frame maker. Before: lumber is milled to width. After: glue the frame to its box."
)

_LINE, _PADDING = 4.45, 1.75
_NAME_ROOM, _NOTE_ROOM = 39.5, 53.5
_CAPTION, _HEAD = 21.0, 16.0
_STICK, _PIECES, _GRAPH, _SEEN, _LIKE = 13.0, 12.0, 12.0, 12.0, 8.5


@frozen
class PartRow:
    """Equal parts that come in with one step. `step` is empty on a step's further rows."""

    step: str
    parts: tuple[Part, ...]
    addresses: tuple[str, ...]
    names: str
    note: str
    width: Figure | None
    length: Figure | None
    bands: str
    rows: tuple[int, ...]

    @property
    def count(self) -> int:
        return len(self.parts)

    @property
    def height(self) -> float:
        lines = max(lines_in(self.names, _NAME_ROOM, bold=True), lines_in(self.note, _NOTE_ROOM))
        return lines * _LINE + _PADDING


@frozen
class WordStep:
    """A step in words."""

    number: int
    text: str
    joints: tuple[str, ...]
    holder: str

    @property
    def height(self) -> float:
        lines = lines_in(self.text, 165.0)
        return (lines + sum(lines_in(each, 165.0) for each in self.joints)) * 4.9 + 2.4


def pages(job: Job, only: str | None = None) -> Iterator[Page]:
    """For each unit its sheet, its frames, its machining, where its parts stand, and its assembly
    order."""
    cut_rows = {
        address: row.number
        for group in cut_list(job, only)
        for row in group.rows
        for address in row.part_addresses
    }
    drawn: dict[object, Built] = {}
    told: dict[object, Told] = {}
    for item in built(job):
        if only is not None and item.holder != only:
            continue
        if len(item.unit.parts) < 2:
            # A loose filler is one piece: the cut list and the install drawing say all of it,
            # but for work on it.
            yield from machining_pages(job, item, told=told)
            continue
        room = room_on(job)
        like = drawn.setdefault(pattern(item), item)
        unlike = steps_unlike(word_steps(item), item, like) if like is not item else None
        papers = [*_unit_sheet(job, item, cut_rows, like if unlike == [] else None)]
        for frame in frames(item):
            papers += _frame_pages(job, frame, taken(papers, room))
        papers += machining_pages(job, item, taken(papers, room), told)
        papers += places_pages(job, item, taken(papers, room))
        if unlike != []:
            papers += _order_pages(job, item, like, unlike, taken(papers, room))
        yield from papers


def taken(pages: Sequence[Page], room: float) -> float:
    """What papers in this order take of the sheet that the last of them is on."""
    used = 0.0
    for page in pages:
        high = page.high + joined_high(page.say)
        used = used + high if used and page.high and used + high <= room else page.high
    return used


def _frame_pages(job: Job, frame: Frame, before: float) -> Iterator[Page]:
    """A frame's views and its list, on one page where it holds them."""
    views = views_of_frame(job, frame)
    rows = frame_rows(frame)
    joined = fastening(
        [
            joint
            for joint in frame.item.unit.joints
            if any(part.path in (joint.first, joint.second) for part in frame.rails)
            and any(part.path in (joint.first, joint.second) for part in frame.stiles)
        ]
    )
    triangles = max((each.height for each in views.triangles), default=0.0) + _STICK
    listed_high = _PIECES + sum(
        _LINE * max(lines_in(row.names, 70.0), lines_in(f"{joined}, from the back", 60.0))
        + _PADDING
        for row in rows
    )
    edges = stile_edges(job, frame.item.unit, frame.stiles)
    said = "".join(
        piece if isinstance(piece, str) else "0 00/00 full" for note in edges for piece in note
    )
    blocks = [
        ("views", max(views.front.height, views.back.height) + _CAPTION),
        ("stick", views.stick.height + _STICK),
        ("triangles", triangles),
        ("pieces", listed_high + (lines_in(said, 190.0) * _LINE + 4.0 if edges else 0.0)),
    ]
    room = room_on(job)
    shared = paged(blocks, room, first=left_after(room, before, FRAME_SAY))
    address = f"{frame.item.holder}-{frame.assembly.address.replace('.', '-')}"
    for number, held in enumerate(shared, 1):
        yield Page(
            address if number == 1 else f"{address}-{number}",
            "bench",
            frame.title,
            FRAME_SAY,
            "frame.html",
            {
                "blocks": held,
                "views": views,
                "scale": scale_words(views.scale, job.system),
                "rows": rows,
                "joined": joined,
                "edges": edges,
                "stile_paths": frozenset(part.path for part in frame.stiles),
            },
            frozenset({frame.item.holder}),
            part=part_of(number, shared),
            more=number > 1,
            high=sum(high for name, high in blocks if name in held),
        )


def views_of_frame(job: Job, frame: Frame) -> FrameViews:
    """A frame's views as its page has them."""
    return frame_views(job, frame, room_on(job) - _CAPTION)


def _unit_sheet(
    job: Job, item: Built, cut_rows: dict[str, int], like: Built | None
) -> Iterator[Page]:
    """A unit's views and parts; where it is put together `like` another in every word, its sheet
    says so."""
    views = sheet_views(job, item)
    drawn = views.high + _CAPTION + (_LIKE if like is not None else 0.0)
    rows: list[tuple[PartRow | None, float]] = [
        (row, row.height + (0.0 if index else _HEAD))
        for index, row in enumerate(part_rows(item, cut_rows))
    ]
    shared = paged([(None, drawn), *rows], room_on(job), _HEAD)
    stick = (
        f"Story stick: heights {from_zero(item)}, openings white, members grey. "
        if item.unit.openings
        else ""
    )
    caption: list[str | Figure] = [
        f"On one floor line, {scale_words(views.scale, job.system)}. {stick}Section: a cut part "
        "thinner than 2 mm here is black."
    ]
    for number, entries in enumerate(shared, 1):
        yield Page(
            item.holder if number == 1 else f"{item.holder}-sheet-{number}",
            "bench",
            f"{item.label} {words(item.unit.title)}",
            UNIT_SAY,
            "unit_sheet.html",
            {
                "views": views.drawings if number == 1 else (),
                "caption": (*caption, *views.front.note),
                "rows": [row for row in entries if row is not None],
                "holder": item.holder,
                "label": item.label,
                "metric": job.system.value == "mm",
                "like": like,
            },
            frozenset({item.holder}),
            f"{item.label} {words(item.unit.title)}" if number == 1 else "",
            part=part_of(number, shared),
            more=number > 1,
            high=(drawn if number == 1 else _HEAD)
            + sum(row.height for row in entries if row)
            + (_HEAD if number == 1 and len(entries) > 1 else 0.0),
        )


def sheet_views(job: Job, item: Built) -> UnitViews:
    """A unit's views as its sheet has them: one sheet where a smaller scale makes it one."""
    most = room_on(job) - _CAPTION
    left = most - _HEAD - sum(row.height for row in part_rows(item, {}))
    return unit_views(job, item, left, min(most, TALLEST))


def part_rows(item: Built, cut_rows: dict[str, int]) -> Iterator[PartRow]:
    """The parts of a unit in order of assembly; a step that brings in boxes has a row for them."""
    for step in bench_order(item.unit):
        said = False
        by_size: dict[tuple[object, ...], list[Part]] = {}
        for part in step.parts:
            key = (part.width.value, part.length.value, part.thick.value, band_words(part))
            by_size.setdefault(key, []).append(part)
        boxes = [coming for comings in step.alike for coming in comings if coming.part is None]
        if boxes:
            yield PartRow(
                str(step.number), (), (), folded(dict.fromkeys(each.address for each in boxes)),
                _note(step, item.unit), None, None, "", (),
            )  # fmt: skip
            said = True
        for parts in by_size.values():
            first = parts[0]
            address = f"{item.holder}.{first.address}"
            yield PartRow(
                "" if said else str(step.number),
                tuple(parts),
                tuple(f"{item.holder}.{part.address}" for part in parts),
                folded(part.address for part in parts),
                "" if said else _note(step, item.unit),
                figure(first.width, f"{address}.width"),
                figure(first.length, f"{address}.length"),
                band_words(first),
                tuple(
                    dict.fromkeys(
                        cut_rows[each]
                        for each in (f"{item.holder}.{part.address}" for part in parts)
                        if each in cut_rows
                    )
                ),
            )
            said = True


def _note(step: BenchStep, unit: Unit) -> str:
    """One bench note: how it comes in, how it is held."""
    pieces = []
    if step.step.lies:
        pieces.append(f"{step.step.lies} face down on the bench")
    ways = dict.fromkeys(from_where(coming, step.lies) for coming in step.comings)
    pieces += [way for way in ways if way]
    joined = fastening([joint for coming in step.comings for joint in coming.joints])
    if joined:
        pieces.append(joined)
    besides = said_besides(step, unit)
    if besides:
        pieces.append(besides)
    return "; ".join(pieces)


def _order_pages(
    job: Job, item: Built, like: Built, unlike: Sequence[WordStep] | None, before: float
) -> Iterator[Page]:
    """The graph, and the steps as pictures and in words; of a unit put together `like` another,
    only the steps that aren't word for word the other's."""
    items: list[tuple[Drawing | PictureRow | WordStep | str, float]] = []
    rows: list[PictureRow] = []
    if unlike is None:
        steps: Sequence[WordStep] = word_steps(item)
        items += [(drawing, drawing.height + _GRAPH) for drawing in order_drawings(job, item)]
        rows = picture_rows(step_pictures(job, item))
        items += [(row, row.height + (0.0 if index else _SEEN)) for index, row in enumerate(rows)]
    else:
        steps = unlike
        items.append((like.holder, _LIKE))
    items += [(step, step.height) for step in steps]
    room = room_on(job)
    shared = paged(items, room, first=left_after(room, before, ORDER_SAY))
    high = dict(items)
    for number, entries in enumerate(shared, 1):
        yield Page(
            f"{item.holder}-order-{number}",
            "bench",
            f"{item.label} assembly order",
            ORDER_SAY,
            "order.html",
            {
                "drawings": [each for each in entries if isinstance(each, Drawing)],
                "pictures": [
                    each for row in entries if isinstance(row, PictureRow) for each in row.pictures
                ],
                "first": bool(rows) and rows[0] in entries,
                "like": like if like.holder in entries else None,
                "steps": [each for each in entries if isinstance(each, WordStep)],
            },
            frozenset({item.holder}),
            part=part_of(number, shared),
            more=number > 1,
            high=sum(high[each] for each in entries),
        )


def word_steps(item: Built) -> list[WordStep]:
    """The steps of a unit in words."""
    return [word_step(each, item) for each in bench_order(item.unit)]


def steps_unlike(steps: Sequence[WordStep], item: Built, like: Built) -> list[WordStep]:
    """The steps of a unit that say anything else than those of one put together alike; what the
    units themselves are called is no difference."""
    own, other = words(item.unit.title), words(like.unit.title)
    others = word_steps(like)
    return [
        step
        for step, told in zip(steps, others, strict=True)
        if (evolve(step, holder=other) if step.holder == own else step) != told
    ]


def order_drawings(job: Job, item: Built) -> tuple[Drawing, ...]:
    """The graph of a unit's assembly, in as many drawings as pages need."""
    return assembly_drawings(job, item, room_on(job) - _GRAPH)


def word_step(step: BenchStep, item: Built) -> WordStep:
    """A step as a sentence, and a line for each kind of joint it closes. Of equal boxes one is
    told."""
    where = holder_words(step.holders, item.unit)
    if len(step.holders) > 1:
        where = f"each of {where}"
    inside = step.holders != ("",)
    sentences = []
    for group in _same_way(step):
        names = _names((each.address for each in group), inside)
        way = from_where(group[0], step.lies)
        if way:
            sentences.append(f"{_capital(names)}: in {way}.")
        elif step.step.lies:
            sentences.append(f"{_capital(names)}: lay it down, {step.step.lies} face on the bench.")
        else:
            sentences.append(f"{_capital(names)}: stand ready.")
    besides = said_besides(step, item.unit)
    if besides:
        sentences.append(f"{_capital(besides)}.")
    joints = []
    for each in fixed(step, item.unit):
        firsts, seconds = _names(each.firsts, inside), _names(each.seconds, inside)
        text = f"{firsts} to {seconds}: {each.title}"
        if each.fasteners:
            text += f", {', '.join(each.fasteners)} a joint"
        joints.append(text)
    return WordStep(step.number, " ".join(sentences), tuple(joints), where)


def _names(addresses: Iterable[str], inside: bool) -> str:
    """Names folded; inside a box, without the box's own name."""
    if inside:
        return folded(dict.fromkeys(each.rpartition(".")[2] for each in addresses))
    return folded(dict.fromkeys(addresses))


def _same_way(step: BenchStep) -> list[list[Coming]]:
    groups: dict[tuple[str, int], list[Coming]] = {}
    for coming in step.comings:
        groups.setdefault((coming.axis, coming.side), []).append(coming)
    return list(groups.values())


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
