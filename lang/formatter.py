"""The one canonical form of a text, proved before it is given back."""

from typing import Any

from casewright.lang.findings import Finding, Severity, error
from casewright.lang.layout import lay_out
from casewright.lang.parser import parse
from casewright.lang.rows import rows_of
from casewright.lang.source import Source, Span
from casewright.lang.tree import Tree
from casewright.lang.trivia import Heads, scan


def format_text(
    source: Source,
    raw_heads: frozenset[str] = frozenset(),
    verbatim_heads: frozenset[str] = frozenset(),
) -> tuple[str, tuple[Finding, ...]]:
    """The canonical form of `source`, and what is wrong with it.

    The form keeps comments, groups parted by an empty line, columns, and the writer's choice of one
    line or a block. A text with an error comes back as it is, with its findings.
    """
    tree, findings = parse(source, raw_heads, verbatim_heads)
    if any(finding.severity is Severity.ERROR for finding in findings):
        return source.text, findings
    heads = Heads.of(raw_heads, verbatim_heads)
    text = canonical(source, tree, heads)
    doubt = doubt_of(source, tree, text, heads)
    if doubt is not None:
        return source.text, (*findings, doubt)
    return text, findings


def canonical(source: Source, tree: Tree, heads: Heads) -> str:
    """The canonical form of the faultless text whose tree is `tree`, not yet proved."""
    rows = rows_of(source, tree, scan(source, heads).flat, heads.all)
    return lay_out(source, rows, heads.all)


def doubt_of(source: Source, tree: Tree, text: str, heads: Heads) -> Finding | None:
    """A finding unless `text` means what `source` means, keeps its comments and stays as it is."""
    again = Source(source.label, text)
    new_tree, findings = parse(again, heads.all, heads.verbatim)
    if findings or meaning(new_tree.lines) != meaning(tree.lines):
        return _doubt(source, "it would change what the text means")
    if [comment.text for comment in new_tree.comments] != [c.text for c in tree.comments]:
        return _doubt(source, "it would lose a comment")
    if canonical(again, new_tree, heads) != text:
        return _doubt(source, "it would change on a second run")
    return None


def _doubt(source: Source, why: str) -> Finding:
    return error(
        "format-unproved",
        f"this text was left as it is: {why}",
        Span(source, 0, 0),
        help="the fault is casewright's; please report it with this text",
    )


def meaning(node: Any) -> Any:
    """`node` without its places: equal for texts that differ in spacing and comments only."""
    if isinstance(node, tuple):
        return tuple(map(meaning, node))
    fields = getattr(node, "__attrs_attrs__", None)
    if fields is None:
        return node
    return (
        type(node).__name__,
        *(meaning(getattr(node, each.name)) for each in fields if each.name != "origin"),
    )
