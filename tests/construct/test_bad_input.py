"""What a person may get wrong in a construction: one finding, its line, its figures, its mend."""

import pytest

from casewright.lang.findings import Finding
from tests.stdlib.kitchens import compiled, findings_of, kitchen


def the_finding(line: str, built: str = "frameless", shop: str = "", more: str = "") -> Finding:
    (finding,) = findings_of(line, built, shop=shop, more=more)
    assert finding.span is not None
    assert finding.severity.value == "error"
    return finding


def line_of(finding: Finding) -> str:
    assert finding.span is not None
    return finding.span.source.line_text(finding.span.line).strip()


def test_a_slide_that_fits_nowhere() -> None:
    finding = the_finding("drawer_base 24 depth 9", shop="toe none")
    assert finding.slug == "none-fits"
    assert line_of(finding) == "S1: drawer_base 24 depth 9"
    shortest, room = finding.figures
    assert shortest.measure is not None
    assert room.measure is not None
    # 9 less a strip of 3/4, a back of 1/4 and 1/8 behind the slide.
    assert (float(shortest.measure.value), float(room.measure.value)) == (10, 7.875)
    assert finding.help


def test_a_stile_narrower_than_a_cup() -> None:
    finding = the_finding("door_base 18", shop="made five_piece\n front_stile 1 1/2")
    assert finding.slug == "hole-past-edge"
    assert "cup" in finding.headline
    assert line_of(finding) == "S1: door_base 18"
    assert len(finding.figures) == 4
    assert finding.help


def test_a_groove_that_goes_right_through() -> None:
    found = findings_of("door_base 18", shop="slot 3/4")
    assert {finding.slug for finding in found} == {"groove-through"}
    for finding in found:
        assert [row.measure and float(row.measure.value) for row in finding.figures] == [
            0.75,
            0.75,
            0,
        ]
        assert line_of(finding) == "S1: door_base 18"
        assert finding.help


def test_a_shelf_longer_than_its_sides_allow() -> None:
    found = findings_of("door_base 18", shop="play (0 - 1/8)")
    assert {finding.slug for finding in found} == {"parts-overlap"}
    assert all("shelf" in finding.headline for finding in found)
    # An eighth into each side; both lines are shown, the one that places it and the side's.
    for finding in found:
        assert 0.125 in [row.measure and float(row.measure.value) for row in finding.figures]
        assert line_of(finding) == "S1: door_base 18"
        assert len(finding.labels) >= 2
        assert finding.help


OVERFULL = """
unit overfull from base_unit {
  stack {
    drawer opening 14
    drawer opening 14
  }
}
"""


def test_openings_that_swallow_their_members() -> None:
    finding = the_finding("overfull 24", more=OVERFULL)
    assert finding.slug == "openings-dont-close"
    # 30 1/2 less floor and top stretcher is 29; less 3/4 between and twice 14: 1/4 short.
    assert [row.measure and float(row.measure.value) for row in finding.figures[:5]] == [
        29,
        0.75,
        14,
        14,
        0.25,
    ]
    assert finding.help


BANDED = """
unit banded  bare {{
  high  30
  depth 20
  part slat of white_melamine  across from left  band {edges}
  step slat
}}
"""


@pytest.mark.parametrize(
    ("edges", "slug"),
    [
        ("front left", "band-on-a-face"),
        ("front side", "unknown-edge"),
        ("front lower", "unknown-edge"),
    ],
)
def test_a_band_on_an_edge_that_is_not_there(edges: str, slug: str) -> None:
    finding = the_finding("banded 24", more=BANDED.format(edges=edges))
    assert finding.slug == slug
    assert line_of(finding).endswith(f"band {edges}")
    assert finding.help


RIPPED = """
unit ripped  bare {
  high  30
  depth 20
  part one of white_melamine  across left .. right  up 3 from bottom  deep from front  band bottom
  part two of white_melamine  across left .. right  up 3 7/8 to top   deep from front  band top
  part panel of white_melamine  across left .. right  up bottom .. top  deep to back
  part wing of white_melamine  across from left  deep one .. panel
  join one two panel to wing
  rip one two from 6 7/8 kerf 1/8
  step panel wing one two
}
"""


def test_a_blank_that_cannot_hold_its_strips() -> None:
    finding = the_finding("ripped 24", more=RIPPED)
    assert finding.slug == "blank-too-narrow"
    assert line_of(finding) == "rip one two from 6 7/8 kerf 1/8"
    # 3 and 3 7/8 and the cut of 1/8 between them are 7: an eighth more than there is.
    figures = [row.measure and float(row.measure.value) for row in finding.figures]
    assert figures == [3, 3.875, 7, 6.875, 0.125]
    assert finding.help == "make the blank wider, or a strip narrower"


def test_one_that_just_holds_them_is_none() -> None:
    found = findings_of("ripped 24", more=RIPPED.replace("6 7/8", "7"))
    assert [finding.slug for finding in found if "S1" in finding.tags] == []


LEFT_OUT = """
unit left_out  bare {
  high  30
  depth 20
  part one of birch_ply  across from left
  part two of birch_ply  across from one
  join two to one
  step one
}
"""


def test_steps_that_leave_a_part_out() -> None:
    finding = the_finding("left_out 24", more=LEFT_OUT)
    assert finding.slug == "part-in-no-step"
    assert finding.headline == "two is in no step"
    assert line_of(finding) == "part two of birch_ply  across from one"
    assert finding.help == "name two in the step that brings it in"


def test_an_option_nothing_reads() -> None:
    finding = the_finding("door_base 18  colour birch_ply")
    assert finding.slug == "unknown-option"
    assert "colour" in finding.headline
    misspelt = the_finding("door_base 18  toe_hup 3")
    assert misspelt.help == "did you mean toe_up?"


def test_an_option_only_another_way_to_build_reads_is_an_advice_and_no_more() -> None:
    found = compiled(kitchen(["door_base 18  proud 1/8"]))
    (finding,) = (each for each in found.findings if each.slug == "option-unread")
    assert finding.severity.value == "advice"
    assert all(each.severity.value != "error" for each in found.findings)
    assert found.job is not None
    (run,) = found.job.runs
    (unit,) = (placed.unit for placed in run.placed if placed.unit is not None)
    assert unit.steps


def test_an_option_that_nothing_made_in_a_unit_reads_is_said_on_its_line() -> None:
    for line, word in (
        ("door_base 18  runner undermount", "runner"),
        ("open_base 24  door_hinge butt_hinge", "door_hinge"),
        ("sink_base 36  reach 4", "reach"),
    ):
        (finding,) = (each for each in findings_of(line) if each.slug == "option-unread")
        assert finding.headline.endswith(f" reads {word}")
        assert line_of(finding).endswith(line)
        assert finding.severity.value == "advice"
    for line in ("drawer_base 24  runner undermount", "door_base 18  reach 4  pull_from top"):
        assert "option-unread" not in [each.slug for each in findings_of(line)]


def test_a_door_too_wide_for_its_hinges_and_one_too_narrow() -> None:
    assert the_finding("door_base 24 1/2").headline.startswith('a door 24 1/4" wide is too wide')
    assert the_finding("pair_base 10").headline.startswith("a door would be only")


def test_a_panel_that_would_fall_out_of_its_groove() -> None:
    shop = "made five_piece\n floating solid\n driest 0\n dampest 16\n ploughed 1/4"
    finding = the_finding("door_base 18", shop=shop)
    assert finding.slug == "requirement-not-met"
    assert "stays in the groove" in finding.headline
