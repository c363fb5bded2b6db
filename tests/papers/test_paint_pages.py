"""The finisher's list: what is seen, each piece once, and the caution before it."""

from casewright.compiler.papers.lists.cut_list import cut_list
from casewright.compiler.papers.pages.paint_pages import SEEN, pages
from tests.papers.sample import galley


def test_every_piece_that_is_seen_is_finished_once() -> None:
    job = galley()
    listed = [row for page in pages(job) for group in page.values["groups"] for row in group.rows]
    seen = [
        row
        for group in cut_list(job)
        for row in group.rows
        if SEEN & {part.role for piece in row.pieces for part in piece.parts}
    ]
    assert seen
    assert [row.number for row in listed] == [row.number for row in seen]


def test_fumes_are_warned_of_once_and_unknown_coats_are_said() -> None:
    first, *others = pages(galley())
    assert [caution.word for caution in first.values["cautions"]] == ["WARNING"]
    assert all(page.values["cautions"] == [] for page in others)
    assert first.values["groups"][0].coats.startswith("No coat is declared")
