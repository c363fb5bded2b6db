"""Bytes of files: what is read, what is refused, and in which words."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.lang.findings import Finding, Severity
from casewright.lang.reading import LONGEST_TEXT, read_source
from casewright.lang.source import Source


def read(data: bytes) -> tuple[Source, list[Finding]]:
    source, findings = read_source("kitchen.case", data)
    assert source is not None
    return source, list(findings)


def refused(data: bytes) -> Finding:
    source, [finding] = read_source("kitchen.case", data)
    assert source is None
    assert finding.severity is Severity.ERROR
    return finding


def test_plain_text() -> None:
    source, findings = read("job Señora {\n}\n".encode())
    assert (source.label, source.text, findings) == ("kitchen.case", "job Señora {\n}\n", [])


def test_nothing() -> None:
    source, findings = read(b"")
    assert (source.text, findings) == ("", [])


def test_the_longest_text_and_one_byte_more() -> None:
    assert read(b"#" * LONGEST_TEXT)[1] == []
    finding = refused(b"#" * (LONGEST_TEXT + 1))
    assert finding.slug == "text-too-long"
    assert "1024 KiB" in finding.headline


def test_not_utf8() -> None:
    finding = refused(b"a\nb caf\xe9 c\n")
    assert finding.slug == "not-utf-8"
    assert finding.headline == "this text isn't UTF-8: byte E9 stands on line 2"
    assert finding.span is not None
    assert (finding.span.line, finding.span.column) == (2, 6)


def test_not_utf8_after_other_line_ends() -> None:
    finding = refused(b"a\r\nb\rc \xff\r\n")
    assert finding.span is not None
    assert (finding.span.line, finding.span.column) == (3, 3)


@pytest.mark.parametrize("codec", ["utf-16-le", "utf-16-be"])
def test_utf16(codec: str) -> None:
    finding = refused("\ufeffjob a\n".encode(codec))
    assert finding.headline == "this text is in UTF-16, not UTF-8"


@pytest.mark.parametrize(
    ("data", "text", "slug", "headline"),
    [
        (
            b"\xef\xbb\xbfa\nb\n",
            "a\nb\n",
            "byte-order-mark",
            "the text begins with a byte order mark, which says nothing",
        ),
        (b"a\r\nb\r\n", "a\nb\n", "line-ends-differ", "2 lines end with a carriage return"),
        (b"a\rb", "a\nb", "line-ends-differ", "1 line ends with a carriage return"),
        (b"a\tb\n\tc\n", "a\tb\n\tc\n", "tabs-for-blanks", "2 tabs stand for blanks"),
    ],
)
def test_read_with_an_advice(data: bytes, text: str, slug: str, headline: str) -> None:
    source, [finding] = read(data)
    assert source.text == text
    assert (finding.slug, finding.severity) == (slug, Severity.ADVICE)
    assert finding.headline == headline
    assert finding.help


@pytest.mark.parametrize(
    "character", ["\x00", "\x1b", "\x0c", "\x7f", "\x85", "\u200b", "\u202e", "\u2028", "\ufeff"]
)
def test_characters_nobody_sees_are_blanks(character: str) -> None:
    source, [finding] = read(f"a 5\nb{character}6\n".encode())
    assert source.text == "a 5\nb 6\n"
    assert finding.slug == "unseen-character"
    assert f"U+{ord(character):04X}" in finding.headline
    assert finding.span is not None
    assert (finding.span.line, finding.span.column) == (2, 2)


def test_many_characters_nobody_sees_are_one_report() -> None:
    _, [finding] = read(b"a\x00\x00\n" * 30)
    assert finding.headline.startswith("60 characters that can't be seen")
    assert len(finding.labels) == 20


@given(st.binary(max_size=60))
def test_any_bytes_have_an_outcome(data: bytes) -> None:
    source, findings = read_source("kitchen.case", data)
    assert (source is None) == any(
        finding.slug in {"not-utf-8", "text-too-long"} for finding in findings
    )
    if source is not None:
        assert "\r" not in source.text
        assert "\x00" not in source.text
        for finding in findings:
            assert finding.span is not None
            assert finding.span.source is source
