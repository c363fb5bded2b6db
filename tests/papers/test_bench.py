"""The bench's papers: order, graph source, frames and hardware."""

from collections import Counter

import pytest
from syrupy.assertion import SnapshotAssertion

from casewright.compiler.papers.drawings.assembly_graph import assembly_graph, graph_source
from casewright.compiler.papers.drawings.frame_views import frame_views, frames
from casewright.compiler.papers.lists.band_list import band_list
from casewright.compiler.papers.lists.bench_order import bench_order
from casewright.compiler.papers.lists.hardware_list import hardware_csv, hardware_list
from casewright.compiler.papers.names import counted, folded
from casewright.compiler.papers.pages.bench_pages import part_rows, word_step
from casewright.compiler.papers.pieces import Built, built
from tests.papers.sample import galley


def unit(tag: str, framed: bool = False) -> Built:
    return next(item for item in built(galley(framed)) if item.holder == tag)


@pytest.mark.parametrize("framed", [False, True])
@pytest.mark.parametrize("tag", ["S1", "S2", "S3", "U1"])
def test_every_part_comes_in_once_and_is_on_one_row(tag: str, framed: bool) -> None:
    item = unit(tag, framed)
    come = Counter(part.path for step in bench_order(item.unit) for part in step.parts)
    stepped = {way.thing for step in item.unit.steps for way in step.ways}
    wanted = Counter(part.path for part in item.unit.parts if part.path in stepped)
    assert come == wanted
    listed = Counter(part.path for row in part_rows(item, {}) for part in row.parts)
    assert listed == wanted


def test_boxes_are_made_before_they_are_brought() -> None:
    seen: set[str] = set()
    for step in bench_order(unit("S2", framed=True).unit):
        for comings in step.alike:
            assert all(each.part or each.path in seen for each in comings)
        seen.update(step.holders)


def test_equal_boxes_are_built_in_one_set_of_steps() -> None:
    steps = bench_order(unit("S2").unit)
    trays = [step for step in steps if len(step.holders) == 3]
    assert [step.number for step in trays] == [9, 10, 11]
    assert {len(step.parts) for step in trays} == {3, 9}


def test_a_step_reads_as_a_sentence(snapshot: SnapshotAssertion) -> None:
    item = unit("S1", framed=True)
    lines = []
    for step in bench_order(item.unit):
        told = word_step(step, item)
        lines += [f"{told.number} {told.text} ({told.holder})"]
        lines += [f"   {joint}" for joint in told.joints]
    assert "\n".join(lines) == snapshot


def test_the_graph_source(snapshot: SnapshotAssertion) -> None:
    assert graph_source(assembly_graph(unit("S1"))) == snapshot


def test_words_in_the_graph_are_never_source() -> None:
    graph = assembly_graph(unit("S3"))
    source = graph_source(graph)
    assert source.count("->") == len(graph.edges)
    assert {tail for tail, _ in graph.edges} <= {node.name for node in graph.nodes}


def test_a_frame_is_drawn_from_both_sides_with_its_hands() -> None:
    (frame,) = frames(unit("S2", framed=True))
    views = frame_views(galley(framed=True), frame)
    hands = {
        view.name: {letters.text: letters.x for letters in view.letters if "STILE" in letters.text}
        for view in (views.front, views.back)
    }
    front, back = hands[views.front.name], hands[views.back.name]
    assert front["LEFT STILE"] < front["RIGHT STILE"]
    assert back["RIGHT STILE"] < back["LEFT STILE"]
    assert "face down" in views.back.title


def test_a_box_without_a_frame_has_no_frame_sheet() -> None:
    assert frames(unit("S2")) == ()


def test_fasteners_and_slides_are_counted() -> None:
    job = galley()
    counts = {row.title: row.count for row in hardware_list(job)}
    # Two drawer bases of three drawers, two slides each.
    assert counts["side mount slide 22"] == 2 * 3 * 2
    joints = [joint for item in built(job) for joint in item.unit.joints]
    brads = sum(each.count for joint in joints for each in joint.fasteners if "brad" in each.name)
    assert counts["brad 1 1/2"] == brads
    assert hardware_csv(job).startswith("name,length_in,pieces,units\r\n")


def test_every_banded_edge_is_on_the_band_list() -> None:
    job = galley()
    wanted = Counter(
        banding.band.name
        for item in built(job)
        for part in item.unit.parts
        for banding in part.bands
    )
    for group in band_list(job):
        edges = sum(row.count * len(row.edges) for row in group.rows)
        assert edges == wanted[group.band.name]
        length = sum(row.count * edge.length.value for row in group.rows for edge in row.edges)
        assert group.length.value == length


@pytest.mark.parametrize(
    ("addresses", "said"),
    [
        (["left_side"], "left side"),
        (["left_side", "right_side"], "left side, right side"),
        (["drawer_1.back", "drawer_2.back", "drawer_3.back"], "drawer 1 to 3 back"),
        (["shelf_1", "shelf_2", "shelf_4"], "shelf 1, 2, 4"),
        (["floor", "drawer_1.floor"], "floor; drawer 1 floor"),
    ],
)
def test_lists_of_names_are_folded(addresses: list[str], said: str) -> None:
    assert folded(addresses) == said


def test_numbers_inside_names_are_gathered() -> None:
    assert counted(["drawer 1 tray", "drawer 2 tray", "box"]) == ["drawer 1, 2 tray", "box"]
