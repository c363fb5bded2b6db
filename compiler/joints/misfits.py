"""What is said of joins that fail, and of parts that no join explains."""

from casewright.compiler.blame import Blame, Row, finding_at
from casewright.compiler.joints.fastening import MOST_FASTENERS
from casewright.compiler.joints.geometry import Block, Scale, along, gaps, replace, shared, size
from casewright.compiler.joints.groove import Groove, NoGroove
from casewright.compiler.model import AXES, EDGES, Axis, Box, Fixing, Part, Wish
from casewright.lang.measure import Dimension, Measure, length


def not_met(one: tuple[Part, Block], other: tuple[Part, Block], wish: Wish, scale: Scale) -> Blame:
    """A join whose two parts don't meet as it says: apart, or in no more than an edge or a cut."""
    first, second = one[0].address, other[0].address
    verb = "enter" if wish.way == "into" else "touch"
    rows: tuple[Row, ...] = ()
    if max(gaps(one[1], other[1])) > 0:
        rows = _gap_rows(one, other, scale)
        help = f"move {first} or {second} by the gap"
    elif wish.way == "into":
        help = f"let {first} reach into {second}, or say `to`"
    else:
        help = "they meet at no more than an edge or a cut: let a face lie on a face"
    return finding_at(
        wish.origin,
        f"joint-does-not-{verb}",
        f"{first} does not {verb} {second}",
        rows=rows,
        labels=((one[0].origin, first), (other[0].origin, second)),
        help=help,
    )


def _gap_rows(one: tuple[Part, Block], other: tuple[Part, Block], scale: Scale) -> tuple[Row, ...]:
    distances = gaps(one[1], other[1])
    widest = max(distances)
    axis = AXES[distances.index(widest)]
    if along(one[1], axis)[0] > along(other[1], axis)[0]:
        one, other = other, one
    begins, ends = other[0].extents.along(axis).low, one[0].extents.along(axis).high
    return (
        Row(
            f"{other[0].address}.{_edge(axis, -1)}",
            Measure(begins.value, Dimension.PLACE),
            other[0].origin,
        ),
        Row(
            f"less {one[0].address}.{_edge(axis, 1)}",
            Measure(ends.value, Dimension.PLACE),
            one[0].origin,
        ),
        Row("gap", length(scale.inches(widest)), ruled=True),
    )


def _edge(axis: Axis, side: int) -> str:
    return next(word for word, end in EDGES.items() if end == (axis, side))


def no_entry(
    first: Part, second: Part, taken: Block, reason: NoGroove, wish: Wish, scale: Scale
) -> Blame:
    """A part that makes no groove where it should: it goes through, or it lies wholly inside."""
    one, other = first.address, second.address
    if reason.why == "inside":
        return finding_at(
            wish.origin,
            "joint-does-not-enter",
            f"{one} lies wholly inside {other}: it comes in through no face",
            labels=((first.origin, one), (second.origin, other)),
            help=f"let {one} reach one face of {other}",
        )
    extent = length(scale.inches(size(taken, reason.axis)))
    return finding_at(
        wish.origin,
        "groove-through",
        f"{one} goes right through {other}",
        rows=(
            Row(f"{other}, {_extent_word(second, reason.axis)}", extent, second.origin),
            Row(f"less what {one} takes", extent, first.origin),
            Row("leaves", length(0), ruled=True),
        ),
        help=f"end {one} inside {other}, so that stock is left behind it",
    )


def _extent_word(part: Part, axis: Axis) -> str:
    if axis == part.thick_axis:
        return "thick"
    return "long" if axis == part.length_axis else "wide"


def no_stock(part: Part, groove: Groove, grooves: list[Groove]) -> Blame:
    """A groove behind which other grooves, cuts or its own play left nothing."""
    cut = groove.cut
    rows = [Row(f"{part.address}, thick", Measure(part.thick.value, Dimension.LENGTH), part.origin)]
    rows.extend(
        Row(
            f"groove for {each.cut.by}, deep",
            Measure(each.cut.depth.value, Dimension.LENGTH),
            each.cut.origin,
        )
        for each in grooves
        if each is groove or (each.axis == groove.axis and _back_to_back(each, groove))
    )
    return finding_at(
        cut.origin,
        "groove-through",
        f"the groove for {cut.by} leaves no stock in {part.address}",
        rows=tuple(rows),
        help="make the grooves shallower, or move one so that they don't meet",
    )


def _back_to_back(one: Groove, other: Groove) -> bool:
    flat = replace(one.block, one.axis, 0, 1), replace(other.block, one.axis, 0, 1)
    return bool(shared((flat[0],), (flat[1],)))


def too_close(fixing: Fixing, wish: Wish) -> Blame:
    """A fixing whose fasteners no bench would drive."""
    assert fixing.every is not None
    every = Measure(fixing.every.value, Dimension.LENGTH)
    return finding_at(
        wish.origin,
        "fasteners-too-close",
        f"{fixing.name} asks more than {MOST_FASTENERS} fasteners of one joint",
        rows=(Row("every", every, fixing.every.origin),),
        help="set them further apart",
    )


def apart_across_turns(first: Part, second: Part, wish: Wish) -> Blame:
    """A join of two parts that aren't square to one another, or have corners cut off, and don't
    meet as it says."""
    verb = "enter" if wish.way == "into" else "touch"
    one, other = first.address, second.address
    help = f"let a face of {one} lie on a face of {other}, within 1/1000"
    if wish.way == "into":
        help = "say `to`: what is turned, or has a corner cut off, enters nothing askew to it"
    return finding_at(
        wish.origin,
        f"joint-does-not-{verb}",
        f"{one} does not {verb} {other}",
        labels=((first.origin, one), (second.origin, other)),
        help=help,
    )


def same_space(one: Part, two: Part, common: Box, wishes: tuple[Wish, ...]) -> Blame:
    """Two solids in one space; `wishes` are those that say they only touch."""
    return finding_at(
        two.origin,
        "parts-overlap",
        f"{two.address} and {one.address} stand in the same space",
        rows=tuple(Row(f"shared {axis}", length(common.size(axis))) for axis in AXES),
        labels=(
            (one.origin, one.address),
            *((wish.origin, "says that they touch") for wish in wishes),
        ),
        help="end one where the other begins, or say with `join … into` that it enters",
    )


def loose(group: list[Part]) -> Blame:
    """Parts that no joint ties to the rest of the unit."""
    names = ", ".join(part.address for part in group)
    verb = "is" if len(group) == 1 else "are"
    return finding_at(
        group[0].origin,
        "part-loose",
        f"{names} {verb} joined to nothing else in the unit",
        labels=tuple((part.origin, part.address) for part in group[1:]),
        help=f"say with `join` what {group[0].address} is fastened to",
    )
