"""A small picture of each step at the bench: what stands drawn light, what comes in drawn heavy.

Cabinet projection (common practice): the face towards the bench hand true, what recedes at 45
degrees and shortened. The work is turned as it lies on the bench, and so seen.
"""

from collections.abc import Callable, Mapping, Sequence

from attrs import frozen

from casewright.compiler.model import Box, Job, Part
from casewright.compiler.papers.drawings.drawing import Canvas, Drawing, Shape, number
from casewright.compiler.papers.figures import printing_of
from casewright.compiler.papers.lists.bench_order import BenchStep, bench_order
from casewright.compiler.papers.pieces import Built

WIDE, HIGH = 36.5, 30.0
"""The most that a picture takes, in millimetres."""

_BESIDE = 5
_CAPTION = 7.5
_RECEDING = 0.4
_THINNEST = 0.25

Solid = tuple[tuple[float, float], tuple[float, float], tuple[float, float]]
"""A box as it lies: low and high to the right, upwards, and towards whoever looks."""

Span = tuple[float, float]


def _back(span: Span) -> Span:
    return -span[1], -span[0]


_TURNS: Mapping[str, Callable[[Span, Span, Span], Solid]] = {
    "": lambda across, up, deep: (across, up, _back(deep)),
    "bottom": lambda across, up, deep: (across, up, _back(deep)),
    "top": lambda across, up, deep: (_back(across), _back(up), _back(deep)),
    "left": lambda across, up, deep: (_back(up), across, _back(deep)),
    "right": lambda across, up, deep: (up, _back(across), _back(deep)),
    "back": lambda across, up, deep: (across, _back(deep), _back(up)),
    "front": lambda across, up, deep: (across, deep, up),
}
"""For the face that is down: where a box's spans across, up and deep come to lie."""


@frozen
class StepPicture:
    """The picture of a step; `new` are the parts that it brings in by themselves, those of equal
    boxes too, of which one is drawn."""

    number: int
    lies: str
    drawing: Drawing
    new: tuple[Part, ...]


@frozen
class PictureRow:
    """Pictures that stand beside one another."""

    pictures: tuple[StepPicture, ...]

    @property
    def height(self) -> float:
        """Millimetres on paper, with what stands under them."""
        return max(each.drawing.height for each in self.pictures) + _CAPTION


def picture_rows(pictures: Sequence[StepPicture]) -> list[PictureRow]:
    """As many beside one another as a page is wide."""
    return [
        PictureRow(tuple(pictures[at : at + _BESIDE])) for at in range(0, len(pictures), _BESIDE)
    ]


def pattern(item: Built) -> object:
    """Equal for units that are put together alike, whatever their sizes."""
    return tuple(
        (step.number, step.lies, tuple(coming.address for coming in step.comings))
        for step in bench_order(item.unit)
    )


def step_pictures(job: Job, item: Built) -> tuple[StepPicture, ...]:
    """A picture for each step of a unit's work that brings something in."""
    found = []
    standing: dict[tuple[str, ...], list[Part]] = {}
    for step in bench_order(item.unit):
        before = standing.setdefault(step.holders, [])
        new = _brought(step, item.unit.parts)
        if not new:
            continue
        drawing = _drawn(job, item, step, before, new)
        found.append(StepPicture(step.number, step.lies, drawing, step.parts))
        before.extend(new)
    return tuple(found)


def _brought(step: BenchStep, parts: Sequence[Part]) -> list[Part]:
    """All parts that come in with a step, those of boxes too; of equal assemblies the first's."""
    paths = [coming.path for coming in step.comings]
    return [
        part
        for part in parts
        if any(part.path == path or part.path.startswith(f"{path}.") for path in paths)
    ]


def _drawn(
    job: Job, item: Built, step: BenchStep, before: Sequence[Part], new: Sequence[Part]
) -> Drawing:
    solids = [(as_it_lies(part.box, step.lies), "seen") for part in before]
    solids += [(as_it_lies(part.box, step.lies), "pencil") for part in new]
    spans = [
        (min(solid[axis][0] for solid, _ in solids), max(solid[axis][1] for solid, _ in solids))
        for axis in range(3)
    ]
    across, up, deep = (high - low for low, high in spans)
    slant = deep * _RECEDING * 0.5**0.5
    scale = min(WIDE / (across + slant), HIGH / (up + slant))
    canvas = Canvas(printing_of(job))
    for solid, line in far_to_near(solids):
        _box(canvas, solid, f"{line} paper", spans, scale)
    for solid, line in solids:
        if line == "pencil":
            # What stands before it hides some of it: that is dashed.
            _box(canvas, solid, "hidden", spans, scale)
    title = f"Step {step.number} of {item.label}"
    return canvas.finished(f"{item.holder}_step_{step.number}", title)


def as_it_lies(box: Box, lies: str) -> Solid:
    """A box turned so that the face it `lies` on is down; standing where that is empty."""
    across, up, deep = ((float(low), float(high)) for low, high in (box.across, box.up, box.deep))
    return _TURNS[lies](across, up, deep)


def far_to_near(solids: Sequence[tuple[Solid, str]]) -> list[tuple[Solid, str]]:
    """So that each covers what is behind, under or left of it: by the direction in which two are
    furthest apart. Where some cover each other in a ring, the first of them goes first."""
    left = list(range(len(solids)))
    hides = [
        {
            other
            for other in left
            if other != index and _is_before(solids[index][0], solids[other][0])
        }
        for index in left
    ]
    ordered = []
    while left:
        waiting = set(left)
        index = next((each for each in left if not hides[each] & waiting), left[0])
        left.remove(index)
        ordered.append(solids[index])
    return ordered


def _is_before(one: Solid, other: Solid) -> bool:
    """Whether `one` covers `other` where both are seen in one place."""
    gaps = [(one[axis][0] - other[axis][1], True) for axis in range(3)]
    gaps += [(other[axis][0] - one[axis][1], False) for axis in range(3)]
    return max(gaps)[1]


def _box(canvas: Canvas, solid: Solid, line: str, spans: Sequence[Span], scale: float) -> None:
    (left, right), (low, high), (far, near) = solid
    back = (spans[2][1] - near) * _RECEDING * 0.5**0.5
    x, y = (left - spans[0][0] + back) * scale, -(low - spans[1][0] + back) * scale
    wide = max((right - left) * scale, _THINNEST)
    tall = max((high - low) * scale, _THINNEST)
    slant = max((near - far) * _RECEDING * 0.5**0.5 * scale, _THINNEST)
    canvas.reach((x, y), (x + wide + slant, y - tall - slant))
    w, h, s = number(wide), number(tall), number(slant)
    canvas.elements.append(
        Shape(
            f'<path class="{line}" d="M{number(x)} {number(y)}v-{h}l{s}-{s}h{w}v{h}l-{s} {s}z'
            f'm0-{h}h{w}v{h}m0-{h}l{s}-{s}"/>'
        )
    )
