"""Screws and shims that set units in the room: counted by hand, and the same on both papers."""

from collections import Counter
from collections.abc import Mapping
from fractions import Fraction
from functools import cache

import pytest

from casewright.compiler.compile import Compiled
from casewright.compiler.papers.pages import install_pages
from casewright.compiler.papers.pages.press import Press
from casewright.compiler.shop.buying import buying_list
from casewright.compiler.shop.setting import set_with
from casewright.lang.findings import Severity
from casewright.lang.printing import Printing
from tests.buying.shops import CHOICES, choices

ROOM = """
measure in inches
use std edition 1

job Set {
  built %s
}

room work {
  floor   finished
  ceiling 101
  counter 36 thick 1 1/2
  wall bench length 61 1/2
}

run low on bench from left {
  filler 3/4 scribe
  S1: drawer_base 30
  S2: drawer_base 30
  filler share scribe
}

run high on bench from left up 54 {
  filler 3/4 scribe
  U1: wall_unit 30 high 30
  U2: wall_unit 30 high 30
  filler share scribe
}
"""


@cache
def built(construction: str) -> Compiled:
    _, found = choices(ROOM % construction)
    assert found.job is not None
    return found


def counts(construction: str) -> Mapping[tuple[str, str, str], int]:
    job = built(construction).job
    assert job is not None
    return {(each.setting.name, each.holder, each.neighbour): each.count for each in set_with(job)}


def test_wall_screws_at_each_stud_that_a_strip_may_meet() -> None:
    """Strips of 28 1/2 between sides of 3/4 meet two studs 16 apart at most, two screws at each: 4
    a strip. A wall unit has two strips, a base unit one."""
    found = counts("frameless")
    assert found["hung_on_the_wall", "U1", ""] == 8
    assert found["hung_on_the_wall", "S1", ""] == 4


def test_neighbours_are_joined_once_by_their_sides_or_by_their_stiles() -> None:
    """Sides 30 high take one for 16, and one more: 3, and never fewer than 4. Stiles are as high
    as what is seen, and the boxes behind them stand apart."""
    frameless, framed = counts("frameless"), counts("face_frame")
    assert frameless["joined_sides", "U1", "U2"] == 4
    assert ("joined_stiles", "U1", "U2") not in frameless
    assert framed["joined_stiles", "U1", "U2"] == 3
    assert ("joined_sides", "U1", "U2") not in framed


@pytest.mark.parametrize(("construction", "floor"), [("frameless", "28.5"), ("face_frame", "28")])
def test_a_unit_is_screwed_down_into_the_ladder_it_shares(construction: str, floor: str) -> None:
    """A floor of 30 less two sides of 3/4 (28 1/2), or behind stiles 1/4 proud at each side (28),
    lies on the toe rail: one for 16 (28 / 16 makes 2), and one more: 3. It ends before the back
    panel, 23 from the front, and the back rail begins at 23 1/4: none there. None on the wall."""
    job = built(construction).job
    assert job is not None
    found = [each for each in set_with(job) if each.setting.name == "screwed_to_base"]
    assert [(each.holder, each.parts, each.neighbour, each.into, each.count) for each in found] == [
        ("S1", ("floor",), "low.base_S1", ("toe_rail",), 3),
        ("S2", ("floor",), "low.base_S1", ("toe_rail",), 3),
    ]
    unit = next(each.unit for each in job.placed if each.address == "S1")
    assert unit is not None
    (long,) = (part.length.value for part in unit.parts if part.path == "box.floor")
    assert long == Fraction(floor)


@pytest.mark.parametrize(
    ("run", "count"),
    [
        ("S1: drawer_base 30 toe notched", {}),
        ("S1: drawer_base 30 toe legs", {}),
        ("S1: drawer_base 15", {"S1": 2}),
        ("S1: drawer_base 33 1/2", {"S1": 3}),
        ("S1: drawer_base 33 5/8", {"S1": 4}),
    ],
)
def test_screws_into_a_base_follow_the_floor_that_lies_on_it(
    run: str, count: Mapping[str, int]
) -> None:
    """A notched box stands by itself, and legs stand on nothing. Floors of 13 1/2 and 32 make one
    and two spaces, 2 and 3 screws; 32 1/8 makes three spaces: 4."""
    lines = f"{run}\n  filler share scribe\n}}"
    text = ROOM.replace(
        "S1: drawer_base 30\n  S2: drawer_base 30\n  filler share scribe\n}", lines, 1
    )
    _, found = choices(text % "frameless")
    assert found.job is not None
    driven = [each for each in set_with(found.job) if each.setting.name == "screwed_to_base"]
    assert {each.holder: each.count for each in driven} == count


