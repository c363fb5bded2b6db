"""A request written in JSON: read with every fault noted, none raised.

Sizes are numbers or text as the bench writes them: `34 1/2`, `3/4`, `23.5`.
"""

import json
from collections.abc import Mapping
from fractions import Fraction

from attrs import frozen

from casewright.compiler.plan.request import (
    Inner,
    Piece,
    Problem,
    Request,
    Saw,
    Stock,
    Trim,
    check_request,
)


def read_request(text: str) -> tuple[Request | None, list[Problem]]:
    """The request written in JSON, or None and what is wrong with it."""
    try:
        document = json.loads(text, parse_float=_plain_decimal)
    except (ValueError, RecursionError) as error:
        return None, [Problem("not-json", f"the list can't be read: {error}")]
    reader = _Reader([])
    request = reader.request(document)
    if request is None or reader.found:
        return None, reader.found
    found = check_request(request)
    return (None, found) if found else (request, [])


@frozen
class _Reader:
    """Takes a JSON document apart, noting what is wrong and going on."""

    found: list[Problem]

    def request(self, document: object) -> Request | None:
        top = self.table(document, "the list", "measure pieces stock saw keep_length keep_width")
        if top is None:
            return None
        saw = self.saw(top.get("saw", {}))
        pieces = [self.piece(item) for item in self.rows(top, "pieces")]
        stock = [self.stock(item) for item in self.rows(top, "stock")]
        return Request(
            self.text(top, "measure", "in", "the list"),
            tuple(piece for piece in pieces if piece),
            tuple(sheet for sheet in stock if sheet),
            saw,
            self.size(top, "keep_length", "the list", Fraction(0)),
            self.size(top, "keep_width", "the list", Fraction(0)),
        )

    def saw(self, item: object) -> Saw:
        table = self.table(item, "saw", "kerf trim least_strip first")
        if table is None:
            return Saw()
        zero = Fraction(0)
        edges = self.table(table.get("trim", {}), "trim", "fence far head foot") or {}
        return Saw(
            self.size(table, "kerf", "saw", zero),
            Trim(
                *(self.size(edges, edge, "trim", zero) for edge in ("fence", "far", "head", "foot"))
            ),
            self.size(table, "least_strip", "saw", zero),
            self.text(table, "first", "rip", "saw"),
        )

    def piece(self, item: object) -> Piece | None:
        table = self.table(item, "a piece", "name unit length width quantity turn apart inner")
        if table is None:
            return None
        name = self.text(table, "name", None, "a piece")
        return Piece(
            name,
            self.text(table, "unit", "", name),
            self.size(table, "length", name, None),
            self.size(table, "width", name, None),
            self.whole(table, "quantity", name, 1) or 0,
            self.yes(table, "turn", name),
            tuple(each for row in self.rows(table, "inner") if (each := self.inner(row, name)))
            if "inner" in table
            else (),
            self.text(table, "apart", "", name),
        )

    def inner(self, item: object, where: str) -> Inner | None:
        table = self.table(item, where, "address length width")
        if table is None:
            return None
        return Inner(
            self.text(table, "address", None, where),
            self.size(table, "length", where, None),
            self.size(table, "width", where, None),
        )

    def stock(self, item: object) -> Stock | None:
        table = self.table(item, "a stock", "name length width copies cost kept")
        if table is None:
            return None
        name = self.text(table, "name", None, "a stock")
        priced = table.get("cost") is not None
        return Stock(
            name,
            self.size(table, "length", name, None),
            self.size(table, "width", name, None),
            self.whole(table, "copies", name, None),
            self.size(table, "cost", name, None) if priced else None,
            self.yes(table, "kept", name),
        )

    def problem(self, slug: str, message: str, where: str) -> None:
        self.found.append(Problem(slug, message, where))

    def table(self, item: object, where: str, known: str) -> dict[str, object] | None:
        if not isinstance(item, dict):
            self.problem("not-a-table", f"{where} must be a table of fields", where)
            return None
        for key in item:
            if key not in known.split():
                self.problem("field-unknown", f"{where} has no field {key!r}", where)
        return item

    def rows(self, table: Mapping[str, object], key: str) -> list[object]:
        rows = table.get(key, [])
        if isinstance(rows, list):
            return rows
        self.problem("not-a-list", f"{key} must be a list", key)
        return []

    def text(self, table: Mapping[str, object], key: str, default: str | None, where: str) -> str:
        value = table.get(key, default)
        if isinstance(value, str) and (value or default == ""):
            return value
        self.problem("not-a-name", f"{key} must be a word", where)
        return "?"

    def size(
        self, table: Mapping[str, object], key: str, where: str, default: Fraction | None
    ) -> Fraction:
        if key not in table and default is not None:
            return default
        value = table.get(key)
        size = _fraction(value)
        if size is None:
            self.problem("not-a-size", f"{key} must be a size, not {value!r}", where)
            return Fraction(1)
        return size

    def whole(
        self, table: Mapping[str, object], key: str, where: str, default: int | None
    ) -> int | None:
        value = table.get(key, default)
        if value is None or (isinstance(value, int) and not isinstance(value, bool)):
            return value
        self.problem("not-a-count", f"{key} must be a whole number, not {value!r}", where)
        return default

    def yes(self, table: Mapping[str, object], key: str, where: str) -> bool:
        value = table.get(key, False)
        if isinstance(value, bool):
            return value
        self.problem("not-yes-or-no", f"{key} must be true or false, not {value!r}", where)
        return False


def _plain_decimal(text: str) -> Fraction | str:
    """A decimal exactly; one with an exponent stays text and is refused as a size."""
    return Fraction(text) if set(text) <= set("-0123456789.") else text


def _fraction(value: object) -> Fraction | None:
    """A size: a number, or text as `34 1/2`, `3/4`, `23.5`."""
    if isinstance(value, Fraction):
        return value
    if isinstance(value, int) and not isinstance(value, bool):
        return Fraction(value)
    if not isinstance(value, str) or len(value) > 40 or not set(value) <= set("-0123456789./ "):
        return None
    words = value.split()
    try:
        if len(words) == 2 and "/" in words[1] and words[0].isdecimal():
            return Fraction(words[0]) + Fraction(words[1])
        return Fraction(words[0]) if len(words) == 1 else None
    except (ValueError, ZeroDivisionError):
        return None
