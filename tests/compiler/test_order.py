"""The way in of every part, and room for every fastener."""

from casewright.compiler.blame import Blame
from casewright.compiler.contact import make_contacts
from casewright.compiler.model import Assembly, Order, Part, Step, Wish
from casewright.compiler.order import prove_order
from tests.compiler.handmade import assembly, box, fixing, join, part, step


def prove(
    parts: tuple[Part, ...],
    wishes: tuple[Wish, ...],
    *orders: Order,
    assemblies: tuple[Assembly, ...] = (),
) -> tuple[tuple[Step, ...], tuple[Blame, ...]]:
    """The steps of parts whose joins are sound."""
    grooved, joints, blames = make_contacts(parts, assemblies, wishes)
    assert [blame.finding.headline for blame in blames] == []
    return prove_order(grooved, assemblies, joints, orders)


def slugs(blames: tuple[Blame, ...]) -> list[str]:
    return [blame.finding.slug for blame in blames]


def ways(steps: tuple[Step, ...]) -> dict[str, tuple[str, int]]:
    return {way.thing: (way.axis, way.side) for each in steps for way in each.ways}


# A box 24 wide, 30 high, 20 deep, its back let 3/8 into grooves of all four walls.
WALLED = (
    part("left_side", (0, "3/4"), (0, 30), (0, 20), line=1),
    part("right_side", ("23 1/4", 24), (0, 30), (0, 20), line=2),
    part("floor", ("3/4", "23 1/4"), (0, "3/4"), (0, 20), line=3),
    part("cap", ("3/4", "23 1/4"), ("29 1/4", 30), (0, 20), line=4),
    part("back_panel", ("3/8", "23 5/8"), ("3/8", "29 5/8"), (19, "19 1/4"), line=5),
)
WALLED_JOINS = (
    join("floor cap", "to", "left_side right_side"),
    join("back_panel", "into", "left_side right_side floor cap", play="1/32"),
)


def test_a_panel_after_four_walls_has_no_way_in() -> None:
    steps, blames = prove(
        WALLED, WALLED_JOINS, step("left_side floor cap right_side"), step("back_panel", line=201)
    )
    assert slugs(blames) == ["no-way-in"]
    (blame,) = blames
    assert blame.finding.headline == (
        "back_panel has no way in past cap, left_side, right_side, floor"
    )
    assert [(figure.words, figure.note) for figure in blame.finding.figures] == [
        ("from above", "cap"),
        ("from the front", "left_side"),
        ("from the left", "left_side"),
        ("from the right", "right_side"),
        ("from the back", "left_side"),
        ("from below", "floor"),
    ]
    assert len(steps) == 2


def test_a_panel_before_the_fourth_wall_slides_in() -> None:
    steps, blames = prove(
        WALLED,
        WALLED_JOINS,
        step("left_side", lies="left"),
        step("floor cap"),
        step("back_panel"),
        step("right_side"),
    )
    assert blames == ()
    assert ways(steps)["back_panel"] == ("across", 1)
    assert ways(steps)["right_side"] == ("across", 1)
    assert ways(steps)["left_side"] == ("", 0)
    assert [each.number for each in steps] == [1, 2, 3, 4]


def test_a_captured_back_open_below_slides_up_but_not_in_from_the_front() -> None:
    parts = (
        *WALLED[:2],
        WALLED[3],
        part("back_panel", ("3/8", "23 5/8"), (0, "29 5/8"), (19, "19 1/4")),
    )
    joins = (
        join("cap", "to", "left_side right_side"),
        join("back_panel", "into", "left_side right_side cap"),
    )
    steps, blames = prove(parts, joins, step("left_side cap right_side"), step("back_panel"))
    assert blames == ()
    assert ways(steps)["back_panel"] == ("up", -1)
    closed = part("floor", ("3/4", "23 1/4"), ("-3/4", 0), (0, 20))
    steps, blames = prove(
        (*parts, closed),
        (*joins, join("floor", "to", "back_panel")),
        step("left_side cap right_side floor", line=200),
        step("back_panel", line=201),
    )
    assert slugs(blames) == ["no-way-in"]
