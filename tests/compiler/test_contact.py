"""Joins found in space: what touches, what enters, what overlaps and what is loose."""

from fractions import Fraction
from itertools import pairwise
from random import Random

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.compiler.blame import Blame, bind
from casewright.compiler.joints.contact import make_contacts
from casewright.compiler.joints.fastening import fastener_places
from casewright.compiler.joints.geometry import scale_of, shared, solid_of
from casewright.compiler.model import Box, Cut, Extent, Extents, Fasteners, Joint, Part, Wish
from casewright.lang.cells import literal
from casewright.lang.source import Origin, Own, Source, Span
from tests.compiler.handmade import Ends, assembly, box, fixing, join, part


def contacts(
    *parts: Part, wishes: tuple[Wish, ...] = ()
) -> tuple[dict[str, Part], tuple[Joint, ...], list[str]]:
    grooved, joints, blames = make_contacts(parts, (), wishes)
    return {each.path: each for each in grooved}, joints, slugs(blames)


def slugs(blames: tuple[Blame, ...]) -> list[str]:
    return [blame.finding.slug for blame in blames]


def figures(blame: Blame) -> list[tuple[str, Fraction | None]]:
    return [
        (figure.words, None if figure.measure is None else figure.measure.value)
        for figure in blame.finding.figures
    ]


LEFT = part("left_side", (0, "3/4"), (0, 30), (0, 20), line=1)
RIGHT = part("right_side", ("23 1/4", 24), (0, 30), (0, 20), line=2)
FLOOR = part("floor", ("3/4", "23 1/4"), (0, "3/4"), (0, 20), line=3)


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


# Joins into.

BACK = part("back_panel", ("3/8", "23 5/8"), (0, 30), (19, "19 1/4"), line=5)
WALLS = (LEFT, RIGHT, FLOOR, BACK)
WALL_JOINS = (
    join("floor", "to", "left_side right_side"),
    join("back_panel", "into", "left_side right_side", play="1/32"),
)


def test_a_back_makes_its_grooves() -> None:
    parts, joints, blames = make_contacts(
        (LEFT, RIGHT, evolve(FLOOR, extents=_shallow()), BACK), (), WALL_JOINS
    )
    assert slugs(blames) == []
    (groove,) = next(each for each in parts if each.path == "left_side").cuts
    assert (groove.kind, groove.by, groove.depth.value) == ("groove", "back_panel", Fraction(3, 8))
    assert groove.box == box(("3/8", "3/4"), (0, 30), ("18 31/32", "19 9/32"))
    assert groove.depth.operator == "-"
    entered = joints[2]
    assert (entered.kind, entered.axis, entered.side) == ("groove", "across", -1)
    assert entered.area == box(("3/8", "3/4"), (0, 30), (19, "19 1/4"))
    assert entered.depth == groove.depth


def _shallow() -> Extents:
    return part("floor", ("3/4", "23 1/4"), (0, "3/4"), (0, 19)).extents


def test_an_overlap_no_join_names_is_reported_with_its_size() -> None:
    _, _, blames = make_contacts(WALLS, (), WALL_JOINS)
    assert slugs(blames) == ["parts-overlap"]
    assert blames[0].finding.headline == "back_panel and floor stand in the same space"
    assert figures(blames[0]) == [
        ("shared across", Fraction(45, 2)),
        ("shared up", Fraction(3, 4)),
        ("shared deep", Fraction(1, 4)),
    ]
    assert blames[0].origin == Own(5)
    assert blames[0].labels == ((Own(3), "floor"),)


def test_an_overlap_that_a_join_takes_for_touching_shows_the_join() -> None:
    joins = (*WALL_JOINS, join("back_panel", "to", "floor", line=103))
    _, _, blames = make_contacts(WALLS, (), joins)
    assert slugs(blames) == ["parts-overlap"]
    assert blames[0].labels == ((Own(3), "floor"), (Own(103), "says that they touch"))


@pytest.mark.parametrize(
    ("far", "found"),
    [("23 5/8", []), ("23 31/32", []), (24, ["groove-through"]), (25, ["groove-through"])],
)
def test_a_groove_leaves_stock(far: str | int, found: list[str]) -> None:
    shelf = part("shelf", ("3/4", far), (10, "10 3/4"), (0, 20))
    joins = (join("shelf floor", "to", "left_side"), join("shelf", "into", "right_side"))
    _, _, blames = make_contacts((LEFT, RIGHT, FLOOR, shelf), (), joins)
    assert slugs(blames) == found


