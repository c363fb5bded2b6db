"""A frame drawn for whoever makes it: from the front and face down, LEFT and RIGHT spelt.

Frames are laid out and screwed face down, so that a drawing from the front alone gets them built
mirrored. Which assembly is a frame is said by its role.
"""

from fractions import Fraction

from attrs import evolve, frozen

from casewright.compiler.model import Assembly, Job, Part
from casewright.compiler.papers.drawings import chains
from casewright.compiler.papers.drawings.chains import Link
from casewright.compiler.papers.drawings.drawing import (
    WIDEST,
    Canvas,
    Drawing,
    Letters,
    View,
    fitted,
    letters_width,
    scales,
)
from casewright.compiler.papers.drawings.marks import triangle
from casewright.compiler.papers.drawings.seen import edge_figure
from casewright.compiler.papers.drawings.unit_views import VIEW_WIDE
from casewright.compiler.papers.figures import Figure, difference, figure, printing_of
from casewright.compiler.papers.names import words
from casewright.compiler.papers.pieces import Built
from casewright.compiler.rooms.around import turned_to
from casewright.lang.measure import INCH

TALLEST = 96.0
"""What a view may take in height, in millimetres, so that stick and list have room."""


@frozen
class Frame:
    """A frame of one unit: its uprights from left to right, and what lies between them."""

    item: Built
    assembly: Assembly
    stiles: tuple[Part, ...]
    rails: tuple[Part, ...]

    @property
    def parts(self) -> tuple[Part, ...]:
        return (*self.stiles, *self.rails)

    @property
    def title(self) -> str:
        return f"{self.item.label} {words(self.assembly.address)}"

    @property
    def width(self) -> Figure:
        return _size(self, "across")

    @property
    def height(self) -> Figure:
        return _size(self, "up")


def _size(frame: Frame, axis: str) -> Figure:
    extent = frame.assembly.extents.across if axis == "across" else frame.assembly.extents.up
    value = extent.high.value - extent.low.value
    address = f"{frame.item.holder}.{frame.assembly.address}.{axis}"
    return Figure(value, frame.item.unit.width.dimension, address)


def frames(item: Built) -> tuple[Frame, ...]:
    """The frames of a unit: assemblies with the role `frame`, each as seen before its mouth."""
    found = []
    for standing in item.unit.assemblies:
        if standing.role != "frame":
            continue
        seen = item
        if standing.faces != "front":
            seen = evolve(item, unit=turned_to(item.unit, standing.faces))
        parts = {part.path: part for part in seen.unit.parts}
        assembly = next(each for each in seen.unit.assemblies if each.path == standing.path)
        held = [
            part
            for path, part in parts.items()
            if path in assembly.parts or path.startswith(assembly.path + ".")
        ]
        stiles = sorted((each for each in held if each.length_axis == "up"), key=_from_left)
        rails = sorted(
            (each for each in held if each.length_axis != "up"), key=lambda each: -each.box.up[0]
        )
        found.append(Frame(seen, assembly, tuple(stiles), tuple(rails)))
    return tuple(found)


def _from_left(part: Part) -> Fraction:
    return part.box.across[0]


@frozen
class FrameViews:
    """The drawings of a frame; the two views are to one scale."""

    scale: int
    front: Drawing
    back: Drawing
    stick: Drawing
    triangles: tuple[Drawing, ...]


def frame_views(job: Job, frame: Frame, high: float = TALLEST) -> FrameViews:
    """The views of a frame at the largest scale at which each is at most 92 mm wide, and drawn
    `high` millimetres high at most."""
    for scale in scales(job.system, 8):
        front, back = (_view(job, frame, scale, face_down) for face_down in (False, True))
        tallest = max(front.height, back.height)
        if max(front.width, back.width) <= VIEW_WIDE and tallest <= min(high, TALLEST):
            break
    return FrameViews(scale, front, back, _stick(job, frame), _triangles(job, frame))


