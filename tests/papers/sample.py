"""A galley built by hand, so that papers are tested on figures no compiler worked out.

The wall is 158 1/4: filler 1 1/2, S1 18, S2 28 1/2, S3 36, S4 24, S5 18, S6 30 3/4, filler 1 1/2.
Boxes are frameless, common practice: 3/4 board, sides 30 1/2 on a ladder base of 4.
"""

from collections.abc import Iterable
from fractions import Fraction

from attrs import evolve

from casewright.compiler.model import (
    EDGES,
    Assembly,
    Axis,
    Banding,
    Blank,
    Box,
    Corner,
    Extent,
    Extents,
    Fasteners,
    Feature,
    Fixing,
    Hole,
    Job,
    Joint,
    Material,
    Member,
    Motion,
    Opening,
    Part,
    Placed,
    Range,
    Room,
    Run,
    Step,
    Stock,
    Unit,
    Wall,
    Way,
)
from casewright.lang.cells import Quantity, literal
from casewright.lang.findings import Figure, Finding, Label, Severity
from casewright.lang.measure import Dimension, System, length
from casewright.lang.source import Source, Span

F = Fraction
NONE, BASE_HIGH, BASE_DEEP, TOE = F(0), F(69, 2), F(24), F(4)

SOURCE = Source(
    "kitchen.case",
    "room galley {\n  wall north length 158 1/4\n}\n"
    "run sink_wall on north from left {\n  S1: door_base 18   hung left\n}\n",
)


def q(value: F | int | str, dimension: Dimension = Dimension.LENGTH) -> Quantity:
    return literal(F(value), dimension)


BAND = Material("white_edge", "band", "white edge", q(F(10, 254)), counts=True)
MAPLE_BAND = Material("birch_edge", "band", "birch edge", q(F(5, 254)))
WHITE = Material(
    "white_melamine",
    "sheet",
    "white melamine",
    q("3/4"),
    (Stock(F(49), F(97)),),
    band="white_edge",
)
BIRCH = Material(
    "birch_ply", "sheet", "birch ply", q("3/4"), (Stock(F(48), F(96)),), True, "birch_edge"
)
THIN = Material("thin_ply", "sheet", "thin ply", q("1/4"), (Stock(F(48), F(96)),), True)
HALF = Material("drawer_ply", "sheet", "drawer ply", q("1/2"), (Stock(F(60), F(60)),))
MAPLE = Material("hard_maple", "lumber", "hard maple", q("3/4"), (), True)
SLIDE = Material("side_mount", "slide", "side mount slide 22", q("1/2"))
HINGE = Material("cup_hinge", "hinge", "cup hinge", q("1/2"))

STAPLED = Fixing(
    "stapled", "stapled", "brad 1 1/2", "staple 1 3/4", q(4), q(1), q(8), drive="through"
)
POCKETED = Fixing("pocketed", "pocket screws", "", "pocket screw 1 1/4", None, None, q(4))

EDGE_OF = {BAND.name: BAND, MAPLE_BAND.name: MAPLE_BAND}


def part(
    path: str,
    role: str,
    material: Material,
    box: Box,
    thick_axis: Axis,
    length_axis: Axis,
    bands: Iterable[str] = (),
    *,
    opening: str = "",
    motion: Motion | None = None,
    blank: str = "",
    hardware: bool = False,
    address: str = "",
    holes: tuple[Hole, ...] = (),
) -> Part:
    axes: tuple[Axis, ...] = ("across", "up", "deep")
    (width_axis,) = set(axes) - {thick_axis, length_axis}
    bandings = tuple(Banding(edge, EDGE_OF[material.band]) for edge in bands)
    counted = {axis: F(0) for axis in axes}
    for banding in bandings:
        if banding.band.counts:
            counted[EDGES[banding.edge][0]] += banding.band.thick.value
    address = address or path.removeprefix("box.")
    return Part(
        path=path,
        address=address,
        title=address.rpartition(".")[2].replace("_", " "),
        assembly=path.rpartition(".")[0],
        opening=opening,
        role=role,
        material=material,
        hardware=hardware,
        extents=Extents(*(Extent(q(low), q(high)) for low, high in map(box.along, axes))),
        thick_axis=thick_axis,
        length_axis=length_axis,
        width_axis=width_axis,
        length=q(box.size(length_axis)),
        width=q(box.size(width_axis)),
        thick=q(box.size(thick_axis)),
        cut_length=q(box.size(length_axis) - counted[length_axis]),
        cut_width=q(box.size(width_axis) - counted[width_axis]),
        grained=material.grained,
        bands=bandings,
        cuts=(),
        holes=holes,
        motion=motion,
        blank=blank,
        origin=None,
    )


