"""The proof of order against the slow slider, 200 random orders of every unit; run as a program.

`python3 -m tests.benchmarks.orders [ORDERS] [SEED]`: every unit of the library that stands on a
straight wall, in both constructions, and those of the examples that stand in a corner. Ends with 1
where the two disagree.
"""

import sys
from collections.abc import Iterator
from itertools import chain
from pathlib import Path
from time import process_time

from casewright.compiler.commands.world import InstalledLibrary
from casewright.compiler.compile import compile_job
from casewright.compiler.model import Unit
from casewright.compiler.world import world_of
from tests.stdlib.kitchens import kitchen, units_of
from tests.stdlib.sizes import CONSTRUCTIONS, USUAL, lines
from tests.stdlib.test_orders import contradicted

EXAMPLES = Path(__file__).parents[2] / "examples"


def in_corners() -> Iterator[Unit]:
    """The units of the examples that open to more than one side."""
    for entry in sorted(EXAMPLES.glob("*/fram*.case")):
        texts = {
            path.name: path.read_text(encoding="utf-8") for path in entry.parent.glob("*.case")
        }
        job = compile_job(world_of(texts, InstalledLibrary()), entry.name).job
        units = {each.unit for each in job.placed if each.unit is not None} if job else set()
        yield from (unit for unit in units if unit.mouths)


def main() -> int:
    times = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 2617
    straight = chain.from_iterable(
        units_of(kitchen(lines(USUAL), built)) for built in CONSTRUCTIONS
    )
    wrong = units = free = barred = 0
    start = process_time()
    for unit in chain(straight, in_corners()):
        tally = contradicted(unit, times, seed)
        units, free, barred = units + 1, free + tally.free, barred + tally.barred
        wrong += len(tally.disagreements)
        for words in tally.disagreements[:3]:
            print(f"{unit.name}, {unit.construction}: {words}")
    seconds = process_time() - start
    print(
        f"{units} units, {times} orders each: {free} ways free, {barred} barred, "
        f"{wrong} disagreements, {seconds:.0f} s"
    )
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
