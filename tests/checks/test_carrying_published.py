"""What two people should carry: NIOSH's equation (94-110, rev. 2021) out of `check`."""

from fractions import Fraction

import pytest

from tests.checks.reading import figure, finding, findings, job, source

POSTURE = """
  carry_reach  {reach}
  carry_from   {start}
  carry_travel {travel}
  carry_grip   {grip}
"""


def kitchen(tall: str, *, reach: str = "15", start: str = "20", travel: str = "15") -> str:
    posture = POSTURE.format(reach=reach, start=start, travel=travel, grip="0.9")
    return (
        job(allowances=posture)
        + "room galley {\n  floor finished\n  ceiling 96\n  counter 36 thick 1 1/2\n"
        + "  wall north length 72\n}\n"
        + f"run tall on north from left length 28 {{\n  space 2\n  {tall}\n  space 2\n}}\n"
    )


# Y-11's second posture: hands 15 out, 20 high, 15 up, grip .90 -> 51 x 10/15 x (1 - .0075 x 10) x
# (.82 + 1.8/15) x .9 = 26.607... lb.
@source("NIOSH 94-110 (rev. 2021)")
def test_one_lifts_what_the_equation_says() -> None:
    told = finding(kitchen("T1: tall_unit 24  hung left  hinges 5"), "heavy-to-carry")
    one = 51 * Fraction(10, 15) * Fraction(925, 1000) * Fraction(94, 100) * Fraction(9, 10)
    assert figure(told, "one should lift") == one
    assert round(float(one), 1) == 26.6
    assert figure(told, "people") == -(-figure(told, "T1, without what comes out") // one)


@source("NIOSH 94-110 (rev. 2021)")
@pytest.mark.parametrize(("reach", "heavy"), [("10", False), ("25", True)])
def test_what_is_held_farther_out_is_too_heavy_sooner(reach: str, heavy: bool) -> None:
    text = kitchen("S1: open_base 24", reach=reach, start="30", travel="10")
    assert bool(findings(text, "heavy-to-carry")) is heavy


def test_doors_and_shelves_are_taken_out_first() -> None:
    bare = finding(kitchen("T1: tall_unit 24  hung left  hinges 5"), "heavy-to-carry")
    full = finding(kitchen("T1: tall_unit 24  hung left  hinges 5  shelves 3"), "heavy-to-carry")
    word = "T1, without what comes out"
    assert figure(bare, word) == figure(full, word)


def test_all_are_told_once_with_what_two_carry() -> None:
    text = kitchen("S1: open_base share\n  T1: tall_unit 12  hung left  hinges 5")
    told = finding(text, "heavy-to-carry")
    assert told.tags == ("T1",)
    assert told.help.endswith("; two people for S1")


def test_what_is_accepted_leaves_the_others_their_own_figures() -> None:
    tall = "T1: tall_unit 24  hung left  hinges 5"
    wider = "T2: tall_unit 30  hung left  hinges 5"
    text = kitchen(f"{tall}\n  {wider} {{\n    accept heavy-to-carry on a dolly\n  }}").replace(
        "length 28", "length 58"
    )
    left, accepted = findings(text, "heavy-to-carry")
    assert left.headline.startswith("T1 weighs more")
    assert accepted.headline.startswith("T2 weighs more")
    assert figure(left, "T1, without what comes out") < figure(
        accepted, "T2, without what comes out"
    )
