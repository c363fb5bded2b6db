"""Story sticks of a unit: the heights of its openings, as they are laid to an edge at the bench."""

from collections.abc import Sequence
from fractions import Fraction

from casewright.compiler.model import Job, Opening
from casewright.compiler.papers.drawings.drawing import Canvas, Drawing, View, letters_width
from casewright.compiler.papers.drawings.seen import toe_top
from casewright.compiler.papers.figures import Figure, figure, printing_of
from casewright.compiler.papers.names import words
from casewright.compiler.papers.pieces import Built


def sticks(job: Job, item: Built, scale: int) -> tuple[Drawing, ...]:
    """A stick for each column of openings; a column whose heights another has is left out."""
    columns: dict[Fraction, dict[tuple[Fraction, Fraction], Opening]] = {}
    for opening in item.unit.openings:
        column = columns.setdefault(opening.across.low.value, {})
        column[opening.up.low.value, opening.up.high.value] = opening
    kept: list[dict[tuple[Fraction, Fraction], Opening]] = []
    for column in sorted(columns.values(), key=len, reverse=True):
        if not any(column.keys() <= other.keys() for other in kept):
            kept.append(column)
    return tuple(
        _stick(job, item, scale, [column[key] for key in sorted(column)], number)
        for number, column in enumerate(kept, 1)
    )


def _stick(job: Job, item: Built, scale: int, openings: Sequence[Opening], number: int) -> Drawing:
    canvas = Canvas(printing_of(job))
    unit = item.unit
    view = View(0.0, 0.0, scale)
    wide = 7.0
    height = figure(unit.height, f"{item.holder}.high")
    levels: list[Figure] = [Figure(Fraction(0), unit.height.dimension, "")]
    toe = toe_top(item)
    if toe is not None:
        levels.append(toe)
    for each in openings:
        levels.append(figure(each.up.low, f"{item.holder}.{each.address}.bottom"))
        levels.append(figure(each.up.high, f"{item.holder}.{each.address}.top"))
    levels.append(height)
    canvas.rectangle("seen", 0.0, view.y(height.value), wide, view.size(height.value))
    at = toe.value if toe is not None else Fraction(0)
    clear = [(each.up.low.value, each.up.high.value) for each in openings]
    for low, high in (*clear, (height.value, height.value)):
        if low > at:
            canvas.rectangle("seen", 0.0, view.y(low), wide, view.size(low - at), "tint")
        at = high
    if toe is not None:
        canvas.line("seen", 0.0, view.y(toe.value), wide, view.y(toe.value))
    for each in openings:
        middle = view.y((each.up.low.value + each.up.high.value) / 2)
        room = view.size(each.up.high.value - each.up.low.value) - 0.4
        name = words(each.address)
        number_alone = name.rpartition(" ")[2]
        if letters_width(name) <= room:
            canvas.write(wide / 2 + 1.5, middle, name, turned=True)
        elif number_alone.isdigit() and room > 4.5:
            canvas.write(wide / 2, middle + 1.5, number_alone)
    _level_figures(canvas, levels, view, wide)
    canvas.line("cut", -3.0, 0.0, wide + 1.5, 0.0)
    return canvas.finished(
        f"{item.holder}_stick_{number}",
        f"Story stick of {item.heading}, heights {from_zero(item)}",
    )


def from_zero(item: Built) -> str:
    """Where a unit's heights are measured from."""
    return "from the floor" if item.placed.up.value == 0 else "from its underside"


def _level_figures(canvas: Canvas, levels: Sequence[Figure], view: View, wide: float) -> None:
    """Heights beside the stick, each once, pushed apart upwards and tied to its line."""
    once = {level.value: level for level in levels}
    last = 100.0
    for value in sorted(once):
        y = view.y(value)
        place = min(y, last - 4.4)
        last = place
        canvas.line("thin", wide, y, wide + 2.2, place)
        if value == 0:
            canvas.write(wide + 2.9, place + 1.0, "0", "start")
        else:
            canvas.figure(wide + 2.9, place + 1.5, once[value], "start")
