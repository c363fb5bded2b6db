"""What a job needs that is bought, and what to order: everything but prices.

Sheets come from their cutting plans, and so do boards where the shop says how its lumber comes.
Lumber is counted in board feet by the rules of the National Hardwood Lumber Association (a board
foot is 1 x 12 x 12 inches of rough stock, less than an inch counted as one; rough thickness by
what surfacing two faces leaves; planned boards as a grader tallies them), in cubic metres in metric
jobs. Without a plan, waste is a loss of yield (net / (1 - waste)), never a mark-up.
"""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from math import ceil

from casewright.compiler.cutting.board_cuts import LumberPlan
from casewright.compiler.cutting.board_plans import BoardPlans
from casewright.compiler.cutting.linear import LinearLists
from casewright.compiler.cutting.sawing import MaterialPlan, NotPlanned, Used
from casewright.compiler.model import EDGES, Box, Job, Joint, Material, Part, Placed
from casewright.compiler.plan.lumber import Board, board_feet, gross, rough_thickness
from casewright.compiler.shop.priced import (
    BuyingList,
    Measure,
    Needed,
    Section,
    percent,
    unread_words,
)
from casewright.compiler.shop.setting import set_with
from casewright.compiler.shop.supply import Coat
from casewright.lang.measure import INCH, System, length
from casewright.lang.printing import Printing, printed

CUBIC_INCHES_OF_A_METRE = (Fraction(1000) / INCH) ** 3


NO_BOARDS = BoardPlans()
NO_LINEAR = LinearLists()


def buying_list(
    job: Job,
    plans: Sequence[MaterialPlan],
    unplanned: Sequence[NotPlanned] = (),
    boards: BoardPlans = NO_BOARDS,
    linear: LinearLists = NO_LINEAR,
) -> BuyingList:
    """What a job needs that is bought; sheets by `plans`, lumber by `boards`, what runs along
    units by `linear`."""
    rows = (
        *_sheets(job, plans),
        *_lumber(job, boards),
        *_bands(job),
        *_linear(job, linear),
        *_hardware(job),
        *_fasteners(job),
        *_coats(job),
    )
    left_out = [
        f"{each.material.title}: {each.pieces} pieces are not planned, since {each.why}."
        for each in unplanned
    ]
    appliances = [placed.title for placed in job.placed if placed.kind == "appliance"]
    if appliances:
        left_out.append(f"Appliances are not on this list: {', '.join(appliances)}.")
    if not job.supply.coats:
        left_out.append("No coat is declared, so finish and glue are not on this list.")
    if job.supply.unread:
        left_out.append(unread_words(job.supply.unread))
    lost = tuple(dict.fromkeys(each.material.title for each in unplanned))
    return BuyingList(rows, tuple(left_out), lost)


def _row(
    job: Job, section: Section, name: str, title: str, measure: Measure,
    uses: Mapping[str, Fraction], needed: Fraction, *,
    long: Fraction | None = None, size: str = "", note: str = "",
) -> Needed:  # fmt: skip
    bought = job.supply.how(name)
    net = sum(uses.values(), Fraction(0))
    held = job.supply.has(name, long)
    missing = max(Fraction(0), needed - held)
    packs: int | None = None
    to_order = missing
    by_length = measure == "inch"
    if bought is not None and bought.pack is not None and bought.by_length == by_length:
        packs = ceil(missing / bought.pack)
        to_order = packs * bought.pack
    elif measure in ("sheet", "piece", "pack"):
        to_order = Fraction(ceil(missing))
    return Needed(
        section, name, title, size, long, measure, net, needed, held, to_order, packs, bought,
        uses, note,
    )  # fmt: skip


def _units(job: Job) -> Iterator[tuple[Placed, Part]]:
    """Every part of every unit, bought things too."""
    for placed in job.placed:
        for part in placed.unit.parts if placed.unit is not None else ():
            yield placed, part


def _add(uses: dict[str, Fraction], holder: str, amount: Fraction) -> None:
    uses[holder] = uses.get(holder, Fraction(0)) + amount


def piece_areas(plan: MaterialPlan) -> dict[str, Fraction]:
    """The area of a plan's pieces by the address of their unit, in square inches."""
    areas: dict[str, Fraction] = {}
    for sheet in plan.sheets:
        for board in sheet.boards:
            if board.use == "piece":
                _add(areas, board.holder, board.length * board.width)
    return areas


def _sheets(job: Job, plans: Sequence[MaterialPlan]) -> Iterator[Needed]:
    for plan in plans:
        areas = piece_areas(plan)
        whole = sum(areas.values(), Fraction(0))
        for used in plan.used:
            if used.kept:
                continue
            uses = {holder: used.count * area / whole for holder, area in areas.items()}
            row = _row(
                job, "sheets", plan.material.name, plan.material.title, "sheet",
                uses, Fraction(used.count), long=_long(job, plan.material.name, used),
                size=_size(job, used),
                note="" if plan.proved else "fewer may do: the cutting plan says how many are open",
            )  # fmt: skip
            yield row


