"""What lines and values mean: the tree of faultless texts."""

import pytest
from hypothesis import given, settings

from casewright.lang.formatter import meaning
from casewright.lang.rows import plain
from casewright.lang.source import Span
from casewright.lang.tree import Binary, Conditional, Expression, Group, Line, Name, Not, Text
from tests.lang.texts import PAGES, lines, read, tree_of, written


def bracketed(node: Expression) -> str:
    """`node` with a bracket around every operation."""
    match node:
        case Binary():
            return f"[{bracketed(node.left)} {node.operator} {bracketed(node.right)}]"
        case Group():
            return f"({bracketed(node.inner)})"
        case Conditional():
            value, condition = bracketed(node.value), bracketed(node.condition)
            return f"[{value} if {condition} else {bracketed(node.otherwise)}]"
        case Not():
            return f"[not {bracketed(node.inner)}]"
        case _:
            return plain(node)


def only(text: str) -> Line:
    [line] = tree_of(text).lines
    return line


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("a if c else b .. d", "[[a if c else b] .. d]"),
        ("x or else y + 1 .. z", "[[x or else [y + 1]] .. z]"),
        ("a or else b or else c", "[[a or else b] or else c]"),
        ("a or   else b", "[a or else b]"),
        ("a if b else c or else d", "[[a if b else c] or else d]"),
        ("a if b else c if d else e", "[a if b else [c if d else e]]"),
        ("a or b and not c is d", "[a or [b and [not [c is d]]]]"),
        ("not a or b", "[[not a] or b]"),
        ("a is b or c", "[[a is b] or c]"),
        ("a + b * c - d / e", "[[a + [b * c]] - [d / e]]"),
        ("a - b - c", "[[a - b] - c]"),
        ("a < b + 1", "[a < [b + 1]]"),
        ("a >= 2 or b <= 3", "[[a >= 2] or [b <= 3]]"),
        ("a within b", "[a within b]"),
        ("(a .. b)", "([a .. b])"),
        ("a * (b + c)", "[a * ([b + c])]"),
        ("a-b", "[a - b]"),
        ("a..b", "[a .. b]"),
        ("7/b", "[7 / b]"),
        ("27 / 3", "[27 / 3]"),
        ("case.thick + 1/2", "[case.thick + 1/2]"),
        ("S2.drawer_2.opening", "S2.drawer_2.opening"),
        ("iffy or order", "[iffy or order]"),
    ],
)
def test_operators_bind(text: str, meant: str) -> None:
    [item] = only(f"x {text}").items
    assert bracketed(item) == meant
    value = only(f"let x = {text}").value
    assert value is not None
    assert bracketed(value) == meant


@pytest.mark.parametrize(
    ("text", "items", "value"),
    [
        ("option shelves count = 0", ["shelves", "count"], "0"),
        ("band left right bottom top", ["left", "right", "bottom", "top"], None),
        ("join X1 to b with c", ["X1", "to", "b", "with", "c"], None),
        (
            "up opening.bottom + 4 .. opening.top - 4  every 32mm",
            ["[[opening.bottom + 4] .. [opening.top - 4]]", "every", "32mm"],
            None,
        ),
        (
            "part left_side of ends if shown.left else case  across from left",
            ["left_side", "of", "[ends if shown.left else case]", "across", "from", "left"],
            None,
        ),
        ("lengths 10 12 14", ["10", "12", "14"], None),
        ("row between 0", ["between", "0"], None),
        ("corner west north 90.4deg", ["west", "north", "90.4deg"], None),
        ("drawer 2 shares", ["2", "shares"], None),
        ("thick 3/4  stock 49 by 97", ["3/4", "stock", "49", "by", "97"], None),
        ("date 2026-11-25", ["2026-11-25"], None),
        ("deep 5 not a", ["5", "[not a]"], None),
        ("let a = b if c else d", ["a"], "[b if c else d]"),
    ],
)
def test_items_stand_apart_by_blanks(text: str, items: list[str], value: str | None) -> None:
    line = only(text)
    assert [bracketed(item) for item in line.items] == items
    assert (None if line.value is None else bracketed(line.value)) == value


