"""A slow slider agrees with the proof of order; a mirror bars the same things."""

from collections.abc import Iterable
from fractions import Fraction
from random import Random

import pytest
from attrs import evolve

from casewright.compiler.bench.order import prove_order
from casewright.compiler.joints.contact import make_contacts
from casewright.compiler.model import Box, Extent, Part
from casewright.lang.cells import literal
from tests.compiler.handmade import assembly, box, join, part, step
from tests.compiler.slow_slider import PairSlider, check_random_orders, even_grid, free_ways


def grain(parts: Iterable[Part]) -> list[Fraction]:
    """One part of an inch for every denominator among the places of `parts`."""
    return [
        Fraction(1, end.denominator)
        for each in parts
        for where in (each.box, *(cut.box for cut in each.cuts))
        for ends in (where.across, where.up, where.deep)
        for end in ends
    ]


# The slow slider. Its cabinets are in whole inches, boards 2 thick and grooves 1 deep.

WHOLE_BOX = (
    part("left_side", (0, 2), (0, 14), (0, 10)),
    part("right_side", (14, 16), (0, 14), (0, 10)),
    part("floor", (2, 14), (0, 2), (0, 10)),
    part("cap", (2, 14), (12, 14), (0, 10)),
    part("back_panel", (1, 15), (1, 13), (8, 9)),
    part("rail", (2, 14), (10, 12), (0, 1)),
    part("shelf", (1, 15), (6, 7), (0, 7)),
)
WHOLE_BOX_JOINS = (
    join("floor cap rail", "to", "left_side right_side"),
    join("back_panel", "into", "left_side right_side floor cap"),
    join("shelf", "into", "left_side right_side"),
)
TOE_BOX = (
    part("left_side", (0, 2), (0, 14), (0, 10), cuts=[box((0, 2), (0, 3), (0, 2))]),
    part("right_side", (18, 20), (0, 14), (0, 10), cuts=[box((0, 20), (0, 3), (0, 2))]),
    part("post", (9, 11), (5, 13), (0, 8)),
    part("floor", (2, 18), (3, 5), (0, 10)),
    part("toe_board", (0, 20), (0, 3), (1, 2)),
    part("stretcher", (2, 18), (13, 14), (0, 3)),
    part("cap", (0, 20), (14, 15), (0, 10)),
    part("cleat", (2, 18), (11, 14), (8, 10), cuts=[box((5, 7), (11, 14), (8, 9))]),
    part("low_shelf", (2, 9), (8, 9), (0, 7)),
    part("back_panel", (0, 20), (3, 14), (10, 11)),
)
TOE_BOX_JOINS = (
    join("floor stretcher cleat toe_board back_panel cap", "to", "left_side right_side"),
    join("post", "to", "floor stretcher"),
    join("low_shelf", "to", "left_side post"),
)
DRAWER = (
    part("tray.left", (0, 1), (0, 6), (0, 12)),
    part("tray.right", (9, 10), (0, 6), (0, 12)),
    part("tray.front", (1, 9), (0, 6), (0, 1)),
    part("tray.back", (1, 9), (2, 6), (11, 12)),
    part("tray.bottom", ("1/2", "9 1/2"), (1, 2), ("1/2", 12)),
    part("face", (-2, 12), (-1, 8), (-1, 0)),
    part("case_left", (-4, -2), (-3, 10), (0, 14)),
    part("case_right", (12, 14), (-3, 10), (0, 14)),
    part("case_floor", (-2, 12), (-3, -2), (0, 14)),
    part("case_top", (-4, 14), (10, 11), (0, 14)),
    part("case_back", (-3, 13), (-2, 10), (12, 13)),
    part("slide_left", (-2, 0), (1, 3), (0, 12), hardware=True),
    part("slide_right", (10, 12), (1, 3), (0, 12), hardware=True),
)
DRAWER_ASSEMBLIES = (assembly("", DRAWER, ["tray"]), assembly("tray", DRAWER))
DRAWER_JOINS = (
    join("tray.front tray.back", "to", "tray.left tray.right"),
    join("tray.bottom", "into", "tray.left tray.right tray.front"),
    join("case_back", "into", "case_left case_right"),
    join("case_floor case_top", "to", "case_left case_right"),
    join("slide_left", "to", "case_left tray"),
    join("slide_right", "to", "case_right tray"),
    join("face", "to", "tray.front"),
)
TENONED = (
    part("left_stile", (0, 3), (0, 16), (0, 3), thick="deep"),
    part("right_stile", (13, 16), (0, 16), (0, 3), thick="deep"),
    part(
        "top_rail",
        (1, 15),
        (13, 16),
        (0, 3),
        thick="deep",
        cuts=[
            box((x, y), up, deep)
            for x, y in ((1, 3), (13, 15))
            for up, deep in (((13, 16), (0, 1)), ((13, 16), (2, 3)), ((15, 16), (0, 3)))
        ],
    ),
    part(
        "bottom_rail",
        (1, 15),
        (0, 3),
        (0, 3),
        thick="deep",
        cuts=[
            box((x, y), up, deep)
            for x, y in ((1, 3), (13, 15))
            for up, deep in (((0, 3), (0, 1)), ((0, 3), (2, 3)), ((0, 1), (0, 3)))
        ],
    ),
    part("panel", (2, 14), (2, 14), (1, 2)),
)
TENONED_JOINS = (
    join("panel", "into", "left_stile right_stile top_rail bottom_rail"),
    join("top_rail bottom_rail", "into", "left_stile right_stile"),
)