def butt(first: Part, second: Part, fixing: Fixing = STAPLED, count: int = 3) -> Joint:
    """A butt of the end of `first` across against `second`."""
    side = 1 if second.box.across[0] >= first.box.across[1] else -1
    at = first.box.across[1] if side == 1 else first.box.across[0]
    holds = fixing.hold or "glue"
    fasteners: tuple[Fasteners, ...] = (Fasteners(holds, "hold", count, F(4)),)
    if fixing.locate:
        fasteners = (Fasteners(fixing.locate, "locate", 2, F(3)), *fasteners)
    area = Box((at, at), first.box.up, first.box.deep)
    return Joint(
        first.path, second.path, "butt", "across", side, area, None, fixing, fasteners, None
    )


def grooved(first: Part, second: Part) -> Joint:
    side = 1 if second.box.across[0] > first.box.across[0] else -1
    return Joint(
        first.path, second.path, "groove", "across", side, first.box, q("3/8"), None, (), None
    )


def step(
    number: int, assembly: str, ways: Iterable[tuple[str, str, int]], lies: str = "",
    words: str = "", joints: Iterable[int] = (),
) -> Step:  # fmt: skip
    return Step(
        number, assembly, tuple(Way(*way) for way in ways), lies, words, tuple(joints), None
    )


def group(path: str, role: str, parts: Iterable[Part], inner: Iterable[str] = (),
          motion: Motion | None = None, opening: str = "") -> Assembly:  # fmt: skip
    held = tuple(parts)
    sides: list[Extent] = []
    axes: tuple[Axis, ...] = ("across", "up", "deep")
    for axis in axes:
        sides.append(
            Extent(
                q(min(each.box.along(axis)[0] for each in held)),
                q(max(each.box.along(axis)[1] for each in held)),
            )
        )
    return Assembly(
        path, path, path.replace("_", " ").replace(".", " "), role, opening,
        Extents(*sides), motion, tuple(each.path for each in held), tuple(inner), None,
    )  # fmt: skip


T = F(3, 4)


