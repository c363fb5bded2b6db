"""Findings about a unit's parts, before the unit is placed.

A unit is worked out once for every placing that is equal to it, so a fault found in it may lie on
a line that differs from placing to placing (`lang.source.Own`). A blame is a finding with such
places still open; `bind` closes them for one placing.
"""

from collections.abc import Callable, Iterable

from attrs import evolve, frozen

from casewright.lang.findings import Figure, Finding, Label, Severity
from casewright.lang.measure import Measure
from casewright.lang.source import Origin, Span


@frozen
class Row:
    """One row of a ruled sum whose line may still be open; see `lang.findings.Figure`."""

    words: str
    measure: Measure | None = None
    origin: Origin | None = None
    note: str = ""
    ruled: bool = False


@frozen
class Blame:
    """A finding and the places it is about.

    `origin` is the place at fault, `labels` the further lines. `places` holds the line of each of
    the finding's figures, in order. Spans that are known already stand in the finding itself too.
    `too_large` and `too_small` name the axes along which another size of the unit would mend it.
    """

    finding: Finding
    origin: Origin | None
    labels: tuple[tuple[Origin, str], ...] = ()
    places: tuple[Origin | None, ...] = ()
    too_large: frozenset[str] = frozenset()
    too_small: frozenset[str] = frozenset()


def finding_at(
    origin: Origin | None,
    slug: str,
    headline: str,
    *,
    rows: tuple[Row, ...] = (),
    labels: tuple[tuple[Origin | None, str], ...] = (),
    help: str = "",
    severity: Severity = Severity.ERROR,
) -> Blame:
    """A finding at `origin`; labels without a place are left out."""
    kept = tuple((place, text) for place, text in labels if place is not None)
    figures = tuple(
        Figure(row.words, row.measure, _known(row.origin), row.note, row.ruled) for row in rows
    )
    known = tuple(Label(place, text) for place, text in kept if isinstance(place, Span))
    finding = Finding(slug, severity, headline, _known(origin), figures, known, help)
    return Blame(finding, origin, kept, tuple(row.origin for row in rows))


def broken(blames: Iterable[Blame]) -> bool:
    """Whether one of them is an error."""
    return any(blame.finding.severity is Severity.ERROR for blame in blames)


def bound_row(row: Row, span_of: Callable[[Origin], Span | None]) -> Figure:
    """The figure of `row`, its place bound by `span_of`."""
    span = None if row.origin is None else span_of(row.origin)
    return Figure(row.words, row.measure, span, row.note, row.ruled)


def bind(blame: Blame, span_of: Callable[[Origin], Span | None]) -> Finding:
    """The finding of `blame` with every place bound by `span_of`."""
    found = ((span_of(place), text) for place, text in blame.labels)
    return evolve(
        blame.finding,
        span=None if blame.origin is None else span_of(blame.origin),
        figures=tuple(
            evolve(figure, span=None if place is None else span_of(place))
            for figure, place in zip(blame.finding.figures, blame.places, strict=True)
        ),
        labels=tuple(Label(span, text) for span, text in found if span is not None),
    )


def _known(origin: Origin | None) -> Span | None:
    return origin if isinstance(origin, Span) else None
