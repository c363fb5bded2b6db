"""The edits that mend a finding: what is written in the kitchen's own text, and what would move a
figure as far as it must. Nothing is offered where more than one figure could be meant."""

import re
from collections.abc import Callable, Iterable
from fractions import Fraction

from casewright.compiler.binding import Binder
from casewright.compiler.check.site import Site, Standing, written_at
from casewright.compiler.keys import binder
from casewright.compiler.model import Run
from casewright.lang.cells import LITERAL, Quantity
from casewright.lang.findings import Edit
from casewright.lang.measure import Dimension, System
from casewright.lang.source import Origin, Span

ROOM = ("filler", "space")
"""What stands in a run only to leave room, and can be wider or narrower."""


def moved_by(
    site: Site,
    standing: Standing,
    quantity: Quantity,
    by: Fraction,
    origin: Origin | None = None,
) -> tuple[Edit, ...]:
    """Makes a figure of a placed thing greater by `by` inches, through the one length of the
    kitchen's own text that it follows: on the line of `origin`, else on the thing's own, else in
    what it is built by. Never the size of a material, and nothing of the room or of another run."""
    line = standing.line
    if line is None:
        return ()
    bind = Binder(standing.placed.bindings, binder(standing.placed.spans), lambda name: name)
    room = site.job.room
    own = standing.placed.span
    goods = [each.span for each in site.yardstick.goods.values()]
    heights = [written_at(each) for each in (room.ceiling, room.counter, room.counter_thick)]
    stated = [*(wall.span for wall in room.walls), *(run.span for run in site.job.runs)]
    elsewhere = [*goods, *heights, *stated]
    rows = {
        span: row
        for span, row in _rates(bind.bind(quantity)).items()
        if span.source is line.source and row[0].dimension is Dimension.LENGTH and row[1] != 0
    }
    on_line = [span for span in rows if _inside(span, own)]
    built = [span for span in rows if not any(_inside(span, each) for each in elsewhere)]
    there = standing.span_of(origin)
    stated_there = [span for span in built if there is not None and span.line == there.line]
    chosen = stated_there or on_line or built
    if len(chosen) != 1:
        return ()
    written, rate = rows[chosen[0]]
    if not rate:
        return ()
    value = written.value + by / rate
    if value <= 0 or value != site.up_to_step(value):
        return ()
    return site.edit(written, value)


def _rates(quantity: Quantity) -> dict[Span, tuple[Quantity, Fraction | None]]:
    """The written lengths a figure follows, and how far it moves with each; None where it doesn't
    move evenly. A sum that many share is looked at once, and a long one is no deeper than a short
    one."""
    order: list[Quantity] = []
    seen: set[int] = set()
    stack = [(quantity, False)]
    while stack:
        at, done = stack.pop()
        if done:
            order.append(at)
        elif id(at) not in seen:
            seen.add(id(at))
            stack.append((at, True))
            stack.extend((each, False) for each in at.inputs)
    rate: dict[int, Fraction | None] = {id(quantity): Fraction(1)}
    found: dict[Span, tuple[Quantity, Fraction | None]] = {}
    for at in reversed(order):
        own = rate[id(at)]
        if at.operator == LITERAL and isinstance(at.origin, Span):
            before = found.get(at.origin, (at, Fraction(0)))[1]
            found[at.origin] = (at, _both(before, own))
        for index, each in enumerate(at.inputs):
            times = _times(at, index)
            step = None if own is None or times is None else own * times
            rate[id(each)] = _both(rate.get(id(each), Fraction(0)), step)
    return found


def _times(quantity: Quantity, index: int) -> Fraction | None:
    """How far a figure moves with one of those it is made of."""
    match quantity.operator:
        case "negate":
            return Fraction(-1)
        case "+" | "-":
            return Fraction(-1 if quantity.operator == "-" and index else 1)
        case "*":
            return quantity.inputs[1 - index].value
        case "/" if index == 0:
            return 1 / quantity.inputs[1].value
        case _:
            return Fraction(1) if len(quantity.inputs) == 1 else None


def _both(first: Fraction | None, second: Fraction | None) -> Fraction | None:
    return None if first is None or second is None else first + second


def _inside(span: Span, outer: Span | None) -> bool:
    return (
        outer is not None
        and outer.source is span.source
        and outer.start <= span.start
        and span.end <= outer.end
    )


def for_each(
    standings: Iterable[Standing], edits_of: Callable[[Standing], tuple[Edit, ...]]
) -> tuple[Edit, ...]:
    """The edits of all of them, each once; none where one of them has none."""
    found = [edits_of(each) for each in standings]
    return tuple(dict.fromkeys(edit for each in found for edit in each)) if all(found) else ()


