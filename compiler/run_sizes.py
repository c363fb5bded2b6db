"""How wide each thing of a run becomes: what is pinned splits what is left, shares divide it."""

from collections.abc import Sequence
from fractions import Fraction

from casewright.compiler.construct.shares import divide_in_shares
from casewright.compiler.run_items import Item, half
from casewright.compiler.run_sums import misfit, no_share
from casewright.lang.cells import Quantity, add, literal, subtract
from casewright.lang.findings import Finding
from casewright.lang.printing import Printing
from casewright.lang.shape import Statement


class Sizer:
    """Sizes the items of one run; `findings` holds why they don't come out."""

    def __init__(self, run: Statement, precision: Quantity, printing: Printing) -> None:
        self.run = run
        self.precision = precision
        self.printing = printing
        self.findings: list[Finding] = []

    def size(self, items: Sequence[Item], space: Quantity, start: Quantity) -> None:
        """Gives every item its width: a pinned one splits what is left, and each side's shares
        divide their own."""
        begin = literal(0, label="the run's left end")
        waiting: list[Item] = []
        for item in items:
            if item.centre is not None and item.fixed is not None:
                item.left = subtract(subtract(item.centre, start), half(item.fixed))
            elif item.left is not None:
                item.left = subtract(item.left, start)
            if item.left is None:
                waiting.append(item)
                continue
            item.width = item.fixed
            self._divide(waiting, subtract(item.left, begin), f"left of {item.address}")
            waiting = []
            begin = add(item.left, item.fixed or literal(0))
        self._divide(waiting, subtract(space, begin), self.run.name)

    def _divide(self, items: Sequence[Item], room: Quantity, what: str) -> None:
        left = room
        for item in items:
            if item.fixed is not None:
                item.width = item.fixed
                left = subtract(left, item.fixed)
        sharing = [item for item in items if item.fixed is None]
        if sharing:
            self._share(items, sharing, room, left, what)
        elif left.value != 0:
            self._report(misfit(self.run, items, room, left, what, self.printing))

    def _share(
        self,
        items: Sequence[Item],
        sharing: Sequence[Item],
        room: Quantity,
        left: Quantity,
        what: str,
    ) -> None:
        """Divides `left`, clamping to least and most and dividing again."""
        active = list(sharing)
        while active:
            total = sum(item.shares for item in active)
            each = left.value / total
            over = Fraction(0)
            least_hit: list[Item] = []
            most_hit: list[Item] = []
            for item in active:
                size = each * item.shares
                if item.least is not None and size < item.least.value:
                    least_hit.append(item)
                    over += item.least.value - size
                elif item.most is not None and size > item.most.value:
                    most_hit.append(item)
                    over += item.most.value - size
            clamped = least_hit if over > 0 else most_hit if over < 0 else []
            if not clamped:
                break
            for item in clamped:
                bound = item.least if clamped is least_hit else item.most
                assert bound is not None, "an item is clamped to a bound it has"
                item.width = bound
                left = subtract(left, bound)
                active.remove(item)
        if active and left.value > 0:
            sizes = divide_in_shares(left, [item.shares for item in active], self.precision)
            for item, width in zip(active, sizes, strict=True):
                item.width = width
            return
        if active or left.value != 0:
            self._report(no_share(items, sharing, room, left, what, self.printing))
        for item in active:
            item.width = None

    def _report(self, finding: Finding | None) -> None:
        if finding is not None:
            self.findings.append(finding)
