"""A wall seen from inside the room, to scale: units with their fronts, and chains wall to wall."""

from collections import Counter
from collections.abc import Mapping, Sequence
from fractions import Fraction
from itertools import pairwise

from attrs import evolve

from casewright.compiler.model import Feature, Job, Unit
from casewright.compiler.papers.drawings import chains
from casewright.compiler.papers.drawings.chains import Link
from casewright.compiler.papers.drawings.drawing import (
    WIDEST,
    Canvas,
    Drawing,
    Letters,
    Line,
    View,
    fitted,
    scale_words,
    scales,
)
from casewright.compiler.papers.drawings.marks import ring, tag
from casewright.compiler.papers.drawings.outlines import Rectangle, draw
from casewright.compiler.papers.drawings.seen import (
    draw_pull,
    foreshortened,
    hinge_dashes,
    hinge_side,
    name_in,
    pulls,
    toe_top,
    visible,
)
from casewright.compiler.papers.figures import Figure, difference, figure, printing_of
from casewright.compiler.papers.names import listed, words
from casewright.compiler.papers.pieces import Built, label
from casewright.compiler.papers.walls import Row, Side, Standing, sides

TALLEST = 196.0
"""What an elevation may take in height where nothing else is said, in millimetres."""

_TAG_DROP = 7.0


def elevations(job: Job) -> tuple[Drawing, ...]:
    """One elevation for each wall with a run."""
    return tuple(elevation(job, side) for side in sides(job))


def elevation(
    job: Job, side: Side, rings: Mapping[str, str] | None = None, high: float = TALLEST
) -> Drawing:
    """The elevation of one wall, at the largest scale that fits a page's width and is at most
    `high` millimetres.

    `rings` gives figures in rings, by the address of the unit they stand in: the order of setting.
    """
    for scale in scales(job.system, 16):
        drawn = _elevation(job, side, scale, rings or {})
        if drawn.width <= WIDEST and drawn.height <= high:
            break
    return drawn


def _elevation(job: Job, side: Side, scale: int, rings: Mapping[str, str]) -> Drawing:
    canvas = Canvas(printing_of(job))
    view = View(0.0, 0.0, scale)
    left, right = view.x(side.left), view.x(side.right)
    outlines = _outlines(job, side, view)
    for feature in side.features:
        _feature(canvas, feature, view)
    across, _ = draw(canvas, outlines)
    for thing in side.things:
        _inside(canvas, thing, view)
    if side.wall:
        high = side.wall.height.value
        canvas.rectangle("cut", across.at(left), view.y(high), right - left, view.size(high))
    else:
        canvas.line("cut", across.at(left) - 4.0, 0.0, across.at(right) + 4.0, 0.0)
    lowest = 0.0
    for row in side.rows:
        for thing in row.things:
            if not thing.placed.tag:
                continue
            middle = (view.x(thing.left) + view.x(thing.right)) / 2
            under = view.y(thing.low) + _TAG_DROP - 1.4
            tag(canvas, middle, under, label(thing.placed), href=thing.holder)
            lowest = max(lowest, under)
    for feature in side.features:
        _pipe(canvas, feature, view)
    for blocking in side.wall.blocking if side.wall else ():
        _blocking(canvas, blocking, view)
    for thing in side.things:
        if thing.holder in rings:
            _ring(canvas, thing, view, rings[thing.holder])
    unlettered = _chains(canvas, job, side, view, lowest)
    by_others = [label(each.placed) for each in side.things if each.placed.kind == "appliance"]
    note: list[str | Figure] = [f"Elevation, {scale_words(scale, job.system)}."]
    if any(hinge_side(unit, part) for unit in _units(side) for part in visible(unit)):
        note.append(" Thin dashes meet at the hinge side.")
    if side.wall and side.wall.blocking:
        note.append(" Long dashes: blocking in the wall.")
    if by_others:
        note.append(f" {listed(by_others)} {'is' if len(by_others) == 1 else 'are'} by others.")
    note += chains.small_print(unlettered)
    if rings:
        note.append(" Rings: the order of setting.")
    name = f"{'install' if rings else 'elevation'}_{side.name}"
    return canvas.finished(
        name, f"Elevation of the {side.title}, seen from inside the room", tuple(note)
    )


def _ring(canvas: Canvas, thing: Standing, view: View, text: str) -> None:
    """A figure in a ring, in the middle of its unit or where no words are."""
    x = (view.x(thing.left) + view.x(thing.right)) / 2
    top, bottom = view.y(thing.high), view.y(thing.low)
    places = ((top + bottom) / 2, top + 4.5, bottom - 8.0, top + 3.4, bottom - 3.6)
    free = canvas.freest([Letters(x, y + 1.4, text) for y in places])
    ring(canvas, x, free.y - 1.4, text)


def _units(side: Side) -> list[Unit]:
    return [thing.placed.unit for thing in side.things if thing.placed.unit is not None]


