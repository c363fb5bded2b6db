"""The assembly order of a unit as a graph in three lanes: parts, boxes, unit.

The graph is written as source for graphviz; its engine (in a wheel, no program is called) only
says where boxes and lines lie, and the drawing is our own.
"""

import shlex
from collections.abc import Iterator, Sequence

import graphviz  # type: ignore[import-untyped]
import pygraphviz  # type: ignore[import-untyped]
from attrs import frozen

from casewright.compiler.model import Job
from casewright.compiler.papers.bench_order import BenchStep, bench_order, fastening, holder_words
from casewright.compiler.papers.drawing import WIDEST, Canvas, Drawing, letters_width
from casewright.compiler.papers.figures import printing_of
from casewright.compiler.papers.names import folded, plural, words
from casewright.compiler.papers.pieces import Built
from casewright.lang.measure import INCH

LANES = ("parts", "boxes", "unit")

_BREAKS = ((46.0, 40.0), (46.0, 28.0), (40.0, 24.0), (36.0, 24.0), (36.0, 18.0), (26.0, 16.0))
"""Millimetres in which words of boxes and lines are broken, the first tried first."""

_LINE_HIGH = 4.8
_MARGIN = 4.0
_PER_INCH = float(INCH)


@frozen
class Node:
    """A square-cornered box of the graph: its `title` in bold lines, and a line under it."""

    name: str
    lane: str
    title: tuple[str, ...]
    under: str = ""

    @property
    def lines(self) -> tuple[str, ...]:
        return (*self.title, self.under) if self.under else self.title

    @property
    def width(self) -> float:
        """Millimetres."""
        return max(letters_width(line, bold=True) for line in self.lines) + _MARGIN

    @property
    def height(self) -> float:
        return len(self.lines) * _LINE_HIGH + 1.8


@frozen
class Edge:
    """A line of the graph: its words say the step first, then the joint."""

    tail: str
    head: str
    lines: tuple[str, ...]

    @property
    def width(self) -> float:
        """Millimetres."""
        return max(letters_width(line) for line in self.lines) + 2.0


@frozen
class Graph:
    name: str
    nodes: tuple[Node, ...]
    edges: tuple[Edge, ...]


def assembly_graph(item: Built, widest: float = 40.0, said: float = 30.0) -> Graph:
    """What is joined to what, step by step; equal assemblies are one box. Words are broken into
    lines of at most `widest` millimetres in a box, `said` on a line."""
    steps = bench_order(item.unit)
    nodes: list[Node] = []
    edges: list[Edge] = []
    boxes: dict[str, str] = {}
    whole = f"{item.label} {words(item.unit.title)}"
    for step in steps:
        if step.holders[0] in boxes:
            continue
        name = f"box_{len(boxes) + 1}"
        boxes.update(dict.fromkeys(step.holders, name))
        own = [each for each in steps if each.holders == step.holders]
        numbers = f"{own[0].number} to {own[-1].number}" if len(own) > 1 else str(own[0].number)
        if step.holders == ("",):
            nodes.append(Node(name, "unit", tuple(_wrapped(whole, widest)), numbers))
            continue
        if len(step.holders) > 1:
            numbers += f", {plural(len(step.holders), 'time')}"
        title = holder_words(step.holders, item.unit)
        nodes.append(Node(name, "boxes", tuple(_wrapped(title, widest)), numbers))
    for step in steps:
        head = boxes[step.holders[0]]
        parts = [coming for coming in step.comings if coming.part]
        if parts:
            name = f"parts_{step.number}"
            # The line leads to the box they belong to: its name needn't stand before theirs.
            names = (each.address for comings in step.alike for each in comings if each.part)
            if step.holders != ("",):
                names = (name.rpartition(".")[2] for name in names)
            text = folded(dict.fromkeys(names))
            nodes.append(Node(name, "parts", tuple(_wrapped(text, widest))))
            joints = [joint for each in parts for joint in each.joints]
            edges.append(Edge(name, head, tuple(_wrapped(_said(step, fastening(joints)), said))))
        done: set[str] = set()
        for coming in step.comings:
            tail = boxes.get(coming.path)
            if coming.part is None and tail is not None and tail not in done:
                done.add(tail)
                edges.append(
                    Edge(tail, head, tuple(_wrapped(_said(step, fastening(coming.joints)), said)))
                )
    return Graph(f"{item.holder}_assembly_order", tuple(nodes), tuple(edges))


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
    """The graph as graphviz source. Sizes are inches on paper, as the engine wants them."""
    made = graphviz.Digraph(
        graph.name,
        graph_attr={"rankdir": "LR", "nodesep": "0.06", "ranksep": "0.12", "splines": "polyline"},
        node_attr={"shape": "box", "fixedsize": "true", "label": ""},
        edge_attr={"arrowhead": "none"},
    )
    for lane in LANES:
        with made.subgraph(name=f"cluster_{lane}", graph_attr={"label": ""}) as inner:
            inner.attr(rank="same")
            for node in graph.nodes:
                if node.lane == lane:
                    inner.node(
                        node.name,
                        width=f"{node.width / _PER_INCH:.3f}",
                        height=f"{node.height / _PER_INCH:.3f}",
                        comment=graphviz.escape(" / ".join(node.lines)),
                    )
    for edge in graph.edges:
        # A label of a known size, whatever face the engine thinks of.
        wide, high = (each / _PER_INCH * 72 for each in (edge.width, len(edge.lines) * _LINE_HIGH))
        label = (
            f'<<TABLE BORDER="0" FIXEDSIZE="TRUE" WIDTH="{wide:.0f}" HEIGHT="{high:.0f}">'
            "<TR><TD></TD></TR></TABLE>>"
        )
        made.edge(
            edge.tail, edge.head, label=label, comment=graphviz.escape(" / ".join(edge.lines))
        )
    return str(made.source)


