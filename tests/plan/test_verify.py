"""A sound plan passes; a plan or certificate that was tampered with doesn't."""

import ast
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest
from attrs import evolve

from casewright.compiler.plan import verify as verify_module
from casewright.compiler.plan.certificate import request_mark
from casewright.compiler.plan.plan import Planned, plan_sheets
from casewright.compiler.plan.proof import check_certificate
from casewright.compiler.plan.request import Piece, Request, Saw, Stock, Trim
from casewright.compiler.plan.tree import CutPlan, Node, plan_document, read_plan
from casewright.compiler.plan.verify import verify


def small_request() -> Request:
    """Two sheets' worth of a base unit's parts, one of them free to turn."""
    inch = Fraction(1)
    return Request(
        "in",
        (
            Piece("side", "S1", Fraction(69, 2), Fraction(95, 4), 4),
            Piece("floor", "S1", Fraction(45, 2), Fraction(95, 4), 2),
            Piece("shelf", "S1", Fraction(179, 8), 23 * inch, 1),
            Piece("cleat", "S1", Fraction(45, 2), 4 * inch, 4, turn=True),
        ),
        (Stock("ply", 96 * inch, 48 * inch),),
        Saw(Fraction(1, 8), Trim(Fraction(1, 8), Fraction(0), Fraction(1, 8), Fraction(1, 8))),
    )


@pytest.fixture(scope="module")
def planned() -> Planned:
    made, problems = plan_sheets(small_request())
    assert problems == []
    assert made is not None
    return made


def on_nodes(plan: CutPlan, change: Callable[[Node], Node | None]) -> CutPlan:
    """The plan with the first node changed for which `change` gives another."""
    done = False

    def walk(node: Node) -> Node:
        nonlocal done
        if not done:
            other = change(node)
            if other is not None:
                done = True
                return other
        return evolve(node, children=tuple(walk(child) for child in node.children))

    sheets = tuple(evolve(sheet, root=walk(sheet.root)) for sheet in plan.sheets)
    assert done
    return evolve(plan, sheets=sheets)


def slugs(planned: Planned, plan: CutPlan) -> set[str]:
    found = verify(planned.request, plan, planned.certificate).problems
    return {problem.slug for problem in found}


def test_a_sound_plan_passes(planned: Planned) -> None:
    assert planned.verdict.sound
    assert planned.verdict.cost == 2
    assert planned.verdict.least == 2


def waste(node: Node) -> Node | None:
    return evolve(node, use="waste", piece="") if node.use == "piece" else None


def twice(node: Node) -> Node | None:
    return evolve(node, piece="S1.side") if node.piece == "S1.floor" else None


def turned(node: Node) -> Node | None:
    if node.piece != "S1.side":
        return None
    return evolve(node, length=node.width, width=node.length, turned=True)


def wider(node: Node) -> Node | None:
    return evolve(node, width=node.width + 1) if node.use == "piece" else None


def other_cut(node: Node) -> Node | None:
    return evolve(node, cut="crosscut") if node.cut == "rip" else None


def no_cut(node: Node) -> Node | None:
    return evolve(node, cut="saw") if node.cut else None


def forgotten(node: Node) -> Node | None:
    if any(child.use in ("waste", "offcut") for child in node.children):
        kept = tuple(c for c in node.children if c.use not in ("waste", "offcut"))
        return evolve(node, children=kept) if kept else None
    return None


def no_kerf(node: Node) -> Node | None:
    """Grows the last board by the kerf that was taken before it."""
    if node.cut == "crosscut" and len(node.children) > 1 and node.children[-1].use != "piece":
        last = evolve(node.children[-1], length=node.children[-1].length + 1)
        return evolve(node, children=(*node.children[:-1], last))
    return None


def unknown(node: Node) -> Node | None:
    return evolve(node, piece="S9.door") if node.use == "piece" else None


@pytest.mark.parametrize(
    ("change", "slug"),
    [
        (waste, "piece-count"),
        (twice, "piece-count"),
        (twice, "piece-size"),
        (turned, "grain-turned"),
        (wider, "piece-size"),
        (wider, "not-a-through-cut"),
        (other_cut, "not-a-through-cut"),
        (no_cut, "not-a-cut"),
        (forgotten, "board-forgotten"),
        (no_kerf, "kerf-not-kept"),
        (unknown, "piece-unknown"),
    ],
)
def test_a_changed_board_is_found(
    planned: Planned, change: Callable[[Node], Node | None], slug: str
) -> None:
    assert slug in slugs(planned, on_nodes(planned.plan, change))


def test_a_sheet_left_out_is_found(planned: Planned) -> None:
    plan = evolve(planned.plan, sheets=planned.plan.sheets[1:])
    assert slugs(planned, plan) == {"piece-count"}


def test_a_larger_sheet_is_found(planned: Planned) -> None:
    first = planned.plan.sheets[0]
    root = evolve(first.root, length=first.root.length + 8)
    plan = evolve(planned.plan, sheets=(evolve(first, root=root), *planned.plan.sheets[1:]))
    assert "not-the-usable-sheet" in slugs(planned, plan)


def test_another_kerf_is_found(planned: Planned) -> None:
    assert slugs(planned, evolve(planned.plan, kerf=0)) == {"kerf-not-kept"}


def test_another_stock_is_found(planned: Planned) -> None:
    first = evolve(planned.plan.sheets[0], stock="maple")
    plan = evolve(planned.plan, sheets=(first, *planned.plan.sheets[1:]))
    assert "stock-unknown" in slugs(planned, plan)


