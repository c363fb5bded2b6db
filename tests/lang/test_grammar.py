"""The grammar itself: small, without silent conflicts, and made once."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from hypothesis.extra.lark import from_lark

from casewright.lang.grammar import STARTS, build, grammar, grammar_text
from casewright.lang.source import Source
from casewright.lang.trivia import Heads, scan
from tests.lang.texts import PAGES, RAW, VERBATIM, read

HEADS = Heads.of(RAW, VERBATIM)


def test_no_conflict_is_settled_silently() -> None:
    build(HEADS, strict=True)


def test_a_conflict_would_be_found(monkeypatch: pytest.MonkeyPatch) -> None:
    ambiguous = grammar_text().replace(
        "?comparison: sum | sum COMPARE sum", "?comparison: sum | comparison COMPARE comparison"
    )
    assert ambiguous != grammar_text()
    monkeypatch.setattr("casewright.lang.grammar.grammar_text", lambda: ambiguous)
    with pytest.raises(Exception, match="conflict"):
        build(HEADS, strict=True)


def test_there_are_few_rules() -> None:
    assert len({rule.origin.name for rule in grammar(HEADS).rules}) <= 40


def test_the_grammar_is_built_once_for_the_same_heads() -> None:
    assert grammar(HEADS) is grammar(Heads.of(frozenset(RAW), frozenset(VERBATIM)))


@pytest.mark.parametrize("page", PAGES)
def test_the_pages_are_read_by_lark_alone(page: str) -> None:
    flat = scan(Source(page, PAGES[page]), HEADS).flat
    assert grammar(HEADS).parse(flat, start=STARTS[0]).children


_WORDS = st.from_regex(r"[a-z]{2,5}", fullmatch=True).filter(
    lambda word: word not in {"if", "or", "is", "and", "not", "else", *RAW}
)


@given(
    from_lark(
        build(Heads()),
        start="file",
        explicit={
            "HEAD": _WORDS,
            "NAME": _WORDS,
            "NUMBER": st.integers(0, 99).map(str),
            "DATE": st.just("2026-11-25"),
            "TAG": st.just("S1:"),
            "COMPARE": st.sampled_from(["<", "<=", " is ", " within "]),
            "OR_ELSE": st.just(" or else "),
            "OR": st.just(" or "),
            "AND": st.just(" and "),
            "NOT": st.just(" not "),
            "_IF": st.just(" if "),
            "_ELSE": st.just(" else "),
            "_NL": st.just("\n"),
            "TEXT_PART": _WORDS,
            "RAW_HEAD": st.just("use"),
            "VERBATIM_HEAD": st.just("note"),
            "INLINE_HEAD": st.just("use"),
            "INLINE_VERBATIM_HEAD": st.just("note"),
            "RAW_TEXT": _WORDS.map(lambda word: f" {word}"),
            "VERBATIM_TEXT": _WORDS.map(lambda word: f" {word}"),
            "INLINE_TEXT": _WORDS.map(lambda word: f" {word}"),
            "INLINE_VERBATIM_TEXT": _WORDS.map(lambda word: f" {word}"),
        },
    )
)
@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_what_the_grammar_makes_is_read_or_found_at_fault(text: str) -> None:
    tree, findings = read(text)
    assert tree.lines or findings or not text.strip()
