"""Every figure of the example kitchens, worked out again from what `explain --as json` says."""

import ast
import json
from collections.abc import Mapping, Sequence
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from casewright.compiler.commands.world import open_project
from casewright.compiler.compile import compile_job
from casewright.compiler.explain import Explainer
from casewright.compiler.model import Job
from casewright.lang.printing import Printing
from casewright.lang.render_explain import explanation_json
from tests.commands.command_line import ran
from tests.compiler import recomputing
from tests.compiler.recomputing import as_written, recomputed

ROOT = Path(__file__).parents[2]
KITCHENS = sorted(
    path
    for path in (ROOT / "examples").rglob("*.case")
    if any(line.startswith("job ") for line in path.read_text(encoding="utf-8").splitlines())
)

WHOLE = ("first_cabinet", "galley")
"""Examples of which every figure is worked out again; of the larger ones every `THINNED`th."""

THINNED = 7

Document = Mapping[str, Any]


def built(kitchen: Path) -> Job:
    job = compile_job(*open_project(kitchen)).job
    assert job is not None
    return job


def explained(explainer: Explainer, address: str) -> Document:
    """What `explain ADDRESS --as json` prints, read back."""
    found = explainer.explain(address)
    assert found is not None, address
    printing = Printing(explainer.job.system, explainer.job.precision.value)
    text = explanation_json(address, found.rows, found.quantity, printing)
    document: Document = json.loads(text)
    return document


def test_nothing_of_ours_works_the_figures_out() -> None:
    tree = ast.parse(Path(recomputing.__file__).read_text(encoding="utf-8"))
    modules = {
        name
        for node in ast.walk(tree)
        for name in (
            [alias.name for alias in node.names]
            if isinstance(node, ast.Import)
            else [node.module or ""]
            if isinstance(node, ast.ImportFrom)
            else []
        )
    }
    assert modules == {"re", "collections.abc", "fractions", "functools", "math", "typing"}


@pytest.mark.parametrize("kitchen", KITCHENS, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_every_figure_comes_down_to_literals(kitchen: Path) -> None:
    job = built(kitchen)
    explainer = Explainer(job)
    addresses = list(explainer.addresses())
    assert len(addresses) == len(set(addresses)) > 50
    lines: dict[str, list[str]] = {source.label: source.text.split("\n") for source in job.sources}
    checked = sums = 0
    whole = kitchen.parent.name in WHOLE
    for address in addresses if whole else addresses[::THINNED]:
        document = explained(explainer, address)
        reads = document["reads"]
        values, literals = recomputed(reads)
        assert literals > 0, address
        assert reads[-1]["value"]["exact"] == str(values[-1])
        sums += _adds_up(document["rows"], values[-1])
        checked += sum(_stands_in_the_text(read, lines) for read in reads)
    looked_at = len(addresses) if whole else len(addresses) / THINNED
    assert checked > looked_at
    assert sums > looked_at / 3


def _adds_up(rows: Sequence[Document], figure: Fraction) -> bool:
    """Whether the rows are one ruled sum, which must then come to the figure."""
    *terms, last = rows
    if not last["ruled"] or not terms or ", " in last["what"]:
        return False
    if any(term["ruled"] for term in terms):
        return False
    total = sum(
        (-1 if term["sign"] == "less" else 1) * Fraction(term["value"]["exact"]) for term in terms
    )
    assert total == figure == Fraction(last["value"]["exact"]), rows
    return True


def _stands_in_the_text(read: Document, lines: Mapping[str, list[str]]) -> bool:
    """Whether a literal's place holds a written length, which must then be worth the literal."""
    place = read["place"]
    if read["operator"] != "literal" or place is None or place["line"] != place["end_line"]:
        return False
    line = lines[place["file"]][place["line"] - 1]
    metric = any(each.startswith("measure in mm") for each in lines[place["file"]])
    bare = Fraction(10, 254) if metric else Fraction(1)
    written = as_written(line[place["column"] - 1 : place["end_column"] - 1], bare)
    if written is None:
        return False
    assert written == Fraction(read["value"]["exact"]), (line, read)
    return True


def test_the_command_says_the_same() -> None:
    kitchen = ROOT / "examples" / "galley" / "galley.case"
    explainer = Explainer(built(kitchen))
    for address in ("S2.across", "S2.floor.cut_length"):
        said = ran("explain", "--as", "json", kitchen, address)
        assert (said.code, said.err) == (0, "")
        assert json.loads(said.out) == explained(explainer, address)


def test_a_wrong_figure_is_found() -> None:
    reads: list[Document] = [
        {"operator": "literal", "inputs": [], "value": {"exact": "5/2"}, "name": ""},
        {"operator": "literal", "inputs": [], "value": {"exact": "1"}, "name": ""},
        {"operator": "-", "inputs": [0, 1], "value": {"exact": "3/2"}, "name": "a"},
    ]
    assert recomputed(reads) == ([Fraction(5, 2), Fraction(1), Fraction(3, 2)], 2)
    reads[2] = {**reads[2], "value": {"exact": "2"}}
    with pytest.raises(AssertionError, match="a: 3/2 is not 2"):
        recomputed(reads)
    with pytest.raises(AssertionError, match="still an input"):
        recomputed([{"operator": "input", "inputs": [], "value": {"exact": "1"}, "name": "b"}])


@pytest.mark.parametrize(
    ("written", "inches"),
    [
        ("27", "27"), ("5 1/2", "11/2"), ('3/4"', "3/4"), ("7' 6 1/2\"", "181/2"),
        ("25.4mm", "1"), ("2ft", "24"), ("0.5mm", "5/254"), ("share", None), ("a", None),
    ],
)  # fmt: skip
def test_a_written_length_is_read(written: str, inches: str | None) -> None:
    assert as_written(written, Fraction(1)) == (None if inches is None else Fraction(inches))