def test_shims_stand_under_the_base_that_units_share() -> None:
    """One ladder under both, 60 long: one pair for 16, and one more: 5. None on the wall."""
    found = {key: count for key, count in counts("frameless").items() if key[0] == "levelled"}
    assert list(found.values()) == [5]


@pytest.mark.parametrize("construction", ["frameless", "face_frame"])
def test_the_buying_list_and_the_installers_page_say_the_same(construction: str) -> None:
    job = built(construction).job
    assert job is not None
    rows = {row.name: row for row in buying_list(job, ()).rows}
    jointed = Counter[str]()
    for placed in job.placed:
        for joint in placed.unit.joints if placed.unit is not None else ():
            for fasteners in joint.fasteners:
                jointed[fasteners.name] += fasteners.count
    for name in {each.setting.driven for each in set_with(job)}:
        told = sum(each.count for each in set_with(job) if each.setting.driven == name)
        assert rows[name].needed == told + jointed[name]
        assert rows[name].note == f"{told} of them to set the units in the room"
    press = Press(Printing())
    text = "".join(press.set(page.template, **page.values) for page in install_pages.pages(job))
    assert "8 (wall screw, no. 8, 3), the same at each stud." in text
    down = "down through the floor into the base&#39;s toe rail: 3 (wood screw, no. 8, 2)."
    assert text.count(down) == 2
    joined = 4 if construction == "frameless" else 3
    assert f"Clamp it to U1, faces in line, and join them: {joined} (" in text


@pytest.mark.parametrize(
    ("line", "slug", "words"),
    [
        ("setting odd { with nail  studs }", "value-missing", "one of through, between and under"),
        ("setting odd { through hanging }", "value-missing", "doesn't say with what"),
        ("setting odd { with nial  through hanging }", "unknown-thing", "nial"),
        ("setting odd { with nail  through hanging  least 1.5 }", "count-not-whole", "whole"),
        ("setting odd { with nail  under base_unit  every 0 }", "size-not-positive", "spacing"),
    ],
)
def test_a_setting_that_cannot_be_read_is_blamed(line: str, slug: str, words: str) -> None:
    _, found = choices(f"{CHOICES}\nfastener nail {{ long 2 }}\n{line}\n")
    (said,) = [each for each in found.findings if each.severity is Severity.ERROR]
    assert said.slug == slug
    assert words in said.headline
    assert found.job is not None
    assert found.job.supply.settings == ()


CORNER = """
measure in inches
use std edition 1

job Set {
  built %s
}

room work {
  floor   finished
  ceiling 101
  counter 36 thick 1 1/2
  wall west  length 96
  wall north length 96
}

run west_run on west from right length 60 {
  W1: drawer_base share
  C1: %s 36 return 36
}

run north_run on north after C1 {
  N1: drawer_base 30
  filler share scribe
}
"""


@cache
def around(construction: str, unit: str) -> Compiled:
    _, found = choices(CORNER % (construction, unit))
    assert found.job is not None, [each.headline for each in found.findings]
    return found


@pytest.mark.parametrize("construction", ["frameless", "face_frame"])
@pytest.mark.parametrize("unit", ["corner_base", "diagonal_base"])
def test_a_corner_unit_is_screwed_to_both_its_walls_and_joined_around_the_corner(
    construction: str, unit: str
) -> None:
    """Each leg's strip is over 32 and under 36 long: three studs 16 apart at most, two screws at
    each: 6 on each wall. N1 stands at the end of the leg around the corner."""
    job = around(construction, unit).job
    assert job is not None
    driven = set_with(job)
    hung = [each for each in driven if each.setting.through == ("hanging",) and each.holder == "C1"]
    assert [(each.parts, each.wall, each.count) for each in hung] == [
        (("hanging_strip",), "", 6),
        (("return_strip",), "north", 6),
    ]
    between = {
        frozenset((each.holder, each.neighbour)): each.count
        for each in driven
        if each.setting.between
    }
    assert between.keys() == {frozenset(("W1", "C1")), frozenset(("C1", "N1"))}
    assert between[frozenset(("W1", "C1"))] == between[frozenset(("C1", "N1"))]


def test_the_installers_pages_tell_of_both_walls() -> None:
    job = around("frameless", "diagonal_base").job
    assert job is not None
    press = Press(Printing())
    text = "".join(press.set(page.template, **page.values) for page in install_pages.pages(job))
    strip = "Screws through the return strip into north, the wall around the corner: 6 ("
    assert text.count(strip) == 1
    assert text.count("Clamp it to C1, faces in line, and join them: ") == 2
    assert "Clamp it to N1" not in text
