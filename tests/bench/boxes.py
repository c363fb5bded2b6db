"""A box of five parts made by hand, and its proof of order."""

from casewright.compiler.bench.order import prove_order
from casewright.compiler.blame import Blame
from casewright.compiler.joints.contact import make_contacts
from casewright.compiler.model import Assembly, Order, Part, Step, Wish
from tests.compiler.handmade import join, part


def prove(
    parts: tuple[Part, ...],
    wishes: tuple[Wish, ...],
    *orders: Order,
    assemblies: tuple[Assembly, ...] = (),
) -> tuple[tuple[Step, ...], tuple[Blame, ...]]:
    """The steps of parts whose joins are sound."""
    grooved, joints, blames = make_contacts(parts, assemblies, wishes)
    assert [blame.finding.headline for blame in blames] == []
    return prove_order(grooved, assemblies, joints, orders)


def slugs(blames: tuple[Blame, ...]) -> list[str]:
    return [blame.finding.slug for blame in blames]


def ways(steps: tuple[Step, ...]) -> dict[str, tuple[str, int]]:
    return {way.thing: (way.axis, way.side) for each in steps for way in each.ways}


LEFT = part("left_side", (0, "3/4"), (0, 30), (0, 20), line=1)
RIGHT = part("right_side", ("23 1/4", 24), (0, 30), (0, 20), line=2)
FLOOR = part("floor", ("3/4", "23 1/4"), (0, "3/4"), (0, 20), line=3)
CAP = part("cap", ("3/4", "23 1/4"), ("29 1/4", 30), (0, 20), line=4)
BACK = part("back_panel", ("3/8", "23 5/8"), ("3/8", "29 5/8"), (19, "19 1/4"), line=5)

# A box 24 wide, 30 high, 20 deep, its back let 3/8 into grooves of all four walls.
WALLED = (LEFT, RIGHT, FLOOR, CAP, BACK)
WALLED_JOINS = (
    join("floor cap", "to", "left_side right_side"),
    join("back_panel", "into", "left_side right_side floor cap", play="1/32"),
)
