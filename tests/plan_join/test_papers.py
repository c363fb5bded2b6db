"""What the sawyer is handed: every pass once, every piece with its label, offcuts as text."""

import re
from collections import Counter

import pytest
import segno
from attrs import evolve

from casewright.compiler.cutting.named import pieces_of
from casewright.compiler.cutting.sheet_plans import sheet_plans
from casewright.compiler.papers.drawings.sheet_drawing import letter_of, sheet_drawing
from casewright.compiler.papers.figures import printing_of
from casewright.compiler.papers.pages.label_pages import (
    code_path,
    label_pages,
    labels,
    triangle_piece,
)
from casewright.compiler.papers.pages.rip_list import (
    list_groups,
    offcut_lines,
    span_words,
    used_up,
)
from casewright.compiler.papers.pages.sheet_pages import came_off, sheet_pages, step_groups
from casewright.compiler.papers.pieces import built, sawn
from casewright.compiler.shop.priced import several
from tests.compiler.examples import compiled
from tests.plan_join.kitchens import planned

PRICED = "tack_room/tack_room.case"


def numbers_in(text: str) -> list[int]:
    """`7 to 9, 12` as its numbers."""
    found: list[int] = []
    for piece in text.split(", "):
        ends = [int(each) for each in re.findall(r"\d+", piece)]
        found += range(ends[0], ends[1] + 1) if " to " in piece else ends
    return found


@pytest.mark.parametrize(
    ("numbers", "words"),
    [
        ([7], "7"),
        ([7, 8], "7 8"),
        ([7, 8, 9], "7 to 9"),
        ([1, 2, 5, 7, 8, 9, 10], "1 2, 5, 7 to 10"),
    ],
)
def test_cut_numbers_in_words(numbers: list[int], words: str) -> None:
    assert span_words(numbers) == words
    assert numbers_in(words) == numbers


def test_every_pass_is_one_step_in_sawing_order() -> None:
    job, plans = planned(PRICED)
    for plan in plans.plans:
        for sheet in plan.sheets:
            steps = [step for group in step_groups(sheet, printing_of(job)) for step in group.steps]
            numbers = [each for step in steps for each in numbers_in(step.numbers)]
            assert numbers == list(range(1, len(sheet.passes) + 1))


def test_the_rip_list_names_every_pass_with_a_setting() -> None:
    job, plans = planned(PRICED)
    for plan in plans.plans:
        told: Counter[tuple[int, int]] = Counter()
        for group in list_groups(plan, printing_of(job)):
            for row in group.rows:
                for where in row.where.split("; "):
                    sheet, _, cuts = where.removeprefix("sheet ").partition(": ")
                    told.update((int(sheet), cut) for cut in numbers_in(cuts))
        wanted = {
            (sheet.number, each.number)
            for sheet in plan.sheets
            for each in sheet.passes
            if not (each.trims and each.way == "crosscut")
        }
        assert told == Counter(wanted)


@pytest.mark.parametrize(
    ("freed", "said"),
    [
        ([("blank", "S1"), ("blank", "S1")], "2 S1 blanks"),
        ([("shelf", "")] * 2, "2 shelves"),
        ([("rail", "")], "rail"),
        ([*[("face", "V1")] * 2, ("face", "U5"), ("", "")], "2 V1, U5 faces, 1 to cut again"),
        ([("floor", "S1"), ("rail", ""), ("rail", "S2")], "S1 floor, 1, S2 rails"),
    ],
)  # fmt: skip
def test_equal_cuts_say_what_they_free(freed: list[tuple[str, str]], said: str) -> None:
    each = next(
        every
        for plan in planned(PRICED)[1].plans
        for sheet in plan.sheets
        for every in sheet.passes
        if every.way == "crosscut"
    )
    assert came_off([evolve(each, words=words, tag=tag) for words, tag in freed]) == said


def test_every_cut_that_frees_a_piece_names_it() -> None:
    job, plans = planned(PRICED)
    named = {each.address: each for each in pieces_of(job).values()}
    for plan in plans.plans:
        for sheet in plan.sheets:
            freed = sum(bool(each.words) for each in sheet.passes)
            boards = [named[each.address] for each in sheet.boards if each.use == "piece"]
            tags = {each.label for each in boards if each.label == each.holder}
            assert {each.tag for each in sheet.passes if each.tag} <= tags
            # What falls last of a strip is freed with what was cut off before it.
            assert 0 < freed <= len(boards)


def test_a_drawing_numbers_every_cut_and_names_every_piece() -> None:
    job, plans = planned(PRICED)
    for plan in plans.plans:
        for sheet in plan.sheets:
            drawing, keys = sheet_drawing(job, plan, sheet)
            said = Counter(each.text for each in drawing.letters)
            for each in sheet.passes:
                assert said[str(each.number)] >= 1
            whole = " ".join(each.text for each in drawing.letters)
            for board in sheet.boards:
                if board.use == "piece":
                    named = f"{board.label} {board.title}"
                    lettered = all(word in whole for word in named.split())
                    assert lettered or any(named in key for key in keys)
            assert {"FENCE", "factory edge", "near end: you stand here"} <= said.keys()


