"""The way in of every part, and room for every fastener."""

from collections.abc import Iterable
from fractions import Fraction
from random import Random

import pytest
from attrs import evolve

from casewright.compiler.bench.order import prove_order
from casewright.compiler.blame import Blame
from casewright.compiler.joints.contact import make_contacts
from casewright.compiler.model import Assembly, Box, Extent, Fixing, Order, Part, Step, Wish
from casewright.lang.cells import literal
from casewright.lang.measure import length
from casewright.lang.source import Own
from tests.compiler.handmade import assembly, box, fixing, join, part, step
from tests.compiler.slow_slider import PairSlider, check_random_orders, even_grid, free_ways


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


def grain(parts: Iterable[Part]) -> list[Fraction]:
    """One part of an inch for every denominator among the places of `parts`."""
    return [
        Fraction(1, end.denominator)
        for each in parts
        for where in (each.box, *(cut.box for cut in each.cuts))
        for ends in (where.across, where.up, where.deep)
        for end in ends
    ]


def ways(steps: tuple[Step, ...]) -> dict[str, tuple[str, int]]:
    return {way.thing: (way.axis, way.side) for each in steps for way in each.ways}


LEFT = part("left_side", (0, "3/4"), (0, 30), (0, 20), line=1)
RIGHT = part("right_side", ("23 1/4", 24), (0, 30), (0, 20), line=2)
FLOOR = part("floor", ("3/4", "23 1/4"), (0, "3/4"), (0, 20), line=3)
CAP = part("cap", ("3/4", "23 1/4"), ("29 1/4", 30), (0, 20), line=4)
BACK = part("back_panel", ("3/8", "23 5/8"), ("3/8", "29 5/8"), (19, "19 1/4"), line=5)

# A box 24 wide, 30 high, 20 deep, its back let 3/8 into grooves of all four walls.
WALLED = (LEFT, RIGHT, FLOOR, CAP, BACK)
WALLED_JOINS = (
    join("floor cap", "to", "left_side right_side"),
    join("back_panel", "into", "left_side right_side floor cap", play="1/32"),
)


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


FRAME = (
    part("frame.left_stile", (0, 2), (0, 30), (-1, 0)),
    part("frame.right_stile", (22, 24), (0, 30), (-1, 0)),
    part("frame.top_rail", (2, 22), (28, 30), (-1, 0)),
)
FRAMED = (*FRAME, LEFT, RIGHT, FLOOR, CAP)
FRAMED_ASSEMBLIES = (assembly("", FRAMED, ["frame"]), assembly("frame", FRAMED))
FRAMED_JOINS = (
    join("frame.top_rail", "to", "frame.left_stile frame.right_stile"),
    join("floor cap", "to", "left_side right_side"),
    join("frame", "to", "left_side right_side cap"),
)
FRAME_STEP = step(
    "frame.left_stile frame.top_rail frame.right_stile", into="frame", lies="front", line=301
)


def test_assemblies_come_in_as_one_body_after_their_own_steps() -> None:
    steps, blames = prove(
        FRAMED,
        FRAMED_JOINS,
        step("left_side floor cap right_side"),
        step("", words="sand the edges"),
        step("frame", lies="back"),
        FRAME_STEP,
        assemblies=FRAMED_ASSEMBLIES,
    )
    assert blames == ()
    assert [(each.assembly, each.number) for each in steps] == [
        ("frame", 1),
        ("", 1),
        ("", 2),
        ("", 3),
    ]
    assert ways(steps)["frame"] == ("deep", -1)
    assert steps[2].words == "sand the edges"