def _view(job: Job, frame: Frame, scale: int, face_down: bool) -> Drawing:
    canvas = Canvas(printing_of(job))
    left, right = (frame.assembly.extents.box.across[end] for end in (0, 1))
    low, high = frame.assembly.extents.box.up
    view = View(0.0, 0.0, scale)
    turned_parts = {part.path: _turned(part, left, right, face_down) for part in frame.parts}
    for part in frame.parts:
        at, to = turned_parts[part.path]
        canvas.rectangle(
            "seen", view.x(at), view.y(part.box.up[1] - low), view.size(to - at),
            view.size(part.box.up[1] - part.box.up[0]), "paper",
        )  # fmt: skip
    width, height = view.size(right - left), view.size(high - low)
    _stile_words(canvas, frame, width, height, face_down)
    for part in frame.rails:
        at, to = turned_parts[part.path]
        middle = view.x(at) + view.size(to - at) / 2
        name = fitted(words(part.address.rpartition(".")[2]), view.size(to - at) - 1)
        under, over = view.y(part.box.up[0] - low) + 4.4, view.y(part.box.up[1] - low) - 1.2
        places: tuple[float, ...] = (over, under)
        if part is frame.rails[0]:
            places = (under, over)
        elif part is frame.rails[-1]:
            # Under the lowest stands the chain.
            places = (over,)
        canvas.letters(canvas.freest([Letters(middle, y, name) for y in places]))
    if face_down:
        for part in frame.rails:
            _screws(canvas, frame, part, view, turned_parts[part.path], low, face_down)
    _view_chains(canvas, frame, view, face_down)
    which = "face down, seen from the back" if face_down else "seen from the front"
    stem = "back" if face_down else "front"
    name = f"{frame.item.holder}_{frame.assembly.address.replace('.', '_')}_{stem}"
    return canvas.finished(name, f"{frame.title}, {which}")


def _turned(
    part: Part, left: Fraction, right: Fraction, face_down: bool
) -> tuple[Fraction, Fraction]:
    """Where a part lies from the left of the view; face down, left and right change places."""
    low, high = part.box.across
    return (right - high, right - low) if face_down else (low - left, high - left)


def _stile_words(
    canvas: Canvas, frame: Frame, width: float, height: float, face_down: bool
) -> None:
    """LEFT and RIGHT beside the outer stiles: a stile is narrower than its letters."""
    hands = ("RIGHT", "LEFT") if face_down else ("LEFT", "RIGHT")
    for hand, x in zip(hands, (-1.6, width + 4.2), strict=True):
        canvas.write(x, -height / 2, f"{hand} STILE", kind="bold", turned=True)


def _screws(
    canvas: Canvas, frame: Frame, part: Part, view: View, across: tuple[Fraction, Fraction],
    low: Fraction, face_down: bool,
) -> None:  # fmt: skip
    """A short black mark for each fastener that holds an end of a rail: it is driven from this
    face."""
    top, bottom = view.y(part.box.up[1] - low), view.y(part.box.up[0] - low)
    for joint in frame.item.unit.joints:
        if joint.axis != "across" or part.path not in (joint.first, joint.second):
            continue
        to_right = (joint.side > 0) == (joint.first == part.path)
        at_right = to_right != face_down
        count = sum(each.count for each in joint.fasteners if each.use == "hold")
        for index in range(count):
            y = top + (bottom - top) * (index + 0.5) / count
            x = view.x(across[1]) - 4.0 if at_right else view.x(across[0]) + 1.0
            canvas.rectangle("solid", x, y - 0.4, 3.0, 0.8)


def _view_chains(canvas: Canvas, frame: Frame, view: View, face_down: bool) -> None:
    left, right = frame.assembly.extents.box.across
    places = [0.0]
    links: list[Link] = []
    at = Fraction(0)
    stiles = frame.stiles[::-1] if face_down else frame.stiles
    for part in stiles:
        low, high = _turned(part, left, right, face_down)
        if low > at:
            between = _between(frame, low - at, part)
            links.append(Link(between))
            places.append(view.x(low))
        links.append(Link(figure(part.width, f"{frame.item.holder}.{part.address}.width")))
        places.append(view.x(high))
        at = high
    whole = Link(frame.width)
    if links:
        chains.across(canvas, places, links, 7.0, whole)
    top = -view.size(frame.height.value)
    chains.upright(canvas, [0.0, top], [Link(frame.height)], -10.5)


