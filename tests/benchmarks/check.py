"""How long a check takes, against what nobody can do without: `python tests/benchmarks/check.py`.

Everything is a ratio of two things measured in one run, each the median of several turns taken in
alternation, so that a slow machine slows both. Exit code 1 where a ratio is past what is allowed.
"""

import argparse
import subprocess
import sys
from collections.abc import Callable, Hashable, Sequence
from pathlib import Path
from statistics import median
from time import perf_counter
from typing import Any

from attrs import frozen

from casewright.compiler.commands.world import InstalledLibrary, open_project
from casewright.compiler.compile import compile_job
from casewright.compiler.construct import bank
from casewright.compiler.construct.unit import Wanted, work_out
from casewright.compiler.model import Unit
from casewright.compiler.text.resolve import Program
from casewright.compiler.words.schema import SCHEMA
from casewright.compiler.world import HeldWorld
from casewright.lang.cells import Cells
from casewright.lang.parser import parse
from casewright.lang.source import Source, Span

ROOT = Path(__file__).parents[2]
GALLEY = ROOT / "examples" / "galley" / "galley.case"

CHECK = "from casewright.compiler.commands.main import main; main()"

BARE = """
import sys
from pathlib import Path
from casewright.compiler.words.schema import SCHEMA
from casewright.lang.grammar import grammar
from casewright.lang.source import Source
from casewright.lang.trivia import Heads, scan
heads = Heads(SCHEMA.raw_heads, SCHEMA.verbatim_heads)
lark = grammar(heads)
for path in sys.argv[1:]:
    text = Path(path).read_text(encoding="utf-8")
    lark.parse(scan(Source(path, text), heads).flat, start="file")
"""
"""Reads the texts with Lark and our grammar, and makes nothing of the trees."""

UNNEEDED = 300
"""Units, patterns and materials that a used text declares and no kitchen places."""


@frozen
class Line:
    """A line of the report: what was measured against what, in seconds or counts, and the most
    that is allowed of the ratio (None: told only)."""

    words: str
    one: float
    other: float
    unit: str
    allowed: float | None = None

    @property
    def ratio(self) -> float:
        return self.one / self.other

    def __str__(self) -> str:
        bound = "" if self.allowed is None else f"   at most {self.allowed:g}"
        shown = [f"{each:10.0f}" if self.unit == "" else f"{each * 1000:8.1f}ms" for each in
                 (self.one, self.other)]  # fmt: skip
        return f"  {self.words:58}{shown[0]} {shown[1]} {self.ratio:7.2f}{bound}"

    @property
    def kept(self) -> bool:
        return self.allowed is None or self.ratio <= self.allowed


def alternating(
    one: Callable[[], object], other: Callable[[], object], runs: int
) -> tuple[float, float]:
    """Median seconds of two things, taken in turns."""
    times: tuple[list[float], list[float]] = ([], [])
    for _ in range(runs):
        for work, taken in zip((one, other), times, strict=True):
            start = perf_counter()
            work()
            taken.append(perf_counter() - start)
    return median(times[0]), median(times[1])


def process(program: str, *arguments: str) -> Callable[[], object]:
    """Runs a program in a fresh Python."""
    command = [sys.executable, "-c", program, *arguments]
    return lambda: subprocess.run(command, check=True, capture_output=True, cwd=ROOT)


def cold_check(runs: int) -> Line:
    library = InstalledLibrary()
    texts = [str(path) for path in (GALLEY, GALLEY.with_name("kitchen.case"))]
    texts += [str(library.folder.joinpath(path)) for path in library.texts()]
    check, bare = alternating(process(CHECK, "check", str(GALLEY)), process(BARE, *texts), runs)
    return Line("check of the galley, cold / a bare parse of its texts", check, bare, "s", 10)


def a_distinct_unit(runs: int) -> Line:
    """Working out one distinct unit, against parsing the texts its construction is written in."""
    times: list[float] = []
    sources: set[Source] = set()

    def timed(program: Program, wanted: Wanted) -> tuple[Unit, Any]:
        if not sources:
            sources.update(_sources(program, wanted))
        start = perf_counter()
        found = work_out(program, wanted)
        times.append(perf_counter() - start)
        return found

    def parsed() -> None:
        for source in sources:
            parse(source, SCHEMA.raw_heads, SCHEMA.verbatim_heads)

    setattr(bank, "work_out", timed)  # noqa: B010
    try:
        _, parsing = alternating(lambda: compile_job(*open_project(GALLEY)), parsed, runs)
    finally:
        setattr(bank, "work_out", work_out)  # noqa: B010
    return Line(
        "a distinct unit / a parse of its construction's texts", median(times), parsing, "s"
    )


def _sources(program: Program, wanted: Wanted) -> set[Source]:
    found = set()
    for name in wanted.construction.chain:
        declaration = program.find("construction", name)
        for line in declaration.statement.body if declaration is not None else ():
            if isinstance(line.origin, Span):
                found.add(line.origin.source)
    return found


def what_is_not_needed() -> Line:
    """Cells worked out with a large used text beside the kitchen, against without."""
    folder = GALLEY.parent
    own = {path.name: path.read_bytes() for path in folder.glob("*.case")}
    unneeded = "".join(
        f"sheet spare_{n} {{ thick 3/4 }}\n"
        f"pattern spare_{n} from carcase {{ part more of case  up from bottom + {n} }}\n"
        f"unit spare_{n} from base_unit {{ stack {{ drawer opening {n + 1} }} }}\n"
        for n in range(UNNEEDED)
    )
    used = b"use spares\n" + own[GALLEY.name]
    without = _cells(HeldWorld(own, InstalledLibrary()))
    beside = _cells(
        HeldWorld({**own, GALLEY.name: used, "spares.case": unneeded.encode()}, InstalledLibrary())
    )
    return Line(
        f"cells worked out with {3 * UNNEEDED} unneeded things / without", beside, without, "", 1
    )


def _cells(world: HeldWorld) -> int:
    count = 0
    get = Cells.get

    def counted(self: Cells, key: Hashable, formula: Callable[[], Any]) -> Any:
        def once() -> Any:
            nonlocal count
            count += 1
            return formula()

        return get(self, key, once)

    Cells.get = counted  # type: ignore[method-assign]
    try:
        compile_job(world, GALLEY.name)
    finally:
        Cells.get = get  # type: ignore[method-assign]
    return count


def help_alone(runs: int) -> Line:
    told, bare = alternating(process(CHECK, "--help"), process("import argparse"), runs)
    return Line("--help / python -c 'import argparse'", told, bare, "s", 3)


def main(arguments: Sequence[str] | None = None) -> int:
    parser = argparse.ArgumentParser(description="Measures the check of the galley.")
    parser.add_argument("--runs", type=int, default=7, help="turns of each, of which the median")
    runs = parser.parse_args(arguments).runs
    lines = [cold_check(runs), a_distinct_unit(runs), what_is_not_needed(), help_alone(runs)]
    print(f"  {'':58}{'this':>10} {'that':>10} {'ratio':>7}")
    for line in lines:
        print(line)
    return 0 if all(line.kept for line in lines) else 1


if __name__ == "__main__":
    sys.exit(main())
