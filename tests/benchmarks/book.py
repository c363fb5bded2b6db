"""How the time and memory of a whole book grow, and what it costs beside a check; run as a program.

First a building of 10 to 1,000 units, each told by its own line (building.py): a unit's time in the
check and in the papers, and the process's peak memory. Each size runs in a process of its own. Then
the largest example: all of its papers against its check. Sheets are not planned in either; that has
its own benchmark (planning.py). Times are of the processor, the least of several.
"""

import subprocess
import sys
from pathlib import Path
from resource import RUSAGE_SELF, getrusage
from time import process_time

from casewright.compiler.commands.book_files import book_files
from casewright.compiler.commands.world import InstalledLibrary
from casewright.compiler.compile import compile_job
from casewright.compiler.explain import why
from casewright.compiler.papers.pages.pages import READERS
from casewright.compiler.world import HeldWorld
from tests.benchmarks.building import building

SIZES = (10, 100, 1000)
TIMES = 2
EXAMPLES = Path(__file__).parents[2] / "examples"
LARGEST = ("island/frameless.case", "island/framed.case", "horseshoe/framed.case")
MEBIBYTE = 1024 * 1024


def measured(world: HeldWorld, entry: str, times: int) -> tuple[float, float, int, int]:
    """Seconds of the check and of the papers, how many units there are, and the page's bytes."""
    checks, papers, units, page = [], [], 0, 0
    for _ in range(times):
        start = process_time()
        built = compile_job(world, entry)
        checks.append(process_time() - start)
        assert built.job is not None, built.findings[:3]
        start = process_time()
        files = book_files(
            built.job, built.findings, why(built.job), None, chapters=tuple(READERS), tag=None
        )
        papers.append(process_time() - start)
        units = sum(placed.unit is not None for placed in built.job.placed)
        page = len(files["book.html"])
    return min(checks), min(papers), units, page


def of_building(units: int) -> None:
    """Prints a building's figures: asked for by the program itself, a process a size."""
    world = HeldWorld({"building.case": building(units).encode()}, InstalledLibrary())
    check, papers, _, page = measured(world, "building.case", TIMES if units < SIZES[-1] else 1)
    peak = getrusage(RUSAGE_SELF).ru_maxrss / 1024
    print(check, papers, page / MEBIBYTE, peak)


def growing() -> None:
    print(
        f"{'units':>6} {'check ms a unit':>16} {'ratio':>6} {'papers ms a unit':>17} {'ratio':>6}",
        end="",
    )
    print(f" {'page MB':>8} {'peak MB':>8}")
    first: tuple[float, float] | None = None
    for units in SIZES:
        told = subprocess.run(
            [sys.executable, "-m", "tests.benchmarks.book", str(units)],
            check=True, capture_output=True, text=True,
        ).stdout  # fmt: skip
        check, papers, page, peak = map(float, told.split())
        each = 1000 * check / units, 1000 * papers / units
        first = first or each
        print(f"{units:6} {each[0]:16.1f} {each[0] / first[0]:6.2f}", end="")
        print(f" {each[1]:17.1f} {each[1] / first[1]:6.2f} {page:8.1f} {peak:8.0f}", flush=True)


def examples() -> None:
    print(
        f"\n{'example':24} {'units':>6} {'check s':>8} {'build s':>8} {'build/check':>12}"
        f" {'page MB':>8}"
    )
    for entry in LARGEST:
        folder, name = entry.split("/")
        texts = {each.name: each.read_bytes() for each in (EXAMPLES / folder).glob("*.case")}
        check, papers, units, page = measured(HeldWorld(texts, InstalledLibrary()), name, TIMES)
        build = check + papers
        print(f"{entry:24} {units:6} {check:8.2f} {build:8.2f} {build / check:12.2f}", end="")
        print(f" {page / MEBIBYTE:8.1f}", flush=True)


def main() -> int:
    if len(sys.argv) > 1:
        of_building(int(sys.argv[1]))
        return 0
    growing()
    examples()
    return 0


if __name__ == "__main__":
    sys.exit(main())
