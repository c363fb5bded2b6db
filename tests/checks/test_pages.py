"""A page of cases for each check: every finding is expected, and every expectation used."""

from pathlib import Path

import pytest

from casewright.compiler.catalogue import PHASES
from casewright.lang.findings import Finding, Severity
from tests.compiler.examples import compiled
from tests.compiler.pages import Page, pages_of
from tests.compiler.test_pages import compared

FOLDER = Path(__file__).parent / "pages"

PAGES = {
    page.name: page
    for path in sorted(FOLDER.glob("*.case"))
    for page in pages_of(path.stem, path.read_text(encoding="utf-8"))
}


@pytest.mark.parametrize("page", PAGES.values(), ids=PAGES)
def test_page(page: Page) -> None:
    assert compared(page) == ([], [])


def test_every_check_has_a_page_of_its_name() -> None:
    shown: dict[str, set[str]] = {}
    for page in PAGES.values():
        slugs = {expected.slug for expected in page.expected}
        shown.setdefault(page.name.partition(":")[0], set()).update(slugs)
    assert [slug for slug in PHASES["checks"] if slug not in shown.get(slug, set())] == []


def mended(page: Page, finding: Finding) -> tuple[Finding, ...]:
    """What is found when a finding's own edits are made."""
    texts = dict(page.texts)
    for edit in sorted(finding.edits, key=lambda each: -each.span.start):
        path = edit.span.source.label
        text = texts[path]
        texts[path] = text[: edit.span.start] + edit.replacement + text[edit.span.end :]
    return compiled({path: text.encode() for path, text in texts.items()}, page.entry).findings


def test_a_mend_removes_its_finding_and_brings_no_new_one() -> None:
    walked = 0
    for page in PAGES.values():
        found = page.compiled().findings
        known = {(each.slug, each.headline) for each in found}
        for finding in found:
            if not finding.edits:
                continue
            walked += 1
            after = {(each.slug, each.headline) for each in mended(page, finding)}
            assert (finding.slug, finding.headline) not in after, page.name
            assert after <= known, page.name
    assert walked >= 3


def test_no_mend_deletes_or_accepts() -> None:
    for page in PAGES.values():
        for finding in page.compiled().findings:
            for edit in finding.edits:
                assert edit.replacement.strip(), page.name
                assert "accept" not in edit.replacement


def test_advice_is_never_an_error() -> None:
    advised = {slug for slug, rule in PHASES["checks"].items() if rule.severity is Severity.ADVICE}
    assert advised
    for page in PAGES.values():
        assert not any(
            each.slug in advised
            and each.severity is Severity.ERROR
            and not each.slug.endswith("-ruled")
            for each in page.compiled().findings
        )
