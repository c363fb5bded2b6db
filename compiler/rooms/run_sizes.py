"""How wide each thing of a run becomes: what is pinned splits what is left, shares divide it, and
what has limits gives or takes within them."""

from collections.abc import Sequence
from fractions import Fraction

from casewright.compiler.construct.shares import divide_in_shares
from casewright.compiler.rooms.run_items import Item, half
from casewright.compiler.rooms.run_sums import misfit, no_share, past_end
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
        divide their own. Places the items are pinned to are along the wall, `start` too."""
        begin = literal(0)
        waiting: list[Item] = []
        last: Item | None = None
        for item in items:
            if item.centre is not None and item.fixed is not None:
                item.left = subtract(_less(item.centre, start), half(item.fixed))
            elif item.left is not None:
                item.left = _less(item.left, start)
            if item.left is None:
                waiting.append(item)
                continue
            item.width = item.fixed
            self._divide(waiting, _less(item.left, begin), f"left of {item.name}", last, item)
            waiting, last = [], item
            begin = add(item.left, item.fixed or literal(0))
        what = f"right of {last.name}" if last is not None else self.run.name
        self._divide(waiting, _less(space, begin), what, last, None)
        astray = [each for each in self.findings if each.slug == "pinned-out-of-place"]
        self.findings = astray or self.findings

    def _divide(
        self,
        items: Sequence[Item],
        room: Quantity,
        what: str,
        after: Item | None,
        before: Item | None,
    ) -> None:
        """Sizes the items between two that are pinned, or an end of the run (None)."""
        if room.value < 0 and not items:
            self.findings.append(past_end(self.run, room, after, before, self.printing))
            return
        left = room
        for item in items:
            if item.fixed is not None:
                item.width = item.fixed
                left = subtract(left, item.fixed)
        sharing = [item for item in items if item.fixed is None]
        if sharing:
            left, waiting = self._share(sharing, left)
            left = left if waiting else self._give(items, left)
            if waiting or left.value != 0:
                self.findings.append(no_share(items, sharing, room, left, what, self.printing))
            return
        left = self._give(items, left)
        if left.value != 0:
            pinned = before or after
            self.findings.append(
                misfit(self.run, items, room, left, what if pinned else "", self.printing)
            )

    def _share(self, sharing: Sequence[Item], left: Quantity) -> tuple[Quantity, bool]:
        """Divides `left`, clamping to least and most and dividing again. What is left when all are
        clamped, and whether some item got nothing."""
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
            return literal(0), False
        for item in active:
            item.width = None
        return left, bool(active)

    def _give(self, items: Sequence[Item], left: Quantity) -> Quantity:
        """Lets items of a stated width give or take what is left, evenly and within the limits
        they state; without a limit on one side they don't move that way."""
        active = [
            item
            for item in items
            if item.fixed is not None and (item.most if left.value > 0 else item.least) is not None
        ]
        while active and left.value != 0:
            each = left.value / len(active)
            clamped = []
            for item in active:
                bound = item.most if left.value > 0 else item.least
                assert bound is not None, "only items with a limit this way are asked"
                assert item.fixed is not None, "only items of a stated width are asked"
                if abs(bound.value - item.fixed.value) <= abs(each):
                    clamped.append(item)
                    item.width = bound
                    left = subtract(left, subtract(bound, item.fixed))
            if not clamped:
                changes = divide_in_shares(left, [1] * len(active), self.precision)
                for item, change in zip(active, changes, strict=True):
                    assert item.fixed is not None, "only items of a stated width are asked"
                    item.width = add(item.fixed, change)
                return literal(0)
            active = [item for item in active if item not in clamped]
        return left


def _less(whole: Quantity, part: Quantity) -> Quantity:
    """`whole` less `part`, of which nothing is said where it is nothing."""
    return subtract(whole, part) if part.value != 0 else whole
