"""How wide, high and deep the units of the library are: usually, at the least and at the most."""

from collections.abc import Iterable, Mapping

from attrs import frozen

USUAL = {
    "drawer_base": "24",
    "door_base": "18",
    "drawer_bank": "24",
    "pair_base": "30",
    "drawer_door_base": "18",
    "drawer_pair_base": "30",
    "sink_base": "36",
    "cooktop_base": "36",
    "open_base": "24",
    "wall_unit": "30",
    "wall_door": "18",
    "wall_open": "24",
    "wall_hood": "30",
    "pantry": "30",
    "oven_tall": "33",
}
"""The units that have openings, and how wide they usually are (common practice)."""

METRIC = {
    "drawer_base": "600",
    "door_base": "450",
    "drawer_bank": "600",
    "pair_base": "800",
    "drawer_door_base": "450",
    "drawer_pair_base": "800",
    "sink_base": "900",
    "cooktop_base": "900",
    "open_base": "600",
    "wall_unit": "800 high 720",
    "wall_door": "450 high 720",
    "wall_open": "600 high 720",
    "wall_hood": "800 high 450",
    "pantry": "800 high 2100",
    "oven_tall": "600 high 2100",
}
"""What a metric kitchen says of each: its width, and the height of those that hang or are tall."""

PAIRED = (
    "pair_base",
    "drawer_pair_base",
    "sink_base",
    "wall_unit",
    "wall_hood",
    "pantry",
    "oven_tall",
)
"""Those with two doors side by side."""

SINGLE = ("door_base", "drawer_door_base", "wall_door")
"""Those with one door as wide as the unit."""

DRAWN = ("drawer_base", "drawer_bank", "drawer_door_base", "cooktop_base")
"""Those whose drawers limit how narrow they may be in a frame."""

ONE_FRONT = (
    "drawer_base",
    "drawer_bank",
    "drawer_pair_base",
    "sink_base",
    "cooktop_base",
    "oven_tall",
)
"""Those with a front as wide as the unit, and no door that is."""

WITH_DRAWERS = (*DRAWN, "drawer_pair_base", "oven_tall")

HUNG = ("wall_unit", "wall_door", "wall_open", "wall_hood")
TALL = ("pantry", "oven_tall")


def _each(otherwise: str, *exceptions: tuple[Iterable[str], str]) -> dict[str, str]:
    sizes = dict.fromkeys(USUAL, otherwise)
    for names, size in exceptions:
        sizes |= dict.fromkeys(names, size)
    return sizes


@frozen
class Sizes:
    """The least and the most of every unit in one construction: width, height, depth."""

    narrowest: Mapping[str, str]
    widest: Mapping[str, str]
    lowest: Mapping[str, str]
    highest: Mapping[str, str]
    shallowest: Mapping[str, str]
    deepest: Mapping[str, str]


# Two doors share what is between the sides of a metric unit in whole millimetres, so an odd width
# makes one of them half a millimetre narrower, the other wider.