CABINETS = {
    "captured box": (WHOLE_BOX, (), WHOLE_BOX_JOINS),
    "toe box": (TOE_BOX, (), TOE_BOX_JOINS),
    "drawer in a case": (DRAWER, DRAWER_ASSEMBLIES, DRAWER_JOINS),
    "tenoned frame": (TENONED, (), TENONED_JOINS),
}


@pytest.mark.parametrize("name", CABINETS)
def test_the_slow_slider_agrees_on_two_hundred_random_orders(name: str) -> None:
    parts, assemblies, joins = CABINETS[name]
    grooved, joints, blames = make_contacts(parts, assemblies, joins)
    assert [each.finding.headline for each in blames] == []
    grid = even_grid(grooved, min(grain(grooved)))
    pairs = PairSlider()

    def push(body: list[Part], standing: list[Part]) -> set[tuple[str, int]]:
        found = free_ways(grid, body, standing)
        assert found == pairs.free_ways(body, standing)
        return found

    tally = check_random_orders(
        grooved,
        assemblies,
        lambda orders: prove_order(grooved, assemblies, joints, orders)[0],
        push,
        200,
    )
    assert tally.disagreements == ()
    # Both answers came up, or the test would show nothing.
    assert tally.free > 200
    assert tally.barred > 20


@pytest.mark.parametrize("name", CABINETS)
def test_a_mirror_bars_the_same_things(name: str) -> None:
    parts, assemblies, joins = CABINETS[name]
    grooved, joints, _ = make_contacts(parts, assemblies, joins)
    turned, turned_joints, _ = make_contacts(
        tuple(mirrored(each) for each in parts), assemblies, joins
    )
    chance = Random(2617)
    told: dict[str, list[str]] = {}
    for each in grooved:
        told.setdefault(each.assembly, []).append(each.path)
    for group in assemblies:
        told[group.path].extend(group.assemblies)
    for _ in range(30):
        for things in told.values():
            chance.shuffle(things)
        orders = tuple(step(" ".join(things), into=into) for into, things in told.items())
        straight, _ = prove_order(grooved, assemblies, joints, orders)
        flipped, _ = prove_order(turned, assemblies, turned_joints, orders)
        assert [(way.thing, way.axis) for one in straight for way in one.ways] == [
            (way.thing, way.axis) for one in flipped for way in one.ways
        ]


def mirrored(whole: Part) -> Part:
    """A part seen in a mirror across."""

    def turn(where: Box) -> Box:
        return evolve(where, across=(-where.across[1], -where.across[0]))

    low, high = whole.box.across
    return evolve(
        whole,
        extents=evolve(whole.extents, across=Extent(literal(-high), literal(-low))),
        cuts=tuple(evolve(cut, box=turn(cut.box)) for cut in whole.cuts),
    )
