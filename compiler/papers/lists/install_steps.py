"""The steps of setting a wall's units in words: the order, what is cut for pipes, what holds it."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from attrs import frozen

from casewright.compiler.model import Feature, Island, Job
from casewright.compiler.papers.figures import Figure, Note, Term, difference, figure, total
from casewright.compiler.papers.names import listed, words
from casewright.compiler.papers.pieces import label
from casewright.compiler.papers.walls import Side, Standing, island_outlets, sides
from casewright.compiler.shop.setting import Driven

HOW = (
    "Wall units are set before base units, so that nothing is reached over and no counter or front "
    "is under what is lifted. Each row begins in its corner, where nothing gives, and ends where a "
    "filler is scribed (common practice).",
    "Doors, drawers and shelves come out before a unit is set. Level it to the line from side to "
    "side and from back to front with shims in pairs, one from each side, under or behind what "
    "carries it; plumb its face; then drive the wall screws. Where the wall is hollow, shim behind "
    "the hanging part beside each stud: a screw that pulls the unit to the wall twists it.",
    "Join neighbours before either has all its wall screws: faces flush, tops level, clamped over "
    "scraps; bore, then screw near the top, near the bottom and evenly between, where a hinge, a "
    "slide or a shelf's edge hides it.",
)
"""What holds for all of a wall's units (common practice)."""

FREE = (
    "No wall is behind these units: screw battens to the floor inside the toe line and the base to "
    "them; where units stand back to back, join them through their hanging parts, with screws "
    "shorter than both together (common practice)."
)

_REACH = Fraction(6)
"""How far from a corner's neighbours, in inches, a run still begins in the corner: a filler."""


@frozen
class SettingStep:
    """A step: `ring` is the figure in the drawing, empty for what is done besides. What is
    `heeded` in all of them has nothing to tick."""

    ring: str
    note: Note
    heeded: bool = False


def setting_order(job: Job, side: Side) -> list[Standing]:
    """Wall units first, then what stands on the floor; each from the corner outwards, from the left
    where both ends or neither stand in one (common practice)."""
    turn = -1 if _begins_right(job, side) else 1
    units = [thing for thing in side.things if thing.placed.kind == "unit" and not thing.around]
    return sorted(units, key=lambda each: (each.low == 0, turn * each.left))


def _begins_right(job: Job, side: Side) -> bool:
    wall = side.wall
    if wall is None or not side.things:
        return False
    others = {each.name: each for each in sides(job) if each.wall is not None and each.things}
    deep = max(thing.placed.depth.value for thing in side.things) + _REACH
    at_right = at_left = False
    for corner in job.room.corners:
        if corner.first == wall.name and corner.second in others:
            other = others[corner.second]
            room = max(thing.placed.depth.value for thing in other.things) + _REACH
            at_right = (
                min(thing.left for thing in other.things) <= deep
                and wall.length.value - max(thing.right for thing in side.things) <= room
            )
        elif corner.second == wall.name and corner.first in others:
            other = others[corner.first]
            room = max(thing.placed.depth.value for thing in other.things) + _REACH
            end = other.wall.length.value if other.wall else Fraction(0)
            at_left = (
                end - max(thing.right for thing in other.things) <= deep
                and min(thing.left for thing in side.things) <= room
            )
    return at_right and not at_left


