"""Where a figure comes from: three columns, what, figure and where, ruled off like a sum."""

from collections.abc import Iterable, Mapping
from typing import Any

from attrs import frozen

from casewright.lang.cells import Quantity
from casewright.lang.measure import Measure
from casewright.lang.plain_text import cells, padded, visible, wrapped
from casewright.lang.printing import Printed, Printing, printed, printed_decimal
from casewright.lang.render_full import INDENT, NARROWEST, FigureColumn
from casewright.lang.render_json import VERSION, as_text, place, value
from casewright.lang.source import Span

WIDEST_WHAT = 44
"""Columns of the first column; what is longer goes on below."""

NARROWEST_WHERE = 24
"""Columns of the third column; with fewer left it stands under its row."""


@frozen
class Row:
    """One row: `sign` is how it enters the sum in a word (`less`, empty for what it starts from),
    `what` names it, `where` says where it is written. `ruled` draws a rule above: a result."""

    what: str
    measure: Measure | None
    where: str = ""
    ruled: bool = False
    sign: str = ""


def render_explanation(rows: Iterable[Row], printing: Printing, *, width: int = 100) -> str:
    """The rows as text. A result that is rounded carries its mark and its decimal; what goes into
    a sum and is no figure of the job's rule stands as a decimal, so that the sum can be checked."""
    rows = tuple(rows)
    width = max(width, NARROWEST)
    shown = [_figure(row, printing) for row in rows]
    column = FigureColumn.of(shown)
    names = [visible(f"{row.sign} {row.what}".strip()) for row in rows]
    what_width = min(max(cells(name) for name in ("what", *names)), WIDEST_WHAT) + 4
    figure_width = max(column.width, len("figure"))
    lead = len(INDENT) + what_width + figure_width + 4
    lines = [f"{INDENT}{padded('what', what_width)}{padded('figure', figure_width)}    where"]
    for row, name, figure in zip(rows, names, shown, strict=True):
        if row.ruled:
            lines.append(" " * (len(INDENT) + what_width) + "-" * column.width)
        told = wrapped(name, what_width - 4) or [""]
        where = visible("; ".join(filter(None, (_exactly(row, printing, figure), row.where))))
        beside = wrapped(where, width - lead) if width - lead >= NARROWEST_WHERE else []
        for number in range(max(len(told), len(beside))):
            start = padded(told[number] if number < len(told) else "", what_width)
            middle = column.ranged(figure) if number == 0 else ""
            after = beside[number] if number < len(beside) else ""
            lines.append(f"{INDENT}{start}{padded(middle, figure_width)}    {after}".rstrip())
        if not beside:
            lines += [INDENT * 2 + line for line in wrapped(where, width - 2 * len(INDENT))]
    return "\n".join(lines) + "\n"


def _figure(row: Row, printing: Printing) -> Printed | None:
    if row.measure is None:
        return None
    figure = printed(row.measure, printing)
    return printed_decimal(row.measure, printing) if figure.mark and not row.ruled else figure


def _exactly(row: Row, printing: Printing, figure: Printed | None) -> str:
    """What the mark of a result means, with the decimal it stands for."""
    if row.measure is None or figure is None or not figure.mark or not row.ruled:
        return ""
    fine = printed_decimal(row.measure, printing)
    how = "nearly" if fine.mark else "exactly"
    side = "less" if figure.mark == "shy" else "more"
    return f"{fine.bare} {how}; {figure.mark}: a shade {side} than printed"


def explanation_json(
    about: str,
    rows: Iterable[Row],
    quantity: Quantity | None,
    printing: Printing,
) -> str:
    """The rows, and every read behind `quantity` down to literals, as JSON text;
    `explanation.schema.json` beside this file says what stands in it."""
    document: dict[str, Any] = {
        "version": VERSION,
        "about": about,
        "rows": [
            {
                "what": row.what,
                "sign": row.sign,
                "value": value(row.measure, printing),
                "where": row.where,
                "ruled": row.ruled,
            }
            for row in rows
        ],
        "reads": [] if quantity is None else reads(quantity, printing),
    }
    return as_text(document)


def reads(quantity: Quantity, printing: Printing) -> list[Mapping[str, Any]]:
    """Every quantity behind `quantity` once, each after all of its inputs, which it names by
    their position in the list; the last one is `quantity` itself."""
    positions: dict[int, int] = {}
    listed: list[Mapping[str, Any]] = []
    waiting: list[tuple[Quantity, bool]] = [(quantity, False)]
    while waiting:
        each, ready = waiting.pop()
        if id(each) in positions:
            continue
        if not ready:
            waiting.append((each, True))
            waiting += [(each_input, False) for each_input in reversed(each.inputs)]
            continue
        positions[id(each)] = len(listed)
        listed.append(
            {
                "value": value(each.measure, printing),
                "operator": each.operator,
                "inputs": [positions[id(each_input)] for each_input in each.inputs],
                "name": each.name,
                "label": each.label,
                "place": place(each.origin) if isinstance(each.origin, Span) else None,
            }
        )
    return listed
