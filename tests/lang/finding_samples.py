"""A kitchen of a few lines and findings about it, for the renderers' tests."""

from fractions import Fraction

from casewright.lang.findings import Edit, Figure, Finding, Label, Severity, error
from casewright.lang.measure import length
from casewright.lang.source import Source, Span

KITCHEN = Source(
    "kitchen.case",
    """measure in inches
job Tern Quay galley
room galley {
  ceiling 96
  counter 36 thick 1 1/2
  wall north length 158 1/4 {
    window at 42 wide 48 up 42 high 42 casing 3 1/2
  }
}

run sink_wall on north from left {
  filler 1 1/2 scribe
  S1: dor_base 18   hung left
  S2: drawer_base share min 24 max 36
}
""",
)
SHOP = Source("shop.case", "measure in inches\nsplash 4\n")
LIBRARY = Source("std boxes.case", "unit box {\n\tlet slot = 3/8\n}\n")


def span(source: Source, text: str) -> Span:
    """The only place in `source` where `text` stands."""
    assert source.text.count(text) == 1
    start = source.text.index(text)
    return Span(source, start, start + len(text))


RUN_TOO_LONG = error(
    "run-too-long",
    'run sink_wall is 1 1/2" longer than its wall',
    span(KITCHEN, "sink_wall"),
    figures=(
        Figure("needs", length(Fraction(639, 4)), span(KITCHEN, "run sink_wall on north")),
        Figure("has", length(Fraction(633, 4)), span(KITCHEN, "length 158 1/4")),
        Figure("over", length(Fraction(3, 2)), ruled=True),
    ),
    help='line 14: give S2 `share` in place of 19 1/2; it becomes 18"',
    edits=(Edit(span(KITCHEN, "share min 24"), "share"),),
)

CASING = Finding(
    "casing-near-counter",
    Severity.WARNING,
    'the casing comes within 2 1/2" of the counter',
    span(KITCHEN, "casing 3 1/2"),
    figures=(
        Figure("sill", length(42), span(KITCHEN, "up 42")),
        Figure("less", length(Fraction(7, 2)), span(KITCHEN, "casing 3 1/2")),
        Figure("less", length(36), span(KITCHEN, "counter 36 thick 1 1/2")),
        Figure("leaves", length(Fraction(5, 2)), ruled=True),
        Figure("wants", length(4), span(SHOP, "splash 4")),
        Figure("short", length(Fraction(3, 2)), ruled=True),
    ),
    help='line 7: a casing of 2 leaves 4"; or say `accept casing-near-counter` with your reason',
)

UNKNOWN = error(
    "unknown-unit",
    "no unit is called dor_base",
    span(KITCHEN, "dor_base"),
    help="did you mean door_base?",
)

FOLDED = Finding(
    "slot-thin",
    Severity.ADVICE,
    "the slot leaves little stock",
    span(KITCHEN, "S2: drawer_base"),
    labels=(Label(span(LIBRARY, "let slot = 3/8"), "the slot is cut here"),),
    tags=("S2", "S3", "S5"),
)

NOWHERE = Finding("no-job", Severity.ERROR, "there is no job line", None)

ALL = (FOLDED, UNKNOWN, CASING, RUN_TOO_LONG, NOWHERE)
