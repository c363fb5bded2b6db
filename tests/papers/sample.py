"""A galley built by hand, so that papers are tested on figures no compiler worked out.

The wall is 158 1/4: filler 1 1/2, S1 18, S2 28 1/2, S3 36, S4 24, S5 18, S6 30 3/4, filler 1 1/2.
Boxes are frameless, common practice: 3/4 board, sides 30 1/2 on a ladder base of 4.
"""

from collections.abc import Iterable

from attrs import evolve

from casewright.compiler.model import (
    Box,
    Corner,
    Feature,
    Job,
    Placed,
    Room,
    Run,
    Unit,
    Wall,
)
from casewright.lang.cells import literal
from casewright.lang.findings import Figure, Finding, Label, Severity
from casewright.lang.measure import Dimension, System, length
from casewright.lang.source import Source, Span
from tests.papers.sample_cabinet import BASE_DEEP, BASE_HIGH, NONE, T, cabinet
from tests.papers.sample_goods import (
    BAND,
    BIRCH,
    HALF,
    HINGE,
    MAPLE,
    MAPLE_BAND,
    SLIDE,
    THIN,
    WHITE,
    F,
    part,
    q,
    step,
)

SOURCE = Source(
    "kitchen.case",
    "room galley {\n  wall north length 158 1/4\n}\n"
    "run sink_wall on north from left {\n  S1: door_base 18   hung left\n}\n",
)


def _drawers(width: F, framed: bool) -> Unit:
    # 30 1/2 less four members of 3/4 is 27 1/2; framed, less four rails of 1 1/2, is 24 1/2.
    rest = F(37, 4) if framed else F(43, 4)
    stack = (("drawer", F(6), ""), ("drawer", rest, ""), ("drawer", rest, ""))
    return cabinet("drawer_base", width, stack, framed=framed)


def _doors(hung: str, framed: bool) -> Unit:
    # 30 1/2 less two members of 3/4 is 29; framed, less two rails of 1 1/2, is 27 1/2.
    clear = F(55, 2) if framed else F(29)
    return cabinet("door_base", F(18), (("door", clear, hung),), shelves=1, framed=framed)


def _sink(framed: bool) -> Unit:
    # 30 1/2 less floor and stretcher; without a stretcher over the top opening.
    rest = F(20) if framed else F(23)
    return cabinet(
        "sink_base", F(36), (("false_front", F(6), ""), ("doors", rest, "")), top=False,
        framed=framed,
    )  # fmt: skip


def _wall(width: F, framed: bool) -> Unit:
    clear = F(33) if framed else F(69, 2)
    return cabinet(
        "wall_unit", width, (("doors", clear, ""),), height=F(36), depth=F(12), toe=F(0),
        shelves=2, role="wall_unit", framed=framed,
    )  # fmt: skip


def placed(
    tag: str, kind: str, run: str, unit: Unit | None, at: F, width: F, up: F = NONE,
    height: F = BASE_HIGH, depth: F = BASE_DEEP, title: str = "", address: str = "",
) -> Placed:  # fmt: skip
    assert kind in ("unit", "filler", "appliance", "space")
    return Placed(
        tag, address or tag, title or (unit.title if unit else kind), kind, run, unit,  # type: ignore[arg-type]
        q(at), q(width), q(up), unit.height if unit else q(height),
        unit.depth if unit else q(depth), {}, (), None,
    )  # fmt: skip


def _strip(width: F, height: F) -> Unit:
    """A loose filler: one part."""
    piece = part("strip", "filler", BIRCH, Box((F(0), width), (F(0), height), (F(0), T)), "deep",
                 "up")  # fmt: skip
    return Unit(
        "filler", "filler", "frameless", "filler", q(width), q(height), q(T), (piece,), (), (), (),
        (), (step(1, "", [("strip", "", 0)]),), (), {}, {}, (),
    )  # fmt: skip


