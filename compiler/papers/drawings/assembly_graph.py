"""The assembly order of a unit as a graph in three lanes: parts, boxes, unit.

The graph is written as source for graphviz; its engine (in a wheel, no program is called) only
says where boxes and lines lie, and the drawing is our own.
"""

import shlex
from collections.abc import Callable, Iterator, Mapping, Sequence

import graphviz  # type: ignore[import-untyped]
import pygraphviz  # type: ignore[import-untyped]
from attrs import evolve, frozen

from casewright.compiler.model import Job
from casewright.compiler.papers.drawings.drawing import (
    WIDEST,
    Anchor,
    Canvas,
    Drawing,
    letters_width,
)
from casewright.compiler.papers.figures import printing_of
from casewright.compiler.papers.lists.bench_order import (
    BenchStep,
    Coming,
    bench_order,
    fastening,
    holder_words,
)
from casewright.compiler.papers.names import folded, plural, words
from casewright.compiler.papers.pieces import Built
from casewright.lang.measure import INCH

SHARED = "parts and boxes"
LANES = ("parts", SHARED, "boxes", "unit")

_LINE_HIGH = 4.8
_LANE_HEAD = 14.0
_NODE_GAP = 2.6
_MARGIN = 4.0
_PER_INCH = float(INCH)


@frozen
class Node:
    """A square-cornered box of the graph: its `title` in bold lines, lines under it, and what is
    written on the line that leaves it: the step first, then the joint."""

    name: str
    lane: str
    title: tuple[str, ...]
    under: tuple[str, ...] = ()
    said: tuple[str, ...] = ()

    @property
    def lines(self) -> tuple[str, ...]:
        return (*self.title, *self.under)

    @property
    def width(self) -> float:
        """Millimetres."""
        return max(letters_width(line, bold=True) for line in self.lines) + _MARGIN

    @property
    def height(self) -> float:
        return max(len(self.lines), len(self.said)) * _LINE_HIGH + 1.8

    @property
    def said_width(self) -> float:
        """What the words on its line take, in millimetres."""
        return max((letters_width(line) + 2.4 for line in self.said), default=0.0)


@frozen
class Graph:
    """Boxes, and lines from a box to the box it goes into."""

    name: str
    nodes: tuple[Node, ...]
    edges: tuple[tuple[str, str], ...]

    def column(self, lane: str) -> tuple[float, float]:
        """Millimetres kept in a lane for its boxes, all as wide as the widest, and for the words
        on their lines."""
        held = [node for node in self.nodes if node.lane == lane]
        return max(node.width for node in held), max(node.said_width for node in held)


@frozen
class Breaks:
    """Millimetres in which words are broken into lines: of parts, on their lines, of boxes, on
    theirs."""

    parts: float = 50.0
    parts_said: float = 37.0
    boxes: float = 26.0
    boxes_said: float = 24.0