def setting_steps(
    job: Job, side: Side, order: Sequence[Standing], driven: Sequence[Driven]
) -> Iterator[SettingStep]:
    """The steps of a wall, those of `order` with their rings."""
    rings = {thing.holder: str(number) for number, thing in enumerate(order, 1)}
    high = [thing for thing in order if thing.low > 0]
    low = [thing for thing in order if thing.low == 0]
    for text in HOW:
        yield SettingStep("", (text,), heeded=True)
    if side.wall is None:
        yield SettingStep("", (FREE,), heeded=True)
    yield from _lines(job, side, high, low)
    for blocking in side.wall.blocking if side.wall else ():
        yield SettingStep("", _blocked(f"{side.name}.{blocking.name}", blocking))
    for island, outlet in island_outlets(job, side):
        yield SettingStep("", _wired(island, outlet))
    fillers = [thing for thing in side.things if thing.placed.kind == "filler"]
    for thing in fillers:
        if thing.placed.unit is None:
            yield SettingStep("", _in_stile(side, thing))
    for thing in high:
        note: Note = (
            f"Hang {label(thing.placed)}, its underside at ", thing.bottom,
            " above the floor, its left end ", _from_left(side, thing), f" from {_zero(side)}.",
        )  # fmt: skip
        yield SettingStep(
            rings[thing.holder],
            (*note, *_cut_for(side, thing), *_held(job, side, thing, rings, driven)),
        )
    for base in side.bases:
        yield SettingStep(
            "",
            (
                f"Before what stands on it: set {label(base.placed)}, its left end ",
                _from_left(side, base), f" from {_zero(side)}, its top level all along.",
                *_shimmed(job, base.holder, driven),
            ),
        )  # fmt: skip
    for thing in low:
        note = (
            f"Set {label(thing.placed)}, its left end ", _from_left(side, thing),
            f" from {_zero(side)}, ", _levelled(job, thing),
        )  # fmt: skip
        yield SettingStep(
            rings[thing.holder],
            (
                *note, *_cut_for(side, thing), *_shimmed(job, thing.holder, driven),
                *_screwed_down(job, thing.holder, driven),
                *_held(job, side, thing, rings, driven),
            ),
        )  # fmt: skip
    for thing in side.things:
        if thing.placed.kind == "appliance":
            text = f" open for {label(thing.placed)}, {words(thing.placed.title)}."
            yield SettingStep("", ("Keep ", thing.across, text))
    loose = [thing for thing in fillers if thing.placed.unit is not None]
    for thing in loose:
        yield from _corner_piece(job, thing, driven)
    if loose:
        pieces: list[str | Figure] = ["Fit the fillers last, scribed where they meet a wall: "]
        for index, thing in enumerate(loose):
            pieces += [", " if index else "", thing.across, *_as_measured(thing)]
        yield SettingStep("", (*pieces, "."))


def _corner_piece(job: Job, thing: Standing, driven: Sequence[Driven]) -> Iterator[SettingStep]:
    """What is made of two fillers that meet in a dead corner."""
    for each in driven:
        if each.dead and each.neighbour == thing.holder:
            yield SettingStep(
                "",
                (
                    f"Make up the corner before it is set: screw the {words(thing.holder)} to the "
                    f"post of {words(each.holder)}, faces in line: {each.count} "
                    f"({_title(job, each)}). Set both as one piece, and screw it from inside "
                    "through the sides that stand beside it.",
                ),
            )


def _blocked(address: str, blocking: Feature) -> Note:
    """Where blocking is in a wall."""
    at, up = figure(blocking.at, f"{address}.at"), figure(blocking.up, f"{address}.up")
    end = total(f"{address}.end", (Term(1, at), Term(1, figure(blocking.wide, f"{address}.wide"))))
    top = total(f"{address}.top", (Term(1, up), Term(1, figure(blocking.high, f"{address}.high"))))
    return (
        f"There is {words(blocking.name)} in the wall from ", at, " to ", end,
        " from its left end, ", up, " to ", top, " above the floor: wall screws go into it there, "
        "near both ends of each unit and as often as they would meet studs.",
    )  # fmt: skip


def _wired(island: Island, outlet: Feature) -> Note:
    """Where what stands on an island is cut for an outlet."""
    address = f"{island.name}.{outlet.name}"
    return (
        f"Cut the {outlet.facing} of {words(island.name)} for {words(outlet.name)}: ",
        figure(outlet.at, f"{address}.at"), " from that side's left end as seen facing it and ",
        figure(outlet.up, f"{address}.up"), " above the floor, no larger than its plate covers. "
        "Its cable comes up through the floor before anything is set there.",
    )  # fmt: skip


def _levelled(job: Job, thing: Standing) -> str:
    box = job.room.counter.value - job.room.counter_thick.value
    return "its top on the line." if thing.high == box else "level and plumb."


