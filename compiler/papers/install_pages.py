"""Pages for the installer: the wall with the order of setting, steps in words, and cautions."""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from casewright.compiler.model import Job
from casewright.compiler.papers.drawing import Drawing, Note
from casewright.compiler.papers.elevation import elevation
from casewright.compiler.papers.figures import (
    Figure,
    Term,
    difference,
    figure,
    printing_of,
    total,
)
from casewright.compiler.papers.names import listed, words
from casewright.compiler.papers.pages import Caution, Page, lines_in, paged, part_of, room_on
from casewright.compiler.papers.pieces import label
from casewright.compiler.papers.sheet_pages import LIFTED_ALONE, weight_words
from casewright.compiler.papers.walls import Side, Standing, sides
from casewright.compiler.shop.setting import Driven, set_with

SAY = (
    "For the installer. Before: the floor is down, water, waste and gas are capped. "
    "After: the counter is measured."
)

HANGING = Caution(
    "WARNING",
    "A wall unit hung on plasterboard alone falls on whoever stands under it. Every wall screw "
    "goes through a hanging part well into a stud or into blocking; two people hold the unit "
    "until all its screws are in.",
)
TALL = Caution(
    "WARNING",
    "A tall unit that isn't fixed falls over when it is climbed on or its doors hang open. It is "
    "screwed to studs or blocking at its top before anything is put into it or hung on it.",
)
LICENSED = Caution(
    "WARNING",
    "Water, waste, gas, wiring and vents are work for licensed people, and local codes decide "
    "over these papers. Find wires and pipes in the wall before a screw is driven into it.",
)
DUST = Caution(
    "CAUTION",
    "Scribing, drilling and sanding in a closed room make dust that harms the lungs: extraction "
    "at the tool, a fitting mask, glasses.",
)


_LINE, _PADDING, _CAPTION = 5.3, 2.4, 14.0
_BOX, _BOXED, _BOX_ROOM = 9.0, 5.2, 138.0


def lifting(job: Job) -> Caution:
    """The caution for whoever carries units in."""
    alone = weight_words(LIFTED_ALONE, printing_of(job))
    return Caution(
        "CAUTION",
        f"One person lifts {alone} at best, close to the body, and less overhead (NIOSH lifting "
        "equation). Doors, drawers and shelves come out first; two people carry, and a wall unit "
        "rests on a prop or batten while it is screwed.",
    )


def tipping(tags: list[str]) -> Caution:
    """The caution for units whose drawers pull them over before they are fixed."""
    verb = "tips" if len(tags) == 1 else "tip"
    return Caution(
        "CAUTION",
        f"Until it is fixed, {listed(tags)} {verb} forward when drawers are pulled. "
        "Lift the drawers out first.",
    )


def pages(job: Job, only: str | None = None) -> Iterator[Page]:
    """A page for each wall with a run."""
    driven: dict[str, list[Driven]] = {}
    for each in set_with(job):
        driven.setdefault(each.neighbour or each.holder, []).append(each)
    for side in sides(job):
        tags = [thing.holder for thing in side.things if thing.placed.tag]
        if only is not None and only not in tags:
            continue
        order = setting_order(side)
        drawing = view(job, side)
        cautions = _cautions(job, side)
        steps = list(_steps(job, side, order, _rings(side), driven))
        heights = [_LINE * lines_in(_plain(note), 165.0) + _PADDING for _, note in steps]
        warned = sum(_BOX + _BOXED * lines_in(each.text, _BOX_ROOM) for each in cautions)
        drawn = drawing.height + _CAPTION
        # Cautions stand before the steps: over the drawing, or after one that fills its page.
        heads: list[tuple[object, float]] = [(cautions, warned), (drawing, drawn)]
        if warned + drawn > room_on(job):
            heads.reverse()
        shared = paged([*heads, *zip(steps, heights, strict=True)], room_on(job))
        for number, held in enumerate(shared, 1):
            yield Page(
                f"install-{side.name}" if number == 1 else f"install-{side.name}-{number}",
                "install",
                f"Install the {side.title}",
                SAY,
                "install.html",
                {
                    "cautions": cautions if cautions in held else (),
                    "drawing": drawing if drawing in held else None,
                    "steps": [step for step in held if step not in (cautions, drawing)],
                },
                frozenset(tags),
                part=part_of(number, shared),
                more=number > 1,
            )


def _plain(note: Note) -> str:
    """A step's words, with room kept for its figures."""
    return "".join(piece if isinstance(piece, str) else "000 00/00" for piece in note)


def view(job: Job, side: Side) -> Drawing:
    """The wall with the order of setting in rings."""
    return elevation(job, side, _rings(side), room_on(job) - _CAPTION)


def _rings(side: Side) -> dict[str, str]:
    return {thing.holder: str(number) for number, thing in enumerate(setting_order(side), 1)}