def test_a_groove_through_shows_what_is_left() -> None:
    shelf = part("shelf", ("3/4", 24), (10, "10 3/4"), (0, 20))
    joins = (join("shelf", "to", "left_side"), join("shelf", "into", "right_side"))
    _, _, blames = make_contacts((LEFT, RIGHT, shelf), (), joins)
    assert blames[0].finding.headline == "shelf goes right through right_side"
    assert figures(blames[0]) == [
        ("right_side, thick", Fraction(3, 4)),
        ("less what shelf takes", Fraction(3, 4)),
        ("leaves", Fraction(0)),
    ]


@pytest.mark.parametrize(("depth", "found"), [("5/16", []), ("3/8", ["groove-through"])])
def test_grooves_from_both_faces_may_not_meet(depth: str, found: list[str]) -> None:
    post = part("post", (12, "12 3/4"), (0, 30), (0, 20))
    deep = Fraction(depth)
    left = part("left_shelf", (4, 12 + deep), (10, "10 3/4"), (0, 20))
    right = part("right_shelf", (Fraction(51, 4) - deep, 20), (10, "10 3/4"), (0, 20))
    _, joints, blames = make_contacts(
        (post, left, right), (), (join("left_shelf right_shelf", "into", "post"),)
    )
    assert slugs(blames) == found
    assert [each.side for each in joints] == [1, -1]


def test_what_only_touches_does_not_enter() -> None:
    _, _, blames = make_contacts((LEFT, FLOOR), (), (join("floor", "into", "left_side"),))
    assert slugs(blames) == ["joint-does-not-enter"]
    assert blames[0].finding.help == "let floor reach into left_side, or say `to`"


def test_what_lies_wholly_inside_has_come_in_through_no_face() -> None:
    block = part("block", (0, 4), (0, 8), (0, 9))
    pin = part("pin", (1, 2), (1, 4), (1, 6))
    _, _, blames = make_contacts((block, pin), (), (join("pin", "into", "block"),))
    assert slugs(blames) == ["joint-does-not-enter"]


STILE = part("stile", (0, 2), (0, 30), (0, "3/4"), thick="deep")


def tenoned(tenon: Ends, cheeks: Ends = ("1/4", "1/2")) -> Part:
    """A rail whose tenon is as long as `tenon` across and stands between `cheeks`."""
    long, (front, back) = (tenon[0], 2), cheeks
    cuts = [box(long, (10, 13), (0, front)), box(long, (10, 13), (back, "3/4"))]
    return part("rail", (tenon[0], 20), (10, 13), (0, "3/4"), cuts=cuts, thick="deep")


def test_a_tenon_enters_a_stile_by_its_edge() -> None:
    parts, joints, blames = make_contacts(
        (STILE, tenoned((1, 2))), (), (join("rail", "into", "stile"),)
    )
    assert slugs(blames) == []
    assert parts[0].cuts[0].box == box((1, 2), (10, 13), ("1/4", "1/2"))
    assert parts[0].cuts[0].depth.value == 1
    assert (joints[0].axis, joints[0].side) == ("across", -1)


def test_a_tenon_at_the_end_of_a_stile_still_enters_along_its_own_length() -> None:
    """Flush with the stile's top it reaches two edges: its depth is measured along the rail."""
    rail = evolve(tenoned((1, 2)), extents=part("rail", (1, 20), (27, 30), (0, "3/4")).extents)
    cuts = [evolve(each, box=evolve(each.box, up=rail.box.up)) for each in rail.cuts]
    parts, joints, blames = make_contacts(
        (STILE, evolve(rail, cuts=tuple(cuts))), (), (join("rail", "into", "stile"),)
    )
    assert blames == ()
    assert (joints[0].axis, parts[0].cuts[0].depth.value) == ("across", Fraction(1))


def test_a_tenon_may_not_come_out_at_the_far_edge() -> None:
    _, _, blames = make_contacts((STILE, tenoned((0, 2))), (), (join("rail", "into", "stile"),))
    assert slugs(blames) == ["groove-through"]
    assert figures(blames[0])[0] == ("stile, wide", Fraction(2))