@frozen
class _Placed:
    """What the engine says, in millimetres from the left top corner."""

    width: float
    nodes: dict[str, tuple[float, float, float, float]]
    edges: tuple[tuple[str, str, tuple[tuple[float, float], ...], tuple[float, float] | None], ...]


def _placed(source: str) -> _Placed:
    graph = pygraphviz.AGraph(string=source)
    graph.layout("dot")
    text = graph.draw(format="plain").decode()
    nodes: dict[str, tuple[float, float, float, float]] = {}
    edges = []
    wide = high = 0.0
    for line in text.splitlines():
        cells = shlex.split(line)
        if cells[0] == "graph":
            wide, high = float(cells[2]) * _PER_INCH, float(cells[3])
        elif cells[0] == "node":
            x, y, width, height = (float(each) for each in cells[2:6])
            nodes[cells[1]] = (
                x * _PER_INCH, (high - y) * _PER_INCH, width * _PER_INCH, height * _PER_INCH,
            )  # fmt: skip
        elif cells[0] == "edge":
            count = int(cells[3])
            numbers = [float(each) for each in cells[4 : 4 + 2 * count]]
            points = tuple(
                (x * _PER_INCH, (high - y) * _PER_INCH)
                for x, y in zip(numbers[::2], numbers[1::2], strict=True)
            )
            rest = cells[4 + 2 * count :]
            place = None
            if len(rest) > 2:
                place = (float(rest[-4]) * _PER_INCH, (high - float(rest[-3])) * _PER_INCH)
            edges.append((cells[1], cells[2], points, place))
    return _Placed(wide, nodes, tuple(edges))


def assembly_drawing(job: Job, item: Built) -> Drawing:
    """The graph drawn: lanes with their names, boxes, and lines with step and joint."""
    for widest, said in _BREAKS:
        graph = assembly_graph(item, widest, said)
        placed = _placed(graph_source(graph))
        if placed.width <= WIDEST:
            break
    canvas = Canvas(printing_of(job))
    _lanes(canvas, graph, placed)
    lines_of = {(edge.tail, edge.head): edge.lines for edge in graph.edges}
    for _, _, points, _ in placed.edges:
        _arrow(canvas, points)
    for node in graph.nodes:
        x, y, width, height = placed.nodes[node.name]
        canvas.rectangle("seen", x - width / 2, y - height / 2, width, height, "paper")
        _centred(canvas, (x, y), node.lines, len(node.title))
    for tail, head, _, place in placed.edges:
        if place is not None:
            _centred(canvas, place, lines_of[tail, head])
    return canvas.finished(graph.name, f"Assembly order of {item.label} {words(item.unit.title)}")


def _centred(
    canvas: Canvas, place: tuple[float, float], lines: Sequence[str], bold: int = 0
) -> None:
    """Lines of words about a place, the first `bold` of them in bold."""
    x, y = place
    for index, line in enumerate(lines):
        at = y + 1.5 + (index - (len(lines) - 1) / 2) * _LINE_HIGH
        canvas.write(x, at, line, kind="bold" if index < bold else "")


def _lanes(canvas: Canvas, graph: Graph, placed: _Placed) -> None:
    top = min(y - height / 2 for _, y, _, height in placed.nodes.values()) - 8.0
    bottom = max(y + height / 2 for _, y, _, height in placed.nodes.values()) + 2.0
    for lane in LANES:
        held = [placed.nodes[node.name] for node in graph.nodes if node.lane == lane]
        if not held:
            continue
        left = min(x - width / 2 for x, _, width, _ in held) - 2.0
        right = max(x + width / 2 for x, _, width, _ in held) + 2.0
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
