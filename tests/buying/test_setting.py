"""Screws and shims that set units in the room: counted by hand, and the same on both papers."""

from collections.abc import Mapping
from functools import cache

import pytest

from casewright.compiler.compile import Compiled
from casewright.compiler.papers import install_pages
from casewright.compiler.papers.press import Press
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


def test_shims_stand_under_the_base_that_units_share() -> None:
    """One ladder under both, 60 long: one pair for 16, and one more: 5. None on the wall."""
    found = {key: count for key, count in counts("frameless").items() if key[0] == "levelled"}
    assert list(found.values()) == [5]


@pytest.mark.parametrize("construction", ["frameless", "face_frame"])
def test_the_buying_list_and_the_installers_page_say_the_same(construction: str) -> None:
    job = built(construction).job
    assert job is not None
    rows = {row.name: row for row in buying_list(job, ()).rows}
    for name in {each.setting.driven for each in set_with(job)}:
        told = sum(each.count for each in set_with(job) if each.setting.driven == name)
        assert rows[name].needed == told
        assert rows[name].note == f"{told} of them to set the units in the room"
    press = Press(Printing())
    text = "".join(press.set(page.template, **page.values) for page in install_pages.pages(job))
    assert "8 (wall screw, no. 8, 3), the same at each stud." in text
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
