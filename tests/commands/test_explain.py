"""`explain`: a figure of a kitchen, a finding, or a thing of the library."""

import json
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from casewright.compiler.catalogue import CATALOGUE
from casewright.compiler.commands import explain
from casewright.compiler.commands.meant import meant
from casewright.compiler.commands.words import explained_word
from casewright.compiler.words.schema import SCHEMA
from casewright.compiler.world import world_of
from casewright.lang.cells import literal
from casewright.lang.measure import length
from casewright.lang.render_explain import Row
from tests.commands.command_line import PlayedCompiled, PlayedExplanation, play_compiler, ran
from tests.commands.test_build import PlayedJob
from tests.lang.finding_samples import RUN_TOO_LONG

WHY = PlayedExplanation(
    (
        Row("left of S3", length(48), "kitchen.case:41"),
        Row("S2.across", length(Fraction(57, 2)), "kitchen.case:34", ruled=True),
    ),
    literal(Fraction(57, 2)),
)

LIBRARY = world_of(
    {
        "units.case": (
            "# A tall unit.\n# It has two doors.\nunit tall {\n  option deep_one length = 5\n}\n"
            "sheet oak_ply {  # the good one\n  thick 3/4\n}\n"
        ),
        "start/kitchen.case": "job My kitchen\n",
    }
)


@pytest.fixture
def kitchen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(explain, "InstalledLibrary", lambda: LIBRARY)
    (tmp_path / "kitchen.case").write_text("job galley\n")
    compiled = PlayedCompiled(PlayedJob(precision=literal(Fraction(1, 32))), ())
    play_compiler(monkeypatch, compiled, explained={"S2.across": WHY})
    return tmp_path / "kitchen.case"


def test_a_figure_is_explained_in_three_columns(kitchen: Path) -> None:
    text = """\
    what          figure     where
    left of S3    48"        kitchen.case:41
                  -------
    S2.across     28 1/2"    kitchen.case:34
"""
    for typed in (("S2.across",), ("kitchen.case", "S2.across"), (kitchen, "S2.across")):
        result = ran("explain", *typed)
        assert (result.code, result.out, result.err) == (0, text, "")


def test_the_other_forms_of_a_figure(kitchen: Path) -> None:
    assert ran("explain", "S2.across", "--as", "concise").out == 'S2.across  28 1/2"\n'
    told: Any = json.loads(ran("explain", "S2.across", "--as", "json").out)
    assert told["about"] == "S2.across"
    assert told["reads"][-1]["value"]["exact"] == "57/2"


def test_an_unknown_address_is_one_sentence_with_what_may_be_meant(kitchen: Path) -> None:
    result = ran("explain", kitchen, "S2.acros")
    assert (result.code, result.out) == (2, "")
    assert result.err == (
        f"casewright: no figure of {kitchen} has the address S2.acros; did you mean S2.across?\n"
    )