def assembly_graph(item: Built, breaks: Breaks | None = None) -> Graph:
    """What is joined to what, step by step; equal assemblies are one box."""
    breaks = breaks or Breaks()
    widest, said = breaks.parts, breaks.parts_said
    steps = bench_order(item.unit)
    into = _into(steps)
    boxes: dict[tuple[str, ...], str] = {}
    for holders in dict.fromkeys(step.holders for step in steps):
        if holders == ("",) or into.get(holders) == ("",):
            boxes[holders] = f"box_{len(boxes) + 1}"
    nodes: list[Node] = []
    edges: list[tuple[str, str]] = []
    for step in steps:
        if step.holders not in boxes:
            continue
        parts = [coming for coming in step.comings if coming.part]
        inner = [
            holders
            for holders in dict.fromkeys(_holders(steps, coming) for coming in step.comings)
            if holders and holders not in boxes
        ]
        if parts:
            # The line leads to the box they belong to: its name needn't stand before theirs.
            names = (each.address for comings in step.alike for each in comings if each.part)
            if step.holders != ("",):
                names = (name.rpartition(".")[2] for name in names)
            joints = [joint for each in parts for joint in each.joints]
            nodes.append(
                Node(
                    f"parts_{step.number}",
                    "parts",
                    tuple(_wrapped(folded(dict.fromkeys(names)), widest)),
                    (),
                    tuple(_wrapped(_said(step, fastening(joints)), said)),
                )
            )
            edges.append((f"parts_{step.number}", boxes[step.holders]))
        for number, holders in enumerate(inner, 1):
            # A box inside a box is told in the list of steps; here it comes in as one part.
            title = tuple(_wrapped(holder_words(holders, item.unit), widest))
            joints = [
                joint for each in step.comings if each.path in holders for joint in each.joints
            ]
            nodes.append(
                Node(
                    f"parts_{step.number}_{number}",
                    "parts",
                    title,
                    (_numbers(steps, holders),),
                    tuple(_wrapped(_said(step, fastening(joints)), said)),
                )
            )
            edges.append((f"parts_{step.number}_{number}", boxes[step.holders]))
    for holders, name in boxes.items():
        title_words = holder_words(holders, item.unit)
        under = [_numbers(steps, holders)]
        if len(holders) > 1:
            under.append(plural(len(holders), "time"))
        on_line: tuple[str, ...] = ()
        if holders == ("",):
            title_words = f"{item.label} {title_words}"
        else:
            brought = next(
                step for step in steps if any(each.path in holders for each in step.comings)
            )
            joints = [
                joint for each in brought.comings if each.path in holders for joint in each.joints
            ]
            on_line = tuple(_wrapped(_said(brought, fastening(joints)), breaks.boxes_said))
            edges.append((name, boxes[brought.holders]))
        lane = "unit" if holders == ("",) else "boxes"
        nodes.append(
            Node(name, lane, tuple(_wrapped(title_words, breaks.boxes)), tuple(under), on_line)
        )
    return Graph(f"{item.holder}_assembly_order", tuple(nodes), tuple(edges))


def _into(steps: Sequence[BenchStep]) -> dict[tuple[str, ...], tuple[str, ...]]:
    """For equal assemblies, what they go into."""
    return {
        holders: step.holders
        for step in steps
        for coming in step.comings
        for holders in [_holders(steps, coming)]
        if holders
    }


def _holders(steps: Sequence[BenchStep], coming: Coming) -> tuple[str, ...]:
    return next((step.holders for step in steps if coming.path in step.holders), ())


def _numbers(steps: Sequence[BenchStep], holders: tuple[str, ...]) -> str:
    own = [step.number for step in steps if step.holders == holders]
    return f"{own[0]} to {own[-1]}" if len(own) > 1 else str(own[0])


def _said(step: BenchStep, joint: str) -> str:
    if not joint and step.step.number == 1 and step.step.lies:
        joint = "laid down"
    return f"{step.number} {joint}".rstrip()


def _wrapped(text: str, widest: float) -> Iterator[str]:
    line = ""
    for word in text.split():
        if line and letters_width(f"{line} {word}", bold=True) > widest:
            yield line
            line = word
        else:
            line = f"{line} {word}".lstrip()
    yield line


def graph_source(graph: Graph) -> str:
    """The graph as graphviz source. Sizes are inches on paper, as the engine wants them; a node
    is as wide as its box and the words on its line."""
    made = graphviz.Digraph(
        graph.name,
        graph_attr={"rankdir": "LR", "nodesep": "0.06", "ranksep": "0.3", "splines": "polyline"},
        node_attr={"shape": "box", "fixedsize": "true", "label": ""},
        edge_attr={"arrowhead": "none", "tailport": "e", "headport": "w"},
    )
    for lane in (each for each in LANES if any(node.lane == each for node in graph.nodes)):
        with made.subgraph(
            name=f"cluster_{lane}", graph_attr={"label": "", "margin": "2"}
        ) as inner:
            for node in graph.nodes:
                if node.lane == lane:
                    inner.node(
                        node.name,
                        width=f"{sum(graph.column(lane)) / _PER_INCH:.3f}",
                        height=f"{node.height / _PER_INCH:.3f}",
                        comment=graphviz.escape(" / ".join(node.lines)),
                    )
    words_on = {node.name: " ".join(node.said) for node in graph.nodes}
    for tail, head in graph.edges:
        made.edge(tail, head, comment=graphviz.escape(words_on[tail]))
    return str(made.source)


