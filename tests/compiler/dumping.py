"""A built job as plain text, so that two builds can be compared whole."""

import json
from collections.abc import Mapping
from enum import Enum
from fractions import Fraction
from typing import Any

from attrs import fields, has

from casewright.compiler.blame import Blame
from casewright.lang.cells import Quantity
from casewright.lang.source import Own, Source, Span


def dumped(value: object) -> str:
    """`value` as sorted text: quantities by their exact value, places by file and line."""
    return json.dumps(plain(value), indent=1, sort_keys=True)


def plain(value: object) -> object:
    """`value` in lists, texts and mappings; what can't be shown so is a TypeError."""
    match value:
        case None | bool() | int() | str():
            return value
        case Fraction():
            return str(value)
        case Quantity():
            return f"{value.value} {value.dimension.value}{' off' if value.off else ''}"
        case Span():
            return f"{value.where}:{value.column}+{value.end - value.start}"
        case Own():
            return f"own {value.index}"
        case Source():
            return value.label
        case Enum():
            return value.name
        case Blame():
            return value.finding.headline
        case Mapping():
            return {str(key): plain(each) for key, each in value.items()}
        case frozenset():
            return sorted(str(plain(each)) for each in value)
        case tuple() | list():
            return [plain(each) for each in value]
        case _ if has(type(value)):
            kind: Any = type(value)
            return {field.name: plain(getattr(value, field.name)) for field in fields(kind)}
        case _:
            raise TypeError(f"{type(value).__name__} has no plain form")
