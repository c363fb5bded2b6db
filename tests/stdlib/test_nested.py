"""Openings within openings: boxes and frames still go together, however they are joined."""

import pytest

from tests.stdlib.kitchens import check_whole, findings_of, unit_of

TREES = {
    "a row in a stack": """
        stack {
          row {
            door hung left
            door hung right
          }
          drawer 10
        }
    """,
    "stacks in a row": """
        row {
          stack {
            drawer 10
            drawer share
          }
          stack {
            drawer 8
            drawer share
          }
        }
    """,
    "a row in a stack in a row, on its left": """
        row {
          stack {
            row opening 10 {
              door hung left
              door hung right
            }
            drawer share
          }
          door hung right
        }
    """,
    "and on its right": """
        row {
          door hung left
          stack {
            row opening 10 {
              door hung left
              door hung right
            }
            drawer share
          }
        }
    """,
    "rows over one another, their posts in line": """
        stack {
          row opening 10 {
            door hung left
            door hung right
          }
          drawer 6
          row {
            door hung left
            door hung right
          }
        }
    """,
}

SHOP = "pulled no\n widest_door 40"


@pytest.mark.parametrize("tree", TREES)
@pytest.mark.parametrize(
    ("built", "joint"),
    [("frameless", ""), ("face_frame", "\n frame_joint tenoned"), ("face_frame", "")],
    ids=["frameless", "tenoned", "pocketed"],
)
def test_nested_openings_go_together(built: str, joint: str, tree: str) -> None:
    more = f"unit nested from base_unit {{{TREES[tree]}}}"
    check_whole(unit_of("nested 40", built, shop=SHOP + joint, more=more))


def test_a_spacing_block_is_told_before_the_stretcher_it_sets() -> None:
    unit = unit_of("drawer_base 24")
    told = [
        (step.words, [way.thing for way in step.ways])
        for step in unit.steps
        if step.assembly == "box"
    ]
    for index, (words, _) in enumerate(told):
        if words.startswith("a spacing block"):
            assert [thing.partition("stretcher")[1] for thing in told[index + 1][1]] == [
                "stretcher"
            ]
    blocks = [words.split(" sets")[0] for words, _ in told if "spacing block" in words]
    # Two equal openings under the topmost of 6, 3/4 between: (30 1/2 - 4 x 3/4 - 6) / 2 = 10 3/4.
    assert blocks == ['a spacing block of 10 3/4"'] * 2


def test_stock_is_milled_before_it_is_joined_and_sanded_after() -> None:
    unit = unit_of("door_base 18", "face_frame")
    told = [step.words for step in unit.steps if step.assembly == "frame"]
    brings = [index for index, step in enumerate(unit.steps) if step.assembly == "frame"]
    assert told[0].startswith('mill the stock to 13/16"')
    assert told[-1] == 'sand off the saw marks, down to 3/4"'
    assert not unit.steps[brings[0]].ways


def test_a_false_front_hangs_on_what_a_screw_can_be_driven_through() -> None:
    for built, shop, holder in (
        ("frameless", "", "nailer"),
        ("frameless", "fitted inset", "nailer"),
        ("face_frame", "", "stile"),
        ("face_frame", "fitted inset", "nailer"),
    ):
        unit = unit_of("sink_base 36", built, shop=shop)
        held = [
            joint
            for joint in unit.joints
            if "false_front.face" in joint.first and joint.fixing is not None
        ]
        assert held, (built, shop)
        assert all(holder in joint.second and joint.axis == "deep" for joint in held)


def test_half_blind_tails_are_counted() -> None:
    unit = unit_of("drawer_base 24", shop="cornered dovetail")
    told = [step.words for step in unit.steps if "half-blind" in step.words]
    # A box 5 1/2 high has six tails of 7/8; those 10 1/4 high have eleven.
    assert [words.split(" tails")[0] for words in told] == [
        "half-blind, 6",
        "half-blind, 11",
        "half-blind, 11",
    ]


@pytest.mark.parametrize(
    "shop", ["frame_joint tenoned", "frame_joint dowelled", "cornered dovetail"]
)
def test_nothing_is_said_of_joints_as_the_library_makes_them(shop: str) -> None:
    """A tenon of 5/8 goes into a stile's edge, and leaves 7/8 of it."""
    found = findings_of("drawer_door_base 18", "face_frame", shop=shop)
    assert [finding.headline for finding in found if "S1" in finding.tags] == []


def test_a_shops_wood_reaches_its_five_piece_fronts() -> None:
    unit = unit_of("door_base 18", shop="made five_piece  front_wood red_oak")
    names = {
        each.material.name
        for each in unit.parts
        if each.path.startswith("door") and each.role in ("stile", "rail")
    }
    assert names == {"red_oak"}


BOTH_SIDES = """
unit both_sides from base_unit {
  row {
    stack {
      drawer share
      drawer share
    }
    stack {
      drawer share
      drawer share
    }
  }
}
"""


@pytest.mark.parametrize(
    ("built", "shop"),
    [
        ("frameless", ""),
        *(("face_frame", f"frame_joint {joint}") for joint in ("pocketed", "dowelled", "tenoned")),
    ],
)
def test_two_stretchers_meet_one_partition_at_one_height(built: str, shop: str) -> None:
    """What comes second is driven from inside, since the first covers the partition's far side."""
    unit = unit_of("both_sides 48", built, shop=shop, more=BOTH_SIDES)
    drives = {
        each.fixing.drive
        for each in unit.joints
        if each.fixing is not None
        and "stretcher" in each.first
        and each.second.endswith("partition")
    }
    assert drives == {"inside", "through"}
    check_whole(unit)