def test_a_tenon_as_thick_as_the_stile_leaves_no_cheeks() -> None:
    rail = part("rail", (1, 20), (10, 13), (0, "3/4"), thick="deep")
    _, _, blames = make_contacts((STILE, rail), (), (join("rail", "into", "stile"),))
    assert slugs(blames) == ["groove-through"]


def test_play_may_not_open_the_cheeks() -> None:
    for play, found in (("1/8", []), ("1/4", ["groove-through"])):
        _, _, blames = make_contacts(
            (STILE, tenoned((1, 2))), (), (join("rail", "into", "stile", play=play),)
        )
        assert slugs(blames) == found


def test_play_stays_within_the_part() -> None:
    back = part("back_panel", ("3/8", 20), (0, 30), ("19 3/4", 20))
    parts, _, _ = make_contacts(
        (LEFT, back), (), (join("back_panel", "into", "left_side", play="1/16"),)
    )
    assert parts[0].cuts[0].box.deep == (Fraction(315, 16), Fraction(20))


def test_a_groove_takes_what_a_notched_part_fills() -> None:
    """The back is notched away below: its groove starts above the notch."""
    back = part(
        "back_panel", ("3/8", 20), (0, 30), (19, "19 1/4"), cuts=[box((0, 20), (0, 4), (19, 20))]
    )
    parts, _, blames = make_contacts((LEFT, back), (), (join("back_panel", "into", "left_side"),))
    assert blames == ()
    assert parts[0].cuts[0].box.up == (Fraction(4), Fraction(30))


# What is loose.


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


# Fasteners.


@pytest.mark.parametrize(
    ("deep", "every", "ends", "count", "spacing"),
    [
        (20, 4, 1, 6, Fraction(18, 5)),
        (20, 6, 1, 4, 6),
        (18, 4, 1, 5, 4),
        (3, 4, 1, 2, 1),
        ("2 7/8", 4, 1, 1, 0),
        (2, 4, 1, 1, 0),
        (1, 4, 1, 1, 0),
        (20, None, 1, 2, 18),
        (20, 4, None, 6, 4),
    ],
)
def test_fasteners_stand_evenly_and_no_further_apart_than_asked(
    deep: str | int,
    every: int | None,
    ends: int | None,
    count: int,
    spacing: Fraction | int,
) -> None:
    floor = part("floor", ("3/4", 20), (0, "1/2"), (0, deep), thick="up")
    _, joints, _ = make_contacts(
        (LEFT, floor), (), (join("floor", "to", "left_side", fixed=fixing(every=every, ends=ends)),)
    )
    assert joints[0].fasteners == (Fasteners("screw", "hold", count, Fraction(spacing)),)


def test_what_locates_stands_between_what_holds() -> None:
    for deep, located, held in (
        (20, [Fraction(14, 5), Fraction(86, 5)], 6),
        (3, [Fraction(4, 3), Fraction(5, 3)], 2),
        (2, [Fraction(1, 2)], 1),
    ):
        floor = part("floor", ("3/4", 20), (0, "1/2"), (0, deep), thick="up")
        _, joints, _ = make_contacts(
            (LEFT, floor), (), (join("floor", "to", "left_side", fixed=fixing(locate="brad")),)
        )
        (brads, at), (_, holding) = fastener_places(joints[0])
        assert (brads.name, brads.use, brads.count) == ("brad", "locate", len(located))
        assert [place for _, _, place in at] == located
        assert len(holding) == held
        assert {place[:2] for place in (*at, *holding)} == {(Fraction(3, 4), Fraction(1, 4))}
        assert not set(at) & set(holding)


def test_glue_alone_drives_nothing() -> None:
    _, joints, _ = make_contacts(
        (LEFT, FLOOR), (), (join("floor", "to", "left_side", fixed=fixing(hold="")),)
    )
    assert joints[0].fasteners == ()
    assert fastener_places(joints[0]) == ()


@pytest.mark.parametrize("every", ["1/1000", 0, "-1"])
def test_a_spacing_no_bench_can_drive_is_one_report(every: str | int) -> None:
    fixed = fixing(every=every)
    joins = (join("floor", "to", "left_side right_side", fixed=fixed),)
    _, joints, found = contacts(LEFT, RIGHT, FLOOR, wishes=joins)
    assert found == ["fasteners-too-close"]
    assert [each.fasteners for each in joints] == [(), ()]


# Open places.


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


# Properties.


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