def test_each_joint_is_closed_by_one_step() -> None:
    grooved, joints, _ = make_contacts(FRAMED, FRAMED_ASSEMBLIES, FRAMED_JOINS)
    steps, blames = prove_order(
        grooved,
        FRAMED_ASSEMBLIES,
        joints,
        (step("left_side floor cap"), step("right_side"), step("frame"), FRAME_STEP),
    )
    assert blames == ()
    closed = [[(joints[each].first, joints[each].second) for each in one.joints] for one in steps]
    assert closed == [
        [("frame.top_rail", "frame.left_stile"), ("frame.top_rail", "frame.right_stile")],
        [("floor", "left_side"), ("cap", "left_side")],
        [("floor", "right_side"), ("cap", "right_side")],
        [
            ("frame.left_stile", "left_side"),
            ("frame.right_stile", "right_side"),
            ("frame.left_stile", "cap"),
            ("frame.right_stile", "cap"),
            ("frame.top_rail", "cap"),
        ],
    ]


def test_a_part_in_no_step_is_named() -> None:
    _, blames = prove(
        FRAMED,
        FRAMED_JOINS,
        step("left_side floor right_side frame"),
        FRAME_STEP,
        assemblies=FRAMED_ASSEMBLIES,
    )
    assert [(each.finding.slug, each.finding.headline) for each in blames] == [
        ("part-in-no-step", "cap is in no step")
    ]
    assert blames[0].origin == CAP.origin


def test_an_assembly_without_steps_is_one_report() -> None:
    _, blames = prove(
        FRAMED,
        FRAMED_JOINS,
        step("left_side floor cap right_side frame"),
        assemblies=FRAMED_ASSEMBLIES,
    )
    assert [each.finding.headline for each in blames] == [
        "frame has no step that brings in frame.left_stile, frame.right_stile, frame.top_rail"
    ]


def test_an_assembly_that_no_step_brings_is_one_report() -> None:
    _, blames = prove(
        FRAMED,
        FRAMED_JOINS,
        step("left_side floor cap right_side"),
        FRAME_STEP,
        assemblies=FRAMED_ASSEMBLIES,
    )
    assert [each.finding.headline for each in blames] == ["frame is in no step"]


def test_a_unit_without_steps_is_one_report() -> None:
    _, blames = prove(FRAMED, FRAMED_JOINS, assemblies=FRAMED_ASSEMBLIES)
    assert [each.finding.headline for each in blames] == [
        "the unit has no step that brings in left_side, right_side, floor, cap, frame"
    ]
    _, blames = prove((LEFT,), ())
    assert slugs(blames) == ["part-in-no-step"]


def test_a_part_in_two_steps_is_named_with_both_lines() -> None:
    _, blames = prove(
        FRAMED,
        FRAMED_JOINS,
        step("left_side floor cap right_side", line=201),
        step("cap frame", line=202),
        FRAME_STEP,
        assemblies=FRAMED_ASSEMBLIES,
    )
    (blame,) = blames
    assert (blame.finding.slug, blame.finding.headline) == (
        "part-in-two-steps",
        "cap is brought in twice",
    )
    assert (blame.origin, blame.labels[0]) == (Own(202), (Own(201), "here first"))


def test_a_holder_may_bring_one_part_of_an_assembly_by_itself() -> None:
    steps, blames = prove(
        FRAMED,
        FRAMED_JOINS,
        step("left_side floor cap right_side frame frame.top_rail"),
        step("frame.left_stile frame.right_stile", into="frame"),
        assemblies=FRAMED_ASSEMBLIES,
    )
    assert ways(steps)["frame.top_rail"] == ("deep", -1)
    assert blames == ()


def test_an_assembly_of_one_part_needs_no_step_of_its_own() -> None:
    parts = (LEFT, RIGHT, FLOOR, part("tray.panel", ("3/4", "23 1/4"), ("3/4", "1 1/2"), (0, 20)))
    assemblies = (assembly("", parts, ["tray"]), assembly("tray", parts))
    joins = (join("floor", "to", "left_side right_side"), join("tray", "to", "floor"))
    steps, blames = prove(
        parts, joins, step("left_side floor right_side tray"), assemblies=assemblies
    )
    assert blames == ()
    assert ways(steps)["tray"] == ("up", 1)
    _, blames = prove(
        parts,
        joins,
        step("left_side floor right_side tray"),
        step("tray.panel"),
        assemblies=assemblies,
    )
    assert slugs(blames) == ["part-in-two-steps"]


