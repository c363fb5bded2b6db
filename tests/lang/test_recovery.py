"""Texts with faults: a finding for every bad line, in plain words, and always a tree."""

from collections import Counter

import pytest
from hypothesis import given, settings

from casewright.lang.building import MOST_NESTED
from casewright.lang.faults import MOST_FAULTS
from casewright.lang.findings import Finding
from casewright.lang.formatter import meaning
from casewright.lang.parser import parse
from casewright.lang.recovery import recover
from casewright.lang.source import Source, Span
from casewright.lang.tree import Line
from casewright.lang.trivia import Heads
from tests.lang.texts import PAGES, RAW, VERBATIM, mutants, read, slugs, tree_of

FAULTS: list[tuple[str, str, str, str]] = [
    # text, slug, words at fault, headline
    (
        "part x across ) from left",
        "parenthesis-closes-nothing",
        ")",
        "this ) closes nothing",
    ),
    (
        "across (a + b",
        "parenthesis-left-open",
        "(",
        "a ) is missing for this (",
    ),
    ("up 3 +", "line-ends-early", "+", "something is missing after `+`"),
    ("let x =", "line-ends-early", "=", "something is missing after `=`"),
    ("S1:", "line-ends-early", ":", "something is missing after `:`"),
    ("up .. 3", "line-unreadable", "..", "this line can't be read after `up`"),
    ("up 3 + * 4", "line-unreadable", "*", "this line can't be read after `+`"),
    ("when a is not b", "line-unreadable", "is not", "`is not` isn't a comparison"),
    ("when a < b < c", "line-unreadable", "<", "this line can't be read after `b`"),
    ("let a = b = c", "line-unreadable", "=", "this line can't be read after `b`"),
    ("let a = 3 4", "more-than-one-value", "4", "after = stands one value and nothing more"),
    ("ends a if b", "if-without-else", "if", "this `if` has no `else`"),
    ("ends a if b  up 3", "if-without-else", "if", "this `if` has no `else`"),
    ("ends (a if b) up", "if-without-else", "if", "this `if` has no `else`"),
    ("27 x", "line-without-word", "27", "a line begins with a word, not with 27"),
    ('"a" x', "line-without-word", '"', 'a line begins with a word, not with "'),
    ("+ b", "line-without-word", "+", "a line can't begin with `+`"),
    ("or else b", "line-without-word", "or", "a line can't begin with `or`"),
    ("Drawer 4", "name-misspelt", "Drawer", "names are written small: drawer, not Drawer"),
    ("a of Ply", "name-misspelt", "Ply", "names are written small: ply, not Ply"),
    ("s1: base", "tag-misspelt", "s1", "s1 is no tag"),
    ("Sink: base", "tag-misspelt", "Sink", "Sink is no tag"),
    ("S1: note x", "tag-misplaced", "S1:", "a tag can't stand before `note`"),
    ("a 5, 6", "character-misplaced", ",", "values stand apart by blanks, without commas"),
    ("a; b", "character-misplaced", ";", "; is no part of the language"),
    ("a 5 − 3", "character-misplaced", "−", "− is no part of the language"),
    (
        "a 5\u00a0mm",
        "character-misplaced",
        "\u00a0",
        "the character U+00A0 is no part of the language",
    ),
    ("when a == b", "character-misplaced", "==", "== is no part of the language"),
    ("when a && b", "character-misplaced", "&&", "&& is no part of the language"),
    ("naïve 5", "character-misplaced", "ï", "ï can't stand here"),
    ("door_base -3", "negative-size", "-", "a size is never negative: a minus only takes away"),
    ("up a - 3 .. -4", "negative-size", "-", "a size is never negative: a minus only takes away"),
    ("up a -3", "negative-size", "-", "a size is never negative: a minus only takes away"),
    ("up (-3)", "negative-size", "-", "a size is never negative: a minus only takes away"),
    ("up +3", "signed-size", "+", "a size has no sign"),
    ("up a +3", "signed-size", "+", "a size has no sign"),
    (
        'require a "only {b',
        "quote-left-open",
        '"',
        "the quote that opens here isn't closed on its line",
    ),
    ('require a "b } c"', "text-holds-brace", "}", "a } in a text closes nothing"),
    (
        "======= x",
        "merge-marker-left",
        "======= x",
        "this line is left over from a merge",
    ),
    ("a { b } c", "brace-ends-its-line", "c", "after a } stands nothing more on its line"),
    ("}", "brace-closes-nothing", "}", "this } closes nothing"),
    ("a {", "brace-left-open", "{", "a } is missing for the { on line 2"),
]


def only(text: str) -> Finding:
    _, [finding] = read(text)
    return finding


@pytest.mark.parametrize(("text", "slug", "words", "headline"), FAULTS)
def test_a_fault_has_its_words(text: str, slug: str, words: str, headline: str) -> None:
    tree, [finding] = read(f"before 1\n{text}\n")
    assert finding.span is not None
    assert (finding.slug, finding.span.text, finding.headline) == (slug, words, headline)
    assert finding.span.line == 2
    assert tree.lines[0].head.text == "before"


