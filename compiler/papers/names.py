"""Names as people read them: addresses in words, and lists of them folded."""

import re
from collections.abc import Iterable

_NUMBERED = re.compile(r"^(.*) (\d+)((?: .*)?)$")


def words(address: str) -> str:
    """An address in words: `drawer_1.left_side` is `drawer 1 left side`."""
    return address.replace(".", " ").replace("_", " ")


def listed(items: Iterable[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    names = list(items)
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} and {names[-1]}"


def folded(addresses: Iterable[str]) -> str:
    """Part addresses as one short list: `drawer 1, 2 left side, right side`.

    Parts that lie in the same holders are said once, and names that differ by a number only share
    their words.
    """
    lasts: dict[str, list[str]] = {}
    for address in addresses:
        holder, _, last = address.rpartition(".")
        held = lasts.setdefault(holder, [])
        if last not in held:
            held.append(last)
    holders: dict[tuple[str, ...], list[str]] = {}
    for holder, held in lasts.items():
        holders.setdefault(tuple(held), []).append(holder)
    texts = []
    for held_names, held_by in holders.items():
        names = ", ".join(counted(words(name) for name in held_names))
        named = [words(holder) for holder in held_by if holder]
        if "" in held_by:
            texts.append(names)
        if named:
            texts.append(f"{', '.join(counted(named))} {names}")
    return "; ".join(texts)


def counted(names: Iterable[str]) -> list[str]:
    """Names with their numbers gathered, in the order first met: `drawer 1 to 3 tray`."""
    numbers: dict[tuple[str, str], list[int]] = {}
    for name in names:
        match = _NUMBERED.match(name)
        if match:
            numbers.setdefault((match[1], match[3]), []).append(int(match[2]))
        else:
            numbers.setdefault((name, ""), [])
    return [
        f"{stem} {_ranges(sorted(found))}{rest}" if found else stem
        for (stem, rest), found in numbers.items()
    ]


def _ranges(numbers: list[int]) -> str:
    runs: list[tuple[int, int]] = []
    for number in dict.fromkeys(numbers):
        if runs and number == runs[-1][1] + 1:
            runs[-1] = (runs[-1][0], number)
        else:
            runs.append((number, number))
    texts = []
    for first, last in runs:
        if first == last:
            texts.append(str(first))
        else:
            texts.append(f"{first} to {last}" if last > first + 1 else f"{first}, {last}")
    return ", ".join(texts)


def plural(count: int, one: str, many: str = "") -> str:
    """`1 piece`, `3 pieces`."""
    return f"{count} {one if count == 1 else many or one + 's'}"
