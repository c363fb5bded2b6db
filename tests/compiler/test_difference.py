"""Revisions compared: what becomes of each part when a width or a word changes."""

from pathlib import Path

import pytest
from attrs import evolve

from casewright.compiler.commands.world import InstalledLibrary
from casewright.compiler.compile import compile_job
from casewright.compiler.difference import Difference, Fate, compare, fate_of
from casewright.compiler.model import Job, Part
from casewright.compiler.world import world_of
from casewright.lang.cells import literal

GALLEY = Path(__file__).parents[2] / "examples" / "galley"


def build(*changes: tuple[str, str], entry: str = "galley.case") -> Job:
    """The galley with words of its kitchen text exchanged; each must be there once."""
    texts = {path.name: path.read_text(encoding="utf-8") for path in GALLEY.glob("*.case")}
    for old, new in changes:
        assert texts["kitchen.case"].count(old) == 1
        texts["kitchen.case"] = texts["kitchen.case"].replace(old, new)
    job = compile_job(world_of(texts, InstalledLibrary()), entry).job
    assert job is not None
    return job


def fates(difference: Difference, address: str) -> dict[str, Fate]:
    (change,) = (each for each in difference.units if each.address == address)
    return {part.address: part.fate for part in change.parts}


@pytest.fixture(scope="module")
def galley() -> Job:
    return build()


def test_nothing_differs_from_itself(galley: Job) -> None:
    difference = compare(galley, build())
    assert difference.equal
    assert difference.same == 8


def test_a_wider_unit_gives_its_neighbour_less(galley: Job) -> None:
    difference = compare(galley, build(("S5: door_base 18", "S5: door_base 21")))
    assert [change.address for change in difference.units] == ["S5", "S6"]
    (run,) = difference.runs
    assert [(address, by.value) for address, by in run.took] == [("S5", 3)]
    assert [(address, by.value) for address, by in run.gave] == [("S6", 3)]


def test_a_longer_floor_is_cut_again_and_a_shorter_one_cut_down(galley: Job) -> None:
    difference = compare(galley, build(("S5: door_base 18", "S5: door_base 21")))
    assert fates(difference, "S5")["floor"] is Fate.CUT_AGAIN
    assert fates(difference, "S6")["floor"] is Fate.CUT_DOWN
    assert fates(difference, "S6")["left_side"] is Fate.KEPT


def test_a_front_banded_all_round_is_never_cut_down(galley: Job) -> None:
    difference = compare(galley, build(("S5: door_base 18", "S5: door_base 15")))
    assert fates(difference, "S5")["door.face"] is Fate.CUT_AGAIN


def part(job: Job, unit: str, address: str) -> Part:
    (placed,) = (each for each in job.placed if each.address == unit)
    assert placed.unit is not None
    (found,) = (each for each in placed.unit.parts if each.address == address)
    return found


def test_without_grain_it_is_nothing_which_way_a_piece_is_longer(galley: Job) -> None:
    floor = part(galley, "S6", "floor")
    other = evolve(floor, length_axis=floor.width_axis, width_axis=floor.length_axis)
    assert fate_of(floor, other) == (Fate.KEPT, "")
    grained = (evolve(each, grained=True) for each in (floor, other))
    assert fate_of(*grained) == (Fate.CUT_AGAIN, "the grain runs otherwise")


def test_holes_that_go_elsewhere_spoil_a_piece_and_more_of_them_do_not(galley: Job) -> None:
    bored = part(galley, "S1", "left_side")
    assert bored.holes
    fewer = evolve(bored, holes=bored.holes[1:])
    assert fate_of(fewer, bored) == (Fate.KEPT, "more holes are bored")
    assert fate_of(bored, fewer) == (Fate.CUT_AGAIN, "bored otherwise")
    deeper = evolve(bored.holes[0], depth=literal(1))
    assert fate_of(bored, evolve(bored, holes=(deeper, *bored.holes[1:])))[0] is Fate.CUT_AGAIN


def test_the_changed_line_is_named(galley: Job) -> None:
    difference = compare(galley, build(("S5: door_base 18", "S5: door_base 15")))
    (change,) = (each for each in difference.units if each.address == "S5")
    was, now = change.lines
    assert was is not None
    assert now is not None
    assert "door_base 18" in was.text
    assert "door_base 15" in now.text


def test_a_unit_that_only_moves_keeps_its_parts(galley: Job) -> None:
    first = "  filler 1 1/2 scribe\n  S1"
    difference = compare(galley, build((first, first.replace("1 1/2", "2"))))
    kinds = {change.address: change.kind for change in difference.units}
    assert kinds == {
        "sink_wall.filler_1": "changed",
        "S1": "moved",
        "S2": "changed",
        # The skin before its base goes on under the filler.
        "sink_wall.base_S1": "changed",
    }
    assert set(fates(difference, "S1").values()) == {Fate.KEPT}


def test_a_removed_unit_leaves_its_parts_spare_and_its_neighbour_another_gap(
    galley: Job,
) -> None:
    without = build(("  S5: door_base 18  hung right\n", "  space 18\n"))
    difference = compare(galley, without)
    kinds = {change.address: change.kind for change in difference.units}
    assert kinds == {
        "S5": "removed",
        "sink_wall.space_1": "added",
        "S6": "changed",
        # What stood on one base with it gets one of its own.
        "sink_wall.base_S5": "removed",
        "sink_wall.base_S6": "added",
    }
    assert set(fates(difference, "S5").values()) == {Fate.SPARE}
    again = {a for a, fate in fates(difference, "S6").items() if fate is not Fate.KEPT}
    # Its side beside the space is seen now, so that is cut of the other board.
    assert again == {"left_side", "drawer_1.face", "drawer_2.face", "drawer_3.face"}


def test_another_construction_changes_every_cabinet(galley: Job) -> None:
    difference = compare(galley, build(entry="framed.case"))
    assert difference.same == 0
    assert fates(difference, "S1")["left_stile"] is Fate.NEW
