"""A sum that doesn't close, worked out in the other ways to build."""

from collections.abc import Iterator

from attrs import evolve, frozen

from casewright.compiler.blame import Blame, Row
from casewright.compiler.construct.unit import Wanted, sum_of
from casewright.compiler.text.resolve import Declaration, Program

SUMS = frozenset(("openings-dont-close", "nothing-left"))
"""Findings whose figures are the sum of a stack or a row."""


@frozen
class Otherwise:
    """The same sum in another construction: its rows, and whether it comes out there."""

    construction: str
    rows: tuple[Row, ...]

    @property
    def closes(self) -> bool:
        last = self.rows[-1]
        assert last.measure is not None, "the last row of a sum has its figure"
        return last.words == "closes" or (last.words == "left" and last.measure.value > 0)


def otherwise(program: Program, wanted: Wanted, blame: Blame) -> Iterator[Otherwise]:
    """The same sum in every other whole construction, where `blame` is of a sum. The unit keeps its
    own text, and the options that its construction sets."""
    if blame.finding.slug not in SUMS or not blame.finding.figures or blame.origin is None:
        return
    for other in _others(program, wanted.construction):
        rows = sum_of(program, evolve(wanted, construction=other), blame.origin)
        if rows:
            yield Otherwise(other.name, (Row(f"built {other.name}"), *rows))


def _others(program: Program, chosen: Declaration) -> Iterator[Declaration]:
    """The first whole construction of every line of parents but that of `chosen`."""
    own = _first_whole(program, chosen)
    seen = {own.name if own is not None else ""}
    for name in program.names("construction"):
        declaration = program.find("construction", name)
        other = _first_whole(program, declaration) if declaration is not None else None
        if other is None or other.name in seen:
            continue
        seen.add(other.name)
        said = {clause.word for clause in chosen.statement.options}
        kept = (each for each in other.statement.options if each.word not in said)
        options = (*kept, *chosen.statement.options)
        yield evolve(other, statement=evolve(other.statement, options=options))


def _first_whole(program: Program, declaration: Declaration) -> Declaration | None:
    """Of a construction and its parents, the farthest that says where openings are."""
    for name in reversed(declaration.chain):
        found = program.find("construction", name)
        if found is not None and any(line.rule == "openings" for line in found.statement.body):
            return found
    return None
