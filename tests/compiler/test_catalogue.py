"""The catalogue holds every finding that the sources make, and no other."""

import ast
import re
from pathlib import Path

from casewright.compiler.catalogue import CATALOGUE

ROOT = Path(__file__).parents[2]
SLUG = re.compile(r"[a-z]+(-[a-z0-9]+)+")
NO_SLUGS = {"utf-8"}
"""Texts of a slug's shape that are something else."""
MADE_OF_PIECES = {"joint-does-not-touch"}
"""Slugs that no source holds in one piece."""


def sources() -> list[Path]:
    """Whatever makes findings: the language, and the compiler without commands and back ends."""
    outside = {"commands", "papers", "plan"}
    found = [*(ROOT / "lang").rglob("*.py"), *(ROOT / "compiler").rglob("*.py")]
    return [path for path in found if not outside & set(path.relative_to(ROOT).parts)]


def slugs() -> set[str]:
    whole = {
        node.value
        for path in sources()
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant)
        and isinstance(node.value, str)
        and SLUG.fullmatch(node.value)
    }
    return whole - NO_SLUGS | MADE_OF_PIECES


def test_every_slug_is_in_the_catalogue_and_every_entry_is_made() -> None:
    made = slugs()
    assert "run-too-long" in made
    assert made - set(CATALOGUE) == set(), "add these to compiler/catalogue.json"
    assert set(CATALOGUE) - made == set(), "take these out of compiler/catalogue.json"


def test_entries_are_sentences_in_order() -> None:
    assert list(CATALOGUE) == sorted(CATALOGUE)
    for slug, rule in CATALOGUE.items():
        assert SLUG.fullmatch(slug)
        assert rule.doc.endswith((".", "…"))
        assert rule.mend
