"""What is said of a run that doesn't come out: the sum, ruled off, and the mend."""

from collections.abc import Sequence

from casewright.compiler.rooms.run_items import Item
from casewright.lang.cells import Quantity, literal, subtract
from casewright.lang.findings import Figure, Finding, Label, error
from casewright.lang.printing import Printing, in_words
from casewright.lang.shape import Statement, span_of
from casewright.lang.source import Span


def no_share(
    items: Sequence[Item],
    sharing: Sequence[Item],
    room: Quantity,
    left: Quantity,
    what: str,
    printing: Printing,
) -> Finding:
    """Shares that nothing, less than their least or more than their most is left for."""
    short = left.value <= 0
    bounds = [item.least if short else item.most for item in sharing]
    bound = next((each for each in bounds if each is not None), None)
    first = sharing[0]
    rest = room
    figures = [Figure(what, room.measure, _span(room))]
    for item in items:
        if item.fixed is not None and item.width is not None:
            rest = subtract(rest, item.width)
            figures.append(Figure(f"less {item.name}", item.width.measure, item.line))
    names = ", ".join(item.name for item in sharing)
    figures.append(Figure(f"leaves {names}", rest.measure, first.line, ruled=True))
    by = Quantity(abs(left.value), left.dimension)
    if bound is not None:
        wants = literal(sum(each.value for each in bounds if each is not None))
        word = "wants" if short else "takes"
        figures.append(Figure(word, wants.measure, first.line))
    figures.append(Figure("short" if short else "over", by.measure, ruled=True))
    verb = "is" if len(sharing) == 1 else "are"
    said = in_words(by.measure, printing)
    if short and bound is not None:
        slug = "share-below-least"
        headline = f"{names} {verb} {said} less than the least width"
    elif short:
        slug = "nothing-left"
        headline = f"nothing is left for {names}"
    else:
        slug = "share-over-most"
        headline = f"{said} is left over when {names} {verb} at the most"
    mend = _mend(items, by, short, printing)
    if not short and not mend:
        mend = "end the run with `space share`, add a filler, or raise a most"
    return error(slug, headline, first.line, figures=tuple(figures), help=mend)


def misfit(
    run: Statement,
    items: Sequence[Item],
    room: Quantity,
    left: Quantity,
    part: str,
    printing: Printing,
) -> Finding:
    """Things without shares that don't close their run, or the `part` of it beside what is pinned
    (empty: all of it); no things at all don't either."""
    over = left.value < 0
    by = Quantity(abs(left.value), left.dimension)
    needs = subtract(room, left)
    span = span_of(run.head.origin)
    said = in_words(by.measure, printing)
    word = "longer" if over else "shorter"
    headline = f"run {run.name} is {said} {word} than its wall"
    if part:
        headline = f"what stands {part} in {run.name} is {said} {word} than its space"
    elif run.clause("length") is not None:
        headline = f"run {run.name} is {said} {word} than its length"
    if not items:
        where = f"{part} in" if part else "in run"
        headline = f"nothing stands {where} {run.name}, where {said} is left"
    return error(
        "run-too-long" if over else "run-too-short",
        headline,
        span,
        figures=(
            Figure("needs", needs.measure, span),
            Figure("has", room.measure, _span(room)),
            Figure("over" if over else "short", by.measure, ruled=True),
        ),
        help=_mend(items, by, over, printing) or _ways_to_end(run, items, needs, part, printing),
    )


def past_end(
    run: Statement, room: Quantity, after: Item | None, before: Item | None, printing: Printing
) -> Finding:
    """A pinned thing that would stand past an end of its run, or in another that is pinned."""
    by = Quantity(-room.value, room.dimension)
    pinned = before or after
    assert pinned is not None, "nothing is short between the two ends of a run"
    said = in_words(by.measure, printing)
    where = f"past the {'left' if before is not None else 'right'} end of {run.name}"
    if before is not None and after is not None:
        where = f"into {after.name}"
    on = pinned.pinned_on or "the middle of its wall"
    how = f"{pinned.pin} on {on}" if pinned.pin == "centred" else f"over {on}"
    labels = (
        (Label(after.line, f"{after.name} is pinned too"),)
        if before is not None and after is not None and after.line is not None
        else ()
    )
    wide = pinned.fixed or room
    return error(
        "pinned-out-of-place",
        f"{pinned.name}, {how}, would reach {said} {where}",
        pinned.pin_span,
        figures=(
            Figure(f"{pinned.name} is wide", wide.measure, pinned.line),
            Figure("of that there is room for", subtract(wide, by).measure),
            Figure("over", by.measure, ruled=True),
        ),
        labels=labels,
        help=f"pin {pinned.name} to something else, or let it stand in line",
    )


def _mend(items: Sequence[Item], by: Quantity, over: bool, printing: Printing) -> str:
    """A change of one width that closes the sum, where some unit can give or take it."""
    for item in reversed(items):
        if item.kind != "unit" or item.fixed is None:
            continue
        new = item.fixed.value - by.value if over else item.fixed.value + by.value
        # Nobody meant a unit half as wide again: such a run was never to fill its space.
        if not over and by.value > item.fixed.value / 2:
            break
        if new > by.value and item.line is not None:
            becomes = in_words(literal(new).measure, printing)
            written = in_words(item.fixed.measure, printing).rstrip('"')
            return (
                f"line {item.line.line}: give {item.tag} `share` in place of {written}; "
                f"it becomes {becomes}"
            )
    return ""


def _ways_to_end(
    run: Statement, items: Sequence[Item], needs: Quantity, part: str, printing: Printing
) -> str:
    """How a run that is too short may be ended, where no one width is to be another."""
    if not items:
        return "let units stand there, a filler, or `space share`"
    ways = ["end the run with `space share`", "add a filler", "give a unit `share`"]
    if not part and run.clause("length") is None:
        length = in_words(needs.measure, printing).rstrip('"')
        ways.append(f"say on the run's own line: length {length}")
    return f"{', '.join(ways[:-1])}, or {ways[-1]}"


def _span(quantity: Quantity) -> Span | None:
    at: Quantity | None = quantity
    while at is not None:
        if isinstance(at.origin, Span):
            return at.origin
        at = at.inputs[0] if at.inputs else None
    return None
