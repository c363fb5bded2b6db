"""Materials, parts, joints and steps as a hand writes them, for the galley of sample.py."""

from collections.abc import Iterable
from fractions import Fraction

from casewright.compiler.model import (
    EDGES,
    Assembly,
    Axis,
    Banding,
    Box,
    Extent,
    Extents,
    Fasteners,
    Fixing,
    Hole,
    Joint,
    Material,
    Motion,
    Part,
    Step,
    Stock,
    Way,
)
from casewright.lang.cells import Quantity, literal
from casewright.lang.measure import Dimension

F = Fraction


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
