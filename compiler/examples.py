"""Examples of a finding: a small text that has it, and the same text mended."""

from collections.abc import Mapping

Mend = str | Mapping[str, str]
"""A mended text in full, or what in the bad one is said otherwise: the old words and the new."""


def mended(bad: str, good: Mend) -> str:
    """The good example of a bad one.

    Raises ValueError where words to be said otherwise don't stand in the bad one exactly once: the
    example would then show something else than it says.
    """
    if isinstance(good, str):
        return good
    for old, new in good.items():
        if bad.count(old) != 1:
            raise ValueError(f"{old!r} stands {bad.count(old)} times in an example, not once")
        bad = bad.replace(old, new)
    return bad
