"""A share of what is left: how a length is divided so that the sum is exact."""

from collections.abc import Sequence
from fractions import Fraction

from attrs import evolve

from casewright.lang.cells import Quantity, divide, literal, scale, subtract, to_nearest
from casewright.lang.measure import Dimension

SHARES = "shares"
"""Labels the number of shares a length is divided into, so that a share can be told by it."""


def divide_in_shares(left: Quantity, shares: Sequence[int], step: Quantity) -> tuple[Quantity, ...]:
    """`left` in parts of so many shares each.

    The running total is rounded to the nearest `step` (ties up), so that no two equal shares
    differ by more than one step and the sum is exact; where `left` itself is off the step, the
    last share takes the rest and is marked.
    """
    total = sum(shares)
    sizes: list[Quantity] = []
    before: Quantity | None = None
    running = 0
    for index, count in enumerate(shares):
        running += count
        if index == len(shares) - 1:
            end = left
        else:
            part = scale(left, literal(Fraction(running), Dimension.COUNT), Dimension.LENGTH)
            whole = literal(Fraction(total), Dimension.COUNT, None, SHARES)
            end = to_nearest(divide(part, whole, Dimension.LENGTH), step)
        size = end if before is None else subtract(end, before)
        sizes.append(size)
        before = end
    if sizes and left.value % step.value != 0:
        sizes[-1] = evolve(sizes[-1], off=True)
    return tuple(sizes)
