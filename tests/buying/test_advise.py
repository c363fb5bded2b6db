"""What would save the most: worked out by hand for two cupboards, whose panels are 24 and 36 wide.

As it is: four panels of board, of which two 24s and a kerf are wider than a sheet of 48, so two
sheets at 40.00; two panels of the wide sheet, one at 42.00; six pieces of ten minutes at 30.00 an
hour, 30.00; and 10 % overhead: 167.20.
"""

import json
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest
from attrs import evolve
from jsonschema import Draft202012Validator

from casewright.compiler.commands.world import InstalledLibrary, open_project
from casewright.compiler.compile import compile_job
from casewright.compiler.cutting import planner
from casewright.compiler.papers.pages.press import Press
from casewright.compiler.papers.pages.saving_pages import saving_lines, saving_pages
from casewright.compiler.plan.certificate import request_mark
from casewright.compiler.plan.plan import Effort, Planned, plan_sheets
from casewright.compiler.plan.request import Problem, Request
from casewright.compiler.shop.advise import advise, stock_line
from casewright.compiler.shop.priced import Advice, Estimate
from casewright.compiler.shop.reckoning import shop_work
from casewright.compiler.world import HeldWorld
from casewright.lang.findings import Severity
from casewright.lang.printing import Printing
from casewright.lang.shape import span_of
from casewright.lang.source import Span
from tests.buying.shops import CHOICES, TACK_ROOM, choices
from tests.commands.command_line import ran


def estimate_of(text: str) -> Estimate:
    """The estimate of a text, built in the ordinary way."""
    _, built = choices(text)
    assert built.job is not None
    work, findings = shop_work(built.job)
    assert {each.slug for each in findings} <= {"estimate-not-whole"}
    assert work.estimate is not None
    return work.estimate


@cache
def advised() -> tuple[Advice, Estimate]:
    world, built = choices()
    assert built.job is not None
    estimate = estimate_of(CHOICES)
    return advise(world, "choices.case", built, estimate, built.findings), estimate


def test_the_three_that_save_the_most_and_no_more() -> None:
    """One back fewer a unit saves a sheet and two pieces: (40 + 10) and 10 %. An inch less makes
    two panels of 23 that one sheet holds: 40 and 10 %. Sheets of 49 x 97 hold two 24s, and one is
    41.26 by area: 80 - 41.26, and the overhead of 15.20 becomes 11.33."""
    advice, estimate = advised()
    assert estimate.cost == advice.cost == 16720
    assert [(each.line, each.cents) for each in advice.savings] == [
        ("construction shop: backs one", 5500),
        ("S1: cupboard 23", 4400),
        ("sheet board: stock 49 by 97", 4261),
    ]


@pytest.mark.parametrize(
    ("line", "other"),
    [
        (
            "  option backs choice one two sideways = two",
            "  option backs choice one two sideways = one",
        ),
        ("  S1: cupboard 24", "  S1: cupboard 23"),
    ],
)
def test_a_kitchen_written_so_saves_just_that(line: str, other: str) -> None:
    advice, estimate = advised()
    saved = estimate.cost - estimate_of(CHOICES.replace(line, other)).cost
    assert saved in [each.cents for each in advice.savings]


def test_every_saving_stands_at_its_line() -> None:
    advice, _ = advised()
    lines = CHOICES.splitlines()
    found = [lines[int(each.where.removeprefix("choices.case:")) - 1] for each in advice.savings]
    assert found == [
        "  built     shop",
        "  S1: cupboard 24",
        "sheet board { thick 3/4  stock 48 by 96  grain none }",
    ]


def test_what_cannot_be_built_is_counted_and_never_told() -> None:
    """Two sizes, two choices (one of them can't be built), one unit."""
    advice, _ = advised()
    assert (advice.tried, advice.unbuilt) == (5, 1)
    assert not any("sideways" in each.line for each in advice.savings)


def test_to_leave_parts_out_is_no_saving() -> None:
    """As soon as the text says what the back is for, one back fewer is less of a kitchen."""
    text = CHOICES.replace("deep from front_panel\n", "deep from front_panel  serves back\n")
    assert text.count("serves back") == 1
    world, built = choices(text)
    advice = advise(world, "choices.case", built, estimate_of(text), built.findings)
    assert advice.less == 1
    assert not any("backs" in each.line for each in advice.savings)


