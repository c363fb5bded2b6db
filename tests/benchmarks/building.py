"""How the time of a check grows with a building; run as a program.

A building of so many units: walls in a staircase, a run on each, corners square by turns inside and
outside. Every unit is told by its own line; widths repeat, as they do in flats. Times are of one
process, the least of several; the last column is a unit's time against that of the smallest
building; the run fails where the largest building's is over the bound.
"""

import sys
from time import process_time

from casewright.compiler.check.look_over import look_over
from casewright.compiler.commands.world import InstalledLibrary
from casewright.compiler.compile import compile_job
from casewright.compiler.world import HeldWorld

SIZES = (100, 500, 1000, 5000)
A_WALL = 10
"""Units on each wall."""
TIMES = 3
BOUND = 1.3
"""What a unit of the largest building may take against one of the smallest."""
UNITS = ("drawer_base 24", "door_base 18 hung left", "pair_base 30", "door_base 21 hung right")


def building(units: int) -> str:
    """The text of a building of so many units."""
    walls = units // A_WALL
    room = ["room building {", "  floor   finished", "  ceiling 96", "  counter 36 thick 1 1/2"]
    room += [f"  wall wall_{number} length 320" for number in range(walls)]
    room += [
        f"  corner wall_{number} wall_{number + 1} {90 if number % 2 else 270}deg"
        for number in range(walls - 1)
    ]
    runs = []
    for wall in range(walls):
        runs.append(f"run run_{wall} on wall_{wall} from left at 40 length 260 {{")
        for place in range(A_WALL):
            number = wall * A_WALL + place
            runs.append(f"  S{number + 1}: {UNITS[number % len(UNITS)]}")
        runs += ["  space share", "}"]
    head = "measure in inches\nuse std edition 1\njob Building {\n  built frameless\n}\n"
    return head + "\n".join([*room, "}", *runs]) + "\n"


def measured(units: int) -> tuple[float, float, int]:
    """Seconds of a whole check and of its checks alone, and how many findings there are."""
    world = HeldWorld({"building.case": building(units).encode()}, InstalledLibrary())
    whole, checks, count = [], [], 0
    for _ in range(TIMES if units < SIZES[-1] else 1):
        start = process_time()
        built = compile_job(world, "building.case")
        whole.append(process_time() - start)
        assert built.job is not None, built.findings[:3]
        start = process_time()
        look_over(built.job, ())
        checks.append(process_time() - start)
        count = len(built.findings)
    return min(whole), min(checks), count


def main() -> int:
    print(f"{'units':>6} {'findings':>9} {'check s':>8} {'ms a unit':>10} {'ratio':>6}", end="")
    print(f" {'checks s':>9} {'ms a unit':>10} {'ratio':>6}")
    first: tuple[float, float] | None = None
    ratio = 1.0
    for units in SIZES:
        whole, checks, count = measured(units)
        each, alone = 1000 * whole / units, 1000 * checks / units
        first = first or (each, alone)
        ratio = each / first[0]
        print(f"{units:6} {count:9} {whole:8.2f} {each:10.2f} {ratio:6.2f}", end="")
        print(f" {checks:9.2f} {alone:10.3f} {alone / first[1]:6.2f}", flush=True)
    return 0 if ratio <= BOUND else 1


if __name__ == "__main__":
    sys.exit(main())
