"""Part lists to plan: generated kitchens, planted sheets and the classes of the literature.

Everything comes from a seed, so that a list can be made again and a held-out seed be tried.
"""

from fractions import Fraction
from itertools import pairwise
from random import Random

from casewright.compiler.plan.request import Piece, Request, Saw, Stock, Trim

INCH_SAW = Saw(Fraction(1, 8), Trim(*[Fraction(1, 4)] * 4))
MM_SAW = Saw(Fraction(16, 5), Trim(*[Fraction(6)] * 4))


def kitchen(cabinets: int, seed: int) -> dict[str, Request]:
    """The lists of a kitchen by material: case, back and front; inch and metric take turns."""
    rng = Random(f"kitchen {cabinets} {seed}")
    return _metric(cabinets, rng) if seed % 3 == 2 else _inch(cabinets, rng)


def _inch(cabinets: int, rng: Random) -> dict[str, Request]:
    def f(text: str) -> Fraction:
        return sum((Fraction(word) for word in text.split()), Fraction(0))

    case: list[Piece] = []
    back: list[Piece] = []
    front: list[Piece] = []
    thick = rng.choice([f("3/4"), f("23/32")])
    depth = rng.choice([f("23 7/8"), f("23 5/8"), f("23 1/4")])
    wall_depth = rng.choice([f("11 7/8"), f("12 1/4"), f("11 1/4")])
    high = rng.choice([f("34 1/2"), f("30 1/2")])
    gap = f("1/8")
    widths = rng.sample([9, 12, 15, 18, 21, 24, 27, 30, 33, 36], rng.randint(5, 8))
    for number in range(1, cabinets + 1):
        unit = f"C{number}"
        wide = Fraction(rng.choice(widths))
        if rng.random() < 0.15:
            wide += Fraction(rng.randint(1, 23), 8)
        inner = wide - 2 * thick
        kind = rng.choices(["base", "drawers", "wall", "tall"], [38, 17, 35, 10])[0]
        deep = wall_depth if kind == "wall" else depth
        tall = {"base": high, "drawers": high, "tall": Fraction(84)}.get(
            kind, Fraction(rng.choice([30, 36, 42]))
        )
        case.append(Piece("side", unit, tall, deep, 2))
        case.append(Piece("floor", unit, inner, deep, 1 if kind in ("base", "drawers") else 2))
        if kind in ("base", "drawers"):
            case.append(Piece("stretcher", unit, inner, Fraction(4), 2 if kind == "base" else 4))
        else:
            case.append(Piece("cleat", unit, inner, Fraction(4), 2))
        shelves = {"base": 1, "wall": 2, "tall": 4}.get(kind, 0)
        if shelves:
            case.append(Piece("shelf", unit, inner - gap, deep - f("3/4"), shelves))
        back.append(Piece("back", unit, tall - f("3/4"), wide - f("3/4"), turn=True))
        if kind == "drawers":
            heights = [f("6"), (tall - f("10")) / 2 - gap, (tall - f("10")) / 2 - gap]
            front += [Piece(f"front {n}", unit, h, wide - gap) for n, h in enumerate(heights, 1)]
            back.append(Piece("drawer bottom", unit, wide - Fraction(3), f("21"), 3, turn=True))
        elif wide > 21:
            front.append(Piece("door", unit, tall - gap, (wide - 2 * gap) / 2, 2))
        else:
            front.append(Piece("door", unit, tall - gap, wide - gap))
    oversize = rng.random() < 0.5
    sheet = (Fraction(97), Fraction(49)) if oversize else (Fraction(96), Fraction(48))
    saw = INCH_SAW if oversize else Saw(Fraction(1, 8), Trim(*[Fraction(1, 8)] * 4))
    return {
        "case": Request("in", tuple(case), (Stock("case ply", *sheet),), saw),
        "back": Request("in", tuple(back), (Stock("back ply", Fraction(96), Fraction(48)),), saw),
        "front": Request("in", tuple(front), (Stock("front ply", *sheet),), saw),
    }


