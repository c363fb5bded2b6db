"""`build` writes plans with certificates, and `verify` holds them to what they claim."""

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from casewright.compiler.cutting.plan_files import check_files, read_kept_plans
from tests.commands.command_line import ran
from tests.plan_join.kitchens import kitchens
from tests.test_imports import IMPORTS, under

PRICED = kitchens()["tack_room/tack_room.case"]
PLANS = 7
"""Those of the tack room: four sheets, two lumbers, a bench top."""

SMALL = kitchens()["first_cabinet/first_cabinet.case"]


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The tack room's book."""
    folder = tmp_path_factory.mktemp("books") / "tack"
    assert ran("build", PRICED, "-o", folder).code == 0
    return folder


@pytest.fixture
def copy(book: Path, tmp_path: Path) -> Path:
    """A book to tamper with."""
    return Path(shutil.copytree(book, tmp_path / "tack"))


def test_the_book_holds_a_plan_and_a_certificate_of_every_material(book: Path) -> None:
    names = {path.name for path in (book / "plans").iterdir()}
    materials = {"birch_ply", "half_ply", "thin_ply", "white_melamine"}
    materials |= {"boards_hard_maple", "boards_thick_poplar", "linear_bench_top"}
    assert len(materials) == PLANS
    files = {f"{each}{end}" for each in materials for end in (".json", ".certificate.txt")}
    assert names == {*files, "plans.txt"}
    assert (book / "buying_list.csv").is_file()


def test_what_was_built_holds(book: Path) -> None:
    result = ran("verify", book)
    assert result.code == 0
    assert result.out.count("It holds.\n") == PLANS
    assert "white_melamine: 2 sheets, and 1 can't do. It holds." in result.out
    assert "boards_hard_maple: 2 boards, and 1 can't do. It holds." in result.out


def test_the_plans_folder_alone_will_do(book: Path) -> None:
    assert ran("verify", book / "plans").code == 0


def test_as_json(book: Path) -> None:
    told: Any = json.loads(ran("verify", book, "--as", "json").out)
    assert [each["problems"] for each in told["plans"]] == [[]] * PLANS


Change = Callable[[Any], None]


def nodes(node: Any) -> list[Any]:
    return [node, *(inner for child in node.get("into", []) for inner in nodes(child))]


def pieces(document: Any) -> list[Any]:
    return [
        node
        for sheet in document["plan"]["sheets"]
        for node in nodes(sheet["tree"])
        if node.get("use") == "piece"
    ]


def piece_is_waste(document: Any) -> None:
    node = pieces(document)[0]
    node["use"] = "waste"
    del node["piece"]


def piece_is_another(document: Any) -> None:
    one, other = pieces(document)[0], pieces(document)[-1]
    one["piece"] = other["piece"]


def piece_is_wider(document: Any) -> None:
    pieces(document)[0]["width"] += 1


def sheet_is_gone(document: Any) -> None:
    document["plan"]["sheets"].pop()


def sheet_is_larger(document: Any) -> None:
    document["plan"]["sheets"][0]["tree"]["length"] += 8


def kerf_is_nothing(document: Any) -> None:
    document["plan"]["kerf"] = 0


def list_is_shorter(document: Any) -> None:
    document["list"]["pieces"].pop()


def list_is_wider_stock(document: Any) -> None:
    document["list"]["stock"][0]["width"] = "60"


def cut_is_none(document: Any) -> None:
    document["plan"]["sheets"][0]["tree"]["cut"] = "saw"


def plan_is_text(document: Any) -> None:
    document["plan"] = "two sheets"


@pytest.mark.parametrize("name", ["white_melamine", "boards_hard_maple"])
@pytest.mark.parametrize(
    "change",
    [
        piece_is_waste,
        piece_is_another,
        piece_is_wider,
        sheet_is_gone,
        sheet_is_larger,
        kerf_is_nothing,
        list_is_shorter,
        list_is_wider_stock,
        cut_is_none,
        plan_is_text,
    ],
)
def test_a_plan_that_was_tampered_with_does_not_hold(copy: Path, change: Change, name: str) -> None:
    file = copy / "plans" / f"{name}.json"
    document = json.loads(file.read_text())
    change(document)
    file.write_text(json.dumps(document))
    result = ran("verify", copy)
    assert result.code == 1
    assert f"{name}: does not hold: " in result.out
    assert result.out.count("It holds.\n") == PLANS - 1