def _row(
    run: str, up: F, things: Iterable[tuple[str, str, Unit | None, F, str]], height: F, depth: F
) -> tuple[Placed, ...]:
    at = F(0)
    row = []
    fillers = 0
    for tag, kind, unit, width, title in things:
        address = tag
        if kind == "filler":
            fillers += 1
            address = f"{run}.filler_{fillers}"
        elif not tag:
            address = f"{run}.{title.replace(' ', '_')}"
        row.append(placed(tag, kind, run, unit, at, width, up, height, depth, title, address))
        at += width
    return tuple(row)


def galley(framed: bool = False) -> Job:
    """The galley's sink wall with its wall units."""
    doors_left, doors_right = _doors("left", framed), _doors("right", framed)
    low = _row(
        "sink_wall",
        F(0),
        (
            ("", "filler", _strip(F(3, 2), F(69, 2)), F(3, 2), ""),
            ("S1", "unit", doors_left, F(18), ""),
            ("S2", "unit", _drawers(F(57, 2), framed), F(57, 2), ""),
            ("S3", "unit", _sink(framed), F(36), ""),
            ("S4", "appliance", None, F(24), "dishwasher"),
            ("S5", "unit", doors_right, F(18), ""),
            ("S6", "unit", _drawers(F(123, 4), framed), F(123, 4), ""),
            ("", "filler", _strip(F(3, 2), F(69, 2)), F(3, 2), ""),
        ),
        F(69, 2),
        F(24),
    )
    high = _row(
        "uppers",
        F(54),
        (
            ("", "filler", _strip(F(1), F(36)), F(1), ""),
            ("U1", "unit", _wall(F(75, 2), framed), F(75, 2), ""),
            ("", "space", None, F(55), "over window"),
            ("U2", "unit", _wall(F(30), framed), F(30), ""),
            ("U3", "unit", _wall(F(135, 4), framed), F(135, 4), ""),
            ("", "filler", _strip(F(1), F(36)), F(1), ""),
        ),
        F(36),
        F(12),
    )
    walls = (
        Wall("west", q("263/2"), q(96), ()),
        Wall(
            "north",
            q("633/4"),
            q(96),
            (
                Feature("window", "window", q(42), q(48), q(42), q(42), q("7/2"), None),
                Feature("waste", "waste", q(64), q(0), q(18), q(0), q(0), None),
                Feature("outlet", "outlet", q(130), q(0), q(44), q(0), q(0), None),
            ),
        ),
    )
    room = Room(
        "galley", walls, (Corner("west", "north", literal(F(904, 10), Dimension.ANGLE)),),
        q(96), q(36), q("3/2"), True,
    )  # fmt: skip
    return Job(
        name="Tern Quay boathouse",
        number="2617",
        revision="1",
        date="2026-11-25",
        system=System.INCHES,
        precision=q("1/32"),
        edition="1",
        room=room,
        runs=(
            Run("sink_wall", "sink wall", "north", q(0), q(0), q("633/4"), low, None),
            Run("uppers", "uppers", "north", q(0), q(54), q("633/4"), high, None),
        ),
        materials=(WHITE, BIRCH, THIN, HALF, MAPLE, BAND, MAPLE_BAND, SLIDE, HINGE),
        saw=None,
        offcuts=(),
        named={},
        sources=(SOURCE,),
    )


def metric() -> Job:
    """The same galley on metric papers."""
    return evolve(galley(), system=System.MILLIMETRES, precision=q(F(10, 254)))


def finding() -> Finding:
    """An error with a ruled sum, as the run check makes it."""
    wall = Span(SOURCE, 16, 40)
    line = Span(SOURCE, 43, 60)
    return Finding(
        "run-too-long",
        Severity.ERROR,
        'run sink_wall is 1 1/2" longer than its wall',
        line,
        (
            Figure("needs", length(F(639, 4)), line),
            Figure("has", length(F(633, 4)), wall),
            Figure("over", length(F(3, 2)), None, "", True),
        ),
        (Label(wall, "the wall"),),
        "line 5: give S1 `share` in place of 18; it becomes 16 1/2",
    )