def test_without_a_job_the_findings_are_shown(
    kitchen: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    play_compiler(monkeypatch, PlayedCompiled(None, (RUN_TOO_LONG,)))
    result = ran("explain", "S2.across")
    assert result.code == 2
    assert "run-too-long" in result.out
    assert "can't be built as it is" in result.err


def test_a_thing_of_the_library_is_shown_as_it_is_written(kitchen: Path) -> None:
    assert ran("explain", "tall").out == (
        """\
    unit tall    std units:3

    A tall unit. It has two doors.

    unit tall {
      option deep_one length = 5
    }
"""
    )
    told: Any = json.loads(ran("explain", "oak_ply", "--as", "json").out)
    assert told["declared"][0]["head"] == "sheet"
    assert told["declared"][0]["doc"] == "the good one"


def test_a_finding_is_explained_without_a_kitchen(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    result = ran("explain", "run-too-long")
    assert result.code == 0
    assert result.out.startswith("    run-too-long\n\n    ")
    assert "\n    mend    " in result.out
    assert "\n    bad\n      run " in result.out
    told: Any = json.loads(ran("explain", "run-too-long", "--as", "json").out)
    assert set(told) == {"version", "about", "doc", "is", "mend", "bad", "good"}
    kitchen = tmp_path / "kitchen.case"
    kitchen.write_text("measure in inches\n", encoding="utf-8")
    assert ran("explain", kitchen, "run-too-long").out == result.out


def test_a_finding_without_an_example_says_why_in_both_forms() -> None:
    slug, rule = next((slug, rule) for slug, rule in CATALOGUE.items() if rule.no_example)
    assert rule.no_example in ran("explain", slug).out
    told: Any = json.loads(ran("explain", slug, "--as", "json").out)
    assert told["no_example"] == rule.no_example
    assert not {"bad", "good"} & set(told)


def test_an_unknown_slug_is_one_sentence(kitchen: Path) -> None:
    result = ran("explain", "run-to-long")
    assert (result.code, result.out) == (2, "")
    assert result.err == (
        "casewright: no finding is called run-to-long; did you mean run-too-long?\n"
    )


@pytest.mark.parametrize(
    ("word", "stands", "says"),
    [
        ("overhead", "in rates", "added to the cost of things and work"),
        ("tax", "in rates", "tax on the price"),
        ("margin", "in rates", "profit, as a share of the price before tax"),
        ("finish", "in room, floor", "thickness of the floor still to be laid"),
        ("stock", "in sheet; in lumber; in band", "a size it is bought in"),
        ("pack", "in buy", "what such a pack is called"),
    ],
)
def test_a_word_within_a_statement_is_explained_without_a_kitchen(
    word: str, stands: str, says: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    result = ran("explain", word)
    assert (result.code, result.err) == (0, "")
    lines = [line.strip() for line in result.out.splitlines()]
    assert lines[0] == word
    assert any(line.startswith(says) for line in lines)
    assert f"stands  {stands}" in lines
    told: Any = json.loads(ran("explain", word, "--as", "json").out)
    assert [f"in {each['stands_in']}" for each in told["clauses"]] == stands.split("; ")


def test_labour_says_what_counts_as_a_piece_and_as_a_unit() -> None:
    told = " ".join(ran("explain", "labour").out.split())
    assert "a door put together of several parts once" in told
    assert "per unit counts cabinets, no bases or fillers but where serves names them" in told


def test_every_statement_says_each_thing_once_and_names_none_by_a_rules_own_name() -> None:
    for rule in SCHEMA.heads.values():
        assert len(set(rule.body)) == len(rule.body), rule.name
        if rule.name == SCHEMA.file:
            continue
        told = explained_word(rule, 100).splitlines()
        assert told[2].strip() == rule.doc or len(rule.doc) > 90
        stands = next(line for line in told if line.startswith("    stands  "))
        assert "placed" not in stands, rule.name


def test_a_word_is_shown_in_a_line_of_the_library_or_of_a_findings_example() -> None:
    assert "    as in   run sink_wall on north from left\n" in ran("explain", "run").out
    assert "    as in   for each post\n" in ran("explain", "for").out
    assert "    as in   wage 30\n" in ran("explain", "wage").out


KNOWN = (
    "north.window.at",
    "sink_wall.dead_corner_1.across",
    "S1.across",
    "S1.left_side.length",
    "S2.across",
    "S2.drawer_1.face.length",
    "S2.drawer_1.left_side.length",
    "S2.drawer_2.face.length",
    "S2.left_side.length",
)


@pytest.mark.parametrize(
    ("typed", "answer"),
    [
        ("s2", "did you mean S2?"),
        ("S2.drawer", "did you mean S2.drawer_1 or S2.drawer_2?"),
        ("S2.lef_side", "did you mean S2.left_side?"),
        ("S2.acros", "did you mean S2.across?"),
        ("s1.LEFT_side.length", "did you mean S1.left_side.length?"),
        ("dead.case corner", "did you mean sink_wall.dead_corner_1?"),
        ("window.at", "did you mean north.window?"),
        ("S2 left side", "did you mean S2.left_side or S2.drawer_1.left_side?"),
        ("S2.drawer_1.x", "S2.drawer_1 has face, left_side"),
        ("S9.across", "it has north, sink_wall, S1, S2"),
        ("", "it has north, sink_wall, S1, S2"),
        ("..", "it has north, sink_wall, S1, S2"),
    ],
)
def test_a_guess_is_answered_with_what_there_is(typed: str, answer: str) -> None:
    assert meant(typed, KNOWN) == answer


def test_a_word_of_the_language_is_explained_where_a_kitchen_is_named_too(kitchen: Path) -> None:
    for word, says in (("dead_corner", "a corner that two runs leave closed"), ("tall", "A tall")):
        result = ran("explain", kitchen, word)
        assert (result.code, result.err) == (0, "")
        assert says in result.out
        assert result == ran("explain", word)
