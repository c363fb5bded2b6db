"""Bounds hold: programmes against plain recursion, counts against planted and random lists."""

from collections.abc import Sequence
from fractions import Fraction
from functools import cache
from itertools import pairwise
from random import Random

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.compiler.plan.bounds import area_bound, dual_feasible_bound, reachable_cost
from casewright.compiler.plan.counted import counted_pattern, make_counters, run_counted
from casewright.compiler.plan.dearest import Item, dearest_pattern
from casewright.compiler.plan.guillotine import Board, make_programme, pattern_counts
from casewright.compiler.plan.plan import DEFAULT, Planned, plan_sheets
from casewright.compiler.plan.request import Piece, Request, Saw, Stock
from casewright.compiler.plan.task import Kind, Member, Sort, Task, make_task
from casewright.compiler.plan.verify import verify

from .sawing import saw_plan, wanted

QUICK = evolve(DEFAULT, work=200_000, counted_work=50_000, tries=2)


def dearest_by_hand(
    length: int, width: int, ways: Sequence[tuple[int, int, int]], prices: Sequence[int]
) -> int:
    """Every cut of every board, by plain recursion."""

    @cache
    def worth(x: int, y: int) -> int:
        best = max((prices[k] for a, b, k in ways if a <= x and b <= y), default=0)
        for cut in range(1, x // 2 + 1):
            best = max(best, worth(cut, y) + worth(x - cut, y))
        for cut in range(1, y // 2 + 1):
            best = max(best, worth(x, cut) + worth(x, y - cut))
        return best

    return worth(length, width)


def dearest_counted_by_hand(
    length: int, width: int, ways: Sequence[tuple[int, int, int]], prices: Sequence[int], cap: int
) -> int:
    """The same with at most `cap` pieces of kind 0."""

    @cache
    def worth(x: int, y: int, left: int) -> int:
        best = max((prices[k] for a, b, k in ways if a <= x and b <= y and (k or left)), default=0)
        for share in range(left + 1):
            for cut in range(1, x):
                best = max(best, worth(cut, y, share) + worth(x - cut, y, left - share))
            for cut in range(1, y):
                best = max(best, worth(x, cut, share) + worth(x, y - cut, left - share))
        return best

    return worth(length, width, cap)


kinds = st.lists(
    st.tuples(st.integers(2, 12), st.integers(2, 9), st.integers(0, 50), st.booleans()),
    min_size=1,
    max_size=4,
)


def board_of(
    length: int, width: int, listed: Sequence[tuple[int, int, int, bool]]
) -> tuple[Board, list[tuple[int, int, int]], list[int]]:
    ways = [
        (x, y, number)
        for number, (a, b, _, turn) in enumerate(listed)
        for x, y in ([(a, b), (b, a)] if turn else [(a, b)])
        if x <= length and y <= width
    ]
    columns = tuple(zip(*ways, strict=True)) if ways else ((), (), ())
    return Board(length, width, *columns), ways, [price for _, _, price, _ in listed]


@settings(max_examples=80, deadline=None)
@given(kinds, st.integers(6, 20), st.integers(5, 14))
def test_the_dearest_pattern(
    listed: list[tuple[int, int, int, bool]], length: int, width: int
) -> None:
    """Planner's, verifier's and plain recursion agree, and the pattern read out is as dear."""
    board, ways, prices = board_of(length, width, listed)
    true = dearest_by_hand(length, width, ways, prices)
    worths = make_programme(board).run(prices)
    assert worths.value == true
    counts = pattern_counts(worths, len(prices))
    assert sum(price * count for price, count in zip(prices, counts, strict=True)) == true
    items = [Item(a, b, prices[k], -1) for a, b, k in ways]
    assert dearest_pattern((length, width), items, []) == true


@settings(max_examples=40, deadline=None)
@given(kinds, st.integers(6, 14), st.integers(5, 10), st.integers(0, 2))
def test_the_dearest_counted_pattern(
    listed: list[tuple[int, int, int, bool]], length: int, width: int, cap: int
) -> None:
    board, ways, prices = board_of(length, width, listed)
    true = dearest_counted_by_hand(length, width, ways, prices, cap)
    worths = run_counted(make_programme(board), make_counters({0: cap}), prices)
    assert worths.value == true
    counts = counted_pattern(worths, len(prices))
    assert sum(price * count for price, count in zip(prices, counts, strict=True)) == true
    assert counts[0] <= cap
    items = [Item(a, b, prices[k], 0 if k == 0 else -1) for a, b, k in ways]
    assert dearest_pattern((length, width), items, [cap]) == true


def planted(sheets: int, seed: int) -> Request:
    """Sheets parted without waste by random trees: the pieces with their kerfs fill them."""
    rng = Random(f"planted {sheets} {seed}")

    def parts(whole: int, least: int, most: int) -> list[int]:
        many = min(rng.randint(1, most), whole // least)
        cuts = sorted(rng.randint(0, whole - many * least) for _ in range(many - 1))
        edges = [0, *cuts, whole - many * least]
        return [b - a + least for a, b in pairwise(edges)]

    sizes = [
        (x - 2, part - 2)
        for _ in range(sheets)
        for y in parts(194, 30, 4)
        for x in parts(386, 30, 5)
        for part in parts(y, 15, 2)
    ]
    rng.shuffle(sizes)
    pieces = tuple(
        Piece(f"part {n}", "", Fraction(a), Fraction(b)) for n, (a, b) in enumerate(sizes)
    )
    return Request("mm", pieces, (Stock("sheet", Fraction(384), Fraction(192)),), Saw(Fraction(2)))


@pytest.mark.parametrize(("sheets", "seed"), [(1, 1), (2, 1), (3, 1), (3, 2), (5, 1)])
def test_planted_sheets_are_found_or_the_gap_is_said(sheets: int, seed: int) -> None:
    request = planted(sheets, seed)
    made, problems = plan_sheets(request, QUICK)
    assert problems == []
    assert made is not None
    assert made.verdict.sound
    assert made.verdict.least == sheets
    assert sheets <= made.verdict.cost <= sheets + 1
    assert saw_plan(request, made.plan) == wanted(request, made.plan)


def literature(number: int, pieces: int, seed: int) -> Request:
    """Classes 1 to 6 of Berkey and Wang (1987), 7 to 10 of Martello and Vigo (1998).

    J. Oper. Res. Soc. 38 and Management Science 44; the ranges are from memory.
    """
    rng = Random(f"class {number} {pieces} {seed}")
    side = (10, 30, 40, 100, 100, 300, 100, 100, 100, 100)[number - 1]
    sizes: list[tuple[int, int]] = []
    for _ in range(pieces):
        if number <= 6:
            most = (10, 10, 35, 35, 100, 100)[number - 1]
            sizes.append((rng.randint(1, most), rng.randint(1, most)))
            continue
        others = [t for t in range(4) if t != number - 7]
        kind = number - 7 if rng.random() < 0.7 else rng.choice(others)
        along = ((67, 100), (1, 50), (50, 100), (1, 50))[kind]
        across = ((1, 50), (67, 100), (50, 100), (1, 50))[kind]
        sizes.append((rng.randint(*along), rng.randint(*across)))
    listed = tuple(
        Piece(f"part {n}", "", Fraction(a), Fraction(b)) for n, (a, b) in enumerate(sizes)
    )
    return Request("mm", listed, (Stock("sheet", Fraction(side), Fraction(side)),))


@pytest.mark.parametrize("number", range(1, 11))
def test_classes_of_the_literature(number: int) -> None:
    request = literature(number, 20, 1)
    made, problems = plan_sheets(request, QUICK)
    assert problems == []
    assert made is not None
    assert made.verdict.sound
    assert made.verdict.cost - made.verdict.least <= 1
    assert saw_plan(request, made.plan) == wanted(request, made.plan)


def task_of(sorts: list[tuple[int, int | None, int]]) -> Task:
    kind = Kind(1, 1, 1, False, (Member("part", 1, False),))
    listed = tuple(
        Sort(n, size, 1, copies, cost, "rip") for n, (size, copies, cost) in enumerate(sorts)
    )
    return Task((kind,), listed, 0, Fraction(1), Fraction(1), tuple("abc"[: len(sorts)]))


@pytest.mark.parametrize(
    ("sorts", "least", "cost"),
    [
        ([(10, None, 1)], Fraction(5, 2), 3),
        ([(10, None, 4)], Fraction(5), 8),
        ([(10, None, 4), (3, 1, 1)], Fraction(9, 2), 5),
        ([(10, None, 5), (12, None, 9)], Fraction(25, 3), 9),
        ([(10, 2, 5)], Fraction(6), 10),
    ],
)
def test_a_cost_that_sheets_can_have(
    sorts: list[tuple[int, int | None, int]], least: Fraction, cost: int
) -> None:
    assert reachable_cost(task_of(sorts), least) == cost


def test_area_is_bought_where_it_is_cheapest() -> None:
    """Ten units of area: one offcut of 4 at 1, then 6 of new sheets of 10 at 5 (computed)."""
    kind = Kind(10, 1, 1, False, (Member("part", 1, False),))
    task = evolve(task_of([(10, None, 5), (4, 1, 1)]), kinds=(kind,))
    assert area_bound(task).cost == 5


def test_big_pieces_need_a_sheet_each() -> None:
    """Five pieces over half each way: area says 2, a dual feasible function 5."""
    pieces = (Piece("door", "", Fraction(51), Fraction(31), 5),)
    request = Request("mm", pieces, (Stock("sheet", Fraction(100), Fraction(60)),))
    task = make_task(request)
    assert area_bound(task).cost == 2
    assert dual_feasible_bound(task).cost == 5


def small(sizes: list[tuple[int, int, int, bool]]) -> Planned:
    pieces = tuple(
        Piece(f"part {n}", "T", Fraction(a), Fraction(b), many, turn)
        for n, (a, b, many, turn) in enumerate(sizes)
    )
    stock = (Stock("sheet", Fraction(100), Fraction(60)),)
    made, problems = plan_sheets(Request("mm", pieces, stock, Saw(Fraction(2))))
    assert problems == []
    assert made is not None
    assert made.verdict.sound
    assert made.verdict.cost == made.verdict.least
    return made


@pytest.fixture(scope="module")
def priced() -> Planned:
    made = small([(47, 23, 3, False), (26, 12, 4, False)])
    assert "\nbound prices\n" in made.certificate
    return made


@pytest.fixture(scope="module")
def counted() -> Planned:
    made = small([(15, 40, 4, False), (37, 27, 1, False), (41, 40, 2, False), (9, 24, 4, False)])
    assert "\ncounted " in made.certificate
    return made


def changed_line(text: str, word: str, change: str) -> str:
    """The certificate with the last figure of the first such line made another."""
    lines = text.splitlines()
    at = next(n for n, line in enumerate(lines) if line.startswith(word))
    fields = lines[at].split(" ")
    place = 1 if word == "dearest" else -1
    fields[place] = str(eval_change(int(fields[place]), change))
    lines[at] = " ".join(fields)
    return "\n".join(lines) + "\n"


def eval_change(value: int, change: str) -> int:
    return {"double": 2 * value, "less": value - 1, "negative": -value}[change]


@pytest.mark.parametrize(
    ("word", "change", "slug"),
    [
        ("price", "double", "price-wrong"),
        ("price", "negative", "price-wrong"),
        ("dearest", "less", "price-wrong"),
        ("dearest", "double", "bound-too-high"),
        ("least", "double", "bound-too-high"),
    ],
)
def test_changed_prices_are_found(priced: Planned, word: str, change: str, slug: str) -> None:
    text = changed_line(priced.certificate, word, change)
    found = verify(priced.request, priced.plan, text).problems
    assert [problem.slug for problem in found] == [slug]


def test_a_counted_kind_left_out_is_found(counted: Planned) -> None:
    lines = counted.certificate.splitlines()
    text = "\n".join(line for line in lines if not line.startswith("counted ")) + "\n"
    found = verify(counted.request, counted.plan, text).problems
    assert [problem.slug for problem in found] == ["price-wrong"]


def test_a_price_for_a_size_nobody_asked_for_is_found(priced: Planned) -> None:
    text = priced.certificate.replace("price 47 23", "price 47 24")
    found = verify(priced.request, priced.plan, text).problems
    assert [problem.slug for problem in found] == ["price-wrong"]
