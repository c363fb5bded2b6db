"""What a shop's text gets wrong about buying: every finding at its own line, and nothing else."""

from fractions import Fraction

import pytest

from casewright.lang.findings import Severity
from tests.buying.shops import CHOICES, choices

OTHER = "a figure of another measure says so, as 3.2mm or 1/8in"
LUMBER = "lumber oak { thick 3/4  grain yes }\n"


@pytest.mark.parametrize(
    ("lines", "at", "slug", "words"),
    [
        # Prices and rates.
        ("rates b {\n currency usd\n price board 40 per sheet currency eur\n}", 3,
         "two-currencies", "EUR and in USD"),
        ("rates b {\n currency usd\n price board 40 per foot\n}", 3,
         "price-of-another-kind", "its price is per sheet, not per foot"),
        ("rates b {\n currency usd\n price oak 8 per sheet\n}", 3,
         "price-of-another-kind", "per board foot"),
        ("rates b {\n currency usd\n labour sawing 5\" per cut\n}", 3, "wrong-kind", "a time"),
        ("rates b {\n currency usd\n wage 40\n labour sawing 1 per cut\n}", 4,
         "wrong-kind", "1 alone is no time"),
        ("rates b {\n currency usd\n wage 40\n labour sawing 1min per cut  set_up 20\n}", 4,
         "wrong-kind", "20 alone is no time"),
        ("rates b {\n currency usd\n margin 120%\n}", 3, "share-out-of-range", "margin"),
        ("rates b {\n currency usd\n price bord 40 per sheet\n}", 3, "unknown-thing", "bord"),
        ("rates b {\n currency usd\n price board (0 - 40) per sheet\n}", 3,
         "less-than-nothing", "a price is nothing or more"),
        ("rates b {\n currency usd\n price board 40.12345 per sheet\n}", 3,
         "price-too-fine", "40.12345 has 5 decimals; in USD this has 4 decimals at most"),
        ("rates b {\n currency jpy\n wage 40.5\n}", 3,
         "price-too-fine", "in JPY this has no decimals"),
        ("rates b {\n currency usd\n round 0.001\n}", 3, "price-too-fine", "0.001"),
        ("rates b {\n currency uds\n}", 2, "unknown-currency", "uds"),
        ("rates b {\n currency USD\n}", 2, "name-misspelt", "usd, not USD"),
        ("rates b {\n currency usd\n price board 1,200 per sheet\n}", 3,
         "number-misspelt", "1,200 has a comma"),
        ("rates b {\n currency usd\n overhed 20%\n}", 3, "unknown-word", "overhed in rates"),
        ("rates b {\n currency usd\n labour sawing 5min pr cut\n}", 3, "unknown-clause", "pr"),
        ("rates b {\n currency usd\n labour sawing 5min per cut\n}", 3,
         "value-missing", "an hour of sawing costs"),
        ("rates b {\n currency usd\n wage 20%\n}", 3, "wrong-kind", "money is wanted"),
        # Packs and what is on hand.
        ("buy board by 0", 1, "size-not-positive", "an amount is more than nothing"),
        ("on_hand board (1 - 2)", 1, "size-not-positive", "an amount is more than nothing"),
        ("on_hand board -2", 1, "negative-size", "never negative"),
        ("buy board by -2", 1, "negative-size", "never negative"),
        ("rates b {\n currency usd\n price board -40 per sheet\n}", 3,
         "negative-size", "never negative"),
        ("slide rail { lengths 12 14 22 }\non_hand rail 2", 2,
         "value-missing", "on_hand rail doesn't say of which length"),
        ("linear trim { along base_unit  lengths 96 120 }\non_hand trim 2", 2,
         "value-missing", "on_hand trim doesn't say of which length"),
        ("band edge { thick 1/32  wide 7/8 }\non_hand edge 100", 2,
         "amount-of-another-kind", "a band is counted by its length"),
        ("band edge { thick 1/32  wide 7/8 }\nbuy edge by 100", 2,
         "amount-of-another-kind", "a band is counted by its length"),
        ("on_hand board 2.5", 1, "count-not-whole", "whole pieces, packs or sheets"),
        ("rates b {\n currency usd\n wage 40\n labour hanging 5min per piece serves fornt\n}", 4,
         "unknown-choice", "serves is never fornt"),
        ("buy board by 2'", 1, "amount-of-another-kind", "not by its length"),
        ("on_hand board 2'", 1, "amount-of-another-kind", "not by its length"),
        ("slide rail { lengths 12 14 22 }\non_hand rail 2 long 23", 2,
         "length-not-made", "rail isn't made 23\" long"),
        ("linear trim { along base_unit  lengths 96 120 }\nrates b {\n currency usd\n"
         " price trim 4 per piece long 97\n}", 4, "length-not-made", "trim isn't made 97\" long"),
        ("on_hand board 2 long 90", 1, "length-not-made", "board isn't made 90\" long"),
        ("fastener nail { called \"nail\" }\non_hand nail 50 long 2", 2,
         "length-not-made", "nail is made in no lengths to choose from"),
        ("buy board by 1..", 1, "line-ends-early", "something is missing"),
        # Kept offcuts.
        ("offcut a { of bord  size 12 by 30 }", 1, "unknown-material", "bord"),
        ("offcut a { of board  size 12 by 30  pices 2 }", 1, "unknown-clause", "pices"),
        ("offcut a { of board  size 12 by 30  pieces 0 }", 1, "count-not-whole", "whole pieces"),
        ("offcut a { of board  size 12lb by 30 }", 1, "wrong-kind", "a length is wanted"),
        ("offcut a { of board  size 12 by 30  pieces 1001 }", 1, "count-too-large", "so many"),
        ("offcut a { of board  size 120 by 300 }", 1,
         "offcut-larger-than-sheet", "larger than any sheet that board is bought in"),
        # How lumber comes.
        ("boards oka { lengths 96 }", 1, "unknown-thing", "no lumber is called oka"),
        ("boards oak { lenghts 96 }", 1, "unknown-word", "lenghts in boards"),
        ("boards oak { wide 6 }", 1, "value-missing", "what lengths they come in"),
        ("boards oak { lengths 3lb }", 1, "wrong-kind", "a length is wanted"),
        ("boards oak { lengths 0 }", 1, "size-not-positive", "more than nothing"),
        ("boards oak { lengths 96  wide 0 }", 1, "size-not-positive", "wide"),
        ("boards oak { lengths 96  over (1 - 2) }", 1, "less-than-nothing", "over"),
        ("boards oak { lengths 96  defects 100% }", 1, "share-out-of-range", "defects"),
        ("boards oak { lengths 96  strip 1/8  edge 1/16 }", 1, "board-used-up", "of a strip"),
        ("boards oak { lengths 96 }\nboards oak { lengths 48 }", 2, "said-twice", "boards oak"),
        # What runs along units.
        ("linear rail { along base_uni  lengths 96 }", 1, "unknown-choice", "base_uni"),
        ("linear rail { along base_unit }", 1, "value-missing", "what lengths it comes in"),
        ("linear rail { lengths 96 }", 1, "value-missing", "what it runs along"),
        ("linear rail { along base_unit  lengths 8  over 2 }", 1, "board-used-up", "6 inches"),
    ],
)  # fmt: skip
def test_a_wrong_line_is_blamed(lines: str, at: int, slug: str, words: str) -> None:
    text = CHOICES[: CHOICES.index("rates shop_rates")] + LUMBER
    _, built = choices(f"{text}{lines}\n")
    found = [each for each in built.findings if each.severity is Severity.ERROR]
    wanted = [each for each in found if each.slug == slug]
    assert len(wanted) == 1, [(each.slug, each.headline) for each in found]
    assert words in wanted[0].headline
    assert wanted[0].span is not None
    assert wanted[0].span.line == text.count("\n") + at
    assert found == wanted
    # What a shop says of its prices and its stock makes no part: the kitchen is there.
    assert built.job is not None


