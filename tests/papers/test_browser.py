"""The job book in a real browser: nothing fetched, nothing over anything else, printed whole.

Chromium is wanted as a program of the system; without it, or without the packages that drive it,
these tests say by name that they were skipped.
"""

import re
import shutil
import zlib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from casewright.compiler.papers.pages.book import book
from casewright.compiler.papers.pages.label_pages import label_pages
from casewright.compiler.papers.pages.sheet_pages import sheet_pages
from tests.papers.kitchens import printed_book
from tests.papers.sample import finding, galley, metric
from tests.plan_join.kitchens import planned

playwright = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")

pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="no chromium on this system")

FLAGS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


def with_plans(name: str) -> str:
    """The book of an example with its cutting plans and labels."""
    job, plans = planned(name)
    sawn = [*sheet_pages(job, plans.plans, plans.unplanned), *label_pages(job, plans.plans)]
    return book(job, [], {}, sawn)


BOOKS = {
    "frameless": lambda: book(galley(), [finding()], {}),
    "framed": lambda: with_plans("galley/framed.case"),
    "metric": lambda: book(metric(), [], {}),
}

OVERLAPS = """() => {
  // Letters are drawn well inside their line's box: what counts is the letters.
  const letters = (element) => {
    const box = element.getBoundingClientRect();
    const turned = (element.getAttribute('transform') || '').includes('rotate');
    const [x, y] = turned ? [0.22 * box.width, 0] : [0, 0.22 * box.height];
    return {l: box.left + x, r: box.right - x, t: box.top + y, b: box.bottom - y,
            text: element.textContent, where: element.closest('section').id,
            // A ring is filled: its figure stands over no line.
            ringed: element.previousElementSibling?.matches('circle.paper') ?? false};
  };
  const over = (a, b) => Math.min(a.r, b.r) - Math.max(a.l, b.l) > 0.4
    && Math.min(a.b, b.b) - Math.max(a.t, b.t) > 0.4;
  const found = [];
  let count = 0;
  for (const drawing of document.querySelectorAll('svg.drawing')) {
    const texts = Array.from(drawing.querySelectorAll('text'), letters);
    count += texts.length;
    texts.forEach((a, i) => texts.slice(i + 1).forEach((b) => {
      if (over(a, b)) found.push([a.where, a.text, b.text]);
    }));
    for (const line of drawing.querySelectorAll('path.cut, rect.cut')) {
      const box = line.getBoundingClientRect();
      const edges = line.tagName === 'path'
        ? (box.width < 1 || box.height < 1 ? [[box.left, box.top, box.right, box.bottom]] : [])
        : [[box.left, box.top, box.right, box.top], [box.left, box.bottom, box.right, box.bottom],
           [box.left, box.top, box.left, box.bottom], [box.right, box.top, box.right, box.bottom]];
      for (const [l, t, r, b] of edges)
        for (const text of texts)
          if (!text.ringed && over(text, {l: l - 0.3, t: t - 0.3, r: r + 0.3, b: b + 0.3}))
            found.push([text.where, text.text, 'a 0.7 line']);
    }
  }
  for (const cell of document.querySelectorAll('td, th, li, dd, p, h1'))
    if (cell.scrollWidth > cell.clientWidth + 1 && getComputedStyle(cell).display !== 'inline'
        && cell.clientWidth > 0)
      found.push([cell.closest('section')?.id, cell.textContent.slice(0, 40), 'out of its cell']);
  return {found, count};
}"""


LARGEST = "island/framed"
"""The example with the most units."""

HIGH = """() => {
  // What each page takes in print where nothing holds it to a sheet's height, in millimetres.
  const millimetres = 25.4 / 96;
  return Array.from(document.querySelectorAll('section.page:not(.long)'), (page) => {
    page.style.minHeight = '0';
    return [page.id, page.getBoundingClientRect().height * millimetres];
  });
}"""

SHEETS = {"A4": (196.0, 280.0), "Letter": (201.9, 262.4)}
"""What a page may take of a sheet, across and up, between the margins of `book.css`."""

ONE_OF_EACH = """() => {
  // Of pages that are set alike the first, so that a large book is looked over in reasonable time.
  const met = new Set();
  for (const page of document.querySelectorAll('section.page')) {
    const parts = page.querySelectorAll(':scope > *, table, figure');
    const kind = [...new Set(Array.from(parts, (each) => each.tagName + each.className))].join();
    if (met.has(kind)) page.remove();
    met.add(kind);
  }
  // Where figures come from is one list, as long as the book: its beginning is like the rest.
  document.querySelectorAll('details ~ details').forEach((each) => each.remove());
  return met.size;
}"""


