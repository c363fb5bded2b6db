"""The folder of a job book: the same bytes twice, safe names, and a job other programs can read."""

import json
import xml.etree.ElementTree as ElementTree
from fractions import Fraction
from importlib.resources import files
from itertools import combinations

import jsonschema
import pytest
from attrs import evolve

from casewright.compiler.papers.files import write_papers
from casewright.compiler.papers.job_json import job_json
from casewright.compiler.papers.pieces import built
from tests.papers.sample import galley, metric


@pytest.fixture(scope="module")
def papers() -> dict[str, bytes]:
    return write_papers(galley(framed=True), [], {})


def test_the_same_job_gives_the_same_bytes(papers: dict[str, bytes]) -> None:
    assert write_papers(galley(framed=True), [], {}) == papers


def test_what_the_folder_holds(papers: dict[str, bytes]) -> None:
    drawings = [path for path in papers if path.startswith("drawings/")]
    assert set(papers) - set(drawings) == {"book.html", "job.json", "cut_list.csv", "hardware.csv"}
    assert {"drawings/elevation_north.svg", "drawings/plan_north.svg"} <= set(drawings)
    # Eight cabinets, each with front, stick, section, frame from both sides, its stick, and order.
    for tag in ("S1", "S2", "S3", "S5", "S6", "U1", "U2", "U3"):
        assert sum(path.startswith(f"drawings/{tag}_") for path in drawings) >= 7


def test_drawings_stand_alone(papers: dict[str, bytes]) -> None:
    for path, content in papers.items():
        if path.endswith(".svg"):
            root = ElementTree.fromstring(content)
            assert root.attrib["width"].endswith("mm")
            assert b"href" not in content
            assert b"<script" not in content
            # What is drawn to be read at arm's length isn't scaled: a unit is a millimetre.
            _, _, width, height = (float(each) for each in root.attrib["viewBox"].split())
            assert root.attrib["width"] == f"{width:g}mm"
            assert root.attrib["height"] == f"{height:g}mm"


def test_views_are_narrow_enough_for_a_phone_and_runs_for_a_sheet(papers: dict[str, bytes]) -> None:
    for path, content in papers.items():
        if not path.endswith(".svg"):
            continue
        width = float(ElementTree.fromstring(content).attrib["width"].removesuffix("mm"))
        is_view = path.endswith(("_front.svg", "_section.svg", "_back.svg", "_stick_1.svg"))
        assert width <= (92 if is_view else 196), path


def test_a_name_never_leads_out_of_the_folder() -> None:
    job = galley()
    runs = tuple(evolve(run, wall="../../etc") for run in job.runs)
    for path in write_papers(evolve(job, runs=runs), [], {}):
        assert ".." not in path
        assert path.count("/") <= 1


def test_the_job_keeps_to_its_schema() -> None:
    schema = json.loads(
        (files("casewright.compiler.papers") / "job.schema.json").read_text(encoding="utf-8")
    )
    jsonschema.Draft202012Validator.check_schema(schema)
    for job in (galley(), galley(framed=True), metric()):
        jsonschema.validate(json.loads(job_json(job)), schema)


def test_the_job_is_whole_and_exact() -> None:
    job = galley()
    document = json.loads(job_json(job))
    placed = [
        each for run in document["runs"] for each in run["placed"] if each["unit"] is not None
    ]
    items = built(job)
    assert len(placed) == len(items)
    for each, item in zip(placed, items, strict=True):
        unit = document["units"][each["unit"]]
        assert [part["address"] for part in unit["parts"]] == [
            part.address for part in item.unit.parts
        ]
        for told, part in zip(unit["parts"], item.unit.parts, strict=True):
            assert Fraction(told["cut_width"]) == part.cut_width.value
            assert tuple(Fraction(end) for end in told["box"]["up"]) == part.box.up


def test_equal_placings_share_a_unit() -> None:
    job = galley()
    document = json.loads(job_json(evolve(job, runs=(job.runs[0], job.runs[0]))))
    first, second = ([each["unit"] for each in run["placed"]] for run in document["runs"])
    assert first == second


def test_one_reader_gets_one_chapter() -> None:
    saw = write_papers(galley(), [], {}, chapters=("saw",))
    assert set(saw) == {"book.html", "job.json", "cut_list.csv"}
    unit = write_papers(galley(), [], {}, only="S2")
    tags = {path.split("/")[1].split("_")[0] for path in unit if "/" in path}
    assert tags == {"S2", "elevation", "plan", "install"}


def test_chains_close_on_paper() -> None:
    """A chain's printed figures add up to its printed total, whatever was rounded."""
    job = metric()
    drawing = write_papers(job, [], {})["drawings/elevation_north.svg"].decode()
    texts = [element.text or "" for element in ElementTree.fromstring(drawing).iter() if
             element.tag.endswith("text")]  # fmt: skip
    figures = [int(text) for text in texts if text.isdigit()]
    # The run is 1 1/2, 18, 28 1/2, 36, 24, 18, 30 3/4 and 1 1/2 inches, 4019.55 mm in all.
    assert "4020 wall to wall" in texts
    assert any(sum(chosen) == 4020 for chosen in combinations(figures, 8))
