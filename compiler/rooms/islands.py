"""Islands and peninsulas: what stands in the room for runs to stand on."""

from collections.abc import Mapping, Sequence

from attrs import evolve

from casewright.compiler.model import Island, Wall
from casewright.compiler.rooms.features import FeatureReader
from casewright.compiler.rooms.kitchen import Reader
from casewright.compiler.rooms.room import island_origin
from casewright.lang.cells import Quantity, literal
from casewright.lang.measure import Dimension
from casewright.lang.shape import Statement, bare_word, span_of, suggestion

SIDES = ("front", "left", "right", "back")
"""The sides of an island; a peninsula's back is at its wall."""


def sides_of(kind: str) -> Sequence[str]:
    """The sides of an island or a peninsula that something can be on."""
    return SIDES if kind == "island" else SIDES[:3]


def read_islands(
    reader: Reader,
    features: FeatureReader,
    statement: Statement,
    walls: Mapping[str, Wall],
    step: Quantity,
) -> Sequence[Island]:
    """The islands and peninsulas of a room whose walls are laid out."""
    found: dict[str, Island] = {}
    for line in statement.body:
        if line.rule not in ("island", "peninsula"):
            continue
        island = _island(reader, line, walls, step)
        if island is None:
            continue
        if line.name in found or line.name in walls:
            reader.complain(
                "declared-twice",
                f"{line.name} is there already",
                span_of(line.head.origin),
                "give one of the two another name",
            )
            continue
        sides = {
            side: island.width if side in ("front", "back") else island.depth
            for side in sides_of(island.kind)
        }
        found[line.name] = evolve(island, features=features.of_island(line, sides))
    return tuple(found.values())


def _island(
    reader: Reader, line: Statement, walls: Mapping[str, Wall], step: Quantity
) -> Island | None:
    name = line.name
    is_free = line.rule == "island"
    word = "from" if is_free else "on"
    clause = line.clause(word)
    wanted = [word, "at", "length", "depth", *(["out"] if is_free else [])]
    missing = [each for each in wanted if line.clause(each) is None]
    if missing:
        reader.complain(
            "value-missing",
            f"{line.rule} {name} doesn't say: {', '.join(missing)}",
            span_of(line.head.origin),
            f"say all of: {', '.join(wanted)}",
        )
        return None
    on = bare_word(clause.values[0]) if clause is not None and clause.values else ""
    if on not in walls:
        reader.complain(
            "unknown-wall",
            f"no wall is called {on}" if on else f"{line.rule} {name} wants a wall",
            span_of(clause.values[0].origin) if clause is not None and clause.values else None,
            suggestion(on, walls),
        )
        return None
    at = reader.measure(line.clause("at"), f"{name}.at")
    out = reader.measure(line.clause("out"), f"{name}.out") if is_free else None
    long = reader.positive_measure(line.clause("length"), f"{name}.length", "the length")
    deep = reader.positive_measure(line.clause("depth"), f"{name}.depth", "the depth")
    turn = reader.measure(line.clause("turn"), f"{name}.turn", Dimension.ANGLE)
    if at is None or long is None or deep is None or (is_free and out is None):
        return None
    out = out or literal(0, label="the wall")
    turn = turn or literal(0, Dimension.ANGLE, None, "not turned")
    width, depth = (long, deep) if is_free else (deep, long)
    origin, along = island_origin(walls[on], at, out, width, depth, turn.value, step)
    return Island(
        name,
        "island" if is_free else "peninsula",
        on,
        at,
        out,
        width,
        depth,
        turn,
        origin,
        along,
        span_of(line.origin),
    )