_BREAKS = (
    Breaks(46.0, 60.0, 40.0, 60.0),
    Breaks(44.0, 40.0, 34.0, 30.0),
    Breaks(),
    Breaks(42.0, 32.0, 26.0, 22.0),
    Breaks(36.0, 28.0, 26.0, 20.0),
    Breaks(30.0, 24.0, 26.0, 20.0),
)
"""Tried in this order: the narrower, the higher."""

Place = tuple[float, float]


@frozen
class _Placed:
    """What the engine says, in millimetres from the left top corner: a node by its left edge,
    middle, width and height."""

    width: float
    nodes: dict[str, tuple[float, float, float, float]]
    lines: tuple[tuple[Place, ...], ...]


def _placed(source: str) -> _Placed:
    graph = pygraphviz.AGraph(string=source)
    graph.layout("dot")
    text = graph.draw(format="plain").decode()
    nodes: dict[str, tuple[float, float, float, float]] = {}
    lines = []
    wide = high = 0.0
    for line in text.splitlines():
        cells = shlex.split(line)
        if cells[0] == "graph":
            wide, high = float(cells[2]) * _PER_INCH, float(cells[3])
        elif cells[0] == "node":
            x, y, width, height = (float(each) for each in cells[2:6])
            nodes[cells[1]] = (
                (x - width / 2) * _PER_INCH, (high - y) * _PER_INCH,
                width * _PER_INCH, height * _PER_INCH,
            )  # fmt: skip
        elif cells[0] == "edge":
            count = int(cells[3])
            numbers = [float(each) for each in cells[4 : 4 + 2 * count]]
            lines.append(
                tuple(
                    (x * _PER_INCH, (high - y) * _PER_INCH)
                    for x, y in zip(numbers[::2], numbers[1::2], strict=True)
                )
            )
    return _Placed(wide, nodes, tuple(lines))


def assembly_drawings(job: Job, item: Built, high: float) -> tuple[Drawing, ...]:
    """The graph drawn: lanes with their names, boxes, and lines with step and joint. One that is
    more than `high` millimetres high is told in several drawings: what goes into each box, then
    what goes into the unit."""
    whole = _fitting(item, lambda graph: (graph,))
    drawn = tuple(_drawn(job, item, graph, placed) for graph, placed in whole)
    if all(drawing.height <= high for drawing in drawn):
        return drawn
    return tuple(
        _drawn(job, item, graph, placed)
        for graph, placed in _fitting(item, lambda graph: parted(graph, high - _LANE_HEAD))
    )


def _fitting(item: Built, cut: Callable[[Graph], tuple[Graph, ...]]) -> list[tuple[Graph, _Placed]]:
    """The graph with the widest lines of words at which all that it is `cut` into fits a page."""
    for breaks in _BREAKS:
        graphs = [
            (graph, _placed(graph_source(graph))) for graph in cut(assembly_graph(item, breaks))
        ]
        if all(placed.width <= WIDEST - 6.0 for _, placed in graphs):
            break
    return graphs


def parted(graph: Graph, high: float) -> tuple[Graph, ...]:
    """The graph in pieces at most `high` millimetres high as far as one box's lines allow: each
    line once, boxes before the unit they go into."""
    nodes = {node.name: node for node in graph.nodes}

    def deep(edges: Sequence[tuple[str, str]]) -> float:
        """What lines take with the boxes at both their ends."""
        tails = sum(nodes[tail].height + _NODE_GAP for tail, _ in edges)
        heads = dict.fromkeys(head for _, head in edges)
        return max(tails, sum(nodes[head].height + _NODE_GAP for head in heads))

    pieces: list[list[tuple[str, str]]] = []
    for lane in ("boxes", "unit"):
        pieces.append([])
        for head in (node.name for node in graph.nodes if node.lane == lane):
            into = [edge for edge in graph.edges if edge[1] == head]
            if deep([*pieces[-1], *into]) > high and deep(into) <= high:
                pieces.append([])
            for edge in into:
                if deep([*pieces[-1], edge]) > high:
                    pieces.append([])
                pieces[-1].append(edge)
    held = [edges for edges in pieces if edges]
    return tuple(_piece(graph, nodes, edges, index) for index, edges in enumerate(held, 1))


