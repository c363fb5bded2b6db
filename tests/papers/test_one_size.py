"""A piece has one size: whatever grid a plan reckons on, every page prints the job's own."""

import re

from casewright.compiler.papers.figures import marked, printing_of
from casewright.compiler.papers.lists.as_cut import as_cut
from casewright.compiler.papers.lists.cut_list import pieces_of
from casewright.compiler.papers.pages.book import book
from casewright.compiler.papers.pages.label_pages import label_pages
from casewright.compiler.papers.pages.sheet_pages import sheet_pages
from casewright.compiler.papers.pieces import built
from casewright.lang.measure import length
from tests.plan_join.kitchens import planned

KITCHEN = "galley/framed.case"


def test_every_page_prints_the_jobs_size_of_a_piece() -> None:
    job, plans = planned(KITCHEN)
    printing = printing_of(job)
    pages = (
        *sheet_pages(job, plans.plans, plans.unplanned),
        *label_pages(job, plans.plans),
    )
    text = re.sub(r"<[^>]+>", " ", book(job, (), {}, pages))
    own = {
        piece.address: {piece.rip.value, piece.crosscut.value}
        for item in built(job)
        for piece in pieces_of(item)
    }
    every = {marked(length(size), printing) for sizes in own.values() for size in sizes}
    otherwise = 0
    for plan in plans.plans:
        for sheet in plan.sheets:
            for board in sheet.boards:
                if board.use != "piece":
                    continue
                for size in {board.length, board.width} - own[board.address]:
                    reckoned = marked(length(size), printing)
                    if reckoned.endswith(("shy", "full")) and reckoned not in every:
                        otherwise += 1
                        assert reckoned not in text, board
    # The kitchen has a blank whose reckoned size is printed otherwise than its own.
    assert otherwise > 0


def test_the_boards_of_a_printed_plan_are_the_pieces() -> None:
    job, plans = planned(KITCHEN)
    own = {
        piece.address: (piece.crosscut.value, piece.rip.value)
        for item in built(job)
        for piece in pieces_of(item)
    }
    count = 0
    for plan in plans.plans:
        for sheet in as_cut(job, plan).sheets:
            for board in sheet.boards:
                if board.use == "piece":
                    size = (board.length, board.width)
                    assert (size[::-1] if board.turned else size) == own[board.address]
                    count += 1
    assert count > 80
