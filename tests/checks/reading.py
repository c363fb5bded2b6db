"""Kitchens for figures from outside: small texts, and what `check` says of them."""

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import TypeVar

from casewright.lang.findings import Finding
from tests.compiler.examples import compiled

RULES = Path(__file__).parents[2] / "stdlib" / "rules.case"

F = TypeVar("F", bound=Callable[..., None])


def source(title: str) -> Callable[[F], F]:
    """Names the published table or formula that a test's figures come from, so that they can be
    counted."""

    def named(test: F) -> F:
        test.source = title  # type: ignore[attr-defined]
        return test

    return named


ROOM = """
room galley {
  floor   finished
  ceiling 120
  counter 36 thick 1 1/2
  wall north length 300
}
"""


def findings(text: str, slug: str) -> tuple[Finding, ...]:
    """The findings of one slug in a kitchen; the kitchen must stand. It may `use std_rules`: the
    library's rule packs without the library."""
    texts = {"page.case": text.encode(), "std_rules.case": RULES.read_bytes()}
    built = compiled(texts, "page.case")
    assert built.job is not None, [(each.slug, each.headline) for each in built.findings]
    return tuple(each for each in built.findings if each.slug == slug)


def finding(text: str, slug: str) -> Finding:
    (found,) = findings(text, slug)
    return found


def figure(found: Finding, words: str) -> Fraction:
    """A figure of a report, exact, in inches or pounds."""
    (measure,) = [each.measure for each in found.figures if each.words == words]
    assert measure is not None
    return measure.value


def job(*, allowances: str = "", rules: str = "") -> str:
    """A job's head over the plain shop, with allowances or rules of its own."""
    lines = ["use checks_shop", "job Trial {", "  precision 1/128", "  built shop"]
    if allowances:
        lines.append("  allowances ours")
    if rules:
        lines.append(f"  rules {rules}")
    lines.append("}")
    if allowances:
        lines.append("allowances ours from usual {\n" + allowances + "\n}")
    return "\n".join(lines) + "\n"