@pytest.fixture(scope="module")
def largest_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("largest") / "book.html"
    path.write_text(printed_book(LARGEST), encoding="utf-8")
    return path


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    with playwright.sync_playwright() as driver:
        opened = driver.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield opened
        opened.close()


@pytest.fixture(scope="module", params=sorted(BOOKS))
def book_file(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("book") / "book.html"
    path.write_text(BOOKS[request.param](), encoding="utf-8")
    return path


def opened(browser: Any, path: Path, width: int) -> tuple[Any, list[str]]:
    """A page showing the book, and everything it complained of or asked for."""
    page = browser.new_page(viewport={"width": width, "height": 900})
    heard: list[str] = []
    page.on("console", lambda message: heard.append(f"console: {message.text}"))
    page.on("pageerror", lambda error: heard.append(f"error: {error}"))
    page.on(
        "request",
        lambda asked: heard.append(f"request: {asked.url}") if asked.url != path.as_uri() else None,
    )
    page.goto(path.as_uri())
    return page, heard


@pytest.mark.parametrize("width", [390, 1280])
def test_nothing_is_fetched_and_nothing_stands_over_anything(
    browser: Any, book_file: Path, width: int
) -> None:
    page, heard = opened(browser, book_file, width)
    measured = page.evaluate(OVERLAPS)
    wide = page.evaluate("document.documentElement.scrollWidth")
    page.close()
    assert heard == []
    assert measured["found"] == []
    assert measured["count"] > 300
    assert wide <= width


@pytest.mark.parametrize("face", ["DejaVu Sans", "Liberation Sans", "Liberation Serif"])
def test_other_faces_fit(browser: Any, book_file: Path, face: str) -> None:
    page, _ = opened(browser, book_file, 1280)
    # The book's own policy forbids other styles; a sheet made by hand is let through.
    page.evaluate(
        """(face) => {
          const sheet = new CSSStyleSheet();
          sheet.replaceSync(`.drawing text, body { font-family: "${face}" !important }`);
          document.adoptedStyleSheets = [sheet];
        }""",
        face,
    )
    measured = page.evaluate(OVERLAPS)
    page.close()
    assert measured["found"] == []


@pytest.mark.parametrize("sheet", ["A4", "Letter"])
def test_each_page_prints_on_one_sheet(
    browser: Any, book_file: Path, sheet: str, tmp_path: Path
) -> None:
    page, _ = opened(browser, book_file, 1280)
    sections = page.evaluate("document.querySelectorAll('section.page').length")
    longs = page.evaluate("document.querySelectorAll('section.page.long').length")
    printed = page.pdf(format=sheet, print_background=True)
    page.close()
    pages = len(re.findall(rb"/Type\s*/Page\b", _unpacked(printed)))
    # Where figures come from is printed only where a group of it is open.
    assert longs == 1
    assert pages == sections - 1


def _unpacked(pdf: bytes) -> bytes:
    """A PDF with its packed object streams opened, so that its pages can be counted."""
    text = pdf
    for packed in re.findall(rb"stream\r?\n(.*?)\r?\nendstream", pdf, re.DOTALL):
        try:
            text += zlib.decompress(packed)
        except zlib.error:
            continue
    return text


def page_heights(browser: Any, path: Path, sheet: str) -> dict[str, float]:
    """What each page takes on paper, by its identifier."""
    page, _ = opened(browser, path, int(SHEETS[sheet][0] / 25.4 * 96))
    page.emulate_media(media="print")
    # One thing wider than the sheet, and a browser prints every page smaller.
    assert page.evaluate("document.documentElement.scrollWidth") <= page.viewport_size["width"] + 1
    found = {str(name): float(high) for name, high in page.evaluate(HIGH)}
    page.close()
    return found


@pytest.mark.parametrize("sheet", sorted(SHEETS))
def test_every_page_keeps_to_its_sheet(browser: Any, book_file: Path, sheet: str) -> None:
    high = page_heights(browser, book_file, sheet)
    assert {name: each for name, each in high.items() if each > SHEETS[sheet][1] - 0.5} == {}
    assert len(high) > 30


def test_the_largest_example_is_clear_on_screens_and_keeps_to_its_sheets(
    browser: Any, largest_file: Path
) -> None:
    page, heard = opened(browser, largest_file, 390)
    for width in (390, 1280):
        page.set_viewport_size({"width": width, "height": 900})
        measured = page.evaluate(OVERLAPS)
        assert measured["found"] == []
        assert measured["count"] > 4000
        assert page.evaluate("document.documentElement.scrollWidth") <= width
    page.emulate_media(media="print")
    for across, up in SHEETS.values():
        page.set_viewport_size({"width": int(across / 25.4 * 96), "height": 900})
        high = page.evaluate(HIGH)
        assert [each for each in high if each[1] > up - 0.5] == []
        assert len(high) > 250
    page.close()
    assert heard == []


def test_the_largest_example_is_no_larger_than_a_phone_opens(largest_file: Path) -> None:
    # 8 MB is the aim for the whole; labels and plans, which this book lacks, take 2.5 MB.
    assert largest_file.stat().st_size < 4_500_000


def test_a_figure_says_where_it_comes_from(browser: Any, book_file: Path) -> None:
    page, heard = opened(browser, book_file, 390)
    figure = page.locator("#S2 td a.why").first
    address = figure.get_attribute("data-why")
    figure.click()
    assert page.locator("#answer").is_visible()
    assert address in page.locator("#answer-text").inner_text()
    page.keyboard.press("Escape")
    assert not page.locator("#answer").is_visible()
    assert page.evaluate("document.activeElement.getAttribute('data-why')") == address
    page.close()
    assert heard == []


@pytest.mark.parametrize(
    ("asked", "wanted"),
    [
        ("S3", "S3"),
        ("s2 back panel", "S2.back_panel"),
        ("2617, 1, S2, back_panel", "S2.back_panel"),
        ("2617;1;S2;back panel", "S2.back_panel"),
    ],
)
def test_the_find_box_finds_tags_parts_and_scans(
    browser: Any, book_file: Path, asked: str, wanted: str
) -> None:
    page, _ = opened(browser, book_file, 1280)
    finder = page.locator(".finder input").first
    finder.fill(asked)
    finder.press("Enter")
    found = page.evaluate("location.hash")
    listed = page.locator(".found").first.inner_text()
    page.close()
    assert found == f"#{wanted}" or listed.startswith(wanted)


def test_what_is_not_there_is_said(browser: Any, book_file: Path) -> None:
    page, _ = opened(browser, book_file, 1280)
    finder = page.locator(".finder input").first
    finder.fill("nine zebras")
    finder.press("Enter")
    said = page.locator(".found").first.inner_text()
    page.close()
    assert said == "Nothing here is called that."


def test_it_is_read_without_script(browser: Any, book_file: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{book_file.as_uri()}#S2")
    assert page.locator("#S2 h1").is_visible()
    assert page.locator(".finder").first.is_hidden()
    assert page.locator("#S2 a.why").first.get_attribute("href").startswith("#why-S2")
    context.close()


PLACE_ON_STRIP = """(tag) => {
  // Where a tag is in the strip that is written out, on the first page.
  const strip = document.querySelector('section.page .strip svg');
  const link = Array.from(strip.querySelectorAll('a')).find((each) => each.textContent === tag);
  const [all, one] = [strip.getBoundingClientRect(), link.getBoundingClientRect()];
  return [one.left - all.left + one.width / 2, one.top - all.top + one.height / 2];
}"""


def test_a_tap_on_any_strip_opens_the_unit(browser: Any, book_file: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{book_file.as_uri()}#S2")
    right, down = page.evaluate(PLACE_ON_STRIP, "S3")
    page.locator("#S2 .strip svg").click(position={"x": right, "y": down})
    page.wait_for_url("**#S3")
    context.close()


def test_readers_of_the_largest_example_are_served(browser: Any, largest_file: Path) -> None:
    kinds, broken = accessibility(browser, largest_file)
    assert broken == []
    assert kinds > 12


def test_readers_who_hear_or_use_keys_are_served(browser: Any, book_file: Path) -> None:
    _, broken = accessibility(browser, book_file)
    assert broken == []


def accessibility(browser: Any, path: Path) -> tuple[int, list[tuple[str, str]]]:
    """How many kinds of pages a book has, and what axe-core finds on the first of each."""
    axe = pytest.importorskip(
        "axe_playwright_python.sync_playwright", reason="axe-playwright-python is not installed"
    )
    context = browser.new_context(bypass_csp=True, viewport={"width": 1280, "height": 900})
    page = context.new_page()
    page.goto(path.as_uri())
    kinds = page.evaluate(ONE_OF_EACH)
    results = axe.Axe().run(page)
    context.close()
    broken = [
        (violation["id"], violation["nodes"][0]["html"][:200])
        for violation in results.response["violations"]
    ]
    assert len(results.response["passes"]) > 10
    return kinds, broken