def test_the_line_of_a_sheet_of_the_library_is_whole_and_can_be_written_so() -> None:
    world, entry = open_project(TACK_ROOM)
    built = compile_job(world, entry)
    assert built.program is not None
    declaration = built.program.find("sheet", "half_ply")
    assert declaration is not None
    line = stock_line(declaration, declaration.statement.clause("stock"), "48 by 96")
    texts = {"kitchen.case": f"use std edition 1\n{line}\n{CHOICES}".encode()}
    other = compile_job(HeldWorld(texts, InstalledLibrary()), "kitchen.case")
    assert [each.slug for each in other.findings if each.severity is Severity.ERROR] == []
    assert other.program is not None
    own = other.program.find("sheet", "half_ply")
    assert own is not None
    assert own.level < declaration.level
    said, library = (
        {each.word: span_of(each.values[0].origin) for each in of.statement.clauses}
        for of in (own, declaration)
    )
    assert {word for word in library if words_of(said[word]) != words_of(library[word])} == {
        "stock"
    }


def words_of(span: Span | None) -> str:
    assert span is not None
    return span.text


def test_a_change_to_what_has_no_price_saves_nothing() -> None:
    """Without a price for the broad sheet fewer of it save nothing."""
    text = CHOICES.replace("  price broad 42 per sheet\n", "")
    text = text.replace("option wood  sheet = board", "option wood  sheet = broad")
    world, built = choices(text)
    estimate = estimate_of(text)
    advice = advise(world, "choices.case", built, estimate, built.findings)
    # Pieces alone have a price: two fewer are 10.00 and 10 %.
    assert [each.cents for each in advice.savings] == [1100]


def test_the_page_and_the_terminal_say_the_same() -> None:
    advice, estimate = advised()
    (page,) = saving_pages(advice, estimate)
    text = Press(Printing()).set(page.template, **page.values)
    lines = "\n".join(saving_lines(advice, estimate))
    for each in advice.savings:
        for words in (each.words, each.line, each.where, estimate.money(each.cents)):
            assert words in text
            assert words in lines
    assert "5 changes tried one at a time, of a cost of USD 167.20; 1 can't be built" in lines
    assert list(saving_pages(None, estimate)) == []
    nothing = evolve(advice, savings=())
    assert saving_lines(nothing, estimate)[0] == "Nothing that was tried would save anything."


def test_the_command_says_it_and_writes_its_page(tmp_path: Path) -> None:
    kitchen = tmp_path / "choices.case"
    kitchen.write_text(CHOICES, encoding="utf-8")
    result = ran("build", kitchen, "--advise", "-o", tmp_path / "out")
    assert "  55.00  backs: one in place of two\n" in result.out
    assert 'id="savings"' in (tmp_path / "out" / "book.html").read_text(encoding="utf-8")
    told: Any = json.loads(
        ran("build", kitchen, "--advise", "--as", "json", "-o", tmp_path / "told").out
    )
    schema = json.loads(files("casewright.lang").joinpath("findings.schema.json").read_text())
    Draft202012Validator(schema).validate(told)
    assert (told["savings"]["currency"], told["savings"]["cost"]) == ("USD", "167.20")
    assert [(each["saves"], each["place"]) for each in told["savings"]["changes"]] == [
        (saves, each.where)
        for saves, each in zip(("55.00", "44.00", "42.61"), advised()[0].savings, strict=True)
    ]
    plain = ran("build", kitchen, "-o", tmp_path / "plain")
    assert "save" not in plain.out


def test_without_rates_there_is_nothing_to_save_and_nothing_is_written(tmp_path: Path) -> None:
    kitchen = tmp_path / "choices.case"
    kitchen.write_text(CHOICES[: CHOICES.index("rates shop_rates")], encoding="utf-8")
    result = ran("build", kitchen, "--advise", "-o", tmp_path / "out")
    assert result.code == 2
    assert "--advise" in result.err
    assert not (tmp_path / "out").exists()


def test_a_list_that_a_change_leaves_alone_is_not_planned_again(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    asked: list[str] = []

    def counted(request: Request, effort: Effort) -> tuple[Planned | None, list[Problem]]:
        asked.append(request_mark(request))
        return plan_sheets(request, effort)

    world, built = choices()
    assert built.job is not None
    work, _ = shop_work(built.job)
    assert work.estimate is not None
    monkeypatch.setattr(planner, "plan_sheets", counted)
    told = advise(world, "choices.case", built, work.estimate, built.findings, work.planner)
    assert told == advised()[0]
    # Two sheets in another size, fewer backs, and both sheets of narrower units.
    assert len(asked) == len(set(asked)) == 5
    assert not set(asked) & {request_mark(each.request) for each in work.sheets.planned.values()}


def test_a_large_kitchen_is_tried_with_fewer_changes_and_told_so(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("casewright.compiler.shop.advise.MOST_PARTS", 1)
    monkeypatch.setattr("casewright.compiler.shop.advise.FEWEST", 3)
    world, built = choices()
    estimate = estimate_of(CHOICES)
    advice = advise(world, "choices.case", built, estimate, built.findings)
    # One of each kind, before a second of any.
    assert (advice.tried, advice.untried) == (3, 2)
    assert len(advice.savings) == 3
    assert "3 of 5 changes tried one at a time" in "\n".join(saving_lines(advice, estimate))
