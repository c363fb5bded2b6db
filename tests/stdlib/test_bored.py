"""Screws that stand in bored holes: the machining, the steps and the lists say one number."""

from collections import Counter

import pytest

from casewright.compiler.model import AXES, Hole, Job, Joint, Part, Unit
from casewright.compiler.papers.lists.hardware_list import hardware_list
from casewright.compiler.papers.lists.machining import worked
from casewright.compiler.papers.pieces import Built, built
from casewright.compiler.shop.buying import buying_list
from tests.stdlib.kitchens import job_of, kitchen
from tests.stdlib.sizes import METRIC, USUAL

DRAWN = (
    "drawer_base",
    "drawer_bank",
    "drawer_door_base",
    "drawer_pair_base",
    "cooktop_base",
    "oven_tall",
)
"""The units with drawers."""

CONSTRUCTIONS = ("frameless", "face_frame", "metric_frameless", "metric_face_frame")

UNDER = {False: "runner undermount", True: "runner undermount_mm"}


def drawers(construction: str, shop: str = "") -> Job:
    metric = construction.startswith("metric")
    widths = METRIC if metric else USUAL
    lines = [f"{name} {widths[name]}" for name in DRAWN]
    return job_of(kitchen(lines, construction, shop=shop, metric=metric))


def held_in_holes(unit: Unit) -> list[tuple[Joint, int]]:
    """The joints whose fixing is bored, with how many fasteners hold each."""
    return [
        (joint, sum(each.count for each in joint.fasteners if each.use == "hold"))
        for joint in unit.joints
        if joint.fixing is not None and joint.fixing.bored
    ]


def opens_at(hole: Hole, joint: Joint) -> bool:
    """Whether a hole's middle lies on the contact of a joint."""
    at = dict(zip(hole.at_axes, (each.value for each in hole.at), strict=True))
    return hole.axis == joint.axis and all(
        low <= at[axis] <= high
        for axis in AXES
        if axis != joint.axis
        for low, high in (joint.area.along(axis),)
    )


@pytest.mark.parametrize("construction", CONSTRUCTIONS)
@pytest.mark.parametrize("under", [False, True], ids=["beside", "under"])
def test_holes_screws_steps_and_lists_are_one_number(construction: str, under: bool) -> None:
    shop = UNDER[construction.startswith("metric")] if under else ""
    job = drawers(construction, shop)
    items = [item for item in built(job) if item.unit.name in DRAWN]
    assert [item.unit.name for item in items] == list(DRAWN)
    screws: Counter[str] = sum((holds_of(item) for item in items), Counter())
    lists = {row.name: row.count for row in hardware_list(job)}
    bought = {row.name: row.net for row in buying_list(job, ()).rows}
    assert screws["slide_screw"] > 60
    for name in ("slide_screw", "pull_screw"):
        assert lists[name] == bought[name] == screws[name]


def holds_of(item: Built) -> Counter[str]:
    """What holds in one unit, by name, as its steps count it; on the way, that each joint in
    bored holes has as many as there are holes at it, and that all of them are machined."""
    unit, machined = item.unit, machined_holes(item)
    by_path: dict[str, Part] = {part.path: part for part in unit.parts}
    wanted: Counter[str] = Counter()
    for joint, count in held_in_holes(unit):
        holes = [
            hole
            for path in (joint.first, joint.second)
            for hole in by_path[path].holes
            if opens_at(hole, joint)
        ]
        assert count == len(holes) > 0, (unit.name, joint.first, joint.second)
        wanted.update(hole.use for hole in holes)
    # Every hole that a slide or a pull asks for is at a joint, and on the machining list once.
    for use in ("slide", "pull"):
        assert wanted[use] == machined[use] > 0
    closed = [unit.joints[index] for step in unit.steps for index in step.joints]
    held: Counter[str] = Counter()
    for joint in closed:
        held.update({each.name: each.count for each in joint.fasteners})
    return held


def machined_holes(item: Built) -> Counter[str]:
    """Holes by their use, as the machining list of a unit has them."""
    found: Counter[str] = Counter()
    for each in worked(item):
        for work in each.works:
            for hole in work.holes:
                found[hole.use] += len(each.parts)
    return found