def setting_order(side: Side) -> list[Standing]:
    """Wall units first, before base units are in the way, then what stands on the floor; each
    from left to right (common practice)."""
    units = [thing for thing in side.things if thing.placed.kind == "unit" and not thing.around]
    high = sorted((each for each in units if each.low > 0), key=lambda each: each.left)
    low = sorted((each for each in units if each.low == 0), key=lambda each: each.left)
    return [*high, *low]


def _cautions(job: Job, side: Side) -> list[Caution]:
    units = [thing for thing in side.things if thing.placed.unit is not None]
    counter = job.room.counter.value
    found = []
    if any(thing.low > 0 for thing in units):
        found.append(HANGING)
    if any(thing.low == 0 and thing.placed.height.value > counter for thing in units):
        found.append(TALL)
    found += [LICENSED, lifting(job), DUST]
    tags = [
        label(thing.placed)
        for thing in side.things
        if thing.placed.unit is not None
        and any(each.motion and each.motion.kind == "out" for each in thing.placed.unit.assemblies)
    ]
    if tags:
        found.append(tipping(tags))
    return found


def _steps(
    job: Job,
    side: Side,
    order: list[Standing],
    rings: dict[str, str],
    driven: Mapping[str, Sequence[Driven]],
) -> Iterator[tuple[str, Note]]:
    high = [thing for thing in order if thing.low > 0]
    low = [thing for thing in order if thing.low == 0]
    if low:
        # A ring's figure stands for its unit, so these lines are lettered, not numbered.
        top = difference(
            figure(job.room.counter, "room.counter"),
            figure(job.room.counter_thick, "room.counter_thick"),
            f"{side.name}.level_line",
        )
        yield "level", (
            "Find the floor's high point along the wall; strike a level line ", top,
            " above it, all along.",
        )  # fmt: skip
    undersides: dict[Fraction, list[Standing]] = {}
    for thing in high:
        undersides.setdefault(thing.low, []).append(thing)
    for things in undersides.values():
        yield "level", (
            "Strike another level line ", things[0].bottom, " above the same point: "
            f"{listed(label(thing.placed) for thing in things)} "
            f"{'hangs' if len(things) == 1 else 'hang'} with the underside on it. "
            "Mark the studs over it.",
        )  # fmt: skip
    fillers = [thing for thing in side.things if thing.placed.kind == "filler"]
    for thing in fillers:
        if thing.placed.unit is None:
            yield "scribe", _in_stile(side, thing)
    for thing in high:
        yield rings[thing.holder], (
            f"Hang {label(thing.placed)}, its underside at ", thing.bottom,
            " above the floor, its left end ", _from_left(side, thing), " from the left.",
            *_held(job, thing, driven),
        )  # fmt: skip
    for base in side.bases:
        yield "base", (
            f"Set {label(base.placed)} first, its left end ", _from_left(side, base),
            " from the left, level with the line all along.",
        )  # fmt: skip
    for thing in low:
        yield rings[thing.holder], (
            f"Set {label(thing.placed)}, its left end ", _from_left(side, thing),
            " from the left; shim to the line.", *_held(job, thing, driven),
        )  # fmt: skip
    for thing in side.things:
        if thing.placed.kind == "appliance":
            yield (
                "keep",
                (
                    "Keep ",
                    thing.across,
                    f" open for {label(thing.placed)}, {words(thing.placed.title)}.",
                ),
            )
    loose = [thing for thing in fillers if thing.placed.unit is not None]
    if loose:
        pieces: list[str | Figure] = ["Fit the fillers last, scribed where they meet a wall: "]
        for index, thing in enumerate(loose):
            pieces += [", " if index else "", thing.across, *_as_measured(thing)]
        yield "scribe", (*pieces, ".")


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
    nearest = min if beside.left > filler.left else max
    stile = nearest(stiles, key=lambda part: part.box.across[0])
    tag = label(beside.placed)
    return (
        f"No loose filler beside {tag}: its {words(stile.address.rpartition('.')[2])} is ",
        filler.across, " wider for it", *_as_measured(filler),
        f". Scribe and plane it to the wall before {tag} is fixed.",
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


def _held(job: Job, thing: Standing, driven: Mapping[str, Sequence[Driven]]) -> Note:
    """Which parts take the wall screws and what it is joined to its neighbour with: as many as are
    bought for it. Where the shop's text says nothing of it, as is common practice."""
    said = []
    for each in driven.get(thing.holder, ()):
        title = job.supply.titles.get(each.setting.driven, words(each.setting.driven))
        if each.neighbour:
            said.append(
                f" Clamp it to {each.holder}, faces in line, and join them: {each.count} ({title})."
            )
        elif each.setting.through:
            names = listed(words(address) for address in each.parts)
            where = ", the same at each stud" if each.setting.studs else ""
            said.append(
                f" Screws through the {names} into the wall: {each.count} ({title}){where}."
            )
    if said:
        return ("".join(said),)
    unit = thing.placed.unit
    held_by = [words(part.address) for part in unit.parts if part.role == "hanging"] if unit else []
    if not held_by:
        return ()
    return (
        f" Wall screws through the {listed(held_by)}, one at each stud and never fewer than two.",
    )
