"""The way in of every part: which way, past what, and what bars it."""

import pytest
from attrs import evolve

from tests.bench.boxes import (
    BACK,
    CAP,
    FLOOR,
    LEFT,
    RIGHT,
    WALLED,
    WALLED_JOINS,
    prove,
    slugs,
    ways,
)
from tests.compiler.handmade import join, part, step


def test_a_panel_after_four_walls_has_no_way_in() -> None:
    _, blames = prove(
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
    assert blame.origin == step("", line=201).origin
    assert blame.labels == ((BACK.origin, "back_panel"),)


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
    assert ways(steps)["left_side"] == ("", 0)
    assert ways(steps)["back_panel"] == ("across", 1)
    assert ways(steps)["right_side"] == ("across", 1)
    assert [each.number for each in steps] == [1, 2, 3, 4]


SLOT_BACK = part("back_panel", ("3/8", "23 5/8"), (0, "29 5/8"), (19, "19 1/4"))
SLOTTED = (LEFT, RIGHT, CAP, SLOT_BACK)
SLOTTED_JOINS = (
    join("cap", "to", "left_side right_side"),
    join("back_panel", "into", "left_side right_side cap"),
)


def test_a_captured_back_does_not_come_in_from_the_front() -> None:
    lowest = part("floor", ("3/4", "23 1/4"), ("-3/4", 0), (0, 20))
    joins = (*SLOTTED_JOINS, join("floor", "to", "back_panel"))
    _, blames = prove(
        (*SLOTTED, lowest), joins, step("left_side cap right_side floor"), step("back_panel")
    )
    assert slugs(blames) == ["no-way-in"]
    rows = {figure.words: figure.note for figure in blames[0].finding.figures}
    assert rows["from the front"] == "left_side"
    assert rows["from below"] == "floor"


def test_a_captured_back_slides_up_into_its_grooves() -> None:
    steps, blames = prove(SLOTTED, SLOTTED_JOINS, step("left_side cap right_side back_panel"))
    assert blames == ()
    assert ways(steps)["back_panel"] == ("up", -1)


CLEAT = part("cleat", ("3/4", "23 1/4"), ("25 1/4", "29 1/4"), ("19 1/4", 20))
RAIL = part("rail", ("3/4", "23 1/4"), ("25 1/4", "29 1/4"), (0, "3/4"))
APPLIED = part("back_panel", (0, 24), (0, 30), (20, "20 1/2"))
CLEATED = (LEFT, RIGHT, FLOOR, CAP, RAIL, CLEAT, APPLIED)
CLEATED_JOINS = (
    join("floor cap rail cleat", "to", "left_side right_side"),
    join("back_panel", "to", "left_side right_side"),
)


def test_a_cleat_under_a_full_top_and_behind_a_rail_has_no_way_in() -> None:
    _, blames = prove(
        CLEATED,
        CLEATED_JOINS,
        step("left_side floor rail cap right_side back_panel"),
        step("cleat"),
    )
    assert slugs(blames) == ["no-way-in"]
    assert {figure.words: figure.note for figure in blames[0].finding.figures} == {
        "from above": "cap",
        "from the front": "rail",
        "from the left": "left_side",
        "from the right": "right_side",
        "from the back": "back_panel",
        "from below": "floor",
    }


@pytest.mark.parametrize("late", ["cap", "back_panel", "rail", "right_side"])
def test_a_cleat_goes_in_before_whatever_closes_it_in(late: str) -> None:
    early = ["left_side", "floor", "rail", "cap", "right_side", "back_panel"]
    early.remove(late)
    steps, blames = prove(CLEATED, CLEATED_JOINS, step(" ".join(early)), step("cleat"), step(late))
    assert blames == ()
    assert ways(steps)["cleat"][0] != ""


def test_what_a_part_already_touches_bars_its_way() -> None:
    """A tight shelf between two sides comes in from the front, never through a side it touches."""
    steps, blames = prove(
        (LEFT, RIGHT, FLOOR, CAP),
        (join("floor cap", "to", "left_side right_side"),),
        step("left_side right_side cap floor", lies="left"),
    )
    assert blames == ()
    assert ways(steps)["floor"] == ("deep", -1)
    assert ways(steps)["right_side"] == ("across", 1)


@pytest.mark.parametrize("lies", ["left", "back", ""])
def test_the_way_that_is_said_presses_a_part_onto_what_it_is_joined_to(lies: str) -> None:
    joins = (join("floor cap", "to", "left_side right_side"),)
    steps, _ = prove(
        (LEFT, RIGHT, FLOOR, CAP),
        joins,
        step("left_side", lies=lies),
        step("floor cap right_side"),
    )
    assert ways(steps) == {
        "left_side": ("", 0),
        "floor": ("across", 1),
        "cap": ("across", 1),
        "right_side": ("across", 1),
    }


@pytest.mark.parametrize(
    ("lies", "way"),
    [
        ("", ("up", 1)),
        ("left", ("up", 1)),
        ("back", ("deep", -1)),
        ("front", ("deep", 1)),
        ("top", ("up", -1)),
    ],
)
def test_among_equals_it_is_down_onto_what_lies_on_the_bench(
    lies: str, way: tuple[str, int]
) -> None:
    """Between two sides nothing can press; lying left, the right side is in the way from above."""
    steps, _ = prove(
        (LEFT, RIGHT, FLOOR, CAP),
        (join("floor cap", "to", "left_side right_side"),),
        step("left_side right_side", lies=lies),
        step("cap floor"),
    )
    assert ways(steps)["cap"] == way


def test_hardware_stands_in_the_way_like_any_body() -> None:
    bought = evolve(RAIL, hardware=True)
    parts = tuple(bought if each is RAIL else each for each in CLEATED)
    _, blames = prove(
        parts,
        CLEATED_JOINS,
        step("left_side floor rail cap right_side back_panel"),
        step("cleat"),
    )
    assert slugs(blames) == ["no-way-in"]
