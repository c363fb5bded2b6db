"""Every unit of the library in every construction, inch and metric, at all its sizes.

A unit's limits are those of its library text, each said once as a requirement; one step past any of
them is one finding.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction

import pytest

from casewright.lang.findings import Finding
from casewright.lang.measure import INCH, length
from casewright.lang.printing import Printing, in_words
from tests.stdlib.kitchens import (
    check_whole,
    compiled,
    inches,
    kitchen,
    plain_kitchen,
    units_of,
)
from tests.stdlib.sizes import CONSTRUCTIONS, METRIC, SIZES, USUAL

FOUR = tuple(SIZES)
LEAST, MOST = ("narrowest", "lowest", "shallowest"), ("widest", "highest", "deepest")


def is_metric(built: str) -> bool:
    return built.startswith("metric")


def usual(built: str) -> Mapping[str, str]:
    return METRIC if is_metric(built) else USUAL


def usually_wide(built: str) -> Mapping[str, str]:
    return {name: words.split()[0] for name, words in usual(built).items()}


def usually_high(built: str, name: str) -> str:
    """What a metric kitchen says of a height; of others their text says it."""
    return usual(built)[name].removeprefix(usually_wide(built)[name])


def said(findings: tuple[Finding, ...]) -> list[tuple[str, str]]:
    """All that is said and not accepted, of whatever severity."""
    return [(each.slug, each.headline) for each in findings if not each.accepted]


def beside_others(built: str, widths: Mapping[str, str]) -> Mapping[str, str]:
    """Widths that are right among neighbours: to one of them only half a gap is kept."""
    narrower = {"24 1/4": "24 1/8", "47 3/4": "47 5/8", "606": "603"}
    frameless = built.endswith("frameless")
    return {
        name: narrower.get(width, width) if frameless else width for name, width in widths.items()
    }


@pytest.mark.parametrize("built", FOUR)
@pytest.mark.parametrize("which", ["narrowest", "usual", "widest"])
def test_a_plain_kitchen_of_every_unit_has_no_finding(built: str, which: str) -> None:
    widths = usually_wide(built) if which == "usual" else getattr(SIZES[built], which)
    words = {
        name: f"{width}{usually_high(built, name)}"
        for name, width in beside_others(built, widths).items()
    }
    text = plain_kitchen(words, built, lifted=which != "narrowest", metric=is_metric(built))
    assert said(compiled(text).findings) == []
    units = {unit.name: unit for unit in units_of(text)}
    for name, width in beside_others(built, widths).items():
        assert units[name].width.value == inches(width) / (INCH if is_metric(built) else 1)
        check_whole(units[name])


OF_THE_KITCHEN = {
    "appliance-unconfirmed",
    "bowl-unsaid",
    "counter-unsupported",
    "hangs-on-too-few-screws",
    "heavy-to-carry",
    "heavy-to-lift",
    "higher-than-room",
    "seen-end-unfinished",
    "too-shallow-for-plates",
    "too-short-to-band",
    "top-off-counter",
}
"""What is said where units so low, high or deep stand by themselves in a room with one counter, and
in a shop whose bander takes no shorter edge than 4."""


@pytest.mark.parametrize("built", FOUR)
@pytest.mark.parametrize("ends", [LEAST, MOST])
def test_every_unit_builds_where_all_its_sizes_are_at_their_ends(
    built: str, ends: tuple[str, str, str]
) -> None:
    wide, high, deep = (getattr(SIZES[built], end) for end in ends)
    lines = [f"{name} {wide[name]}  high {high[name]}  depth {deep[name]}" for name in USUAL]
    text = kitchen(lines, built, metric=is_metric(built))
    assert [each for each in said(compiled(text).findings) if each[0] not in OF_THE_KITCHEN] == []
    units = units_of(text)
    assert [unit.name for unit in units] == list(USUAL)
    for unit in units:
        check_whole(unit)


def past(built: str, size: str, less: bool) -> str:
    """One step of the tape past a size: 1/32, or 1 mm."""
    step = -1 if less else 1
    if is_metric(built):
        return f"{float(Fraction(size) + step):g}"
    return in_words(length(inches(size) + Fraction(step, 32)), Printing()).removesuffix('"')


def one_past(built: str, ends: tuple[str, str, str], less: bool) -> Iterator[tuple[str, str]]:
    """Every unit three times: one step past in width, in height and in depth."""
    wide, high, deep = (getattr(SIZES[built], end) for end in ends)
    for name, width in usually_wide(built).items():
        # Two doors share their gaps: one is wider only where both are.
        twice = 2 if not less and wide[name] == wide["door_base"] else 1
        wider = wide[name]
        for _ in range(twice):
            wider = past(built, wider, less)
        if wide[name] != "47 3/4":
            yield name, f"{wider}{usually_high(built, name)}"
        yield name, f"{width}  high {past(built, high[name], less)}"
        deeper = past(built, deep[name], less)
        yield name, f"{width}{usually_high(built, name)}  depth {deeper}"


@pytest.mark.parametrize(
    ("built", "ends", "less"),
    [
        *((built, LEAST, True) for built in FOUR),
        *((built, MOST, False) for built in CONSTRUCTIONS),
    ],
)
def test_a_step_past_any_size_is_exactly_one_finding(
    built: str, ends: tuple[str, str, str], less: bool
) -> None:
    lines = [" ".join(each) for each in one_past(built, ends, less)]
    found = compiled(kitchen(lines, built, metric=is_metric(built))).findings
    for number, line in enumerate(lines, 1):
        told = [each.slug for each in found if f"S{number}" in each.tags]
        # A slide is made in lengths: where the shortest is too long, that is said.
        assert told in (["requirement-not-met"], ["none-fits"]), line


def test_a_front_wider_than_its_sheet_is_one_finding() -> None:
    """Where they are overlaid on a box without a frame, it is their fronts that limit them."""
    widest = SIZES["frameless"].widest
    wide = [name for name in USUAL if widest[name] == "47 3/4"]
    found = compiled(kitchen([f"{name} {past('frameless', widest[name], False)}" for name in wide]))
    for number, name in enumerate(wide, 1):
        told = [each.slug for each in found.findings if f"S{number}" in each.tags]
        assert [slug for slug in told if slug not in OF_THE_KITCHEN] == [
            "part-larger-than-sheet"
        ], name
