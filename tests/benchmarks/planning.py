"""Measures the sheet planner: sheets, bound, seconds and closings, on lists made from a seed.

    python tests/benchmarks/planning.py --seed 1 --kitchens 20 --cabinets 10,20,30,60
    python tests/benchmarks/planning.py --seed 1 --planted 3,6,12 --classes 20,40
    python tests/benchmarks/planning.py --published FILE

Seconds are of this process's own time, so that a busy machine changes them little. Rivals are tried
with --rivals where they are installed (rectpack, ortools); they take no part in the product.
"""

import argparse
import json
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction
from pathlib import Path
from statistics import median

from attrs import evolve, frozen

sys.path.insert(0, str(Path(__file__).parents[2]))

from casewright.compiler.plan.master import Model
from casewright.compiler.plan.plan import DEFAULT, HARD, Effort, plan_sheets
from casewright.compiler.plan.request import Piece, Request, Stock
from casewright.compiler.plan.tree import CutPlan
from casewright.compiler.plan.words import headline
from casewright.compiler.plan.work import Work
from tests.benchmarks.lists import kitchen, planted, published_class


@frozen
class Case:
    """A list with what is known of its count from outside, if anything."""

    name: str
    request: Request
    known: int | None = None


@frozen
class Result:
    """What the planner made of a list."""

    case: Case
    cost: Fraction
    least: Fraction
    bound: str
    seconds: float
    rips: int
    rivals: Mapping[str, int]


def kitchens(cabinets: int, count: int, seed: int) -> Iterator[Case]:
    """The three material lists of each of so many kitchens."""
    for number in range(count):
        for material, request in kitchen(cabinets, 1000 * seed + number).items():
            yield Case(f"{cabinets} cabinets, kitchen {number}, {material}", request)


def published(path: Path) -> Iterator[Case]:
    """Instances from a file, planned with either first cut as the known counts are."""
    for item in json.loads(path.read_text(encoding="utf-8")):
        pieces = tuple(
            Piece(f"part {n}", "", Fraction(a), Fraction(b), many)
            for n, (a, b, many) in enumerate(item["parts"])
        )
        length, width = (Fraction(size) for size in item["sheet"])
        stock = Stock("sheet", length, width)
        request = Request("mm", pieces, (stock,))
        request = evolve(request, saw=evolve(request.saw, first="either"))
        yield Case(item["name"], request, item["best_known_three_stage"])


def measure(case: Case, effort: Effort, rivals: bool) -> Result:
    """Plans one list; a fault found by the check ends the run."""
    start = time.process_time()
    made, problems = plan_sheets(case.request, effort)
    seconds = time.process_time() - start
    if made is None or not made.verdict.sound:
        raise SystemExit(f"{case.name}: {problems or (made and made.verdict.problems)}")
    lines = made.certificate.splitlines()
    bound = next(line.removeprefix("bound ") for line in lines if line.startswith("bound "))
    if any(line.startswith("counted ") for line in lines):
        bound += ", counted"
    if made.verdict.staged:
        bound += ", three stages"
    cost, least = made.verdict.cost, made.verdict.least
    if case.known is not None and least > case.known:
        raise SystemExit(f"{case.name}: bound {least} is above the known {case.known}")
    theirs = {name: ask(case.request) for name, ask in RIVALS.items()} if rivals else {}
    counts = {name: count for name, count in theirs.items() if count is not None}
    said = headline(case.request, made.plan, made.verdict)
    known = "" if case.known is None else f"  known {case.known}"
    other = "".join(f"  {name} {count}" for name, count in counts.items())
    print(f"{case.name}: {said}  ({bound}, {seconds:.2f} s){known}{other}", flush=True)
    return Result(case, cost, least, bound, seconds, ripped_widths(made.plan), counts)