@pytest.mark.parametrize(
    ("old", "new", "help"),
    [
        ("kerf 1/8", "kerf 1/8  keeps 8", "add by, and the least length"),
        ("kerf 1/8", "kerf 60", f'it lies between 1/32" and 1"; {OTHER}'),
        ("kerf 1/8", "kerf 3.2", f'it lies between 1/32" and 1"; {OTHER}'),
        ("kerf 1/8", "kerf 1000000000000", f'it lies between 1/32" and 1"; {OTHER}'),
        ("kerf 1/8", "kerf 1/8  trim 0  end 6", f'it lies between 0" and 4"; {OTHER}'),
        ("kerf 1/8", "kerf 1/8  stack 18", f'it lies between 0" and 8"; {OTHER}'),
        ("kerf 1/8", "kerf 0", "measure the slot that a cut leaves, for instance 1/8 in"),
        ("price board 40", "price board -40",
         "leave the minus out; a sum has a blank on both sides of it: a - 3"),
        ("rates shop_rates", "buy board by 0\n\nrates shop_rates",
         "say what a pack holds, as by 250; leave by out where it is bought one by one"),
        ("rates shop_rates", "on_hand board 0\n\nrates shop_rates",
         "take the line away where nothing is left"),
        ("rates shop_rates", "slide rail { lengths 12 22 }\non_hand rail 2\n\nrates shop_rates",
         "it is made 12 or 22 long: add long 22, or another of these"),
        ("wage     30", "wage     (0 - 30)", "write 0 or more"),
    ],
)  # fmt: skip
def test_help_says_what_to_write(old: str, new: str, help: str) -> None:
    _, built = choices(CHOICES.replace(old, new))
    found = [each for each in built.findings if each.severity is Severity.ERROR]
    assert [each.help for each in found] == [help]


