"""The catalogue holds every finding that the sources make, and no other; its examples are true."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from casewright.compiler.catalogue import CATALOGUE, PHASES, Around
from casewright.compiler.examples import mended
from casewright.compiler.shop.offers import offers
from casewright.compiler.shop.reckoning import shop_work
from casewright.lang.findings import Finding
from tests.compiler.examples import example, example_world

ROOT = Path(__file__).parents[2]
SLUG = re.compile(r"[a-z]+(-[a-z0-9]+)+")
PIECE = re.compile(r"(?:[a-z0-9-]|\x00)*\x00(?:[a-z0-9-]|\x00)*")

NO_SLUGS = {
    "utf-8",
    "dual-feasible",
    "piece-larger-than-stock",
    "piece-fits-only-turned",
    "trim-eats-stock",
}
"""Texts of a slug's shape that are something else."""


def sources() -> list[Path]:
    """Whatever makes findings: the language, and the compiler without commands and back ends."""
    outside = {"catalogue", "commands", "papers", "plan"}
    found = [*(ROOT / "lang").rglob("*.py"), *(ROOT / "compiler").rglob("*.py")]
    return [path for path in found if not outside & set(path.relative_to(ROOT).parts)]


def made() -> Iterator[re.Pattern[str]]:
    """Every slug that a source makes; what an f-string puts in may be any word."""
    for path in sources():
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                if SLUG.fullmatch(node.value) and node.value not in NO_SLUGS:
                    yield re.compile(re.escape(node.value))
            elif isinstance(node, ast.JoinedStr):
                text = "".join(
                    piece.value if isinstance(piece, ast.Constant) else "\0"  # type: ignore[misc]
                    for piece in node.values
                )
                if PIECE.fullmatch(text) and SLUG.fullmatch(text.replace("\0", "word")):
                    yield re.compile(text.replace("\0", "[a-z]+"))


def test_every_slug_is_in_the_catalogue_and_every_entry_is_made() -> None:
    patterns = {pattern.pattern: pattern for pattern in made()}
    assert "run\\-too\\-long" in patterns
    assert "joint-does-not-[a-z]+" in patterns
    unheard = [
        pattern.pattern.replace("\\", "")
        for pattern in patterns.values()
        if not any(pattern.fullmatch(slug) for slug in CATALOGUE)
    ]
    assert unheard == [], "give each an entry in compiler/catalogue"
    idle = [
        slug
        for slug in CATALOGUE
        if not any(pattern.fullmatch(slug) for pattern in patterns.values())
    ]
    assert idle == [], "nothing makes these"


def test_a_slug_stands_in_one_phase() -> None:
    assert sum(len(rules) for rules in PHASES.values()) == len(CATALOGUE)


@pytest.mark.parametrize("slug", CATALOGUE)
def test_an_entry_is_sentences(slug: str) -> None:
    rule = CATALOGUE[slug]
    assert SLUG.fullmatch(slug)
    for words in (rule.doc, rule.mend):
        assert words[0].isupper() or words[0] in "`"
        assert words.endswith((".", "…"))
        assert "  " not in words
    assert bool(rule.bad) == bool(rule.good) == (not rule.no_example)


def findings(slug: str, text: str) -> tuple[Finding, ...]:
    """What is found in an example, by the planner's questions too where the slug is theirs, and as
    it is priced where it says rates."""
    rule = CATALOGUE[slug]
    built = example(text, rule.around)
    if slug not in PHASES["cutting"] and rule.around is not Around.PRICED:
        return built.findings
    assert built.job is not None
    found = (*built.findings, *shop_work(built.job)[1])
    if rule.around is Around.PRICED:
        assert built.program is not None
        return (*found, *offers(*example_world(text, rule.around), built.program, found)[1])
    return found


@pytest.mark.parametrize(("words", "times"), [("share", 2), ("shore", 0)])
def test_an_example_is_mended_at_one_place(words: str, times: int) -> None:
    with pytest.raises(ValueError, match=f"'{words}' stands {times} times"):
        mended("S1: sink share\nS2: oven share\n", {words: "30"})
    assert mended("S1: sink share\n", {"sink share": "sink 30"}) == "S1: sink 30\n"


SHOWN = {slug: rule for slug, rule in CATALOGUE.items() if rule.bad}


@pytest.mark.parametrize("slug", SHOWN)
def test_the_bad_example_has_the_finding_and_no_other(slug: str) -> None:
    found = findings(slug, SHOWN[slug].bad)
    assert [(each.slug, each.severity) for each in found] == [(slug, SHOWN[slug].severity)]


@pytest.mark.parametrize("slug", SHOWN)
def test_the_good_example_has_no_finding(slug: str) -> None:
    assert [(each.slug, each.headline) for each in findings(slug, SHOWN[slug].good)] == []