def _long(job: Job, name: str, used: Used) -> Fraction | None:
    """A sheet's length, where the shop prices or holds this length apart from others."""
    supply = job.supply
    lengths = {(each.name, each.long) for each in supply.on_hand}
    if supply.rates is not None:
        lengths |= {(each.name, each.long) for each in supply.rates.prices}
    return used.size.length if (name, used.size.length) in lengths else None


def _size(job: Job, used: Used) -> str:
    printing = Printing(job.system, job.precision.value)
    width, long = (
        printed(length(each), printing).bare for each in (used.size.width, used.size.length)
    )
    return f"{width} × {long}"


def rough_of(part: Part) -> Fraction:
    """The rough thickness a solid part is bought in; its own where no table has it."""
    return rough_thickness(part.thick.value) or part.thick.value


def net_lumber(part: Part, system: System) -> Fraction:
    """What a solid part takes before any loss: board feet of rough stock, or cubic metres."""
    long, width = part.cut_length.value, part.cut_width.value
    if system is System.MILLIMETRES:
        return rough_of(part) * width * long / CUBIC_INCHES_OF_A_METRE
    return board_feet(Board(rough_of(part), width, long / 12))


def _lumber(job: Job, boards: BoardPlans) -> Iterator[Needed]:
    uses: dict[str, dict[str, Fraction]] = {}
    titles: dict[str, str] = {}
    for placed, part in _units(job):
        if part.material.kind == "lumber":
            titles[part.material.name] = part.material.title
            of = uses.setdefault(part.material.name, {})
            _add(of, placed.address, net_lumber(part, job.system))
    metric = job.system is System.MILLIMETRES
    for name, of in uses.items():
        bought = job.supply.how(name)
        waste = bought.waste if bought is not None else Fraction(0)
        net = sum(of.values(), Fraction(0))
        plan = boards.of(name)
        if plan is not None:
            needed = plan.volume / CUBIC_INCHES_OF_A_METRE if metric else plan.bought.board_feet
            yield _row(
                job, "lumber", name, titles[name], "cubic metre" if metric else "board foot", of,
                needed, size=boards_size(job, plan), note=_boards_note(plan),
            )  # fmt: skip
            continue
        note = (
            f"a yield of {percent(1 - waste)}: bought is net over the yield"
            if waste
            else "no waste is stated, so none is in this figure"
        )
        yield _row(
            job, "lumber", name, titles[name], "cubic metre" if metric else "board foot", of,
            gross(net, waste), note=note,
        )  # fmt: skip


def boards_size(job: Job, plan: LumberPlan) -> str:
    """The boards of a plan by size: `2 of 6 × 96`."""
    printing = Printing(job.system, job.precision.value)
    counts: dict[tuple[Fraction, Fraction], int] = {}
    for board in plan.boards:
        size = (board.width, board.length)
        counts[size] = counts.get(size, 0) + 1
    return ", ".join(
        f"{count} of " + " × ".join(printed(length(each), printing).bare for each in size)
        for size, count in counts.items()
    )


def _boards_note(plan: LumberPlan) -> str:
    wide = ", none narrower than that" if plan.wanted.boards.random else ""
    return f"by the lumber plan{wide}; {percent(plan.yielded)} of it becomes parts"


def edge_length(part: Part, edge: str) -> Fraction:
    """How long a part's edge is, finished."""
    axis, _ = EDGES[edge]
    return part.length.value if axis == part.width_axis else part.width.value


def banded_lengths(part: Part) -> Iterator[tuple[Material, Fraction]]:
    """Every banded edge of a part, its own and those its cuts leave: the band, and how long."""
    for banding in part.bands:
        yield banding.band, edge_length(part, banding.edge)
    for edge in part.cut_edges:
        yield edge.band, edge.length.value


def _bands(job: Job) -> Iterator[Needed]:
    uses: dict[str, dict[str, Fraction]] = {}
    edges: dict[str, int] = {}
    titles: dict[str, str] = {}
    for placed, part in _units(job):
        for band, long in banded_lengths(part):
            titles[band.name] = band.title
            edges[band.name] = edges.get(band.name, 0) + 1
            _add(uses.setdefault(band.name, {}), placed.address, long)
    for name, of in uses.items():
        bought = job.supply.how(name)
        over = bought.over if bought is not None else Fraction(0)
        waste = bought.waste if bought is not None else Fraction(0)
        needed = gross(sum(of.values(), Fraction(0)) + 2 * over * edges[name], waste)
        note = f"{edges[name]} edges"
        if not over:
            note += ", nothing over at their ends"
        yield _row(job, "bands", name, titles[name], "inch", of, needed, note=note)