@pytest.mark.parametrize(("text", "slug"), [(text, slug) for text, slug, _, _ in FAULTS])
def test_the_lines_around_a_fault_are_read(text: str, slug: str) -> None:
    tree, findings = read(f"run a {{\n  b 1\n  {text}\n  c 2\n}}\nd 3\n")
    assert [finding.slug for finding in findings] == [slug]
    heads = [line.head.text for line in tree.lines[0].block]
    assert heads[0] == "b"
    if slug not in {"brace-closes-nothing", "brace-left-open", "brace-opens-nothing"}:
        assert heads[-1] == "c"
        assert [line.head.text for line in tree.lines] == ["run", "d"]


def test_every_bad_line_has_one_finding() -> None:
    text = "".join(f"{fault}\n" for fault, slug, _, _ in FAULTS if not slug.startswith("brace"))
    _, findings = read(text)
    counted = Counter(finding.span.line for finding in findings if finding.span)
    assert counted == Counter(range(1, text.count("\n") + 1))


def test_a_broken_line_keeps_its_text_and_its_block() -> None:
    tree, [finding] = read("S1: base 18 + {\n  stack\n}\n")
    [line] = tree.lines
    assert line.broken
    assert line.tag is not None
    assert (line.tag.text, line.head.text) == ("S1", "base")
    assert line.raw is not None
    assert line.raw.text == "S1: base 18 +"
    assert [inner.head.text for inner in line.block] == ["stack"]
    assert line.blocked
    assert finding.slug == "line-ends-early"


def test_an_inch_mark_after_a_blank() -> None:
    assert only('size 27 "').help == "an inch mark stands right after its figure"


def test_mends_that_are_certain_are_edits() -> None:
    assert [edit.replacement for edit in only("a 5, 6").edits] == [" "]
    assert [edit.replacement for edit in only("a 5 − 3").edits] == ["-"]
    assert [edit.replacement for edit in only("Drawer 4").edits] == ["drawer"]
    [edit] = only("run a\n{\n  b\n}").edits
    assert (edit.span.text, edit.replacement) == ("\n", " ")


class TestBraces:
    def shape(self, text: str) -> str:
        def of(lines: tuple[Line, ...]) -> str:
            return " ".join(
                line.head.text + (f"({of(line.block)})" if line.blocked else "") for line in lines
            )

        return of(read(text)[0].lines)

    def test_missing_where_the_indentation_says(self) -> None:
        text = "run a {\n  b {\n    c\n  d {\n    e\n  }\n}\nf\n"
        assert self.shape(text) == "run(b(c) d(e)) f"
        finding = only(text)
        assert finding.headline == "a } is missing for the { on line 2"
        assert [label.span.text for label in finding.labels] == ["d"]

    def test_missing_before_a_brace_further_out(self) -> None:
        text = "run a {\n  b {\n    c\n}\nf\n"
        assert self.shape(text) == "run(b(c)) f"
        assert only(text).headline == "a } is missing for the { on line 2"

    def test_missing_at_the_end(self) -> None:
        text = "run a {\n  b\n"
        assert self.shape(text) == "run(b)"
        assert slugs(text) == ["brace-left-open"]

    def test_missing_without_indentation(self) -> None:
        text = "run a {\nb {\nc\n}\nd\n"
        assert self.shape(text) == "run(b(c) d)"
        assert only(text).headline == "a } is missing for the { on line 1"

    def test_too_many_where_the_indentation_says(self) -> None:
        text = "run a {\n  b\n  }\n  c\n}\nd\n"
        assert self.shape(text) == "run(b c) d"
        finding = only(text)
        assert finding.slug == "brace-closes-nothing"
        assert finding.span is not None
        assert finding.span.line == 3

    def test_too_many_at_the_end(self) -> None:
        text = "a {\n  b\n}\n}\nc\n"
        assert self.shape(text) == "a(b) c"
        assert slugs(text) == ["brace-closes-nothing"]

    def test_on_a_line_of_its_own(self) -> None:
        assert self.shape("a 5\n{\n  b\n}\nc") == "a(b) c"
        assert only("a 5\n{\n  b\n}\nc").headline.startswith("a { stands at the end of the line")

    def test_of_no_line(self) -> None:
        assert self.shape("{ a }\nb") == "a b"
        assert only("{ a }").headline == "this { belongs to no line"

    def test_in_an_open_quote_are_no_blocks(self) -> None:
        text = 'a {\n  require b "only {c} is left\n  d\n}\ne'
        assert self.shape(text) == "a(require d) e"
        assert slugs(text) == ["quote-left-open"]

    def test_of_a_line_with_an_open_quote(self) -> None:
        text = 'a {\n  when "b {\n    c\n  }\n  d\n}\ne'
        assert self.shape(text) == "a(when(c) d) e"
        assert slugs(text) == ["quote-left-open"]


