"""Rows spaced: normal gaps, the writer's columns, and breaks inside ( ) past the line's length.

A column is kept where atoms of rows that follow one another, equally deep, stood one under another
and two blanks or more led up to one of them; a comment's column is kept over other rows, too.
"""

from collections.abc import Iterator
from itertools import groupby, pairwise

from attrs import define, field

from casewright.lang.rows import Atom, Row
from casewright.lang.source import Source, Span

LONGEST_ROW = 100
"""Characters on a line before it breaks, if it can."""

_INDENT = 2
_TAB = 8
_HANGING = 4
"""How much further in the rest of a broken line stands."""


def lay_out(source: Source, rows: list[Row], unbroken: frozenset[str]) -> str:
    """The text of `rows`. No line breaks before one of the words `unbroken`."""
    lines: list[str] = []
    for chunk in _chunks(rows):
        if chunk[0].apart:
            lines.append("")
        lines += _chunk_lines(source, chunk, unbroken)
    return "".join(f"{line}\n" for line in lines)


def _chunks(rows: list[Row]) -> Iterator[list[Row]]:
    """Rows that stand together without an empty line."""
    chunk: list[Row] = []
    for row in rows:
        if row.apart and chunk:
            yield chunk
            chunk = []
        chunk.append(row)
    if chunk:
        yield chunk


@define
class _Placed:
    """A row and the columns its atoms take, as far as they are known."""

    row: Row
    columns: list[int] = field(factory=list)

    @property
    def end(self) -> int:
        if not self.columns:
            return 0
        return self.columns[-1] + len(self.row.atoms[len(self.columns) - 1].text)


def _chunk_lines(source: Source, rows: list[Row], unbroken: frozenset[str]) -> list[str]:
    placed = [_Placed(row, [_INDENT * row.depth]) for row in rows]
    breaking = [_breaks(row) for row in rows]
    seen: dict[int, list[tuple[int, int]]] = {}
    """For each column of the source, the rows that have an atom there, and which."""
    for index, row in enumerate(rows):
        if breaking[index]:
            continue
        for number, at in enumerate(_source_columns(source, row.atoms)[1:], 1):
            seen.setdefault(at, []).append((index, number))
    for at in sorted(seen):
        _place_column(source, placed, seen[at])
    for each in placed:
        for number in range(len(each.columns), len(each.row.atoms)):
            each.columns.append(each.end + _own_gap(source, each.row, number))
    texts = [
        _broken(source, each.row, unbroken) if breaks else [_text(each)]
        for each, breaks in zip(placed, breaking, strict=True)
    ]
    _add_comments(source, rows, texts)
    return [line for text in texts for line in text]


def _breaks(row: Row) -> bool:
    """Whether `row` takes more than a line: too long as tight as can be, or a comment inside."""
    if any(atom.comment for atom in row.atoms[1:]):
        return True
    tight = _INDENT * row.depth + sum(len(atom.text) + (not atom.glued) for atom in row.atoms) - 1
    return tight > LONGEST_ROW and any(atom.breaks for atom in row.atoms)


def _source_columns(source: Source, atoms: list[Atom]) -> list[int]:
    """Where `atoms` stood, up to the first line end in them, tabs taken to their stops."""
    first = atoms[0]
    start = source.line_starts[source.line_of(first.start) - 1]
    columns = [len(source.text[start : first.start].expandtabs(_TAB))]
    for before, atom in pairwise(atoms):
        gap = source.text[before.end : atom.start]
        if "\n" in gap:
            break
        at = columns[-1] + before.end - before.start
        while "\t" in gap:
            blanks, _, gap = gap.partition("\t")
            at = (at + len(blanks)) // _TAB * _TAB + _TAB
        columns.append(at + len(gap))
    return columns


def _gap(source: Source, row: Row, number: int) -> int:
    """Blanks the writer left before atom `number`, at least as many as must be."""
    before, atom = row.atoms[number - 1], row.atoms[number]
    if atom.glued:
        return 0
    gap = source.text[before.end : atom.start]
    if "\n" in gap:
        return 1
    return max(1, len(gap), 2 * gap.count("\t"))


