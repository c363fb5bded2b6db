"""What touches, what overlaps, and what is joined to nothing."""

from fractions import Fraction

from casewright.compiler.blame import bind
from casewright.compiler.joints.contact import make_contacts
from casewright.lang.source import Origin, Own, Source, Span
from tests.compiler.handmade import assembly, box, join, part
from tests.joints.boards import BACK, FLOOR, LEFT, RIGHT, contacts, figures, slugs


def test_a_floor_touches_both_sides() -> None:
    _, joints, found = contacts(
        LEFT, RIGHT, FLOOR, wishes=(join("floor", "to", "left_side right_side"),)
    )
    assert found == []
    assert [(each.second, each.kind, each.axis, each.side) for each in joints] == [
        ("left_side", "butt", "across", -1),
        ("right_side", "butt", "across", 1),
    ]
    assert joints[0].area == box(("3/4", "3/4"), (0, "3/4"), (0, 20))
    assert joints[0].origin == Own(100)


def test_a_gap_is_reported_with_its_figures() -> None:
    short = part("floor", ("13/16", "23 1/4"), (0, "3/4"), (0, 20), line=3)
    _, _, blames = make_contacts(
        (LEFT, RIGHT, short), (), (join("floor", "to", "left_side right_side"),)
    )
    assert slugs(blames) == ["joint-does-not-touch"]
    assert blames[0].finding.headline == "floor does not touch left_side"
    assert figures(blames[0]) == [
        ("floor.left", Fraction(13, 16)),
        ("less left_side.right", Fraction(3, 4)),
        ("gap", Fraction(1, 16)),
    ]
    assert blames[0].origin == Own(100)
    assert blames[0].labels == ((Own(3), "floor"), (Own(1), "left_side"))


def test_meeting_in_an_edge_is_not_touching() -> None:
    _, _, found = contacts(
        LEFT,
        part("rail", ("3/4", 20), (0, 2), (20, 21)),
        wishes=(join("rail", "to", "left_side"),),
    )
    assert found == ["joint-does-not-touch"]


def test_every_pair_of_a_list_must_touch_but_only_one_part_of_an_assembly() -> None:
    frame = (
        part("frame.left_stile", (0, 2), (0, 30), (-1, 0)),
        part("frame.right_stile", (22, 24), (0, 30), (-1, 0)),
        part("frame.rail", (2, 22), (0, 2), (-1, 0)),
    )
    parts = (LEFT, RIGHT, FLOOR, *frame)
    assemblies = (assembly("", parts, ["frame"]), assembly("frame", parts))
    inner = (
        join("frame.rail", "to", "frame.left_stile frame.right_stile"),
        join("floor", "to", "left_side right_side"),
    )
    _, joints, blames = make_contacts(
        parts, assemblies, (*inner, join("frame", "to", "left_side floor"))
    )
    assert blames == ()
    assert {(each.first, each.second) for each in joints[4:]} == {
        ("frame.left_stile", "left_side"),
        ("frame.left_stile", "floor"),
        ("frame.rail", "floor"),
        ("frame.right_stile", "floor"),
    }
    _, _, blames = make_contacts(
        parts,
        assemblies,
        (*inner, join("frame", "to", "floor"), join("frame.left_stile", "to", "right_side")),
    )
    assert slugs(blames) == ["joint-does-not-touch"]


def test_a_loose_part_is_named() -> None:
    _, _, blames = make_contacts(
        (LEFT, RIGHT, FLOOR, BACK), (), (join("floor", "to", "left_side right_side"),)
    )
    assert "part-loose" in slugs(blames)
    loose = blames[slugs(blames).index("part-loose")]
    assert loose.finding.headline == "back_panel is joined to nothing else in the unit"
    assert loose.origin == Own(5)


def test_a_loose_group_is_one_report() -> None:
    far = part("far", (40, 41), (0, 9), (0, 9), line=8)
    farther = part("farther", (41, 42), (0, 9), (0, 9), line=9)
    joins = (join("floor", "to", "left_side right_side"), join("far", "to", "farther"))
    _, _, blames = make_contacts((LEFT, RIGHT, FLOOR, far, farther), (), joins)
    assert [each.finding.headline for each in blames] == [
        "far, farther are joined to nothing else in the unit"
    ]


def test_a_join_that_fails_is_one_report() -> None:
    far = part("far", (40, 41), (0, 9), (0, 9))
    joins = (join("floor", "to", "left_side right_side"), join("far", "to", "right_side"))
    assert contacts(LEFT, RIGHT, FLOOR, far, wishes=joins)[2] == ["joint-does-not-touch"]


def test_one_part_alone_is_not_loose() -> None:
    assert contacts(LEFT)[2] == []


def test_a_blame_is_bound_to_the_lines_of_one_placing() -> None:
    source = Source("kitchen.case", "a\nb\nc\nd\ne\nf\n")

    def span_of(origin: Origin) -> Span | None:
        if isinstance(origin, Span):
            return origin
        return Span(source, 2 * origin.index, 2 * origin.index + 1) if origin.index < 6 else None

    short = part("floor", (1, 20), (0, "3/4"), (0, 20), line=3)
    _, _, (blame,) = make_contacts((LEFT, short), (), (join("floor", "to", "left_side", line=4),))
    assert blame.finding.span is None
    finding = bind(blame, span_of)
    assert finding.span is not None
    assert finding.span.line == 5
    assert [label.span.line for label in finding.labels] == [4, 2]
    assert [figure.span and figure.span.line for figure in finding.figures] == [4, 2, None]
