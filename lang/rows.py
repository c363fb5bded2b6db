"""A tree as rows of atoms: what stands on which line of the canonical form, before any spacing.

An atom is a stretch without blanks that matter; a row is one line. Atoms know where they stood, so
that the layout can keep the writer's columns.
"""

from collections.abc import Iterator

from attrs import define, field, frozen

from casewright.lang.source import Source, Span
from casewright.lang.tree import (
    Binary,
    Comment,
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
)


@frozen
class Atom:
    """Something written without a break.

    `start` and `end` are its offsets in the source. `wide` is the gap before it, in blanks, when
    the writer left two or more there and nothing else stands in that column: 2 between items, else
    1. `glued` atoms have no gap; those `inside` a parenthesis are in no column. A row may break
    where an atom `breaks`, and must after a `comment` in it.
    """

    text: str
    start: int
    end: int
    wide: int = 1
    glued: bool = False
    inside: bool = False
    breaks: bool = False
    comment: bool = False


@define
class Row:
    """One line of the canonical form, `depth` blocks in. `apart` puts an empty line before it."""

    depth: int
    atoms: list[Atom]
    apart: bool = False
    trailing: Comment | None = None

    @property
    def start(self) -> int:
        return self.atoms[0].start

    @property
    def end(self) -> int:
        return self.atoms[-1].end


def rows_of(source: Source, tree: Tree, flat: str, raw_heads: frozenset[str]) -> list[Row]:
    """The rows of `tree`; `flat` is the source's text without comments (trivia.py).

    A line of `raw_heads` has no block on its own line: its text would take it in.
    """
    maker = _Maker(source, tree, flat, raw_heads)
    maker.lines(tree.lines, 0)
    maker.comments_before(len(source.text) + 1, 0)
    return maker.rows