@pytest.mark.parametrize(
    ("head", "slug"),
    [
        ("margin 20", "share-out-of-range"),
        ("wage 40 per sheet", "unknown-clause"),
        ("wage (0 - 30)", "less-than-nothing"),
    ],
)
def test_a_wrong_head_of_rates_hides_none_of_their_wrong_prices(head: str, slug: str) -> None:
    text = CHOICES[: CHOICES.index("rates shop_rates")]
    lines = (
        f"rates b {{\n currency usd\n {head}\n price board 40 per sheet currency eur\n"
        " labour sawing 5 per cut\n labour banding 1min per foot\n}\n"
    )
    _, built = choices(f"{text}{lines}")
    found = [each for each in built.findings if each.severity is Severity.ERROR]
    above = text.count("\n")
    said = [(each.slug, each.span.line - above) for each in found if each.span is not None]
    assert said == [(slug, 3), ("two-currencies", 4), ("wrong-kind", 5)]
    assert built.job is not None
    assert built.job.supply.rates is None


def test_a_misspelt_statement_of_the_shop_stops_no_kitchen() -> None:
    for line in ("ofcut a { of board  size 12 by 30 }", "by board by 10", "rats b {\n wage 4\n}"):
        _, built = choices(f"{CHOICES}\n{line}\n")
        found = [each for each in built.findings if each.severity is Severity.ERROR]
        assert [each.slug for each in found] == ["unknown-word"]
        assert built.job is not None
        assert built.job.supply.unread == (f"choices.case:{CHOICES.count(chr(10)) + 2}",)
    _, built = choices(f"{CHOICES}\nrn east_wall on east {{\n}}\n")
    assert built.job is None


def test_places_that_cannot_be_read_are_told_in_the_order_of_the_text() -> None:
    text = CHOICES[: CHOICES.index("rates shop_rates")]
    lines = "offcut a { of bord  size 1 by 3 }\nofcut b { of board }\noffcut c { off board }\n"
    _, built = choices(f"{text}{lines}")
    assert built.job is not None
    first = text.count("\n") + 1
    assert built.job.supply.unread == tuple(f"choices.case:{first + each}" for each in range(3))


def test_a_value_missing_beside_words_with_a_minus_is_still_said() -> None:
    _, built = choices(f'{CHOICES}\non_hand "a -b"\n')
    assert "on_hand wants a thing and an amount" in [each.headline for each in built.findings]


def test_what_is_on_hand_of_one_length_is_taken_off() -> None:
    _, built = choices(f"{CHOICES}\nslide rail {{ lengths 12 22 }}\non_hand rail 2 long 22\n")
    assert built.job is not None
    assert [built.job.supply.has("rail", Fraction(each)) for each in (22, 12)] == [2, 0]


MORE_RATES = "rates shop_rates {\n currency usd\n}\nrates other {\n currency usd\n}\n"


def test_of_several_rates_the_job_names_one_or_is_told_which_is_taken() -> None:
    text = CHOICES[: CHOICES.index("rates shop_rates")]
    _, built = choices(f"{text}{MORE_RATES}")
    (found,) = [each for each in built.findings if each.slug == "rates-not-named"]
    assert found.headline == "the job doesn't name its rates: shop_rates is taken, not other"
    assert built.job is not None
    assert built.job.supply.rates is not None
    assert built.job.supply.rates.name == "shop_rates"


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("  built     shop\n", "  built     shop\n  rates     other\n"),
        ("rates other {", "rates other from shop_rates {"),
    ],
)
def test_rates_that_are_named_or_from_the_others_are_meant(old: str, new: str) -> None:
    text = CHOICES[: CHOICES.index("rates shop_rates")] + MORE_RATES
    _, built = choices(text.replace(old, new, 1))
    assert [each.slug for each in built.findings] == []
    assert built.job is not None
    assert built.job.supply.rates is not None
    assert built.job.supply.rates.name == "other"


def test_of_several_saws_the_job_is_told_which_is_taken() -> None:
    _, built = choices(CHOICES.replace("saw bench {", "saw panel { kerf 5/32 }\nsaw bench {"))
    found = [each for each in built.findings if each.slug == "saw-not-named"]
    assert [each.headline for each in found] == [
        "the job doesn't name its saw: panel is taken, not bench"
    ]