def test_every_piece_has_one_label_and_every_blank() -> None:
    job, plans = planned(PRICED)
    wanted = [f"{item.holder}.{part.address}" for item in built(job) for part in sawn(item.unit)]
    wanted += [f"{item.holder}.{blank.name}" for item in built(job) for blank in item.unit.blanks]
    printed = [
        label.address for page in label_pages(job, plans.plans) for label in page.values["labels"]
    ]
    assert Counter(printed) == Counter(wanted)
    assert len(wanted) > 60


def test_a_label_says_what_where_and_which_way_round() -> None:
    job, _ = planned(PRICED)
    _, _, side = dict(labels(job))["S1.left_side"]
    assert side.title == "S1 left side"
    assert side.after.startswith("band front")
    assert (side.face, side.tag, side.job) == ("left", "S1", "job 311, revision 1")


def test_a_code_is_the_one_of_its_content_with_a_quiet_zone() -> None:
    path, modules = code_path("311,1,S1,left_side")
    matrix = segno.make("311,1,S1,left_side", error="m", micro=False).matrix
    assert modules == len(matrix) + 8
    dark = set()
    for left, y, moves in re.findall(r"M(\d+) (\d+)\.5([^M]*)", path):
        x = int(left)
        for line, wide in re.findall(r"([hm])(\d+)", moves):
            if line == "h":
                dark |= {(x + step, int(y)) for step in range(int(wide))}
            x += int(wide)
    assert dark == {
        (x + 4, y + 4) for y, row in enumerate(matrix) for x, module in enumerate(row) if module
    }


def test_pieces_of_a_triangle_join_into_one() -> None:
    job, _ = planned(PRICED)
    (item,) = [each for each in built(job) if each.holder == "S1"]
    parts = {part.address: part for part in sawn(item.unit)}
    # Two sides share a triangle: the left one rises to the middle, the right one falls from it.
    assert triangle_piece(item.unit, parts["left_side"]) == "M0 100L100 0L100 100L0 100Z"
    assert triangle_piece(item.unit, parts["right_side"]) == "M0 0L100 100L100 100L0 100Z"


def test_the_lines_for_kept_offcuts_are_text_of_the_language() -> None:
    job, plans = planned(PRICED)
    lines = [line for plan in plans.plans for line in offcut_lines(job, plan)]
    kept = [board for plan in plans.plans for _, board in plan.kept]
    assert len(lines) == len(kept) > 0
    text = "use std edition 1\nuse kitchen\n"
    names = {plan.material.name for plan in plans.plans}
    text += "".join(f"sheet {name} {{ thick 3/4  stock 48 by 96 }}\n" for name in sorted(names))
    text += "\n".join(lines) + "\nrun wall on north from left {\n  S1: cupboard share\n}\n"
    built_text = compiled({"page.case": text.encode()}, "page.case")
    assert [each.slug for each in built_text.findings if each.severity.value == "error"] == []
    assert built_text.job is not None
    for offcut, board in zip(built_text.job.offcuts, kept, strict=True):
        assert 0 <= board.width - offcut.size.width < job.precision.value
        assert 0 <= board.length - offcut.size.length < job.precision.value
        assert offcut.date == "2026-03-14"


@pytest.mark.parametrize(
    ("pieces", "said"), [(1, "take it out, it is used"), (3, "write pieces 2")]
)
def test_a_used_offcut_is_told_to_be_taken_out_of_the_shops_text(pieces: int, said: str) -> None:
    text = f"""
use kitchen
saw table_saw {{ kerf 1/8  trim 1/4 }}
sheet plain {{ thick 3/4  stock 49 by 97 }}
offcut june_ply {{ of plain  size 49 by 90  pieces {pieces}  place "rack 2" }}
offcut scrap    {{ of plain  size 3 by 3 }}
run sink_wall on north from left {{
  S1: cupboard share  wood plain
}}
"""
    built_text = compiled({"page.case": text.encode()}, "page.case")
    assert built_text.job is not None
    plans, _ = sheet_plans(built_text.job)
    plan = next(each for each in plans.plans if each.material.name == "plain")
    assert used_up(built_text.job, plan) == (
        f"Once they are sawn, in the shop's text: offcut june_ply: {said}."
    )
    none = evolve(plan, used=tuple(each for each in plan.used if not each.kept))
    assert used_up(built_text.job, none) == ""


def test_pages_are_of_the_saw_and_each_has_an_address_of_its_own() -> None:
    job, plans = planned(PRICED)
    pages = [*sheet_pages(job, plans.plans, plans.unplanned), *label_pages(job, plans.plans)]
    assert {page.chapter for page in pages} == {"saw"}
    assert len({page.identifier for page in pages}) == len(pages)
    sheets = sum(len(plan.sheets) for plan in plans.plans)
    assert sum(page.identifier.startswith("sheet-") for page in pages) == sheets


@pytest.mark.parametrize(
    ("one", "more"), [("side", "sides"), ("shelf", "shelves"), ("cross", "crosses")]
)
def test_more_than_one(one: str, more: str) -> None:
    assert several(one) == more


def test_letters_go_on_after_z() -> None:
    assert [letter_of(index) for index in (0, 25, 26, 51, 52)] == ["a", "z", "aa", "az", "ba"]