def test_tag_and_blocks() -> None:
    line = only("S2a: drawer_base 18 {\n  stack {\n    drawer share\n  }\n}")
    assert line.tag is not None
    assert (line.tag.text, line.head.text) == ("S2a", "drawer_base")
    [stack] = line.block
    [drawer] = stack.block
    assert (stack.head.text, drawer.head.text) == ("stack", "drawer")
    assert not drawer.blocked
    assert isinstance(line.origin, Span)
    assert line.origin.text.endswith("}")


@pytest.mark.parametrize("text", ["a {}", "a { }", "a {\n}", "a {\n\n  # nothing\n}"])
def test_an_empty_block_is_a_block(text: str) -> None:
    line = only(text)
    assert line.blocked
    assert line.block == ()


def test_braces_may_stand_with_the_first_and_the_last_line() -> None:
    assert meaning(tree_of("a { b\nc }").lines) == meaning(tree_of("a {\n  b\n  c\n}").lines)


def test_blocks_on_one_line() -> None:
    line = only("for each level { part mid of wood { across level } }")
    assert line.block[0].block[0].head.text == "across"


def test_a_line_goes_on_inside_parentheses_only() -> None:
    line = only("up (a\n  # why\n  + b) .. c")
    assert bracketed(line.items[0]) == "[([a + b]) .. c]"
    assert [finding.slug for finding in read("up a\n+ b")[1]] == ["line-without-word"]


def test_texts_hold_values() -> None:
    line = only('require floor.length >= 6 "only {floor.length - 3"} is left, # and no more"')
    comparison, text = line.items
    assert bracketed(comparison) == "[floor.length >= 6]"
    assert isinstance(text, Text)
    first, value, last = text.pieces
    assert first == "only "
    assert not isinstance(value, str)
    assert bracketed(value) == '[floor.length - 3"]'
    assert last == " is left, # and no more"
    assert tree_of('a "# no comment"  # one').comments[0].text == "# one"


@pytest.mark.parametrize(
    ("text", "raw", "blocked"),
    [
        ("job Tern Quay boathouse {\n}", "Tern Quay boathouse", True),
        ('job Tern "Quay (boathouse', 'Tern "Quay (boathouse', False),
        ("job Tern Quay  # first", "Tern Quay", False),
        ("use std edition 1", "std edition 1", False),
        ("use", None, False),
        ("note the # is text {here} too", "the # is text {here} too", False),
        ("note see {\n}", "see", True),
        ("accept casing-near-counter as agreed", "casing-near-counter as agreed", False),
    ],
)
def test_raw_lines(text: str, raw: str | None, blocked: bool) -> None:
    line = only(text)
    assert line.items == ()
    assert line.blocked is blocked
    assert (None if line.raw is None else line.raw.text) == raw


def test_a_raw_line_in_a_block_of_one_line_ends_at_the_brace() -> None:
    line = only("S1: drawer_base 18 { note keep # off the floor }  # yes")
    raw = line.block[0].raw
    assert raw is not None
    assert raw.text == "keep # off the floor"


def test_comments_stand_beside_the_tree() -> None:
    tree = tree_of("# one\na 5  # two  \n\nb {  # three\n}\n# four")
    assert [comment.text for comment in tree.comments] == ["# one", "# two", "# three", "# four"]
    for comment in tree.comments:
        assert isinstance(comment.origin, Span)
        assert comment.origin.text.startswith(comment.text)


def test_places_are_those_of_the_text() -> None:
    line = only("\n  S1:  base  5 1/2 + (a) = x  # c\n")
    origins = [line.tag, line.head, *line.items, line.value]
    assert [node.origin.text for node in origins if node and isinstance(node.origin, Span)] == [
        "S1",
        "base",
        "5 1/2 + (a)",
        "x",
    ]


@pytest.mark.parametrize("page", PAGES)
def test_sample_pages_have_no_fault(page: str) -> None:
    assert tree_of(PAGES[page]).lines


@given(lines().flatmap(lambda tree: written(tree).map(lambda text: (tree, text))))
@settings(max_examples=40, deadline=None)
def test_a_tree_written_out_is_read_back(case: tuple[tuple[Line, ...], str]) -> None:
    tree, text = case
    assert meaning(tree_of(text).lines) == meaning(tree)


def test_tabs_are_blanks() -> None:
    assert meaning(tree_of("a\t5\t1/2").lines) == meaning(tree_of("a 5 1/2").lines)


def test_a_name_is_its_words() -> None:
    [name] = only("x opening.cover.left").items
    assert isinstance(name, Name)
    assert name.words == ("opening", "cover", "left")