@pytest.mark.parametrize("name", ["white_melamine", "boards_hard_maple"])
@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("certificate 1", "certificate 2"),
        ("least 2", "least 3"),
        ("least 2", "least many"),
        ("list ", "list 0"),
        ("bound ", "bound best-"),
    ],
)
def test_a_certificate_that_was_tampered_with_does_not_hold(
    copy: Path, old: str, new: str, name: str
) -> None:
    file = copy / "plans" / f"{name}.certificate.txt"
    text = file.read_text()
    assert old in text
    file.write_text(text.replace(old, new, 1))
    assert ran("verify", copy).code == 1


def test_a_missing_certificate_and_a_missing_plan(copy: Path) -> None:
    (copy / "plans" / "half_ply.certificate.txt").unlink()
    result = ran("verify", copy)
    assert (result.code, "half_ply: does not hold: its certificate is missing" in result.out) == (
        1,
        True,
    )
    (copy / "plans" / "birch_ply.json").unlink()
    result = ran("verify", copy)
    assert result.code == 1
    said = "birch_ply: does not hold: its certificate is here, and the plan isn't"
    assert result.out.count("birch_ply: ") == result.out.count(said) == 1
    assert result.out.count("It holds.\n") == PLANS - 2


def test_certificates_alone_are_failures_and_each_is_told(copy: Path) -> None:
    for path in (copy / "plans").glob("*.json"):
        path.unlink()
    result = ran("verify", copy)
    assert result.code == 1
    assert result.out.count("its certificate is here, and the plan isn't") == PLANS


def test_a_plan_that_is_gone_with_its_certificate_is_missed(copy: Path) -> None:
    for end in (".json", ".certificate.txt"):
        (copy / "plans" / f"half_ply{end}").unlink()
    result = ran("verify", copy)
    assert result.code == 1
    assert (
        "half_ply: does not hold: it is named in the list of plans, and isn't there" in result.out
    )


def test_a_sound_plan_of_another_job_in_a_plans_place_is_found_out(
    copy: Path, tmp_path: Path
) -> None:
    assert ran("build", SMALL, "-o", tmp_path / "small").code == 0
    other = next(iter(sorted((tmp_path / "small" / "plans").glob("*_ply.json"))))
    for end in (".json", ".certificate.txt"):
        source = other.with_name(other.name.removesuffix(".json") + end)
        shutil.copy(source, copy / "plans" / f"half_ply{end}")
    result = ran("verify", copy)
    assert (result.code, "half_ply: does not hold: it is for other pieces" in result.out) == (
        1,
        True,
    )


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (None, "plans.txt: does not hold: it is missing"),
        ("plans 2\n", "plans.txt: does not hold: it is no list of plans"),
        ("plans 1\n", "half_ply: does not hold: the list of plans doesn't name it"),
    ],
)
def test_an_index_that_is_gone_or_emptied(copy: Path, text: str | None, said: str) -> None:
    index = copy / "plans" / "plans.txt"
    if text is None:
        index.unlink()
    else:
        index.write_text(text)
    result = ran("verify", copy)
    assert (result.code, said in result.out) == (1, True)


def test_a_folder_without_plans(tmp_path: Path) -> None:
    result = ran("verify", tmp_path)
    assert result.code == 2
    assert "holds no plans" in result.err
    assert ran("verify", tmp_path / "nowhere").code == 2


def test_text_that_is_no_plan() -> None:
    for text in ("", "{", "[]", '{"list": 1, "plan": 2}', "[" * 100_000):
        checked, problems = check_files(text, "certificate 1\n")
        assert checked is None
        assert problems


def reached(name: str) -> set[str]:
    """Every module of ours that importing `name` loads."""
    found: set[str] = set()
    waiting = [name]
    while waiting:
        here = waiting.pop()
        if here in found or here not in IMPORTS:
            continue
        found.add(here)
        waiting += [each for each in IMPORTS[here] if under(each, "casewright")]
    return found