@define
class _Maker:
    source: Source
    tree: Tree
    flat: str
    raw_heads: frozenset[str]
    rows: list[Row] = field(factory=list)
    met: int = 0
    """How many comments have found their place."""

    def lines(self, lines: tuple[Line, ...], depth: int) -> None:
        for line in lines:
            assert isinstance(line.origin, Span)
            self.comments_before(line.origin.start, depth)
            atoms = self.header(line)
            brace = self.flat.find("{", atoms[-1].end) if line.blocked else -1
            end = line.origin.end
            one_line = "\n" not in self.flat[brace:end] or self._is_empty(line, brace)
            if not line.blocked or (one_line and line.head.text not in self.raw_heads):
                self.add(Row(depth, self.with_block(line)))
                continue
            self.add(Row(depth, [*atoms, Atom("{", brace, brace + 1)]))
            self.lines(line.block, depth + 1)
            self.comments_before(end - 1, depth + 1)
            self.add(Row(depth, [Atom("}", end - 1, end)]), apart=False)

    def _is_empty(self, line: Line, brace: int) -> bool:
        assert isinstance(line.origin, Span)
        return not line.block and "#" not in self.source.text[brace : line.origin.end]

    def add(self, row: Row, *, apart: bool = True) -> None:
        """Adds `row`, with the comments that stand in it and the one that ends its line."""
        row.apart = apart and self._apart(row.start)
        comments = self.tree.comments
        if self.met < len(comments) and _span(comments[self.met]).start < row.end:
            row.atoms = list(self._with_comments(row.atoms))
        if self.met < len(comments):
            comment = _span(comments[self.met])
            if not self.flat[row.end : comment.start].strip(" \t"):
                row.trailing = comments[self.met]
                self.met += 1
        self.rows.append(row)

    def _with_comments(self, atoms: list[Atom]) -> Iterator[Atom]:
        """`atoms`, and between them the comments that stood there."""
        comments = self.tree.comments
        for atom in atoms:
            while self.met < len(comments) and _span(comments[self.met]).start < atom.start:
                span = _span(comments[self.met])
                text = comments[self.met].text
                yield Atom(text, span.start, span.end, comment=True)
                self.met += 1
            yield atom

    def comments_before(self, offset: int, depth: int) -> None:
        """Comments with a line of their own before `offset`."""
        comments = self.tree.comments
        while self.met < len(comments) and _span(comments[self.met]).start < offset:
            span = _span(comments[self.met])
            atom = Atom(comments[self.met].text, span.start, span.end, comment=True)
            self.rows.append(Row(depth, [atom], self._apart(span.start)))
            self.met += 1

    def _apart(self, start: int) -> bool:
        """Whether an empty line parts what begins at `start` from the row before."""
        if not self.rows or self.rows[-1].atoms[-1].text == "{":
            return False
        before = self.rows[-1]
        end = before.end if before.trailing is None else _span(before.trailing).end
        return self.source.text.count("\n", end, start) > 1

    def with_block(self, line: Line) -> list[Atom]:
        """The atoms of a line with its block on the same line."""
        atoms = self.header(line)
        if line.blocked:
            assert isinstance(line.origin, Span)
            brace = self.flat.index("{", atoms[-1].end)
            atoms.append(Atom("{", brace, brace + 1))
            for inner in line.block:
                atoms += self.with_block(inner)
            atoms.append(Atom("}", line.origin.end - 1, line.origin.end))
        return atoms

    def header(self, line: Line) -> list[Atom]:
        atoms: list[Atom] = []
        if line.tag is not None:
            start = _span(line.tag).start
            end = self.flat.index(":", start) + 1
            atoms.append(Atom(f"{line.tag.text}:", start, end))
        head = _span(line.head)
        atoms.append(Atom(line.head.text, head.start, head.end))
        if line.raw is not None:
            raw = _span(line.raw)
            atoms.append(Atom(line.raw.text, raw.start, raw.end))
        for number, item in enumerate(line.items):
            self.expression(item, atoms, wide=2 if number else 1, glued=False, inside=False)
        if line.value is not None:
            atoms.append(self._word("=", atoms[-1].end, _span(line.value).start, inside=False))
            self.expression(line.value, atoms, wide=1, glued=False, inside=False)
        return atoms

    def _word(self, text: str, after: int, before: int, *, inside: bool) -> Atom:
        """The operator `text`, which is all that stands from `after` up to `before`."""
        stretch = self.flat[after:before]
        start = after + len(stretch) - len(stretch.lstrip())
        return Atom(text, start, after + len(stretch.rstrip()), inside=inside, breaks=inside)

    def expression(
        self, node: Expression, atoms: list[Atom], *, wide: int, glued: bool, inside: bool
    ) -> None:
        """Adds the atoms of `node`; `wide`, `glued` and `inside` are those of the first."""
        span = _span(node)
        if isinstance(node, Binary):
            self.expression(node.left, atoms, wide=wide, glued=glued, inside=inside)
            right = _span(node.right).start
            atoms.append(self._word(node.operator, atoms[-1].end, right, inside=inside))
            self.expression(node.right, atoms, wide=1, glued=False, inside=inside)
        elif isinstance(node, Conditional):
            self.expression(node.value, atoms, wide=wide, glued=glued, inside=inside)
            middle = _span(node.condition).start
            atoms.append(self._word("if", atoms[-1].end, middle, inside=inside))
            self.expression(node.condition, atoms, wide=1, glued=False, inside=inside)
            last = _span(node.otherwise).start
            atoms.append(self._word("else", atoms[-1].end, last, inside=inside))
            self.expression(node.otherwise, atoms, wide=1, glued=False, inside=inside)
        elif isinstance(node, Not):
            atoms.append(Atom("not", span.start, span.start + 3, wide, glued, inside))
            self.expression(node.inner, atoms, wide=1, glued=False, inside=inside)
        elif isinstance(node, Group):
            atoms.append(Atom("(", span.start, span.start + 1, wide, glued, inside))
            self.expression(node.inner, atoms, wide=1, glued=True, inside=True)
            atoms.append(Atom(")", span.end - 1, span.end, glued=True, inside=True))
        else:
            atoms.append(Atom(plain(node), span.start, span.end, wide, glued, inside))


def plain(node: Expression) -> str:
    """`node` on one line, normally spaced."""
    match node:
        case Number() | Date():
            return node.written
        case Name():
            return node.text
        case Text():
            pieces = (p if isinstance(p, str) else f"{{{plain(p)}}}" for p in node.pieces)
            return f'"{"".join(pieces)}"'
        case Group():
            return f"({plain(node.inner)})"
        case Not():
            return f"not {plain(node.inner)}"
        case Binary():
            return f"{plain(node.left)} {node.operator} {plain(node.right)}"
        case Conditional():
            return f"{plain(node.value)} if {plain(node.condition)} else {plain(node.otherwise)}"


def _span(node: object) -> Span:
    origin = getattr(node, "origin")  # noqa: B009 - every node has one; only spans are laid out
    assert isinstance(origin, Span)
    return origin
