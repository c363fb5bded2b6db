"""The worst moments of the sawing: a board at the saw that it can't take, though every part could.

A part may be small while the board it is cut from is wide. So every pass of a plan is looked at.
Narrow rips are the parts' own and stand on the rip list (`MaterialPlan.narrow`), heavy sheets too.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Final, Literal

from attrs import evolve, frozen

from casewright.compiler.cutting.sawing import Pass, PlannedSheet
from casewright.compiler.model import Material, Saw
from casewright.lang.findings import Finding, Severity
from casewright.lang.measure import Dimension, Measure
from casewright.lang.printing import Printing, in_words

What = Literal["rip-too-wide", "crosscut-too-wide"]


@frozen
class Moment:
    """A pass past one of the saw's limits: its sheet and number, the size there, the limit; how
    many passes are past it, of which this is the worst."""

    what: What
    sheet: int
    number: int
    size: Fraction
    limit: Fraction
    passes: int


def worst_moments(sheets: Sequence[PlannedSheet], saw: Saw) -> tuple[Moment, ...]:
    """The worst pass past each limit that the saw's text says, over all sheets of a material."""
    found: dict[What, list[Moment]] = {}
    for sheet in sheets:
        for each in sheet.passes:
            for what, size, limit in _past(sheet, each, saw):
                moment = Moment(what, sheet.number, each.number, size, limit, 1)
                found.setdefault(what, []).append(moment)
    return tuple(
        evolve(
            max(passes, key=lambda one: (abs(one.size - one.limit), -one.sheet, -one.number)),
            passes=len(passes),
        )
        for passes in found.values()
    )


def _past(sheet: PlannedSheet, each: Pass, saw: Saw) -> Iterator[tuple[What, Fraction, Fraction]]:
    """The limits that a pass is past, with the size that is."""
    if each.way == "crosscut":
        wide = abs(each.to_across - each.across)
        if saw.crosscuts is not None and wide > saw.crosscuts.value:
            yield "crosscut-too-wide", wide, saw.crosscuts.value
        return
    # Either side of a cut may run against the fence, but what is trimmed off is too narrow for it.
    whole = sheet.size.width - each.across if each.stage == 1 else each.strip - each.setting
    other = whole - saw.kerf.value / 2
    nearer = each.setting if each.trims or other < saw.least.value else min(each.setting, other)
    if saw.reach is not None and nearer > saw.reach.value:
        yield "rip-too-wide", nearer, saw.reach.value


_SAID: Final[dict[What, tuple[str, str]]] = {
    "rip-too-wide": (
        "sheet {sheet} of {title}, cut {number}, is a rip of {size}; {limit} is the widest the saw "
        "rips",
        "let it begin with a crosscut (first crosscut), or rip it on another machine",
    ),
    "crosscut-too-wide": (
        "sheet {sheet} of {title}, cut {number}, crosscuts a board {size} wide; {limit} is the "
        "widest this saw crosscuts",
        "crosscut it with a track saw, or let sheets begin with a rip (first rip)",
    ),
}


def moment_findings(
    material: Material, moments: Sequence[Moment], printing: Printing
) -> Iterator[Finding]:
    """What a person reads of the worst moments, one report a limit."""

    def size(value: Fraction) -> str:
        return in_words(Measure(value, Dimension.LENGTH), printing)

    for each in moments:
        headline, help_words = _SAID[each.what]
        more = "" if each.passes == 1 else f" ({each.passes} such cuts)"
        yield Finding(
            each.what,
            Severity.WARNING,
            headline.format(
                sheet=each.sheet,
                number=each.number,
                title=material.title,
                size=size(each.size),
                limit=size(each.limit),
            )
            + more,
            None,
            help=help_words,
        )
