"""What a plan may cost in work, counted and never timed: the same request gets the same plan.

The unit is a thousand table cells, about two microseconds. What isn't table cells is counted as so
many of them as take about as long.
"""

from attrs import define


@define
class Work:
    """An allowance that phases draw on; a part of it draws on the whole as well."""

    left: int
    whole: "Work | None" = None

    def take(self, amount: int) -> None:
        """Counts work that was done; the last of it may go beyond what was left."""
        self.left -= amount
        if self.whole is not None:
            self.whole.take(amount)

    def part(self, most: int) -> "Work":
        """An allowance of at most so much of what is left."""
        return Work(max(0, min(most, self.left)), self)


def columns_work(kinds: int) -> int:
    """What the relaxed master of whole sheets takes once, solved anew with a few more of them."""
    return 1 + kinds * kinds // 10


def look_work(rows: int, columns: int) -> int:
    """What the integer solver does from one look at its limits to the next, about."""
    return 12 * (rows + columns)