def _own_gap(source: Source, row: Row, number: int) -> int:
    """The gap before an atom that shares its column with no other."""
    atom = row.atoms[number]
    if atom.glued or atom.inside:
        return 0 if atom.glued else 1
    return atom.wide if _gap(source, row, number) > 1 else 1


def _place_column(source: Source, placed: list[_Placed], members: list[tuple[int, int]]) -> None:
    """Places the atoms that stood in one column of the source."""
    for run in _runs(placed, members):
        gaps = [_gap(source, placed[index].row, number) for index, number in run]
        if len(run) > 1 and max(gaps) > 1:
            at = max(placed[index].end for index, _ in run) + min(2, *gaps)
            for index, _ in run:
                placed[index].columns.append(at)
        else:
            for index, number in run:
                each = placed[index]
                each.columns.append(each.end + _own_gap(source, each.row, number))


def _runs(placed: list[_Placed], members: list[tuple[int, int]]) -> Iterator[list[tuple[int, int]]]:
    """`members` that may share a column: in rows one after another, equally deep, not in ( )."""
    run: list[tuple[int, int]] = []
    depth = -1
    for index, number in members:
        row = placed[index].row
        atom = row.atoms[number]
        fixed = atom.glued or atom.inside
        if run and (fixed or row.depth != depth or index != run[-1][0] + 1):
            yield run
            run = []
        run.append((index, number))
        depth = -1 if fixed else row.depth
    yield run


def _text(placed: _Placed) -> str:
    pieces: list[str] = []
    end = 0
    for atom, at in zip(placed.row.atoms, placed.columns, strict=True):
        pieces += (" " * (at - end), atom.text)
        end = at + len(atom.text)
    return "".join(pieces)


def _broken(source: Source, row: Row, unbroken: frozenset[str]) -> list[str]:
    """A row as several lines, each as full as it gets."""
    start = _INDENT * row.depth
    hanging = start + _HANGING
    lines = [[" " * start, row.atoms[0].text]]
    end = start + len(row.atoms[0].text)
    for number, atom in enumerate(row.atoms[1:], 1):
        gap = 2 if atom.comment else _own_gap(source, row, number)
        if row.atoms[number - 1].comment or (
            atom.breaks
            and atom.text not in unbroken
            and end + gap + _length_unbroken(row, number) > LONGEST_ROW
        ):
            lines.append([" " * hanging, atom.text])
            end = hanging + len(atom.text)
        else:
            lines[-1] += (" " * gap, atom.text)
            end += gap + len(atom.text)
    return ["".join(line) for line in lines]


def _length_unbroken(row: Row, number: int) -> int:
    """Characters from atom `number` up to the next chance to break."""
    length = len(row.atoms[number].text)
    for index in range(number + 1, len(row.atoms)):
        atom = row.atoms[index]
        if atom.breaks or atom.comment:
            break
        length += len(atom.text) + (not atom.glued)
    return length


def _add_comments(source: Source, rows: list[Row], texts: list[list[str]]) -> None:
    """Puts each row's trailing comment after its last line."""
    found = [index for index, row in enumerate(rows) if row.trailing is not None]

    def at(index: int) -> int:
        comment = rows[index].trailing
        assert comment is not None
        assert isinstance(comment.origin, Span)
        atom = Atom(comment.text, comment.origin.start, comment.origin.end)
        atoms = [*rows[index].atoms, atom]
        columns = _source_columns(source, atoms)
        return columns[-1] if len(columns) == len(atoms) else comment.origin.column - 1

    for _, together in groupby(found, at):
        run = list(together)
        end = max(len(texts[index][-1]) for index in run) + 2
        for index in run:
            comment = rows[index].trailing
            assert comment is not None
            texts[index][-1] = texts[index][-1].ljust(end) + comment.text
