"""What comes out of the wall behind units: outlets and pipes."""

from collections.abc import Iterator, Mapping
from fractions import Fraction

from casewright.compiler.check.covering import before, spans
from casewright.compiler.check.declare import Report, check
from casewright.compiler.check.site import Site, Standing, assemblies, parts
from casewright.compiler.model import Box, Feature
from casewright.lang.findings import Label, Severity

OWN: Mapping[str, tuple[str, ...]] = {
    "waste": ("sink", "dishes"),
    "water": ("sink", "dishes", "cold"),
    "gas": ("cooking", "baking"),
}
"""What each pipe serves, and may come out behind."""

SERVED: Mapping[str, str] = {"waste": "the sink", "water": "the sink", "gas": "what cooks"}
"""The same, as a mend names it."""


@check(
    "unit-covers-outlet",
    Severity.WARNING,
    doc="An outlet lies behind a unit.",
    why="It can't be reached any more, unless the back is cut out for it.",
    mend=(
        "Move the unit or the outlet, or cut the unit's back out for it; where it is meant, accept "
        "the finding and say so."
    ),
    source="common practice",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        outlet at 20 up 12
      }
    }
    run sink_wall on north from left length 24 {
      S1: open_base 24
    }
    """,
    good={"up 12": "up 44"},
)
def covers_outlet(site: Site) -> Iterator[Report]:
    for standing, feature in before(site, "outlet"):
        # An island's outlets lie in its face.
        behind = standing.placed.kind == "unit" and not feature.facing
        if behind and not _cut_out(standing, feature):
            yield Report(
                f"{feature.name} lies behind {standing.name}",
                standing.line,
                (standing,),
                labels=_label(feature, "it is here"),
                help="move one of them, or accept it and say what is cut out for it",
            )


def _cut_out(standing: Standing, feature: Feature) -> bool:
    """Whether every part of a unit's back that lies before a feature is cut out for it."""
    across = feature.at.value + feature.wide.value / 2 - standing.left
    up = feature.up.value + feature.high.value / 2 - standing.low
    backs = [
        part
        for part in (parts(standing.unit, "back", "hanging") if standing.unit is not None else ())
        if _holds(part.box, across, up)
    ]
    return bool(backs) and all(
        any(_holds(cut.box, across, up) for cut in part.cuts) for part in backs
    )


def _holds(box: Box, across: Fraction, up: Fraction) -> bool:
    return box.across[0] < across < box.across[1] and box.up[0] < up < box.up[1]


@check(
    "pipe-behind-unit",
    Severity.WARNING,
    doc=(
        "A waste, water or gas pipe comes out of the wall behind a unit that holds nothing it "
        "serves. Behind drawers it is an error: they would be swept into the trap."
    ),
    why="The unit's back, shelves and drawers meet the pipe, and nobody reaches its valve.",
    mend=(
        "Put before it the unit that `holds` what it serves (a sink, what cooks), or have the pipe "
        "moved by whom the law allows to."
    ),
    source="common practice",
    bad="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        waste at 20 up 18
      }
    }
    run sink_wall on north from left length 24 {
      S1: open_base 24
    }
    """,
    good="""
    room galley {
      floor   finished
      ceiling 96
      counter 36 thick 1 1/2
      wall north length 72 {
        waste at 20 up 18
      }
    }
    run sink_wall on north from left length 26 {
      space 2
      S1: sink_base 24  hung left
    }
    """,
)
def pipe_behind(site: Site) -> Iterator[Report]:
    for standing, feature in before(site, *OWN):
        if standing.placed.kind != "unit" or any(
            role in OWN[feature.kind] for role in standing.stands.serves
        ):
            continue
        unit = standing.unit
        drawers = unit is not None and any(
            spans(
                standing.left + tray.extents.box.across[0],
                standing.left + tray.extents.box.across[1],
                feature.at.value,
                feature.at.value + feature.wide.value,
            )
            for tray in assemblies(unit, "tray")
        )
        what = "drawers of " if drawers else ""
        comes = "comes up" if feature.facing else "comes out of the wall"
        yield Report(
            f"{feature.name} {comes} behind {what}{standing.name}",
            standing.line,
            (standing,),
            labels=_label(feature, "it is here"),
            help=f"put what holds {SERVED[feature.kind]} before it, or have it moved",
            severity=Severity.ERROR if drawers else None,
        )


def _label(feature: Feature, text: str) -> tuple[Label, ...]:
    return (Label(feature.span, text),) if feature.span is not None else ()
