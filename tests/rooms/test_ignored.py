"""What the line of a placed thing says and nothing reads is blamed, at its word."""

import pytest

from tests.rooms.rooms import kitchen

ROOM = """
appliance stove { wide 30  high 36  depth 26 }
room galley {
  counter 36
  wall north length 120 {
    window at 40 wide 30 up 42 high 40
  }
}
run one on north from left {
"""


@pytest.mark.parametrize(
    ("line", "slug", "help"),
    [
        ("A2: stove at 48", "unknown-option", "stands where its run puts it"),
        ("A2: stove 30 at 48", "unknown-option", "stands where its run puts it"),
        ("A2: stove wide 30", "unknown-option", "stove 30"),
        ("A2: stove 30 shelves 2", "unknown-option", "take it out"),
        ("A2: stove 30 return 36", "unknown-option", "take it out"),
        ("A2: cupboard 24 share", "said-twice", "keep the width or the share"),
        ("space 24 share", "said-twice", "keep the width or the share"),
        ("A2: cupboard 24 centred on window over window", "said-twice", "keep centred on"),
        ("space share over window", "said-twice", "give it a width"),
        ("A2: cupboard share centred on window", "said-twice", "give it a width"),
    ],
)
def test_what_nothing_reads_is_blamed(line: str, slug: str, help: str) -> None:
    text = f"{ROOM}  A1: cupboard share\n  {line}\n  A3: cupboard share\n}}\n"
    found = [each for each in kitchen(text).findings if each.slug == slug]
    assert [help in each.help for each in found] == [True]


@pytest.mark.parametrize(
    "line",
    [
        "A2: stove",
        "A2: stove 30 high 35 depth 25 up 1 confirmed",
        "A2: stove share min 20 max 60",
        "A2: stove 30 centred on window",
        'A2: stove 30 { note "the cord comes from the left" }',
        "space over window",
        "space 20 min 10",
        "A2: cupboard 2 shares",
        "A2: cupboard 30 over window",
    ],
)
def test_what_is_read_is_not(line: str) -> None:
    text = f"{ROOM}  A1: cupboard share\n  {line}\n  A3: cupboard share\n}}\n"
    assert not {each.slug for each in kitchen(text).findings} & {"unknown-option", "said-twice"}
