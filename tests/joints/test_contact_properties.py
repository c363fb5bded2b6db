"""What holds of joins in any heap of parts."""

from fractions import Fraction
from itertools import pairwise
from random import Random

from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.compiler.joints.contact import make_contacts
from casewright.compiler.joints.geometry import scale_of, shared, solid_of
from casewright.compiler.model import Box, Cut, Extent, Part, Wish
from casewright.lang.cells import literal
from tests.compiler.handmade import join, part
from tests.joints.boards import slugs


@st.composite
def carcases(draw: st.DrawFn) -> tuple[tuple[Part, ...], tuple[Wish, ...]]:
    """A carcase of any thickness, with posts, shelves let into what stands beside them, and a
    back in grooves; sound by the way it is made."""
    thick = draw(st.sampled_from([Fraction(3, 4), Fraction(23, 32), Fraction(180, 254)]))
    depth = thick * draw(st.sampled_from([Fraction(1, 3), Fraction(2, 5), Fraction(9, 20)]))
    width, height, deep = (draw(st.integers(10, 40)) for _ in range(3))
    play = draw(st.sampled_from([Fraction(0), Fraction(1, 32)]))
    posts = sorted(draw(st.sets(st.integers(1, 3), max_size=3)))
    back_at = deep - Fraction(1)
    uprights = [("left_side", Fraction(0))]
    uprights += [(f"post_{n}", Fraction(width * n, 4)) for n in posts]
    uprights += [("right_side", width - thick)]
    parts, wishes = [], []
    for number, (name, at) in enumerate(uprights):
        outer = number in (0, len(uprights) - 1)
        ends = (0, height) if outer else (thick, height)
        parts.append(part(name, (at, at + thick), ends, (0, deep if outer else back_at)))
    parts.append(part("floor", (thick, width - thick), (0, thick), (0, back_at)))
    wishes.append(join("floor", "to", "left_side right_side"))
    if posts:
        wishes.append(join(" ".join(f"post_{n}" for n in posts), "to", "floor"))
    for number, ((left, at), (right, end)) in enumerate(pairwise(uprights)):
        for level in range(draw(st.integers(0, 2))):
            up = thick * 2 + level * 3
            name = f"shelf_{number}_{level}"
            parts.append(
                part(name, (at + thick - depth, end + depth), (up, up + thick), (1, back_at))
            )
            wishes.append(join(name, "into", f"{left} {right}", play=play))
    parts.append(
        part(
            "back_panel",
            (thick - depth, width - thick + depth),
            (0, height),
            (back_at, back_at + Fraction(1, 4)),
        )
    )
    wishes.append(join("back_panel", "into", "left_side right_side", play=play))
    return tuple(parts), tuple(wishes)


@settings(max_examples=60)
@given(carcases())
def test_nothing_overlaps_once_the_grooves_are_made(
    made: tuple[tuple[Part, ...], tuple[Wish, ...]],
) -> None:
    parts, wishes = made
    grooved, joints, blames = make_contacts(parts, (), wishes)
    assert [each.finding.headline for each in blames] == []
    scale = scale_of(grooved)
    solids = [solid_of(each, scale) for each in grooved]
    for number, solid in enumerate(solids):
        assert all(not shared(solid, other) for other in solids[:number])
    assert len(joints) == sum(len(each.first) * len(each.second) for each in wishes)


@settings(max_examples=60)
@given(st.data())
def test_every_overlap_of_a_heap_is_reported_and_no_other(data: st.DataObject) -> None:
    whole = st.integers(0, 8)
    size = st.integers(1, 4)
    ends = st.tuples(whole, size).map(lambda pair: (pair[0], pair[0] + pair[1]))
    parts = tuple(
        part(f"p{n}", *data.draw(st.tuples(ends, ends, ends)))
        for n in range(data.draw(st.integers(2, 8)))
    )
    _, _, blames = make_contacts(parts, (), ())
    found = {
        tuple(sorted(each.finding.headline.split(" stand ")[0].split(" and ")))
        for each in blames
        if each.finding.slug == "parts-overlap"
    }
    wanted = set()
    for number, one in enumerate(parts):
        for other in parts[:number]:
            pairs = (
                (one.box.along(axis), other.box.along(axis)) for axis in ("across", "up", "deep")
            )
            if all(a[0] < b[1] and b[0] < a[1] for a, b in pairs):
                wanted.add(tuple(sorted((one.path, other.path))))
    assert found == wanted


def flipped(parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """The parts seen in a mirror across."""

    def mirror(where: Box) -> Box:
        return evolve(where, across=(-where.across[1], -where.across[0]))

    def turn(cut: Cut) -> Cut:
        return evolve(cut, box=mirror(cut.box))

    return tuple(
        evolve(
            each,
            extents=evolve(
                each.extents,
                across=Extent(literal(-each.box.across[1]), literal(-each.box.across[0])),
            ),
            cuts=tuple(turn(cut) for cut in each.cuts),
        )
        for each in parts
    )


@settings(max_examples=40)
@given(carcases(), st.sampled_from([Fraction(0), Fraction(1, 16), Fraction(-1, 16)]))
def test_a_mirror_changes_nothing_but_the_side(
    made: tuple[tuple[Part, ...], tuple[Wish, ...]], spoilt: Fraction
) -> None:
    parts, wishes = made
    low, high = parts[0].box.across
    parts = (
        evolve(
            parts[0],
            extents=evolve(
                parts[0].extents, across=Extent(literal(low - spoilt), literal(high - spoilt))
            ),
        ),
        *parts[1:],
    )
    straight = make_contacts(parts, (), wishes)
    turned = make_contacts(flipped(parts), (), wishes)
    assert {each.path: each.cuts and {_flat(c) for c in each.cuts} for each in turned[0]} == {
        each.path: each.cuts and {_flat(c) for c in each.cuts} for each in flipped(straight[0])
    }
    assert [
        (each.first, each.second, each.kind, each.axis, each.side, each.fasteners)
        for each in turned[1]
    ] == [
        (
            each.first,
            each.second,
            each.kind,
            each.axis,
            -each.side if each.axis == "across" else each.side,
            each.fasteners,
        )
        for each in straight[1]
    ]
    assert slugs(turned[2]) == slugs(straight[2])
    if spoilt:
        assert slugs(turned[2])


def _flat(cut: Cut) -> tuple[Box, str, Fraction]:
    return cut.box, cut.by, cut.depth.value


@settings(max_examples=25)
@given(carcases(), st.randoms(use_true_random=False))
def test_names_mean_nothing(
    made: tuple[tuple[Part, ...], tuple[Wish, ...]], random: Random
) -> None:
    parts, wishes = made
    words = [f"w{n}" for n in range(len(parts))]
    random.shuffle(words)
    new = {each.path: word for each, word in zip(parts, words, strict=True)}
    renamed = tuple(evolve(each, path=new[each.path], address=new[each.path]) for each in parts)
    asked = tuple(
        evolve(
            each,
            first=tuple(new[path] for path in each.first),
            second=tuple(new[path] for path in each.second),
        )
        for each in wishes
    )
    _, joints, blames = make_contacts(parts, (), wishes)
    _, same, no_blames = make_contacts(renamed, (), asked)
    assert [(new[each.first], new[each.second], each.area, each.axis) for each in joints] == [
        (each.first, each.second, each.area, each.axis) for each in same
    ]
    assert (slugs(blames), slugs(no_blames)) == ([], [])
