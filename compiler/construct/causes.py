"""One cause, one report: which of a unit's blames are said."""

from collections.abc import Iterable, Iterator

from attrs import evolve

from casewright.compiler.blame import Blame
from casewright.lang.findings import Label
from casewright.lang.source import Span

CAUSES = (
    ("requirement-not-met",),
    ("nothing-left", "openings-dont-close", "too-many-openings", "hole-past-edge", "none-fits"),
    ("size-not-positive",),
    ("band-off-cut", "cut-corner-off"),
)
"""What silences what: a fault of an earlier line explains those of the later ones."""


MOST_ALIKE = 12
"""Reports of one kind in one unit that are said; of more, how many there are."""


def first_causes(blames: Iterable[Blame]) -> tuple[Blame, ...]:
    """One cause gives one report: equal blames once, those that another explains not at all; of
    several requirements that a line doesn't meet the first, the others as its further lines; and of
    several parts that have no room the first, saying how many more there are."""
    distinct: dict[tuple[object, ...], Blame] = {}
    for blame in blames:
        key = (blame.finding.slug, blame.finding.headline, blame.origin)
        distinct.setdefault(key, blame)
    kept = list(distinct.values())
    for index, slugs in enumerate(CAUSES):
        if any(blame.finding.slug in slugs for blame in kept):
            silenced = {slug for later in CAUSES[index + 1 :] for slug in later}
            kept = [blame for blame in kept if blame.finding.slug not in silenced]
            break
    kept = list(_asked_together(kept))
    small = [blame for blame in kept if blame.finding.slug == "size-not-positive"]
    if len(small) > 1:
        first = small[0]
        more = f"{first.finding.headline}, nor for {len(small) - 1} more"
        folded = evolve(first, finding=evolve(first.finding, headline=more))
        kept = [folded if blame is first else blame for blame in kept if blame not in small[1:]]
    return tuple(_few(kept))


def _asked_together(blames: Iterable[Blame]) -> Iterator[Blame]:
    """The requirements that one line doesn't meet, said at once."""
    waiting = list(blames)
    while waiting:
        first = waiting.pop(0)
        if first.finding.slug == "requirement-not-met":
            more = [
                blame
                for blame in waiting
                if blame.finding.slug == first.finding.slug and blame.origin == first.origin
            ]
            waiting = [blame for blame in waiting if blame not in more]
            further = tuple((blame.labels[0][0], blame.finding.headline) for blame in more)
            known = tuple(Label(at, words) for at, words in further if isinstance(at, Span))
            finding = evolve(first.finding, labels=(*first.finding.labels, *known))
            first = evolve(
                first,
                finding=finding,
                labels=(*first.labels, *further),
                too_large=first.too_large.union(*(each.too_large for each in more)),
                too_small=first.too_small.union(*(each.too_small for each in more)),
            )
        yield first


def _few(blames: Iterable[Blame]) -> Iterator[Blame]:
    """The first reports of every kind; the last of them says how many more there are."""
    of: dict[str, list[Blame]] = {}
    for blame in blames:
        of.setdefault(blame.finding.slug, []).append(blame)
    for alike in of.values():
        yield from alike[: MOST_ALIKE - 1]
        if len(alike) >= MOST_ALIKE:
            last, more = alike[MOST_ALIKE - 1], len(alike) - MOST_ALIKE
            words = f"{last.finding.headline}; so it is {more} times more"
            finding = evolve(last.finding, headline=words) if more else last.finding
            yield evolve(last, finding=finding)
