"""A unit is worked out once for all that are equal, and each says its own lines."""

import json

import pytest

from casewright.compiler.compile import Compiled
from casewright.compiler.explain import Explainer
from casewright.lang.printing import Printing
from casewright.lang.render_json import render_json
from tests.compiler.examples import compiled

HEAD = """use library
job Forty flats {
  built shop
}
"""


def kitchen(*units: str, length: str, head: str = HEAD, more: str = "") -> Compiled:
    """One run of units against a wall of its own, a line each."""
    lines = "\n".join(f"  {unit}" for unit in units)
    room = f"room flat {{\n  ceiling 96\n  wall north length {length}\n}}\n"
    run = f"run row_one on north from left {{\n{lines}\n}}\n"
    return compiled({"flats.case": f"{head}{more}{room}{run}".encode()}, "flats.case")


def counts(built: Compiled) -> tuple[int, int]:
    """Units placed and worked out, as `check --as json` says them."""
    progress = json.loads(render_json(built.findings, built.progress, Printing()))["progress"]
    return progress["units_placed"], progress["units_evaluated"]


FORTY = [f"S{number}: cupboard 15" for number in range(1, 41)]


def test_forty_equal_units_are_worked_out_once() -> None:
    built = kitchen(*FORTY, length="600")
    assert built.findings == ()
    assert counts(built) == (40, 1)
    assert built.job is not None
    assert len({id(placed.unit) for placed in built.job.placed}) == 1


def test_each_of_them_says_its_own_line() -> None:
    units = [f"S{number}: cupboard 15" for number in range(1, 41)]
    job = kitchen(*units, length="600").job
    assert job is not None
    explainer = Explainer(job)
    (first,) = (number for number, line in enumerate(_lines(job), start=1) if "S1:" in line)
    for number in range(1, 41):
        explained = explainer.explain(f"S{number}.floor.width")
        assert explained is not None
        wheres = [row.where for row in explained.rows]
        mine = f"flats.case:{first + number - 1}  S{number}: cupboard 15"
        assert mine in wheres
        others = [where for where in wheres if where.startswith("flats.case") and where != mine]
        assert others == []


def _lines(job: object) -> list[str]:
    (source,) = (each for each in job.sources if each.label == "flats.case")  # type: ignore[attr-defined]
    return list(source.text.split("\n"))


def test_a_finding_in_equal_units_is_one_that_names_every_tag() -> None:
    text = "{ stack { open 60 } }"
    built = kitchen(*(f"S{n}: cupboard 15 {text}" for n in range(1, 9)), length="120")
    assert counts(built) == (8, 1)
    (finding,) = built.findings
    assert finding.tags == tuple(f"S{n}" for n in range(1, 9))
    assert finding.span is not None
    assert finding.span.source.line_text(finding.span.line).strip() == f"S1: cupboard 15 {text}"


@pytest.mark.parametrize(
    ("units", "worked_out"),
    [
        (("S1: cupboard 20", "S2: cupboard 30", "S3: cupboard 20"), 2),
        (("S1: cupboard 20 high 30", "S2: cupboard 20 high 30", "S3: cupboard 30"), 2),
        (("S1: cupboard 20", "S2: cupboard 20 wood bare_board", "S3: cupboard 30"), 3),
        (("S1: cupboard 20", "S2: cupboard 20 # with a word", "S3: cupboard 30"), 2),
        (("S1: cupboard 20 { note one }", "S2: cupboard 20 { note two }", "S3: cupboard 30"), 2),
        (("S1: cupboard share", "S2: cupboard share", "S3: cupboard 30"), 2),
        (('S1: cupboard 20"', "S2: cupboard 508mm", "S3: cupboard 30"), 2),
    ],
)
def test_what_makes_units_differ(units: tuple[str, ...], worked_out: int) -> None:
    built = kitchen(*units, length="70")
    assert built.findings == ()
    assert counts(built) == (3, worked_out)


LOOKS_LEFT = """construction looks_left from shop {
  option lip length = (1 if beside.left is unit else 2)
  part rail of wood  across left_side .. right_side  up lip to top  deep from front
  join rail to left_side right_side with screwed
  step rail
}
"""


def test_a_neighbour_counts_only_where_it_is_read() -> None:
    """The first of a row has a wall on its left, the others have a unit there."""
    row = ["S1: cupboard 20", "S2: cupboard 20", "S3: cupboard 20", "S4: cupboard 20"]
    blind = kitchen(*row, length="80", more=LOOKS_LEFT)
    assert counts(blind) == (4, 1)
    looking = kitchen(
        *row, length="80", head=HEAD.replace("built shop", "built looks_left"), more=LOOKS_LEFT
    )
    assert looking.findings == ()
    assert counts(looking) == (4, 2)
    assert looking.job is not None
    heights = [
        part.box.size("up")
        for placed in looking.job.placed
        if placed.unit is not None
        for part in placed.unit.parts
        if part.address == "rail"
    ]
    assert heights == [2, 1, 1, 1]


def test_what_is_read_of_the_room_counts_too() -> None:
    """Units in two runs share a result as long as they read the same of the room."""
    text = f"""{HEAD}
room flat {{
  ceiling 96
  counter 36 thick 1 1/2
  wall north length 90
  wall east length 90
  wall south length 90
  wall west length 90
}}
unit base from cupboard {{ high room.counter - room.counter_thick }}
run one on north from left length 20 {{ S1: base 20 }}
run two on south from left length 20 {{ S2: base 20 }}
"""
    built = compiled({"flats.case": text.encode()}, "flats.case")
    assert built.findings == ()
    assert counts(built) == (2, 1)