def pieces_words(count: int) -> str:
    """`1 piece`, `3 pieces`."""
    return f"{count} piece" if count == 1 else f"{count} pieces"


def _linear(job: Job, linear: LinearLists) -> Iterator[Needed]:
    for each in linear.lists:
        whole = sum(each.bars, Fraction(0))
        shares: dict[str, Fraction] = {}
        for piece in each.pieces:
            for holder, length_of in piece.shares.items():
                _add(shares, holder, length_of)
        run = sum(shares.values(), Fraction(0))
        for long in sorted(set(each.bars)):
            count = each.bars.count(long)
            uses = {holder: count * share / run for holder, share in shares.items()}
            yield _row(
                job, "linear", each.linear.name, each.linear.title, "piece", uses,
                Fraction(count), long=long,
                note=f"{pieces_words(len(each.pieces))}; {percent(run / whole)} of it is used",
            )  # fmt: skip


def _hardware(job: Job) -> Iterator[Needed]:
    uses: dict[tuple[str, Fraction | None], dict[str, Fraction]] = {}
    titles: dict[str, str] = {}
    for placed, part in _units(job):
        if part.hardware:
            material = part.material
            titles[material.name] = material.title
            # A slide is made in lengths; other bought things are one size.
            long = part.length.value if material.kind == "slide" else None
            _add(uses.setdefault((material.name, long), {}), placed.address, Fraction(1))
    for (name, long), of in sorted(uses.items(), key=lambda each: (each[0][0], each[0][1] or 0)):
        needed = sum(of.values(), Fraction(0))
        yield _row(job, "hardware", name, titles[name], "piece", of, needed, long=long)


def _fasteners(job: Job) -> Iterator[Needed]:
    uses: dict[str, dict[str, Fraction]] = {}
    for placed in job.placed:
        for joint in placed.unit.joints if placed.unit is not None else ():
            for each in joint.fasteners:
                _add(uses.setdefault(each.name, {}), placed.address, Fraction(each.count))
    setting: dict[str, int] = {}
    for driven in set_with(job):
        name = driven.setting.driven
        _add(uses.setdefault(name, {}), driven.holder, Fraction(driven.count))
        setting[name] = setting.get(name, 0) + driven.count
    titled = {name: job.supply.titles.get(name, name.replace("_", " ")) for name in uses}
    for name, of in sorted(uses.items(), key=lambda each: titled[each[0]]):
        title = titled[name]
        net = sum(of.values(), Fraction(0))
        bought = job.supply.how(name)
        waste = bought.waste if bought is not None else Fraction(0)
        on_site = setting.get(name, 0)
        note = f"{on_site} of them to set the units in the room" if on_site else ""
        needed = Fraction(ceil(gross(net, waste)))
        yield _row(job, "fasteners", name, title, "piece", of, needed, note=note)


def _coats(job: Job) -> Iterator[Needed]:
    for coat in job.supply.coats:
        areas: dict[str, Fraction] = {}
        for placed, part in _units(job):
            if not part.hardware and part.material.name in coat.materials:
                _add(areas, placed.address, surface(part))
        for placed in job.placed:
            for joint in placed.unit.joints if placed.unit is not None else ():
                if joint.fixing is not None and joint.fixing.name in coat.fixings:
                    _add(areas, placed.address, _face(joint))
        uses = {holder: area * coat.coats / coat.covers for holder, area in areas.items()}
        if uses:
            bought = job.supply.how(coat.name)
            waste = bought.waste if bought is not None else Fraction(0)
            net = sum(uses.values(), Fraction(0))
            note = _coat_note(job, coat, sum(areas.values(), Fraction(0)))
            yield _row(
                job, "coats", coat.name, coat.title, "pack", uses, gross(net, waste), note=note
            )


def _coat_note(job: Job, coat: Coat, area: Fraction) -> str:
    if job.system is System.MILLIMETRES:
        told = f"{_tenth(area * INCH * INCH / 1_000_000)} square metres"
    else:
        told = f"{_tenth(area / 144)} square feet"
    times = "once" if coat.coats == 1 else f"{coat.coats} times"
    return f"{told}, {times}, both faces and all edges" if coat.materials else f"{told} of joints"


def _tenth(value: Fraction) -> str:
    tenths = round(value * 10)
    return f"{tenths // 10}.{tenths % 10}"


def surface(part: Part) -> Fraction:
    """The area of a part's two faces and all its edges, in square inches."""
    long, width, thick = part.length.value, part.width.value, part.thick.value
    return 2 * (long * width + long * thick + width * thick)


def _face(joint: Joint) -> Fraction:
    box: Box = joint.area
    sizes = sorted((box.size("across"), box.size("up"), box.size("deep")))
    return sizes[1] * sizes[2]
