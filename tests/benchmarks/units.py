"""How long a unit takes to work out, and how many parts it has; run as a program.

One unit of each kind in both constructions: parts, milliseconds (the least of several), and
milliseconds a part. Then many units that all differ in width, to see that each costs the same
however many there are.
"""

import gc
import sys
from fractions import Fraction
from time import process_time

from casewright.compiler.commands.running import SELDOM
from casewright.compiler.construct.bank import Bank
from casewright.compiler.construct.unit import Wanted
from casewright.compiler.model import Unit
from casewright.compiler.text.resolve import Program
from casewright.lang.cells import Quantity, literal
from casewright.lang.measure import Dimension, System
from casewright.lang.printing import Printing
from casewright.lang.shape import Statement
from tests.stdlib.kitchens import kitchen, program_of
from tests.stdlib.sizes import CONSTRUCTIONS, USUAL

TIMES = 5

OUTSIDE: dict[str, Quantity | str] = {
    "room.counter": literal(36),
    "room.counter_thick": literal(Fraction(3, 2)),
    "room.ceiling": literal(96),
    "filler.left": literal(0),
    "filler.right": literal(0),
    "beside.left": "wall",
    "beside.right": "wall",
}


def placing(program: Program) -> Statement:
    """The text of a unit that is placed and says no more."""
    return next(line for line in program.runs[0].body if line.rule == "placed")


def wanted(program: Program, name: str, built: str, width: Fraction) -> Wanted:
    unit, construction = program.find("unit", name), program.find("construction", built)
    assert unit is not None
    assert construction is not None
    return Wanted(
        unit,
        construction,
        placing(program),
        System.INCHES,
        Printing(),
        literal(Fraction(1, 32), Dimension.LENGTH),
        literal(width),
        None,
        None,
        OUTSIDE,
    )


def worked_out(program: Program, name: str, built: str, width: Fraction) -> tuple[Unit, float]:
    """A unit and the seconds it took, in a bank that holds nothing yet."""
    asked = wanted(program, name, built, width)
    start = process_time()
    unit = Bank(program).unit(asked)
    return unit, process_time() - start


def each_kind(program: Program) -> None:
    print(f"{'unit':18} {'built':12} {'parts':>6} {'ms':>8} {'ms a part':>10}")
    for name, width in USUAL.items():
        for built in CONSTRUCTIONS:
            runs = [worked_out(program, name, built, Fraction(width)) for _ in range(TIMES)]
            unit, seconds = runs[0][0], min(each for _, each in runs)
            assert unit.blames == ()
            count = len(unit.parts)
            ms = seconds * 1000
            print(f"{name:18} {built:12} {count:6} {ms:8.1f} {ms / count:10.2f}")


def many(program: Program, count: int, built: str) -> float:
    """Seconds a unit for so many drawer bases in one bank, no two of one width."""
    bank = Bank(program)
    start = process_time()
    for number in range(count):
        width = 12 + Fraction(number, 32)
        assert bank.unit(wanted(program, "drawer_base", built, width)).blames == ()
    assert bank.worked_out == count
    return (process_time() - start) / count


def main() -> int:
    gc.set_threshold(*SELDOM)  # as a command does
    program = program_of(kitchen(["drawer_base 24"]))
    each_kind(program)
    for built in CONSTRUCTIONS:
        few, more = many(program, 50, built), many(program, 500, built)
        print(
            f"{built}: 50 widths {few * 1000:.1f} ms a unit, 500 widths {more * 1000:.1f} ms a unit"
        )
    return 0


if __name__ == "__main__":
    sys.exit(main())