def rectangle_packer(request: Request) -> int | None:
    """The sheets a popular rectangle packer uses with through cuts; None where it can't be asked.

    It has no grain lock for single pieces, so it is asked only where all pieces have one rule.
    """
    try:
        import rectpack
    except ImportError:
        return None
    turns = {piece.turn for piece in request.pieces}
    if len(turns) != 1:
        return None
    step, kerf = request.grid, request.saw.kerf
    packer = rectpack.newPacker(
        mode=rectpack.PackingMode.Offline,
        bin_algo=rectpack.PackingBin.BBF,
        pack_algo=rectpack.GuillotineBssfSas,
        rotation=turns.pop(),
    )
    for piece in request.pieces:
        for _ in range(piece.quantity):
            packer.add_rect(int((piece.length + kerf) / step), int((piece.width + kerf) / step))
    length, width = (int((size + kerf) / step) for size in request.usable[0])
    packer.add_bin(length, width, count=float("inf"))
    packer.pack()
    return len(packer) if len(packer.rect_list()) == packer_total(request) else None


def constraint_solver(request: Request) -> int | None:
    """The sheets that an academic constraint solver uses, kerf and grain kept, cuts of any shape.

    It places rectangles without overlap, and isn't held to through cuts: its count may be below
    ours. None where it isn't installed, the list is long, or its fixed work ends without a plan.
    """
    try:
        from ortools.sat.python import cp_model
    except ImportError:
        return None
    step, kerf = request.grid, request.saw.kerf
    pieces = [
        (int((p.length + kerf) / step), int((p.width + kerf) / step), p.turn)
        for p in request.pieces
        for _ in range(p.quantity)
    ]
    if len(pieces) > MOST_FOR_THE_SOLVER or len(request.stock) != 1:
        return None
    length, width = (int((size + kerf) / step) for size in request.usable[0])
    area = sum(a * b for a, b, _ in pieces)
    least = -(-area // (length * width))
    for sheets in range(least, least + 3):
        model = cp_model.CpModel()
        along, across = [], []
        for number, (a, b, turn) in enumerate(pieces):
            turned = model.new_bool_var(f"turned {number}") if turn else 0
            long = model.new_int_var(min(a, b), max(a, b), f"long {number}") if turn else a
            wide = model.new_int_var(min(a, b), max(a, b), f"wide {number}") if turn else b
            if turn:
                model.add(long == a + (b - a) * turned)
                model.add(wide == b + (a - b) * turned)
            # Sheets lie end to end; a piece on one must not reach into the next.
            sheet = model.new_int_var(0, sheets - 1, f"sheet {number}")
            x = model.new_int_var(0, length, f"x {number}")
            y = model.new_int_var(0, width, f"y {number}")
            model.add(x + long <= length)
            model.add(y + wide <= width)
            start = model.new_int_var(0, sheets * length, f"start {number}")
            model.add(start == sheet * length + x)
            end = model.new_int_var(0, sheets * length, f"end {number}")
            top = model.new_int_var(0, width, f"top {number}")
            along.append(model.new_interval_var(start, long, end, f"along {number}"))
            across.append(model.new_interval_var(y, wide, top, f"across {number}"))
        model.add_no_overlap_2d(along, across)
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 0
        solver.parameters.max_deterministic_time = 1.0
        if solver.solve(model) in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return sheets
    return None


MOST_FOR_THE_SOLVER = 30
"""Pieces up to which the constraint solver is asked: it finds nothing in long lists."""

RIVALS: Mapping[str, Callable[[Request], int | None]] = {
    "rectangle packer": rectangle_packer,
    "constraint solver": constraint_solver,
}
"""General-purpose engines; they take no part in the product."""


def ripped_widths(plan: CutPlan) -> int:
    """How many different widths rips make, those included that fall beside the last rip; two of
    one setting are one, and a piece as wide as the sheet has none."""
    widths: set[int] = set()
    waiting = [sheet.root for sheet in plan.sheets]
    while waiting:
        node = waiting.pop()
        waiting += node.children
        if node.cut == "rip":
            widths |= {child.width for child in node.children if child.use not in LEFT}
    return len(widths)


LEFT = ("offcut", "waste")


def fewest_widths(request: Request) -> int:
    """Widths that no plan can do without: each piece is ripped to its width, or where it may
    turn to its length or its width, unless it is as wide as a sheet."""
    whole = {width for _, width in request.usable}
    kinds = {(p.length, p.width) if p.turn else (p.width,) for p in request.pieces}
    kinds = {kind for kind in kinds if not whole & set(kind)}
    model = Model()
    rows = {kind: model.row(1, float("inf")) for kind in kinds}
    for size in sorted({size for kind in kinds for size in kind}):
        model.column(1.0, 1.0, {rows[kind]: 1.0 for kind in kinds if size in kind})
    return sum(model.solve(10_000, None, Work(10**12)))


def packer_total(request: Request) -> int:
    """How many pieces there are."""
    return sum(piece.quantity for piece in request.pieces)


def summary(name: str, results: list[Result]) -> None:
    """One paragraph: closings by kind of bound, the worst ratio, the seconds."""
    closed = Counter(r.bound for r in results if r.cost == r.least)
    seconds = sorted(r.seconds for r in results)
    kinds = ", ".join(f"{many} by {bound}" for bound, many in sorted(closed.items()))
    print(f"{name}: closed {closed.total()} of {len(results)} ({kinds})")
    worst = max(r.cost / r.least for r in results)
    print(f"  worst plan over bound {float(worst):.3f}, most sheets apart", end=" ")
    print(max(r.cost - r.least for r in results))
    print(f"  seconds: median {median(seconds):.2f}, worst {seconds[-1]:.2f}", end="; ")
    print(f"over 5 s: {sum(s > 5 for s in seconds)}")
    rips, fewest = (
        sum(each)
        for each in zip(*((r.rips, fewest_widths(r.case.request)) for r in results), strict=True)
    )
    print(f"  widths ripped {rips}, whatever the count no plan has fewer than {fewest}", end="")
    print(f" ({fewest / rips:.2f} of them)")
    if fewest > rips:
        raise SystemExit("fewer widths were ripped than the bound allows: it is wrong")
    known = [(r.cost, r.case.known) for r in results if r.case.known is not None]
    if known:
        met = sum(cost == best for cost, best in known)
        below = sum(cost < best for cost, best in known)
        print(f"  known count met {met} of {len(known)}, bettered {below}")
    for name in RIVALS:
        rivals = [(int(r.cost), r.rivals[name]) for r in results if name in r.rivals]
        if rivals:
            ours, theirs = (sum(pair[n] for pair in rivals) for n in (0, 1))
            worse = sum(our > their for our, their in rivals)
            print(
                f"  {name}: {len(rivals)} lists, {theirs} sheets, ours {ours}; ours more on {worse}"
            )


def whole_list(text: str) -> list[int]:
    return [int(word) for word in text.split(",") if word]


def main() -> None:
    """Reads the options, measures, prints."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawTextHelpFormatter
    )
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--kitchens", type=int, default=20, help="kitchens of each size")
    parser.add_argument("--cabinets", type=whole_list, default=[])
    parser.add_argument("--planted", type=whole_list, default=[], help="counts of sheets")
    parser.add_argument("--classes", type=whole_list, default=[], help="pieces an instance")
    parser.add_argument("--published", type=Path)
    parser.add_argument("--hard", action="store_true")
    parser.add_argument("--rivals", action="store_true")
    options = parser.parse_args()
    groups: dict[str, list[Case]] = {}
    for cabinets in options.cabinets:
        made = kitchens(cabinets, options.kitchens, options.seed)
        groups[f"{cabinets} cabinets"] = list(made)
    for sheets in options.planted:
        groups[f"{sheets} planted sheets"] = [
            Case(f"planted {sheets}, {n}", planted(sheets, 1000 * options.seed + n), sheets)
            for n in range(5)
        ]
    for pieces in options.classes:
        groups[f"classes, {pieces} pieces"] = [
            Case(f"class {number}", published_class(number, pieces, options.seed))
            for number in range(1, 11)
        ]
    if options.published:
        groups["published"] = list(published(options.published))
    effort = HARD if options.hard else DEFAULT
    for name, cases in groups.items():
        summary(name, [measure(case, effort, options.rivals) for case in cases])


if __name__ == "__main__":
    main()