def _lines(
    job: Job, side: Side, high: Sequence[Standing], low: Sequence[Standing]
) -> Iterator[SettingStep]:
    """The level lines, from the floor's high point."""
    where = f"along {_what(side)}"
    found: Note = (f"Find the floor's high point {where}",)
    points = side.wall.floor_points if side.wall else ()
    if points and side.wall:
        at, _ = max(points, key=lambda point: point[1].value)
        found = (
            *found, " (as surveyed, ", figure(at, f"{side.wall.name}.floor_high_at"),
            f" from {_zero(side)})",
        )  # fmt: skip
    if low:
        top = difference(
            figure(job.room.counter, "room.counter"),
            figure(job.room.counter_thick, "room.counter_thick"),
            f"{side.name}.level_line",
        )
        strike = "; strike a level line " if side.wall else "; set a laser or a string to "
        yield SettingStep(
            "", (*found, strike, top, " above it, all along: base units are shimmed up to it.")
        )
    undersides: dict[Fraction, list[Standing]] = {}
    for thing in high:
        undersides.setdefault(thing.low, []).append(thing)
    for things in undersides.values():
        begin = ("Strike another level line ",) if low else (*found, "; strike a level line ")
        yield SettingStep("", (
            *begin, things[0].bottom, " above the same point: ",
            f"{listed(label(thing.placed) for thing in sorted(things, key=lambda at: at.left))} "
            f"{'hangs' if len(things) == 1 else 'hang'} with the underside on it. "
            "Mark the studs over it.",
        ))  # fmt: skip


def _what(side: Side) -> str:
    return "the wall" if side.wall else "the face"


def _zero(side: Side) -> str:
    """Where a wall's places are measured from."""
    return f"the left end of {_what(side)}"


def _in_stile(side: Side, filler: Standing) -> Note:
    """What is done where a filler is taken into the stile of the unit beside it."""
    row = next(row for row in side.rows if filler in row.things)
    beside = next(
        (
            thing
            for thing in row.things
            if thing.placed.unit and (thing.right == filler.left or thing.left == filler.right)
        ),
        None,
    )
    stiles = [
        part
        for part in (beside.placed.unit.parts if beside and beside.placed.unit else ())
        if part.role == "stile"
    ]
    if beside is None or not stiles:
        return ("Close the gap of ", filler.across, " by scribing what stands beside it.")
    at_left = beside.left > filler.left
    stile = (min if at_left else max)(stiles, key=lambda part: part.box.across[0])
    tag = label(beside.placed)
    end = "left" if at_left else "right"
    beyond = (filler.placed.at.value, filler.placed.at.value + filler.placed.width.value)
    fits = f"Scribe and plane it to the wall before {tag} is fixed."
    if any(
        each.dead_with and (each.at.value in beyond or each.at.value + each.width.value in beyond)
        for each in row.run.placed
    ):
        fits = "There it comes to the post in the dead corner."
    return (
        f"No loose filler beside {tag}: its {words(stile.address.rpartition('.')[2])} is ",
        filler.across, " wider for it", *_as_measured(filler),
        f" and reaches so far past its {end} end, which is measured at the box. {fits}",
    )  # fmt: skip


def _as_measured(thing: Standing) -> Note:
    """How far a scribed gap differs, as the room was measured; nothing where it doesn't."""
    scribe = thing.placed.scribe
    if scribe is None or scribe.least.value == scribe.most.value:
        return ()
    return (
        " (", figure(scribe.least, f"{thing.holder}.least"), " to ",
        figure(scribe.most, f"{thing.holder}.most"), " as measured)",
    )  # fmt: skip


def _from_left(side: Side, thing: Standing) -> Figure:
    """How far a thing's left end is from the wall's."""
    run = next(row.run for row in side.rows if thing in (*row.things, *row.bases))
    at = figure(thing.placed.at, f"{thing.holder}.at")
    if run.start.value == 0 or side.wall is None:
        return at
    start = figure(run.start, f"{run.name}.start")
    return total(f"{thing.holder}.from_left", (Term(1, start), Term(1, at)))