def test_a_step_that_brings_its_own_holder_ends_in_a_finding() -> None:
    parts = (*FRAMED, part("inset", (2, 22), (0, 28), (-1, 0)))
    around = assembly("inset_frame", parts, ["frame"])
    assemblies = (assembly("", parts, ["frame", "inset_frame"]), FRAMED_ASSEMBLIES[1], around)
    joins = (*FRAMED_JOINS, join("inset", "to", "frame.top_rail"))
    orders = (
        step("left_side floor cap right_side inset"),
        step("inset_frame frame.left_stile", into="frame"),
        step("frame frame.top_rail frame.right_stile", into="inset_frame"),
    )
    _, blames = prove(parts, joins, *orders, assemblies=assemblies)
    assert "step-brings-itself" in slugs(blames)
    _, blames = prove(
        FRAMED, FRAMED_JOINS, step("frame", into="frame"), assemblies=FRAMED_ASSEMBLIES
    )
    assert "step-brings-itself" in slugs(blames)


# Room to drive: a shelf between the left side and a partition, another shelf past it.

NAILED = fixing("nailed", hold="nail", every=6, ends=2, needs=8, drive="through")
SCREWED = fixing("pocketed", hold="screw", every=6, ends=2, needs=8, drive="inside")
POST = part("post", (12, "12 3/4"), (0, 30), (0, 20), line=6)
NOTCH = box(("12 1/2", "12 3/4"), (10, 11), (0, 20))
SHELF = part("shelf", ("3/4", 12), (10, "10 3/4"), (0, 20), line=7)
ROOMY = (LEFT, POST, SHELF)


def nailed(*more: Part, fixed: Fixing = NAILED) -> tuple[Blame, ...]:
    """The faults when the shelf's joint to the post closes last, `more` standing already."""
    parts = (*ROOMY, *more)
    joins = (
        join("shelf", "to", "left_side"),
        join("shelf", "to", "post", fixed=fixed, line=102),
        *(join(each.path, "to", "post left_side") for each in more),
    )
    grooved, joints, _ = make_contacts(parts, (), joins)
    order = " ".join(each.path for each in (POST, *more))
    _, blames = prove_order(grooved, (), joints, (step(f"left_side {order} shelf"),))
    return blames


def test_room_beyond_the_far_face_is_enough() -> None:
    assert nailed() == ()


def test_a_shelf_at_the_same_height_leaves_no_room_to_drive_through() -> None:
    (blame,) = nailed(part("far_shelf", ("12 3/4", 24), (10, "10 3/4"), (0, 20), line=8))
    assert blame.finding.slug == "no-room-to-drive"
    assert blame.finding.headline == (
        "far_shelf leaves no room to drive nailed between shelf and post"
    )
    assert [
        (figure.words, figure.measure and figure.measure.value) for figure in blame.finding.figures
    ] == [("nailed needs", Fraction(8)), ("beyond post, as far as far_shelf", Fraction(0))]
    assert blame.origin == Own(102)


def test_what_stands_beyond_the_needed_room_does_not_matter() -> None:
    wall = ("20 3/4", 24), (0, 30), (0, 20)
    assert nailed(part("wall", *wall)) == ()
    (blame,) = nailed(part("wall", ("20 1/2", 24), *wall[1:]))
    assert blame.finding.figures[1].measure == length(Fraction(31, 4))


def test_a_strip_may_be_covered_where_no_fastener_is() -> None:
    """Four nails in 20 inches stand at 2, 7 1/3, 12 2/3 and 18; each wants 3/4."""
    between = part("cleat", ("12 3/4", 24), (10, 12), (3, "6 7/8"))
    assert nailed(between) == ()
    assert slugs(nailed(part("cleat", ("12 3/4", 24), (10, 12), (3, 7)))) == ["no-room-to-drive"]


