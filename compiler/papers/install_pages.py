"""Pages for the installer: the wall with the order of setting, steps in words, and cautions."""

from collections.abc import Iterator

from casewright.compiler.model import Job
from casewright.compiler.papers.drawing import Drawing, Note
from casewright.compiler.papers.elevation import elevation
from casewright.compiler.papers.figures import Figure, Term, difference, figure, total
from casewright.compiler.papers.names import listed, words
from casewright.compiler.papers.pages import Caution, Page, lines_in, paged, part_of, room_on
from casewright.compiler.papers.pieces import label
from casewright.compiler.papers.walls import Side, Standing, sides

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
LICENSED = Caution(
    "WARNING",
    "Water, waste, gas, wiring and vents are work for licensed people, and local codes decide "
    "over these papers.",
)


_LINE, _PADDING, _CAPTION, _CAUTION = 5.3, 2.4, 14.0, 21.5


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
    for side in sides(job):
        tags = [thing.holder for thing in side.things if thing.placed.tag]
        if only is not None and only not in tags:
            continue
        order = setting_order(side)
        drawing = view(job, side)
        cautions = _cautions(side)
        steps = list(_steps(job, side, order, _rings(side)))
        heights = [_LINE * lines_in(_plain(note), 165.0) + _PADDING for _, note in steps]
        warned, drawn = _CAUTION * len(cautions), drawing.height + _CAPTION
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


def _cautions(side: Side) -> list[Caution]:
    found = []
    if any(thing.low > 0 and thing.placed.unit for thing in side.things):
        found.append(HANGING)
    found.append(LICENSED)
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
    job: Job, side: Side, order: list[Standing], rings: dict[str, str]
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
    for thing in high:
        yield rings[thing.holder], (
            f"Hang {label(thing.placed)}, its underside at ", thing.bottom,
            " above the floor, its left end ", _from_left(side, thing), " from the left.",
            *_held(thing),
        )  # fmt: skip
    for base in side.bases:
        yield "base", (
            f"Set {label(base.placed)} first, its left end ", _from_left(side, base),
            " from the left, level with the line all along.",
        )  # fmt: skip
    for thing in low:
        yield rings[thing.holder], (
            f"Set {label(thing.placed)}, its left end ", _from_left(side, thing),
            " from the left; shim to the line.", *_held(thing),
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
    fillers = [thing for thing in side.things if thing.placed.kind == "filler"]
    if fillers:
        pieces: list[str | Figure] = ["Scribe the fillers last: "]
        for index, thing in enumerate(fillers):
            pieces += [", " if index else "", thing.across]
        yield "scribe", (*pieces, ".")


def _from_left(side: Side, thing: Standing) -> Figure:
    """How far a thing's left end is from the wall's."""
    run = next(row.run for row in side.rows if thing in (*row.things, *row.bases))
    at = figure(thing.placed.at, f"{thing.holder}.at")
    if run.start.value == 0 or side.wall is None:
        return at
    start = figure(run.start, f"{run.name}.start")
    return total(f"{thing.holder}.from_left", (Term(1, start), Term(1, at)))


def _held(thing: Standing) -> Note:
    """Which parts take the wall screws, by their role."""
    unit = thing.placed.unit
    names = [words(part.address) for part in unit.parts if part.role == "hanging"] if unit else []
    return (f" Wall screws through the {listed(names)}.",) if names else ()
