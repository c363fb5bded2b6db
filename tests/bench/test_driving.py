"""Room for every fastener to be driven."""

from fractions import Fraction

from attrs import evolve

from casewright.compiler.bench.order import prove_order
from casewright.compiler.blame import Blame
from casewright.compiler.joints.contact import make_contacts
from casewright.compiler.model import Fixing, Part
from casewright.lang.measure import length
from casewright.lang.source import Own
from tests.bench.boxes import (
    LEFT,
    prove,
    slugs,
)
from tests.compiler.handmade import box, fixing, join, part, step

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