def test_room_is_wanted_in_the_middle_of_a_wide_contact() -> None:
    """A cleat 4 high against a back, screwed through it: the screws stand half way up, and want
    as much room as the cleat is thick."""
    cleat = part("cleat", (0, 24), (20, 24), (0, "3/4"))
    panel = part("panel", (0, 24), (0, 30), ("3/4", 1))
    joins = (join("cleat", "to", "panel", fixed=NAILED),)
    for low, wanted in (("22 3/8", []), ("22 1/4", ["no-room-to-drive"])):
        wall = part("wall", (0, 24), (low, 30), (1, 4))
        grooved, joints, _ = make_contacts((cleat, panel, wall), (), joins)
        _, blames = prove_order(grooved, (), joints, (step("panel wall cleat"),))
        assert slugs(blames) == wanted


def test_what_stands_in_a_notch_of_the_part_leaves_no_room_at_all() -> None:
    notched = evolve(POST, cuts=part("x", (0, 1), (0, 1), (0, 1), cuts=[NOTCH]).cuts)
    tongue = part("tongue", ("12 1/2", 20), (10, 11), (0, 20))
    joins = (join("shelf", "to", "post", fixed=NAILED),)
    grooved, joints, _ = make_contacts((notched, SHELF, tongue), (), joins)
    _, blames = prove_order(grooved, (), joints, (step("post tongue shelf"),))
    assert [figure.measure for figure in blames[0].finding.figures] == [length(8), length(0)]


def test_a_joint_can_be_closed_by_either_part() -> None:
    far = part("far_shelf", ("12 3/4", 24), (10, "10 3/4"), (0, 20))
    parts = (*ROOMY, far)
    joins = (join("shelf", "to", "post left_side", fixed=NAILED), join("far_shelf", "to", "post"))
    for order, wanted in (
        ("left_side shelf post far_shelf", []),
        ("left_side post shelf far_shelf", []),
        ("post far_shelf left_side shelf", ["no-room-to-drive"]),
        ("left_side shelf far_shelf post", ["no-room-to-drive"]),
    ):
        _, blames = prove(parts, joins, step(order))
        assert slugs(blames) == wanted


def test_aslant_one_free_face_is_enough() -> None:
    above = part("above", ("3/4", 12), (11, "11 3/4"), (0, 20))
    below = part("below", ("3/4", 12), (9, "9 3/4"), (0, 20))
    assert nailed(fixed=SCREWED) == ()
    assert nailed(above, fixed=SCREWED) == ()
    (blame,) = nailed(above, below, fixed=SCREWED)
    assert [figure.words for figure in blame.finding.figures] == [
        "pocketed needs",
        "over the bottom of shelf, as far as below",
        "over the top of shelf, as far as above",
    ]


def test_inside_on_a_face_is_driven_through_the_first_part() -> None:
    front = part("box_front", (1, 11), (0, 8), (1, "1 3/4"))
    face = part("face", (0, 12), (0, 9), ("1/4", 1))
    back = part("box_back", (1, 11), (0, 8), (5, "5 3/4"))
    joins = (join("box_front", "to", "face", fixed=SCREWED),)
    for order, wanted in (
        ("face box_front box_back", []),
        ("box_back box_front face", ["no-room-to-drive"]),
    ):
        grooved, joints, _ = make_contacts((front, face, back), (), joins)
        _, blames = prove_order(grooved, (), joints, (step(order),))
        assert slugs(blames) == wanted


def test_a_shelf_in_a_groove_is_nailed_through_the_side_it_enters() -> None:
    shelf = part("shelf", ("3/8", 12), (10, "10 3/4"), (0, 20))
    joins = (join("shelf", "into", "left_side", fixed=NAILED),)
    wall = part("wall", (-6, -5), (0, 30), (0, 20))
    grooved, joints, _ = make_contacts((LEFT, shelf, wall), (), joins)
    for order, wanted in (
        ("left_side shelf wall", []),
        ("left_side wall shelf", ["no-room-to-drive"]),
    ):
        _, blames = prove_order(grooved, (), joints, (step(order),))
        assert slugs(blames) == wanted
    assert [figure.measure for figure in blames[0].finding.figures] == [length(8), length(5)]


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
