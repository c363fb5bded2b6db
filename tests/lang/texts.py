"""Texts to read, and random ones: sample pages, random trees with their texts, random faults."""

from fractions import Fraction
from itertools import pairwise
from pathlib import Path

from hypothesis import strategies as st

from casewright.lang.findings import Finding
from casewright.lang.grammar import RESERVED
from casewright.lang.parser import parse
from casewright.lang.rows import plain
from casewright.lang.source import Source, Span
from casewright.lang.tree import (
    Binary,
    Conditional,
    Date,
    Expression,
    Group,
    Line,
    Name,
    Not,
    Number,
    Text,
    Tree,
    Word,
)

RAW = frozenset({"job", "note", "use", "accept"})
VERBATIM = frozenset({"note"})

PAGES = {
    path.stem: path.read_text(encoding="utf-8")
    for path in sorted((Path(__file__).parent / "pages").glob("*.case"))
}

NOWHERE = Span(Source("nowhere", ""), 0, 0)


def read(text: str) -> tuple[Tree, tuple[Finding, ...]]:
    """The tree and findings of `text`."""
    return parse(Source("page.case", text), RAW, VERBATIM)


def tree_of(text: str) -> Tree:
    """The tree of a text that must have no fault."""
    tree, findings = read(text)
    assert findings == ()
    return tree


def slugs(text: str) -> list[str]:
    """The slugs of what is wrong with `text`, in order."""
    return [finding.slug for finding in read(text)[1]]


_WORDS = st.from_regex(r"[a-z][a-z0-9_]{0,6}", fullmatch=True).filter(
    lambda word: word not in {*RESERVED, *RAW}
)
_TAGS = st.from_regex(r"[A-Z][0-9]{1,2}[a-c]?", fullmatch=True)
_UNITS = {"": None, '"': "in", "mm": "mm", "deg": "deg", "lb": "lb", "kg": "kg", "%": "%"}


@st.composite
def _numbers(draw: st.DrawFn) -> Number:
    unit = draw(st.sampled_from(sorted(_UNITS)))
    whole = draw(st.integers(0, 999))
    above = draw(st.integers(0, 31))
    below = draw(st.integers(above + 1, 64))
    written, value = draw(
        st.sampled_from(
            [
                (str(whole), Fraction(whole)),
                (f"{above}/{below}", Fraction(above, below)),
                (f"{whole} {above}/{below}", whole + Fraction(above, below)),
                (f"{whole}.{above}", Fraction(f"{whole}.{above}")),
            ]
        )
    )
    return Number(value, _UNITS[unit], written + unit, NOWHERE)


_names = st.builds(
    lambda first, rest: Name((first, *rest), NOWHERE),
    _WORDS | _TAGS,
    st.lists(_WORDS, max_size=2),
)
_dates = st.dates().map(lambda day: Date(day.isoformat(), NOWHERE))


_leaves: st.SearchStrategy[Expression] = st.one_of(_numbers(), _names, _dates)
_LEVELS: tuple[tuple[tuple[str, ...], int], ...] = (
    (("..",), 1),
    (("or else",), 2),
    (("if",), 1),
    (("or",), 2),
    (("and",), 2),
    (("not",), 1),
    (("<", "<=", ">", ">=", "is", "within"), 1),
    (("+", "-"), 2),
    (("*", "/"), 2),
)
"""Operators from the loosest on, and how many of them a chain has at most."""


@st.composite
def expressions(draw: st.DrawFn, loosest: int = 0, depth: int = 1) -> Expression:
    """An expression whose operators are at level `loosest` or tighter; no bracket goes without.

    (A composite, since the repr of nested unions of strategies grows without end.)
    """
    if loosest == len(_LEVELS) or draw(st.booleans()):
        return draw(_operands(depth))
    level = draw(st.integers(loosest, len(_LEVELS) - 1))
    operators, most = _LEVELS[level]
    tighter = expressions(level + 1, depth)
    node = draw(tighter)
    if operators == ("not",):
        return Not(node, NOWHERE)
    if operators == ("if",):
        return Conditional(node, draw(tighter), draw(expressions(level, depth)), NOWHERE)
    for _ in range(draw(st.integers(1, most))):
        node = Binary(draw(st.sampled_from(operators)), node, draw(tighter), NOWHERE)
    return node