def named_instead(standing: Standing, now: str, other: str) -> tuple[Edit, ...]:
    """Writes another name where the thing's own line chooses `now` for one of its options."""
    line, unit = standing.line, standing.unit
    if line is None or unit is None:
        return ()
    words = [word for word, chosen in unit.options.items() if chosen == now]
    text = line.source.text[line.start : line.end].partition("#")[0]
    found = [
        match
        for word in words
        for match in re.finditer(rf"(?<!\S){re.escape(word)}\s+({re.escape(now)})(?!\S)", text)
    ]
    if len(words) != 1 or len(found) != 1:
        return ()
    begin, end = found[0].span(1)
    return (Edit(Span(line.source, line.start + begin, line.start + end), other),)


def written_across(
    site: Site, standing: Standing, origin: Origin | None, axis: str, now: Fraction, value: Fraction
) -> tuple[Edit, ...]:
    """Writes `value` where a line of the kitchen's own text says that something is `now` inches
    along an axis, placed from an end."""
    span, line = standing.span_of(origin), standing.line
    if span is None or line is None or span.source is not line.source:
        return ()
    text = span.source.text[span.start :].partition("\n")[0].partition("#")[0]
    found = list(re.finditer(rf"(?<!\S){axis}\s+(\d[\d/ ]*?)(?=\s+(?:from|to|centred)\b)", text))
    # A bare number is in the job's own unit; only inches are written as fractions.
    if len(found) != 1 or site.job.system is System.MILLIMETRES:
        return ()
    terms = found[0].group(1).split()
    if sum((Fraction(each) for each in terms), Fraction(0)) != now or value != site.up_to_step(
        value
    ):
        return ()
    begin, end = found[0].span(1)
    place = Span(span.source, span.start + begin, span.start + end)
    return (Edit(place, site.say(value)),)


def shifted(site: Site, standing: Standing, by: Fraction) -> tuple[Edit, ...]:
    """Moves a thing along its run, to the right for more than nothing, by a wider filler or space
    on the one side of it, where the one on its other side is a share and gives as much back."""
    row = standing.run.placed
    at = next(index for index, each in enumerate(row) if each is standing.placed)
    if not 0 < at < len(row) - 1:
        return ()
    wider, gives = (row[at - 1], row[at + 1]) if by > 0 else (row[at + 1], row[at - 1])
    if wider.kind not in ROOM or gives.kind not in ROOM or written_at(gives.width) is not None:
        return ()
    if gives.width.value <= abs(by):
        return ()
    return site.own_edit(standing, wider.width, wider.width.value + abs(by))


def corner_filled(site: Site, one: Run, other: Run, by: Fraction) -> tuple[Edit, ...]:
    """Makes the filler of the dead corner between two runs wider, in both of them alike, where
    each has something that takes what is left."""
    edits: list[Edit] = []
    for run, beyond in ((one, other), (other, one)):
        corner = [each.span for each in run.placed if each.dead_with == beyond.name]
        fillers = [
            each.width
            for each in run.placed
            if each.kind == "filler"
            and each.span is not None
            and any(_inside(each.span, at) for at in corner)
        ]
        gives = any(written_at(each.width) is None and not each.dead_with for each in run.placed)
        if len(fillers) != 1 or not gives:
            return ()
        edits.extend(site.edit(fillers[0], fillers[0].value + by))
    return tuple(edits) if len(edits) == 2 else ()


def centred_on(site: Site, standing: Standing, name: str) -> tuple[Edit, ...]:
    """Pins a thing to the middle of what lies on its wall, where something on each side of it takes
    what is left, so that the run closes as before."""
    row = standing.run.placed
    at = next(index for index, each in enumerate(row) if each is standing.placed)
    written, line = written_at(standing.placed.width), standing.line
    if written is None or line is None or written.source is not line.source:
        return ()
    own = line.source.text[line.start : line.end]
    pinned = re.search(r"(?<!\S)(?:centred|over|at)(?!\S)", own.partition("#")[0].partition("{")[0])
    if pinned or not _inside(written, standing.placed.span):
        return ()
    sides = (row[:at], row[at + 1 :])
    if not all(any(written_at(each.width) is None for each in side) for side in sides):
        return ()
    return (Edit(Span(written.source, written.end, written.end), f" centred on {name}"),)


def added_to_block(span: Span, line: str) -> tuple[Edit, ...]:
    """Writes a line at the end of a statement's block; a block of its own where it has none. None
    where it has one on its own line, which holds no more than it does."""
    text = span.source.text[span.start : span.end].rstrip()
    end = span.start + len(text)
    begin = span.source.text.rfind("\n", 0, span.start) + 1
    indent = span.source.text[begin : span.start]
    if indent.strip():
        return ()
    if not text.endswith("}"):
        last = text[-1]
        written = f"{last} {{\n{indent}  {line}\n{indent}}}"
        return (Edit(Span(span.source, end - 1, end), written),) if "#" not in text else ()
    if "\n" not in text:
        return ()
    return (Edit(Span(span.source, end - 1, end), f"  {line}\n{indent}}}"),)