def _outlines(job: Job, side: Side, view: View) -> list[Rectangle]:
    found: list[Rectangle] = []
    for thing in side.things:
        if thing.placed.kind in ("unit", "filler"):
            found.append(_rectangle(view, thing.left, thing.right, thing.low, thing.high, "seen"))
        elif thing.placed.kind == "appliance":
            found.append(_rectangle(view, thing.left, thing.right, thing.low, thing.high, "hidden"))
    found += _counter(job, side, view)
    for thing in (*side.things, *side.bases):
        unit = thing.placed.unit
        for part in visible(unit) if unit else ():
            box = part.box
            place = _rectangle(
                view, thing.left + box.across[0], thing.left + box.across[1],
                thing.low + box.up[0], thing.low + box.up[1], "seen",
                "tint" if part.role in ("toe", "filler") else "paper",
            )  # fmt: skip
            # Near is measured from the wall, so that deep units stand before shallow ones.
            near = float(thing.placed.depth.value - box.deep[0])
            found.append(evolve(place, near=near))
        for each in foreshortened(unit) if unit else ():
            across, up = each.across, each.part.box.up
            place = _rectangle(
                view, thing.left + across[0], thing.left + across[1],
                thing.low + up[0], thing.low + up[1], "seen",
                "tint" if each.part.role == "toe" else "paper",
            )  # fmt: skip
            found.append(evolve(place, near=float(thing.placed.depth.value + each.near)))
    return found


def _rectangle(
    view: View, left: Fraction, right: Fraction, low: Fraction, high: Fraction,
    line: Line, fill: str = "",
) -> Rectangle:  # fmt: skip
    return Rectangle(view.x(left), view.y(high), view.x(right), view.y(low), line, fill)


def under_counter(job: Job, side: Side) -> list[tuple[Fraction, Fraction]]:
    """The stretches along a wall that carry counter: things from the floor up to its underside."""
    underside = job.room.counter.value - job.room.counter_thick.value
    stretches: list[tuple[Fraction, Fraction]] = []
    low = sorted(
        (
            thing
            for thing in side.things
            if thing.low == 0 and thing.high == underside and thing.placed.kind != "space"
        ),
        key=lambda thing: thing.left,
    )
    for thing in low:
        if stretches and stretches[-1][1] == thing.left:
            stretches[-1] = (stretches[-1][0], thing.right)
        else:
            stretches.append((thing.left, thing.right))
    return stretches


def _counter(job: Job, side: Side, view: View) -> list[Rectangle]:
    top = job.room.counter.value
    underside = top - job.room.counter_thick.value
    return [
        _rectangle(view, left, right, underside, top, "seen", "tint")
        for left, right in under_counter(job, side)
    ]


def _feature(canvas: Canvas, feature: Feature, view: View) -> None:
    x, width = view.x(feature.at.value), view.size(feature.wide.value)
    top = view.y(feature.up.value + feature.high.value)
    height = view.size(feature.high.value)
    if width == 0 or height == 0:
        return
    casing = view.size(feature.casing.value)
    if casing:
        canvas.rectangle("thin", x - casing, top - casing, width + 2 * casing, height + 2 * casing)
    canvas.rectangle("seen", x, top, width, height)
    name = fitted(words(feature.name), width - 2)
    canvas.write(x + width / 2, top + height / 2 + 1.5, name, kind="grey")


def _blocking(canvas: Canvas, blocking: Feature, view: View) -> None:
    """Blocking in the wall, dashed before all that hides it, with its name where room is free."""
    x, width = view.x(blocking.at.value), view.size(blocking.wide.value)
    top, height = view.y(blocking.up.value + blocking.high.value), view.size(blocking.high.value)
    canvas.rectangle("hidden", x, top, width, height)
    name = words(blocking.name)
    around = (
        Letters(x + width + 2.0, top + height / 2 + 1.5, name, "start", False, "grey"),
        Letters(x - 2.0, top + height / 2 + 1.5, name, "end", False, "grey"),
        Letters(x + width / 2, top - 1.6, name, "middle", False, "grey"),
        Letters(x + width / 2, top + height + 4.4, name, "middle", False, "grey"),
    )
    canvas.letters(canvas.freest(around))


def _pipe(canvas: Canvas, feature: Feature, view: View) -> None:
    """A pipe or an outlet: a small circle, and its name on the side that is free."""
    if feature.wide.value and feature.high.value:
        return
    x, y = view.x(feature.at.value), view.y(feature.up.value)
    canvas.circle("seen", x, y, 1.2, "paper")
    name = words(feature.name)
    around = (
        Letters(x + 2.0, y + 1.5, name, "start", False, "grey"),
        Letters(x - 2.0, y + 1.5, name, "end", False, "grey"),
        Letters(x, y + 6.6, name, "middle", False, "grey"),
        Letters(x + 2.0, y + 4.5, name, "start", False, "grey"),
        Letters(x - 2.0, y + 4.5, name, "end", False, "grey"),
        Letters(x, y - 3.6, name, "middle", False, "grey"),
        Letters(x, y + 11.4, name, "middle", False, "grey"),
        Letters(x, y - 8.4, name, "middle", False, "grey"),
    )
    canvas.letters(canvas.freest(around))