@st.composite
def _operands(draw: st.DrawFn, depth: int) -> Expression:
    form = draw(st.sampled_from(["leaf", "leaf", "leaf", "group", "text"] if depth else ["leaf"]))
    if form == "group":
        return Group(draw(expressions(0, depth - 1)), NOWHERE)
    if form == "text":
        literal = st.from_regex(r"[a-z #=(]{0,5}", fullmatch=True)
        pieces: list[str | Expression] = [draw(literal)]
        for _ in range(draw(st.integers(0, 2))):
            pieces += (draw(expressions(0, 0)), draw(literal))
        return Text(tuple(pieces), NOWHERE)
    return draw(_leaves)


def _juxtaposable(items: list[Expression]) -> bool:
    """A whole number before a fraction would be one number."""
    texts = [plain(item) for item in items]
    return not any(left[-1].isdigit() and right[0].isdigit() for left, right in pairwise(texts))


_RAW_TEXTS = st.from_regex(r'[A-Za-z("/]{1,6}( [a-z{}"]{1,4}x){0,2}', fullmatch=True)


@st.composite
def lines(draw: st.DrawFn, depth: int = 2) -> tuple[Line, ...]:
    """Lines with blocks down to `depth`."""
    return tuple(draw(_lines(depth)) for _ in range(draw(st.integers(0, 3))))


@st.composite
def _lines(draw: st.DrawFn, depth: int) -> Line:
    if draw(st.integers(0, 4)) == 4:
        head = Word(draw(st.sampled_from(sorted(RAW))), NOWHERE)
        return Line(None, head, (), None, Word(draw(_RAW_TEXTS), NOWHERE), (), False, NOWHERE)
    tag = draw(st.none() | _TAGS)
    blocked = depth > 0 and draw(st.booleans())
    return Line(
        None if tag is None else Word(tag, NOWHERE),
        Word(draw(_WORDS), NOWHERE),
        tuple(draw(st.lists(expressions(), max_size=3).filter(_juxtaposable))),
        draw(st.none() | expressions()),
        None,
        draw(lines(depth - 1)) if blocked else (),
        blocked,
        NOWHERE,
    )


@st.composite
def written(draw: st.DrawFn, node: tuple[Line, ...], depth: int = 0) -> str:
    """A text that says `node`, its blanks, empty lines, comments and blocks as they come."""
    blanks = st.sampled_from([" ", " ", "  ", "    ", "\t"])
    text = ""
    for line in node:
        text += draw(st.sampled_from(["", "", "\n", "  # a comment\n", "\n\n"]))
        text += "  " * depth
        text += "" if line.tag is None else f"{line.tag.text}:{draw(blanks)}"
        text += line.head.text
        for item in line.items:
            text += draw(blanks) + _spread(plain(item), draw)
        if line.value is not None:
            text += f"{draw(blanks)}={draw(blanks)}{_spread(plain(line.value), draw)}"
        if line.raw is not None:
            text += draw(blanks) + line.raw.text
        if line.blocked:
            if len(line.block) == 1 and _fits_one_line(line.block[0]) and draw(st.booleans()):
                inner = draw(written((line.block[0],), 0)).strip()
                text += (
                    f" {{ {inner} }}"
                    if "\n" not in inner and "#" not in inner
                    else (f" {{\n{inner}\n}}")
                )
            else:
                text += f" {{\n{draw(written(line.block, depth + 1))}{'  ' * depth}}}"
        if line.raw is None:
            text += draw(st.sampled_from(["", "", "  # one", "      # two"]))
        text += "\n"
    return text


def _fits_one_line(line: Line) -> bool:
    return line.raw is None


def _spread(text: str, draw: st.DrawFn) -> str:
    """`text` with line ends and comments after its parentheses, now and then."""
    if '"' in text or "(" not in text:
        return text
    return text.replace("(", draw(st.sampled_from(["(", "( ", "(\n", "( # why\n "])))


@st.composite
def mutants(draw: st.DrawFn) -> str:
    """A sample page with random faults."""
    text = draw(st.sampled_from(sorted(PAGES.values())))
    for _ in range(draw(st.integers(1, 6))):
        at = draw(st.integers(0, len(text)))
        length = draw(st.sampled_from([0, 0, 1, 1, 2, 7, 40]))
        put = draw(st.sampled_from(_FAULTS) | st.text(max_size=3))
        text = text[:at] + put + text[at + length :]
    return text


_FAULTS = (
    "", "{", "}", "(", ")", '"', "'", "\n", "#", "=", "-", " -", "..", ",", ";", "if ", " else ",
    "or else", "½", "″", "5 mm", "1/0", "S1:", "s1:", "\n<<<<<<< HEAD\n", "\n=======\n",
    "\n>>>>>>> other\n", "\t", "\x00", "9" * 60, "{ note # }", "note ( {", '"{', '}"', "not ",
)  # fmt: skip
