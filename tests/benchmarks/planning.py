"""Measures the sheet planner: sheets, bound, seconds and closings, on lists made from a seed.

    python tests/benchmarks/planning.py --seed 1 --kitchens 20 --cabinets 10,20,30,60
    python tests/benchmarks/planning.py --seed 1 --planted 3,6,12 --classes 20,40
    python tests/benchmarks/planning.py --published FILE

Seconds are of this process's own time, so that a busy machine changes them little. A rival is tried
where it is installed; it takes no part in the product.
"""

import argparse
import json
import sys
import time
from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from statistics import median

from attrs import evolve, frozen

sys.path.insert(0, str(Path(__file__).parents[2]))

from casewright.compiler.plan.plan import DEFAULT, HARD, Effort, plan_sheets
from casewright.compiler.plan.request import Piece, Request, Stock
from casewright.compiler.plan.sawing import settings
from casewright.compiler.plan.words import headline
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
    rival: int | None


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
    cost, least = made.verdict.cost, made.verdict.least
    if case.known is not None and least > case.known:
        raise SystemExit(f"{case.name}: bound {least} is above the known {case.known}")
    rival = rectangle_packer(case.request) if rivals else None
    said = headline(case.request, made.plan, made.verdict)
    known = "" if case.known is None else f"  known {case.known}"
    other = "" if rival is None else f"  rival {rival}"
    print(f"{case.name}: {said}  ({bound}, {seconds:.2f} s){known}{other}", flush=True)
    return Result(case, cost, least, bound, seconds, len(settings(made.plan, "rip")), rival)


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
    print(
        f"  rip settings {sum(r.rips for r in results)}", end="; fewest that locked widths allow "
    )
    print(sum(len({p.width for p in r.case.request.pieces if not p.turn}) for r in results))
    known = [(r.cost, r.case.known) for r in results if r.case.known is not None]
    if known:
        met = sum(cost == best for cost, best in known)
        below = sum(cost < best for cost, best in known)
        print(f"  known count met {met} of {len(known)}, bettered {below}")
    rivals = [(r.cost, Fraction(r.rival)) for r in results if r.rival is not None]
    if rivals:
        ours, theirs = (sum(int(pair[n]) for pair in rivals) for n in (0, 1))
        worse = sum(our > their for our, their in rivals)
        print(
            f"  rival on {len(rivals)} lists: {theirs} sheets, ours {ours}; ours worse on {worse}"
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
