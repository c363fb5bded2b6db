"""Dimension chains: oblique ticks as on a story stick, figures above the line, and the total."""

from collections.abc import Sequence
from fractions import Fraction
from itertools import accumulate, pairwise

from attrs import frozen

from casewright.compiler.papers.drawings.drawing import Canvas, Letters, letters_width
from casewright.compiler.papers.figures import Figure, read
from casewright.lang.measure import Dimension, Measure, nearest

NEAR = 6.8
"""From one chain's line to the next, in millimetres."""

FAR = 10.4
"""The same where figures stand across the line."""

_OVER = 1.1
_PAST = 1.8
_ACROSS = 4.4
_LETTERED = 0.7
_ROOM = 1.8


@frozen
class Link:
    """One length of a chain: what it is, and words that stand behind the figure."""

    figure: Figure
    words: str = ""


@frozen
class Laid:
    """A chain on paper: where the next line goes, and what was too small to letter."""

    next: float
    unlettered: tuple[Figure, ...]


def across(
    canvas: Canvas,
    places: Sequence[float],
    links: Sequence[Link],
    y: float,
    whole: Link | None = None,
    *,
    outward: int = 1,
) -> Laid:
    """A chain from left to right at height `y`, between `places`, one more than `links`.

    `whole` is the total, on a line of its own further out (`outward` is 1 below the drawing, -1
    above it); a chain of one link is its own total.
    """
    return _chain(canvas, places, links, y, whole, outward, upright=False)


def upright(
    canvas: Canvas,
    places: Sequence[float],
    links: Sequence[Link],
    x: float,
    whole: Link | None = None,
    *,
    outward: int = 1,
) -> Laid:
    """A chain from the bottom up at `x`, read from the right; `places` fall, since paper runs
    down. `outward` is 1 right of the drawing, -1 left of it."""
    return _chain(canvas, places, links, x, whole, outward, upright=True)


def small_print(unlettered: Sequence[Figure]) -> list[str | Figure]:
    """Words for what was too small to letter, each figure once."""
    once = list({figure.value: figure for figure in unlettered}.values())
    if not once:
        return []
    pieces: list[str | Figure] = [" Too small to letter: "]
    for index, figure in enumerate(once):
        pieces += [", ", figure] if index else [figure]
    return [*pieces, "."]


def _chain(
    canvas: Canvas,
    places: Sequence[float],
    links: Sequence[Link],
    at: float,
    whole: Link | None,
    outward: int,
    upright: bool,
) -> Laid:
    texts = [
        f"{read(measure, canvas.printing)} {link.words}".rstrip()
        for measure, link in zip(_rounded(links, canvas), links, strict=True)
    ]
    gaps = [abs(high - low) for low, high in pairwise(places)]
    small = [gap < _LETTERED for gap in gaps]
    across_line: list[int] = []
    for index, (text, gap) in enumerate(zip(texts, gaps, strict=True)):
        if small[index]:
            continue
        if letters_width(text) + _ROOM <= gap:
            middle = (places[index] + places[index + 1]) / 2
            _put(canvas, middle, at - _OVER, links[index], text, upright)
        elif index in (0, len(texts) - 1) and not upright:
            _past(canvas, places, at, index == 0, links[index], text)
        else:
            across_line.append(index)
    _across_line(canvas, places, across_line, links, texts, at, upright)
    _line(canvas, places, at, upright)
    end = at + outward * NEAR
    if across_line:
        end = at + outward * FAR
    if whole is not None and len(links) > 1:
        # Figures stand above the line, so above a drawing the next line must clear them.
        text = f"{read(whole.figure.measure, canvas.printing)} {whole.words}".rstrip()
        ends = (places[0], places[-1])
        _put(canvas, sum(ends) / 2, end - _OVER, whole, text, upright)
        _line(canvas, ends, end, upright)
        end += outward * NEAR
    unlettered = tuple(link.figure for link, is_small in zip(links, small, strict=True) if is_small)
    return Laid(end, unlettered)


def _rounded(links: Sequence[Link], canvas: Canvas) -> list[Measure]:
    """What each link prints. The cut points are rounded, not the lengths, so that a chain adds up
    as it is read."""
    step = canvas.printing.step
    points = accumulate((link.figure.value for link in links), initial=Fraction(0))
    rounded = (nearest(point, step) for point in points)
    return [Measure(high - low, Dimension.LENGTH) for low, high in pairwise(rounded)]


def _put(canvas: Canvas, along: float, beside: float, link: Link, text: str, upright: bool) -> None:
    x, y = (beside, along) if upright else (along, beside)
    canvas.letters(Letters(x, y, text, "middle", upright, "", link.figure))


def _past(
    canvas: Canvas, places: Sequence[float], y: float, first: bool, link: Link, text: str
) -> None:
    if first:
        canvas.letters(Letters(places[0] - _PAST, y + 1.5, text, "end", False, "", link.figure))
    else:
        canvas.letters(Letters(places[-1] + _PAST, y + 1.5, text, "start", False, "", link.figure))


def _across_line(
    canvas: Canvas,
    places: Sequence[float],
    indices: Sequence[int],
    links: Sequence[Link],
    texts: Sequence[str],
    at: float,
    upright: bool,
) -> None:
    """Figures too long for their gap, on the other side of the line, pushed clear of each other;
    one that had to move far hangs on a thin leader."""
    step = -1 if upright else 1
    last: float | None = None
    for index in indices:
        middle = (places[index] + places[index + 1]) / 2
        half = letters_width(texts[index]) / 2 + 0.6
        place = middle
        if last is not None and (place - last) * step < half:
            place = last + half * step
        last = place + half * step
        beside = at + _ACROSS
        if abs(place - middle) > abs(places[index + 1] - places[index]) / 2:
            near, far = (at + 0.4, middle), (beside - 3.0, place)
            if not upright:
                near, far = (middle, at + 0.4), (place, beside - 3.0)
            canvas.line("thin", *near, *far)
        _put(canvas, place, beside, links[index], texts[index], upright)


def _line(canvas: Canvas, places: Sequence[float], at: float, upright: bool) -> None:
    low, high = min(places) - 2, max(places) + 2
    if upright:
        canvas.line("thin", at, high, at, low)
    else:
        canvas.line("thin", low, at, high, at)
    drawn: list[float] = []
    for place in places:
        # Two lines that would print nearer than 0.7 mm are drawn as one.
        if any(abs(place - other) < 0.7 for other in drawn):
            continue
        drawn.append(place)
        x, y = (at, place) if upright else (place, at)
        canvas.line("seen", x - 1.1, y + 1.1, x + 1.1, y - 1.1)
