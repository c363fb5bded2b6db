"""What is of two things may be accepted on the line of either, or of both; on no other's."""

import pytest

from tests.compiler.examples import compiled

AROUND_A_CORNER = """
use checks
room galley {{
  floor   finished
  ceiling 96
  counter 36 thick 1 1/2
  wall west  length 60
  wall north length 72
}}
run west_wall on west from right length 48 {{
  W1: drawer_base share{west}
  space 28
}}
run sink_wall on north from left length 50 {{
  space 28
  S1: drawer_base 20{north}
  space 2
}}
"""

BARRED = """
use checks
room galley {{
  floor   finished
  ceiling 96
  counter 36 thick 1 1/2
  wall west  length 60
  wall north length 72
}}
run west_wall on west from right length 49 {{
  W1: drawer_base share{west}
  space 25
}}
run sink_wall on north from left length 47 {{
  space 25
  S1: drawer_base 20{north}
  space 2
}}
"""

TOES = """
use checks
use plain_room
run sink_wall on north from left length 60 {{
  S1: open_base 20{west}
  S2: open_base 20  toe_up 4 1/2{north}
  S3: open_base 20  toe_up 4 1/2{third}
}}
"""


def found(text: str, slug: str, **accepts: str) -> list[str]:
    """The reasons for which each finding of one slug is accepted; the names of acceptances that
    nothing was found for."""
    lines = {
        name: f" {{\n    accept {slug} {reason}\n  }}" if reason else ""
        for name, reason in accepts.items()
    }
    told = compiled({"page.case": text.format(**lines).encode()}, "page.case").findings
    idle = [each.slug for each in told if each.slug == "accepts-nothing"]
    return [*(each.accepted for each in told if each.slug == slug), *idle]


@pytest.mark.parametrize(
    ("text", "slug"),
    [(AROUND_A_CORNER, "sweeps-meet"), (BARRED, "drawer-meets-fixed")],
    ids=["two that sweep", "two that bar one another"],
)
def test_what_is_of_two_runs_is_accepted_on_either(text: str, slug: str) -> None:
    assert found(text, slug, west="", north="") == [""]
    assert found(text, slug, west="one at a time", north="") == ["one at a time"]
    assert found(text, slug, west="", north="one at a time") == ["one at a time"]


@pytest.mark.parametrize(
    ("text", "slug"),
    [(AROUND_A_CORNER, "sweeps-meet"), (BARRED, "drawer-meets-fixed")],
    ids=["two that sweep", "two that bar one another"],
)
def test_both_may_accept_it(text: str, slug: str) -> None:
    assert found(text, slug, west="here", north="and here") == ["here"]


def test_neighbours_accept_what_is_of_both_and_nobody_else_does() -> None:
    slug = "toes-disagree"
    assert found(TOES, slug, west="old toe", north="", third="") == ["old toe"]
    assert found(TOES, slug, west="", north="old toe", third="") == ["old toe"]
    assert found(TOES, slug, west="", north="", third="old toe") == ["", "accepts-nothing"]
