"""Pages for the installer: the wall with the order of setting, steps in words, and cautions."""

from collections.abc import Iterator, Sequence

from casewright.compiler.model import Job
from casewright.compiler.papers.drawings.drawing import Drawing
from casewright.compiler.papers.drawings.elevation import elevation
from casewright.compiler.papers.figures import Note, printing_of
from casewright.compiler.papers.lists.install_steps import SettingStep, setting_order, setting_steps
from casewright.compiler.papers.names import listed
from casewright.compiler.papers.pages.pages import Caution, Page, lines_in, paged, part_of, room_on
from casewright.compiler.papers.pages.rip_list import LIFTED_ALONE, weight_words
from casewright.compiler.papers.pieces import label
from casewright.compiler.papers.walls import Side, sides
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
    driven = set_with(job)
    for side in sides(job):
        tags = [thing.holder for thing in side.things if thing.placed.tag]
        if only is not None and only not in tags:
            continue
        order = setting_order(job, side)
        drawing = view(job, side)
        cautions = _cautions(job, side)
        steps = list(setting_steps(job, side, order, driven_here(side, driven)))
        heights = [_LINE * lines_in(_plain(step.note), 165.0) + _PADDING for step in steps]
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
                    "steps": [step for step in held if isinstance(step, SettingStep)],
                },
                frozenset(tags),
                part=part_of(number, shared),
                more=number > 1,
            )


def driven_here(side: Side, driven: Sequence[Driven]) -> list[Driven]:
    """What of a job's screws and shims sets what stands on a wall."""
    here = {thing.holder for thing in (*side.things, *side.bases)}
    return [each for each in driven if each.holder in here]


def _plain(note: Note) -> str:
    """A step's words, with room kept for its figures."""
    return "".join(piece if isinstance(piece, str) else "000 00/00" for piece in note)


def view(job: Job, side: Side) -> Drawing:
    """The wall with the order of setting in rings."""
    order = setting_order(job, side)
    rings = {thing.holder: str(number) for number, thing in enumerate(order, 1)}
    return elevation(job, side, rings, room_on(job) - _CAPTION)


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
