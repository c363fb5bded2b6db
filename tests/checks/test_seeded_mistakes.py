"""A kitchen with one mistake of each kind reports exactly those, each on its line; the mend that a
report suggests removes it, brings no new one, and never deletes, loosens or accepts anything."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from casewright.compiler.check.look_over import CHECKS
from casewright.compiler.check.quantities import EVERY
from casewright.lang.findings import Edit, Finding
from tests.compiler.examples import compiled
from tests.compiler.pages import Page, pages_of
from tests.compiler.test_pages import compared

HERE = Path(__file__).parent


def kitchen(name: str) -> Page:
    (page,) = pages_of(name, (HERE / f"{name}.case").read_text(encoding="utf-8"))
    return page


SEEDED = kitchen("seeded")
OPENINGS = kitchen("seeded_openings")
KITCHEN = kitchen("seeded_kitchen")


@pytest.fixture(scope="module")
def found() -> tuple[Finding, ...]:
    return SEEDED.compiled().findings


@pytest.mark.parametrize("page", [SEEDED, OPENINGS, KITCHEN], ids=["checks", "openings", "kitchen"])
def test_each_mistake_is_reported_on_its_line_and_nothing_else(page: Page) -> None:
    assert compared(page) == ([], [])


def test_each_kind_is_reported_once(found: tuple[Finding, ...]) -> None:
    slugs = [finding.slug for finding in found]
    assert len(slugs) == len(set(slugs))


def test_every_check_has_its_mistake(found: tuple[Finding, ...]) -> None:
    """Limits of rule packs are of one make; a few stand for all."""
    ruled = {quantity.check.slug for quantity in EVERY}
    slugs = {finding.slug for finding in found}
    assert [check.slug for check in CHECKS if check.slug not in slugs | ruled] == []
    assert len(slugs & ruled) >= 3


def text_of(page: Page, edits: tuple[Edit, ...]) -> str:
    text = page.texts[page.entry]
    for edit in sorted(edits, key=lambda each: -each.span.start):
        text = text[: edit.span.start] + edit.replacement + text[edit.span.end :]
    return text


def test_each_mend_removes_its_finding_and_brings_no_new_one(found: tuple[Finding, ...]) -> None:
    assert len([finding for finding in found if finding.edits]) >= 22
    for rest, after in mended_one_by_one(SEEDED, found):
        assert after == rest


def test_the_mends_of_a_kitchen_bring_no_new_finding() -> None:
    found = KITCHEN.compiled().findings
    mended = [finding.slug for finding in found if finding.edits]
    assert mended == [
        "drawer-meets-fixed",
        "scribe-too-narrow",
        "too-shallow-for-plates",
        "tops-nearly-in-line",
    ]
    # A wall unit that is made as deep as its neighbour clears the neighbour's door besides.
    for rest, after in mended_one_by_one(KITCHEN, found):
        assert after <= rest


Told = set[tuple[str, str]]


def mended_one_by_one(page: Page, found: tuple[Finding, ...]) -> Iterator[tuple[Told, Told]]:
    """For each mend, what was found besides, and what is found once it is applied."""
    before = {(finding.slug, finding.headline) for finding in found}
    for finding in found:
        if finding.edits:
            texts = {page.entry: text_of(page, finding.edits).encode()}
            after = {(each.slug, each.headline) for each in compiled(texts, page.entry).findings}
            yield before - {(finding.slug, finding.headline)}, after


@pytest.mark.parametrize("page", [SEEDED, KITCHEN], ids=["checks", "kitchen"])
def test_no_mend_deletes_loosens_or_accepts(page: Page) -> None:
    text = page.texts[page.entry]
    mended = [finding for finding in page.compiled().findings if finding.edits]
    assert mended
    for finding in mended:
        for edit in finding.edits:
            assert edit.span.source.label == page.entry, "a mend stays in the kitchen's own text"
            begin = text.rfind("\n", 0, edit.span.start) + 1
            line = text[begin : text.find("\n", edit.span.end)]
            assert edit.replacement.strip()
            assert line.split()[0] not in ("accept", "limit", "allowances", "rules", "rule_pack")
            assert "accept" not in edit.replacement
