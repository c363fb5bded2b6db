"""Counts the checks against published figures: each case of a test that names its source, at most
twelve from one table or formula. `python -m tests.checks.test_sources_counted` prints them."""

from collections import Counter
from collections.abc import Mapping
from types import ModuleType

from tests.checks import (
    test_bringing_published,
    test_carrying_published,
    test_island_wiring_published,
    test_kitchens_published,
    test_rules_published,
    test_strength_published,
    test_sweeps_at_contact,
    test_wood_published,
)

MODULES: tuple[ModuleType, ...] = (
    test_rules_published,
    test_kitchens_published,
    test_strength_published,
    test_wood_published,
    test_bringing_published,
    test_carrying_published,
    test_island_wiring_published,
    test_sweeps_at_contact,
)

MOST_OF_ONE = 12


def cases(test: object) -> int:
    """How many cases a test is run with."""
    number = 1
    for mark in getattr(test, "pytestmark", ()):
        if mark.name == "parametrize":
            number *= len(mark.args[1])
    return number


def counted() -> Mapping[str, int]:
    """Checks by their source, each once, however many modules know of it."""
    found: Counter[str] = Counter()
    tests = {
        test
        for module in MODULES
        for name, test in vars(module).items()
        if name.startswith("test_") and hasattr(test, "source")
    }
    for test in tests:
        found[test.source] += cases(test)
    return {title: min(number, MOST_OF_ONE) for title, number in sorted(found.items())}


def test_enough_checks_against_enough_sources() -> None:
    assert sum(counted().values()) >= 120
    assert len(counted()) >= 20


if __name__ == "__main__":
    for title, number in counted().items():
        print(f"{number:4}  {title}")
    print(f"{sum(counted().values()):4}  in all, from {len(counted())} tables and formulas")