class TestMerges:
    TEXT = (
        "run a {\n<<<<<<< HEAD\n  S1: base 18\n  S2: base 9\n=======\n  S1: base 24\n"
        ">>>>>>> other\n  S3: base 5\n}\n"
    )

    def test_both_versions_are_shown_and_the_first_is_read(self) -> None:
        tree, [finding] = read(self.TEXT)
        assert finding.slug == "merge-left-two-versions"
        assert finding.headline == (
            "a merge left two versions here: `S1: base 18` and 1 more, or `S1: base 24`"
        )
        assert [(label.span.line, label.text) for label in finding.labels] == [
            (3, "one version"),
            (4, "one version"),
            (6, "the other"),
        ]
        tags = [line.tag.text for line in tree.lines[0].block if line.tag]
        assert tags == ["S1", "S2", "S3"]

    def test_with_the_common_version_between(self) -> None:
        text = self.TEXT.replace("=======\n", "||||||| base\n  S1: base 5\n=======\n")
        tree, [finding] = read(text)
        assert finding.slug == "merge-left-two-versions"
        assert len(tree.lines[0].block) == 3

    def test_one_version_may_be_nothing(self) -> None:
        finding = only("<<<<<<< a\n=======\nb 5\n>>>>>>> c\n")
        assert finding.headline == "a merge left two versions here: nothing, or `b 5`"

    def test_a_block_that_only_one_version_opens(self) -> None:
        text = "<<<<<<< a\nb {\n=======\nb 5 {\n>>>>>>> c\n  d\n}\n"
        assert slugs(text) == ["merge-left-two-versions"]

    def test_markers_that_are_no_pair(self) -> None:
        assert slugs("<<<<<<< a\nb\n") == ["merge-marker-left"]
        assert slugs("a\n>>>>>>> a\nb\n") == ["merge-marker-left"]


class TestLimits:
    def test_blocks_nested_as_deep_as_they_may(self) -> None:
        tree = tree_of("a {\n" * MOST_NESTED + "b\n" + "}\n" * MOST_NESTED)
        assert tree.lines

    def test_blocks_nested_deeper(self) -> None:
        text = "a {\n" * 5000 + "b\n" + "}\n" * 5000 + "c\n"
        tree, [finding] = read(text)
        assert finding.slug == "nested-too-deep"
        assert [line.head.text for line in tree.lines] == ["a", "c"]

    @pytest.mark.parametrize(
        "value",
        ["(" * 5000 + "a" + ")" * 5000, "a" + " + a" * 5000, "not " * 5000 + "a"],
        ids=["groups", "sum", "not"],
    )
    def test_values_nested_deeper(self, value: str) -> None:
        tree, [finding] = read(f"up {value}\nb")
        assert finding.slug == "nested-too-deep"
        assert [line.broken for line in tree.lines] == [True, False]

    def test_values_nested_as_deep_as_they_may(self) -> None:
        assert tree_of("up a" + " + a" * MOST_NESTED)
        assert slugs("up a" + " + a" * (MOST_NESTED + 1)) == ["nested-too-deep"]

    @pytest.mark.parametrize("line", ["a +\n", "a {\n", "}\n", "{\n", "a ½\n"])
    def test_a_text_of_faults_is_left_alone_after_many(self, line: str) -> None:
        tree, findings = read("before 1\n" + line * (MOST_FAULTS * 3))
        assert len(findings) == MOST_FAULTS + 1
        assert [f.slug for f in findings].count("too-many-faults") == 1
        assert tree.lines[0].head.text == "before"

    @pytest.mark.parametrize(
        "text", ["27" + "x" * 500, "x " + "A" * 500, "S" * 500, "5½" + " " * 500]
    )
    def test_what_a_message_quotes_is_cut(self, text: str) -> None:
        finding = only(text)
        assert len(finding.headline) < 150
        assert len(finding.help) < 150


@pytest.mark.parametrize("page", PAGES)
def test_line_by_line_reads_the_same_tree(page: str) -> None:
    source = Source("page.case", PAGES[page])
    tree, findings = recover(source, Heads.of(RAW, VERBATIM))
    assert findings == ()
    assert meaning(tree) == meaning(parse(source, RAW, VERBATIM)[0])
    whole, _ = parse(source, RAW, VERBATIM)
    assert [line.origin.end for line in tree.lines if isinstance(line.origin, Span)] == [
        line.origin.end for line in whole.lines if isinstance(line.origin, Span)
    ]


@given(mutants())
@settings(max_examples=300, deadline=None)
def test_any_text_gives_a_tree_and_findings_in_order(text: str) -> None:
    source = Source("page.case", text)
    tree, findings = parse(source, RAW, VERBATIM)
    for finding in findings:
        assert finding.span is not None
        assert 0 <= finding.span.start <= finding.span.end <= len(text)
        assert "\n" not in finding.headline
    broken = [line for line in _all(tree.lines) if line.broken]
    assert not broken or findings
    for line in _all(tree.lines):
        assert isinstance(line.origin, Span)
        assert 0 <= line.origin.start <= line.origin.end <= len(text)


def _all(lines: tuple[Line, ...]) -> list[Line]:
    return [each for line in lines for each in (line, *_all(line.block))]
