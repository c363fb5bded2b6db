"""How many fasteners stand along a joint, and where."""

from fractions import Fraction

import pytest

from casewright.compiler.joints.contact import make_contacts
from casewright.compiler.joints.fastening import fastener_places
from casewright.compiler.model import Fasteners
from tests.compiler.handmade import fixing, join, part
from tests.joints.boards import FLOOR, LEFT, RIGHT, contacts


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
