"""What no page can hold, bytes and limits: a finding with its line, and no hang."""

import pytest

from casewright.compiler.text.load import LONGEST_CHAIN
from casewright.lang.building import MOST_NESTED
from casewright.lang.faults import MOST_FAULTS
from casewright.lang.numbers import MOST_DIGITS
from casewright.lang.reading import LONGEST_TEXT
from tests.compiler.examples import compiled

KITCHEN = b"use kitchen\nrun wall_one on north from left {\n  S1: cupboard share\n}\n"


def found(data: bytes, **more: bytes) -> list[tuple[str, str, str]]:
    """Slug, severity and line of everything found in a kitchen's bytes."""
    texts = {"page.case": data, **{f"{name}.case": text for name, text in more.items()}}
    return [
        (each.slug, each.severity.value, "" if each.span is None else each.span.where)
        for each in compiled(texts, "page.case").findings
    ]


def test_the_plain_text_has_no_finding() -> None:
    assert found(KITCHEN) == []


@pytest.mark.parametrize(
    ("data", "expected"),
    [
        (b"\xef\xbb\xbf" + KITCHEN, ("byte-order-mark", "advice", "page.case:1")),
        (KITCHEN.replace(b"\n", b"\r\n"), ("line-ends-differ", "advice", "page.case:1")),
        (KITCHEN.replace(b"\n", b"\r"), ("line-ends-differ", "advice", "page.case:1")),
        (KITCHEN.replace(b"  S1", b"\tS1"), ("tabs-for-blanks", "advice", "page.case:3")),
        (KITCHEN.replace(b"share", b"share\0"), ("unseen-character", "error", "page.case:3")),
        (
            KITCHEN.replace(b"wall_one", "wall_one\u202e".encode()),
            ("unseen-character", "error", "page.case:2"),
        ),
    ],
)
def test_bytes_that_are_read_all_the_same(data: bytes, expected: tuple[str, str, str]) -> None:
    assert found(data) == [expected]


@pytest.mark.parametrize(
    ("data", "expected"),
    [
        (KITCHEN + b"# caf\xe9\n", ("not-utf-8", "error", "page.case:5")),
        (KITCHEN.decode().encode("utf-16"), ("not-utf-8", "error", "page.case:1")),
        (b"#" * (LONGEST_TEXT + 1), ("text-too-long", "error", "page.case:1")),
    ],
)
def test_bytes_that_are_not_read(data: bytes, expected: tuple[str, str, str]) -> None:
    built = compiled({"page.case": data}, "page.case")
    assert found(data) == [expected]
    assert not built.tree_read
    assert built.job is None


def test_a_text_at_the_limit_is_read() -> None:
    assert found(KITCHEN + b"#" * (LONGEST_TEXT - len(KITCHEN))) == []


def test_a_text_that_cannot_be_read_breaks_the_kitchen_that_uses_it() -> None:
    assert found(b"use other\n" + KITCHEN, other=b"\xff") == [
        ("not-utf-8", "error", "other.case:1")
    ]
    built = compiled({"page.case": b"use other\n" + KITCHEN, "other.case": b"\xff"}, "page.case")
    assert built.tree_read
    assert built.job is None


@pytest.mark.parametrize(("open_", "close"), [("(", ")"), ("(not ", ")")])
def test_values_in_one_another(open_: str, close: str) -> None:
    deep = 3 * MOST_NESTED
    for depth in (deep, 40 * deep):
        text = f"option a length = {open_ * depth}5{close * depth}\n"
        assert {slug for slug, _, _ in found(text.encode())} >= {"nested-too-deep"}


def test_blocks_in_one_another() -> None:
    for depth in (3 * MOST_NESTED, 5_000):
        slugs = {slug for slug, _, _ in found(b"when a {\n" * depth + b"}\n" * depth)}
        assert "nested-too-deep" in slugs


def test_a_long_sum() -> None:
    text = "use kitchen\nrun wall_one on north from left {\n  S1: cupboard (" + "1 + " * 5_000
    assert found(f"{text}1)\n}}\n".encode())


def test_a_number_with_too_many_digits() -> None:
    text = KITCHEN.replace(b"share", b"9" * (MOST_DIGITS + 1))
    assert found(text) == [("number-too-long", "error", "page.case:3")]
    text = KITCHEN.replace(b"share", b"9" * MOST_DIGITS)
    assert "run-too-long" in {slug for slug, _, _ in found(text)}


def test_lines_nobody_can_read() -> None:
    slugs = [slug for slug, _, _ in found(b"S1 ? ?\n" * 10 * MOST_FAULTS)]
    assert slugs[-1] == "too-many-faults"
    assert len(slugs) <= MOST_FAULTS + 2


def test_texts_that_use_one_another_in_a_long_chain() -> None:
    texts = {f"t{n}": f"use t{n + 1}\n".encode() for n in range(2 * LONGEST_CHAIN)}
    assert found(b"use t0\n", **texts) == [
        ("too-many-uses", "error", f"t{LONGEST_CHAIN - 2}.case:1")
    ]


def test_a_text_that_is_used_twice_is_read_once() -> None:
    assert found(b"use one\nuse two\n", one=b"use three\n", two=b"use three\n", three=b"") == []


def test_markup_in_names_is_only_words() -> None:
    text = KITCHEN.replace(b"use kitchen", b'use library\nuse room\njob <b>&"x {\n  built shop\n}')
    built = compiled({"page.case": text}, "page.case")
    assert built.findings == ()
    assert built.job is not None
    assert built.job.name == '<b>&"x'
