"""Parts, assemblies, joins and steps made by hand, without a text."""

from collections.abc import Iterable
from fractions import Fraction

from casewright.compiler.model import (
    AXES,
    Assembly,
    Axis,
    Box,
    Cut,
    Extent,
    Extents,
    Fixing,
    Material,
    Order,
    Part,
    Wish,
)
from casewright.lang.cells import Quantity, literal
from casewright.lang.source import Own

Size = int | str | Fraction
Ends = tuple[Size, Size]


def inches(size: Size) -> Quantity:
    """`"5 1/2"`, `"23/32"`, `3` as a quantity."""
    words = str(size).split()
    return literal(sum((Fraction(word) for word in words), Fraction(0)))


def value(size: Size) -> Fraction:
    return inches(size).value


def range_of(ends: Ends) -> tuple[Fraction, Fraction]:
    return value(ends[0]), value(ends[1])


def box(across: Ends, up: Ends, deep: Ends) -> Box:
    return Box(range_of(across), range_of(up), range_of(deep))


BOARD = Material("board", "sheet", "board", inches("3/4"))


def part(
    path: str,
    across: Ends,
    up: Ends,
    deep: Ends,
    *,
    cuts: Iterable[Box] = (),
    thick: Axis | None = None,
    line: int = 0,
    hardware: bool = False,
) -> Part:
    """A part from its ranges; its thickness is its least size, its length its longest."""
    where = box(across, up, deep)
    by_size = sorted(AXES, key=where.size)
    thick_axis = thick or by_size[0]
    width_axis, length_axis = (axis for axis in by_size if axis != thick_axis)
    sizes = {axis: literal(where.size(axis)) for axis in AXES}
    extents = Extents(
        *(Extent(literal(low), literal(high)) for low, high in (where.along(a) for a in AXES))
    )
    assembly, _, _ = path.rpartition(".")
    return Part(
        path=path,
        address=path,
        title=path.replace("_", " "),
        assembly=assembly,
        opening="",
        role="",
        material=BOARD,
        hardware=hardware,
        extents=extents,
        thick_axis=thick_axis,
        length_axis=length_axis,
        width_axis=width_axis,
        length=sizes[length_axis],
        width=sizes[width_axis],
        thick=sizes[thick_axis],
        cut_length=sizes[length_axis],
        cut_width=sizes[width_axis],
        grained=False,
        bands=(),
        cuts=tuple(Cut("cut", each, "", literal(0), None) for each in cuts),
        holes=(),
        motion=None,
        blank="",
        origin=Own(line),
    )


def assembly(path: str, parts: Iterable[Part], inner: Iterable[str] = ()) -> Assembly:
    """An assembly of those of `parts` whose path lies directly in it."""
    held = tuple(each.path for each in parts if each.assembly == path)
    zero = Extent(literal(0), literal(0))
    return Assembly(
        path,
        path,
        path.replace("_", " "),
        "",
        "",
        Extents(zero, zero, zero),
        None,
        held,
        tuple(inner),
        Own(900),
    )


def fixing(
    name: str = "screwed",
    *,
    locate: str = "",
    hold: str = "screw",
    every: Size | None = 4,
    ends: Size | None = 1,
    needs: Size | None = None,
    drive: str = "",
) -> Fixing:
    def optional(size: Size | None) -> Quantity | None:
        return None if size is None else inches(size)

    return Fixing(name, name, locate, hold, optional(every), optional(ends), optional(needs), drive)


def join(
    first: str,
    way: str,
    second: str,
    *,
    fixed: Fixing | None = None,
    play: Size | None = None,
    line: int = 100,
) -> Wish:
    """`join("floor cap", "to", "left_side right_side")`."""
    return Wish(
        tuple(first.split()),
        tuple(second.split()),
        "into" if way == "into" else "to",
        fixed,
        None if play is None else inches(play),
        Own(line),
    )


def step(brings: str, *, into: str = "", lies: str = "", words: str = "", line: int = 200) -> Order:
    """`step("floor cap right_side")`."""
    return Order(into, tuple(brings.split()), lies, words, Own(line))
