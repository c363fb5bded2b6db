"""The job book as text: chapters, links, explanations, and nothing but what it says."""

import re
from base64 import b64encode
from hashlib import sha256
from html.parser import HTMLParser

import pytest
from attrs import evolve

from casewright.compiler.papers.pages.book import book
from casewright.compiler.papers.pages.pages import READERS
from casewright.compiler.papers.pieces import built, sawn
from casewright.lang.measure import Dimension, Measure
from casewright.lang.render_explain import Row
from tests.papers.sample import finding, galley, metric


class Read(HTMLParser):
    """Ids, links and tags of a page, and the figures that are explained."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.ids: list[str] = []
        self.links: list[str] = []
        self.why: list[str] = []
        self.tags: dict[str, int] = {}
        self.attributes: set[str] = set()
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags[tag] = self.tags.get(tag, 0) + 1
        for name, value in attrs:
            self.attributes.add(name)
            if name == "id" and value:
                self.ids.append(value)
            if name in ("href", "src") and value is not None:
                self.links.append(value)
            if name == "data-why" and value:
                self.why.append(value)


@pytest.fixture(scope="module")
def text() -> str:
    return book(galley(), [finding()], {})


def test_every_link_leads_to_one_place(text: str) -> None:
    page = Read(text)
    assert len(page.ids) == len(set(page.ids))
    assert all(link.startswith("#") and link[1:] in page.ids for link in page.links)
    assert len(page.links) > 500


def test_every_figure_has_its_derivation(text: str) -> None:
    page = Read(text)
    assert len(page.why) > 300
    assert {f"why-{address}" for address in page.why} <= set(page.ids)


def test_every_part_can_be_found_and_has_one_row(text: str) -> None:
    page = Read(text)
    for item in built(galley()):
        if len(list(sawn(item.unit))) > 1:
            for part in sawn(item.unit):
                assert page.ids.count(f"{item.holder}.{part.address}") == 1


def test_nothing_comes_from_elsewhere(text: str) -> None:
    page = Read(text)
    assert not {"img", "link", "iframe", "object", "embed", "base", "form"} & page.tags.keys()
    assert not {name for name in page.attributes if name.startswith("on")}
    assert "style" not in page.attributes
    assert not re.search(r"https?:", text)
    assert "eval(" not in text


def test_the_policy_lets_only_its_own_style_and_script_run(text: str) -> None:
    (policy,) = re.findall(r'Content-Security-Policy" content="([^"]+)"', text)
    for kind in ("style", "script"):
        (inner,) = re.findall(rf"<{kind}>(.*?)</{kind}>", text, re.DOTALL)
        digest = b64encode(sha256(inner.encode()).digest()).decode()
        assert f"{kind}-src 'sha256-{digest}'" in policy
    assert policy.startswith("default-src 'none'")


def test_findings_stand_on_page_one_and_mark_every_page(text: str) -> None:
    pages = re.findall(r'<section class="page.*?</section>', text, re.DOTALL)
    assert "run sink_wall is 1 1/2&#34; longer than its wall" in pages[0]
    assert "run-too-long" in pages[0]
    assert pages[0].index("159\u00a03/4") < pages[0].index("158\u00a01/4")
    assert all("has errors, see page 1: do not cut" in page for page in pages)
    # Where figures come from is for the screen: it is no page of the print.
    assert all(f"Page {at} of {len(pages) - 1}" in page for at, page in enumerate(pages[:-1], 1))


def test_a_job_without_findings_says_so() -> None:
    assert "No findings" in book(galley(), [], {})


def _chapters(text: str) -> set[str]:
    return set(re.findall(r'<span class="chapter">([^<]+)</span>', text))


def test_chapters_stand_in_the_order_of_the_work(text: str) -> None:
    met = dict.fromkeys(re.findall(r'<span class="chapter">([^<]+)</span>', text))
    assert [name for name in READERS if name in met] == list(met)[1:]
    assert {"agree", "saw", "band", "bench", "fit", "install"} <= met.keys()


@pytest.mark.parametrize("reader", [name for name in READERS if name != "all chapters"])
def test_a_book_for_one_reader_has_only_that_chapter(reader: str) -> None:
    whole = _chapters(book(galley(), [], {}))
    text = book(galley(), [], {}, chapters=(reader,))
    assert _chapters(text) == {"job book", reader, "all chapters"} & whole
    page = Read(text)
    assert all(link[1:] in page.ids for link in page.links)


def test_a_book_of_one_unit_is_about_that_unit() -> None:
    text = book(galley(), [], {}, only="S2")
    titles = re.findall(r'<span class="chapter">bench</span><span dir="auto">([^<]+)<', text)
    assert titles
    assert all(title.startswith("S2 ") for title in titles)


def test_the_same_job_gives_the_same_book() -> None:
    assert book(galley(), [finding()], {}) == book(galley(), [finding()], {})


def test_names_are_text_and_never_markup() -> None:
    nasty = '<script>alert("1")</script>&'
    job = evolve(galley(), name=nasty, number='"><b>', revision="<i>")
    text = book(job, [], {})
    page = Read(text)
    assert page.tags["script"] == 1
    assert "&lt;i&gt;" in text
    assert "&#34;&gt;&lt;b&gt;" in text
    assert "&lt;script&gt;" in text


def test_long_and_right_to_left_names_are_kept() -> None:
    for name in ("x" * 200, "מטבח של משפחה"):
        assert name in book(evolve(galley(), name=name), [], {})


def test_given_rows_stand_in_the_derivation() -> None:
    rows = (
        Row(
            "left of S3", Measure(galley().runs[0].space.value, Dimension.LENGTH), "kitchen.case:9"
        ),
        Row("S2.across", Measure(galley().placed[2].width.value, Dimension.LENGTH), "", True, "="),
    )
    text = book(galley(), [], {"S2.across": rows})
    (entry,) = re.findall(r'id="why-S2.across">.*?</div>', text, re.DOTALL)
    assert "left of S3" in entry
    assert "kitchen.case:9" in entry


def test_metric_papers_are_in_millimetres() -> None:
    text = book(metric(), [], {})
    assert "Measures in millimetres, first angle." in text
    # 158 1/4 in is 4019.55 mm, printed to the nearest whole one.
    assert "4020 wall to wall" in text


def test_warnings_are_boxed_where_hands_are_at_risk() -> None:
    for reader, words in (("saw", "riving knife"), ("install", "stud")):
        text = book(galley(), [], {}, chapters=(reader,))
        assert re.search(rf'class="caution" role="note"><b>WARNING</b><p>[^<]*{words}', text)
