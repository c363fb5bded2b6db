"""Figures worked out again from the reads of an explanation, with plain fractions.

Nothing of ours is imported here: what stands in the JSON is all that is known.
"""

import re
from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from functools import reduce
from math import floor
from typing import Any

READ = re.compile(
    r"(?:(?P<feet>[0-9]+)(?:'|ft))?[ ]*"
    r"(?:(?P<whole>[0-9]+(?:\.[0-9]+)?)(?![0-9]*/))?[ ]*"
    r"(?:(?P<above>[0-9]+)/(?P<below>[0-9]+))?"
    r"(?P<unit>\"|in|mm)?"
)
"""A written length, as the trade writes it."""


def as_written(text: str, bare: Fraction) -> Fraction | None:
    """The inches that a written length says; a bare number is so many times `bare`. None for
    words and for what is no length."""
    found = READ.fullmatch(" ".join(text.split()))
    if found is None or not any(found[each] for each in ("feet", "whole", "above")):
        return None
    value = Fraction(found["whole"] or 0)
    if found["above"]:
        value += Fraction(int(found["above"]), int(found["below"]))
    if found["unit"] == "mm":
        value = value * 10 / 254
    elif found["unit"] is None and not found["feet"]:
        value *= bare
    return value + 12 * int(found["feet"] or 0)


def to_step(values: Sequence[Fraction]) -> Fraction:
    """The nearest multiple of a step, ties up."""
    value, step = values
    return floor(value / step + Fraction(1, 2)) * step


WORKED: Mapping[str, Callable[[Sequence[Fraction]], Fraction]] = {
    "named": lambda values: values[0],
    "+": sum,  # type: ignore[dict-item]
    "-": lambda values: reduce(lambda left, right: left - right, values),
    "*": lambda values: reduce(lambda left, right: left * right, values),
    "/": lambda values: reduce(lambda left, right: left / right, values),
    "negate": lambda values: -values[0],
    "nearest": to_step,
    "least": min,
    "most": max,
}
"""What each operator of the published schema does."""


def recomputed(reads: Sequence[Mapping[str, Any]]) -> tuple[list[Fraction], int]:
    """Every figure of the reads worked out from literals alone, and how many literals there are.

    Raises AssertionError where one is worth something else than the explanation says, where an
    input was never bound, or where a figure is read before it is made.
    """
    values: list[Fraction] = []
    literals = 0
    for read in reads:
        said = Fraction(read["value"]["exact"])
        if read["operator"] == "literal":
            literals += 1
            assert read["inputs"] == []
            values.append(said)
            continue
        assert read["operator"] in WORKED, f"{read['name']} is still an {read['operator']}"
        inputs = [values[position] for position in read["inputs"]]
        values.append(Fraction(WORKED[read["operator"]](inputs)))
        assert values[-1] == said, f"{read['name']}: {values[-1]} is not {said}"
    return values, literals