def _between(frame: Frame, value: Fraction, after: Part) -> Figure:
    """The clear width between two stiles: a rail's length where a rail fills it."""
    for rail in frame.rails:
        if rail.length.value == value:
            return figure(rail.length, f"{frame.item.holder}.{rail.address}.length")
    return Figure(value, after.width.dimension, f"{frame.item.holder}.{after.address}.before")


def _stick(job: Job, frame: Frame) -> Drawing:
    """The story stick of the stiles, lying, 0 at the bottom end: members grey, openings white."""
    canvas = Canvas(printing_of(job))
    low = frame.assembly.extents.up.low
    height = frame.height.value
    room = WIDEST - 24.0
    scale = next(
        (each for each in scales(job.system, 1) if float(height * INCH / each) <= room), 192
    )
    view = View(0.0, 0.0, scale)
    levels: dict[Fraction, Figure] = {}
    canvas.rectangle("seen", 0.0, 0.0, view.size(height), 8.0)
    base = figure(low, f"{frame.item.holder}.{frame.assembly.address}.bottom")
    for part in frame.rails:
        start, end = (each - low.value for each in part.box.up)
        canvas.rectangle("seen", view.x(start), 0.0, view.size(end - start), 8.0, "tint")
        for edge, side, value in (("bottom", -1, start), ("top", 1, end)):
            place = edge_figure(frame.item, part, edge, "up", side)
            address = f"{frame.item.holder}.{part.address}.{edge}_on_stick"
            levels.setdefault(value, difference(place, base, address))
    levels[height] = frame.height
    levels.pop(Fraction(0), None)
    canvas.write(0.0, -1.5, "0")
    ends = [letters_width("0") / 2 + 1.0, -100.0]
    for index, value in enumerate(sorted(levels)):
        # Above and below in turn, so that near figures stand clear of each other.
        row = (index + 1) % 2
        x = max(view.x(value), ends[row] + 6.5)
        y = -1.5 if row == 0 else 12.6
        canvas.line("thin", view.x(value), 0.0 if row == 0 else 8.0, x, -1.0 if row == 0 else 9.2)
        canvas.figure(x, y, levels[value])
        ends[row] = x + 6.5
    canvas.write(-1.5, 5.4, "bottom end", "end", "grey")
    canvas.write(view.size(height) + 1.5, 5.4, "top", "start", "grey")
    name = f"{frame.item.holder}_{frame.assembly.address.replace('.', '_')}_stick"
    return canvas.finished(name, f"Story stick of the stiles of {frame.title}, laid along them")


def _triangles(job: Job, frame: Frame) -> tuple[Drawing, ...]:
    """Stiles laid together, and rails laid together: the pieces of the triangle join into one."""
    found = []
    for kind, held in (("stiles", frame.stiles), ("rails", frame.rails)):
        if len(held) < 2:
            continue
        canvas = Canvas(printing_of(job))
        rows = [8.0] * len(held)
        triangle(canvas, 0.0, 0.0, 48.0, rows)
        for index, part in enumerate(held):
            name = fitted(words(part.address.rpartition(".")[2]), 36.0)
            canvas.write(50.5, index * 8.0 + 5.5, name, "start")
        name = f"{frame.item.holder}_{frame.assembly.address.replace('.', '_')}_{kind}"
        found.append(
            canvas.finished(
                name,
                f"Triangle over the {kind} of {frame.title}",
                (f"{kind.capitalize()} laid together, faces up: draw one triangle over all.",),
            )
        )
    return tuple(found)


@frozen
class FrameRow:
    """Equal pieces of a frame, for its list."""

    parts: tuple[Part, ...]
    width: Figure
    length: Figure

    @property
    def names(self) -> str:
        return ", ".join(words(part.address.rpartition(".")[2]) for part in self.parts)


def frame_rows(frame: Frame) -> tuple[FrameRow, ...]:
    """The pieces of a frame, equal ones together."""
    groups: dict[tuple[Fraction, Fraction], list[Part]] = {}
    for part in frame.parts:
        groups.setdefault((part.width.value, part.length.value), []).append(part)
    return tuple(
        FrameRow(
            tuple(parts),
            figure(parts[0].width, f"{frame.item.holder}.{parts[0].address}.width"),
            figure(parts[0].length, f"{frame.item.holder}.{parts[0].address}.length"),
        )
        for parts in groups.values()
    )
