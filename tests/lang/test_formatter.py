"""The canonical form: what it keeps, what it settles, and that it proves itself."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.lang.findings import Severity
from casewright.lang.formatter import canonical, doubt_of, format_text, meaning
from casewright.lang.source import Source
from casewright.lang.tree import Line
from casewright.lang.trivia import Heads
from tests.lang.texts import PAGES, RAW, VERBATIM, lines, mutants, read, tree_of, written

HEADS = Heads.of(RAW, VERBATIM)


def formatted(text: str) -> str:
    """The canonical form of a text that must have no fault."""
    new, findings = format_text(Source("page.case", text), RAW, VERBATIM)
    assert findings == ()
    return new


@pytest.mark.parametrize(
    ("text", "canon"),
    [
        ("", ""),
        ("\n\n", ""),
        ("a", "a\n"),
        ("  a   5", "a 5\n"),
        ("S1:a  5 1/2", "S1: a 5 1/2\n"),
        ("a\t5   1/2", "a 5 1/2\n"),
        ("a b  c 5  d", "a b  c 5  d\n"),
        ("a b      c", "a b  c\n"),
        ("a b+c*d..e", "a b + c * d .. e\n"),
        ("a b   +   c", "a b + c\n"),
        ("a ( b+c ) * d", "a (b + c) * d\n"),
        ("a b or   else c", "a b or else c\n"),
        ("a not  b   is c", "a not b is c\n"),
        ("a b=c", "a b = c\n"),
        ("let a=b if  c else d", "let a = b if c else d\n"),
        ('a "b  {c+d} e"', 'a "b  {c + d} e"\n'),
        ("a{}", "a { }\n"),
        ("a {\n}", "a { }\n"),
        ("a {b}", "a { b }\n"),
        ("a {b {c 5}}", "a { b { c 5 } }\n"),
        ("a { b\nc }", "a {\n  b\n  c\n}\n"),
        ("a {\n\n\nb\n\n\n\nc\n\n}", "a {\n  b\n\n  c\n}\n"),
        ("\n\na\n\n\n\nb\n\n", "a\n\nb\n"),
        ("job   Tern  Quay{\n}", "job Tern  Quay {\n}\n"),
        ("job {\n}", "job {\n}\n"),
        ("note  it's # said   ", "note it's # said\n"),
        ("a {note b # c}", "a { note b # c }\n"),
    ],
)
def test_spacing(text: str, canon: str) -> None:
    assert formatted(text) == canon


@pytest.mark.parametrize(
    ("text", "canon"),
    [
        ("# one\n\n\n#two\na", "# one\n\n#two\na\n"),
        ("a# one", "a  # one\n"),
        ("a {   # one\n  # two\n}  # three", "a {  # one\n  # two\n}  # three\n"),
        ("a {\nb\n\n    # two\n\n}\n # three", "a {\n  b\n\n  # two\n}\n# three\n"),
        ("a { # one\n}", "a {  # one\n}\n"),
        ("a (b # one\n+ c)  d # two", "a (b  # one\n    + c)  d  # two\n"),
        ("a ( # one\n# two\nb)", "a (  # one\n    # two\n    b)\n"),
        ("a    # one\nbcd  # two", "a    # one\nbcd  # two\n"),
        ("a      # one\nbcd\ne      # two", "a  # one\nbcd\ne  # two\n"),
        ("a    # one\n\nbcd  # two", "a  # one\n\nbcd  # two\n"),
    ],
)
def test_comments(text: str, canon: str) -> None:
    assert formatted(text) == canon


@pytest.mark.parametrize(
    "text",
    [
        "size  5mm\ninto  12mm\nup    a .. b  every 32mm\n",
        "number    2617\nrevision  1\nprecision 1/32\n",
        "option case    sheet\noption ends    sheet  = case\noption backing sheet  = thin_ply\n",
        "sheet ply   { thick 3/4 }\nband  white { thick 1mm }\n",
        "part bottom_rail of wood  across a .. b  up rail from bottom\n"
        "part top_rail    of wood  across a .. b  up rail to top\n",
        "across left         .. right\nup     bottom + toe .. top\n",
        "S1:  base 5\nS12: base 6\n",
    ],
)
def test_columns_stay(text: str) -> None:
    assert formatted(text) == text


@pytest.mark.parametrize(
    ("text", "canon"),
    [
        # The longest member moves its column, and the others follow.
        ("a    5\nbcd  6+7   x\ne    f    g", "a    5\nbcd  6 + 7  x\ne    f  g\n"),
        ("number      5\nrev         6", "number  5\nrev     6\n"),
        # An empty line, a comment's line or another depth ends a column.
        ("a    5\n\nbcd  6", "a 5\n\nbcd 6\n"),
        ("a    5\n# c\nbcd  6", "a 5\n# c\nbcd 6\n"),
        ("ab   {\n  c  5\n}", "ab {\n  c 5\n}\n"),
        # Tabs lead to their stops.
        ("number\t5\nprecision\t6\nrev\t\t7", "number 5\nprecision  6\nrev        7\n"),
        ("job A\tB  # c\ndepth 5  # d", "job A\tB  # c\ndepth 5  # d\n"),
        # Not under one another: no column.
        ("a    5\nbcd    6", "a 5\nbcd 6\n"),
    ],
)
def test_columns_move_together(text: str, canon: str) -> None:
    assert formatted(text) == canon


LONG = " + ".join(f"opening_number_{number}.height" for number in range(6))


def test_a_long_line_breaks_in_parentheses() -> None:
    first, last = LONG.split(" + opening_number_3")
    assert formatted(f"up ({LONG})  every 5") == (
        f"up ({first}\n    + opening_number_3{last})  every 5\n"
    )


def test_a_long_line_without_parentheses_stays() -> None:
    assert formatted(f"up {LONG}  every 5") == f"up {LONG}  every 5\n"


def test_a_broken_line_that_fits_is_joined() -> None:
    assert formatted("up (a\n  + b)") == "up (a + b)\n"


def test_no_line_begins_with_a_head_that_takes_it_raw() -> None:
    long = LONG.replace("opening_number_3.height + ", "opening_number_3.height - note + ")
    text = formatted(f"up ({long})")
    assert len(text.splitlines()) > 1
    assert not any(line.lstrip().startswith("note") for line in text.splitlines())


@pytest.mark.parametrize("page", PAGES)
def test_sample_pages(page: str) -> None:
    text = formatted(PAGES[page])
    assert meaning(tree_of(text).lines) == meaning(tree_of(PAGES[page]).lines)
    assert formatted(text) == text


def test_a_text_with_faults_passes_through_untouched() -> None:
    text = "a   5\nb  6 +\n"
    new, findings = format_text(Source("page.case", text), RAW, VERBATIM)
    assert new == text
    assert [finding.slug for finding in findings] == ["line-ends-early"]


class TestProof:
    TEXT = "a   5  # one\nb 6\n"

    def doubt(self, new: str) -> str:
        source = Source("page.case", self.TEXT)
        finding = doubt_of(source, tree_of(self.TEXT), new, HEADS)
        if finding is None:
            return ""
        assert (finding.slug, finding.severity) == ("format-unproved", Severity.ERROR)
        return finding.headline.removeprefix("this text was left as it is: ")

    def test_of_the_canonical_form(self) -> None:
        assert self.doubt("a 5  # one\nb 6\n") == ""

    def test_refuses_another_meaning(self) -> None:
        assert self.doubt("a 5  # one\nb 7\n") == "it would change what the text means"
        assert self.doubt("a 5  # one\nb 6 +\n") == "it would change what the text means"
        assert self.doubt("a 5  # one\n") == "it would change what the text means"

    def test_refuses_to_lose_a_comment(self) -> None:
        assert self.doubt("a 5\nb 6\n") == "it would lose a comment"

    def test_refuses_what_does_not_stay(self) -> None:
        assert self.doubt("a   5  # one\nb 6\n") == "it would change on a second run"

    def test_a_layout_that_loses_something_leaves_the_text_alone(
        self, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        monkeypatch.setattr(
            "casewright.lang.formatter.lay_out", lambda source, rows, unbroken: "a 5\n"
        )
        new, [finding] = format_text(Source("page.case", self.TEXT), RAW, VERBATIM)
        assert new == self.TEXT
        assert finding.slug == "format-unproved"


@given(lines().flatmap(written))
@settings(max_examples=60, deadline=None)
def test_any_text_without_faults_has_a_stable_form_of_the_same_meaning(text: str) -> None:
    new = formatted(text)
    assert formatted(new) == new
    assert meaning(tree_of(new).lines) == meaning(tree_of(text).lines)
    assert len(tree_of(new).comments) == len(tree_of(text).comments)


@st.composite
def spread(draw: st.DrawFn) -> str:
    """A sample page with its blanks, empty lines and comments changed."""
    text = draw(st.sampled_from(sorted(PAGES.values())))
    rows = text.split("\n")
    first = draw(st.integers(0, len(rows) - 1))
    rows = rows[first : first + draw(st.integers(1, 12))]
    for number, row in enumerate(rows):
        if "#" in row or '"' in row:
            continue
        words = row.split(" ")
        blanks = [" " * draw(st.sampled_from([1, 1, 1, 2, 3, 5])) for _ in words]
        rows[number] = "".join(word + blank for word, blank in zip(words, blanks, strict=True))
        rows[number] += draw(st.sampled_from(["", "", "# why", "\n", "\n# what\n"]))
    return "\n".join(rows)


@given(spread())
@settings(max_examples=60, deadline=None)
def test_the_writers_spacing_never_shakes_the_form(text: str) -> None:
    if read(text)[1]:
        return
    formatted(text)


@given(mutants())
@settings(max_examples=50, deadline=None)
def test_broken_texts_are_never_changed(text: str) -> None:
    new, findings = format_text(Source("page.case", text), RAW, VERBATIM)
    if any(finding.severity is Severity.ERROR for finding in findings):
        assert new == text
    assert "format-unproved" not in {finding.slug for finding in findings}


def test_meaning_leaves_out_places_only() -> None:
    assert meaning(tree_of("a   5").lines) == meaning(tree_of("a 5").lines)
    assert meaning(tree_of("a 5").lines) != meaning(tree_of("a 6").lines)
    assert isinstance(tree_of("a 5").lines[0], Line)
    assert canonical(Source("page.case", "a   5"), tree_of("a   5"), HEADS) == "a 5\n"
