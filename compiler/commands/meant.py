"""Which address of a kitchen somebody may have meant who typed one that isn't there."""

import re
from collections.abc import Iterable, Sequence

from casewright.lang.shape import suggestion

MOST_MEANT = 3
"""Addresses that are named where one may have been meant."""

MOST_NAMED = 12
"""Names that are told of what a thing has, where nothing is like what was typed."""

_WORDS = re.compile("[a-z0-9_]+")


def meant(about: str, known: Sequence[str]) -> str:
    """What `about` may have meant of the addresses that are `known`, as a clause: what is like it
    where the path stops to lead, else what has its words anywhere, else what there is."""
    holder, rest, within = _followed(about, known)
    here = list(dict.fromkeys(each.split(".")[0] for each in within))
    if holder and not rest:
        return f"did you mean {holder.removesuffix('.')}?"
    word = rest.split(".")[0].lower()
    alike = [each for each in here if word and each.lower().startswith(word)]
    if alike:
        return f"did you mean {_either(f'{holder}{each}' for each in alike)}?"
    if close := suggestion(word, here):
        return close.replace("did you mean ", f"did you mean {holder}")
    words = _WORDS.findall(word)
    if words:
        found = [each for each in known if all(every in each.lower() for every in words)]
        elsewhere = dict.fromkeys(_up_to(each, words[-1]) for each in found)
        if elsewhere:
            return f"did you mean {_either(sorted(elsewhere, key=len))}?"
    more = " …" if len(here) > MOST_NAMED else ""
    return f"{holder.removesuffix('.') or 'it'} has {', '.join(here[:MOST_NAMED])}{more}"


def _followed(about: str, known: Sequence[str]) -> tuple[str, str, Sequence[str]]:
    """How far `about` leads, whatever its capitals: the thing with a dot, what is left of it, and
    the rest of the addresses within that thing."""
    holder, rest, within = "", about, known
    for piece in about.split("."):
        heads = {each.split(".")[0] for each in within}
        found = next((each for each in sorted(heads) if each.lower() == piece.lower()), None)
        if found is None:
            break
        holder += f"{found}."
        rest = rest[len(piece) + 1 :]
        within = [each[len(found) + 1 :] for each in within if each.startswith(f"{found}.")]
    return holder, rest, within


def _up_to(address: str, word: str) -> str:
    """The address up to the step that holds `word`."""
    steps = address.split(".")
    number = next((index for index, each in enumerate(steps) if word in each.lower()), len(steps))
    return ".".join(steps[: number + 1])


def _either(names: Iterable[str]) -> str:
    *first, last = list(names)[:MOST_MEANT]
    return f"{', '.join(first)} or {last}" if first else last
