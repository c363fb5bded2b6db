"""Exact boxes: overlap, cutting, contact and the six ways in."""

from fractions import Fraction
from itertools import combinations, product

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from casewright.compiler.joints.geometry import (
    EVERY_WAY,
    Block,
    Solid,
    along,
    around,
    contact,
    gaps,
    less,
    overlap,
    scale_of,
    shared,
    solid_of,
    volume,
    ways_blocked,
)
from casewright.compiler.model import AXES, Axis, Part
from tests.compiler.handmade import box, part
from tests.compiler.slow_slider import ENDS, free_ways, uneven_grid


@st.composite
def blocks(draw: st.DrawFn) -> Block:
    a, b, c = (draw(st.integers(0, 6)) for _ in AXES)
    d, e, f = (draw(st.integers(1, 4)) for _ in AXES)
    return a, a + d, b, b + e, c, c + f


@st.composite
def solids(draw: st.DrawFn) -> Solid:
    return less((draw(blocks()),), draw(st.lists(blocks(), max_size=3)))


def cells(solid: Solid) -> set[tuple[int, int, int]]:
    """The unit cubes of a solid."""
    return {
        cell
        for a, b, c, d, e, f in solid
        for cell in product(range(a, b), range(c, d), range(e, f))
    }


@given(blocks(), st.lists(blocks(), max_size=4))
def test_cutting_leaves_what_no_cut_takes_in_pieces_that_share_nothing(
    block: Block, cuts: list[Block]
) -> None:
    pieces = less((block,), cuts)
    assert cells(pieces) == cells((block,)) - cells(tuple(cuts))
    assert volume(pieces) == len(cells(pieces))
    assert all(overlap(one, other) is None for one, other in combinations(pieces, 2))


@given(solids(), solids())
def test_shared_space_is_what_both_fill(one: Solid, other: Solid) -> None:
    assert cells(shared(one, other)) == cells(one) & cells(other)
    assert volume(shared(one, other)) == volume(shared(other, one))


def test_touching_is_not_sharing() -> None:
    assert overlap((0, 2, 0, 2, 0, 2), (2, 4, 0, 2, 0, 2)) is None
    assert overlap((0, 2, 0, 2, 0, 2), (1, 4, 0, 2, 0, 2)) == (1, 2, 0, 2, 0, 2)


@given(solids(), solids())
def test_a_contact_lies_flat_on_both_and_is_the_same_from_either_side(
    one: Solid, other: Solid
) -> None:
    other = less(other, one)
    found, turned = contact(one, other), contact(other, one)
    if found is None:
        assert turned is None
        return
    assert turned is not None
    assert (turned.axis, turned.side) == (found.axis, -found.side)
    assert turned.area == found.area
    low, high = along(found.area, found.axis)
    assert low == high
    inside, outside = _layers(found.area, found.axis, found.side)
    assert inside
    assert inside <= cells(one)
    assert outside <= cells(other)


def _layers(
    area: Block, axis: Axis, side: int
) -> tuple[set[tuple[int, int, int]], set[tuple[int, int, int]]]:
    """The cells just before and just behind a flat area, as seen from the first solid."""
    place = 2 * AXES.index(axis)
    below, above = list(area), list(area)
    below[place] -= 1
    above[place + 1] += 1
    low = cells(((below[0], below[1], below[2], below[3], below[4], below[5]),))
    high = cells(((above[0], above[1], above[2], above[3], above[4], above[5]),))
    return (low, high) if side == 1 else (high, low)


