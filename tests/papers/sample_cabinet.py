"""A cabinet built by hand, frameless or framed, for the galley of sample.py."""

from collections.abc import Iterable

from casewright.compiler.model import (
    Assembly,
    Axis,
    Banding,
    Blank,
    Box,
    Extent,
    Joint,
    Material,
    Member,
    Motion,
    Opening,
    Part,
    Range,
    Step,
    Unit,
)
from casewright.lang.cells import literal
from casewright.lang.measure import Dimension
from tests.papers.sample_goods import (
    BAND,
    BIRCH,
    HALF,
    MAPLE,
    POCKETED,
    SLIDE,
    THIN,
    WHITE,
    F,
    butt,
    grooved,
    group,
    part,
    q,
    step,
)

NONE, BASE_HIGH, BASE_DEEP, TOE = F(0), F(69, 2), F(24), F(4)
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
