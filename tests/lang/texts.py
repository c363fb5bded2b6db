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


def _group(inner: st.SearchStrategy[Expression]) -> st.SearchStrategy[Expression]:
    return st.builds(lambda node: Group(node, NOWHERE), inner)


def _chain(
    operators: tuple[str, ...], inner: st.SearchStrategy[Expression], most: int
) -> st.SearchStrategy[Expression]:
    """Up to `most` operators of one level, bound from the left."""

    def build(first: Expression, rest: list[tuple[str, Expression]]) -> Expression:
        node = first
        for operator, right in rest:
            node = Binary(operator, node, right, NOWHERE)
        return node

    return st.builds(
        build, inner, st.lists(st.tuples(st.sampled_from(operators), inner), max_size=most)
    )


def _level(inner: st.SearchStrategy[Expression]) -> st.SearchStrategy[Expression]:
    """Every form of expression around `inner`, each operator at its own level."""
    product = _chain(("*", "/"), inner, 2)
    comparison = _chain(("<", "<=", ">", ">=", "is", "within"), _chain(("+", "-"), product, 2), 1)
    negation = comparison | st.builds(lambda node: Not(node, NOWHERE), comparison)
    disjunction = _chain(("or",), _chain(("and",), negation, 2), 2)
    conditional = disjunction | st.builds(
        lambda value, condition, otherwise: Conditional(value, condition, otherwise, NOWHERE),
        disjunction,
        disjunction,
        disjunction,
    )
    return _chain(("..",), _chain(("or else",), conditional, 2), 1)


def _texts(inner: st.SearchStrategy[Expression]) -> st.SearchStrategy[Expression]:
    literal = st.from_regex(r"[a-z #=(]{0,5}", fullmatch=True)
    return st.builds(
        lambda first, rest: Text((first, *(p for pair in rest for p in pair)), NOWHERE),
        literal,
        st.lists(st.tuples(inner, literal), max_size=2),
    )


_leaves: st.SearchStrategy[Expression] = st.one_of(_numbers(), _names, _dates)
expressions: st.SearchStrategy[Expression] = st.deferred(
    lambda: _level(_leaves | _group(_level(_leaves)) | _texts(_leaves))
)


def _juxtaposable(items: list[Expression]) -> bool:
    """A whole number before a fraction would be one number."""
    texts = [plain(item) for item in items]
    return not any(left[-1].isdigit() and right[0].isdigit() for left, right in pairwise(texts))


def _line(block: st.SearchStrategy[tuple[Line, ...]]) -> st.SearchStrategy[Line]:
    usual = st.builds(
        lambda tag, head, items, value, lines, blocked: Line(
            None if tag is None else Word(tag, NOWHERE),
            Word(head, NOWHERE),
            tuple(items),
            value,
            None,
            lines if blocked else (),
            blocked,
            NOWHERE,
        ),
        st.none() | _TAGS,
        _WORDS,
        st.lists(expressions, max_size=3).filter(_juxtaposable),
        st.none() | expressions,
        block,
        st.booleans(),
    )
    raw = st.builds(
        lambda head, text: Line(
            None, Word(head, NOWHERE), (), None, Word(text, NOWHERE), (), False, NOWHERE
        ),
        st.sampled_from(sorted(RAW)),
        st.from_regex(r'[A-Za-z("/]{1,6}( [a-z{}"]{1,4}x){0,2}', fullmatch=True),
    )
    return usual | raw


lines: st.SearchStrategy[tuple[Line, ...]] = st.recursive(
    st.just(()), lambda inner: st.lists(_line(inner), max_size=3).map(tuple), max_leaves=6
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
