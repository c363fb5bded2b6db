"""Every page of tests/cases: every finding is expected, and every expectation used."""

import pytest

from casewright.compiler.catalogue import CATALOGUE, PHASES
from casewright.lang.findings import Finding
from tests.compiler.examples import compiled
from tests.compiler.pages import Expected, Page, pages_of, read_pages, where_of

PAGES = {page.name: page for page in read_pages()}

ELSEWHERE = {
    "not-utf-8", "byte-order-mark", "line-ends-differ", "tabs-for-blanks", "unseen-character",
    "text-too-long", "number-too-long", "too-many-faults", "too-many-uses", "nested-too-deep",
    "needs-too-many", "format-unproved", "step-brings-itself",
}  # fmt: skip
"""Findings about bytes and limits (test_bad_bytes.py, test_any_text.py), of `format`, and of
hand-made steps: no page shows them."""

LATER = ("checks", "cutting", "buying")
"""Phases behind a built job: the catalogue's examples and the tests of their folders show those."""


@pytest.mark.parametrize("page", PAGES.values(), ids=PAGES)
def test_page(page: Page) -> None:
    assert compared(page) == ([], [])


def compared(page: Page) -> tuple[list[str], list[Expected]]:
    """Findings that the page doesn't expect, and what it expects and isn't found."""
    found = list(page.compiled().findings)
    unused: list[Expected] = []
    for expected in page.expected:
        match = next((each for each in found if _is(each, expected)), None)
        if match is None:
            unused.append(expected)
        else:
            found.remove(match)
    unexpected = [f"{where_of(each)} {each.slug}: {each.headline}" for each in found]
    return unexpected, unused


def _is(finding: Finding, expected: Expected) -> bool:
    return (
        where_of(finding) == expected.where
        and finding.severity.value == expected.severity
        and finding.slug == expected.slug
        and not expected.missing(finding)
    )


@pytest.mark.parametrize("page", PAGES.values(), ids=PAGES)
def test_a_machine_edit_mends_what_it_is_for(page: Page) -> None:
    for finding in page.compiled().findings:
        if not finding.edits:
            continue
        texts = dict(page.texts)
        for edit in sorted(finding.edits, key=lambda each: -each.span.start):
            path = edit.span.source.label
            text = texts[path]
            texts[path] = text[: edit.span.start] + edit.replacement + text[edit.span.end :]
        after = compiled({path: text.encode() for path, text in texts.items()}, page.entry)
        same = [(each.slug, each.headline) for each in after.findings]
        assert (finding.slug, finding.headline) not in same


def test_every_finding_has_a_page() -> None:
    shown = {expected.slug for page in PAGES.values() for expected in page.expected}
    wanted = {slug for phase, rules in PHASES.items() if phase not in LATER for slug in rules}
    assert wanted - ELSEWHERE - shown == set()
    assert shown & ELSEWHERE == set()
    assert shown <= set(CATALOGUE)


def test_a_page_can_fail() -> None:
    run = "use kitchen\nrun wall on north from left {\n  S1: cupboard 61\n}\n"
    (silent,) = pages_of("trial", run)
    unexpected, unused = compared(silent)
    assert unexpected == ['page.case:2 run-too-long: run wall is 1" longer than its wall']
    assert unused == []

    for wrong in ('error run-too-long  2" longer', "error tag-twice", "advice run-too-long"):
        (page,) = pages_of("trial", run.replace("run wall", f"# expect: {wrong}\nrun wall"))
        unexpected, unused = compared(page)
        assert len(unexpected) == len(unused) == 1

    (right,) = pages_of(
        "trial", run.replace("run wall", '# expect: error run-too-long  over 1"\nrun wall')
    )
    assert compared(right) == ([], [])


def test_a_misspelt_expectation_is_no_comment() -> None:
    with pytest.raises(ValueError, match="no expectation"):
        list(pages_of("trial", "note one  # expect: eror tag-twice\n"))