def _metric(cabinets: int, rng: Random) -> dict[str, Request]:
    case: list[Piece] = []
    back: list[Piece] = []
    front: list[Piece] = []
    f = Fraction
    thick = rng.choice([f(18), f(19), f(163, 10)])
    depth, wall_depth = f(rng.choice([560, 540, 580])), f(rng.choice([320, 330, 350]))
    high = f(rng.choice([720, 780, 762]))
    widths = rng.sample([300, 400, 450, 500, 600, 800, 900, 1000], rng.randint(4, 7))
    for number in range(1, cabinets + 1):
        unit = f"C{number}"
        wide = f(rng.choice(widths))
        if rng.random() < 0.15:
            wide += rng.randint(1, 60)
        inner = wide - 2 * thick
        kind = rng.choices(["base", "drawers", "wall", "tall"], [38, 17, 35, 10])[0]
        deep = wall_depth if kind == "wall" else depth
        tall = {"base": high, "drawers": high, "tall": f(2100)}.get(
            kind, f(rng.choice([600, 720, 900]))
        )
        case.append(Piece("side", unit, tall, deep, 2))
        case.append(Piece("floor", unit, inner, deep, 1 if kind in ("base", "drawers") else 2))
        case.append(Piece("stretcher", unit, inner, f(100), 4 if kind == "drawers" else 2))
        shelves = {"base": 1, "wall": 2, "tall": 4}.get(kind, 0)
        if shelves:
            case.append(Piece("shelf", unit, inner - 2, deep - 20, shelves))
        back.append(Piece("back", unit, tall - 16, wide - 16, turn=True))
        if kind == "drawers":
            rest = (tall - 140 - 9) / 2
            front += [
                Piece(f"front {n}", unit, h, wide - 3)
                for n, h in enumerate((f(140), rest, rest), 1)
            ]
            back.append(Piece("drawer bottom", unit, wide - 75, f(490), 3, turn=True))
        elif wide > 600:
            front.append(Piece("door", unit, tall - 3, (wide - 6) / 2, 2))
        else:
            front.append(Piece("door", unit, tall - 3, wide - 3))
    sheet = rng.choice([(f(2800), f(2070)), (f(2440), f(1220)), (f(2500), f(1250))])
    return {
        "case": Request("mm", tuple(case), (Stock("case board", *sheet),), MM_SAW),
        "back": Request("mm", tuple(back), (Stock("back board", f(2440), f(1220)),), MM_SAW),
        "front": Request("mm", tuple(front), (Stock("front board", *sheet),), MM_SAW),
    }


def planted(sheets: int, seed: int) -> Request:
    """Sheets cut without waste by random three-stage trees, their pieces shuffled.

    The area of the pieces with their kerfs is the sheets' area: the count is known.
    """
    rng = Random(f"planted {sheets} {seed}")
    kerf = 2
    length, width = 768, 384
    sizes: list[tuple[int, int]] = []
    for _ in range(sheets):
        for y in _parts(rng, width + kerf, 60, 4):
            for x in _parts(rng, length + kerf, 60, 5):
                for part in _parts(rng, y, 30, 2):
                    sizes.append((x - kerf, part - kerf))
    rng.shuffle(sizes)
    pieces = [
        Piece(f"part {n}", "", Fraction(a, 8), Fraction(b, 8)) for n, (a, b) in enumerate(sizes)
    ]
    stock = Stock("sheet", Fraction(length, 8), Fraction(width, 8))
    return Request("in", tuple(pieces), (stock,), Saw(Fraction(kerf, 8)))


def _parts(rng: Random, whole: int, least: int, most: int) -> list[int]:
    """The whole parted at random into at most so many parts, none under `least`."""
    parts = min(rng.randint(1, most), whole // least)
    cuts = sorted(rng.randint(0, whole - parts * least) for _ in range(parts - 1))
    edges = [0, *cuts, whole - parts * least]
    return [b - a + least for a, b in pairwise(edges)]


def published_class(number: int, pieces: int, seed: int) -> Request:
    """An instance of class 1 to 10, grain locked, no kerf.

    Classes 1 to 6: Berkey and Wang, Two-dimensional finite bin-packing algorithms, J. Oper. Res.
    Soc. 38 (1987). Classes 7 to 10: Martello and Vigo, Exact solution of the two-dimensional finite
    bin packing problem, Management Science 44 (1998). Ranges from memory.
    """
    rng = Random(f"class {number} {pieces} {seed}")
    if number <= 6:
        side = (10, 30, 40, 100, 100, 300)[number - 1]
        most = (10, 10, 35, 35, 100, 100)[number - 1]
        sizes = [(rng.randint(1, most), rng.randint(1, most)) for _ in range(pieces)]
    else:
        side = 100
        sizes = [_martello_vigo(rng, number) for _ in range(pieces)]
    listed = [Piece(f"part {n}", "", Fraction(a), Fraction(b)) for n, (a, b) in enumerate(sizes)]
    return Request("mm", tuple(listed), (Stock("sheet", Fraction(side), Fraction(side)),))


def _martello_vigo(rng: Random, number: int) -> tuple[int, int]:
    """Four types of piece; class 7 + t takes type t seven times in ten, the others once each."""
    favourite = number - 7
    kind = favourite if rng.random() < 0.7 else rng.choice([t for t in range(4) if t != favourite])
    ranges = (
        ((67, 100), (1, 50)),
        ((1, 50), (67, 100)),
        ((50, 100), (50, 100)),
        ((1, 50), (1, 50)),
    )
    along, across = ranges[kind]
    return rng.randint(*along), rng.randint(*across)