def test_verify_imports_nothing_of_the_planner() -> None:
    planner = "plan greedy master relax columns refine arrange tighten bounds layout guillotine"
    loaded = reached("casewright.compiler.commands.verify")
    assert "casewright.compiler.plan.verify" in loaded
    for each in planner.split():
        assert f"casewright.compiler.plan.{each}" not in loaded


def kept(kitchen: Path) -> Path:
    return kitchen.with_name("first_cabinet.plans.json")


@pytest.fixture
def cabinet(tmp_path: Path) -> Path:
    """A kitchen of its own, to plan hard."""
    return Path(shutil.copy(SMALL, tmp_path / "first_cabinet.case"))


def test_a_hard_plan_is_kept_beside_the_kitchen_and_used(cabinet: Path) -> None:
    assert ran("build", cabinet, "--plan", "hard").code == 0
    text = kept(cabinet).read_text()
    assert read_kept_plans(text)
    hard = {path.name: path.read_bytes() for path in (cabinet.with_suffix("") / "plans").iterdir()}
    result = ran("build", cabinet)
    assert (result.code, "hard-plan" in result.out) == (0, False)
    again = {path.name: path.read_bytes() for path in (cabinet.with_suffix("") / "plans").iterdir()}
    assert again == hard
    assert kept(cabinet).read_text() == text


def test_a_kept_plan_of_other_pieces_is_said_and_not_used(cabinet: Path) -> None:
    assert ran("build", cabinet, "--plan", "hard").code == 0
    document = json.loads(kept(cabinet).read_text())
    document["materials"]["elm_ply"] = next(iter(document["materials"].values()))
    kept(cabinet).write_text(json.dumps(document))
    text = cabinet.read_text()
    cabinet.write_text(
        text.replace("length 27", "length 30").replace("drawer_base 27", "drawer_base 30")
    )
    result = ran("build", cabinet)
    assert (result.code, "hard-plan-of-other-pieces" in result.out) == (0, True)
    assert result.out.count("hard-plan-of-nothing") == 1
    assert "a plan is kept for elm_ply, which nothing is made of here" in result.out
    assert ran("verify", cabinet.with_suffix("")).code == 0


def test_a_kept_plan_that_does_not_hold_is_said_and_not_used(cabinet: Path) -> None:
    assert ran("build", cabinet, "--plan", "hard").code == 0
    document = json.loads(kept(cabinet).read_text())
    for entry in document["materials"].values():
        piece_is_waste(entry)
    kept(cabinet).write_text(json.dumps(document))
    result = ran("build", cabinet)
    assert "hard-plan-unsound" in result.out
    assert ran("verify", cabinet.with_suffix("")).code == 0


def test_a_file_beside_the_kitchen_that_is_no_plan(cabinet: Path) -> None:
    kept(cabinet).write_text("no plans here")
    result = ran("build", cabinet)
    assert result.code == 2
    assert "holds no kept plans that can be read" in result.err
    assert not cabinet.with_suffix("").exists()


@pytest.mark.parametrize("member", ["plan", "list", "certificate"])
def test_a_kept_plan_that_is_damaged_is_not_passed_over(cabinet: Path, member: str) -> None:
    plan = {"step": "1/64", "kerf": 8, "sheets": []}
    entry: dict[str, object] = {"plan": plan, "list": "0", "certificate": "certificate 1"}
    assert read_kept_plans(json.dumps({"materials": {"white_melamine": entry}}))
    del entry[member]
    document = {"kept plans": 1, "materials": {"white_melamine": entry}}
    kept(cabinet).write_text(json.dumps(document))
    result = ran("build", cabinet)
    assert result.code == 2
    assert "holds no kept plans that can be read" in result.err
    assert not cabinet.with_suffix("").exists()


def test_papers_that_need_no_plan_do_not_wait_for_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def planned(*_: object, **__: object) -> None:
        raise AssertionError("sheets were planned")

    monkeypatch.setattr("casewright.compiler.shop.reckoning.sheet_plans", planned)
    for wanted in (("--for", "installer"), ("--for", "bench"), ("--only", "S1")):
        result = ran("build", SMALL, "-o", tmp_path / wanted[1], *wanted)
        assert result.code == 0
        assert (tmp_path / wanted[1] / "book.html").is_file()
    with pytest.raises(AssertionError, match="sheets were planned"):
        ran("build", SMALL, "-o", tmp_path / "sawyer", "--for", "sawyer")
