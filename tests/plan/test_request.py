"""Lists as JSON: what is read, what is refused and how it is said."""

import json
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.compiler.plan.reading import read_request
from casewright.compiler.plan.request import (
    Piece,
    Request,
    Saw,
    Stock,
    Trim,
    write_request,
)

GOOD = {
    "measure": "in",
    "saw": {"kerf": "1/8", "trim": {"fence": "1/4", "far": 0.25}, "least_strip": 2, "first": "rip"},
    "keep_length": "24",
    "stock": [{"name": "maple ply", "length": 96, "width": "48"}],
    "pieces": [
        {"name": "left side", "unit": "S1", "length": "34 1/2", "width": "23.875", "quantity": 2},
        {"name": "cleat", "length": 22.5, "width": 4, "turn": True},
    ],
}


def test_a_good_list_is_read() -> None:
    request, problems = read_request(json.dumps(GOOD))
    assert problems == []
    assert request == Request(
        "in",
        (
            Piece("left side", "S1", Fraction(69, 2), Fraction(191, 8), 2),
            Piece("cleat", "", Fraction(45, 2), Fraction(4), 1, turn=True),
        ),
        (Stock("maple ply", Fraction(96), Fraction(48)),),
        Saw(Fraction(1, 8), Trim(Fraction(1, 4), Fraction(1, 4)), Fraction(2)),
        keep_length=Fraction(24),
    )
    assert [piece.address for piece in request.pieces] == ["S1.left side", "cleat"]
    assert request.grid == Fraction(1, 8)


def changed(path: list[str | int], value: object) -> str:
    document = json.loads(json.dumps(GOOD))
    place = document
    for key in path[:-1]:
        place = place[key]
    place[path[-1]] = value
    return json.dumps(document)


@pytest.mark.parametrize(
    ("path", "value", "slug"),
    [
        (["measure"], "ell", "measure-unknown"),
        (["saw", "kerf"], "-1/8", "size-negative"),
        (["saw", "kerf"], "1/100", "finer-than-grid"),
        (["saw", "kerf"], "thin", "not-a-size"),
        (["saw", "first"], "zigzag", "first-cut-unknown"),
        (["saw", "blade"], 1, "field-unknown"),
        (["saw", "trim", "fence"], 48, "trim-eats-stock"),
        (["saw"], [], "not-a-table"),
        (["stock"], [], "stock-missing"),
        (["stock"], {}, "not-a-list"),
        (["stock", 0, "length"], 0, "size-not-positive"),
        (["stock", 0, "length"], "1e9", "not-a-size"),
        (["stock", 0, "length"], 100_000, "stock-too-large"),
        (["stock", 0, "copies"], -1, "copies-negative"),
        (["stock", 0, "copies"], 1.5, "not-a-count"),
        (["stock", 0, "cost"], 0, "price-not-positive"),
        (["stock", 0, "kept"], "yes", "not-yes-or-no"),
        (["pieces"], [], "pieces-missing"),
        (["pieces", 0, "width"], "3/0", "not-a-size"),
        (["pieces", 0, "width"], "1/3", "finer-than-grid"),
        (["pieces", 0, "width"], -4, "size-not-positive"),
        (["pieces", 0, "width"], 100, "piece-larger-than-stock"),
        (["pieces", 1, "width"], 97, "piece-larger-than-stock"),
        (["pieces", 0, "width"], "64", "piece-fits-only-turned"),
        (["pieces", 0, "quantity"], 0, "quantity-not-positive"),
        (["pieces", 0, "quantity"], True, "not-a-count"),
        (["pieces", 0, "quantity"], 10**7, "too-many-pieces"),
        (["pieces", 0, "name"], "", "not-a-name"),
        (["pieces", 0, "name"], 7, "not-a-name"),
    ],
)
def test_a_bad_list_is_refused(path: list[str | int], value: object, slug: str) -> None:
    request, problems = read_request(changed(path, value))
    assert request is None
    assert slug in {problem.slug for problem in problems}


def test_names_must_differ() -> None:
    document = json.loads(json.dumps(GOOD))
    document["pieces"].append(document["pieces"][0])
    document["stock"].append(document["stock"][0])
    _, problems = read_request(json.dumps(document))
    assert [(p.slug, p.piece) for p in problems] == [("name-twice", "maple ply")]
    document["stock"].pop()
    _, problems = read_request(json.dumps(document))
    assert [(p.slug, p.piece) for p in problems] == [("name-twice", "S1.left side")]


def test_some_priced_stock_is_not_enough() -> None:
    document = json.loads(json.dumps(GOOD))
    document["stock"].append({"name": "birch", "length": 60, "width": 60, "cost": "54.20"})
    _, problems = read_request(json.dumps(document))
    assert [(p.slug, p.piece) for p in problems] == [("price-missing", "maple ply")]


@pytest.mark.parametrize(
    "text", ["", "{", "[1, 2", "null", "[" * 100_000, '{"pieces": 1e999999999}']
)
def test_what_is_no_list_is_refused(text: str) -> None:
    request, problems = read_request(text)
    assert request is None
    assert problems


def test_a_written_list_reads_back() -> None:
    request, _ = read_request(json.dumps(GOOD))
    assert request is not None
    assert read_request(write_request(request)) == (request, [])


@given(st.recursive(st.none() | st.booleans() | st.integers() | st.text(), st.lists))
def test_any_json_gives_problems_and_no_exception(value: object) -> None:
    for key in GOOD:
        _, problems = read_request(json.dumps({**GOOD, key: value}))
        assert all(problem.message for problem in problems)