def _piece(
    graph: Graph, nodes: Mapping[str, Node], edges: Sequence[tuple[str, str]], index: int
) -> Graph:
    """A graph of some lines. A box whose own line isn't among them has no words on it; where boxes
    and parts go into one thing they share a lane."""
    tails = dict.fromkeys(tail for tail, _ in edges)
    heads = dict.fromkeys(head for _, head in edges)
    lanes = {nodes[tail].lane for tail in tails}
    lane = lanes.pop() if len(lanes) == 1 else SHARED
    return Graph(
        f"{graph.name}_{index}",
        (
            *(evolve(nodes[tail], lane=lane) for tail in tails),
            *(evolve(nodes[head], said=()) for head in heads),
        ),
        tuple(edges),
    )


def _drawn(job: Job, item: Built, graph: Graph, placed: _Placed) -> Drawing:
    canvas = Canvas(printing_of(job))
    _lanes(canvas, graph, placed)
    for points in placed.lines:
        _arrow(canvas, points)
    for node in graph.nodes:
        left, y, _, height = placed.nodes[node.name]
        width, _ = graph.column(node.lane)
        canvas.rectangle("seen", left, y - height / 2, width, height, "paper")
        _lines(canvas, left + width / 2, y, node.lines, "middle", len(node.title))
        _lines(canvas, left + width + 1.2, y, node.said, "start")
        if node.said:
            end = left + sum(graph.column(node.lane))
            canvas.line("seen", min(left + width + node.said_width, end), y, end, y)
    return canvas.finished(graph.name, f"Assembly order of {item.label} {words(item.unit.title)}")


def _lines(
    canvas: Canvas, x: float, y: float, lines: Sequence[str], anchor: Anchor, bold: int = 0
) -> None:
    """Lines of words about a height, the first `bold` of them in bold."""
    for index, line in enumerate(lines):
        at = y + 1.5 + (index - (len(lines) - 1) / 2) * _LINE_HIGH
        canvas.write(x, at, line, anchor, "bold" if index < bold else "")


def _lanes(canvas: Canvas, graph: Graph, placed: _Placed) -> None:
    top = min(y - height / 2 for _, y, _, height in placed.nodes.values()) - 8.0
    bottom = max(y + height / 2 for _, y, _, height in placed.nodes.values()) + 2.0
    for lane in LANES:
        held = [node for node in graph.nodes if node.lane == lane]
        if not held:
            continue
        left = min(placed.nodes[node.name][0] for node in held) - 2.0
        right = max(placed.nodes[node.name][0] for node in held) + sum(graph.column(lane)) + 2.0
        canvas.rectangle("thin", left, top, right - left, bottom - top)
        canvas.write(left + 2.0, top + 5.0, lane, "start", "bold")


def _arrow(canvas: Canvas, points: Sequence[tuple[float, float]]) -> None:
    """A line through the engine's points (a spline whose control points lie on the line, as
    polylines have them) with an open head."""
    kept = [points[0], *points[3::3]]
    canvas.polyline("seen", kept)
    (x1, y1), (x2, y2) = kept[-2], kept[-1]
    length = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5 or 1.0
    dx, dy = (x2 - x1) / length, (y2 - y1) / length
    for turn in (1, -1):
        canvas.line(
            "seen", x2, y2, x2 - 2.4 * dx + turn * 1.1 * dy, y2 - 2.4 * dy - turn * 1.1 * dx
        )