def _cut_for(side: Side, thing: Standing) -> Note:
    """What comes out of the wall behind a unit, from its left end: its back is cut for it."""
    if side.wall is None or thing.placed.unit is None:
        return ()
    pieces: list[str | Figure] = []
    for index, feature in enumerate(side.features):
        if _is_opening(feature) or not thing.left < feature.at.value < thing.right:
            continue
        if not thing.low <= feature.up.value <= thing.high:
            continue
        name = f"{side.wall.name}.{feature.name}"
        run = next(row.run for row in side.rows if thing in row.things)
        across = total(
            f"{thing.holder}.{feature.kind}_{index + 1}_from_left",
            (
                Term(1, figure(feature.at, f"{name}.at")),
                Term(-1, figure(run.start, f"{run.name}.start")),
                Term(-1, figure(thing.placed.at, f"{thing.holder}.at")),
            ),
        )
        pieces += [
            ", " if pieces else "", f"{words(feature.name)} ", across, " from its left end and ",
            figure(feature.up, f"{name}.up"), " above the floor",
        ]  # fmt: skip
    if not pieces:
        return ()
    return (
        " First cut its back, and what else stands before them, for: ", *pieces,
        "; measure them again on the wall, bore from the inside, each hole no larger than its "
        "plate covers.",
    )  # fmt: skip


def _is_opening(feature: Feature) -> bool:
    return bool(feature.wide.value and feature.high.value)


def _title(job: Job, each: Driven) -> str:
    return job.supply.titles.get(each.setting.driven, words(each.setting.driven))


def _shimmed(job: Job, holder: str, driven: Sequence[Driven]) -> Note:
    """With what it is levelled, as much as is bought for it."""
    return tuple(
        f" Level it with {each.count} ({_title(job, each)})."
        for each in driven
        if each.holder == holder and not each.neighbour and not each.setting.through
    )


def _screwed_down(job: Job, holder: str, driven: Sequence[Driven]) -> Note:
    """What goes down into the base it stands on, as many as are bought for it."""
    return tuple(
        f" Screw it down through the {listed(words(address) for address in each.parts)} into the "
        f"base's {listed(words(address) for address in each.into)}: "
        f"{each.count} ({_title(job, each)})."
        for each in driven
        if each.holder == holder and each.neighbour and each.setting.through
    )


def _held(
    job: Job, side: Side, thing: Standing, rings: dict[str, str], driven: Sequence[Driven]
) -> Note:
    """Which parts take the wall screws, and what it is joined to of what stands already: as many
    as are bought for it. Where the shop's text says nothing of it, as is common practice."""
    said, joined_later = [], []
    for each in driven:
        title = _title(job, each)
        if each.holder == thing.holder and not each.neighbour and each.setting.through:
            names = listed(words(address) for address in each.parts)
            if side.wall is None:
                said.append(_to_the_floor(names))
            else:
                where = ", the same at each stud" if each.setting.studs else ""
                wall = (
                    f"{words(each.wall)}, the wall around the corner" if each.wall else "the wall"
                )
                said.append(
                    f" Screws through the {names} into {wall}: {each.count} ({title}){where}."
                )
        elif each.dead:
            # It is told with the second of the two, to which the first brings the post.
            if each.neighbour == thing.holder:
                said.append(
                    f" Screw its stile to the post that {words(each.holder)} brings to the corner, "
                    "from behind in the dead corner, faces in line: "
                    f"{each.count} ({title})."
                )
        elif (
            each.neighbour
            and not each.setting.through
            and thing.holder in (each.holder, each.neighbour)
        ):
            other = each.neighbour if each.holder == thing.holder else each.holder
            # Around a corner the join is told once, with the unit set beside the leg there.
            if other not in rings and thing.placed.returns is not None:
                continue
            if int(rings.get(other, "0")) < int(rings[thing.holder]):
                said.append(
                    f" Clamp it to {words(other)}, faces in line, and join them: "
                    f"{each.count} ({title})."
                )
            else:
                joined_later.append(words(other))
    if said:
        return ("".join(said),)
    if joined_later:
        return (f" Prop it until {listed(joined_later)} is joined to it.",)
    unit = thing.placed.unit
    held_by = [words(part.address) for part in unit.parts if part.role == "hanging"] if unit else []
    if held_by and side.wall is None:
        return (_to_the_floor(listed(held_by)),)
    if held_by:
        return (
            f" Wall screws through the {listed(held_by)}, one at each stud and never fewer than "
            "two.",
        )
    return (
        " Nothing stands beside it and no part of it takes a wall screw: screw a batten to the "
        "floor and, where there is one, to the wall's studs inside its line, and screw it to the "
        "battens from the side that isn't seen, at most 12 inches apart (common practice).",
    )


def _to_the_floor(names: str) -> str:
    """How a unit is held that stands free in the room."""
    return f" Hold it as what stands free, its {names} to what is behind it."