def _inside(canvas: Canvas, thing: Standing, view: View) -> None:
    unit = thing.placed.unit
    if unit is None:
        if thing.placed.kind == "appliance":
            _name(canvas, thing, view)
        return
    for part in visible(unit):
        edge = hinge_side(unit, part)
        if edge:
            box = part.box
            hinge_dashes(
                canvas,
                edge,
                view.x(thing.left + box.across[0]),
                view.y(thing.low + box.up[1]),
                view.x(thing.left + box.across[1]),
                view.y(thing.low + box.up[0]),
            )
    for part in pulls(unit):
        box = part.box
        draw_pull(
            canvas, view.x(thing.left + box.across[0]), view.y(thing.low + box.up[1]),
            view.x(thing.left + box.across[1]), view.y(thing.low + box.up[0]),
        )  # fmt: skip


def _name(canvas: Canvas, thing: Standing, view: View) -> None:
    """An appliance's name in its outline, turned where a word is too wide for it."""
    x = (view.x(thing.left) + view.x(thing.right)) / 2
    y = (view.y(thing.low) + view.y(thing.high)) / 2
    name_in(
        canvas, words(thing.placed.title), x, y, view.size(thing.placed.width.value) - 2,
        view.size(thing.placed.height.value) - 2,
    )  # fmt: skip


def _chains(canvas: Canvas, job: Job, side: Side, view: View, lowest: float) -> list[Figure]:
    left, top, right, _ = canvas.bounds
    below = lowest + 8.5
    above = top - 7.5
    small: list[Figure] = []
    for row in side.rows:
        if not row.things:
            continue
        places, links = row_chain(side, row, view)
        whole = whole_of(side, row)
        if row.is_high:
            laid = chains.across(canvas, places, links, above, whole, outward=-1)
            above = laid.next
        else:
            laid = chains.across(canvas, places, links, below, whole)
            below = laid.next
        small += laid.unlettered
    levels = _levels(job, side)
    places = [view.y(level.value) for level in levels]
    links = [
        Link(difference(high, low, f"{side.name}.up_{index}"))
        for index, (low, high) in enumerate(pairwise(levels), 1)
    ]
    small += chains.upright(canvas, places, links, right + 5.0).unlettered
    ends = (places[0], places[-1])
    # The total has the other side to itself: there the chain below leaves room anyway.
    chains.upright(canvas, ends, [Link(levels[-1])], left - 6.5, outward=-1)
    return small


def row_chain(side: Side, row: Row, view: View) -> tuple[list[float], list[Link]]:
    """The places and lengths of a run's chain, from wall to wall where there is a wall."""
    places = [view.x(side.left)]
    links: list[Link] = []
    at = side.left
    for thing in row.things:
        if thing.left > at:
            links.append(
                Link(_stretch(row, f"{row.run.name}.before_{thing.holder}", thing.left - at))
            )
            places.append(view.x(thing.left))
        links.append(Link(thing.across))
        places.append(view.x(thing.right))
        at = thing.right
    if side.right > at:
        links.append(Link(_stretch(row, f"{row.run.name}.rest", side.right - at)))
        places.append(view.x(side.right))
    return places, links


def _stretch(row: Row, address: str, value: Fraction) -> Figure:
    if value == row.run.start.value:
        return figure(row.run.start, f"{row.run.name}.start")
    return Figure(value, row.run.space.dimension, address)


def whole_of(side: Side, row: Row) -> Link:
    """The total of a run's chain."""
    if side.wall and side.right == side.wall.length.value:
        return Link(figure(side.wall.length, f"{side.wall.name}.length"), "wall to wall")
    if row.left == side.left and row.run.space.value == side.right - side.left:
        return Link(figure(row.run.space, f"{row.run.name}.space"))
    return Link(Figure(side.right - side.left, row.run.space.dimension, f"{row.run.name}.all"))


def _levels(job: Job, side: Side) -> Sequence[Figure]:
    """Heights above the floor that a wall's chain shows, from the floor up."""
    found: list[Figure] = [Figure(Fraction(0), job.room.counter.dimension, "")]
    toes = [
        toe
        for item in (Built(thing.placed, thing.placed.unit) for thing in side.things
                     if thing.placed.unit is not None and thing.low == 0)
        for toe in [toe_top(item)]
        if toe is not None
    ]  # fmt: skip
    found += _usual(toes)
    tall = [thing for thing in side.things if thing.placed.kind == "unit"]
    found += _usual([thing.top for thing in tall if thing.low == 0])
    found += _usual([thing.bottom for thing in tall if thing.low > 0])
    found += _usual([thing.top for thing in tall if thing.low > 0])
    if under_counter(job, side):
        found.append(figure(job.room.counter, "room.counter"))
    if side.wall:
        found.append(figure(side.wall.height, f"{side.wall.name}.high"))
    levels: dict[Fraction, Figure] = {}
    for each in found:
        levels.setdefault(each.value, each)
    return [levels[value] for value in sorted(levels)]


def _usual(figures: Sequence[Figure]) -> list[Figure]:
    """The value most of `figures` share, once; the first of equals."""
    if not figures:
        return []
    value, _ = Counter(each.value for each in figures).most_common(1)[0]
    return [next(each for each in figures if each.value == value)]
