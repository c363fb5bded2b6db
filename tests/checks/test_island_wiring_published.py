"""Receptacles in islands by edition: a rule of one edition is no rule of another."""

import pytest

from tests.checks.reading import figure, findings, job, source


# NEC 2002, 210.52(C)(2) and (3): one at least where an island is 24 by 12 or more. 2020: by area,
# one for the first 9 square feet, one for each further 18 (from memory). 2023: none is asked for.
def island(pack: str, long: str, deep: str, *outlets: str) -> str:
    lines = "\n".join(f"    outlet o{n} {each}" for n, each in enumerate(outlets))
    return (
        job(rules=pack)
        + "use std_rules\nroom galley {\n  floor finished\n  ceiling 96\n  counter 36 thick 1 1/2\n"
        + f"  wall north length 300\n  island work from north out 90 at 60 length {long}"
        + f" depth {deep} {{\n    note an island\n{lines}\n  }}\n}}\n"
        + "run front on work facing front { S1: open_base share depth 12 }\n"
    )


@source("NEC 2002, 210.52(C)")
@pytest.mark.parametrize(
    ("long", "deep", "outlets", "ruled"),
    [
        ("24", "12", (), True),
        ("23 7/8", "12", (), False),
        ("24", "12 1/8", ("at 6 up 30 facing left",), False),
        ("84", "48", ("at 6 up 30 facing left",), False),
    ],
)
def test_an_island_has_one_receptacle(
    long: str, deep: str, outlets: tuple[str, ...], ruled: bool
) -> None:
    text = island("wiring_2002", long, deep, *outlets)
    assert bool(findings(text, "island-outlets-ruled")) is ruled
    assert findings(text, "island-outlets-by-area-ruled") == ()


# 84 x 48 are 28 square feet: 9, and two of up to 18 more; 81 x 48 are 27: 9 and one of 18.
@source("NEC 2020, 210.52(C)(2), from memory")
@pytest.mark.parametrize(
    ("long", "deep", "outlets", "lacking"),
    [("84", "48", 1, 2), ("81", "48", 2, 0), ("27", "48", 0, 1)],
)
def test_receptacles_of_an_island_by_area(long: str, deep: str, outlets: int, lacking: int) -> None:
    places = [f"at {at + 2} up 30 facing left" for at in range(outlets)]
    text = island("wiring_2020", long, deep, *places)
    told = findings(text, "island-outlets-by-area-ruled")
    assert [figure(each, "measured") for each in told] == ([lacking] if lacking else [])
    assert findings(text, "island-outlets-ruled") == ()
    assert all("from memory" in each.help for each in told)


@source("NEC 2023, 210.52(C)(3), from memory")
def test_an_island_of_2023_needs_no_receptacle_but_none_under_its_counter() -> None:
    bare = island("wiring_2023", "84", "48")
    assert findings(bare, "island-outlets-ruled") == ()
    assert findings(bare, "island-outlets-by-area-ruled") == ()
    under = island("wiring_2023", "84", "48", "at 6 up 35 facing left", "at 9 up 36 facing left")
    (told,) = findings(under, "outlet-under-counter-ruled")
    assert figure(told, "measured") == 1


@source("NEC 2002, 210.52(C)")
@pytest.mark.parametrize(("up", "ruled"), [("24", False), ("23 7/8", True)])
def test_receptacles_under_the_counter_of_an_island(up: str, ruled: bool) -> None:
    text = island("wiring_2002", "84", "48", f"at 6 up {up} facing left")
    assert bool(findings(text, "outlet-under-counter-ruled")) is ruled


@source("NEC 2002, 210.52(C)")
def test_the_wall_line_is_no_rule_of_an_island() -> None:
    text = island("wiring_2002", "84", "48", "at 6 up 30 facing left")
    assert findings(text, "outlet-far-ruled") == ()