def test_more_copies_than_there_are_are_found(planned: Planned) -> None:
    few = evolve(planned.request, stock=(evolve(planned.request.stock[0], copies=1),))
    found = verify(few, planned.plan, planned.certificate).problems
    assert "stock-short" in {problem.slug for problem in found}


def halved(length: int, width: int, rip: bool, deep: int) -> Node:
    """A board halved over and over, one half going on in the other direction."""
    if deep == 0:
        return Node(length, width, use="waste")
    short, narrow = (length, width // 2) if rip else (length // 2, width)
    return Node(
        length,
        width,
        "rip" if rip else "crosscut",
        (Node(short, narrow, use="waste"), halved(short, narrow, not rip, deep - 1)),
    )


@pytest.mark.parametrize(
    ("deep", "first", "rip", "found"),
    [
        (4, "rip", True, False),
        (5, "rip", True, True),
        (4, "rip", False, True),
        (4, "crosscut", False, False),
        (4, "either", False, False),
        (5, "either", False, True),
    ],
)
def test_a_stage_too_many_is_found(deep: int, first: str, rip: bool, found: bool) -> None:
    request = Request(
        "mm",
        (Piece("part", "", Fraction(1), Fraction(1)),),
        (Stock("board", Fraction(64), Fraction(64)),),
        Saw(first=first),
    )
    made, _ = plan_sheets(request)
    assert made is not None
    sheet = evolve(made.plan.sheets[0], root=halved(64, 64, rip, deep))
    verdict = verify(request, evolve(made.plan, sheets=(sheet,)), made.certificate)
    assert ("too-many-stages" in {p.slug for p in verdict.problems}) is found


CERTIFICATE_CHANGES = [
    ("certificate 1", "certificate 2", "certificate-unreadable"),
    ("least 2", "least 3", "bound-too-high"),
    ("least 2", "least two", "certificate-unreadable"),
    ("least 2\n", "", "certificate-unreadable"),
    ("bound ", "bound best-", "certificate-unreadable"),
    ("list ", "list 0", "other-list"),
]


@pytest.mark.parametrize(("old", "new", "slug"), CERTIFICATE_CHANGES)
def test_a_changed_certificate_is_found(planned: Planned, old: str, new: str, slug: str) -> None:
    text = planned.certificate.replace(old, new, 1)
    assert text != planned.certificate
    found = verify(planned.request, planned.plan, text).problems
    assert [problem.slug for problem in found] == [slug]


def test_the_check_imports_nothing_of_the_planner() -> None:
    folder = Path(verify_module.__file__).parent
    allowed = {"request", "tree", "proof", "dearest"}
    for name in ("verify", *allowed):
        for node in ast.walk(ast.parse((folder / f"{name}.py").read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("casewright"):
                assert (node.module or "").rpartition(".")[2] in allowed


def many_sizes(quantity: int) -> Request:
    """Twelve sizes, each asked for often."""
    pieces = tuple(
        Piece(f"part {n}", "", Fraction(9 + n), Fraction(5 + n), quantity) for n in range(12)
    )
    return Request("in", pieces, (Stock("ply", Fraction(96), Fraction(48)),))


def forged(request: Request, price: str, counted: bool) -> str:
    """A certificate that prices every size, and counts each of them too."""
    sizes = [f"{p.length} {p.width} grain" for p in request.pieces]
    lines = ["certificate 1", f"list {request_mark(request)}", "bound prices"]
    lines += [f"price {size} {price}" for size in sizes]
    lines += [f"counted {size}" for size in sizes if counted]
    return "\n".join([*lines, f"dearest {price} ply", "least 50"]) + "\n"


def test_a_certificate_that_would_take_for_ever_is_refused() -> None:
    request = many_sizes(40)
    _, problems = check_certificate(request, forged(request, "1", counted=True))
    assert [problem.slug for problem in problems] == ["too-much-work"]


def test_prices_that_pass_what_the_tables_hold_are_refused() -> None:
    request = many_sizes(40)
    _, problems = check_certificate(request, forged(request, str(1 << 62), counted=False))
    assert [problem.slug for problem in problems] == ["too-much-work"]
    _, problems = check_certificate(request, forged(request, "1000", counted=False))
    assert [problem.slug for problem in problems] == ["price-wrong"]


@pytest.mark.parametrize("least", ["1e999999999", "-3", "2.5", "1/0", "9" * 60])
def test_figures_without_a_bound_are_no_figures(planned: Planned, least: str) -> None:
    text = planned.certificate.replace("least 2", f"least {least}")
    found = verify(planned.request, planned.plan, text).problems
    assert [problem.slug for problem in found] == ["certificate-unreadable"]


def test_a_step_without_a_bound_is_no_plan(planned: Planned) -> None:
    document = plan_document(planned.plan)
    assert read_plan(document) == planned.plan
    assert read_plan({**document, "step": "1e999999999"}) is None


def test_a_choice_of_sheets_is_rounded_up_in_bounded_time() -> None:
    request = Request(
        "in",
        (Piece("part", "", Fraction(1), Fraction(1), 4_000),),
        (
            Stock("one", Fraction(2), Fraction(2), cost=Fraction(1, 1000)),
            Stock("two", Fraction(2), Fraction(2), cost=Fraction(1, 999)),
        ),
    )
    text = f"certificate 1\nlist {request_mark(request)}\nbound area\nleast 1\n"
    assert check_certificate(request, text) == (1, [])