@pytest.mark.parametrize(
    ("other", "met"),
    [
        ((4, 6, 0, 4, 0, 4), ("across", 1, (4, 4, 0, 4, 0, 4))),
        ((-2, 0, 1, 9, 2, 9), ("across", -1, (0, 0, 1, 4, 2, 4))),
        ((0, 4, 4, 5, 0, 4), ("up", 1, (0, 4, 4, 4, 0, 4))),
        ((0, 4, 0, 4, -1, 0), ("deep", -1, (0, 4, 0, 4, 0, 0))),
    ],
)
def test_contact_says_axis_side_and_area(other: Block, met: tuple[str, int, Block]) -> None:
    found = contact(((0, 4, 0, 4, 0, 4),), (other,))
    assert found is not None
    assert (found.axis, found.side, found.area) == met


@pytest.mark.parametrize(
    "other",
    [(4, 6, 4, 6, 0, 4), (4, 6, 4, 6, 4, 6), (5, 6, 0, 4, 0, 4)],
    ids=["edge", "corner", "apart"],
)
def test_an_edge_a_corner_and_a_gap_are_no_contact(other: Block) -> None:
    assert contact(((0, 4, 0, 4, 0, 4),), (other,)) is None


def test_a_contact_interrupted_by_a_groove_is_its_larger_side() -> None:
    """A drawer front's end against a side whose groove for the bottom runs past it."""
    side = less(((0, 1, 0, 10, 0, 20),), [(0, 1, 2, 3, 0, 20)])
    found = contact(((1, 9, 0, 10, 0, 1),), side)
    assert found is not None
    assert found.area == (1, 1, 3, 10, 0, 1)


def test_pieces_of_one_face_count_as_one_contact() -> None:
    """Cutting splits a side into blocks; what lies whole on its face stays whole."""
    side = less(((0, 2, 0, 10, 0, 20),), [(0, 1, 4, 5, 3, 20)])
    found = contact(((2, 9, 3, 6, 0, 20),), side)
    assert found is not None
    assert found.area == (2, 2, 3, 6, 0, 20)


def test_gaps_are_nothing_or_less_where_ranges_meet() -> None:
    assert gaps((0, 4, 0, 4, 0, 4), (7, 9, 4, 5, 1, 2)) == (3, 0, -2)


@given(solids(), solids())
def test_the_six_ways_agree_with_pushing(one: Solid, other: Solid) -> None:
    """Each solid is made a part again, its cuts what is left of its outline."""
    if not one or not other:
        return
    mover, still = _as_part("mover", one), _as_part("still", other)
    barred = 0
    for piece in one:
        for obstacle in other:
            barred |= ways_blocked(piece, obstacle)
    free = {end for bit, end in enumerate(ENDS) if not barred & 1 << bit}
    assert free == free_ways(uneven_grid([mover, still]), [mover], [still])


def _as_part(name: str, solid: Solid) -> Part:
    a, b, c, d, e, f = around(solid)
    rest = less((around(solid),), solid)
    cuts = [box((p, q), (r, s), (t, u)) for p, q, r, s, t, u in rest]
    return part(name, (a, b), (c, d), (e, f), cuts=cuts)


def test_a_block_in_the_same_place_bars_every_way() -> None:
    assert ways_blocked((0, 4, 0, 4, 0, 4), (1, 2, 1, 2, 1, 2)) == EVERY_WAY


def test_the_scale_holds_odd_thicknesses_and_halves_exactly() -> None:
    thin = part("thin", (0, "23/32"), (0, Fraction(180, 254)), ("1/3", "5/7"))
    scale = scale_of([thin], [Fraction(1, 11)])
    for end in (Fraction(23, 64), Fraction(90, 254), Fraction(1, 6), Fraction(5, 14)):
        assert scale.inches(scale.whole(end)) == end
    assert scale.box(scale.block(thin.box)) == thin.box


def test_a_solid_is_its_box_less_its_cuts() -> None:
    notched = part("side", (0, 1), (0, 10), (0, 8), cuts=[box((0, 1), (0, 4), (0, 3))])
    scale = scale_of([notched])
    assert volume(solid_of(notched, scale)) == (80 - 12) * scale.steps**3
    assert len(solid_of(evolve(notched, cuts=()), scale)) == 1
