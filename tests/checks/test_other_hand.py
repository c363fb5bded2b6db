"""A door's other hand is written only where it clears the door and brings nothing new."""

import pytest

from casewright.lang.findings import Finding
from tests.checks.reading import findings, job

SLUG = "door-meets-wall"


def kitchen(run: str, *, wall: str = "72", more: str = "") -> str:
    return (
        job()
        + "room galley {\n  floor finished\n  ceiling 96\n  counter 36 thick 1 1/2\n"
        + f"  wall west length 90\n  wall north length {wall}\n  wall east length 90\n}}\n"
        + f"run low on north from left {{\n{run}}}\n{more}"
    )


def offered(text: str) -> list[str]:
    return [edit.replacement for each in findings(text, SLUG) for edit in each.edits]


def said(text: str) -> set[tuple[str, str]]:
    found: tuple[Finding, ...] = findings(text, SLUG)
    return {(each.slug, each.headline) for each in found}


@pytest.mark.parametrize(("hand", "other"), [("left", "right"), ("right", "left")])
def test_the_other_hand_is_written(hand: str, other: str) -> None:
    gap = ("  filler 1\n", "  space share\n")
    before, after = gap if hand == "left" else reversed(gap)
    text = kitchen(f"{before}  S1: door_base 22  hung {hand}\n{after}")
    # A filler that could be wider is written first; here nothing gives, as both are stated.
    text = text.replace("space share", "space 49")
    assert offered(text) == [other]
    assert said(text.replace(f"hung {hand}", f"hung {other}")) == set()


def test_no_hand_where_the_other_meets_a_wall_too() -> None:
    text = kitchen("  filler 1\n  S1: door_base 22  hung left\n  filler 1\n", wall="24")
    assert len(said(text)) == 1
    assert offered(text) == []


def test_no_hand_where_the_other_meets_a_run_around_the_corner() -> None:
    east = "run east_run on east from right length 66 {\n  E1: open_base 66\n}\n"
    text = kitchen("  filler 1\n  S1: door_base 22  hung left\n  space 23\n", wall="46", more=east)
    assert offered(text) == []


def test_no_hand_of_one_that_the_line_does_not_say() -> None:
    unit = "unit left_base from door_base  hung left\n"
    text = kitchen("  filler 1\n  S1: left_base 22\n  space 49\n", more=unit)
    assert len(said(text)) == 1
    assert offered(text) == []
