"""What is missing in plans and prices is said on the paper, in the terminal and as a finding."""

from pathlib import Path

import pytest

from casewright.compiler.model import Job
from casewright.compiler.papers.pages.estimate_pages import estimate_pages
from casewright.compiler.papers.pages.offer_pages import choices as choices_of
from casewright.compiler.papers.pages.offer_pages import customer_table, offer_pages
from casewright.compiler.papers.pages.press import Press
from casewright.compiler.shop.priced import Missing, Offer
from casewright.compiler.shop.reckoning import ShopWork, shop_work
from casewright.lang.findings import Finding
from casewright.lang.printing import Printing
from tests.buying.shops import CHOICES, choices
from tests.commands.command_line import ran

BROAD = "  price broad 42 per sheet\n"
GLUING = "  labour gluing 10min per piece\n"


def worked(text: str) -> tuple[Job, ShopWork, tuple[Finding, ...]]:
    _, built = choices(text)
    assert built.job is not None
    work, findings = shop_work(built.job)
    return built.job, work, findings


def customers_sheet(job: Job, work: ShopWork) -> str:
    press = Press(Printing())
    pages = estimate_pages(job, work.estimate)
    return "".join(press.set(page.template, **page.values) for page in pages)


@pytest.mark.parametrize(
    ("text", "missing", "named"),
    [
        (CHOICES.replace(BROAD, ""), Missing(unpriced=("broad",)), "broad"),
        (CHOICES.replace(GLUING, ""), Missing(work=True), "work"),
        (
            CHOICES.replace("thick 3/4  stock 49 by 97", "thick 3/4"),
            Missing(unplanned=("broad",)),
            "broad",
        ),
    ],
)
def test_what_is_missing_is_named_and_nothing_is_to_be_paid_or_signed(
    text: str, missing: Missing, named: str
) -> None:
    job, work, findings = worked(text)
    assert work.estimate is not None
    assert work.estimate.missing == missing
    (said,) = [each for each in findings if each.slug == "estimate-not-whole"]
    assert said.headline == f"the estimate is no whole price: it is without {named}"
    assert said.span is not None
    assert said.span.source.line_text(said.span.line) == "rates shop_rates {"
    sheet = customers_sheet(job, work)
    assert f"Not in this sum yet: {named}." in sheet
    assert "to pay" not in sheet
    assert "agreed" not in sheet
    assert f"the estimate is without {named}" in "; ".join(work.partial)


def test_a_whole_price_is_to_be_paid_and_signed() -> None:
    job, work, findings = worked(CHOICES)
    assert (findings, work.partial) == ((), ())
    sheet = customers_sheet(job, work)
    assert "to pay" in sheet
    assert "agreed" in sheet
    assert "so far" not in sheet


def test_a_price_of_nothing_is_a_price() -> None:
    _, work, findings = worked(CHOICES.replace(BROAD, "  price broad 0 per sheet\n"))
    assert findings == ()
    assert work.partial == ()


def test_an_option_without_a_whole_price_says_so() -> None:
    job, work, _ = worked(CHOICES)
    other, less, _ = worked(CHOICES.replace(BROAD, ""))
    assert work.estimate is not None
    assert less.estimate is not None
    offer = Offer("odd", "odd", (), other, less.estimate)
    assert customer_table(job, work.estimate, offer).left_out == ("Not in this sum yet: broad.",)
    assert [each.whole for each in choices_of(work.estimate, [offer])] == [False, False]
    press = Press(Printing())
    page = next(iter(offer_pages(job, work.estimate, [offer])))
    text = press.set(page.template, **page.values)
    assert "not the whole price yet, and no offer to sign" in text
    assert "chosen, name" not in text


@pytest.mark.parametrize(
    ("wrong", "right"),
    [
        ("price board 40 per shet", "price board 40 per sheet"),
        ("overhed 10%", "overhead 10%"),
        ("offcut a { of bord  size 12 by 30 }\n\nrates shop_rates {", "rates shop_rates {"),
        ("kerf 0", "kerf 1/8"),
        ("sheet board { thick 3/4  grain none }",
         "sheet board { thick 3/4  stock 48 by 96  grain none }"),
    ],
)  # fmt: skip
def test_a_typo_in_the_shops_data_leaves_the_rest_and_exits_with_1(
    tmp_path: Path, wrong: str, right: str
) -> None:
    assert CHOICES.count(right) == 1
    kitchen = tmp_path / "choices.case"
    kitchen.write_text(CHOICES.replace(right, wrong), encoding="utf-8")
    result = ran("build", kitchen)
    assert result.code == 1
    line = CHOICES[: CHOICES.index(right)].count("\n") + 1
    assert f"choices.case:{line} " in result.out
    assert "these papers are partial: " in result.out
    book = (tmp_path / "choices" / "book.html").read_text(encoding="utf-8")
    first = book[book.index('id="book"') :]
    assert "These papers are partial: " in first[: first.index('id="contents"')]
    # Without a saw that can be read there is no plan; the cut list is there all the same.
    assert ('id="sheet-broad-1"' in book) == ("kerf" not in right)
    assert (tmp_path / "choices" / "cut_list.csv").exists()


def test_rates_with_an_unread_line_give_no_estimate() -> None:
    """Without its overhead a price would be too low, and look right."""
    _, work, _ = worked(CHOICES.replace("overhead 10%", "overhed 10%"))
    assert work.estimate is None
    assert any("choices.case" in each for each in work.buying.left_out)