def cabinet(
    name: str,
    width: F,
    stack: tuple[tuple[str, F, str], ...],
    *,
    height: F = BASE_HIGH,
    depth: F = BASE_DEEP,
    toe: F = TOE,
    top: bool = True,
    shelves: int = 0,
    role: str = "base_unit",
    framed: bool = False,
) -> Unit:
    """A box with openings from the top down: (filling, clear height, hung).

    Fillings: `drawer`, `false_front`, `door` (hung left or right), `doors` (a pair).
    """
    proud = F(1, 4) if framed else F(0)
    face = T if framed else F(0)
    rail = F(3, 2)
    left, right = proud, width - proud
    low = toe + (rail - T if framed else 0)
    box_parts: list[Part] = []

    def across(material: Material, up: Range, deep: Range, named: str, kind: str,
               bands: Iterable[str] = ("front",), blank: str = "") -> Part:  # fmt: skip
        made = part(
            f"box.{named}", kind, material, Box((left + T, right - T), up, deep), "up", "across",
            () if framed else bands, blank=blank,
        )  # fmt: skip
        box_parts.append(made)
        return made

    side_band = () if framed else ("front",)
    sides = [
        part(f"box.{side}_side", "side", WHITE, Box(place, (low, height), (face, depth)),
             "across", "up", side_band)
        for side, place in (("left", (left, left + T)), ("right", (right - T, right)))
    ]  # fmt: skip
    back_front = depth - F(3, 4)
    floor = across(WHITE, (low, low + T), (face, back_front), "floor", "floor")
    crossing = [floor]
    openings: list[Opening] = []
    members: list[Member] = []
    fronts: list[Part] = []
    trays: list[Assembly] = []
    tray_parts: list[Part] = []
    slides: list[Part] = []
    joints: list[Joint] = []
    steps: list[Step] = []
    blanks: list[Blank] = []

    clear_top = height - (rail if framed else (T if top else F(0)))
    opening_left, opening_right = (rail, width - rail) if framed else (left + T, right - T)
    gap, end = F(1, 8), F(1, 16)
    at = clear_top
    level = rail if framed else T
    counts: dict[str, int] = {}
    stretchers: list[Part] = []
    for place, (filling, clear, hung) in enumerate(stack):
        up = (at - clear, at)
        over_top = height if place == 0 else at + level / 2
        over_bottom = toe if place == len(stack) - 1 else at - clear - level / 2
        front_up = (
            over_bottom + (0 if place == len(stack) - 1 else gap / 2),
            over_top - (gap if place == 0 else gap / 2),
        )
        if place < len(stack) - 1:
            members.append(
                Member(
                    "level",
                    Extent(q(opening_left), q(opening_right)),
                    Extent(q(at - clear - level), q(at - clear)),
                )
            )
            top_of = at - clear
            made = across(
                WHITE, (top_of - T, top_of), (face, face + 5), f"stretcher_{place + 1}",
                "stretcher", blank="stretchers",
            )  # fmt: skip
            stretchers.append(made)
            crossing.append(made)
        leaves = [(filling, hung)]
        if filling == "doors":
            leaves = [("door", "left"), ("door", "right")]
        middle = (opening_left + opening_right) / 2
        for turn, (fills, hand) in enumerate(leaves):
            counts[fills] = counts.get(fills, 0) + 1
            word = fills if sum(
                (2 if each[0] == "doors" else 1) for each in stack
                if each[0].removesuffix("s") == fills.removesuffix("s")
            ) == 1 else f"{fills}_{counts[fills]}"  # fmt: skip
            ends = (opening_left, opening_right)
            cover = (end, width - end)
            if len(leaves) == 2:
                ends = (opening_left, middle) if turn == 0 else (middle, opening_right)
                cover = (end, middle - gap / 2) if turn == 0 else (middle + gap / 2, width - end)
            openings.append(
                Opening(
                    word, word.replace("_", " "), fills, True,
                    Extent(q(ends[0]), q(ends[1])), Extent(q(up[0]), q(up[1])),
                    {}, {}, {"hung": hand} if hand else {}, None,
                )
            )  # fmt: skip
            motion = None
            if fills == "door":
                motion = Motion("about", hand, None, literal(110, Dimension.ANGLE))
            fronts.append(
                part(
                    f"{word}.face", "front", BIRCH, Box(cover, front_up, (-T, F(0))), "deep", "up",
                    ("left", "right", "bottom", "top"), opening=word, motion=motion,
                )
            )  # fmt: skip
            if fills != "drawer":
                continue
            sway = F(1, 2) + F(1, 32)
            lo, hi = opening_left + sway, opening_right - sway
            tray_up = (up[0] + F(1, 4), up[1] - F(1, 4))
            deep = (face + F(0), face + F(22))
            h = F(1, 2)
            inner = [
                part(f"{word}.tray.left_side", "tray", HALF, Box((lo, lo + h), tray_up, deep),
                     "across", "deep", opening=word),
                part(f"{word}.tray.front", "tray", HALF,
                     Box((lo + h, hi - h), tray_up, (deep[0], deep[0] + h)), "deep", "across",
                     opening=word),
                part(f"{word}.tray.back", "tray", HALF,
                     Box((lo + h, hi - h), tray_up, (deep[1] - h, deep[1])), "deep", "across",
                     opening=word),
                part(f"{word}.tray.bottom", "tray", THIN,
                     Box((lo + F(1, 4), hi - F(1, 4)), (tray_up[0] + h, tray_up[0] + F(3, 4)),
                         (deep[0] + F(1, 4), deep[1] - F(1, 4))), "up", "deep", opening=word),
                part(f"{word}.tray.right_side", "tray", HALF, Box((hi - h, hi), tray_up, deep),
                     "across", "deep", opening=word),
            ]  # fmt: skip
            tray_parts += inner
            trays.append(
                group(f"{word}.tray", "tray", inner, motion=Motion("out", "", q(22)), opening=word)
            )
            base = len(joints)
            joints += [
                butt(inner[1], inner[0], count=2), butt(inner[2], inner[0], count=2),
                grooved(inner[3], inner[0]),
                butt(inner[1], inner[4], count=2), butt(inner[2], inner[4], count=2),
                grooved(inner[3], inner[4]),
            ]  # fmt: skip
            tray = f"{word}.tray"
            steps += [
                step(1, tray, [(f"{tray}.left_side", "", 0)], "left"),
                step(2, tray, [(f"{tray}.front", "across", 1), (f"{tray}.back", "across", 1),
                               (f"{tray}.bottom", "across", 1)], joints=range(base, base + 3)),
                step(3, tray, [(f"{tray}.right_side", "across", 1)], words="square",
                     joints=range(base + 3, base + 6)),
            ]  # fmt: skip
            for hand_word, x in (("left", (opening_left, lo)), ("right", (hi, opening_right))):
                slides.append(
                    part(f"{word}.slide_{hand_word}", "slide", SLIDE,
                         Box(x, (up[0] + F(1), up[0] + F(3)), deep), "across", "deep",
                         opening=word, hardware=True)
                )  # fmt: skip
        at -= clear + level
    if top:
        crossing.append(
            across(WHITE, (height - T, height), (face, face + 5), "top_stretcher", "stretcher")
        )
    if len(stretchers) > 1:
        total = sum((each.width.value for each in stretchers), F(0)) + F(1, 8) * (
            len(stretchers) - 1
        )
        banded = F(0) if framed else 2 * BAND.thick.value
        blanks.append(
            Blank(
                "stretchers", WHITE, tuple(each.address for each in stretchers),
                q(stretchers[0].length.value), q(total), q(stretchers[0].length.value),
                q(total - banded), () if framed else (Banding("front", BAND),), None,
            )
        )  # fmt: skip
    back = part("box.back_panel", "back", THIN,
                Box((left + T - F(3, 8), right - T + F(3, 8)), (low, height),
                    (back_front, back_front + F(1, 4))), "deep", "up")  # fmt: skip
    cleat = part("box.hanging_cleat", "hanging", WHITE,
                 Box((left + T, right - T), (height - 5, height), (depth - F(1, 2), depth)),
                 "deep", "across")  # fmt: skip
    shelf_parts = [
        part(f"box.shelf_{turn + 1}" if shelves > 1 else "box.shelf", "shelf", WHITE,
             Box((left + T + F(1, 8), right - T - F(1, 8)), (low + 10 * (turn + 1),
                 low + 10 * (turn + 1) + T), (face + F(1, 2), back_front)), "up", "across",
             () if framed else ("front",))
        for turn in range(shelves)
    ]  # fmt: skip
    left_side, right_side = sides
    base = len(joints)
    joints += [butt(each, left_side, count=6) for each in crossing]
    closing = len(joints)
    joints += [butt(each, right_side, count=6) for each in crossing]
    backing = len(joints)
    joints += [grooved(back, left_side), grooved(back, right_side)]
    hanging = len(joints)
    joints += [butt(cleat, left_side), butt(cleat, right_side)]
    steps += [
        step(1, "box", [(left_side.path, "", 0)], "left"),
        step(2, "box", [(each.path, "across", 1) for each in crossing],
             joints=range(base, closing)),
        step(3, "box", [(right_side.path, "across", 1)], joints=range(closing, backing)),
        step(4, "box", [(back.path, "up", 1)], words="square", joints=range(backing, hanging)),
        step(5, "box", [(cleat.path, "deep", 1)], joints=range(hanging, hanging + 2)),
    ]  # fmt: skip
    whole_box = [*sides, *box_parts, back, cleat, *shelf_parts]
    assemblies = [group("box", "box", whole_box)]
    frame_parts: list[Part] = []
    if framed:

        def member(named: str, kind: str, box: Box) -> Part:
            along: Axis = "up" if kind == "stile" else "across"
            made = part(f"frame.{named}", kind, MAPLE, box, "deep", along)
            frame_parts.append(made)
            return made

        stiles = [
            member("left_stile", "stile", Box((F(0), rail), (toe, height), (F(0), face))),
            member("right_stile", "stile", Box((width - rail, width), (toe, height), (F(0), face))),
        ]
        between = (rail, width - rail)
        rails = [member("bottom_rail", "rail", Box(between, (toe, toe + rail), (F(0), face)))]
        for turn, one in enumerate(members, 1):
            rails.append(
                member(f"mid_rail_{turn}", "rail",
                       Box(between, (one.up.low.value, one.up.high.value), (F(0), face)))
            )  # fmt: skip
        rails.append(
            member("top_rail", "rail", Box(between, (height - rail, height), (F(0), face)))
        )
        assemblies.append(group("frame", "frame", frame_parts))
        base = len(joints)
        joints += [butt(each, stiles[0], POCKETED, 2) for each in rails]
        middle_joint = len(joints)
        joints += [butt(each, stiles[1], POCKETED, 2) for each in rails]
        steps += [
            step(1, "frame", [(stiles[0].path, "", 0)], "front"),
            step(2, "frame", [(each.path, "across", 1) for each in rails],
                 joints=range(base, middle_joint)),
            step(3, "frame", [(stiles[1].path, "across", 1)],
                 joints=range(middle_joint, len(joints))),
        ]  # fmt: skip
    base_parts: list[Part] = []
    if toe:
        base_parts = [
            part("toe.front_rail", "toe", WHITE, Box((F(0), width), (F(0), low), (F(3), 3 + T)),
                 "deep", "across"),
            part("toe.back_rail", "base", WHITE, Box((F(0), width), (F(0), low),
                 (depth - T, depth)), "deep", "across"),
        ]  # fmt: skip
        assemblies.append(group("toe", "base", base_parts))
        steps += [
            step(1, "toe", [("toe.front_rail", "", 0), ("toe.back_rail", "deep", 1)]),
        ]
    bring: list[Step] = []
    if base_parts:
        bring.append(step(len(bring) + 1, "", [("toe", "", 0)]))
    bring.append(step(len(bring) + 1, "", [("box", "up" if base_parts else "", 1)]))
    if framed:
        bring.append(step(len(bring) + 1, "", [("frame", "deep", -1)], words="glue"))
    if shelf_parts:
        bring.append(step(len(bring) + 1, "", [(each.path, "deep", -1) for each in shelf_parts]))
    if trays:
        bring.append(step(len(bring) + 1, "", [(each.path, "deep", -1) for each in trays]))
    bring.append(step(len(bring) + 1, "", [(each.path, "deep", -1) for each in fronts]))
    return Unit(
        name=name,
        title=name.replace("_", " "),
        construction="face_frame" if framed else "frameless",
        role=role,
        width=q(width),
        height=q(height),
        depth=q(depth),
        parts=(*base_parts, *frame_parts, *whole_box, *tray_parts, *slides, *fronts),
        assemblies=(*assemblies, *trays),
        openings=tuple(openings),
        members=tuple(members),
        joints=tuple(joints),
        steps=(*steps, *bring),
        blanks=tuple(blanks),
        options={},
        named={},
        blames=(),
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
