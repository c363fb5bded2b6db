"""Every part and every assembly is brought by one step."""

from casewright.compiler.bench.order import prove_order
from casewright.compiler.joints.contact import make_contacts
from casewright.lang.source import Own
from tests.bench.boxes import CAP, FLOOR, LEFT, RIGHT, prove, slugs, ways
from tests.compiler.handmade import assembly, join, part, step

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