SIZES = {
    "frameless": Sizes(
        # Between two sides of 3/4: 6 + 2 x 3/4. Two doors of 5 and their gaps: 2 x 5 + 3 x 1/8.
        narrowest=_each("7 1/2", (PAIRED, "10 3/8")),
        # A door is 24 wide at most, with its gaps 24 1/4; of a front as wide as the unit a sheet
        # gives 48 less two trims of 1/4, and there are two gaps of 1/8 beside it.
        widest=_each("48", (ONE_FRONT, "47 3/4"), (SINGLE, "24 1/4")),
        # Toe 4, floor 3/4; a drawer box of 2 in an opening of 2 1/2, stretchers of 3/4; a shelf
        # wants 2 x (4 + 32 mm), which is 10 17/32 at the next 1/32, two of them 15 25/32; a door
        # is 2 x 3 1/2 + 2 high for two hinges.
        lowest={
            "drawer_base": "18",  # 4 + 3/4 + 2 x 2 1/2 + 6 + 3 x 3/4
            "drawer_bank": "17 3/4",  # 4 + 3/4 + 4 x (2 1/2 + 3/4)
            "door_base": "16 1/32",  # 4 + 3/4 + 10 17/32 + 3/4
            "pair_base": "16 1/32",
            "drawer_door_base": "22 25/32",  # and 6 + 3/4 more
            "drawer_pair_base": "20 3/16",  # 4 + 9 + 1/16 + 3/8 + 6 + 3/4
            "sink_base": "19 7/16",  # 4 + 9 + 1/16 + 3/8 + 6
            "cooktop_base": "15 1/4",  # 4 + 3/4 + 2 x (2 1/2 + 3/4) + 4
            "open_base": "16 1/32",
            "wall_unit": "17 9/32",  # 3/4 + 15 25/32 + 3/4
            "wall_door": "17 9/32",
            "wall_open": "17 9/32",
            "wall_hood": "9 1/8",  # 9 + 1/8
            "pantry": "70 1/32",  # 4 + 3/4 + 48 + 3/4 + 15 25/32 + 3/4
            "oven_tall": "64 5/16",  # 4 + 3/4 + 2 x (10 + 3/4) + 28 1/2 + 3/8 + 1/16 + 9 + 1/8
        },
        highest=_each("42", (HUNG, "48"), (TALL, "95 1/2")),
        # A slide of 10, 1/8 behind it, the back and the cleat: 10 + 1/8 + 1/4 + 3/4.
        shallowest=_each("8", (WITH_DRAWERS, "11 1/8")),
        deepest=_each("47 1/2", (HUNG, "24")),
    ),
    "face_frame": Sizes(
        # The box is 1/4 narrower at each side: 6 + 2 x (3/4 + 1/4). A drawer box of 4, 1 1/32 for
        # its slides and two stiles: 4 + 1 1/32 + 2 x 1 1/2. Two doors of 5 that lap the stiles 1/2
        # and leave 1/8: 2 x 5 + 1/8 - 2 x 1/2 + 2 x 1 1/2.
        narrowest=_each("8", (DRAWN, "8 1/32"), (PAIRED, "12 1/8")),
        widest=_each("48", (SINGLE, "26")),  # 24 - 2 x 1/2 + 2 x 1 1/2
        lowest={
            "drawer_base": "21",  # 4 + 4 x 1 1/2 + 6 + 2 x 2 1/2
            "drawer_bank": "21 1/2",  # 4 + 5 x 1 1/2 + 4 x 2 1/2; its shares go by 1/32
            "door_base": "17 17/32",  # 4 + 2 x 1 1/2 + 10 17/32
            "pair_base": "17 17/32",
            "drawer_door_base": "25 1/32",  # and 6 + 1 1/2 more
            "drawer_pair_base": "22 1/2",  # 4 + 3 x 1 1/2 + 6 + 9 - 2 x 1/2
            "sink_base": "22 1/2",
            "cooktop_base": "19",  # 4 + 4 x 1 1/2 + 4 + 2 x 2 1/2
            "open_base": "17 17/32",
            "wall_unit": "18 25/32",  # 2 x 1 1/2 + 15 25/32
            "wall_door": "18 25/32",
            "wall_open": "18 25/32",
            "wall_hood": "11",  # 2 x 1 1/2 + 9 - 2 x 1/2
            "pantry": "72 9/32",  # 4 + 3 x 1 1/2 + 48 + 15 25/32
            "oven_tall": "68",  # 4 + 5 x 1 1/2 + 28 1/2 + 2 x 10 + 9 - 2 x 1/2
        },
        highest=_each("42", (HUNG, "48"), (TALL, "95 1/2")),
        shallowest=_each("8", (WITH_DRAWERS, "11 1/8")),
        deepest=_each("47 1/2", (HUNG, "24")),
    ),
    "metric_frameless": Sizes(
        # A floor of 150 between sides of 18: 150 + 2 x 18. Two doors of 125: 2 x 125 + 3 x 3 = 259.
        narrowest=_each("186", (PAIRED, "260")),
        widest=_each("1200", (SINGLE, "606")),  # 600 + 2 x 3
        lowest={
            "drawer_base": "446",  # 100 + 18 + 2 x 62 + 150 + 3 x 18
            "drawer_bank": "438",  # 100 + 18 + 4 x (62 + 18)
            "door_base": "392",  # 100 + 18 + 2 x (96 + 32) + 18
            "pair_base": "392",
            "drawer_door_base": "560",  # and 150 + 18 more
            "drawer_pair_base": "508",
            "sink_base": "490",
            "cooktop_base": "380",
            "open_base": "392",
            "wall_unit": "420",  # 18 + 3 x (96 + 32) + 18
            "wall_door": "420",
            "wall_open": "420",
            "wall_hood": "232",
            "pantry": "1758",
            "oven_tall": "1628",
        },
        highest=_each("1060", (HUNG, "1200"), (TALL, "2400")),
        # A slide of 250, 3 behind it, the back and the cleat: 250 + 3 + 6 + 18.
        shallowest=_each("200", (WITH_DRAWERS, "277")),
        deepest=_each("1200", (HUNG, "600")),
    ),
    "metric_face_frame": Sizes(
        # The box is 6 narrower at each side: 150 + 2 x (18 + 6). A drawer box of 100 with 13.1 at
        # each side and two stiles: 100 + 26.2 + 2 x 40. Two doors that lap 12: 2 x 125 + 3 - 24 +
        # 80 = 309.
        narrowest=_each("198", (DRAWN, "206.2"), (PAIRED, "310")),
        widest=_each("1200", (SINGLE, "656")),  # 600 - 24 + 80
        lowest={
            "drawer_base": "534",  # 100 + 4 x 40 + 2 x 62 + 150
            "drawer_bank": "548",  # 100 + 5 x 40 + 4 x 62
            "door_base": "436",  # 100 + 2 x 40 + 2 x (96 + 32)
            "pair_base": "436",
            "drawer_door_base": "626",  # and 150 + 40 more
            "drawer_pair_base": "575",
            "sink_base": "575",
            "cooktop_base": "486",
            "open_base": "436",
            "wall_unit": "464",  # 2 x 40 + 3 x (96 + 32)
            "wall_door": "464",
            "wall_open": "464",
            "wall_hood": "285",
            "pantry": "1824",
            "oven_tall": "1737",
        },
        highest=_each("1060", (HUNG, "1200"), (TALL, "2400")),
        shallowest=_each("200", (WITH_DRAWERS, "277")),
        deepest=_each("1200", (HUNG, "600")),
    ),
}

CONSTRUCTIONS = ("frameless", "face_frame")


def lines(widths: Mapping[str, str]) -> list[str]:
    return [f"{name} {width}" for name, width in widths.items()]
