"""CSV as RFC 4180 has it: CRLF, quoted where needed, and safe to open in a spreadsheet."""

import csv
import io
from collections.abc import Iterable, Sequence

_FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n")


def guarded(cell: str) -> str:
    """`cell` so that no spreadsheet takes it for a formula; a plain negative number stays."""
    if not cell.startswith(_FORMULA_STARTS):
        return cell
    number = cell[1:].replace(".", "", 1)
    if cell[0] == "-" and number.isascii() and number.isdigit():
        return cell
    return "'" + cell


def sheet(header: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """The text of a CSV file: a header and rows of as many cells."""
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n", quoting=csv.QUOTE_MINIMAL)
    writer.writerow(header)
    writer.writerows([guarded(cell) for cell in row] for row in rows)
    return text.getvalue()
