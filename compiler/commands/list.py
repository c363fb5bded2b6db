"""`list`: what the library holds, read from its own texts."""

from argparse import Namespace
from collections.abc import Iterable, Iterator

from attrs import frozen

from casewright.compiler.commands.terminal import Terminal
from casewright.compiler.commands.world import InstalledLibrary
from casewright.compiler.words.schema import SCHEMA
from casewright.compiler.world import Library
from casewright.lang.parser import parse
from casewright.lang.plain_text import cells, padded, visible, wrapped
from casewright.lang.reading import read_source
from casewright.lang.render_json import as_text
from casewright.lang.shape import Statement, shape
from casewright.lang.source import Source, Span
from casewright.lang.tree import Tree

HEADS = {
    "units": ("unit",),
    "appliances": ("appliance",),
    "constructions": ("construction",),
    "fillings": ("filling",),
    "materials": ("sheet", "lumber", "band"),
    "hardware": ("slide", "hinge", "fitting", "fixing", "fastener"),
    "shop": ("saw", "setting", "coat", "linear", "rates", "allowances"),
    "rules": ("rule_pack",),
    "options": ("option",),
}
"""The head words that declare each kind of thing; options stand inside what offers them."""

VERSION = 1


@frozen
class Entry:
    """One thing the library holds: its name, its head word, what its comment says, the words it
    is declared with, what holds it (options), where it is written, and its text."""

    name: str
    head: str
    doc: str
    words: str
    holder: str
    where: str
    text: str


def run(arguments: Namespace, terminal: Terminal) -> int:
    if arguments.kind == "findings":
        from casewright.compiler.catalogue import CATALOGUE

        entries = [
            Entry(slug, "finding", rule.doc, "", "", "", "") for slug, rule in CATALOGUE.items()
        ]
    elif arguments.kind == "words":
        entries = [
            Entry(rule.name, "word", rule.doc, "", "", "", "")
            for rule in SCHEMA.heads.values()
            if rule.name != SCHEMA.file
        ]
    else:
        entries = list(held(InstalledLibrary(), HEADS[arguments.kind]))
    entries.sort(key=lambda entry: (entry.name, entry.holder))
    if arguments.form == "json":
        terminal.report(as_json(arguments.kind, entries))
    elif arguments.form == "concise":
        terminal.report("".join(f"{name}\n" for name in dict.fromkeys(e.name for e in entries)))
    else:
        terminal.report(as_columns(entries, terminal.width))
    return 0


def held(library: Library, heads: Iterable[str]) -> Iterator[Entry]:
    """Everything of `heads` in the library, in the order of its texts."""
    for path in library.texts():
        tree, statements = shaped(library, path)
        yield from _declared(statements, frozenset(heads), _comments(tree), "")


def shaped(library: Library, path: str) -> tuple[Tree, tuple[Statement, ...]]:
    """A text of the library, and its statements."""
    source, _ = read_source(f"std {path.removesuffix('.case')}", library.read(path))
    return (Tree((), ()), ()) if source is None else statements_of(source)


def statements_of(source: Source) -> tuple[Tree, tuple[Statement, ...]]:
    """The tree of a text, and its statements."""
    tree, _ = parse(source, SCHEMA.raw_heads, SCHEMA.verbatim_heads)
    statements, _ = shape(tree, SCHEMA)
    return tree, statements


def _declared(
    statements: Iterable[Statement],
    heads: frozenset[str],
    comments: dict[int, str],
    holder: str,
) -> Iterator[Entry]:
    for each in statements:
        if each.rule in heads and isinstance(each.origin, Span):
            line = each.origin.source.line_text(each.origin.line).partition("#")[0]
            words = line.strip().removesuffix("{").split()
            yield Entry(
                each.name,
                each.head.text,
                _doc(each.origin.source, each.origin.line, comments),
                " ".join(words[2:]),
                holder,
                each.origin.where,
                each.origin.text,
            )
        yield from _declared(each.body, heads, comments, each.name or holder)


def _comments(tree: Tree) -> dict[int, str]:
    """The comments of a text by line, without their sign."""
    return {
        comment.origin.line: comment.text.lstrip("#").strip()
        for comment in tree.comments
        if isinstance(comment.origin, Span)
    }


def _doc(source: Source, line: int, comments: dict[int, str]) -> str:
    """What the comment on a line says, or the whole lines of comment right above it."""
    if line in comments:
        return comments[line]
    told: list[str] = []
    above = line - 1
    while above in comments and source.line_text(above).lstrip().startswith("#"):
        told.insert(0, comments[above])
        above -= 1
    return " ".join(told)


def as_columns(entries: Iterable[Entry], width: int) -> str:
    """Names on the left, what they are on the right."""
    rows = [(visible(entry.name), visible(_about(entry))) for entry in entries]
    column = max((cells(name) for name, _ in rows), default=0) + 4
    lines = []
    for name, about in rows:
        first, *others = wrapped(about, max(24, width - 4 - column)) or [""]
        lines.append(f"    {padded(name, column)}{first}".rstrip())
        lines += [" " * (4 + column) + line for line in others]
    return "".join(f"{line}\n" for line in lines)


def _about(entry: Entry) -> str:
    declared = f"{entry.words}  of {entry.holder}" if entry.holder else entry.words
    return "   ".join(filter(None, (entry.doc, declared)))


def as_json(kind: str, entries: Iterable[Entry]) -> str:
    """The entries for other programs."""
    told = [
        {
            "name": entry.name,
            "head": entry.head,
            "doc": entry.doc,
            "words": entry.words,
            "holder": entry.holder,
            "where": entry.where,
        }
        for entry in entries
    ]
    return as_text({"version": VERSION, "kind": kind, "entries": told})
