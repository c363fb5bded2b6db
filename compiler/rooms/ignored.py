"""What the line of a thing in a run says and nothing reads: blamed, never passed over."""

from collections.abc import Iterator, Sequence

from casewright.compiler.rooms.run_items import Item
from casewright.lang.findings import Finding, Severity, error
from casewright.lang.shape import Clause, span_of

APPLIANCE_READS = frozenset(
    (
        *("share", "shares", "min", "max", "centred", "over"),
        *("up", "high", "depth", "holds", "bowl", "confirmed"),
    )
)
"""The clauses that a placed appliance reads; a unit reads what its schema and its text offer."""

PLACE_WORDS = frozenset(("at", "from", "to", "left", "right", "across"))
"""Words by which a place is said elsewhere."""


def ignored(item: Item) -> Iterator[Finding]:
    """Findings for each clause, option and line of a placed thing that nothing would read."""
    if item.kind == "appliance":
        yield from _of_appliance(item)
    yield from _of_sizes(item)


def _of_appliance(item: Item) -> Iterator[Finding]:
    line = item.statement
    unread = [each for each in line.clauses if each.word not in APPLIANCE_READS]
    for clause in (*unread, *line.options):
        yield error(
            "unknown-option",
            f"an appliance reads no {clause.word}; {item.name} is one",
            span_of(clause.origin),
            help=_appliance_help(item, clause),
        )
    for inner in line.body:
        if inner.rule not in ("note", "accept"):
            yield error(
                "unknown-option",
                f"an appliance has no {inner.head.text}; {item.name} is one",
                span_of(inner.head.origin),
                help="an appliance comes as it is: take the line out",
            )


def _appliance_help(item: Item, clause: Clause) -> str:
    if clause.word in PLACE_WORDS:
        return (
            f"an appliance stands where its run puts it: take {clause.word} out, and give the "
            "unit or the space before it the width that brings it there"
        )
    if clause.word == "wide":
        return f"its width stands behind its name: {item.statement.head.text} 30"
    return (
        "take it out; an appliance reads a width, up, high, depth and confirmed, "
        "and centred on or over what it is in line with"
    )


def _of_sizes(item: Item) -> Iterator[Finding]:
    line = item.statement
    shares = [each for each in line.clauses if each.word in ("share", "shares")]
    pins = [each for each in line.clauses if each.word in ("centred", "over")]
    if shares and line.values:
        yield _twice(
            shares[0],
            f"{item.name} has a width and takes a share too",
            "keep the width or the share; with a share, min and max say how far it may go",
        )
    elif len(shares) > 1:
        yield _twice(shares[1], f"{item.name} takes a share twice", "keep share or shares")
    limits = [each for each in line.clauses if each.word in ("min", "max")]
    if pins and limits and not shares:
        yield Finding(
            "limits-unread",
            Severity.WARNING,
            f"{item.name} is pinned to a place and keeps its width, whatever its {_words(limits)}",
            span_of(limits[0].origin),
            help=f"take out {_words(limits)}, or what it is pinned to",
        )
    if len(pins) > 1:
        yield _twice(
            pins[1],
            f"{item.name} is pinned to a place twice",
            "keep centred on, or over",
        )
    elif pins and shares:
        yield _twice(
            shares[0],
            f"{item.name} is pinned to a place and takes a share too",
            "give it a width in place of the share, or take out what it is pinned to",
        )


def _words(clauses: Sequence[Clause]) -> str:
    return " and ".join(each.word for each in clauses)


def _twice(clause: Clause, headline: str, help: str) -> Finding:
    return error("said-twice", headline, span_of(clause.origin), help=help)
