"""The dearest sheet of three stages: planner's, verifier's and plain recursion agree."""

from collections.abc import Sequence
from fractions import Fraction
from functools import cache

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.compiler.plan.bounds import Bound
from casewright.compiler.plan.certificate import write_certificate
from casewright.compiler.plan.columns import make_pricer
from casewright.compiler.plan.counted import make_counters
from casewright.compiler.plan.dearest import Item, dearest_of_three_stages, dearest_pattern
from casewright.compiler.plan.layout import counts_of
from casewright.compiler.plan.plan import Planned, plan_sheets
from casewright.compiler.plan.proof import check_certificate
from casewright.compiler.plan.request import Piece, Request, Saw, Stock
from casewright.compiler.plan.staged import run_staged, staged_layout
from casewright.compiler.plan.task import items_of, make_task
from casewright.compiler.plan.verify import verify
from casewright.compiler.plan.words import headline

Ways = Sequence[tuple[int, int, int]]


def dearest_by_hand(
    length: int, width: int, ways: Ways, prices: Sequence[int], caps: tuple[int, ...]
) -> int:
    """Every strip, every block and every piece in it, by plain recursion; `caps` are how often
    the first kinds may be used."""

    def shares(left: tuple[int, ...]) -> list[tuple[int, ...]]:
        found: list[tuple[int, ...]] = [()]
        for count in left:
            found = [(*share, n) for share in found for n in range(count + 1)]
        return found

    def less(left: tuple[int, ...], taken: tuple[int, ...]) -> tuple[int, ...]:
        return tuple(a - b for a, b in zip(left, taken, strict=True))

    @cache
    def block(x: int, y: int, left: tuple[int, ...]) -> int:
        best = 0
        for a, b, k in ways:
            if a <= x and b <= y and (k >= len(left) or left[k]):
                one = tuple(int(at == k) for at in range(len(left)))
                best = max(best, prices[k] + block(x, y - b, less(left, one)))
        return best

    @cache
    def strip(x: int, y: int, left: tuple[int, ...]) -> int:
        best = 0
        for cut in range(1, x + 1):
            for share in shares(left):
                best = max(best, block(cut, y, share) + strip(x - cut, y, less(left, share)))
        return best

    @cache
    def sheet(y: int, left: tuple[int, ...]) -> int:
        best = 0
        for cut in range(1, y + 1):
            for share in shares(left):
                best = max(best, strip(length, cut, share) + sheet(y - cut, less(left, share)))
        return best

    return sheet(width, caps)


kinds = st.lists(
    st.tuples(st.integers(2, 7), st.integers(2, 6), st.integers(1, 50), st.booleans()),
    min_size=1,
    max_size=3,
    unique_by=lambda kind: (kind[0], kind[1]),
)


@settings(max_examples=40, deadline=None)
@given(kinds, st.integers(7, 11), st.integers(6, 8), st.integers(0, 2))
def test_the_dearest_sheet(
    listed: list[tuple[int, int, int, bool]], length: int, width: int, cap: int
) -> None:
    pieces = tuple(
        Piece(f"part {n}", "", Fraction(a), Fraction(b), 2, turn)
        for n, (a, b, _, turn) in enumerate(listed)
    )
    task = make_task(Request("mm", pieces, (Stock("s", Fraction(length), Fraction(width)),)))
    price_of = {f"part {n}": price for n, (_, _, price, _) in enumerate(listed)}
    prices = [price_of[kind.members[0].address] for kind in task.kinds]
    ways = [(item.x, item.y, item.kind) for item in items_of(task, task.sorts[0])]
    # The task counts in steps of what all sizes have in common.
    sheet = task.sorts[0]
    true = dearest_by_hand(sheet.length, sheet.width, ways, prices, (cap,))
    worths = run_staged(make_pricer(task, 0), make_counters({0: cap}), prices)
    assert worths.value == true
    counts = counts_of([staged_layout(worths)], len(prices))
    assert sum(price * count for price, count in zip(prices, counts, strict=True)) == true
    assert counts[0] <= cap
    items = [Item(x, y, prices[k], 0 if k == 0 else -1) for x, y, k in ways]
    steps = (sheet.length, sheet.width)
    assert dearest_of_three_stages(steps, items, [cap]) == true
    assert true <= dearest_pattern(steps, items, [cap])


def spiral() -> Request:
    """Five pieces that fill a sheet by cuts right through, but in four stages only."""
    sizes = [(12, 4), (5, 8), (7, 3), (3, 5), (4, 5)]
    pieces = tuple(
        Piece(f"part {n}", "", Fraction(a), Fraction(b)) for n, (a, b) in enumerate(sizes)
    )
    return Request("mm", pieces, (Stock("sheet", Fraction(12), Fraction(12)),), Saw())


@pytest.fixture(scope="module")
def planned() -> Planned:
    made, problems = plan_sheets(spiral())
    assert problems == []
    assert made is not None
    assert made.verdict.sound
    return made


def test_a_certificate_of_three_stages_is_for_these_alone() -> None:
    request = spiral()
    task = make_task(request)
    prices = [kind.length * kind.width for kind in task.kinds]
    items = [Item(k.length, k.width, k.length * k.width, n) for n, k in enumerate(task.kinds)]
    caps = [1] * len(items)
    three = dearest_of_three_stages((12, 12), items, caps)
    assert three < dearest_pattern((12, 12), items, caps) == 144
    counted = tuple(range(len(items)))
    bound = Bound(2, "prices", prices=tuple(prices), values=(three,), counted=counted, stages=3)
    text = write_certificate(request, task, bound)
    assert check_certificate(request, text) == (2, [])
    # For any number of stages the same prices show nothing.
    other = text.replace("stages 3\n", "")
    assert [each.slug for each in check_certificate(request, other)[1]] == ["price-wrong"]
    other = text.replace("stages 3\n", "stages 4\n")
    assert [each.slug for each in check_certificate(request, other)[1]] == [
        "certificate-unreadable"
    ]
    other = text.replace(f"dearest {three} ", f"dearest {three - 1} ")
    assert [each.slug for each in check_certificate(request, other)[1]] == ["price-wrong"]


def test_what_holds_for_three_stages_alone_is_said_so(planned: Planned) -> None:
    verdict = evolve(planned.verdict, cost=Fraction(2), least=Fraction(2), staged=True)
    said = headline(planned.request, planned.plan, verdict)
    assert said == "2 sheets, and 1 can't do in three stages"
    verdict = evolve(verdict, cost=Fraction(3))
    said = headline(planned.request, planned.plan, verdict)
    assert said == "3 planned; fewer than 2 is impossible in three stages; 2 is open"


def test_the_planner_says_three_stages_where_four_would_do(planned: Planned) -> None:
    assert (planned.verdict.cost, planned.verdict.least) == (2, 2)
    assert planned.verdict.staged
    assert "scope through cuts in three stages and a trimming cut" in planned.certificate
    assert verify(planned.request, planned.plan, planned.certificate).sound
