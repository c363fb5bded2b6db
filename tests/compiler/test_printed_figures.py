"""What stands on the page is what the explanation comes to, worked out again."""

import re
from collections.abc import Iterator
from fractions import Fraction
from html import unescape
from pathlib import Path

import pytest

from casewright.compiler.commands.world import open_project
from casewright.compiler.compile import compile_job
from casewright.compiler.explain import Explainer, why
from casewright.compiler.papers.pages.book import book
from tests.compiler.recomputing import as_written, recomputed
from tests.compiler.test_explained_figures import ROOT, explained

FIGURE = re.compile(r'<a class="why" data-why="([^"]+)"[^>]*>(.*?)</a>', re.DOTALL)
TAG = re.compile(r"<[^>]*>")
SHOWN = re.compile(r"(?P<figure>[0-9]+(?: [0-9]+/[0-9]+)?(?:/[0-9]+)?)(?: (?P<mark>shy|full))?")

HALF_A_STEP = Fraction(1, 64)
"""The galley prints to 1/32."""


def printed(page: str) -> Iterator[tuple[str, str]]:
    """Every figure of a page that is linked to its derivation: its address, and what is said."""
    for address, inside in FIGURE.findall(page):
        yield unescape(address), " ".join(unescape(TAG.sub("", inside)).split())


def agrees(said: str, value: Fraction) -> bool:
    """Whether what is said is the value: exactly, or shy or full of it by half a step at most."""
    found = SHOWN.match(said)
    assert found is not None, said
    shown = as_written(found["figure"], Fraction(1))
    assert shown is not None, said
    if found["mark"] is None:
        return shown == value
    nearest = abs(shown - value) <= HALF_A_STEP
    return nearest and (shown > value) == (found["mark"] == "shy") and shown != value


@pytest.mark.parametrize("entry", ["galley", "framed"])
def test_every_figure_of_the_book_is_what_its_reads_come_to(entry: str) -> None:
    kitchen: Path = ROOT / "examples" / "galley" / f"{entry}.case"
    job = compile_job(*open_project(kitchen)).job
    assert job is not None
    page = book(job, [], why(job))
    explainer = Explainer(job)
    figures = set(printed(page))
    assert len(figures) > 300
    of_papers = set()
    wrong = []
    for address, said in figures:
        if explainer.figure(address) is None:
            of_papers.add(address)
            continue
        values, _ = recomputed(explained(explainer, address)["reads"])
        if not agrees(said, values[-1]):
            wrong.append((address, said, str(values[-1])))
    assert wrong == []
    # What a paper adds up itself (the pieces of a chain) is derived on the page.
    assert len(of_papers) < len(figures) / 5
    assert all(f'id="why-{address}"' in page for address in of_papers)


def test_a_wrong_figure_on_a_page_is_seen() -> None:
    assert agrees("23 31/32 shy", 24 - Fraction(10, 254))
    assert not agrees("23 31/32 full", 24 - Fraction(10, 254))
    assert not agrees("23 31/32", 24 - Fraction(10, 254))
    assert agrees("158 1/4 wall to wall", Fraction(633, 4))
    assert not agrees("158 1/2", Fraction(633, 4))
