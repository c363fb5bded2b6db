"""The way a kitchen travels, on one screen: text to one immutable Job.

    read, parse, shape    lang/, by load.py   texts, shaped
    resolve               resolve.py          a program: declarations with their parents opened
    place                 kitchen.py, place.py  the room, and rows of slots with their widths
                          saw.py, read_sawn.py  the saw, offcuts that are kept, what is sawn
                          read_supply.py      packs, what is on hand, rates
    construct             construct/          a unit's parts in space, once per key
    contact               contact.py          joints
    order                 order.py            proved steps
                          furnish.py          rows with their units, bound to their own lines
                          clashes.py          what stands in one place, or in a wall
    measure by            read_yardstick.py   allowances, limits, what the text accepts
    check                 check/              whatever would go wrong; it changes nothing

Where a unit or a run is broken no job comes of it; what stands around is checked all the same, the
broken unit by its outline.

Every phase returns its value and what it found; nothing raises for a person's mistake.
"""

from attrs import field, frozen

from casewright.compiler.check.look_over import look_over
from casewright.compiler.check.quantities import QUANTITIES
from casewright.compiler.model import Job
from casewright.compiler.naming import materials_of, named_figures
from casewright.compiler.reports import (
    all_in_runs,
    breaks,
    in_order,
    spoilt_runs,
    without_vain_sums,
)
from casewright.compiler.rooms.clashes import clashes
from casewright.compiler.rooms.furnish import Furnisher, outlined, without_oversized
from casewright.compiler.rooms.kitchen import read_head, usual_printing
from casewright.compiler.rooms.place import place, where_known
from casewright.compiler.rooms.room import place_step
from casewright.compiler.rooms.survey import read_room
from casewright.compiler.shop.read_sawn import read_sawn
from casewright.compiler.shop.read_supply import read_supply
from casewright.compiler.shop.read_yardstick import read_yardstick
from casewright.compiler.shop.saw import read_offcuts, read_saw
from casewright.compiler.text.load import load
from casewright.compiler.text.resolve import Program, resolve
from casewright.compiler.world import World
from casewright.lang.findings import Finding, Progress, error
from casewright.lang.printing import Printing


@frozen
class Compiled:
    """What came of a kitchen's text.

    `job` is None where some unit or run is broken or the text could not be read; `program` is
    there whenever a tree was. `tree_read` is False only when the entry could not be read at all.
    `printing` is how its figures are printed: as its job says, whether or not that can be built.
    """

    job: Job | None
    findings: tuple[Finding, ...]
    progress: Progress
    tree_read: bool
    program: Program | None = None
    printing: Printing = field(factory=Printing)


def compile_job(world: World, entry: str) -> Compiled:
    """Builds the kitchen whose text is `entry`.

    Raises casewright.compiler.world.Unreadable when `entry` itself can't be had.
    """
    texts, reading = load(world, entry)
    if texts.broken or not texts.texts:
        return Compiled(None, reading, Progress(), tree_read=False)
    program, resolving = resolve(texts)
    system = texts.texts[0].system
    head, heading = read_head(program, system)
    room, measuring = read_room(program, system)
    known = (*reading, *resolving)
    saw, sawing = read_saw(program, system, known)
    offcuts, stocking = read_offcuts(program, system, known)
    yardstick, limiting = read_yardstick(program, system, QUANTITIES)
    supply, supplying = read_supply(program, system, (*known, *sawing, *stocking))
    found = (*reading, *resolving, *heading, *measuring, *sawing, *stocking, *limiting)
    if head is None or (room is None and program.rooms):
        without = _no_job(program) if head is None else ()
        findings = in_order(program, (*found, *supplying, *without))
        printing = head.printing if head is not None else usual_printing(system)
        return Compiled(None, findings, Progress(), True, program, printing)
    rows, placing = place(program, room, head, system)
    found = without_vain_sums(program, (*found, *placing))
    furnisher = Furnisher(program, room, head, system)
    furnished = furnisher.runs(rows, spoilt_runs(program, found))
    runs = tuple(run for run, _ in furnished)
    found = without_vain_sums(program, found, furnisher.misfits)
    spoilt = spoilt_runs(program, (*found, *furnisher.reader.findings)) | furnisher.misfits
    known_places = tuple(map(without_oversized, where_known(rows, runs, spoilt)))
    standing: tuple[Finding, ...] = ()
    if room is not None:
        standing = clashes(room, known_places, head.printing, place_step(system))
    findings = in_order(program, (*found, *furnisher.findings, *standing))
    progress = Progress(
        sum(placed.unit is not None for run in runs for placed in run.placed),
        furnisher.bank.worked_out,
    )
    # Units are judged by their outlines only in a room that is as its text says.
    if room is None or not all_in_runs(program, (*found, *furnisher.reader.findings)):
        findings = in_order(program, (*findings, *supplying))
        return Compiled(None, findings, progress, True, program, head.printing)
    sound = all(whole for _, whole in furnished) and len(rows) == len(program.runs)
    whole = sound and not any(breaks(program, finding) for finding in findings)
    sawn: frozenset[str] = frozenset()
    if whole:
        sawn, resuming = read_sawn(program, runs)
        findings = (*findings, *resuming)
    else:
        runs = tuple(outlined(run) for run in known_places)
    materials = materials_of(runs)
    job = Job(
        head.name,
        head.number,
        head.revision,
        head.date,
        head.system,
        head.precision,
        texts.edition,
        room,
        runs,
        materials,
        saw,
        offcuts,
        named_figures(room, runs, materials, head.precision),
        program.sources,
        sawn,
        yardstick=yardstick,
        supply=supply,
        saw_declared=bool(program.names("saw")),
    )
    findings = in_order(program, look_over(job, (*findings, *supplying), whole=whole))
    return Compiled(job if whole else None, findings, progress, True, program, head.printing)


def _no_job(program: Program) -> tuple[Finding, ...]:
    if not program.runs:
        return ()
    return (
        error(
            "no-job",
            "no job is named; a kitchen begins with: job, and its name",
            None,
        ),
    )
