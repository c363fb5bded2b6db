"""From a text to its tree.

Lark reads the whole text and one pass makes the nodes. A text that Lark can't read as a whole is
read line by line (recovery.py), so there always is a tree.
"""

from lark import UnexpectedInput

from casewright.lang.building import MOST_NESTED, Builder
from casewright.lang.faults import Faults
from casewright.lang.findings import Finding
from casewright.lang.grammar import grammar
from casewright.lang.recovery import recover
from casewright.lang.source import Source
from casewright.lang.tree import Tree
from casewright.lang.trivia import Heads, scan


def parse(
    source: Source,
    raw_heads: frozenset[str] = frozenset(),
    verbatim_heads: frozenset[str] = frozenset(),
) -> tuple[Tree, tuple[Finding, ...]]:
    """The tree of `source`, and what is wrong with the text. There always is a tree.

    A line that begins with one of `raw_heads` takes the rest as it stands, up to a final ` {`; if
    the head is among `verbatim_heads` too, `#` begins no comment there.
    """
    heads = Heads.of(raw_heads, verbatim_heads)
    scanned = scan(source, heads)
    if scanned.deepest > MOST_NESTED:
        return recover(source, heads)
    try:
        shape = grammar(heads).parse(scanned.flat, start="file")
    except UnexpectedInput:
        return recover(source, heads)
    faults = Faults(source)
    builder = Builder(source, faults)
    lines = tuple(builder.line(child) for child in shape.children)
    return Tree(lines, scanned.comments), tuple(faults.findings)
