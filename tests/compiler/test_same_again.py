"""The same text gives the same job, to the last byte, also in another process."""

import os
import subprocess
import sys
from collections.abc import Callable, Hashable
from pathlib import Path
from typing import Any

import pytest

from casewright.compiler.commands.world import open_project
from casewright.compiler.compile import compile_job
from casewright.lang.cells import Cells
from casewright.lang.printing import Printing
from casewright.lang.render_full import render_full
from casewright.lang.render_json import render_json
from tests.compiler.dumping import dumped
from tests.compiler.examples import compiled

ROOT = Path(__file__).parents[2]
GALLEY = ROOT / "examples" / "galley" / "galley.case"

BAD = """use library
use room
job Boathouse {
  built shop
}
run wall_one on north from left {
  S1: cupboard 30  shwon yes
  S2: cubpoard 20
  S3: cupboard share { stack { open 40 } }
  S3: cupboard 5 * 3
}
"""


@pytest.mark.parametrize("name", ["galley", "framed"])
def test_a_second_build_is_equal(name: str) -> None:
    kitchen = GALLEY.with_name(f"{name}.case")
    first, second = (compile_job(*open_project(kitchen)) for _ in range(2))
    assert first.job is not None
    text = dumped(first.job)
    assert len(text) > 100_000
    assert text == dumped(second.job)


def test_findings_are_equal_and_in_the_order_of_the_text() -> None:
    first, second = (compiled({"bad.case": BAD.encode()}, "bad.case") for _ in range(2))
    for render in (render_json, render_full):
        one, two = (render(each.findings, each.progress, Printing()) for each in (first, second))
        assert one == two
    lines = [each.span.line for each in first.findings if each.span is not None]
    assert lines == [7, 8, 10]


def test_another_process_with_another_hash_gives_the_same_bytes() -> None:
    program = (
        "import sys\n"
        "from pathlib import Path\n"
        "from casewright.compiler.commands.world import open_project\n"
        "from casewright.compiler.compile import compile_job\n"
        "from tests.compiler.dumping import dumped\n"
        "sys.stdout.write(dumped(compile_job(*open_project(Path(sys.argv[1]))).job))\n"
    )
    said = {
        subprocess.run(
            [sys.executable, "-c", program, str(GALLEY)],
            cwd=ROOT,
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(said) == 1
    assert len(said.pop()) > 100_000


def test_as_many_cells_are_worked_out_each_time(monkeypatch: pytest.MonkeyPatch) -> None:
    """Cells are keyed by what they belong to. Were one of those forgotten while its unit is being
    worked out, its identity would go to another, and with it its cells: by chance fewer."""
    get = Cells.get
    count = 0

    def counted(self: Cells, key: Hashable, formula: Callable[[], Any]) -> Any:
        def once() -> Any:
            nonlocal count
            count += 1
            return formula()

        return get(self, key, once)

    monkeypatch.setattr(Cells, "get", counted)
    counts = set()
    kept = []
    for turn in range(5):
        count = 0
        # What is kept between two builds moves where the next one puts its things.
        kept.append([object() for _ in range(997 * turn)])
        compile_job(*open_project(GALLEY))
        counts.add(count)
    assert len(counts) == 1
    assert counts.pop() > 1_000
